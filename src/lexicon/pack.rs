//! Build script: packs the word lists for the page.
//!
//! The lists are text that a cook can review, and text squeezes to a third. The build strips their comments,
//! joins them and deflates them (RFC 1951) into one block, which `lexicon::lists` inflates once. Each list stands in the
//! block after a line of its own name that begins with '@'.

use std::path::{Path, PathBuf};
use std::{env, fs};

fn lists(folder: &Path) -> Vec<PathBuf> {
    let mut names: Vec<_> = fs::read_dir(folder)
        .expect("the folder of the word lists")
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|path| path.extension().is_some_and(|e| e == "txt"))
        .collect();
    names.sort();
    names
}

fn main() {
    let folder = Path::new("src/lexicon");
    println!("cargo::rerun-if-changed=src/lexicon");
    let mut names = lists(folder);
    names.extend(lists(&folder.join("weights")));
    let mut block = String::new();
    for path in names {
        let text = fs::read_to_string(&path).expect("a word list in UTF-8");
        let name =
            path.strip_prefix(folder).expect("within the folder").to_str().expect("a plain name").replace('\\', "/");
        block.push_str(&format!("@{name}\n"));
        for line in text.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#')) {
            block.push_str(line);
            block.push('\n');
        }
    }
    let packed = miniz_oxide::deflate::compress_to_vec(block.as_bytes(), 10);
    let out = env::var_os("OUT_DIR").expect("cargo names the folder");
    fs::write(Path::new(&out).join("lists.bin"), packed).expect("the packed lists");
}
