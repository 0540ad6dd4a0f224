//! A draft and its cards become the proof: the draft in stretches, each knowing whether the cards use its words.
//!
//! Only places are looked at, never the draft itself.

use super::card::{CardView, Place};
use crate::recipe::{Clause, Fix, Use};

/// What became of a stretch of the draft.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// A figure, a line or a step came from these words.
    Used,
    /// A query is open about them.
    Asked,
    /// They belong to a clause that was used, without a figure of their own.
    Kept,
    /// Talk with no place on a card.
    LeftOut,
}

/// A stretch of the draft: bytes from `start` up to, not including, `end`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The first byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
    /// What became of it.
    pub fate: Fate,
}

/// Every place a card speaks of, queries last and apart.
pub fn places(card: &CardView) -> (Vec<Place>, Vec<Place>) {
    let mut used: Vec<Place> = card.title_place.into_iter().collect();
    used.extend(card.facts.iter().filter_map(|f| f.place));
    used.extend(card.groups.iter().flat_map(|g| &g.lines).flat_map(|l| l.places.iter().copied()));
    used.extend(card.steps.iter().flat_map(|s| &s.pieces).filter_map(|p| p.place));
    used.extend(card.notes.iter().filter_map(|n| n.place));
    (used, card.queries.iter().flat_map(|q| q.places.iter().copied()).collect())
}

/// Divides a draft of `len` bytes. The stretches are in order and cover every byte once, a slip by itself; a place that
/// lies outside the draft is passed over.
pub fn proof(len: usize, clauses: &[Clause], fixes: &[Fix], cards: &[CardView]) -> Vec<Stretch> {
    const USED: usize = 0;
    const ASKED: usize = 1;
    const KEPT: usize = 2;
    let len = len as u32;
    // Where a place of each kind opens (1) and closes (-1), swept from the front with one count for each kind.
    let mut edges: Vec<(u32, usize, i32)> = vec![(0, KEPT, 0), (len, KEPT, 0)];
    let mut mark = |kind: usize, (start, end): Place| {
        if start < end && end <= len {
            edges.extend([(start, kind, 1), (end, kind, -1)]);
        }
    };
    for card in cards {
        let (used, asked) = places(card);
        used.into_iter().for_each(|p| mark(USED, p));
        asked.into_iter().for_each(|p| mark(ASKED, p));
    }
    for clause in clauses.iter().filter(|c| c.main != Use::Chatter) {
        mark(KEPT, (clause.span.start, clause.span.end));
    }
    for fix in fixes {
        edges.push((fix.span.start, KEPT, 0));
        edges.push((fix.span.end, KEPT, 0));
    }
    crate::order::sort(&mut edges);
    let mut open = [0; 3];
    let mut out = Vec::new();
    let mut start = 0;
    for (at, kind, step) in edges {
        if at > start {
            let fate = match open {
                [_, asked, _] if asked > 0 => Fate::Asked,
                [used, ..] if used > 0 => Fate::Used,
                [.., kept] if kept > 0 => Fate::Kept,
                _ => Fate::LeftOut,
            };
            out.push(Stretch { start, end: at, fate });
            start = at;
        }
        open[kind] += step;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::Span;
    use crate::output::card::{GroupView, LineView, QueryView};

    fn clause(a: usize, b: usize, main: Use) -> Clause {
        Clause { span: Span::new(a, b), main, why: "", card: None }
    }

    #[test]
    fn covers_every_byte_once() {
        let line = LineView {
            index: 0,
            amount: String::new(),
            exact: None,
            name: String::new(),
            prep: String::new(),
            remark: String::new(),
            places: vec![(12, 15), (40, 99)],
        };
        let query = QueryView { text: String::new(), line: None, choices: Vec::new(), places: vec![(13, 14)] };
        let card = CardView {
            groups: vec![GroupView { name: None, lines: vec![line] }],
            queries: vec![query],
            ..CardView::default()
        };
        let slip = Fix { heard: "to".into(), meant: "two".into(), span: Span::new(22, 24), left: false };
        let clauses = [clause(0, 10, Use::Chatter), clause(10, 20, Use::Ingredient), clause(20, 30, Use::Chatter)];
        let got = proof(30, &clauses, &[slip], &[card]);
        let shown: Vec<String> = got.iter().map(|s| format!("{}-{} {:?}", s.start, s.end, s.fate)).collect();
        // The place 40-99 lies outside the draft and is dropped. The slip stands by itself in talk that is left out.
        assert_eq!(
            shown,
            [
                "0-10 LeftOut",
                "10-12 Kept",
                "12-13 Used",
                "13-14 Asked",
                "14-15 Used",
                "15-20 Kept",
                "20-22 LeftOut",
                "22-24 LeftOut",
                "24-30 LeftOut"
            ]
        );
    }

    #[test]
    fn an_empty_draft_has_no_stretches() {
        assert!(proof(0, &[], &[], &[]).is_empty());
    }
}
