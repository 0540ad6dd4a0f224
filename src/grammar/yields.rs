//! Yields: "feeds eight, ten if there's ham" becomes 8 to 10 servings, "makes about two dozen cookies" 24 cookies.

use super::number::{about, number};
use crate::lexicon::Sets;
use crate::lexicon::lexicon;
use crate::measure::{Ratio, bounds};
use crate::token::input::miss;
use crate::token::{Kind, Read, Token, Tokens};

/// What is counted out so that its count alone is a yield.
const STRONG: &str = "piece bar serving portion square cookie muffin cupcake brownie bowl slice";

/// How much it makes.
#[derive(Clone, Debug)]
pub struct SaidYield {
    /// The low end.
    pub low: Ratio,
    /// The high end.
    pub high: Ratio,
    /// "servings", or what was counted; empty where only the number was said.
    pub of: String,
}

const SERVE: &str = "serves serve served feeds feed fed serving";
const MAKE: &str = "makes make made gives yields yield gave give got get gets does making fills fill cuts";
/// "Four hundred people", alone, is a story.
const CROWD: i64 = 100;
const PEOPLE: &str = "people fed";

/// yield := serve-verb "about"? number people? ("," number "if" …)? | make-verb "you"? "about"? number thing
///        | ("food" | "enough") "for" number | "for" number people | "into" number thing | number thing (alone)
pub fn yields(i: Tokens<'_>) -> Read<'_, SaidYield> {
    let Some(t) = i.first() else { return miss(i) };
    let serve = t.is_any(SERVE);
    let make = t.is_any(MAKE);
    let food_for = t.is_in("meals") && i.get(1).is_some_and(|t| t.is("for"));
    let hungry = t.is("do") && number(i.skip(1)).is_ok_and(|(rest, _)| rest.at_any("hungry people"));
    let people = t.is("for")
        && number(i.skip(1))
            .is_ok_and(|(rest, _)| rest.is_in(PEOPLE) || rest.at_any("really very") && rest.skip(1).is_in(PEOPLE));
    let cut = t.is("into") || t.is("in") && number(i.skip(1)).is_ok_and(|(_, n)| n.low >= Ratio::whole(6));
    if !serve && !make && !food_for && !people && !cut && !hungry {
        return counted(i);
    }
    let mut rest = i.skip(if food_for { 2 } else { 1 });
    while rest.is_in("before a head") || about(rest).is_ok() {
        rest = match about(rest) {
            Ok((after, ())) => after,
            Err(_) => rest.skip(1),
        };
    }
    let (mut rest, n) = match number(rest) {
        Ok(found) => found,
        Err(_) if make && rest.at_any("a one") => {
            (rest.skip(1), super::number::Number { low: Ratio::ONE, high: Ratio::ONE })
        }
        Err(e) => return Err(e),
    };
    let (low, mut high) = (n.low, n.high);
    if !bounds::YIELD.holds(high.floor()) || low < Ratio::ONE {
        return miss(i);
    }
    let of = what(&mut rest);
    let listed = thing(&of);
    if make || cut {
        // What is made must be a thing recipes make; "makes twelve" may end there, "got two cups of flour" may not.
        let ends =
            rest.first().is_none_or(|t| !matches!(t.kind, Kind::Word | Kind::Number(_)) || t.is_in("after a yield"))
                || (rest.at("of") && rest.nth_any(1, "them these those"));
        let got = t.is_any("got get gets make making does");
        let good = match (of.is_empty(), listed, is_people(&of)) {
            (_, _, true) => true,
            (true, _, _) => {
                ends && (!t.is_any("got get gets does making") || low >= Ratio::whole(4)) && !cut
                    || cut && ends && low >= Ratio::whole(4) && of.is_empty()
            }
            (false, Some(one), _) => {
                (low > Ratio::ONE || (one && !got))
                    && (!rest.at("of") || rest.nth_any(1, "these them this it"))
                    && (!cut || low >= Ratio::whole(4))
            }
            _ => false,
        };
        if !good {
            return miss(i);
        }
    } else if serve
        && listed.is_none()
        && !of.is_empty()
        && !is_people(&of)
        && !rest.is_empty()
        && low < Ratio::whole(2)
    {
        return miss(i);
    }
    more_if(&mut rest, low, &mut high);
    let of = if serve || food_for || people || hungry || is_people(&of) { "servings".to_string() } else { of };
    Ok((rest, SaidYield { low, high, of }))
}

/// "Feeds eight, ten if there's ham", "four hungry people, or six that are minding themselves": the figure after the first.
fn more_if(rest: &mut Tokens<'_>, low: Ratio, high: &mut Ratio) {
    let mut next = *rest;
    if next.first().is_some_and(|t| t.kind == Kind::Comma) {
        next = next.skip(1);
    }
    if next.at_any("or maybe") {
        next = next.skip(1);
    }
    if next.len() < rest.len()
        && let Ok((after, more)) = number(next)
        && more.low > *high
        && more.low < low * Ratio::whole(3)
        && (after.at_any("if that when people servings depending")
            || (after.is_empty() || after.first().is_some_and(|t| t.ends())))
    {
        *high = more.high;
        *rest = after;
        what(rest);
    }
}

/// How many it feeds, where what was `said` just before leads to the number: "it's for four", "that'll do six", "so that's six
/// people", "How many does it feed? Six."
///
/// served := ("for" | "do" "for"?) "the"? about? number people? end | number people end
///
/// # Errors
///
/// A miss where it is anything else: "it's for four hours", "five people put salt last year".
pub fn served<'t>(i: Tokens<'t>, said: &[Token]) -> Read<'t, SaidYield> {
    let before = said.last();
    let led = |set: &str| before.is_some_and(|t| t.is_in(set));
    // "How many does it feed?"
    let many = said.windows(2).position(|w| w[0].is("how") && w[1].is("many"));
    let asked = many.is_some_and(|k| {
        let of = &said[k + 2..];
        of.first().is_some_and(|t| t.is_any("people persons servings does will would is it that"))
            && of.iter().any(|t| t.is_in("asked of a dish"))
    });
    let mut rest = i;
    if i.at("for") && (led("leads to for") || asked) {
        rest = i.skip(1);
    } else if i.at_any("do does") && led("leads to do") {
        rest = i.skip(if i.get(1).is_some_and(|t| t.is("for")) { 2 } else { 1 });
    } else if before.is_some_and(Token::is_spoken) && !led("leads to people") {
        return miss(i);
    }
    let alone = rest.len() == i.len();
    while rest.at("the") || about(rest).is_ok() {
        rest = rest.skip(1);
    }
    let (after, n) = number(rest)?;
    let (low, mut high) = (n.low, n.high);
    rest = after;
    if rest.first().is_some_and(|t| t.kind == Kind::Comma)
        && let Ok((after, more)) = number(rest.skip(1))
        && more.low > high
        && after.is_in(PEOPLE)
    {
        (rest, high) = (after, more.high);
    }
    let mut people = false;
    while rest.is_in("eaters") || rest.is_in(PEOPLE) {
        people |= rest.is_in(PEOPLE);
        rest = rest.skip(1);
    }
    if !alone && rest.at("of") && rest.nth_any(1, "us you") {
        rest = rest.skip(2);
    }
    let ends = rest.first().is_none_or(|t| !t.is_spoken() || t.is_in("after people"));
    if !ends
        || low < Ratio::whole(2)
        || !bounds::YIELD.holds(high.floor())
        || alone && !(people && high <= Ratio::whole(CROWD)) && !asked
    {
        return miss(i);
    }
    more_if(&mut rest, low, &mut high);
    Ok((rest, SaidYield { low, high, of: "servings".into() }))
}

