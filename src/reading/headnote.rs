//! The headnote: a sentence of hers about the dish itself, where it came from or how it tastes, as she said it.
//!
//! Most talk beside a recipe is for the moment, so a sentence has to prove itself: it points at the dish, tells of a person, a
//! day or a taste, holds no figure, speaks to nobody and is told nowhere else on the card. Without such a sentence there is no
//! headnote. In talk without stops nobody can tell where a sentence ends, and there is none either.

use super::dish::Plan;
use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::draft::Span;
use crate::item::Items;
use crate::lexicon::Sets;
use crate::recipe::Remark;
use crate::token::{Kind, Token, Tokens};

/// So many words a sentence has at least and at most.
const LENGTH: std::ops::RangeInclusive<usize> = 6..=28;
/// The dish is named among so many words at its front, or pointed at with the first.
const NAMED: usize = 5;
/// What a sentence has to tell.
const ENOUGH: usize = 2;

/// The headnote of card `card`; `kept` holds what stands elsewhere on it.
pub fn headnote(
    (draft, tokens): (&str, &[Token]),
    clauses: &[Sorted],
    found: &[Found],
    plan: &Plan,
    card: usize,
    kept: &dyn Fn(Span) -> bool,
) -> Option<Remark> {
    let mut best: Option<(usize, Remark)> = None;
    let all = &plan.extent[card];
    let mut n = all.start;
    while n < all.end {
        let mut next = n + 1;
        while next < clauses.len() && !clauses.item(next).piece.opens {
            next += 1;
        }
        let (from, to) = (clauses.item(n).piece.from, clauses.item(next - 1).piece.to);
        let mine = (n..next).all(|k| plan.card[k] == Some(card)) && clauses.item(n).piece.opens;
        let ends = tokens.get(to).is_some_and(|t| t.kind == Kind::Stop && !t.text.starts_with('?'));
        let findings = found.row(clauses.item(n).found.0, clauses.item(next - 1).found.1);
        let figures = |f: &Found| match &f.item {
            Item::Food(x) => x.amount.is_some(),
            _ => true,
        };
        if mine && ends && !findings.iter().any(figures) {
            let row = Tokens(tokens.row(from, to));
            let row = row.skip(row.0.iter().take_while(|t| !t.is_spoken() || t.is_in("before a headnote")).count());
            let score = worth(row, &plan.dishes[card].title, plan.opened[card] <= n);
            let better = score >= ENOUGH && best.as_ref().is_none_or(|b| score > b.0);
            if better && let (Some(a), Some(b)) = (row.first(), row.0.last()) {
                let span = a.span.to(b.span);
                if !kept(span) {
                    best = Some((score, Remark { text: as_said(draft, row), span }));
                }
            }
        }
        n = next;
    }
    best.map(|b| b.1)
}

/// What speaks for a sentence; below [`ENOUGH`] it is no headnote.
fn worth(row: Tokens<'_>, title: &str, opened: bool) -> usize {
    let spoken = row.0.iter().filter(|t| t.is_spoken()).count();
    let veto = |t: &Token| matches!(t.kind, Kind::Number(_) | Kind::Break(_)) || t.is_in("never in a headnote");
    let titled = |t: &Token| title.split(' ').any(|w| *t.fold == *crate::token::fold(w));
    let about = opened && row.at_any("this it these they it's they're")
        || row
            .0
            .iter()
            .take(NAMED)
            .any(|t| title.rsplit(' ').next().is_some_and(|w| *t.fold == *crate::token::fold(w)));
    if !about || !LENGTH.contains(&spoken) || row.0.iter().any(veto) {
        return 0;
    }
    let told = row.0.iter().filter(|t| !titled(t));
    told.map(|t| {
        let says = |set: &str| usize::from(t.is_in(set));
        2 * (says("from whom") + says("when it is made")) + says("what it is like")
    })
    .sum()
}

/// The sentence in the letters of the draft; words that were put right as they were meant.
fn as_said(draft: &str, row: Tokens<'_>) -> String {
    let mut text = String::new();
    for t in row.0 {
        let raw = draft.get(t.span.start as usize..t.span.end as usize).unwrap_or(&t.text);
        if !(text.is_empty() || t.joined || matches!(t.kind, Kind::Comma)) {
            text.push(' ');
        }
        text.push_str(if raw.len() == t.text.len() || t.capital { raw } else { &t.text });
    }
    super::notes::sentence(&text)
}
