//! Notes in the margin stand beside their line; where two would overlap, the lower one moves down.

use super::dom::{Js, window};
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// The white between two notes, in CSS pixels.
const GAP: i32 = 10;

/// Settles the margin of one sheet. In a narrow window the notes are in the run of the text and nothing is moved.
pub fn settle(sheet: &HtmlElement) -> Js<()> {
    let found = sheet.query_selector_all(".aside")?;
    let notes: Vec<HtmlElement> = (0..found.length()).filter_map(|i| found.item(i)?.dyn_into().ok()).collect();
    sheet.style().remove_property("min-height")?;
    for note in &notes {
        note.style().remove_property("top")?;
    }
    let Some(first) = notes.first() else { return Ok(()) };
    let computed = window()?.get_computed_style(first)?.ok_or("no computed style")?;
    if computed.get_property_value("position")? != "absolute" {
        return Ok(());
    }
    // All is measured before anything moves, so that the browser lays out once.
    let mut spots: Vec<(i32, i32, &HtmlElement)> =
        notes.iter().map(|n| (n.offset_top(), n.offset_height(), n)).collect();
    crate::order::sort_by(&mut spots, |a, b| a.0.cmp(&b.0));
    let height = sheet.client_height();
    let mut free = GAP;
    for (top, tall, note) in spots {
        if top < free {
            note.style().set_property("top", &format!("{free}px"))?;
        }
        free = top.max(free) + tall + GAP;
    }
    if free > height {
        sheet.style().set_property("min-height", &format!("{free}px"))?;
    }
    Ok(())
}
