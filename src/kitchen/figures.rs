//! Every amount of a card as it is printed: converted and rounded once, and the parts still add up to the total.

use super::convert::{self, Converted};
use super::count::{self, Egg};
use super::order::order;
use super::round::{self, Ask, Printed, Term};
use super::{Measures, Units, Wanted, foods, weights};
use crate::measure::{Amount, Manner, Ratio, Unit};
use crate::recipe::{Card, Line, Package, PieceKind};

/// One amount as printed.
#[derive(Clone, Debug)]
pub struct Figure {
    /// "1 1/2 cups", "2 cans (15 oz each)", "about 125 g".
    pub text: String,
    /// The exact figure, where the printed one is not it: "1/3 teaspoon".
    pub exact: Option<String>,
    /// What must be said beside it: loss over 5 %, a pinch for a figure.
    pub lost: Option<String>,
    /// What helps the cook measure it: the half egg, the tablespoons of a stick.
    pub help: Option<String>,
    /// The row a weight came from.
    pub weight: Option<String>,
    /// How many are counted, where it is a plain count: the food's name agrees with it.
    pub count: Option<Ratio>,
    /// The rounded amount; its high end where it is a range.
    pub printed: Printed,
}

/// The amounts of a card.
#[derive(Clone, Debug)]
pub struct Figures {
    /// One for each line of the list; `None` where none was said.
    pub lines: Vec<Option<Figure>>,
    /// One for each piece of each step; `None` for what is no amount.
    pub steps: Vec<Vec<Option<Figure>>>,
    /// Whose cups and spoons the card's words were taken for.
    pub measures: Measures,
}

/// What rounding an amount needs to know beside the amount.
#[derive(Clone, Copy)]
struct Setting {
    units: Units,
    measures: Measures,
    scaled: bool,
}

/// The amounts of a card that was already [scaled](super::scale::scale) by `wanted.factor`.
pub fn figures(card: &Card, wanted: &Wanted) -> Figures {
    let measures = wanted.measures.unwrap_or_else(|| Measures::of_card(card));
    let setting = Setting { units: wanted.units, measures, scaled: wanted.factor != Ratio::ONE };
    let mut steps: Vec<Vec<Option<Figure>>> = card.steps.iter().map(|s| vec![None; s.pieces.len()]).collect();
    let mut lines = Vec::with_capacity(card.lines.len());
    for (index, line) in card.lines.iter().enumerate() {
        let places = places_of(card, Some(index));
        let parts: Vec<Amount> = places.iter().map(|(_, _, amount)| *amount).collect();
        let (total, parts) = divided(line, &parts, setting);
        lines.push(total);
        for ((step, piece, _), figure) in places.into_iter().zip(parts) {
            steps[step][piece] = Some(figure);
        }
    }
    for (step, piece, amount) in places_of(card, None) {
        let plain = Line::default();
        let converted = convert(&amount, &plain, setting, None);
        let printed = Ends::round(&converted, ask(&plain, &converted, setting));
        steps[step][piece] = Some(figure(&amount, &plain, &converted, printed, setting));
    }
    Figures { lines, steps, measures }
}

/// The amounts of the method that are parts of a line, or of none.
fn places_of(card: &Card, wanted: Option<usize>) -> Vec<(usize, usize, Amount)> {
    let known = |line: Option<usize>| line.filter(|l| *l < card.lines.len());
    let mut places = Vec::new();
    for (s, step) in card.steps.iter().enumerate() {
        for (p, piece) in step.pieces.iter().enumerate() {
            if let PieceKind::Amount { amount, line } = piece.kind
                && known(line) == wanted
            {
                places.push((s, p, amount));
            }
        }
    }
    places
}

fn convert(amount: &Amount, line: &Line, setting: Setting, total: Option<&Converted>) -> Converted {
    convert::amount(amount, (&line.name, &line.prep), setting.units, setting.measures, total)
}

fn ask(line: &Line, converted: &Converted, setting: Setting) -> Ask {
    let liquid = foods::find(&line.name).is_none_or(|f| f.is("liquid") || f.is("water") || f.is("stock"));
    Ask {
        liquid,
        as_said: !setting.scaled && !converted.changed,
        metric: converted.metric,
        rough: converted.weight.is_some(),
    }
}

/// Both ends of an amount, rounded.
#[derive(Clone)]
struct Ends {
    low: Printed,
    high: Printed,
}

impl Ends {
    fn round(c: &Converted, ask: Ask) -> Ends {
        let one = |count| round::round(count, c.unit, c.set, ask);
        Ends { low: one(c.low), high: one(c.high) }
    }

    fn single(printed: Printed) -> Ends {
        Ends { low: printed.clone(), high: printed }
    }
}

