//! One factor, named three ways: "1/2", "4 servings", "an 8-inch square" all halve a card for eight in a 9 by 13.

use super::foods;
use super::pan::{self, Between, Vessel};
use super::round;
use super::signs::{self, Sign};
use crate::measure::{Pan, Ratio};
use crate::recipe::{Card, Yield};
use std::fmt;

/// The least factor: below a sixteenth nothing in a kitchen measures a teaspoon's share.
pub const FACTOR_LEAST: Ratio = Ratio::of(1, 16);
/// The greatest factor: a hundred times a card for four feeds a parish; more is another craft.
pub const FACTOR_MOST: Ratio = Ratio::whole(100);

/// Why no factor was made of what was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FactorError {
    /// The text is no number; it carries the text.
    NotANumber(String),
    /// Outside 1/16 to 100; it carries the factor as asked.
    Outside(Ratio),
    /// Servings were asked of a card that does not say what it makes.
    NoYield,
    /// A pan was asked of a card that names none with a size.
    NoCardPan,
    /// The text names no pan.
    NoPan(pan::NoPan),
    /// A home-canning card is kept as spoken.
    Canning,
}

impl fmt::Display for FactorError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FactorError::NotANumber(said) => write!(f, "\"{said}\" is no number (for example 1/2, 2 or 1.5)"),
            FactorError::Outside(factor) => {
                let shown = if factor.den() <= 1000 { factor.to_string() } else { round::decimal(*factor, 3) };
                write!(f, "{shown} is outside what a card can be sized to, 1/16 to 100 times as spoken")
            }
            FactorError::NoYield => f.write_str("she did not say how much this makes, so give a factor instead"),
            FactorError::NoCardPan => f.write_str("she named no pan with a size, so give a factor instead"),
            FactorError::NoPan(none) => none.fmt(f),
            FactorError::Canning => {
                f.write_str("home canning follows a tested process, which is not resized; the card stays as spoken")
            }
        }
    }
}

impl std::error::Error for FactorError {}

/// Checks that a factor lies within 1/16 to 100.
pub fn within(factor: Ratio) -> Result<Ratio, FactorError> {
    let fine = FACTOR_LEAST <= factor && factor <= FACTOR_MOST;
    if fine { Ok(factor) } else { Err(FactorError::Outside(factor)) }
}

/// Reads a factor as it is typed: "1/2", "2", "1.5", "1 1/2", "½", "half", "double", "as spoken"; a trailing "x" or
/// "times" is let pass.
pub fn parse(text: &str) -> Result<Ratio, FactorError> {
    let lower = crate::letters::lower(text.trim());
    let bare = lower.strip_suffix("times").unwrap_or(&lower).trim_end_matches(['x', '×']).trim();
    let factor = match bare {
        "half" => Ratio::of(1, 2),
        "a third" | "third" => Ratio::of(1, 3),
        "a quarter" | "quarter" => Ratio::of(1, 4),
        "double" | "twice" => Ratio::whole(2),
        "triple" => Ratio::whole(3),
        "as spoken" => Ratio::ONE,
        number => number.parse().map_err(|_| FactorError::NotANumber(text.trim().to_owned()))?,
    };
    within(factor)
}

/// The factor that makes at least `wanted` of what the card makes; of a card for 8 to 10, 4 is a half.
pub fn for_servings(card: &Card, wanted: Ratio) -> Result<Ratio, FactorError> {
    let makes = card.makes.as_ref().ok_or(FactorError::NoYield)?;
    within(wanted / makes.low)
}

/// [`for_servings`] of a number as typed.
pub fn for_servings_said(card: &Card, text: &str) -> Result<Ratio, FactorError> {
    let wanted = text.trim().parse().map_err(|_| FactorError::NotANumber(text.trim().to_owned()))?;
    for_servings(card, wanted)
}

