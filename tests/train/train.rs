//! Learns the weights of `src/lexicon/weights` from drafts that have an editor's cards beside them.
//!
//!     cargo run --release --example train -- [--try] TASK [FOLDER ...]
//!
//! Without a folder it reads tests/drafts/whole, drafts as long as cooks talk. `openings` finds where each dish of the cards
//! begins by laying the foods that the draft measures against the cards, and marks the name that opens it there;
//! `starts` does so for a beginning without a name. `mentions` marks each food that was named without an amount as one of the
//! card's or not. A logistic regression is fitted to their signs (batch gradient descent from zero, so the same drafts give the
//! same weights). `turns` learns from the sums of the two before it, each draft weighed by weights that were learned without it,
//! whether a dish begins between two measured foods. `titles`, `twice`, `strays`, `doubts` and `telling` are told of where they
//! stand. `--try` prints how well weights learned from four fifths of the drafts do on the rest, and writes nothing.

mod lines;
mod strays;
mod telling;
mod trees;
mod turns;
mod twice;

use plainspoon::reading::Prepared;
use plainspoon::reading::dish::evidence::{Candidate, View};
use plainspoon::reading::dish::title::same_dish;
use plainspoon::reading::passing::Mention;
use plainspoon::reading::scan::Item;
use plainspoon::token::fold;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::{env, fs};

/// The weights are written as whole numbers of this fraction.
const SCALE: f64 = 16.0;

/// The strength of the pull towards zero, which keeps rare answers from deciding: the best of a few on held out drafts.
fn pull(task: &str) -> f64 {
    match task {
        "mentions" => 1.5,
        "openings" | "starts" => 12.0,
        "turns" => 50.0,
        "doubts" | "strays" => 30.0,
        "twice" => 30.0,
        _ => 6.0,
    }
}
const ROUNDS: usize = 3000;

/// Held out drafts: one in so many at a time.
const FOLDS: usize = 5;

/// Draws of a linear congruential generator (D. E. Knuth, The Art of Computer Programming 2, 3.3.4): the same each time.
struct Draws(u64);

impl Draws {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        self.0 >> 33
    }
}

/// One name in one clause.
struct Row {
    opens: bool,
    signs: Vec<usize>,
    place: String,
}

impl Row {
    fn empty() -> Row {
        Row { opens: false, signs: Vec::new(), place: String::new() }
    }
}

#[derive(Default)]
struct Signs {
    names: Vec<(String, String)>,
    index: BTreeMap<(String, String), usize>,
}

impl Signs {
    fn id(&mut self, slot: &str, value: &str) -> usize {
        let key = (slot.to_string(), value.to_string());
        *self.index.entry(key.clone()).or_insert_with(|| {
            self.names.push(key);
            self.names.len() - 1
        })
    }
}

fn names(card: &Value) -> Vec<(Vec<Vec<String>>, Option<String>)> {
    let list = card["ingredients"].as_array().expect("ingredients");
    list.iter()
        .map(|i| {
            let names = i["name"].as_array().expect("names");
            let words =
                names.iter().filter_map(Value::as_str).map(|n| n.split([' ', '-']).map(fold).collect()).collect();
            (words, i["amount"]["low"].as_str().map(str::to_string))
        })
        .collect()
}

/// How well a measured food fits a card: 2 for its name, 3 with its figure.
fn fit(name: &str, figure: &str, card: &[(Vec<Vec<String>>, Option<String>)]) -> i32 {
    let said: Vec<String> = name.split([' ', '-']).map(fold).collect();
    card.iter()
        .filter(|(names, _)| {
            names.iter().any(|n| said.iter().all(|w| n.contains(w)) || n.iter().all(|w| said.contains(w)))
        })
        .map(|(_, amount)| if amount.as_deref() == Some(figure) { 3 } else { 2 })
        .max()
        .unwrap_or(-1)
}

/// A dish of a draft: the names it may have, the clauses in which it has to open, and the name that opens it.
struct Dish {
    titles: Vec<String>,
    gap: (usize, usize),
    /// Where it begins if nobody names it there.
    start: usize,
    opening: Option<(usize, Candidate)>,
}

