//! Times: "eight to ten minutes" is 8 to 10 minute, "an hour and a quarter" is 5/4 hour.

use super::Ratio;
use std::fmt;

/// What a time is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // Each variant's name is its doc.
pub enum TimeUnit {
    Second,
    Minute,
    Hour,
    Day,
    /// For keeping times only.
    Week,
    /// For keeping times only.
    Month,
    /// For keeping times only.
    Year,
}

impl TimeUnit {
    /// "minute".
    pub const fn name(self) -> &'static str {
        match self {
            TimeUnit::Second => "second",
            TimeUnit::Minute => "minute",
            TimeUnit::Hour => "hour",
            TimeUnit::Day => "day",
            TimeUnit::Week => "week",
            TimeUnit::Month => "month",
            TimeUnit::Year => "year",
        }
    }

    /// Its length in seconds; a month counts 30 days and a year 365.
    pub const fn seconds(self) -> i64 {
        match self {
            TimeUnit::Second => 1,
            TimeUnit::Minute => 60,
            TimeUnit::Hour => 3600,
            TimeUnit::Day => 86_400,
            TimeUnit::Week => 604_800,
            TimeUnit::Month => 2_592_000,
            TimeUnit::Year => 31_536_000,
        }
    }
}

/// A length of time, or a range of it.
// Invariant: 0 < low <= high.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Time {
    low: Ratio,
    high: Ratio,
    unit: TimeUnit,
}

impl Time {
    /// A range in either order (equal ends for a single figure); `None` where an end is not more than nothing.
    pub fn range(a: Ratio, b: Ratio, unit: TimeUnit) -> Option<Time> {
        let (low, high) = if a <= b { (a, b) } else { (b, a) };
        (low > Ratio::ZERO).then_some(Time { low, high, unit })
    }

    /// The shorter end.
    pub fn low(&self) -> Ratio {
        self.low
    }

    /// The longer end.
    pub fn high(&self) -> Ratio {
        self.high
    }

    /// What it is counted in.
    pub fn unit(&self) -> TimeUnit {
        self.unit
    }

    /// The shorter end in seconds.
    pub fn low_seconds(&self) -> Ratio {
        self.low * Ratio::whole(self.unit.seconds())
    }

    /// The longer end in seconds.
    pub fn high_seconds(&self) -> Ratio {
        self.high * Ratio::whole(self.unit.seconds())
    }
}

impl fmt::Display for Time {
    /// "8 to 10 minutes", "1 hour", "1 1/4 hours".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let s = if self.high <= Ratio::ONE { "" } else { "s" };
        if self.low == self.high {
            write!(f, "{} {}{s}", self.low, self.unit.name())
        } else {
            write!(f, "{} to {} {}{s}", self.low, self.high, self.unit.name())
        }
    }
}
