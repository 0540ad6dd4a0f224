//! The same reading for other scripts of a page: plain objects, through one serializer.

use crate::kitchen::Wanted;
use crate::output::card::CardView;
use crate::output::view::view;
use serde::Serialize;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

#[derive(Serialize)]
struct Reading {
    cards: Vec<CardView>,
}

/// Reads a draft: `{cards: [...]}`, each card as it is shown, as spoken. Never fails on any text.
#[wasm_bindgen]
pub fn read(draft: &str) -> Result<JsValue, JsValue> {
    let cards = crate::read(draft).cards.iter().map(|card| view(card, &Wanted::default())).collect();
    to_object(&Reading { cards })
}

/// Starts the page: finds its parts, brings back the last draft, listens.
#[wasm_bindgen]
pub fn start() -> Result<(), JsValue> {
    crate::page::start()
}

fn to_object(value: &impl Serialize) -> Result<JsValue, JsValue> {
    // Plain objects and null, so that what arrives can be written as JSON again.
    Ok(value.serialize(&Serializer::json_compatible())?)
}
