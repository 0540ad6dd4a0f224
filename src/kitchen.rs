//! Recipe to recipe, by the policy of a kitchen: any size, any units.
//!
//! 1. [`ask`] reads what was typed, and [`factor`] turns it (a factor, servings, a pan) into one exact number;
//! 2. [`scale`] multiplies the card by it, exactly;
//! 3. [`convert`] puts amounts, heats and sizes in the units wanted, still exactly;
//! 4. [`round`] and [`count`] choose what a kitchen can measure, once, at the end, and say what was lost;
//! 5. [`figures`] does 3 and 4 for a whole card, so that the divided parts still add up to the total;
//! 6. [`advice`] and [`caution`] say what figures cannot.
//!
//! [`measures`], [`foods`], [`weights`], [`pan`] and [`signs`] hold what is known: sizes of spoons, kinds of food,
//! published weights, shapes of pans, words that call for care.
//!
//! Invariant: nothing in `kitchen` imports the grammar or the reading, and nothing here changes a heat, a time or a
//! pan's size.

pub mod advice;
pub mod ask;
pub mod caution;
pub mod convert;
pub mod count;
pub mod factor;
pub mod figures;
pub mod foods;
pub mod measures;
pub mod pan;
pub mod round;
pub mod scale;
pub mod signs;
pub mod weights;

pub use factor::{FACTOR_LEAST, FACTOR_MOST};
pub use measures::Measures;

use crate::measure::Ratio;
use pan::Vessel;

/// Which units a card is printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Units {
    /// As the cook said them.
    #[default]
    Said,
    /// US cups and spoons, ounces and pounds.
    Us,
    /// Millilitres where a volume was said, grams where a weight was; spoonfuls stay spoonfuls.
    Metric,
    /// Grams wherever a published table knows the food.
    Weight,
}

impl Units {
    /// Reads "said", "us", "metric" or "weight".
    pub fn parse(word: &str) -> Option<Units> {
        Some(match word {
            "said" => Units::Said,
            "us" => Units::Us,
            "metric" => Units::Metric,
            "weight" => Units::Weight,
            _ => return None,
        })
    }
}

/// How the oven is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum HeatScale {
    /// With the units: Fahrenheit with US units, Celsius with metric ones, else as said.
    #[default]
    Follow,
    /// As the cook said it.
    Said,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees Celsius.
    Celsius,
    /// Degrees Celsius of an oven with its fan on.
    Fan,
    /// British gas marks.
    Gas,
}

impl HeatScale {
    /// Reads "said", "f", "c", "fan" or "gas".
    pub fn parse(word: &str) -> Option<HeatScale> {
        Some(match word {
            "said" => HeatScale::Said,
            "f" => HeatScale::Fahrenheit,
            "c" => HeatScale::Celsius,
            "fan" => HeatScale::Fan,
            "gas" => HeatScale::Gas,
            _ => return None,
        })
    }
}

impl Lengths {
    /// Reads "said", "in" or "cm".
    pub fn parse(word: &str) -> Option<Lengths> {
        Some(match word {
            "said" => Lengths::Said,
            "in" => Lengths::Inches,
            "cm" => Lengths::Centimeters,
            _ => return None,
        })
    }
}

/// How a pan's sides are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Lengths {
    /// With the units, as the heat does.
    #[default]
    Follow,
    /// As the cook said them.
    Said,
    /// Inches.
    Inches,
    /// Centimetres.
    Centimeters,
}

/// What the reader asked of a card.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    /// 1 is as spoken; 1/16 to 100. [`factor`] makes it of what the reader typed.
    pub factor: Ratio,
    /// The units.
    pub units: Units,
    /// Whose cups, spoons and pints the cook meant; `None` lets the card tell ([`Measures::of_card`]).
    pub measures: Option<Measures>,
    /// How the oven is printed.
    pub heat: HeatScale,
    /// How pans are printed.
    pub lengths: Lengths,
    /// The pan at hand, where the factor was named by one; it changes no figure, only the advice.
    pub pan: Option<Vessel>,
}

impl Default for Wanted {
    fn default() -> Wanted {
        Wanted {
            factor: Ratio::ONE,
            units: Units::Said,
            measures: None,
            heat: HeatScale::Follow,
            lengths: Lengths::Follow,
            pan: None,
        }
    }
}
