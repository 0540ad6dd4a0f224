//! The grammar: rows of tokens become amounts, times, heats, pans, yields and foods.
//!
//! Conventions. A production has its EBNF above it and the same name below; it matches at the front or misses, and judges
//! nothing. `opt_` may take nothing. Order matters in `alt`: the longest branch first. Unknown talk costs nothing, because
//! the reading tries the productions at each token and steps on by one where all miss.
//!
//! ```text
//! number   := mixed (("to" | "or" | "-") mixed)?
//! mixed    := whole ("and"? fraction)? | fraction | "a dozen" | "a couple"
//! fraction := ("a" | "one" | whole)? ("half" | "third" | "quarter" | …) | 1/2
//! amount   := manner? number size? unit ("and" "a"? fraction)?
//! package  := number (size unit)? container
//! food     := (describer | preparation)* known-food head*
//! time     := number time-unit (("and" number time-unit?) | "and a half")?
//! heat     := degrees scale? | "gas" "mark"? whole | "broil"
//! pan      := side ("by" side)* length? words* pan-word
//! ```

pub mod amount;
pub mod food;
pub mod heat;
pub mod number;
pub mod pan;
pub mod time;
pub mod word;
pub mod yields;