/// A number of things recipes make that is all of its clause, or comes after "so it's": "twenty four pieces", "so it's 48 bars".
fn counted(i: Tokens<'_>) -> Read<'_, SaidYield> {
    let led = i.at_any("it's that's is");
    let (rest, n) = number(if led { i.skip(1) } else { i })?;
    if led && n.low == Ratio::ONE && n.high == Ratio::ONE {
        let mut rest = rest;
        let of = what(&mut rest);
        return if thing(&of) == Some(true) && rest.first().is_none_or(|t| !t.is_spoken()) {
            Ok((rest, SaidYield { low: n.low, high: n.high, of }))
        } else {
            miss(i)
        };
    }
    if n.low < Ratio::whole(2) || !bounds::YIELD.holds(n.high.floor()) {
        return miss(i);
    }
    let mut rest = rest;
    let of = what(&mut rest);
    let strong = crate::token::listed(STRONG, &crate::token::fold(&of));
    let ends = rest.first().is_none_or(|t| t.kind != Kind::Word && !matches!(t.kind, Kind::Number(_)));
    let enough = of == "servings" || of == "portions" || led || n.low >= Ratio::whole(8);
    if strong && ends && enough && thing(&of).is_some() {
        let of = if is_people(&of) { "servings".to_string() } else { of };
        return Ok((rest, SaidYield { low: n.low, high: n.high, of }));
    }
    miss(i)
}

/// Whether it is a thing recipes make, and whether one of it is.
fn thing(of: &str) -> Option<bool> {
    let last = crate::token::fold(of.split(' ').next_back()?);
    crate::lexicon::lexicon().yields.entries().find(|(w, _)| w.last() == Some(&last)).map(|e| e.1)
}

fn is_people(of: &str) -> bool {
    of.split(' ').next_back().is_some_and(|w| lexicon().has(PEOPLE, w))
        || of.split(' ').next().is_some_and(|w| lexicon().has(PEOPLE, w))
}

/// The counted thing: up to two plain words.
fn what(i: &mut Tokens<'_>) -> String {
    let mut words: Vec<&str> = Vec::new();
    while words.len() < 3 {
        let Some(t) = i.first() else { break };
        let plain = t.kind == Kind::Word && !t.is_in("after a count fed");
        if t.is_in("size of a yield") && words.is_empty() {
            *i = i.skip(1);
            continue;
        }
        if !plain {
            break;
        }
        words.push(&t.text);
        *i = i.skip(1);
        // "That cuts twelve slices keeps in the icebox": in talk without stops the thing itself ends it.
        if thing(&t.text).is_some() && i.first().is_none_or(|t| thing(&t.text).is_none()) {
            break;
        }
    }
    crate::letters::join(&words, " ")
}
