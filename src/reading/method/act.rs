//! What is done in a clause: an order, something for the end of the step before, a sentence of its own, a condition.

use super::super::clause::{Lead, later_verb};
use super::super::scan::Item;
use super::super::sort::{Sorted, goes_at};
use super::Context;
use super::render::{capitalised, has_first, render, trim_end, words};
use crate::item::Items;
use crate::letters::capital;
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon};
use crate::measure::Time;
use crate::recipe::{Piece, PieceKind};
use crate::token::{Kind, Tokens};

pub(super) enum Act {
    /// An order, with the place in the pieces after which "that" may be replaced by what waits.
    ///
    /// `object` is the place of a pronoun that stands right after the verb ("crumble it").
    Order { pieces: Vec<Piece>, mixes: Option<usize>, object: Option<usize>, timed: bool },
    /// Something that goes on the end of the step before: a time, a sign of doneness.
    Tail(Vec<Piece>, bool),
    /// A sentence of its own after the step before.
    Sentence(Vec<Piece>),
    /// "When the bacon is crispy": goes before the order that follows.
    Condition(Vec<Piece>),
}

impl Act {
    /// Its pieces.
    pub(super) fn pieces(&mut self) -> &mut [Piece] {
        match self {
            Act::Order { pieces, .. } | Act::Tail(pieces, _) | Act::Sentence(pieces) | Act::Condition(pieces) => pieces,
        }
    }

    /// Whether it only sounds like an order: "Wait.", "Hold on.", "Have told you to turn the oven on."
    pub(super) fn idle(&self) -> bool {
        let (Act::Order { pieces, .. } | Act::Sentence(pieces)) = self else { return false };
        let mut said = String::new();
        let mut whole = true;
        for piece in pieces {
            let PieceKind::Words(words) = &piece.kind else {
                whole = false;
                break;
            };
            said.push_str(words);
        }
        let said = crate::letters::lower(said.trim());
        let begins = |k: usize| {
            let end = said.split(' ').take(k).map(|w| w.len() + 1).sum::<usize>().saturating_sub(1);
            lexicon().has("begins no step", crate::letters::part(&said, 0, end))
        };
        whole && lexicon().has("no step", &said) || (1..4).any(begins)
    }
}

