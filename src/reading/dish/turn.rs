//! Whether the talk turns to another dish between two foods that are measured.
//!
//! A list is cut rightly where each gap between two measured foods is judged rightly, wherever in the gap the next dish is
//! named, and even where nobody names it. So all that is said in a gap counts at once: its likeliest name, its likeliest
//! beginning, its words, how long it is, and what was measured before it and is after it. The sums of the learned weights and
//! some plain counts go to small trees (`src/lexicon/weights/trees.txt`), whose leaves add up to the answer. When all gaps have
//! been judged once, they are judged again with what the first round said of their neighbours (`again.txt`).

use super::super::scan::Item;
use super::super::weights::{AGAIN, TREES, TURNS};
use super::company::LIKE;
use super::evidence::{Candidate, SITTING, View};
use super::part::component;
use super::title::same_dish;
use super::topic::{Measured, RECENT};
use crate::grammar::number;
use crate::item::Items;
use crate::recipe::Use;
use crate::token::{Kind, Tokens, fold};
use std::ops::Range;

/// The clauses from the one after a measured food to the one that measures the next.
#[derive(Clone, Debug)]
pub struct Gap {
    /// Its first clause.
    pub from: usize,
    /// Its last clause, which measures.
    pub to: usize,
    /// How many clauses measured before it.
    pub index: usize,
}

/// What is known of the dish in hand when a gap begins.
#[derive(Clone, Copy, Debug)]
pub struct InHand<'a> {
    /// The clause that opened it.
    pub since: usize,
    /// What it is called; none where it has no name of its own yet.
    pub titles: &'a [&'a str],
}

/// What the weights say of a gap.
#[derive(Clone, Debug, Default)]
pub struct Sums {
    /// The names said in it, the likeliest opening first: sum, clause, name.
    pub named: Vec<(i32, usize, Candidate)>,
    /// For each clause, the sum for a beginning without a name.
    pub begun: Vec<i32>,
    /// The sum of its words.
    pub said: i32,
}

/// A gap that was weighed, after these dishes: the clause and the name of each.
#[derive(Clone, Debug)]
pub struct Judged {
    /// What the trees of the first round say: above zero a dish begins.
    pub sum: i32,
    facts: [i32; FACTS],
    sums: Sums,
    opened: Vec<(usize, String)>,
    since: usize,
}

impl Judged {
    /// Whether the same dishes were opened before it, and the same one was in hand.
    pub fn after(&self, opened: &[(usize, &str)], since: usize) -> bool {
        self.since == since
            && self.opened.len() == opened.len()
            && self.opened.iter().zip(opened).all(|(a, b)| (a.0, a.1.as_str()) == *b)
    }
}

/// Where a dish begins, and the name that opens it.
pub type Turn = (usize, Option<Candidate>);

/// How many facts a gap has.
pub const FACTS: usize = 29 + LIKE;
/// How many facts its neighbours add.
pub const CONTEXT: usize = 9;
/// The sum of a gap that is not there, or was not judged.
pub const UNJUDGED: i32 = -2304;
/// The sum of a name or a beginning that is not there: below the plainest "no".
const NONE: i32 = -144;
/// A name whose sum is lower than this does not open the dish, even where one begins.
const UNLIKELY: i32 = -40;
/// A name whose sum is as high was announced plainly.
const PLAIN: i32 = 56;
/// A gap says no more than this to the sum of its words.
const WORDS: usize = 200;
/// What is said last leads up to the food: so many words.
const LATE: usize = 12;

