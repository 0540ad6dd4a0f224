//! Sentences and clauses: found from verbs and joints, not from full stops alone.
//!
//! "so put that in a bowl and then you want to whisk it till it's smooth" has no stops and two clauses, whose edges are
//! the joint "and then" and the lead "you want to".

use super::scan::{Found, Item};
use crate::grammar::amount::SaidAmount;
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon};
use crate::measure::{Dimension, Unit};
use crate::token::{Kind, Token, Tokens};

/// A clause: tokens `from..to`, the stop after it included in no clause.
#[derive(Clone, Copy, Debug)]
pub struct Piece {
    /// The first token.
    pub from: usize,
    /// The token after the last.
    pub to: usize,
    /// It begins a sentence.
    pub opens: bool,
    /// A paragraph or line begins with it.
    pub breaks: bool,
}

/// So many bytes lie between the words of two captions, and of nothing else.
const TIME_CODE: u32 = 20;

/// The ranges of the sentences: between stops and breaks.
pub fn sentences(tokens: &[Token]) -> Vec<(usize, usize, bool)> {
    let mut out = Vec::new();
    let mut from = 0;
    let mut breaks = true;
    for (n, t) in tokens.iter().enumerate() {
        if t.ends() {
            if n > from {
                out.push((from, n, breaks));
                breaks = false;
            }
            if let Kind::Break(gap) = t.kind {
                breaks = gap != crate::draft::format::Gap::Speaker;
            }
            from = n + 1;
        }
    }
    if tokens.len() > from {
        out.push((from, tokens.len(), breaks));
    }
    out
}

/// The clauses of a sentence. No edge lies within a finding.
pub fn clauses(tokens: &[Token], from: usize, to: usize, breaks: bool, found: &[Found]) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::new();
    let mut start = from;
    let commas = tokens.row(from, to).iter().filter(|t| t.kind == Kind::Comma).count();
    let unpunctuated = to - from > 28 && commas * 14 < to - from;
    let mut next_found = 0;
    let mut p = from + 1;
    while p < to {
        while next_found < found.len() && found.item(next_found).to <= p {
            next_found += 1;
        }
        let inside = found.get(next_found).is_some_and(|f| f.from < p && p < f.to);
        // Captions that are not cut in the middle of a phrase break where a comma would stand.
        if !inside && edge(tokens, found, start, p, to, unpunctuated || next_caption(tokens, p)) {
            out.push(Piece { from: start, to: p, opens: start == from, breaks: breaks && start == from });
            start = p;
        }
        p += 1;
    }
    out.push(Piece { from: start, to, opens: start == from, breaks: breaks && start == from });
    out
}

/// Whether the next caption begins with a token.
fn next_caption(tokens: &[Token], at: usize) -> bool {
    at > 0 && tokens.item(at).span.start.saturating_sub(tokens.item(at - 1).span.end) > TIME_CODE
}

/// Whether a food is measured within the tokens.
fn measures(found: &[Found], from: usize, to: usize) -> bool {
    let a = found.partition_point(|f| f.from < from);
    found
        .row(a, found.len())
        .iter()
        .take_while(|f| f.from < to)
        .any(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some()))
}

/// The finding that begins at a token and measures a food with more than an article.
fn measured_at(found: &[Found], at: usize) -> Option<usize> {
    let k = found.binary_search_by_key(&at, |f| f.from).ok()?;
    // "A teaspoon of salt" is measured; "an egg" may be named in passing.
    let told = |u: Unit| matches!(u.dimension(), Dimension::Volume | Dimension::Weight);
    let measures = |a: SaidAmount| !a.article || a.amount.unit().is_some_and(told);
    matches!(&found.item(k).item, Item::Food(x) if x.amount.is_some_and(measures)).then_some(k)
}

/// Whether a stretch between commas says what would do instead, what can be left out, or what someone else does.
fn aside(tokens: &[Token], from: usize, to: usize) -> bool {
    if to <= from + 1 {
        return false;
    }
    let c = super::sort::cues(tokens, from, to);
    c.swap
        || c.optional
        || c.keep
        || c.story
        || c.called
        || c.chatter
        || Tokens(tokens.row(from, to)).at_any("don't never")
}

