//! The word lists: phrases a cook could review, looked up over tokens, longest first.
//!
//! Each list is a text file beside this module, one entry a line; its head says how to add a word. They are parsed once.

pub mod lists;
pub mod makings;

use crate::measure::{Shape, Unit};
use crate::token::{Kind, Token, Tokens, fold};
use lists::list;
use std::sync::LazyLock;

/// Phrases, each with what it means, sorted for look-up.
#[derive(Debug)]
pub struct Phrases<T> {
    index: Index,
    meanings: Vec<T>,
}

/// Whether a list is matched on folded words (foods: any number of them) or on words as they stand (verbs, talk).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Match {
    Folded,
    Exact,
}

/// The phrases without their meanings, so that sorting and looking up are compiled once for all lists.
#[derive(Debug, Default)]
struct Index {
    // Invariant: sorted by first word, then by falling word count.
    entries: Vec<(Vec<String>, u32)>,
}

impl Index {
    fn add(&mut self, text: &str, how: Match, meaning: usize) {
        let words: Vec<String> =
            text.split_whitespace().map(|w| if how == Match::Folded { fold(w) } else { w.to_string() }).collect();
        if !words.is_empty() {
            self.entries.push((words, meaning as u32));
        }
    }

    fn sort(&mut self) {
        crate::order::sort_by(&mut self.entries, |a, b| a.0[0].cmp(&b.0[0]).then(b.0.len().cmp(&a.0.len())));
    }

    #[inline(never)]
    fn longest(&self, i: Tokens<'_>, how: Match) -> Option<(usize, usize)> {
        let key = |t: &crate::token::Token, w: &str| if how == Match::Folded { *t.fold == *w } else { *t.text == *w };
        let spoken = |t: &crate::token::Token| matches!(t.kind, Kind::Word | Kind::Sign);
        let first = i.first().filter(|t| spoken(t))?;
        let word: &str = if how == Match::Folded { &first.fold } else { &first.text };
        let from = self.entries.partition_point(|e| e.0[0].as_str() < word);
        self.entries[from..]
            .iter()
            .take_while(|e| e.0[0] == word)
            .find(|(words, _)| {
                words.len() <= i.len() && words.iter().zip(i.0).skip(1).all(|(w, t)| spoken(t) && key(t, w))
            })
            .map(|(words, what)| (words.len(), *what as usize))
    }
}

impl<T: Copy> Phrases<T> {
    /// The phrases of a list that mean something.
    fn of(name: &str, how: Match, mean: fn(&Row) -> Option<T>) -> Phrases<T> {
        let mut index = Index::default();
        let mut meanings = Vec::new();
        for row in rows(name) {
            if let Some(what) = mean(&row) {
                index.add(&row.said, how, meanings.len());
                meanings.push(what);
            }
        }
        index.sort();
        Phrases { index, meanings }
    }

    fn look(&self, i: Tokens<'_>, how: Match) -> Option<(usize, T)> {
        let (n, at) = self.index.longest(i, how)?;
        self.meanings.get(at).map(|what| (n, *what))
    }

    /// The longest phrase at the front, plurals folded: its length in tokens and its meaning.
    pub fn folded(&self, i: Tokens<'_>) -> Option<(usize, T)> {
        self.look(i, Match::Folded)
    }

    /// The longest phrase at the front, word for word.
    pub fn exact(&self, i: Tokens<'_>) -> Option<(usize, T)> {
        self.look(i, Match::Exact)
    }

    /// Whether any phrase stands anywhere in the row, word for word.
    pub fn anywhere(&self, i: Tokens<'_>) -> Option<T> {
        (0..i.len()).find_map(|n| self.exact(i.skip(n)).map(|m| m.1))
    }

    /// Every entry, for the tests of the lists.
    pub fn entries(&self) -> impl Iterator<Item = (&[String], T)> {
        self.index.entries.iter().filter_map(|e| self.meanings.get(e.1 as usize).map(|m| (e.0.as_slice(), *m)))
    }
}

/// A food of the list.
#[derive(Clone, Copy, Debug)]
pub struct Food {
    /// The name the list knows it by.
    pub name: &'static str,
    /// Its tags, comma separated.
    pub tags: &'static str,
}

impl Food {
    /// Whether it carries a tag, or one of several: "meat fish".
    pub fn is(&self, any: &str) -> bool {
        tagged(self.tags, any)
    }
}

