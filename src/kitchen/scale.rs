//! A card becomes the same card at another size, exactly: nothing is rounded here.

use crate::measure::{Amount, Ratio};
use crate::recipe::{Card, PieceKind};

/// The card times `factor`: every amount of the list, of its divided parts and of the method, and the yield. Heat,
/// times, temperatures of food, sizes of pans and sizes of containers stay. A factor of 0 or less changes nothing.
///
/// Scaling by `1 / factor` afterwards brings every figure back as it was.
pub fn scale(card: &Card, factor: Ratio) -> Card {
    let mut card = card.clone();
    if factor <= Ratio::ZERO || factor == Ratio::ONE {
        return card;
    }
    let times = |amount: &mut Option<Amount>| *amount = amount.map(|a| a.times(factor));
    if let Some(makes) = &mut card.makes {
        makes.low = makes.low * factor;
        makes.high = makes.high * factor;
    }
    for line in &mut card.lines {
        times(&mut line.amount);
        line.parts.iter_mut().for_each(|part| times(&mut part.amount));
    }
    for piece in card.steps.iter_mut().flat_map(|s| &mut s.pieces) {
        if let PieceKind::Amount { amount, .. } = &mut piece.kind {
            *amount = amount.times(factor);
        }
    }
    card
}