fn edge(tokens: &[Token], found: &[Found], start: usize, p: usize, to: usize, unpunctuated: bool) -> bool {
    let rest = Tokens(tokens.row(p, to));
    let (prev, Some(t)) = (tokens.item(p - 1), rest.first()) else { return false };
    if prev.kind == Kind::Pause && !prev.text.starts_with(['(', ')']) {
        return true;
    }
    // Nothing but openers so far: the clause has not begun.
    if core(tokens, start, p).0 >= p {
        return false;
    }
    let conj = usize::from(rest.at_any("and but so or"));
    let after = rest.skip(conj);
    if prev.kind == Kind::Comma {
        // "Two tablespoons of dripping, lard will do, and eight sausages": an aside between commas is a clause of its own.
        let stop = |n: &usize| matches!(tokens.item(*n).kind, Kind::Comma | Kind::Pause) || next_caption(tokens, *n);
        let end = (p + 1..to).find(stop).unwrap_or(to);
        let called =
            || super::sort::cues(tokens, p, end).called || super::sort::source_says(Tokens(tokens.row(p, end)));
        if measures(found, start, p) && (aside(tokens, p, end) && !measures(found, p, end) || called())
            || measures(found, p, end)
                && !measures(found, start, p)
                && (aside(tokens, start, p - 1) || supposes(tokens, start, p - 1))
        {
            return true;
        }
        if t.is_in("joins a clause") && !(t.is("as") && !rest.nth_any(1, "soon long")) {
            return true;
        }
        if conj > 0 && after.at_any("then if when once")
            || t.is("so") && so_much(tokens, found, p, to)
            || super::sort::someone(rest)
        {
            return true;
        }
        return starts(after, conj > 0);
    }
    if !t.is_spoken() {
        return false;
    }
    if t.is("then") && !prev.is_in("before a time") {
        return true;
    }
    if conj > 0 && rest.nth_any(1, "then if when once") {
        return true;
    }
    if t.is_any("because cause 'cause unless otherwise") {
        return true;
    }
    if t.is("if") && !prev.is_any("as even and or but only see like what") {
        return true;
    }
    if t.is("but") && p - start > 2 && !prev.is("all") {
        return true;
    }
    if t.is("so") && rest.get(1).is_some_and(|n| n.is_in("after so")) && !prev.is_any("or and not") {
        return true;
    }
    if t.is("so") && so_much(tokens, found, p, to) {
        return true;
    }
    // "You'll get a foam on top so skim it."
    if t.is("so")
        && p - start > 2
        && lexicon().verbs.exact(rest.skip(1)).is_some_and(|(n, v)| {
            v.class != VerbClass::Everyday
                && order(rest.skip(1))
                && rest.nth_any(1 + n, "it them the that those your these")
        })
    {
        return true;
    }
    // A short sentence without a comma: "two cups of milk you can use oat milk".
    let plain = || unpunctuated || to - start <= 28 && tokens.row(start, to).iter().all(|t| t.kind != Kind::Comma);
    if rest.at_any("you they it some substitute") && measures(found, start, p) && begins_aside(rest) && plain() {
        return true;
    }
    // "You can use oats and half a cup of milk": the list goes on.
    if unpunctuated && p - start >= 2 && ends_aside(tokens, found, start, p, conj) {
        return true;
    }
    if conj > 0 && t.is_any("and or") {
        // "drain and rinse the beans": a verb without its object yet goes on.
        let (at, _) = core(tokens, start, p);
        let bare_verb = lexicon().verbs.exact(Tokens(tokens.row(at, p))).is_some_and(|(n, _)| at + n >= p);
        // "until it's set and brown at the edges": a sign of doneness goes on, unless an order with an object follows.
        let signs = tokens.row(start.max(p.saturating_sub(24)), p).iter().any(|t| t.is_any("until till"));
        let object = lexicon().verbs.exact(after).is_some_and(|(n, _)| after.nth_any(n, "it them the that those your"));
        if signs && order(after) && !object {
            return false;
        }
        return !bare_verb && starts(after, true);
    }
    if t.is("make") && rest.nth_any(1, "it that") && crate::grammar::number::number(rest.skip(2)).is_ok() {
        return true;
    }
    if t.is_any("no wait scratch") && unpunctuated && rest.nth_any(1, "i i'm wait no make it's that's that") {
        return true;
    }
    // "Nobody put pineapple in here one pound elbow macaroni": an amount that nothing before it can govern begins anew.
    if unpunctuated
        && p - start >= 2
        && let Some(k) = measured_at(found, p)
        && !(k > 0
            && found.item(k - 1).to >= p
            && matches!(&found.item(k - 1).item, Item::Food(x) if x.amount.is_some()))
        && (!lexicon().has("governs", &prev.text)
            // "The oil jumps on you one small cauliflower."
            || prev.is_any("you me us it them") && tokens.item(p - 2).is_any("on to at of with")
            // "That was the year nobody ate it one tablespoon of chili powder."
            || prev.is_any("it them that") && lexicon().has("told of the past", &tokens.item(p - 2).text))
        && lexicon().verbs.exact(Tokens(std::slice::from_ref(prev))).is_none()
    {
        return true;
    }
    // "In the blender or a big jug its four eggs."
    if unpunctuated
        && p - start >= 2
        && t.is_any("its it's thats that's")
        && measured_at(found, p + 1).is_some()
        && !prev.is_in("joins on")
    {
        return true;
    }
    // "A pinch of salt whisk all that together": an order with a pronoun begins anew.
    if unpunctuated
        && p - start >= 2
        && !prev.is_in("before no object")
        && lexicon().verbs.exact(rest).is_some_and(|(n, v)| {
            v.class != VerbClass::Everyday && order(rest) && rest.nth_any(n, "it them that those these all everything")
        })
    {
        return true;
    }
    // "He let me have it for fifteen toss the slices with a spoon of juice": after what somebody did, an order begins anew.
    if unpunctuated
        && p - start >= 3
        && !prev.is_in("before no object")
        && !prev.is_in("joins on")
        && order(rest)
        && lexicon()
            .verbs
            .exact(rest)
            .is_some_and(|(n, v)| v.class != VerbClass::Everyday && rest.nth_any(n, "the your"))
        && !measures(found, start, p)
        && super::sort::cues(tokens, start, p).story
    {
        return true;
    }
    if unpunctuated && t.is("so") && rest.nth_any(1, "first then now") {
        return true;
    }
    if unpunctuated && p - start >= 3 {
        let joined = prev.is_in("joins on");
        // "Twelve cups of cold water you can use green peas", "two pounds of chuck don't get the lean stuff": what she says of
        // it is a clause of its own.
        if !joined && measures(found, start, p) && begins_aside(rest) {
            return true;
        }
        if !joined && (lead_len(rest) > 0 || subject_verb(rest)) {
            return true;
        }
        // "Half a teaspoon of salt I used to put more": how it was once is a clause of its own.
        let once = t.is_any("i it the my she he they") && prev.kind == Kind::Word && {
            lexicon().talk.exact(rest).is_some_and(|m| m.1.0 == "called")
                || t.is_any("i she he they")
                    && rest.get(1).is_some_and(|t| t.is("used"))
                    && rest.get(2).is_some_and(|t| t.is("to"))
        };
        if !joined && once {
            return true;
        }
        if !joined && t.is_any("okay now alright anyway next also well") {
            return true;
        }
    }
    false
}

