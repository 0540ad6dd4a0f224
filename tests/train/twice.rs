//! Learns whether both figures of a food that is measured twice go in.

use super::lines::{Kept, fits, number, plain};
use super::{FOLDS, Row, Signs, Taught, common, each_without, pull, trees, whole, without, write};
use plainspoon::measure::Amount;
use plainspoon::reading::dish::Plan;
use plainspoon::reading::ledger::{Again, Ledger, twice::Twice};
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

/// The sum of the learned weights speaks for both, the more the higher.
const RISING: [usize; 1] = [0];

/// What is added to the sum.
const LEAN: i32 = 0;

fn told<'a>(t: &'a Taught, plan: &'a Plan, book: &'a Ledger, again: &Again) -> Twice<'a> {
    Twice {
        tokens: &t.read.tokens,
        clauses: &t.read.clauses,
        found: &t.read.found,
        first: again.first,
        second: again.second,
        together: again.together,
        tags: book.tags[again.line],
        dialogue: plan.dialogue,
    }
}

fn value(a: &Amount) -> (f64, String) {
    plain(number(&a.low().to_string()), a.unit().map(|u| u.name()))
}

/// Whether an editor adds the two figures up; none where she has neither the one nor the other.
fn added(again: &Again, name: &str, cards: &[Value]) -> Option<bool> {
    let (first, second) = (value(&again.held), value(&again.said));
    if first.1 != second.1 {
        return None;
    }
    let near = |a: f64, b: f64| (a - b).abs() < 0.01 * a.max(0.01);
    let totals = cards.iter().filter_map(|c| {
        let all: Vec<(f64, String)> = c["ingredients"]
            .as_array()?
            .iter()
            .filter(|i| fits(name, i))
            .filter_map(|i| Some(plain(number(i["amount"]["low"].as_str()?), i["unit"].as_str())))
            .filter(|i| i.1 == first.1)
            .collect();
        (!all.is_empty()).then(|| all.iter().map(|i| i.0).sum::<f64>())
    });
    let totals: Vec<f64> = totals.collect();
    let sum = totals.iter().any(|t| near(*t, first.0 + second.0));
    let one = totals.iter().any(|t| near(*t, first.0) || near(*t, second.0));
    (sum != one).then_some(sum)
}

/// Learns from the drafts of these folders; `trial` prints how well it does on drafts held out, and writes nothing.
pub fn learn(folders: &[PathBuf], trial: bool) {
    let Kept { all, plans, books } = Kept::of(folders, true);
    let mut signs = Signs::default();
    let mut rows: Vec<(usize, Vec<Row>)> = Vec::new();
    let mut said: Vec<(usize, usize, Again)> = Vec::new();
    for (n, t) in all.iter().enumerate() {
        let cards = t.gold["cards"].as_array().expect("cards");
        let mut mine = Vec::new();
        for (k, book) in books[n].iter().enumerate().filter(|_| books[n].len() == cards.len()) {
            for again in &book.twice {
                let once = book.twice.iter().filter(|a| a.line == again.line).count() == 1;
                let name = &book.lines[again.line].name;
                let Some(both) = added(again, name, cards).filter(|_| once) else { continue };
                let mut row = Row { opens: both, signs: Vec::new(), place: String::new() };
                told(t, &plans[n], book, again).signs(|s, a| row.signs.push(signs.id(s, a)));
                row.place = super::place(&t.read, again.second.0, &format!("{}: {name}", t.name));
                mine.push(row);
                said.push((n, k, *again));
            }
        }
        rows.push((n, mine));
    }
    let count = signs.names.len();
    common(&mut rows, count);
    let flat: Vec<&Row> = rows.iter().flat_map(|r| &r.1).collect();
    let both = flat.iter().filter(|r| r.opens).count();
    eprintln!("{} drafts, both figures of {both} of {} foods", all.len(), flat.len());
    // What the weights say of a row has to be what they say of one they have not seen.
    let learned = each_without(&rows, count, pull("twice"));
    let facts: Vec<trees::Row> = said
        .iter()
        .zip(&flat)
        .map(|((n, k, again), row)| {
            let (bias, weights) = &learned[n % FOLDS];
            let sum = whole(*bias) + row.signs.iter().map(|s| whole(weights[*s])).sum::<i32>();
            let facts = told(&all[*n], &plans[*n], &books[*n][*k], again).facts(sum).to_vec();
            trees::Row { facts, yes: row.opens, counts: 1.0 }
        })
        .collect();
    let apart = |fold: Option<usize>| -> Vec<&trees::Row> {
        facts.iter().zip(&said).filter(|(_, s)| Some(s.0 % FOLDS) != fold).map(|(r, _)| r).collect()
    };
    if trial {
        let mut tally = [0; 4];
        for fold in 0..FOLDS {
            let fitted = trees::fit(&apart(Some(fold)), &RISING, trees::DRAWS);
            for ((row, s), place) in facts.iter().zip(&said).zip(&flat).filter(|((_, s), _)| s.0 % FOLDS == fold) {
                let sum = fitted.sum(&row.facts) + LEAN;
                tally[2 * usize::from(row.yes) + usize::from(sum > 0)] += 1;
                if row.yes != (sum > 0) {
                    println!(
                        "{} {sum:>5}  {} {} {}",
                        if row.yes { "missed" } else { "extra " },
                        s.2.held.low(),
                        s.2.said.low(),
                        place.place
                    );
                }
            }
        }
        println!(
            "held out: of {} that add up {} are told, of {} that do not {}",
            tally[2] + tally[3],
            tally[3],
            tally[0] + tally[1],
            tally[0]
        );
        return;
    }
    let (bias, weights) = without(&rows, count, pull("twice"), None);
    write("twice", &signs, whole(bias), &weights);
    let text = trees::fit(&apart(None), &RISING, trees::DRAWS).text(LEAN);
    let head = "# Trees of questions about two figures of a food. Written by tests/train; do not edit by hand.\n";
    fs::write("src/lexicon/weights/both.txt", format!("{head}{text}")).expect("the file of trees");
}
