//! The same reading for other scripts of a page: plain objects, through one serializer.

use crate::kitchen::Wanted;
use crate::kitchen::ask::{Options, wanted};
use crate::output::card::CardView;
use crate::output::view::view;
use serde::Serialize;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// The page's heap.
#[global_allocator]
static HEAP: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

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

/// One option of [`set`], as text; a number will do where text is wanted.
fn option(options: &JsValue, name: &str) -> Option<String> {
    let value = js_sys::Reflect::get(options, &JsValue::from_str(name)).ok()?;
    if value.is_undefined() || value.is_null() {
        return None;
    }
    // JavaScript writes its own numbers, so that the page carries no code for it.
    value.as_string().or_else(|| js_sys::Object::from(value).to_string().as_string())
}

/// One card of a draft in another size or other measures: `set(draft, 0, {servings: "4", units: "metric"})`. The options
/// are those of the program, typed as there; one that cannot be used is thrown as a sentence.
#[wasm_bindgen]
pub fn set(draft: &str, card: usize, options: JsValue) -> Result<JsValue, JsValue> {
    let asked = |name: &str| option(&options, name);
    let (scale, servings, pan) = (asked("scale"), asked("servings"), asked("pan"));
    let (units, measures, heat, lengths) = (asked("units"), asked("measures"), asked("heat"), asked("lengths"));
    let book = crate::read(draft);
    let card = book.cards.get(card).ok_or("the draft has no such card")?;
    let options = Options {
        scale: scale.as_deref(),
        servings: servings.as_deref(),
        pan: pan.as_deref(),
        units: units.as_deref(),
        measures: measures.as_deref(),
        heat: heat.as_deref(),
        lengths: lengths.as_deref(),
    };
    let wanted = wanted(card, &options).map_err(|why| JsValue::from_str(&why.to_string()))?;
    to_object(&view(card, &wanted))
}

/// Takes the word lists (`words.txt`), once, before anything else is asked for.
#[wasm_bindgen]
pub fn words(text: String) {
    crate::lexicon::lists::supply(text);
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
