//! Whether the talk goes back to a dish that was begun before: "now see our dough", "back to the beans", "oh, my chops".
//!
//! Two dishes are often made side by side: one rests or simmers, and the talk is of the other. Between two measured foods each
//! dish begun earlier is weighed: its name, its foods and its words said again, what is measured next, how it was left. As in
//! `turn`, a sum of words (`src/lexicon/weights/returns.txt`) and plain counts go to small trees (`backs.txt`).

use super::super::scan::Item;
use super::super::weights::{BACKS, RETURNS};
use super::evidence::View;
use super::topic::RECENT;
use super::turn::Gap;
use crate::grammar::number;
use crate::lexicon::VerbClass;
use crate::recipe::Use;
use crate::token::{Kind, Tokens, fold};

/// How many facts a return has.
pub const FACTS: usize = 34;
/// A gap says no more than this to the sum of its words.
const WORDS: usize = 60;
/// What is said last leads up to the food: so many words.
const LATE: usize = 10;
/// The words of a dish are looked up in so many clauses of it.
const CLAUSES: usize = 40;
/// Only the latest dishes are weighed.
pub const DISHES: usize = 5;

/// The dishes of a draft so far and which of them each measured clause was for.
pub struct Dealt<'a> {
    /// For each clause that measures, from the first on, its dish.
    pub hand: &'a [usize],
    /// The names of each dish.
    pub titles: &'a [Vec<&'a str>],
    /// The dish in hand.
    pub current: usize,
}

/// What a dish is known by.
struct Known<'a> {
    heads: Vec<String>,
    foods: Vec<&'a String>,
    words: Vec<&'a str>,
    /// The last clause that measured for it, as a place among those that measure.
    last: Option<usize>,
    count: usize,
}

