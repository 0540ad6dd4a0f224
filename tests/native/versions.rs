//! The pinned versions agree wherever they are written: the crate, the lock file, trunk's settings, the scripts.

/// What stands between the first pair of quotes, or after "=", on the first line that begins with `head`.
fn pinned<'t>(text: &'t str, head: &str) -> &'t str {
    let line = text.lines().find(|l| l.starts_with(head)).unwrap_or_else(|| panic!("no line begins with {head}"));
    line[head.len()..].trim_matches(['"', '=', ' '])
}

#[test]
fn wasm_bindgen_is_one_version_everywhere() {
    let wanted = pinned(include_str!("../tools"), "WASM_BINDGEN=");
    assert_eq!(pinned(include_str!("../../Cargo.toml"), "wasm-bindgen = "), wanted, "Cargo.toml");
    assert_eq!(pinned(include_str!("../../Trunk.toml"), "wasm_bindgen = "), wanted, "Trunk.toml");
    let locked = format!("name = \"wasm-bindgen\"\nversion = \"{wanted}\"");
    assert!(include_str!("../../Cargo.lock").contains(&locked), "Cargo.lock has another wasm-bindgen than {wanted}");
}
