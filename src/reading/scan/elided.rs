//! A measured food of which only the kind is said: "a cup and a half of white sugar and half a cup of brown", "the flour, 175
//! grams of self raising". The food was named just before; kind and food together are a name that the lists know.

use super::kind::listed;
use super::{Found, Item};
use crate::grammar::food::SaidFood;
use crate::item::Items;
use crate::lexicon::{Sets, lexicon};
use crate::measure::Dimension;
use crate::token::{Kind, Token, Tokens};

/// So many words back the food was named.
const BACK: usize = 30;

/// Gives an amount of a mere kind the food that was named before.
pub(super) fn elided(tokens: &[Token], found: &mut [Found]) {
    let lists = lexicon();
    for f in found.iter_mut() {
        let Item::Loose(said) = f.item else { continue };
        let measure = said.amount.unit().is_some_and(|u| u.dimension() != Dimension::Length);
        if !measure || !tokens.get(f.to).is_some_and(|t| t.is("of")) {
            continue;
        }
        let mut end = f.to + 1;
        while end < f.to + 4
            && let Some((n, ())) = lists.describers.exact(Tokens(tokens.row(end, tokens.len())))
        {
            end += n;
        }
        let closes = |t: &Token| !t.is_spoken() || t.is_in("name end") || t.is_in("goes along");
        // "Half a cup of brown pack it down good."
        let order = || crate::reading::clause::order(Tokens(tokens.row(end, tokens.len())));
        if end == f.to + 1 || !(tokens.get(end).is_none_or(closes) || order()) {
            continue;
        }
        let kind = crate::token::said(tokens.row(f.to + 1, end));
        let back = tokens.row(f.from.saturating_sub(BACK), f.from);
        let named = back.iter().rev().filter(|t| t.kind == Kind::Word).find_map(|t| {
            let name = format!("{kind} {}", t.text);
            listed(&name).map(|food| (name, food))
        });
        if let Some((name, food)) = named {
            let said =
                SaidFood { food: Some(food), amount: Some(said), package: said.package, ..SaidFood::named(name) };
            (f.item, f.to) = (Item::Food(Box::new(said)), end);
        }
    }
}
