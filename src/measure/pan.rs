//! Pans: "a nine by thirteen" is a rectangle of 9 by 13 inches, "a two quart dish" holds 2 quarts.

use super::{Amount, Ratio};
use std::fmt;

/// The shape of a pan, dish or tin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // Each variant's name is its doc.
pub enum Shape {
    Rectangle,
    Square,
    Round,
    Loaf,
    Skillet,
    Tube,
    Pie,
    Sheet,
    Muffin,
    /// A pot, pan or dish of no shape a card needs.
    Other,
}

impl Shape {
    /// "rectangle".
    pub const fn name(self) -> &'static str {
        match self {
            Shape::Rectangle => "rectangle",
            Shape::Square => "square",
            Shape::Round => "round",
            Shape::Loaf => "loaf",
            Shape::Skillet => "skillet",
            Shape::Tube => "tube",
            Shape::Pie => "pie",
            Shape::Sheet => "sheet",
            Shape::Muffin => "muffin",
            Shape::Other => "other",
        }
    }
}

/// What a pan's sides are counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // Each variant's name is its doc.
pub enum Length {
    Inch,
    Centimeter,
}

/// A pan, as said.
#[derive(Clone, Debug)]
pub struct Pan {
    /// Its shape.
    pub shape: Shape,
    /// Its sides or its width across, in `length`, as said: [9, 13] or [10]. Empty where only the capacity was said.
    pub sides: Vec<Ratio>,
    /// What the sides are counted in.
    pub length: Length,
    /// What it holds ("a two quart dish"), where said.
    pub holds: Option<Amount>,
    /// What she calls it: "baking dish", "cast iron skillet", "foil pan".
    pub called: String,
}

impl Pan {
    /// Whether two pans are one size, whatever they are called.
    pub fn same_size(&self, other: &Pan) -> bool {
        self.sides == other.sides && self.length == other.length
    }
}

impl fmt::Display for Pan {
    /// "9 × 13 in baking dish", "20 × 30 cm tin", "12-quart pot".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (n, side) in self.sides.iter().enumerate() {
            if n > 0 {
                f.write_str(" × ")?;
            }
            write!(f, "{side:#}")?;
        }
        if !self.sides.is_empty() {
            f.write_str(match self.length {
                Length::Inch => " in ",
                Length::Centimeter => " cm ",
            })?;
        } else if let Some(holds) = &self.holds {
            write!(f, "{:#}", holds.low())?;
            if let Some(unit) = holds.unit() {
                write!(f, "-{unit} ")?;
            }
        }
        f.write_str(&self.called)
    }
}
