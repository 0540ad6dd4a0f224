//! Whether a measured food in what sounds like a story or a remark was measured for the dish.
//!
//! "My mother put chicken livers, two hundred grams, chopped", "and if you have them three dried mushrooms" belong on the list;
//! "she put a cup of sugar in hers" and "if it's thick a splash of milk" do not. The words round about are weighed
//! (`src/lexicon/weights/measured.txt`), and a clause they take for a part of the list is read as one.

use super::ledger::twice::word;
use super::scan::{Found, Item};
use super::sort::{Sorted, dated};
use super::weights::LISTED;
use crate::grammar::food::SaidFood;
use crate::item::Items;
use crate::recipe::Use;
use crate::token::{Token, Tokens};

/// A line nobody asked for costs more than one that is missing.
const BAR: i32 = 4;

/// The foods that a clause measures.
pub fn foods<'a>(c: &Sorted, found: &'a [Found]) -> impl Iterator<Item = &'a SaidFood> {
    found.row(c.found.0, c.found.1).iter().filter_map(|f| match &f.item {
        Item::Food(x) if x.amount.is_some() => Some(&**x),
        _ => None,
    })
}

/// Whether clause `n` is weighed at all.
pub fn weighed(tokens: &[Token], clauses: &[Sorted], found: &[Found], n: usize) -> bool {
    let c = clauses.item(n);
    let aside = c.cues.swap || c.cues.keep || c.cues.ahead || c.why == "what to do if it happens";
    let left = c.main == Use::Chatter || c.main == Use::Remark && aside;
    // What the recipe called for is never what went in, and a year or a price is of a story.
    left && !c.cues.called && foods(c, found).next().is_some() && !dated(Tokens(tokens.row(c.piece.from, c.piece.to)))
}

/// What speaks for and against clause `n`: its words, how it begins and ends, why it was left, and what stands round about.
pub fn signs(tokens: &[Token], clauses: &[Sorted], found: &[Found], n: usize, mut put: impl FnMut(&'static str, &str)) {
    let c = clauses.item(n);
    let mut words: Vec<&str> = (c.piece.from..c.piece.to).map(|k| word(tokens, k)).collect();
    let (first, second) = (words.first().copied().unwrap_or("-"), words.get(1).copied().unwrap_or("-"));
    put("first", first);
    put("first two", &format!("{first} {second}"));
    put("length", ["1", "3", "6", "9", "12", "15", "18"][(words.len() / 3).min(6)]);
    for pair in words.windows(2) {
        put("pair", &format!("{} {}", pair[0], pair[1]));
    }
    crate::order::sort(&mut words);
    words.dedup();
    words.iter().for_each(|w| put("word", w));
    put("why", c.why);
    let measured = |k: Option<usize>| {
        k.and_then(|k| clauses.get(k))
            .map_or("-", |c| if foods(c, found).next().is_some() { "measured" } else { c.why })
    };
    put("before", measured(n.checked_sub(1)));
    put("second before", measured(n.checked_sub(2)));
    put("after", measured(Some(n + 1)));
    put("opens", if c.piece.opens { "y" } else { "n" });
    let mut count = 0;
    for f in foods(c, found) {
        count += 1;
        let unit = f.amount.and_then(|a| a.amount.unit());
        put("unit", &unit.map_or("-".to_string(), |u| format!("{u:?}")));
        for tag in f.food.map_or("", |f| f.tags).split(',').map(str::trim) {
            put("tag", tag);
        }
        let again =
            (0..clauses.len()).filter(|k| *k != n).flat_map(|k| foods(clauses.item(k), found).map(move |x| (k, x)));
        let same = again
            .filter(|(_, x)| x.name == f.name)
            .map(|(k, _)| {
                if weighed(tokens, clauses, found, k) {
                    "left"
                } else if k < n {
                    "before"
                } else {
                    "after"
                }
            })
            .next();
        put("again", same.unwrap_or("no"));
    }
    put("foods", ["0", "1", "2", "3"][count.min(3)]);
    let cues = c.cues;
    for (name, holds) in [
        ("optional", cues.optional),
        ("swap", cues.swap),
        ("keep", cues.keep),
        ("story", cues.story),
        ("unsure", cues.unsure),
        ("batch", cues.batch),
    ] {
        if holds {
            put("cue", name);
        }
    }
}

/// Reads as a part of the list what the weights take for one.
pub fn list(tokens: &[Token], clauses: &mut [Sorted], found: &[Found]) {
    let told: Vec<usize> = (0..clauses.len())
        .filter(|n| {
            let mut sum = LISTED.bias();
            let weighed = weighed(tokens, clauses, found, *n);
            if weighed {
                signs(tokens, clauses, found, *n, |sign, answer| sum += LISTED.of(sign, answer));
            }
            weighed && sum > BAR
        })
        .collect();
    for n in told {
        let c = &mut clauses[n];
        c.main = if c.acts { Use::Action } else { Use::Ingredient };
        c.why = if c.acts { "a verb of the kitchen" } else { "an amount of a food" };
        (c.cues.story, c.cues.called, c.cues.swap, c.cues.keep, c.cues.ahead) = Default::default();
    }
}
