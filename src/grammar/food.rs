//! Foods: "three cups of sharp cheddar, grated" becomes 3 cup of sharp cheddar, grated.

use super::amount::{SaidAmount, amount, package_after, unit};
use super::number::{about, number};
use super::word::taken;
use crate::lexicon::{Food, Sets, lexicon};
use crate::measure::{Amount, Dimension, Ratio};
use crate::recipe::Package;
use crate::token::input::miss;
use crate::token::{Kind, Read, Tokens};

/// How much of a food was said without a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Quantifier {
    /// Nothing, or a figure.
    #[default]
    None,
    /// "the", "that", "my": something known.
    The,
    /// "some", "a little", "a few", "a bit of".
    Some,
    /// "the rest of", "the remaining", "what's left of".
    Rest,
    /// "half of the", "most of the", "a third of the": a part of what was measured.
    Part,
    /// "more", "a bit more".
    More,
    /// "all of the", "both".
    All,
    /// The figure that was settled for it, said once more.
    Again,
}

/// A food as it was said.
#[derive(Clone, Debug)]
pub struct SaidFood {
    /// The name a card prints, without amount and preparation.
    pub name: String,
    /// The list's entry of its head, where it has one.
    pub food: Option<Food>,
    /// How much.
    pub amount: Option<SaidAmount>,
    /// How much, in words.
    pub quantifier: Quantifier,
    /// The part of what was measured, for [`Quantifier::Part`].
    pub part: Option<crate::measure::Ratio>,
    /// The size of a container said after it.
    pub package: Option<Package>,
    /// How it is prepared.
    pub prep: Vec<String>,
    /// "to taste" followed.
    pub to_taste: bool,
    /// Where the name stands within the food's tokens.
    pub name_at: (usize, usize),
    /// How many tokens the amount takes, from the first.
    pub amount_len: usize,
}

impl SaidFood {
    /// A food of no list of which nothing but the name is known.
    pub fn named(name: String) -> SaidFood {
        let words = name.split(' ').count();
        SaidFood {
            name,
            food: None,
            amount: None,
            quantifier: Quantifier::None,
            part: None,
            package: None,
            prep: Vec::new(),
            to_taste: false,
            name_at: (0, words),
            amount_len: 0,
        }
    }
}

struct Name {
    words: Vec<String>,
    food: Option<Food>,
    prep: Vec<String>,
    from: usize,
    to: usize,
}

/// name := (describer | (adverb* preparation) | idle)* (known-food head* | unknown{1,3})
///
/// An unknown name is taken only where `open` says that an amount stands before it.
fn name(i: Tokens<'_>, open: bool) -> Option<Name> {
    name_of(i, open, false)
}

