//! A food that is measured twice: whether both go in, or the second figure is the first again, or puts it right.
//!
//! "A cup of sugar… and a cup of sugar for the top" adds up; "a cup of broth, there's my phone, a cup of broth and a bay leaf" does
//! not, nor does "half a cup of lard, that's for two crusts, a third of a cup of lard". What was said between the two and some
//! plain counts go to small trees (`src/lexicon/weights/both.txt`, words in `twice.txt`). The figures themselves are always hers.

use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use super::super::weights::{BOTH, TWICE};
use crate::grammar::food::SaidFood;
use crate::grammar::number;
use crate::item::Items;
use crate::lexicon::{Sets, tagged};
use crate::recipe::Use;
use crate::token::{Kind, Token, Tokens, fold};

/// So few words part two figures of one breath.
const JOINED: usize = 8;
/// How many facts two figures have.
pub const FACTS: usize = 23;
/// So many measured foods before and after the second figure tell whether a list is told again.
const BESIDE: usize = 4;
/// A list is read in time by looking back at so many findings.
const BACK: usize = 400;
/// The words after the first figure, before the second and after it that count.
const NEAR: (usize, usize, usize) = (8, 10, 8);

/// Two figures of one food.
pub struct Twice<'a> {
    /// The draft's tokens.
    pub tokens: &'a [Token],
    /// Its clauses.
    pub clauses: &'a [Sorted],
    /// Its findings.
    pub found: &'a [Found],
    /// The clause and the finding of the first figure.
    pub first: (usize, usize),
    /// The clause and the finding of the second.
    pub second: (usize, usize),
    /// The first stands in the same part of the dish.
    pub together: bool,
    /// The tags of the food.
    pub tags: &'a str,
    /// Two people speak.
    pub dialogue: bool,
}

