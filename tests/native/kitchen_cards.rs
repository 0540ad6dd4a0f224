//! Whole cards at other sizes and in other units.

use plainspoon::draft::Span;
use plainspoon::kitchen::{HeatScale, Measures, Units, Wanted, scale};
use plainspoon::measure::{Amount, Heat, Length, Pan, Ratio, Shape, Time, TimeUnit};
use plainspoon::output::card::CardView;
use plainspoon::output::{text, view};
use plainspoon::recipe::{Card, Line, Package, Piece, PieceKind, Said, Step, Yield};

use super::kitchen_rounding::said;

pub fn amount(text: &str) -> Amount {
    let (count, unit) = said(text);
    Amount::new(count, unit).expect("more than nothing")
}

/// "1 1/2 cup | flour" as a line.
pub fn line(text: &str) -> Line {
    let (figure, name) = text.split_once('|').expect("amount | name");
    let amount = (!figure.trim().is_empty()).then(|| amount(figure.trim()));
    Line { name: name.trim().to_owned(), amount, ..Line::default() }
}

pub fn lines(all: &[&str]) -> Card {
    Card { title: "baked rice".to_owned(), lines: all.iter().map(|l| line(l)).collect(), ..Card::default() }
}

/// A step of words, with "{1 cup|0}" for a part of line 0.
pub fn step(text: &str) -> Step {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        let (inside, after) = after.split_once('}').expect("a closing brace");
        let (figure, at) = inside.split_once('|').expect("amount|line");
        pieces.push(PieceKind::Words(before.to_owned()));
        pieces.push(PieceKind::Amount { amount: amount(figure), line: at.parse().ok() });
        rest = after;
    }
    pieces.push(PieceKind::Words(rest.to_owned()));
    Step { pieces: pieces.into_iter().map(|kind| Piece { kind, span: None }).collect(), group: None }
}

pub fn wanted(factor: &str) -> Wanted {
    Wanted { factor: factor.parse().expect("a factor"), ..Wanted::default() }
}

pub fn in_units(units: Units) -> Wanted {
    Wanted { units, ..Wanted::default() }
}

pub fn printed(card: &CardView) -> Vec<String> {
    let lines = card.groups.iter().flat_map(|g| &g.lines);
    lines.map(|l| format!("{} {}", l.amount, l.name).trim().to_owned()).collect()
}

fn check(given: &str, wanted: &Wanted, expected: &str) {
    let shown = view::view(&lines(&[given]), wanted);
    assert_eq!(printed(&shown), [expected], "{given} {wanted:?}");
}

#[test]
fn one_line_scaled() {
    for (given, factor, expected) in [
        ("3/4 cup | flour", "1/2", "1/4 cup plus 2 tablespoons flour"),
        ("2 | eggs", "1/2", "1 egg"),
        ("1 | egg", "2", "2 eggs"),
        ("1 | egg", "1/2", "1/2 egg"),
        ("3 | egg yolks", "1/3", "1 egg yolk"),
        ("2 | bay leaves", "1/2", "1 bay leaf"),
        ("1 pinch | salt", "4", "4 pinches salt"),
        ("1 handful | parsley", "2", "2 handfuls parsley"),
        ("1 stick | butter", "1 1/2", "1 1/2 sticks butter"),
        ("1 stick | butter", "1/3", "2 tablespoons plus 2 teaspoons butter"),
        ("1 sleeve | crackers", "1/2", "1/2 sleeve crackers"),
        ("2 clove | garlic", "1/2", "1 clove garlic"),
        (" | salt", "3", "salt"),
        ("1 quart | milk", "2", "2 quarts milk"),
        ("6 cup | flour", "4", "24 cups flour"),
    ] {
        check(given, &wanted(factor), expected);
    }
}

#[test]
fn containers_say_what_they_weigh() {
    for (count, size, factor, expected) in [
        ("1 can", "15 ounce", "1", "1 can (15 oz) corn"),
        ("2 can", "15 ounce", "1", "2 cans (15 oz each) corn"),
        ("1 can", "15 ounce", "1 1/2", "1 can (15 oz) plus 1/2 can, about 22 1/2 oz in all corn"),
        ("1 can", "15 ounce", "1/2", "1/2 can (15 oz), about 7 1/2 oz corn"),
        ("1 packet", "7 gram", "2", "2 packets (7 g each) corn"),
    ] {
        let mut card = lines(&[&format!("{count} | corn")]);
        let (figure, unit) = said(size);
        card.lines[0].package = Some(Package { size: figure, unit: unit.expect("a unit") });
        assert_eq!(printed(&view::view(&card, &wanted(factor))), [expected]);
    }
}

