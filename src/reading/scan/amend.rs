//! An amount that is put right at once: "two slices of bacon, no, four", "a teaspoon of cumin. Tablespoon, not teaspoon".
//!
//! What the cook takes back in the same breath was never meant, so the food gets the figure that was settled before anything
//! is added up. Only what follows the food directly counts, and "I said a quarter cup … put three tablespoons", which names the
//! food by the figure it had; any other figure that comes later is weighed by the ledger.

use super::{Found, Item};
use crate::grammar::amount::{SaidAmount, amount, unit};
use crate::grammar::food::{Quantifier, SaidFood};
use crate::grammar::number::number;
use crate::item::Items;
use crate::lexicon::{Sets, lexicon};
use crate::measure::{Amount, Dimension, Ratio, Unit};
use crate::token::{Kind, Token, Tokens, fold};
use std::ops::Range;

/// So many words at most are said between the figure and the one that takes its place.
const NEAR: usize = 24;

/// So many, where she gives a reason for it.
const FAR: usize = 40;

/// So many from a food to a figure of it.
const LEAD: usize = 8;

/// So many come between, where it is put right with a measure of its own.
const BETWEEN: usize = 9;

/// So many words back stands the figure that "I said two cups" speaks of.
const SAID: usize = 90;

/// Gives each food that is measured and put right the figure that was settled.
pub fn amend(tokens: &[Token], found: &mut [Found]) {
    at_once(tokens, found);
    for at in 1..tokens.len() {
        // "Four teaspoons of baking powder. I say four. It's three."
        if tokens.item(at).is_any("said say") && tokens.item(at - 1).is_any("i you") {
            as_said(tokens, found, at + 1);
        }
    }
}

/// The amount of a finding, if it has one.
fn held(f: &Found) -> Option<SaidAmount> {
    match &f.item {
        Item::Food(x) => x.amount,
        Item::Loose(a) => Some(*a),
        _ => None,
    }
}

/// What a finding becomes that says again what a food measures, or speaks of it.
fn of_the(food: &SaidFood) -> Item {
    Item::Food(Box::new(SaidFood { amount: None, quantifier: Quantifier::The, ..food.clone() }))
}

/// "A quarter cup of sugar and a teaspoon of vanilla. Oh, I said a quarter cup, so put three tablespoons": the figure that
/// was said tells which food is put right.
fn as_said(tokens: &[Token], found: &mut [Found], at: usize) {
    let next = found.partition_point(|f| f.from + 1 < at);
    let first = Tokens(tokens.row(at, tokens.len()));
    if number(first).is_err() && amount(first).is_err() {
        return;
    }
    let mut back = next;
    let (said, food, from) = loop {
        if back == 0 {
            return;
        }
        back -= 1;
        let f = found.item(back);
        // Every "I said" looks back so far and no farther, or a long text is not read in time.
        if f.to + SAID <= at {
            return;
        }
        let Item::Food(x) = &f.item else { continue };
        let Some(said) = x.amount.filter(|a| !a.amount.is_range()) else { continue };
        let Some(rest) = old(first, &said) else { continue };
        if !rest.at("of") && !counts(rest) || same(rest, x) {
            break (said, x.clone(), tokens.len() - rest.len());
        }
    };
    let rest = Tokens(tokens.row(from, (from + FAR).min(tokens.len())));
    let mut stops = 0;
    for k in 0..rest.len() {
        let t = &rest.0[k];
        stops += usize::from(t.kind == Kind::Stop);
        if stops > 2
            || matches!(t.kind, Kind::Break(_))
            || t.is_any("she he they because cause last yesterday once if when")
        {
            return;
        }
        let led = rest.skip(k);
        let n = led.0.iter().take_while(|t| t.is_in("settles")).count().max(usize::from(t.is_in("figure is")));
        let Some((new, after)) = figure(led.skip(n), &said, &food).filter(|_| n > 0) else { continue };
        if counts(after) && !same(after, &food) || new.same_size(&said.amount) {
            continue;
        }
        // "One cup of soy sauce? No, I said one cup, but it's three quarters" was put right in the same breath.
        let last = (0..next).rev().find_map(|n| held(found.item(n)));
        if last.is_some_and(|a| a.amount.same_size(&new)) {
            return;
        }
        let until = from + rest.len() - after.len();
        if let Item::Food(x) = &mut found[back].item {
            x.amount = Some(SaidAmount { amount: new, article: false, ..said });
        }
        for f in &mut found[next..] {
            if f.from >= until {
                break;
            }
            match &mut f.item {
                Item::Food(x) => (x.amount, x.quantifier) = (None, Quantifier::The),
                Item::Loose(_) | Item::Count(_) => f.item = of_the(&food),
                _ => {}
            }
        }
        return;
    }
}

