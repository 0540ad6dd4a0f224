//! Slips of speech-to-text are put right where context makes them certain: "to table spoons" becomes "two tablespoons".
//!
//! Each mend keeps what was heard, so that the page can show it and the cook can undo it.

use crate::draft::Span;
use crate::grammar::amount::unit;
use crate::grammar::number;
use crate::item::Items;
use crate::lexicon::{Sets, Slip, lexicon};
use crate::recipe::Fix;
use crate::token::{Kind, Token, Tokens, fold, plain};

/// The tokens as they were meant, and what was mended. A slip that touches one of the places in `left` stays as it was heard.
pub fn mend(tokens: Vec<Token>, left: &[Span]) -> (Vec<Token>, Vec<Fix>) {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut fixes = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let rest = Tokens(tokens.row(at, tokens.len()));
        if let Some((n, slip)) = lexicon().slips.exact(rest)
            && certain(&out, rest, n, slip)
        {
            let heard = crate::token::said(tokens.row(at, at + n));
            let span = tokens.item(at).span.to(tokens.item(at + n - 1).span);
            let stays = left.iter().any(|l| l.meets(span));
            fixes.push(Fix { heard, meant: slip.meant.to_string(), span, left: stays });
            if stays {
                out.extend_from_slice(tokens.row(at, at + n));
                at += n;
                continue;
            }
            for word in slip.meant.split(' ') {
                out.push(Token {
                    kind: Kind::Word,
                    text: word.into(),
                    fold: fold(word).into(),
                    span,
                    capital: tokens.item(at).capital,
                    joined: false,
                });
            }
            at += n;
            continue;
        }
        // "The salmon's a four ounce pack": the food and its verb.
        if let Some(stem) = tokens.item(at).text.strip_suffix("'s")
            && tokens.get(at + 1).is_some_and(|t| t.is_in("before what was heard") || matches!(t.kind, Kind::Number(_)))
        {
            let word = Token { text: stem.into(), fold: fold(stem).into(), ..tokens[at].clone() };
            let row = Tokens(std::slice::from_ref(&word));
            if lexicon().foods.folded(row).is_some() || lexicon().components.folded(row).is_some() {
                out.push(word);
                out.push(Token {
                    kind: Kind::Word,
                    text: "is".into(),
                    fold: "is".into(),
                    span: tokens.item(at).span,
                    capital: false,
                    joined: true,
                });
                at += 1;
                continue;
            }
        }
        let mut token = tokens.item(at).clone();
        // An order is known by its plain letters: "sauté", "purée".
        if !token.text.is_ascii() {
            let word = Token { text: plain(&token.text).into(), ..token.clone() };
            if lexicon().verbs.exact(Tokens(std::slice::from_ref(&word))).is_some() {
                token = word;
            }
        }
        out.push(token);
        at += 1;
    }
    (out, fixes)
}

