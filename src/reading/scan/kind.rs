//! What kind of food, said after its name: "flour, all-purpose", "a pepper, the orange one", "chicken, legs and thighs".

use super::{Found, Item};
use crate::grammar::amount::SaidAmount;
use crate::grammar::food::{Quantifier, SaidFood};
use crate::item::Items;
use crate::lexicon::{Food, lexicon};
use crate::measure::{Amount, Ratio, Unit};
use crate::token::{Kind, Token, Tokens};

/// So far back garlic is looked for, and so far on.
const GARLIC: (usize, usize) = (80, 20);

/// "A bay leaf and six cloves": the spice, where nobody speaks of garlic.
pub fn cloves(tokens: &[Token], found: &mut [Found]) {
    for f in found {
        let Item::Loose(said) = f.item else { continue };
        let near = tokens.row(f.from.saturating_sub(GARLIC.0), (f.to + GARLIC.1).min(tokens.len()));
        let ends = tokens.get(f.to).is_none_or(|t| !t.is_spoken() || t.is_any("and in then stuck stick whole"));
        if said.amount.unit() == Some(Unit::Clove)
            && ends
            && !said.of_the
            && !near.iter().any(|t| t.is_any("garlic garlicky"))
        {
            let listed = lexicon().foods.folded(Tokens(&[Token::word("cloves")])).map(|l| l.1);
            let counted = SaidAmount { amount: said.amount.in_unit(None), ..said };
            let food = SaidFood { food: listed, amount: Some(counted), ..SaidFood::named("cloves".into()) };
            f.item = Item::Food(Box::new(food));
        }
    }
}

/// Gives a measured food the kind that is said after it; what only tells the kind is no food of its own.
pub(super) fn told_after(tokens: &[Token], found: &mut Vec<Found>) {
    found.retain(|f| !tells_one_from_another(tokens, f));
    // "Three parts oil to one part vinegar" is no measure.
    found.retain(|f| !matches!(&f.item, Item::Food(x) if x.name.starts_with("part ") || x.name.starts_with("parts ")));
    good_ones(tokens, found);
    for f in found.iter_mut() {
        // "One onion and a half."
        let half = Tokens(tokens.row(f.to, (f.to + 4).min(tokens.len())));
        if let Item::Food(x) = &mut f.item
            && half.at("and")
            && half.get(1).is_some_and(|t| t.is("a"))
            && half.get(2).is_some_and(|t| t.is("half"))
            && half.get(3).is_none_or(|t| !t.is_spoken())
            && let Some(said) = x.amount.filter(|a| a.amount.unit().is_none() && !a.amount.is_range())
            && let Some(sum) = Amount::range(Ratio::of(1, 2), Ratio::of(1, 2), None).and_then(|h| said.amount.plus(h))
        {
            x.amount = Some(SaidAmount { amount: sum, article: false, ..said });
            f.to += 3;
        }
    }
    for f in found.iter_mut() {
        // "Two cans of evaporated": the card says of what.
        if let Item::Food(x) = &mut f.item
            && x.name.ends_with("ed")
            && let Some(listed) = x.food.filter(|l| l.name.strip_prefix(&*x.name).is_some_and(|r| r.starts_with(' ')))
        {
            x.name = listed.name.to_string();
        }
    }
    let mut n = 1;
    while n < found.len() {
        let (left, right) = found.split_at_mut(n);
        let (Some(Found { item: Item::Food(food), to, .. }), Some(Found { item: Item::Food(kind), from, to: end })) =
            (left.last_mut(), right.first())
        else {
            n += 1;
            continue;
        };
        let words = tokens.row((*to + 1).min(*end), *end);
        let describes = lexicon().describers.exact(Tokens(words)).is_some_and(|d| d.0 == words.len());
        // "Legs and thighs": only the last of them is known as a food by itself.
        let parts = describes
            || (*to + 1..*from)
                .all(|k| tokens.item(k).is("and") || lexicon().has("part of a bird", &tokens.item(k).text));
        let apposed = *from > *to && tokens.item(*to).kind == Kind::Comma && parts;
        let alone = tokens.get(*end).is_none_or(|t| !t.is_spoken() || t.is_any("and or in with if is for from"));
        // "Milk, butter, and sugar" is a list.
        let next =
            right.get(1).is_some_and(|f| f.from <= *end + 2 && tokens.item(*end).kind == Kind::Comma && slight(f));
        // "Potatoes, two pounds, the russet."
        let of_it = kind.quantifier == Quantifier::The
            && kind.food.is_some_and(|k| {
                k.name.rsplit(' ').next().map(crate::token::fold)
                    == food.name.rsplit(' ').next().map(crate::token::fold)
                    && k.name.len() > kind.name.len()
            });
        let plain = kind.quantifier == Quantifier::None || of_it;
        let bare = !next && kind.amount.is_none() && plain && kind.prep.is_empty();
        if !apposed || !alone || !bare || food.amount.is_none() {
            n += 1;
            continue;
        }
        let head = food.name.rsplit(' ').next().unwrap_or_default().to_string();
        // "A cup of oil, canola": the shop sells it as canola oil.
        let longer = format!("{} {head}", kind.name);
        // "Two pounds of chicken, thighs": a cut of it.
        let cut = |f: &Food| f.is("meat") || f.is("poultry");
        let is_cut = food.food.as_ref().is_some_and(cut) && listed(&format!("{head} {}", kind.name)).is_some();
        if is_cut {
            let last = *end;
            food.prep.push(crate::token::said(tokens.row(*to + 1, last)));
            left[n - 1].to = last;
            found.remove(n);
        } else if describes {
            let last = *end;
            food.name = format!("{} {}", crate::token::said(words), food.name);
            left[n - 1].to = last;
            found.remove(n);
        } else if let Some(whole) = listed(&longer) {
            let last = *end;
            rename(food, longer, whole);
            left[n - 1].to = last;
            found.remove(n);
        } else {
            n += 1;
        }
    }
}

