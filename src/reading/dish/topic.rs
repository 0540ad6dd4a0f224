//! What the foods around a clause tell: talk that turns from onions and beef to flour and sugar has turned to another dish.

use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use crate::lexicon::Food;
use crate::token::{Token, fold};

/// A food that is measured, as the topic of the talk.
pub struct Measured {
    /// The clause.
    pub clause: usize,
    /// Where in the draft.
    pub at: u32,
    /// Its last word, plural folded.
    pub head: String,
    /// How much: its unit, "count" or "some".
    pub unit: &'static str,
    /// What it is made into, as far as it tells.
    pub taste: Taste,
}

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
        let any = |tags: &[&str]| tags.iter().any(|t| food.is(t));
        if any(&[
            "meat",
            "groundmeat",
            "poultry",
            "cured",
            "fish",
            "shellfish",
            "stock",
            "pulse",
            "herb",
            "rice",
            "pasta",
        ]) {
            Taste::Savoury
        } else if any(&["sweet", "leavening", "fruit"]) {
            Taste::Sweet
        } else if any(&["produce", "condiment"]) {
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
        for f in &found[c.found.0..c.found.1] {
            let Item::Food(x) = &f.item else { continue };
            let Some(amount) = x.amount else { continue };
            out.push(Measured {
                clause,
                at: tokens[f.from].span.start,
                head: x.name.rsplit(' ').next().map(fold).unwrap_or_default(),
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
