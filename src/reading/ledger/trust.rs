//! How far a figure of the list is to be trusted.
//!
//! A figure that was said once, in a plain clause, is seldom wrong. One that was taken back, added up, told twice or said of what
//! another cook does may be, and so may a food that nobody measured. What was said round about the line
//! (`src/lexicon/weights/doubts.txt`) and some plain counts of its history go to small trees (`doubted.txt`). They never change
//! a figure: they only ask for one.

use super::super::dish::Plan;
use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use super::super::weights::{DOUBTED, DOUBTS};
use super::Ledger;
use super::twice::{head, word};
use crate::item::Items;
use crate::lexicon::{Sets, tagged};
use crate::measure::{Dimension, Ratio, Unit};
use crate::recipe::Use;
use crate::token::Token;

/// How many facts a line has.
pub const FACTS: usize = 34;
/// The words before and after the first figure that count.
const NEAR: (usize, usize) = (12, 15);
/// So many words after a figure another one may be meant for it.
const AFTER: usize = 30;

/// The lines of a card with the talk they came from.
pub struct View<'a> {
    pub(super) tokens: &'a [Token],
    pub(super) clauses: &'a [Sorted],
    pub(super) found: &'a [Found],
    plan: &'a Plan,
    /// What the dish is called so far.
    pub(super) title: &'a str,
    pub(super) book: &'a Ledger,
    /// For each line, the findings that speak of it, each with its clause.
    told: Vec<Vec<(usize, usize)>>,
    /// For each line, what is asked of it anyhow.
    asked: Vec<i32>,
    /// For each finding that measures a food: its clause, the finding, the last word of its name.
    measured: Vec<(usize, usize, String)>,
}

