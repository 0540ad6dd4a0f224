//! Whether a clause tells a cook anything.
//!
//! "Chasing it round the table", "if you want to get married", "put on a sweater" have the shape of a step or of a note, and
//! no rule of grammar knows better. Their words do, mostly: they are weighed (`src/lexicon/weights/telling.txt`), and a clause
//! that the weights take for talk is left out. One that measures a food or says a time or a heat is never weighed: "don't leave
//! it out past two hours" is no talk, whatever its words.

use super::ledger::twice::word;
use super::scan::{Found, Item};
use super::sort::Sorted;
use super::weights::TELLING;
use crate::item::Items;
use crate::recipe::Use;
use crate::token::Token;

/// Whether clause `n` is weighed at all.
pub fn weighed(clauses: &[Sorted], found: &[Found], n: usize) -> bool {
    let c = clauses.item(n);
    let measured = |f: &Found| match &f.item {
        Item::Food(x) => x.amount.is_some(),
        item => matches!(item, Item::Time(_) | Item::Heat(_)),
    };
    // How long it keeps and what to mind is never talk.
    let minds = c.cues.keep || c.cues.ahead || c.cues.mind;
    matches!(c.main, Use::Action | Use::Remark) && !minds && !found.row(c.found.0, c.found.1).iter().any(measured)
}

/// What speaks for and against clause `n`: its words, how it begins and ends, why it is kept, and what stands round about.
pub fn signs(tokens: &[Token], clauses: &[Sorted], n: usize, mut put: impl FnMut(&'static str, &str)) {
    let c = clauses.item(n);
    let mut words: Vec<&str> = (c.piece.from..c.piece.to).map(|k| word(tokens, k)).collect();
    let (first, second) = (words.first().copied().unwrap_or("-"), words.get(1).copied().unwrap_or("-"));
    put("first", first);
    put("first two", &format!("{first} {second}"));
    put("last", words.last().copied().unwrap_or("-"));
    put("length", ["1", "3", "6", "9", "12", "15", "18"][(words.len() / 3).min(6)]);
    crate::order::sort(&mut words);
    words.dedup();
    words.iter().for_each(|w| put("word", w));
    put("why", c.why);
    put("before", n.checked_sub(1).map_or("-", |k| clauses.item(k).why));
    put("after", clauses.get(n + 1).map_or("-", |c| c.why));
}

/// Leaves out the clauses that tell nothing.
pub fn leave_out(tokens: &[Token], clauses: &mut [Sorted], found: &[Found]) {
    let idle: Vec<usize> = (0..clauses.len())
        .filter(|n| {
            let mut sum = TELLING.bias();
            let weighed = weighed(clauses, found, *n);
            if weighed {
                signs(tokens, clauses, *n, |sign, answer| sum += TELLING.of(sign, answer));
            }
            weighed && sum < 0
        })
        .collect();
    for n in idle {
        clauses[n].main = Use::Chatter;
        clauses[n].why = "nothing a cook could use";
    }
}