/// Whether the context leaves no doubt that the `n` tokens at the front of `rest` were misheard.
fn certain(before: &[Token], rest: Tokens<'_>, n: usize, slip: Slip) -> bool {
    let lists = lexicon();
    let next = rest.skip(n);
    let last = before.last();
    let starts = last.is_none_or(|t| !t.is_spoken() || t.is_any("and then now to just milk slowly"));
    match slip.when {
        "always" => true,
        "number" => {
            // "to tablespoons", "to ripe pears": a unit in the plural, or a countable food in the plural. "add to flour" and
            // "go for hours" stay.
            let after_number = last.is_some_and(|t| {
                matches!(t.kind, Kind::Number(_)) || number::below_hundred(Tokens(std::slice::from_ref(t))).is_ok()
            });
            let measured = unit(next).is_some_and(|(len, u)| {
                use crate::measure::Dimension;
                u.dimension() != Dimension::Piece && next.get(len).is_none_or(|t| !t.is("by"))
                    || next.first().is_some_and(|t| t.text.ends_with('s') && t.text != t.fold)
            });
            let ripe = usize::from(lists.describers.exact(next).is_some());
            let counted = lists.foods.folded(next.skip(ripe)).is_some_and(|(len, _)| {
                next.get(ripe + len - 1).is_some_and(|t| t.text.ends_with('s') && *t.text != *t.fold)
            });
            // What follows may itself be a slip: "to leaks".
            let misheard = lists
                .slips
                .exact(next.skip(ripe))
                .is_some_and(|m| m.1.when == "food" && next.get(ripe).is_some_and(|t| t.text.ends_with('s')));
            let counted = counted || misheard;
            let time = next.first().is_some_and(|t| t.is_any("minutes minute hours"));
            let heard_to_or_for = rest.at_any("to too for fore");
            if rest.at("for") && last.is_some_and(|t| t.is_any("serves feeds")) {
                return true;
            }
            if heard_to_or_for {
                // "go for minutes" is no number unless "for" stands before it: "for for minutes".
                let doubled = last.is_some_and(|t| t.is_any("for in about take another add"));
                let verb_before = last.is_none_or(|t| {
                    matches!(t.kind, Kind::Stop | Kind::Comma | Kind::Break(_)) || t.is_in("beside a slip")
                });
                return !after_number
                    && ((measured && verb_before)
                        || (counted && verb_before && rest.at_any("to too"))
                        || (time && doubled));
            }
            if rest.at("tree") || rest.at("won") {
                return !after_number
                    && (measured
                        || counted
                        || time
                        || next.at_any("more large small") && unit(next.skip(1)).is_some()
                        || next.at("more"));
            }
            if rest.at("ate") {
                let serves = last.is_some_and(|t| t.is_any("serves feeds about for"));
                return measured || time || (serves && next.first().is_none_or(|t| t.ends()));
            }
            measured || time || counted
        }
        "unit" => last.is_some_and(|t| matches!(t.kind, Kind::Number(_))),
        "order" => {
            // "Great the cheese", but "great, the cheese is here".
            let object = next.skip(usize::from(next.at_any("the your some that")));
            starts && lists.foods.folded(object).is_some_and(|(len, _)| !object.skip(len).is_in("predicate"))
        }
        "verb" => {
            starts
                && next.is_in("after what was heard")
                && !(rest.at("need") && next.at("to"))
                && !(rest.at("need") && last.is_some_and(|t| t.is_any("you i we")))
        }
        "food" => {
            let back: Vec<&Token> = before.iter().rev().take(4).collect();
            let mut measured = false;
            let mut by_unit = false;
            for (k, t) in back.iter().enumerate() {
                if t.ends() {
                    break;
                }
                let row = Tokens(&before[before.len() - 1 - k..]);
                by_unit = crate::letters::holds(&t.text, "spoon") || unit(row).is_some();
                if by_unit || matches!(t.kind, Kind::Number(_)) || number::below_hundred(row).is_ok() {
                    measured = true;
                    break;
                }
                if k < 3 && (t.is_in("before a heard food")) {
                    continue;
                }
                break;
            }
            let prepared =
                next.first().is_some_and(|t| t.kind == Kind::Comma && lists.prep.exact(next.skip(1)).is_some())
                    || lists.prep.exact(next).is_some();
            let after_verb = last.is_some_and(|t| t.is_any("the some")) && before.len() >= 3 && {
                let row = Tokens(&before[before.len() - 2..]);
                lists.verbs.exact(row).is_some()
                    || row.at_any("in with on")
                        && before.len() >= 4
                        && lists.verbs.exact(Tokens(&before[before.len() - 3..])).is_some()
            };
            let ordered = last.is_some_and(|t| t.is("and")) && rest.at_any("cord");
            // "A leak and an onion", "two carrots, a leak": beside another vegetable, which no pipe is.
            if rest.at("leak") && last.is_some_and(|t| t.is("a")) {
                let produce = |row: Tokens<'_>| lists.foods.folded(row).is_some_and(|f| f.1.is("produce"));
                let joins = |t: &Token| t.kind == Kind::Comma || t.is("and");
                let after = next.first().is_some_and(joins) && next.skip(1).at_any("a an one two three");
                let n = before.len();
                let led = n > 2 && joins(&before[n - 2]) && produce(Tokens(&before[n - 3..n - 2]));
                if led || after && produce(next.skip(2)) {
                    return true;
                }
            }
            // "the pair salad"
            if lists.dishes.folded(next).is_some() && rest.at_any("pair leak beat chilly currant") {
                return true;
            }
            // "time" is a herb only with a measure that herbs have.
            if rest.at("time") {
                let herb = back.first().is_some_and(|t| t.is_any("fresh dried of lemon"))
                    && measured
                    && !next.at_any("to you i the we");
                let dried = back.first().is_some_and(|t| t.is_any("fresh dried"));
                return herb
                    || dried
                    || (measured
                        && back
                            .first()
                            .is_some_and(|t| t.text.starts_with("sprig") || crate::letters::holds(&t.text, "spoon")));
            }
            // "Two unions at the plant" are no onions; a pound of them is, and one that is chopped.
            if rest.is_in("means something else") {
                return by_unit || prepared;
            }
            if rest.is_in("sounds alike") {
                return (measured && !next.at_any("of"))
                    || (prepared && !rest.at_any("chilly rise"))
                    || ordered
                    || (after_verb && rest.at_any("flower pairs beats"));
            }
            measured || prepared || after_verb
        }
        _ => false,
    }
}
