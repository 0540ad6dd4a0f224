//! Remarks become notes: swaps, make-ahead, keeping, what to mind. Her words are kept, without the first person.

use super::dish::Plan;
use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::draft::Span;
use crate::item::Items;
use crate::letters::holds;
use crate::lexicon::{Sets, VerbClass, lexicon};
use crate::recipe::{Line, Note, NoteKind, Use};
use crate::token::{Kind, Token, Tokens};

/// The notes of card `card`, from the clauses its method did not tell.
pub fn notes(
    tokens: &[Token],
    clauses: &[Sorted],
    found: &[Found],
    plan: &Plan,
    card: usize,
    (told, lines): (&[usize], &[Line]),
) -> Vec<Note> {
    let mut out: Vec<Note> = Vec::new();
    let mut n = plan.extent[card].start;
    while n < plan.extent[card].end {
        let c = clauses.item(n);
        // "My mom uses anchovy broth": someone else's way is a swap.
        if plan.card[n] == Some(card) && c.cues.story && !told.contains(&n) {
            if let Some(note) = another_way(tokens, c, found, lines) {
                out.push(note);
            }
            n += 1;
            continue;
        }
        if plan.card[n] != Some(card) || c.main != Use::Remark || told.contains(&n) || c.cues.story && !c.cues.called {
            n += 1;
            continue;
        }
        if c.cues.called {
            if let Some(note) = called_for(tokens, c, found) {
                out.push(note);
            }
            n += 1;
            continue;
        }
        // The remark goes on through the clauses of its sentence that are not told elsewhere.
        let mut last = n;
        while last + 1 < clauses.len()
            && !clauses.item(last + 1).piece.opens
            && plan.card[last + 1] == Some(card)
            && !told.contains(&(last + 1))
            && !clauses.item(last + 1).cues.story
            && !clauses.item(last + 1).cues.chatter
        {
            last += 1;
        }
        let mut first = n;
        while !clauses.item(first).piece.opens
            && first > 0
            && !told.contains(&(first - 1))
            && !clauses.item(first - 1).cues.story
            && !clauses.item(first - 1).cues.chatter
            && clauses.item(first - 1).main != Use::Remark
            && conditional(tokens, clauses.item(first - 1))
        {
            first -= 1;
        }
        let mut kept: Vec<String> = Vec::new();
        for c in &clauses[first..=last] {
            let text = if c.cues.batch {
                Some(of_the_cook(tokens, c.piece.from, c.piece.to))
            } else {
                plain(tokens, c.piece.from, c.piece.to)
            };
            if let Some(text) = text {
                kept.push(text);
            }
        }
        let text = crate::letters::join(&kept, ", ");
        // "…if there's ham": a condition by itself tells nobody what to do.
        let row = Tokens(tokens.row(clauses.item(n).core, clauses.item(n).piece.to));
        let bare = first == last
            && row.at("if")
            && row.len() <= 8
            && (1..row.len()).all(|k| {
                // "A lot of grease" gives no order.
                row.nth_any(k - 1, "of the a some any no")
                    || lexicon().verbs.exact(row.skip(k)).is_none_or(|v| v.1.class == VerbClass::Everyday)
            });
        // "What do you think the corner pieces are for?"
        let asked = tokens
            .get(clauses.item(last).piece.to)
            .is_some_and(|t| t.kind == crate::token::Kind::Stop && t.text.starts_with('?'));
        // "You don't have to", "because Gordy can't have it": nothing a cook could do.
        let idle = clauses[first..=last].iter().all(|c| {
            let cues = c.cues;
            c.found.0 == c.found.1
                && !(cues.swap || cues.keep || cues.ahead || cues.mind || cues.batch)
                && (c.piece.from..c.piece.to).all(|k| {
                    let rest = Tokens(tokens.row(k, c.piece.to));
                    lexicon().verbs.exact(rest).is_none_or(|v| v.1.class == VerbClass::Everyday)
                        && lexicon().tools.folded(rest).is_none()
                        && !lexicon().has("done sign", &tokens.item(k).text)
                })
        });
        if text.split(' ').count() >= 3 && !bare && !idle && !asked {
            let span =
                tokens.item(clauses.item(first).piece.from).span.to(tokens.item(clauses.item(last).piece.to - 1).span);
            let cues = clauses.item(n).cues;
            let kind = if cues.swap {
                NoteKind::Swap
            } else if cues.ahead {
                NoteKind::Ahead
            } else if cues.keep {
                NoteKind::Keeping
            } else if cues.mind {
                NoteKind::Caution
            } else {
                NoteKind::Tip
            };
            out.push(Note { kind, text: sentence(&text), span });
        }
        n = last + 1;
    }
    out
}

fn conditional(tokens: &[Token], c: &Sorted) -> bool {
    Tokens(tokens.row(c.core, c.piece.to)).at_any("if when once unless")
}

