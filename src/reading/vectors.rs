//! Words as rows of small whole numbers: words that are said of the same dishes have like rows.
//!
//! The rows are learned from our own drafts by latent semantic analysis (S. Deerwester and others, "Indexing by latent semantic
//! analysis", Journal of the American Society for Information Science 41, 1990): how often each word is said of each dish,
//! weighed by how few dishes have it, and reduced to the directions in which dishes differ most. "Yeast" and "knead" point one
//! way, "fry" and "cutlet" another. What two stretches of talk have in common is the cosine of the angle between their sums.
//! The list is read like the other weights: the word is the sign, its row the answer. No figure of a card ever comes from here.

use super::weights::Weights;
use crate::token::{Kind, Token};

/// How many numbers a row has.
pub const WIDTH: usize = 32;
/// The largest of them; the smallest is its opposite.
pub const TOP: i32 = 15;
/// The letter that stands for 0 in the list.
pub const ZERO: u8 = b'P';
/// A likeness of 1, in whole numbers.
pub const WHOLE: i64 = 256;

/// The sum of the rows of some words.
pub type Sum = [i32; WIDTH];

impl Weights {
    /// Adds the row of a word, plural folded, if it has one.
    pub fn add(&self, sum: &mut Sum, word: &str) {
        for (s, letter) in sum.iter_mut().zip(self.answer(word).bytes()) {
            *s += i32::from(letter) - i32::from(ZERO);
        }
    }

    /// The sum of the words among some tokens.
    pub fn sum(&self, tokens: &[Token]) -> Sum {
        let mut sum = [0; WIDTH];
        tokens.iter().filter(|t| t.kind == Kind::Word).for_each(|t| self.add(&mut sum, &t.fold));
        sum
    }
}

/// How alike two sums are: their cosine, from -256 to 256; 0 where one of them is empty.
pub fn likeness(a: &Sum, b: &Sum) -> i32 {
    let times = |a: &Sum, b: &Sum| a.iter().zip(b).map(|(a, b)| i64::from(*a) * i64::from(*b)).sum::<i64>();
    let long = |a: &Sum| times(a, a).unsigned_abs().isqrt().max(1).cast_signed();
    i32::try_from((times(a, b) * WHOLE / (long(a) * long(b))).clamp(-WHOLE, WHOLE)).unwrap_or(0)
}
