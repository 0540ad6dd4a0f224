//! Recipe to recipe, by the policy of a kitchen: any size, any units.

use crate::measure::Ratio;

/// Which units a card is printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Units {
    /// As the cook said them.
    #[default]
    Said,
    /// US cups and spoons.
    Us,
    /// Millilitres and grams as said dimension.
    Metric,
    /// Grams wherever a published table knows the food.
    Weight,
}

/// What the reader asked of a card.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    /// 1 is as spoken; 1/16 to 100.
    pub factor: Ratio,
    /// The units.
    pub units: Units,
}

impl Default for Wanted {
    fn default() -> Wanted {
        Wanted { factor: Ratio::ONE, units: Units::Said }
    }
}
