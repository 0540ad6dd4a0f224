//! Numbers: "two and a half" becomes 5/2, "three to four" becomes 3 to 4, "half a dozen" becomes 6.

use super::word::word;
use crate::lexicon::{Sets, lexicon};
use crate::measure::Ratio;
use crate::token::input::miss;
use crate::token::{Kind, Read, Tokens};
use nom::Parser;
use nom::sequence::preceded;

/// A number or a range of numbers, low first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// The low end.
    pub low: Ratio,
    /// The high end; equal to the low end where one number was said.
    pub high: Ratio,
}

const SMALL: &str = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen \
                     eighteen nineteen";
const TENS: &str = "twenty thirty forty fifty sixty seventy eighty ninety";
const PARTS: &str =
    "half halves third thirds quarter quarters fourth fourths fifth fifths sixth sixths eighth eighths sixteenth";
/// What each of those is one of.
const OF: [i64; 15] = [2, 2, 3, 3, 4, 4, 4, 4, 5, 5, 6, 6, 8, 8, 16];

/// The place of a word in a row of words.
#[cfg_attr(target_arch = "wasm32", inline(never))]
fn place(words: &str, word: &str) -> Option<usize> {
    // Numbers are asked for at every word, and few words begin as one.
    if !b"zotfsenhq".contains(word.as_bytes().first()?) {
        return None;
    }
    words.split(' ').position(|w| w == word)
}

