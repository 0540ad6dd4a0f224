//! What the foods around a clause tell: talk that turns from onions and beef to flour and sugar has turned to another dish.

use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use crate::item::Items;
use crate::lexicon::Food;
use crate::measure::Ratio;
use crate::token::{Token, fold};

/// A food that is measured, as the topic of the talk.
pub struct Measured {
    /// The clause.
    pub clause: usize,
    /// Where in the draft.
    pub at: u32,
    /// Its last word, plural folded.
    pub head: String,
    /// How many of it, the low end.
    pub figure: Ratio,
    /// Its unit, or "count" where it is only counted.
    pub unit: &'static str,
    /// What it is made into, as far as it tells.
    pub taste: Taste,
}

/// A dish measures a few dozen foods; a text of any length is read in time by looking back at so many.
pub const RECENT: usize = 60;

/// What kind of dish a food speaks for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Taste {
    /// Sugar, fruit, leavening.
    Sweet,
    /// Meat, fish, vegetables, stock.
    Savoury,
    /// Either: butter, flour, eggs, salt.
    Either,
}

impl Taste {
    fn of(food: &Food) -> Taste {
        if food.is("meat groundmeat poultry cured fish shellfish stock pulse herb rice pasta") {
            Taste::Savoury
        } else if food.is("sweet leavening fruit") {
            Taste::Sweet
        } else if food.is("produce condiment") {
            Taste::Savoury
        } else {
            Taste::Either
        }
    }
}

/// The foods that are measured, in order; what a story measures is left out.
pub fn measured(tokens: &[Token], clauses: &[Sorted], found: &[Found]) -> Vec<Measured> {
    let mut out = Vec::new();
    for (clause, c) in clauses.iter().enumerate().filter(|c| !c.1.cues.story) {
        for f in found.row(c.found.0, c.found.1) {
            let Item::Food(x) = &f.item else { continue };
            let Some(amount) = x.amount else { continue };
            out.push(Measured {
                clause,
                at: tokens.item(f.from).span.start,
                head: x.name.rsplit(' ').next().map(fold).unwrap_or_default(),
                figure: amount.amount.low(),
                unit: amount.amount.unit().map_or("count", |u| u.name()),
                taste: x.food.as_ref().map_or(Taste::Either, Taste::of),
            });
        }
    }
    out
}

/// What most of these foods speak for.
pub fn taste(foods: &[Measured]) -> &'static str {
    let count = |t: Taste| foods.iter().filter(|f| f.taste == t).count();
    let (sweet, savoury) = (count(Taste::Sweet), count(Taste::Savoury));
    match (sweet, savoury) {
        (0, 0) => "none",
        _ if sweet >= 2 * savoury.max(1) || savoury == 0 => "sweet",
        _ if savoury >= 2 * sweet.max(1) || sweet == 0 => "savoury",
        _ => "mixed",
    }
}

/// How many of the foods were measured before with the same figure: a list that is told again begins no dish.
pub fn told_again(had: &[Measured], gets: &[Measured]) -> &'static str {
    let same = |g: &&Measured| had.iter().any(|h| h.head == g.head && h.figure == g.figure && h.unit == g.unit);
    let known = |g: &&Measured| had.iter().any(|h| h.head == g.head);
    let (same, known) = (gets.iter().filter(same).count(), gets.iter().filter(known).count());
    match (same, known) {
        (3.., k) if k * 5 >= gets.len() * 4 => "all",
        (2.., k) if k * 5 >= gets.len() * 3 => "most",
        (2.., _) => "some",
        _ => "no",
    }
}