/// Whether one of these tags, parted by single spaces, stands among those of a food ("meat, cured").
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn tagged(tags: &str, any: &str) -> bool {
    tags.split(',').any(|t| crate::token::listed(any, t.trim()))
}

/// What a verb of the kitchen does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // The names are those of the list.
pub enum VerbClass {
    Heat,
    Mix,
    Cut,
    Move,
    Wait,
    Prep,
    Finish,
    Everyday,
}

/// One form of a verb.
#[derive(Clone, Copy, Debug)]
pub struct Verb {
    /// The imperative: "stir in".
    pub base: &'static str,
    /// What it does.
    pub class: VerbClass,
}

/// A word for a pan.
#[derive(Clone, Copy, Debug)]
pub struct PanWord {
    /// The shape it implies.
    pub shape: Shape,
    /// The name a card prints.
    pub name: &'static str,
}

/// What a phrase of talk does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cue(pub &'static str);

/// All the lists.
#[derive(Debug)]
pub struct Lexicon {
    /// Foods, with tags.
    pub foods: Phrases<Food>,
    /// Heads that make a compound of the food before them: "taco" + "seasoning".
    pub heads: Phrases<()>,
    /// Adjectives of a shopper's name.
    pub describers: Phrases<()>,
    /// Words of preparation.
    pub prep: Phrases<()>,
    /// Words that may follow a cut.
    pub cuts: Phrases<()>,
    /// Adverbs that stand before preparation.
    pub adverbs: Phrases<()>,
    /// Things that are no food.
    pub tools: Phrases<()>,
    /// Units.
    pub units: Phrases<Unit>,
    /// Pans, dishes, tins.
    pub pans: Phrases<PanWord>,
    /// Verbs of the kitchen, every form.
    pub verbs: Phrases<Verb>,
    /// Names of dishes.
    pub dishes: Phrases<()>,
    /// Names of components, with the name a card prints.
    pub components: Phrases<Cue>,
    /// Phrases of talk, by what they do.
    pub talk: Phrases<Cue>,
    /// People who are not the cook.
    pub people: Phrases<()>,
    /// Things a recipe makes; true where it may make one of them.
    pub yields: Phrases<bool>,
    /// Small sets of words that rules ask for by name.
    sets: Vec<(&'static str, Vec<&'static str>)>,
    /// Slips of speech-to-text: what was heard, what was meant, and where it is certain.
    pub slips: Phrases<Slip>,
}

impl Lexicon {
    /// The class of a word, from the sets "class turn", "class the" and so on.
    pub fn class(&self, word: &str) -> Option<&'static str> {
        let mut classes = self.sets.iter().filter_map(|s| s.0.strip_prefix("class ").map(|c| (c, &s.1)));
        classes.find(|(_, words)| words.binary_search(&word).is_ok()).map(|c| c.0)
    }

    /// Whether a word or phrase is in the set of that name.
    #[inline(never)]
    pub fn has(&self, set: &str, word: &str) -> bool {
        let at = self.sets.binary_search_by(|s| s.0.cmp(set));
        at.is_ok_and(|k| self.sets[k].1.binary_search(&word).is_ok())
    }

    /// The length in tokens of the longest phrase of that set at the front, of at most five words; zero where none stands there.
    #[inline(never)]
    pub fn lead(&self, set: &str, i: Tokens<'_>) -> usize {
        let said = |len: usize| crate::token::said(&i.0[..len]);
        (1..=i.len().min(5)).rev().find(|len| self.has(set, &said(*len))).unwrap_or(0)
    }
}

/// Asks the small sets of words (`src/lexicon/sets.txt`) by name.
pub trait Sets {
    /// Whether the token, or the next one of several, is in the set of that name.
    fn is_in(&self, set: &str) -> bool;
}

impl Sets for Token {
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    fn is_in(&self, set: &str) -> bool {
        matches!(self.kind, Kind::Word | Kind::Sign) && lexicon().has(set, &self.text)
    }
}

impl Sets for Tokens<'_> {
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    fn is_in(&self, set: &str) -> bool {
        self.first().is_some_and(|t| t.is_in(set))
    }
}

/// A slip of speech-to-text.
#[derive(Clone, Copy, Debug)]
pub struct Slip {
    /// What was meant.
    pub meant: &'static str,
    /// Where it is certain: "always", "food" (beside other foods or an amount), "number" (before a unit), "unit" (after a
    /// number), "verb" (first in a clause), "order" (there, before a food).
    pub when: &'static str,
}