/// The same; of a `thing` that "the" or "some" stands before, its first word gives no order: "sprinkle the flour on".
fn name_of(i: Tokens<'_>, open: bool, thing: bool) -> Option<Name> {
    let lists = lexicon();
    let mut words: Vec<String> = Vec::new();
    let mut prep: Vec<String> = Vec::new();
    let mut food: Option<Food> = None;
    let (mut at, mut from, mut to) = (0, usize::MAX, 0);
    let mut unknown = 0;
    let mut pending_describers = 0;
    // "sprinkle it over", "salt them": an order, whatever its first word may also name.
    if !open
        && !(thing && i.nth_any(1, "on over"))
        && lists.verbs.exact(i).is_some_and(|(n, v)| {
            v.class != crate::lexicon::VerbClass::Everyday
                && i.nth_any(n, "it them over on that those these everything")
        })
    {
        return None;
    }
    // "a cookie sheet", "margarine tubs": a thing of the kitchen that is named after a food.
    if lists.tools.folded(i).is_some_and(|(n, ())| n > 1) || lists.pans.folded(i).is_some_and(|(n, _)| n > 1) {
        return None;
    }
    let start_is_verb = lists.verbs.exact(i).is_some_and(|(n, v)| {
        v.class != crate::lexicon::VerbClass::Everyday
            && v.base == "sprinkle"
            && n == 1
            && i.get(1).is_some_and(|t| {
                t.is_any("the a in some with it over on")
                    || matches!(t.kind, Kind::Number(_))
                    || number(i.skip(1)).is_ok()
            })
    });
    if start_is_verb {
        return None;
    }
    while at < i.len().min(12) {
        let rest = i.skip(at);
        let Some(t) = rest.first() else { break };
        let push = |n: usize, words: &mut Vec<String>, from: &mut usize| {
            *from = (*from).min(at);
            for k in 0..n {
                if let Some(t) = rest.get(k) {
                    words.push(t.text.to_string());
                }
            }
        };
        // "An old coffee can": a thing named after a food, wherever it stands.
        if food.is_none() && at > 0 && lists.tools.folded(rest).is_some_and(|(n, ())| n > 1) {
            return None;
        }
        // "You just sprinkle those over": the food is always said as more than one.
        // "Two fat leeks."
        if t.is("fat") && food_ahead(rest.skip(1), 0) {
            at += 1;
            continue;
        }
        // "Walnuts half a cup": no walnut halves.
        let half = |n: usize| n == 2 && rest.skip(1).at("half") && amount(rest.skip(1)).is_ok();
        let listed = lists.foods.folded(rest).filter(|_| !t.is("sprinkle"));
        let listed = listed.map(|(n, f)| (if half(n) { 1 } else { n }, f));
        // "can" the verb, "salt it", "butter the pan" are settled by the caller.
        if let Some((n, f)) = listed {
            let head = lists.heads.folded(rest).is_some_and(|h| h.0 == n);
            if n == 1
                && t.is_any("back uh date port lime")
                && food.is_none()
                && words.is_empty()
                && !open
                && t.is_any("back uh date port")
            {
                break;
            }
            // A longer preparation ("cut in half") or a describer that the list of foods also has ("orange") goes on.
            if food.is_some() && !head && !(open && at == to && compound(i.skip(at), n)) {
                break;
            }
            if unknown > 0 && food.is_none() && !head && !open {
                break;
            }
            push(n, &mut words, &mut from);
            food = Some(match food {
                Some(first) if head && f.tags.is_empty() => first,
                _ => f,
            });
            at += n;
            to = at;
            // "an envelope of onion soup": measured, the dish belongs to the name.
            if open && i.nth_any(at, "soup gravy") {
                let soup = i.skip(at);
                words.extend(soup.first().map(|t| t.text.to_string()));
                at += 1;
                to = at;
            }
            continue;
        }
        if food.is_some() || (unknown > 0 && lists.heads.folded(rest).is_some()) {
            if let Some((n, ())) = lists.heads.folded(rest)
                && rest.first().is_some_and(|t| t.kind == Kind::Word)
                && lists.verbs.exact(rest).is_none_or(|v| {
                    v.1.class == crate::lexicon::VerbClass::Everyday
                        || rest.get(n).is_none_or(|t| !t.is_any("the it them that this"))
                })
            {
                push(n, &mut words, &mut from);
                at += n;
                to = at;
                unknown = 0;
                continue;
            }
            break;
        }
        if t.kind == Kind::Comma {
            // "boneless, skinless chicken thighs"
            let next = rest.skip(1);
            if pending_describers > 0
                && let Some((n, ())) = lists.describers.exact(next).or_else(|| lists.prep.exact(next))
                && food_ahead(next.skip(n), 3)
            {
                at += 1;
                continue;
            }
            break;
        }
        // "18 percent cream", "85% hamburger": how fat it is.
        if matches!(t.kind, Kind::Number(_))
            && food.is_none()
            && rest.get(1).is_some_and(|t| t.is("percent") || t.is("%"))
            && food_ahead(rest.skip(2), 2)
        {
            push(2, &mut words, &mut from);
            at += 2;
            continue;
        }
        if t.kind == Kind::Sign && t.is("%") && !words.is_empty() {
            push(1, &mut words, &mut from);
            at += 1;
            continue;
        }
        if t.kind != Kind::Word {
            break;
        }
        if t.is("and") {
            // "peeled and diced potatoes", "salted and roasted peanuts"
            let next = rest.skip(1);
            if (!prep.is_empty() || pending_describers > 0)
                && at > 0
                && (lists.prep.exact(next).is_some() || lists.describers.exact(next).is_some())
                && food_ahead(next, 3)
            {
                at += 1;
                continue;
            }
            break;
        }
        // "Brown or green lentils": either will do.
        if t.is("or")
            && pending_describers > 0
            && food.is_none()
            && let Some((n, ())) = lists.describers.exact(rest.skip(1))
            && food_ahead(rest.skip(1 + n), 1)
        {
            push(1, &mut words, &mut from);
            at += 1;
            continue;
        }
        // "Two cups of juice": measured, the word of a compound stands alone.
        if open && words.is_empty() && t.is_in("measured only") && !food_ahead(rest.skip(1), 1) {
            push(1, &mut words, &mut from);
            unknown += 1;
            at += 1;
            to = at;
            continue;
        }
        // "One tablespoon of browning": measured, a word that is also a verb.
        if open
            && words.is_empty()
            && prep.is_empty()
            && t.text.ends_with("ing")
            && t.text.len() > 5
            && (rest.get(1).is_none_or(|n| !n.is_spoken() || n.is_any("and in for on")) || number(rest.skip(1)).is_ok())
        {
            push(1, &mut words, &mut from);
            unknown += 1;
            at += 1;
            to = at;
            continue;
        }
        let adverbs = adverbs(rest);
        if let Some((n, ())) = lists
            .prep
            .exact(rest.skip(adverbs))
            .filter(|_| !t.is("in") && lists.describers.exact(rest).is_none_or(|d| d.0 < adverbs + 1))
        {
            if !food_ahead(rest.skip(adverbs + n), 5)
                && !(open
                    && rest
                        .get(adverbs + n)
                        .is_some_and(|t| t.kind == Kind::Word && !lexicon().has("name end", &t.text)))
            {
                break;
            }
            prep.push(join(rest, adverbs + n));
            at += adverbs + n;
            continue;
        }
        if let Some((n, ())) = lists.describers.exact(rest) {
            push(n, &mut words, &mut from);
            pending_describers += 1;
            at += n;
            continue;
        }
        if lexicon().has("idle name", &t.text) {
            if t.is("big") {
                push(1, &mut words, &mut from);
            }
            at += 1;
            continue;
        }
        // A word of no list.
        // "Two cups of fried onions": measured, what was done to a food is no order.
        let done = open && t.text.ends_with("ed") && food_ahead(rest.skip(1), 0);
        let stops = lexicon().has("name end", &t.text)
            || lexicon().has("ordinary", &t.text)
            || crate::letters::holds(&t.text, "'")
            || lists.talk.exact(rest).is_some_and(|m| matches!(m.1.0, "opener" | "chatter"))
            || lists.verbs.exact(rest).is_some() && !done && !(open && lists.heads.folded(rest).is_some())
            || lists.tools.folded(rest).is_some()
            || lists.people.folded(rest).is_some()
            || unit(rest).is_some()
            || number(rest).is_ok();
        if stops || unknown >= 3 {
            break;
        }
        if !open && !(food_ahead(rest.skip(1), 1) && lists.heads.folded(rest.skip(1)).is_some()) {
            break;
        }
        push(1, &mut words, &mut from);
        unknown += 1;
        at += 1;
        to = at;
    }
    // "Whatever mixed fruit's in."
    let short = words.last().is_some_and(|w| w.ends_with("'s"));
    if short || food.is_none() && (!open || unknown == 0) {
        return None;
    }
    // "a brown sugar streusel", "the lemon slice", "a coffee mug": what follows owns the name.
    let next = i.skip(to);
    if !open && next.first().is_some_and(|t| t.kind == Kind::Word) {
        let owner = lists.components.folded(next).is_some() && !next.at_any("crumb inside")
            || lists.dishes.folded(next).is_some_and(|(n, ())| {
                lists.foods.folded(next).is_none() && lists.verbs.exact(next).is_none() && n > 0
            })
            || lists.tools.folded(next).is_some() && lists.foods.folded(next).is_none() && !next.at_any("can on in")
            || next.at_any("dinner dinners dishes recipe recipes lunches");
        if owner && unit(next).is_none() {
            return None;
        }
    }
    (to > 0 && !words.is_empty()).then(|| Name { words, food, prep, from: from.min(to), to })
}

