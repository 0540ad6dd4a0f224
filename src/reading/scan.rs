//! Tokens become findings: what the productions of the grammar see, each with its place.

pub mod amend;
mod elided;
pub mod kind;
pub mod unlisted;

use crate::grammar::amount::{SaidAmount, amount};
use crate::grammar::food::{Quantifier, SaidFood, each, food};
use crate::grammar::heat::{SaidHeat, heat};
use crate::grammar::number::{Number, number};
use crate::grammar::pan::pan;
use crate::grammar::time::time;
use crate::grammar::word::taken;
use crate::grammar::yields::{SaidYield, served, yields};
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon};
use crate::measure::{Amount, Pan, Time, Unit};
use crate::token::{Kind, Token, Tokens};

/// What was found.
#[derive(Clone, Debug)]
pub enum Item {
    /// A food, with or without an amount.
    Food(Box<SaidFood>),
    /// An amount whose food stands elsewhere: "two cups" in "milk, two cups".
    Loose(SaidAmount),
    /// A bare number whose food stands elsewhere: "six" in "egg whites, six".
    Count(Number),
    /// A time.
    Time(Time),
    /// A heat, marked or bare.
    Heat(SaidHeat),
    /// A pan with its size.
    Pan(Pan),
    /// How much it makes.
    Yield(SaidYield),
}

/// A finding: tokens `from..to` of the draft.
#[derive(Clone, Debug)]
pub struct Found {
    /// What.
    pub item: Item,
    /// The first token.
    pub from: usize,
    /// The token after the last.
    pub to: usize,
}

/// So many words at most lie between two foods and the amount of each.
const APART: usize = 8;

/// The findings of the tokens `from..to`, in order, none overlapping.
pub fn scan(tokens: &[Token], from: usize, to: usize) -> Vec<Found> {
    let mut out: Vec<Found> = Vec::new();
    let mut at = from;
    while at < to {
        let rest = Tokens(tokens.row(at, to));
        if !rest.first().is_some_and(Token::is_spoken) {
            at += 1;
            continue;
        }
        let before = if at > from { tokens.get(at - 1) } else { None };
        // "At that point two cups": no decimal.
        if rest.at("point") && before.is_some_and(|b| b.is_in("which of them")) {
            at += 1;
            continue;
        }
        // "Juice of half a lemon, hang on to the other half a teaspoon of cayenne": the half of the lemon.
        if rest.at("half")
            && rest.skip(1).at("a")
            && before.is_some_and(|b| b.is("other"))
            && out.last().is_some_and(|f| {
                f.to + APART > at
                    && matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit().is_none() && a.amount.low() == crate::measure::Ratio::of(1, 2)))
            })
        {
            at += 1;
            continue;
        }
        let after_food = out.last().is_some_and(|f| {
            let bare = matches!(&f.item, Item::Food(x) if x.amount.is_none());
            // "American cheese, eight slices", "celery, I've got two sticks".
            let between = tokens.row(f.to.min(at), at);
            bare && match between {
                // "Bacon is six slices."
                [is] if is.is_any("is are") => amount(rest).is_ok(),
                [] => {
                    before.is_some_and(|b| b.kind == Kind::Comma)
                        || rest.at_any("is are") && amount(rest.skip(1)).is_ok()
                }
                [comma, rest @ ..] => {
                    comma.kind == Kind::Comma && rest.iter().all(|t| t.is_any("i i've we we've have"))
                }
            }
        });
        let of_food = out.last().is_some_and(|f| f.to == at && matches!(&f.item, Item::Food(x) if x.amount.is_none()));
        let mut hits = one(rest, before, at, tokens.row(at.saturating_sub(28), at), after_food);
        // "Flour 250 grams, butter 125": no oven.
        let metric = |f: &Found| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit() == Some(Unit::Gram)));
        if (of_food || after_food && out.iter().any(metric))
            && let [Found { item: Item::Heat(h), .. }] = &hits[..]
            && !h.marked
            && let Ok((_, number)) = number(rest)
        {
            hits = vec![Found { item: Item::Count(number), from: at, to: at + 1 }];
        }
        if hits.is_empty() {
            at += 1;
        } else {
            at = hits.last().map_or(at + 1, |f| f.to).max(at + 1);
            out.append(&mut hits);
        }
    }
    kind::what_it_is(tokens, &mut out);
    squeezed(tokens, &mut out);
    the_other_one(tokens, &mut out);
    kind::counted_parts(tokens, &mut out);
    carry_units(tokens, &mut out);
    each_of_before(tokens, &mut out);
    dealt(tokens, &mut out);
    elided::elided(tokens, &mut out);
    unlisted::unlisted(tokens, from, &mut out);
    kind::long_after(tokens, &mut out);
    attach(tokens, &mut out);
    kind::kind_of(tokens, &mut out);
    kind::metric_run(&mut out);
    kind::half_of_the_spoon(tokens, &mut out);
    kind::made_half_and_half(tokens, &mut out);
    kind::told_after(tokens, &mut out);
    spice_cloves(tokens, &mut out);
    out.retain(|f| !boiled_in(tokens, f));
    out
}

