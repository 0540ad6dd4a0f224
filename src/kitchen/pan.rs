//! Pans: what they cover and hold, the factor between two, and what fits: half a 9 by 13 goes in an 8-inch square.

use super::order::order;
use crate::measure::{Amount, Length, Pan, Ratio, Shape, Unit};
use std::fmt;
use std::sync::LazyLock;

/// A pan as a solid: its sides inside the rim, in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// Its shape.
    pub shape: Shape,
    /// Both sides; both the width across where it is round; nothing where only the capacity is known.
    pub sides: Option<(Ratio, Ratio)>,
    /// Inside depth: said, or the usual one of its shape.
    pub depth: Ratio,
    /// What it holds in cubic inches to the brim.
    brim: Ratio,
    /// It is glass: it browns faster and breaks when hot meets cold.
    pub glass: bool,
}

/// A cup in cubic inches: 231 to the gallon, 16 cups to the gallon (NIST Handbook 44, appendix C).
pub const CUBIC_INCHES_PER_CUP: Ratio = Ratio::of(231, 16);
/// How much of a pan may be filled: UNL Extension has a 9 x 13 x 2 inch pan hold 14 to 15 cups, of 16.2 to the brim.
const RIM: Ratio = Ratio::of(9, 10);
/// Sloping sides and the funnel of a tube pan take a fifth; common practice (a 9-inch pie plate holds 4 cups).
const SLOPED: Ratio = Ratio::of(4, 5);
/// Pi to six places, in whole numbers, so that areas stay exact ratios.
const PI: Ratio = Ratio::of(355, 113);
/// One cup of a standard muffin tin holds half a US cup, common practice.
const MUFFIN_CUPS: Ratio = Ratio::of(1, 2);

impl Vessel {
    /// The solid of a pan as said; `None` where nothing of its size was said.
    pub fn of(pan: &Pan) -> Option<Vessel> {
        let inch = |r: &Ratio| match pan.length {
            Length::Inch => *r,
            Length::Centimeter => *r * Ratio::of(100, 254),
        };
        let mut sides = pan.sides.iter().map(inch);
        let (first, second, third) = (sides.next(), sides.next(), sides.next());
        // A round pan of two figures is its width and depth, and a square one too: "9 by 2 round". A "cake pan" of 9 by 13
        // is no round one, whatever it is called.
        let second_is_depth =
            second.is_some_and(|s| s <= Ratio::whole(4)) && !matches!(pan.shape, Shape::Loaf | Shape::Other);
        let one_side = second.is_none() || second_is_depth;
        let round = one_side && (is_round(pan.shape) || pan.shape == Shape::Other);
        let usual = usual_depth(pan.shape, first);
        let glass = ["glass", "pyrex"].iter().any(|w| crate::letters::holds(&pan.called, w));
        let holds = pan.holds.as_ref().and_then(|h| cubic_inches(pan.shape, h));
        let Some(first) = first else {
            let brim = holds? / if pan.shape == Shape::Muffin { Ratio::ONE } else { RIM };
            return Some(Vessel { shape: pan.shape, sides: None, depth: usual, brim, glass });
        };
        let across = if second_is_depth { first } else { second.unwrap_or(first) };
        let depth = if second_is_depth { second } else { third }.unwrap_or(usual);
        let area = if round { first * first * PI / Ratio::whole(4) } else { first * across };
        let sloped = if matches!(pan.shape, Shape::Pie | Shape::Tube) { SLOPED } else { Ratio::ONE };
        let brim = match holds {
            Some(said) => said / RIM,
            None => area * depth * sloped,
        };
        Some(Vessel { shape: pan.shape, sides: Some((first, across)), depth, brim, glass })
    }

    /// What it covers, in square inches; a pan known by its capacity covers what it would at its usual depth.
    pub fn area(&self) -> Ratio {
        match self.sides {
            Some((a, b)) if a == b && (is_round(self.shape) || self.shape == Shape::Other) => {
                a * b * PI / Ratio::whole(4)
            }
            Some((a, b)) => a * b,
            None => self.brim / self.depth,
        }
    }

    /// What it holds to the brim, in cubic inches.
    pub fn volume(&self) -> Ratio {
        self.brim
    }

    /// What it holds with a rim left free, in US cups.
    pub fn cups(&self) -> Ratio {
        let rim = if self.shape == Shape::Muffin { Ratio::ONE } else { RIM };
        self.brim * rim / CUBIC_INCHES_PER_CUP
    }

