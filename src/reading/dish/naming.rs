//! What a dish is called: the best of the names that were said of it.
//!
//! The name that opens a dish may be its last word only ("the rice"); the whole one often stands in the introduction ("the
//! red rice my mother-in-law makes") or at the very end ("and that's your Swiss steak"). All names said from the
//! introduction to the end of the dish are weighed.

use super::super::scan::unlisted::unknown;
use super::super::weights::TITLES;
use super::evidence::{Candidate, View, follower, neighbour, pair};
use super::title::{is_weak, same_dish};
use crate::item::Items;
use crate::lexicon::lexicon;
use crate::lexicon::makings::makings;
use crate::token::{Tokens, fold};

/// The clauses of a dish and what stands for its name so far.
pub struct Stretch<'a> {
    /// Its place among the dishes.
    pub dish: usize,
    /// Its first clause.
    pub from: usize,
    /// The clause after its last.
    pub to: usize,
    /// The name that opened it; empty where none did.
    pub opened: &'a str,
    /// The names that opened the others.
    pub others: Vec<&'a str>,
    /// The foods it measures first, by their places in the list of makings.
    pub foods: Vec<usize>,
}

/// A name that was said, and how.
pub struct Said {
    /// The plainest of its mentions.
    pub candidate: Candidate,
    /// The clause of that mention.
    pub clause: usize,
    /// How often it was said.
    pub times: usize,
}

/// A dish may be called by so many words of no list.
const UNLISTED: usize = 6;
/// How much of its foods goes into dishes of that name, as an answer.
fn goes_with(title: &str, foods: &[usize]) -> &'static str {
    match makings().share(&makings().called(title).dishes, foods) {
        i32::MIN..0 => "none",
        0..150 => "no",
        150..300 => "little",
        300..450 => "some",
        450..600 => "much",
        600.. => "all",
    }
}