fn from_cards(read: &Prepared, view: &View<'_>, gold: &Value) -> Vec<Dish> {
    let cards = gold["cards"].as_array().expect("cards");
    let wanted: Vec<_> = cards.iter().map(names).collect();
    let titles: Vec<Vec<&str>> = cards
        .iter()
        .map(|c| c["title"].as_array().expect("titles").iter().filter_map(Value::as_str).collect())
        .collect();
    let mut measured: Vec<(usize, String, String)> = Vec::new();
    for (n, c) in read.clauses.iter().enumerate() {
        for f in &read.found[c.found.0..c.found.1] {
            if let (Item::Food(x), false) = (&f.item, c.cues.story)
                && let Some(a) = x.amount
            {
                measured.push((n, x.name.clone(), a.amount.low().to_string()));
            }
        }
    }
    let fits = |c: &Candidate, card: usize| titles[card].iter().any(|t| same_dish(t, &c.title));
    let named: Vec<Vec<Candidate>> = (0..read.clauses.len()).map(|n| view.candidates(n)).collect();
    // A name of the card between two measured foods, the plainer the better, speaks for its opening there.
    let opens = |i: usize, card: usize| -> i32 {
        let after = if i == 0 { 0 } else { measured[i - 1].0 + 1 };
        let all = (after.min(measured[i].0)..=measured[i].0).flat_map(|n| &named[n]);
        all.filter(|c| fits(c, card)).map(|c| 2 + i32::from(c.strength)).max().unwrap_or(0)
    };
    // Between equals a dish begins where a paragraph does, or after what serves or keeps the one before.
    let turns = |i: usize| -> i32 {
        let gap = if i == 0 { 0 } else { (measured[i - 1].0 + 1).min(measured[i].0) }..=measured[i].0;
        let holds = |what: &dyn Fn(usize) -> bool| i32::from(gap.clone().any(what));
        holds(&|n| read.clauses[n].piece.breaks) + holds(&|n| view.closes[n]) - i32::from(gap.clone().count() <= 1)
    };
    // The best way to deal the measured foods to the cards in their order.
    let (m, k) = (measured.len(), cards.len());
    let mut best = vec![vec![(i32::MIN / 2, 0usize); k]; m + 1];
    for slot in best[0].iter_mut() {
        *slot = (0, 0);
    }
    for (i, (_, food, figure)) in measured.iter().enumerate() {
        for card in 0..k {
            let (from, score) = (0..=card)
                .map(|p| (p, best[i][p].0 + if p == card { 0 } else { 2 * opens(i, card) - 2 + turns(i) }))
                .max_by_key(|s| (s.1, s.0))
                .expect("a card");
            best[i + 1][card] = (score + 2 * fit(food, figure, &wanted[card]), from);
        }
    }
    let mut dealt = vec![0; m];
    let mut at = (0..k).max_by_key(|c| best[m][*c].0).unwrap_or(0);
    for i in (0..m).rev() {
        dealt[i] = at;
        at = best[i + 1][at].1;
    }
    // The gap in which each dish has to open, and the name that opens it.
    let mut out = Vec::new();
    for (card, titles) in titles.iter().enumerate() {
        let Some(first) = dealt.iter().position(|d| *d == card) else { continue };
        let after = if first == 0 { 0 } else { measured[first - 1].0 + 1 };
        let until = measured[first].0;
        let gap = (after.min(until), until);
        let mut hits: Vec<(usize, Candidate)> = Vec::new();
        for (n, names) in named.iter().enumerate().take(gap.1 + 1).skip(gap.0) {
            hits.extend(names.iter().filter(|c| fits(c, card)).map(|c| (n, c.clone())));
        }
        let plainest = hits.iter().map(|h| h.1.strength).max().unwrap_or(0);
        let opening = hits.into_iter().find(|h| h.1.strength == plainest);
        let start = (gap.0..=gap.1).rev().find(|n| read.clauses[*n].piece.breaks).unwrap_or(gap.1);
        out.push(Dish { titles: titles.iter().map(|t| t.to_string()).collect(), gap, start, opening });
    }
    out
}

