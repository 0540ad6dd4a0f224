//! Our units, heats and weights against what others publish.

use plainspoon::kitchen::convert::{self, GAS_MARKS};
use plainspoon::kitchen::measures::{Measures, standard};
use plainspoon::kitchen::{HeatScale, weights};
use plainspoon::measure::{Dimension, Heat, Ratio, Unit};

fn table(text: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    text.lines().filter(|l| !l.starts_with('#') && !l.is_empty()).map(|l| l.split('\t').collect())
}

/// A CLDR factor: products over products, with the constants named above it.
fn cldr(factor: &str, known: &[(&str, Ratio)]) -> Ratio {
    let product = |text: &str| -> Ratio {
        text.split('*').fold(Ratio::ONE, |so_far, name| {
            let found = known.iter().find(|(n, _)| *n == name).map(|(_, r)| *r);
            so_far * found.unwrap_or_else(|| name.parse().unwrap_or_else(|_| panic!("no constant {name}")))
        })
    };
    match factor.split_once('/') {
        Some((over, under)) => product(over) / product(under),
        None => product(factor),
    }
}

#[test]
fn every_cldr_factor() {
    let rows: Vec<_> = table(include_str!("../data/cldr-units.tsv")).collect();
    let mut known: Vec<(&str, Ratio)> = Vec::new();
    // Constants may name later ones; three rounds settle them.
    for _ in 0..3 {
        for row in rows.iter().filter(|r| r[0] == "const") {
            let ready = row[2].split(['*', '/']).all(|n| n.parse::<Ratio>().is_ok() || known.iter().any(|k| k.0 == n));
            if ready && !known.iter().any(|k| k.0 == row[1]) {
                known.push((row[1], cldr(row[2], &known)));
            }
        }
    }
    let mut checked = 0;
    for row in rows.iter().filter(|r| r[0] != "const") {
        let factor = cldr(row[2], &known);
        checked += 1;
        match (row[0], row[1]) {
            (name, "cubic-meter") => {
                assert_eq!(standard(name), Some((Dimension::Volume, factor * Ratio::whole(1_000_000))), "{name}");
            }
            (name, "kilogram") => {
                assert_eq!(standard(name), Some((Dimension::Weight, factor * Ratio::whole(1000))), "{name}");
            }
            ("inch", "meter") => assert_eq!(factor, Ratio::of(254, 10_000)),
            ("celsius", "kelvin") => assert_eq!((factor, row[3]), (Ratio::ONE, "273.15")),
            ("fahrenheit", "kelvin") => {
                // 5/9 of the degrees and 2298.35/9: what our own conversion of 350 °F must come to.
                let kelvin = Ratio::whole(350) * factor + "2298.35".parse::<Ratio>().unwrap() / Ratio::whole(9);
                let celsius = kelvin - "273.15".parse().unwrap();
                assert_eq!(
                    convert::fahrenheit(Heat::Fahrenheit(350)).unwrap(),
                    celsius * Ratio::of(9, 5) + Ratio::whole(32)
                );
            }
            other => panic!("a row nobody checks: {other:?}"),
        }
    }
    assert_eq!(checked, 29);
}

#[test]
fn our_sets_follow_cldr_but_for_the_dessertspoon() {
    for (set, unit, name) in [
        (Measures::Us, Unit::Teaspoon, "teaspoon"),
        (Measures::Us, Unit::Tablespoon, "tablespoon"),
        (Measures::Us, Unit::FluidOunce, "fluid-ounce"),
        (Measures::Us, Unit::Cup, "cup"),
        (Measures::Us, Unit::Pint, "pint"),
        (Measures::Us, Unit::Quart, "quart"),
        (Measures::Us, Unit::Gallon, "gallon"),
        (Measures::Us, Unit::Liter, "liter"),
        (Measures::Uk, Unit::FluidOunce, "fluid-ounce-imperial"),
        (Measures::Uk, Unit::Pint, "pint-imperial"),
        (Measures::Uk, Unit::Quart, "quart-imperial"),
        (Measures::Uk, Unit::Gallon, "gallon-imperial"),
        (Measures::Metric, Unit::Cup, "cup-metric"),
        (Measures::Australian, Unit::Cup, "cup-metric"),
    ] {
        assert_eq!(set.milliliters(unit), standard(name).map(|s| s.1), "{name}");
    }
    // CLDR's dessert spoon is 1/2048 gallon, 1.8 ml; cooks mean two teaspoons.
    let ours = Measures::Us.milliliters(Unit::Dessertspoon).unwrap();
    assert_eq!(ours / standard("dessert-spoon").unwrap().1, Ratio::of(16, 3));
    assert_eq!(Measures::Australian.milliliters(Unit::Tablespoon), Some(Ratio::whole(20)));
    assert_eq!(Measures::Metric.milliliters(Unit::Tablespoon), Some(Ratio::whole(15)));
}

