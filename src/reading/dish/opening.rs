//! Whether a clause opens a dish: announced, named as what is being made, or said in passing.

use super::super::clause;
use super::super::sort::Sorted;
use super::Named;
use super::title::{anywhere, free_title, is_weak, name_run, same_dish, title_at, title_near};
use crate::draft::Span;
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::lexicon;
use crate::token::{Kind, Token, Tokens, fold};

/// A possible opening.
#[derive(Clone, Debug)]
pub(super) struct Opening {
    pub title: String,
    pub span: Option<Span>,
    /// 1: only in passing; 2: named as what is being made; 3: announced as the next; 4: announced by its number.
    pub strength: u8,
}

const ORDINALS: &str = "first second third fourth fifth sixth seventh next last final other";

/// The length of "the first one", "side dish number three", "next up", "number two": an announcement of a dish.
fn announcement(i: Tokens<'_>) -> Option<usize> {
    let mut n = 0;
    while i.get(n).is_some_and(|t| t.kind == Kind::Comma || t.is_in("before an announcement")) {
        n += 1;
    }
    if i.get(n).is_some_and(|t| t.is_any(ORDINALS)) {
        let mut k = n + 1;
        let mut named = false;
        while i.get(k).is_some_and(|t| t.is_in("announced")) {
            named = true;
            k += 1;
        }
        let verb = i.nth_any(k, "is i'm we i we're i've it's that you are");
        let comma = i.get(k).is_none_or(|t| t.kind != Kind::Word);
        if named
            && (verb || comma || i.get(n).is_some_and(|t| t.is("next")) && i.get(n + 1).is_some_and(|t| t.is("up")))
        {
            // "the last thing you do", "the next thing is the broth": a step, not a dish.
            let step = i.get(n + 1).is_some_and(|t| t.is("thing"))
                && (i.nth_any(k, "you i that we i'm we're in")
                    || i.get(n).is_some_and(|t| t.is("last")) && i.get(k).is_some_and(|t| t.is("is")));
            return (!step).then_some(k);
        }
        if i.get(n + 1).is_some_and(|t| t.is("is")) && !i.get(n).is_some_and(|t| t.is("other"))
            || i.get(n).is_some_and(|t| t.is("next"))
                && i.nth_any(n + 1, "we i'm we're i")
                && i.nth_any(n + 2, "have making doing make am")
        {
            // "the first is strawberry jam", "next we have a coleslaw": only with a dish's own name.
            let at = n + 2;
            let named = (at..(at + 4).min(i.len())).any(|k| title_at(i.0, k, i.len()).is_some_and(|t| !is_weak(&t.0)));
            return named.then_some(at);
        }
        return None;
    }
    // "snack number one", "side dish number three", "number two"
    let mut k = n;
    while i.get(k).is_some_and(|t| t.is_in("announced")) {
        k += 1;
    }
    // "Dip three.", "Recipe two, the slaw".
    if k > n
        && let Ok((rest, _)) = crate::grammar::number::whole(i.skip(k))
        && rest.first().is_none_or(|t| !t.is_spoken())
    {
        return Some(i.len() - rest.len());
    }
    if i.get(k).is_some_and(|t| t.is("number")) && crate::grammar::number::whole(i.skip(k + 1)).is_ok() {
        return Some(k + 2);
    }
    None
}

/// A sentence that only announces: "Number three." "Four!" "Okay, next one."
pub(super) fn announces_only(tokens: &[Token], c: &Sorted) -> bool {
    let row = Tokens(tokens.row(c.piece.from, c.piece.to));
    let spoken = crate::token::spoken(row.0);
    if spoken.len() == 1
        && c.piece.opens
        && tokens.get(c.piece.to).is_some_and(|t| t.kind == Kind::Stop && t.text.starts_with('!'))
    {
        return spoken[0].is_any("one two three four five six seven eight");
    }
    announcement(row).is_some_and(|n| row.skip(n).0.iter().all(|t| !t.is_spoken()))
}

