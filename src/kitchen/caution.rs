//! Cautions a card calls up, each with its cause and its source: chicken on the list, 165 °F in the margin.
//!
//! None appears without a cause, and each defers to the reader's own food-safety authority ([`DEFER`]).

use super::foods::{self, Food};
use super::signs::{self, Cause, Sign};
use crate::measure::Unit;
use crate::recipe::{Card, Line, NoteKind, Step};

/// A caution.
#[derive(Clone, Debug)]
pub struct Caution {
    /// A sentence or two.
    pub text: String,
    /// Who published it.
    pub source: &'static str,
    /// What on the card called it up.
    pub cause: Cause,
}

/// The words that go with every caution.
pub const DEFER: &str = "your own food-safety authority comes first";

// The temperatures and the two-hour rule are FSIS's published ones (tests/data/handbook.tsv); what is said of honey, of
// canning and of hot fat is from memory of the publications named.
const FSIS: &str = "USDA FSIS, safe minimum internal temperatures";
const FSIS_COLD: &str = "USDA FSIS, the two-hour rule";
const FDA_EGGS: &str = "FDA and USDA FSIS, egg safety";
const FDA_HONEY: &str = "CDC and FDA, infant botulism";
const FALCPA: &str = "FALCPA and the FASTER Act, the nine major allergens";
const CANNING: &str = "USDA Complete Guide to Home Canning";
const FRYING: &str = "USDA FSIS, deep fat frying";
const COMMON: &str = "common practice";