/// The lists, parsed at first use.
pub fn lexicon() -> &'static Lexicon {
    static LISTS: LazyLock<Lexicon> = LazyLock::new(load);
    &LISTS
}

/// The entries of a list: lines that are neither empty nor comment.
pub fn entries(file: &'static str) -> impl Iterator<Item = &'static str> {
    file.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#'))
}

/// "name ; tags = spelling, spelling": the three parts.
fn parts(line: &'static str) -> (&'static str, &'static str, &'static str) {
    let (head, spellings) = line.split_once('=').unwrap_or((line, line));
    let (name, tags) = head.split_once(';').unwrap_or((head, ""));
    (name.trim(), tags.trim(), spellings.trim())
}

/// A spelling of a list, and the entry that it is of.
struct Row {
    name: &'static str,
    tags: &'static str,
    said: String,
    /// The sign before it: '+' or '!'.
    sign: Option<char>,
}

/// The spellings of a list, one by one.
fn rows(file: &str) -> Vec<Row> {
    let mut out = Vec::new();
    for line in entries(list(file)) {
        let sign = line.chars().next().filter(|c| matches!(c, '+' | '!'));
        let (name, tags, spellings) = parts(line.trim_start_matches(['+', '!']));
        let mut put = |said: &str| {
            let said = said.trim();
            if !said.is_empty() {
                out.push(Row { name, tags, said: said.to_string(), sign });
            }
        };
        if line.bytes().any(|b| b == b'=') { spellings.split(',').for_each(put) } else { put(spellings) }
    }
    out
}

fn load() -> Lexicon {
    use Match::{Exact, Folded};
    let plain = |name: &str, how: Match| Phrases::of(name, how, |r| r.sign.is_none().then_some(()));
    let cues = |name: &str, how: Match| Phrases::of(name, how, |r| Some(Cue(r.name)));
    Lexicon {
        foods: Phrases::of("foods.txt", Folded, |r| Some(Food { name: r.name, tags: r.tags })),
        heads: plain("heads.txt", Folded),
        describers: plain("describers.txt", Exact),
        prep: plain("prep.txt", Exact),
        cuts: plain("cuts.txt", Exact),
        adverbs: Phrases::of("prep.txt", Exact, |r| r.sign.map(|_| ())),
        tools: plain("tools.txt", Folded),
        units: Phrases::of("units.txt", Exact, |r| r.name.parse::<Unit>().ok()),
        pans: Phrases::of("pans.txt", Folded, |r| Some(PanWord { shape: shape_of(r.tags), name: r.name })),
        verbs: Phrases::of("verbs.txt", Exact, |r| Some(Verb { base: r.name, class: class_of(r.tags) })),
        dishes: plain("dishes.txt", Folded),
        components: cues("components.txt", Folded),
        talk: cues("talk.txt", Exact),
        people: plain("people.txt", Folded),
        yields: Phrases::of("yields.txt", Folded, |r| Some(r.sign.is_some())),
        sets: sets(),
        slips: Phrases::of("slips.txt", Exact, |r| Some(Slip { meant: r.name, when: r.tags })),
    }
}

fn sets() -> Vec<(&'static str, Vec<&'static str>)> {
    let mut sets: Vec<_> = entries(list("sets.txt"))
        .map(|line| {
            let (name, words) = line.split_once('=').unwrap_or((line, ""));
            let mut words: Vec<&str> = words.split(',').map(str::trim).collect();
            crate::order::sort(&mut words);
            (name.trim(), words)
        })
        .collect();
    crate::order::sort_by(&mut sets, |a, b| a.0.cmp(b.0));
    sets
}

fn shape_of(name: &str) -> Shape {
    [
        Shape::Rectangle,
        Shape::Square,
        Shape::Round,
        Shape::Loaf,
        Shape::Skillet,
        Shape::Tube,
        Shape::Pie,
        Shape::Sheet,
        Shape::Muffin,
    ]
    .into_iter()
    .find(|s| s.name() == name)
    .unwrap_or(Shape::Other)
}

fn class_of(name: &str) -> VerbClass {
    match name {
        "heat" => VerbClass::Heat,
        "mix" => VerbClass::Mix,
        "cut" => VerbClass::Cut,
        "move" => VerbClass::Move,
        "wait" => VerbClass::Wait,
        "prep" => VerbClass::Prep,
        "finish" => VerbClass::Finish,
        _ => VerbClass::Everyday,
    }
}
