//! Lines that are no ingredients: what goes the other way, what others put in, a food named twice under two names.
//!
//! "Four cups of meat" is the chicken that was measured before, "a slice of bread with it" lies beside the plate. What was said
//! round about a line (`src/lexicon/weights/strays.txt`), its history and the lines beside it go to small trees (`astray.txt`). They
//! make no figure: they only leave out a line. What spoke of it speaks of the line it was another name of, if there is one; and if that
//! one has no figure, it has the one that was said under the other name.

use super::super::scan::Item;
use super::super::weights::{ASTRAY, STRAYS, Trees, Weights};
use super::trust::{self, View};
use super::{Entry, Ledger};
use crate::item::Items;
use crate::lexicon::makings::makings;
use crate::lexicon::tagged;

/// How many facts a line has.
pub const FACTS: usize = trust::FACTS + BESIDE;
/// The facts of the lines beside it.
const BESIDE: usize = 12;
/// A card with fewer lines is left as it is.
const FEW: usize = 4;
/// The sum that leaves out a food with a measure of its own.
const MEASURED: i32 = 100;
/// The sum that leaves out what goes in beside what was named before.
const ANOTHER: i32 = 1000;
/// Stands for a place that there is not.
const FAR: usize = 1000;

/// What the lines of a card are judged beside.
pub struct Company {
    /// The foods of all of them, by their places in the list of makings.
    foods: Vec<usize>,
    /// The dishes that are called as this one is.
    called: Vec<usize>,
}

impl View<'_> {
    /// The lines that are no ingredients.
    pub fn strays(&self) -> Vec<bool> {
        let lines = self.book.lines.len();
        if lines < FEW {
            return vec![false; lines];
        }
        let all = self.company();
        // What was measured, and stands on the list under no other name, goes only where much speaks for it.
        let bar = |line: usize| {
            let measures = self.book.lines[line].amount.is_some_and(|a| a.unit().is_some());
            // "Two cups of lemon juice… slice one more lemon": one that was not named before.
            let more = self.book.figure_at[line].is_some_and(
                |at| matches!(&self.found.item(at.1).item, Item::Food(x) if x.amount.is_some_and(|a| a.more)),
            );
            if more {
                ANOTHER
            } else if measures && self.book.like(line).is_none() {
                MEASURED
            } else {
                0
            }
        };
        let sums: Vec<i32> = (0..lines).map(|line| self.asks(line, &all, &STRAYS, &ASTRAY) - bar(line)).collect();
        // Of two names for one food the likelier goes, never both; and not the fuller one with its figure.
        let mut strays = vec![false; lines];
        let mut kept: Vec<bool> = sums.iter().map(|s| *s <= 0).collect();
        let measured = |l: usize| self.book.lines[l].amount.is_some();
        while let Some(line) = (0..lines).filter(|l| !kept[*l]).max_by_key(|l| sums[*l]) {
            kept[line] = true;
            let fuller = |o: usize| self.book.alike(line, o) == 2 && measured(line) && measured(o);
            if !(0..lines).any(fuller) {
                strays[line] = true;
                (0..lines).filter(|o| self.book.alike(line, *o) > 0).for_each(|o| kept[o] = true);
            }
        }
        strays
    }

    /// What weights and trees say of a line; above zero it is a yes.
    pub(super) fn asks(&self, line: usize, all: &Company, weights: &Weights, trees: &Trees) -> i32 {
        let mut sum = weights.bias();
        self.signs(line, |sign, answer| sum += weights.of(sign, answer));
        trees.sum(&self.all_facts(line, all, sum))
    }

    /// The foods of all lines, and the dishes that are called as this one is.
    pub fn company(&self) -> Company {
        let foods = makings().foods(self.book.keys.iter().filter_map(|k| k.last()), FAR);
        Company { foods, called: makings().called(self.title).dishes }
    }

    /// The facts of a line that the trees ask for; `all` holds all lines, `sum` is what the weights say of its words.
    pub fn all_facts(&self, line: usize, all: &Company, sum: i32) -> [i32; FACTS] {
        let mut facts = [0; FACTS];
        facts[..trust::FACTS].copy_from_slice(&self.facts(line, sum));
        facts[trust::FACTS..].copy_from_slice(&self.beside(line, all));
        facts
    }

    fn beside(&self, line: usize, all: &Company) -> [i32; BESIDE] {
        let whole = |n: usize| i32::try_from(n.min(FAR)).unwrap_or(0);
        let lines = &self.book.lines;
        let at = |line: usize| {
            self.first(line).map_or((0, 0), |(n, id)| {
                let f = self.found.item(id);
                (n, f.from)
            })
        };
        let (n, from) = at(line);
        let other = self.book.like(line).map(|(o, kind)| (o, kind, at(o)));
        let held = |same: &dyn Fn(usize) -> bool| other.map_or(-1, |o| i32::from(same(o.0)));
        let low = |l: usize| lines[l].amount.map(|a| a.low());
        let places: Vec<usize> = (0..lines.len())
            .filter(|l| *l != line && low(*l).is_some())
            .flat_map(|l| self.measuring(l))
            .map(|id| self.found.item(id).from)
            .collect();
        let tags = self.book.tags[line];
        let mine = makings().foods(self.book.keys[line].last().into_iter(), 1);
        let mut rest = all.foods.clone();
        rest.retain(|f| !mine.contains(f));
        [
            other.map_or(0, |o| o.1),
            whole(other.map_or(FAR, |o| o.2.1.abs_diff(from))),
            held(&|o| lines[o].group == lines[line].group),
            held(&|o| low(line).is_some() && low(o) == low(line)),
            whole(100 * n / self.clauses.len().max(1)),
            i32::from(tags.is_empty()),
            whole((0..lines.len()).filter(|l| *l != line && tagged(self.book.tags[*l], tags)).count()),
            whole(places.iter().filter(|p| **p < from).max().map_or(FAR, |p| from - p)),
            whole(places.iter().filter(|p| **p > from).min().map_or(FAR, |p| p - from)),
            whole(places.iter().filter(|p| **p < from).count()),
            makings().share(&makings().held(&rest).likely(), &mine),
            makings().share(&all.called, &mine),
        ]
    }
}

