//! Her words as written pieces: foods by name, figures as figures, fillers and asides left out.

use super::super::oven::is_oven_setting;
use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use super::{Context, Draft};
use crate::draft::Span;
use crate::grammar::food::Quantifier;
use crate::item::Items;
use crate::letters::{capital, lower};
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon};
use crate::measure::Unit;
use crate::recipe::{Piece, PieceKind, Step};
use crate::token::{Kind, Token, Tokens};

/// Tokens `from..to` as written pieces: foods by name, figures as figures, fillers and asides out.
pub fn render(cx: &Context<'_>, c: &Sorted, from: usize, to: usize, _order: bool) -> Vec<Piece> {
    let t = cx.tokens;
    let mask = asides(t, from, to);
    let mut out = Out::default();
    let mut n = from;
    let mut id = (c.found.0..c.found.1).find(|k| cx.found.item(*k).from >= from).unwrap_or(c.found.1);
    while n < to {
        while id < c.found.1 && cx.found.item(id).from < n {
            id += 1;
        }
        if mask.get(n - from).copied().unwrap_or(false) {
            n += 1;
            continue;
        }
        if id < c.found.1 && cx.found.item(id).from == n && cx.found.item(id).to <= to {
            let f = cx.found.item(id);
            let span = t[f.from].span.to(t[f.to - 1].span);
            if place(cx, &mut out, f, id, span) {
                // "Pull the meat off the bone", "cut the tortillas in half": what follows the name tells how.
                if let Item::Food(said) = &f.item {
                    let tail = (f.from + said.name_at.1).clamp(f.from, f.to)..f.to.min(to);
                    let tells = t[tail.clone()].iter().find(|w| w.is_spoken()).is_some_and(|w| {
                        w.is_any("in into off on lengthwise crosswise") || said.amount.is_none() && said.name_at.1 > 0
                    });
                    if tells && said.package.is_none() && !said.to_taste {
                        for w in t[tail].iter().filter(|w| w.is_spoken()) {
                            out.word(&w.text, Some(w.span));
                        }
                    }
                }
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
                    && t.get(n + len).is_some_and(|t| t.is_in("goes on after a verb"))
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

/// The length of "kind of", "go ahead and", "you know", where one comes next; "in there" only where nothing follows.
pub(super) fn filler_phrase(i: Tokens<'_>) -> usize {
    let len = lexicon().lead("filler phrase", i);
    if i.at("in") && i.len() > 2 { 0 } else { len }
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
                    Quantifier::None | Quantifier::Again => "",
                };
                if said.amount.is_some() || said.quantifier == Quantifier::Part {
                    return false;
                }
                out.word(&format!("{lead}{text}"), Some(span));
                return true;
            };
            let Some(line) = cx.book.lines.get(e.line) else { return false };
            let full = super::name_in_step(line);
            let name = if said.name.len() >= line.name.len() && e.measured { &full } else { &said.name };
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
                let said_most = cx.tokens.row(f.from, f.to).iter().any(|t| t.is("most"));
                out.word(if said.quantifier == Quantifier::Part && !said_most { "some of the" } else { lead }, None);
                out.word(name, Some(span));
                return true;
            }
            let article = match said.quantifier {
                Quantifier::Some if line.amount.is_none() => "some",
                _ if out.in_list => "",
                _ if out.ends_with_article() || out.described() => "",
                _ => "the",
            };
            // "The butter, then the flour" with the joint lost; and "red lentils, the small lentils" is one food.
            if out.in_list && !out.comma && !out.after_joint() && !last_text(&out.pieces).ends_with("or") {
                if out.line == Some(e.line) {
                    return true;
                }
                // Another one after it, or "and", tells that the list goes on.
                let next = cx.found.get(id + 1).is_some_and(|n| n.from == f.to && matches!(n.item, Item::Food(_)));
                if next || cx.tokens.get(f.to).is_some_and(|t| t.is("and")) {
                    out.comma();
                } else {
                    out.word("and", None);
                }
            }
            out.word(article, None);
            out.word(name, Some(span));
            out.in_list = true;
            out.line = Some(e.line);
            true
        }
        // "For the last minute" stands as it was said.
        Item::Time(_) if cx.tokens.item(f.from).is("the") => false,
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
            if !out.ends_with_article() && !out.described() {
                out.word("a", None);
            }
            out.piece(PieceKind::Pan(pan.clone()), Some(span));
            true
        }
        // "Cut it into twelve": part of what is done.
        Item::Yield(_) => false,
        Item::Loose(a) => {
            let entry = cx.book.entries[id];
            // "In a pot", "in a bag" is where, not how much.
            if entry.is_none() && a.amount.unit().is_some_and(Unit::is_container) {
                return false;
            }
            out.piece(PieceKind::Amount { amount: a.amount, line: entry.map(|e| e.line) }, Some(span));
            true
        }
        Item::Count(_) => false,
    }
}