/// The names that may open a dish, each one that does or does not.
fn openings(read: &Prepared, view: &View<'_>, dishes: &[Dish], name: &str, signs: &mut Signs) -> Vec<Row> {
    let mut out = Vec::new();
    let opened: Vec<(usize, &Dish, &Candidate)> =
        dishes.iter().filter_map(|d| d.opening.as_ref().map(|o| (o.0, d, &o.1))).collect();
    let known = |d: &Dish, c: &Candidate| d.titles.iter().any(|t| same_dish(t, &c.title));
    for n in 0..read.clauses.len() {
        let current = opened.iter().rev().find(|o| o.0 < n);
        let before: Vec<(usize, &str)> = dishes
            .iter()
            .map(|d| (d.opening.as_ref().map_or(d.start, |o| o.0), d.titles[0].as_str()))
            .filter(|d| d.0 < n)
            .collect();
        for c in view.candidates(n) {
            let here = opened.iter().any(|o| o.0 == n && o.2.from == c.from && o.2.to == c.to);
            let beside = opened.iter().any(|o| o.0 == n);
            let begins = |d: &Dish| d.opening.as_ref().map_or(d.start, |o| o.0);
            let within = dishes.iter().rev().find(|d| begins(d) <= n);
            let same = current.is_some_and(|o| known(o.1, &c)) || within.is_some_and(|d| known(d, &c));
            let ambiguous = dishes.iter().any(|d| (d.gap.0..=d.gap.1).contains(&n) && known(d, &c));
            // The first dish needs no weighing: it begins where the making does.
            if before.is_empty() || !here && (same || ambiguous || beside) {
                continue;
            }
            let mut row =
                Row { opens: here, signs: Vec::new(), place: place(read, n, &format!("{name}: {:?}", c.title)) };
            view.signs(n, &c, &before, |slot, value| row.signs.push(signs.id(slot, value)));
            out.push(row);
        }
    }
    out
}

/// The sentences at which a dish may begin without a name, each one that does or does not.
fn starts(read: &Prepared, view: &View<'_>, dishes: &[Dish], name: &str, signs: &mut Signs) -> Vec<Row> {
    let begins = |d: &Dish| d.opening.as_ref().map_or(d.start, |o| o.0);
    let mut out = Vec::new();
    for n in 0..read.clauses.len() {
        let before: Vec<(usize, &str)> =
            dishes.iter().map(|d| (begins(d), d.titles[0].as_str())).filter(|d| d.0 < n).collect();
        let measured = |from: usize, to: usize| view.amounts[from.min(to)..to.max(from)].iter().any(|a| *a > 0);
        let here = dishes.iter().any(|d| d.opening.is_none() && d.start == n);
        // Where nothing is measured between, it might as well begin here; and a name opens better.
        let beside = dishes.iter().any(|d| begins(d).abs_diff(n) <= 8 && !measured(begins(d), n));
        if before.is_empty() || !view.may_start(n) || !here && beside {
            continue;
        }
        let mut row = Row { opens: here, signs: Vec::new(), place: place(read, n, name) };
        view.start_signs(n, &before, |slot, value| row.signs.push(signs.id(slot, value)));
        out.push(row);
    }
    out
}

fn place(read: &Prepared, n: usize, what: &str) -> String {
    let piece = read.clauses[n].piece;
    let said: Vec<&str> = read.tokens[piece.from..piece.to].iter().map(|t| &*t.text).collect();
    format!("{what} in {:?}", said.join(" "))
}

