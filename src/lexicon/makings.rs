//! What goes into which dish (`makings.txt`): foods that cooks measure for it and the parts they tell on their own.
//!
//! Cocoa and frosting belong together, cocoa and beef broth do not, and duff is boiled in the metemgee: that is known of a few
//! thousand dishes. It is asked with foods (which dishes have most of these, the rare ones counting most?) and with a name
//! (what goes into a dish that is called so?). No figure of a card ever comes from here.

use super::{entries, lists::list};
use crate::token::fold;
use std::sync::LazyLock;

/// No dish is known by that name, or no food was asked for.
pub const UNKNOWN: i32 = -200;
/// The dishes that have most of some foods: so many speak.
const LIKELY: usize = 8;
/// A name that more dishes share speaks for so many of them.
const NAMESAKES: usize = 40;

/// The dishes, by their foods, parts and names.
#[derive(Debug, Default)]
pub struct Makings {
    // The last words of foods and parts in the order of the alphabet, plurals folded; beside each, the dishes that have it.
    words: Vec<String>,
    having: Vec<Having>,
    // Each name with its words from the last to the first, then a line break and the number of its dish, in the order of the alphabet.
    names: Vec<String>,
    dishes: usize,
}

#[derive(Debug, Default)]
struct Having {
    /// Dishes that have it as a food, and those that have it as a part, in rising order.
    foods: Vec<usize>,
    parts: Vec<usize>,
    /// How rare it is as a food: sixteen times the binary logarithm of one in so many dishes.
    rare: i32,
}

/// How much of some foods each dish has.
pub struct Held {
    /// For each dish, how rare those of the foods are together that it has.
    pub sums: Vec<i32>,
    /// What a dish would have that has them all.
    pub all: i32,
}

impl Held {
    /// The dishes that have most.
    pub fn likely(&self) -> Vec<usize> {
        let mut best: Vec<usize> = Vec::new();
        for (dish, sum) in self.sums.iter().enumerate().filter(|s| *s.1 > 0) {
            let at = best.iter().take_while(|b| self.sums[**b] >= *sum).count();
            if at < LIKELY {
                best.truncate(LIKELY - 1);
                best.insert(at, dish);
            }
        }
        best
    }

    /// The most that any dish has, in thousandths of all.
    pub fn most(&self) -> i32 {
        self.sums.iter().max().map_or(0, |most| most * 1000 / self.all.max(1))
    }

    /// The most that any dish has of these foods and of others, each in thousandths of all.
    pub fn with(&self, other: &Held) -> i32 {
        let (mine, others) = (self.all.max(1), other.all.max(1));
        let most = self.sums.iter().zip(&other.sums).map(|(a, b)| a * others + b * mine).max().unwrap_or(0);
        (i64::from(most) * 1000 / i64::from(mine * others)) as i32
    }
}

/// The dishes that are called so, and whether that is the whole name of one of them.
#[derive(Default)]
pub struct Called {
    /// Their numbers.
    pub dishes: Vec<usize>,
    /// The whole name, not only its last words.
    pub wholly: bool,
}

impl Makings {
    /// Reads lines "name, name = food, food ; part, part".
    fn read(text: &'static str) -> Makings {
        let mut out = Makings::default();
        for line in entries(text) {
            let (names, held) = line.split_once('=').unwrap_or((line, ""));
            let (foods, parts) = held.split_once(';').unwrap_or((held, ""));
            for (k, word) in foods.split(',').map(|f| (0, f)).chain(parts.split(',').map(|p| (1, p))) {
                let word = fold(word.trim());
                let at = out.at(&word);
                if out.words.get(at) != Some(&word) {
                    out.words.insert(at, word);
                    out.having.insert(at, Having::default());
                }
                let having = &mut out.having[at];
                if k == 0 { &mut having.foods } else { &mut having.parts }.push(out.dishes);
            }
            out.names.extend(names.split(',').map(|name| format!("{}\n{}", backwards(name.trim()), out.dishes)));
            out.dishes += 1;
        }
        crate::order::sort(&mut out.names);
        for having in &mut out.having {
            let one_in = (out.dishes + 1) * 32 / (2 * having.foods.len() + 1);
            let whole = one_in.max(1).ilog2();
            having.rare = (whole * 16 + ((one_in << 4 >> whole) & 15) as u32) as i32 - 64;
        }
        out
    }

