//! Amounts: "a cup and a half of" becomes 3/2 cup, "three 14 ounce cans" becomes 3 can of 14 ounce.

use super::number::{Number, about, mixed, number};
use super::word::taken;
use crate::lexicon::Sets;
use crate::lexicon::lexicon;
use crate::measure::{Amount, Dimension, Manner, Ratio, Unit};
use crate::recipe::Package;
use crate::token::input::miss;
use crate::token::{Kind, Read, Tokens};

/// An amount as it was said.
#[derive(Clone, Copy, Debug)]
pub struct SaidAmount {
    /// How much.
    pub amount: Amount,
    /// The size of each container.
    pub package: Option<Package>,
    /// "each" followed: the amount belongs to every food of the list.
    pub each: bool,
    /// "another", "more": it adds to what was said before.
    pub more: bool,
    /// "of the", "of that", "of it": a part of what was named before.
    pub of_the: bool,
    /// No number was said: "cup of sour cream", "pinch of salt".
    pub bare: bool,
    /// The number was only an article: "a ladle".
    pub article: bool,
}

impl SaidAmount {
    /// An amount of which nothing else was said.
    pub fn plain(amount: Amount) -> SaidAmount {
        SaidAmount { amount, package: None, each: false, more: false, of_the: false, bare: false, article: false }
    }
}

const SIZES: &str = "size said";

