//! Learns which clauses tell a cook anything, from what editors printed and what they left out.

use super::{FOLDS, Row, Signs, common, drafts, learn as fit, place, pull, weigh, whole, write};
use plainspoon::reading::{Prepared, prepare, telling};
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

/// What is added to the sum: a step that is lost costs more than a word of talk that is kept.
const LEAN: i32 = 0;

/// The letters, figures and apostrophes of a text, word by word.
fn words(text: &str) -> Vec<String> {
    let text = text.to_lowercase();
    let parts = text.split(|c: char| !c.is_ascii_alphanumeric() && c != '\'');
    parts.filter(|w| !w.is_empty()).map(str::to_string).collect()
}

/// A word without its ending: "boiled", "boiling" and "boils" are one.
fn stem(word: &str) -> &str {
    let short = ["ing", "ed", "es", "s"].iter().find_map(|e| word.strip_suffix(e).filter(|w| w.len() > 2));
    short.unwrap_or(word)
}

/// The texts of one kind on all cards, as words.
fn texts(gold: &Value, of: &str) -> Vec<Vec<String>> {
    let cards = gold["cards"].as_array().into_iter().flatten();
    let all = cards.flat_map(|c| c[of].as_array().into_iter().flatten());
    let one = |t: &Value| match t {
        Value::Array(all) => all.iter().filter_map(Value::as_str).flat_map(words).collect(),
        text => words(text.as_str().unwrap_or("")),
    };
    all.map(one).filter(|t: &Vec<String>| !t.is_empty()).collect()
}

/// The clauses that an editor printed or left out; of others nothing is known.
fn rows(read: &Prepared, gold: &Value, name: &str, signs: &mut Signs) -> Vec<Row> {
    let spoken: Vec<(usize, String)> = read
        .clauses
        .iter()
        .enumerate()
        .flat_map(|(n, c)| (c.piece.from..c.piece.to).map(move |k| (n, k)))
        .flat_map(|(n, k)| words(&read.tokens[k].text).into_iter().map(move |w| (n, w)))
        .collect();
    let mut left = vec![false; read.clauses.len()];
    for phrase in texts(gold, "leave_out") {
        for at in spoken.windows(phrase.len()).filter(|w| w.iter().zip(&phrase).all(|(s, p)| s.1 == *p)) {
            for (n, _) in at {
                left[*n] |= at.iter().filter(|s| s.0 == *n).count() >= phrase.len().min(2);
            }
        }
    }
    let kept: Vec<Vec<String>> = ["steps", "notes"].iter().flat_map(|of| texts(gold, of)).collect();
    let mut out = Vec::new();
    for n in (0..read.clauses.len()).filter(|n| telling::weighed(&read.clauses, &read.found, *n)) {
        let mine: Vec<&str> = spoken.iter().filter(|s| s.0 == n).map(|s| stem(&s.1)).collect();
        let told = |t: &&Vec<String>| t.iter().all(|w| mine.contains(&stem(w)));
        let most = kept.iter().filter(told).map(Vec::len).max().unwrap_or(0);
        // Where both are said of it, a single word is no proof that it was printed.
        let printed = if left[n] { most > 1 } else { most > 0 };
        if printed == left[n] {
            continue;
        }
        let place = place(read, n, &format!("{name}: {}", read.clauses[n].why));
        let mut row = Row { opens: printed, signs: Vec::new(), place };
        telling::signs(&read.tokens, &read.clauses, n, |sign, answer| row.signs.push(signs.id(sign, answer)));
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
        all.push((n, rows(&prepare(&text, &[]), &gold, &name, &mut signs)));
    }
    let count = signs.names.len();
    common(&mut all, count);
    if trial {
        let mut tally = [[0usize; 2]; 2];
        for fold in 0..FOLDS {
            let train: Vec<&Row> = all.iter().filter(|a| a.0 % FOLDS != fold).flat_map(|a| &a.1).collect();
            let (bias, weights) = fit(&train, count, pull("telling"));
            for row in all.iter().filter(|a| a.0 % FOLDS == fold).flat_map(|a| &a.1) {
                let idle = weigh("telling", row, bias, &weights) + LEAN < 0;
                tally[usize::from(row.opens)][usize::from(idle)] += 1;
                if idle == row.opens {
                    println!("{} {}", if idle { "lost" } else { "kept" }, row.place);
                }
            }
        }
        let [[kept, out], [told, lost]] = tally;
        println!(
            "held out: {out} of {} clauses of talk left out, {lost} of {} that tell lost",
            kept + out,
            told + lost
        );
        return;
    }
    let train: Vec<&Row> = all.iter().flat_map(|a| &a.1).collect();
    let (bias, weights) = fit(&train, count, pull("telling"));
    write("telling", &signs, whole(bias) + LEAN, &weights);
}
