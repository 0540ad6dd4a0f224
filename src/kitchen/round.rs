//! Exact amounts become what a kitchen can measure: 3/8 cup is "1/4 cup plus 2 tablespoons", 217 g is "215 g".
//!
//! ```
//! use plainspoon::kitchen::{round::{self, Ask}, Measures};
//! use plainspoon::measure::{Ratio, Unit};
//! for (n, d, unit, printed) in [
//!     (3, 8, Unit::Cup, "1/4 cup plus 2 tablespoons"),
//!     (64, 1, Unit::Tablespoon, "1 quart"),
//!     (1, 8, Unit::Teaspoon, "1/8 teaspoon"),
//!     (1, 16, Unit::Teaspoon, "a pinch"),
//!     (217, 1, Unit::Gram, "215 g"),
//! ] {
//!     let ask = Ask { liquid: true, ..Ask::default() };
//!     assert_eq!(round::round(Ratio::of(n, d), Some(unit), Measures::Us, ask).to_string(), printed);
//! }
//! ```
//!
//! Each tool has its steps: spoons of 1/8, 1/4, 1/2 and 1 teaspoon, 1/2 and 1 tablespoon; cups of 1/4, 1/3, 1/2, 2/3,
//! 3/4 and 1; a scale of 1 g under 50 g and 5 g above, or 1/4 ounce; a jug of 5 ml up to 250 ml and 10 ml above. Among
//! the ways to measure an amount, the plainest exact one wins; else the plainest that is off by 1 %, by 2.5 %, by 5 %;
//! else the nearest single measure, called generous or scant, and [`Printed::marked`] says so.

use super::Measures;
use super::order::order;
use crate::measure::{Dimension, Ratio, Unit};
use std::fmt;

/// What may change the choice.
#[derive(Clone, Copy, Debug, Default)]
pub struct Ask {
    /// It pours: quarts and gallons may be used for it.
    pub liquid: bool,
    /// It was neither scaled nor converted: her own words stay wherever they can be measured.
    pub as_said: bool,
    /// It was converted to metric: a jug measures it from 30 ml up, spoons below.
    pub metric: bool,
    /// It came from a weight by a table, "about": a single measure within 5 % is better than two that come nearer.
    pub rough: bool,
}

/// One measure of a printed amount: "2 tablespoons".
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// How many, more than 0.
    pub count: Ratio,
    /// Of what; `None` for a plain count.
    pub unit: Option<Unit>,
}

/// Which way the cook must lean where no measure comes close.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Lean {
    /// As printed.
    #[default]
    None,
    /// A little more than printed.
    Generous,
    /// A little less than printed.
    Scant,
    /// A count that could not be met: about that many.
    About,
}

/// An amount as it is printed.
#[derive(Clone, Debug)]
pub struct Printed {
    /// The measures, largest first; never empty.
    pub terms: Vec<Term>,
    /// Which way to lean.
    pub lean: Lean,
    /// What it should have been: millilitres, grams, inches or a count.
    pub exact: Ratio,
    /// What the measures come to, in the same.
    pub value: Ratio,
}

/// Loss that must be said: 5 %.
pub const SAY_ABOVE: Ratio = Ratio::of(1, 20);

impl Printed {
    /// How far the printed amount is from the exact one, as a part of the exact one: 1/20 is 5 %.
    pub fn lost(&self) -> Ratio {
        (self.value - self.exact).abs() / self.exact
    }

    /// The same without "generous" and the like, for where "about" says it already.
    pub fn level(self) -> Printed {
        Printed { lean: Lean::None, ..self }
    }

    /// Whether the loss must be said: it is over 5 %, or the print is a word that nobody measures ("a pinch" for 1/16
    /// teaspoon).
    pub fn marked(&self) -> bool {
        let vague = |t: &Term| t.unit.is_some_and(small) && (t.count < Ratio::ONE || t.count != self.exact);
        self.lost() > SAY_ABOVE || self.terms.iter().any(vague)
    }
}

