//! The machine-readable reading: a book becomes JSON.
//!
//! Amounts are exact fractions as text. The records here are twins of the recipe's, made by hand, so that nothing else
//! knows serde.

use crate::measure::{Amount, Heat, Length, Ratio};
use crate::recipe::{Book, Card, Fix, PieceKind, Step};
use serde::Serialize;

/// The whole reading.
#[derive(Serialize)]
pub struct BookRecord {
    /// The cards.
    pub cards: Vec<CardRecord>,
    /// Slips of speech-to-text put right.
    pub fixes: Vec<FixRecord>,
}

/// A card.
#[derive(Serialize)]
pub struct CardRecord {
    title: String,
    #[serde(rename = "yield")]
    makes: Option<YieldRecord>,
    bakeware: Vec<PanRecord>,
    oven: Vec<OvenRecord>,
    times: Vec<TimeRecord>,
    ingredients: Vec<LineRecord>,
    steps: Vec<String>,
    headnote: Option<String>,
    notes: Vec<String>,
    queries: Vec<QueryRecord>,
}

#[derive(Serialize)]
struct YieldRecord {
    low: String,
    high: String,
    of: String,
}

#[derive(Serialize)]
struct PanRecord {
    shape: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    inches: Option<Vec<String>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    centimeters: Option<Vec<String>>,
}

#[derive(Serialize)]
struct OvenRecord {
    degrees: String,
    scale: Option<&'static str>,
}

#[derive(Serialize)]
struct TimeRecord {
    low: String,
    high: String,
    unit: &'static str,
}

#[derive(Serialize)]
struct RangeRecord {
    low: String,
    high: String,
}

#[derive(Serialize)]
struct PackageRecord {
    amount: String,
    unit: &'static str,
}

#[derive(Serialize)]
struct LineRecord {
    name: String,
    amount: Option<RangeRecord>,
    unit: Option<&'static str>,
    package: Option<PackageRecord>,
    prep: Option<String>,
    optional: bool,
    to_taste: bool,
    divided: bool,
    group: Option<String>,
    remark: Option<String>,
    places: Vec<[u32; 2]>,
}

#[derive(Serialize)]
struct QueryRecord {
    text: String,
    line: Option<usize>,
    choices: Vec<String>,
}

/// A slip put right.
#[derive(Serialize)]
pub struct FixRecord {
    heard: String,
    meant: String,
    place: [u32; 2],
}

/// The records of a book.
pub fn book(book: &Book) -> BookRecord {
    BookRecord { cards: book.cards.iter().map(card).collect(), fixes: book.fixes.iter().map(fix).collect() }
}

fn fix(f: &Fix) -> FixRecord {
    FixRecord { heard: f.heard.clone(), meant: f.meant.clone(), place: [f.span.start, f.span.end] }
}

fn range(a: &Amount) -> RangeRecord {
    RangeRecord { low: a.low().to_string(), high: a.high().to_string() }
}

fn card(c: &Card) -> CardRecord {
    CardRecord {
        title: c.title.clone(),
        makes: c.makes.as_ref().map(|y| YieldRecord {
            low: y.low.to_string(),
            high: y.high.to_string(),
            of: y.of.clone(),
        }),
        bakeware: c
            .pans
            .iter()
            .filter(|p| !p.what.sides.is_empty())
            .map(|p| {
                let sides: Vec<String> = p.what.sides.iter().map(Ratio::to_string).collect();
                let inch = p.what.length == Length::Inch;
                PanRecord {
                    shape: p.what.shape.name(),
                    inches: inch.then(|| sides.clone()),
                    centimeters: (!inch).then_some(sides),
                }
            })
            .collect(),
        oven: c
            .ovens
            .iter()
            .map(|o| match o.what {
                Heat::Fahrenheit(n) => OvenRecord { degrees: n.to_string(), scale: Some("F") },
                Heat::Celsius(n) | Heat::Fan(n) => OvenRecord { degrees: n.to_string(), scale: Some("C") },
                Heat::Gas(n) => OvenRecord { degrees: n.to_string(), scale: Some("gas") },
                Heat::Broil => OvenRecord { degrees: "broil".into(), scale: None },
            })
            .collect(),
        times: c
            .times
            .iter()
            .map(|t| TimeRecord {
                low: t.what.low().to_string(),
                high: t.what.high().to_string(),
                unit: t.what.unit().name(),
            })
            .collect(),
        ingredients: c
            .lines
            .iter()
            .map(|l| LineRecord {
                name: l.name.clone(),
                amount: l.amount.as_ref().map(range),
                unit: l.amount.and_then(|a| a.unit()).map(|u| u.name()),
                package: l.package.map(|p| PackageRecord { amount: p.size.to_string(), unit: p.unit.name() }),
                prep: (!l.prep.is_empty()).then(|| crate::letters::join(&l.prep, ", ")),
                optional: l.optional,
                to_taste: l.to_taste,
                divided: l.divided,
                group: l.group.clone(),
                remark: l.remark.clone(),
                places: l.spans.iter().map(|s| [s.start, s.end]).collect(),
            })
            .collect(),
        steps: c.steps.iter().map(step_text).collect(),
        headnote: c.headnote.as_ref().map(|h| h.text.clone()),
        notes: c.notes.iter().map(|n| n.text.clone()).collect(),
        queries: c
            .queries
            .iter()
            .map(|q| QueryRecord {
                text: q.text.clone(),
                line: q.line,
                choices: q.choices.iter().map(|c| c.label.clone()).collect(),
            })
            .collect(),
    }
}

/// A step as one line of text, unscaled.
pub fn step_text(step: &Step) -> String {
    let mut out = String::new();
    for p in &step.pieces {
        match &p.kind {
            PieceKind::Words(w) => out.push_str(w),
            PieceKind::Amount { amount, .. } => out.push_str(&crate::recipe::said(amount)),
            PieceKind::Heat(h) => out.push_str(&h.to_string()),
            PieceKind::Time(t) => out.push_str(&t.to_string()),
            PieceKind::Pan(p) => out.push_str(&p.to_string()),
        }
    }
    out
}
