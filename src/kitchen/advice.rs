//! What scaling bends: a doubled cake does not bake twice as long, a quadrupled one may rise too far.
//!
//! Invariant: advice never changes a figure. It is common practice unless a source is named.

use super::convert::FAN_LOWER;
use super::pan::{self, Vessel};
use super::signs::{self, Cause, Sign};
use super::{HeatScale, Wanted, foods};
use crate::measure::{Ratio, Shape, Time, TimeUnit};
use crate::recipe::{Card, Line, PieceKind};

/// A piece of advice.
#[derive(Clone, Debug)]
pub struct Advice {
    /// A sentence or two.
    pub text: String,
    /// "common practice", or who published it.
    pub source: &'static str,
    /// What on the card it is about.
    pub cause: Cause,
}

/// Where no source is named.
pub const COMMON: &str = "common practice";
/// Extension advice on pans and glass.
const UNL: &str = "University of Nebraska-Lincoln Extension, reducing the size of recipes";
/// Beyond this a raising agent or salt no longer follows the rest.
const BENDS_ABOVE: Ratio = Ratio::whole(4);

/// The advice that goes with a card as spoken and the size wanted of it; none for the card as spoken in its own pan.
pub fn advice(card: &Card, wanted: &Wanted) -> Vec<Advice> {
    let mut all = Vec::new();
    let by = wanted.factor;
    let mut say = |text: String, source, cause| all.push(Advice { text, source, cause });
    if wanted.heat == HeatScale::Fan && !card.ovens.is_empty() {
        say(
            format!("Fan settings are {FAN_LOWER} °C lower; your oven's booklet goes before this."),
            COMMON,
            Cause::Size,
        );
    }
    if let Some(cause) = signs::first(card, Sign::Canning) {
        let text = "Home canning follows a tested process, jar size and batch included: this card is not resized.";
        say(text.to_owned(), "USDA Complete Guide to Home Canning", cause);
        return all;
    }
    if by == Ratio::ONE && wanted.pan.is_none() {
        return all;
    }
    pans(card, wanted, &mut say);
    if let Some(cause) = sweets(card).filter(|_| by > Ratio::ONE) {
        let text =
            "Jam and candy are better made in single batches: a fuller pot boils down at another pace and may not set.";
        say(text.to_owned(), COMMON, cause);
    }
    if by > BENDS_ABOVE {
        bending(card, &mut say);
    }
    if by >= Ratio::whole(2)
        && let Some(step) = signs::step(card, Sign::PanFry)
    {
        say("Brown or fry in batches: a crowded pan stews.".to_owned(), COMMON, Cause::Step(step));
    }
    if (by >= Ratio::whole(2) || by <= Ratio::of(1, 2))
        && let Some(step) = signs::step(card, Sign::Simmer)
    {
        let text = match by > Ratio::ONE {
            true => "A fuller pot takes longer to boil down; a wider one boils down sooner. Go by how thick it is.",
            false => "A small amount boils down sooner, more so in a wide pot: have a little more liquid at hand.",
        };
        say(text.to_owned(), COMMON, Cause::Step(step));
    }
    look_early(card, wanted, &mut say);
    if by > Ratio::whole(12) {
        say("This is more than home pots and mixers hold: make it in several batches.".to_owned(), COMMON, Cause::Size);
    }
    all
}

/// A jam or a candy, by its title or the stages of its sugar; a cake that has one in its name is neither.
fn sweets(card: &Card) -> Option<Cause> {
    if card.lines.iter().any(|l| foods::is(&l.name, "wheat")) {
        return None;
    }
    let title = signs::says(&card.title, Sign::Jam) || signs::says(&card.title, Sign::Candy);
    title.then_some(Cause::Title).or_else(|| signs::step(card, Sign::Candy).map(Cause::Step))
}