impl fmt::Display for Printed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.lean {
            Lean::None => "",
            Lean::Generous => "generous ",
            Lean::Scant => "scant ",
            Lean::About => "about ",
        })?;
        for (n, term) in self.terms.iter().enumerate() {
            if n > 0 {
                f.write_str(" plus ")?;
            }
            write!(f, "{term}")?;
        }
        Ok(())
    }
}

impl fmt::Display for Term {
    /// "1 1/2 cups", "250 ml", "1.25 kg", "a pinch", "half a handful", "3".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(unit) = self.unit else { return write!(f, "{}", self.count) };
        let name = if self.count <= Ratio::ONE { unit.name() } else { unit.plural() };
        let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
        match unit {
            Unit::Gram => write!(f, "{} g", decimal(self.count, 3)),
            Unit::Milliliter => write!(f, "{} ml", decimal(self.count, 3)),
            Unit::Kilogram => write!(f, "{} kg", decimal(self.count, 3)),
            Unit::Liter => write!(f, "{} {name}", decimal(self.count, 3)),
            _ if !unit.is_loose() => write!(f, "{} {name}", self.count),
            _ if self.count == Ratio::ONE => write!(f, "{article} {name}"),
            _ if self.count < Ratio::ONE && small(unit) => write!(f, "a small {name}"),
            _ if self.count == Ratio::of(1, 2) => write!(f, "half {article} {name}"),
            _ if self.count < Ratio::ONE => write!(f, "{} of {article} {name}", self.count),
            _ => write!(f, "{} {name}", self.count),
        }
    }
}

/// A loose measure too small to halve in any way but in words.
fn small(unit: Unit) -> bool {
    matches!(unit, Unit::Pinch | Unit::Dash | Unit::Drop | Unit::Pat)
}

/// A fraction as a decimal of at most `places` places, nearest, without trailing noughts: 1.25.
pub fn decimal(r: Ratio, places: u32) -> String {
    let scale = 10_i64.pow(places);
    let scaled = (r * Ratio::whole(scale)).round_to(Ratio::ONE).floor();
    let (whole, rest) = (scaled / scale, scaled % scale);
    if rest == 0 {
        return whole.to_string();
    }
    let digits = rest.to_string();
    let zeros = "0".repeat(places as usize - digits.len());
    format!("{whole}.{zeros}{}", digits.trim_end_matches('0'))
}

/// The exact figure in the unit said, for whoever asks: "1/3 teaspoon", "236.59 ml".
pub fn exact_words(count: Ratio, unit: Option<Unit>) -> String {
    let metric = matches!(unit, Some(Unit::Gram | Unit::Kilogram | Unit::Milliliter | Unit::Liter));
    if !metric && count.den() <= 64 {
        let plain = unit.filter(|u| !u.is_loose());
        return match (plain, unit) {
            (None, Some(loose)) => {
                let name = if count <= Ratio::ONE { loose.name() } else { loose.plural() };
                format!("{count} {name}")
            }
            _ => Term { count, unit }.to_string(),
        };
    }
    let places = if count < Ratio::whole(10) { 3 } else { 1 };
    let shown = decimal(count, places);
    match unit {
        None => shown,
        Some(Unit::Gram) => format!("{shown} g"),
        Some(Unit::Milliliter) => format!("{shown} ml"),
        Some(Unit::Kilogram) => format!("{shown} kg"),
        Some(u) => format!("{shown} {}", if count <= Ratio::ONE { u.name() } else { u.plural() }),
    }
}

/// What one of `unit` comes to in the measure amounts are rounded in: millilitres, grams, or itself.
pub fn base(unit: Option<Unit>, set: Measures) -> Ratio {
    unit.and_then(|u| set.milliliters(u).or(u.grams())).unwrap_or(Ratio::ONE)
}

