//! What stays in this browser between visits: the draft, the sizes and the answers. Nothing is stored anywhere else.

use super::dom::window;
use crate::edit::Kept;
use web_sys::Storage;

const DRAFT: &str = "plainspoon.draft";
const KEPT: &str = "plainspoon.kept";
const READING: &str = "plainspoon.reading";

fn storage() -> Option<Storage> {
    window().ok()?.local_storage().ok()?
}

/// The draft of the last visit.
pub fn draft() -> Option<String> {
    storage()?.get_item(DRAFT).ok()?
}

/// Keeps the draft; `false` where the browser has no room for it or keeps nothing.
pub fn keep_draft(draft: &str) -> bool {
    storage().is_some_and(|s| s.set_item(DRAFT, draft).is_ok())
}

/// What was settled on the last visit.
pub fn kept() -> Kept {
    let text = storage().and_then(|s| s.get_item(KEPT).ok().flatten());
    text.map(|t| Kept::from_text(&t)).unwrap_or_default()
}

/// Keeps what was settled. Where there is no room, the draft has said so already.
pub fn keep(kept: &Kept) {
    if let Some(storage) = storage() {
        let _ = storage.set_item(KEPT, &kept.to_text());
    }
}

/// Marks that a reading is under way; the mark stays if the reading stops the page.
pub fn mark_reading(under_way: bool) {
    if let Some(storage) = storage() {
        let _ = if under_way { storage.set_item(READING, "1") } else { storage.remove_item(READING) };
    }
}

/// Whether the last visit's reading never came to its end.
pub fn reading_broke() -> bool {
    storage().is_some_and(|s| s.get_item(READING).ok().flatten().is_some())
}
