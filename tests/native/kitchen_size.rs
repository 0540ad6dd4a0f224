//! One factor named three ways, and what rounding may lose at any size.

use plainspoon::kitchen::ask::{self, Options};
use plainspoon::kitchen::factor::{self, FactorError};
use plainspoon::kitchen::round::{Ask, SAY_ABOVE, round};
use plainspoon::kitchen::signs::Sign;
use plainspoon::kitchen::{Measures, Units, Wanted, pan, weights};
use plainspoon::measure::{Amount, Dimension, Ratio, Unit};
use plainspoon::output::view;
use plainspoon::recipe::Yield;

use super::kitchen_cards::{full, lines, printed, step, wanted};

#[test]
fn typed_factors() {
    for (typed, factor) in [
        ("1/2", "1/2"),
        ("2", "2"),
        ("1.5", "1 1/2"),
        ("1 1/2", "1 1/2"),
        ("½", "1/2"),
        ("half", "1/2"),
        ("double", "2"),
        ("2x", "2"),
        ("3 times", "3"),
        ("as spoken", "1"),
        ("1/16", "1/16"),
        ("100", "100"),
    ] {
        assert_eq!(factor::parse(typed), Ok(factor.parse().unwrap()), "{typed}");
    }
    for (typed, said) in [
        ("1/17", "1/17 is outside what a card can be sized to, 1/16 to 100 times as spoken"),
        ("101", "101 is outside what a card can be sized to, 1/16 to 100 times as spoken"),
        ("0", "0 is outside what a card can be sized to, 1/16 to 100 times as spoken"),
        ("lots", "\"lots\" is no number (for example 1/2, 2 or 1.5)"),
        ("-1", "\"-1\" is no number (for example 1/2, 2 or 1.5)"),
        ("1/0", "\"1/0\" is no number (for example 1/2, 2 or 1.5)"),
    ] {
        assert_eq!(factor::parse(typed).unwrap_err().to_string(), said, "{typed}");
    }
}

#[test]
fn three_names_of_one_factor() {
    let card = full();
    assert_eq!(factor::for_servings_said(&card, "4"), Ok(Ratio::of(1, 2)));
    let (between, _) = factor::for_pan_said(&card, "8 by 8").unwrap();
    assert_eq!(between.handy, Ratio::of(1, 2));
    let names = factor::names(&card, Ratio::of(1, 2));
    assert_eq!(
        (names.text.as_str(), names.makes.as_deref(), names.of.as_deref()),
        ("1/2", Some("4 to 5"), Some("servings"))
    );
    assert_eq!(names.pans, ["9-inch round pan", "8-inch square pan"]);
    let back = factor::names(&card, Ratio::ONE);
    assert!(back.as_spoken && back.pans.is_empty());
    assert_eq!(factor::names(&card, Ratio::whole(2)).pans, ["2 of 9 × 13 in baking dish"]);
    let bare = lines(&["1 cup | rice"]);
    assert_eq!(factor::for_servings(&bare, Ratio::whole(4)), Err(FactorError::NoYield));
    assert_eq!(factor::for_pan_said(&bare, "8 by 8").unwrap_err(), FactorError::NoCardPan);
    assert!(matches!(factor::for_pan_said(&card, "a pan").unwrap_err(), FactorError::NoPan(_)));
}

#[test]
fn a_factor_outside_leaves_the_card_as_spoken() {
    let shown = view::view(&full(), &wanted("1/17"));
    assert!(shown.sizing.refused.unwrap().contains("1/16 to 100"));
    assert_eq!(shown.size, "as spoken");
}

/// The facts change with the size, but never a heat, a time or the size of a pan.
#[test]
fn what_a_doubled_card_says() {
    let shown = view::view(&full(), &wanted("2"));
    let facts: Vec<String> = shown.facts.iter().map(|f| format!("{} {}", f.label, f.value)).collect();
    assert_eq!(facts, ["Serves 16 to 20", "Dish two 9 × 13 in baking dishes", "Oven 375 °F", "Time 40–45 min"]);
    assert_eq!(shown.size, "twice as spoken");
    assert_eq!(
        printed(&shown),
        ["6 cups cooked rice", "2 pints cream", "4 eggs", "3 cups sharp cheddar", "2 teaspoons salt"]
    );
    let text: String = shown.steps.iter().flat_map(|s| &s.pieces).map(|p| p.text.as_str()).collect();
    assert!(text.contains("375 °F") && text.contains("40 to 45 minutes") && text.contains("9 × 13 in baking dish"));
}

