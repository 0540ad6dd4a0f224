//! Learns the rows of the words: latent semantic analysis of the dishes of the drafts.

use super::{Draws, Taught};
use plainspoon::reading::dish::evidence::View;
use plainspoon::reading::vectors::{TOP, WIDTH, ZERO};
use plainspoon::reading::weights::Weights;
use plainspoon::token::Kind;
use std::collections::BTreeMap;

/// A word is said of so many dishes at least.
const DISHES: usize = 12;
/// And of so many in a hundred at most: what is said of each dish tells none apart.
const SHARE: usize = 35;
/// How often the directions are sharpened.
const ROUNDS: usize = 30;
/// So many numbers in a thousand are larger than the largest that is written.
const CLIPPED: usize = 5;

/// The words that are said of a dish.
pub type Dish = Vec<String>;

/// The dishes of a draft that begin at these clauses.
pub fn dishes(taught: &Taught, view: &View<'_>, begins: &[usize]) -> Vec<Dish> {
    let at = |n: usize| view.clauses.get(n).map_or(view.tokens.len(), |c| c.piece.from);
    let ends = begins.iter().skip(1).copied().chain([view.clauses.len()]);
    let said = |(from, to): (&usize, usize)| {
        let words = taught.read.tokens[at(*from)..at(to).max(at(*from))].iter().filter(|t| t.kind == Kind::Word);
        words.map(|t| t.fold.to_string()).collect()
    };
    begins.iter().zip(ends).map(said).collect()
}

/// Makes the columns stand upright on each other, each of length 1 (Gram and Schmidt).
fn upright(columns: &mut [Vec<f64>]) {
    for k in 0..columns.len() {
        let (before, rest) = columns.split_at_mut(k);
        let mine = &mut rest[0];
        for other in before {
            let along: f64 = other.iter().zip(mine.iter()).map(|(a, b)| a * b).sum();
            mine.iter_mut().zip(other).for_each(|(m, o)| *m -= along * *o);
        }
        let long = mine.iter().map(|m| m * m).sum::<f64>().sqrt().max(1e-12);
        mine.iter_mut().for_each(|m| *m /= long);
    }
}

/// The list of rows, a word a line, as `src/reading/weights.rs` reads it.
pub fn text(dishes: &[&Dish]) -> String {
    let counted: Vec<BTreeMap<&str, f64>> = dishes
        .iter()
        .map(|d| {
            let mut counts = BTreeMap::new();
            d.iter().for_each(|w| *counts.entry(w.as_str()).or_insert(0.0) += 1.0);
            counts
        })
        .collect();
    let mut with: BTreeMap<&str, usize> = BTreeMap::new();
    counted.iter().flat_map(BTreeMap::keys).for_each(|w| *with.entry(w).or_default() += 1);
    with.retain(|_, n| *n >= DISHES && *n * 100 <= dishes.len() * SHARE);
    let words: Vec<&str> = with.keys().copied().collect();
    let rare: Vec<f64> = with.values().map(|n| ((1 + dishes.len()) as f64 / (1 + n) as f64).ln() + 1.0).collect();
    // Each dish as a row of length 1.
    let rows: Vec<Vec<(usize, f64)>> = counted
        .iter()
        .map(|counts| {
            let known = counts.iter().filter_map(|(w, n)| words.binary_search(w).ok().map(|id| (id, *n)));
            let row: Vec<(usize, f64)> = known.map(|(id, n)| (id, (1.0 + n.ln()) * rare[id])).collect();
            let long = row.iter().map(|r| r.1 * r.1).sum::<f64>().sqrt().max(1e-12);
            row.into_iter().map(|r| (r.0, r.1 / long)).collect()
        })
        .collect();
    // The directions in which the rows differ most: those that many rounds of multiplying draw out.
    let mut draws = Draws(1);
    let mut columns: Vec<Vec<f64>> =
        (0..WIDTH).map(|_| words.iter().map(|_| (draws.next() % 2001) as f64 / 1000.0 - 1.0).collect()).collect();
    for _ in 0..ROUNDS {
        upright(&mut columns);
        for column in &mut columns {
            let mut next = vec![0.0; words.len()];
            for row in &rows {
                let along: f64 = row.iter().map(|(id, n)| n * column[*id]).sum();
                row.iter().for_each(|(id, n)| next[*id] += n * along);
            }
            *column = next;
        }
    }
    upright(&mut columns);
    let scaled = |column: &Vec<f64>| -> Vec<f64> { column.iter().zip(&rare).map(|(c, r)| c * r).collect() };
    let columns: Vec<Vec<f64>> = columns.iter().map(scaled).collect();
    let mut sizes: Vec<f64> = columns.iter().flatten().map(|n| n.abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let top = sizes[sizes.len() - 1 - sizes.len() * CLIPPED / 1000].max(1e-12);
    let letter = |n: f64| {
        let whole = (n / top * f64::from(TOP)).round().clamp(-f64::from(TOP), f64::from(TOP));
        char::from((i32::from(ZERO) + whole as i32) as u8)
    };
    let line = |(id, word): (usize, &&str)| {
        let letters: String = columns.iter().map(|c| letter(c[id])).collect();
        format!("{word} | {letters} | 1\n")
    };
    words.iter().enumerate().map(line).collect()
}

/// The rows that these dishes teach.
pub fn learn(dishes: &[&Dish]) -> Weights {
    // The lists of the program live as long as it does.
    Weights::parse(Box::leak(text(dishes).into_boxed_str()))
}