impl Twice<'_> {
    fn word(&self, k: usize) -> &str {
        word(self.tokens, k)
    }

    /// The words round about the two figures.
    pub fn signs(&self, mut put: impl FnMut(&'static str, &str)) {
        let from = self.found.item(self.first.1).to;
        let (at, to) = (self.found.item(self.second.1).from, self.found.item(self.second.1).to);
        let piece = self.clauses.item(self.second.0).piece;
        put("before", if at > 0 { self.word(at - 1) } else { "-" });
        put("second before", if at > 1 { self.word(at - 2) } else { "-" });
        put("first", self.word(piece.from));
        put("after", if to < self.tokens.len() { self.word(to) } else { "-" });
        put("after first", if from < self.tokens.len() { self.word(from) } else { "-" });
        let mut row = |sign: &'static str, range: std::ops::Range<usize>| {
            let mut words: Vec<&str> = range.map(|k| self.word(k)).collect();
            crate::order::sort(&mut words);
            words.dedup();
            words.iter().for_each(|w| put(sign, w));
        };
        row("between", at.saturating_sub(NEAR.1).max(from)..at.max(from));
        row("since", from..(from + NEAR.0).min(at).max(from));
        row("later", to..self.tokens.len().min(to + NEAR.2));
    }

    /// The facts that the trees ask for; the first is what the weights say of the words.
    pub fn facts(&self, sum: i32) -> [i32; FACTS] {
        let whole = |n: usize| i32::try_from(n.min(1000)).unwrap_or(1000);
        let food = |id: usize| match &self.found.item(id).item {
            Item::Food(x) => Some(&**x),
            _ => None,
        };
        let amount = |x: Option<&SaidFood>| x.and_then(|x| x.amount);
        let (a, b) = (food(self.first.1), food(self.second.1));
        let (old, new) = (amount(a).map(|a| a.amount), amount(b).map(|a| a.amount));
        let less = old.zip(new).is_some_and(|(a, b)| a.unit() == b.unit() && b.low() < a.low());
        let (from, to) = (self.first.0, self.second.0);
        let between = from + 1..to.max(from + 1);
        let count =
            |holds: &dyn Fn(&Sorted) -> bool| whole(between.clone().filter(|n| holds(self.clauses.item(*n))).count());
        let here = self.clauses.item(to);
        let is = |any: &str| i32::from(tagged(self.tags, any));
        let ids = self.first.1 + 1..self.second.1.max(self.first.1 + 1);
        let measured =
            ids.filter(|id| matches!(&self.found.item(*id).item, Item::Food(x) if x.amount.is_some())).count();
        let tokens = self.found.item(self.second.1).from.saturating_sub(self.found.item(self.first.1).to);
        let (beside, known) = self.told_again();
        let piece = here.piece;
        let mine = here.found.0..here.found.1;
        [
            sum,
            whole(to - from.min(to)),
            whole(tokens),
            i32::from(less),
            i32::from(self.together),
            count(&|c| c.piece.opens),
            count(&|c| c.piece.breaks) + i32::from(piece.breaks),
            count(&|c| c.main == Use::Action),
            whole(measured),
            count(&|c| c.cues.story),
            i32::from(here.main == Use::Action),
            i32::from(self.clauses.item(from).main == Use::Action),
            i32::from(piece.opens),
            whole(self.found.item(self.second.1).from - piece.from.min(self.found.item(self.second.1).from)),
            whole(mine.filter(|k| matches!(&self.found.item(*k).item, Item::Food(x) if x.amount.is_some())).count()),
            whole(a.map_or(9, |a| a.name.split(' ').count())),
            is("fat dairy liquid water stock"),
            is("sweet wheat grain egg"),
            is("produce fruit meat poultry groundmeat cured fish shellfish"),
            count(&|c| c.main == Use::Chatter || c.main == Use::Remark),
            whole(beside),
            whole(known),
            whole(100 * self.second.0 / self.clauses.len().max(1)),
        ]
    }

    /// Of the measured foods round about the second figure: how many, and how many were measured before.
    fn told_again(&self) -> (usize, usize) {
        let id = self.second.1;
        let measured = |k: usize| match &self.found.item(k).item {
            Item::Food(x) => x.amount.map(|a| (head(&x.name), a.amount)),
            _ => None,
        };
        let before = (self.first.1 + 1..id).rev().filter(|k| measured(*k).is_some()).take(BESIDE);
        let after = (id + 1..self.found.len().min(id + 40)).filter(|k| measured(*k).is_some()).take(BESIDE);
        let row: Vec<usize> = before.chain(after).collect();
        let first = row.iter().copied().min().unwrap_or(id).min(id);
        let had: Vec<_> = (first.saturating_sub(BACK)..first).filter_map(measured).collect();
        let told: Vec<_> = row.iter().filter_map(|k| measured(*k)).collect();
        let known = told.iter().filter(|t| had.iter().any(|h| h.0 == t.0)).count();
        (told.len(), known)
    }

    /// Whether both figures go in.
    pub fn both(&self) -> bool {
        // "A teaspoon of salt in the meat and half a teaspoon of salt in the sauce."
        let (end, next) = (self.found.item(self.first.1).to, self.found.item(self.second.1).from);
        let between = self.tokens.row(end.min(next), next);
        if between.len() <= JOINED
            && between.last().is_some_and(|t| t.is("and"))
            && between.iter().all(|t| t.is_spoken() || t.kind == Kind::Comma)
            && between.iter().any(|t| t.is_any("in for on to"))
        {
            return true;
        }
        if self.apart() {
            return true;
        }
        let weights = &*TWICE;
        let mut sum = weights.bias();
        self.signs(|sign, answer| sum += weights.of(sign, answer));
        BOTH.sum(&self.facts(sum)) > 0
    }

    /// "Half a teaspoon of salt for the potatoes. For the meat, one teaspoon of salt": each figure has a place of its own.
    pub fn apart(&self) -> bool {
        let place = |at: (usize, usize)| {
            let f = self.found.item(at.1);
            let from = self.clauses.item(at.0).piece.from.max(f.from.saturating_sub(JOINED));
            (from..=f.to).rev().find_map(|k| match self.tokens.row(k, self.tokens.len().min(k + 3)) {
                [a, b, place] if a.is_any("for in on") && b.is_any("the that each") => Some(&*place.fold),
                _ => None,
            })
        };
        place(self.first).zip(place(self.second)).is_some_and(|(a, b)| a != b) || self.for_a_use_of_its_own()
    }

    /// "Two tablespoons of oil in the dough. For frying, three cups of oil": one is no figure for the other.
    fn for_a_use_of_its_own(&self) -> bool {
        let used = |at: (usize, usize)| {
            let f = self.found.item(at.1);
            let piece = self.clauses.item(at.0).piece;
            let from = piece.from.max(f.from.saturating_sub(JOINED));
            (from + 1..piece.to.min(f.to + 3)).find_map(|k| {
                let t = self.tokens.item(k);
                (self.tokens.item(k - 1).is_any("for to") && t.is_in("uses of their own")).then_some(&*t.text)
            })
        };
        let figure = |at: (usize, usize)| match &self.found.item(at.1).item {
            Item::Food(x) => x.amount.map(|a| a.amount),
            _ => None,
        };
        let second = used(self.second);
        let differ = figure(self.first).zip(figure(self.second)).is_some_and(|(a, b)| !a.same_size(&b));
        differ && second.is_some() && used(self.first) != second
    }
}

/// A word as the weights know it: "#" for any number, "," for any stop.
pub(in crate::reading) fn word(tokens: &[Token], k: usize) -> &str {
    match tokens.item(k).kind {
        Kind::Number(_) => "#",
        _ if !tokens.item(k).is_spoken() => ",",
        _ if number::number(Tokens(tokens.row(k, k + 1))).is_ok() => "#",
        _ => &tokens.item(k).text,
    }
}

/// The last word of a food's name, its plural folded.
pub(super) fn head(name: &str) -> String {
    name.rsplit([' ', '-']).next().map(fold).unwrap_or_default()
}