/// The pan a card is made in: the first with a size.
pub fn pan_of(card: &Card) -> Option<&Pan> {
    card.pans.iter().map(|p| &p.what).find(|p| Vessel::of(p).is_some())
}

/// The factor that fills another pan as the card fills its own. [`Between::handy`] is the one to use.
pub fn for_pan(card: &Card, wanted: &Pan) -> Result<Between, FactorError> {
    let from = pan_of(card).and_then(Vessel::of).ok_or(FactorError::NoCardPan)?;
    let to = Vessel::of(wanted).ok_or(FactorError::NoCardPan)?;
    let between = pan::between(&from, &to);
    within(between.handy).map(|_| between)
}

/// [`for_pan`] of a pan as typed.
pub fn for_pan_said(card: &Card, text: &str) -> Result<(Between, Pan), FactorError> {
    let pan = pan::parse(text).map_err(FactorError::NoPan)?;
    Ok((for_pan(card, &pan)?, pan))
}

/// Whether a card may be resized at all; the factor to use, which is 1 for a home-canning card.
pub fn allowed(card: &Card, factor: Ratio) -> Result<Ratio, FactorError> {
    if factor != Ratio::ONE && signs::first(card, Sign::Canning).is_some() {
        return Err(FactorError::Canning);
    }
    within(factor)
}

/// A factor in all its names, so that a page can show them together and changing one updates the others.
#[derive(Clone, Debug, PartialEq)]
pub struct Names {
    /// Exactly.
    pub factor: Ratio,
    /// "1/2", "1 1/2", "0.547".
    pub text: String,
    /// How much it makes at that factor, where said: "4 to 5".
    pub makes: Option<String>,
    /// What is counted: "servings".
    pub of: Option<String>,
    /// The common pans it fits, or how many of the card's own: "8-inch square pan".
    pub pans: Vec<String>,
    /// Whether this is the card as spoken.
    pub as_spoken: bool,
}

/// The names of a factor for a card.
pub fn names(card: &Card, factor: Ratio) -> Names {
    let text = if factor.den() <= 64 { factor.to_string() } else { round::decimal(factor, 3) };
    let makes = card.makes.as_ref().map(|y| self::makes(y, factor));
    let pans = match pan_of(card) {
        None => Vec::new(),
        Some(_) if factor == Ratio::ONE => Vec::new(),
        Some(pan) => match pan::count(pan, factor) {
            Some(n) => vec![format!("{n} of {pan}")],
            None => pan::fits(pan, factor).iter().map(|f| f.name.to_owned()).collect(),
        },
    };
    let of = card.makes.as_ref().map(|y| y.of.clone());
    Names { factor, text, makes, of, pans, as_spoken: factor == Ratio::ONE }
}

/// What a card makes at a factor: "4 to 5", "about 3", "1/2". People and pieces are whole, "about" where they do not come
/// out even; less than one, and gallons, loaves and the like, keep their fraction.
pub fn makes(said: &Yield, factor: Ratio) -> String {
    let (low, high) = (said.low * factor, said.high * factor);
    let whole = |r: Ratio| r.round_to(Ratio::ONE);
    let even = low.is_whole() && high.is_whole();
    let measured = low < Ratio::ONE || said.of.split(' ').any(|w| MEASURED.contains(&foods::singular(w).as_str()));
    let (low, high, about) = match (even, measured) {
        (true, _) => (low.to_string(), high.to_string(), ""),
        (false, true) => {
            let one = |r| round::round(r, None, Default::default(), Default::default()).to_string();
            (one(low), one(high), "")
        }
        (false, false) => (whole(low).to_string(), whole(high).to_string(), "about "),
    };
    if low == high { format!("{about}{low}") } else { format!("{about}{low} to {high}") }
}

/// What comes in fractions: the rest of what a card makes is people or pieces.
const MEASURED: [&str; 14] = [
    "cup", "pint", "quart", "gallon", "liter", "pound", "ounce", "loaf", "pan", "pie", "cake", "tray", "batch", "dozen",
];
