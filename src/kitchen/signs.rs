//! Words on a card that call up advice or a caution, and where they stand.

use super::foods;
use crate::recipe::{Card, PieceKind, Step};
use std::sync::LazyLock;

/// What a word is a sign of; the words are in `lexicon/signs.txt`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // Each variant's name is its sign in the list.
pub enum Sign {
    Canning,
    Jam,
    Candy,
    Simmer,
    Bake,
    PanFry,
    Cook,
    RawEgg,
    RawEggDish,
    DeepFry,
    Keep,
    Chill,
    Reheat,
    Stuffing,
    Glass,
    Ground,
    Mollusk,
    Cooked,
    SmallFish,
}

impl Sign {
    /// Every sign.
    pub const ALL: &[Sign] = &[
        Sign::Canning,
        Sign::Jam,
        Sign::Candy,
        Sign::Simmer,
        Sign::Bake,
        Sign::PanFry,
        Sign::Cook,
        Sign::RawEgg,
        Sign::RawEggDish,
        Sign::DeepFry,
        Sign::Keep,
        Sign::Chill,
        Sign::Reheat,
        Sign::Stuffing,
        Sign::Glass,
        Sign::Ground,
        Sign::Mollusk,
        Sign::Cooked,
        Sign::SmallFish,
    ];

    /// Its name in the list.
    pub const fn name(self) -> &'static str {
        match self {
            Sign::Canning => "canning",
            Sign::Jam => "jam",
            Sign::Candy => "candy",
            Sign::Simmer => "simmer",
            Sign::Bake => "bake",
            Sign::PanFry => "panfry",
            Sign::Cook => "cook",
            Sign::RawEgg => "raw egg",
            Sign::RawEggDish => "raw egg dish",
            Sign::DeepFry => "deep fry",
            Sign::Keep => "keep",
            Sign::Chill => "chill",
            Sign::Reheat => "reheat",
            Sign::Stuffing => "stuffing",
            Sign::Glass => "glass",
            Sign::Ground => "ground",
            Sign::Mollusk => "mollusk",
            Sign::Cooked => "cooked",
            Sign::SmallFish => "small fish",
        }
    }
}

/// What on the card called something up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// A line of the list, by its index.
    Line(usize),
    /// A step, by its index.
    Step(usize),
    /// A note, by its index.
    Note(usize),
    /// A pan, by its index.
    Pan(usize),
    /// The title.
    Title,
    /// The size that was asked.
    Size,
}

impl Cause {
    /// The line, where it is one.
    pub const fn line(self) -> Option<usize> {
        match self {
            Cause::Line(index) => Some(index),
            _ => None,
        }
    }

    /// The step, where it is one.
    pub const fn step(self) -> Option<usize> {
        match self {
            Cause::Step(index) => Some(index),
            _ => None,
        }
    }

    /// The note, where it is one.
    pub const fn note(self) -> Option<usize> {
        match self {
            Cause::Note(index) => Some(index),
            _ => None,
        }
    }
}

/// The list's signs with their words, folded.
static SIGNS: LazyLock<Vec<(&str, Vec<String>)>> = LazyLock::new(|| {
    let lines = crate::lexicon::lists::list("signs.txt").lines().filter(|l| !l.starts_with('#'));
    let pairs = lines.filter_map(|l| l.split_once('='));
    pairs.map(|(name, words)| (name.trim(), words.split(',').map(foods::fold).collect())).collect()
});

/// Whether a text holds one of the sign's words.
pub fn says(text: &str, sign: Sign) -> bool {
    let folded = foods::fold(text);
    let words = SIGNS.iter().find(|(name, _)| *name == sign.name());
    words.is_some_and(|(_, words)| words.iter().any(|w| foods::holds(&folded, w)))
}

/// The words of a step, figures left out.
pub fn words(step: &Step) -> String {
    let text = |kind: &PieceKind| match kind {
        PieceKind::Words(words) => words.clone(),
        PieceKind::Pan(pan) => pan.called.clone(),
        _ => " ".to_owned(),
    };
    step.pieces.iter().map(|p| text(&p.kind)).collect()
}

/// The first step that says the sign.
pub fn step(card: &Card, sign: Sign) -> Option<usize> {
    card.steps.iter().position(|s| says(&words(s), sign))
}

/// The first place that says the sign: title, steps, notes, pans, then lines.
pub fn first(card: &Card, sign: Sign) -> Option<Cause> {
    let title = says(&card.title, sign).then_some(Cause::Title);
    title
        .or_else(|| step(card, sign).map(Cause::Step))
        .or_else(|| card.notes.iter().position(|n| says(&n.text, sign)).map(Cause::Note))
        .or_else(|| card.pans.iter().position(|p| says(&p.what.called, sign)).map(Cause::Pan))
        .or_else(|| {
            card.lines
                .iter()
                .position(|l| says(&l.name, sign) || says(&crate::letters::join(&l.prep, " "), sign))
                .map(Cause::Line)
        })
}
