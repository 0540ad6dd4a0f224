//! Recipes become something to look at or send: the card view, plain text, JSON.

pub mod card;
pub mod figures;
pub mod json;
pub mod proof;
pub mod text;
pub mod view;
