//! Which part of the dish a clause turns to: the filling, the topping.

use super::super::sort::Sorted;
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::lexicon;
use crate::token::{Kind, Token, Tokens, fold};

/// The part of the dish a clause turns to: `Some(None)` goes back to the main one.
pub(super) fn component(tokens: &[Token], c: &Sorted, title: &str) -> Option<Option<String>> {
    let lists = lexicon();
    let (from, to) = (c.piece.from, c.piece.to);
    let mut at = from;
    let mut cue = false;
    let mut turned = false;
    while at < to {
        let t = tokens.item(at);
        if matches!(t.kind, Kind::Comma | Kind::Pause) {
            at += 1;
        } else if t.is_in("turns to a part") {
            cue |= !t.is_any("with on to is are");
            turned |= t.is_any("for now next do make making doing");
            at += 1;
        } else if t.is_in("before a part") {
            at += 1;
        } else {
            break;
        }
        if at > from + 9 {
            break;
        }
    }
    // A qualifier of one or two foods: "cream cheese frosting", "peanut dressing", "meat sauce", "tahini dressing".
    let start = at;
    for _ in 0..3 {
        let rest = Tokens(tokens.row(at.min(to), to));
        if let Some((n, name)) = lists.components.folded(rest).map(|(n, c)| (n, c.0)) {
            let after = tokens.get(at + n);
            let own = title.split(' ').any(|w| name.split(' ').any(|p| fold(w) == fold(p)));
            // Followed by a stop, "is", an amount, "first" or "I": talk of making it. "Sprinkle the topping over" uses it.
            let ends = after.is_none_or(|a| !a.is_spoken() || a.is_in("after a part"))
                || crate::grammar::amount::amount(Tokens(tokens.row((at + n).min(to), to))).is_ok()
                || crate::grammar::food::food(Tokens(tokens.row((at + n).min(to), to))).is_ok();
            let uses = after.is_some_and(|a| a.is_any("goes in on over and to")) && !turned;
            let opens = (c.piece.opens || cue) && ends && !uses && (turned || c.piece.opens);
            // "over the topping", "in the sauce" within a sentence only mention it.
            if opens {
                if own && title.split(' ').count() == 1 {
                    return Some(None);
                }
                let mut label: Vec<String> =
                    tokens.row(start, at).iter().filter(|t| t.kind == Kind::Word).map(|t| t.text.to_string()).collect();
                label.retain(|w| !w.is_empty());
                let label = if label.is_empty() || label.len() > 2 || name.split(' ').count() > 1 {
                    name.to_string()
                } else {
                    format!("{} {name}", crate::letters::join(&label, " "))
                };
                return Some(Some(label));
            }
            return None;
        }
        if let Some((n, _)) = lists.foods.folded(rest) {
            at += n;
            continue;
        }
        if let Some((n, ())) = lists.describers.exact(rest) {
            at += n;
            continue;
        }
        break;
    }
    // "Icing's 200 grams of icing sugar": the part is the subject.
    if c.piece.opens
        && let Some(t) = tokens.get(start)
        && let Some(stem) = t.text.strip_suffix("'s")
    {
        let one = Token { text: stem.into(), fold: fold(stem).into(), ..t.clone() };
        if let Some((_, cue)) = lists.components.folded(Tokens(std::slice::from_ref(&one))) {
            return Some(Some(cue.0.to_string()));
        }
    }
    None
}