/// Two foods that follow each other: the first with the place of its end, the second with its places.
fn beside(found: &mut [Found], n: usize) -> Option<(&mut SaidFood, &mut usize, &SaidFood, (usize, usize))> {
    let (left, right) = found.split_at_mut(n);
    match (left.last_mut()?, right.first()?) {
        (Found { item: Item::Food(food), to, .. }, Found { item: Item::Food(kind), from, to: end }) => {
            Some((food, to, kind, (*from, *end)))
        }
        _ => None,
    }
}

/// "Mekelesha, the finishing spice, half a teaspoon", "turmeric a teaspoon the powder": what it is, and no food of its own.
pub(super) fn what_it_is(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 1;
    while n < found.len() {
        let Some((food, to, kind, (from, end))) = beside(found, n) else {
            n += 1;
            continue;
        };
        let named = kind.name.rsplit(' ').next().is_some_and(|w| lexicon().has("what it is", w));
        let the = tokens.row(from, (from + kind.name_at.0 + 1).min(end)).iter().any(|t| t.is("the"));
        let joined = tokens.row(*to, from.max(*to)).iter().all(|t| t.kind == Kind::Comma);
        let other = kind.food.is_none_or(|k| k.name.split(' ').count() == 1);
        if named && the && other && joined && (food.food.is_some() || food.amount.is_none()) {
            if food.amount.is_none() {
                (food.amount, food.package) = (kind.amount, kind.package);
                *to = end;
            }
            found.remove(n);
        } else {
            n += 1;
        }
    }
}

/// "Ginger, a two inch piece, sliced", "ginger a four inch piece".
pub(super) fn long_after(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 0;
    while n < found.len() {
        let at = found[n].to;
        let comma = usize::from(tokens.get(at).is_some_and(|t| t.kind == Kind::Comma));
        let rest = Tokens(tokens.get(at + comma..(at + 10).min(tokens.len())).unwrap_or(&[]));
        if let Item::Food(x) = &mut found[n].item
            && x.amount.is_none()
            && let Some((after, amount)) = crate::grammar::amount::long(rest)
            && !after.at("of")
        {
            x.amount = Some(SaidAmount::plain(amount));
            let end = at + comma + rest.len() - after.len();
            found[n].to = end;
            found.retain(|f| f.from < at || f.from >= end);
        }
        n += 1;
    }
}