#[test]
fn parts_add_up_as_printed() {
    let mut card = lines(&["1 cup | sugar"]);
    card.steps =
        vec![step("Stir in {1/3 cup|0} of the sugar."), step("Add {1/3 cup|0}."), step("Scatter {1/3 cup|0} on top.")];
    let shown = view::view(&card, &wanted("1/3"));
    assert_eq!(printed(&shown), ["1/3 cup sugar"]);
    let parts: Vec<&str> =
        shown.steps.iter().flat_map(|s| &s.pieces).filter(|p| p.kind == "amount").map(|p| p.text.as_str()).collect();
    assert_eq!(
        parts,
        ["1 tablespoon plus 2 1/2 teaspoons", "1 tablespoon plus 2 1/4 teaspoons", "1 tablespoon plus 2 1/4 teaspoons"]
    );
}

#[test]
fn scaling_back_is_exact_and_leaves_heat_and_time_alone() {
    let card = full();
    for (num, den) in [(1, 16), (1, 3), (2, 1), (64, 117), (100, 1)] {
        let factor = Ratio::of(num, den);
        let there = scale::scale(&card, factor);
        let back = scale::scale(&there, Ratio::ONE / factor);
        assert_eq!(format!("{card:?}"), format!("{back:?}"), "{factor}");
        assert_eq!(there.ovens[0].what, card.ovens[0].what);
        assert_eq!(there.times[0].what, card.times[0].what);
        assert!(there.pans[0].what.same_size(&card.pans[0].what));
    }
}

/// An invented card with a bit of everything.
pub fn full() -> Card {
    let span = Span::new(0, 1);
    let mut card =
        lines(&["3 cup | cooked rice", "1 pint | cream", "2 | eggs", "1 1/2 cup | sharp cheddar", "1 teaspoon | salt"]);
    card.lines[1].divided = true;
    card.lines[3].prep = vec!["shredded".to_owned()];
    card.makes = Some(Yield { low: Ratio::whole(8), high: Ratio::whole(10), of: "servings".to_owned(), span });
    let sides = vec![Ratio::whole(9), Ratio::whole(13)];
    let pan =
        Pan { shape: Shape::Rectangle, sides, length: Length::Inch, holds: None, called: "baking dish".to_owned() };
    card.pans = vec![Said { what: pan.clone(), span }];
    card.ovens = vec![Said { what: Heat::Fahrenheit(375), span }];
    let time = Time::range(Ratio::whole(40), Ratio::whole(45), TimeUnit::Minute).expect("a time");
    card.times = vec![Said { what: time, span }];
    let piece = |kind| Piece { kind, span: None };
    let words = |w: &str| piece(PieceKind::Words(w.to_owned()));
    card.steps = vec![
        Step {
            pieces: vec![words("Heat the oven to "), piece(PieceKind::Heat(Heat::Fahrenheit(375))), words(".")],
            group: None,
        },
        step("Stir together the rice, {1 cup|1} of the cream, the eggs, the cheese and the salt."),
        Step { pieces: vec![words("Turn it into a "), piece(PieceKind::Pan(pan)), words(".")], group: None },
        step("Pour {1 cup|1} of cream over the top."),
        Step {
            pieces: vec![words("Bake for "), piece(PieceKind::Time(time)), words(", until it no longer shakes.")],
            group: None,
        },
    ];
    card
}

#[test]
fn a_card_in_plain_text() {
    let shown = text::text(&view::view(&full(), &wanted("1/2")));
    println!("{shown}");
    for expected in
        ["Serves: 4 to 5", "Oven: 375 °F", "Time: 40–45 min", "1 1/2 cups  cooked rice", " 1. Heat the oven to 375 °F."]
    {
        assert!(shown.contains(expected), "{expected} in\n{shown}");
    }
    assert!(shown.lines().all(|l| l.chars().count() <= text::WIDTH));
}

