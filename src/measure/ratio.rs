//! Exact fractions: "a cup and a half" is 3/2, and stays 3/2 until it is printed.

use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Div, Mul, Sub};
use std::str::FromStr;

/// A fraction in lowest terms.
///
/// ```
/// use plainspoon::measure::Ratio;
/// for (text, shown) in [("1/2", "1/2"), ("3/2", "1 1/2"), ("1 1/2", "1 1/2"), ("6/3", "2"), ("0.25", "1/4")] {
///     assert_eq!(text.parse::<Ratio>().unwrap().to_string(), shown);
/// }
/// ```
// Invariant: den > 0 and num/den is in lowest terms. It is kept in sixteen bytes, since amounts are copied everywhere, and
// reckoned with in 128 bits.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Ratio {
    num: i64,
    den: i64,
}

impl Ratio {
    /// 0.
    pub const ZERO: Ratio = Ratio { num: 0, den: 1 };
    /// 1.
    pub const ONE: Ratio = Ratio { num: 1, den: 1 };

    /// A whole number.
    pub const fn whole(n: i64) -> Ratio {
        Ratio { num: n, den: 1 }
    }

    /// `num / den` in lowest terms; a zero denominator gives `None`.
    pub fn checked(num: i128, den: i128) -> Option<Ratio> {
        (den != 0 && num != i128::MIN && den != i128::MIN).then(|| reduce(num, den))
    }

    /// `num / den` for figures written in our own code and tables, where the denominator is never zero.
    /// A zero denominator is read as 1, so that no table can stop the program.
    pub const fn of(num: i64, den: i64) -> Ratio {
        let (mut a, mut b) = (if num < 0 { -(num as i128) } else { num as i128 }, den as i128);
        if b == 0 {
            return Ratio::whole(num);
        }
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let sign = if a < 0 { -1 } else { 1 };
        let by = (a * sign) as i64;
        if a == 0 { Ratio::ZERO } else { Ratio { num: num / by, den: den / by } }
    }

    /// The numerator, in lowest terms; it carries the sign.
    pub const fn num(self) -> i64 {
        self.num
    }

    /// The denominator, in lowest terms, at least 1.
    pub const fn den(self) -> i64 {
        self.den
    }

    /// Whether there is no fraction left over.
    pub const fn is_whole(self) -> bool {
        self.den == 1
    }

    /// Whether it is nothing at all.
    pub const fn is_zero(self) -> bool {
        self.num == 0
    }

    /// The whole part, rounded towards minus infinity: 2 for 11/4.
    pub fn floor(self) -> i64 {
        self.num.div_euclid(self.den)
    }

    /// What is left above the whole part: 3/4 for 11/4.
    pub fn fraction(self) -> Ratio {
        self - Ratio::whole(self.floor())
    }

    /// The nearest multiple of `step`, halves going up. `step` must be more than 0.
    pub fn round_to(self, step: Ratio) -> Ratio {
        let times = self / step + Ratio::of(1, 2);
        Ratio::whole(times.floor()) * step
    }

    /// The value without its sign.
    pub fn abs(self) -> Ratio {
        if self.num < 0 { Ratio { num: -self.num, den: self.den } } else { self }
    }

    /// The value as a floating point number, for areas of round pans and for comparing with outside libraries only.
    pub fn to_f64(self) -> f64 {
        self.num as f64 / self.den as f64
    }
}

fn gcd(mut a: i128, mut b: i128) -> i128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.abs()
}

/// Lowest terms; `den` is not zero. No kitchen figure comes near 2^62; should one, it loses its lowest bits instead of
/// stopping the program.
fn reduce(num: i128, den: i128) -> Ratio {
    let by = gcd(num, den).max(1);
    let sign = if den < 0 { -1 } else { 1 };
    let (num, den) = (sign * (num / by), sign * (den / by));
    match (i64::try_from(num), i64::try_from(den)) {
        (Ok(num), Ok(den)) => Ratio { num, den },
        _ => {
            let bits = 128 - num.unsigned_abs().max(den.unsigned_abs()).leading_zeros();
            let off = bits.saturating_sub(61);
            reduce(num >> off, (den >> off).max(1))
        }
    }
}

/// A product in twice the room, so that none runs over before it is in lowest terms.
fn times(a: i64, b: i64) -> i128 {
    a as i128 * b as i128
}

impl Add for Ratio {
    type Output = Ratio;
    fn add(self, o: Ratio) -> Ratio {
        reduce(times(self.num, o.den) + times(o.num, self.den), times(self.den, o.den))
    }
}

impl Sub for Ratio {
    type Output = Ratio;
    fn sub(self, o: Ratio) -> Ratio {
        self + Ratio { num: -o.num, den: o.den }
    }
}

impl Mul for Ratio {
    type Output = Ratio;
    fn mul(self, o: Ratio) -> Ratio {
        reduce(times(self.num, o.num), times(self.den, o.den))
    }
}

