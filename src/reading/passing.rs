//! Foods named in passing: whether one that was named without an amount belongs on the list.
//!
//! "Salt and pepper" and "some parsley on top" do; what is only served alongside, remembered, likened, refused or taken out
//! again does not.

use super::scan::{Found, Item};
use super::sort::Sorted;
use super::weights::MENTIONS;
use crate::grammar::food::{Quantifier, SaidFood};
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon};
use crate::recipe::Use;
use crate::token::{Kind, Token, Tokens, fold};

/// A food named without an amount, where it was named.
pub struct Mention<'a> {
    /// The draft's tokens.
    pub tokens: &'a [Token],
    /// Its clause.
    pub clause: &'a Sorted,
    /// The findings of the clause.
    pub mine: &'a [Found],
    /// Its tokens.
    pub at: (usize, usize),
    /// The food.
    pub said: &'a SaidFood,
    /// The title of the dish.
    pub title: &'a str,
    /// The titles of the other dishes of the draft.
    pub others: &'a [&'a str],
    /// How many lines the card has so far.
    pub lines: usize,
}

/// So many words after the clause may tell that it can be left out.
const SOON: usize = 14;

/// Words that tell what a clause does with its foods, wherever they stand in it.
const TELLING: &str = "tells of a food";

impl Mention<'_> {
    /// What speaks for and against a line of its own.
    pub fn signs(&self, mut put: impl FnMut(&'static str, &str)) {
        let t = self.tokens;
        let c = self.clause;
        let (from, to) = self.at;
        let lists = lexicon();
        let word = |k: Option<usize>, low: usize, high: usize| -> &str {
            match k {
                Some(k) if (low..high).contains(&k) => {
                    if t.item(k).is_spoken() {
                        &t.item(k).text
                    } else {
                        ","
                    }
                }
                _ => "-",
            }
        };
        let (a, b) = (c.piece.from, c.piece.to);
        put("before", word(from.checked_sub(1), a, b));
        put("second before", word(from.checked_sub(2), a, b));
        put("third before", word(from.checked_sub(3), a, b));
        put("after", word(Some(to), a, t.len()));
        put("second after", word(Some(to + 1), a, t.len()));
        put("first word", word(Some(a), a, b));
        put("core", word(Some(c.core), a, b));
        let quantifier = match self.said.quantifier {
            Quantifier::None | Quantifier::Again => "none",
            Quantifier::The => "the",
            Quantifier::Some => "some",
            Quantifier::Rest => "rest",
            Quantifier::Part => "part",
            Quantifier::More => "more",
            Quantifier::All => "all",
        };
        let article = self.said.amount.is_some();
        let quantifier = if article { "a" } else { quantifier };
        put("quantifier", quantifier);
        let main = match c.main {
            Use::Action => "action",
            Use::Ingredient => "ingredient",
            Use::Remark => "remark",
            Use::Closing => "closing",
            _ => "other",
        };
        put("use", main);
        put("use, quantifier", &format!("{main}, {quantifier}"));
        let verb = (a..from).rev().find_map(|k| lists.verbs.exact(Tokens(t.row(k, from))).map(|v| v.1));
        let base = verb.map_or("none", |v| v.base);
        put("verb", base);
        let class = match verb.map(|v| v.class) {
            None => "none",
            Some(VerbClass::Heat) => "heat",
            Some(VerbClass::Mix) => "mix",
            Some(VerbClass::Cut) => "cut",
            Some(VerbClass::Move) => "move",
            Some(VerbClass::Wait) => "wait",
            Some(VerbClass::Prep) => "prep",
            Some(VerbClass::Finish) => "finish",
            Some(VerbClass::Everyday) => "everyday",
        };
        put("verb class", class);
        let tags = self.said.food.map_or("", |f| f.tags);
        for tag in tags.split(',').map(str::trim).filter(|t| !t.is_empty()) {
            put("tag", tag);
            put("tag, quantifier", &format!("{tag}, {quantifier}"));
        }
        put("words", ["0", "1", "2", "3"][self.said.name.split(' ').count().min(3)]);
        let measured = self.mine.iter().any(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some()));
        put("measured beside", if measured { "yes" } else { "no" });
        let foods = self.mine.iter().filter(|f| matches!(f.item, Item::Food(_))).count();
        put("foods", ["0", "1", "2", "3"][foods.min(3)]);
        let alone = t.row(a, b).iter().enumerate().all(|(k, w)| {
            (from..to).contains(&(a + k)) || !w.is_spoken() || w.is_any("and then so now okay some also a the of")
        });
        put("alone", if alone { "yes" } else { "no" });
        put("far in", ["0", "1", "2", "3", "4", "5", "6", "7"][(from - a).min(7)]);
        let cues = c.cues;
        for (name, holds) in [
            ("optional", cues.optional),
            ("taste", cues.taste),
            ("swap", cues.swap),
            ("keep", cues.keep),
            ("mind", cues.mind),
            ("called", cues.called),
            ("chatter", cues.chatter),
            ("unsure", cues.unsure),
        ] {
            if holds {
                put("cue", name);
            }
        }
        // "The last thing is the beef broth."
        let presented = (a..from).any(|k| {
            t.item(k).is_any("thing things ingredient ingredients")
                && t.row(k + 1, from).iter().any(|w| w.is_any("is are was that's you"))
        });
        put("thing", if presented { "yes" } else { "no" });
        // "I put some sprinkles on these, but of course that's optional": said of what was named last.
        let after = (b..t.len().min(b + SOON)).take_while(|k| !matches!(t.item(*k).kind, Kind::Break(_))).count();
        put("left out after", if super::sort::cues(t, b, b + after).optional { "yes" } else { "no" });
        for w in t.row(a, b).iter().filter(|w| w.kind == Kind::Word && w.is_in(TELLING)) {
            put("holds", &w.text);
        }
        let head = self.said.name.rsplit(' ').next().map(fold).unwrap_or_default();
        put("titled", if self.title.split(' ').any(|w| fold(w) == head) { "yes" } else { "no" });
        let names = |title: &&&str| {
            let mut words = title.split([' ', '-']).map(fold);
            self.said
                .name
                .split(' ')
                .map(fold)
                .all(|w| words.clone().any(|o| o == w))
                .then(|| words.next_back() == Some(head.clone()))
        };
        let other = match self.others.iter().find_map(|o| names(&o)) {
            None => "no",
            Some(true) => "its head",
            Some(false) => "a word",
        };
        put("another dish's", other);
        put("prep", if self.said.prep.is_empty() { "no" } else { "yes" });
        put("to taste", if self.said.to_taste { "yes" } else { "no" });
        put("lines", ["0", "1", "2", "3", "4"][self.lines.min(4)]);
        let spoken = t.row(a, b).iter().filter(|w| w.is_spoken()).count();
        put("length", ["0", "2", "4", "6", "8", "10", "12"][(spoken / 2).min(6)]);
    }

    /// Whether it belongs on the list.
    pub fn counts(&self) -> bool {
        let weights = &*MENTIONS;
        let mut sum = weights.bias();
        self.signs(|sign, answer| sum += weights.of(sign, answer));
        sum > -3
    }
}
