//! Yields: "feeds eight, ten if there's ham" becomes 8 to 10 servings, "makes about two dozen cookies" 24 cookies.

use super::number::{about, number};
use crate::measure::{Ratio, bounds};
use crate::token::input::miss;
use crate::token::{Kind, Read, Tokens};

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

const SERVE: &[&str] = &["serves", "serve", "served", "feeds", "feed", "fed", "serving"];
const MAKE: &[&str] = &["makes", "make", "made", "gives", "yields", "yield", "gave", "got", "get", "gets", "does", "do", "did"];
const PEOPLE: &[&str] = &[
    "people", "servings", "serving", "portions", "portion", "persons", "person", "adults", "folks", "lunches", "dinners", "helpings", "plates",
    "hungry", "bowls", "guests", "suppers", "meals", "men", "guys", "kids",
];

/// yield := serve-verb "about"? number people? ("," number "if" …)? | make-verb "you"? "about"? number thing | "food" "for" number
pub fn yields(i: Tokens<'_>) -> Read<'_, SaidYield> {
    let Some(t) = i.first() else { return miss(i) };
    let serve = t.is_any(SERVE);
    let make = t.is_any(MAKE);
    let food_for = (t.is_any(&["food", "enough", "dinner", "supper", "plenty"])) && i.get(1).is_some_and(|t| t.is("for"));
    if !serve && !make && !food_for {
        return miss(i);
    }
    let mut rest = i.skip(if food_for { 2 } else { 1 });
    while rest.at_any(&["you", "us", "me", "up", "to", "anywhere", "from", "at", "least", "easily", "around"]) || about(rest).is_ok() {
        rest = match about(rest) {
            Ok((after, ())) => after,
            Err(_) => rest.skip(1),
        };
    }
    let (mut rest, n) = match number(rest) {
        Ok(found) => found,
        Err(_) if make && rest.at_any(&["a", "one"]) => {
            (rest.skip(1), super::number::Number { low: Ratio::ONE, high: Ratio::ONE })
        }
        Err(e) => return Err(e),
    };
    let (low, mut high) = (n.low, n.high);
    if !bounds::YIELD.holds(high.floor() as i64) || low < Ratio::ONE {
        return miss(i);
    }
    // "feeds eight, ten if there's ham", "four hungry people, or six that are minding themselves".
    let of = what(&mut rest);
    let mut next = rest;
    if next.first().is_some_and(|t| t.kind == Kind::Comma) {
        next = next.skip(1);
    }
    if next.at("or") || next.at("maybe") {
        next = next.skip(1);
    }
    if next.len() < rest.len()
        && let Ok((after, more)) = number(next)
        && more.low > high
        && more.low < low * Ratio::whole(3)
        && (after.at_any(&["if", "that", "when", "people", "servings"]) || (serve && (after.is_empty() || after.first().is_some_and(|t| t.ends()))))
    {
        high = more.high;
        rest = after;
        what(&mut rest);
    }
    if make && of.is_empty() {
        // "makes twelve" ends there; "makes two layers of" and "got five minutes" say something else.
        let ends = rest.first().is_none_or(|t| !matches!(t.kind, Kind::Word | Kind::Number(_)) || t.is_any(&["if", "from", "out", "and", "of", "but", "so", "for", "my", "i"]));
        if !ends || rest.at("of") && !rest.get(1).is_some_and(|t| t.is_any(&["them", "these", "those"])) {
            return miss(i);
        }
    }
    let of = if serve || food_for || is_people(&of) { "servings".to_string() } else { of };
    if ["minutes", "minute", "hours", "hour", "dollars", "years", "times", "days", "ways", "things", "kinds", "layers", "weeks", "more", "left", "going", "degrees", "months"].contains(&of.as_str()) {
        return miss(i);
    }
    Ok((rest, SaidYield { low, high, of }))
}

fn is_people(of: &str) -> bool {
    of.split(' ').next_back().is_some_and(|w| PEOPLE.contains(&w)) || of.split(' ').next().is_some_and(|w| PEOPLE.contains(&w))
}

/// The counted thing: up to two plain words.
fn what(i: &mut Tokens<'_>) -> String {
    let mut words: Vec<&str> = Vec::new();
    while words.len() < 3 {
        let Some(t) = i.first() else { break };
        let plain = t.kind == Kind::Word
            && !t.is_any(&[
                "if", "from", "out", "and", "or", "of", "but", "so", "for", "that", "in", "to", "with", "depending", "when", "or", "at", "they", "i", "the",
                "maybe", "it", "on", "easy", "easily", "this", "my", "you", "we", "as", "because", "then", "which", "is", "are", "about", "out", "apiece", "each", "good", "big", "nice",
            ]);
        if t.is_any(&["good", "big", "nice", "little", "small", "large", "nice"]) && words.is_empty() {
            *i = i.skip(1);
            continue;
        }
        if !plain {
            break;
        }
        words.push(&t.text);
        *i = i.skip(1);
    }
    words.join(" ")
}
