//! Whether what is said after a gap is of the same dish as what was said before it: how alike the words are.

use super::super::vectors::{Sum, WIDTH, likeness};
use super::super::weights::{VECTORS, Weights};
use super::evidence::View;
use super::turn::{Gap, InHand};
use crate::item::Items;
use crate::token::fold;
use std::ops::Range;

/// How many likenesses a gap has.
pub const LIKE: usize = 14;
/// So many words of the dish in hand, the last ones.
const HAND: usize = 400;
/// So many words are said lately.
const LATELY: usize = 80;
/// And so many just now.
const JUST: usize = 30;
/// What follows the food, in words.
const SOON: usize = 25;
/// What follows it a little longer.
const NEXT: usize = 60;
/// And what follows that.
const LATER: usize = 150;
/// So many words of a dish are laid against its name.
const DISH: usize = 600;

impl View<'_> {
    /// How alike the stretches before, in and after a gap are, each two of them.
    pub fn company(&self, gap: &Gap, hand: InHand<'_>, vectors: &Weights) -> [i32; LIKE] {
        let first = self.clauses.item(hand.since.min(gap.from)).piece.from;
        let from = self.clauses.item(gap.from).piece.from;
        let to = self.clauses.item(gap.to).piece;
        let end = |words: usize| (to.to + words).min(self.tokens.len());
        let sum = |range: Range<usize>| vectors.sum(self.tokens.row(range.start, range.end));
        let back = |words: usize| sum(from.saturating_sub(words).max(first)..from);
        let (before, lately, just) = (back(HAND), back(LATELY), back(JUST));
        let between = sum(from..to.from.max(from));
        let (soon, next, later) = (sum(to.from..end(SOON)), sum(to.from..end(NEXT)), sum(end(NEXT)..end(LATER)));
        let mut title: Sum = [0; WIDTH];
        for word in hand.titles.first().unwrap_or(&"").split(' ') {
            vectors.add(&mut title, &fold(word));
        }
        [
            (&before, &next),
            (&lately, &next),
            (&before, &soon),
            (&between, &next),
            (&title, &next),
            (&lately, &between),
            (&next, &later),
            (&before, &later),
            (&just, &soon),
            (&just, &next),
            (&title, &between),
            (&title, &before),
            (&before, &between),
            (&title, &later),
        ]
        .map(|(a, b)| likeness(a, b))
    }

    /// The sum of the first words of the clauses `from..to`.
    pub fn words_of(&self, from: usize, to: usize) -> Sum {
        let at = |n: usize| self.clauses.get(n).map_or(self.tokens.len(), |c| c.piece.from);
        let first = at(from);
        VECTORS.sum(self.tokens.row(first, at(to).clamp(first, first + DISH)))
    }
}