/// What is put right in the same breath.
fn at_once(tokens: &[Token], found: &mut [Found]) {
    for k in 0..found.len() {
        let (before, after) = found.split_at_mut(k + 1);
        let Some((Found { item, from, to }, before)) = before.split_last_mut() else { continue };
        // "Then sugar. I always say half a cup, but this melon is sweet, so a quarter cup."
        if let Item::Loose(said) = item
            && let Some(Found { item: Item::Food(x), .. }) = before.last().filter(|b| b.to + LEAD > *from)
            // "Half a teaspoon of salt and a teaspoon, no, a teaspoon and a half of cinnamon."
            && !(*from > 0 && tokens.item(*from - 1).is_any("and plus"))
            && tokens.get(*to).is_some_and(|t| !t.is_spoken() || t.is_any("no wait but"))
            && let Some(amount) = reason(tokens, *from..*to, said, x, after)
        {
            said.amount = amount;
        }
        let Item::Food(x) = item else { continue };
        let Some(said) = x.amount else { continue };
        let rest = Tokens(tokens.row(*to, (*to + NEAR).min(tokens.len())));
        if of_another(rest, &said) {
            continue;
        }
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
        } else if let Some(amount) = reason(tokens, *from..*to, &said, x, after) {
            x.amount = Some(SaidAmount { amount, article: false, ..said });
        } else if let Some((name, food)) = renamed(rest, x) {
            (x.name, x.food) = (name, food);
        }
    }
}

/// "A teaspoon of vanilla. I said a quarter cup": it speaks of another food's figure.
fn of_another(i: Tokens<'_>, said: &SaidAmount) -> bool {
    let lead = i.0.iter().take_while(|t| !t.is_spoken() || t.is_any("oh no sorry well wait")).count();
    let rest = i.skip(lead);
    let told = rest.at_any("i you") && rest.skip(1).at("said");
    told && amount(rest.skip(2)).is_ok() && old(rest.skip(2), said).is_none()
}

/// The figure after a reason; what the reason speaks of is no food of its own.
fn reason(
    tokens: &[Token],
    at: Range<usize>,
    said: &SaidAmount,
    food: &SaidFood,
    after: &mut [Found],
) -> Option<Amount> {
    // "The recipe says two tablespoons, but that's a lot, so one": what is put right was never hers.
    if tokens.row(at.start.saturating_sub(LEAD), at.start).iter().any(|t| t.is_in("calls for")) {
        return None;
    }
    let (amount, until) = reasoned(Tokens(tokens.row(at.end, (at.end + FAR).min(tokens.len()))), said, food)?;
    let until = at.end + until;
    for f in after.iter_mut().take_while(|f| f.from < until) {
        if f.to >= until {
            f.item = Item::Food(Box::new(SaidFood { amount: None, quantifier: Quantifier::Again, ..food.clone() }));
        } else if let Item::Food(y) = &mut f.item {
            (y.amount, y.food, y.quantifier) = (None, None, Quantifier::The);
        } else if matches!(f.item, Item::Loose(_) | Item::Count(_)) {
            f.item = Item::Food(Box::new(SaidFood { amount: None, quantifier: Quantifier::The, ..food.clone() }));
        }
    }
    Some(amount)
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
    // "No put one and a half."
    let leads = |t: &&Token| t.is_in("settles") || t.is_any("put make use");
    marks.then(|| rest.skip(rest.0.iter().take_while(leads).count()))
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
        return (alike && !far(first, new.amount) && !other && !new.more && !new.each && !new.of_the)
            .then_some((new.amount, rest));
    }
    if let Ok((rest, n)) = number(i) {
        let plain = !i.at_any("a an") && !counts(rest);
        return plain.then(|| Amount::range(n.low, n.high, first.unit())).flatten().map(|a| (a, rest));
    }
    let (n, u) = unit(i)?;
    let rest = i.skip(n);
    // "One bunch of parsley. No stalk" takes no bunch back.
    let alike =
        u.dimension() != Dimension::Piece && first.unit().is_some_and(|f| f.dimension() == u.dimension() && f != u);
    (alike && !counts(rest)).then(|| (first.in_unit(Some(u)), rest))
}

/// "A cup of milk, a teaspoon of vanilla. Make it a cup and a half": a figure of the milk.
fn far(held: Amount, new: Amount) -> bool {
    if held.unit().is_some_and(Unit::is_loose) && new.unit() == Some(Unit::Cup) {
        return true;
    }
    let held = new.unit().and_then(|u| held.to(u));
    held.is_some_and(|h| h.high() * Ratio::whole(12) < new.low() || new.high() * Ratio::whole(12) < h.low())
}

/// Whether the food named here is the one that was measured: "garlic" is the garlic paste.
fn same(i: Tokens<'_>, food: &SaidFood) -> bool {
    let last = food.name.rsplit(' ').next().map(fold).unwrap_or_default();
    let front =
        i.at("of") && i.get(1).is_some_and(|t| food.name.split(' ').next().map(fold).is_some_and(|w| *t.fold == *w));
    i.0.iter().take(3).any(|t| *t.fold == *last) || front && i.get(2).is_none_or(|t| !t.is_spoken())
}

