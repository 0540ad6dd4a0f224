//! Small drafts: a talk and the cards it must become, case after case in `tests/drafts/*.txt`.
//!
//! A case is "== name", the talk, "--", and the cards in their short spelling. In it "=" is a title, "@" what it makes,
//! its oven, pans and times, "?" a line the cook is asked about and the answers offered. `UPDATE=1` writes what the reading
//! gives now; look at every line of the difference as a cook would before keeping it.

use super::spell::{self, file};
use plainspoon::read;
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::{env, fs};

struct Case {
    name: String,
    talk: String,
    wanted: String,
}

fn files() -> Vec<PathBuf> {
    let folder = fs::read_dir(file("tests/drafts")).expect("the folder of the small drafts");
    let mut out: Vec<PathBuf> = folder.map(|e| e.expect("an entry").path()).collect();
    out.retain(|p| p.extension().is_some_and(|e| e == "txt"));
    out.sort();
    out
}

/// The comment a file begins with, and its cases.
fn cases(text: &str) -> (&str, Vec<Case>) {
    let start = if text.starts_with("== ") { 0 } else { text.find("\n== ").expect("a case") + 1 };
    let (head, rest) = text.split_at(start);
    let cases = format!("\n{rest}")
        .split("\n== ")
        .skip(1)
        .map(|case| {
            let (name, case) = case.split_once('\n').expect("a talk under the name");
            let (talk, wanted) = case.split_once("\n--\n").unwrap_or_else(|| panic!("{name}: no -- under the talk"));
            Case { name: name.trim().to_owned(), talk: talk.trim().to_owned(), wanted: wanted.trim().to_owned() }
        })
        .collect();
    (head, cases)
}

#[test]
fn small_drafts_become_the_cards_that_stand_under_them() {
    let update = env::var_os("UPDATE").is_some_and(|v| v == "1");
    let (mut names, mut wrong) = (BTreeSet::new(), Vec::new());
    for path in files() {
        let text = fs::read_to_string(&path).expect("small drafts in UTF-8");
        let (head, cases) = cases(&text);
        let mut out = head.trim_end().to_owned();
        for case in &cases {
            assert!(names.insert(case.name.clone()), "{}: the name {:?} stands twice", path.display(), case.name);
            let got = spell::book(&read(&case.talk));
            if got != case.wanted {
                wrong
                    .push(format!("== {}\n{}\n-- wanted\n{}\n-- but read\n{got}\n", case.name, case.talk, case.wanted));
            }
            out.push_str(&format!("\n\n== {}\n{}\n--\n{got}", case.name, case.talk));
        }
        if update {
            fs::write(&path, out.trim_start().to_owned() + "\n").expect("the expectations are written");
        }
    }
    assert!(names.len() >= 25, "only {} small drafts were found", names.len());
    assert!(update || wrong.is_empty(), "{} of {}:\n{}", wrong.len(), names.len(), wrong.join("\n"));
}
