//! Units: what an amount is counted in, and how units of one kind relate, exactly.

use super::Ratio;
use std::fmt;
use std::str::FromStr;

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Spoons, cups, millilitres.
    Volume,
    /// Ounces, grams.
    Weight,
    /// Inches (of ginger).
    Length,
    /// Cans, cloves, handfuls: counted, each of its own kind.
    Piece,
}

macro_rules! units {
    ($($variant:ident $singular:literal $plural:literal $dimension:ident;)*) => {
        /// A unit a cook names. `None` where a unit is wanted means a plain count ("2 eggs").
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)] // Each variant's name is its doc.
        pub enum Unit { $($variant),* }

        impl Unit {
            /// Every unit, in the order of the table.
            pub const ALL: &[Unit] = &[$(Unit::$variant),*];

            /// The canonical name, singular: "tablespoon".
            pub const fn name(self) -> &'static str {
                match self { $(Unit::$variant => $singular),* }
            }

            /// The plural a card prints: "tablespoons".
            pub const fn plural(self) -> &'static str {
                match self { $(Unit::$variant => $plural),* }
            }

            /// What it measures.
            pub const fn dimension(self) -> Dimension {
                match self { $(Unit::$variant => Dimension::$dimension),* }
            }
        }
    };
}

units! {
    Teaspoon "teaspoon" "teaspoons" Volume;
    Dessertspoon "dessertspoon" "dessertspoons" Volume;
    Tablespoon "tablespoon" "tablespoons" Volume;
    FluidOunce "fluid ounce" "fluid ounces" Volume;
    Cup "cup" "cups" Volume;
    Pint "pint" "pints" Volume;
    Quart "quart" "quarts" Volume;
    Gallon "gallon" "gallons" Volume;
    Milliliter "milliliter" "milliliters" Volume;
    Liter "liter" "liters" Volume;
    Ounce "ounce" "ounces" Weight;
    Pound "pound" "pounds" Weight;
    Gram "gram" "grams" Weight;
    Kilogram "kilogram" "kilograms" Weight;
    Inch "inch" "inches" Length;
    Stick "stick" "sticks" Piece;
    Can "can" "cans" Piece;
    Jar "jar" "jars" Piece;
    Box "box" "boxes" Piece;
    Bag "bag" "bags" Piece;
    Package "package" "packages" Piece;
    Bottle "bottle" "bottles" Piece;
    Carton "carton" "cartons" Piece;
    Container "container" "containers" Piece;
    Tub "tub" "tubs" Piece;
    Block "block" "blocks" Piece;
    Brick "brick" "bricks" Piece;
    Envelope "envelope" "envelopes" Piece;
    Packet "packet" "packets" Piece;
    Sleeve "sleeve" "sleeves" Piece;
    Bunch "bunch" "bunches" Piece;
    Head "head" "heads" Piece;
    Clove "clove" "cloves" Piece;
    Stalk "stalk" "stalks" Piece;
    Rib "rib" "ribs" Piece;
    Sprig "sprig" "sprigs" Piece;
    Slice "slice" "slices" Piece;
    Piece "piece" "pieces" Piece;
    Pinch "pinch" "pinches" Piece;
    Dash "dash" "dashes" Piece;
    Drizzle "drizzle" "drizzles" Piece;
    Splash "splash" "splashes" Piece;
    Handful "handful" "handfuls" Piece;
    Knob "knob" "knobs" Piece;
    Pat "pat" "pats" Piece;
    Dollop "dollop" "dollops" Piece;
    Scoop "scoop" "scoops" Piece;
    Sheet "sheet" "sheets" Piece;
    Strip "strip" "strips" Piece;
    Ear "ear" "ears" Piece;
    Fillet "fillet" "fillets" Piece;
    Loaf "loaf" "loaves" Piece;
    Roll "roll" "rolls" Piece;
    Drop "drop" "drops" Piece;
    Glug "glug" "glugs" Piece;
    Bulb "bulb" "bulbs" Piece;
    Leaf "leaf" "leaves" Piece;
    Spoonful "spoonful" "spoonfuls" Piece;
    Ladle "ladle" "ladles" Piece;
    Cube "cube" "cubes" Piece;
    Square "square" "squares" Piece;
    Mug "mug" "mugs" Piece;
    Wedge "wedge" "wedges" Piece;
}

impl Unit {
    /// How many US teaspoons it holds, exactly, where it is a measure of volume.
    ///
    /// US customary volumes by NIST Handbook 44, appendix C; a millilitre is 1/4.92892159375 of a teaspoon, which is
    /// 1/768 of the 231 cubic inch gallon (NIST SP 811, table B.8). A dessertspoon is two teaspoons, common practice
    /// (Unicode CLDR 48 gives its dessert spoon 1/2048 gallon, 1.8 ml, which no cook means).
    pub fn teaspoons(self) -> Option<Ratio> {
        let ml = Ratio::checked(100_000_000_000, 492_892_159_375).unwrap_or(Ratio::ONE);
        Some(match self {
            Unit::Teaspoon => Ratio::ONE,
            Unit::Dessertspoon => Ratio::whole(2),
            Unit::Tablespoon => Ratio::whole(3),
            Unit::FluidOunce => Ratio::whole(6),
            Unit::Cup => Ratio::whole(48),
            Unit::Pint => Ratio::whole(96),
            Unit::Quart => Ratio::whole(192),
            Unit::Gallon => Ratio::whole(768),
            Unit::Milliliter => ml,
            Unit::Liter => Ratio::whole(1000) * ml,
            _ => return None,
        })
    }

    /// How many grams it weighs, exactly, where it is a measure of weight (NIST SP 811: the pound is 453.59237 g).
    pub fn grams(self) -> Option<Ratio> {
        Some(match self {
            Unit::Gram => Ratio::ONE,
            Unit::Kilogram => Ratio::whole(1000),
            Unit::Ounce => Ratio::of(45_359_237, 1_600_000),
            Unit::Pound => Ratio::of(45_359_237, 100_000),
            _ => return None,
        })
    }

    /// The factor that turns an amount in `self` into one in `to`, where both measure the same thing.
    pub fn factor_to(self, to: Unit) -> Option<Ratio> {
        if self == to {
            return Some(Ratio::ONE);
        }
        match (self.teaspoons(), to.teaspoons(), self.grams(), to.grams()) {
            (Some(a), Some(b), _, _) | (_, _, Some(a), Some(b)) => Some(a / b),
            _ => None,
        }
    }

    /// Whether it names a container that is bought with a size printed on it.
    pub const fn is_container(self) -> bool {
        use Unit::*;
        matches!(
            self,
            Can | Jar | Box | Bag | Package | Bottle | Carton | Container | Tub | Block | Brick | Envelope | Packet
        )
    }

    /// Whether it is a word for "a little", which nobody measures.
    pub const fn is_loose(self) -> bool {
        use Unit::*;
        matches!(self, Pinch | Dash | Drizzle | Splash | Handful | Knob | Dollop | Drop | Glug | Pat)
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// The name is none of our units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnknownUnit;

impl FromStr for Unit {
    type Err = UnknownUnit;
    /// Reads a canonical singular name.
    fn from_str(name: &str) -> Result<Unit, UnknownUnit> {
        Unit::ALL.iter().copied().find(|u| u.name() == name).ok_or(UnknownUnit)
    }
}