    /// Whether what is in it is thin and baked by area; else it is filled, and volume counts.
    fn is_flat(&self) -> bool {
        use Shape::*;
        self.sides.is_some() && matches!(self.shape, Rectangle | Square | Round | Sheet | Skillet)
    }
}

impl fmt::Display for Vessel {
    /// "8 × 8 in square", "9 in round", "8-cup dish".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let quarter = |r: Ratio| r.round_to(Ratio::of(1, 4));
        let name = if self.shape == Shape::Other { "dish" } else { self.shape.name() };
        match self.sides {
            Some((a, b)) if a == b && self.shape != Shape::Square => write!(f, "{:#} in {name}", quarter(a)),
            Some((a, b)) => write!(f, "{:#} × {:#} in {name}", quarter(a), quarter(b)),
            None => write!(f, "{:#}-cup {name}", self.cups().round_to(Ratio::of(1, 2))),
        }
    }
}

fn is_round(shape: Shape) -> bool {
    matches!(shape, Shape::Round | Shape::Skillet | Shape::Tube | Shape::Pie)
}

/// Inside depths of the usual pans in inches, common practice.
fn usual_depth(shape: Shape, length: Option<Ratio>) -> Ratio {
    match shape {
        Shape::Sheet => Ratio::ONE,
        Shape::Pie => Ratio::of(5, 4),
        Shape::Loaf if length.is_some_and(|l| l < Ratio::whole(9)) => Ratio::of(5, 2),
        Shape::Loaf => Ratio::whole(3),
        Shape::Tube if length.is_some_and(|l| l < Ratio::whole(10)) => Ratio::whole(3),
        Shape::Tube => Ratio::whole(4),
        _ => Ratio::whole(2),
    }
}

/// A capacity in cubic inches; a muffin tin counts its cups.
fn cubic_inches(shape: Shape, holds: &Amount) -> Option<Ratio> {
    match (shape, holds.unit()) {
        (Shape::Muffin, None | Some(Unit::Cup)) => Some(holds.high() * MUFFIN_CUPS * CUBIC_INCHES_PER_CUP),
        (_, Some(unit)) => Some(holds.high() * unit.factor_to(Unit::Cup)? * CUBIC_INCHES_PER_CUP),
        _ => None,
    }
}

/// The factor from one pan to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// Exactly: 64/117 from a 9 by 13 to an 8-inch square.
    pub exact: Ratio,
    /// The nearest factor a cook works with, where it is within a tenth: 1/2.
    pub handy: Ratio,
    /// Flat pans compare by area; where one is filled, by volume.
    pub by_volume: bool,
}

/// Factors a cook works with: wholes and halves first, then what eggs and cups divide into without trouble.
const HANDY: [[(i64, i64); 7]; 2] = [
    [(1, 1), (2, 1), (1, 2), (3, 2), (3, 1), (5, 2), (4, 1)],
    [(1, 4), (1, 3), (2, 3), (3, 4), (5, 4), (4, 3), (5, 3)],
];

/// The factor that makes a card for one pan fill another as high.
pub fn between(from: &Vessel, to: &Vessel) -> Between {
    let by_volume = !(from.is_flat() && to.is_flat());
    let exact = if by_volume { to.volume() / from.volume() } else { to.area() / from.area() };
    let off = |f: &Ratio| (*f - exact).abs() / exact;
    let near = HANDY.iter().find_map(|row| {
        let factors = row.iter().map(|(num, den)| Ratio::of(*num, *den));
        factors.filter(|f| off(f) <= Ratio::of(1, 10)).min_by_key(off)
    });
    let handy = near.unwrap_or(exact);
    Between { exact, handy, by_volume }
}

/// A common pan that takes a resized card.
#[derive(Clone, Copy, Debug)]
pub struct Fit {
    /// "8-inch square pan".
    pub name: &'static str,
    /// How deep the food lies in it, of 1 as in the card's pan: 117/128.
    pub depth: Ratio,
}

struct Sold {
    name: &'static str,
    vessel: Vessel,
    length: Length,
}

