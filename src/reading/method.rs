//! Action clauses become steps: imperative, in working order, as rows of pieces.
//!
//! Foods that are only presented ("then I've got two cans of beans") wait until something is done with them; "stir that
//! all together" then takes them with it. What a step keeps are pans, heats, times and signs of doneness; first person,
//! fillers and asides go.

use super::clause::{Lead, later_verb};
use super::dish::Plan;
use super::ledger::Ledger;
use super::oven::is_oven_setting;
use super::scan::{Found, Item};
use super::sort::{Sorted, goes_at};
use crate::draft::Span;
use crate::grammar::food::Quantifier;
use crate::lexicon::{VerbClass, lexicon};
use crate::measure::Heat;
use crate::recipe::{Piece, PieceKind, Said, Step, Use};
use crate::token::{Kind, Token, Tokens};

/// Words of the first person, which no step keeps.
pub const FIRST: &[&str] = &[
    "i",
    "i'm",
    "i've",
    "i'll",
    "i'd",
    "me",
    "we",
    "we're",
    "us",
    "we've",
    "we'll",
    "myself",
    "mine",
    "y'all",
    "let's",
    "guys",
    "you're",
    "im",
    "ive",
    "we'd",
    "ourselves",
];

/// What the passes know of the card while its method is written.
pub struct Context<'a> {
    /// The draft's tokens.
    pub tokens: &'a [Token],
    /// Its clauses.
    pub clauses: &'a [Sorted],
    /// Its findings.
    pub found: &'a [Found],
    /// Which clause belongs where.
    pub plan: &'a Plan,
    /// The books.
    pub book: &'a Ledger,
    /// The talk is in grams.
    pub metric: bool,
}

/// A step under way.
#[derive(Default)]
struct Draft {
    pieces: Vec<Piece>,
    group: Option<String>,
    sentence: usize,
    timed: bool,
    oven: bool,
    foods: usize,
}

/// Clauses that became part of the method.
pub struct Method {
    /// The steps.
    pub steps: Vec<Step>,
    /// The clauses told in them.
    pub told: Vec<usize>,
}

