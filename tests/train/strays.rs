//! Learns which lines of the list are no ingredients: those that an editor has not, or has under another name.

use super::lines::{Kept, cards, fits, items, number, own, plain, view};
use super::{FOLDS, Row, Signs, common, each_without, pull, trees, whole, without, write};
use plainspoon::reading::ledger::Ledger;
use plainspoon::recipe;
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

/// What is added to the sum: an ingredient that is lost is worse than a line too many.
const LEAN: i32 = -120;
/// The sum of the learned weights speaks for a stray, the more the higher.
const RISING: [usize; 1] = [0];
/// The signs that are asked; more of them say no more on drafts held out, and take room.
const SIGNS: [&str; 8] = ["head", "before", "second before", "after", "first", "verb", "unit", "tag"];

/// A line of a card.
struct Line {
    draft: usize,
    card: usize,
    line: usize,
    place: String,
}

/// Whether the figures of some lines come to those of an editor's entries.
fn even(lines: &[&recipe::Line], items: &[&Value]) -> bool {
    let sum = |all: Vec<(f64, String)>| {
        let mut sums: Vec<(String, f64)> = Vec::new();
        for (figure, unit) in all {
            match sums.iter_mut().find(|s| s.0 == unit) {
                Some(s) => s.1 += figure,
                None => sums.push((unit, figure)),
            }
        }
        sums.sort_by(|a, b| a.0.cmp(&b.0));
        sums
    };
    let read = lines.iter().filter_map(|l| l.amount);
    let mine = sum(read.map(|a| plain(number(&a.low().to_string()), a.unit().map(|u| u.name()))).collect());
    let gold = items.iter().filter_map(|i| Some(plain(number(i["amount"]["low"].as_str()?), i["unit"].as_str())));
    let gold = sum(gold.collect());
    let near = |a: f64, b: f64| (a - b).abs() < 0.01 * a.max(0.01);
    mine.len() == gold.len() && mine.iter().zip(&gold).all(|(a, b)| a.0 == b.0 && near(a.1, b.1))
}

/// Whether the card is better without a line; nothing where it is as good with it. A namesake without a figure takes its own.
fn astray(book: &Ledger, line: usize, items: &[Value]) -> Option<bool> {
    let fitting: Vec<&Value> = items.iter().filter(|i| fits(&book.lines[line].name, i)).collect();
    if fitting.is_empty() {
        return Some(true);
    }
    let named = |l: &recipe::Line| fitting.iter().any(|i| fits(&l.name, i));
    let with: Vec<&recipe::Line> = book.lines.iter().filter(|l| named(l)).collect();
    let without: Vec<&recipe::Line> =
        book.lines.iter().enumerate().filter(|(l, x)| *l != line && named(x)).map(|l| l.1).collect();
    // Each entry it stands for has to be on another line as well.
    if fitting.iter().any(|i| !without.iter().any(|l| fits(&l.name, i))) {
        return Some(false);
    }
    let bare = book.namesake(line).is_some_and(|o| book.lines[o].amount.is_none());
    match (even(&with, &fitting), bare || even(&without, &fitting)) {
        (true, false) => Some(false),
        (false, true) => Some(true),
        _ => None,
    }
}

/// Learns from the drafts of these folders; `trial` prints how well it does on drafts held out, and writes nothing.
pub fn learn(folders: &[PathBuf], trial: bool) {
    let Kept { all, plans, books } = Kept::of(folders, false);
    let mut signs = Signs::default();
    let mut rows: Vec<(usize, Vec<Row>)> = Vec::new();
    let mut told: Vec<Line> = Vec::new();
    for (n, t) in all.iter().enumerate() {
        let cards = cards(t);
        let mut mine = Vec::new();
        for (k, book) in books[n].iter().enumerate().filter(|_| books[n].len() == cards.len()) {
            let Some(own) = own(book, cards) else { continue };
            let view = view(t, &plans[n], k, book);
            for (l, line) in book.lines.iter().enumerate() {
                let Some(opens) = astray(book, l, items(own)) else { continue };
                let mut row = Row { opens, ..Row::empty() };
                view.signs(l, |s, a| {
                    if SIGNS.contains(&s) {
                        row.signs.push(signs.id(s, a));
                    }
                });
                let figure = line.amount.map(|a| format!("{} {}", a.low(), a.unit().map_or("", |u| u.name())));
                let place = format!("{}: {} {}", t.name, line.name, figure.unwrap_or_default());
                mine.push(row);
                told.push(Line { draft: n, card: k, line: l, place });
            }
        }
        rows.push((n, mine));
    }
    let count = signs.names.len();
    common(&mut rows, count);
    let flat: Vec<&Row> = rows.iter().flat_map(|r| &r.1).collect();
    let strays = flat.iter().filter(|r| r.opens).count();
    eprintln!("{} drafts, {strays} of {} lines are no ingredients", all.len(), flat.len());
    // What the weights say of a row has to be what they say of one they have not seen.
    let learned = each_without(&rows, count, pull("strays"));
    let facts: Vec<trees::Row> = told
        .iter()
        .zip(&flat)
        .map(|(l, row)| {
            let view = view(&all[l.draft], &plans[l.draft], l.card, &books[l.draft][l.card]);
            let (bias, weights) = &learned[l.draft % FOLDS];
            let sum = whole(*bias) + row.signs.iter().map(|s| whole(weights[*s])).sum::<i32>();
            trees::Row { facts: view.all_facts(l.line, &view.company(), sum).to_vec(), yes: row.opens, counts: 1.0 }
        })
        .collect();
    let apart = |fold: Option<usize>| -> Vec<&trees::Row> {
        facts.iter().zip(&told).filter(|(_, l)| Some(l.draft % FOLDS) != fold).map(|(r, _)| r).collect()
    };
    if trial {
        let mut sums: Vec<(i32, bool, &str)> = Vec::new();
        for fold in 0..FOLDS {
            let fitted = trees::fit(&apart(Some(fold)), &RISING, 1);
            let held = facts.iter().zip(&told).filter(|(_, l)| l.draft % FOLDS == fold);
            sums.extend(held.map(|(row, l)| (fitted.sum(&row.facts), row.yes, &*l.place)));
        }
        sums.sort_by_key(|s| std::cmp::Reverse(s.0));
        for (sum, yes, place) in &sums[..600] {
            println!("{} {sum:>5}  {place}", if *yes { "stray" } else { "LOST " });
        }
        for count in [50, 100, 150, 200, 250, 300, 400, 500, 600] {
            let right = sums[..count].iter().filter(|s| s.1).count();
            println!("the first {count} (down to {}): {right} strays, {} lost", sums[count - 1].0, count - right);
        }
        return;
    }
    let (bias, weights) = without(&rows, count, pull("strays"), None);
    write("strays", &signs, whole(bias), &weights);
    let text = trees::fit(&apart(None), &RISING, 1).text(LEAN);
    let head = "# Trees of questions about a line. Written by tests/train; do not edit by hand.\n";
    fs::write("src/lexicon/weights/astray.txt", format!("{head}{text}")).expect("the file of trees");
}
