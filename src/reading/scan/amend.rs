//! An amount that is put right at once: "two slices of bacon, no, four", "a teaspoon of cumin. Tablespoon, not teaspoon".
//!
//! What the cook takes back in the same breath was never meant, so the food gets the figure that was settled before anything
//! is added up. Only what follows the food directly counts; a figure that comes later is weighed by the ledger.

use super::{Found, Item};
use crate::grammar::amount::{SaidAmount, amount, unit};
use crate::grammar::food::{Quantifier, SaidFood};
use crate::grammar::number::number;
use crate::item::Items;
use crate::lexicon::{Sets, lexicon};
use crate::measure::{Amount, Dimension, Unit};
use crate::token::{Kind, Token, Tokens, fold};

/// So many words at most are said between the figure and the one that takes its place.
const NEAR: usize = 24;

/// So many come between, where it is put right with a measure of its own.
const BETWEEN: usize = 9;

/// Gives each food that is measured and put right at once the figure that was settled.
pub fn amend(tokens: &[Token], found: &mut [Found]) {
    for k in 0..found.len() {
        let (before, after) = found.split_at_mut(k + 1);
        let Some(Found { item: Item::Food(x), to, .. }) = before.last_mut() else { continue };
        let Some(said) = x.amount else { continue };
        let rest = Tokens(tokens.row(*to, (*to + NEAR).min(tokens.len())));
        if let Some(amount) = settled(rest, &said, x).or_else(|| which_spoon(rest, &said)) {
            x.amount = Some(SaidAmount { amount, article: false, ..said });
        } else if let Some(amount) = settled_later(rest, &said, x) {
            x.amount = Some(SaidAmount { amount, article: false, ..said });
            // The figure is this food's, not that of the water it is stirred into.
            for f in after.iter_mut().take(2) {
                match &mut f.item {
                    Item::Food(y) if y.amount.is_some_and(|a| a.amount.same_size(&amount)) && !alike(x, y) => {
                        y.amount = None;
                    }
                    Item::Loose(a) if a.amount.same_size(&amount) => {
                        let again = SaidFood { amount: None, quantifier: Quantifier::The, ..(**x).clone() };
                        f.item = Item::Food(Box::new(again));
                    }
                    _ => {}
                }
            }
        } else if let Some((name, food)) = renamed(rest, x) {
            (x.name, x.food) = (name, food);
        }
    }
}

fn alike(a: &SaidFood, b: &SaidFood) -> bool {
    let last = |x: &SaidFood| x.name.rsplit(' ').next().map(fold);
    last(a) == last(b)
}

/// The text after commas and stops.
fn said_next(i: Tokens<'_>) -> Tokens<'_> {
    i.skip(i.0.iter().take_while(|t| matches!(t.kind, Kind::Comma | Kind::Pause | Kind::Stop)).count())
}

/// The text after what takes something back, if it does: "no, wait, I mean", "did I say three?".
fn marked<'a>(i: Tokens<'a>, said: &SaidAmount) -> Option<Tokens<'a>> {
    let mut rest = said_next(i);
    let mut marks = false;
    loop {
        let next = if let Some((n, _)) = lexicon().talk.exact(rest).filter(|m| m.1.0 == "correct") {
            marks = true;
            // "I said teaspoon, I meant tablespoon": what was said before is passed over.
            let told = rest.0.iter().take(n).any(|t| t.is("said"));
            let after = rest.skip(n);
            if told { old(after, said).unwrap_or(after) } else { after }
        } else if rest.at("did") && rest.get(2).is_some_and(|t| t.is("say")) {
            marks = true;
            old(rest.skip(3), said)?
        } else if rest.at("i") && rest.get(1).is_some_and(|t| t.is("mean")) {
            marks = true;
            rest.skip(2)
        } else if rest.at_any("no nope wait") {
            marks = true;
            rest.skip(1)
        } else if rest.at_any("actually well oh uh um er rather") {
            rest.skip(1)
        } else {
            break;
        };
        rest = said_next(next);
    }
    marks.then(|| rest.skip(rest.0.iter().take_while(|t| t.is_in("settles")).count()))
}

/// The text after the figure or the measure that was said first.
fn old<'a>(i: Tokens<'a>, said: &SaidAmount) -> Option<Tokens<'a>> {
    if let Ok((rest, a)) = amount(i) {
        return a.amount.same_size(&said.amount).then_some(rest);
    }
    if let Ok((rest, n)) = number(i) {
        return (n.low == said.amount.low() && !counts(rest)).then_some(rest);
    }
    let (n, u) = unit(i)?;
    (Some(u) == said.amount.unit()).then(|| i.skip(n))
}

/// Whether what follows a number belongs to it: a measure, a food, minutes.
fn counts(i: Tokens<'_>) -> bool {
    i.first().is_some_and(|t| t.is_spoken() && !t.is_in("after a figure"))
}

