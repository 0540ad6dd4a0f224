//! What a reader typed becomes what is wanted of a card: "--servings 4 --units metric" is half of a card for eight, in
//! millilitres. The program, the page and the JavaScript interface all come through here.

use super::factor::{self, FactorError};
use super::pan::Vessel;
use super::{HeatScale, Lengths, Measures, Units, Wanted};
use crate::measure::Ratio;
use crate::recipe::Card;
use std::fmt;

/// The options as typed; `None` where one was not given.
#[derive(Clone, Copy, Debug, Default)]
pub struct Options<'a> {
    /// A factor: "1/2", "2", "1.5".
    pub scale: Option<&'a str>,
    /// How many servings or pieces: "4".
    pub servings: Option<&'a str>,
    /// The pan at hand: "8 by 8".
    pub pan: Option<&'a str>,
    /// "said", "us", "metric" or "weight".
    pub units: Option<&'a str>,
    /// Whose cups she meant: "us", "uk", "metric" or "australian".
    pub measures: Option<&'a str>,
    /// "said", "f", "c", "fan" or "gas".
    pub heat: Option<&'a str>,
    /// "said", "in" or "cm".
    pub lengths: Option<&'a str>,
}

/// Why options make nothing wanted of a card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AskError {
    /// A factor, servings and a pan are three names of one thing: only one may be given.
    TwoSizes,
    /// The size could not be made out or used.
    Size(FactorError),
    /// An option has no such choice: the option, what was typed, the choices.
    NoChoice(&'static str, String, &'static str),
}

impl fmt::Display for AskError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            AskError::TwoSizes => f.write_str("give one of scale, servings and pan: they are three names of one size"),
            AskError::Size(size) => size.fmt(f),
            AskError::NoChoice(option, typed, choices) => {
                write!(f, "{option} cannot be \"{typed}\" (it is one of {choices})")
            }
        }
    }
}

impl std::error::Error for AskError {}

impl From<FactorError> for AskError {
    fn from(size: FactorError) -> AskError {
        AskError::Size(size)
    }
}

/// What is wanted of one card. Servings and pans make another factor of each card, so this is asked card by card.
pub fn wanted(card: &Card, options: &Options<'_>) -> Result<Wanted, AskError> {
    let mut wanted = Wanted {
        units: choose("units", options.units, "said, us, metric, weight", Units::parse)?.unwrap_or_default(),
        measures: choose("measures", options.measures, "us, uk, metric, australian", Measures::parse)?,
        heat: choose("heat", options.heat, "said, f, c, fan, gas", HeatScale::parse)?.unwrap_or_default(),
        lengths: choose("lengths", options.lengths, "said, in, cm", Lengths::parse)?.unwrap_or_default(),
        ..Wanted::default()
    };
    match (options.scale, options.servings, options.pan) {
        (None, None, None) => {}
        (Some(scale), None, None) => wanted.factor = factor::parse(scale)?,
        (None, Some(servings), None) => wanted.factor = factor::for_servings_said(card, servings)?,
        (None, None, Some(pan)) => {
            let (between, pan) = factor::for_pan_said(card, pan)?;
            wanted.factor = between.handy;
            wanted.pan = Vessel::of(&pan);
        }
        _ => return Err(AskError::TwoSizes),
    }
    if wanted.factor != Ratio::ONE {
        wanted.factor = factor::allowed(card, wanted.factor)?;
    }
    Ok(wanted)
}

fn choose<T>(
    option: &'static str,
    typed: Option<&str>,
    choices: &'static str,
    parse: fn(&str) -> Option<T>,
) -> Result<Option<T>, AskError> {
    let Some(typed) = typed else { return Ok(None) };
    let known = parse(crate::letters::lower(typed.trim()).as_str());
    known.map(Some).ok_or_else(|| AskError::NoChoice(option, typed.to_owned(), choices))
}