/// number := mixed (("to" | "or" | "and") mixed)?
///
/// `and` makes a range only after "between". "a cup or two" is the amount's business. A range whose second end is smaller is
/// left alone: "two or one" is no range, and "1-1/2" is one and a half.
pub fn number(i: Tokens<'_>) -> Read<'_, Number> {
    let between = i.at("between");
    let anywhere = i.at("anywhere") && i.skip(1).at("from");
    let start = i.skip(if anywhere { 2 } else { usize::from(i.at_any("between from")) });
    let (rest, low) = mixed(start)?;
    let after_comma = match rest.first() {
        Some(t) if t.kind == Kind::Comma && rest.get(1).is_some_and(|t| t.is("maybe")) => rest.skip(1),
        _ => rest,
    };
    let join = |t: Tokens<'_>| t.at_any("to or") || between && t.at("and") || t.at("maybe");
    // "two three tablespoon", "five, six minutes": neighbours said in a row.
    let said_in_words = start.first().is_some_and(|t| t.kind == Kind::Word);
    if said_in_words && low.is_whole() {
        let comma = rest.first().is_some_and(|t| t.kind == Kind::Comma);
        let next = if comma { rest.skip(1) } else { rest };
        if next.first().is_some_and(|t| t.kind == Kind::Word)
            && let Ok((after, high)) = below_hundred(next)
            && Ratio::whole(high) > low
            && Ratio::whole(high) - low <= Ratio::whole(if low > Ratio::ONE { 2 } else { 1 })
            && low >= Ratio::ONE
        {
            let timed = after.is_in("units of time");
            let measured = after.is_in("measured by");
            // "Six seven curry leaves": the next number counts a food.
            let counted = Ratio::whole(high) - low <= Ratio::whole(if comma { 2 } else { 1 })
                && low > Ratio::ONE
                && after.first().is_some_and(|t| t.kind == Kind::Word && !t.is_any("of and"))
                && below_hundred(after).is_err();
            if timed || (measured || counted) && !comma || counted && low > Ratio::whole(2) {
                return Ok((after, Number { low, high: Ratio::whole(high) }));
            }
        }
    }
    if join(after_comma) {
        let joined = after_comma.first().is_some_and(|t| t.span.end - t.span.start == 1);
        let mut next = after_comma.skip(1);
        if next.at("maybe") {
            next = next.skip(1);
        }
        if let Ok((after, high)) = mixed(next) {
            if high > low {
                return Ok((after, Number { low, high }));
            }
            if joined && low.is_whole() && high < Ratio::ONE {
                return Ok((after, Number { low: low + high, high: low + high }));
            }
        }
    }
    Ok((rest, Number { low, high: low }))
}

/// mixed := "half a dozen" | "a dozen" | "a couple" "of"? | whole ("and"? fraction)? | fraction
pub fn mixed(i: Tokens<'_>) -> Read<'_, Ratio> {
    if let Ok((rest, n)) = dozen(i) {
        return Ok((rest, n));
    }
    if let Ok((rest, f)) = fraction(i) {
        return Ok((rest, f));
    }
    // "Point five cups": only before a unit, since "at that point two" is no fraction.
    if i.at("point")
        && let Some((rest, part)) = decimals(i.skip(1))
        && crate::lexicon::lexicon().units.exact(rest).is_some()
    {
        return Ok((rest, part));
    }
    let (rest, n) = whole(i)?;
    // "One point five kilos".
    if n.is_whole()
        && rest.at("point")
        && let Some((after, part)) = decimals(rest.skip(1))
    {
        return Ok((after, n + part));
    }
    // "1 1/2", "1 and 1/2", "two and a half", "one and three quarters".
    if n.is_whole() && n < Ratio::whole(100) {
        if let Ok((after, f)) = glyph(rest.skip(usize::from(rest.at("and")))) {
            return Ok((after, n + f));
        }
        if let Ok((after, f)) = preceded(word("and"), fraction).parse(rest) {
            // "two and half a teaspoon" counts two things; "two and a half teaspoons" one.
            if !(after.at_any("a an") || (after.at("of") && after.nth_any(1, "a the that"))) {
                return Ok((after, n + f));
            }
        }
    }
    Ok((rest, n))
}

/// The digits said after "point": "five", "two five", "seventy five".
fn decimals(i: Tokens<'_>) -> Option<(Tokens<'_>, Ratio)> {
    let digit = |t: Tokens<'_>| {
        let n = match t.first()?.kind {
            Kind::Number(n) if n.is_whole() && n < Ratio::whole(10) => (0..10).find(|k| Ratio::whole(*k) == n)?,
            _ => place(SMALL, &t.first()?.text).filter(|n| *n < 10)? as i64,
        };
        Some(n)
    };
    let (mut rest, mut part, mut tenth) = (i, Ratio::whole(0), 10);
    while let Some(n) = digit(rest).filter(|_| tenth <= 1000) {
        part = part + Ratio::of(n, tenth);
        (rest, tenth) = (rest.skip(1), tenth * 10);
    }
    if tenth > 10 {
        return Some((rest, part));
    }
    let (rest, n) = below_hundred(i).ok()?;
    Some((rest, Ratio::of(n, 100)))
}

/// dozen := ("half" "a" | "a" | mixed) "dozen" | ("a")? "couple" ("of")? | "a" "pair" "of"
fn dozen(i: Tokens<'_>) -> Read<'_, Ratio> {
    for (set, n) in [("half a dozen", 6), ("a dozen", 12), ("a couple", 2)] {
        let len = if i.at_any("half a dozen couple") { lexicon().lead(set, i) } else { 0 };
        if len > 0 {
            return Ok((i.skip(len), Ratio::whole(n)));
        }
    }
    let (rest, n) = whole(i)?;
    if rest.at("dozen") { Ok((rest.skip(1), n * Ratio::whole(12))) } else { miss(i) }
}

/// A proper fraction in figures: 1/2, ½.
fn glyph(i: Tokens<'_>) -> Read<'_, Ratio> {
    match i.first().map(|t| t.kind) {
        Some(Kind::Number(n)) if n < Ratio::ONE && !n.is_zero() => Ok((i.skip(1), n)),
        _ => miss(i),
    }
}

/// fraction := 1/2 | ("a" | "an" | "one" | whole)? part
///
/// A part after a whole number must be more than one ("three quarters"), or stand before a unit ("three quarter cup").
pub fn fraction(i: Tokens<'_>) -> Read<'_, Ratio> {
    if let Ok(found) = glyph(i) {
        return Ok(found);
    }
    let part = |t: Tokens<'_>| t.first().and_then(|t| place(PARTS, &t.text)).and_then(|n| OF.get(n)).copied();
    if let Some(den) = part(i) {
        // Ordinals ("third one", "fourth, the…") are no fractions: a bare "half" or "quarter" is, and "third of a cup".
        let of_a = i.get(1).is_some_and(|t| t.is("of")) && i.nth_any(2, "a an");
        return if i.at_any("half quarter") || of_a { Ok((i.skip(1), Ratio::of(1, den))) } else { miss(i) };
    }
    if i.at_any("a an another")
        && let Some(den) = part(i.skip(1))
    {
        return Ok((i.skip(2), Ratio::of(1, den)));
    }
    let (rest, n) = whole(i)?;
    match part(rest) {
        Some(den) if n.is_whole() && n < Ratio::whole(den) => {
            let ordinal = rest.first().is_some_and(|t| !t.text.ends_with('s')) && n > Ratio::ONE;
            let unit = rest.get(1).is_some_and(|t| t.is_in("measured in parts"));
            if ordinal && !unit { miss(i) } else { Ok((rest.skip(1), n * Ratio::of(1, den))) }
        }
        _ => miss(i),
    }
}

/// whole := 12 | "twelve" | "twenty" ("-"? "five")? | ("a" | whole) "hundred" ("and"? whole)? | … "thousand"
pub fn whole(i: Tokens<'_>) -> Read<'_, Ratio> {
    if let Some(Kind::Number(n)) = i.first().map(|t| t.kind) {
        return Ok((i.skip(1), n));
    }
    // "Hundred and forty grams": the article is left out.
    let bare_hundred = i.at("hundred")
        && (crate::lexicon::lexicon().units.exact(i.skip(1)).is_some()
            || i.get(1).is_some_and(|t| t.is("and")) && below_hundred(i.skip(2)).is_ok());
    // "One twenty-five grams", "two fifty mils": a hundred is swallowed before a metric unit.
    if let Ok((rest, n)) = spoken_hundreds(i)
        && crate::lexicon::lexicon()
            .units
            .exact(rest)
            .is_some_and(|u| matches!(u.1, crate::measure::Unit::Gram | crate::measure::Unit::Milliliter))
    {
        return Ok((rest, Ratio::whole(n)));
    }
    let (mut rest, mut n) = match (i.at("a"), i.nth_any(1, "hundred thousand")) {
        (true, true) => (i.skip(1), 1),
        _ if bare_hundred => (i, 1),
        _ => below_hundred(i)?,
    };
    if rest.at("hundred") {
        n *= 100;
        rest = rest.skip(1);
        let after = if rest.at("and") { rest.skip(1) } else { rest };
        if let Ok((end, small)) = below_hundred(after) {
            n += small;
            rest = end;
        }
    } else if rest.at("thousand") {
        n *= 1000;
        rest = rest.skip(1);
    }
    Ok((rest, Ratio::whole(n)))
}

/// A number word below a hundred.
pub fn below_hundred(i: Tokens<'_>) -> Read<'_, i64> {
    let Some(t) = i.first() else { return miss(i) };
    if let Some(n) = place(SMALL, &t.text) {
        return Ok((i.skip(1), n as i64));
    }
    // "the seven by elevens": pans of that size.
    if let Some(n) = t.text.strip_suffix('s').and_then(|w| place(SMALL, w)).filter(|n| *n >= 8) {
        return Ok((i.skip(1), n as i64));
    }
    if let Some(n) = place(TENS, &t.text) {
        let tens = 20 + 10 * n as i64;
        let ones = i.get(1).and_then(|t| place(SMALL, &t.text)).filter(|n| (1..=9).contains(n));
        return Ok(match ones {
            Some(n) => (i.skip(2), tens + n as i64),
            None => (i.skip(1), tens),
        });
    }
    miss(i)
}

/// "three seventy five", "four hundred", "three fifty": how oven heat and can sizes are said, 100 to 999.
pub fn spoken_hundreds(i: Tokens<'_>) -> Read<'_, i64> {
    let (rest, hundreds) = below_hundred(i)?;
    if !(1..=9).contains(&hundreds) {
        return miss(i);
    }
    let (rest, tens) = below_hundred(rest)?;
    if !(10..=99).contains(&tens) {
        return miss(i);
    }
    Ok((rest, hundreds * 100 + tens))
}

/// Words that say how exact a figure is. Gives nothing itself; the amount keeps the manner.
pub fn about(i: Tokens<'_>) -> Read<'_, ()> {
    match lexicon().lead("about so much", i) {
        0 => miss(i),
        n => Ok((i.skip(n), ())),
    }
}
