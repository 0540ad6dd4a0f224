//! How much a dish makes, where more than one figure of it was said.
//!
//! "That's twelve tacos and it'll feed four hungry ones": what the dish is called counts first, then people and other
//! things, then a bare number, and last cups and pieces. Where two are alike the one said first holds.

use super::dish::Plan;
use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::grammar::number::number;
use crate::grammar::yields::SaidYield;
use crate::item::Items;
use crate::lexicon::{Sets, lexicon};
use crate::measure::Ratio;
use crate::recipe::Said;
use crate::token::{Kind, Token, Tokens, fold};

/// What dish `k`, called `title`, makes.
pub fn makes(
    tokens: &[Token],
    clauses: &[Sorted],
    found: &[Found],
    plan: &Plan,
    k: usize,
    title: &str,
) -> Option<Said<SaidYield>> {
    let head =
        title.split([' ', '-']).take_while(|w| !lexicon().has("title end", w)).last().map(fold).unwrap_or_default();
    let mut best: Option<(usize, Said<SaidYield>)> = None;
    let mut take = |rank: usize, what: SaidYield, from: usize, to: usize| {
        if best.as_ref().is_none_or(|b| rank > b.0) {
            best = Some((rank, Said { what, span: tokens.item(from).span.to(tokens.item(to - 1).span) }));
        }
    };
    for n in plan.extent[k].clone().filter(|n| plan.card[*n] == Some(k)) {
        let c = clauses.item(n);
        let (from, to) = (c.piece.from, c.piece.to);
        for f in found.row(c.found.0, c.found.1) {
            let Item::Yield(y) = &f.item else { continue };
            // "She says it feeds fifteen."
            let told = || y.of == "servings" && Tokens(tokens.row(from, f.from)).has_any("says said");
            let last = y.of.rsplit(' ').next().map(fold).unwrap_or_default();
            let rank = match &*last {
                _ if c.cues.called => continue,
                _ if c.cues.story && !told() => continue,
                _ if c.cues.story => 1,
                "serving" if y.high == Ratio::ONE => 1,
                last if *last == head => 5,
                "" => 3,
                // The chicken was cut into eight pieces, the stock came to two cups.
                last if lexicon().has("made by the way", last) => 2,
                _ => 4,
            };
            take(rank, y.clone(), f.from, f.to);
        }
        // "You get forty buuz": what no list knows is known by the name of the dish. "Three pastas", before anything is
        // measured, counts the dishes.
        let counts = n > plan.measured_from[k] && !c.cues.story && !c.cues.called && !head.is_empty();
        let told = from..if counts { to } else { from };
        for at in told {
            let before = tokens.get(at.wrapping_sub(1)).filter(|_| at > from);
            let Ok((rest, n)) = number(Tokens(tokens.row(at, to))) else { continue };
            let end = to - rest.len();
            let things = rest.0.iter().take(4).take_while(|t| t.kind == Kind::Word && !t.is_in("title end"));
            let things: Vec<&Token> = things.collect();
            // "Twenty minutes chicken goes back in."
            if crate::grammar::time::time(Tokens(tokens.row(at, to))).is_ok() {
                continue;
            }
            let Some(last) = things.iter().position(|t| *t.fold == *head) else { continue };
            let led = before.is_none_or(|t| !t.is_spoken() || t.is_in("leads to things"));
            // "The four dips", where there are four dishes.
            let dishes = Ratio::whole(plan.dishes.len() as i64);
            if !led || n.low == dishes || n.low < Ratio::whole(2) || rest.nth_any(last + 1, "at of apiece each per") {
                continue;
            }
            let of: Vec<&str> = things[..=last].iter().map(|t| &*t.text).collect();
            take(5, SaidYield { low: n.low, high: n.high, of: crate::letters::join(&of, " ") }, at, end + last + 1);
        }
    }
    best.map(|b| b.1)
}