/// Writes the method of card `card`.
pub fn method(cx: &Context<'_>, card: usize, ovens: &[Said<Heat>]) -> Method {
    let mut steps: Vec<Draft> = Vec::new();
    let mut pending: Vec<usize> = Vec::new();
    let mut told: Vec<usize> = Vec::new();
    let mut sentence = 0;
    let mut recap = false;
    let mut in_oven = false;
    // "When the bacon is crispy": waits for what is done then, in the same sentence.
    let mut condition: Option<(usize, Vec<Piece>)> = None;
    if let Some(first) = ovens.first()
        && first.what != Heat::Broil
    {
        let mut d = Draft { sentence: usize::MAX, oven: true, ..Draft::default() };
        d.pieces =
            vec![words("Heat the oven to ", None), Piece { kind: PieceKind::Heat(first.what), span: Some(first.span) }];
        steps.push(d);
    }
    for (n, c) in cx.clauses.iter().enumerate() {
        if c.piece.opens {
            sentence += 1;
        }
        if cx.plan.card[n] != Some(card) {
            continue;
        }
        let row = Tokens(&cx.tokens[c.piece.from..c.piece.to]);
        if row.0.iter().any(|t| t.is("recap")) {
            recap = true;
        }
        let mine = &cx.found[c.found.0..c.found.1];
        if recap || c.cues.story {
            continue;
        }
        let group = cx.plan.group[n].clone();
        if row.0.iter().any(|t| t.is_any("oven bake bakes baking broiler")) {
            in_oven = true;
        }
        match c.main {
            Use::Ingredient => {
                // Foods measured here wait for what is done with them; a mere mention ("it's good with ham") does not.
                if (c.found.0..c.found.1).any(|id| cx.book.entries[id].is_some_and(|e| e.measured || e.partial)) {
                    pending.extend(lines_here(cx, c));
                    told.push(n);
                }
                continue;
            }
            Use::Action => {}
            _ => continue,
        }
        if sets_oven_only(cx, c, mine) {
            told.push(n);
            continue;
        }
        let presented = presents(cx, c);
        if presented {
            pending.extend(lines_here(cx, c));
            told.push(n);
            continue;
        }
        let Some(act) = act(cx, c, in_oven) else {
            pending.extend(lines_here(cx, c));
            continue;
        };
        told.push(n);
        match act {
            Act::Order { mut pieces, mixes, timed } => {
                if let Some((at, mut front)) = condition.take()
                    && at == sentence
                {
                    front.push(words(", ", None));
                    if let Some(Piece { kind: PieceKind::Words(w), .. }) = pieces.first_mut() {
                        *w = uncapital(w);
                    }
                    front.extend(pieces);
                    pieces = front;
                }
                let here = lines_here(cx, c);
                pending.retain(|l| !here.contains(l));
                if !pending.is_empty() {
                    if let (Some(at), true) = (mixes, here.is_empty()) {
                        // "stir that all together": the waiting foods are what is stirred.
                        pieces.truncate(at.min(pieces.len()));
                        let verb = last_text(&pieces);
                        let joint = if verb.ends_with("together") || verb.contains(' ') { " " } else { " together " };
                        pieces.push(words(joint, None));
                        pieces.extend(names(cx, &pending));
                        if let Some(rest) = mix_tail(cx, c) {
                            pieces.extend(rest);
                        }
                        pending.clear();
                    } else {
                        flush(cx, &mut steps, &mut pending, sentence, &group);
                    }
                }
                let same = steps.last().is_some_and(|s| s.sentence == sentence);
                let short = steps.last().is_some_and(|s| s.pieces.iter().map(length).sum::<usize>() < 90);
                if same
                    && short
                    && let Some(last) = steps.last_mut()
                {
                    // One sentence of hers with two short orders stays one step of two sentences.
                    last.pieces.push(words(". ", None));
                    last.pieces.extend(pieces);
                    last.timed |= timed;
                    last.foods += here.len();
                } else {
                    steps.push(Draft { pieces, group, sentence, timed, oven: in_oven, foods: here.len() });
                }
            }
            Act::Tail(pieces, timed) => {
                if !pending.is_empty() {
                    flush(cx, &mut steps, &mut pending, sentence, &group);
                }
                match steps.last_mut().filter(|s| s.sentence != usize::MAX) {
                    Some(last) => {
                        let text = first_text(&pieces);
                        let joint = if text.starts_with("until") || text.starts_with("for") || text.starts_with("over")
                        {
                            ", "
                        } else {
                            ". "
                        };
                        if timed && last.timed && !text.starts_with("until") {
                            let verb = if last.oven || in_oven { "Bake " } else { "Cook " };
                            last.pieces.push(words(". ", None));
                            last.pieces.push(words(verb, None));
                        } else {
                            last.pieces.push(words(joint, None));
                        }
                        last.pieces.extend(pieces);
                        last.timed |= timed;
                    }
                    None => {
                        let verb = if in_oven { "Bake " } else { "Cook " };
                        let mut all = vec![];
                        if timed {
                            all.push(words(verb, None));
                        }
                        all.extend(pieces);
                        steps.push(Draft { pieces: all, group, sentence, timed, oven: in_oven, foods: 0 });
                    }
                }
            }
            Act::Condition(pieces) => condition = Some((sentence, pieces)),
            Act::Sentence(pieces) => {
                match steps.last_mut().filter(|s| s.sentence != usize::MAX && pending.is_empty()) {
                    Some(last) => {
                        last.pieces.push(words(". ", None));
                        last.pieces.extend(pieces);
                    }
                    None => {
                        flush(cx, &mut steps, &mut pending, sentence, &group);
                        steps.push(Draft { pieces, group, sentence, ..Draft::default() });
                    }
                }
            }
        }
    }
    let group = None;
    flush(cx, &mut steps, &mut pending, sentence, &group);
    let steps = steps.into_iter().map(finish).filter(|s| !s.pieces.is_empty()).collect();
    Method { steps, told }
}

fn words(text: &str, span: Option<Span>) -> Piece {
    Piece { kind: PieceKind::Words(text.to_string()), span }
}

fn length(p: &Piece) -> usize {
    match &p.kind {
        PieceKind::Words(w) => w.len(),
        _ => 10,
    }
}

fn last_text(pieces: &[Piece]) -> String {
    pieces
        .iter()
        .rev()
        .find_map(|p| if let PieceKind::Words(w) = &p.kind { Some(w.clone()) } else { None })
        .unwrap_or_default()
}

fn first_text(pieces: &[Piece]) -> String {
    match pieces.first().map(|p| &p.kind) {
        Some(PieceKind::Words(w)) => w.to_lowercase(),
        Some(PieceKind::Time(_)) => "for".into(),
        _ => String::new(),
    }
}

/// The lines that a clause measures or names.
fn lines_here(cx: &Context<'_>, c: &Sorted) -> Vec<usize> {
    let mut out: Vec<usize> = Vec::new();
    for id in c.found.0..c.found.1 {
        if let Some(e) = cx.book.entries[id]
            && !out.contains(&e.line)
        {
            out.push(e.line);
        }
    }
    out
}

/// "the onions, garlic and salt".
fn names(cx: &Context<'_>, lines: &[usize]) -> Vec<Piece> {
    let mut out = Vec::new();
    for (n, line) in lines.iter().enumerate() {
        let Some(l) = cx.book.lines.get(*line) else { continue };
        if n == 0 {
            out.push(words("the ", None));
        } else if n + 1 == lines.len() {
            out.push(words(if lines.len() > 2 { ", and " } else { " and " }, None));
        } else {
            out.push(words(", ", None));
        }
        out.push(words(&l.name, l.spans.first().copied()));
    }
    out
}