/// Whether an aside begins here: what would do instead, what can be left out, what somebody else does.
fn begins_aside(i: Tokens<'_>) -> bool {
    let cue = lexicon().talk.exact(i).map_or("", |m| m.1.0);
    matches!(cue, "swap" | "optional" | "called") || i.at_any("don't never") || super::sort::someone(i)
}

/// "If you find it use it": a supposition that says all of what to do then.
fn supposes(tokens: &[Token], from: usize, to: usize) -> bool {
    let row = Tokens(tokens.row(from, to));
    let row = row.skip(usize::from(row.at_any("and but or so")));
    let last = |n: usize| row.len().checked_sub(n).and_then(|k| row.get(k));
    row.at("if")
        && last(1).is_some_and(|t| t.is_any("it that them those"))
        && last(2).is_some_and(|t| t.is_any("use put add do try take get"))
}

/// Whether the next measured food of a list begins here, after an aside that measures nothing.
fn ends_aside(tokens: &[Token], found: &[Found], start: usize, p: usize, conj: usize) -> bool {
    let k = found.partition_point(|f| f.from < p + conj);
    let measured = measured_at(found, p + conj).is_some()
        || measures(found.row(k, found.len().min(k + 1)), p + conj, p + conj + 1);
    let prev = tokens.item(p - 1);
    // "If you can only get the mild do three and two tablespoons of flour."
    let so_many = p > start + 2
        && tokens.item(p - 2).is_any("do use put take")
        && crate::grammar::number::number(Tokens(tokens.row(p - 1, p))).is_ok();
    let done = prev.is_any("works work do fine") || so_many;
    // "If you have no buttermilk use milk and two teaspoons of vinegar" measures what would do.
    let supposed = (start..p.min(start + 3)).find(|k| tokens.item(*k).is("if"));
    // "If he is coming and a quarter cup of broth": what he does measures nothing.
    let of_him = |k: usize| {
        Tokens(tokens.row(k + 1, p)).at_any("he she they") || super::sort::someone(Tokens(tokens.row(k + 1, p)))
    };
    let open = supposed.is_some_and(|k| !of_him(k)) && !done;
    measured
        && !open
        && !measures(found, start, p)
        && !prev.is_in("governs")
        && (conj > 0 || done || lexicon().verbs.exact(Tokens(std::slice::from_ref(prev))).is_none())
        && (aside(tokens, start, p) || done && tokens.row(start, p).iter().take(3).any(|t| t.is("if")))
}