/// Which tokens are asides: segments that speak in the first person, reasons, relative clauses of "I".
pub(super) fn asides(t: &[Token], from: usize, to: usize) -> Vec<bool> {
    let mut mask = vec![false; to.saturating_sub(from)];
    let mut edges = vec![from];
    for n in from..to {
        let relative = t[n].is_in("tells why")
            || t[n].is("that") && t.get(n + 1).is_some_and(|t| t.is_in("first person"))
            || t[n].is("like") && t.get(n + 1).is_some_and(|t| t.is_any("it you they he she")) && n > from
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
        let first = segment.iter().any(|t| t.is_in("first person"));
        let reason = segment.iter().take(2).any(|t| t.is_any("because cause since"));
        // "Squeeze it like it owes you money".
        let simile = segment.first().is_some_and(|t| t.is("like"))
            && segment.get(1).is_some_and(|t| t.is_any("it you they he she"))
            && segment.len() > 3;
        if first || reason || simile {
            for n in pair[0]..pair[1] {
                mask[n - from] = true;
            }
        }
    }
    // The food a first-person relative hangs on stays: "the cheese I kept back" keeps its cheese.
    for n in from..to {
        if t[n].is_in("first person") {
            break;
        }
        if n == from || !mask[n - from] || t[n].kind == Kind::Comma {
            continue;
        }
    }
    let head: usize = (from..to).take_while(|n| !t[*n].is_in("first person")).count();
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
    /// The line of the food named last.
    line: Option<usize>,
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

    /// "In a buttered": an article and how the thing is.
    fn described(&self) -> bool {
        let text = last_text(&self.pieces);
        let how = |w: &str| w.ends_with("ed") || lexicon().describers.exact(Tokens(&[Token::word(w)])).is_some();
        let before = text.trim_end().rsplit(' ').map(lower).find(|w| !how(w));
        before.is_some_and(|w| lexicon().has("articles", &w))
    }

    fn ends_with_article(&self) -> bool {
        let text = last_text(&self.pieces);
        let last_is_words = matches!(self.pieces.last().map(|p| &p.kind), Some(PieceKind::Words(_)));
        last_is_words
            && text.trim_end().rsplit(' ').next().is_some_and(|w| crate::lexicon::lexicon().has("articles", &lower(w)))
    }

    fn after_joint(&self) -> bool {
        let text = last_text(&self.pieces);
        self.comma || text.trim_end().rsplit(' ').next().is_some_and(|w| w == "and" || w == "then")
    }

    fn done(self) -> Vec<Piece> {
        self.pieces
    }
}

pub(super) fn words(text: &str, span: Option<Span>) -> Piece {
    Piece { kind: PieceKind::Words(text.to_string()), span }
}

pub(super) fn length(p: &Piece) -> usize {
    match &p.kind {
        PieceKind::Words(w) => w.len(),
        _ => 10,
    }
}

pub(super) fn last_text(pieces: &[Piece]) -> String {
    pieces
        .iter()
        .rev()
        .find_map(|p| if let PieceKind::Words(w) = &p.kind { Some(w.clone()) } else { None })
        .unwrap_or_default()
}

pub(super) fn first_text(pieces: &[Piece]) -> String {
    match pieces.first().map(|p| &p.kind) {
        Some(PieceKind::Words(w)) => lower(w),
        Some(PieceKind::Time(_)) => "for".into(),
        _ => String::new(),
    }
}

pub(super) fn capitalised(mut pieces: Vec<Piece>) -> Vec<Piece> {
    if let Some(Piece { kind: PieceKind::Words(w), .. }) = pieces.first_mut() {
        *w = capital(w);
    }
    pieces
}

pub(super) fn has_first(pieces: &[Piece]) -> bool {
    pieces.iter().any(|p| match &p.kind {
        PieceKind::Words(w) => w.split(|c: char| !(c.is_alphanumeric() || c == '\'')).any(|w| {
            let w = lower(w);
            lexicon().has("first person", &w) || w == "my" || w == "our"
        }),
        _ => false,
    })
}

/// Stops short of a trailing "though", "right", "okay" and of commas.
pub(super) fn trim_end(t: &[Token], from: usize, mut to: usize) -> usize {
    while to > from && (!t[to - 1].is_spoken() && t[to - 1].kind != Kind::Sign || t[to - 1].is_in("ends no step")) {
        to -= 1;
    }
    to
}

/// Takes off what only led on to more: "drain it and", "in a pot with".
pub(super) fn close(pieces: &mut [Piece]) {
    for piece in pieces.iter_mut().rev() {
        let PieceKind::Words(w) = &mut piece.kind else { return };
        loop {
            w.truncate(w.trim_end_matches([' ', ',']).len());
            let last = w.rsplit([' ', ',']).next().unwrap_or("");
            if last.is_empty() || !lexicon().has("ends no sentence", &lower(last)) {
                break;
            }
            w.truncate(w.len() - last.len());
        }
        if !w.is_empty() {
            return;
        }
    }
}

/// Ends a step with its stop and takes out spaces before stops.
pub(super) fn finish(d: Draft) -> Step {
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