fn flush(cx: &Context<'_>, steps: &mut Vec<Draft>, pending: &mut Vec<usize>, sentence: usize, group: &Option<String>) {
    let mut seen = Vec::new();
    pending.retain(|l| {
        let new = !seen.contains(l);
        seen.push(*l);
        new
    });
    if pending.is_empty() {
        return;
    }
    let first = steps.iter().all(|s| s.sentence == usize::MAX);
    let verb = if first && pending.len() > 1 { "Combine " } else { "Add " };
    let mut pieces = vec![words(verb, None)];
    pieces.extend(names(cx, pending));
    let count = pending.len();
    pending.clear();
    steps.push(Draft {
        pieces,
        group: group.clone(),
        sentence: sentence.saturating_sub(1),
        foods: count,
        ..Draft::default()
    });
}

/// Whether the clause does nothing but set the oven, which the first step tells.
fn sets_oven_only(cx: &Context<'_>, c: &Sorted, mine: &[Found]) -> bool {
    let heat = mine
        .iter()
        .any(|f| matches!(&f.item, Item::Heat(h) if is_oven_setting(cx.tokens, c.piece.from, c.piece.to, h)));
    let row = &cx.tokens[c.core.min(c.piece.to)..c.piece.to];
    let down = row.iter().any(|t| t.is_any("down up"));
    let verb = row.iter().any(|t| {
        t.is_any("preheat preheating preheated heat heating turn turning light set setting start get oven oven's crank")
    });
    let other = mine.iter().any(|f| matches!(f.item, Item::Food(_) | Item::Time(_)));
    let bake = row.iter().any(|t| t.is_any("bake goes put roast bakes back broil slide"));
    heat && verb && !other && !down && !bake
}

/// "I've got two cups of flour", "there's a pint of cream", "use a cup of milk": foods shown, nothing done.
fn presents(cx: &Context<'_>, c: &Sorted) -> bool {
    let foods = cx.found[c.found.0..c.found.1].iter().any(|f| matches!(f.item, Item::Food(_) | Item::Loose(_)));
    if !foods {
        return false;
    }
    let core = Tokens(&cx.tokens[c.core..c.piece.to]);
    match c.verb {
        Some((_, v)) => {
            let first = v.base.split(' ').next().unwrap_or("");
            [
                "have", "get", "need", "use", "want", "take", "do", "like", "start", "go", "grab", "say", "buy", "try",
                "know", "see", "measure", "call",
            ]
            .contains(&first)
                && !core.0.iter().any(|t| t.is_any("oven fridge freezer off heat back until"))
                && goes_at(cx.tokens, c.core, c.piece.to).is_none()
        }
        None => false,
    }
}

enum Act {
    /// An order, with the place in the pieces after which "that" may be replaced by what waits.
    Order { pieces: Vec<Piece>, mixes: Option<usize>, timed: bool },
    /// Something that goes on the end of the step before: a time, a sign of doneness.
    Tail(Vec<Piece>, bool),
    /// A sentence of its own after the step before.
    Sentence(Vec<Piece>),
    /// "When the bacon is crispy": goes before the order that follows.
    Condition(Vec<Piece>),
}

