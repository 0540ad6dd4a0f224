//! Learns which measured foods of stories and remarks an editor lists.

use super::{
    FOLDS, Row, Signs, common, drafts, fit as fits, learn as fit, marked, names, place, pull, weigh, whole, write,
};
use plainspoon::reading::{Prepared, measured, sorted};
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

/// What is added to the sum.
const LEAN: i32 = 0;

fn rows(read: &Prepared, gold: &Value, name: &str, signs: &mut Signs) -> Vec<Row> {
    let wanted: Vec<_> = gold["cards"].as_array().expect("cards").iter().map(names).collect();
    let best = |food: &str, figure: &str| wanted.iter().map(|w| fits(food, figure, w)).max().unwrap_or(-1);
    let all = |n: usize| measured::foods(&read.clauses[n], &read.found);
    let figure = |x: &plainspoon::grammar::food::SaidFood| x.amount.expect("an amount").amount.low().to_string();
    let mut out = Vec::new();
    for n in (0..read.clauses.len()).filter(|n| measured::weighed(&read.tokens, &read.clauses, &read.found, *n)) {
        let listed = |food: &str| {
            (0..read.clauses.len())
                .filter(|k| !measured::weighed(&read.tokens, &read.clauses, &read.found, *k))
                .flat_map(all)
                .any(|x| x.name == food && best(&x.name, &figure(x)) == 3)
        };
        let (mut yes, mut no, mut open) = (0, 0, 0);
        for x in all(n) {
            match best(&x.name, &figure(x)) {
                3 if !listed(&x.name) => yes += 1,
                2 if !listed(&x.name) => open += 1,
                _ => no += 1,
            }
        }
        if yes == 0 && open > 0 || yes == no {
            continue;
        }
        let place = place(read, n, &format!("{name}: {}", read.clauses[n].why));
        let mut row = Row { opens: yes > no, signs: Vec::new(), place };
        measured::signs(&read.tokens, &read.clauses, &read.found, n, |sign, answer| {
            row.signs.push(signs.id(sign, answer))
        });
        out.push(row);
    }
    out
}

/// Learns from the drafts of these folders that have cards; `trial` prints how well it does on drafts held out, and writes nothing.
pub fn learn(folders: &[PathBuf], trial: bool) {
    let mut signs = Signs::default();
    let mut all: Vec<(usize, Vec<Row>)> = Vec::new();
    for (n, path) in folders.iter().flat_map(|f| drafts(f)).enumerate() {
        let Ok(gold) = fs::read_to_string(path.with_extension("json")) else { continue };
        let gold: Value = serde_json::from_str(&gold).expect("cards in JSON");
        let text = fs::read_to_string(&path).expect("a draft in UTF-8");
        let name = path.file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
        all.push((n, rows(&sorted(&marked(&text).0), &gold, &name, &mut signs)));
    }
    let count = signs.names.len();
    common(&mut all, count);
    if trial {
        let mut sums: Vec<(i32, bool)> = Vec::new();
        for fold in 0..FOLDS {
            let train: Vec<&Row> = all.iter().filter(|a| a.0 % FOLDS != fold).flat_map(|a| &a.1).collect();
            let (bias, weights) = fit(&train, count, pull("measured"));
            for row in all.iter().filter(|a| a.0 % FOLDS == fold).flat_map(|a| &a.1) {
                let sum = weigh("measured", row, bias, &weights) + LEAN;
                sums.push((sum, row.opens));
                println!("{sum:>4} {} {}", if row.opens { "listed" } else { "left" }, row.place);
            }
        }
        let yes = sums.iter().filter(|s| s.1).count();
        for bar in [-20, -10, -5, 0, 5, 10, 20] {
            let hit = sums.iter().filter(|s| s.1 && s.0 > bar).count();
            let bad = sums.iter().filter(|s| !s.1 && s.0 > bar).count();
            println!("held out: bar {bar}: {hit} of {yes} found, {bad} of {} wrong", sums.len() - yes);
        }
        return;
    }
    let train: Vec<&Row> = all.iter().flat_map(|a| &a.1).collect();
    let (bias, weights) = fit(&train, count, pull("measured"));
    write("measured", &signs, whole(bias) + LEAN, &weights);
}
