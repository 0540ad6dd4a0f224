//! A card becomes plain text an emailer would be glad of.

use super::card::CardView;

/// The card as text.
pub fn text(card: &CardView) -> String {
    let mut out = format!("{}\n", card.title);
    let mut say = |line: String| {
        out.push_str(&line);
        out.push('\n');
    };
    card.headnote.iter().for_each(|h| say(h.clone()));
    let facts: Vec<String> = card.facts.iter().map(|f| format!("{} {}", f.label, f.value)).collect();
    if !facts.is_empty() {
        say(facts.join(" · "));
    }
    if card.size != "as spoken" {
        say(format!("({})", card.size));
    }
    for group in &card.groups {
        say(String::new());
        group.name.iter().for_each(|name| say(format!("{name}:")));
        for line in &group.lines {
            let words = [&line.amount, &line.name].into_iter().filter(|w| !w.is_empty());
            let mut shown = words.cloned().collect::<Vec<_>>().join(" ");
            for extra in [&line.prep, &line.remark].into_iter().filter(|w| !w.is_empty()) {
                shown = format!("{shown}, {extra}");
            }
            say(shown);
        }
    }
    say(String::new());
    for (at, step) in card.steps.iter().enumerate() {
        let pieces: String = step.pieces.iter().map(|p| p.text.as_str()).collect();
        say(format!("{}. {}{pieces}", at + 1, step.lead));
    }
    for note in &card.notes {
        say(format!("\n{} {}", note.lead, note.text).trim_end().to_string());
    }
    for query in &card.queries {
        say(format!("\nTo ask: {}", query.text));
    }
    out
}