/// One line in other units: "amount | name" as said, the units, what is printed.
#[test]
fn one_line_in_other_units() {
    for (given, units, expected) in [
        ("2 cup | all-purpose flour", Units::Weight, "about 250 g all-purpose flour"),
        ("1 stick | butter", Units::Weight, "about 115 g butter"),
        ("1 1/2 stick | butter", Units::Weight, "about 170 g butter"),
        ("1 tablespoon | butter", Units::Weight, "about 14 g butter"),
        ("1/4 teaspoon | salt", Units::Weight, "1/4 teaspoon salt"),
        ("1 cup | rice flour", Units::Weight, "235 ml rice flour"),
        ("1 pound | carrots", Units::Weight, "455 g carrots"),
        ("1 cup | milk", Units::Metric, "235 ml milk"),
        ("1 quart | milk", Units::Metric, "950 ml milk"),
        ("5 cup | water", Units::Metric, "1.18 liters water"),
        ("1 teaspoon | vanilla", Units::Metric, "1 teaspoon vanilla"),
        ("8 ounce | cream cheese", Units::Metric, "225 g cream cheese"),
        ("2 pound | potatoes", Units::Metric, "905 g potatoes"),
        ("3 pound | potatoes", Units::Metric, "1.36 kg potatoes"),
        ("250 milliliter | milk", Units::Us, "1 cup plus 1 tablespoon milk"),
        ("1 liter | water", Units::Us, "4 1/4 cups water"),
        ("250 gram | flour", Units::Us, "about 2 cups flour"),
        ("500 gram | ground beef", Units::Us, "1 pound plus 1 1/2 ounces ground beef"),
        ("100 gram | rice flour", Units::Us, "3 1/2 ounces rice flour"),
        ("2 clove | garlic", Units::Weight, "2 cloves garlic"),
        ("1 can | corn", Units::Metric, "1 can corn"),
        ("1 inch | ginger", Units::Metric, "1 inch ginger"),
        ("3 | eggs", Units::Weight, "3 eggs"),
        ("1 handful | parsley", Units::Weight, "a handful parsley"),
    ] {
        check(given, &in_units(units), expected);
    }
}

/// A card that mixes grams and cups stays as it was said, and each line converts by itself. Grams and millilitres without
/// a Fahrenheit oven say that its cup is the metric one.
#[test]
fn mixed_cards_stay_readable() {
    let card = lines(&["200 gram | flour", "1 cup | sugar", "2 | eggs", "100 milliliter | milk"]);
    for (units, expected) in [
        (Units::Said, ["200 g flour", "1 cup sugar", "2 eggs", "100 ml milk"]),
        (Units::Weight, ["200 g flour", "about 210 g sugar", "2 eggs", "about 105 g milk"]),
        (Units::Metric, ["200 g flour", "250 ml sugar", "2 eggs", "100 ml milk"]),
        (
            Units::Us,
            [
                "about 1 2/3 cups flour",
                "1 cup plus 1 tablespoon sugar",
                "2 eggs",
                "1/3 cup plus 1 1/2 tablespoons milk",
            ],
        ),
    ] {
        assert_eq!(printed(&view::view(&card, &in_units(units))), expected, "{units:?}");
    }
}

/// Whose cup it is, from the card: "names; heat or unit" and the set.
#[test]
fn a_card_tells_whose_spoons_it_means() {
    let with = |names: &[&str], oven: Option<Heat>| {
        let mut card = lines(names);
        card.ovens = oven.into_iter().map(|what| Said { what, span: Span::default() }).collect();
        Measures::of_card(&card)
    };
    for (names, oven, set) in [
        (&["1 cup | flour"][..], None, Measures::Us),
        (&["1 cup | flour"], Some(Heat::Fahrenheit(350)), Measures::Us),
        (&["1 cup | flour"], Some(Heat::Celsius(180)), Measures::Metric),
        (&["1 cup | flour"], Some(Heat::Gas(4)), Measures::Uk),
        (&["1 cup | flour"], Some(Heat::Fan(160)), Measures::Uk),
        (&["1 dessertspoon | oil"], None, Measures::Uk),
        (&["200 gram | caster sugar"], None, Measures::Uk),
        (&["200 gram | sugar"], None, Measures::Metric),
        (&["200 gram | sugar", "1 stick | butter"], None, Measures::Us),
        (&["300 milliliter | thickened cream"], None, Measures::Australian),
    ] {
        assert_eq!(with(names, oven), set, "{names:?} {oven:?}");
    }
    let pint = lines(&["1 pint | milk"]);
    let as_uk = Wanted { units: Units::Metric, measures: Some(Measures::Uk), ..Wanted::default() };
    assert_eq!(printed(&view::view(&pint, &as_uk)), ["570 ml milk"]);
    let spoon = lines(&["3 tablespoon | oil"]);
    let as_australian = Wanted { units: Units::Metric, measures: Some(Measures::Australian), ..Wanted::default() };
    assert_eq!(printed(&view::view(&spoon, &as_australian)), ["60 ml oil"]);
}

