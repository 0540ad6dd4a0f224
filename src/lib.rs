//! Plainspoon turns a dictated recipe into cards other people can cook from.
#![warn(missing_docs)]

pub mod draft;
pub mod grammar;
pub mod kitchen;
pub mod lexicon;
pub mod measure;
pub mod output;
pub mod reading;
pub mod recipe;
pub mod token;

pub use reading::read;