/// Rounds `count` of `unit`, which must be more than 0, to what a kitchen with those measures can measure.
pub fn round(count: Ratio, unit: Option<Unit>, set: Measures, ask: Ask) -> Printed {
    let exact = count * base(unit, set);
    if ask.as_said && sayable(count, unit) {
        return Printed { terms: vec![Term { count, unit }], lean: Lean::None, exact, value: exact };
    }
    let Some(said) = unit else { return counted(count, None) };
    match said {
        Unit::Milliliter | Unit::Liter => jug(exact, set, ask),
        Unit::Gram | Unit::Kilogram => scale(exact),
        Unit::Ounce | Unit::Pound => ounces(exact, said),
        Unit::Inch => {
            pick(exact, steps(exact, said, Ratio::ONE, &[(1, 1, 10), (1, 2, 11), (1, 4, 12), (1, 8, 14)]), false)
        }
        _ if said.dimension() == Dimension::Volume && ask.metric && exact >= Ratio::whole(30) => jug(exact, set, ask),
        _ if said.dimension() == Dimension::Volume => spoons_and_cups(exact, said, set, ask),
        _ => counted(count, unit),
    }
}

/// Whether an amount as said needs no other words: whole, or a fraction for which the tool has a mark.
fn sayable(count: Ratio, unit: Option<Unit>) -> bool {
    match unit {
        Some(Unit::Gram | Unit::Kilogram | Unit::Milliliter | Unit::Liter) => true,
        Some(Unit::Tablespoon | Unit::Dessertspoon | Unit::FluidOunce) => count.den() <= 2,
        Some(Unit::Teaspoon) => [1, 2, 4].contains(&count.den()) || count == Ratio::of(1, 8),
        Some(u) if u.dimension() == Dimension::Volume => count.den() <= 4,
        _ => count.den() <= 4 || count.den() == 8,
    }
}

/// One way to measure an amount. The cost ranks ways by how plain they are: 10 for a single whole measure, 20 for two.
struct Way {
    terms: Vec<Term>,
    value: Ratio,
    cost: u32,
}

fn way(terms: &[(Ratio, Unit, Ratio)], cost: u32) -> Way {
    let value = terms.iter().map(|(count, _, size)| *count * *size).sum();
    Way { terms: terms.iter().map(|(count, unit, _)| Term { count: *count, unit: Some(*unit) }).collect(), value, cost }
}

fn loss(exact: Ratio, way: &Way) -> Ratio {
    (way.value - exact).abs() / exact
}

/// The plainest way that comes close enough; `ways` must not be empty and must hold a single measure.
fn pick(exact: Ratio, ways: Vec<Way>, rough: bool) -> Printed {
    let plain =
        || ways.iter().filter(|w| w.terms.len() == 1 && loss(exact, w) <= SAY_ABOVE).min_by_key(|w| loss(exact, w));
    let plain = rough.then(plain).flatten();
    let close = [Ratio::ZERO, Ratio::of(1, 100), Ratio::of(1, 40), SAY_ABOVE].into_iter().find_map(|limit| {
        let within = ways.iter().filter(|w| loss(exact, w) <= limit);
        within.min_by(|a, b| (a.cost, loss(exact, a)).cmp(&(b.cost, loss(exact, b))))
    });
    let nearest = |terms| ways.iter().filter(|w| w.terms.len() == terms).min_by_key(|w| (loss(exact, w), w.cost));
    // Two spoons that halve what one would lose, and come within 8 %, are worth washing.
    let close_two = |two: &&Way| loss(exact, two) <= Ratio::of(8, 100);
    let halves = |two: &&Way, one: &Way| close_two(two) && loss(exact, two) <= loss(exact, one) / Ratio::whole(2);
    let single = || nearest(1).map(|one| nearest(2).filter(|two| halves(two, one)).unwrap_or(one));
    let Some(best) = plain.or(close).or_else(single) else {
        return Printed { terms: vec![Term { count: exact, unit: None }], lean: Lean::None, exact, value: exact };
    };
    let lean = match loss(exact, best) > SAY_ABOVE {
        false => Lean::None,
        true if best.terms.len() > 1 => Lean::None,
        true if best.value < exact => Lean::Generous,
        true => Lean::Scant,
    };
    Printed { terms: best.terms.clone(), lean, exact, value: best.value }
}