static SOLD: LazyLock<Vec<Sold>> = LazyLock::new(|| {
    let row = |line: &'static str| {
        let mut parts = line.split(';').map(str::trim);
        let (name, shape, sides, depth) = (parts.next()?, parts.next()?, parts.next()?, parts.next()?);
        let (sides, length) = match sides.strip_suffix(" cm") {
            Some(sides) => (sides, Length::Centimeter),
            None => (sides, Length::Inch),
        };
        let sides = numbers(sides);
        let round = is_round(shape_named(shape)?);
        let depth: Ratio = depth.parse().ok()?;
        let sides = if round { vec![*sides.first()?, depth] } else { vec![*sides.first()?, *sides.get(1)?, depth] };
        let pan = Pan { shape: shape_named(shape)?, sides, length, holds: None, called: String::new() };
        Some(Sold { name, vessel: Vessel::of(&pan)?, length })
    };
    crate::lexicon::lists::list("ovenware.txt").lines().filter(|l| !l.starts_with('#')).filter_map(row).collect()
});

/// The names of the common pans, in the order of the list.
pub fn sold() -> impl Iterator<Item = &'static str> {
    SOLD.iter().map(|s| s.name)
}

/// The common pans a card for `from` fits at `factor`: as deep as before to within an eighth more or a sixth less, and not
/// above the rim. Pans of the card's own length, nearest depth first.
pub fn fits(from: &Pan, factor: Ratio) -> Vec<Fit> {
    let Some(vessel) = Vessel::of(from) else { return Vec::new() };
    let shapes = |sold: &&Sold| sold.length == from.length && sits_like(vessel.shape, sold.vessel.shape);
    let fit = |sold: &Sold| {
        let depth = factor / between(&vessel, &sold.vessel).exact;
        let below_rim = factor * vessel.volume() * RIM <= sold.vessel.volume();
        (below_rim && Ratio::of(5, 6) <= depth && depth <= Ratio::of(9, 8)).then_some(Fit { name: sold.name, depth })
    };
    let found: Vec<Fit> = SOLD.iter().filter(shapes).filter_map(fit).collect();
    let off = |at: usize| (found[at].depth - Ratio::ONE).abs();
    order(found.len(), &mut |a, b| off(a) < off(b)).into_iter().map(|at| found[at]).collect()
}

/// Which shapes stand in for which: cakes and bakes go between square, round and oblong, the others keep their kind.
fn sits_like(a: Shape, b: Shape) -> bool {
    use Shape::*;
    let cake = |s: Shape| matches!(s, Rectangle | Square | Round | Other);
    a == b || cake(a) && cake(b)
}

/// How many pans of the card's own size a whole factor takes: 2 for a doubled 9 by 13. `None` for pots, skillets and
/// factors that leave a pan part full.
pub fn count(pan: &Pan, factor: Ratio) -> Option<i64> {
    let bakes = !matches!(pan.shape, Shape::Skillet | Shape::Other);
    (bakes && factor.is_whole() && factor > Ratio::ONE).then(|| factor.floor())
}

/// Why a text names no pan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoPan {
    said: String,
}

impl fmt::Display for NoPan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "\"{}\" names no size of pan (for example 8 by 8, 9-inch round, 20 cm square, 2-quart dish)",
            self.said
        )
    }
}

impl std::error::Error for NoPan {}

