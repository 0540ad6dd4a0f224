//! A card view becomes plain text: what a cook would be glad to find in an e-mail.
//!
//! Lines are at most [`WIDTH`] characters, so that no mail program breaks them again. Ingredients hang under their
//! amounts, steps under their numbers; nothing needs a special font.

use super::card::{CardView, FactView, GroupView, LineView};
use crate::kitchen::caution::DEFER;

/// Characters in a line; mail older than the web is quoted at 78.
pub const WIDTH: usize = 72;

/// The card as plain text, ending in a line end.
///
/// Title, facts, headnote, list, method, notes, what to ask, and what stands in the margin.
pub fn text(card: &CardView) -> String {
    let mut out = String::new();
    line(&mut out, &card.title);
    line(&mut out, &"=".repeat(card.title.chars().count().min(WIDTH)));
    for (n, fact) in card.facts.iter().enumerate() {
        let same = |f: &&FactView| f.label == fact.label;
        if !card.facts[..n].iter().any(|f| same(&f)) {
            let values: Vec<&str> = card.facts.iter().filter(same).map(|f| f.value.as_str()).collect();
            hang(&mut out, &format!("{}: ", fact.label), &crate::letters::join(&values, ", "));
        }
    }
    if card.size != "as spoken" {
        line(&mut out, &format!("Size: {}", card.size));
    }
    if let Some(headnote) = &card.headnote {
        out.push('\n');
        hang(&mut out, "", headnote);
    }
    if !card.groups.is_empty() {
        head(&mut out, "Ingredients");
        card.groups.iter().for_each(|g| group(&mut out, g));
    }
    if !card.steps.is_empty() {
        head(&mut out, "Method");
        for (n, step) in card.steps.iter().enumerate() {
            if let Some(name) = &step.group {
                line(&mut out, &format!("For the {name}:"));
            }
            let rest: String = step.pieces.iter().map(|p| p.text.as_str()).collect();
            hang(&mut out, &format!("{:>2}. ", n + 1), &format!("{}{rest}", step.lead));
        }
    }
    list(
        &mut out,
        "Notes",
        card.notes.iter().map(|n| match n.lead.as_str() {
            "" => n.text.clone(),
            lead => format!("{lead}: {}", n.text),
        }),
    );
    list(
        &mut out,
        "Still to ask",
        card.queries.iter().map(|q| match q.choices.len() {
            0 => q.text.clone(),
            _ => format!("{} ({})", q.text, crate::letters::join(&q.choices, ", ")),
        }),
    );
    list(&mut out, "Beside the card", margin(card).into_iter());
    out
}

/// The margin as a list: a weight's row once for all its lines, and the word on authorities once for all cautions.
fn margin(card: &CardView) -> Vec<String> {
    let lines = || card.groups.iter().flat_map(|g| &g.lines);
    let name = |index: usize| lines().find(|l| l.index == index).map(|l| crate::letters::capital(&l.name));
    let mut items: Vec<String> = Vec::new();
    let mut rows: Vec<&str> = Vec::new();
    for m in &card.margin {
        let source = m.source.as_deref().unwrap_or_default();
        if m.kind == "weight" {
            if !rows.contains(&source) {
                rows.push(source);
            }
            continue;
        }
        let of = m.line.filter(|_| m.kind == "rounded").and_then(name).map(|n| format!("{n}: ")).unwrap_or_default();
        let from = source.strip_suffix(DEFER).map_or(source, |s| s.strip_suffix("; ").unwrap_or(s));
        let from = if from.is_empty() { String::new() } else { format!(" ({from})") };
        items.push(format!("{of}{}{from}", m.text));
    }
    if !rows.is_empty() {
        items.push(format!("Weights are about, by these rows: {}.", crate::letters::join(&rows, "; ")));
    }
    if card.margin.iter().any(|m| m.kind == "caution") {
        items.push(format!("In all of these, {DEFER}."));
    }
    items
}

fn line(out: &mut String, text: &str) {
    out.push_str(text.trim_end());
    out.push('\n');
}

fn head(out: &mut String, title: &str) {
    out.push('\n');
    line(out, title);
    line(out, &"-".repeat(title.chars().count()));
}

fn list(out: &mut String, title: &str, items: impl ExactSizeIterator<Item = String>) {
    if items.len() > 0 {
        head(out, title);
        items.for_each(|item| hang(out, "- ", &item));
    }
}

/// One component's lines, its amounts in a column no wider than they need, and long ones on a line of their own.
fn group(out: &mut String, group: &GroupView) {
    if let Some(name) = &group.name {
        out.push('\n');
        line(out, &format!("For the {name}:"));
    }
    let length = |l: &LineView| l.amount.chars().count();
    let column = group.lines.iter().map(length).filter(|n| *n <= 16).max().unwrap_or(0);
    for each in &group.lines {
        let mut food = each.name.clone();
        if !each.prep.is_empty() {
            food = format!("{food}, {}", each.prep);
        }
        if !each.remark.is_empty() {
            food = format!("{food} ({})", each.remark);
        }
        if length(each) <= column {
            let pad = " ".repeat(column - length(each));
            let gap = if column == 0 { "" } else { "  " };
            hang(out, &format!("{pad}{}{gap}", each.amount), &food);
        } else {
            hang(out, "", &format!("{} {food}", each.amount));
        }
    }
}

/// Writes `text` broken at spaces, its first line after `lead` and the rest under it.
fn hang(out: &mut String, lead: &str, text: &str) {
    let indent = lead.chars().count();
    let mut at = indent;
    out.push_str(lead);
    for (n, word) in text.split_whitespace().enumerate() {
        let width = word.chars().count();
        if n > 0 && at + 1 + width > WIDTH {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            at = indent;
        } else if n > 0 {
            out.push(' ');
            at += 1;
        }
        out.push_str(word);
        at += width;
    }
    out.push('\n');
}