/// A line's total and the parts of it the method names, rounded so that where the parts exactly make up the total, the
/// printed parts make up the printed total.
fn divided(line: &Line, parts: &[Amount], setting: Setting) -> (Option<Figure>, Vec<Figure>) {
    let Some(amount) = line.amount else {
        let alone = |part: &Amount| {
            let converted = convert(part, line, setting, None);
            figure(part, line, &converted, Ends::round(&converted, ask(line, &converted, setting)), setting)
        };
        return (None, parts.iter().map(alone).collect());
    };
    let mut whole = convert(&amount, line, setting, None);
    // A stick whose parts are spoonfuls is resized in spoonfuls, so that the parts still come to it.
    if setting.scaled && whole.unit == Some(Unit::Stick) && parts.iter().any(|p| p.unit() != Some(Unit::Stick)) {
        whole = whole.in_tablespoons();
    }
    let how = ask(line, &whole, setting);
    let mut total = Ends::round(&whole, how);
    let pieces: Vec<Converted> = parts.iter().map(|p| convert(p, line, setting, Some(&whole))).collect();
    let mut rounded: Vec<Ends> = pieces.iter().map(|c| Ends::round(c, ask(line, c, setting))).collect();
    if parts.len() > 1 && pieces.iter().chain([&whole]).all(|c| c.low == c.high && alike(c, &whole)) {
        let exact: Ratio = rounded.iter().map(|e| e.high.exact).sum();
        if exact == total.high.exact {
            let singles: Vec<Printed> = rounded.into_iter().map(|e| e.high).collect();
            let (sum, singles) = balance(total.high, singles, &whole, &pieces, how);
            total = Ends::single(sum);
            rounded = singles.into_iter().map(Ends::single).collect();
        }
    }
    let figures = parts.iter().zip(&pieces).zip(rounded);
    let figures = figures.map(|((amount, converted), ends)| part(amount, line, converted, ends, setting)).collect();
    (Some(figure(&amount, line, &whole, total, setting)), figures)
}

/// Whether two amounts are rounded in one kind of measure, so that their values may be added.
fn alike(a: &Converted, b: &Converted) -> bool {
    match (a.unit, b.unit) {
        (Some(x), Some(y)) => {
            x == y
                || a.set.milliliters(x).is_some() && b.set.milliliters(y).is_some()
                || x.grams().and(y.grams()).is_some()
        }
        (x, y) => x == y,
    }
}

/// Makes printed parts add up to the printed total: by moving one part, else by printing what the parts come to.
fn balance(
    total: Printed,
    mut parts: Vec<Printed>,
    whole: &Converted,
    pieces: &[Converted],
    ask: Ask,
) -> (Printed, Vec<Printed>) {
    let sum: Ratio = parts.iter().map(|p| p.value).sum();
    if sum == total.value {
        return (total, parts);
    }
    for i in order(parts.len(), &mut |a, b| parts[a].exact > parts[b].exact) {
        let target = total.value - (sum - parts[i].value);
        let off = (target - parts[i].exact).abs() / parts[i].exact;
        if target <= Ratio::ZERO || off > round::SAY_ABOVE {
            continue;
        }
        let c = &pieces[i];
        let moved = round::round(target / round::base(c.unit, c.set), c.unit, c.set, Ask { as_said: false, ..ask });
        if moved.value == target {
            parts[i] = Printed { exact: parts[i].exact, ..moved };
            return (total, parts);
        }
    }
    let exact = total.exact;
    (round::sum(&parts, whole.unit, whole.set, ask, exact).unwrap_or(total), parts)
}

/// A part in the method, where a container's size need not be said again: "1/2 can (about 7 1/2 oz)".
fn part(amount: &Amount, line: &Line, converted: &Converted, ends: Ends, setting: Setting) -> Figure {
    let bare = Line { package: None, ..line.clone() };
    let mut figure = figure(amount, &bare, converted, ends, setting);
    let container = amount.unit().is_some_and(Unit::is_container);
    if let Some(package) = line.package.filter(|_| container && !figure.printed.exact.is_whole()) {
        let size = figure.printed.exact * package.size;
        let holds = count::short(size, package.unit, setting.units, setting.measures, false);
        figure.text = format!("{} (about {holds})", figure.text);
    }
    figure
}

/// An amount set in words.
fn figure(amount: &Amount, line: &Line, converted: &Converted, ends: Ends, setting: Setting) -> Figure {
    let about = converted.weight.is_some() || amount.manner() == Manner::About;
    let Ends { low, high } = if about { Ends { low: ends.low.level(), high: ends.high.level() } } else { ends };
    let package = line.package.filter(|_| amount.unit().is_none_or(Unit::is_container));
    let inches = amount.unit() == Some(Unit::Inch) && setting.units == Units::Metric;
    let range = converted.low != converted.high && low.to_string() != high.to_string();
    let text = match package {
        Some(package) if range => {
            let each = count::short(package.size, package.unit, setting.units, setting.measures, true);
            format!("{} ({each} each)", span(&low, &high))
        }
        Some(package) => contained(&high, amount, package, setting),
        None if inches => {
            let one = |p: &Printed| centimeters(p.exact);
            if range { format!("{} to {} cm", one(&low), one(&high)) } else { format!("{} cm", one(&high)) }
        }
        None if range => span(&low, &high),
        _ => high.to_string(),
    };
    let text = match amount.manner() {
        _ if about => format!("about {text}"),
        Manner::Heaping | Manner::Scant if !range && high.lean == round::Lean::None => {
            mannered(&high, amount.manner(), text)
        }
        _ => text,
    };
    let exact_of =
        |p: &Printed| round::exact_words(p.exact / round::base(converted.unit, converted.set), converted.unit);
    let off = [&low, &high].into_iter().find(|p| p.marked());
    Figure {
        exact: (low.value != low.exact || high.value != high.exact).then(|| {
            if converted.low == converted.high {
                exact_of(&high)
            } else {
                format!("{} to {}", exact_of(&low), exact_of(&high))
            }
        }),
        lost: off.map(|p| loss(p, &exact_of(p))),
        help: help(amount, line, converted, &high),
        weight: converted.weight.map(|w| w.source()),
        count: amount.unit().is_none().then_some(high.value),
        text,
        printed: high,
    }
}