/// What is said beside a line: the half egg, a stick's spoons, what rounding lost, where a weight is from.
#[test]
fn what_stands_beside_a_line() {
    for (given, wanted, remark) in [
        ("1 | egg", wanted("1/2"), "beat 1 egg and use 2 tablespoons (about 25 g)"),
        ("3 | eggs", wanted("1/2"), "for the 1/2, beat 1 egg and use 2 tablespoons (about 25 g)"),
        ("1 | egg yolk", wanted("1/2"), "stir 1 yolk and use 1 1/2 teaspoons (about 9 g)"),
        ("1 | egg white", wanted("1/2"), "beat 1 white lightly and use 1 tablespoon (about 17 g)"),
        ("1 stick | butter", wanted("1 1/2"), "12 tablespoons, about 170 g"),
        ("1 sleeve | crackers", wanted("1/2"), "sleeves differ; a whole one is often about 1 cup crushed"),
        ("2 pinch | saffron", wanted("4"), "about 1/2 teaspoon, a pinch being some 1/16 teaspoon"),
        ("2 | eggs", wanted("1/2"), ""),
    ] {
        let shown = view::view(&lines(&[given]), &wanted);
        assert_eq!(shown.groups[0].lines[0].remark, remark, "{given}");
    }
    let shown = view::view(&lines(&["1 teaspoon | oregano"]), &wanted("1/3"));
    assert_eq!(shown.groups[0].lines[0].amount, "generous 1/4 teaspoon");
    assert_eq!(shown.groups[0].lines[0].exact.as_deref(), Some("1/3 teaspoon"));
    assert_eq!(shown.margin[0].text, "Exactly 1/3 teaspoon; 1/4 teaspoon is 25 % under.");
    let shown = view::view(&lines(&["1/8 teaspoon | cayenne"]), &wanted("1/2"));
    assert_eq!(shown.margin[0].text, "Exactly 1/16 teaspoon, which no spoon measures.");
    let shown = view::view(&lines(&["1 cup | flour"]), &in_units(Units::Weight));
    let row = "USDA SR 20081, Wheat flour, white, all-purpose, enriched, bleached: 1 cup, 125 g";
    assert_eq!(shown.margin[0].source.as_deref(), Some(row));
}

/// Heats and sizes follow the units, in the facts and in the method; the broiler has no figure.
#[test]
fn heats_and_sizes_in_other_units() {
    let metric = view::view(&full(), &in_units(Units::Metric));
    let facts: Vec<String> = metric.facts.iter().map(|f| format!("{} {}", f.label, f.value)).collect();
    assert_eq!(facts, ["Serves 8 to 10", "Dish 23 × 33 cm baking dish", "Oven 190 °C", "Time 40–45 min"]);
    let method: String = metric.steps.iter().flat_map(|s| &s.pieces).map(|p| p.text.as_str()).collect();
    assert!(method.contains("190 °C") && method.contains("23 × 33 cm"), "{method}");
    for (scale, shown) in [
        (HeatScale::Gas, "gas mark 5"),
        (HeatScale::Fan, "170 °C fan"),
        (HeatScale::Celsius, "190 °C"),
        (HeatScale::Fahrenheit, "375 °F"),
        (HeatScale::Said, "375 °F"),
    ] {
        let asked = Wanted { heat: scale, ..Wanted::default() };
        assert_eq!(view::view(&full(), &asked).facts[2].value, shown);
    }
    let weighed = view::view(&full(), &in_units(Units::Weight));
    assert_eq!(weighed.facts[2].value, "375 °F", "a scale does not change the oven");
}

/// As spoken, nothing is touched that a kitchen can measure, whatever unit is plainer.
#[test]
fn as_spoken_stays_as_spoken() {
    for given in [
        "64 tablespoon | milk",
        "16 cup | broth",
        "5 tablespoon | butter",
        "3 teaspoon | cumin",
        "1/2 tablespoon | oil",
        "20 ounce | pineapple",
        "227 gram | butter",
        "33 milliliter | rum",
        "1/8 teaspoon | mace",
        "2 quart | stock",
        "1 1/2 pound | beef",
        "9 | plums",
        "5 | onions",
    ] {
        let shown = view::view(&lines(&[given]), &wanted("1"));
        let (figure, name) = given.split_once(" | ").unwrap();
        let figure: String = figure.split(' ').take_while(|w| w.parse::<Ratio>().is_ok()).collect::<Vec<_>>().join(" ");
        let text = &printed(&shown)[0];
        assert!(text.starts_with(&figure) && text.ends_with(name), "{given}: {text}");
        assert!(!shown.margin.iter().any(|m| m.kind == "rounded"), "{given}");
    }
    check("3/8 cup | sugar", &wanted("1"), "1/4 cup plus 2 tablespoons sugar");
}
