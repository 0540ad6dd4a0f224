//! Whether a dish begins that nobody names: the one before is done, and other foods are measured out.
//!
//! "It feeds eight and it keeps three days. So, same deal, a big pan. Two sticks of butter…": the name comes at the end, or
//! stood in the introduction.

use super::super::scan::{Found, Item};
use super::super::weights::STARTS;
use super::evidence::{View, band, pair};
use super::title::same_dish;
use super::topic::{RECENT, taste, told_again};
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::lexicon;
use crate::recipe::Use;
use crate::token::{Kind, Tokens};

/// Words of a clause that turn to something else, wherever they stand.
const TURNING: &str = "turning";

impl View<'_> {
    /// Whether a dish may begin at this clause at all: a sentence of its own, with foods measured soon.
    pub fn may_start(&self, n: usize) -> bool {
        let c = self.clauses.item(n);
        c.piece.opens && !c.cues.story && self.amounts[n..(n + 6).min(self.amounts.len())].iter().any(|a| *a > 0)
    }

    /// What speaks for and against a dish that begins here without a name.
    pub fn start_signs(&self, n: usize, opened: &[(usize, &str)], mut put: impl FnMut(&'static str, &str)) {
        let t = self.tokens;
        let c = self.clauses.item(n);
        let (from, to) = (c.piece.from, c.piece.to);
        let start = opened.last().map_or(0, |o| o.0);
        let yes = |b: bool| if b { "yes" } else { "no" };
        let sentence = if c.piece.breaks { "paragraph" } else { "sentence" };
        put("sentence", sentence);
        put("first word", &t[from].text);
        put("first two", &pair(&t[from].text, if from + 1 < to { &t[from + 1].text } else { "-" }));
        let told = match c.main {
            Use::Action => "action",
            Use::Ingredient => "ingredient",
            Use::Remark => "remark",
            Use::Chatter => "left out",
            _ => "other",
        };
        put("use", told);
        put("use, sentence", &pair(told, sentence));
        let spoken = (from..to).filter(|k| t[*k].is_spoken()).count();
        put("length", band(spoken, &[(2, "1"), (4, "3"), (8, "5"), (14, "9")], "15"));
        for w in t[from..to].iter().take(14).filter(|w| w.kind == Kind::Word && w.is_in(TURNING)) {
            put("holds", &w.text);
        }
        // Whether the dish before is done.
        let near = n.saturating_sub(8).max(start);
        let holds = |f: &dyn Fn(usize) -> bool| (near..n).any(f);
        let findings = |k: usize| self.found.row(self.clauses.item(k).found.0, self.clauses.item(k).found.1);
        let served = holds(&|k| findings(k).iter().any(|f| matches!(f.item, Item::Yield(_))));
        let kept = holds(&|k| self.clauses.item(k).cues.keep || self.clauses.item(k).cues.ahead);
        let ended = holds(&|k| {
            let row = &t[self.clauses.item(k).piece.from..self.clauses[k].piece.to];
            self.clauses.item(k).main == Use::Closing
                || row.iter().any(|t| t.is_any("serve serves feeds done enjoy it's eat"))
        });
        let timed = holds(&|k| findings(k).iter().any(|f| matches!(f.item, Item::Time(_))));
        let ends = [served, kept, ended].iter().filter(|b| **b).count();
        let ends = ["none", "one", "two", "three"][ends];
        put("served", yes(served));
        put("kept", yes(kept));
        put("ended", yes(ended));
        put("ends", ends);
        put("ends, sentence", &pair(ends, sentence));
        put("timed", yes(timed));
        let just = (n.saturating_sub(2).max(start)..n).any(|k| self.closes[k]);
        put("just closed", &pair(yes(just), sentence));
        let before = n.checked_sub(1).map_or("-", |k| match self.clauses.item(k).main {
            Use::Action => "action",
            Use::Ingredient => "ingredient",
            Use::Remark => "remark",
            Use::Closing => "closing",
            Use::Chatter => "left out",
            _ => "other",
        });
        put("clause before", &pair(before, sentence));
        let held: usize = self.amounts[start..n].iter().sum();
        let held = band(held, &[(0, "none"), (1, "one"), (3, "few"), (6, "some"), (11, "many")], "more");
        put("held", held);
        put("held, ends", &pair(held, ends));
        let steps = self.clauses.row(start, n).iter().filter(|c| c.main == Use::Action).count();
        put("steps", band(steps, &[(0, "none"), (2, "one"), (6, "few"), (12, "some")], "many"));
        let quiet = self.amounts[start..n].iter().rev().take_while(|a| **a == 0).count();
        let quiet = band(quiet, &[(0, "0"), (2, "1"), (5, "3"), (9, "6"), (16, "10")], "17");
        put("quiet", quiet);
        put("quiet, sentence", &pair(quiet, sentence));
        put("quiet, ends", &pair(quiet, ends));
        // What comes.
        let window = |k: usize| -> usize { self.amounts[n..(n + k).min(self.amounts.len())].iter().sum() };
        let word = |n: usize| ["none", "one", "two", "three", "more"][n.min(4)];
        put("measures here", word(self.amounts[n]));
        put("ahead soon", word(window(3)));
        put("ahead", word(window(8)));
        put("ahead far", word(window(16) / 2));
        put("ahead, quiet", &pair(word(window(8)), quiet));
        let heat = |at: std::ops::Range<usize>| {
            at.clone().any(|k| findings(k).iter().any(|f: &Found| matches!(f.item, Item::Heat(_) | Item::Pan(_))))
        };
        let last = self.clauses.len();
        put("heat before, ahead", &pair(yes(heat(start..n)), yes(heat(n..(n + 6).min(last)))));
        let next = self.measured.partition_point(|m| m.clause < n);
        let first = self.measured.partition_point(|m| m.clause < start);
        let had = &self.measured[first.min(next).max(next.saturating_sub(RECENT))..next];
        let far = self.measured.partition_point(|m| m.clause < n + 12);
        let gets = &self.measured[next..far.max(next).min(next + 6)];
        let tastes = pair(taste(&had[had.len().saturating_sub(8)..]), taste(gets));
        put("taste before, after", &tastes);
        put("next food", gets.first().map_or("-", |m| &m.head));
        put("next unit", gets.first().map_or("-", |m| m.unit));
        put("last food", had.last().map_or("-", |m| &m.head));
        let again = gets.iter().filter(|m| had.iter().any(|o| o.head == m.head)).count();
        put("measured again", word(again));
        put("told again", told_again(had, gets));
        put("next food had", yes(gets.first().is_some_and(|m| had.iter().any(|o| o.head == m.head))));
        // Names that are still to come.
        let done = |p: &str| opened.iter().any(|o| same_dish(o.1, p));
        let left = self.planned.iter().filter(|p| !done(&p.0)).count();
        let left = if self.planned.len() < 2 { "-" } else { ["none", "one", "two", "more"][left.min(3)] };
        put("left", left);
        put("left, ends", &pair(left, ends));
        let names_part = (from..to.min(from + 8)).any(|k| lexicon().components.folded(Tokens(&t[k..to])).is_some());
        put("names a part", yes(names_part));
        put("part, ends", &pair(yes(names_part), ends));
        put("dishes", ["0", "1", "2", "3"][opened.len().min(3)]);
    }

    /// The sum of the weights of those signs: above zero a dish begins.
    pub fn weigh_start(&self, n: usize, opened: &[(usize, &str)]) -> i32 {
        let weights = &*STARTS;
        let mut sum = weights.bias();
        self.start_signs(n, opened, |sign, answer| sum += weights.of(sign, answer));
        sum
    }
}