/// amount := manner* (number | "a" | "another") manner* ("of" ("a" | "the"))? (size size-unit)? unit tail
///
/// The food is left to the caller, and so is the "of" before it unless `of_the` holds.
pub fn amount(i: Tokens<'_>) -> Read<'_, SaidAmount> {
    if let Some(found) = long_piece(i) {
        return Ok(found);
    }
    let mut manner = Manner::Plain;
    let mut rest = i;
    while let Ok((after, ())) = about(rest) {
        if matches!(rest.first(), Some(t) if t.is_any("like say at up a just"))
            && number(after).is_err()
            && !after.at_any("a an")
            // "Dripping, a good tablespoon."
            && !(rest.at("a") && rest.skip(1).at("good") && unit(skip_sizes(after)).is_some())
        {
            return miss(i);
        }
        if !rest.at_any("like say a at up") {
            manner = Manner::About;
        }
        rest = after;
    }
    let mut more = false;
    let mut article = false;
    let mut bare = false;
    let figure;
    if rest.at_any("another one") && (rest.at("another") || rest.get(1).is_some_and(|t| t.is("more"))) {
        more = true;
        let after = rest.skip(if rest.at("another") { 1 } else { 2 });
        match number(after) {
            // "another half a cup", "another two cups".
            Ok((end, n)) => (rest, figure) = (end, n),
            Err(_) => (rest, figure) = (after, ONE),
        }
    } else if let Ok((after, n)) = number(rest) {
        (rest, figure) = (after, n);
    } else if rest.at_any("a an the one your my that") {
        article = true;
        // "the" opens an amount only before a container's size: "the 15 ounce can".
        let definite = rest.at_any("the your my that");
        let after = rest.skip(1);
        if definite && !matches!(size(skip_sizes(after)), Some((_, _, end)) if container(skip_sizes(end)).is_some()) {
            return miss(i);
        }
        (rest, figure) = (after, ONE);
    } else {
        // "A good cup", "a big teaspoon": "a good" says about how much.
        let good = rest.len() < i.len() && i.at_any("a an") && unit(skip_sizes(rest)).is_some();
        (article, bare) = (good, !good);
        figure = ONE;
    }

    let skipped = |mut r: Tokens<'_>| -> (usize, Manner, bool) {
        let from = r;
        let (mut m, mut more) = (Manner::Plain, false);
        loop {
            if r.at_any("heaping heaped rounded generous mounded") {
                m = Manner::Heaping;
            } else if r.at_any("scant scanty") {
                m = Manner::Scant;
            } else if r.at("more") {
                more = true;
            } else if !r.is_in(SIZES) {
                break;
            }
            r = r.skip(1);
        }
        (taken(from, r), m, more)
    };
    let (n, m, again) = skipped(rest);
    rest = rest.skip(n);
    more |= again;
    if m != Manner::Plain {
        manner = m;
    }
    let mut of_the = false;
    let mut of_those = false;
    // "half a cup", "a fourth of a cup", "two of the 15 ounce cans", "half of that bag".
    if !bare && !article {
        if figure.low < Ratio::ONE
            && rest.at_any("the that my your this")
            && container(skip_sizes(rest.skip(1))).is_some()
        {
            // "Half the tub of sour cream".
            rest = rest.skip(1);
        } else if rest.at_any("a an") && figure.low < Ratio::ONE {
            rest = rest.skip(1);
        } else if rest.at("of") && rest.nth_any(1, "a an") {
            rest = rest.skip(2);
        } else if rest.at("of") && figure.low < Ratio::ONE && unit(rest.skip(1)).is_some() {
            // "Half of bunch".
            rest = rest.skip(1);
        } else if rest.at("of") && rest.nth_any(1, "the those these my your that them") {
            let after = rest.skip(2);
            let (n, _, _) = skipped(after);
            let ahead = after.skip(n);
            if size(ahead).is_some_and(|s| container(skip_sizes(s.2)).is_some()) || unit(ahead).is_some() {
                of_those = true;
                rest = after;
            }
        }
        let (n, _, _) = skipped(rest);
        rest = rest.skip(n);
    }
    // "15 ounce can", "(15 oz) can", "one pound bag", "1 can": the size of a container.
    let mut package = None;
    let bracket = rest.first().is_some_and(|t| t.kind == Kind::Pause && t.text.starts_with('('));
    if let Some((amount, size_unit, end)) = size(if bracket { rest.skip(1) } else { rest }) {
        let end = if end.first().is_some_and(|t| t.kind == Kind::Pause && t.text.starts_with(')')) {
            end.skip(1)
        } else {
            end
        };
        let end = skip_sizes(end);
        if let Some((n, _)) = container(end) {
            package = Some(Package { size: amount, unit: size_unit });
            rest = end;
            let _ = n;
        }
    }
    let Some((n, mut u)) = unit(rest) else {
        // "24 ounce jar": the figure itself was the size.
        return miss(i);
    };
    // "Coriander powder one spoon" measures; "with a spoon" does not.
    if (article || bare) && n == 1 && rest.at_any("spoon spoons") {
        return miss(i);
    }
    // "Lime leaf, three, slice like hair": an order.
    if figure.high > Ratio::ONE && rest.at("slice") && rest.get(n).is_some_and(|t| t.is_in("after slice")) {
        return miss(i);
    }
    // "a sheet pan" is no sheet of anything.
    if u == Unit::Sheet && rest.nth_any(n, "pan pans tray") {
        return miss(i);
    }
    // "a few handfuls": more than one, and nobody knows how many.
    if bare && rest.first().is_some_and(|t| t.text.ends_with('s') && *t.text != *t.fold) {
        return miss(i);
    }
    // "Cup and a half of cornmeal": the article was swallowed.
    let and_half = rest.get(n).is_some_and(|t| t.is("and"))
        && rest.nth_any(n + 1, "a 1/2 ½ half")
        && matches!(u.dimension(), Dimension::Weight | Dimension::Volume);
    // A verb is no unit: "you can", "roll it", "drizzle the".
    if bare
        && !and_half
        && !(bare_unit(u)
            && rest.get(n).is_some_and(|t| {
                t.is("of") || (figure_follows_bare(u) && t.kind == Kind::Word && !t.is_in("after an act"))
            }))
    {
        return miss(i);
    }
    rest = rest.skip(n);
    let mut number = figure;
    // "28 ounce can", "a 5 ounce box": a size before a container, with no count or with an article for it.
    if package.is_none()
        && matches!(u.dimension(), Dimension::Weight | Dimension::Volume)
        && !bare
        && let Some((n, c)) = container(skip_sizes(rest))
        && !(c == Unit::Block && article)
        && !number_is_range(number)
    {
        // "Two quart jars" are two, "a two quart jar" is one.
        let many = skip_sizes(rest).first().is_some_and(|t| t.text.ends_with('s') && *t.text != *t.fold)
            && !article
            && number.low.is_whole()
            && (Ratio::whole(2)..=Ratio::whole(6)).contains(&number.low)
            && matches!(u, Unit::Quart | Unit::Pint | Unit::Gallon | Unit::Pound | Unit::Liter | Unit::Kilogram);
        package = Some(Package { size: if many { Ratio::ONE } else { number.low }, unit: u });
        number = if many { number } else { ONE };
        u = c;
        rest = skip_sizes(rest).skip(n);
    }
    // "a cup and a half", "two cups and a quarter", "a cup and two thirds".
    if rest.at("and")
        && rest
            .get(1)
            .is_some_and(|t| t.is_any("a one half quarter two three five") || matches!(t.kind, Kind::Number(_)))
    {
        if let Ok((after, part)) = mixed(rest.skip(1))
            && part < Ratio::ONE
            && unit(after).is_none()
            && !(after.at("of") && after.nth_any(1, "a an"))
            && !after.at_any("a an")
        {
            number = Number { low: number.low + part, high: number.high + part };
            rest = after;
        }
    } else if rest.at("or")
        && let Ok((after, top)) = mixed(rest.skip(1))
        && unit(after).is_none()
        && top > number.high
        && top < Ratio::whole(20)
        && (after.is_empty() || after.at("of") || after.first().is_some_and(|t| t.kind != Kind::Word))
    {
        // "a tablespoon or two".
        number.high = top;
        rest = after;
    }
    let Some(mut amount) = Amount::range(number.low, number.high, Some(u)) else { return miss(i) };
    // "two tablespoons to a quarter cup": both ends with a unit of their own.
    if rest.at_any("to or")
        && let Ok((after, other)) = self::amount_of_one(rest.skip(1))
        && let Some(top) = other.to(u)
        && top.low() > amount.high()
    {
        let whole = |a: Amount, b: Amount, u: Unit| Amount::range(a.low(), b.high(), Some(u));
        let in_theirs = other.unit().and_then(|t| amount.to(t).and_then(|a| whole(a, other, t)));
        amount = match in_theirs {
            Some(a) if a.low().den() <= 4 => a,
            _ => whole(amount, top, u).unwrap_or(amount),
        };
        rest = after;
    }
    // "A quarter cup plus two tablespoons of honey".
    if rest.at("plus")
        && let Ok((after, other)) = self::amount_of_one(rest.skip(1))
        && other.unit().is_some_and(|o| o != u && o.dimension() == u.dimension())
        && (after.at("of") || lexicon().foods.folded(after).is_some())
        && let Some(sum) = other.to(u).and_then(|o| amount.plus(o))
        && matches!(u.dimension(), Dimension::Weight | Dimension::Volume)
    {
        amount = sum;
        rest = after;
    }
    if rest.at("or") && rest.get(1).is_some_and(|t| t.is("so")) {
        manner = Manner::About;
        rest = rest.skip(2);
    }
    // "from half a cup down to a quarter cup", "from two tablespoons to one": the second figure is hers.
    if i.at("from") {
        let down = usize::from(rest.at_any("down up"));
        if rest.get(down).is_some_and(|t| t.is("to")) {
            let after = rest.skip(down + 1);
            if let Ok((end, second)) = amount_of_one(after) {
                amount = second;
                rest = end;
            } else if let Ok((end, n)) = self::number(after)
                && let Some(second) = Amount::range(n.low, n.high, Some(u))
            {
                amount = second;
                rest = end;
            }
        }
    }
    if rest.at_any("total altogether heaping scant level") {
        rest = rest.skip(1);
    }
    // "half a teaspoon more of garam masala".
    if rest.at("more") {
        more = true;
        rest = rest.skip(1);
    }
    // "Mayonnaise and ketchup, a quarter cup of each."
    let one = usize::from(rest.get(2).is_some_and(|t| t.is("one")));
    let of_each = rest.at("of")
        && rest.get(1).is_some_and(|t| t.is("each"))
        && rest.get(2 + one).is_none_or(|t| !t.is_spoken() || t.is_any("and then in for"));
    let each = if of_each {
        rest = rest.skip(2 + one);
        true
    } else if rest.at("each") || rest.at("apiece") {
        rest = rest.skip(1);
        true
    } else {
        false
    };
    if rest.at("of") && rest.get(1).is_some_and(|t| t.is_in("which food")) {
        of_the = true;
    }
    Ok((
        rest,
        SaidAmount {
            amount: amount.in_manner(manner),
            package,
            each,
            more,
            of_the: of_the && !of_those,
            bare,
            article,
        },
    ))
}

