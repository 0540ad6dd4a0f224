//! Pans as typed, what they hold, and which stand in for which.

use plainspoon::kitchen::pan::{self, Vessel};
use plainspoon::measure::Ratio;

#[test]
fn typed_pans() {
    for (typed, shape, shown) in [
        ("8 by 8", "square", "8 × 8 in square pan"),
        ("9 by 13", "rectangle", "9 × 13 in baking pan"),
        ("9x13", "rectangle", "9 × 13 in baking pan"),
        ("9 x 13 x 2 inch", "rectangle", "9 × 13 × 2 in baking pan"),
        ("9-inch round", "round", "9 in round pan"),
        ("8 inch square", "square", "8 × 8 in square pan"),
        ("20 cm square", "square", "20 × 20 cm square pan"),
        ("20 by 30 cm", "rectangle", "20 × 30 cm baking pan"),
        ("10-inch skillet", "skillet", "10 in skillet"),
        ("9 inch", "round", "9 in round pan"),
        ("8 1/2 by 4 1/2 loaf", "loaf", "8½ × 4½ in loaf pan"),
        ("8½x4½ loaf pan", "loaf", "8½ × 4½ in loaf pan"),
        ("9\" pie plate", "pie", "9 in pie plate"),
        ("10 inch bundt", "tube", "10 in tube pan"),
        ("2-quart dish", "other", "2-quart dish"),
        ("2 quart glass dish", "other", "2-quart glass dish"),
        ("half sheet", "sheet", "13 × 18 in sheet pan"),
        ("12-cup muffin tin", "muffin", "12-cup muffin tin"),
        ("10x15 sheet", "sheet", "10 × 15 in sheet pan"),
    ] {
        let pan = pan::parse(typed).unwrap_or_else(|e| panic!("{e}"));
        assert_eq!((pan.shape.name(), pan.to_string().as_str()), (shape, shown), "{typed}");
    }
}

#[test]
fn what_names_no_pan() {
    for typed in ["", "a pan", "0 by 0", "9 by 13000", "square", "1/0 inch", "🥧", "by"] {
        let said = pan::parse(typed).unwrap_err().to_string();
        assert!(said.contains("names no size of pan"), "{said}");
    }
}

/// Capacities to a cup or so: what extension tables and the pans themselves give, common practice.
#[test]
fn what_they_hold() {
    for (typed, least, most) in [
        ("9 by 13", 14, 15),
        ("8 by 8", 7, 8),
        ("9 by 9", 10, 11),
        ("8-inch round", 6, 7),
        ("9-inch round", 7, 8),
        ("9 by 5 loaf", 8, 9),
        ("8 1/2 by 4 1/2 loaf", 5, 6),
        ("9-inch pie", 3, 4),
        ("10-inch tube", 15, 16),
        ("10 by 15 sheet", 9, 10),
        ("2-quart dish", 8, 8),
        ("12 cup muffin tin", 6, 6),
    ] {
        let cups = Vessel::of(&pan::parse(typed).unwrap()).unwrap().cups();
        assert!(Ratio::whole(least) <= cups && cups <= Ratio::whole(most), "{typed}: {} cups", cups.to_f64());
    }
}

#[test]
fn the_factor_between_two() {
    for (from, to, exact, handy) in [
        ("9 by 13", "8 by 8", "64/117", "1/2"),
        ("8 by 8", "9 by 13", "117/64", "2"),
        ("9 by 13", "9 by 13", "1", "1"),
        ("8 inch square", "9 inch square", "81/64", "5/4"),
        ("8-inch round", "10-inch round", "25/16", "3/2"),
        ("20 by 30 cm", "20 cm square", "2/3", "2/3"),
        ("9 by 13", "2-quart dish", "32/63", "1/2"),
    ] {
        let solid = |typed| Vessel::of(&pan::parse(typed).unwrap()).unwrap();
        let between = pan::between(&solid(from), &solid(to));
        if to != "2-quart dish" {
            assert_eq!(between.exact, exact.parse().unwrap(), "{from} to {to}");
        }
        assert_eq!(between.handy, handy.parse().unwrap(), "{from} to {to}: {}", between.exact);
    }
}

#[test]
fn what_fits() {
    for (from, factor, names) in [
        ("9 by 13", "1/2", "9-inch round pan, 8-inch square pan"),
        ("9-inch round", "1", "9-inch round pan, 8-inch square pan"),
        ("8 by 8", "2", "9 by 13-inch pan"),
        ("20 by 30 cm", "1/2", "20 cm round tin"),
        ("10-inch skillet", "1 1/2", "12-inch skillet"),
        ("9 by 5 loaf", "2/3", "8 1/2 by 4 1/2-inch loaf pan"),
        ("9 by 13", "1/16", ""),
    ] {
        let fits = pan::fits(&pan::parse(from).unwrap(), factor.parse().unwrap());
        let found: Vec<&str> = fits.iter().map(|f| f.name).collect();
        assert_eq!(found.join(", "), names, "{from} {factor}");
    }
}
