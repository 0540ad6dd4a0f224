//! Whose cup it is: one word becomes a size, "a pint" 473 ml in Ohio and 568 ml in Leeds.

use super::foods;
use crate::measure::{Dimension, Heat, Length, Ratio, Unit};
use crate::recipe::{Card, PieceKind};

/// A country's set of cups, spoons and pints.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Measures {
    /// US customary: cup 236.588 ml, tablespoon 14.787 ml, pint 473.176 ml.
    #[default]
    Us,
    /// British: spoons of 5, 10 and 15 ml, pint 568.261 ml, and the metric cup of 250 ml.
    Uk,
    /// Metric: spoons of 5 and 15 ml, cup of 250 ml; pints are imperial, as in Canada and New Zealand.
    Metric,
    /// Australian: as metric, with a tablespoon of 20 ml.
    Australian,
}

/// The imperial gallon is 4.54609 l (Unicode CLDR 48; NIST SP 811, table B.8).
const IMPERIAL_GALLON: Ratio = Ratio::of(454_609, 100);
/// The US gallon is 231 cubic inches of 2.54 cm (NIST SP 811, table B.8).
const US_GALLON: Ratio = Ratio::of(3_785_411_784, 1_000_000);
/// The pound is 453.59237 g (NIST SP 811, table B.8).
const POUND: Ratio = Ratio::of(45_359_237, 100_000);

impl Measures {
    /// All four, in the order of the table above.
    pub const ALL: [Measures; 4] = [Measures::Us, Measures::Uk, Measures::Metric, Measures::Australian];

    /// Reads "us", "uk", "metric" or "australian".
    pub fn parse(word: &str) -> Option<Measures> {
        Measures::ALL.into_iter().find(|m| m.name() == word)
    }

    /// "us", "uk", "metric", "australian".
    pub const fn name(self) -> &'static str {
        match self {
            Measures::Us => "us",
            Measures::Uk => "uk",
            Measures::Metric => "metric",
            Measures::Australian => "australian",
        }
    }

    /// How many millilitres the unit holds, exactly, where it measures volume.
    ///
    /// Spoons and cups of metric kitchens: 5, 10, 15 (Australia 20) and 250 ml, common practice.
    pub fn milliliters(self, unit: Unit) -> Option<Ratio> {
        if self == Measures::Us || matches!(unit, Unit::Milliliter | Unit::Liter) {
            return unit.factor_to(Unit::Milliliter);
        }
        Some(match unit {
            Unit::Teaspoon => Ratio::whole(5),
            Unit::Dessertspoon => Ratio::whole(10),
            Unit::Tablespoon if self == Measures::Australian => Ratio::whole(20),
            Unit::Tablespoon => Ratio::whole(15),
            Unit::Cup => Ratio::whole(250),
            Unit::FluidOunce => IMPERIAL_GALLON / Ratio::whole(160),
            Unit::Pint => IMPERIAL_GALLON / Ratio::whole(8),
            Unit::Quart => IMPERIAL_GALLON / Ratio::whole(4),
            Unit::Gallon => IMPERIAL_GALLON,
            _ => return None,
        })
    }

    /// The set the card itself suggests: a gas mark, a fan, a dessertspoon or a word that only one country's cooks use
    /// (`lexicon/countries.txt`); Celsius, centimetres or grams alone suggest metric spoons; else US.
    pub fn of_card(card: &Card) -> Measures {
        let words = card.lines.iter().map(|l| l.name.as_str()).chain(card.pans.iter().map(|p| p.what.called.as_str()));
        if let Some(set) = words.filter_map(of_word).max_by_key(|m| *m == Measures::Australian) {
            return set;
        }
        let ovens = card.ovens.iter().map(|o| o.what);
        let in_steps = card.steps.iter().flat_map(|s| &s.pieces).filter_map(|p| match p.kind {
            PieceKind::Heat(heat) => Some(heat),
            _ => None,
        });
        let heats: Vec<Heat> = ovens.clone().chain(in_steps).collect();
        let units: Vec<Unit> = card.lines.iter().filter_map(|l| l.amount?.unit()).collect();
        if heats.iter().any(|h| matches!(h, Heat::Fan(_) | Heat::Gas(_))) || units.contains(&Unit::Dessertspoon) {
            return Measures::Uk;
        }
        if heats.iter().any(|h| matches!(h, Heat::Fahrenheit(_))) {
            return Measures::Us;
        }
        let metric_units =
            units.iter().any(|u| matches!(u, Unit::Gram | Unit::Kilogram | Unit::Milliliter | Unit::Liter));
        let imperial_units = units.iter().any(|u| matches!(u, Unit::Ounce | Unit::Pound | Unit::Stick | Unit::Quart));
        let centimeters = card.pans.iter().any(|p| p.what.length == Length::Centimeter && !p.what.sides.is_empty());
        // Warm milk said to be at 40 degrees is no sign of a metric kitchen; its oven is.
        let celsius = ovens.clone().any(|h| matches!(h, Heat::Celsius(_)));
        if celsius || centimeters || (metric_units && !imperial_units) { Measures::Metric } else { Measures::Us }
    }
}

/// The country a word gives away.
fn of_word(name: &str) -> Option<Measures> {
    let name = foods::fold(name);
    crate::lexicon::lists::list("countries.txt").lines().filter(|l| !l.starts_with('#')).find_map(|line| {
        let (set, words) = line.split_once('=')?;
        let said = words.split(',').any(|w| foods::holds(&name, &foods::fold(w)));
        said.then(|| Measures::parse(set.trim())).flatten()
    })
}

/// Other standard units by their Unicode CLDR names, in millilitres or grams, exactly: the table against which ours is
/// checked, and the sizes that old recipes mean. CLDR's dessert spoons are a quarter of what cooks call one
/// (1/2048 gallon, 1.8 ml), so [`Measures::milliliters`] does not follow it there.
pub fn standard(name: &str) -> Option<(Dimension, Ratio)> {
    let us = |parts: i64| (Dimension::Volume, US_GALLON / Ratio::whole(parts));
    let imperial = |parts: i64| (Dimension::Volume, IMPERIAL_GALLON / Ratio::whole(parts));
    let grams = |r: Ratio| (Dimension::Weight, r);
    Some(match name {
        "teaspoon" => us(768),
        "tablespoon" => us(256),
        "cup" => us(16),
        "fluid-ounce" => us(128),
        "pint" => us(8),
        "quart" => us(4),
        "gallon" => us(1),
        "dram" => us(1024),
        "jigger" => (Dimension::Volume, US_GALLON * Ratio::of(3, 256)),
        "pinch" => us(16_384),
        "drop" => us(73_728),
        "dessert-spoon" => us(2048),
        "cup-metric" => (Dimension::Volume, Ratio::whole(250)),
        "pint-metric" => (Dimension::Volume, Ratio::whole(500)),
        "liter" => (Dimension::Volume, Ratio::whole(1000)),
        "fluid-ounce-imperial" => imperial(160),
        "cup-imperial" => imperial(16),
        "pint-imperial" => imperial(8),
        "quart-imperial" => imperial(4),
        "gallon-imperial" => imperial(1),
        "dessert-spoon-imperial" => imperial(2048),
        "ounce" => grams(POUND / Ratio::whole(16)),
        "pound" => grams(POUND),
        "stone" => grams(POUND * Ratio::whole(14)),
        "gram" => grams(Ratio::ONE),
        "kilogram" => grams(Ratio::whole(1000)),
        _ => return None,
    })
}
