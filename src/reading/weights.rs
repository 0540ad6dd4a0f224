//! Soft choices: signs, each with an answer that weighs a whole number; what they add up to decides.
//!
//! Where a dish begins, whether a food named in passing belongs on the list and what a dish is called are settled by no
//! single word. tests/train learns the weights from drafts that have an editor's cards; whole numbers give the same answer on
//! every machine. They stand with the word lists (`src/lexicon/weights`), since they are data as well. No figure of a card
//! ever comes from here.

use crate::lexicon::lists::list;
use std::sync::LazyLock;

/// The weights of one choice.
pub struct Weights {
    bias: i32,
    // Sorted by sign and answer.
    rows: Vec<(&'static str, &'static str, i32)>,
}

impl Weights {
    /// Reads lines "sign | answer | weight"; the sign "bias" counts always.
    fn parse(text: &'static str) -> Weights {
        let mut weights = Weights { bias: 0, rows: Vec::new() };
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            let mut parts = line.split('|').map(str::trim);
            if let (Some(sign), Some(answer), Some(Ok(weight))) =
                (parts.next(), parts.next(), parts.next().map(str::parse::<i32>))
            {
                if sign == "bias" {
                    weights.bias = weight;
                } else {
                    weights.rows.push((sign, answer, weight));
                }
            }
        }
        crate::order::sort(&mut weights.rows);
        weights
    }

    /// What the choice starts from.
    pub fn bias(&self) -> i32 {
        self.bias
    }

    /// The weight of an answer; 0 where none was learned.
    pub fn of(&self, sign: &str, answer: &str) -> i32 {
        self.rows.binary_search_by(|r| (r.0, r.1).cmp(&(sign, answer))).map_or(0, |at| self.rows[at].2)
    }
}

/// Where a dish opens.
pub static OPENINGS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/openings.txt")));
/// Where a dish begins that nobody names.
pub static STARTS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/starts.txt")));
/// Whether a food that was named without an amount belongs on the list.
pub static MENTIONS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/mentions.txt")));
/// Which name is the dish's title.
pub static TITLES: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/titles.txt")));