/// Reads a pan as it is typed: "8 by 8", "9x13", "9-inch round", "20 cm square", "10-inch skillet", "2-quart dish",
/// "12-cup muffin tin". Two equal sides are a square, two others a rectangle, one without a shape a round.
pub fn parse(text: &str) -> Result<Pan, NoPan> {
    let none = || NoPan { said: text.trim().to_owned() };
    let lower = crate::letters::lower(text.trim()).replace('-', " ").replace('×', " by ").replace('"', " inch ");
    let words = split(&lower);
    let word = |wanted: &[&str]| words.iter().any(|w| wanted.contains(&w.as_str()));
    let glass = if word(&["glass", "pyrex"]) { "glass " } else { "" };
    let length = if word(&["cm", "centimeter", "centimeters", "centimetre", "centimetres"]) {
        Length::Centimeter
    } else {
        Length::Inch
    };
    let shape = words.iter().find_map(|w| shape_named(w));
    let figures = numbers(&crate::letters::join(&words, " "));
    if figures.iter().any(|n| *n <= Ratio::ZERO || *n > Ratio::whole(100)) {
        return Err(none());
    }
    let capacity = [
        ("quart", Unit::Quart),
        ("qt", Unit::Quart),
        ("pint", Unit::Pint),
        ("liter", Unit::Liter),
        ("litre", Unit::Liter),
        ("cup", Unit::Cup),
        ("gallon", Unit::Gallon),
    ];
    let unit = capacity.iter().find(|(name, _)| words.iter().any(|w| w == name || w.strip_suffix('s') == Some(name)));
    if let (Some((_, unit)), [n]) = (unit, &figures[..]) {
        let shape = shape.unwrap_or(Shape::Other);
        let called = format!("{glass}{}", if shape == Shape::Other { "dish" } else { called(shape) });
        return Ok(Pan { shape, sides: Vec::new(), length, holds: Amount::new(*n, Some(*unit)), called });
    }
    let (shape, sides) = match (&figures[..], shape) {
        ([], Some(Shape::Sheet)) if word(&["half"]) => (Shape::Sheet, vec![Ratio::whole(13), Ratio::whole(18)]),
        ([], Some(Shape::Sheet)) if word(&["quarter"]) => (Shape::Sheet, vec![Ratio::whole(9), Ratio::whole(13)]),
        ([n], Some(Shape::Muffin)) => {
            let holds = Amount::new(*n, None);
            return Ok(Pan { shape: Shape::Muffin, sides: Vec::new(), length, holds, called: "muffin tin".to_owned() });
        }
        ([n], Some(Shape::Square)) => (Shape::Square, vec![*n, *n]),
        ([n], shape) if shape.is_none_or(|s| is_round(s) || s == Shape::Other) => {
            (shape.filter(|s| is_round(*s)).unwrap_or(Shape::Round), vec![*n])
        }
        ([a, b] | [a, b, _], None | Some(Shape::Other | Shape::Rectangle | Shape::Square)) => {
            (if a == b { Shape::Square } else { Shape::Rectangle }, figures.clone())
        }
        ([_, _] | [_, _, _], Some(shape)) => (shape, figures.clone()),
        _ => return Err(none()),
    };
    let pan = Pan { shape, sides, length, holds: None, called: format!("{glass}{}", called(shape)) };
    Vessel::of(&pan).map(|_| pan).ok_or_else(none)
}

/// The name a typed pan is given.
const fn called(shape: Shape) -> &'static str {
    match shape {
        Shape::Rectangle => "baking pan",
        Shape::Square => "square pan",
        Shape::Round => "round pan",
        Shape::Loaf => "loaf pan",
        Shape::Skillet => "skillet",
        Shape::Tube => "tube pan",
        Shape::Pie => "pie plate",
        Shape::Sheet => "sheet pan",
        Shape::Muffin => "muffin tin",
        Shape::Other => "pan",
    }
}

/// The shape a word names.
fn shape_named(word: &str) -> Option<Shape> {
    use Shape::*;
    Some(match word {
        "rectangle" | "rectangular" | "oblong" => Rectangle,
        "square" => Square,
        "round" | "springform" | "layer" | "circle" => Round,
        "loaf" => Loaf,
        "skillet" | "frying" => Skillet,
        "tube" | "bundt" => Tube,
        "pie" | "tart" | "flan" | "quiche" => Pie,
        "sheet" | "tray" => Sheet,
        "muffin" | "muffins" | "cupcake" | "bun" => Muffin,
        _ => return None,
    })
}

/// Splits words and also figures from letters: "9x13in" is "9", "x", "13", "in".
fn split(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let mut was_figure = None;
        for c in word.chars() {
            let figure = c.is_ascii_digit() || matches!(c, '.' | '/') || crate::measure::ratio::of_glyph(c).is_some();
            match words.last_mut() {
                Some(last) if was_figure == Some(figure) => last.push(c),
                _ => words.push(c.to_string()),
            }
            was_figure = Some(figure);
        }
    }
    words
}

/// The numbers in a row of words, "8 1/2" as one.
fn numbers(text: &str) -> Vec<Ratio> {
    let mut found: Vec<Ratio> = Vec::new();
    let mut open = false;
    for word in text.split_whitespace() {
        match (word.parse::<Ratio>(), found.last_mut()) {
            (Ok(n), Some(last)) if open && n < Ratio::ONE && last.is_whole() => (*last, open) = (*last + n, false),
            (Ok(n), _) => {
                found.push(n);
                open = true;
            }
            _ => open = false,
        }
    }
    found
}
