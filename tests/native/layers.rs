//! Who may import whom: the table in DEVELOPERS.md, compared with what stands in `src`.

use super::spell::file;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

type Table = BTreeMap<String, BTreeSet<String>>;

/// The indented rows "module  - | name, name" under the sentence that opens the table.
fn table() -> Table {
    let text = fs::read_to_string(file("DEVELOPERS.md")).expect("DEVELOPERS.md");
    let after = text.split_once("Who may import whom").expect("the sentence that opens the table").1;
    let rows = after.lines().skip_while(|l| !l.starts_with("    ")).take_while(|l| l.starts_with("    "));
    rows.map(|row| {
        let (module, may) = row.trim().split_once(' ').expect("a module and what it may use");
        let may = may.split(',').map(str::trim).filter(|m| *m != "-").map(str::to_owned).collect();
        (module.to_owned(), may)
    })
    .collect()
}

/// The names that follow `crate::`, in use lines and in paths; `root` for what the crate root itself offers.
fn named(code: &str, modules: &Table) -> BTreeSet<String> {
    let mut out = BTreeSet::new();
    let lines: String = code.lines().filter(|l| !l.trim_start().starts_with("//")).flat_map(|l| [l, "\n"]).collect();
    for start in ["crate::", "plainspoon::"] {
        for (at, _) in lines.match_indices(start) {
            let rest = &lines[at + start.len()..];
            let group = rest.strip_prefix('{').and_then(|g| g.split_once('}')).map_or(rest, |g| g.0);
            let names: Vec<&str> = if group.len() < rest.len() { group.split(',').collect() } else { vec![rest] };
            for name in names {
                let name: String = name.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                out.insert(if modules.contains_key(&name) { name } else { "root".to_owned() });
            }
        }
    }
    out
}

fn sources(folder: &Path, out: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).expect("a folder of the source") {
        let path = entry.expect("an entry of the folder").path();
        if path.is_dir() {
            sources(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            let within = path.strip_prefix(file("src")).expect("within src").with_extension("");
            let name = within.iter().map(|p| p.to_string_lossy()).collect::<Vec<_>>().join("/");
            out.push((name, fs::read_to_string(&path).expect("a source file in UTF-8")));
        }
    }
}

fn all_sources() -> Vec<(String, String)> {
    let mut out = Vec::new();
    sources(&file("src"), &mut out);
    out.sort();
    out
}

fn module(file: &str) -> &str {
    file.split('/').next().unwrap_or(file)
}

#[test]
fn every_module_uses_only_what_the_table_allows() {
    let table = table();
    for (name, code) in all_sources().iter().filter(|(name, _)| name != "lib") {
        let may = table.get(module(name)).unwrap_or_else(|| panic!("{name}.rs has no row in the table"));
        for used in named(code, &table).iter().filter(|u| *u != module(name)) {
            assert!(may.contains(used), "src/{name}.rs uses {used}; the table in DEVELOPERS.md does not allow it");
        }
    }
}

#[test]
fn the_table_has_a_row_for_every_module_and_no_other() {
    let rows: BTreeSet<String> = table().into_keys().collect();
    let there: BTreeSet<String> =
        all_sources().iter().map(|(n, _)| module(n).to_owned()).filter(|n| n != "lib").collect();
    assert_eq!(rows, there);
}

/// Taking away, again and again, the rows whose every use is gone leaves nothing, or there is a ring.
#[test]
fn the_table_has_no_ring() {
    let mut left = table();
    while !left.is_empty() {
        let names: BTreeSet<String> = left.keys().cloned().collect();
        let before = left.len();
        // The page and its exports are one layer: the exports start the page.
        left.retain(|_, may| may.iter().any(|m| names.contains(m)));
        assert!(left.len() < before, "these use each other in a ring: {names:?}");
    }
}

#[test]
fn only_the_page_knows_the_browser() {
    for (name, code) in all_sources() {
        if !["page", "js"].contains(&module(&name)) {
            for shell in ["web_sys", "js_sys", "wasm_bindgen"] {
                assert!(!code.contains(&format!("{shell}::")), "src/{name}.rs uses {shell}");
            }
        }
        if !["output", "js", "main"].contains(&module(&name)) {
            assert!(!code.contains("use serde") && !code.contains("serde::"), "src/{name}.rs uses serde");
        }
    }
}

#[test]
fn code_depends_on_the_target_on_two_lines() {
    let sources = all_sources();
    let asks = sources
        .iter()
        .flat_map(|(_, code)| code.lines())
        .filter(|l| l.contains("cfg(target_arch") || l.contains("cfg!(target_arch"));
    assert_eq!(asks.count(), 2);
}
