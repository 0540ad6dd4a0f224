//! Short spellings of what was read, so that an expectation fits on a line. Not a test itself.

use plainspoon::draft::format::talk;
use plainspoon::grammar::amount::SaidAmount;
use plainspoon::grammar::food::{Quantifier, SaidFood};
use plainspoon::grammar::number::Number;
use plainspoon::measure::{Amount, Heat, Pan, Time};
use plainspoon::recipe::{Book, Card, Line, Package};
use plainspoon::token::lex::lex;
use plainspoon::token::{Read, Tokens};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Compares a whole table and names every case that differs, not just the first.
pub fn check(cases: &[(&str, &str)], spelled: impl Fn(&str) -> String) {
    let wrong: Vec<String> = cases
        .iter()
        .filter_map(|(said, wanted)| {
            let got = spelled(said);
            (got != *wanted).then(|| format!("{said:?} gives {got:?}, not {wanted:?}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), cases.len(), wrong.join("\n"));
}

/// What a production takes from the front of a phrase, and what it leaves: "3/2 cup | of flour"; "no" where it misses.
pub fn taken<T>(
    said: &str,
    production: impl for<'t> Fn(Tokens<'t>) -> Read<'t, T>,
    spelled: impl Fn(&T) -> String,
) -> String {
    let tokens = lex(said, &talk(said));
    match production(Tokens(&tokens)) {
        Err(_) => "no".to_owned(),
        Ok((rest, found)) => {
            let left: Vec<&str> = rest.0.iter().map(|t| &*t.text).filter(|t| !t.is_empty()).collect();
            let left = if left.is_empty() { String::new() } else { format!(" | {}", left.join(" ")) };
            format!("{}{left}", spelled(&found))
        }
    }
}

/// "5/2" never: "2 1/2", "3 to 4".
pub fn number(n: &Number) -> String {
    if n.low == n.high { n.low.to_string() } else { format!("{} to {}", n.low, n.high) }
}

fn package(p: &Package) -> String {
    format!(" ({} {})", p.size, p.unit)
}

/// "3 can (14 ounce)", then what was said about it: "each", "more", "of the".
pub fn amount(a: &SaidAmount) -> String {
    let mut out = a.amount.to_string();
    out.push_str(&a.package.as_ref().map_or(String::new(), package));
    for (said, word) in [(a.each, " each"), (a.more, " more"), (a.of_the, " of the")] {
        if said {
            out.push_str(word);
        }
    }
    out
}

/// "3 cup sharp cheddar [grated]".
pub fn food(f: &SaidFood) -> String {
    let mut out = f.amount.as_ref().map_or(String::new(), |a| amount(a) + " ");
    out.push_str(match f.quantifier {
        Quantifier::None | Quantifier::Again => "",
        Quantifier::The => "the ",
        Quantifier::Some => "some ",
        Quantifier::Rest => "rest of ",
        Quantifier::Part => "part of ",
        Quantifier::More => "more ",
        Quantifier::All => "all of ",
    });
    out.push_str(&f.name);
    let counted = f.amount.is_some_and(|a| a.package.is_some());
    out.push_str(&f.package.as_ref().filter(|_| !counted).map_or(String::new(), package));
    out.push_str(&f.prep.iter().map(|p| format!(" [{p}]")).collect::<String>());
    if f.to_taste {
        out.push_str(" to taste");
    }
    out
}

/// "2 can (15 ounce) corn [drained] optional": a line of the list.
pub fn line(l: &Line) -> String {
    let mut out = l.amount.map_or(String::new(), |a: Amount| a.to_string());
    out.push_str(&l.package.as_ref().map_or(String::new(), package));
    if !out.is_empty() {
        out.push(' ');
    }
    out.push_str(&l.name);
    out.push_str(&l.prep.iter().map(|p| format!(" [{p}]")).collect::<String>());
    for (said, word) in [(l.optional, " optional"), (l.to_taste, " to taste"), (l.divided, " divided")] {
        if said {
            out.push_str(word);
        }
    }
    out.push_str(&l.group.as_ref().map_or(String::new(), |g| format!(" for {g}")));
    out
}

/// The lines of every card, in order.
pub fn lines(book: &Book) -> Vec<String> {
    book.cards.iter().flat_map(|c| &c.lines).map(line).collect()
}

fn figures(card: &Card) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(y) = &card.makes {
        out.push(format!("makes {} {}", number(&Number { low: y.low, high: y.high }), y.of));
    }
    out.extend(card.ovens.iter().map(|s| &s.what).map(Heat::to_string));
    out.extend(card.pans.iter().map(|s| &s.what).map(Pan::to_string));
    out.extend(card.times.iter().map(|s| &s.what).map(Time::to_string));
    out
}

/// A card: "= title", its figures in one line, its lines, and "? line asked about: the choices".
pub fn card(card: &Card) -> String {
    let mut out = vec![format!("= {}", card.title)];
    let figures = figures(card);
    if !figures.is_empty() {
        out.push(format!("@ {}", figures.join(", ")));
    }
    out.extend(card.lines.iter().map(line));
    for q in &card.queries {
        let about = q.line.and_then(|n| card.lines.get(n)).map_or("the card", |l| l.name.as_str());
        let choices: Vec<&str> = q.choices.iter().map(|c| c.label.as_str()).collect();
        out.push(format!("? {about}{}{}", if choices.is_empty() { "" } else { ": " }, choices.join(" or ")));
    }
    out.join("\n")
}

/// Every card of a book.
pub fn book(book: &Book) -> String {
    if book.cards.is_empty() {
        return "no card".to_owned();
    }
    book.cards.iter().map(card).collect::<Vec<_>>().join("\n")
}

/// A file or folder of the project.
pub fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

/// Every draft that lies in the project as a file of its own, by name.
pub fn whole_drafts() -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    for folder in ["tests/drafts/whole", "www/samples"] {
        for entry in fs::read_dir(file(folder)).expect("the folder of the drafts") {
            let path = entry.expect("an entry of the folder").path();
            if path.extension().is_some_and(|e| e == "txt" || e == "vtt" || e == "srt") {
                let name = path.file_name().and_then(|n| n.to_str()).expect("a plain name").to_owned();
                out.insert(name, fs::read_to_string(&path).expect("a draft in UTF-8"));
            }
        }
    }
    assert!(out.len() > 30, "the drafts are where they should be");
    out
}