/// The multiples of 1/2, 1/4 … of a unit on both sides of the exact amount; `options` are (numerator, denominator, cost).
fn steps(exact: Ratio, unit: Unit, size: Ratio, options: &[(i64, i64, u32)]) -> Vec<Way> {
    let around =
        options.iter().flat_map(|(num, den, cost)| beside(exact / size, Ratio::of(*num, *den)).map(|n| (n, *cost)));
    around.filter(|(n, _)| *n > Ratio::ZERO).map(|(n, cost)| way(&[(n, unit, size)], cost)).collect()
}

/// The multiples of `step` just below (or at) and just above an amount.
fn beside(amount: Ratio, step: Ratio) -> [Ratio; 2] {
    let below = Ratio::whole((amount / step).floor()) * step;
    [below, below + step]
}

/// Spoons and cups, and above them pints, quarts and gallons where the cook named them or the food pours.
fn spoons_and_cups(exact: Ratio, said: Unit, set: Measures, ask: Ask) -> Printed {
    let ml = |unit| set.milliliters(unit).unwrap_or(Ratio::ONE);
    let (teaspoon, tablespoon, cup) = (ml(Unit::Teaspoon), ml(Unit::Tablespoon), ml(Unit::Cup));
    // Under a twelfth of a teaspoon an eighth is no longer the nearest thing there is.
    if exact < teaspoon / Ratio::whole(12) {
        let count = if exact < teaspoon / Ratio::whole(32) { Ratio::of(1, 2) } else { Ratio::ONE };
        let value = count * teaspoon / Ratio::whole(16);
        return Printed { terms: vec![Term { count, unit: Some(Unit::Pinch) }], lean: Lean::None, exact, value };
    }
    let mut ways = Vec::new();
    if exact < tablespoon {
        teaspoons(&mut ways, exact, teaspoon, tablespoon);
    }
    if exact >= tablespoon && exact < cup {
        tablespoons(&mut ways, exact, said, [teaspoon, tablespoon, cup]);
    }
    if exact * Ratio::whole(9) >= cup * Ratio::whole(2) {
        cups(&mut ways, exact, said, ask, [teaspoon, tablespoon, cup]);
    }
    large(&mut ways, exact, said, set, ask);
    if said == Unit::FluidOunce && exact < ml(Unit::Pint) {
        ways.extend(steps(exact, said, ml(said), &[(1, 1, 9), (1, 2, 9)]));
    }
    if said == Unit::Dessertspoon && exact <= ml(said) * Ratio::whole(4) {
        ways.extend(steps(exact, said, ml(said), &[(1, 1, 9), (1, 2, 11)]));
    }
    pick(exact, ways, ask.rough)
}

fn teaspoons(ways: &mut Vec<Way>, exact: Ratio, teaspoon: Ratio, tablespoon: Ratio) {
    ways.extend(steps(exact, Unit::Teaspoon, teaspoon, &[(1, 1, 10), (1, 2, 11), (1, 4, 12)]));
    ways.retain(|w| w.value < tablespoon);
    ways.push(way(&[(Ratio::ONE, Unit::Tablespoon, tablespoon)], 10));
    let eighth = Ratio::of(1, 8);
    for n in beside(exact / teaspoon, eighth).into_iter().filter(|n| n.den() == 8) {
        if n == eighth {
            ways.push(way(&[(n, Unit::Teaspoon, teaspoon)], 12));
        } else {
            ways.push(way(&[(n - eighth, Unit::Teaspoon, teaspoon), (eighth, Unit::Teaspoon, teaspoon)], 22));
        }
    }
}