impl View<'_> {
    /// The names said from the introduction to the end of the dish.
    pub fn names(&self, s: &Stretch<'_>) -> Vec<Said> {
        let mut out: Vec<Said> = Vec::new();
        let intro = 0..self.first_measure.min(s.from);
        for n in intro.chain(s.from..s.to) {
            for candidate in self.candidates(n) {
                let key = crate::token::keys;
                // A plain food that is measured is an ingredient, unless the dish opened with it or plainly was said to be it.
                let words = crate::token::words(&candidate.title);
                let food = lexicon().foods.folded(Tokens(&words)).is_some_and(|f| f.0 == words.len());
                let dish = lexicon().dishes.folded(Tokens(&words)).is_some();
                if food
                    && !dish
                    && candidate.strength == 0
                    && !same_dish(s.opened, &candidate.title)
                    && !self.planned.iter().any(|p| same_dish(&p.0, &candidate.title))
                {
                    continue;
                }
                match out.iter_mut().find(|o| key(&o.candidate.title) == key(&candidate.title)) {
                    Some(o) => {
                        o.times += 1;
                        if candidate.strength > o.candidate.strength {
                            o.candidate = candidate;
                            o.clause = n;
                        }
                    }
                    None => out.push(Said { candidate, clause: n, times: 1 }),
                }
            }
        }
        self.unlisted_names(s, &mut out);
        out
    }

    /// Words of no list that are said again and again: "timpana", "chislic".
    fn unlisted_names(&self, s: &Stretch<'_>, out: &mut Vec<Said>) {
        let t = self.tokens;
        let intro = 0..self.first_measure.min(s.from);
        let mut added = 0;
        for n in intro.chain(s.from..s.to) {
            let piece = self.clauses.item(n).piece;
            for k in piece.from..piece.to {
                let word = t.item(k);
                let opens = k == 0 || !t.item(k - 1).is_spoken();
                if added >= UNLISTED
                    || word.text.len() < 4
                    || word.capital && !opens
                    || !unknown(word)
                    || out.iter().any(|o| o.candidate.title.split([' ', '-']).any(|w| fold(w) == *word.fold))
                    || self.said(&[fold(&word.text)], 0, t.len(), 2) < 2
                {
                    continue;
                }
                let title = word.text.to_string();
                let candidate = Candidate { title, span: Some(word.span), from: k, to: k + 1, strength: 0 };
                out.push(Said { candidate, clause: n, times: 2 });
                added += 1;
            }
        }
    }

    /// What speaks for and against a name as the title of a dish.
    pub fn name_signs(&self, s: &Stretch<'_>, name: &Said, mut put: impl FnMut(&'static str, &str)) {
        let t = self.tokens;
        let lists = lexicon();
        let cand = &name.candidate;
        let yes = |b: bool| if b { "yes" } else { "no" };
        let words = crate::token::keys(&cand.title);
        put("words", ["0", "1", "2", "3", "4", "5"][words.len().min(5)]);
        let row = &t[cand.from..cand.to];
        let last = Tokens(&row[row.len() - 1..]);
        let two = Tokens(&row[row.len().saturating_sub(2)..]);
        let known = lists.dishes.folded(last).is_some() || lists.dishes.folded(two).is_some_and(|d| d.0 == 2);
        let food = lists.foods.folded(Tokens(row)).is_some_and(|f| f.0 == row.len());
        let kind = match (known, is_weak(&cand.title), food) {
            (true, false, _) => "dish",
            (true, true, _) => "weak dish",
            (_, _, true) => "food",
            (_, true, _) => "weak",
            _ => "unknown",
        };
        put("kind", kind);
        put("kind, words", &pair(kind, ["0", "1", "2", "3", "4"][words.len().min(4)]));
        let opened = if s.opened.is_empty() {
            "none"
        } else if words == crate::token::keys(s.opened) {
            "this"
        } else if same_dish(s.opened, &cand.title) {
            if words.len() > s.opened.split(' ').count() { "longer" } else { "shorter" }
        } else {
            "another"
        };
        put("opened", opened);
        put("opened, kind", &pair(opened, kind));
        put("other's", yes(s.others.iter().any(|o| same_dish(o, &cand.title))));
        let place = self.planned.iter().position(|p| same_dish(&p.0, &cand.title));
        let planned = match place {
            None if self.planned.is_empty() => "no plan",
            None => "no",
            Some(p) if p == s.dish => "here",
            Some(_) => "elsewhere",
        };
        put("planned", planned);
        put("planned, opened", &pair(planned, opened));
        put("times", ["0", "1", "2", "3"][name.times.min(3)]);
        put("strength", ["none", "passing", "made", "next"][usize::from(cand.strength.min(3))]);
        let first_measured = (s.from..s.to).find(|n| self.amounts[*n] > 0).unwrap_or(s.to);
        let third = s.to - (s.to - s.from) / 4;
        let stands = match name.clause {
            n if n < s.from => "introduction",
            n if n == s.from => "opening",
            n if n <= first_measured => "before it is measured",
            n if n >= third => "at the end",
            _ => "within",
        };
        put("stands", stands);
        put("stands, kind", &pair(stands, kind));
        let c = self.clauses.item(name.clause);
        put("before", neighbour((c.piece.from..cand.from).next_back().map(|k| &t[k])));
        put("after", follower(t.get(cand.to)));
        put("first word", &t[c.piece.from].text);
        let story = c.cues.story;
        put("story", yes(story));
        let mine: Vec<&String> = self.foods[s.from..s.to].iter().flatten().collect();
        let measured = words.iter().filter(|w| mine.contains(w)).count();
        put(
            "its foods",
            if measured == 0 {
                "no"
            } else if measured == words.len() {
                "all"
            } else {
                "yes"
            },
        );
        let often = self.said(&words, 0, t.len(), 5);
        put("often", ["0", "1", "2", "3", "4", "5"][often.min(5)]);
        put("often, kind", &pair(["0", "1", "2", "3", "4"][often.min(4)], kind));
        put("goes with its foods", goes_with(&name.candidate.title, &s.foods));
    }

    /// The sum of the weights of those signs.
    pub fn weigh_name(&self, s: &Stretch<'_>, name: &Said) -> i32 {
        let weights = &*TITLES;
        let mut sum = weights.bias();
        self.name_signs(s, name, |sign, answer| sum += weights.of(sign, answer));
        sum
    }
}