/// NIST SP 811 (2008), table B.8: pound 0.45359237 kg, ounce 2.834952 E-02 kg, US gallon 3.785412 E-03 m3, imperial
/// gallon 4.54609 E-03 m3, US fluid ounce 2.957353 E-05 m3, cup 2.365882 E-04 m3, tablespoon 1.478676 E-05 m3,
/// teaspoon 4.928922 E-06 m3. Figures from memory of the table, as rounded there.
#[test]
fn nist_factors() {
    for (name, published, places) in [
        ("pound", "453.59237", 5),
        ("ounce", "28.34952", 5),
        ("gallon", "3785.412", 3),
        ("gallon-imperial", "4546.09", 2),
        ("fluid-ounce", "29.57353", 5),
        ("cup", "236.5882", 4),
        ("tablespoon", "14.78676", 5),
        ("teaspoon", "4.928922", 6),
    ] {
        let ours = plainspoon::kitchen::round::decimal(standard(name).unwrap().1, places);
        assert_eq!(ours, published, "{name}");
    }
}

/// A general library of units (fend-core, which calculates in exact fractions) agrees on random conversions to 12 digits.
#[test]
fn a_units_library_agrees() {
    let mut random = fastrand::Rng::with_seed(0x4B17C4E7);
    let mut library = fend_core::Context::new();
    let volumes = [
        (Unit::Teaspoon, "teaspoon"),
        (Unit::Tablespoon, "tablespoon"),
        (Unit::FluidOunce, "fluid_ounce"),
        (Unit::Cup, "cup"),
        (Unit::Pint, "pint"),
        (Unit::Quart, "quart"),
        (Unit::Gallon, "gallon"),
        (Unit::Milliliter, "ml"),
        (Unit::Liter, "liter"),
    ];
    let weights = [(Unit::Gram, "g"), (Unit::Kilogram, "kg"), (Unit::Ounce, "oz"), (Unit::Pound, "lb")];
    for n in 0..1000 {
        let kind = if n % 3 == 0 { &weights[..] } else { &volumes[..] };
        let (from, to) = (kind[random.usize(0..kind.len())], kind[random.usize(0..kind.len())]);
        let (num, den) = (random.i64(1..2000), random.i64(1..64));
        let ours = Ratio::of(num, den) * from.0.factor_to(to.0).expect("one kind");
        let asked = format!("({num}/{den} {}) to {} to 25 dp", from.1, to.1);
        let answer = fend_core::evaluate(&asked, &mut library).unwrap_or_else(|e| panic!("{asked}: {e}"));
        let text = answer.get_main_result();
        let digits: String =
            text.trim_start_matches("approx. ").chars().filter(|c| c.is_ascii_digit() || *c == '.').collect();
        let theirs: f64 = digits.parse().unwrap_or_else(|e| panic!("{text}: {e}"));
        assert!((ours.to_f64() / theirs - 1.0).abs() < 1e-12, "{asked}: {text}, ours {}", ours.to_f64());
    }
}

/// Table `gasmark` of GNU Units 2.22 (definitions.units), in degrees Rankine, which are 459.67 above Fahrenheit.
#[test]
fn gas_marks_of_a_published_table() {
    let published =
        ["734.67", "759.67", "784.67", "809.67", "834.67", "859.67", "884.67", "909.67", "934.67", "959.67"];
    for ((mark, f), rankine) in GAS_MARKS.into_iter().zip(published) {
        let theirs = rankine.parse::<Ratio>().unwrap() - "459.67".parse().unwrap();
        assert_eq!(Ratio::whole(i64::from(f)), theirs, "gas {mark}");
    }
}