/// "Bacon, 400 grams of streaky": the second is only its kind, and no food the lists know. "Two tablespoons of sugar, brown
/// sugar": it is the same food by its whole name.
pub(super) fn kind_of(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 1;
    while n < found.len() {
        let Some((food, to, kind, (from, end))) = beside(found, n) else {
            n += 1;
            continue;
        };
        let near = from == *to + 1 && tokens.item(*to).kind == Kind::Comma;
        let words = kind.name.split(' ').count();
        let of = kind.amount.is_some_and(|a| a.amount.unit().is_some_and(|u| !u.is_loose()))
            && tokens.row(from, end).iter().any(|t| t.is("of"));
        let whole = kind.amount.is_none()
            && kind.quantifier == Quantifier::None
            && food.amount.is_some()
            && kind.name.strip_suffix(food.name.as_str()).is_some_and(|kind| kind.ends_with(' '))
            && tokens.get(end).is_none_or(|t| !t.is_spoken());
        let mere = of && food.amount.is_none() && food.food.is_some() && kind.food.is_none() && words == 1;
        if !near || !whole && !mere {
            n += 1;
            continue;
        }
        if whole {
            (food.name, food.food) = (kind.name.clone(), kind.food);
        } else {
            (food.amount, food.package) = (kind.amount, kind.package);
            // "Cracker crumbs, a cup of crumbs."
            if !food.name.ends_with(kind.name.as_str()) {
                food.name = format!("{} {}", kind.name, food.name);
            }
        }
        food.prep.extend(kind.prep.iter().cloned());
        *to = end;
        found.remove(n);
    }
}

/// "Your sausages in, eight good pork ones": the count and the kind are theirs.
fn good_ones(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 1;
    while n < found.len() {
        let kind = match &found[n].item {
            Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit().is_none() && !a.article) => x.clone(),
            _ => {
                n += 1;
                continue;
            }
        };
        let (from, end) = (found[n].from, found[n].to);
        let to = found[n - 1].to;
        let ones = tokens.get(end).is_some_and(|t| t.is("ones"));
        let near = (to..=to + 3).contains(&from) && tokens.row(to, from).iter().any(|t| t.kind == Kind::Comma);
        match &mut found[n - 1].item {
            Item::Food(food) if ones && near && food.amount.is_none() => {
                food.amount = kind.amount;
                food.name = format!("{} {}", kind.name, food.name);
                found[n - 1].to = end + 1;
                found.remove(n);
            }
            _ => n += 1,
        }
    }
}

/// "The orange one", "a green one", "the chocolate kind": a food's name that only tells one thing from another.
fn tells_one_from_another(tokens: &[Token], f: &Found) -> bool {
    let bare = matches!(&f.item, Item::Food(x) if x.amount.is_none_or(|a| a.article && a.amount.unit().is_none()));
    let led = (1..=2).any(|k| f.from >= k && tokens.item(f.from - k).is_any("the a an that"))
        || tokens.item(f.from).is_any("the a an that");
    bare && led && Tokens(tokens).nth_any(f.to, "one ones kind") && !tokens.get(f.to + 1).is_some_and(|t| t.is("of"))
}

fn slight(f: &Found) -> bool {
    matches!(&f.item, Item::Food(x) if x.amount.is_none())
}

/// The food of a whole name, if the lists know it.
pub(super) fn listed(name: &str) -> Option<Food> {
    let words = crate::token::words(name);
    lexicon().foods.folded(Tokens(&words)).filter(|f| f.0 == words.len()).map(|f| f.1)
}

fn rename(food: &mut SaidFood, name: String, listed: Food) {
    food.name = name;
    food.food = Some(listed);
}