pub(super) fn opening(
    tokens: &[Token],
    c: &Sorted,
    n: usize,
    planned: &[Named],
    expect_title: bool,
    breaks: bool,
) -> Option<Opening> {
    let (from, to) = (c.piece.from, c.piece.to);
    let found = |t: (String, usize, usize), strength| {
        Some(Opening { span: Some(tokens.item(t.1).span.to(tokens.item(t.2 - 1).span)), title: t.0, strength })
    };
    if expect_title {
        let named =
            title_at(tokens, c.core.min(to.saturating_sub(1)), to).or_else(|| free_title(tokens, c.piece.from, to));
        return named.and_then(|t| found(t, 3));
    }
    let row = Tokens(tokens.row(from, to));
    if let Some(len) = announcement(row) {
        let at = from + len;
        let kind = tokens.row(from, at).iter().rev().find(|t| t.is_in("kinds of dishes")).map(|t| t.text.to_string());
        let mut named = anywhere(tokens, at, to)
            .filter(|t| !is_weak(&t.0) || kind.is_none())
            .or_else(|| free_title(tokens, at, to));
        if let (Some(t), Some(kind)) = (&mut named, kind)
            && let Some(stem) = t.0.strip_suffix(" one")
        {
            t.0 = format!("{stem} {kind}");
        }
        return named.and_then(|t| found(t, 4));
    }
    // "Last thing is the cookie": with the name of a planned dish.
    if c.piece.opens
        && let Some(at) = (from..to.min(from + 6)).find(|n| {
            tokens.item(*n).is("thing")
                && tokens.get(n + 1).is_some_and(|t| t.is_any("is is it's") || t.kind == Kind::Comma)
        })
        && let Some((a, b)) = name_run(tokens, at + 2 + usize::from(Tokens(tokens).nth_any(at + 2, "the my a")), to)
    {
        let text = crate::token::said(tokens.row(a, b));
        if let Some(topic) = planned.iter().find(|p| same_dish(&p.0, &text)) {
            return Some(Opening {
                title: topic.0.clone(),
                span: Some(tokens.item(a).span.to(tokens.item(b - 1).span)),
                strength: 3,
            });
        }
    }
    let weak = is_weak;
    let is_planned = |t: &str| planned.iter().any(|p| same_dish(&p.0, t));
    // "we're making X", "I'm doing X today", "this is my X", "it's the X"
    // "while the soup simmers I'm going to make the cornbread": what comes after the front counts.
    let fronted = clause::later_verb(tokens, c.core, to)
        .filter(|v| tokens.item(v.1).is_any("make making do doing fix fixing"))
        .map(|v| v.1);
    let from_core = fronted.unwrap_or(c.core);
    let core = Tokens(tokens.row(from_core, to));
    let makes = fronted.is_some() || core.is_in("makes a dish") && c.lead == clause::Lead::Doing;
    let is = (0..core.len().min(14)).find_map(|at| {
        let row = core.skip(at);
        let edge = at == 0 || core.get(at - 1).is_some_and(|t| t.kind == Kind::Comma) && row.at_any("this");
        Some(lexicon().lead("it is", row)).filter(|len| edge && *len > 0).map(|len| at + len)
    });
    if (makes || is.is_some()) && !core.get(is.unwrap_or(1)).is_some_and(|t| t.is_any("for in on")) {
        let skip = is.unwrap_or(1);
        let at = from_core + skip;
        let have = core.at_any("have got");
        if let Some(t) = title_near(tokens, at, to, 4)
            && (!have || is_planned(&t.0) || crate::letters::holds(&t.0, " ") && (n < 12 || breaks))
            && !(core.0.get(skip).is_some_and(|t| t.is("a")) && !crate::letters::holds(&t.0, " ") && !is_planned(&t.0))
            && (!weak(&t.0)
                || is_planned(&t.0)
                || n < 14
                    && core.at_any("making make fixing cooking baking")
                    && tokens.get(t.2).is_none_or(|a| !a.is_spoken() || a.is_any("today tonight for and this"))
                || breaks
                    && crate::letters::holds(&t.0, " ")
                    && (from..t.1).all(|k| crate::grammar::amount::unit(Tokens(tokens.row(k, to))).is_none()))
        {
            let shown = core.first_any(6, "this these today today's tonight") && crate::letters::holds(&t.0, " ");
            let strength =
                if core.at_any("doing making do make") || is_planned(&t.0) || shown || have && breaks { 2 } else { 1 };
            return found(t, strength);
        }
    }
    // "Now the slice", "then kelewele", "okay, bars.", "fudge I'll do first", "cranberry sauce next", "for the salsa".
    let mut at = from;
    let mut cue = false;
    while at < to {
        let t = tokens.item(at);
        if t.kind == Kind::Comma {
            at += 1;
            continue;
        }
        if t.is_any("now then next last lastly finally till") {
            cue = true;
            at += 1;
        } else if t.is_in("before a front")
            || lexicon().talk.exact(Tokens(tokens.row(at, to))).is_some_and(|m| m.1.0 == "opener")
        {
            at += 1;
        } else {
            break;
        }
    }
    if at >= to {
        return None;
    }
    // "Beef first.", "The brisket. You want…", "Ginger crunch. Base.": a name that is all of its sentence.
    let called = tokens.item(from).is_any("ok okay now alright next") && from > 0;
    if (c.piece.opens || called)
        && let Some((a, b)) = name_run(tokens, at, to)
    {
        let after = tokens.get(b);
        let ends = after.is_none_or(Token::ends);
        let then = after.is_some_and(|t| t.is_any("first now next"));
        let comma = after.is_some_and(|t| t.kind == Kind::Comma);
        let text = crate::token::said(tokens.row(a, b));
        // "Then chickpeas, two cans" names a food of the planned chickpea curry, not the dish.
        let head = |p: &Named| p.0.rsplit(' ').next().is_some_and(|w| fold(w) == *tokens.item(b - 1).fold);
        let topic = planned.iter().find(|p| same_dish(&p.0, &text) && (head(p) || !is_weak(&text))).or_else(|| {
            planned
                .iter()
                .find(|p| b - a == 1 && p.0.split(' ').next_back().is_some_and(|w| fold(w) == *tokens.item(b - 1).fold))
        });
        let part = lexicon().components.folded(Tokens(tokens.row(b - 1, b))).is_some() && topic.is_none();
        let measured = crate::grammar::amount::amount(Tokens(tokens.row((b + 1).min(tokens.len()), tokens.len())))
            .is_ok()
            || crate::grammar::number::number(Tokens(tokens.row((b + 1).min(tokens.len()), tokens.len())))
                .is_ok_and(|(rest, _)| !rest.is_empty());
        if let Some(topic) = topic
            && (ends || then || comma && !measured || c.piece.breaks || cue || called)
        {
            let longer = text.split(' ').count() > topic.0.split(' ').count() && same_dish(&topic.0, &text);
            let title = if longer { text } else { topic.0.clone() };
            return Some(Opening { title, span: Some(tokens.item(a).span.to(tokens.item(b - 1).span)), strength: 3 });
        }
        // "The salsa first", when something else is planned, is a part of it.
        if then && topic.is_none() && !planned.is_empty() && (a > 0 && tokens.item(a - 1).is("the")) {
            return None;
        }
        let food = lexicon().foods.folded(Tokens(tokens.row(a, b))).is_some_and(|f| f.0 == b - a);
        let now = tokens.row(c.piece.from, at).iter().any(|t| t.is("now"));
        if !part
            && c.piece.opens
            && c.piece.breaks
            && (ends && !food || then || ends && food && !measured && (now || planned.len() < 2))
            && !lexicon().talk.exact(Tokens(tokens.row(a, b))).is_some()
        {
            // Of a word of no list it takes a dish before it that is done.
            let known = lexicon().dishes.folded(Tokens(tokens.row(b - 1, b))).is_some()
                || b - a > 1 && lexicon().dishes.folded(Tokens(tokens.row(b - 2, b))).is_some();
            return Some(Opening {
                title: text,
                span: Some(tokens.item(a).span.to(tokens.item(b - 1).span)),
                strength: if known && (!food || now) || then { 3 } else { 2 },
            });
        }
    }
    // "Now do the onions": the last word of what was planned.
    let one = tokens.item(at);
    if (cue || c.piece.breaks)
        && c.piece.opens
        && let Some((title, span)) =
            planned.iter().find(|p| p.0.split(' ').next_back().is_some_and(|w| fold(w) == *one.fold))
    {
        return Some(Opening { title: title.clone(), span: *span, strength: 3 });
    }
    let Some(t) = title_at(tokens, at, to) else {
        // A new paragraph that names a dish of several words: "and cranberries, you've got to have cranberry sauce".
        return if c.piece.breaks {
            anywhere(tokens, at, to)
                .filter(|t| {
                    crate::letters::holds(&t.0, " ")
                        && (from..t.1).all(|k| crate::grammar::amount::unit(Tokens(tokens.row(k, to))).is_none())
                })
                .and_then(|t| found(t, 2))
        } else {
            None
        };
    };
    let after = tokens.get(t.2);
    if after.is_some_and(|a| a.kind == Kind::Word)
        && lexicon().tools.folded(Tokens(tokens.row(t.2, tokens.len()))).is_some()
        && lexicon().dishes.folded(Tokens(tokens.row(t.2, tokens.len()))).is_none()
    {
        return None;
    }
    let ends = after.is_none_or(|a| a.ends());
    let comma = after.is_some_and(|a| matches!(a.kind, Kind::Comma | Kind::Pause));
    let next = after.is_some_and(|a| a.is_any("first next now last today"))
        || (after.is_some_and(|a| a.is("i'll")) && tokens.get(t.2 + 1).is_some_and(|a| a.is("do")))
        || (after.is_some_and(|a| a.is_any("goes is are")) && Tokens(tokens).nth_any(t.2 + 1, "first next last"));
    let named_twice = after.is_some_and(|a| a.is_in("after a near name"));
    let alone = c.piece.breaks && (ends || next);
    let slight = weak(&t.0) && !is_planned(&t.0);
    let part = lexicon().components.folded(Tokens(tokens.row(t.2 - 1, t.2))).is_some();
    let listed = t.0.split(' ').count() == 1
        && lexicon().has("weak title", &fold(&t.0))
        && lexicon().foods.folded(Tokens(tokens.row(t.1, t.2))).is_some();
    if slight && (part || listed && !next || !alone && !(next && c.piece.opens)) {
        return None;
    }
    if slight && !next {
        return found(t, 2);
    }
    let strength = if next && c.piece.opens {
        3
    } else if c.piece.opens && ends {
        if cue || is_planned(&t.0) || !weak(&t.0) { 3 } else { 2 }
    } else if c.piece.opens && (comma || cue && (named_twice || is_planned(&t.0))) {
        if is_planned(&t.0) || cue || c.piece.breaks { 3 } else { 2 }
    } else if c.piece.breaks && named_twice {
        3
    } else if c.piece.opens && (named_twice || is_planned(&t.0)) {
        2
    } else {
        1
    };
    // A verb right after the first word of an order ("bake the bread") is no opening.
    found(t, strength)
}