/// What is done in a clause, as pieces; `None` where nothing can be told of it.
fn act(cx: &Context<'_>, c: &Sorted, in_oven: bool) -> Option<Act> {
    let (from, to) = (c.core, trim_end(cx.tokens, c.core, c.piece.to));
    if from >= to {
        return None;
    }
    let t = cx.tokens;
    let row = Tokens(&t[from..to]);
    let mine = &cx.found[c.found.0..c.found.1];
    let timed = mine.iter().any(|f| matches!(f.item, Item::Time(_)));
    // "until it's golden"
    if row.at_any("until till") {
        return Some(Act::Tail(render(cx, c, from, to, false), false));
    }
    // "don't lift the lid"
    if row.at_any("don't never") || (row.at("do") && row.get(1).is_some_and(|t| t.is("not"))) {
        let skip = if row.at("do") { 2 } else { 1 };
        let head = if row.at("never") { "Never " } else { "Do not " };
        let mut pieces = vec![words(head, None)];
        let rest = render(cx, c, from + skip, to, false);
        if rest.is_empty() || has_first(&rest) {
            return None;
        }
        pieces.extend(rest);
        return Some(Act::Sentence(pieces));
    }
    if let Some(g) = goes_at(t, from, to) {
        return goes(cx, c, from, g, to, timed);
    }
    if let Some((len, verb)) = c.verb
        && (c.lead == Lead::Doing
            || super::clause::order(row)
            || t[from].text.ends_with("ing")
            || verb.class != VerbClass::Everyday)
    {
        let mut head = capital(imperative(verb.base));
        let mut start = from + len;
        // "start by melting", "make sure you drain": the second verb is the order.
        let after = Tokens(&t[start..to]);
        if ["start", "begin", "go", "keep", "continue", "try", "like", "want", "need"].contains(&verb.base)
            && after.at_any("by and with to on")
            && let Some((n, v)) = lexicon().verbs.exact(after.skip(1))
            && v.class != VerbClass::Everyday
        {
            head = capital(v.base);
            start += 1 + n;
        }
        // "I did put a little butter": what was done, not the doing.
        if verb.base == "do"
            && let Some((n, v)) = lexicon().verbs.exact(after)
        {
            head = capital(v.base);
            start += n;
        }
        // "let it simmer", "let that sit".
        let span = t[from].span.to(t[start.min(to).saturating_sub(1).max(from)].span);
        let mut pieces = vec![words(&head, Some(span))];
        let mixes =
            (verb.class == VerbClass::Mix).then_some(1).filter(|_| pronoun_object(Tokens(&t[start.min(to)..to])));
        let rest = render(cx, c, start.min(to), to, true);
        if !rest.is_empty() {
            pieces.push(words(" ", None));
            pieces.extend(rest);
        }
        if has_first(&pieces) {
            return None;
        }
        return Some(Act::Order { pieces, mixes, timed });
    }
    // "in a bowl I'm putting the flour": the place first, then what is done.
    if let Some((at, end)) = later_verb(t, from, to) {
        let (n, verb) = lexicon().verbs.exact(Tokens(&t[end..to]))?;
        let place = render(cx, c, from, at, false);
        if verb.class == VerbClass::Everyday
            && ["have", "get", "use", "need", "want", "do", "like"].contains(&verb.base)
        {
            return None;
        }
        let rest = render(cx, c, end + n, to, true);
        let foods = mine.iter().filter(|f| matches!(f.item, Item::Food(_))).count();
        let conditional = row.at_any("when once if while after before as");
        let mut pieces;
        if foods <= 2 && !conditional && !has_first(&place) {
            pieces = vec![words(&capital(imperative(verb.base)), Some(t[end].span))];
            if !rest.is_empty() {
                pieces.push(words(" ", None));
                pieces.extend(rest);
            }
            pieces.push(words(" ", None));
            pieces.extend(place);
        } else {
            pieces = if has_first(&place) { Vec::new() } else { capitalised(place) };
            let lead =
                if pieces.is_empty() { capital(imperative(verb.base)) } else { format!(", {}", imperative(verb.base)) };
            pieces.push(words(&lead, Some(t[end].span)));
            if !rest.is_empty() {
                pieces.push(words(" ", None));
                pieces.extend(rest);
            }
        }
        if has_first(&pieces) {
            return None;
        }
        return Some(Act::Order { pieces, mixes: None, timed });
    }
    // A time, a heat or a place alone.
    if timed && row.len() < 18 {
        let first_time = mine.iter().find(|f| matches!(f.item, Item::Time(_)))?;
        let mut pieces = vec![words("for ", None)];
        pieces.extend(render(cx, c, first_time.from, to, false));
        if has_first(&pieces) {
            pieces.truncate(2);
        }
        let before = Tokens(&t[from..first_time.from]);
        if let Some(place) = place_of(before) {
            let mut all = vec![words(place, None), words(" ", None)];
            all.extend(pieces);
            return Some(Act::Order { pieces: all, mixes: None, timed: true });
        }
        return Some(Act::Tail(pieces, true));
    }
    let pieces = render(cx, c, from, to, false);
    if pieces.is_empty() || has_first(&pieces) {
        return None;
    }
    if row.at_any("if when once unless while after before") {
        return Some(Act::Condition(capitalised(pieces)));
    }
    let states = row.0.iter().take(9).any(|t| t.is_any("should ought ready done"));
    if states {
        return Some(Act::Sentence(capitalised(pieces)));
    }
    if row.at("want") || row.at("looking") {
        // "you want it thick", "you're looking for bubbles".
        let skip = if row.at("looking") { if row.get(1).is_some_and(|t| t.is("for")) { 2 } else { 1 } } else { 1 };
        let mut all = vec![words(if row.at("looking") { "Look for " } else { "" }, None)];
        if row.at("want") {
            return None;
        }
        all.extend(render(cx, c, from + skip, to, false));
        return Some(Act::Sentence(all));
    }
    if let Some(place) = place_of(row) {
        return Some(Act::Order { pieces: vec![words(place, Some(t[from].span))], mixes: None, timed: false });
    }
    if let Some(heat) = mine.iter().find(|f| matches!(f.item, Item::Heat(_))) {
        let _ = heat;
        return None;
    }
    if row.0.iter().any(|t| t.is_any("heat flame fire")) && row.len() <= 6 {
        let text: Vec<&str> = row
            .0
            .iter()
            .filter(|t| t.kind == Kind::Word && !lexicon().has("filler", &t.text))
            .map(|t| &*t.text)
            .collect();
        let text = text.join(" ");
        let text = if text.starts_with("over") || text.starts_with("on") || text.starts_with("off") {
            text
        } else {
            format!("over {text}")
        };
        return Some(Act::Tail(vec![words(&text, Some(t[from].span.to(t[to - 1].span)))], false));
    }
    let _ = in_oven;
    let mut all = vec![words("Put ", None)];
    all.extend(pieces);
    if row.at_any("into in on back onto over under to") {
        return Some(Act::Order { pieces: all, mixes: None, timed: false });
    }
    None
}