/// "Twenty minutes, and then five to ten more", "another twenty till it's crusty": a number that goes on with the time before it.
///
/// `first` is the first finding of the sentence just scanned.
pub fn go_on(tokens: &[Token], found: &mut [Found], first: usize) {
    for k in first..found.len() {
        let Item::Count(number) = found[k].item else { continue };
        let (from, to) = (found[k].from, found[k].to);
        let more = tokens.get(to).is_some_and(|t| t.is("more"));
        let end = to + usize::from(more);
        let another = from > 0 && tokens.item(from - 1).is("another");
        let ends = tokens.get(end).is_none_or(|t| !t.is_spoken() || t.is_in("goes on cooking"));
        let before = found[..k]
            .iter()
            .rev()
            .take(6)
            .take_while(|f| f.to + 60 > from && !matches!(&f.item, Item::Food(x) if x.amount.is_some()))
            .find_map(|f| if let Item::Time(t) = f.item { Some(t) } else { None });
        if (more || another)
            && ends
            && number.low > crate::measure::Ratio::ONE
            && let Some(time) = before
            && time.unit() <= crate::measure::TimeUnit::Minute
            && let Some(time) = Time::range(number.low, number.high, time.unit())
        {
            found[k].item = Item::Time(time);
            found[k].to = end;
        }
    }
}

