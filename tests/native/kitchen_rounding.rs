//! Exact amounts and what a kitchen measures instead.

use plainspoon::kitchen::Measures;
use plainspoon::kitchen::round::{Ask, Printed, round};
use plainspoon::measure::{Ratio, Unit};

/// "3/8 cup" becomes its count and unit; a bare number is a count.
pub fn said(text: &str) -> (Ratio, Option<Unit>) {
    let split = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
    let unit = text[split..].trim();
    let unit = (!unit.is_empty()).then(|| unit.parse().unwrap_or_else(|_| panic!("no unit {unit}")));
    (text[..split].trim().parse().unwrap_or_else(|_| panic!("no number in {text}")), unit)
}

fn rounded(text: &str, set: Measures, ask: Ask) -> Printed {
    let (count, unit) = said(text);
    round(count, unit, set, ask)
}

const POURS: Ask = Ask { liquid: true, as_said: false, metric: false, rough: false };
const DRY: Ask = Ask { liquid: false, as_said: false, metric: false, rough: false };

#[test]
fn spoons_and_cups() {
    for (exact, printed) in [
        ("1/8 teaspoon", "1/8 teaspoon"),
        ("3/8 teaspoon", "1/4 teaspoon plus 1/8 teaspoon"),
        ("3/4 teaspoon", "3/4 teaspoon"),
        ("1/3 teaspoon", "generous 1/4 teaspoon"),
        ("1/6 teaspoon", "generous 1/8 teaspoon"),
        ("1/12 teaspoon", "scant 1/8 teaspoon"),
        ("2/3 teaspoon", "1/2 teaspoon plus 1/8 teaspoon"),
        ("1/16 teaspoon", "a pinch"),
        ("1/64 teaspoon", "a small pinch"),
        ("3 teaspoon", "1 tablespoon"),
        ("4 teaspoon", "1 tablespoon plus 1 teaspoon"),
        ("1/2 tablespoon", "1 1/2 teaspoons"),
        ("1 1/2 tablespoon", "1 1/2 tablespoons"),
        ("4 tablespoon", "1/4 cup"),
        ("6 tablespoon", "6 tablespoons"),
        ("12 tablespoon", "3/4 cup"),
        ("64 tablespoon", "1 quart"),
        ("1/16 cup", "1 tablespoon"),
        ("1/8 cup", "2 tablespoons"),
        ("1/6 cup", "2 tablespoons plus 2 teaspoons"),
        ("3/16 cup", "3 tablespoons"),
        ("3/8 cup", "1/4 cup plus 2 tablespoons"),
        ("5/8 cup", "1/2 cup plus 2 tablespoons"),
        ("7/8 cup", "3/4 cup plus 2 tablespoons"),
        ("1 1/8 cup", "1 cup plus 2 tablespoons"),
        ("2 2/3 cup", "2 2/3 cups"),
        ("4 cup", "4 cups"),
        ("16 cup", "1 gallon"),
        ("1/2 pint", "1 cup"),
        ("3 pint", "3 pints"),
        ("1/2 gallon", "1/2 gallon"),
        ("6 quart", "1 1/2 gallons"),
    ] {
        assert_eq!(rounded(exact, Measures::Us, POURS).to_string(), printed, "{exact}");
    }
    for (exact, printed) in [("64 tablespoon", "4 cups"), ("16 cup", "16 cups"), ("17 1/3 cup", "17 1/3 cups")] {
        assert_eq!(rounded(exact, Measures::Us, DRY).to_string(), printed, "{exact}, dry");
    }
}

#[test]
fn scales_and_jugs() {
    for (exact, printed) in [
        ("1/2 gram", "1 g"),
        ("49 1/2 gram", "50 g"),
        ("217 gram", "215 g"),
        ("1252 gram", "1.25 kg"),
        ("1/2 kilogram", "500 g"),
        ("3 ounce", "3 ounces"),
        ("3 1/8 ounce", "3 ounces"),
        ("16 ounce", "1 pound"),
        ("40 ounce", "2 1/2 pounds"),
        ("1/8 pound", "2 ounces"),
        ("1/2 pound", "1/2 pound"),
        ("1 3/16 pound", "1 pound plus 3 ounces"),
        ("5 milliliter", "5 ml"),
        ("7.5 milliliter", "1 1/2 teaspoons"),
        ("62.5 milliliter", "65 ml"),
        ("473 milliliter", "470 ml"),
        ("1.25 liter", "1.25 liters"),
        ("1/4 liter", "250 ml"),
    ] {
        assert_eq!(rounded(exact, Measures::Us, POURS).to_string(), printed, "{exact}");
    }
}

#[test]
fn counts_and_words() {
    for (exact, printed) in [
        ("1/2", "1/2"),
        ("2 2/3", "2 2/3"),
        ("10 1/4", "10"),
        ("1 pinch", "a pinch"),
        ("4 pinch", "4 pinches"),
        ("1/2 pinch", "a small pinch"),
        ("1/2 handful", "half a handful"),
        ("3 handful", "3 handfuls"),
        ("1/2 sleeve", "1/2 sleeve"),
        ("1 1/2 clove", "1 1/2 cloves"),
        ("3/4 inch", "3/4 inch"),
    ] {
        assert_eq!(rounded(exact, Measures::Us, DRY).to_string(), printed, "{exact}");
    }
}

#[test]
fn other_countries_spoons() {
    for (set, exact, printed) in [
        (Measures::Australian, "4 teaspoon", "1 tablespoon"),
        (Measures::Australian, "1/2 tablespoon", "2 teaspoons"),
        (Measures::Metric, "3 teaspoon", "1 tablespoon"),
        (Measures::Uk, "1/2 pint", "1/2 pint"),
        (Measures::Uk, "1/8 pint", "2 1/2 fluid ounces"),
        (Measures::Uk, "2 pint", "2 pints"),
        (Measures::Uk, "1 dessertspoon", "1 dessertspoon"),
    ] {
        assert_eq!(rounded(exact, set, POURS).to_string(), printed, "{exact} {}", set.name());
    }
}