impl View<'_> {
    /// The gap that begins at clause `n`, if the clause before it measures and a later one does.
    pub fn gap(&self, n: usize) -> Option<Gap> {
        let before = n.checked_sub(1)?;
        let index = self.measuring.partition_point(|m| *m < n);
        let to = *self.measuring.get(index)?;
        (self.amounts[before] > 0).then_some(Gap { from: n, to, index })
    }

    /// What the weights say of a gap: `named` weighs a name at a clause, `begun` a clause, `said` a word.
    pub fn sums(
        &self,
        gap: &Gap,
        hand: InHand<'_>,
        named: &dyn Fn(usize, &Candidate) -> i32,
        begun: &dyn Fn(usize) -> i32,
        said: &dyn Fn(&'static str, &str) -> i32,
    ) -> Sums {
        let mut sums = Sums::default();
        for n in gap.from..=gap.to {
            let mine = self.candidates(n).into_iter().filter(|c| !hand.titles.iter().any(|t| same_dish(t, &c.title)));
            sums.named.extend(mine.map(|c| (named(n, &c), n, c)));
            sums.begun.push(begun(n));
        }
        // The likeliest two come first, the earlier one where two are alike.
        for k in 0..sums.named.len().min(2) {
            let best = (k..sums.named.len()).min_by_key(|j| (-sums.named[*j].0, sums.named[*j].1)).unwrap_or(k);
            for j in (k..best).rev() {
                sums.named.swap(j, j + 1);
            }
        }
        self.words(gap, |sign, word| sums.said += said(sign, word));
        sums
    }

    /// The words of a gap, each once: which are said, which lead up to the food, how its clauses begin.
    pub fn words(&self, gap: &Gap, mut put: impl FnMut(&'static str, &str)) {
        let t = self.tokens;
        let word = |k: usize| match t.item(k).kind {
            Kind::Number(_) => "#",
            _ if number::number(Tokens(t.row(k, k + 1))).is_ok() => "#",
            _ => &*t.item(k).text,
        };
        let first = self.clauses.item(gap.from).piece.from;
        let end = self.clauses.item(gap.to).piece.to.max(first);
        let spoken = |range: Range<usize>| range.filter(|k| !matches!(t.item(*k).kind, Kind::Break(_)));
        let mut put_once = |sign: &'static str, mut words: Vec<&str>| {
            crate::order::sort(&mut words);
            words.dedup();
            words.into_iter().for_each(|w| put(sign, w));
        };
        put_once("word", spoken(first..end.min(first + WORDS)).map(word).collect());
        put_once("late", spoken(end.saturating_sub(LATE).max(first)..end).map(word).collect());
        let heads: Vec<usize> = self.clauses[gap.from..=gap.to].iter().take(WORDS).map(|c| c.piece.from).collect();
        put_once("first", heads.iter().map(|k| word(*k)).collect());
        let mut pairs: Vec<String> = self.clauses[gap.from..=gap.to]
            .iter()
            .take(WORDS)
            .filter(|c| c.piece.to > c.piece.from + 1)
            .map(|c| format!("{} {}", word(c.piece.from), word(c.piece.from + 1)))
            .collect();
        crate::order::sort(&mut pairs);
        pairs.dedup();
        pairs.iter().for_each(|p| put("first two", p));
    }

    /// How often the last word of a name is said in a stretch, counted up to three.
    fn told_of(&self, name: &str, within: Range<usize>) -> i32 {
        let word = name.rsplit(' ').next().map(fold);
        word.map_or(0, |w| self.said(&[w], within.start, within.end, 3) as i32)
    }

    /// The facts of a gap that the trees ask for.
    pub fn facts(&self, gap: &Gap, hand: InHand<'_>, sums: &Sums) -> [i32; FACTS] {
        let all = gap.from..=gap.to;
        let whole = |n: usize| i32::try_from(n.min(1000)).unwrap_or(1000);
        let count = |holds: &dyn Fn(usize) -> bool| whole(all.clone().filter(|n| holds(*n)).count());
        let measured = &self.measuring;
        let k = gap.index;
        let opened = measured.partition_point(|m| *m < hand.since).min(k - 1);
        let foods = |range: Range<usize>| measured[range].iter().flat_map(|n| &self.foods[*n]);
        // A list of any length is read in time by looking back at so many foods.
        let had: Vec<&String> = foods(opened.max(k.saturating_sub(RECENT))..k).collect();
        let rest: Vec<&String> = foods(k..measured.len().min(k + 24)).take(24).collect();
        let again = |row: &[&String]| row.iter().filter(|f| had.contains(f)).count();
        let use_of = |n: usize| self.clauses.item(n).main;
        let best = sums.named.first();
        let sum = |k: usize| sums.named.get(k).map_or(NONE, |s| s.0);
        let may = |n: usize| self.may_start(n);
        let begun = |may: &dyn Fn(usize) -> bool| {
            let mine = sums.begun.iter().enumerate().filter(|b| may(gap.from + b.0));
            mine.map(|b| *b.1).max().unwrap_or(NONE)
        };
        // A list that is told again has its figures again.
        let after = self.measured.partition_point(|m| m.clause < gap.to);
        let all_before = &self.measured[after.saturating_sub(2 * RECENT)..after];
        let coming = &self.measured[after..self.measured.len().min(after + 6)];
        let same = |m: &Measured, h: &Measured| h.head == m.head && h.figure == m.figure && h.unit == m.unit;
        let again_before = coming.iter().filter(|m| all_before.iter().any(|h| same(m, h))).count();
        let title = hand.titles.first().copied().unwrap_or("");
        let part = |n: usize| matches!(component(self.tokens, self.clauses.item(n), title), Some(Some(_)));
        let start = self.clauses.item(gap.from).piece.from;
        let serves = |n: usize| {
            let c = self.clauses.item(n);
            self.found.row(c.found.0, c.found.1).iter().any(|f| matches!(f.item, Item::Yield(_)))
        };
        let lately = measured[k - 1];
        let plain = [
            sum(0),
            sum(1),
            whole(sums.named.iter().filter(|s| s.0 > -32).count()),
            begun(&|_| true),
            begun(&may),
            whole(gap.to + 1 - gap.from),
            whole(all.clone().map(|n| self.clauses.item(n).piece.to - self.clauses.item(n).piece.from).sum()),
            count(&|n| use_of(n) == Use::Action),
            count(&|n| self.clauses.item(n).piece.breaks),
            count(&|n| self.clauses.item(n).piece.opens),
            count(&|n| self.closes[n]),
            whole(had.len()),
            whole(rest.len()),
            whole((measured.len() - k).min(60)),
            whole((measured[opened]..=lately).rev().take(300).filter(|n| use_of(*n) == Use::Action).count()),
            whole(lately - measured[opened]),
            best.map_or(-1, |b| i32::from(b.2.strength)),
            whole(100 * again(&rest) / rest.len().max(1)),
            measured.get(k + 1).map_or(99, |m| whole(m - gap.to)),
            if k > 1 { whole(lately - measured[k - 2]) } else { 99 },
            whole(self.amounts[gap.to]),
            whole(self.clauses.len() - gap.to),
            best.map_or(-1, |b| whole(gap.to - b.1)),
            sums.said,
            count(&part),
            whole(again_before),
            best.map_or(0, |b| self.told_of(&b.2.title, start.saturating_sub(SITTING)..start)),
            whole(100 * gap.to / self.clauses.len().max(1)),
            count(&serves),
        ];
        let mut all = [0; FACTS];
        all[..plain.len()].copy_from_slice(&plain);
        all[plain.len()..].copy_from_slice(&self.company(gap, hand, best.map(|b| &b.2), &had));
        all
    }

    /// What the sums of the gaps round about say of one, once all have been judged.
    pub fn context(&self, gap: &Gap, sums: &[i32]) -> [i32; CONTEXT] {
        let k = gap.index;
        let whole = |n: usize| i32::try_from(n.min(1000)).unwrap_or(1000);
        let sum = |j: Option<usize>| j.and_then(|j| sums.get(j)).copied().unwrap_or(UNJUDGED);
        let best = |range: Range<usize>| range.map(|j| sum(Some(j))).max().unwrap_or(UNJUDGED);
        let near = |j: &usize| sums.get(*j).is_some_and(|s| *s > 0);
        let before = (k.saturating_sub(RECENT)..k).rev().find(near).unwrap_or(k.saturating_sub(RECENT));
        let measured = &self.measuring;
        let far = measured.len().min(k + RECENT);
        let after = (k + 1..far).find(near).unwrap_or(far);
        let foods = |range: Range<usize>| -> Vec<&String> {
            measured[range].iter().flat_map(|n| &self.foods[*n]).take(RECENT).collect()
        };
        let (had, gets) = (foods(before..k), foods(k..after));
        let shared = (0..had.len()).filter(|j| !had[..*j].contains(&had[*j]) && gets.contains(&had[*j])).count();
        let end = measured.get(after).copied().unwrap_or(self.clauses.len()).min(gap.to + 300);
        let steps = self.clauses.row(gap.to, end.max(gap.to)).iter().filter(|c| c.main == Use::Action).count();
        [
            sum(Some(k)),
            sum(k.checked_sub(1)),
            sum(Some(k + 1)),
            best(k.saturating_sub(4)..k),
            best(k + 1..k + 5),
            whole(after - k),
            whole(gets.len()),
            whole(shared),
            whole(steps),
        ]
    }

    /// Weighs what is said in a gap.
    pub fn weigh_gap(&self, gap: &Gap, hand: InHand<'_>, opened: &[(usize, &str)]) -> Judged {
        let sums =
            self.sums(gap, hand, &|n, c| self.weigh(n, c, opened), &|n| self.weigh_start(n, opened), &|sign, word| {
                TURNS.of(sign, word)
            });
        let facts = self.facts(gap, hand, &sums);
        Judged {
            sum: TREES.sum(&facts),
            facts,
            sums,
            opened: opened.iter().map(|o| (o.0, o.1.to_string())).collect(),
            since: hand.since,
        }
    }

    /// Where in a gap another dish begins, if one does. `all` holds the sums of all gaps from a first round.
    pub fn turn(&self, gap: &Gap, judged: &Judged, all: Option<&[i32]>) -> Option<Turn> {
        let sums = &judged.sums;
        let sum = match all {
            None => judged.sum,
            Some(all) => {
                let mut both = judged.facts.to_vec();
                both.extend(self.context(gap, all));
                AGAIN.sum(&both)
            }
        };
        // "Dip number two is…", "next we're making…": what is counted out is a dish.
        if let Some((_, n, name)) = sums.named.iter().find(|s| s.2.strength >= 4) {
            return Some((*n, Some(name.clone())));
        }
        let turn = match sums.named.first().filter(|s| s.0 > UNLIKELY) {
            Some((_, n, name)) => Some((*n, Some(name.clone()))),
            None => {
                let best = (0..sums.begun.len()).max_by_key(|k| (sums.begun[*k], std::cmp::Reverse(*k)));
                best.map(|k| (gap.from + k, None))
            }
        };
        // What is announced plainly, and a first look agreed, opens a dish however short the one before was.
        let plain = judged.sum > 0 && sums.named.first().is_some_and(|s| s.0 >= PLAIN && s.2.strength >= 3);
        turn.filter(|_| sum > 0 || plain)
    }
}