/// The names said of each dish that the reading tells apart, each one that an editor would print or not.
fn names_of(read: &Prepared, view: &View<'_>, dishes: &[Dish], name: &str, signs: &mut Signs) -> Vec<Row> {
    let mut out = Vec::new();
    let plan = plainspoon::reading::dish::openings(view);
    let begins = |d: &Dish| d.opening.as_ref().map_or(d.start, |o| o.0);
    for k in 0..plan.dishes.len() {
        let stretch = plan.stretch(view, k);
        // The dish of the cards that shares most of its clauses.
        let shared = |k: usize| {
            let end = dishes.get(k + 1).map_or(read.clauses.len(), begins);
            end.min(stretch.to).saturating_sub(begins(&dishes[k]).max(stretch.from))
        };
        let Some(best) = (0..dishes.len()).max_by_key(|k| shared(*k)).filter(|k| shared(*k) > 0) else { continue };
        let d = &dishes[best];
        let words = |t: &str| t.split([' ', '-']).map(fold).collect::<Vec<_>>();
        let all = view.names(&stretch);
        for said in &all {
            let right = d.titles.iter().any(|t| words(t) == words(&said.candidate.title));
            let near = d.titles.iter().any(|t| same_dish(t, &said.candidate.title));
            if near && !right && d.titles.len() > 1 {
                continue;
            }
            let told = place(read, said.clause, &format!("{name}/{k}: {:?}", said.candidate.title));
            let mut row = Row { opens: right, signs: Vec::new(), place: told };
            view.name_signs(&stretch, said, |slot, value| row.signs.push(signs.id(slot, value)));
            out.push(row);
        }
    }
    out
}

/// Answers that fewer drafts than this give teach nothing about the next draft: they are left out.
const DRAFTS: usize = 4;

/// Leaves out the answers that only a few drafts give.
fn common(all: &mut [(usize, Vec<Row>)], count: usize) {
    let mut seen = vec![0; count];
    for (_, rows) in all.iter() {
        let mut here: Vec<usize> = rows.iter().flat_map(|r| r.signs.iter().copied()).collect();
        here.sort_unstable();
        here.dedup();
        for s in here {
            seen[s] += 1;
        }
    }
    for row in all.iter_mut().flat_map(|a| &mut a.1) {
        row.signs.retain(|s| seen[*s] >= DRAFTS);
    }
}

/// The foods that were named without an amount, each one of the cards' or not.
fn mentions(read: &Prepared, gold: &Value, name: &str, signs: &mut Signs) -> Vec<Row> {
    let plan = plainspoon::reading::dish::plan(&read.tokens, &read.clauses, &read.found);
    let cards = gold["cards"].as_array().expect("cards");
    let wanted: Vec<_> = cards.iter().map(names).collect();
    let mut out = Vec::new();
    for card in 0..plan.dishes.len() {
        let book = plainspoon::reading::ledger::keep(&read.tokens, &read.clauses, &read.found, &plan, card, true);
        let mut done = vec![false; book.lines.len()];
        let others = plan.others(card);
        // The card of the editor that holds most of what this one measures.
        let shared = |w: &[(Vec<Vec<String>>, Option<String>)]| -> i32 {
            let measured = book.lines.iter().filter_map(|l| l.amount.map(|a| (&l.name, a)));
            measured.map(|(name, a)| fit(name, &a.low().to_string(), w).max(0)).sum()
        };
        let Some(own) = wanted.iter().max_by_key(|w| shared(w)) else { continue };
        for (n, c) in read.clauses.iter().enumerate().filter(|(n, _)| plan.card[*n] == Some(card)) {
            let mine = &read.found[c.found.0..c.found.1];
            for (k, f) in mine.iter().enumerate() {
                let Item::Food(said) = &f.item else { continue };
                let Some(entry) = book.entries[c.found.0 + k] else { continue };
                if !plainspoon::reading::ledger::slight(said)
                    || !entry.measured
                    || std::mem::replace(&mut done[entry.line], true)
                {
                    continue;
                }
                let on_card = fit(&said.name, "", own) > 0;
                let mention = Mention {
                    tokens: &read.tokens,
                    clause: c,
                    mine,
                    at: (f.from, f.to),
                    said,
                    title: &plan.dishes[card].title,
                    others: &others,
                    lines: entry.line,
                };
                let mut row = Row { opens: on_card, signs: Vec::new(), place: String::new() };
                mention.signs(|slot, value| row.signs.push(signs.id(slot, value)));
                row.place = place(read, n, &format!("{name}: {:?}", said.name));
                out.push(row);
            }
        }
    }
    out
}

/// What is added to the sum of each choice: a dish that is not told apart costs more than one too many, since its foods then
/// stand on the card before.
fn lean(task: &str) -> i32 {
    match task {
        "openings" => 14,
        // A food that is only mentioned costs a query and a line nobody needs.
        "mentions" => -10,
        _ => 0,
    }
}