/// Printed amounts are within 5 % of exact or marked: every unit, every factor, every set of spoons.
#[test]
fn loss_is_within_five_per_cent_or_said() {
    let mut units: Vec<Option<Unit>> = Unit::ALL.iter().copied().map(Some).collect();
    units.push(None);
    let said = ["1/8", "1/4", "1/3", "1/2", "2/3", "3/4", "1", "1 1/2", "2", "3", "5", "12", "150"];
    let mut factors: Vec<Ratio> = (1..=32).map(|n| Ratio::of(n, 16)).collect();
    factors.extend((3..=100).map(Ratio::whole));
    factors.extend([(1, 3), (2, 3), (3, 7), (64, 117), (5, 12), (7, 10), (99, 2)].map(|(n, d)| Ratio::of(n, d)));
    let mut cases = 0_u32;
    for set in Measures::ALL {
        for unit in &units {
            let pours = unit.is_some_and(|u| u.dimension() == Dimension::Volume);
            if !pours && set != Measures::Us {
                continue;
            }
            for count in said {
                for factor in &factors {
                    for liquid in [false, true].into_iter().filter(|l| pours || !l) {
                        let ask = Ask { liquid, ..Ask::default() };
                        let printed = round(count.parse::<Ratio>().unwrap() * *factor, *unit, set, ask);
                        let worth = printed.value - printed.exact;
                        assert!(
                            worth.abs() <= printed.exact * SAY_ABOVE || printed.marked(),
                            "{count} {unit:?} x {factor} {}: {printed}",
                            set.name()
                        );
                        assert!(printed.value > Ratio::ZERO && !printed.terms.is_empty());
                        cases += 1;
                    }
                }
            }
        }
    }
    assert!(cases > 200_000, "{cases}");
}

/// The terms a print is made of come to the value it claims.
#[test]
fn a_print_is_worth_what_its_words_say() {
    let mut random = fastrand::Rng::with_seed(41);
    for _ in 0..20_000 {
        let unit = Unit::ALL[random.usize(0..Unit::ALL.len())];
        let count = Ratio::of(random.i64(1..400), random.i64(1..48));
        let set = Measures::ALL[random.usize(0..4)];
        let ask = Ask { liquid: random.bool(), as_said: random.bool(), metric: random.bool(), rough: random.bool() };
        let printed = round(count, Some(unit), set, ask);
        // Metric jugs hand small amounts to spoons of 5 ml, whatever the set.
        let spoons = if printed.terms.iter().any(|t| t.unit != Some(unit)) && ask.metric && set == Measures::Us {
            Measures::Metric
        } else {
            set
        };
        let worth = |set| -> Ratio {
            printed.terms.iter().map(|t| t.count * plainspoon::kitchen::round::base(t.unit, set)).sum()
        };
        let pinch = printed.terms.iter().any(|t| t.unit == Some(Unit::Pinch)) && unit != Unit::Pinch;
        assert!(
            pinch
                || worth(set) == printed.value
                || worth(spoons) == printed.value
                || worth(Measures::Metric) == printed.value,
            "{count} {unit} {}: {printed}",
            set.name()
        );
    }
}

/// The divided parts as printed come to the total as printed, at every size and in all units.
#[test]
fn parts_come_to_the_total() {
    let mut random = fastrand::Rng::with_seed(7);
    let units = [
        Some(Unit::Cup),
        Some(Unit::Tablespoon),
        Some(Unit::Teaspoon),
        Some(Unit::Ounce),
        Some(Unit::Gram),
        Some(Unit::Stick),
        Some(Unit::Pint),
        Some(Unit::Can),
        None,
    ];
    for round_number in 0..6000 {
        let unit = units[random.usize(0..units.len())];
        let n = random.usize(2..5);
        let parts: Vec<Ratio> =
            (0..n).map(|_| Ratio::of(random.i64(1..9), [1, 2, 3, 4, 8][random.usize(0..5)])).collect();
        let total: Ratio = parts.iter().copied().sum();
        let mut card = lines(&["1 cup | butter"]);
        card.lines[0].amount = Amount::new(total, unit);
        card.steps = vec![step("Rest.")];
        for part in &parts {
            let mut one = step("Use {1 cup|0}.");
            one.pieces[1].kind =
                plainspoon::recipe::PieceKind::Amount { amount: Amount::new(*part, unit).unwrap(), line: Some(0) };
            card.steps.push(one);
        }
        let factor = [
            Ratio::of(1, 16),
            Ratio::of(1, 3),
            Ratio::of(1, 2),
            Ratio::of(2, 3),
            Ratio::of(3, 4),
            Ratio::ONE,
            Ratio::whole(3),
            Ratio::of(7, 2),
            Ratio::whole(100),
        ][random.usize(0..9)];
        let choice = [Units::Said, Units::Us, Units::Metric, Units::Weight][random.usize(0..4)];
        let asked = Wanted { factor, units: choice, ..Wanted::default() };
        let figures = plainspoon::kitchen::figures::figures(&plainspoon::kitchen::scale::scale(&card, factor), &asked);
        let whole = figures.lines[0].as_ref().expect("a total");
        let sum: Ratio = figures.steps.iter().flatten().flatten().map(|f| f.printed.value).sum();
        assert_eq!(
            sum, whole.printed.value,
            "{round_number}: {parts:?} {unit:?} x {factor} {choice:?}: {}",
            whole.text
        );
    }
}

