//! Oven heat: "three seventy five" is 375 F, "gas mark 6" is gas 6, "180 fan" is 180 C with the fan on.

use std::fmt;

/// A setting of the oven, as said. Converting one is the kitchen's business.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heat {
    /// Degrees Fahrenheit, 100..=600.
    Fahrenheit(u16),
    /// Degrees Celsius, 40..=300.
    Celsius(u16),
    /// Degrees Celsius with the fan on, 40..=300.
    Fan(u16),
    /// A British gas mark, 1..=10.
    Gas(u16),
    /// Under the broiler, or grill as the British call it; no figure.
    Broil,
}

impl fmt::Display for Heat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Heat::Fahrenheit(n) => write!(f, "{n}°F"),
            Heat::Celsius(n) => write!(f, "{n}°C"),
            Heat::Fan(n) => write!(f, "{n}°C fan"),
            Heat::Gas(n) => write!(f, "gas mark {n}"),
            Heat::Broil => f.write_str("broil"),
        }
    }
}