/// Foods that someone else uses and this card does not: "Another way: anchovy broth."
fn another_way(tokens: &[Token], c: &Sorted, found: &[Found], lines: &[Line]) -> Option<Note> {
    let row = tokens.row(c.piece.from, c.piece.to);
    let spoken = row.iter().filter(|t| t.is_spoken()).count();
    // "Some people put bacon in" is a swap; "my brother puts a whole bottle in" is a story about him.
    let uses = row.iter().any(|t| t.is_in("does of others"))
        || row.iter().any(|t| t.is_any("put puts")) && row.iter().any(|t| t.is_any("people folks"));
    if !uses || spoken > 18 || row.iter().any(|t| t.is_any("hated burned burnt ate told said says")) {
        return None;
    }
    let foods = foods_of(c, found);
    let listed = |food: &String| lines.iter().any(|l| holds(food, &l.name));
    let span = tokens.item(c.piece.from).span.to(tokens.item(c.piece.to - 1).span);
    (!foods.iter().all(listed) && foods.len() <= 3).then(|| Note {
        kind: NoteKind::Tip,
        text: format!("Another way: {}.", crate::letters::join(&foods, ", ")),
        span,
    })
}

/// The foods of a clause with their amounts, as text.
fn foods_of(c: &Sorted, found: &[Found]) -> Vec<String> {
    found
        .row(c.found.0, c.found.1)
        .iter()
        .filter_map(|f| match &f.item {
            Item::Food(x) => Some(match x.amount {
                Some(a) => format!("{} {}", crate::recipe::said(&a.amount), x.name),
                None => x.name.clone(),
            }),
            _ => None,
        })
        .collect()
}

/// "The recipe says shortening but I used butter": "Called for: shortening."
fn called_for(tokens: &[Token], c: &Sorted, found: &[Found]) -> Option<Note> {
    let foods = foods_of(c, found);
    if foods.is_empty() {
        return None;
    }
    let span = tokens.item(c.piece.from).span.to(tokens.item(c.piece.to - 1).span);
    Some(Note { kind: NoteKind::Swap, text: format!("Called for: {}.", crate::letters::join(&foods, ", ")), span })
}

/// The words of a clause without openers and without segments of the first person; `None` where too little is left.
pub fn plain(tokens: &[Token], from: usize, to: usize) -> Option<String> {
    let (at, _) = core_of_note(tokens, from, to);
    let mut segments: Vec<Vec<&Token>> = vec![Vec::new()];
    for t in tokens.row(at, to) {
        if t.kind == Kind::Comma || t.kind == Kind::Pause {
            segments.push(Vec::new());
        } else if t.is_any("because cause but") {
            segments.push(vec![t]);
        } else if let Some(s) = segments.last_mut() {
            s.push(t);
        }
    }
    segments.retain(|s| !s.is_empty() && !s.iter().any(|t| t.is_in("first person") || t.is_any("my our")));
    let mut text = String::new();
    for (n, s) in segments.iter().enumerate() {
        if n > 0 && !s[0].is_any("because cause but") {
            text.push(',');
        }
        for (k, t) in s.iter().enumerate() {
            if !text.is_empty() && !(t.is("%")) && !(t.joined && k > 0 && matches!(t.kind, Kind::Sign)) {
                text.push(' ');
            }
            text.push_str(match &*t.text {
                "till" => "until",
                other => other,
            });
        }
    }
    let text = text.trim().to_string();
    (!text.is_empty()).then_some(text)
}

/// "I'm doubling it today" becomes "the cook is doubling it today".
fn of_the_cook(tokens: &[Token], from: usize, to: usize) -> String {
    let (at, _) = core_of_note(tokens, from, to);
    let words: Vec<&str> = tokens
        .row(at, to)
        .iter()
        .filter(|t| t.is_spoken())
        .map(|t| match &*t.text {
            "i'm" => "the cook is",
            "i" | "we" => "the cook",
            "i've" => "the cook has",
            "we're" => "the cook is",
            "my" | "our" => "the",
            "am" => "is",
            "till" => "until",
            other => other,
        })
        .collect();
    crate::letters::join(&words, " ")
}

/// Openers are dropped; "you can" stays, since a note may give leave.
fn core_of_note(tokens: &[Token], from: usize, to: usize) -> (usize, ()) {
    let mut at = from;
    while at < to {
        let rest = Tokens(tokens.row(at, to));
        if matches!(tokens.item(at).kind, Kind::Comma | Kind::Pause | Kind::Sign) {
            at += 1;
            continue;
        }
        match crate::lexicon::lexicon().talk.exact(rest) {
            Some((n, cue)) if cue.0 == "opener" && !rest.at_any("like actually just once") => at += n,
            _ => break,
        }
    }
    (at, ())
}

/// A capital at the front, a stop at the end.
pub fn sentence(text: &str) -> String {
    let text = text.trim().trim_end_matches([',', '.', ' ']);
    let mut out = crate::letters::capital(text);
    out.push('.');
    crate::letters::swap(&out, " i ", " I ")
}

/// The span of a run of clauses.
pub fn span_of(tokens: &[Token], from: usize, to: usize) -> Span {
    match (tokens.get(from), tokens.get(to.saturating_sub(1))) {
        (Some(a), Some(b)) => a.span.to(b.span),
        _ => Span::default(),
    }
}
