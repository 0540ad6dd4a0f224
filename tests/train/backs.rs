//! Learns whether the talk goes back to a dish that was begun before.

use super::{FOLDS, Row, Signs, Taught, Told, common, lean, pull, trees, whole, write};
use plainspoon::reading::dish::back::{DISHES, Dealt};
use plainspoon::reading::dish::evidence::View;
use plainspoon::reading::dish::turn::Gap;
use std::fs;

/// Facts that speak for a return, the more the higher.
const RISING: [usize; 4] = [0, 2, 4, 8];
/// What is added to the sum: a return that is none costs as much as one that is missed, and the next gap may mend it.
const LEAN: i32 = 0;

/// One gap and one dish begun before it.
struct Place {
    draft: usize,
    gap: Gap,
    dish: usize,
    returns: bool,
}

/// Learns from the drafts; `turned` holds what was said of a new dish in each gap.
pub fn learn(all: &[Taught], views: &[View<'_>], told: &[Told], turned: &[Vec<i32>], trial: bool) {
    let mut signs = Signs::default();
    let mut rows: Vec<(usize, Vec<Row>)> = Vec::new();
    let mut places: Vec<Place> = Vec::new();
    let titles: Vec<Vec<Vec<&str>>> =
        told.iter().map(|t| t.dishes.iter().map(|d| d.titles.iter().map(String::as_str).collect()).collect()).collect();
    let dealt = |p: &Place| {
        let hand = &told[p.draft].hand[..p.gap.index];
        let begun = hand.iter().max().map_or(0, |d| d + 1);
        Dealt { hand, titles: &titles[p.draft][..begun], current: hand[hand.len() - 1] }
    };
    for (n, view) in views.iter().enumerate() {
        let mut mine = Vec::new();
        for gap in (1..view.clauses.len()).filter_map(|c| view.gap(c)) {
            let hand = &told[n].hand;
            let before = &hand[..gap.index];
            let begun = before.iter().max().map_or(0, |d| d + 1);
            let (now, current) = (hand[gap.index], before[before.len() - 1]);
            for dish in (begun.saturating_sub(DISHES)..begun).filter(|d| *d != current) {
                let place = Place { draft: n, gap: gap.clone(), dish, returns: now == dish };
                let mut row = Row { opens: place.returns, ..Row::empty() };
                view.back_signs(&gap, &dealt(&place), dish, |s, a| row.signs.push(signs.id(s, a)));
                row.place =
                    format!("{} to {}: {}", all[n].name, titles[n][dish][0], super::place(&all[n].read, gap.to, ""));
                mine.push(row);
                places.push(place);
            }
        }
        rows.push((n, mine));
    }
    let count = signs.names.len();
    common(&mut rows, count);
    let flat: Vec<&Row> = rows.iter().flat_map(|r| &r.1).collect();
    let linear = |fold: Option<usize>| {
        let rows: Vec<&Row> = rows.iter().filter(|r| Some(r.0 % FOLDS) != fold).flat_map(|r| &r.1).collect();
        super::learn(&rows, count, pull("returns"))
    };
    let learned: Vec<(f64, Vec<f64>)> = std::thread::scope(|scope| {
        let linear = &linear;
        let folds: Vec<_> = (0..FOLDS).map(|fold| scope.spawn(move || linear(Some(fold)))).collect();
        folds.into_iter().map(|f| f.join().expect("a fold")).collect()
    });
    let facts: Vec<trees::Row> = places
        .iter()
        .zip(&flat)
        .map(|(p, row)| {
            let (bias, weights) = &learned[p.draft % FOLDS];
            let sum = whole(*bias) + lean("returns") + row.signs.iter().map(|s| whole(weights[*s])).sum::<i32>();
            let facts = views[p.draft].back_facts(&p.gap, &dealt(p), p.dish, sum, turned[p.draft][p.gap.index]);
            let counts = if all[p.draft].gold.is_some() { 2.0 } else { 1.0 };
            trees::Row { facts: facts.to_vec(), yes: p.returns, counts }
        })
        .collect();
    let yes = facts.iter().filter(|r| r.yes).count();
    eprintln!("the talk goes back in {yes} of {} gaps", facts.len());
    let apart = |fold: Option<usize>| -> Vec<&trees::Row> {
        facts.iter().zip(&places).filter(|(_, p)| Some(p.draft % FOLDS) != fold).map(|(r, _)| r).collect()
    };
    if trial {
        let mut tally = [[0; 3]; 2];
        for fold in 0..FOLDS {
            let fitted = trees::fit(&apart(Some(fold)), &RISING);
            for ((row, p), flat) in facts.iter().zip(&places).zip(&flat).filter(|((_, p), _)| p.draft % FOLDS == fold) {
                let sum = fitted.sum(&row.facts) + LEAN;
                let tally = &mut tally[usize::from(all[p.draft].gold.is_some())];
                tally[2] += usize::from(row.yes);
                match (row.yes, sum > 0) {
                    (true, true) => tally[0] += 1,
                    (false, true) => {
                        tally[1] += 1;
                        println!("back extra  {sum:>5}  {}", flat.place);
                    }
                    (true, false) => println!("back missed {sum:>5}  {}", flat.place),
                    _ => {}
                }
            }
        }
        let [marked, cards] = tally.map(|t| format!("{} of {} found, {} extra", t[0], t[2], t[1]));
        println!("returns held out: drafts with cards {cards}; drafts with marks {marked}");
        return;
    }
    let (bias, weights) = linear(None);
    write("returns", &signs, whole(bias) + lean("returns"), &weights);
    let text = trees::fit(&apart(None), &RISING).text(LEAN);
    let head =
        "# Trees of questions about a gap and a dish begun before it. Written by tests/train; do not edit by hand.\n";
    fs::write("src/lexicon/weights/backs.txt", format!("{head}{text}")).expect("the file of trees");
}
