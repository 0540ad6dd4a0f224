//! Slips of speech-to-text that were put right: listed with the draft, said in the margin of their card, undone one by one.

use super::dom::{Js, find, show, slot, stamp};
use super::paint::Settled;
use super::{Left, Page, State};
use crate::recipe::{Book, Fix};
use std::rc::Rc;
use web_sys::Element;

/// How many characters around a slip its entry in the list shows.
const AROUND: usize = 24;

/// The slips put right in the words of a card, each with its line, for the card's margin.
pub(super) fn beside(book: &Book, at: usize) -> impl Iterator<Item = Settled> {
    let lines = &book.cards[at].lines;
    book.fixes.iter().enumerate().filter(move |(_, f)| !f.left && card_of(book, f) == Some(at)).map(
        move |(index, f)| {
            let line = lines.iter().position(|l| l.spans.iter().any(|s| s.meets(f.span)));
            let text = format!("Heard “{}”, read as “{}”.", f.heard, f.meant);
            Settled { act: "leave", index, line, text, query: String::new() }
        },
    )
}

/// The card the words went to.
fn card_of(book: &Book, fix: &Fix) -> Option<usize> {
    let at = book.clauses.partition_point(|c| c.span.end <= fix.span.start);
    book.clauses.get(at).and_then(|c| c.card)
}

impl Page {
    /// Paints the list: each slip among its words, as it was read, with a button for the other reading.
    pub(super) fn paint_slips(&self) -> Js<()> {
        let (draft, fixes) = {
            let mut state = self.state.borrow_mut();
            (state.draft.clone(), std::mem::take(&mut state.book.fixes))
        };
        let parts = &self.parts;
        let left = fixes.iter().filter(|f| f.left).count();
        let mut told = format!("Words put right: {}", fixes.len() - left);
        if left > 0 {
            told.push_str(&format!(" · left as heard: {left}"));
        }
        find::<Element>(&parts.slips, "summary")?.set_text_content(Some(&told));
        let list: Element = find(&parts.slips, "ul")?;
        list.set_text_content(None);
        for (at, fix) in fixes.iter().enumerate() {
            let item = stamp(&parts.document, "slip-template")?;
            item.set_attribute("data-slip", &at.to_string())?;
            let (before, heard, after) = fix.span.around(&draft, AROUND);
            let (out, read) = if fix.left { ("", heard) } else { (heard, &*fix.meant) };
            for (name, text) in [("before", before), ("out", out), ("read", read), ("after", after)] {
                slot(&item, name)?.set_text_content(Some(text));
            }
            let button: Element = find(&item, "button")?;
            button.set_attribute("data-at", &at.to_string())?;
            button.set_text_content(Some(if fix.left { "Put it right" } else { "Leave it as heard" }));
            list.append_child(&item)?;
        }
        let any = !fixes.is_empty();
        self.state.borrow_mut().book.fixes = fixes;
        show(&parts.slips, any)
    }

    /// Leaves a slip as it was heard, or puts it right again.
    pub(super) fn leave(self: &Rc<Self>, at: usize) -> Js<()> {
        {
            let mut state = self.state.borrow_mut();
            let Some((span, left)) = state.book.fixes.get(at).map(|f| (f.span, f.left)) else { return Ok(()) };
            let State { kept, draft, .. } = &mut *state;
            if left {
                kept.left.retain(|l| !l.places(draft).iter().any(|p| p.meets(span)));
            } else {
                kept.left.push(Left::at(draft, span));
            }
        }
        self.again()
    }

    /// Forgets a slip that was left as heard, once its place is gone.
    pub(super) fn unleave(self: &Rc<Self>, at: usize) -> Js<()> {
        {
            let mut state = self.state.borrow_mut();
            if at < state.kept.left.len() {
                state.kept.left.remove(at);
            }
        }
        self.again()
    }
}