/// "A pound of mince, half beef and half pork": what it is made of, no half of anything.
pub(super) fn made_half_and_half(tokens: &[Token], found: &mut Vec<Found>) {
    let half = |f: &Found| matches!(&f.item, Item::Food(x) if x.amount_len == 1 && x.name_at.0 == 1 && tokens.item(f.from).is("half"));
    let mut n = 1;
    while n < found.len() {
        let (a, b) = (&found[n - 1], &found[n]);
        let joined = tokens.row(a.to, b.from.max(a.to)).iter().all(|t| t.is("and") || t.kind == Kind::Comma);
        if !(half(a) && half(b) && joined) {
            n += 1;
            continue;
        }
        let made = n >= 2
            && found[n - 2].to + 4 >= found[n - 1].from
            && matches!(&found[n - 2].item, Item::Food(x) if x.amount.is_some());
        if made {
            found.drain(n - 1..=n);
            n = n.saturating_sub(1).max(1);
            continue;
        }
        for f in &mut found[n - 1..=n] {
            if let Item::Food(x) = &mut f.item {
                (x.amount, x.amount_len, x.name_at) = (None, 0, (0, x.name_at.1 - 1));
                f.from += 1;
            }
        }
        n += 1;
    }
}

/// "Two big crowns of broccoli", "four links of sausage", "cardamom, ten pods": so many of them, under that name.
pub(super) fn counted_parts(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 0;
    while n + 1 < found.len() {
        let (from, to) = (found[n].from, found[n].to);
        let size = usize::from(Tokens(tokens).nth_any(to, "big large small little good nice long fresh"));
        let word = tokens.get(to + size).filter(|t| lexicon().has("counted", &t.fold));
        let of = tokens.get(to + size + 1).is_some_and(|t| t.is("of"));
        let amount = match &found[n].item {
            Item::Count(c) => Amount::range(c.low, c.high, None),
            _ => None,
        };
        let near = (to + size + 2..=to + size + 3).contains(&found[n + 1].from);
        if let (Some(amount), Some(word), true, true) = (amount, word, of, near)
            && let Item::Food(x) = &mut found[n + 1].item
            && x.amount.is_none()
            && x.food.is_some()
        {
            x.amount = Some(SaidAmount::plain(amount));
            x.name = format!("{} {}", x.name, word.text);
            let shift = found[n + 1].from - from;
            if let Item::Food(x) = &mut found[n + 1].item {
                x.name_at = (x.name_at.0 + shift, x.name_at.1 + shift);
            }
            found[n + 1].from = from;
            found.remove(n);
            continue;
        }
        let after = found[n + 1].to;
        let word = tokens.get(after).filter(|t| lexicon().has("counted", &t.fold));
        let alone =
            tokens.get(after + 1).is_none_or(|t| !t.is_spoken() || t.is_any("and crushed bruised cracked whole"));
        let comma = tokens.row(to, found[n + 1].from.max(to)).iter().all(|t| t.kind == Kind::Comma);
        if let (Item::Count(c), Some(word), true, true) = (&found[n + 1].item, word, alone, comma)
            && let Some(amount) = Amount::range(c.low, c.high, None)
            && let Item::Food(x) = &mut found[n].item
            && x.amount.is_none()
            && x.food.is_some()
        {
            x.amount = Some(SaidAmount::plain(amount));
            // "Pimento, eight grains" are eight pimentos.
            if !word.is_any("grain grains") {
                x.name = format!("{} {}", x.name, word.text);
            }
            found[n].to = after + 1;
            found.remove(n + 1);
            continue;
        }
        n += 1;
    }
}