fn one(rest: Tokens<'_>, before: Option<&Token>, at: usize, said: &[Token], after_food: bool) -> Vec<Found> {
    let found = |item: Item, n: usize| vec![Found { item, from: at, to: at + n }];
    // "American cheese, eight slices" measures the cheese.
    // "The pork chops. I've got four of them": what she has, not what it makes.
    // "So you take eight pieces, legs and thighs."
    let takes = before.is_some_and(|b| b.is_any("take use need buy get put want"));
    let has = rest.at("got") && before.is_some_and(|b| b.is_any("i've we've ive"));
    if !after_food
        && let Ok((end, y)) = served(rest, said).or_else(|_| yields(rest))
        && !(has && y.of.is_empty() || takes && y.of.starts_with("piece"))
    {
        return found(Item::Yield(y), taken(rest, end));
    }
    if let Ok((end, p)) = pan(rest) {
        return found(Item::Pan(p), taken(rest, end));
    }
    // "I've got my skillet out, it's a 12 inch": the pan was named just before.
    if let Ok((end, n)) = crate::grammar::number::mixed(rest)
        && end.at_any("inch inches")
        && end.get(1).is_none_or(|t| !t.is_spoken() || t.is_any("with one and so or that"))
        && (6..=16).contains(&n.floor())
        && said.iter().any(|t| t.is_any("skillet frypan"))
    {
        let pan = Pan {
            shape: crate::measure::Shape::Skillet,
            sides: vec![n],
            length: crate::measure::Length::Inch,
            holds: None,
            called: "skillet".into(),
        };
        return found(Item::Pan(pan), taken(rest, end) + 1);
    }
    if let Ok((end, t)) = time(rest) {
        // "a second can" is no time, nor is "one day".
        let n = taken(rest, end);
        if !(rest.at_any("a an") && rest.get(1).is_some_and(|t| t.is("second"))) && !(n == 1 && !rest.at("hour")) {
            return found(Item::Time(t), n);
        }
    }
    if let Ok((end, h)) = heat(rest) {
        let figure = rest.first().is_some_and(|t| t.is_any("gas")) || h.marked || h.degrees >= 100;
        // A unit or a food after the figure makes it an amount: "350 grams", "180 people".
        let amount_follows = !h.marked && end.at("of")
            || amount(rest).is_ok() && !(h.scale == Some('c') && h.degrees >= 60)
            || (!h.marked && end.first().is_some_and(|t| t.is_any("people dollars kids calories ml")));
        if figure && !amount_follows && !before.is_some_and(|t| t.is_any("$ £ €")) {
            return found(Item::Heat(h), taken(rest, end));
        }
    }
    if let Ok((end, foods)) = each(rest) {
        // Each food of the list has its own place; the amount stands before the first.
        let mut out = Vec::new();
        let mut from = at;
        for (n, f) in foods.iter().enumerate() {
            let to = if n + 1 == foods.len() { at + taken(rest, end) } else { at + f.name_at.1 };
            out.push(Found {
                item: Item::Food(Box::new(f.clone())),
                from: if n == 0 { from } else { at + f.name_at.0 },
                to,
            });
            from = to;
        }
        return out;
    }
    let verb_here = is_order(rest, before);
    // "Then salt it, a tablespoon", "I salt the water with a tablespoon": the order names its food.
    if verb_here && let Some((1, f)) = lexicon().foods.folded(rest) {
        let it = rest.nth_any(1, "it them that those");
        // "Flour it good, three tablespoons."
        let how = usize::from(it && rest.get(2).is_some_and(|t| t.is_in("how it is done")));
        let object = if it { Some(2 + how) } else { (2..6).find(|n| rest.get(*n).is_some_and(|t| t.is("with"))) };
        let rest_after = rest.skip(object.unwrap_or(rest.len()));
        let comma = usize::from(rest_after.first().is_some_and(|t| t.kind == Kind::Comma));
        let with = usize::from(rest_after.get(comma).is_some_and(|t| t.is("with")));
        if let Ok((end, a)) = amount(rest_after.skip(comma + with))
            && !end.at("of")
            && (it || rest.nth_any(1, "the your my") && a.amount.unit().is_some())
        {
            let name = rest.first().map(|t| t.text.to_string()).unwrap_or_default();
            let said = SaidFood { food: Some(f), amount: Some(a), ..SaidFood::named(name) };
            return found(Item::Food(Box::new(said)), taken(rest, end));
        }
    }
    if !verb_here && let Ok((end, f)) = food(rest) {
        return found(Item::Food(Box::new(f)), taken(rest, end));
    }
    if let Ok((end, mut a)) = amount(rest) {
        let mut end = end;
        // "One small tin, the seventy gram": the size belongs to the container.
        if a.package.is_none()
            && a.amount.unit().is_some_and(|u| u.is_container())
            && let Ok((after, p)) = crate::grammar::amount::package_after(end)
        {
            a.package = Some(p);
            end = after;
        }
        let said = rest.0.iter().take(taken(rest, end));
        a.of_the |= said.clone().any(|t| t.is("of"))
            && said.clone().any(|t| t.is_any("that those the them"))
            && a.package.is_none();
        return found(Item::Loose(a), taken(rest, end));
    }
    // "A teaspoon of salt now and one at the end."
    let in_turn = before.is_some_and(|b| b.is("and"))
        && rest.nth_any(1, "at later")
        && said.len() > 1
        && said[said.len() - 2].is_any("now first here");
    let pronoun = !in_turn && rest.at_any("a an") && !rest.get(1).is_some_and(|t| t.is("hundred"))
        // "The parish one and the other".
        || rest.at("one") && before.is_some_and(|b| b.is_spoken() && b.is_in("ordinary"))
        || rest.at("one")
            && !in_turn
            && !before.is_some_and(|b| b.is_any("meant mean"))
            && !(rest.get(1).is_some_and(|t| t.is("of"))
                || rest.get(1).is_none_or(|t| !t.is_spoken())
                    && before.is_some_and(|t| t.is_in("goes along") || !t.is_spoken()))
            && !rest.get(1).is_some_and(|t| t.is("and"));
    if !pronoun && let Ok((end, n)) = number(rest) {
        return found(Item::Count(n), taken(rest, end));
    }
    Vec::new()
}

/// Whether the word here is a verb that gives an order and only looks like a food: "butter the dish", "salt it well".
fn is_order(rest: Tokens<'_>, before: Option<&Token>) -> bool {
    let lists = lexicon();
    let Some((n, verb)) = lists.verbs.exact(rest) else { return false };
    if verb.class == VerbClass::Everyday {
        return false;
    }
    // "Sprinkle the flour on": a thing.
    let thing = before.is_some_and(|t| t.is_any("the your my some that"));
    let acts = !thing && rest.nth_any(n, "it them over on");
    if acts {
        return true;
    }
    let opens = before.is_none_or(|t| t.kind != Kind::Word || t.is_in("before a verb"));
    let object = rest.get(n).is_some_and(|t| t.is_in("after an object verb"));
    // "And salt a half a teaspoon.": how much of it, nothing that is salted.
    let measure = lists.foods.folded(rest).is_some()
        && amount(rest.skip(n)).is_ok_and(|(end, a)| {
            a.amount.unit().is_some_and(|u| !u.is_container()) && end.first().is_none_or(|t| !t.is_spoken())
        });
    opens && object && !measure
}

