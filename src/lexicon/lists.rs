//! The word lists as text, handed out by name.
//!
//! With the feature `packed` they are built in, deflated by `pack.rs`, and unpacked at first use. Without it, as in the page,
//! they are a file beside the wasm (`words.txt`, the same text) that [`supply`] takes before anything is read: words are
//! two thirds of the page's weight, and a browser that has them need not load them again when only code has changed.

use std::sync::OnceLock;

static TEXT: OnceLock<String> = OnceLock::new();

/// Takes the lists: each after a line of its own name that begins with '@' ("@foods.txt"), without comments. The first call
/// counts, and only before the first draft is read.
pub fn supply(text: String) {
    let _ = TEXT.set(text);
}

#[cfg(feature = "packed")]
fn built_in() -> String {
    const PACKED: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/lists.bin"));
    let bytes = miniz_oxide::inflate::decompress_to_vec(PACKED).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

#[cfg(not(feature = "packed"))]
fn built_in() -> String {
    String::new()
}

/// The lines of a list ("foods.txt"), comments left out; nothing where there is no such list.
pub fn list(name: &str) -> &'static str {
    let text: &'static str = TEXT.get_or_init(built_in).as_str();
    text.split('@').find_map(|part| part.strip_prefix(name)?.strip_prefix('\n')).unwrap_or("")
}