/// What is done in a clause, as pieces; `None` where nothing can be told of it.
pub(super) fn act(cx: &Context<'_>, c: &Sorted) -> Option<Act> {
    let (from, to) = (c.core, trim_end(cx.tokens, c.core, c.piece.to));
    if from >= to {
        return None;
    }
    let t = cx.tokens;
    let row = Tokens(t.row(from, to));
    // "Sit how long?", "does it boil?": a question is no order, but "add the salt, okay?" is.
    let asks = t.get(c.piece.to).is_some_and(|s| s.kind == Kind::Stop && s.text.starts_with('?'));
    if asks && (row.is_in("asks first") || row.0.iter().any(|w| w.is_in("asks"))) {
        return None;
    }
    let mine = cx.found.row(c.found.0, c.found.1);
    let timed = mine.iter().any(|f| matches!(f.item, Item::Time(_)));
    if let Some((pan, lining)) = super::super::sort::lines_pan(t, from, to) {
        let text = |(a, b): (usize, usize)| crate::token::said(t.row(a, b));
        let pan_text = text(pan);
        let pan_text = if pan_text.ends_with(|c: char| c.is_numeric()) { format!("{pan_text} pan") } else { pan_text };
        let line = format!("Line the {pan_text} with {}", text(lining));
        let pieces = vec![words(&line, Some(t.item(from).span.to(t.item(to - 1).span)))];
        return Some(Act::Order { pieces, mixes: None, object: None, timed: false });
    }
    // "You want the rice to be tender": how it should be.
    if row.at("want") || cx.tokens.row(c.piece.from, from).iter().any(|w| w.is("want")) {
        let mut pieces: Vec<Piece> = Vec::new();
        let mut a = from + usize::from(row.at("want"));
        while let Some(b) = (a..to.saturating_sub(1)).find(|k| t.item(*k).is("to") && t.item(*k + 1).is("be")) {
            let part = render(cx, c, a, b, false);
            if part.is_empty() {
                break;
            }
            if !pieces.is_empty() {
                pieces.push(words(" ", None));
            }
            pieces.extend(part);
            pieces.push(words(" should be", None));
            a = b + 2;
        }
        let rest = render(cx, c, a, to, false);
        if !pieces.is_empty() && !rest.is_empty() && !has_first(&pieces) && !has_first(&rest) {
            pieces.push(words(" ", None));
            pieces.extend(rest);
            return Some(Act::Sentence(capitalised(pieces)));
        }
    }
    // "until it's golden"
    if row.at_any("until till") {
        return Some(Act::Tail(render(cx, c, from, to, false), false));
    }
    // "otherwise it burns", "or they'll be soggy": goes on the end of the step.
    if c.why == "what happens otherwise" {
        let first = if t.item(c.piece.from).is_any("or otherwise because so") { c.piece.from } else { from };
        let pieces = render(cx, c, first, to, false);
        return (!pieces.is_empty() && !has_first(&pieces)).then_some(Act::Tail(pieces, false));
    }
    // "don't lift the lid"
    if row.at_any("don't never") || (row.at("do") && row.get(1).is_some_and(|t| t.is("not"))) {
        let skip = if row.at("do") { 2 } else { 1 };
        // "Never rang you Sunday" is a story; "never boil it" is not.
        if row.at("never")
            && lexicon().verbs.exact(row.skip(skip)).is_none_or(|v| {
                v.1.class == VerbClass::Everyday || row.get(skip).is_none_or(|t| !v.1.base.starts_with(&*t.text))
            })
        {
            return None;
        }
        let mut head = if row.at("never") { "Never " } else { "Do not " }.to_owned();
        let mut start = from + skip;
        let second = Tokens(t.row(start, to));
        if second.at("want") {
            // "You don't want it dry", "you don't want them to boil": how it should not be.
            let subject = second.skip(1);
            if !subject.at_any("it them that those") {
                return None;
            }
            head = if subject.at_any("it that") { "It should not " } else { "They should not " }.to_owned();
            start += 2;
            if t.get(start).filter(|_| start < to)?.is("to") {
                start += 1;
            } else {
                head.push_str("be ");
            }
        } else if let Some((n, v)) = lexicon().verbs.exact(second.skip(1)).filter(|_| second.at("be"))
            && t.item(start + 1).text.ends_with("ing")
        {
            // "Don't be opening it" forbids the same.
            head.push_str(v.base);
            head.push(' ');
            start += 1 + n;
        }
        let mut pieces = vec![words(&head, None)];
        let rest = render(cx, c, start, to, false);
        if rest.is_empty() || has_first(&rest) {
            return None;
        }
        pieces.extend(rest);
        return Some(Act::Sentence(pieces));
    }
    // "That's gonna go in at 350 for 25 minutes", "so that's in at 350 for an hour".
    if row.at_any("that's it's they're this that it")
        && row.first_any(7, "in oven")
        && let Some(heat) = mine.iter().find(|f| matches!(f.item, Item::Heat(_)))
        && let Some(time) = mine.iter().find(|f| f.from >= heat.to && matches!(f.item, Item::Time(_)))
        && !mine.iter().any(|f| matches!(f.item, Item::Food(_)))
    {
        let mut pieces = vec![words("Bake at ", Some(t.item(from).span))];
        pieces.extend(render(cx, c, heat.from, heat.to, false));
        pieces.push(words(" for ", None));
        pieces.extend(render(cx, c, time.from, to, false));
        if !has_first(&pieces) {
            return Some(Act::Order { pieces, mixes: None, object: None, timed: true });
        }
    }
    if row.first_any(8, "down up crank lower raise drop")
        && let Some(act) = resets(cx, c, from, to)
    {
        return Some(act);
    }
    if let Some(g) = goes_at(t, from, to) {
        return goes(cx, c, from, g, to, timed);
    }
    if let Some((len, verb)) = c.verb
        && (c.lead == Lead::Doing
            || super::super::clause::order(row)
            || t.item(from).text.ends_with("ing")
            || verb.class != VerbClass::Everyday)
    {
        let mut head = capital(verb.base);
        let mut start = from + len;
        // "start by melting", "make sure you drain": the second verb is the order.
        let after = Tokens(t.row(start, to));
        if crate::lexicon::lexicon().has("helps a verb", verb.base)
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
        let span = t.item(from).span.to(t.item(start.min(to).saturating_sub(1).max(from)).span);
        if let Some(act) = bakes(cx, c, from, to, &crate::letters::lower(&head)) {
            return Some(act);
        }
        if verb.base == "put" && !t.row(start.min(to), to).iter().any(|w| w.is_in("says where")) {
            // "Put the salt" is "add the salt"; "put two and a half" is only its figure.
            if mine.iter().any(|f| f.from >= start && matches!(f.item, Item::Food(_))) {
                head = "Add".to_owned();
            } else if crate::grammar::number::number(Tokens(t.row(start.min(to), to))).is_ok() {
                return None;
            }
        }
        let mut pieces = vec![words(&head, Some(span))];
        let mixes =
            (verb.class == VerbClass::Mix).then_some(1).filter(|_| pronoun_object(Tokens(t.row(start.min(to), to))));
        // A pronoun that nothing owns: "crumble it", but not "those crackers".
        let pronoun =
            t.get(start).filter(|_| start < to).is_some_and(|p| p.is_any("it them those these that this mine"))
                && t.get(start + 1).filter(|_| start + 1 < to).is_none_or(|n| {
                    !n.is_spoken()
                        || n.is_in("goes with a verb")
                        || n.text.ends_with("ly")
                        || matches!(n.kind, Kind::Number(_))
                        || t.item(start).is_any("it them mine")
                });
        let mut object = None;
        if pronoun {
            object = Some(pieces.len());
            let said = if t.item(start).is("mine") { "it" } else { &*t.item(start).text };
            pieces.push(words(&format!(" {said}"), Some(t.item(start).span)));
            start += 1;
        }
        // "Red lentils. Wash many times": nothing is named at all.
        let transitive = matches!(verb.class, VerbClass::Cut | VerbClass::Prep) || t.item(from).is_in("cooks it");
        let unnamed = t.get(start).filter(|_| start < to).is_none_or(|n| {
            !n.is_spoken()
                || n.is_in("after a preparation")
                || matches!(n.kind, Kind::Number(_))
                || crate::grammar::number::number(Tokens(t.row(start, to))).is_ok()
        });
        // "Chop two onions" names them.
        let named = mine.iter().any(|f| f.from <= start && start < f.to && matches!(f.item, Item::Food(_)));
        if object.is_none() && transitive && unnamed && !named && mixes.is_none() {
            object = Some(pieces.len());
            pieces.push(words("", None));
        }
        let rest = render(cx, c, start.min(to), to, true);
        if !rest.is_empty() {
            pieces.push(words(" ", None));
            pieces.extend(rest);
        }
        if has_first(&pieces) {
            return None;
        }
        return Some(Act::Order { pieces, mixes, object, timed });
    }
    // "in a bowl I'm putting the flour": the place first, then what is done.
    if let Some((at, end)) = later_verb(t, from, to) {
        let (n, verb) = lexicon().verbs.exact(Tokens(t.row(end, to)))?;
        let place = render(cx, c, from, at, false);
        if verb.class == VerbClass::Everyday && crate::token::listed("have get use need want do like", verb.base) {
            return None;
        }
        let rest = render(cx, c, end + n, to, true);
        let foods = mine.iter().filter(|f| matches!(f.item, Item::Food(_))).count();
        let conditional = row.at_any("when once if while after before as");
        let mut pieces;
        if foods <= 2 && !conditional && !has_first(&place) {
            pieces = vec![words(&capital(verb.base), Some(t.item(end).span))];
            if !rest.is_empty() {
                pieces.push(words(" ", None));
                pieces.extend(rest);
            }
            pieces.push(words(" ", None));
            pieces.extend(place);
        } else {
            pieces = if has_first(&place) { Vec::new() } else { capitalised(place) };
            let lead = if pieces.is_empty() { capital(verb.base) } else { format!(", {}", verb.base) };
            pieces.push(words(&lead, Some(t.item(end).span)));
            if !rest.is_empty() {
                pieces.push(words(" ", None));
                pieces.extend(rest);
            }
        }
        if has_first(&pieces) {
            return None;
        }
        return Some(Act::Order { pieces, mixes: None, object: None, timed });
    }
    if let Some(act) = resets(cx, c, from, to) {
        return Some(act);
    }
    // "It simmers for an hour", "these bake for 20 minutes, until a toothpick comes out clean".
    // "They need to cool completely before you frost them" has no time, but it is an order.
    let needs = (1..5).any(|k| {
        row.nth_any(k, "need needs has have")
            && row.get(k + 1).is_some_and(|w| w.is("to"))
            && !row.get(k + 2).is_some_and(|w| w.is("be"))
    });
    if (timed || needs)
        && row.is_in("pronouns")
        && let one = usize::from(row.get(1).is_some_and(|w| w.is("one")))
        && let skip = 1 + one + row.0.iter().skip(1 + one).take_while(|w| w.is_in("helping verb")).count()
        && let Some((len, v)) = lexicon().verbs.exact(row.skip(skip))
        && (matches!(v.class, VerbClass::Heat | VerbClass::Wait) || needs && v.class != VerbClass::Everyday)
    {
        let order = if v.class == VerbClass::Wait { format!("let {}", v.base) } else { v.base.to_owned() };
        let mut pieces = vec![words(&capital(&order), Some(t.item(from + skip).span))];
        let rest = render(cx, c, from + skip + len, to, false);
        if !rest.is_empty() {
            pieces.push(words(" ", None));
            pieces.extend(rest);
        }
        if !has_first(&pieces) {
            return Some(Act::Order { pieces, mixes: None, object: None, timed });
        }
    }
    // "Eight to ten hours on low, or you can do five to six on high."
    if super::super::sort::slow(row) {
        let mut pieces = Vec::new();
        let mut unit = None;
        for f in mine {
            let time = match &f.item {
                Item::Time(time) => Some(*time),
                Item::Count(n) => unit.and_then(|u| Time::range(n.low, n.high, u)),
                _ => None,
            };
            let setting = t.get(f.to + 1).filter(|w| t.item(f.to).is("on") && w.is_any("low high medium warm"));
            let (Some(time), Some(setting)) = (time, setting) else { continue };
            unit = Some(time.unit());
            pieces.push(words(if pieces.is_empty() { "for " } else { ", or " }, None));
            pieces
                .push(Piece { kind: PieceKind::Time(time), span: Some(t.item(f.from).span.to(t.item(f.to - 1).span)) });
            pieces.push(words(&format!(" on {}", setting.text), None));
        }
        if !pieces.is_empty() {
            return Some(Act::Tail(pieces, true));
        }
    }
    // "Chicken on the rack", "cinnamon on top, and in the freezer, six hours", "into boiling water, nine minutes".
    if let Some(act) = verbless(cx, c, from, to, timed) {
        return Some(act);
    }
    // A time, a heat or a place alone.
    if timed && row.len() < 18 {
        let first_time = mine.iter().find(|f| matches!(f.item, Item::Time(_)))?;
        let mut pieces = vec![words("for ", None)];
        // "When the hour is up", "ten minutes is plenty".
        let states = t.get(first_time.to).is_some_and(|w| w.is_any("is are was were"));
        if states && t.get(first_time.to + 1).is_some_and(|w| w.is("up")) {
            return None;
        }
        pieces.extend(render(cx, c, first_time.from, if states { first_time.to } else { to }, false));
        if has_first(&pieces) {
            pieces.truncate(2);
        }
        let before = Tokens(t.row(from, first_time.from));
        if let Some(place) = place_of(before) {
            let mut all = vec![words(place, None), words(" ", None)];
            all.extend(pieces);
            return Some(Act::Order { pieces: all, mixes: None, object: None, timed: true });
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
    let states = row.first_any(9, "should ought ready done") || super::super::sort::done_sign(row);
    if states {
        // "Should be wet": it.
        let subject = if row.at_any("should ought") { vec![words("It ", None)] } else { Vec::new() };
        let pieces = if subject.is_empty() { capitalised(pieces) } else { pieces };
        return Some(Act::Sentence(subject.into_iter().chain(pieces).collect()));
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
        return Some(Act::Order {
            pieces: vec![words(place, Some(t.item(from).span))],
            mixes: None,
            object: None,
            timed: false,
        });
    }
    if mine.iter().any(|f| matches!(f.item, Item::Heat(_))) {
        return None;
    }
    if row.has_any("heat flame fire") && row.len() <= 6 {
        let text: Vec<&str> = row
            .0
            .iter()
            .filter(|t| t.kind == Kind::Word && !lexicon().has("filler", &t.text))
            .map(|t| &*t.text)
            .collect();
        let text = crate::letters::join(&text, " ");
        let text = if text.starts_with("over") || text.starts_with("on") || text.starts_with("off") {
            text
        } else {
            format!("over {text}")
        };
        return Some(Act::Tail(vec![words(&text, Some(t.item(from).span.to(t.item(to - 1).span)))], false));
    }
    let mut all = vec![words("Put ", None)];
    all.extend(pieces);
    if row.at_any("into in on back onto over under to") {
        return Some(Act::Order { pieces: all, mixes: None, object: None, timed: false });
    }
    None
}

/// "It goes back in the oven for twenty minutes", "pop that in at 350": bake it, as a card says.
fn bakes(cx: &Context<'_>, c: &Sorted, from: usize, to: usize, verb: &str) -> Option<Act> {
    let t = cx.tokens;
    let mine = cx.found.row(c.found.0, c.found.1);
    if !lexicon().has("moves", verb) || mine.iter().any(|f| matches!(f.item, Item::Food(_) | Item::Pan(_))) {
        return None;
    }
    let oven = (from..to).find(|k| t.item(*k).is("oven"))?;
    let time = mine.iter().find(|f| f.from > from && matches!(f.item, Item::Time(_)))?;
    if (from..oven).any(|k| t.item(k).is_any("foil lid while if")) {
        return None;
    }
    let mut pieces = vec![words("Bake ", Some(t.item(from).span.to(t.item(oven).span)))];
    let heat = mine.iter().find(|f| f.from >= from && f.from < time.from && matches!(f.item, Item::Heat(_)));
    if let Some(h) = heat {
        pieces.push(words("at ", None));
        pieces.extend(render(cx, c, h.from, h.to, false));
        pieces.push(words(" ", None));
    }
    pieces.push(words("for ", None));
    pieces.extend(render(cx, c, time.from, to, false));
    (!has_first(&pieces)).then_some(Act::Order { pieces, mixes: None, object: None, timed: true })
}

/// "Then down to 160", "crank it to 400 for six more minutes": the oven is set anew.
fn resets(cx: &Context<'_>, c: &Sorted, from: usize, to: usize) -> Option<Act> {
    let t = cx.tokens;
    let mine = cx.found.row(c.found.0, c.found.1);
    let heat = mine.iter().find(|f| f.from >= from && f.to <= to && matches!(f.item, Item::Heat(_)))?;
    let way = t.row(from, heat.from).iter().rev().find(|w| w.is_any("down up crank lower raise drop"))?;
    let Item::Heat(h) = &heat.item else { return None };
    let oven = h.oven(cx.metric)?;
    if !super::super::oven::is_oven_setting(t, c.piece.from, c.piece.to, h) && !h.marked && h.degrees < 100 {
        return None;
    }
    let turn = if way.is_any("up crank raise") { "Turn the oven up to " } else { "Turn the oven down to " };
    let mut pieces = vec![
        words(turn, Some(way.span)),
        Piece {
            kind: crate::recipe::PieceKind::Heat(oven),
            span: Some(t.item(heat.from).span.to(t.item(heat.to - 1).span)),
        },
    ];
    let time = mine.iter().find(|f| f.from >= heat.to && matches!(f.item, Item::Time(_)));
    if let Some(time) = time {
        pieces.push(words(" and bake for ", None));
        pieces.extend(render(cx, c, time.from, to, false));
    }
    (!has_first(&pieces)).then_some(Act::Order { pieces, mixes: None, object: None, timed: time.is_some() })
}

/// Where something goes, said without a verb: "everything in the blender", "straight into cold water, ten minutes".
fn verbless(cx: &Context<'_>, c: &Sorted, from: usize, to: usize, timed: bool) -> Option<Act> {
    let t = cx.tokens;
    let row = Tokens(t.row(from, to));
    let at = row.0.iter().position(|w| w.is_any("in into on onto over under"))?;
    // Only what goes there stands before: a food, or "everything".
    let before = row.0.get(..at)?;
    let lead = before.iter().take_while(|w| w.is_any("back straight right then and out") || !w.is_spoken()).count();
    let all = before.get(lead..)?;
    let foods = cx.found.row(c.found.0, c.found.1).iter();
    let named = !all.is_empty()
        && foods.clone().any(|f| {
            matches!(f.item, Item::Food(_)) && f.from >= from + lead && f.to == from + at && f.from <= from + lead + 1
        });
    let whole = matches!(all, [one] if one.is_any("everything all that those these it them"))
        || all.len() == 2 && all[0].is_any("it that") && all[1].is("all");
    if !(all.is_empty() || named || whole) || c.lead != Lead::None || at + 1 >= row.len() {
        return None;
    }
    let place = row
        .0
        .get(at + 1..)?
        .iter()
        .take(5)
        .take_while(|w| w.is_spoken())
        .any(|w| w.is_in("place") || w.is_any("top paper towels roll"));
    let verb = (from..to).any(|k| {
        lexicon().verbs.exact(Tokens(t.row(k, to))).is_some_and(|v| v.1.class != VerbClass::Everyday)
            && !t.item(k).text.ends_with("ing")
            && !t.item(k).text.ends_with("ed")
    });
    if !place || verb || place_of(row).is_some_and(|p| ["oven", "lid"].iter().any(|w| crate::letters::holds(p, w))) {
        return None;
    }
    let time = foods.clone().find(|f| matches!(f.item, Item::Time(_)));
    let end = time.map_or(to, |f| f.from).max(from + at);
    let goes = render(cx, c, from + at, trim_end(t, from + at, end), false);
    if goes.is_empty() || has_first(&goes) {
        return None;
    }
    let mut pieces = vec![words("Put ", Some(t.item(from).span))];
    let mut object = None;
    if named {
        pieces.extend(render(cx, c, from + lead, from + at, false));
    } else if matches!(all.first(), Some(w) if w.is_any("everything all")) {
        // What waits is not all that is meant.
        pieces.push(words("everything", None));
    } else {
        object = Some(pieces.len());
        pieces.push(words("it", None));
    }
    pieces.push(words(" ", None));
    pieces.extend(goes);
    if let Some(time) = time {
        pieces.push(words(" for ", None));
        pieces.extend(render(cx, c, time.from, to, false));
    }
    (!has_first(&pieces)).then_some(Act::Order { pieces, mixes: None, object, timed })
}

/// "into the fridge", "lid on", "back in the oven": what to do with it.
pub(super) fn place_of(i: Tokens<'_>) -> Option<&'static str> {
    let has = |words: &str| i.0.iter().any(|t| t.is_any(words));
    if i.len() > 7 {
        return None;
    }
    Some(if has("lid") && has("on") {
        "Put the lid on"
    } else if has("lid") && has("off") {
        "Take the lid off"
    } else if has("freezer") {
        "Freeze"
    } else if has("fridge refrigerator icebox") {
        "Refrigerate"
    } else if has("oven") && has("back") {
        "Return to the oven"
    } else if has("oven") && has("in into") {
        "Put in the oven"
    } else if has("heat stove burner") && has("off") {
        "Take off the heat"
    } else if has("foil") && has("off") {
        "Take the foil off"
    } else if has("foil") && !has("no without or under parchment") {
        "Cover with foil"
    } else {
        return None;
    })
}

/// "that goes in the oven", "half of it gets stirred in", "the foil comes off".
pub(super) fn goes(cx: &Context<'_>, c: &Sorted, from: usize, g: usize, to: usize, timed: bool) -> Option<Act> {
    let t = cx.tokens;
    if timed && let Some(act) = bakes(cx, c, from, to, "goes") {
        return Some(act);
    }
    let subject = subject(cx, c, from, g)?;
    let after = Tokens(t.row(g + 1, to));
    let comes = t.item(g).is_any("comes come");
    let gets = t.item(g).is_any("gets get");
    let span = Some(t.item(g).span);
    let mut pieces;
    let adverbs = after.0.iter().take_while(|t| t.is_in("adverb of place") && !t.is_any("back right straight")).count();
    let after = after.skip(adverbs);
    let start = g + 1 + adverbs;
    if gets {
        if let Some((n, v)) = lexicon().verbs.exact(after) {
            pieces = vec![words(&capital(v.base), span), words(" ", None)];
            pieces.extend(subject);
            let rest = render(cx, c, start + n, to, false);
            if !rest.is_empty() {
                pieces.push(words(" ", None));
                pieces.extend(rest);
            }
            return (!has_first(&pieces)).then_some(Act::Order {
                object: named_later(&pieces),
                pieces,
                mixes: None,
                timed,
            });
        }
        if timed {
            let mut tail = vec![words("for ", None)];
            let first_time = cx.found.row(c.found.0, c.found.1).iter().find(|f| matches!(f.item, Item::Time(_)))?;
            tail.extend(render(cx, c, first_time.from, to, false));
            return Some(Act::Tail(tail, true));
        }
        return None;
    }
    let ended = after.is_empty() || after.0.iter().all(|t| !t.is_spoken());
    // "Do it any sooner and they go soft": how they turn out.
    if !comes && !ended && after.first().is_some_and(|t| t.is_in("goes bad")) {
        return None;
    }
    // "They go gluey", "it goes a lovely colour": how they turn out. "In go the eggs" has its place before.
    let mine = cx.found.row(c.found.0, c.found.1);
    let which = after.0.iter().take_while(|t| t.is_in("which way")).count();
    let placed = after.skip(which).is_in("says where") || t.item(from).is_in("says where");
    if !comes && !ended && !placed && !mine.iter().any(|f| f.from == start && matches!(f.item, Item::Food(_))) {
        // "It goes another ten minutes", "the spinach goes the last five minutes".
        let time = mine.iter().find(|f| start < f.to && f.from <= start + 5 && matches!(f.item, Item::Time(_)))?;
        let one = matches!(&subject[..], [Piece { kind: PieceKind::Words(w), .. }] if w == "it" || w == "them");
        let begin = if time.from > start && t.item(time.from - 1).is("another") { time.from - 1 } else { time.from };
        let mut pieces = Vec::new();
        if !one {
            pieces.push(words(if after.at("the") { "Add " } else { "Cook " }, span));
            pieces.extend(subject);
            pieces.push(words(" ", None));
        }
        pieces.push(words("for ", None));
        pieces.extend(render(cx, c, begin, to, false));
        if has_first(&pieces) {
            return None;
        }
        return Some(if one {
            Act::Tail(pieces, true)
        } else {
            Act::Order { pieces, mixes: None, object: None, timed: true }
        });
    }
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
    (!has_first(&pieces)).then_some(Act::Order { object: named_later(&pieces), pieces, mixes: None, timed })
}

/// The place of a pronoun right after the verb.
fn named_later(pieces: &[Piece]) -> Option<usize> {
    pieces.iter().take(3).position(|p| {
        matches!(&p.kind, crate::recipe::PieceKind::Words(w) if matches!(w.trim(), "it" | "them" | "that" | "those" | "these"))
    })
}

/// The subject of "goes": a pronoun becomes an object.
pub(super) fn subject(cx: &Context<'_>, c: &Sorted, from: usize, to: usize) -> Option<Vec<Piece>> {
    let row = Tokens(cx.tokens.row(from, to));
    let mut spoken = crate::token::spoken(row.0);
    spoken.retain(|t| !t.is_any("all just then also"));
    if let [one] = spoken.as_slice() {
        if one.is_any("that it this which it'll that'll") {
            return Some(vec![words("it", Some(one.span))]);
        }
        if one.is_any("those they these they'll") {
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
pub(super) fn pronoun_object(i: Tokens<'_>) -> bool {
    let mut n = 0;
    while i.get(n).is_some_and(|t| t.is_in("after an order")) {
        n += 1;
    }
    // "whisk in the medium bowl": nothing is named.
    i.is_empty()
        || n == 0 && i.at_any("until till with for in together")
        || n > 0 && i.get(n).is_none_or(|t| !t.is_spoken() || t.is_any("until till with for in just so over to"))
}

/// What follows the pronoun of a mixing verb: "until it's smooth".
pub(super) fn mix_tail(cx: &Context<'_>, c: &Sorted) -> Option<Vec<Piece>> {
    let t = cx.tokens;
    let to = trim_end(t, c.core, c.piece.to);
    let at = (c.core..to).find(|n| t.item(*n).is_any("until till with for in over just on to") && *n > c.core)?;
    let rest = render(cx, c, at, to, false);
    if rest.is_empty() || has_first(&rest) {
        return None;
    }
    let mut out = vec![words(" ", None)];
    out.extend(rest);
    Some(out)
}