/// A figure or a measure that may take the place of the one before, and what follows it.
fn figure<'a>(i: Tokens<'a>, said: &SaidAmount, food: &SaidFood) -> Option<(Amount, Tokens<'a>)> {
    let first = said.amount;
    if let Ok((rest, new)) = amount(i) {
        // "Sorry. A teaspoon of kewra": another food, whether a list knows it or not.
        let other = (rest.at("of") || counts(rest)) && !same(rest, food);
        let alike = new.amount.unit().map(|u| u.dimension() == Dimension::Length)
            == first.unit().map(|u| u.dimension() == Dimension::Length)
            // "Chilli powder half. Half a teaspoon I mean."
            || first.unit().is_none() && new.amount.low() == first.low();
        return (alike && !other && !new.more && !new.each && !new.of_the).then_some((new.amount, rest));
    }
    if let Ok((rest, n)) = number(i) {
        let plain = !i.at_any("a an") && !counts(rest);
        return plain.then(|| Amount::range(n.low, n.high, first.unit())).flatten().map(|a| (a, rest));
    }
    let (n, u) = unit(i)?;
    let rest = i.skip(n);
    let alike = first.unit().is_some_and(|f| f.dimension() == u.dimension() && f != u);
    (alike && !counts(rest)).then(|| (first.in_unit(Some(u)), rest))
}

/// Whether the food named here is the one that was measured.
fn same(i: Tokens<'_>, food: &SaidFood) -> bool {
    let last = food.name.rsplit(' ').next().map(fold).unwrap_or_default();
    i.0.iter().take(3).any(|t| *t.fold == *last)
}

/// The amount that takes the place of the one just said.
fn settled(i: Tokens<'_>, said: &SaidAmount, food: &SaidFood) -> Option<Amount> {
    if let Some(rest) = marked(i, said) {
        return figure(rest, said, food).map(|f| f.0).filter(|a| !a.same_size(&said.amount));
    }
    let rest = said_next(i);
    // "Three cups of flour, or four."
    if rest.at("or")
        && let Ok((after, n)) = number(rest.skip(1))
        && !counts(after)
        && !rest.get(1).is_some_and(|t| t.is_any("a an"))
        && n.low > said.amount.high()
    {
        return Amount::range(said.amount.low(), n.high, said.amount.unit());
    }
    // "Not three, four."
    if rest.at("not") {
        return figure(said_next(old(rest.skip(1), said)?), said, food).map(|f| f.0);
    }
    // "It's four, not three." "Tablespoon, not teaspoon."
    let (new, after) = figure(rest.skip(usize::from(rest.at_any("it's that's"))), said, food)?;
    let after = said_next(after);
    // "Red chilli powder half. Half a teaspoon I mean."
    let meant = after.at("i") && after.skip(1).at_any("mean meant");
    (meant || after.at("not") && old(after.skip(1), said).is_some()).then_some(new)
}

/// The amount that takes the place of the one said a few words before, with a measure of its own.
fn settled_later(i: Tokens<'_>, said: &SaidAmount, food: &SaidFood) -> Option<Amount> {
    // "A tablespoon of cornstarch in a little water, I mean two teaspoons": with a measure, a few words may come between.
    let plain = i.0.iter().take(BETWEEN).take_while(|t| t.is_spoken() || t.kind == Kind::Comma).count();
    let rest = (1..plain).map(|k| i.skip(k)).find(|r| r.at("i") && r.get(1).is_some_and(|t| t.is_any("mean meant")))?;
    let rest = marked(rest, said)?;
    let measured = amount(rest).is_ok_and(|(_, a)| {
        let kind = |a: Amount| a.unit().map(crate::measure::Unit::dimension);
        kind(a.amount) == kind(said.amount)
    });
    figure(rest, said, food).map(|f| f.0).filter(|a| measured && !a.same_size(&said.amount))
}

/// "Four spoons of oil, soup spoons I mean, tablespoons": which spoon it is.
fn which_spoon(i: Tokens<'_>, said: &SaidAmount) -> Option<Amount> {
    (1..i.len().min(9)).find_map(|k| {
        let (n, u) = unit(i.skip(k)).filter(|u| u.1.dimension() == Dimension::Volume)?;
        let after = i.skip(k + n);
        let of = after.at("of") || lexicon().foods.folded(after).is_some();
        let alone = !of && number(i.skip(k - 1)).is_err();
        (said.amount.unit() == Some(Unit::Spoonful) && alone).then(|| said.amount.in_unit(Some(u)))
    })
}

/// Another food that takes the place of the one just said: "a cup of milk, no, cream".
fn renamed(i: Tokens<'_>, food: &SaidFood) -> Option<(String, Option<crate::lexicon::Food>)> {
    let rest = said_next(i);
    // "No cream." goes without it.
    let (mark, parted) = (rest.at_any("no sorry"), rest.get(1)?);
    if !mark || rest.0.len() == i.0.len() || parted.kind != Kind::Comma {
        return None;
    }
    let rest = rest.skip(2);
    let (n, listed) = lexicon().foods.folded(rest)?;
    let ends = rest.get(n).is_none_or(|t| !t.is_spoken() || t.is_in("after a figure"));
    let words: Vec<&str> = rest.0.iter().take(n).map(|t| &*t.text).collect();
    (ends && !same(rest, food)).then(|| (words.join(" "), Some(listed)))
}