#[test]
fn oven_dials() {
    use Heat::*;
    for (said, to, shown) in [
        (Fahrenheit(350), HeatScale::Celsius, Celsius(180)),
        (Fahrenheit(375), HeatScale::Celsius, Celsius(190)),
        (Fahrenheit(400), HeatScale::Celsius, Celsius(200)),
        (Fahrenheit(425), HeatScale::Celsius, Celsius(220)),
        (Fahrenheit(325), HeatScale::Celsius, Celsius(160)),
        (Fahrenheit(350), HeatScale::Fan, Fan(160)),
        (Fahrenheit(350), HeatScale::Gas, Gas(4)),
        (Fahrenheit(360), HeatScale::Gas, Gas(4)),
        (Fahrenheit(200), HeatScale::Gas, Fahrenheit(200)),
        (Celsius(180), HeatScale::Fahrenheit, Fahrenheit(350)),
        (Celsius(200), HeatScale::Fahrenheit, Fahrenheit(400)),
        (Celsius(170), HeatScale::Fahrenheit, Fahrenheit(340)),
        (Celsius(180), HeatScale::Gas, Gas(4)),
        (Fan(180), HeatScale::Celsius, Celsius(200)),
        (Fan(160), HeatScale::Fahrenheit, Fahrenheit(350)),
        (Gas(6), HeatScale::Fahrenheit, Fahrenheit(400)),
        (Gas(6), HeatScale::Celsius, Celsius(200)),
        (Gas(4), HeatScale::Said, Gas(4)),
        (Broil, HeatScale::Celsius, Broil),
        (Celsius(190), HeatScale::Celsius, Celsius(190)),
    ] {
        assert_eq!(convert::oven(said, to), shown, "{said} to {to:?}");
    }
    // Temperatures of food are not dials: FSIS gives 165 °F as 73.9 °C, printed 74.
    assert_eq!(convert::of_food(Fahrenheit(165), HeatScale::Celsius), Celsius(74));
    assert_eq!(convert::of_food(Fahrenheit(145), HeatScale::Celsius), Celsius(63));
    assert_eq!(convert::of_food(Celsius(71), HeatScale::Fahrenheit), Fahrenheit(160));
}

/// Every row of our table stands in the database so, and what a cup comes to is within 1 % of every row the database has
/// for that food in that state.
#[test]
fn cup_weights_are_the_database_rows() {
    let rows: Vec<_> = table(include_str!("../data/household-weights.tsv")).collect();
    let mut foods: Vec<&str> = Vec::new();
    for weight in weights::all().iter().filter(|w| w.ndb != "BCS") {
        let row = rows.iter().find(|r| {
            r[0] == weight.ndb && r[3].replace(';', ",") == weight.measure && r[2].parse::<Ratio>() == Ok(weight.count)
        });
        let row = row.unwrap_or_else(|| panic!("{} {} is not in the database", weight.ndb, weight.measure));
        let published: Ratio = row[4].parse().expect("grams");
        assert_eq!(weight.grams, published, "{}", weight.ndb);
        let per_cup = published / weight.count * Unit::Cup.factor_to(weight.unit).expect("a volume");
        let off = (weight.grams_per_cup() - per_cup).abs() / per_cup;
        assert!(off <= Ratio::of(1, 100), "{} {}", weight.ndb, row[1]);
        if !foods.contains(&weight.ndb) {
            foods.push(weight.ndb);
        }
    }
    assert!(foods.len() >= 60, "{} foods", foods.len());
}