/// "mint and coriander, one handful each": the amount belongs to each of the foods just named.
fn each_of_before(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 0;
    while n < found.len() {
        let Item::Loose(a) = found[n].item else {
            n += 1;
            continue;
        };
        if a.each {
            let mut k = n;
            let mut any = false;
            while k > 0 {
                let gap = found[k].from.saturating_sub(found[k - 1].to);
                let joined = gap <= 5
                    && tokens
                        .row(found[k - 1].to, found[k].from.max(found[k - 1].to))
                        .iter()
                        .all(|t| t.kind == Kind::Comma || t.is_in("between each"));
                let Item::Food(f) = &mut found[k - 1].item else { break };
                if !joined || f.amount.is_some() {
                    break;
                }
                f.amount = Some(SaidAmount { each: false, ..a });
                any = true;
                k -= 1;
            }
            if any {
                found.remove(n);
                continue;
            }
        }
        n += 1;
    }
}

/// "Equal parts oil and flour. For this one it's a cup, each": the amount belongs to the two foods of the sentence before.
pub fn each_apart(tokens: &[Token], found: &mut [Found]) {
    for n in 2..found.len() {
        let Item::Loose(a) = found[n].item else { continue };
        // "For this one it's a cup" counts nothing.
        let last = (n - 2..n).rev().find(|k| !matches!(found[*k].item, Item::Count(_))).unwrap_or(n - 1);
        let Some(first) = last.checked_sub(1) else { continue };
        let (start, at) = (found[first].to, found[last].to);
        let joined = matches!(tokens.row(start, found[last].from.max(start)), [t] if t.is("and"));
        let near = found[n].from <= at + APART
            && !tokens.row(at, found[n].from.max(at)).iter().any(|t| matches!(t.kind, Kind::Break(_)));
        let bare = |f: &Found| matches!(&f.item, Item::Food(x) if x.amount.is_none() && x.food.is_some());
        // "It's a cup and a half, each."
        let set_off = tokens.get(found[n].to).is_some_and(|t| t.kind == Kind::Comma);
        let each = a.each || set_off && tokens.get(found[n].to + 1).is_some_and(|t| t.is("each"));
        if !each || !joined || !near || !bare(&found[first]) || !bare(&found[last]) {
            continue;
        }
        for k in [first, last] {
            if let Item::Food(f) = &mut found[k].item {
                f.amount = Some(SaidAmount { each: false, ..a });
            }
        }
        // What is left of it only says the second food once more.
        if let Item::Food(f) = &found[last].item {
            let again = SaidFood { amount: None, quantifier: Quantifier::Again, ..(**f).clone() };
            found[n].item = Item::Food(Box::new(again));
        }
    }
}

/// "A pot of salted water", "plenty of water": to boil in, not to measure.
fn boiled_in(tokens: &[Token], f: &Found) -> bool {
    let Item::Food(food) = &f.item else { return false };
    food.name.ends_with("water")
        && match food.amount {
            Some(a) => {
                a.amount.unit().is_some_and(|u| u.is_container())
                    && tokens.row(f.from, f.to).iter().any(|t| t.is("pot"))
            }
            None => {
                let before = |k: usize| f.from.checked_sub(k).and_then(|n| tokens.get(n));
                before(1).is_some_and(|t| t.is("in"))
                    || before(1).is_some_and(|t| t.is("of"))
                        && before(2).is_some_and(|t| t.is_any("pot pan lot lots plenty bowl kettle"))
            }
        }
}

/// "six cloves" where no garlic is named are the spice.
fn spice_cloves(tokens: &[Token], found: &mut [Found]) {
    let garlic = found.iter().any(|f| matches!(&f.item, Item::Food(x) if crate::letters::holds(&x.name, "garlic")));
    let spices =
        found.iter().filter(|f| matches!(&f.item, Item::Food(x) if x.food.is_some_and(|f| f.is("spice")))).count();
    for f in found.iter_mut() {
        if let Item::Loose(a) = &f.item
            && a.amount.unit() == Some(Unit::Clove)
            // "Four cloves, the spice, not garlic."
            && (spices >= 1 && !garlic || tokens.row(f.to, tokens.len().min(f.to + 9)).iter().any(|t| t.is("spice")))
            && !tokens.row(f.from, f.to).iter().any(|t| t.is("garlic"))
        {
            let said = SaidAmount { amount: a.amount.in_unit(None), ..*a };
            f.item = Item::Food(Box::new(SaidFood {
                amount: Some(said),
                name_at: (0, f.to - f.from),
                ..SaidFood::named("cloves".into())
            }));
        }
    }
}