/// Options as typed, and what they come to for an invented card that serves 8 to 10 from a 9 by 13.
#[test]
fn options_as_typed() {
    let card = full();
    let ask = |o: Options<'_>| ask::wanted(&card, &o).map(|w| w.factor.to_string()).map_err(|e| e.to_string());
    let none = Options::default();
    for (options, expected) in [
        (none, Ok("1")),
        (Options { scale: Some("1/2"), ..none }, Ok("1/2")),
        (Options { servings: Some("16"), ..none }, Ok("2")),
        (Options { pan: Some("8 by 8"), ..none }, Ok("1/2")),
        (
            Options { units: Some("weight"), measures: Some("uk"), heat: Some("gas"), lengths: Some("cm"), ..none },
            Ok("1"),
        ),
        (
            Options { scale: Some("2"), servings: Some("4"), ..none },
            Err("give one of scale, servings and pan: they are three names of one size"),
        ),
        (
            Options { scale: Some("200"), ..none },
            Err("200 is outside what a card can be sized to, 1/16 to 100 times as spoken"),
        ),
        (Options { servings: Some("many"), ..none }, Err("\"many\" is no number (for example 1/2, 2 or 1.5)")),
        (
            Options { units: Some("cups"), ..none },
            Err("units cannot be \"cups\" (it is one of said, us, metric, weight)"),
        ),
        (
            Options { heat: Some("kelvin"), ..none },
            Err("heat cannot be \"kelvin\" (it is one of said, f, c, fan, gas)"),
        ),
    ] {
        assert_eq!(ask(options), expected.map(str::to_owned).map_err(str::to_owned), "{options:?}");
    }
    let wanted = ask::wanted(&card, &Options { pan: Some("8 inch square glass"), ..none }).unwrap();
    let shown = view::view(&card, &wanted);
    let dishes: Vec<&str> = shown.facts.iter().filter(|f| f.label.contains("ish")).map(|f| f.value.as_str()).collect();
    assert_eq!(dishes, ["9 × 13 in baking dish", "8 × 8 in square"]);
    assert!(
        shown.margin.iter().any(|m| m.text.contains("about as deep"))
            && shown.margin.iter().any(|m| m.text.contains("glass"))
    );
}

#[test]
fn what_a_card_makes() {
    for (low, high, of, factor, shown) in [
        (8, 10, "servings", "1/2", "4 to 5"),
        (8, 8, "servings", "1/3", "about 3"),
        (24, 24, "cookies", "1 1/2", "36"),
        (5, 5, "muffins", "1/2", "about 3"),
        (1, 1, "gallon", "1/2", "1/2"),
        (3, 3, "cups", "1/2", "1 1/2"),
        (1, 1, "servings", "1/2", "1/2"),
    ] {
        let makes =
            Yield { low: Ratio::whole(low), high: Ratio::whole(high), of: of.to_owned(), span: Default::default() };
        assert_eq!(factor::makes(&makes, factor.parse().unwrap()), shown, "{low} {of} x {factor}");
    }
}

/// The lists stand in the files as their heads say.
#[test]
fn lists_are_whole() {
    for sign in Sign::ALL {
        let named =
            include_str!("../../src/lexicon/signs.txt").lines().any(|l| l.starts_with(&format!("{} = ", sign.name())));
        assert!(named, "{}", sign.name());
    }
    let rows = include_str!("../../src/lexicon/weights.txt").lines().filter(|l| !l.starts_with('#')).count();
    assert_eq!(weights::all().len(), rows, "a row of weights.txt does not read");
    let sold = include_str!("../../src/lexicon/ovenware.txt").lines().filter(|l| !l.starts_with('#')).count();
    assert_eq!(pan::sold().count(), sold, "a row of ovenware.txt does not read");
}
