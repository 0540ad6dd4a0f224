//! Whether the talk turns to another dish between two foods that are measured.
//!
//! A list is cut rightly where each gap between two measured foods is judged rightly, wherever in the gap the next dish is
//! named, and even where nobody names it. So all that is said in a gap counts at once: its likeliest name, its likeliest
//! beginning, its words, how long it is, and what was measured before it and is after it. The sums of the learned weights and
//! some plain counts go to small trees (`src/lexicon/weights/trees.txt`), whose leaves add up to the answer. When all gaps have
//! been judged once, they are judged again with what the first round said of their neighbours (`again.txt`).

use super::super::scan::Item;
use super::super::weights::{AGAIN, TREES, TURNS, VECTORS, Weights};
use super::company::LIKE;
use super::evidence::{Candidate, SITTING, View};
use super::part::component;
use super::title::same_dish;
use super::topic::{Measured, RECENT};
use crate::grammar::number;
use crate::item::Items;
use crate::lexicon::lexicon;
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
    /// How many dishes were opened so far.
    pub dishes: usize,
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
pub const FACTS: usize = 50 + LIKE;
/// How many facts its neighbours add.
pub const CONTEXT: usize = 17;
/// The sum of a gap that is not there, or was not judged.
pub const UNJUDGED: i32 = -2304;
/// The sum of a name or a beginning that is not there: below the plainest "no".
const NONE: i32 = -144;
/// A name whose sum is lower than this does not open the dish, even where one begins.
const UNLIKELY: i32 = -40;
/// What a part of the dish needs more than a dish, in the whole numbers of the trees.
const PART: i32 = 200;
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
            sums.named[k..=best].rotate_right(1);
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

    /// How often one of these names, or its last word, is said in a stretch, counted up to three.
    fn told_of(&self, names: &[&str], head: bool, within: Range<usize>) -> usize {
        let all = names.iter().map(|name| {
            let words: Vec<String> = name.split(' ').filter(|w| !w.is_empty()).map(fold).collect();
            let from = if head { words.len().saturating_sub(1) } else { 0 };
            self.said(&words[from..], within.start, within.end, 3)
        });
        all.max().unwrap_or(0)
    }

    fn is_part(&self, name: &Candidate) -> bool {
        lexicon().components.folded(Tokens(self.tokens.row(name.to - 1, name.to))).is_some()
    }

    fn is_planned(&self, name: &Candidate) -> bool {
        self.planned.iter().any(|p| same_dish(&p.0, &name.title))
    }

    /// The facts of a gap that the trees ask for.
    pub fn facts(&self, gap: &Gap, hand: InHand<'_>, sums: &Sums, vectors: &Weights) -> [i32; FACTS] {
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
        let next: Vec<&String> = foods(k..measured.len().min(k + 5)).take(6).collect();
        let again = |row: &[&String]| row.iter().filter(|f| had.contains(f)).count();
        let repeats = (0..had.len()).filter(|j| had[..*j].contains(&had[*j])).count();
        let use_of = |n: usize| self.clauses.item(n).main;
        let best = sums.named.first();
        let best_name = best.map(|b| &b.2.title);
        let sum = |k: usize| sums.named.get(k).map_or(NONE, |s| s.0);
        let may = |n: usize| self.may_start(n);
        let begun = |may: &dyn Fn(usize) -> bool| {
            let mine = sums.begun.iter().enumerate().filter(|b| may(gap.from + b.0));
            mine.map(|b| *b.1).max().unwrap_or(NONE)
        };
        // A list that is told again has its figures again.
        let after = self.measured.partition_point(|m| m.clause < gap.to);
        let since = self.measured.partition_point(|m| m.clause < hand.since).max(after.saturating_sub(RECENT));
        let all_before = &self.measured[after.saturating_sub(2 * RECENT)..after];
        let coming = &self.measured[after..self.measured.len().min(after + 6)];
        let same = |had: &[Measured]| {
            let told = |m: &&Measured| had.iter().any(|h| h.head == m.head && h.figure == m.figure && h.unit == m.unit);
            coming.iter().filter(told).count()
        };
        let same_figure = same(&self.measured[since.min(after)..after]);
        let again_before = same(all_before);
        let title = hand.titles.first().copied().unwrap_or("");
        let part = |n: usize| matches!(component(self.tokens, self.clauses.item(n), title), Some(Some(_)));
        // What the introduction promised, and what the rest of the talk comes back to.
        let done = |p: &str| hand.titles.iter().any(|t| same_dish(p, t));
        let left = self.planned.iter().filter(|p| !done(&p.0)).count().saturating_sub(hand.dishes.saturating_sub(1));
        let start = self.clauses.item(gap.from).piece.from;
        let end = self.clauses.item(gap.to).piece.to;
        let after_gap = end..self.tokens.len().min(end + SITTING);
        let name: Vec<&str> = best_name.iter().map(|n| n.as_str()).collect();
        let serves = |n: usize| {
            let c = self.clauses.item(n);
            self.found.row(c.found.0, c.found.1).iter().any(|f| matches!(f.item, Item::Yield(_)))
        };
        let to = self.clauses.item(gap.to);
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
            whole(again(&next)),
            whole(next.len()),
            whole(repeats),
            whole(k - opened),
            whole((measured.len() - k).min(60)),
            whole((measured[opened]..=lately).rev().take(300).filter(|n| use_of(*n) == Use::Action).count()),
            whole(lately - measured[opened]),
            best.map_or(-1, |b| i32::from(b.2.strength)),
            count(&|n| self.clauses.item(n).cues.story),
            whole(100 * again(&rest) / rest.len().max(1)),
            measured.get(k + 1).map_or(99, |m| whole(m - gap.to)),
            if k > 1 { whole(lately - measured[k - 2]) } else { 99 },
            whole(self.amounts[gap.to]),
            best.filter(|b| b.1 == gap.to).map_or(NONE, |b| b.0),
            i32::from(self.closes[lately]),
            i32::from(to.piece.opens),
            i32::from(to.piece.breaks),
            i32::from(may(gap.to)),
            whole(self.clauses.len() - gap.to),
            best.map_or(0, |b| whole(b.2.title.split(' ').count())),
            best.map_or(-1, |b| whole(gap.to - b.1)),
            whole(hand.dishes),
            sums.said,
            whole(same_figure),
            count(&part),
            i32::from(sums.named.first().is_some_and(|s| self.is_part(&s.2))),
            best.map_or(-1, |b| i32::from(self.is_planned(&b.2))),
            whole(again_before),
            whole(self.planned.len().min(9)),
            whole(left.min(9)),
            i32::from(self.planned.iter().any(|p| hand.titles.iter().any(|t| same_dish(&p.0, t)))),
            whole(self.told_of(hand.titles, false, after_gap.clone())),
            whole(self.told_of(hand.titles, true, after_gap.clone())),
            whole(self.told_of(&name, true, after_gap)),
            whole(self.told_of(&name, true, start.saturating_sub(SITTING)..start)),
            whole(100 * gap.to / self.clauses.len().max(1)),
            count(&serves),
        ];
        let mut all = [0; FACTS];
        all[..plain.len()].copy_from_slice(&plain);
        all[plain.len()..].copy_from_slice(&self.company(gap, hand, vectors));
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
        let once = |row: &[&String]| (0..row.len()).filter(|j| !row[..*j].contains(&row[*j])).count();
        let shared = (0..had.len()).filter(|j| !had[..*j].contains(&had[*j]) && gets.contains(&had[*j])).count();
        let end = measured.get(after).copied().unwrap_or(self.clauses.len()).min(gap.to + 300);
        let steps = self.clauses.row(gap.to, end.max(gap.to)).iter().filter(|c| c.main == Use::Action).count();
        [
            sum(Some(k)),
            sum(k.checked_sub(1)),
            sum(Some(k + 1)),
            sum(k.checked_sub(2)),
            sum(Some(k + 2)),
            best(k.saturating_sub(4)..k),
            best(k + 1..k + 5),
            whole(k - before),
            whole(after - k),
            whole(had.len()),
            whole(gets.len()),
            whole(shared),
            whole(100 * shared / once(&had).min(once(&gets)).max(1)),
            whole(had.len() - once(&had)),
            whole((k.saturating_sub(RECENT)..k).filter(near).count()),
            whole((k + 1..far).filter(near).count()),
            whole(steps),
        ]
    }

    /// Weighs what is said in a gap.
    pub fn weigh_gap(&self, gap: &Gap, hand: InHand<'_>, opened: &[(usize, &str)]) -> Judged {
        let sums =
            self.sums(gap, hand, &|n, c| self.weigh(n, c, opened), &|n| self.weigh_start(n, opened), &|sign, word| {
                TURNS.of(sign, word)
            });
        let facts = self.facts(gap, hand, &sums, &VECTORS);
        Judged {
            sum: TREES.sum(&facts),
            facts,
            sums,
            opened: opened.iter().map(|o| (o.0, o.1.to_string())).collect(),
            since: hand.since,
        }
    }

    /// Where in a gap another dish begins, if one does. `all` holds the sums of all gaps from a first round.
    pub fn turn(&self, gap: &Gap, hand: InHand<'_>, judged: &Judged, all: Option<&[i32]>) -> Option<Turn> {
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
        // A part of the dish ("the white sauce", "Topping.") needs more than a dish does, unless it was planned as one.
        let part = match &turn {
            Some((_, Some(name))) => self.is_part(name) && !self.is_planned(name),
            Some((n, None)) => {
                let title = hand.titles.first().copied().unwrap_or("");
                matches!(component(self.tokens, self.clauses.item(*n), title), Some(Some(_)))
            }
            None => false,
        };
        turn.filter(|_| sum > if part { PART } else { 0 })
    }
}
