//! Action clauses become steps: imperative, in working order, as rows of pieces.
//!
//! Foods that are only presented ("then I've got two cans of beans") wait until something is done with them; "stir that
//! all together" then takes them with it. What a step keeps are pans, heats, times and signs of doneness; first person,
//! fillers and asides go.

mod act;
mod render;

use super::dish::Plan;
use super::ledger::Ledger;
use super::oven::is_oven_setting;
use super::scan::{Found, Item};
use super::sort::{Sorted, goes_at};
use crate::item::Items;
use crate::letters::uncapital;
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon, tagged};
use crate::measure::Heat;
use crate::recipe::{Piece, PieceKind, Said, Step, Use};
use crate::token::{Token, Tokens};
use act::{Act, act, mix_tail};
use render::{finish, first_text, last_text, length, render, words};

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

/// A food that was shown, and the sentence: it waits for what is done with it.
struct Waiting {
    line: usize,
    sentence: usize,
    /// The tokens that say where it goes: "in the blender".
    place: Option<(usize, usize)>,
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
    /// Nothing is done yet with the foods it adds.
    shown: bool,
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
    let mut pending: Vec<Waiting> = Vec::new();
    // The foods of the latest step, which "it" and "them" may mean.
    let mut recent: Vec<usize> = Vec::new();
    let mut told: Vec<usize> = Vec::new();
    let mut sentence = 0;
    let mut recap = false;
    let mut in_oven = false;
    // A place that was named before the food that goes there, and its sentence.
    let mut waiting_place: Option<(usize, (usize, usize))> = None;
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
    // A heat that was said before its order, and the sentence.
    let mut over: Option<(usize, Vec<Piece>)> = None;
    let extent = cx.plan.extent[card].clone();
    for (n, c) in cx.clauses.iter().enumerate().take(extent.end).skip(extent.start) {
        if c.piece.opens {
            sentence += 1;
        }
        if cx.plan.card[n] != Some(card) {
            continue;
        }
        let row = Tokens(cx.tokens.row(c.piece.from, c.piece.to));
        if row.0.iter().any(|t| t.is("recap")) {
            recap = true;
        }
        let mine = cx.found.row(c.found.0, c.found.1);
        // "Roast." at the head of a dish is its name.
        let named = cx.plan.opens[n] && row.0.iter().filter(|t| t.is_spoken()).count() == 1;
        if recap || c.cues.story || named {
            continue;
        }
        let group = cx.plan.group[n].clone();
        if row.has_any("oven bake bakes baking broiler") {
            in_oven = true;
        }
        match c.main {
            Use::Ingredient => {
                // Foods measured here wait for what is done with them; a mere mention ("it's good with ham") does not.
                if (c.found.0..c.found.1).any(|id| cx.book.entries[id].is_some_and(|e| e.measured || e.partial)) {
                    let place = waiting_place
                        .take()
                        .filter(|w| w.0 == sentence)
                        .map(|w| w.1)
                        .or_else(|| place_before(cx, c))
                        .or_else(|| place_after(cx, c));
                    pending.extend(lines_here(cx, c).into_iter().map(|line| Waiting { line, sentence, place }));
                    told.push(n);
                    // "Then the milk, bit at a time, whisking": what is done stands at the end.
                    let food_end =
                        mine.iter().rev().find(|f| matches!(f.item, Item::Food(_))).map_or(c.piece.from, |f| f.to);
                    let doing = (food_end..c.piece.to).find_map(|k| {
                        let (_, v) = crate::lexicon::lexicon().verbs.exact(Tokens(cx.tokens.row(k, c.piece.to)))?;
                        (cx.tokens.item(k).text.ends_with("ing") && v.class == VerbClass::Mix).then_some(v.base)
                    });
                    if let Some(base) = doing {
                        flush(cx, &mut steps, &mut pending, sentence + 1, &group);
                        if let Some(Piece { kind: PieceKind::Words(w), .. }) =
                            steps.last_mut().and_then(|s| s.pieces.first_mut())
                            && w == "Add "
                        {
                            let first = base.split(' ').next().unwrap_or(base);
                            *w = format!("{} in ", crate::letters::capital(first));
                        }
                    }
                    // "Two onions, chopped fine, twelve to fifteen minutes": the time is what is done with them.
                    let time =
                        mine.last().filter(|f| matches!(f.item, Item::Time(_)) && food_end <= f.from).map(|f| f.from);
                    // "Four slices of bacon in a big skillet till it's crispy".
                    let until = (food_end..c.piece.to).find(|k| cx.tokens.item(*k).is_any("until till"));
                    if let Some(at) = until.or(time) {
                        flush(cx, &mut steps, &mut pending, sentence + 1, &group);
                        if let Some(step) = steps.last_mut() {
                            let joint = match (in_oven, until) {
                                (true, None) => ". Bake for ",
                                (true, _) => ". Bake ",
                                (false, None) => ". Cook for ",
                                (false, _) => ". Cook ",
                            };
                            step.pieces.push(words(joint, None));
                            step.pieces.extend(render(cx, c, at, c.piece.to, false));
                            step.timed = true;
                            step.shown = false;
                        }
                    }
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
            let place = waiting_place.take().filter(|w| w.0 == sentence).map(|w| w.1);
            pending.extend(lines_here(cx, c).into_iter().map(|line| Waiting { line, sentence, place }));
            told.push(n);
            continue;
        }
        // "In a large skillet over medium heat, I've got a tablespoon of oil": the place waits for the food.
        if c.why == "where it goes"
            && mine.iter().all(|f| matches!(f.item, Item::Heat(_) | Item::Pan(_)))
            && cx.tokens.item(c.core).is_any("in into on")
            && cx.clauses.get(n + 1).is_some_and(|d| !d.piece.opens && (presents(cx, d) || d.main == Use::Ingredient))
        {
            waiting_place = Some((sentence, (c.core, c.piece.to)));
            told.push(n);
            continue;
        }
        let mut act = act(cx, c);
        // "I have cooked this for thirty years."
        let years = act.as_mut().is_some_and(|act| {
            render::close(act.pieces());
            longest(act.pieces()) >= 360 * DAY
        });
        let Some(act) = act.filter(|a| !years && !a.idle()) else {
            pending.extend(lines_here(cx, c).into_iter().map(|line| Waiting { line, sentence, place: None }));
            continue;
        };
        told.push(n);
        match act {
            Act::Order { mut pieces, mixes, object, timed } => {
                let heat = over.take().filter(|w| w.0 == sentence).map(|w| w.1);
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
                pending.retain(|w| !here.contains(&w.line));
                // "One stock cube, crumble it": what was just shown is what the pronoun means.
                if let Some(at) = object.filter(|_| mixes.is_none() || !here.is_empty()) {
                    let latest = pending.last().map_or(0, |w| w.sentence);
                    let meant: Vec<usize> = if pending.is_empty() || latest + 1 < sentence {
                        // "Peel them" still means the potatoes; "knead it" no longer means the flour.
                        let whole = recent
                            .first()
                            .is_some_and(|l| tagged(cx.book.tags[*l], "produce fruit meat poultry fish cured"));
                        let cuts = c.verb.is_some_and(|v| v.1.class == VerbClass::Cut)
                            || cx.tokens.item(c.core).is_in("readies");
                        if recent.len() == 1 && pending.is_empty() && whole && cuts {
                            recent.clone()
                        } else {
                            Vec::new()
                        }
                    } else {
                        pending.iter().filter(|w| w.sentence == latest).map(|w| w.line).collect()
                    };
                    // What was put in over several sentences cooks together: all of it is added, and "it" is cooked.
                    // Bacon, eggs, nuts and fat are done by themselves.
                    let alone = |l: &usize| {
                        tagged(cx.book.tags[*l], "cured egg treenut peanut meat groundmeat poultry fish fat")
                    };
                    let together = c
                        .verb
                        .is_some_and(|v| v.1.class == VerbClass::Heat && !crate::token::listed("melt toast", v.1.base))
                        && matches!(last_text(&pieces[at..=at]).trim(), "it" | "that" | "this")
                        && pending.iter().any(|w| w.sentence != latest)
                        && !(meant.len() == 1 && meant.iter().all(alone));
                    let meant = if together { Vec::new() } else { meant };
                    let implied = last_text(&pieces[at..=at]).is_empty();
                    let meant = if implied && pending.is_empty() { Vec::new() } else { meant };
                    if !meant.is_empty() && meant.len() <= 6 {
                        let spaced = at > 0 && last_text(&pieces[..at]).ends_with(' ');
                        pieces[at] = words(if spaced { "" } else { " " }, None);
                        pieces.splice(at + 1..at + 1, names(cx, &meant));
                        pending.retain(|w| !meant.contains(&w.line));
                        recent = meant;
                    }
                }
                if !pending.is_empty() {
                    if let (Some(at), true) = (mixes, here.is_empty()) {
                        // "stir that all together": the waiting foods are what is stirred.
                        pieces.truncate(at.min(pieces.len()));
                        let verb = last_text(&pieces);
                        let plain =
                            verb.ends_with("together") || crate::letters::holds(&verb, " ") || pending.len() == 1;
                        pieces.push(words(if plain { " " } else { " together " }, None));
                        let all: Vec<usize> = pending.iter().map(|w| w.line).collect();
                        pieces.extend(names(cx, &all));
                        recent = all;
                        if let Some(rest) = mix_tail(cx, c) {
                            pieces.extend(rest);
                        }
                        pending.clear();
                    } else {
                        flush(cx, &mut steps, &mut pending, sentence, &group);
                    }
                }
                if !here.is_empty() {
                    recent = here.clone();
                }
                if let Some(heat) = heat {
                    pieces.push(words(", ", None));
                    pieces.extend(heat);
                }
                let so_far = steps.last().map_or(0, |s| s.pieces.iter().map(length).sum::<usize>());
                let adds = pieces.iter().map(length).sum::<usize>();
                // "Add the water. Stir." is one job; so is a short order that names no food of its own.
                // "Add the potatoes" is no job by itself; what is done with them is.
                let goes_on = steps.last().is_some_and(|s| {
                    s.sentence != usize::MAX
                        && s.group == group
                        && sentence <= s.sentence + 2
                        && (here.is_empty() && adds < 60 && (s.shown || !s.timed) || s.shown && so_far < 70)
                });
                let same = steps.last().is_some_and(|s| s.sentence == sentence) || goes_on;
                let short = so_far < 110 || goes_on && so_far < 120;
                if same
                    && short
                    && let Some(last) = steps.last_mut()
                {
                    // One sentence of hers with two short orders stays one step of two sentences.
                    last.pieces.push(words(". ", None));
                    last.pieces.extend(pieces);
                    last.timed |= timed;
                    last.shown = false;
                    last.foods += here.len();
                } else {
                    let foods = here.len();
                    steps.push(Draft { pieces, group, sentence, timed, oven: in_oven, foods, shown: false });
                }
            }
            // "Medium heat, and stir until it's smooth": the heat belongs to the order after it.
            Act::Tail(pieces, false)
                if c.piece.opens
                    && first_text(&pieces).starts_with("over ")
                    && cx.clauses.get(n + 1).is_some_and(|d| {
                        !d.piece.opens && d.main == Use::Action && d.verb.is_some() && d.why == "a verb of the kitchen"
                    }) =>
            {
                over = Some((sentence, pieces));
            }
            // "One second" asks for patience. "Thirty years" is a story, and so are days that no order was given for just before.
            Act::Tail(pieces, true)
                if (1..3).contains(&longest(&pieces))
                    || longest(&pieces) >= DAY
                        && (longest(&pieces) > 60 * DAY
                            || steps
                                .last()
                                .is_none_or(|s| s.timed || s.shown || sentence > s.sentence.saturating_add(1))) => {}
            Act::Tail(pieces, timed) => {
                if !pending.is_empty() {
                    flush(cx, &mut steps, &mut pending, sentence, &group);
                }
                match steps.last_mut().filter(|s| s.sentence != usize::MAX) {
                    Some(last) => {
                        let text = first_text(&pieces);
                        let joint = if text.starts_with("until")
                            || text.starts_with("for")
                            || text.starts_with("over")
                            || text.starts_with("or ")
                            || text.starts_with("otherwise")
                            || text.starts_with("because")
                            || text.starts_with("so ")
                        {
                            ", "
                        } else {
                            ". "
                        };
                        if timed && last.timed && !text.starts_with("until") {
                            let verb = if last.oven || in_oven { "Bake " } else { "Cook " };
                            last.pieces.push(words(". ", None));
                            last.pieces.push(words(verb, None));
                        } else if last.shown && (text.starts_with("for") || text.starts_with("until")) {
                            // "Add the onions" takes no time by itself.
                            last.pieces.push(words(". ", None));
                            last.pieces.push(words(if last.oven || in_oven { "Bake " } else { "Cook " }, None));
                            last.shown = false;
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
                        steps.push(Draft { pieces: all, group, sentence, timed, oven: in_oven, ..Draft::default() });
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

/// Seconds in a day.
const DAY: i64 = 86_400;

/// The longest time among the pieces, in seconds.
fn longest(pieces: &[Piece]) -> i64 {
    let seconds = |p: &Piece| match &p.kind {
        PieceKind::Time(time) => time.high_seconds().floor(),
        _ => 0,
    };
    pieces.iter().map(seconds).max().unwrap_or(0)
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

/// The name of a line in the method: of a fruit of which the juice or the zest goes in, that.
pub(super) fn name_in_step(line: &crate::recipe::Line) -> String {
    let part = |w: &str| line.prep.iter().any(|p| p == w);
    match (part("juice"), part("zest")) {
        (true, true) => format!("{} zest and juice", line.name),
        (true, false) => format!("{} juice", line.name),
        (false, true) => format!("{} zest", line.name),
        _ => line.name.clone(),
    }
}

/// "the onions, garlic and salt".
fn names(cx: &Context<'_>, lines: &[usize]) -> Vec<Piece> {
    let mut out = Vec::new();
    // What waits twice, or under two lines of one name, is named once.
    let mut said: Vec<String> = Vec::new();
    let mut once = lines.to_vec();
    once.retain(|line| {
        let Some(l) = cx.book.lines.get(*line) else { return false };
        let name = name_in_step(l);
        let new = !said.contains(&name);
        said.push(name);
        new
    });
    let lines = &once[..];
    for (n, line) in lines.iter().enumerate() {
        let Some(l) = cx.book.lines.get(*line) else { continue };
        if n == 0 {
            out.push(words("the ", None));
        } else if n + 1 == lines.len() {
            out.push(words(if lines.len() > 2 { ", and " } else { " and " }, None));
        } else {
            out.push(words(", ", None));
        }
        out.push(words(&name_in_step(l), l.spans.first().copied()));
    }
    out
}

/// "In the blender, half a cup of mayonnaise": where the foods of a clause go.
fn place_before(cx: &Context<'_>, c: &Sorted) -> Option<(usize, usize)> {
    let t = cx.tokens;
    let first = cx.found.row(c.found.0, c.found.1).iter().find(|f| matches!(f.item, Item::Food(_)))?;
    let from = c.core;
    if !t.get(from)?.is_any("in into") || first.from <= from + 1 || first.from > from + 8 {
        return None;
    }
    let lists = crate::lexicon::lexicon();
    let end = (from + 1..first.from)
        .find(|k| !t.item(*k).is_spoken() || t.item(*k).is_any("i you we goes it's there's put you've i've"))
        .unwrap_or(first.from);
    let tool = (from + 1..end).any(|k| {
        lists.tools.folded(Tokens(t.row(k, end))).is_some() || lists.pans.folded(Tokens(t.row(k, end))).is_some()
    });
    let plain = t.row(from + 1, end).iter().all(|w| w.kind == crate::token::Kind::Word);
    (tool && plain).then_some((from, end))
}

/// "Six onions on the bottom of the roasting pan", "some parsley on top": where the foods go, after them.
fn place_after(cx: &Context<'_>, c: &Sorted) -> Option<(usize, usize)> {
    let t = cx.tokens;
    let last = cx.found.row(c.found.0, c.found.1).iter().rev().find(|f| matches!(f.item, Item::Food(_)))?;
    let from = (last.to..c.piece.to).find(|k| t.item(*k).is_spoken())?;
    let led = t.item(from).is_any("on over into in across around onto inside")
        && t.get(from + 1).is_some_and(|n| n.is_any("the top a your my it that them"));
    let plain = t
        .row(from, c.piece.to)
        .iter()
        .all(|w| w.kind == crate::token::Kind::Word && !w.is_in("first person") && !w.is_in("ends a tail"));
    let short = c.piece.to - from <= 8 && c.piece.to > from + 1;
    (led && plain && short).then_some((from, c.piece.to))
}

fn flush(
    cx: &Context<'_>,
    steps: &mut Vec<Draft>,
    pending: &mut Vec<Waiting>,
    sentence: usize,
    group: &Option<String>,
) {
    let mut seen = Vec::new();
    pending.retain(|w| {
        let new = !seen.contains(&w.line);
        seen.push(w.line);
        new
    });
    if pending.is_empty() {
        return;
    }
    let first = steps.iter().all(|s| s.sentence == usize::MAX);
    let place = pending.iter().find_map(|w| w.place);
    let verb = match place {
        Some(_) => "Put ",
        None if first && pending.len() > 1 => "Combine ",
        None => "Add ",
    };
    let mut pieces = vec![words(verb, None)];
    pieces.extend(names(cx, &seen));
    if let Some((from, to)) = place {
        let said: Vec<&str> = cx
            .tokens
            .row(from, to)
            .iter()
            .filter(|t| t.is_spoken())
            .map(|t| if t.is_any("my your our") { "the" } else { &*t.text })
            .collect();
        pieces.push(words(
            &format!(" {}", crate::letters::join(&said, " ")),
            Some(cx.tokens.item(from).span.to(cx.tokens.item(to - 1).span)),
        ));
    }
    let count = pending.len();
    pending.clear();
    steps.push(Draft {
        pieces,
        group: group.clone(),
        sentence: sentence.saturating_sub(1),
        foods: count,
        shown: true,
        ..Draft::default()
    });
}

/// Whether the clause does nothing but set the oven, which the first step tells.
fn sets_oven_only(cx: &Context<'_>, c: &Sorted, mine: &[Found]) -> bool {
    let heat = mine
        .iter()
        .any(|f| matches!(&f.item, Item::Heat(h) if is_oven_setting(cx.tokens, c.piece.from, c.piece.to, h)));
    let row = cx.tokens.row(c.core.min(c.piece.to), c.piece.to);
    let down = row.iter().any(|t| t.is_any("down up"));
    let verb = row.iter().any(|t| t.is_in("about the oven"));
    let other = mine.iter().any(|f| matches!(f.item, Item::Food(_) | Item::Time(_)));
    let bake = row.iter().any(|t| t.is_any("bake goes put roast bakes back broil slide"));
    heat && verb && !other && !down && !bake
}

/// "I've got two cups of flour", "there's a pint of cream", "use a cup of milk": foods shown, nothing done.
fn presents(cx: &Context<'_>, c: &Sorted) -> bool {
    // "You want the rice to be tender" shows no rice.
    let wanted = cx.tokens.row(c.piece.from, c.piece.to).windows(2).any(|w| w[0].is("to") && w[1].is("be"));
    if wanted && cx.tokens[c.piece.from..=c.core].iter().any(|t| t.is("want")) {
        return false;
    }
    let foods = cx.found.row(c.found.0, c.found.1).iter().any(|f| matches!(f.item, Item::Food(_) | Item::Loose(_)));
    if !foods {
        return false;
    }
    let core = Tokens(cx.tokens.row(c.core, c.piece.to));
    match c.verb {
        Some((_, v)) => {
            // "Take out the pepper" takes it away; "get out two sticks of butter" shows it.
            let first = if v.base.starts_with("take ") { v.base } else { v.base.split(' ').next().unwrap_or("") };
            lexicon().has("shows", first)
                && !core.has_any("oven fridge freezer off heat back until")
                && goes_at(cx.tokens, c.core, c.piece.to).is_none()
        }
        None => false,
    }
}