/// "A two-inch piece of ginger", "a 3 inch knob": what is measured by its length.
fn long_piece(i: Tokens<'_>) -> Option<(Tokens<'_>, SaidAmount)> {
    long(i).filter(|(rest, _)| rest.at("of")).map(|(rest, said)| (rest, SaidAmount::plain(said)))
}

/// "A two inch piece", as it also stands after its food.
pub fn long(i: Tokens<'_>) -> Option<(Tokens<'_>, Amount)> {
    let row = about(i).map_or(i, |a| a.0);
    let row = row.skip(usize::from(row.at_any("a an")));
    let (rest, n) = number(row).ok()?;
    let (len, u) = unit(rest).filter(|u| u.1 == Unit::Inch)?;
    let rest = rest.skip(len);
    let amount = Amount::range(n.low, n.high, Some(u)).filter(|_| rest.at_any(LONG))?;
    Some((rest.skip(1), amount))
}

/// What is cut from a root or a rind and told by its length.
const LONG: &str = "piece pieces knob nub chunk hunk stick length strip thumb slice finger";

const ONE: Number = Number { low: Ratio::ONE, high: Ratio::ONE };

fn number_is_range(n: Number) -> bool {
    n.low != n.high
}

/// A number or article with a plain unit, for the far end of a range.
fn amount_of_one(i: Tokens<'_>) -> Read<'_, Amount> {
    let (rest, n) = match number(i) {
        Ok(found) => found,
        Err(m) if !i.at_any("a an") => return Err(m),
        Err(_) => (i.skip(1), ONE),
    };
    let rest = if rest.at_any("a an") {
        rest.skip(1)
    } else if rest.at("of") && rest.get(1).is_some_and(|t| t.is("a")) {
        rest.skip(2)
    } else {
        rest
    };
    match unit(rest).and_then(|(len, u)| Amount::range(n.low, n.high, Some(u)).map(|a| (len, a))) {
        Some((len, a)) => Ok((rest.skip(len), a)),
        None => miss(i),
    }
}

/// The unit at the front: its length in tokens.
///
/// "Four cube steaks", "a pound cake": a food that is called after a measure is no measure.
pub fn unit(i: Tokens<'_>) -> Option<(usize, Unit)> {
    // "Six flakes of garlic": a clove, as it is called in India.
    if i.at_any("flake flakes") && i.skip(1).at("of") && i.skip(2).at("garlic") {
        return Some((1, Unit::Clove));
    }
    let (n, unit) = lexicon().units.exact(i)?;
    let named = !unit.is_container() && lexicon().foods.folded(i).is_some_and(|f| f.0 > n);
    (!named).then_some((n, unit))
}

/// A container at the front.
fn container(i: Tokens<'_>) -> Option<(usize, Unit)> {
    unit(i).filter(|(_, u)| u.is_container())
}

/// A figure and a unit of weight or volume: "15 ounce", "fourteen and a half ounce", "one pound", "400 gram".
fn size(i: Tokens<'_>) -> Option<(Ratio, Unit, Tokens<'_>)> {
    let (rest, n) = mixed(i).ok()?;
    let (len, u) = unit(rest)?;
    matches!(u.dimension(), Dimension::Weight | Dimension::Volume).then(|| (n, u, rest.skip(len)))
}

/// The size of a container said after it: ", the 15 ounce can", ", they're the one ounce packets", "(400 g)".
///
/// package := ("," | "(")? ("it's" | "these are" | "they're" | "that's")? ("the" | "a" | "an")? size container? (")" | "one" | "kind" | "size")?
pub fn package_after(i: Tokens<'_>) -> Read<'_, Package> {
    let mut rest = i;
    while rest.first().is_some_and(|t| matches!(t.kind, Kind::Comma | Kind::Pause)) {
        rest = rest.skip(1);
    }
    let mut led = rest.len() < i.len();
    let lead = lexicon().lead("before a size", rest);
    led |= lead > 0;
    rest = rest.skip(lead);
    while rest.at_any("also just your regular") {
        rest = rest.skip(1);
    }
    if rest.at_any("the a an") {
        rest = rest.skip(1);
        led = true;
    }
    while rest.is_in(SIZES) {
        rest = rest.skip(1);
    }
    let Some((n, u, end)) = size(rest) else { return miss(i) };
    // "It's in a jar, two tablespoons": nothing is sold by the spoon.
    let spoons =
        matches!(u, Unit::Teaspoon | Unit::Tablespoon | Unit::Dessertspoon) && container(skip_sizes(end)).is_none();
    if !led || spoons {
        return miss(i);
    }
    let mut end = skip_sizes(end);
    let named = if let Some((len, _)) = container(end) {
        end = end.skip(len);
        true
    } else if end.at_any("one ones kind size") {
        end = end.skip(1);
        true
    } else {
        false
    };
    if end.first().is_some_and(|t| t.kind == Kind::Pause && t.text.starts_with(')')) {
        end = end.skip(1);
    } else if !named && end.first().is_some_and(|t| t.kind == Kind::Word && !t.is_in("no part of it")) {
        // A size with a food of its own belongs to that food.
        return miss(i);
    }
    Ok((end, Package { size: n, unit: u }))
}

fn skip_sizes(mut i: Tokens<'_>) -> Tokens<'_> {
    while i.is_in(SIZES) {
        i = i.skip(1);
    }
    i
}

/// Units that need no number before "of": "cup of sour cream", "pinch of salt".
fn bare_unit(u: Unit) -> bool {
    !matches!(
        u,
        Unit::Can
            | Unit::Inch
            | Unit::Leaf
            | Unit::Ear
            | Unit::Square
            | Unit::Cube
            | Unit::Milliliter
            | Unit::Liter
            | Unit::Piece
            | Unit::Sheet
            | Unit::Roll
    )
}

/// Spoons and cups may even do without the "of": "teaspoon salt".
fn figure_follows_bare(u: Unit) -> bool {
    matches!(u, Unit::Teaspoon | Unit::Tablespoon | Unit::Pinch | Unit::Dash)
}