/// "into the fridge", "lid on", "back in the oven": what to do with it.
fn place_of(i: Tokens<'_>) -> Option<&'static str> {
    let has = |w: &[&str]| i.0.iter().any(|t| t.is_any_of(w));
    if i.len() > 7 {
        return None;
    }
    Some(if has(&["lid"]) && has(&["on"]) {
        "Put the lid on"
    } else if has(&["lid"]) && has(&["off"]) {
        "Take the lid off"
    } else if has(&["freezer"]) {
        "Freeze"
    } else if has(&["fridge", "refrigerator", "icebox"]) {
        "Refrigerate"
    } else if has(&["oven"]) && has(&["back"]) {
        "Return to the oven"
    } else if has(&["oven"]) && has(&["in", "into"]) {
        "Put in the oven"
    } else if has(&["heat", "stove", "burner"]) && has(&["off"]) {
        "Take off the heat"
    } else if has(&["foil"]) && has(&["off"]) {
        "Take the foil off"
    } else {
        return None;
    })
}

/// "that goes in the oven", "half of it gets stirred in", "the foil comes off".
fn goes(cx: &Context<'_>, c: &Sorted, from: usize, g: usize, to: usize, timed: bool) -> Option<Act> {
    let t = cx.tokens;
    let subject = subject(cx, c, from, g)?;
    let after = Tokens(&t[g + 1..to]);
    let comes = t[g].is_any("comes come");
    let gets = t[g].is_any("gets get");
    let span = Some(t[g].span);
    let mut pieces;
    let adverbs = after
        .0
        .iter()
        .take_while(|t| {
            t.is_any("all just then right also both really only back straight first")
                && !t.is_any("back right straight")
        })
        .count();
    let after = after.skip(adverbs);
    let start = g + 1 + adverbs;
    if gets {
        if let Some((n, v)) = lexicon().verbs.exact(after) {
            pieces = vec![words(&capital(imperative(v.base)), span), words(" ", None)];
            pieces.extend(subject);
            let rest = render(cx, c, start + n, to, false);
            if !rest.is_empty() {
                pieces.push(words(" ", None));
                pieces.extend(rest);
            }
            return (!has_first(&pieces)).then_some(Act::Order { pieces, mixes: None, timed });
        }
        if timed {
            let mut tail = vec![words("for ", None)];
            let first_time = cx.found[c.found.0..c.found.1].iter().find(|f| matches!(f.item, Item::Time(_)))?;
            tail.extend(render(cx, c, first_time.from, to, false));
            return Some(Act::Tail(tail, true));
        }
        return None;
    }
    let ended = after.is_empty() || after.0.iter().all(|t| !t.is_spoken());
    let verb = if comes {
        "Take "
    } else if ended || after.at("in") && after.len() <= 2 || after.at("with") {
        "Add "
    } else {
        "Put "
    };
    pieces = vec![words(verb, span)];
    pieces.extend(subject);
    let rest = if verb == "Add " && after.at("in") {
        render(cx, c, start + 1, to, false)
    } else {
        render(cx, c, start, to, false)
    };
    if !rest.is_empty() {
        pieces.push(words(" ", None));
        pieces.extend(rest);
    }
    (!has_first(&pieces)).then_some(Act::Order { pieces, mixes: None, timed })
}

/// The subject of "goes": a pronoun becomes an object.
fn subject(cx: &Context<'_>, c: &Sorted, from: usize, to: usize) -> Option<Vec<Piece>> {
    let row = Tokens(&cx.tokens[from..to]);
    let spoken: Vec<&Token> = row.0.iter().filter(|t| t.is_spoken() && !t.is_any("all just then also")).collect();
    if let [one] = spoken.as_slice() {
        if one.is_any("that it this which") {
            return Some(vec![words("it", Some(one.span))]);
        }
        if one.is_any("those they these") {
            return Some(vec![words("them", Some(one.span))]);
        }
    }
    if spoken.is_empty() {
        return None;
    }
    let pieces = render(cx, c, from, to, false);
    (!pieces.is_empty()).then_some(pieces)
}

/// "that", "it all", "everything", "all of that together", or nothing: what a mixing verb may act on.
fn pronoun_object(i: Tokens<'_>) -> bool {
    let mut n = 0;
    while i.get(n).is_some_and(|t| {
        t.is_any("that it all everything them those this of together up well good around in these both really and a stir mix whisk")
    }) {
        n += 1;
    }
    i.is_empty()
        || n > 0 && i.get(n).is_none_or(|t| !t.is_spoken() || t.is_any("until till with for in just so over to"))
}

/// What follows the pronoun of a mixing verb: "until it's smooth".
fn mix_tail(cx: &Context<'_>, c: &Sorted) -> Option<Vec<Piece>> {
    let t = cx.tokens;
    let to = trim_end(t, c.core, c.piece.to);
    let at = (c.core..to).find(|n| t[*n].is_any("until till with for in over just on") && *n > c.core)?;
    let rest = render(cx, c, at, to, false);
    if rest.is_empty() || has_first(&rest) {
        return None;
    }
    let mut out = vec![words(" ", None)];
    out.extend(rest);
    Some(out)
}

fn imperative(base: &str) -> &str {
    base
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

fn uncapital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| c.to_lowercase().chain(chars).collect()).unwrap_or_default()
}