/// "So two eggs", "so half a cup": what it comes to.
fn so_much(tokens: &[Token], found: &[Found], p: usize, to: usize) -> bool {
    let rest = Tokens(tokens.row(p + 1, to));
    // "Hers came out soupy, so three and a half."
    let bare =
        crate::grammar::number::number(rest).is_ok_and(|(after, _)| after.first().is_none_or(|t| !t.is_spoken()));
    bare || crate::grammar::amount::amount(rest).is_ok() || measured_at(found, p + 1).is_some()
}

/// Whether a clause could begin here.
fn starts(i: Tokens<'_>, after_joint: bool) -> bool {
    let mut i = i;
    // A few openers may stand before the clause; a run of hundreds is no clause, and would be walked again at every word.
    for _ in 0..6 {
        match lexicon().talk.exact(i).filter(|m| m.1.0 == "opener") {
            Some((n, _)) => i = i.skip(n),
            None => break,
        }
    }
    if i.is_empty() {
        return false;
    }
    lead_len(i) > 0
        || order(i)
        || subject_verb(i)
        || after_joint && super::sort::someone(i)
        || (after_joint && i.at_any("don't never there's it's that's"))
        || i.is_in("begins anew")
}

/// Whether an order stands here: the base form of a verb of the kitchen.
pub fn order(i: Tokens<'_>) -> bool {
    let Some((n, verb)) = lexicon().verbs.exact(i) else { return false };
    let base = crate::token::said(i.0.row(0, n)) == verb.base;
    let everyday = verb.class == VerbClass::Everyday && !i.is_in("everyday order");
    // "chopped onion and cream cheese": a verb form that only names a food is none.
    let noun = lexicon().foods.folded(i).is_some() && !i.get(n).is_some_and(|t| t.is_in("object of an order"));
    base && !everyday && !noun
}

