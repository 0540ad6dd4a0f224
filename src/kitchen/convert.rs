//! Said units become wanted ones, exactly: 350 °F is 180 °C on a dial, a cup of flour 125 g by the table.

use super::weights::{self, Weight};
use super::{HeatScale, Lengths, Measures, Units};
use crate::measure::{Amount, Dimension, Heat, Length, Pan, Ratio, Unit};

/// An amount in the units wanted, not yet rounded.
#[derive(Clone, Copy, Debug)]
pub struct Converted {
    /// The low end.
    pub low: Ratio,
    /// The high end.
    pub high: Ratio,
    /// The unit both are counted in.
    pub unit: Option<Unit>,
    /// Whose spoons and cups that unit means.
    pub set: Measures,
    /// The row that turned a volume into a weight or back.
    pub weight: Option<&'static Weight>,
    /// It is to be measured with a jug.
    pub metric: bool,
    /// It is not what was said.
    pub changed: bool,
}

/// A stick of butter or margarine is 8 tablespoons, common practice (USDA SR 01001 weighs it 113 g).
const STICK_TABLESPOONS: Ratio = Ratio::whole(8);

/// Weights under this stay spoonfuls: a kitchen scale of 1 g steps is worse than a spoon there.
const SPOON_BELOW_GRAMS: Ratio = Ratio::whole(10);

/// The amount in the units wanted. `said` is whose cups the cook meant; `name` and `prep` find the food's weight. A
/// part of a divided line is given the `total` it belongs to, so that both come out in one kind of measure.
pub fn amount(
    amount: &Amount,
    (name, prep): (&str, &[String]),
    units: Units,
    said: Measures,
    total: Option<&Converted>,
) -> Converted {
    let same = Converted {
        low: amount.low(),
        high: amount.high(),
        unit: amount.unit(),
        set: said,
        weight: None,
        metric: false,
        changed: false,
    };
    let Some(unit) = same.unit else { return same };
    if unit == Unit::Stick {
        return stick(same, (name, prep), units, total);
    }
    let spoons = if said == Measures::Us { Measures::Metric } else { said };
    let row = || weights::find(name, prep);
    match (units, unit.dimension()) {
        (Units::Us, Dimension::Volume) if said != Measures::Us || matches!(unit, Unit::Milliliter | Unit::Liter) => {
            same.volume(Unit::Cup, Measures::Us)
        }
        (Units::Us, Dimension::Weight) if matches!(unit, Unit::Gram | Unit::Kilogram) => match row() {
            Some(row) => same.measured(row, Measures::Us),
            None if same.grams() < Unit::Pound.grams().unwrap_or(Ratio::ONE) => same.weight_in(Unit::Ounce),
            None => same.weight_in(Unit::Pound),
        },
        (Units::Metric, Dimension::Volume) => same.volume(Unit::Teaspoon, spoons).in_jug(),
        (Units::Metric | Units::Weight, Dimension::Weight) => same.weight_in(Unit::Gram),
        (Units::Weight, Dimension::Volume) => match row() {
            Some(row) => {
                let weighed = same.weighed(row);
                let forced = total.map(|t| t.unit == Some(Unit::Gram));
                let heavy = weighed.high >= SPOON_BELOW_GRAMS;
                if forced.unwrap_or(heavy) { weighed } else { same.volume(Unit::Teaspoon, spoons).in_jug() }
            }
            None => same.volume(Unit::Teaspoon, spoons).in_jug(),
        },
        _ => same,
    }
}

/// Sticks stay sticks where quarters of one do; else they are tablespoons, or grams.
fn stick(same: Converted, (name, prep): (&str, &[String]), units: Units, total: Option<&Converted>) -> Converted {
    let volume = Converted { changed: false, ..same.in_tablespoons() };
    match units {
        Units::Metric | Units::Weight => weights::find(name, prep).map_or(volume, |row| volume.weighed(row)),
        _ => {
            let quarters = |r: Ratio| (r * Ratio::whole(4)).is_whole();
            let keep = match total {
                Some(t) => t.unit == Some(Unit::Stick),
                None => quarters(same.low) && quarters(same.high),
            };
            if keep { same } else { Converted { changed: true, ..volume } }
        }
    }
}

impl Converted {
    fn times(self, by: Ratio) -> Converted {
        Converted { low: self.low * by, high: self.high * by, ..self }
    }

    /// Millilitres of one of the unit.
    fn ml(&self) -> Ratio {
        self.unit.and_then(|u| self.set.milliliters(u)).unwrap_or(Ratio::ONE)
    }

    /// Grams of the high end, where a weight was said.
    fn grams(&self) -> Ratio {
        self.high * self.unit.and_then(Unit::grams).unwrap_or(Ratio::ONE)
    }

    fn volume(self, to: Unit, set: Measures) -> Converted {
        let by = self.ml() / set.milliliters(to).unwrap_or(Ratio::ONE);
        Converted { unit: Some(to), set, changed: true, ..self.times(by) }
    }

    /// Sticks as tablespoons.
    pub fn in_tablespoons(self) -> Converted {
        Converted { unit: Some(Unit::Tablespoon), set: Measures::Us, changed: true, ..self.times(STICK_TABLESPOONS) }
    }

    fn in_jug(self) -> Converted {
        Converted { metric: true, ..self }
    }

    fn weight_in(self, to: Unit) -> Converted {
        let by = self.unit.and_then(|u| u.factor_to(to)).unwrap_or(Ratio::ONE);
        let changed = self.changed || self.unit != Some(to);
        Converted { unit: Some(to), changed, ..self.times(by) }
    }

