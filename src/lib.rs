//! Plainspoon turns a dictated recipe into cards other people can cook from.
#![warn(missing_docs)]

pub mod draft;
pub mod kitchen;
pub mod measure;
pub mod output;
pub mod reading;
pub mod recipe;

pub use reading::read;