/// "It took eleven lemons to get two cups of juice": the measured juice is the ingredient.
fn squeezed(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 1;
    while n < found.len() {
        let fruit = match &found[n - 1].item {
            Item::Food(f)
                if f.amount.is_some_and(|a| a.amount.unit().is_none())
                    && f.food.is_some_and(|f| f.is("fruit") || f.is("produce")) =>
            {
                Some(crate::token::fold(&f.name))
            }
            _ => None,
        };
        let gap = tokens.row(found[n - 1].to, found[n].from.max(found[n - 1].to));
        let to_get = gap.len() <= 6 && gap.iter().any(|t| t.is_any("get make gives gave for"));
        if let (Some(fruit), true) = (fruit, to_get)
            && let Item::Food(juice) = &mut found[n].item
            && juice.name == "juice"
            && juice.amount.is_some_and(|a| a.amount.unit().is_some())
        {
            juice.name = format!("{fruit} juice");
            found.remove(n - 1);
            continue;
        }
        n += 1;
    }
}

/// What tells one pepper from the next.
const COLOURS: &str = "red green yellow orange white";

/// "A red pepper and a yellow one": the second has the name of the first.
fn the_other_one(tokens: &[Token], found: &mut Vec<Found>) {
    let lists = lexicon();
    let mut n = 0;
    while n < found.len() {
        let Item::Food(first) = &found[n].item else {
            n += 1;
            continue;
        };
        let end = found[n].to;
        let limit = found.get(n + 1).map_or(tokens.len(), |f| f.from).min(end + 8);
        let hit = (end..limit.saturating_sub(2)).find(|k| {
            let counted = tokens.item(*k).is_any("a an one two three four");
            let kind = Tokens(tokens.row(k + 1, tokens.len()));
            let one = |at: usize| kind.get(at).is_some_and(|t| t.is_any("one ones"));
            counted
                && lists.describers.exact(kind).is_some_and(|(len, ())| {
                    // "One red pepper and one green, diced."
                    let colour = kind.at_any(COLOURS)
                        && kind.get(len).is_none_or(|t| !t.is_spoken() || t.is_any("and both diced chopped sliced in"));
                    one(len) || colour
                })
                && tokens.row(end, *k).iter().all(|t| {
                    t.kind == Kind::Comma
                        || t.is_any("and or plus then")
                        || lists.prep.exact(Tokens(std::slice::from_ref(t))).is_some()
                })
        });
        // "Bell peppers, one red, one green."
        if let Some(k) = hit
            && first.amount.is_none()
            && k <= end + 1
            && let Ok((_, count)) = number(Tokens(tokens.row(k, tokens.len())))
        {
            let mut food = first.clone();
            food.name = format!("{} {}", tokens.item(k + 1).text, food.name.strip_suffix('s').unwrap_or(&food.name));
            food.amount = Amount::range(count.low, count.high, None).map(SaidAmount::plain);
            // "One red one green": the second one counts.
            let one = Tokens(tokens).nth_any(k + 2, "one ones");
            let ones = usize::from(one && !tokens.get(k + 3).is_some_and(|t| t.is_any(COLOURS)));
            found[n].item = Item::Food(food);
            found[n].to = k + 2 + ones;
            continue;
        }
        if let Some(k) = hit
            && first.amount.is_some()
            && let Some((len, ())) = lists.describers.exact(Tokens(tokens.row(k + 1, tokens.len())))
        {
            let count = number(Tokens(tokens.row(k, tokens.len()))).map_or(crate::measure::Ratio::ONE, |f| f.1.low);
            if let Some(amount) = crate::measure::Amount::range(count, count, None) {
                let kind = crate::token::texts(tokens.row(k + 1, k + 1 + len));
                let head = first.name.rsplit(' ').next().unwrap_or("");
                // "One bell pepper, a green one" is one pepper.
                let same = tokens.item(k).is_any("a an")
                    && tokens.row(end, k).iter().all(|t| t.kind == Kind::Comma)
                    && first.amount.is_some_and(|a| a.amount.unit().is_none() && a.amount.high() <= count);
                if same {
                    let name = format!("{} {}", crate::letters::join(&kind, " "), first.name);
                    if let Item::Food(first) = &mut found[n].item {
                        first.name = name;
                    }
                    found[n].to = k + len + 2;
                    continue;
                }
                let said = SaidFood {
                    name: format!("{} {head}", crate::letters::join(&kind, " ")),
                    amount: Some(SaidAmount::plain(amount)),
                    package: None,
                    prep: Vec::new(),
                    ..(**first).clone()
                };
                let ones = usize::from(Tokens(tokens).nth_any(k + 1 + len, "one ones"));
                found.insert(n + 1, Found { item: Item::Food(Box::new(said)), from: k, to: k + 1 + len + ones });
            }
        }
        n += 1;
    }
}