/// Whether a second food of `n` words is the head of the first: "whole milk yogurt", "chocolate protein powder". What is often
/// said without an amount of its own ("milk salt"), and what leads a list ("milk onion and garlic"), stands for itself.
fn compound(i: Tokens<'_>, n: usize) -> bool {
    let after = i.skip(n);
    let leads = after.at_any("and or") && food_ahead(after.skip(1), 1);
    let body = lexicon().foods.folded(i).is_some_and(|(_, f)| f.is("dairy condiment sweet bread pasta grain"));
    body && !leads && !i.0.iter().take(n).any(|t| lexicon().has("seasons", &t.text))
}

/// Whether a known food begins within the next `n` words, none of them closed.
fn food_ahead(i: Tokens<'_>, n: usize) -> bool {
    let lists = lexicon();
    for k in 0..=n {
        let rest = i.skip(k);
        if lists.foods.folded(rest).is_some() {
            return true;
        }
        match rest.first() {
            Some(t) if t.kind == Kind::Word && (!lexicon().has("name end", &t.text) || t.is("and")) => {}
            _ => return false,
        }
    }
    false
}

fn adverbs(i: Tokens<'_>) -> usize {
    let mut n = 0;
    while n < 3 && lexicon().adverbs.exact(i.skip(n)).is_some() {
        n += 1;
    }
    n
}