impl Ledger {
    /// How alike two lines are in name: 1 the other says more, 2 it says less, 3 the same, 4 the last word is in both, 0 no more.
    fn alike(&self, line: usize, other: usize) -> i32 {
        let (mine, name) = (&self.keys[line], &self.keys[other]);
        let within = |a: &[String], b: &[String]| a.iter().all(|w| b.contains(w));
        let last = |a: &[String], b: &[String]| a.last().is_some_and(|w| b.contains(w));
        match (within(mine, name), within(name, mine)) {
            _ if line == other || !last(mine, name) && !last(name, mine) => 0,
            (true, true) => 3,
            (true, false) => 1,
            (false, true) => 2,
            _ => 4,
        }
    }

    /// The line that is most like another in name, and how.
    fn like(&self, line: usize) -> Option<(usize, i32)> {
        let all = (0..self.lines.len()).map(|o| (o, self.alike(line, o)));
        all.filter(|o| o.1 > 0).min_by_key(|(o, kind)| (*kind == 4, o.abs_diff(line)))
    }

    /// The line that one is another name of: "oil", where peanut oil stands on the list.
    pub fn namesake(&self, line: usize) -> Option<usize> {
        self.like(line).filter(|o| o.1 != 4).map(|o| o.0)
    }

    /// Leaves out lines: what spoke of one speaks of the line that it is another name of, or of none. Nothing is written in the books
    /// after this.
    pub fn leave_out(&mut self, strays: &[bool]) {
        for gone in (0..strays.len()).rev().filter(|l| strays[*l]) {
            // The lines after this one are settled already.
            let owner = self.namesake(gone).filter(|o| *o > gone || !strays[*o]);
            // "Peanut oil, about an inch. So a quart of oil": the figure is said of the one that has none.
            if let Some(o) = owner.filter(|o| self.lines[*o].amount.is_none()) {
                (self.lines[o].amount, self.lines[o].package) = (self.lines[gone].amount, self.lines[gone].package);
            }
            self.lines.remove(gone);
            self.keys.remove(gone);
            self.tags.remove(gone);
            self.vague.remove(gone);
            let place = |l: usize| l - usize::from(l > gone);
            for slot in &mut self.entries.list {
                *slot = match *slot {
                    Some(e) if e.line == gone => {
                        owner.map(|o| Entry { line: place(o), part: None, partial: false, measured: false })
                    }
                    Some(e) => Some(Entry { line: place(e.line), ..e }),
                    None => None,
                };
            }
            let stays = |line: &mut usize| {
                let stays = *line != gone;
                *line = place(*line);
                stays
            };
            self.disputes.retain_mut(|d| stays(&mut d.line));
            self.summed.retain_mut(|s| stays(&mut s.0));
            self.unsure.retain_mut(stays);
        }
    }
}