/// "two teaspoons of vinegar and one of vanilla", "200 grams of icing sugar, 40 of soft butter": the unit carries over.
fn carry_units(tokens: &[Token], found: &mut Vec<Found>) {
    let mut unit: Option<Unit> = None;
    let mut n = 0;
    while n < found.len() {
        let of = tokens.get(found[n].to).is_some_and(|t| t.is("of"));
        let next_food = found.get(n + 1).filter(|f| f.from <= found[n].to + 2);
        // "250 of flour": without a unit it is asked of what.
        let grams = matches!(&found[n].item, Item::Count(c) if c.low >= crate::measure::Ratio::whole(20));
        if let (Item::Count(c), true) = (&found[n].item, of)
            && (unit.is_some() || grams)
            && next_food.is_some_and(
                |f| matches!(&f.item, Item::Food(x) if x.amount.is_none() && matches!(x.quantifier, Quantifier::None)),
            )
            // Cheese is not poured: "300 ml of stock, 80 of cheese".
            && let pours = matches!(next_food.map(|f| &f.item), Some(Item::Food(x)) if x.food.is_none_or(|f| f.is("liquid stock water fat")))
            && let Some(amount) = crate::measure::Amount::range(c.low, c.high, unit.filter(|u| pours || *u != Unit::Milliliter))
        {
            let from = found[n].from;
            if let Some(Found { item: Item::Food(f), from: start, .. }) = found.get_mut(n + 1) {
                f.amount = Some(SaidAmount::plain(amount));
                let shift = *start - from;
                f.name_at = (f.name_at.0 + shift, f.name_at.1 + shift);
                *start = from;
            }
            found.remove(n);
            continue;
        }
        if let Item::Food(f) = &found[n].item
            && let Some(a) = f.amount
        {
            unit = a.amount.unit();
        }
        n += 1;
    }
}

/// "Oyster sauce three tablespoons fish sauce two tablespoons lime juice one": each amount follows its food.
///
/// Read from the left, "three tablespoons fish sauce" looks like one; the amount that is left over at the end tells.
fn dealt(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 0;
    while n + 2 < found.len() {
        n += 1;
        let n = n - 1;
        let beside = |a: &Found, b: &Found| b.from <= a.to + 1;
        let bare = matches!(&found[n].item, Item::Food(x) if x.amount.is_none() && x.food.is_some());
        // "Coconut milk again, the thin one, three cups garlic six cloves."
        let near = found[n + 1].from <= found[n].to + 4
            && tokens
                .row(found[n].to, found[n + 1].from.max(found[n].to))
                .iter()
                .all(|t| !t.ends() && !t.is_any("and with of in"));
        if !bare || !near {
            continue;
        }
        // The run of foods with amounts before their names, up to an amount without one.
        let mut end = n + 1;
        while end < found.len()
            && beside(&found[end - 1], &found[end])
            && matches!(&found[end].item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit().is_some() && !a.bare && !a.article) && x.amount_len > 0 && x.name_at.0 == x.amount_len)
        {
            end += 1;
        }
        let left_over =
            found.get(end).filter(|f| end > n + 1 && beside(&found[end - 1], f)).and_then(|f| match &f.item {
                Item::Loose(a) => Some(*a),
                _ => None,
            });
        let Some(mut next) = left_over else { continue };
        for k in (n + 1..end).rev() {
            let at = found[k].from;
            if let Item::Food(x) = &mut found[k].item {
                let own = x.amount.replace(next);
                let skip = x.amount_len;
                x.name_at = (0, x.name_at.1 - skip);
                x.amount_len = 0;
                found[k].from = at + skip;
                if let Some(own) = own {
                    next = own;
                }
            }
        }
        if let Item::Food(x) = &mut found[n].item {
            x.amount = Some(next);
        }
        let last = found.remove(end).to;
        found[end - 1].to = last;
    }
}

