//! Whole cards at other sizes and in other units.

use plainspoon::draft::Span;
use plainspoon::kitchen::{Units, Wanted, scale};
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
