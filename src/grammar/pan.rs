//! Pans: "a nine by thirteen" becomes a rectangle of 9 by 13 inches, "my ten inch cast iron" a skillet of 10.

use super::number::mixed;
use super::word::taken;
use crate::lexicon::Sets;
use crate::lexicon::{PanWord, lexicon};
use crate::measure::{Length, Pan, Ratio, Shape, bounds};
use crate::token::input::miss;
use crate::token::{Kind, Read, Token, Tokens};

/// pan := side ("by" side)+ ("inch" | "cm")? word{0,4} pan-word? | side ("inch" | "cm") word{0,4} pan-word
///
/// A single side needs its unit and a pan word: "an eight inch square pan". Two sides need neither.
pub fn pan(i: Tokens<'_>) -> Read<'_, Pan> {
    let (mut rest, first) = mixed(i)?;
    let mut sides = vec![first];
    let mut length = None;
    loop {
        if length.is_none()
            && let Some((n, l)) = unit(rest)
        {
            length = Some(l);
            rest = rest.skip(n);
        }
        if sides.len() < 3
            && rest.at_any("by x ×")
            && let Ok((after, side)) = mixed(rest.skip(1))
        {
            sides.push(side);
            rest = after;
            continue;
        }
        break;
    }
    let bound = if length == Some(Length::Centimeter) { bounds::CENTIMETERS } else { bounds::INCHES };
    let fits = |s: &Ratio| bound.holds(s.floor());
    // A third side is the depth, which no card shows.
    let deep = sides.len() == 3;
    sides.truncate(2);
    if !sides.iter().all(fits) {
        return miss(i);
    }
    let named = pan_word(rest);
    let shape_word = (0..5.min(rest.len())).any(|n| rest.get(n).is_some_and(|t| t.is("square")));
    match (sides.len(), &named) {
        (2, _) => {}
        (1, Some(_)) if length.is_some() => {}
        (1, None) if length.is_some() && rest.at("square") => {}
        _ => return miss(i),
    }
    let (end, word) = match named {
        Some((n, word)) => (rest.skip(n), Some(word)),
        None => (rest, None),
    };
    let shape = match (sides.len(), word.map(|w| w.shape)) {
        (2, Some(Shape::Sheet | Shape::Loaf | Shape::Muffin)) => word.map_or(Shape::Rectangle, |w| w.shape),
        (2, _) if sides[0] == sides[1] => Shape::Square,
        (2, _) => Shape::Rectangle,
        (_, Some(Shape::Square)) => Shape::Square,
        _ if shape_word => Shape::Square,
        (_, Some(Shape::Other)) if rest.first_any(4, "iron frying skillet") => Shape::Skillet,
        (_, Some(Shape::Other)) if rest.0.iter().take(4).any(|t| t.is("pie")) => Shape::Pie,
        (_, Some(Shape::Other)) => Shape::Round,
        (_, Some(shape)) => shape,
        _ => Shape::Square,
    };
    let _ = deep;
    let words: Vec<&str> =
        rest.0.iter().take(taken(rest, end)).filter(|t| t.kind == Kind::Word).map(|t| &*t.text).collect();
    let called = if words.is_empty() { default_name(shape).to_string() } else { crate::letters::join(&words, " ") };
    Ok((end, Pan { shape, sides, length: length.unwrap_or(Length::Inch), holds: None, called }))
}

fn default_name(shape: Shape) -> &'static str {
    match shape {
        Shape::Skillet => "skillet",
        Shape::Sheet => "sheet pan",
        _ => "pan",
    }
}

fn unit(i: Tokens<'_>) -> Option<(usize, Length)> {
    let t: &Token = i.first()?;
    if t.is_any("inch inches in") && !(t.is("in") && !t.joined && i.nth_any(1, "the a my")) {
        return Some((1, Length::Inch));
    }
    t.is_in("centimeters").then_some((1, Length::Centimeter))
}

/// A pan word within the next few words, none of them the start of anything else: "by 13 foil pan", "inch cast iron skillet".
fn pan_word(i: Tokens<'_>) -> Option<(usize, PanWord)> {
    for n in 0..5 {
        let rest = i.skip(n);
        if let Some((len, word)) = lexicon().pans.folded(rest) {
            return Some((n + len, word));
        }
        let t = rest.first()?;
        let between = t.kind == Kind::Word && !t.is_in("after a pan");
        if !between {
            return None;
        }
    }
    None
}
