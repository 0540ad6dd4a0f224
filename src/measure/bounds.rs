//! The limits of every figure, in one table, so that the check, the message and the test read one row.

/// A named whole-number limit.
#[derive(Clone, Copy, Debug)]
pub struct Bound {
    /// The word used in messages.
    pub of: &'static str,
    /// The least that passes.
    pub least: i64,
    /// The most that passes.
    pub most: i64,
}

impl Bound {
    /// Whether `n` lies within.
    pub const fn holds(self, n: i64) -> bool {
        self.least <= n && n <= self.most
    }
}

/// People or pieces a card makes. 500 is the church supper; more is a factory's recipe.
pub const YIELD: Bound = Bound { of: "servings", least: 1, most: 500 };
/// Degrees Fahrenheit of an oven. Plates are kept warm at 150; no home oven passes 550 but in its cleaning cycle.
pub const OVEN_F: Bound = Bound { of: "degrees Fahrenheit", least: 150, most: 550 };
/// Degrees Celsius of an oven.
pub const OVEN_C: Bound = Bound { of: "degrees Celsius", least: 60, most: 290 };
/// Gas marks printed on British ovens.
pub const GAS: Bound = Bound { of: "gas mark", least: 1, most: 10 };
/// Sides of a pan in inches. Cookie tins of 2 inches and half sheet pans of 26.
pub const INCHES: Bound = Bound { of: "inches", least: 2, most: 26 };
/// Sides of a pan in centimetres.
pub const CENTIMETERS: Bound = Bound { of: "centimetres", least: 6, most: 66 };
/// Bytes of a draft that are read. A spoken hour is some 60 KB; nobody dictates twenty of them.
pub const DRAFT_BYTES: Bound = Bound { of: "bytes", least: 0, most: 4_000_000 };
