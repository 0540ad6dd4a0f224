//! The size and the measures a reader chose for each card: kept by title, shown as a sentence.

use super::dom::{self, Js, find, slot};
use crate::edit::{Kept, Size};
use crate::kitchen::{Units, Wanted};
use crate::measure::Ratio;
use crate::output::card::CardView;
use crate::recipe::Book;
use web_sys::{Element, HtmlInputElement, HtmlSelectElement};

/// The smallest and the largest factor a card is set at.
const LEAST: Ratio = Ratio::of(1, 16);
const MOST: Ratio = Ratio::whole(100);

/// What is chosen for one card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// 1 is as spoken.
    pub factor: Ratio,
    /// The measures.
    pub units: Units,
}

/// Each of the measures with the name it is kept by.
const NAMES: [(&str, Units); 4] =
    [("said", Units::Said), ("us", Units::Us), ("metric", Units::Metric), ("weight", Units::Weight)];

/// The measures of that name; her own where there are none.
pub fn units(name: &str) -> Units {
    NAMES.iter().find(|(n, _)| *n == name).map_or(Units::Said, |(_, u)| *u)
}

fn name(units: Units) -> &'static str {
    NAMES.iter().find(|(_, u)| *u == units).map_or("said", |(n, _)| n)
}

/// Two cards of one title are told apart by their order.
fn key(book: &Book, card: usize) -> Option<(String, usize)> {
    let title = &book.cards.get(card)?.title;
    Some((title.clone(), book.cards[..card].iter().filter(|c| c.title == *title).count()))
}

/// What is chosen for a card; as spoken where nothing is.
pub fn of(kept: &Kept, book: &Book, card: usize) -> Choice {
    let found = key(book, card).and_then(|(title, nth)| kept.sizes.iter().find(|s| s.card == title && s.nth == nth));
    found.filter(|s| within(s.factor)).map_or(Choice { factor: Ratio::ONE, units: Units::Said }, |s| Choice {
        factor: s.factor,
        units: units(&s.units),
    })
}

/// Keeps a choice; as spoken in her own measures keeps nothing.
pub fn set(kept: &mut Kept, book: &Book, card: usize, choice: Choice) {
    let Some((title, nth)) = key(book, card) else { return };
    kept.sizes.retain(|s| s.card != title || s.nth != nth);
    if choice.factor != Ratio::ONE || choice.units != Units::Said {
        kept.sizes.push(Size { card: title, nth, factor: choice.factor, units: name(choice.units).into() });
    }
}

/// What to ask the kitchen for.
#[allow(clippy::needless_update)] // The kitchen may learn to want more than a factor and units.
pub fn wanted(kept: &Kept, book: &Book, card: usize) -> Wanted {
    let Choice { factor, units } = of(kept, book, card);
    Wanted { factor, units, ..Wanted::default() }
}

/// Whether a card can be set at this factor.
pub fn within(factor: Ratio) -> bool {
    (LEAST..=MOST).contains(&factor)
}

/// The factor a typed number asks for, or what to type instead.
pub fn typed(text: &str) -> Result<Ratio, &'static str> {
    let factor: Ratio = text.parse().map_err(|_| "Type a number, such as 3, 1/2 or 1 1/2.")?;
    if within(factor) { Ok(factor) } else { Err("A card can be set from 1/16 to 100 times what was spoken.") }
}

/// The factor that serves so many. Of a range the low end counts, so that there is enough.
pub fn serving(text: &str, low: Ratio) -> Result<Ratio, &'static str> {
    let wished: Ratio = text.parse().map_err(|_| "Type how many, such as 12.")?;
    let factor = wished / low;
    if within(factor) { Ok(factor) } else { Err("That is outside 1/16 to 100 times what was spoken.") }
}

/// The sentence under the title of a card that is not as spoken; empty where it is.
pub fn sentence(card: &CardView, said: &CardView, choice: &Choice) -> String {
    if choice.factor == Ratio::ONE {
        return String::new();
    }
    let size = super::paint::capital(&card.size);
    match said.facts.iter().find(|f| f.label == "Serves" || f.label == "Makes") {
        Some(fact) => format!("{size}. As spoken it {} {}.", fact.label.to_lowercase(), fact.value),
        None => format!("{size}."),
    }
}

/// Shows the choice in the controls of a card. What is being typed is left alone.
pub fn show(article: &Element, choice: &Choice, said: &CardView) -> Js<()> {
    let buttons = article.query_selector_all("[data-do=\"size\"]")?;
    let mut named = false;
    for at in 0..buttons.length() {
        let Some(button) = buttons.item(at).and_then(|n| wasm_bindgen::JsCast::dyn_into::<Element>(n).ok()) else {
            continue;
        };
        let by = button.get_attribute("data-by").and_then(|b| b.parse::<Ratio>().ok());
        let on = by == Some(choice.factor);
        named |= on;
        button.set_attribute("aria-pressed", if on { "true" } else { "false" })?;
    }
    let times: HtmlInputElement = find(article, "[data-do=\"times\"]")?;
    put(&times, &if named { String::new() } else { choice.factor.to_string() });
    times.class_list().toggle_with_force("on", !named)?;
    let fact = said.facts.iter().find(|f| f.label == "Serves" || f.label == "Makes");
    let servings = slot(article, "servings")?;
    dom::show(&servings, fact.is_some())?;
    if let Some(fact) = fact {
        // "Makes" "24 cookies": the word after the number is what is counted.
        let of = fact.value.trim_start_matches(|c: char| !c.is_alphabetic());
        let of = of.strip_prefix("to ").map_or(of, |r| r.trim_start_matches(|c: char| !c.is_alphabetic()));
        slot(article, "servings-of")?.set_text_content(Some(if of.is_empty() { "servings" } else { of }));
    }
    find::<HtmlSelectElement>(article, "[data-do=\"units\"]")?.set_value(name(choice.units));
    Ok(())
}

fn put(input: &HtmlInputElement, text: &str) {
    let focused = input.owner_document().and_then(|d| d.active_element());
    if !focused.is_some_and(|f| f.is_same_node(Some(input))) {
        input.set_value(text);
    }
}
