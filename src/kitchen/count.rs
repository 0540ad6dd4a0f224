//! Things that come whole: half an egg is "beat 1 egg and use 2 tablespoons", a can and a half says what it weighs.

use super::foods;
use super::round::{self, Ask, Printed};
use super::{Measures, Units};
use crate::measure::{Ratio, Unit};
use crate::recipe::Package;

/// What of an egg is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Egg {
    /// The whole egg.
    Whole,
    /// Its yolk.
    Yolk,
    /// Its white.
    White,
}

impl Egg {
    /// Which part of an egg a line names; `None` for egg noodles and all else.
    pub fn named(name: &str) -> Option<Egg> {
        let name = foods::fold(name);
        match name.rsplit(' ').next()? {
            "egg" => Some(Egg::Whole),
            "yolk" => Some(Egg::Yolk),
            "white" if foods::holds(&name, "egg") => Some(Egg::White),
            _ => None,
        }
    }

    /// Teaspoons one of them makes in the kitchen. Half a large egg, beaten, is 2 tablespoons (UNL Extension, reducing
    /// the size of recipes); a yolk is 1 tablespoon and a white 2, common practice. USDA SR 01123 gives a large egg
    /// 3 1/4 tablespoons, so UNL's measure is a generous one.
    const fn teaspoons(self) -> i64 {
        match self {
            Egg::Whole => 12,
            Egg::Yolk => 3,
            Egg::White => 6,
        }
    }

    /// Grams of one from a large egg: USDA SR 01123, 01125 and 01124.
    pub const fn grams(self) -> i64 {
        match self {
            Egg::Whole => 50,
            Egg::Yolk => 17,
            Egg::White => 33,
        }
    }

    /// What to do with the part of one that is left over a whole number: "beat 1 egg and use 2 tablespoons (about 25 g)".
    /// `None` where nothing is left.
    pub fn part(self, count: Ratio) -> Option<String> {
        let left = count.fraction();
        if left.is_zero() {
            return None;
        }
        let spoons =
            round::round(left * Ratio::whole(self.teaspoons()), Some(Unit::Teaspoon), Measures::Us, Ask::default());
        let grams = left * Ratio::whole(self.grams());
        let grams = round::round(grams, Some(Unit::Gram), Measures::Us, Ask::default()).level();
        let what = match self {
            Egg::Whole => "beat 1 egg",
            Egg::Yolk => "stir 1 yolk",
            Egg::White => "beat 1 white lightly",
        };
        let lead = if count > Ratio::ONE { format!("for the {left}, ") } else { String::new() };
        Some(format!("{lead}{what} and use {spoons} (about {grams})"))
    }
}

/// Containers with the size said for each: "2 cans (15 oz each)", "1 can (15 oz) plus 1/2 can, about 22 1/2 oz in all".
/// `printed` is the rounded count; the weight in all comes from the exact one, so it holds where the count does not.
pub fn containers(printed: &Printed, unit: Option<Unit>, package: Package, units: Units, set: Measures) -> String {
    let count = printed.value;
    let whole = Ratio::whole(count.floor());
    let name = |n: Ratio| match unit {
        None => n.to_string(),
        Some(u) => round::Term { count: n, unit: Some(u) }.to_string(),
    };
    let each = short(package.size, package.unit, units, set, true);
    let all = short(printed.exact * package.size, package.unit, units, set, false);
    let size = if whole > Ratio::ONE { format!("({each} each)") } else { format!("({each})") };
    match (whole.is_zero(), count == whole) {
        (_, true) => format!("{} {size}", name(whole)),
        (true, false) => format!("{} {size}, about {all}", name(count)),
        (false, false) => format!("{} {size} plus {}, about {all} in all", name(whole), name(count - whole)),
    }
}

/// A size with the short unit of a label: "15 oz", "400 g", "1 lb".
pub fn short(size: Ratio, unit: Unit, units: Units, set: Measures, as_said: bool) -> String {
    let metric = matches!(units, Units::Metric | Units::Weight);
    let (size, unit, said) = match unit {
        Unit::Ounce | Unit::Pound if metric => {
            (size * unit.factor_to(Unit::Gram).unwrap_or(Ratio::ONE), Unit::Gram, false)
        }
        Unit::FluidOunce | Unit::Cup | Unit::Pint | Unit::Quart | Unit::Gallon if metric => {
            (size * set.milliliters(unit).unwrap_or(Ratio::ONE), Unit::Milliliter, false)
        }
        Unit::Milliliter | Unit::Liter if units == Units::Us => {
            (size * unit.factor_to(Unit::FluidOunce).unwrap_or(Ratio::ONE), Unit::FluidOunce, false)
        }
        Unit::Gram | Unit::Kilogram if units == Units::Us => {
            (size * unit.factor_to(Unit::Ounce).unwrap_or(Ratio::ONE), Unit::Ounce, false)
        }
        _ => (size, unit, as_said),
    };
    let mut text = match unit {
        // A label counts in ounces however many there are; quarters are as fine as a scale shows.
        Unit::Ounce | Unit::FluidOunce if !said => {
            let count = size.round_to(Ratio::of(1, 4)).max(Ratio::of(1, 4));
            round::Term { count, unit: Some(unit) }.to_string()
        }
        _ => {
            let printed =
                round::round(size, Some(unit), set, Ask { as_said: said, metric, liquid: true, rough: false });
            printed.level().to_string()
        }
    };
    for (long, brief) in [
        (" fluid ounces", " fl oz"),
        (" fluid ounce", " fl oz"),
        (" ounces", " oz"),
        (" ounce", " oz"),
        (" pounds", " lb"),
        (" pound", " lb"),
        (" quarts", " qt"),
        (" quart", " qt"),
    ] {
        text = crate::letters::swap(&text, long, brief);
    }
    text
}