/// Gives loose amounts to the foods they stand beside: "butter, two sticks of it", "celery seed half a teaspoon",
/// "the celery is a cup and a half", "egg whites, six".
fn attach(tokens: &[Token], found: &mut Vec<Found>) {
    let mut n = 1;
    while n < found.len() {
        let (left, right) = found.split_at_mut(n);
        if let Some(goes) = goes_with(tokens, left, right)
            && let (Item::Food(f), Item::Loose(said)) = (&mut left[goes].item, &right[0].item)
        {
            (f.amount, f.package) = (Some(*said), said.package);
            found.remove(n);
            continue;
        }
        let (Some(food), Some(loose)) = (left.last_mut(), right.first()) else { break };
        let said = match &loose.item {
            Item::Loose(a) => Some(*a),
            Item::Count(c) => crate::measure::Amount::range(c.low, c.high, None).map(SaidAmount::plain),
            _ => None,
        };
        let count = matches!(loose.item, Item::Count(_));
        let gap = tokens.row(food.to, loose.from.max(food.to));
        let to = loose.to;
        // "The size of a walnut, a pound and a half" measures no walnuts.
        let size =
            tokens.row(food.from.saturating_sub(2), food.from + 1).windows(2).any(|w| w[0].is("size") && w[1].is("of"));
        if let (Item::Food(f), Some(said)) = (&mut food.item, said)
            && !size
            && (f.amount.is_none()
                || !count
                    && said.amount.unit().is_some()
                    && f.amount.is_some_and(|a| {
                        a.amount.unit().is_none()
                            && !a.amount.is_range()
                            && a.amount.low() == crate::measure::Ratio::ONE
                            && tokens.item(food.from).is_any("a an another one")
                    })
                    && gap.len() <= 1)
            && !matches!(f.quantifier, Quantifier::Rest | Quantifier::Part)
            && (said.amount.unit() != Some(crate::measure::Unit::Clove) || crate::letters::holds(&f.name, "garlic"))
            && (joins(gap, tokens, to, count) || count && of_them(gap, tokens, to, f, said.amount))
        {
            let mut said = said;
            let mut end = to;
            // "two sticks of it, soft": the reference is part of it.
            let tail = Tokens(tokens.row(end, (end + 3).min(tokens.len())));
            if tail.at("of") && tail.nth_any(1, "it them em 'em that those") {
                end += 2;
                said.of_the = false;
            }
            f.amount = Some(said);
            if let Some(p) = said.package {
                f.package = Some(p);
            }
            food.to = end;
            found.remove(n);
            // Preparation may follow the amount: "butter, two sticks of it, soft".
            let next = found.get(n).map_or(tokens.len(), |f| f.from).max(end);
            if let Some(Item::Food(f)) = found.get_mut(n - 1).map(|f| &mut f.item) {
                let (len, prep, package) = crate::grammar::food::tail(Tokens(tokens.row(end, next)));
                if len > 0 {
                    f.prep.extend(prep);
                    if f.package.is_none() {
                        f.package = package;
                    }
                    found[n - 1].to = end + len;
                }
            }
            continue;
        }
        n += 1;
    }
}

/// "The peas can go in with the water, half a cup": the place of the food that goes in, where the amount is its own.
fn goes_with(tokens: &[Token], before: &[Found], after: &[Found]) -> Option<usize> {
    let [.., a, b] = before else { return None };
    let (Item::Food(goes), Item::Food(with), Item::Loose(_)) = (&a.item, &b.item, &after.first()?.item) else {
        return None;
    };
    let between = tokens.row(a.to, b.from);
    let to = after.first()?;
    let fits = goes.amount.is_none()
        && goes.food.is_some()
        && with.amount.is_none()
        && with.quantifier == Quantifier::The
        && between.iter().all(|t| t.kind == Kind::Word)
        && between.first().is_some_and(|t| t.is_any("can may go goes"))
        && between.iter().any(|t| t.is_any("go goes"))
        && between.iter().rev().take(2).any(|t| t.is_any("with in into"))
        && matches!(tokens.row(b.to, to.from), [comma] if comma.kind == Kind::Comma)
        && tokens.get(to.to).is_none_or(|t| !t.is_spoken());
    fits.then_some(before.len() - 2)
}

/// "Tomatoes, now Bilal has his own ideas, eight of them": what was named in the sentence is counted, however far behind.
fn of_them(gap: &[Token], tokens: &[Token], to: usize, food: &SaidFood, count: Amount) -> bool {
    let next = Tokens(tokens.get(to..).unwrap_or(&[]));
    let known = food.quantifier == Quantifier::The && gap.len() > 4;
    // "Potatoes go in the big pot with the skins on, eight medium ones."
    let ones =
        sizes(next) > 0 && next.skip(sizes(next)).at("ones") && gap.last().is_some_and(|t| t.kind == Kind::Comma);
    count.low() > crate::measure::Ratio::ONE
        && (ones || next.at("of") && next.skip(1).at_any("them em 'em these those"))
        && !known
        && gap.iter().all(|t| !t.ends())
}

