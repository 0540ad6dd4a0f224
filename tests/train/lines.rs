//! Learns which figures of the list are to be asked for: those that an editor has otherwise, and those that she asks for.

use super::{FOLDS, Row, Signs, Taught, common, drafts, each_without, pull, trees, whole, without, write};
use plainspoon::measure::Amount;
use plainspoon::reading::dish::{self, Plan};
use plainspoon::reading::ledger::{Ledger, keep, trust};
use plainspoon::token::fold;
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

/// What is added to the sum: a silent wrong figure is worse than two needless queries, but six queries for ten cards are the most.
const LEAN: i32 = 348;
/// The sum of the learned weights speaks for a doubt, the more the higher.
const RISING: [usize; 1] = [0];

/// Drafts with an editor's cards, how they are cut into dishes, and the books of each dish.
pub struct Kept {
    pub all: Vec<Taught>,
    pub plans: Vec<Plan>,
    pub books: Vec<Vec<Ledger>>,
}

impl Kept {
    /// Reads the drafts of these folders; with `open` every soft choice of the books is left open, as learning it needs.
    pub fn of(folders: &[PathBuf], open: bool) -> Kept {
        let all: Vec<Taught> = folders.iter().flat_map(|f| drafts(f)).map(|p| Taught::of(&p)).collect();
        let plans: Vec<Plan> = all.iter().map(|t| dish::plan(&t.read.tokens, &t.read.clauses, &t.read.found)).collect();
        let books = all.iter().zip(&plans).map(|(t, p)| {
            let book = |k| keep(&t.read.tokens, &t.read.clauses, &t.read.found, p, k, open);
            (0..p.dishes.len()).map(book).collect()
        });
        let books = books.collect();
        Kept { all, plans, books }
    }

    /// Leaves out the lines that are no ingredients, as the program does.
    fn settled(mut self) -> Kept {
        for ((t, plan), books) in self.all.iter().zip(&self.plans).zip(&mut self.books) {
            for (k, book) in books.iter_mut().enumerate() {
                let strays = view(t, plan, k, book).strays();
                book.leave_out(&strays);
            }
        }
        self
    }
}

/// A line of a card.
struct Line {
    draft: usize,
    card: usize,
    line: usize,
    /// It is to be asked for.
    asks: bool,
    signs: Row,
    place: String,
}

fn folded(name: &str) -> Vec<String> {
    name.split([' ', '-']).map(fold).collect()
}

/// Whether the name of a line is one of an editor's entry.
pub fn fits(name: &str, item: &Value) -> bool {
    let said = folded(name);
    item["name"]
        .as_array()
        .expect("names")
        .iter()
        .filter_map(Value::as_str)
        .map(folded)
        .any(|n| said.iter().all(|w| n.contains(w)) || n.iter().all(|w| said.contains(w)))
}

/// An amount in one measure for all of its kind, so that "3 teaspoons" and "1 tablespoon" are the same.
pub fn plain(low: f64, unit: Option<&str>) -> (f64, String) {
    let times = match unit.unwrap_or("") {
        "teaspoon" => 1.0,
        "tablespoon" => 3.0,
        "fluid ounce" => 6.0,
        "stick" => 24.0,
        "cup" => 48.0,
        "pint" => 96.0,
        "quart" => 192.0,
        "gallon" => 768.0,
        "milliliter" => 1.0 / 4.92892159375,
        "liter" => 1000.0 / 4.92892159375,
        "gram" => return (low, "gram".into()),
        "kilogram" => return (1000.0 * low, "gram".into()),
        "ounce" => return (28.349523125 * low, "gram".into()),
        "pound" => return (453.59237 * low, "gram".into()),
        other => return (low, other.into()),
    };
    (low * times, "teaspoon".into())
}

/// A figure of the cards: "1 1/2".
pub fn number(text: &str) -> f64 {
    text.split(' ')
        .map(|part| match part.split_once('/') {
            Some((a, b)) => a.parse::<f64>().unwrap_or(0.0) / b.parse::<f64>().unwrap_or(1.0),
            None => part.parse().unwrap_or(0.0),
        })
        .sum()
}

/// Whether the figure is that of one of the editor's entries, or of all of them together.
pub fn same(amount: Option<&Amount>, items: &[&Value]) -> bool {
    let all: Vec<(f64, String)> =
        items.iter().filter_map(|i| Some(plain(number(i["amount"]["low"].as_str()?), i["unit"].as_str()))).collect();
    let Some(a) = amount else { return all.len() < items.len() };
    let mine = plain(number(&a.low().to_string()), a.unit().map(|u| u.name()));
    let near = |v: f64| (v - mine.0).abs() < 0.01 * mine.0.max(0.01);
    all.iter().any(|i| i.1 == mine.1 && near(i.0))
        || all.iter().all(|i| i.1 == mine.1) && near(all.iter().map(|i| i.0).sum())
}

/// The lines of a card with the talk they came from.
pub fn view<'a>(t: &'a Taught, plan: &'a Plan, card: usize, book: &'a Ledger) -> trust::View<'a> {
    trust::View::new(&t.read.tokens, &t.read.clauses, &t.read.found, plan, card, book)
}

/// The editor's cards of a draft.
pub fn cards(t: &Taught) -> &Vec<Value> {
    t.gold["cards"].as_array().expect("cards")
}

