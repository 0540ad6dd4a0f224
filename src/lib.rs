//! Plainspoon turns a dictated recipe into cards other people can cook from.
#![warn(missing_docs)]
// The rules of talk are written the way they are said ("not this unless that"), which is not always their shortest form.
#![allow(clippy::nonminimal_bool)]

pub mod draft;
pub mod edit;
pub mod grammar;
pub mod item;
pub mod kitchen;
pub mod letters;
pub mod lexicon;
pub mod measure;
pub mod order;
pub mod output;
pub mod reading;
pub mod recipe;
pub mod token;

#[cfg(target_arch = "wasm32")]
pub mod js;
#[cfg(target_arch = "wasm32")]
pub mod page;

pub use reading::{read, read_leaving};
