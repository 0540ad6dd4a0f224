//! What a cup of a food weighs, by the published table: a cup of all-purpose flour is 125 g, about.
//!
//! No row, no weight: nothing is worked out from a food that is like it.

use super::foods;
use crate::lexicon::lexicon;
use crate::measure::{Ratio, Unit};
use std::sync::LazyLock;

/// One row of the table.
#[derive(Clone, Debug)]
pub struct Weight {
    /// The row's number in the USDA National Nutrient Database for Standard Reference, or "BCS" for a row of The Boston
    /// Cooking-School Cook Book (1896).
    pub ndb: &'static str,
    /// The database's name of the food.
    pub food: &'static str,
    /// The database's words for the measure: "cup, chopped".
    pub measure: &'static str,
    /// How many of the measure were weighed.
    pub count: Ratio,
    /// Grams the table gives for them.
    pub grams: Ratio,
    /// The unit of the measure: teaspoon, tablespoon, fluid ounce or cup.
    pub unit: Unit,
    /// Names this row is for, folded.
    names: Vec<String>,
    /// Preparations this row needs, folded; empty where any will do.
    when: Vec<String>,
}

impl Weight {
    /// Grams of one US cup.
    pub fn grams_per_cup(&self) -> Ratio {
        self.grams / self.count * Unit::Cup.factor_to(self.unit).unwrap_or(Ratio::ONE)
    }

    /// Grams of one millilitre.
    pub fn grams_per_ml(&self) -> Ratio {
        self.grams_per_cup() * Unit::Milliliter.factor_to(Unit::Cup).unwrap_or(Ratio::ONE)
    }

    /// The row as a reader may check it: "USDA SR 20081, Wheat flour, white, all-purpose: 1 cup, 125 g".
    pub fn source(&self) -> String {
        let (count, grams) = (self.count, super::round::decimal(self.grams, 2));
        let table = match self.ndb {
            "BCS" => "The Boston Cooking-School Cook Book (1896)".to_owned(),
            number => format!("USDA SR {number}"),
        };
        format!("{table}, {}: {count} {}, {grams} g", self.food, self.measure)
    }
}

static TABLE: LazyLock<Vec<Weight>> = LazyLock::new(|| {
    crate::lexicon::lists::list("weights.txt").lines().filter(|l| !l.starts_with('#')).filter_map(row).collect()
});

/// Every row, in the order of the list.
pub fn all() -> &'static [Weight] {
    &TABLE
}

/// The first row for a food so named and so prepared; adjectives that do not change the weight may stand before the name.
pub fn find(name: &str, prep: &[String]) -> Option<&'static Weight> {
    let mut name = foods::fold(name);
    let prep = foods::fold(&crate::letters::join(prep, " "));
    loop {
        let fits = |w: &&Weight| {
            w.names.contains(&name) && (w.when.is_empty() || w.when.iter().any(|p| foods::holds(&prep, p)))
        };
        if let Some(row) = TABLE.iter().find(fits) {
            return Some(row);
        }
        let (first, rest) = name.split_once(' ')?;
        if !lexicon().has("weighs alike", first) {
            return None;
        }
        name = rest.to_owned();
    }
}

/// Reads "name, name ; NDB ; food ; count measure ; grams ; when, when"; the last part may be missing.
fn row(line: &'static str) -> Option<Weight> {
    let mut parts = line.split(';').map(str::trim);
    let names = parts.next()?.split(',').map(foods::fold).collect();
    let (ndb, food) = (parts.next()?, parts.next()?);
    let (count, measure) = parts.next()?.split_once(' ')?;
    let grams = parts.next()?.parse().ok()?;
    let when = parts.next().map(|w| w.split(',').map(foods::fold).collect()).unwrap_or_default();
    let unit = match measure.get(..3)? {
        "tsp" => Unit::Teaspoon,
        "tbs" => Unit::Tablespoon,
        "fl " => Unit::FluidOunce,
        _ => Unit::Cup,
    };
    Some(Weight { ndb, food, measure, count: count.parse().ok()?, grams, unit, names, when })
}
