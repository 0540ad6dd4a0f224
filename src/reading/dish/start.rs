//! Whether a dish begins where nobody names it: "While those are going, a can of black-eyed peas and a can of black beans."
//!
//! What tells is the end of the one before (how many it serves, how long it keeps), the turn of the sentence, and foods that
//! are measured anew. The name comes later, or stood in the introduction.

use super::super::clause::Lead;
use super::super::scan::Item;
use super::super::weights::STARTS;
use super::evidence::View;
use super::title::same_dish;
use crate::lexicon::{VerbClass, lexicon};
use crate::recipe::Use;
use crate::token::{Kind, Tokens, fold};

impl View<'_> {
    /// Whether a nameless start is thinkable at a clause: something is measured soon, and no story is told.
    pub fn may_start(&self, n: usize) -> bool {
        let soon: usize = self.amounts[n..(n + 4).min(self.amounts.len())].iter().sum();
        soon > 0 && !self.clauses[n].cues.story && self.clauses[n].main != Use::Closing
    }

    /// What speaks for and against a dish that begins at clause `n` without a name, after the dishes opened so far.
    pub fn start_signs(&self, n: usize, opened: &[(usize, &str)], mut put: impl FnMut(&'static str, &str)) {
        let t = self.tokens;
        let c = &self.clauses[n];
        let lists = lexicon();
        let yes = |b: bool| if b { "yes" } else { "no" };
        let pair = |a: &str, b: &str| format!("{a}, {b}");
        let (from, to) = (c.piece.from, c.piece.to);
        let since = opened.last().map_or(0, |o| o.0);
        let sentence = if c.piece.breaks {
            "paragraph"
        } else if c.piece.opens {
            "sentence"
        } else {
            "clause"
        };
        put("sentence", sentence);
        let word = |k: usize| if k < to { &*t[k].text } else { "-" };
        put("first word", word(from));
        put("first two", &pair(word(from), word(from + 1)));
        put("core", word(c.core));
        put("core two", &pair(word(c.core), word(c.core + 1)));
        put("doing", yes(c.lead == Lead::Doing));
        let class = match c.verb.map(|v| v.1) {
            None => "none",
            Some(v) if v.class == VerbClass::Everyday => v.base,
            Some(v) => match v.class {
                VerbClass::Heat => "heat",
                VerbClass::Mix => "mix",
                VerbClass::Cut => "cut",
                VerbClass::Move => "move",
                VerbClass::Wait => "wait",
                _ => "other",
            },
        };
        put("verb", class);
        let main = match c.main {
            Use::Action => "action",
            Use::Ingredient => "ingredient",
            Use::Remark => "remark",
            _ => "other",
        };
        put("use", main);
        put("measures here", ["none", "one", "two", "three"][self.amounts[n].min(3)]);
        put("measures here, sentence", &pair(["none", "one", "two", "three"][self.amounts[n].min(3)], sentence));
        let tool = (from..to)
            .any(|k| lists.tools.folded(Tokens(&t[k..to])).is_some() || lists.pans.folded(Tokens(&t[k..to])).is_some());
        put("vessel", yes(tool));
        let row = &t[from..to];
        for w in row.iter().filter(|w| {
            w.kind == Kind::Word
                && w.is_any("while meantime next last other second third now first start thing one another also these those this that it them bowl pot pan oven grill blender rest")
        }) {
            put("holds", &w.text);
        }
        let held: usize = self.amounts[since..n].iter().sum();
        let held_word = match held {
            0 => "none",
            1 => "one",
            2..=3 => "few",
            4..=6 => "some",
            7..=9 => "many",
            _ => "very many",
        };
        put("held", held_word);
        put("held, sentence", &pair(held_word, sentence));
        let steps = self.clauses[since..n].iter().filter(|c| c.main == Use::Action).count();
        put(
            "steps",
            match steps {
                0 => "none",
                1..=2 => "one",
                3..=6 => "few",
                7..=12 => "some",
                _ => "many",
            },
        );
        let close = |k: usize| self.closes[n.saturating_sub(k).max(since)..n].iter().any(|c| *c);
        let closed = match (close(2), close(6)) {
            (true, _) => "just",
            (_, true) => "near",
            _ => "no",
        };
        put("closed", closed);
        put("closed, sentence", &pair(closed, sentence));
        put("closed, held", &pair(closed, held_word));
        let quiet = self.amounts[since..n].iter().rev().take_while(|a| **a == 0).count();
        let quiet_word = match quiet {
            0 => "0",
            1..=2 => "1",
            3..=5 => "3",
            6..=10 => "6",
            _ => "11",
        };
        put("quiet", quiet_word);
        put("quiet, sentence", &pair(quiet_word, sentence));
        let window = |k: usize| -> usize { self.amounts[n..(n + k).min(self.amounts.len())].iter().sum() };
        let few = |n: usize| ["none", "one", "two", "three", "four", "more"][n.min(5)];
        put("ahead soon", few(window(3)));
        put("ahead", few(window(7)));
        put("ahead far", few(window(15) / 2));
        let old: Vec<&String> = self.foods[since..n].iter().flatten().collect();
        let again = self.foods[n..(n + 10).min(self.foods.len())].iter().flatten().filter(|f| old.contains(f)).count();
        put("measured again", few(again));
        let oven = self.clauses[n..(n + 5).min(self.clauses.len())]
            .iter()
            .any(|c| self.found[c.found.0..c.found.1].iter().any(|f| matches!(f.item, Item::Heat(_) | Item::Pan(_))));
        put("oven ahead", yes(oven));
        let done = |title: &str| opened.iter().any(|o| same_dish(o.1, title));
        let left = self.planned.iter().filter(|p| !done(&p.0)).count();
        put("left", if self.planned.len() < 2 { "-" } else { ["none", "one", "two", "more"][left.min(3)] });
        // A name that nothing has been made of yet is spoken soon after or was just before.
        let named = |a: usize, b: usize| {
            (a..b.min(self.clauses.len())).any(|m| {
                let c = &self.clauses[m];
                (c.piece.from..c.piece.to).any(|k| {
                    let dish = lists.dishes.folded(Tokens(&t[k..c.piece.to]));
                    dish.is_some_and(|d| {
                        let name: Vec<String> = t[k..k + d.0].iter().map(|w| fold(&w.text)).collect();
                        let name = name.join(" ");
                        !lists.has("weak title", &name) && !done(&name)
                    })
                })
            })
        };
        put("named before", yes(named(n.saturating_sub(3).max(since), n)));
        put("named after", yes(named(n, n + 12)));
        if let Some(p) = n.checked_sub(1).map(|p| &self.clauses[p]) {
            put("last begins", &t[p.piece.from].text);
            put(
                "last use",
                match p.main {
                    Use::Action => "action",
                    Use::Ingredient => "ingredient",
                    Use::Remark => "remark",
                    Use::Closing => "closing",
                    _ => "other",
                },
            );
            let cues = [p.cues.keep, p.cues.ahead, p.cues.optional, p.cues.story, p.cues.chatter];
            put(
                "last cue",
                ["keep", "ahead", "optional", "story", "chatter", "none"][cues.iter().position(|c| *c).unwrap_or(5)],
            );
        }
    }

    /// The sum of the weights of those signs: above zero a dish begins.
    pub fn weigh_start(&self, n: usize, opened: &[(usize, &str)]) -> i32 {
        let weights = &*STARTS;
        let mut sum = weights.bias();
        self.start_signs(n, opened, |sign, answer| sum += weights.of(sign, answer));
        sum
    }
}
