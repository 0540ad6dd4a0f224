//! What to ask the cook: short, about one thing, with what was heard and the likely answers. Few.

use super::ledger::Ledger;
use super::oven::Settings;
use crate::letters::capital;
use crate::lexicon::tagged;
use crate::measure::{Amount, Unit};
use crate::recipe::{Choice, Query, said};

/// A card of more queries is not answered.
const MOST: usize = 5;

/// The tags of foods without which there is no dish.
const MATTERS: &str = "dairy fat sweet grain meat groundmeat poultry fish shellfish stock liquid rice pasta pulse egg leavening produce canned cured wheat";

/// The queries of a card; `doubts` tells how doubtful each line is.
pub fn queries(book: &Ledger, settings: &Settings, doubts: &[i32]) -> Vec<Query> {
    let all = open(book);
    let mut lines: Vec<usize> = (0..book.lines.len()).filter(|n| doubts[*n] > 0).collect();
    crate::order::sort_by(&mut lines, |a, b| doubts[*b].cmp(&doubts[*a]));
    lines.truncate(MOST);
    // Of two figures for one thing the cook has the last word.
    let replaced = |s: &&(usize, Amount, Amount)| {
        !s.1.same_size(&s.2) && book.lines[s.0].amount.is_some_and(|a| a.same_size(&s.2))
    };
    lines.extend(book.disputes.iter().map(|d| d.line).chain(book.summed.iter().filter(replaced).map(|s| s.0)));
    crate::order::sort(&mut lines);
    lines.dedup();
    let mut out: Vec<Query> = lines
        .iter()
        .map(|n| all.iter().find(|q| q.line == Some(*n)).cloned().unwrap_or_else(|| doubted(book, *n)))
        .collect();
    if settings.bakes && settings.ovens.is_empty() {
        out.push(Query {
            text: "Oven: it goes in the oven, but at what heat?".into(),
            line: None,
            choices: Vec::new(),
            spans: Vec::new(),
        });
    }
    out
}

/// Asks for a figure that nothing but the talk round about makes doubtful.
fn doubted(book: &Ledger, n: usize) -> Query {
    let line = &book.lines[n];
    let text = match line.amount {
        Some(a) => format!("{}: {} was heard, but not plainly. How much?", capital(&line.name), said(&a)),
        None => format!("{}: how much? No amount was heard.", capital(&line.name)),
    };
    Query { text, line: Some(n), choices: Vec::new(), spans: line.spans.clone() }
}

/// What the books themselves leave open, asked or not.
pub fn open(book: &Ledger) -> Vec<Query> {
    let mut out: Vec<Query> = Vec::new();
    for d in &book.disputes {
        let line = &book.lines[d.line];
        if out.iter().any(|q| q.line == Some(d.line)) {
            continue;
        }
        out.push(Query {
            text: format!(
                "{}: {} where it is used, {} when told again. Which?",
                capital(&line.name),
                said(&d.kept),
                said(&d.other)
            ),
            line: Some(d.line),
            choices: vec![
                Choice { label: said(&d.kept), amount: Some(d.kept) },
                Choice { label: said(&d.other), amount: Some(d.other) },
            ],
            spans: line.spans.first().copied().into_iter().chain([d.span]).collect(),
        });
    }
    for n in &book.unsure {
        let line = &book.lines[*n];
        if out.iter().any(|q| q.line == Some(*n)) || line.to_taste || line.optional {
            continue;
        }
        let sized = line.amount.is_some_and(|a| a.unit().is_some_and(Unit::is_container)) && line.package.is_none();
        let text = match line.amount {
            Some(a) if a.unit().is_none() => {
                format!("{}: {} of what? No measure was heard.", capital(&line.name), said(&a))
            }
            Some(a) if sized => format!("{}: {}, of what size?", capital(&line.name), said(&a)),
            Some(a) => format!("{}: {} was said, but not for certain. How much?", capital(&line.name), said(&a)),
            None => format!("{}: how much? No figure was said.", capital(&line.name)),
        };
        out.push(Query { text, line: Some(*n), choices: Vec::new(), spans: line.spans.clone() });
    }
    for (n, first, second) in &book.summed {
        let line = &book.lines[*n];
        let twice = book.summed.iter().filter(|s| s.0 == *n).count() > 1;
        let Some(sum) = first.plus(*second).filter(|_| !twice) else { continue };
        let held = line.amount.is_some_and(|a| a.same_size(&sum) || a.same_size(second));
        if out.iter().any(|q| q.line == Some(*n))
            || !held
            || first.same_size(second) && line.amount.is_some_and(|a| a.same_size(second))
        {
            continue;
        }
        out.push(Query {
            text: format!("{}: {} and then {} were said. Both?", capital(&line.name), said(first), said(second)),
            line: Some(*n),
            choices: vec![
                Choice { label: format!("both: {}", said(&sum)), amount: Some(sum) },
                Choice { label: said(first), amount: Some(*first) },
                Choice { label: said(second), amount: Some(*second) },
            ],
            spans: line.spans.clone(),
        });
    }
    // A food that makes the dish and has no amount at all: an editor would ask. Few, so that they are answered.
    let mut asked = 0;
    for (n, line) in book.lines.iter().enumerate() {
        let is = |any: &str| tagged(book.tags[n], any);
        let matters = is(MATTERS);
        let little = is("herb spice salt water") || crate::letters::holds(&line.name, "spray");
        let serving = line.prep.iter().any(|p| p.starts_with("for "));
        if line.amount.is_some()
            || !matters
            || little
            || serving
            || line.optional
            || line.to_taste
            || book.vague[n]
            || asked == 2
            || out.iter().any(|q| q.line == Some(n))
        {
            continue;
        }
        asked += 1;
        out.push(Query {
            text: format!("{}: how much? No amount was heard.", capital(&line.name)),
            line: Some(n),
            choices: Vec::new(),
            spans: line.spans.clone(),
        });
    }
    out
}