/// The amount that takes the place of the one just said.
fn settled(i: Tokens<'_>, said: &SaidAmount, food: &SaidFood) -> Option<Amount> {
    if let Some(rest) = marked(i, said) {
        // "Hang on, one cup goes in here": a part of it.
        let whole = figure(rest, said, food).filter(|f| !f.1.at_any("goes go"));
        return whole.map(|f| f.0).filter(|a| !a.same_size(&said.amount));
    }
    let rest = said_next(i);
    // "Three cups of flour, or four."
    if rest.at("or")
        && let Ok((after, n)) = number(rest.skip(1))
        && !counts(after)
        && !rest.nth_any(1, "a an")
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
    let rest = (1..plain).map(|k| i.skip(k)).find(|r| r.at("i") && r.nth_any(1, "mean meant"))?;
    let rest = marked(rest, said)?;
    let measured = amount(rest).is_ok_and(|(_, a)| {
        let kind = |a: Amount| a.unit().map(crate::measure::Unit::dimension);
        kind(a.amount) == kind(said.amount)
    });
    figure(rest, said, food).map(|f| f.0).filter(|a| measured && !a.same_size(&said.amount))
}

/// The figure after a reason, and the place where it ends: "two teaspoons, no, the stock has salt in it, one and a half",
/// "three cups. Hmm, the lentils are wet already, so two and a half", "no, that's the beetroot, it's two ounces".
fn reasoned(i: Tokens<'_>, said: &SaidAmount, food: &SaidFood) -> Option<(Amount, usize)> {
    let start = i.len() - said_next(i).len();
    let rest = i.skip(start);
    // "No seeds" takes nothing back.
    let no = rest.at_any("no nope") && rest.get(1).is_some_and(|t| !t.is_spoken() || t.is_in("after a no"));
    let sure = no || rest.at_any("wait hang hold");
    // "Em, the pot is full": written as she says "them".
    let em = rest.at("them") && rest.get(1).is_some_and(|t| t.kind == Kind::Comma);
    if !sure && !em && (rest.at("no") || !rest.is_in("thinks again")) {
        return None;
    }
    let first = said.amount;
    let mut stops = 0;
    for k in 1..rest.len() {
        let t = rest.get(k)?;
        let next = rest.skip(k);
        let parted = rest.get(k - 1).is_some_and(|b| !b.is_spoken());
        stops += usize::from(t.kind == Kind::Stop);
        // She has gone on, or tells what a part of it is for.
        let on = matches!(t.kind, Kind::Break(_)) || parted && next.at_any("and then");
        if on || stops > 1 + usize::from(sure) || next.at("of") && next.skip(1).at_any("it that those them") {
            return None;
        }
        let bid = next.at_any("put do make use say")
            && (sure || rest.get(k - 1).is_some_and(|b| !b.is_spoken() || b.is_any("i we")));
        let led = bid || next.at("so") || sure && next.at_any("it's its");
        let at = if led { 1 + next.skip(1).0.iter().take_while(|t| t.is_in("settles")).count() } else { 0 };
        let plain = next.skip(at);
        let measured = amount(plain);
        // "No wait, I changed that, it's two cups of milk": another food is measured out.
        if let Ok((after, _)) = &measured
            && after.at("of")
            && !same(*after, food)
            && !rest.nth_any(k - 1, "with for")
        {
            return None;
        }
        if !led && !(sure && k > 2 && parted) {
            continue;
        }
        let new = match (measured, number(plain)) {
            (Ok((after, new)), _) => {
                let kind = |a: Amount| a.unit().map(|u| u.dimension());
                let alike = kind(new.amount) == kind(first) && !new.more && !new.each && !new.of_the;
                // "It's 175 ml, so that's the three quarters": the same by another measure.
                let again = new.amount.unit() != first.unit()
                    && first.unit().and_then(|u| new.amount.to(u)).is_some_and(|a| {
                        a.low() * Ratio::whole(8) > first.low() * Ratio::whole(7)
                            && a.low() * Ratio::whole(7) < first.low() * Ratio::whole(8)
                    });
                (alike && !again && !far(first, new.amount)).then_some((new.amount, after))
            }
            (_, Ok((after, n))) => {
                // An age, an oven, a count of guests is no other figure of it.
                let other = n.high > first.high() * Ratio::whole(4) || n.low * Ratio::whole(8) < first.low();
                let plain = (!plain.at_any("a an") || n.high < Ratio::ONE) && (led || n.low != Ratio::ONE) && !other;
                let new = if plain { Amount::range(n.low, n.high, first.unit()) } else { None };
                new.map(|a| (a, after))
            }
            _ => None,
        };
        let Some((new, after)) = new else { continue };
        // "But hang on, one cup goes in here and the other half cup goes on top" takes nothing back.
        if after.at_any("goes go") {
            return None;
        }
        // "No, garlic is less, two teaspoons of garlic"; no part of it is more than all of it.
        let more = new.unit() == first.unit() && new.low() > first.high();
        let ends = after.first().is_none_or(|t| !t.is_spoken())
            || sure && after.at("of") && (more || !after.skip(1).at("the")) && same(after, food);
        if ends || led && (sure || !bid) && (!counts(after) || after.at("for") || same(after, food)) {
            return (!new.same_size(&first)).then_some((new, i.len() - after.len()));
        }
    }
    None
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
    (ends && !same(rest, food)).then(|| (crate::token::said(rest.0.row(0, n)), Some(listed)))
}
