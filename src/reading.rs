//! The reading: a draft becomes cards. It never fails; what it cannot tell is a query, what it does not need is left out.
//!
//! 1. [`mend`]: slips of speech-to-text are put right.
//! 2. [`scan`]: the grammar's productions find amounts, foods, times, heats, pans and yields.
//! 3. [`clause`]: sentences are cut into clauses, never within a finding.
//! 4. [`sort`]: each clause gets its main use; [`telling`] leaves out what only looks like a step or a note.
//! 5. [`dish`]: clauses go to dishes and to parts of them.
//! 6. [`ledger`]: amounts become lines; parts are booked against them.
//! 7. [`oven`]: oven settings, pans and times.
//! 8. [`makes`]: how much it makes; [`method`] and [`notes`]: actions become steps, remarks become notes.
//! 9. [`headnote`]: what she says of the dish itself; [`query`]: what to ask.

pub mod clause;
pub mod dish;
pub mod headnote;
pub mod ledger;
pub mod makes;
pub mod mend;
pub mod method;
pub mod notes;
pub mod oven;
pub mod passing;
pub mod query;
pub mod scan;
pub mod sort;
pub mod telling;
pub mod weights;

use crate::draft::Span;
use crate::draft::format::talk;
use crate::item::Items;
use crate::measure::Unit;
use crate::recipe::{Book, Card, Clause, Fix, Yield};
use crate::token::Token;
use crate::token::lex::lex;
use scan::{Found, Item};
use sort::Sorted;

/// A draft with its words, findings and clauses, before dishes are told apart.
pub struct Prepared {
    /// Its tokens, slips put right.
    pub tokens: Vec<Token>,
    /// What the grammar found.
    pub found: Vec<Found>,
    /// Its clauses, each with its use.
    pub clauses: Vec<Sorted>,
    /// The slips that were put right.
    pub fixes: Vec<Fix>,
}

/// Makes a draft ready for the passes that tell its dishes apart. Slips in the places of `left` stay as they were heard.
pub fn prepare(draft: &str, left: &[Span]) -> Prepared {
    let (tokens, fixes) = mend::mend(lex(draft, &talk(draft)), left);
    let mut found = Vec::new();
    let mut clauses = Vec::new();
    for (from, to, breaks) in clause::sentences(&tokens) {
        let first = found.len();
        found.extend(scan::scan(&tokens, from, to));
        scan::go_on(&tokens, &mut found, first);
        for piece in clause::clauses(&tokens, from, to, breaks, found.row(first, found.len())) {
            let a = first + found.row(first, found.len()).partition_point(|f| f.from < piece.from);
            let b = first + found.row(first, found.len()).partition_point(|f| f.from < piece.to);
            clauses.push(sort::sort(&tokens, piece, &found, (a, b)));
        }
    }
    scan::each_apart(&tokens, &mut found);
    scan::kind::weighed(&tokens, &mut found);
    scan::amend::amend(&tokens, &mut found);
    scan::kind::cloves(&tokens, &mut found);
    sort::follow_on(&tokens, &mut clauses, &found);
    Prepared { tokens, found, clauses, fixes }
}

/// Reads a draft: any text at all.
pub fn read(draft: &str) -> Book {
    read_leaving(draft, &[])
}