fn capitalised(mut pieces: Vec<Piece>) -> Vec<Piece> {
    if let Some(Piece { kind: PieceKind::Words(w), .. }) = pieces.first_mut() {
        *w = capital(w);
    }
    pieces
}

/// Stops short of a trailing "though", "right", "okay" and of commas.
fn trim_end(t: &[Token], from: usize, mut to: usize) -> usize {
    while to > from
        && (!t[to - 1].is_spoken() && t[to - 1].kind != Kind::Sign
            || t[to - 1]
                .is_any("though okay right and so but then too also now or already anyway please you because there"))
    {
        to -= 1;
    }
    to
}

fn has_first(pieces: &[Piece]) -> bool {
    pieces.iter().any(|p| match &p.kind {
        PieceKind::Words(w) => w.split(|c: char| !(c.is_alphanumeric() || c == '\'')).any(|w| {
            let w = w.to_lowercase();
            FIRST.contains(&w.as_str()) || w == "my" || w == "our"
        }),
        _ => false,
    })
}

/// Tokens `from..to` as written pieces: foods by name, figures as figures, fillers and asides out.
pub fn render(cx: &Context<'_>, c: &Sorted, from: usize, to: usize, _order: bool) -> Vec<Piece> {
    let t = cx.tokens;
    let mask = asides(t, from, to);
    let mut out = Out::default();
    let mut n = from;
    let mut id = (c.found.0..c.found.1).find(|k| cx.found[*k].from >= from).unwrap_or(c.found.1);
    while n < to {
        while id < c.found.1 && cx.found[id].from < n {
            id += 1;
        }
        if mask.get(n - from).copied().unwrap_or(false) {
            n += 1;
            continue;
        }
        if id < c.found.1 && cx.found[id].from == n && cx.found[id].to <= to {
            let f = &cx.found[id];
            let span = t[f.from].span.to(t[f.to - 1].span);
            if place(cx, &mut out, f, id, span) {
                n = f.to;
                continue;
            }
        }
        let token = &t[n];
        match token.kind {
            Kind::Comma => out.comma(),
            Kind::Pause | Kind::Stop | Kind::Break(_) => {}
            Kind::Sign => {
                if token.is("%") {
                    out.glue("%");
                }
            }
            Kind::Word | Kind::Number(_) => {
                if lexicon().has("filler", &token.text) || filler_phrase(Tokens(&t[n..to])) > 0 {
                    n += filler_phrase(Tokens(&t[n..to])).max(1);
                    continue;
                }
                let text = match &*token.text {
                    "my" | "your" | "our" | "them's" => "the",
                    "tablespoonful" => "tablespoon",
                    "till" => "until",
                    other => other,
                };
                // "and stirred", "and adding": the second verb of an order is an order too.
                if out.after_joint()
                    && let Some((len, v)) = lexicon().verbs.exact(Tokens(&t[n..to]))
                    && v.class != VerbClass::Everyday
                    && (token.text.ends_with("ing") || token.text.ends_with("ed"))
                    && t.get(n + len).is_some_and(|t| t.is_any("it them the that those in until for up everything"))
                {
                    out.word(v.base, Some(token.span));
                    n += len;
                    continue;
                }
                out.word(text, Some(token.span));
            }
        }
        n += 1;
    }
    out.done()
}

