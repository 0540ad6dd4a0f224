//! The company foods keep: whether what is measured next goes with what was measured before, or with another name.

use super::evidence::{Candidate, View};
use super::turn::{Gap, InHand};
use crate::item::Items;
use crate::lexicon::makings::{UNKNOWN, makings};
use crate::token::fold;

/// How many facts that gives of a gap.
pub const LIKE: usize = 11;
/// So many foods of the dish in hand, the last ones.
const HAND: usize = 30;
/// So many of those that follow.
const NEXT: usize = 8;

impl View<'_> {
    /// What the foods before and after a gap say of each other and of the names of both; `had` are those before.
    pub fn company(&self, gap: &Gap, hand: InHand<'_>, best: Option<&Candidate>, had: &[&String]) -> [i32; LIKE] {
        let all = makings();
        let k = gap.index;
        let near = self.measuring.row(k, self.measuring.len().min(k + NEXT));
        let had = all.foods(had.row(had.len().saturating_sub(HAND), had.len()).iter().copied(), HAND);
        let next = all.foods(near.iter().flat_map(|n| &self.foods[*n]), NEXT);
        let mut new = next.clone();
        new.retain(|f| !had.contains(f));
        let (before, after) = (all.held(&had), all.held(&next));
        let (both, apart) = (before.with(&after), before.most() + after.most());
        let (like_before, like_after) = (before.likely(), after.likely());
        let name = best.map_or("", |b| &b.title);
        let (named, in_hand) = (all.called(name), all.called(hand.titles.first().unwrap_or(&"")));
        let part = fold(name.rsplit([' ', '-']).next().unwrap_or(""));
        let (of_name, of_hand) = (all.share(&named.dishes, &next), all.share(&in_hand.dishes, &next));
        let more = if named.dishes.is_empty() || in_hand.dishes.is_empty() { 9 * UNKNOWN } else { of_name - of_hand };
        [
            both,
            apart - both,
            all.share(&like_before, &next),
            all.share(&like_before, &new),
            all.share(&like_after, &had),
            of_name,
            all.share(&named.dishes, &had),
            more,
            all.part(&like_before, &part),
            i32::from(named.wholly),
            new.len() as i32,
        ]
    }

    /// The foods that the clauses `from..to` measure first, by their places in the list of makings.
    pub fn foods_of(&self, from: usize, to: usize) -> Vec<usize> {
        makings().foods(self.foods.row(from.min(to), to.min(self.foods.len())).iter().flatten(), HAND)
    }
}