    fn weighed(self, row: &'static Weight) -> Converted {
        let by = self.ml() * row.grams_per_ml();
        Converted { unit: Some(Unit::Gram), weight: Some(row), changed: true, ..self.times(by) }
    }

    fn measured(self, row: &'static Weight, set: Measures) -> Converted {
        let by = self.unit.and_then(Unit::grams).unwrap_or(Ratio::ONE)
            / row.grams_per_ml()
            / set.milliliters(Unit::Cup).unwrap_or(Ratio::ONE);
        Converted { unit: Some(Unit::Cup), set, weight: Some(row), changed: true, ..self.times(by) }
    }
}

/// Gas marks with their degrees Fahrenheit: 25 degrees a mark from 275 (table `gasmark` of GNU Units 2.22, free
/// software; its figures are in degrees Rankine, 459.67 higher). Quarter and half marks are left out: [`Heat`] has
/// whole ones.
pub const GAS_MARKS: [(u16, u16); 10] =
    [(1, 275), (2, 300), (3, 325), (4, 350), (5, 375), (6, 400), (7, 425), (8, 450), (9, 475), (10, 500)];

/// How much lower a fan oven is set, in degrees Celsius; common practice, and the oven's own booklet goes before it.
pub const FAN_LOWER: u16 = 20;

/// An oven setting on another scale, rounded to the marks of a dial: 10 °C, and 25 °F where one is within 8 degrees,
/// else 5. A gas mark is the nearest of the table. The broiler stays; so does what is already on that scale.
pub fn oven(heat: Heat, to: HeatScale) -> Heat {
    let Some(f) = fahrenheit(heat) else { return heat };
    let celsius = || (f - Ratio::whole(32)) * Ratio::of(5, 9);
    let ten = |r: Ratio| whole(r.round_to(Ratio::whole(10)));
    match (to, heat) {
        (HeatScale::Follow | HeatScale::Said, _) => heat,
        (HeatScale::Fahrenheit, Heat::Fahrenheit(_)) | (HeatScale::Celsius, Heat::Celsius(_)) => heat,
        (HeatScale::Fan, Heat::Fan(_)) | (HeatScale::Gas, Heat::Gas(_)) => heat,
        (HeatScale::Fahrenheit, _) => {
            let wide = f.round_to(Ratio::whole(25));
            let close = (wide - f).abs() <= Ratio::whole(8);
            Heat::Fahrenheit(whole(if close { wide } else { f.round_to(Ratio::whole(5)) }))
        }
        (HeatScale::Celsius, _) => Heat::Celsius(ten(celsius())),
        (HeatScale::Fan, _) => Heat::Fan(ten(celsius()).saturating_sub(FAN_LOWER)),
        (HeatScale::Gas, _) => {
            let nearest = GAS_MARKS.iter().min_by_key(|(_, at)| (Ratio::whole(i64::from(*at)) - f).abs());
            // No mark is within 25 degrees of a warming oven: it keeps its degrees.
            let near = nearest.filter(|(_, at)| (Ratio::whole(i64::from(*at)) - f).abs() < Ratio::whole(25));
            near.map_or(heat, |(mark, _)| Heat::Gas(*mark))
        }
    }
}

/// A temperature of food or fat, to the nearest whole degree; only Fahrenheit and Celsius measure those.
pub fn of_food(heat: Heat, to: HeatScale) -> Heat {
    let Some(f) = fahrenheit(heat) else { return heat };
    match (to, heat) {
        (HeatScale::Fahrenheit, Heat::Celsius(_)) => Heat::Fahrenheit(whole(f.round_to(Ratio::ONE))),
        (HeatScale::Celsius | HeatScale::Fan | HeatScale::Gas, Heat::Fahrenheit(_)) if to != HeatScale::Gas => {
            Heat::Celsius(whole(((f - Ratio::whole(32)) * Ratio::of(5, 9)).round_to(Ratio::ONE)))
        }
        _ => heat,
    }
}

/// Degrees Fahrenheit, exactly; `None` for the broiler and for gas marks outside the table.
pub fn fahrenheit(heat: Heat) -> Option<Ratio> {
    let of_celsius = |c: u16| Ratio::whole(i64::from(c)) * Ratio::of(9, 5) + Ratio::whole(32);
    Some(match heat {
        Heat::Fahrenheit(n) => Ratio::whole(i64::from(n)),
        Heat::Celsius(n) => of_celsius(n),
        Heat::Fan(n) => of_celsius(n.saturating_add(FAN_LOWER)),
        Heat::Gas(n) => Ratio::whole(i64::from(GAS_MARKS.iter().find(|(mark, _)| *mark == n)?.1)),
        Heat::Broil => return None,
    })
}

fn whole(r: Ratio) -> u16 {
    u16::try_from(r.floor()).unwrap_or(0)
}

/// A pan with its sides in another length: inches to the quarter, centimetres to the whole (tins are sold so). What it
/// holds stays as said.
pub fn sides(pan: &Pan, to: Lengths) -> Pan {
    let (length, by, step) = match (to, pan.length) {
        (Lengths::Inches, Length::Centimeter) => (Length::Inch, Ratio::of(100, 254), Ratio::of(1, 4)),
        (Lengths::Centimeters, Length::Inch) => (Length::Centimeter, Ratio::of(254, 100), Ratio::ONE),
        _ => return pan.clone(),
    };
    Pan { sides: pan.sides.iter().map(|s| (*s * by).round_to(step)).collect(), length, ..pan.clone() }
}