/// "kind of", "sort of", "go ahead and", "you know".
fn filler_phrase(i: Tokens<'_>) -> usize {
    const PHRASES: &[&[&str]] = &[
        &["kind", "of"],
        &["sort", "of"],
        &["go", "ahead", "and"],
        &["you", "know"],
        &["i", "guess"],
        &["i", "think"],
        &["i", "would", "say"],
        &["i'd", "say"],
        &["if", "you", "will"],
        &["or", "whatever"],
        &["and", "everything"],
        &["in", "there"],
        &["at", "all"],
        &["of", "course"],
        &["like", "i", "said"],
        &["as", "i", "said"],
        &["going", "to"],
        &["you", "guys"],
        &["right", "now"],
        &["by", "the", "way"],
        &["good", "and"],
    ];
    PHRASES
        .iter()
        .find(|p| p.iter().enumerate().all(|(n, w)| i.get(n).is_some_and(|t| t.is(w))))
        .map_or(0, |p| if p[0] == "good" || p == &["in", "there"] && i.len() > 2 { 0 } else { p.len() })
}

/// Writes a finding; false where its words should stand as said.
fn place(cx: &Context<'_>, out: &mut Out, f: &Found, id: usize, span: Span) -> bool {
    match &f.item {
        Item::Food(said) => {
            let entry = cx.book.entries[id];
            let Some(e) = entry else {
                // A mixture or a food of no line: its own words, without "my".
                let text = said.name.clone();
                let lead = match said.quantifier {
                    Quantifier::Rest => "the rest of the ",
                    Quantifier::Part => "part of the ",
                    Quantifier::The | Quantifier::All => "the ",
                    Quantifier::Some => "some ",
                    Quantifier::More => "more ",
                    Quantifier::None => "",
                };
                if said.amount.is_some() || said.quantifier == Quantifier::Part {
                    return false;
                }
                out.word(&format!("{lead}{text}"), Some(span));
                return true;
            };
            let Some(line) = cx.book.lines.get(e.line) else { return false };
            let name = if said.name.len() >= line.name.len() && e.measured { &line.name } else { &said.name };
            if let (true, Some(part)) = (e.partial, e.part) {
                if said.quantifier == Quantifier::Rest {
                    out.word("the rest of the", None);
                    out.word(name, Some(span));
                    out.word("(", None);
                    out.glue_next();
                    out.piece(PieceKind::Amount { amount: part, line: Some(e.line) }, Some(span));
                    out.glue(")");
                } else {
                    out.piece(PieceKind::Amount { amount: part, line: Some(e.line) }, Some(span));
                    out.word(
                        if part.unit().is_some() || part.low() < crate::measure::Ratio::ONE { "of the" } else { "" },
                        None,
                    );
                    out.word(name, Some(span));
                }
                return true;
            }
            if e.partial {
                let lead = match said.quantifier {
                    Quantifier::Rest => "the rest of the",
                    Quantifier::More => "more",
                    _ => "most of the",
                };
                let said_most = cx.tokens[f.from..f.to].iter().any(|t| t.is("most"));
                out.word(if said.quantifier == Quantifier::Part && !said_most { "some of the" } else { lead }, None);
                out.word(name, Some(span));
                return true;
            }
            let article = match said.quantifier {
                Quantifier::Some if line.amount.is_none() => "some",
                _ if out.in_list => "",
                _ if out.ends_with_article() => "",
                _ => "the",
            };
            out.word(article, None);
            out.word(name, Some(span));
            out.in_list = true;
            true
        }
        Item::Time(time) => {
            out.piece(PieceKind::Time(*time), Some(span));
            true
        }
        Item::Heat(h) => {
            let from = f.from.saturating_sub(12);
            let Some(heat) = h.oven(cx.metric) else { return false };
            let oven = is_oven_setting(cx.tokens, from, (f.to + 8).min(cx.tokens.len()), h);
            if !oven && !h.marked {
                return false;
            }
            out.piece(PieceKind::Heat(heat), Some(span));
            true
        }
        Item::Pan(pan) => {
            if !out.ends_with_article() {
                out.word("a", None);
            }
            out.piece(PieceKind::Pan(pan.clone()), Some(span));
            true
        }
        Item::Yield(_) => true,
        Item::Loose(a) => {
            let entry = cx.book.entries[id];
            out.piece(PieceKind::Amount { amount: a.amount, line: entry.map(|e| e.line) }, Some(span));
            true
        }
        Item::Count(_) => false,
    }
}