fn learn(rows: &[&Row], count: usize, pull: f64) -> (f64, Vec<f64>) {
    let mut bias = -2.0;
    let mut weights = vec![0.0f64; count];
    let mut seen = vec![0.0f64; count];
    for row in rows {
        for s in &row.signs {
            seen[*s] += 1.0;
        }
    }
    for round in 0..ROUNDS {
        let mut slope = vec![0.0; count];
        let mut lean = 0.0;
        for row in rows {
            let sum: f64 = bias + row.signs.iter().map(|s| weights[*s]).sum::<f64>();
            let miss = f64::from(row.opens) - 1.0 / (1.0 + (-sum).exp());
            lean += miss;
            for s in &row.signs {
                slope[*s] += miss;
            }
        }
        let rate = 1.0 / (1.0 + round as f64 / 400.0);
        bias += rate * lean / rows.len() as f64 * 4.0;
        for s in 0..count {
            // Each weight moves by its own count, so that rare answers are learned as fast as common ones.
            weights[s] += rate * (slope[s] - pull * weights[s]) / (seen[s] * 0.25 + 4.0) / 12.0;
        }
    }
    (bias, weights)
}

/// What the drafts teach without one fifth of them, or all of them.
fn without(all: &[(usize, Vec<Row>)], count: usize, pull: f64, fold: Option<usize>) -> (f64, Vec<f64>) {
    let rows: Vec<&Row> = all.iter().filter(|r| Some(r.0 % FOLDS) != fold).flat_map(|r| &r.1).collect();
    learn(&rows, count, pull)
}

/// What they teach without each fifth in turn.
fn each_without(all: &[(usize, Vec<Row>)], count: usize, pull: f64) -> Vec<(f64, Vec<f64>)> {
    std::thread::scope(|s| {
        let folds: Vec<_> = (0..FOLDS).map(|fold| s.spawn(move || without(all, count, pull, Some(fold)))).collect();
        folds.into_iter().map(|f| f.join().expect("a fold")).collect()
    })
}

fn whole(w: f64) -> i32 {
    (w * SCALE).round() as i32
}

/// The weight that is written. Where the cut is weighed, what hardly counts would take half the room and is left out.
fn kept(task: &str, w: f64) -> i32 {
    let least = if ["openings", "starts", "turns", "telling"].contains(&task) { 2 } else { 1 };
    Some(whole(w)).filter(|w| w.abs() >= least).unwrap_or(0)
}

fn weigh(task: &str, row: &Row, bias: f64, weights: &[f64]) -> i32 {
    whole(bias) + row.signs.iter().map(|s| kept(task, weights[*s])).sum::<i32>()
}

fn drafts(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("a folder of drafts");
    let mut out: Vec<PathBuf> = entries
        .filter_map(|e| e.ok().map(|e| e.path()))
        .filter(|p| p.extension().is_some_and(|e| e == "txt"))
        .collect();
    out.sort();
    out
}

/// A draft with what an editor made of it.
struct Taught {
    name: String,
    read: Prepared,
    gold: Value,
}

impl Taught {
    fn of(path: &Path) -> Taught {
        let text = fs::read_to_string(path).expect("a draft in UTF-8");
        let name = path.file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
        let gold = fs::read_to_string(path.with_extension("json")).expect("cards beside the draft");
        let gold = serde_json::from_str(&gold).expect("cards in JSON");
        Taught { name, read: plainspoon::reading::prepare(&text, &[]), gold }
    }

    fn dishes(&self, view: &View<'_>) -> Vec<Dish> {
        from_cards(&self.read, view, &self.gold)
    }
}

