//! Stands in until the reading is written: a fixed card.

use crate::draft::Span;
use crate::measure::{Amount, Heat, Ratio, Time, TimeUnit, Unit};
use crate::recipe::*;

/// Reads a draft.
pub fn read(draft: &str) -> Book {
    if draft.trim().is_empty() {
        return Book::default();
    }
    let span = Span::new(0, draft.len().min(10));
    let line = |name: &str, n: Ratio, unit| Line { name: name.into(), amount: Amount::new(n, unit), spans: vec![span], ..Line::default() };
    let words = |t: &str| Piece { kind: PieceKind::Words(t.into()), span: Some(span) };
    let mut lines = vec![
        line("butter", Ratio::ONE, Some(Unit::Tablespoon)),
        line("cooked rice", Ratio::whole(3), Some(Unit::Cup)),
        line("cream", Ratio::ONE, Some(Unit::Pint)),
        line("eggs", Ratio::whole(2), None),
        line("sharp cheese", Ratio::of(3, 2), Some(Unit::Cup)),
        line("salt", Ratio::whole(2), Some(Unit::Teaspoon)),
    ];
    lines[2].divided = true;
    lines[4].prep = vec!["grated".into()];
    let card = Card {
        title: "baked rice".into(),
        title_span: Some(span),
        makes: Some(Yield { low: Ratio::whole(8), high: Ratio::whole(10), of: "servings".into(), span }),
        ovens: vec![Said { what: Heat::Fahrenheit(375), span }],
        times: Time::range(Ratio::whole(40), Ratio::whole(45), TimeUnit::Minute).map(|what| Said { what, span }).into_iter().collect(),
        lines,
        steps: vec![
            Step { pieces: vec![words("Heat the oven to "), Piece { kind: PieceKind::Heat(Heat::Fahrenheit(375)), span: Some(span) }, words(".")], group: None },
            Step { pieces: vec![words("Stir together the rice, "), Piece { kind: PieceKind::Amount { amount: Amount::new(Ratio::ONE, Some(Unit::Cup)).expect("one"), line: Some(2) }, span: Some(span) }, words(" of the cream, the eggs, cheese and salt.")], group: None },
        ],
        notes: vec![Note { kind: NoteKind::Swap, text: "Mace is what she uses; nutmeg was called for.".into(), span }],
        queries: vec![Query { text: "Salt: two teaspoons, then “one teaspoon like I told you”. Which?".into(), line: Some(5), choices: vec![
            Choice { label: "1 teaspoon".into(), amount: Amount::new(Ratio::ONE, Some(Unit::Teaspoon)) },
            Choice { label: "2 teaspoons".into(), amount: Amount::new(Ratio::whole(2), Some(Unit::Teaspoon)) }], spans: vec![span] }],
        ..Card::default()
    };
    Book { cards: vec![card], ..Book::default() }
}