    fn at(&self, word: &str) -> usize {
        self.words.partition_point(|w| w.as_str() < word)
    }

    /// The places of foods in the list, by their last words; each once, so many at most, and none that no dish has.
    pub fn foods<'a>(&self, said: impl Iterator<Item = &'a String>, most: usize) -> Vec<usize> {
        let mut out: Vec<usize> = Vec::new();
        for word in said {
            let at = self.at(word);
            let known = self.words.get(at) == Some(word) && !self.having[at].foods.is_empty();
            if known && out.len() < most && !out.contains(&at) {
                out.push(at);
            }
        }
        out
    }

    /// How much of these foods each dish has.
    pub fn held(&self, foods: &[usize]) -> Held {
        let mut out = Held { sums: vec![0; self.dishes], all: 0 };
        for having in foods.iter().map(|f| &self.having[*f]) {
            out.all += having.rare;
            having.foods.iter().for_each(|dish| out.sums[*dish] += having.rare);
        }
        out
    }

    /// The dishes that are called so; of a longer title its last words tell.
    pub fn called(&self, title: &str) -> Called {
        let mut words = backwards(title);
        let mut out = Called::default();
        while out.dishes.is_empty() && !words.is_empty() {
            let from = self.names.partition_point(|n| *n < words);
            for name in self.names[from..].iter().map_while(|n| n.strip_prefix(words.as_str())) {
                let wholly = name.starts_with('\n');
                if !wholly && (out.wholly || !name.starts_with(' ')) || out.dishes.len() >= NAMESAKES {
                    break;
                }
                out.wholly |= wholly;
                let dish = name.rsplit('\n').next().and_then(|n| n.parse().ok());
                out.dishes.extend(dish.filter(|d| !out.dishes.contains(d)));
            }
            words.truncate(words.rfind(' ').unwrap_or(0));
        }
        out
    }

    /// How much of these foods is in those dishes on average, in thousandths, the rare ones counting most.
    pub fn share(&self, dishes: &[usize], foods: &[usize]) -> i32 {
        let (mut mine, mut all) = (0, 0);
        for having in foods.iter().map(|f| &self.having[*f]) {
            mine += having.rare * among(dishes, &having.foods);
            all += having.rare;
        }
        if all > 0 && !dishes.is_empty() { mine / all } else { UNKNOWN }
    }

    /// How many of those dishes have a part that is called so, in thousandths.
    pub fn part(&self, dishes: &[usize], word: &str) -> i32 {
        let at = self.at(word);
        let parts = self.having.get(at).filter(|_| self.words[at] == *word).map_or(&[][..], |h| &h.parts);
        if dishes.is_empty() || word.is_empty() { UNKNOWN } else { among(dishes, parts) }
    }
}

/// How many of the dishes are among those of a list in rising order, in thousandths.
fn among(dishes: &[usize], list: &[usize]) -> i32 {
    let some = dishes.iter().filter(|d| list.binary_search(d).is_ok()).count();
    (some * 1000 / dishes.len().max(1)) as i32
}

/// The words of a name from the last to the first, plurals folded.
fn backwards(name: &str) -> String {
    let mut out = String::new();
    for word in name.split([' ', '-']).filter(|w| !w.is_empty()).rev() {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(&fold(word));
    }
    out
}

/// The list, read at first use.
pub fn makings() -> &'static Makings {
    static MAKINGS: LazyLock<Makings> = LazyLock::new(|| Makings::read(list("makings.txt")));
    &MAKINGS
}