/// What a cook would name, against the database's grams of a cup by NDB number, within 1 %.
#[test]
fn named_foods_find_their_row() {
    for (name, prep, ndb, grams) in [
        ("all-purpose flour", "", "20081", 125),
        ("flour", "", "20081", 125),
        ("bread flour", "", "20083", 137),
        ("cake flour", "", "20084", 137),
        ("whole wheat flour", "", "20080", 120),
        ("rye flour", "", "20064", 102),
        ("cornstarch", "", "20027", 128),
        ("cornmeal", "", "20022", 157),
        ("semolina", "", "20066", 167),
        ("sugar", "", "19335", 200),
        ("granulated sugar", "", "19335", 200),
        ("brown sugar", "packed", "19334", 220),
        ("brown sugar", "unpacked", "19334", 145),
        ("powdered sugar", "", "19336", 120),
        ("icing sugar", "sifted", "19336", 100),
        ("honey", "", "19296", 339),
        ("molasses", "", "19304", 337),
        ("maple syrup", "", "19353", 315),
        ("light corn syrup", "", "19350", 341),
        ("cocoa powder", "", "19165", 86),
        ("chocolate chips", "", "19080", 168),
        ("butter", "", "01001", 227),
        ("cold unsalted butter", "", "01001", 227),
        ("lard", "", "04002", 205),
        ("shortening", "", "04615", 205),
        ("olive oil", "", "04053", 216),
        ("vegetable oil", "", "04044", 218),
        ("coconut oil", "", "04047", 218),
        ("milk", "", "01077", 244),
        ("whole milk", "", "01077", 244),
        ("buttermilk", "", "01088", 245),
        ("half-and-half", "", "01049", 242),
        ("heavy cream", "", "01053", 238),
        ("heavy cream", "whipped", "01053", 120),
        ("sour cream", "", "01056", 230),
        ("plain yogurt", "", "01116", 245),
        ("evaporated milk", "", "01096", 252),
        ("sweetened condensed milk", "", "01095", 306),
        ("cream cheese", "", "01017", 232),
        ("cottage cheese", "", "01012", 225),
        ("ricotta", "", "01036", 246),
        ("sharp cheddar", "shredded", "01009", 113),
        ("cheddar cheese", "cubed", "01009", 132),
        ("mozzarella", "", "01026", 112),
        ("parmesan", "grated", "01032", 100),
        ("feta", "crumbled", "01019", 150),
        ("long-grain white rice", "", "20044", 185),
        ("brown rice", "", "20036", 185),
        ("cooked rice", "", "20045", 158),
        ("wild rice", "", "20088", 160),
        ("quinoa", "", "20035", 170),
        ("couscous", "", "20028", 173),
        ("bulgur", "", "20012", 140),
        ("pearl barley", "", "20005", 200),
        ("elbow macaroni", "", "20099", 105),
        ("bread crumbs", "", "18079", 108),
        ("graham cracker crumbs", "", "18173", 84),
        ("almonds", "slivered", "12061", 108),
        ("almonds", "", "12061", 143),
        ("pecans", "chopped", "12142", 109),
        ("walnuts", "chopped", "12155", 117),
        ("hazelnuts", "", "12120", 135),
        ("pine nuts", "", "12147", 135),
        ("peanut butter", "", "16098", 258),
        ("sesame seeds", "", "12023", 144),
        ("lentils", "", "16069", 192),
        ("blueberries", "", "09050", 148),
        ("raspberries", "", "09302", 123),
        ("strawberries", "sliced", "09316", 166),
        ("raisins", "", "09298", 145),
        ("lemon juice", "", "09152", 244),
        ("orange juice", "", "09206", 248),
        ("onion", "finely chopped", "11282", 160),
        ("carrots", "grated", "11124", 110),
        ("celery", "diced", "11143", 101),
        ("frozen peas", "", "11312", 134),
        ("corn", "", "11167", 145),
        ("baby spinach", "", "11457", 30),
        ("tomato sauce", "", "11549", 245),
        ("pumpkin puree", "", "11424", 245),
        ("salt", "", "02047", 292),
        ("water", "", "14411", 237),
        ("soy sauce", "", "16123", 255),
        ("mayonnaise", "", "04025", 220),
        ("ketchup", "", "11935", 240),
        ("chicken broth", "", "06194", 249),
        ("applesauce", "", "09401", 244),
    ] {
        let prep: Vec<String> = Some(prep).filter(|p| !p.is_empty()).map(str::to_owned).into_iter().collect();
        let found = weights::find(name, &prep).unwrap_or_else(|| panic!("no row for {name}"));
        assert_eq!(found.ndb, ndb, "{name}");
        let off = (found.grams_per_cup() - Ratio::whole(grams)).abs() / Ratio::whole(grams);
        assert!(off <= Ratio::of(1, 100), "{name}: {:?} is not {grams}", found.grams_per_cup());
    }
}

#[test]
fn no_row_no_weight() {
    for name in [
        "almond extract",
        "dark chocolate",
        "kosher salt",
        "chickpea flour",
        "fish sauce",
        "egg noodles and peas",
        "rice flour",
    ] {
        assert!(weights::find(name, &[]).is_none(), "{name}");
    }
    assert!(weights::find("onion", &[]).is_none(), "an onion that nobody chopped fills no cup");
}