impl<'a> View<'a> {
    /// Looks at the lines of card `card`.
    pub fn new(
        tokens: &'a [Token],
        clauses: &'a [Sorted],
        found: &'a [Found],
        plan: &'a Plan,
        card: usize,
        book: &'a Ledger,
    ) -> View<'a> {
        let mut told = vec![Vec::new(); book.lines.len()];
        let mut measured = Vec::new();
        let extent = plan.extent.get(card).cloned().unwrap_or(0..0);
        for n in extent.filter(|n| plan.card[*n] == Some(card)) {
            for id in clauses.item(n).found.0..clauses[n].found.1 {
                if let Some(entry) = book.entries[id] {
                    told[entry.line].push((n, id));
                }
                if let Item::Food(x) = &found.item(id).item
                    && x.amount.is_some()
                {
                    measured.push((n, id, head(&x.name)));
                }
            }
        }
        let mut asked = vec![0; book.lines.len()];
        for q in super::super::query::open(book) {
            let Some(line) = q.line else { continue };
            asked[line] = match () {
                () if book.disputes.iter().any(|d| d.line == line) => 1,
                () if book.unsure.contains(&line) => 2,
                () if q.choices.len() > 1 => 3,
                () => 4,
            };
        }
        let title = plan.dishes.get(card).map_or("", |d| &d.title);
        View { tokens, clauses, found, plan, title, book, told, asked, measured }
    }

    /// How doubtful the figure of each line is: above zero it is to be asked for.
    pub fn doubts(&self) -> Vec<i32> {
        let all = self.company();
        (0..self.book.lines.len()).map(|line| self.asks(line, &all, &DOUBTS, &DOUBTED)).collect()
    }

    /// The finding that measures a line first, else the first that names it.
    pub(super) fn first(&self, line: usize) -> Option<(usize, usize)> {
        let told = &self.told[line];
        let measures = |t: &&(usize, usize)| self.book.entries[t.1].is_some_and(|e| e.measured);
        told.iter().find(measures).or(told.first()).copied()
    }

    /// The findings that measure a line.
    pub(super) fn measuring(&self, line: usize) -> impl Iterator<Item = usize> {
        self.told[line].iter().map(|t| t.1).filter(|id| self.book.entries[*id].is_some_and(|e| e.measured))
    }

    /// The words round about a line's figure.
    pub fn signs(&self, number: usize, mut put: impl FnMut(&'static str, &str)) {
        let Some((n, id)) = self.first(number) else { return };
        let t = self.tokens;
        let (from, to) = (self.found.item(id).from, self.found.item(id).to);
        let piece = self.clauses.item(n).piece;
        let word = |k: usize| word(t, k);
        let at = |k: Option<usize>| k.filter(|k| *k < t.len()).map_or("-", word);
        put("before", at(from.checked_sub(1)));
        put("second before", at(from.checked_sub(2)));
        put("after", at(Some(to)));
        put("second after", at(Some(to + 1)));
        put("first", at(Some(piece.from)));
        let next = self.clauses.get(n + 1).map(|c| c.piece.from);
        put("next", at(next));
        let mut near: Vec<&str> = (from.saturating_sub(NEAR.0)..from).map(word).collect();
        let mut later: Vec<&str> = (to..t.len().min(to + NEAR.1)).map(word).collect();
        for (sign, row) in [("near", &mut near), ("later", &mut later)] {
            crate::order::sort(row);
            row.dedup();
            row.iter().for_each(|w| put(sign, w));
        }
        let line = &self.book.lines[number];
        put("head", &head(&line.name));
        let unit = line.amount.map_or("none", |a| a.unit().map_or("count", |u| u.name()));
        put("unit", unit);
        let verb = self.clauses.item(n).verb.map_or("none", |v| v.1.base);
        put("verb", verb);
        for tag in self.book.tags[number].split(',').map(str::trim).filter(|t| !t.is_empty()) {
            put("tag", tag);
        }
    }

    /// The facts of a line that the trees ask for; the first is what the weights say of its words.
    pub fn facts(&self, line: usize, doubtful: i32) -> [i32; FACTS] {
        let whole = |n: usize| i32::try_from(n.min(1000)).unwrap_or(1000);
        let l = &self.book.lines[line];
        let told = &self.told[line];
        let (n, id) = self.first(line).unwrap_or((0, 0));
        let c = self.clauses.item(n);
        let measuring: Vec<usize> =
            told.iter().filter(|t| self.book.entries[t.1].is_some_and(|e| e.measured)).map(|t| t.0).collect();
        let spread = measuring.last().map_or(0, |last| last - measuring[0]);
        let key = head(&l.name);
        let alike: Vec<&(usize, usize, String)> = self.measured.iter().filter(|m| m.2 == key).collect();
        let mut figures: Vec<(Ratio, Option<Unit>)> = Vec::new();
        for m in &alike {
            if let Item::Food(x) = &self.found.item(m.1).item
                && let Some(a) = x.amount
                && !figures.contains(&(a.amount.low(), a.amount.unit()))
            {
                figures.push((a.amount.low(), a.amount.unit()));
            }
        }
        let lines_alike = self.book.lines.iter().filter(|o| head(&o.name) == key).count();
        let mine = c.found.0..c.found.1;
        let foods = mine.clone().filter(|k| matches!(&self.found.item(*k).item, Item::Food(_))).count();
        let others = mine.filter(|k| matches!(&self.found.item(*k).item, Item::Food(x) if x.amount.is_some())).count();
        let kind = match l.amount.map(|a| a.unit()) {
            None => 0,
            Some(None) => 1,
            Some(Some(u)) if u.is_container() => 2,
            Some(Some(u)) if u.is_loose() => 3,
            Some(Some(u)) => match u.dimension() {
                Dimension::Volume => 4,
                Dimension::Weight => 5,
                _ => 6,
            },
        };
        let low = l.amount.map_or(Ratio::of(-1, 1), |a| a.low());
        let quarters = i32::try_from((low * Ratio::whole(4)).floor().clamp(-4, 4000)).unwrap_or(-4);
        let article =
            matches!(self.found.get(id).map(|f| &f.item), Some(Item::Food(x)) if x.amount.is_some_and(|a| a.article));
        let main = match c.main {
            Use::Ingredient => 0,
            Use::Action => 1,
            Use::Correction => 2,
            Use::Remark => 3,
            Use::Opening => 4,
            Use::Closing => 5,
            Use::Chatter => 6,
        };
        let is = |any: &str| tagged(self.book.tags[line], any);
        let quantifier = match self.found.get(id).map(|f| &f.item) {
            Some(Item::Food(x)) => x.quantifier as i32,
            _ => -1,
        };
        let from = self.found.get(id).map_or(0, |f| f.from);
        // Figures that nobody claimed stand near, or she thinks again.
        let to = self.found.get(id).map_or(0, |f| f.to);
        let later = (id + 1..self.found.len()).take_while(|k| self.found.item(*k).from < to + AFTER);
        let unclaimed: Vec<usize> = later
            .filter(|k| {
                matches!(self.found.item(*k).item, Item::Loose(_) | Item::Count(_)) && self.book.entries[*k].is_none()
            })
            .collect();
        let nearest = unclaimed.first().map_or(AFTER, |k| self.found.item(*k).from.saturating_sub(to));
        let again =
            self.tokens.row(to, self.tokens.len().min(to + AFTER)).iter().filter(|t| t.is_in("goes back on it"));
        let twice = self.book.twice.iter().filter(|t| t.line == line).map(|t| match t.held.same_size(&t.said) {
            true => 1,
            false if t.together => 2,
            false => 3,
        });
        let elsewhere = self.tokens.iter().filter(|t| *t.fold == *key).take(20).count();
        [
            doubtful,
            whole(told.len()),
            whole(measuring.len()),
            whole(spread),
            whole(alike.len()),
            whole(figures.len()),
            whole(lines_alike),
            kind,
            quarters,
            whole(l.parts.len()),
            i32::from(l.package.is_some()),
            i32::from(l.to_taste),
            i32::from(l.group.is_some()),
            i32::from(article),
            main,
            whole(foods),
            whole(others),
            whole(c.piece.to - c.piece.from),
            whole(from - c.piece.from.min(from)),
            whole(l.name.split(' ').count()),
            whole(self.book.lines.len()),
            whole(line),
            whole(elsewhere),
            whole(self.plan.dishes.len()),
            i32::from(self.book.vague[line]),
            self.asked[line],
            i32::from(is("meat groundmeat poultry fish shellfish cured")),
            quantifier,
            i32::from(!l.prep.is_empty()),
            whole(unclaimed.len()),
            whole(nearest),
            whole(again.count()),
            twice.max().unwrap_or(0),
            i32::from(self.plan.dialogue),
        ]
    }
}