fn tablespoons(ways: &mut Vec<Way>, exact: Ratio, said: Unit, [teaspoon, tablespoon, cup]: [Ratio; 3]) {
    // From a quarter cup up a cup is the better tool, but six tablespoons said in tablespoons stay six.
    let mut put = |w: Way| {
        let quarter = w.value * Ratio::whole(25) >= cup * Ratio::whole(6);
        if !quarter {
            ways.push(w);
        } else if said == Unit::Tablespoon && w.value <= tablespoon * Ratio::whole(6) {
            ways.push(Way { cost: w.cost + 2, ..w });
        }
    };
    steps(exact, Unit::Tablespoon, tablespoon, &[(1, 1, 10), (1, 2, 11)]).into_iter().for_each(&mut put);
    let whole = beside(exact / tablespoon, Ratio::ONE)[0];
    let left = exact - whole * tablespoon;
    for (den, cost) in [(1, 20), (2, 21), (4, 22)] {
        for n in beside(left / teaspoon, Ratio::of(1, den)) {
            if n > Ratio::ZERO && n * teaspoon < tablespoon {
                put(way(&[(whole, Unit::Tablespoon, tablespoon), (n, Unit::Teaspoon, teaspoon)], cost));
            }
        }
    }
}

/// The fractions a set of measuring cups has, with their costs.
const CUP_MARKS: [(i64, i64, u32); 7] = [(0, 1, 0), (1, 4, 1), (1, 3, 1), (1, 2, 0), (2, 3, 1), (3, 4, 1), (1, 1, 0)];

fn cups(ways: &mut Vec<Way>, exact: Ratio, said: Unit, ask: Ask, [teaspoon, tablespoon, cup]: [Ratio; 3]) {
    let whole = beside(exact / cup, Ratio::ONE)[0];
    let many = ask.liquid && whole >= Ratio::whole(if said == Unit::Cup { 16 } else { 4 });
    let dear = if many { 4 } else { 0 };
    for (num, den, cost) in CUP_MARKS {
        let n = whole + Ratio::of(num, den);
        if n.is_zero() {
            continue;
        }
        ways.push(way(&[(n, Unit::Cup, cup)], 10 + cost + dear));
        let left = exact - n * cup;
        // A spoonful that is less than a fiftieth of the whole is not worth a spoon.
        if left * Ratio::whole(50) < exact || left * Ratio::whole(4) > cup {
            continue;
        }
        let mut plus = |n2: Ratio, unit, size, more: u32, most: Ratio| {
            if n2 > Ratio::ZERO && n2 * size <= most {
                ways.push(way(&[(n, Unit::Cup, cup), (n2, unit, size)], 20 + cost + dear + more));
            }
        };
        for (den, more) in [(1, 0), (2, 2)] {
            for n2 in beside(left / tablespoon, Ratio::of(1, den)).into_iter().filter(|n| *n >= Ratio::ONE) {
                plus(n2, Unit::Tablespoon, tablespoon, more, tablespoon * Ratio::whole(3));
            }
            for n2 in beside(left / teaspoon, Ratio::of(1, den)) {
                plus(n2, Unit::Teaspoon, teaspoon, more + 2, teaspoon * Ratio::whole(5));
            }
        }
    }
}

