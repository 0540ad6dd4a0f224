//! Amounts: "a cup and a half" is 3/2 cup, "three to four cups" is 3 to 4 cup.

use super::{Ratio, Unit};
use std::fmt;

/// How the cook said it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Manner {
    /// As the figure says.
    #[default]
    Plain,
    /// "about", "roughly", "or so".
    About,
    /// "heaping", "generous", "big".
    Heaping,
    /// "scant", "just under".
    Scant,
}

/// An amount, exact. It has no `PartialEq`: 16 tablespoons and 1 cup are the same size in other words, so a caller says
/// which it means with [`Amount::same_size`] or [`Amount::same_words`].
// Invariant: 0 < low <= high.
#[derive(Clone, Copy, Debug)]
pub struct Amount {
    low: Ratio,
    high: Ratio,
    unit: Option<Unit>,
    manner: Manner,
}

impl Amount {
    /// One figure; `None` where it is not more than nothing.
    pub fn new(figure: Ratio, unit: Option<Unit>) -> Option<Amount> {
        Amount::range(figure, figure, unit)
    }

    /// A range, in either order; `None` where an end is not more than nothing.
    pub fn range(a: Ratio, b: Ratio, unit: Option<Unit>) -> Option<Amount> {
        let (low, high) = if a <= b { (a, b) } else { (b, a) };
        (low > Ratio::ZERO).then_some(Amount { low, high, unit, manner: Manner::Plain })
    }

    /// The same amount, measured in the manner given.
    pub fn in_manner(self, manner: Manner) -> Amount {
        Amount { manner, ..self }
    }

    /// The same figures in another unit word, without converting ("half of it" of a can is half a can).
    pub fn in_unit(self, unit: Option<Unit>) -> Amount {
        Amount { unit, ..self }
    }

    /// The low end; the figure itself where there is no range.
    pub fn low(&self) -> Ratio {
        self.low
    }

    /// The high end; equal to the low end where there is no range.
    pub fn high(&self) -> Ratio {
        self.high
    }

    /// The unit; `None` for a plain count.
    pub fn unit(&self) -> Option<Unit> {
        self.unit
    }

    /// How it was measured.
    pub fn manner(&self) -> Manner {
        self.manner
    }

    /// Whether two different figures were said.
    pub fn is_range(&self) -> bool {
        self.low != self.high
    }

    /// The amount times a factor above 0; a factor of 0 or less leaves it alone.
    pub fn times(self, factor: Ratio) -> Amount {
        if factor <= Ratio::ZERO {
            return self;
        }
        Amount { low: self.low * factor, high: self.high * factor, ..self }
    }

    /// The same amount in another unit of the same dimension, exactly.
    pub fn to(self, unit: Unit) -> Option<Amount> {
        let factor = self.unit?.factor_to(unit)?;
        Some(Amount { unit: Some(unit), ..self.times(factor) })
    }

    /// Both together, in the unit that reads plainly; `None` where they measure different things.
    pub fn plus(self, other: Amount) -> Option<Amount> {
        if self.unit == other.unit {
            return Some(Amount { low: self.low + other.low, high: self.high + other.high, ..self });
        }
        let (mine, theirs) = (self.unit?, other.unit?);
        let (a, b) = (self.to(theirs)?, other.to(mine)?);
        let in_mine = Amount { low: self.low + b.low, high: self.high + b.high, ..self };
        let in_theirs = Amount { low: a.low + other.low, high: a.high + other.high, ..other };
        let (big, small) =
            if mine.factor_to(theirs)? > Ratio::ONE { (in_mine, in_theirs) } else { (in_theirs, in_mine) };
        // Fifty tablespoons are measured as three cups and an eighth.
        let plain = |r: Ratio| [1, 2, 3, 4].contains(&r.den()) || r.den() == 8 && r > Ratio::ONE;
        Some(if plain(big.low) && plain(big.high) { big } else { small })
    }

    /// What is left after taking `other` away; `None` where they measure different things or nothing is left.
    pub fn minus(self, other: Amount) -> Option<Amount> {
        let o = if self.unit == other.unit { other } else { other.to(self.unit?)? };
        Amount::range(self.low - o.low, self.high - o.high, self.unit).map(|a| a.in_manner(self.manner))
    }

    /// Whether both come to one size, whatever the unit said.
    pub fn same_size(&self, other: &Amount) -> bool {
        match (self.unit, other.unit) {
            (a, b) if a == b => self.low == other.low && self.high == other.high,
            (Some(_), Some(theirs)) => {
                self.to(theirs).is_some_and(|mine| mine.low == other.low && mine.high == other.high)
            }
            _ => false,
        }
    }

    /// Whether both were said alike: the same figures in the same unit.
    pub fn same_words(&self, other: &Amount) -> bool {
        self.unit == other.unit && self.low == other.low && self.high == other.high
    }
}

impl fmt::Display for Amount {
    /// "3/2" never: "1 1/2 cup", "3 to 4 cup", "2". The unit stays singular; cards are set by `output`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.manner {
            Manner::Plain => {}
            Manner::About => f.write_str("about ")?,
            Manner::Heaping => f.write_str("heaping ")?,
            Manner::Scant => f.write_str("scant ")?,
        }
        if self.is_range() {
            write!(f, "{} to {}", self.low, self.high)?
        } else {
            write!(f, "{}", self.low)?
        }
        match self.unit {
            Some(unit) => write!(f, " {unit}"),
            None => Ok(()),
        }
    }
}