impl View<'_> {
    fn known<'b>(&'b self, dealt: &Dealt<'_>, dish: usize) -> Known<'b> {
        let mine: Vec<usize> = (0..dealt.hand.len()).rev().filter(|k| dealt.hand[*k] == dish).take(RECENT).collect();
        let foods: Vec<&String> = mine.iter().flat_map(|k| &self.foods[self.measuring[*k]]).collect();
        let mut words: Vec<&str> = Vec::new();
        for n in mine.iter().map(|k| self.measuring[*k]).take(CLAUSES) {
            // A measured clause and the one after it.
            for c in self.clauses[n..self.clauses.len().min(n + 2)].iter() {
                words.extend(self.tokens[c.piece.from..c.piece.to].iter().filter(|t| telling(t)).map(|t| &*t.fold));
            }
        }
        crate::order::sort(&mut words);
        words.dedup();
        let heads = dealt.titles[dish].iter().filter_map(|t| t.rsplit([' ', '-']).next()).filter(|w| !w.is_empty());
        Known { heads: heads.map(fold).collect(), foods, words, last: mine.first().copied(), count: mine.len() }
    }

    /// The words of a gap, and those before and after the place where a dish is named again.
    pub fn back_signs(&self, gap: &Gap, dealt: &Dealt<'_>, dish: usize, mut put: impl FnMut(&'static str, &str)) {
        let t = self.tokens;
        let word = |k: usize| match t[k].kind {
            Kind::Number(_) => "#",
            _ if !t[k].is_spoken() => ",",
            _ if number::number(Tokens(&t[k..k + 1])).is_ok() => "#",
            _ => &*t[k].text,
        };
        let first = self.clauses[gap.from].piece.from;
        let end = self.clauses[gap.to].piece.to.max(first);
        let mut row = |sign: &'static str, range: std::ops::Range<usize>| {
            let mut words: Vec<&str> = range.filter(|k| !matches!(t[*k].kind, Kind::Break(_))).map(word).collect();
            crate::order::sort(&mut words);
            words.dedup();
            words.iter().for_each(|w| put(sign, w));
        };
        row("word", end.saturating_sub(WORDS).max(first)..end);
        row("late", end.saturating_sub(LATE).max(first)..end);
        let (mine, other) = (self.known(dealt, dish), self.known(dealt, dealt.current));
        let at = self.again(gap, &mine, &other);
        put("before", at.filter(|k| *k > first).map_or("-", |k| word(k - 1)));
        put("second before", at.filter(|k| *k > first + 1).map_or("-", |k| word(k - 2)));
        put("after", at.filter(|k| k + 1 < end).map_or("-", |k| word(k + 1)));
        let clause = at.and_then(|k| (gap.from..=gap.to).find(|n| self.clauses[*n].piece.to > k));
        put("first", clause.map_or("-", |n| word(self.clauses[n].piece.from)));
    }

    /// The first word of a gap that tells of the one dish and not of the other.
    fn again(&self, gap: &Gap, mine: &Known<'_>, other: &Known<'_>) -> Option<usize> {
        let (first, end) = (self.clauses[gap.from].piece.from, self.clauses[gap.to].piece.to);
        let tells = |k: &usize| {
            let w = &self.tokens[*k].fold;
            let named = mine.heads.iter().any(|h| **h == **w) && !other.heads.iter().any(|h| **h == **w);
            let food = mine.foods.iter().any(|f| ***f == **w) && !other.foods.iter().any(|f| ***f == **w);
            named || food
        };
        (first..end).find(tells)
    }

    /// The facts that the trees ask for; the first is what the weights say of the words, `turn` what was said of a new dish.
    pub fn back_facts(&self, gap: &Gap, dealt: &Dealt<'_>, dish: usize, sum: i32, turn: i32) -> [i32; FACTS] {
        let whole = |n: usize| i32::try_from(n.min(1000)).unwrap_or(1000);
        let (mine, other) = (self.known(dealt, dish), self.known(dealt, dealt.current));
        let (first, end) = (self.clauses[gap.from].piece.from, self.clauses[gap.to].piece.to);
        let gap_words: Vec<&str> = self.tokens[end.saturating_sub(2 * WORDS).max(first)..end]
            .iter()
            .filter(|t| telling(t))
            .map(|t| &*t.fold)
            .collect();
        let late: Vec<&str> = self.tokens[end.saturating_sub(24).max(first)..end]
            .iter()
            .filter(|t| telling(t))
            .map(|t| &*t.fold)
            .collect();
        let heads = |k: &Known<'_>| whole(gap_words.iter().filter(|w| k.heads.iter().any(|h| h == *w)).count());
        let only = |row: &[&str], a: &Known<'_>, b: &Known<'_>| {
            let has = |k: &Known<'_>, w: &str| k.words.binary_search(&w).is_ok();
            whole(row.iter().filter(|w| has(a, w) && !has(b, w)).count())
        };
        let foods = |a: &Known<'_>, b: &Known<'_>| {
            let said = |w: &&&str| a.foods.iter().any(|f| f == *w) && !b.foods.iter().any(|f| f == *w);
            whole(gap_words.iter().filter(said).count())
        };
        let next: Vec<&String> =
            self.measuring[gap.index..].iter().take(4).flat_map(|n| &self.foods[*n]).take(8).collect();
        let had = |k: &Known<'_>| whole(next.iter().filter(|f| k.foods.contains(f)).count());
        // How it was left: the clauses from its last measured food to the next one of another dish.
        let left = mine.last.map_or(0..0, |k| {
            self.measuring[k]..self.measuring.get(k + 1).copied().unwrap_or(self.clauses.len()).max(self.measuring[k])
        });
        let count = |range: std::ops::RangeInclusive<usize>, holds: &dyn Fn(usize) -> bool| {
            whole(range.filter(|n| holds(*n)).count())
        };
        let waits = |n: usize| {
            let c = &self.clauses[n];
            c.verb.is_some_and(|v| v.1.class == VerbClass::Wait)
                || self.found[c.found.0..c.found.1].iter().any(|f| matches!(f.item, Item::Time(_)))
        };
        let serves = |n: usize| {
            let c = &self.clauses[n];
            self.found[c.found.0..c.found.1].iter().any(|f| matches!(f.item, Item::Yield(_)))
        };
        let all = gap.from..=gap.to;
        let left_all = left.start..=left.end.max(left.start + 1) - 1;
        let at = self.again(gap, &mine, &other);
        let back = at.is_some_and(|k| {
            (k.saturating_sub(4).max(first)..k).any(|j| self.tokens[j].is_any("back oh forgot again now meanwhile"))
        });
        let clause = at.and_then(|k| all.clone().find(|n| self.clauses[*n].piece.to > k));
        let begun = dealt.hand.iter().position(|d| *d == dish).unwrap_or(0);
        [
            sum,
            turn,
            heads(&mine),
            heads(&other),
            foods(&mine, &other),
            foods(&other, &mine),
            only(&gap_words, &mine, &other),
            only(&gap_words, &other, &mine),
            only(&late, &mine, &other),
            only(&late, &other, &mine),
            had(&mine),
            had(&other),
            whole(next.len()),
            whole(mine.last.map_or(999, |k| gap.index - k)),
            whole(mine.count),
            whole(other.count),
            count(all.clone(), &|n| self.closes[n]),
            count(all.clone(), &serves),
            count(left_all.clone(), &|n| self.closes[n]),
            count(left_all.clone(), &serves),
            count(left_all.clone(), &waits),
            whole(left.len()),
            count(all.clone(), &waits),
            whole(gap.to + 1 - gap.from),
            count(all.clone(), &|n| self.clauses[n].piece.breaks),
            count(all.clone(), &|n| self.clauses[n].piece.opens),
            count(all, &|n| self.clauses[n].main == Use::Action),
            whole(dealt.titles.len()),
            i32::from(dish + 1 == dealt.current || dish == dealt.current + 1),
            at.map_or(-1, |k| whole(end - k)),
            i32::from(back),
            clause.map_or(-1, |n| i32::from(self.clauses[n].piece.opens)),
            whole(gap.index - begun.min(gap.index)),
            whole(self.measuring.len() - gap.index),
        ]
    }

    /// The dish the talk goes back to in a gap, the clause from which on, and how surely.
    pub fn back(&self, gap: &Gap, dealt: &Dealt<'_>, turn: i32) -> Option<(i32, usize, usize)> {
        let recent = dealt.titles.len().saturating_sub(DISHES);
        let weigh = |dish: usize| {
            let mut sum = RETURNS.bias();
            self.back_signs(gap, dealt, dish, |sign, answer| sum += RETURNS.of(sign, answer));
            BACKS.sum(&self.back_facts(gap, dealt, dish, sum, turn))
        };
        let best = (recent..dealt.titles.len()).filter(|d| *d != dealt.current).map(|d| (weigh(d), d)).max()?;
        if best.0 <= 0 {
            return None;
        }
        let (mine, other) = (self.known(dealt, best.1), self.known(dealt, dealt.current));
        let at = self.again(gap, &mine, &other);
        let named = at.and_then(|k| (gap.from..=gap.to).find(|n| self.clauses[*n].piece.to > k));
        // Its sentence, or the one that measures.
        let from = named.unwrap_or(gap.to);
        let from = (gap.from..=from).rev().find(|n| self.clauses[*n].piece.opens).unwrap_or(from);
        Some((best.0, best.1, from))
    }
}

/// Words that tell what is spoken of: not the small ones, no numbers.
fn telling(t: &crate::token::Token) -> bool {
    t.kind == Kind::Word && t.text.len() > 3 && number::number(Tokens(std::slice::from_ref(t))).is_err()
}