fn large(ways: &mut Vec<Way>, exact: Ratio, said: Unit, set: Measures, ask: Ask) {
    let ml = |unit| set.milliliters(unit).unwrap_or(Ratio::ONE);
    let (cup, pint, quart, gallon) = (ml(Unit::Cup), ml(Unit::Pint), ml(Unit::Quart), ml(Unit::Gallon));
    let us = set == Measures::Us;
    if said == Unit::Pint && us && exact >= pint {
        ways.extend(steps(exact, Unit::Pint, pint, &[(1, 1, 9), (1, 2, 9)]));
    }
    if said == Unit::Pint && !us {
        ways.extend(steps(exact, Unit::Pint, pint, &[(1, 1, 8), (1, 2, 8), (1, 4, 8)]));
        if exact < pint {
            let ounce = ml(Unit::FluidOunce);
            ways.extend(steps(exact, Unit::FluidOunce, ounce, &[(1, 1, 9), (1, 2, 9)]));
        }
    }
    // Outside the US a quart is an old word: it is used where it was said.
    let quarts = matches!(said, Unit::Quart | Unit::Gallon) || (ask.liquid && us && said != Unit::Pint);
    if quarts && exact >= quart {
        ways.extend(steps(exact, Unit::Quart, quart, &[(1, 1, 10), (1, 2, 10)]));
        if said == Unit::Quart {
            ways.extend(steps(exact, Unit::Quart, quart, &[(1, 4, 11)]));
        }
        let whole = beside(exact / quart, Ratio::ONE)[0];
        for n in beside((exact - whole * quart) / cup, Ratio::ONE).into_iter().filter(|n| *n > Ratio::ZERO && us) {
            ways.push(way(&[(whole, Unit::Quart, quart), (n, Unit::Cup, cup)], 21));
        }
    }
    if quarts && exact >= gallon || said == Unit::Gallon && exact * Ratio::whole(2) >= gallon {
        ways.extend(steps(exact, Unit::Gallon, gallon, &[(1, 1, 9), (1, 2, 9)]));
        let whole = beside(exact / gallon, Ratio::ONE)[0];
        for n in beside((exact - whole * gallon) / quart, Ratio::ONE) {
            if n > Ratio::ZERO && whole > Ratio::ZERO {
                ways.push(way(&[(whole, Unit::Gallon, gallon), (n, Unit::Quart, quart)], 20));
            }
        }
    }
}

/// Ounces to the quarter, pounds to the quarter, and both together.
fn ounces(exact: Ratio, said: Unit) -> Printed {
    let (ounce, pound) = (base(Some(Unit::Ounce), Measures::Us), base(Some(Unit::Pound), Measures::Us));
    // A scale in ounces shows nothing finer than a quarter; whoever needs less needs the gram side.
    if exact * Ratio::whole(6) < ounce {
        return scale(exact);
    }
    let dear = match () {
        _ if exact < pound => 0,
        _ if said == Unit::Ounce && exact <= pound * Ratio::whole(2) => 2,
        _ => 12,
    };
    let mut ways = steps(exact, Unit::Ounce, ounce, &[(1, 1, 10 + dear), (1, 2, 11 + dear), (1, 4, 12 + dear)]);
    if said == Unit::Pound && exact * Ratio::whole(4) >= pound || exact >= pound {
        ways.extend(steps(exact, Unit::Pound, pound, &[(1, 1, 9), (1, 2, 9), (1, 4, 9)]));
        let whole = beside(exact / pound, Ratio::ONE)[0];
        for (den, cost) in [(1, 20), (2, 21), (4, 22)] {
            for n in beside((exact - whole * pound) / ounce, Ratio::of(1, den)) {
                if n > Ratio::ZERO && whole > Ratio::ZERO && n < Ratio::whole(16) {
                    ways.push(way(&[(whole, Unit::Pound, pound), (n, Unit::Ounce, ounce)], cost));
                }
            }
        }
    }
    pick(exact, ways, false)
}

/// A kitchen scale: 1 g under 50 g, 5 g above; kilograms from 1000 g; under half a gram it shows nothing, a pinch.
fn scale(exact: Ratio) -> Printed {
    if exact < Ratio::of(1, 2) {
        let terms = vec![Term { count: Ratio::ONE, unit: Some(Unit::Pinch) }];
        return Printed { terms, lean: Lean::None, exact, value: exact };
    }
    let step = Ratio::whole(if exact < Ratio::whole(50) { 1 } else { 5 });
    let value = exact.round_to(step);
    let (count, unit) =
        if value >= Ratio::whole(1000) { (value / Ratio::whole(1000), Unit::Kilogram) } else { (value, Unit::Gram) };
    let lean = match (value - exact).abs() > exact * SAY_ABOVE {
        false => Lean::None,
        true if value < exact => Lean::Generous,
        true => Lean::Scant,
    };
    Printed { terms: vec![Term { count, unit: Some(unit) }], lean, exact, value }
}