fn bending(card: &Card, say: &mut impl FnMut(String, &'static str, Cause)) {
    let find = |is: fn(&Line) -> bool| card.lines.iter().position(is);
    let measured = |l: &Line| l.amount.is_some();
    let yeast = |l: &Line| foods::fold(&l.name).ends_with("yeast");
    let leavening = move |l: &Line| foods::is(&l.name, "leavening") && !yeast(l) && measured(l);
    if let Some(line) = card.lines.iter().position(leavening) {
        let text = "Beyond four times, leavening is often cut by a quarter or so: try one batch, or bake in several.";
        say(text.to_owned(), COMMON, Cause::Line(line));
    }
    if let Some(line) = card.lines.iter().position(move |l| yeast(l) && measured(l)) {
        let text = "A big dough warms itself and rises faster: less yeast or a shorter rise may do.";
        say(text.to_owned(), COMMON, Cause::Line(line));
    }
    if let Some(line) = find(|l| foods::is(&l.name, "salt") && l.amount.is_some()) {
        let text = "Beyond four times, start with less of the salt and taste.";
        say(text.to_owned(), COMMON, Cause::Line(line));
    }
}

/// Whether the resized card goes into its pan, and where else.
fn pans(card: &Card, wanted: &Wanted, say: &mut impl FnMut(String, &'static str, Cause)) {
    let Some(index) = card.pans.iter().position(|p| Vessel::of(&p.what).is_some()) else { return };
    let said = &card.pans[index].what;
    let Some(vessel) = Vessel::of(said) else { return };
    let (by, cause) = (wanted.factor, Cause::Pan(index));
    if let Some(yours) = wanted.pan {
        let depth = by / pan::between(&vessel, &yours).exact;
        let text = match depth {
            d if d > Ratio::of(9, 8) => {
                "It lies deeper in your pan than she had it: it takes longer, and may want a cooler oven."
            }
            d if d < Ratio::of(5, 6) => "It lies thinner in your pan than she had it: it is done sooner.",
            _ => "It lies about as deep in your pan as she had it.",
        };
        say(text.to_owned(), COMMON, cause);
        if by * vessel.cups() > yours.cups() * Ratio::of(9, 8) {
            say("Your pan may run over: leave an inch free, and bake the rest beside it.".to_owned(), COMMON, cause);
        }
        if yours.glass && !vessel.glass && !card.ovens.is_empty() {
            say("In glass instead of metal, bake 25 °F (15 °C) lower.".to_owned(), UNL, cause);
        }
        return;
    }
    let fits = pan::fits(said, by);
    let names: Vec<&str> = fits.iter().map(|f| f.name).take(3).collect();
    let counted = pan::count(said, by);
    // The extension table has just this one: half of a 9 by 13.
    let nine_by_thirteen = vessel.area() == Ratio::whole(117);
    let source = if by == Ratio::of(1, 2) && nine_by_thirteen { UNL } else { COMMON };
    match (counted, names.is_empty()) {
        (Some(n), _) => say(format!("Use {n} of the pan she names, rather than one that is deeper."), COMMON, cause),
        (None, false) => {
            let named: Vec<String> = names.iter().map(|n| format!("{} {n}", article(n))).collect();
            say(format!("Fits {}, about as deep as before.", crate::letters::join(&named, " or ")), source, cause);
        }
        (None, true) if by > Ratio::ONE && matches!(said.shape, Shape::Skillet | Shape::Other) => {
            say("Use a second pan, or cook in batches, rather than one giant pan.".to_owned(), COMMON, cause);
        }
        (None, true) => {
            let cups = (vessel.cups() * by).round_to(Ratio::of(1, 2));
            let what = if by < Ratio::ONE { "a smaller" } else { "a bigger" };
            say(format!("Use {what} pan, one that holds some {cups} cups, and go by the look of it."), COMMON, cause);
        }
    }
}

/// "an" before eight and eighteen, which pans are named by; else "a".
fn article(name: &str) -> &'static str {
    if name.starts_with('8') || name.starts_with("18 ") { "an" } else { "a" }
}

/// "Check from 30 minutes", for the last time given in a baking step: the one after which it is done.
fn look_early(card: &Card, wanted: &Wanted, say: &mut impl FnMut(String, &'static str, Cause)) {
    let baking = card.steps.iter().enumerate().filter(|(_, s)| signs::says(&signs::words(s), Sign::Bake));
    let time = |(index, step): (usize, &crate::recipe::Step)| {
        let time = step.pieces.iter().find_map(|p| match &p.kind {
            PieceKind::Time(time) if time.unit() <= TimeUnit::Hour => Some(*time),
            _ => None,
        });
        time.map(|t| (index, t))
    };
    let Some((step, time)) = baking.rev().find_map(time) else { return };
    let smaller = wanted.factor < Ratio::ONE;
    let from = if smaller { early(&time) } else { time.low_seconds() / Ratio::whole(60) };
    let minutes = from.round_to(Ratio::ONE).max(Ratio::ONE);
    let text = match (smaller, wanted.factor > Ratio::ONE) {
        (true, _) => format!("Baking time does not shrink with the amount: check from {minutes} minutes."),
        (_, true) => format!(
            "Baking time does not grow with the amount: check from {minutes} minutes; a full oven takes longer."
        ),
        _ => format!("Another pan bakes at its own pace: check from {} minutes.", early(&time)),
    };
    say(text, COMMON, Cause::Step(step));
}

/// Three quarters of the shorter time, in whole fives of minutes from twenty up.
fn early(time: &Time) -> Ratio {
    let minutes = time.low_seconds() / Ratio::whole(60) * Ratio::of(3, 4);
    let step = if minutes < Ratio::whole(20) { Ratio::ONE } else { Ratio::whole(5) };
    let whole = Ratio::whole((minutes / step).floor());
    (whole * step).max(Ratio::ONE)
}