/// Reads a draft with what looks like a slip of speech-to-text left as it was heard in these places.
pub fn read_leaving(draft: &str, left: &[Span]) -> Book {
    let Prepared { tokens, found, clauses: mut sorted, fixes } = prepare(draft, left);
    let metric = found.iter().filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| matches!(a.amount.unit(), Some(Unit::Gram | Unit::Milliliter | Unit::Kilogram | Unit::Liter))))).count() >= 2;
    let mut plan = dish::plan(&tokens, &sorted, &found);
    for k in 0..plan.dishes.len() {
        let card = ledger::keep(&tokens, &sorted, &found, &plan, k, false);
        if card.lines.len() < 2 && !plan.extent[k].is_empty() {
            plan.fold(k);
        }
    }
    let kept: Vec<_> = (0..plan.dishes.len())
        .map(|k| {
            let mut book = ledger::keep(&tokens, &sorted, &found, &plan, k, false);
            let strays = ledger::trust::View::new(&tokens, &sorted, &found, &plan, k, &book).strays();
            book.leave_out(&strays);
            let doubts = ledger::trust::View::new(&tokens, &sorted, &found, &plan, k, &book).doubts();
            (book, oven::settings(&tokens, &sorted, &found, &plan, k, metric), doubts)
        })
        .collect();
    // What only looks like a step or a note has told by now where a dish ends and what is on its list.
    telling::leave_out(&tokens, &mut sorted, &found);
    let mut cards: Vec<Card> = Vec::new();
    let mut places: Vec<Option<usize>> = Vec::new();
    for (k, (d, (book, settings, doubts))) in plan.dishes.iter().zip(kept).enumerate() {
        let cx = method::Context { tokens: &tokens, clauses: &sorted, found: &found, plan: &plan, book: &book, metric };
        let written = method::method(&cx, k, &settings.ovens);
        if book.lines.is_empty() {
            places.push(None);
            continue;
        }
        places.push(Some(cards.len()));
        let notes = notes::notes(&tokens, &sorted, &found, &plan, k, (&written.told, &book.lines));
        // The words of a note or a step do not stand above the card as well.
        let kept = |at: Span| {
            notes.iter().any(|n| n.span.meets(at))
                || written
                    .told
                    .iter()
                    .any(|n| notes::span_of(&tokens, sorted[*n].piece.from, sorted[*n].piece.to).meets(at))
        };
        let above = headnote::headnote((draft, &tokens), &sorted, &found, &plan, k, &kept);
        let queries = query::queries(&book, &settings, &doubts);
        let title = if d.title.is_empty() { fallback_title(&book) } else { d.title.clone() };
        let makes = makes::makes(&tokens, &sorted, &found, &plan, k, &d.title);
        cards.push(Card {
            title,
            title_span: d.span,
            headnote: above,
            makes: makes.map(|y| Yield { low: y.what.low, high: y.what.high, of: y.what.of, span: y.span }),
            pans: settings.pans,
            ovens: settings.ovens,
            times: settings.times,
            lines: book.lines,
            steps: written.steps,
            notes,
            queries,
        });
    }
    // "Each one's good for eight to ten people" speaks of every card.
    let each = sorted.iter().rev().take(12).find_map(|c| {
        let row = tokens.row(c.piece.from, c.piece.to);
        let every = row.iter().take(6).any(|t| t.is_any("each every all"));
        found.row(c.found.0, c.found.1).iter().filter(|_| every).find_map(|f| match &f.item {
            Item::Yield(y) if y.of == "servings" => Some(Yield {
                low: y.low,
                high: y.high,
                of: y.of.clone(),
                span: tokens.item(f.from).span.to(tokens.item(f.to - 1).span),
            }),
            _ => None,
        })
    });
    if let (Some(y), true) = (each, cards.len() > 1) {
        for card in cards.iter_mut().filter(|c| c.makes.is_none()) {
            card.makes = Some(y.clone());
        }
    }
    let clauses = sorted
        .iter()
        .enumerate()
        .map(|(n, c)| Clause {
            span: notes::span_of(&tokens, c.piece.from, c.piece.to),
            main: c.main,
            why: c.why,
            card: plan.card[n].and_then(|k| places.get(k).copied().flatten()),
        })
        .collect();
    Book { cards, clauses, fixes }
}

/// A dish that was never named is called by its first two foods.
fn fallback_title(book: &ledger::Ledger) -> String {
    let names: Vec<&str> = book.lines.iter().take(2).map(|l| l.name.as_str()).collect();
    crate::letters::join(&names, " and ")
}