/// Which tokens are asides: segments that speak in the first person, reasons, relative clauses of "I".
fn asides(t: &[Token], from: usize, to: usize) -> Vec<bool> {
    let mut mask = vec![false; to.saturating_sub(from)];
    let mut edges = vec![from];
    for n in from..to {
        let relative = t[n].is_any("which because cause since though although where")
            || t[n].is("that") && t.get(n + 1).is_some_and(|t| t.is_any_of(FIRST))
            || t[n].is("as") && t.get(n + 1).is_some_and(|t| t.is_any("i we"))
            || t[n].is("like") && t.get(n + 1).is_some_and(|t| t.is_any("i we my"))
            || t[n].is("if") && t.get(n + 1).is_some_and(|t| t.is("i"));
        if (t[n].kind == Kind::Comma || t[n].kind == Kind::Pause || relative) && n > from {
            edges.push(n);
        }
    }
    edges.push(to);
    for pair in edges.windows(2) {
        let segment = &t[pair[0]..pair[1]];
        let first = segment.iter().any(|t| t.is_any_of(FIRST));
        let reason = segment.iter().take(2).any(|t| t.is_any("because cause since"));
        if first || reason {
            for n in pair[0]..pair[1] {
                mask[n - from] = true;
            }
        }
    }
    // The food a first-person relative hangs on stays: "the cheese I kept back" keeps its cheese.
    for n in from..to {
        if t[n].is_any_of(FIRST) {
            break;
        }
        if n == from || !mask[n - from] || t[n].kind == Kind::Comma {
            continue;
        }
    }
    let head: usize = (from..to).take_while(|n| !t[*n].is_any_of(FIRST)).count();
    if mask.iter().all(|m| *m) && head > 1 && to - from > head {
        for slot in mask.iter_mut().take(head) {
            *slot = false;
        }
    }
    mask
}

/// The pieces as they are written, with their spaces.
#[derive(Default)]
struct Out {
    pieces: Vec<Piece>,
    comma: bool,
    glued: bool,
    in_list: bool,
}

impl Out {
    fn join(&mut self) {
        if self.pieces.is_empty() {
            self.comma = false;
            return;
        }
        let text = if self.glued {
            ""
        } else if self.comma {
            ", "
        } else {
            " "
        };
        self.glued = false;
        self.comma = false;
        if text.is_empty() {
            return;
        }
        if let Some(Piece { kind: PieceKind::Words(w), .. }) = self.pieces.last_mut() {
            w.push_str(text);
        } else {
            self.pieces.push(words(text, None));
        }
    }

    fn word(&mut self, text: &str, span: Option<Span>) {
        if text.is_empty() {
            return;
        }
        if !matches!(text, "and" | "or") {
            self.in_list = false;
        }
        // "a the" and "the the" come of replaced words.
        if text == "the" && self.ends_with_article() {
            return;
        }
        self.join();
        match (self.pieces.last_mut(), span) {
            (Some(Piece { kind: PieceKind::Words(w), span: s }), Some(new))
                if s.is_some_and(|s| s.end + 2 >= new.start && s.start <= new.start) || s.is_none() =>
            {
                w.push_str(text);
                *s = Some(s.map_or(new, |s| s.to(new)));
            }
            (Some(Piece { kind: PieceKind::Words(w), .. }), None) => w.push_str(text),
            _ => self.pieces.push(words(text, span)),
        }
    }

    fn piece(&mut self, kind: PieceKind, span: Option<Span>) {
        self.join();
        self.in_list = false;
        self.pieces.push(Piece { kind, span });
    }

    fn comma(&mut self) {
        self.comma = !self.pieces.is_empty();
    }

    fn glue(&mut self, text: &str) {
        self.comma = false;
        if let Some(Piece { kind: PieceKind::Words(w), .. }) = self.pieces.last_mut() {
            w.push_str(text);
        } else {
            self.pieces.push(words(text, None));
        }
    }

    fn glue_next(&mut self) {
        self.glued = true;
    }

    fn ends_with_article(&self) -> bool {
        let text = last_text(&self.pieces);
        let last_is_words = matches!(self.pieces.last().map(|p| &p.kind), Some(PieceKind::Words(_)));
        last_is_words
            && text.trim_end().rsplit(' ').next().is_some_and(|w| {
                ["the", "a", "an", "that", "those", "this", "these", "each", "every", "all", "any", "no"]
                    .contains(&w.to_lowercase().as_str())
            })
    }

    fn after_joint(&self) -> bool {
        let text = last_text(&self.pieces);
        self.comma || text.trim_end().rsplit(' ').next().is_some_and(|w| w == "and" || w == "then")
    }

    fn done(self) -> Vec<Piece> {
        self.pieces
    }
}

/// Ends a step with its stop and takes out spaces before stops.
fn finish(d: Draft) -> Step {
    let mut pieces = d.pieces;
    let mut end = true;
    if let Some(Piece { kind: PieceKind::Words(w), .. }) = pieces.last_mut() {
        *w = w.trim_end_matches([' ', ',', '.']).to_string();
        w.push('.');
        end = false;
    }
    if end && !pieces.is_empty() {
        pieces.push(words(".", None));
    }
    // Sentences within a step begin with a capital.
    let mut after_stop = true;
    for p in &mut pieces {
        if let PieceKind::Words(w) = &mut p.kind {
            if after_stop && !w.trim().is_empty() {
                *w = capital(w);
            }
            if !w.trim().is_empty() {
                after_stop = w.trim_end().ends_with('.');
            }
        } else {
            after_stop = false;
        }
    }
    Step { pieces, group: d.group }
}