fn contained(printed: &Printed, amount: &Amount, package: Package, setting: Setting) -> String {
    count::containers(printed, amount.unit(), package, setting.units, setting.measures)
}

/// A length of ginger in centimetres, to the half from two up and to the tenth below.
fn centimeters(inches: Ratio) -> String {
    let exact = inches * Ratio::of(254, 100);
    let step = if exact < Ratio::whole(2) { Ratio::of(1, 10) } else { Ratio::of(1, 2) };
    round::decimal(exact.round_to(step).max(step), 1)
}

/// "3 to 4 cups"; where the ends need different words, both in full.
fn span(low: &Printed, high: &Printed) -> String {
    match (&low.terms[..], &high.terms[..]) {
        ([a], [b]) if a.unit == b.unit && low.lean == high.lean && !a.unit.is_some_and(Unit::is_loose) => {
            let decimal = matches!(a.unit, Some(Unit::Gram | Unit::Kilogram | Unit::Milliliter | Unit::Liter));
            let first = if decimal { round::decimal(a.count, 3) } else { a.count.to_string() };
            format!("{first} to {high}")
        }
        _ => format!("{low} to {high}"),
    }
}

/// "1 heaping tablespoon", "1 scant cup".
fn mannered(printed: &Printed, manner: Manner, text: String) -> String {
    let word = if manner == Manner::Heaping { "heaping" } else { "scant" };
    match printed.terms[..] {
        [Term { unit: Some(unit), count }] if !unit.is_loose() => {
            let name = if count <= Ratio::ONE { unit.name() } else { unit.plural() };
            match crate::letters::place(&text, name) {
                Some(at) => {
                    let (before, after) =
                        (crate::letters::part(&text, 0, at), crate::letters::part(&text, at, text.len()));
                    format!("{before}{word} {after}")
                }
                None => text,
            }
        }
        _ => format!("{word} {text}"),
    }
}

/// What rounding lost, in a sentence.
fn loss(p: &Printed, exact: &str) -> String {
    let percent = (p.lost() * Ratio::whole(100)).round_to(Ratio::ONE).floor();
    let way = if p.value < p.exact { "under" } else { "over" };
    if p.terms.iter().any(|t| t.unit.is_some_and(Unit::is_loose)) {
        format!("Exactly {exact}, less than spoon or scale can measure.")
    } else {
        let measured = p.clone().level();
        format!("Exactly {exact}; {measured} is {percent} % {way}.")
    }
}

/// What helps to measure an amount that no tool holds as it stands.
fn help(amount: &Amount, line: &Line, converted: &Converted, printed: &Printed) -> Option<String> {
    match amount.unit() {
        None if line.package.is_none() && !amount.is_range() => Egg::named(&line.name)?.part(printed.value),
        Some(Unit::Stick) if converted.unit == Some(Unit::Stick) && !amount.is_range() => {
            let spoons = amount.high() * Ratio::whole(8);
            let as_said = Ask { as_said: true, ..Ask::default() };
            let tablespoons = round::round(spoons, Some(Unit::Tablespoon), Measures::Us, as_said);
            let grams = weights::find(&line.name, &line.prep).map(|row| {
                let grams = spoons * row.grams_per_cup() / Ratio::whole(16);
                format!(", about {}", round::round(grams, Some(Unit::Gram), Measures::Us, Ask::default()).level())
            });
            (amount.high() != Ratio::ONE).then(|| format!("{tablespoons}{}", grams.unwrap_or_default()))
        }
        Some(Unit::Pinch) if amount.high() >= Ratio::whole(8) => {
            let spoons =
                round::round(amount.high() / Ratio::whole(16), Some(Unit::Teaspoon), Measures::Us, Ask::default());
            Some(format!("about {spoons}, a pinch being some 1/16 teaspoon"))
        }
        Some(Unit::Sleeve) if !amount.high().is_whole() => {
            Some("sleeves differ; a whole one is often about 1 cup crushed".to_owned())
        }
        _ => None,
    }
}