fn join(i: Tokens<'_>, n: usize) -> String {
    crate::token::said(i.0.get(..n).unwrap_or(i.0))
}

/// food := each-amount | amount "of"? name after* | count name after* | "juice" "of" … | quantifier name after* | name after*
///
/// Preparation, a container's size and "to taste" that follow are taken with it.
pub fn food(i: Tokens<'_>) -> Read<'_, SaidFood> {
    if let Ok(found) = part_of_fruit(i) {
        return Ok(found);
    }
    // "half a dozen whole cloves" are the spice, not garlic's.
    if let Ok((rest, n)) = number(i)
        && rest.at("whole")
        && rest.nth_any(1, "cloves clove")
        && !rest.nth_any(2, "of garlic")
        && let Some(amount) = Amount::range(n.low, n.high, None)
    {
        let skip = taken(i, rest);
        let end = rest.skip(2);
        let said = SaidAmount::plain(amount);
        let food = SaidFood {
            food: lexicon().foods.folded(rest.skip(1)).map(|f| f.1),
            amount: Some(said),
            name_at: (skip, skip + 2),
            amount_len: skip,
            ..SaidFood::named("whole cloves".into())
        };
        return Ok((end, food));
    }
    if let Ok((rest, said)) = amount(i) {
        let amount_len = taken(i, rest);
        if said.each {
            return miss(i);
        }
        let mut after = rest;
        if after.at("of") {
            after = after.skip(1);
            // "Half a cup of that litre of milk": a part of what was measured out.
            if after.at_any("that the my your this those")
                && let Some((len, _)) = unit(after.skip(1))
                && after.get(1 + len).is_some_and(|t| t.is("of"))
            {
                after = after.skip(len + 2);
            }
        }
        // "A teaspoon of, um, the seafood seasoning", "one sleeve of them buttery crackers".
        if rest.at("of") {
            let pause = after.0.iter().take_while(|t| t.kind == Kind::Comma || t.is_in("hesitates")).count();
            if pause > 0 && after.get(pause).is_some_and(|t| t.kind == Kind::Word) {
                after = after.skip(pause);
                after = after.skip(usize::from(after.at_any("the a some")));
            } else if after.at("them") && after.get(1).is_some_and(|t| t.kind == Kind::Word) {
                after = after.skip(1);
            }
        }
        let measured = !matches!(said.amount.unit(), Some(u) if u.dimension() == Dimension::Length);
        if let Some(n) = name(after, measured) {
            let skip = taken(i, after);
            return Ok(with_after(i, after, n, skip, Some(said), amount_len, Quantifier::None));
        }
        return miss(i);
    }
    // A plain count: "two eggs", "one large onion", "about 10 mini pepperoni", "another onion".
    let start = match about(i) {
        Ok((rest, ())) => rest,
        Err(_) => i,
    };
    let (counted, more) = if start.at("another") {
        (
            number(start.skip(1))
                .ok()
                .or(Some((start.skip(1), super::number::Number { low: Ratio::ONE, high: Ratio::ONE }))),
            true,
        )
    } else if start.at_any("a an") && !start.nth_any(1, "few little bit lot couple") {
        // "an egg", "a big white onion": one.
        match number(start) {
            Ok(found) => (Some(found), false),
            Err(_) => (Some((start.skip(1), super::number::Number { low: Ratio::ONE, high: Ratio::ONE })), false),
        }
    } else {
        (number(start).ok(), false)
    };
    if let Some((rest, n)) = counted {
        let mut rest = rest;
        let mut more = more;
        if rest.at("more") {
            more = true;
            rest = rest.skip(1);
        }
        let mut of_the = false;
        // "half of the onion", "two of the eggs", "half a red onion", "half that onion".
        if rest.at("of") && rest.nth_any(1, "the those that your my these them") {
            of_the = true;
            rest = rest.skip(2);
        } else if n.low < Ratio::ONE && rest.at_any("the that your my those") {
            of_the = true;
            rest = rest.skip(1);
        } else if n.low < Ratio::ONE && rest.at("of") && rest.nth_any(1, "a an") {
            rest = rest.skip(2);
        } else if n.low < Ratio::ONE
            && (rest.at_any("a an")
                || rest.at("of")
                    && (1..=2).any(|k| {
                        (k == 1 || rest.get(1).is_some_and(|t| t.is_in("size of a piece")))
                            && lexicon().foods.folded(rest.skip(k)).is_some_and(|f| f.1.is("produce fruit"))
                    }))
        {
            rest = rest.skip(1);
        }
        // "a four pound chicken": the size of a counted thing.
        let mut package = None;
        if let Ok((after, size)) = super::number::mixed(rest)
            && let Some((len, u)) = unit(after)
            && matches!(u.dimension(), Dimension::Weight)
        {
            // "A two pound ring of sausage".
            let after = after.skip(len);
            let after = after.skip(if after.is_in("shape of a piece") && after.get(1).is_some_and(|t| t.is("of")) {
                2
            } else {
                0
            });
            if name(after, false).is_some() {
                package = Some(Package { size, unit: u });
                rest = after;
            }
        }
        if let Some(named) = name(rest, false)
            && let Some(amount) = Amount::range(n.low, n.high, None)
        {
            let skip = taken(i, rest);
            let article = start.at_any("a an") && n.low == Ratio::ONE;
            let said = SaidAmount { amount, package, each: false, more, of_the, bare: false, article };
            let mut named = named;
            let mut said = said;
            // "Ten shallots slice thin" is an order; so many of them are slices.
            let order = rest.skip(named.to).at("slice") && n.high > Ratio::ONE;
            if let Some((len, u)) = unit(rest.skip(named.to))
                && trails(u)
                && !order
                && !rest.skip(named.to + len).at_any("it them the those these")
            {
                said.amount = said.amount.in_unit(Some(u));
                named.to += len;
            }
            let manner = if start.len() < i.len() && !i.at_any("like say a") {
                crate::measure::Manner::About
            } else {
                crate::measure::Manner::Plain
            };
            let said = SaidAmount { amount: said.amount.in_manner(manner), ..said };
            let quantifier = if of_the { Quantifier::Part } else { Quantifier::None };
            let (rest, mut out) = with_after(i, rest, named, skip, Some(said), skip, quantifier);
            if of_the && n.low < Ratio::ONE {
                out.part = Some(n.low);
                out.amount = None;
            }
            return Ok((rest, out));
        }
    }
    let (mut skip, quantifier, part) = quantifier(i);
    // "a few handfuls of spinach": some spinach.
    if quantifier == Quantifier::Some
        && let Some((n, _)) = unit(i.skip(skip))
        && i.get(skip + n).is_some_and(|t| t.is("of"))
    {
        skip += n + 1;
    }
    let rest = i.skip(skip);
    match name_of(rest, false, skip > 0) {
        Some(n) => {
            let (end, mut out) = with_after(i, rest, n, skip, None, 0, quantifier);
            out.part = part;
            Ok((end, out))
        }
        None => miss(i),
    }
}

/// Units that may stand after their food: "two garlic cloves", "four bacon slices", "three celery ribs".
fn trails(u: crate::measure::Unit) -> bool {
    use crate::measure::Unit::*;
    matches!(
        u,
        Clove
            | Stalk
            | Rib
            | Slice
            | Sprig
            | Fillet
            | Head
            | Ear
            | Bunch
            | Strip
            | Sheet
            | Wedge
            | Stick
            | Cube
            | Piece
            | Bag
            | Can
            | Box
            | Jar
            | Packet
            | Block
            | Package
    )
}

/// each := amount "each" ("of")? name (","? "and"? name)*
///
/// "a teaspoon each of mace, allspice and white pepper": one amount, several foods.
pub fn each(i: Tokens<'_>) -> Read<'_, Vec<SaidFood>> {
    let (rest, said) = match amount(i) {
        Ok(found) => found,
        Err(m) => {
            // "Cup each of rye flour and cornmeal".
            if let Some((n, unit)) = unit(i)
                && i.get(n).is_some_and(|t| t.is("each"))
                && let Some(amount) = Amount::range(Ratio::ONE, Ratio::ONE, Some(unit))
            {
                let said = SaidAmount { each: true, ..SaidAmount::plain(amount) };
                return listed(i, i.skip(n + 1), said);
            }
            // "two each of the red and green peppers", "one each".
            let (rest, n) = number(i)?;
            if !rest.at("each") {
                return Err(m);
            }
            let Some(amount) = Amount::range(n.low, n.high, None) else { return miss(i) };
            (
                rest.skip(1),
                SaidAmount {
                    amount,
                    package: None,
                    each: true,
                    more: false,
                    of_the: false,
                    bare: false,
                    article: false,
                },
            )
        }
    };
    if !said.each {
        return miss(i);
    }
    listed(i, rest, said)
}

/// The foods to each of which an amount belongs.
fn listed<'a>(i: Tokens<'a>, mut rest: Tokens<'a>, said: SaidAmount) -> Read<'a, Vec<SaidFood>> {
    let amount_len = taken(i, rest);
    if rest.at("of") || rest.first().is_some_and(|t| t.kind == Kind::Comma) {
        rest = rest.skip(1);
    }
    let mut out: Vec<SaidFood> = Vec::new();
    // "A cup each of white and brown sugar": both are sugar.
    if let Some((first, joint)) = lexicon().describers.exact(rest).map(|d| (d.0, rest.skip(d.0)))
        && joint.at("and")
        && lexicon().describers.exact(joint.skip(1)).is_some()
        && let Some(second) = name(joint.skip(1), true)
        && second.food.is_some()
        && let Some(head) = second.words.last().cloned()
    {
        let words = rest.0[..first].iter().map(|t| t.text.to_string()).chain([head]).collect();
        let one = Name { words, food: second.food, prep: Vec::new(), from: 0, to: first };
        let skip = taken(i, rest);
        let plain = Some(SaidAmount { each: false, ..said });
        let (_, food) = with_after(i, Tokens(&rest.0[..first]), one, skip, plain, amount_len, Quantifier::None);
        out.push(food);
        rest = joint.skip(1);
    }
    while let Some(n) = name(rest, true) {
        let skip = taken(i, rest);
        let said = SaidAmount { each: false, ..said };
        let (end, food) =
            with_after(i, rest, n, skip, Some(said), if out.is_empty() { amount_len } else { 0 }, Quantifier::None);
        out.push(food);
        rest = end;
        let mut next = rest;
        if next.first().is_some_and(|t| t.kind == Kind::Comma) {
            next = next.skip(1);
        }
        if next.at_any("and plus") {
            next = next.skip(1);
        }
        // A new amount ends the list.
        if next.len() == rest.len()
            || amount(next).is_ok()
            || number(next).is_ok()
            || (next.at_any("a some"))
            || (next.at("then"))
        {
            break;
        }
        if next.len() < rest.len() {
            let comma_only = !rest.0.iter().take(taken(rest, next)).any(|t| t.is("and"));
            // After "and" one more name at most, unless it is a known food.
            let known = name(next, false).is_some();
            if !known && !comma_only && out.len() > 1 {
                break;
            }
            rest = next;
        }
    }
    if out.is_empty() { miss(i) } else { Ok((rest, out)) }
}

/// part_of_fruit := ("the")? ("juice" | "zest" | …) ("and" …)? ("of" | "from") count? name
fn part_of_fruit(i: Tokens<'_>) -> Read<'_, SaidFood> {
    let mut rest = i;
    if rest.at_any("the some") {
        rest = rest.skip(1);
    }
    let mut prep: Vec<String> = Vec::new();
    if rest.at_any("a good") && rest.nth_any(1, "squeeze squirt") {
        rest = rest.skip(1);
    }
    if rest.at_any("grated finely squeezed") {
        rest = rest.skip(1);
    }
    loop {
        if rest.at_any("juice zest peel rind pulp squeeze squirt") {
            prep.push(rest.first().map_or(String::new(), |t| t.text.to_string()));
            rest = rest.skip(1);
        } else {
            break;
        }
        if rest.at("and") {
            rest = rest.skip(1);
            if rest.at("the") {
                rest = rest.skip(1);
            }
        } else {
            break;
        }
    }
    if prep.is_empty() || !rest.at_any("of from") {
        return miss(i);
    }
    rest = rest.skip(1);
    let loose = prep.iter().any(|p| p == "squeeze" || p == "squirt");
    let (rest, n) = match number(rest) {
        Ok((rest, n)) => (rest, Some(n)),
        Err(_) if rest.at_any("a an") => {
            (rest.skip(1), Some(super::number::Number { low: Ratio::ONE, high: Ratio::ONE }))
        }
        Err(_) => (rest, None),
    };
    let mut rest = rest;
    let fraction = n.is_some_and(|n| n.low < Ratio::ONE);
    let loose = loose && !fraction;
    if fraction && rest.at_any("a an") {
        rest = rest.skip(1);
    } else if fraction && rest.at("of") {
        rest = rest.skip(2);
    }
    let Some(named) = name(rest, false) else { return miss(i) };
    let skip = taken(i, rest);
    let said = n.filter(|_| !loose).and_then(|n| Amount::range(n.low, n.high, None)).map(SaidAmount::plain);
    let (end, mut out) = with_after(i, rest, named, skip, said, skip, Quantifier::None);
    if loose {
        out.quantifier = Quantifier::Some;
    }
    prep.append(&mut out.prep);
    out.prep = prep;
    Ok((end, out))
}

/// quantifier := "the rest of" | "half of the" | "some" | "a little" | "the" | …
fn quantifier(i: Tokens<'_>) -> (usize, Quantifier, Option<crate::measure::Ratio>) {
    use crate::measure::Ratio;
    for (n, den) in [("half", 2), ("third", 3), ("quarter", 4), ("fourth", 4)] {
        let lead = usize::from(i.at_any("a one another about"));
        let of = i.get(lead).is_some_and(|t| t.is(n))
            && i.get(lead + 1).is_some_and(|t| t.is("of"))
            && i.nth_any(lead + 2, "the that your my those your");
        if of {
            return (lead + 3, Quantifier::Part, Some(Ratio::of(1, den)));
        }
        let the = i.get(lead).is_some_and(|t| t.is(n)) && i.nth_any(lead + 1, "the that your my");
        if the {
            return (lead + 2, Quantifier::Part, Some(Ratio::of(1, den)));
        }
    }
    if !i.is_in("begins a quantity") {
        return (0, Quantifier::None, None);
    }
    let kinds = [
        ("the rest", Quantifier::Rest),
        ("a part", Quantifier::Part),
        ("some more", Quantifier::More),
        ("a little", Quantifier::Some),
        ("all of it", Quantifier::All),
        ("the known", Quantifier::The),
    ];
    let said = kinds.map(|(set, kind)| (lexicon().lead(set, i), kind, None));
    said.into_iter().max_by_key(|s| s.0).filter(|s| s.0 > 0).unwrap_or((0, Quantifier::None, None))
}

/// What may follow an amount that came after its food: preparation and a container's size. Gives the tokens taken.
pub fn tail(i: Tokens<'_>) -> (usize, Vec<String>, Option<Package>) {
    let nothing = Name { words: vec![String::new()], food: None, prep: Vec::new(), from: 0, to: 0 };
    let container = super::number::Number { low: Ratio::ONE, high: Ratio::ONE };
    let amount = Amount::range(container.low, container.high, Some(crate::measure::Unit::Can));
    let said = amount.map(SaidAmount::plain);
    let (rest, food) = with_after(i, i, nothing, 0, said, 0, Quantifier::None);
    (taken(i, rest), food.prep, food.package)
}

/// Takes what may follow a name: preparation, more describers, a container's size, "to taste".
fn with_after<'t>(
    from: Tokens<'t>,
    at: Tokens<'t>,
    named: Name,
    skip: usize,
    said: Option<SaidAmount>,
    amount_len: usize,
    quantifier: Quantifier,
) -> (Tokens<'t>, SaidFood) {
    let lists = lexicon();
    let mut rest = at.skip(named.to);
    let mut out = SaidFood {
        name: crate::letters::join(&named.words, " "),
        food: named.food,
        package: said.and_then(|s| s.package),
        amount: said,
        quantifier,
        part: None,
        prep: named.prep,
        to_taste: false,
        name_at: (skip + named.from, skip + named.to),
        amount_len,
    };
    // "Two cans of X, the 15 ounce can": only for containers.
    let container = out.amount.is_some_and(|a| a.amount.unit().is_some_and(|u| u.is_container()));
    for _ in 0..5 {
        if rest.at("to") && rest.get(1).is_some_and(|t| t.is("taste")) {
            out.to_taste = true;
            rest = rest.skip(2);
            continue;
        }
        if container
            && out.package.is_none()
            && let Ok((after, p)) = package_after(rest)
        {
            out.package = Some(p);
            rest = after;
            continue;
        }
        let comma = rest.first().is_some_and(|t| matches!(t.kind, Kind::Comma) || t.text.starts_with('('));
        let mut next = if comma { rest.skip(1) } else { rest };
        // "that I cut in half", "which I've rinsed", "that's been softened", "and I drain those": who did it is no matter.
        let relative = relative(next);
        next = next.skip(relative);
        let and = comma && next.at("and") || !out.prep.is_empty() && next.at("and");
        if and {
            next = next.skip(1);
            next = next.skip(usize::from(next.at("then")));
        }
        let before = next;
        while next.at_any("still already also all maybe like just") {
            next = next.skip(1);
        }
        let adv = adverbs(next);
        if let Some((n, ())) = lists.prep.exact(next.skip(adv)) {
            let mut len = adv + n;
            let head = next.get(adv).map(|t| t.text.to_string()).unwrap_or_default();
            // The word may begin the next food ("onion, chopped parsley"), or a verb's object may follow ("drained the").
            let after = next.skip(len);
            // "A stock cube in half a pint of water": a half of what follows.
            let half = next.get(len.wrapping_sub(1)).is_some_and(|t| t.is("half"))
                && (after.at_any("a an of") || unit(after).is_some());
            // "Four avocados, juice of two limes": of what comes next.
            let of_next = after.at("of") && next.nth_any(len.wrapping_sub(1), "juice zest rind peel");
            if half
                || of_next
                || after.at_any("the it them my your this")
                || (n == 1 && food_ahead(after, 0) && !comma_before_food(after)) && relative == 0 && !is_cut(&head)
            {
                break;
            }
            if (comma || and) && n == 1 && relative == 0 && adv == 0 && is_fresh_food(after) {
                break;
            }
            if is_cut(&head) {
                len += cut_tail(next.skip(len));
            }
            let while_and = next.skip(len);
            out.prep.push(join(next, len));
            rest = while_and;
            continue;
        }
        if comma && relative == 0 && !and {
            if let Some((n, ())) = lists.describers.exact(before) {
                let after = before.skip(n);
                let alone = after.first().is_none_or(|t| {
                    !matches!(t.kind, Kind::Word | Kind::Number(_)) || t.is_any("kind one ones and or that then")
                });
                if alone && !food_ahead(before, 2) {
                    out.name = format!("{} {}", join(before, n), out.name);
                    rest = after.skip(usize::from(after.at_any("kind one ones")));
                    continue;
                }
            }
            // ", the dried kind", ", the wide ones"
            if before.at("the")
                && let Some((n, ())) = lists.describers.exact(before.skip(1))
                && before.get(1 + n).is_some_and(|t| t.is_any("kind one ones type sort stuff"))
            {
                out.name = format!("{} {}", join(before.skip(1), n), out.name);
                rest = before.skip(2 + n);
                continue;
            }
        }
        break;
    }
    (from.skip(taken(from, rest)), out)
}

fn comma_before_food(i: Tokens<'_>) -> bool {
    i.first().is_some_and(|t| t.kind == Kind::Comma)
}

/// Whether what stands here is the name of another food, so that the word before is its preparation.
fn is_fresh_food(i: Tokens<'_>) -> bool {
    name(i, false).is_some()
}

/// How many tokens "that I", "which I've already", "that's been" take.
fn relative(i: Tokens<'_>) -> usize {
    if i.at_any("that's that've") {
        return 1 + usize::from(i.get(1).is_some_and(|t| t.is("been")));
    }
    let that = usize::from(i.at_any("that which"));
    let who = match i.get(that) {
        Some(t) if t.is_in("who did it") => 1,
        _ => 0,
    };
    if that == 0 {
        return 0;
    }
    let mut n = that + who;
    while i.get(n).is_some_and(|t| t.is_in("already")) {
        n += 1;
    }
    if who == 0 && that == 1 && n == 1 { 0 } else { n }
}

/// Words of cutting, which take a tail: "sliced thin", "cut into wedges".
fn is_cut(word: &str) -> bool {
    lexicon().has("cuts", word)
}

/// Whether an amount with a food begins here: "half a cup of water", "half a red onion"; no length ("half an inch thick").
fn next_amount(i: Tokens<'_>) -> bool {
    if let Ok((_, said)) = super::amount::amount(i) {
        return said.amount.unit().is_some_and(|u| u.dimension() != Dimension::Length);
    }
    let Ok((rest, n)) = number(i) else { return false };
    let rest = rest.skip(usize::from(n.low < Ratio::ONE && rest.at_any("a an of")));
    !i.at_any("a an one") && name(rest, false).is_some()
}

fn cut_tail(i: Tokens<'_>) -> usize {
    let mut n = 0;
    let mut good = 0;
    while n < 10 {
        let Some(t) = i.get(n) else { break };
        if t.kind == Kind::Comma && i.nth_any(n + 1, "maybe about") {
            n += 1;
            continue;
        }
        let here = i.skip(n);
        // "Carrots grated half a cup of syrup": in talk without stops the next food begins with its amount.
        if next_amount(here) {
            break;
        }
        if let Some((len, ())) = lexicon().cuts.exact(here) {
            // Joints end a tail; they only count when more of it follows.
            let joint = t.is_in("joint of a tail");
            // "Onions sliced and half a cup of parsley": the next amount begins.
            if t.is("and") && super::amount::amount(here.skip(1)).is_ok() {
                break;
            }
            if t.is("and")
                && here.get(1).is_none_or(|t| !t.is_any("then a") && lexicon().cuts.exact(here.skip(1)).is_none())
            {
                break;
            }
            n += len;
            if !joint || t.is("up") {
                good = n;
            }
        } else if matches!(t.kind, Kind::Number(_)) {
            n += 1;
        } else {
            break;
        }
    }
    good
}
