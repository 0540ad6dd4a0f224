//! Exact quantities: the vocabulary that the grammar, the recipe and the kitchen share.
//!
//! Everything here is a plain value. Policy (what to round to, which unit reads best) lives in `kitchen`.

pub mod amount;
pub mod bounds;
pub mod heat;
pub mod pan;
pub mod ratio;
pub mod time;
pub mod unit;

pub use amount::{Amount, Manner};
pub use heat::Heat;
pub use pan::{Length, Pan, Shape};
pub use ratio::Ratio;
pub use time::{Time, TimeUnit};
pub use unit::{Dimension, Unit};
