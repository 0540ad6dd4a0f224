//! The word lists as text: unpacked once, handed out by name.

use std::sync::LazyLock;

/// The lists, packed by `pack.rs` when the crate is built.
const PACKED: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/lists.bin"));

static TEXT: LazyLock<String> = LazyLock::new(|| {
    let bytes = miniz_oxide::inflate::decompress_to_vec(PACKED).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
});

/// The lines of a list ("foods.txt"), comments left out; nothing where there is no such list.
pub fn list(name: &str) -> &'static str {
    let text: &'static str = TEXT.as_str();
    text.split('@').find_map(|part| part.strip_prefix(name)?.strip_prefix('\n')).unwrap_or("")
}
