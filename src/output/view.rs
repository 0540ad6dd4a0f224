//! A recipe becomes a card view: every figure printed, every place kept.

use super::card::*;
use crate::draft::Span;
use crate::kitchen::Wanted;
use crate::recipe::{Card, PieceKind};

fn place(span: Span) -> Place {
    (span.start, span.end)
}

/// The card as it is shown, resized and in the units wanted.
pub fn view(card: &Card, wanted: &Wanted) -> CardView {
    let _ = wanted;
    let mut facts = Vec::new();
    if let Some(y) = &card.makes {
        let value = if y.low == y.high { y.low.to_string() } else { format!("{} to {}", y.low, y.high) };
        facts.push(FactView { label: "Serves".into(), value, place: Some(place(y.span)) });
    }
    for oven in &card.ovens {
        facts.push(FactView { label: "Oven".into(), value: oven.what.to_string(), place: Some(place(oven.span)) });
    }
    let mut groups: Vec<GroupView> = Vec::new();
    for (index, line) in card.lines.iter().enumerate() {
        let view = LineView {
            index,
            amount: line.amount.map(|a| a.to_string()).unwrap_or_default(),
            name: line.name.clone(),
            prep: line.prep.join(", "),
            remark: line.remark.clone().unwrap_or_default(),
            places: line.spans.iter().copied().map(place).collect(),
        };
        match groups.iter_mut().find(|g| g.name == line.group) {
            Some(g) => g.lines.push(view),
            None => groups.push(GroupView { name: line.group.clone(), lines: vec![view] }),
        }
    }
    let steps = card.steps.iter().map(|s| StepView {
        lead: String::new(),
        pieces: s.pieces.iter().map(|p| {
            let (kind, text) = match &p.kind {
                PieceKind::Words(w) => ("words", w.clone()),
                PieceKind::Amount { amount, .. } => ("amount", amount.to_string()),
                PieceKind::Heat(h) => ("heat", h.to_string()),
                PieceKind::Time(t) => ("time", t.to_string()),
                PieceKind::Pan(p) => ("pan", p.to_string()),
            };
            PieceView { kind, text, place: p.span.map(place) }
        }).collect(),
        group: s.group.clone(),
    }).collect();
    CardView {
        title: card.title.clone(),
        title_place: card.title_span.map(place),
        headnote: card.headnote.as_ref().map(|h| h.text.clone()),
        facts,
        size: "as spoken".into(),
        groups,
        steps,
        notes: card.notes.iter().map(|n| NoteView { lead: String::new(), text: n.text.clone(), place: Some(place(n.span)) }).collect(),
        queries: card.queries.iter().map(|q| QueryView {
            text: q.text.clone(),
            line: q.line,
            choices: q.choices.iter().map(|c| c.label.clone()).collect(),
            places: q.spans.iter().copied().map(place).collect(),
        }).collect(),
        margin: Vec::new(),
    }
}