/// "A teaspoon of salt and a half a pepper": half a teaspoon.
pub(super) fn half_of_the_spoon(tokens: &[Token], found: &mut [Found]) {
    for n in 1..found.len() {
        let (left, right) = found.split_at_mut(n);
        let (Some(Found { item: Item::Food(first), to, .. }), Some(Found { item: Item::Food(second), from, .. })) =
            (left.last(), right.first_mut())
        else {
            continue;
        };
        let unit =
            first.amount.and_then(|a| a.amount.unit()).filter(|u| matches!(u, Unit::Teaspoon | Unit::Tablespoon));
        let half =
            |a: &SaidAmount| a.amount.unit().is_none() && a.amount.low() == Ratio::of(1, 2) && !a.amount.is_range();
        let joined = *from == to + 1 && tokens.item(*to).is("and") && tokens.item(*from).is("a");
        if unit.is_some()
            && joined
            && second.food.is_some_and(|f| f.is("spice") || f.is("salt"))
            && let Some(said) = second.amount.filter(half)
        {
            second.amount = Some(SaidAmount { amount: said.amount.in_unit(unit), ..said });
        }
    }
}

/// "Then it's 350 of belly pork", where other foods are weighed in grams.
///
/// Of a smaller number, and of "the prawns", so many pieces may be meant: those are left without a unit, and asked.
pub fn weighed(tokens: &[Token], found: &mut [Found]) {
    const NEAR: usize = 30;
    let gram =
        |f: &Found| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit() == Some(Unit::Gram)));
    for n in 0..found.len() {
        let row = tokens.row(found[n].from, found[n].to);
        let of = row.iter().take(3).position(|t| t.is("of"));
        let of = of.is_some_and(|k| !Tokens(row).nth_any(k + 1, "the those these my your our them"));
        let metric = || found[n.saturating_sub(NEAR)..found.len().min(n + NEAR)].iter().any(gram);
        if !of || !metric() {
            continue;
        }
        // "Three hundred millilitres… so 250 of milk": what is poured is in the measure just said.
        let poured = found[n.saturating_sub(6)..n].iter().any(|f| match &f.item {
            Item::Loose(a) => a.amount.unit() == Some(Unit::Milliliter),
            Item::Food(x) => x.amount.is_some_and(|a| a.amount.unit() == Some(Unit::Milliliter)),
            _ => false,
        });
        let Item::Food(x) = &mut found[n].item else { continue };
        let liquid = x.food.is_some_and(|f| f.is("liquid stock water"));
        let unit = if poured && liquid { Unit::Milliliter } else { Unit::Gram };
        let weight = |a: &SaidAmount| {
            let low = a.amount.low();
            a.amount.unit().is_none() && low >= Ratio::whole(50) && low.is_whole() && low.num() % 5 == 0
        };
        if let Some(said) = x.amount.filter(weight) {
            x.amount = Some(SaidAmount { amount: said.amount.in_unit(Some(unit)), ..said });
        }
    }
}

/// "Flour 250 grams, butter 125, sugar 80": a count that nobody counts is in the grams said before.
pub(super) fn metric_run(found: &mut [Found]) {
    const WEIGHED: &str = "spice sweet fat liquid dairy grain stock wheat";
    for n in 1..found.len() {
        let unit = match &found[n - 1].item {
            Item::Food(x) => x
                .amount
                .and_then(|a| a.amount.unit())
                .filter(|u| matches!(u, Unit::Gram | Unit::Milliliter | Unit::Teaspoon | Unit::Tablespoon)),
            _ => None,
        };
        if let (Some(unit), Item::Food(x)) = (unit, &mut found[n].item)
            && let Some(said) = x.amount.filter(|a| a.amount.unit().is_none())
            // Cheese is not poured.
            && x.food.is_some_and(|f| f.is(if unit == Unit::Milliliter { "liquid stock water fat" } else { WEIGHED }))
            // "Salt one teaspoon, turmeric half."
            && if matches!(unit, Unit::Teaspoon | Unit::Tablespoon) {
                x.amount_len == 0 && !said.amount.low().is_whole() && x.food.is_some_and(|f| f.is("spice"))
            } else {
                said.amount.low() >= Ratio::whole(20)
            }
        {
            x.amount = Some(SaidAmount { amount: said.amount.in_unit(Some(unit)), ..said });
        }
    }
}