/// The cautions of a card, allergens last.
pub fn cautions(card: &Card) -> Vec<Caution> {
    let mut all: Vec<Caution> = Vec::new();
    let mut say = |text: &str, source, cause: Option<Cause>| {
        if let Some(cause) = cause {
            all.push(Caution { text: text.to_owned(), source, cause });
        }
    };
    let line = |is: fn(&Line, Food) -> bool| {
        let found = card.lines.iter().position(|l| foods::find(&l.name).is_some_and(|f| is(l, f)));
        found.map(Cause::Line)
    };
    let poultry = line(|l, f| f.is("poultry") && raw(l, f));
    say("Cook poultry to 165 °F (74 °C) at its thickest.", FSIS, poultry);
    let ground = line(|l, f| raw(l, f) && !f.is("poultry") && (f.is("groundmeat") || f.is("meat") && minced(l)));
    say("Cook ground meat to 160 °F (71 °C).", FSIS, ground);
    let whole = line(|l, f| raw(l, f) && f.is("meat") && !f.is("groundmeat") && !minced(l));
    say("Cook steaks, chops and roasts to 145 °F (63 °C) and let them rest 3 minutes.", FSIS, whole);
    let ham = line(|l, f| {
        f.is("cured") && foods::holds(&foods::fold(&l.name), "ham") && !crate::letters::holds(&l.name, "deli")
    });
    let text = "Raw ham: 145 °F (63 °C) and 3 minutes' rest. Cooked ham, reheated: 140 °F (60 °C) as packed, else 165 °F (74 °C).";
    say(text, FSIS, ham.filter(|_| [Sign::Cook, Sign::Reheat].iter().any(|s| signs::step(card, *s).is_some())));
    let fish = line(|l, f| (f.is("fish") || f.is("shellfish")) && raw(l, f) && !signs::says(&l.name, Sign::SmallFish));
    say("Cook fish and shellfish to 145 °F (63 °C).", FSIS, fish);
    say(
        "Eggs stay raw or barely set here: use pasteurised ones for the very young, the old, the pregnant and the ill; egg \
         dishes are safe at 160 °F (71 °C).",
        FDA_EGGS,
        raw_egg(card),
    );
    let stuffed = signs::first(card, Sign::Stuffing).filter(|_| line(|_, f| f.is("poultry") || f.is("meat")).is_some());
    say("Stuffing must reach 165 °F (74 °C) in the middle.", FSIS, stuffed);
    let rice = line(|_, f| f.is("rice") && !f.is("pasta"));
    say("Cool cooked rice quickly, chill it within 2 hours, and reheat it to 165 °F (74 °C).", FSIS_COLD, rice);
    let spoils = line(|_, f| f.is("dairy egg poultry meat groundmeat cured fish shellfish rice"));
    let kept = kept(card).filter(|_| spoils.is_some() && rice.is_none());
    say("Chill within 2 hours of cooking, 1 hour where it is over 90 °F (32 °C).", FSIS_COLD, kept);
    let reheated = signs::first(card, Sign::Reheat).filter(|_| spoils.is_some());
    say("Heat leftovers and casseroles through to 165 °F (74 °C).", FSIS, reheated);
    let text = "Home canning needs a tested process for the food, the jar and the height above the sea.";
    say(text, CANNING, signs::first(card, Sign::Canning));
    let glass = signs::first(card, Sign::Glass).filter(|_| !card.ovens.is_empty());
    let text = "Glass can shatter: nothing cold into a hot dish, no hot dish onto a wet or cold place, none under the broiler.";
    say(text, COMMON, glass.filter(|c| !matches!(c, Cause::Line(_))));
    let text = "Hot fat: fill the pot half full at most, dry what goes in, stay with it; smother a fire with a lid, never water.";
    say(text, FRYING, signs::first(card, Sign::DeepFry));
    say("No honey for children under 12 months.", FDA_HONEY, line(|_, f| f.is("honey")));
    all.extend(allergens(card).into_iter().filter_map(|found| {
        let mut names: Vec<&str> = Vec::new();
        for line in &found.lines {
            let name = card.lines[*line].name.as_str();
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let text = format!(
            "{}: {}.{} Check the labels.",
            found.allergen.name(),
            crate::letters::join(&names, ", "),
            found.remark()
        );
        Some(Caution { text, source: FALCPA, cause: Cause::Line(*found.lines.first()?) })
    }));
    all
}

/// Whether a line's food comes raw: not canned, cooked, cured, nor a sauce made of it.
fn raw(line: &Line, food: Food) -> bool {
    let processed = food.is("canned condiment stock cured liquid spice");
    let can = line.amount.and_then(|a| a.unit()) == Some(Unit::Can);
    let prep = line.prep.iter().any(|p| signs::says(p, Sign::Cooked));
    !(processed || can || prep || signs::says(&line.name, Sign::Cooked))
}

fn minced(line: &Line) -> bool {
    signs::says(&line.name, Sign::Ground) || line.prep.iter().any(|p| signs::says(p, Sign::Ground))
}

/// Eggs that no step cooks through: the card says so, or has eggs and cooks nothing.
fn raw_egg(card: &Card) -> Option<Cause> {
    let eggs = |l: &Line| {
        foods::find(&l.name).is_some_and(|f| f.is("egg") && !f.is("pasta") && !f.is("condiment") && !f.is("wheat"))
    };
    let line = card.lines.iter().position(eggs)?;
    let boiled = crate::letters::holds(&foods::fold(&card.lines[line].name), "boiled");
    if boiled
        || card.lines[line].prep.iter().any(|p| crate::letters::holds(p, "boil") || crate::letters::holds(p, "cook"))
    {
        return None;
    }
    let said = signs::says(&card.title, Sign::RawEggDish).then_some(Cause::Title);
    let said = said.or_else(|| signs::step(card, Sign::RawEgg).map(Cause::Step));
    // Meringue that is baked, and a mousse that is cooked first, still set only lightly: the words decide, not the oven.
    let uncooked = card.ovens.is_empty() && !card.steps.is_empty() && signs::step(card, Sign::Cook).is_none();
    said.or(uncooked.then_some(Cause::Line(line)))
}

/// The note or the step that keeps the dish for later; a step that chills counts once something was cooked.
fn kept(card: &Card) -> Option<Cause> {
    let note = card.notes.iter().position(|n| n.kind == NoteKind::Keeping || n.kind == NoteKind::Ahead);
    let note = note
        .or_else(|| card.notes.iter().position(|n| [Sign::Keep, Sign::Chill].iter().any(|s| signs::says(&n.text, *s))));
    let cooked = signs::step(card, Sign::Cook).unwrap_or(usize::MAX);
    let chills = |(index, step): (usize, &Step)| {
        let words = signs::words(step);
        signs::says(&words, Sign::Keep) || index > cooked && signs::says(&words, Sign::Chill)
    };
    let step = card.steps.iter().enumerate().position(chills);
    note.map(Cause::Note).or(step.map(Cause::Step))
}

/// One of the nine major food allergens of US law.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // Each variant's name is its doc.
pub enum Allergen {
    Milk,
    Egg,
    Fish,
    Shellfish,
    TreeNut,
    Peanut,
    Wheat,
    Soy,
    Sesame,
}

impl Allergen {
    /// The nine: eight of FALCPA (2004) and sesame of the FASTER Act (2021). Coconut is no tree nut since the FDA's
    /// guidance of January 2025.
    pub const ALL: [Allergen; 9] = [
        Allergen::Milk,
        Allergen::Egg,
        Allergen::Fish,
        Allergen::Shellfish,
        Allergen::TreeNut,
        Allergen::Peanut,
        Allergen::Wheat,
        Allergen::Soy,
        Allergen::Sesame,
    ];

    /// The name a label uses, with a capital.
    pub const fn name(self) -> &'static str {
        match self {
            Allergen::Milk => "Milk",
            Allergen::Egg => "Egg",
            Allergen::Fish => "Fish",
            Allergen::Shellfish => "Shellfish",
            Allergen::TreeNut => "Tree nuts",
            Allergen::Peanut => "Peanuts",
            Allergen::Wheat => "Wheat",
            Allergen::Soy => "Soy",
            Allergen::Sesame => "Sesame",
        }
    }

    /// The tag of the food list.
    pub const fn tag(self) -> &'static str {
        match self {
            Allergen::Milk => "dairy",
            Allergen::Egg => "egg",
            Allergen::Fish => "fish",
            Allergen::Shellfish => "shellfish",
            Allergen::TreeNut => "treenut",
            Allergen::Peanut => "peanut",
            Allergen::Wheat => "wheat",
            Allergen::Soy => "soy",
            Allergen::Sesame => "sesame",
        }
    }

    /// The allergens a food so named usually has.
    pub fn of(name: &str) -> Vec<Allergen> {
        let food = foods::find(name);
        Allergen::ALL.into_iter().filter(|a| food.is_some_and(|f| f.is(a.tag()))).collect()
    }
}

/// An allergen on a card.
#[derive(Clone, Debug)]
pub struct Found {
    /// Which.
    pub allergen: Allergen,
    /// The lines that name it, by index; never empty.
    pub lines: Vec<usize>,
    mollusks: bool,
}

impl Found {
    fn remark(&self) -> &'static str {
        match self.mollusks {
            true => " A mollusk, which the US list of crustaceans leaves out.",
            false => "",
        }
    }
}

/// The allergens of a card with the lines that name them, in the order of the law's list.
pub fn allergens(card: &Card) -> Vec<Found> {
    let found = |allergen: Allergen| {
        let has = |line: &&(usize, &Line)| Allergen::of(&line.1.name).contains(&allergen);
        let all: Vec<(usize, &Line)> = card.lines.iter().enumerate().collect();
        let lines: Vec<usize> = all.iter().filter(has).map(|(index, _)| *index).collect();
        let mollusks =
            allergen == Allergen::Shellfish && lines.iter().all(|l| signs::says(&card.lines[*l].name, Sign::Mollusk));
        (!lines.is_empty()).then_some(Found { allergen, lines, mollusks })
    };
    Allergen::ALL.into_iter().filter_map(found).collect()
}