/// Whether what was done to the food comes first and no other food: "tomatoes three cut in half".
fn done_to(i: Tokens<'_>) -> bool {
    let lists = lexicon();
    let free = |n: usize| lists.foods.folded(i.skip(n)).is_none() && lists.heads.folded(i.skip(n)).is_none();
    lists.prep.exact(i).is_some_and(|(n, ())| free(n) && free(n + 1))
}

/// How many words of a size come first: "your potatoes, three big ones".
fn sizes(i: Tokens<'_>) -> usize {
    i.0.iter().take(3).take_while(|t| t.is_in("size of a piece")).count()
}

/// Whether a count that ends at `to` counts what was named before: "four medium ones, peeled", "three of them".
///
/// "One of them goes in later" tells what becomes of one.
pub fn counts_them(tokens: &[Token], to: usize) -> bool {
    let next = Tokens(tokens.get(to..).unwrap_or(&[]));
    let next = next.skip(usize::from(next.first().is_some_and(|t| t.kind == Kind::Comma)));
    let of = next.at("of");
    // "Four of the long skinny Japanese ones."
    let named = of && next.skip(1).at_any("the those these my your") && {
        let row = next.skip(2);
        (1..6).any(|k| row.get(k).is_some_and(|t| t.is("ones")) && row.0.iter().take(k).all(|t| t.kind == Kind::Word))
    };
    if named {
        return true;
    }
    let after = next.skip(if of { 1 } else { sizes(next) });
    after.at_any(if of { "them those these" } else { "ones" }) && after.get(1).is_none_or(|t| !t.is_spoken())
}

/// Whether what stands between a food and an amount ties them together, and what follows the amount leaves it free.
fn joins(gap: &[Token], tokens: &[Token], to: usize, count: bool) -> bool {
    // Joints that tie a food to the amount after it: "the celery is a cup and a half", "garlic goes in last, two cloves",
    // "vinegar, and you want two teaspoons".
    const TIES: &str = "ties";
    // "Turmeric, the powder, half a teaspoon": which one it is stands between commas.
    let gap = match gap {
        [first, which, .., last]
            if !first.is_spoken()
                && !last.is_spoken()
                && gap.len() < 8
                && which.is_in("tells which")
                && !gap[1..gap.len() - 1].iter().any(Token::ends) =>
        {
            &gap[gap.len() - 1..]
        }
        _ => gap,
    };
    let spoken = crate::token::spoken(gap);
    let only_and = spoken.len() == 1 && spoken[0].is("and");
    let led_by_and = spoken.first().is_some_and(|t| t.is("and")) && spoken.len() > 1;
    let tied = !only_and
        && (spoken.len() <= 4 && spoken.iter().skip(usize::from(led_by_and)).all(|t| t.is_in(TIES)))
        && !(spoken.len() == 1 && spoken[0].is_any("in of with to then and"))
        // "Oil, I used to say one spoon."
        && !spoken.windows(2).any(|w| w[0].is("used") && w[1].is("to"))
        && gap.iter().all(|t| !t.ends())
        && gap.iter().filter(|t| matches!(t.kind, Kind::Comma | Kind::Pause)).count() <= 2;
    let next = Tokens(tokens.get(to..).unwrap_or(&[]));
    let sizes = sizes(next);
    let next = match next.get(sizes).filter(|_| count) {
        // "Eggplant two big ones peel them."
        Some(t) if t.is_any("ones one") && sizes > 0 => return tied,
        Some(t) if t.is_any("ones them those") => next.skip(sizes + 1),
        // "Potatoes, four medium, peeled."
        Some(t) if !t.is_spoken() => next.skip(sizes),
        _ => next,
    };
    if count {
        // A bare number ends there: "egg whites, six, at room temperature". Anything else may count what follows.
        let own = next.at("of") && !next.nth_any(1, "it them that those these");
        // "The sausages you need eight the fresh pork ones."
        let ones = next.at("the")
            && (2..6).any(|k| next.get(k).is_some_and(|t| t.is("ones")) && next.0[..k].iter().all(Token::is_spoken));
        return tied
            && !own
            && (ones
                || gap.is_empty() && next.at("you")
                || next.first().is_none_or(|t| !t.is_spoken() || t.is_any("of and because if"))
                || gap.is_empty() && done_to(next))
            && !next.at("by");
    }
    // "of it", a stop, or a joint must follow; a food would take the amount for itself.
    let own = next.at("of") && !next.nth_any(1, "it them that those each these");
    tied && !own
}