/// Whether "it goes", "that gets", "the oil comes" stands here.
fn subject_verb(i: Tokens<'_>) -> bool {
    const VERBS: &str = "predicate";
    const PRONOUNS: &str = "subject";
    if i.is_in("a remark begins") {
        return true;
    }
    // Captions and quick typists leave the sign out.
    if i.at_any("its thats theres theyre") && i.get(1).is_some_and(|t| t.is_in("hedges")) {
        return true;
    }
    if i.at_any("its it's") && crate::grammar::amount::amount(i.skip(1)).is_ok() {
        return true;
    }
    let verbish = |t: Option<&Token>| t.is_some_and(|t| t.is_in(VERBS));
    if i.is_in(PRONOUNS) {
        return verbish(i.get(1)) || lexicon().verbs.exact(i.skip(1)).is_some();
    }
    if i.is_in("owner") {
        return (2..6).any(|n| {
            i.get(n).is_some_and(|t| {
                t.is_any(
                    "goes go gets comes come is are was will should needs wants said says calls did puts used takes",
                )
            }) && i.0[1..n].iter().all(|t| t.kind == Kind::Word && !t.is_any("and in on with to"))
        });
    }
    false
}

fn lead_len(i: Tokens<'_>) -> usize {
    match lexicon().talk.exact(i) {
        Some((n, cue)) if cue.0 == "lead" => {
            // A bare pronoun leads only where a verb follows.
            let verb = |t: Tokens<'_>| lexicon().verbs.exact(t).is_some() || t.is_in("after a pronoun");
            if verb(i.skip(n)) || n >= 2 { n } else { 0 }
        }
        _ => 0,
    }
}

/// Where a lead or a verb stands after a fronted place: the end of the place, and the verb.
pub fn later_verb(t: &[Token], from: usize, to: usize) -> Option<(usize, usize)> {
    // "The minute it's out wrap it in a towel."
    let moment = t.get(from).is_some_and(|t| t.is("the"))
        && t.get(from + 1).is_some_and(|t| t.is_any("minute second moment instant"));
    if !moment && !t.get(from).is_some_and(|t| t.is_in("fronts")) {
        return None;
    }
    for n in from + 2..to {
        let rest = Tokens(t.row(n, to));
        if lexicon().talk.exact(rest).is_some_and(|m| m.1.0 == "lead") {
            let (at, lead) = core(t, n, to);
            if at < to && lead == Lead::Doing && lexicon().verbs.exact(Tokens(t.row(at, to))).is_some() {
                let end = if t.item(n - 1).kind == Kind::Comma { n - 1 } else { n };
                return Some((end, at));
            }
        }
        if t.item(n - 1).kind == Kind::Comma && order(rest) {
            return Some((n - 1, n));
        }
        // "In a heavy pot heat three tablespoons of oil", "once it's glossy fold in the sugar": no comma, but an object.
        let object = |len: usize| {
            rest.get(len).is_some_and(|o| o.is_in("object begins") || matches!(o.kind, Kind::Number(_)))
                || crate::grammar::number::number(rest.skip(len)).is_ok()
        };
        if !t.item(n - 1).is_in("before no order")
            && t.item(n - 1).is_spoken()
            && order(rest)
            && lexicon().verbs.exact(rest).is_some_and(|(len, v)| v.class != VerbClass::Everyday && object(len))
        {
            return Some((n, n));
        }
    }
    None
}

/// How a clause begins, openers and leads left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lead {
    /// Nothing was left out but openers.
    None,
    /// "I", "we", "you", "you want to", "go ahead and": what follows is what she does.
    Doing,
}

/// Where the core of the clause begins, and what led to it.
pub fn core(tokens: &[Token], from: usize, to: usize) -> (usize, Lead) {
    let lists = lexicon();
    let mut at = from;
    let mut lead = Lead::None;
    let mut turns = 0;
    while at < to && turns < 12 {
        turns += 1;
        let t = tokens.item(at);
        if matches!(t.kind, Kind::Comma | Kind::Pause | Kind::Sign) {
            at += 1;
            continue;
        }
        let rest = Tokens(tokens.row(at, to));
        match lists.talk.exact(rest) {
            Some((n, cue)) if cue.0 == "lead" => {
                // "you can" of "you can use cream instead" leads too; "I" before no verb is no lead.
                lead = Lead::Doing;
                at += n;
            }
            Some((n, cue)) if cue.0 == "opener" && !(lead == Lead::Doing && !rest.is_in("loose adverb")) => at += n,
            _ if t.is_in("adverb before") && lead == Lead::Doing && !t.is("gently") => at += 1,
            _ => break,
        }
    }
    (at, lead)
}