/// The ingredients of an editor's card.
pub fn items(card: &Value) -> &Vec<Value> {
    card["ingredients"].as_array().expect("ingredients")
}

/// The editor's card that a book keeps: the one with most of its lines, if it has half of them.
pub fn own<'a>(book: &Ledger, cards: &'a [Value]) -> Option<&'a Value> {
    let shared = |c: &Value| book.lines.iter().filter(|l| items(c).iter().any(|i| fits(&l.name, i))).count();
    cards.iter().max_by_key(|c| shared(c)).filter(|c| 2 * shared(c) >= book.lines.len())
}

/// The lines of a draft that an editor has as well, each with whether its figure is to be asked for.
fn lines(draft: usize, t: &Taught, plan: &Plan, books: &[Ledger], signs: &mut Signs) -> Vec<Line> {
    let cards = cards(t);
    let mut out = Vec::new();
    if books.len() != cards.len() {
        return out;
    }
    for (k, book) in books.iter().enumerate() {
        let view = view(t, plan, k, book);
        let Some(own) = own(book, cards) else { continue };
        let items = items(own);
        for (l, line) in book.lines.iter().enumerate() {
            let fitting: Vec<&Value> = items.iter().filter(|i| fits(&line.name, i)).collect();
            let asked = own["ask"].as_array().is_some_and(|all| {
                all.iter().filter_map(Value::as_array).any(|needles| {
                    let words = || needles.iter().filter_map(Value::as_str);
                    words().count() > 0 && words().all(|w| line.name.contains(&w.to_lowercase()))
                })
            });
            let right = fitting.is_empty() || same(line.amount.as_ref(), &fitting);
            let figure = line.amount.map(|a| format!("{} {}", a.low(), a.unit().map_or("", |u| u.name())));
            let mut row = Row::empty();
            view.signs(l, |s, a| row.signs.push(signs.id(s, a)));
            out.push(Line {
                draft,
                card: k,
                line: l,
                asks: asked || !right,
                signs: row,
                place: format!("{}: {} {}", t.name, line.name, figure.unwrap_or_default()),
            });
        }
    }
    out
}

/// Learns from the drafts of these folders; `trial` prints how well it does on drafts held out, and writes nothing.
pub fn learn(folders: &[PathBuf], trial: bool) {
    let Kept { all, plans, books } = Kept::of(folders, false).settled();
    let mut signs = Signs::default();
    let mut rows: Vec<(usize, Vec<Row>)> = Vec::new();
    let mut told: Vec<Line> = Vec::new();
    for (n, t) in all.iter().enumerate() {
        let mut mine = lines(n, t, &plans[n], &books[n], &mut signs);
        let only = mine.iter_mut().map(|l| Row { opens: l.asks, ..std::mem::replace(&mut l.signs, Row::empty()) });
        rows.push((n, only.collect()));
        told.extend(mine);
    }
    let count = signs.names.len();
    common(&mut rows, count);
    let asks = told.iter().filter(|l| l.asks).count();
    eprintln!("{} drafts, {asks} of {} figures to be asked for", all.len(), told.len());
    // What the weights say of a row has to be what they say of one they have not seen.
    let learned = each_without(&rows, count, pull("doubts"));
    let facts: Vec<trees::Row> = told
        .iter()
        .zip(rows.iter().flat_map(|r| &r.1))
        .map(|(l, row)| {
            let view = view(&all[l.draft], &plans[l.draft], l.card, &books[l.draft][l.card]);
            let (bias, weights) = &learned[l.draft % FOLDS];
            let sum = whole(*bias) + row.signs.iter().map(|s| whole(weights[*s])).sum::<i32>();
            trees::Row { facts: view.facts(l.line, sum).to_vec(), yes: l.asks, counts: 1.0 }
        })
        .collect();
    let apart = |fold: Option<usize>| -> Vec<&trees::Row> {
        facts.iter().zip(&told).filter(|(_, l)| Some(l.draft % FOLDS) != fold).map(|(r, _)| r).collect()
    };
    if trial {
        let (mut hits, mut extra) = (0, 0);
        for fold in 0..FOLDS {
            let fitted = trees::fit(&apart(Some(fold)), &RISING, trees::DRAWS);
            for (row, l) in facts.iter().zip(&told).filter(|(_, l)| l.draft % FOLDS == fold) {
                let sum = fitted.sum(&row.facts) + LEAN;
                match (row.yes, sum > 0) {
                    (true, true) => hits += 1,
                    (true, false) => println!("missed {sum:>5}  {}", l.place),
                    (false, true) => {
                        extra += 1;
                        println!("extra  {sum:>5}  {}", l.place);
                    }
                    _ => {}
                }
            }
        }
        println!("held out: {hits} of {asks} found, {extra} extra");
        return;
    }
    let (bias, weights) = without(&rows, count, pull("doubts"), None);
    write("doubts", &signs, whole(bias), &weights);
    let text = trees::fit(&apart(None), &RISING, trees::DRAWS).text(LEAN);
    let head = "# Trees of questions about the figure of a line. Written by tests/train; do not edit by hand.\n";
    fs::write("src/lexicon/weights/doubted.txt", format!("{head}{text}")).expect("the file of trees");
}
