//! The same reading for other scripts of a page: plain objects, through one serializer.

use crate::kitchen::Wanted;
use crate::kitchen::ask::{Options, wanted};
use crate::output::card::CardView;
use crate::output::view::view;
use serde::{Deserialize, Serialize};
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

/// What [`set`] takes, all of it optional.
#[derive(Default, Deserialize)]
#[serde(default)]
struct Asked {
    scale: Option<String>,
    servings: Option<String>,
    pan: Option<String>,
    units: Option<String>,
    measures: Option<String>,
    heat: Option<String>,
    lengths: Option<String>,
}

/// One card of a draft in another size or other measures: `set(draft, 0, {servings: "4", units: "metric"})`. The options
/// are those of the program, typed as there; one that cannot be used is thrown as a sentence.
#[wasm_bindgen]
pub fn set(draft: &str, card: usize, options: JsValue) -> Result<JsValue, JsValue> {
    let asked: Asked = serde_wasm_bindgen::from_value(options)?;
    let book = crate::read(draft);
    let card = book.cards.get(card).ok_or("the draft has no such card")?;
    let options = Options {
        scale: asked.scale.as_deref(),
        servings: asked.servings.as_deref(),
        pan: asked.pan.as_deref(),
        units: asked.units.as_deref(),
        measures: asked.measures.as_deref(),
        heat: asked.heat.as_deref(),
        lengths: asked.lengths.as_deref(),
    };
    let wanted = wanted(card, &options).map_err(|why| JsValue::from_str(&why.to_string()))?;
    to_object(&view(card, &wanted))
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