fn main() {
    let mut folders: Vec<PathBuf> = env::args().skip(1).map(PathBuf::from).collect();
    let trial = folders.iter().any(|f| f.as_os_str() == "--try");
    folders.retain(|f| f.as_os_str() != "--try");
    let task = if folders.is_empty() { PathBuf::new() } else { folders.remove(0) };
    let task = task.to_string_lossy().into_owned();
    assert!(
        ["openings", "starts", "turns", "mentions", "titles", "twice", "strays", "doubts", "telling"]
            .contains(&task.as_str()),
        "say what to learn: openings, starts, turns, mentions, titles, twice, strays, doubts or telling"
    );
    if folders.is_empty() {
        folders = vec!["tests/drafts/whole".into()];
    }
    if task == "doubts" {
        lines::learn(&folders, trial);
        return;
    }
    if task == "strays" {
        strays::learn(&folders, trial);
        return;
    }
    if task == "telling" {
        telling::learn(&folders, trial);
        return;
    }
    if task == "twice" {
        twice::learn(&folders, trial);
        return;
    }
    if task == "turns" {
        turns::learn(&folders, trial);
        return;
    }
    let mut signs = Signs::default();
    let mut missed = Vec::new();
    let mut all: Vec<(usize, Vec<Row>)> = Vec::new();
    for (n, path) in folders.iter().flat_map(|f| drafts(f)).enumerate() {
        let draft = Taught::of(&path);
        let (name, read) = (&draft.name, &draft.read);
        let view = View::new(&read.tokens, &read.clauses, &read.found);
        let dishes = draft.dishes(&view);
        missed.extend(dishes.iter().enumerate().filter(|d| d.1.opening.is_none()).map(|(k, d)| {
            let said: Vec<String> = (d.gap.0..=d.gap.1).map(|n| place(read, n, "")).collect();
            format!("{name}/{k}: {:?}{}", d.titles, said.join(" |"))
        }));
        let learned = match task.as_str() {
            "openings" => openings(read, &view, &dishes, name, &mut signs),
            "starts" => starts(read, &view, &dishes, name, &mut signs),
            "titles" => names_of(read, &view, &dishes, name, &mut signs),
            _ => mentions(read, &draft.gold, name, &mut signs),
        };
        all.push((n, learned));
    }
    let count = signs.names.len();
    common(&mut all, count);
    let opens = all.iter().flat_map(|a| &a.1).filter(|r| r.opens).count();
    let count_all = all.iter().map(|a| a.1.len()).sum::<usize>();
    eprintln!("{} drafts, {opens} of {count_all} names hold, {} dishes without a name", all.len(), missed.len());
    if trial {
        for m in &missed {
            println!("no name  {m}");
        }
        let (mut hits, mut extra) = (0, 0);
        for fold in 0..FOLDS {
            let train: Vec<&Row> = all.iter().filter(|a| a.0 % FOLDS != fold).flat_map(|a| &a.1).collect();
            let (bias, weights) = learn(&train, count, pull(&task));
            for row in all.iter().filter(|a| a.0 % FOLDS == fold).flat_map(|a| &a.1) {
                let sum = weigh(&task, row, bias, &weights) + lean(&task);
                match (row.opens, sum > 0) {
                    (true, true) => hits += 1,
                    (true, false) => println!("missed {sum:>4}  {}", row.place),
                    (false, true) => {
                        extra += 1;
                        println!("extra  {sum:>4}  {}", row.place);
                    }
                    _ => {}
                }
            }
        }
        println!("held out: {hits} of {opens} found, {extra} extra");
        return;
    }
    let train: Vec<&Row> = all.iter().flat_map(|a| &a.1).collect();
    let (bias, weights) = learn(&train, count, pull(&task));
    write(&task, &signs, whole(bias) + lean(&task), &weights);
}

/// Writes the weights of a choice where the program finds them.
fn write(task: &str, signs: &Signs, bias: i32, weights: &[f64]) {
    let mut out = String::from(
        "# What each sign is worth: sign | answer | weight. Written by tests/train; do not edit by hand.\n",
    );
    out.push_str(&format!("bias | - | {bias}\n"));
    let mut lines: Vec<String> = signs
        .names
        .iter()
        .zip(weights)
        .filter(|(_, w)| kept(task, **w) != 0)
        .map(|((slot, value), w)| format!("{slot} | {value} | {}\n", whole(*w)))
        .collect();
    lines.sort();
    out.extend(lines);
    fs::write(format!("src/lexicon/weights/{task}.txt"), out).expect("the file of weights");
}