/// A measuring jug: 5 ml up to 250 ml, 10 ml above, litres from 1000 ml; spoons under 30 ml.
fn jug(exact: Ratio, set: Measures, ask: Ask) -> Printed {
    if exact < Ratio::whole(30) {
        let whole = exact.round_to(Ratio::whole(5));
        if whole == exact {
            let terms = vec![Term { count: exact, unit: Some(Unit::Milliliter) }];
            return Printed { terms, lean: Lean::None, exact, value: exact };
        }
        return spoons_and_cups(exact, Unit::Teaspoon, metric_spoons(set), ask);
    }
    let value = exact.round_to(Ratio::whole(if exact < Ratio::whole(250) { 5 } else { 10 }));
    // Up to four tablespoons the marks of a jug stand too far apart for some amounts.
    if exact < Ratio::whole(60) && (value - exact).abs() * Ratio::whole(40) > exact {
        return spoons_and_cups(exact, Unit::Tablespoon, metric_spoons(set), ask);
    }
    let (count, unit) =
        if value >= Ratio::whole(1000) { (value / Ratio::whole(1000), Unit::Liter) } else { (value, Unit::Milliliter) };
    Printed { terms: vec![Term { count, unit: Some(unit) }], lean: Lean::None, exact, value }
}

/// The spoons beside a jug: of 5 and 15 ml where the card's own are US ones.
fn metric_spoons(set: Measures) -> Measures {
    if set == Measures::Us { Measures::Metric } else { set }
}

/// Things that are counted: whole from ten up, else in halves, thirds and quarters, and the small ones in eighths.
fn counted(count: Ratio, unit: Option<Unit>) -> Printed {
    let one = |n: Ratio, cost| Way { terms: vec![Term { count: n, unit }], value: n, cost };
    let mut ways: Vec<Way> =
        beside(count, Ratio::ONE).into_iter().filter(|n| *n > Ratio::ZERO).map(|n| one(n, 10)).collect();
    if count < Ratio::whole(10) {
        for (den, cost) in [(2, 11), (4, 12), (3, 12)] {
            ways.extend(
                beside(count, Ratio::of(1, den)).into_iter().filter(|n| *n > Ratio::ZERO).map(|n| one(n, cost)),
            );
        }
    }
    if count < Ratio::ONE {
        for (num, den) in [(1, 8), (1, 6), (3, 8), (5, 8), (7, 8), (5, 6), (1, 12), (1, 16), (1, 32)] {
            ways.push(one(Ratio::of(num, den), 14));
        }
    }
    let printed = pick(count, ways, false);
    let lean = if printed.lean == Lean::None { Lean::None } else { Lean::About };
    Printed { lean, ..printed }
}

/// The sum of printed amounts, printed so that it is exactly that sum: as one amount where some measures come to it, else
/// as the measures themselves, like ones added together. `None` for an empty list or things of different kinds.
pub fn sum(parts: &[Printed], unit: Option<Unit>, set: Measures, ask: Ask, exact: Ratio) -> Option<Printed> {
    let value: Ratio = parts.iter().map(|p| p.value).sum();
    let together = round(value / base(unit, set), unit, set, Ask { as_said: false, ..ask });
    if together.value == value {
        return Some(Printed { exact, ..together });
    }
    let mut terms: Vec<Term> = Vec::new();
    for term in parts.iter().flat_map(|p| &p.terms) {
        let like = terms.iter_mut().find(|t| t.unit == term.unit && sayable(t.count + term.count, term.unit));
        match like {
            Some(t) => t.count = t.count + term.count,
            None => terms.push(*term),
        }
    }
    let size = |at: usize| terms[at].count * base(terms[at].unit, set);
    let terms: Vec<Term> = order(terms.len(), &mut |a, b| size(a) > size(b)).into_iter().map(|at| terms[at]).collect();
    (!terms.is_empty()).then_some(Printed { terms, lean: Lean::None, exact, value })
}