impl Div for Ratio {
    type Output = Ratio;
    /// Dividing by nothing gives nothing, so that no draft can stop the program.
    fn div(self, o: Ratio) -> Ratio {
        if o.num == 0 {
            return Ratio::ZERO;
        }
        reduce(times(self.num, o.den), times(self.den, o.num))
    }
}

impl std::iter::Sum for Ratio {
    fn sum<I: Iterator<Item = Ratio>>(all: I) -> Ratio {
        all.fold(Ratio::ZERO, |a, b| a + b)
    }
}

impl PartialOrd for Ratio {
    fn partial_cmp(&self, o: &Ratio) -> Option<Ordering> {
        Some(self.cmp(o))
    }
}

impl Ord for Ratio {
    fn cmp(&self, o: &Ratio) -> Ordering {
        times(self.num, o.den).cmp(&times(o.num, self.den))
    }
}

impl From<i64> for Ratio {
    fn from(n: i64) -> Ratio {
        Ratio::whole(n)
    }
}

impl fmt::Display for Ratio {
    /// "3", "1/2", "1 1/2": plain characters, as the JSON writes them. `{:#}` prints the glyphs of a card: "1½".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.num < 0 { "-" } else { "" };
        let (whole, rest) = (self.num.abs() / self.den, self.num.abs() % self.den);
        if rest == 0 {
            return write!(f, "{sign}{whole}");
        }
        if f.alternate()
            && let Some(glyph) = glyph(rest, self.den)
        {
            return if whole == 0 { write!(f, "{sign}{glyph}") } else { write!(f, "{sign}{whole}{glyph}") };
        }
        if whole == 0 { write!(f, "{sign}{rest}/{}", self.den) } else { write!(f, "{sign}{whole} {rest}/{}", self.den) }
    }
}

/// The single characters Unicode has for kitchen fractions (block "Number Forms" and Latin-1).
const GLYPHS: [(i64, i64, char); 11] = [
    (1, 2, '½'),
    (1, 3, '⅓'),
    (2, 3, '⅔'),
    (1, 4, '¼'),
    (3, 4, '¾'),
    (1, 8, '⅛'),
    (3, 8, '⅜'),
    (5, 8, '⅝'),
    (7, 8, '⅞'),
    (1, 6, '⅙'),
    (5, 6, '⅚'),
];

fn glyph(num: i64, den: i64) -> Option<char> {
    GLYPHS.iter().find(|g| (g.0, g.1) == (num, den)).map(|g| g.2)
}

/// The fraction a single character stands for: 1/2 for '½'.
pub fn of_glyph(c: char) -> Option<Ratio> {
    GLYPHS.iter().find(|g| g.2 == c).map(|g| Ratio { num: g.0, den: g.1 })
}

impl fmt::Debug for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

/// Why a text is no fraction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotANumber;

impl fmt::Display for NotANumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("expected a number such as 2, 1/2, 1 1/2 or 1.5")
    }
}

impl std::error::Error for NotANumber {}

impl FromStr for Ratio {
    type Err = NotANumber;
    /// Reads "2", "1/2", "1 1/2", "1½", "½" and "1.5", none of them negative and none beyond nine digits.
    fn from_str(text: &str) -> Result<Ratio, NotANumber> {
        let mut sum = Ratio::ZERO;
        let mut parts = 0;
        let spaced: String = text
            .chars()
            .flat_map(|c| [if of_glyph(c).is_some() { ' ' } else { '\0' }, c])
            .filter(|c| *c != '\0')
            .collect();
        for part in spaced.split_whitespace() {
            let value = match part.split_once('/') {
                Some((a, b)) => Ratio::checked(digits(a)?, digits(b)?).ok_or(NotANumber)?,
                None => match part.chars().next().and_then(of_glyph) {
                    Some(glyph) if part.chars().count() == 1 => glyph,
                    _ => decimal(part)?,
                },
            };
            if parts > 0 && (parts > 1 || value >= Ratio::ONE || !sum.is_whole()) {
                return Err(NotANumber);
            }
            sum = sum + value;
            parts += 1;
        }
        if parts == 0 { Err(NotANumber) } else { Ok(sum) }
    }
}

fn digits(text: &str) -> Result<i128, NotANumber> {
    if text.is_empty() || text.len() > 9 || !text.bytes().all(|b| b.is_ascii_digit()) {
        return Err(NotANumber);
    }
    text.parse().map_err(|_| NotANumber)
}

fn decimal(text: &str) -> Result<Ratio, NotANumber> {
    match text.split_once('.') {
        None => Ok(reduce(digits(text)?, 1)),
        Some((whole, rest)) => {
            let whole = if whole.is_empty() { 0 } else { digits(whole)? };
            let den = 10_i128.pow(rest.len().min(9) as u32);
            Ok(reduce(whole * den + digits(rest)?, den))
        }
    }
}
