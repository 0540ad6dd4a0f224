//! The size and the measures a reader chose for each card: kept by title, shown as a sentence.

use super::dom::{self, Js, find, slot};

use crate::edit::{Kept, Size};
use crate::kitchen::ask::{self, AskError, Options};
use crate::kitchen::{Wanted, factor};
use crate::letters::capital;
use crate::output::card::CardView;
use crate::recipe::{Book, Card};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, HtmlSelectElement};

/// What is chosen for one card, as it was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What names the size: "scale", "servings" or "pan".
    pub by: String,
    /// The size: "1/2", "12", "8 by 8".
    pub asked: String,
    /// "said", "us", "metric" or "weight".
    pub units: String,
}

impl Default for Choice {
    fn default() -> Choice {
        Choice { by: "scale".into(), asked: "1".into(), units: "said".into() }
    }
}

impl Choice {
    /// What the kitchen makes of it, or why it cannot.
    pub fn wanted(&self, card: &Card) -> Result<Wanted, AskError> {
        let asked = Some(self.asked.as_str());
        let named = |by: &str| asked.filter(|_| self.by == by);
        let (scale, servings, pan) = (named("scale"), named("servings"), named("pan"));
        ask::wanted(card, &Options { scale, servings, pan, units: Some(&self.units), ..Options::default() })
    }
}

/// Two cards of one title are told apart by their order.
fn key(book: &Book, card: usize) -> Option<(String, usize)> {
    let title = &book.cards.get(card)?.title;
    Some((title.clone(), book.cards[..card].iter().filter(|c| c.title == *title).count()))
}

/// What is chosen for a card; as spoken where nothing is.
pub fn of(kept: &Kept, book: &Book, card: usize) -> Choice {
    let found = key(book, card).and_then(|(title, nth)| kept.sizes.iter().find(|s| s.card == title && s.nth == nth));
    found.map_or_else(Choice::default, |s| Choice { by: s.by.clone(), asked: s.asked.clone(), units: s.units.clone() })
}

/// Keeps a choice; as spoken keeps nothing.
pub fn set(kept: &mut Kept, book: &Book, card: usize, choice: Choice) {
    let Some((title, nth)) = key(book, card) else { return };
    kept.sizes.retain(|s| s.card != title || s.nth != nth);
    if choice != Choice::default() {
        let Choice { by, asked, units } = choice;
        kept.sizes.push(Size { card: title, nth, by, asked, units });
    }
}

/// What to ask the kitchen for; as spoken where the choice no longer fits the card, for the draft may have changed.
pub fn wanted(kept: &Kept, book: &Book, card: usize) -> Wanted {
    let choice = of(kept, book, card);
    let found = book.cards.get(card);
    found
        .and_then(|c| choice.wanted(c).or_else(|_| Choice { units: choice.units, ..Choice::default() }.wanted(c)).ok())
        .unwrap_or_default()
}

/// The sentence under the title of a card that is not as spoken; empty where it is.
pub fn sentence(card: &CardView, said: &CardView) -> String {
    if card.sizing.as_spoken {
        return String::new();
    }
    let mut sentence = format!("{}.", capital(&card.size));
    if let Some(fact) = said.facts.iter().find(|f| f.label == "Serves" || f.label == "Makes") {
        sentence = format!("{sentence} As spoken it {} {}.", crate::letters::lower(&fact.label), fact.value);
    }
    if !card.sizing.pans.is_empty() {
        sentence = format!("{sentence} Takes {}.", crate::letters::join(&card.sizing.pans, ", or "));
    }
    sentence
}

/// Shows the size in the controls of a card, in all its names. What is being typed is left alone.
pub fn show(article: &Element, choice: &Choice, card: &Card, view: &CardView) -> Js<()> {
    let buttons = article.query_selector_all("[data-do=\"size\"]")?;
    for at in 0..buttons.length() {
        let Some(button) = buttons.item(at).and_then(|n| n.dyn_into::<Element>().ok()) else { continue };
        let on = button.get_attribute("data-by").as_deref() == Some(view.sizing.factor.as_str());
        button.set_attribute("aria-pressed", if on { "true" } else { "false" })?;
    }
    put(&find(article, "[data-do=\"scale\"]")?, &view.sizing.factor);
    dom::show(&slot(article, "servings")?, card.makes.is_some())?;
    put(&find(article, "[data-do=\"servings\"]")?, view.sizing.makes.as_deref().unwrap_or(""));
    let of = view.sizing.of.as_deref().unwrap_or("");
    slot(article, "servings-of")?.set_text_content(Some(of));
    dom::show(&slot(article, "pan")?, factor::pan_of(card).is_some())?;
    put(&find(article, "[data-do=\"pan\"]")?, if choice.by == "pan" { &choice.asked } else { "" });
    find::<HtmlSelectElement>(article, "[data-do=\"units\"]")?.set_value(&choice.units);
    Ok(())
}

fn put(input: &HtmlInputElement, text: &str) {
    let focused = input.owner_document().and_then(|d| d.active_element());
    if !focused.is_some_and(|f| f.is_same_node(Some(input))) {
        input.set_value(text);
    }
}
