//! Whether a dish opens at a clause: the signs that speak for it and against it, and the weights that add them up.
//!
//! No single cue settles where a dish begins. "The beans" may announce the next dish or the can in hand; what tells is the
//! sum of how the name stands in its clause, what was made before it, and what is measured after it. Each sign is a question
//! with an answer ("ahead = few"), each answer has a weight (`src/lexicon/weights/openings.txt`), and a dish opens where the sum is
//! positive.

use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use super::super::weights::OPENINGS;
use super::Named;
use super::opening::{announces_only, opening};
use super::planned::planned_dishes;
use super::title::{anywhere, free_title, is_weak, name_run, same_dish, title_at};
use super::topic::{self, Measured, RECENT, taste, told_again};
use crate::draft::Span;
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon};
use crate::recipe::Use;
use crate::token::{Kind, Token, Tokens, fold};

/// A name that may open a dish.
#[derive(Clone, Debug)]
pub struct Candidate {
    /// The name.
    pub title: String,
    /// Where it was said.
    pub span: Option<Span>,
    /// Its first token.
    pub from: usize,
    /// The token after its last.
    pub to: usize,
    /// How plainly it was announced: 0 not, 1 in passing, 2 as what is being made, 3 as the next, 4 by its number.
    pub strength: u8,
}

/// The draft as the signs see it.
pub struct View<'a> {
    /// Its tokens.
    pub tokens: &'a [Token],
    /// Its clauses.
    pub clauses: &'a [Sorted],
    /// Its findings.
    pub found: &'a [Found],
    /// The dishes she says she will make, the first ones first.
    pub first: Vec<Named>,
    /// The same with those named after "and then".
    pub planned: Vec<Named>,
    /// The first clause that measures a food.
    pub first_measure: usize,
    /// For each clause, how many foods it measures.
    pub amounts: Vec<usize>,
    /// The clauses that measure a food.
    pub measuring: Vec<usize>,
    /// For each clause, the last words of the foods it measures, plurals folded.
    pub foods: Vec<Vec<String>>,
    /// The foods that are measured, in order.
    pub measured: Vec<Measured>,
    /// For each clause, whether it ends a dish: how many it serves, how long it keeps, a goodbye.
    pub closes: Vec<bool>,
    /// Where each word stands, plurals folded: a name is looked for at every clause, so the draft is not walked for it.
    places: Vec<Vec<usize>>,
}

impl<'a> View<'a> {
    /// Looks a draft over.
    pub fn new(tokens: &'a [Token], clauses: &'a [Sorted], found: &'a [Found]) -> View<'a> {
        let (first, planned) = planned_dishes(tokens, clauses, found);
        let foods: Vec<Vec<String>> = clauses
            .iter()
            .map(|c| {
                let mine = if c.cues.story { &[] } else { found.row(c.found.0, c.found.1) };
                mine.iter()
                    .filter_map(|f| match &f.item {
                        Item::Food(x) if x.amount.is_some() => x.name.rsplit(' ').next().map(fold),
                        _ => None,
                    })
                    .collect()
            })
            .collect();
        let closes = clauses
            .iter()
            .map(|c| {
                let row = tokens.row(c.piece.from, c.piece.to);
                c.main == Use::Closing
                    || c.cues.keep
                    || c.cues.ahead
                    || found.row(c.found.0, c.found.1).iter().any(|f| matches!(f.item, Item::Yield(_)))
                    || row.iter().any(|t| t.is_in("ends a dish"))
            })
            .collect();
        let amounts: Vec<usize> = foods.iter().map(Vec::len).collect();
        let measuring: Vec<usize> = (0..amounts.len()).filter(|n| amounts[*n] > 0).collect();
        let first_measure = measuring.first().copied().unwrap_or(clauses.len());
        let mut places: Vec<Vec<usize>> = vec![Vec::new(); BUCKETS];
        for (n, t) in tokens.iter().enumerate() {
            places[bucket(&t.fold)].push(n);
        }
        let measured = topic::measured(tokens, clauses, found);
        View {
            tokens,
            clauses,
            found,
            first,
            planned,
            first_measure,
            amounts,
            measuring,
            foods,
            measured,
            closes,
            places,
        }
    }

    /// How often the words stand in a row among the tokens `from..to`, counted up to `most`.
    pub fn said(&self, words: &[String], from: usize, to: usize, most: usize) -> usize {
        let Some(word) = words.first() else { return 0 };
        let places = &self.places[bucket(word)];
        let first = places.partition_point(|p| *p < from);
        places[first..]
            .iter()
            .take_while(|p| **p + words.len() <= to)
            .filter(|p| words.iter().zip(self.tokens.row(**p, self.tokens.len())).all(|(w, t)| *t.fold == **w))
            .take(most)
            .count()
    }

    /// The names in clause `n` that may open a dish.
    pub fn candidates(&self, n: usize) -> Vec<Candidate> {
        let t = self.tokens;
        let c = self.clauses.item(n);
        let (from, to) = (c.piece.from, c.piece.to);
        let mut out: Vec<Candidate> = Vec::new();
        let add = |title: String, a: usize, b: usize, strength: u8, out: &mut Vec<Candidate>| {
            // "a greased bowl", "the glass bowl": a vessel, unless a food stands before it.
            let vessel = b > a
                && t.item(b - 1).is_any("bowl bowls skillet pot cup")
                && (a..b - 1).all(|k| lexicon().foods.folded(Tokens(t.row(k, b - 1))).is_none());
            // "These are the quick ones" speaks of pieces.
            let nothing = title.split(' ').all(|w| lexicon().has("no title", w))
                || t.row(a, (b + 1).min(t.len())).iter().any(|w| w.is("ones"));
            // "Nine lasagna noodles boiled", "lots of chutney": an amount or a preparation, no name.
            let first = Tokens(t.row(a, b.max(a)));
            let dish = b > a + 2 && lexicon().dishes.folded(Tokens(t.row(b - 1, b))).is_some();
            // "The other egg is for painting": what is done, no dish of a list.
            let doing = b == a + 1
                && t.item(a).text.ends_with("ing")
                && lexicon().dishes.folded(first).is_none()
                && lexicon().foods.folded(first).is_none()
                && lexicon().components.folded(first).is_none()
                && !self.planned.iter().any(|p| same_dish(&p.0, &title));
            let odd = doing
                || crate::grammar::number::number(first).is_ok() && !dish
                || first.is_in("no name begins")
                || b > a + 1
                    && lexicon().prep.exact(Tokens(t.row(b - 1, b))).is_some()
                    && lexicon().dishes.folded(Tokens(t.row(b - 1, b))).is_none()
                || lexicon().tools.folded(first).is_some_and(|f| f.0 == b - a)
                || t.row(a, b.max(a)).iter().any(|w| w.is_in("never in a name"));
            // "The noodles were crunchy" tells of another time; frosting is a part of something.
            let forgot = strength < 3 && t.row(from, to).iter().any(|w| w.is_any("forgot forget forgotten"));
            let told = forgot || strength < 2 && t.get(b).is_some_and(|w| w.is_any("was were had went came got said"));
            let of_another =
                lexicon().has("never a dish", &title) && !self.planned.iter().any(|p| same_dish(&p.0, &title));
            if a < b
                && !told
                && !of_another
                && !odd
                && !vessel
                && !nothing
                && !title.is_empty()
                && !out.iter().any(|o: &Candidate| o.from == a && o.to == b)
            {
                out.push(Candidate {
                    title,
                    span: Some(t.item(a).span.to(t.item(b - 1).span)),
                    from: a,
                    to: b,
                    strength,
                });
            }
        };
        let expected = n > 0 && announces_only(t, self.clauses.item(n - 1)) && c.piece.opens;
        // A paragraph may begin with a word or two before the clause that names the dish.
        let before = n.checked_sub(1).map(|p| &self.clauses.item(p).piece);
        let breaks = c.piece.breaks || before.is_some_and(|p| p.breaks && p.to - p.from <= 4);
        if let Some(o) = opening(t, c, n, &self.planned, expected, breaks) {
            let (a, b) = match o.span {
                Some(s) => (
                    t.partition_point(|t| t.span.start < s.start),
                    t.partition_point(|t| t.span.end <= s.end && t.span.start < s.end),
                ),
                None => (from, from + 1),
            };
            // A planned name carries the span of the plan: its place here is the front of the clause.
            let (a, b) = if (from..to).contains(&a) && b <= to { (a, b.max(a + 1)) } else { (c.core.min(to - 1), to) };
            add(o.title, a, b, o.strength, &mut out);
        }
        for at in from..to.min(from + 16) {
            let edge =
                at == from || t.item(at - 1).kind != Kind::Word || lexicon().has("before title", &t.item(at - 1).text);
            if !edge {
                continue;
            }
            let Some((a, b)) = name_run(t, at, to) else { continue };
            let said = super::title::named(t.row(a, b));
            let exact = self.planned.iter().find(|p| same_dish(&p.0, &said));
            let last = || {
                self.planned
                    .iter()
                    .find(|p| b - a == 1 && p.0.rsplit(' ').next().is_some_and(|w| fold(w) == *t.item(a).fold))
            };
            if let Some(p) = exact.or_else(last) {
                let longer = said.split(' ').count() > p.0.split(' ').count();
                add(if longer { said } else { p.0.clone() }, a, b, 0, &mut out);
            }
        }
        let mut at = from;
        while at < to && out.len() < 6 {
            match anywhere(t, at, to) {
                Some((title, a, b)) => {
                    add(title, a, b, 0, &mut out);
                    at = b.max(at + 1);
                }
                None => break,
            }
        }
        // A weak name or one of no list, where the clause begins with it or where she says what a thing is called.
        let start = (from..to)
            .find(|k| t.item(*k).is_spoken() && !lexicon().has("before name", &t.item(*k).text))
            .unwrap_or(to);
        if let Some((a, b)) = name_run(t, start, to) {
            add(super::title::named(t.row(a, b)), a, b, 0, &mut out);
        }
        // "Which brings me to Mama's carrots", "you can't have it without the cucumbers", "okay queso, two pounds".
        if self.amounts[n] == 0 || c.piece.opens {
            // "While it's simmering, egg cups", "and four, ranch mix": what stands between commas.
            let comma = |k: usize| t.item(k - 1).kind == Kind::Comma && self.amounts[n] == 0;
            let edge = |k: usize| {
                let w = t.item(k - 1);
                let led = w.kind == Kind::Word && (lexicon().has("before any name", &w.text) || w.text.ends_with("'s"));
                // "With them we have kumara wedges": no name begins with "have".
                (led || comma(k)) && !t.item(k).is_in("no name begins") && !t.item(k).is_in("before any name")
            };
            let mut k = from + 1;
            while k < to.min(from + 18) && out.len() < 8 {
                match name_run(t, k, to).filter(|_| edge(k)) {
                    Some((a, b)) => {
                        add(super::title::named(t.row(a, b)), a, b, 0, &mut out);
                        k = b.max(k + 1);
                    }
                    None => k += 1,
                }
            }
        }
        for k in from..to.saturating_sub(1).min(from + 14) {
            let frame = t.item(k).is_any("called making make doing")
                || t.item(k).is_any("is are it's that's")
                    && (k == from
                        || t.item(k - 1).is_any("this these and today tonight name")
                        || !t.item(k - 1).is_spoken());
            if !frame {
                continue;
            }
            if let Some((title, a, b)) = title_at(t, k + 1, to).or_else(|| free_title(t, k + 1, to)) {
                add(title, a, b, 0, &mut out);
            }
        }
        // "So the chicken goes in" puts a food into the pot in hand, whatever the chicken is called.
        let lately = self.clauses.item(n.saturating_sub(6)).piece.from;
        out.retain(|c| {
            let head = &t.item(c.to.min(to) - 1).fold;
            c.strength >= 2
                || predicate(t.row(c.to.min(to), to)) != "put in"
                || !t.row(lately, from).iter().any(|w| w.fold == *head)
        });
        out
    }

    /// What speaks for and against a dish that opens at clause `n` with this name, after the dishes opened so far: the
    /// clause and the name of each.
    pub fn signs(&self, n: usize, cand: &Candidate, opened: &[(usize, &str)], mut put: impl FnMut(&'static str, &str)) {
        let since = opened.last().map(|o| o.0);
        let t = self.tokens;
        let c = self.clauses.item(n);
        let lists = lexicon();
        let yes = |b: bool| if b { "yes" } else { "no" };
        let (from, to) = (c.piece.from, c.piece.to);
        put("strength", ["none", "passing", "made", "next"][usize::from(cand.strength.min(3))]);
        put(
            "strength and break",
            match (cand.strength.min(3), c.piece.breaks) {
                (3, true) => "next, break",
                (2, true) => "made, break",
                (_, true) => "break",
                _ => "no",
            },
        );
        // In talk without stops a clause is all there is.
        let run_on = !c.piece.opens && self.unstopped(n);
        let sentence = if c.piece.breaks {
            "paragraph"
        } else if c.piece.opens {
            "sentence"
        } else if run_on {
            "run-on"
        } else {
            "clause"
        };
        put("sentence", sentence);
        let words = cand.title.split(' ').count();
        put("words", ["0", "1", "2", "3", "4"][words.min(4)]);
        let row = t.row(cand.from, cand.to);
        let last = Tokens(&row[row.len() - 1..]);
        let two = Tokens(&row[row.len().saturating_sub(2)..]);
        let known = lists.dishes.folded(last).is_some() || lists.dishes.folded(two).is_some_and(|d| d.0 == 2);
        let food = lists.foods.folded(Tokens(row)).is_some_and(|f| f.0 == row.len());
        let weak = is_weak(&cand.title);
        let kind = match (known, weak, food) {
            (true, false, _) => "dish",
            (true, true, _) => "weak dish",
            (_, _, true) => "food",
            (_, true, _) => "weak",
            _ => "unknown",
        };
        put("kind", kind);
        put("name ends in", &row[row.len() - 1].fold);
        // What the name is made of: "the pork chops" may be a dish, "the onions" hardly.
        let stuff = (0..row.len()).rev().find_map(|k| {
            let (_, food) = lists.foods.folded(Tokens(&row[k..]))?;
            STUFFS.split(' ').find(|t| food.is(t))
        });
        let stuff = stuff.unwrap_or("-");
        // How the name stands.
        let place = self.planned.iter().position(|p| same_dish(&p.0, &cand.title));
        let planned = match place {
            Some(_) if self.planned.len() >= 2 => "one of several",
            Some(_) => "alone",
            None if self.planned.is_empty() => "no plan",
            None => "no",
        };
        // Which of the planned dishes this would be: the next one is the likelier.
        let done = |p: &Named| opened.iter().any(|o| same_dish(o.1, &p.0));
        let next = self.planned.iter().position(|p| !done(p));
        let order = match place {
            None => "-",
            Some(p) if done(&self.planned[p]) => "done",
            Some(p) if Some(p) == next && p + 1 == self.planned.len() => "next and last",
            Some(p) if Some(p) == next => "next",
            Some(_) => "later",
        };
        put("order", order);
        let left = self.planned.iter().filter(|p| !done(p)).count();
        let left = if self.planned.len() < 2 { "-" } else { ["none", "one", "two", "more"][left.min(3)] };
        put("left", left);
        put("left, planned", &pair(left, planned));
        // Whether the introduction or an earlier dish has named it.
        let mine = crate::token::keys(&cand.title);
        // Up to the first food that is measured; in talk without stops its clause may hold the introduction as well.
        let early = self.clauses.get(self.first_measure).map_or(0, |c| {
            let measured = |f: &&Found| matches!(&f.item, Item::Food(x) if x.amount.is_some());
            self.found.row(c.found.0, c.found.1).iter().find(measured).map_or(c.piece.from, |f| f.from)
        });
        let introduced = self.said(&mine, 0, early.min(cand.from), 1) > 0;
        let head_said = self.said(&mine[mine.len().saturating_sub(1)..], 0, early.min(cand.from), 1) > 0;
        put("head introduced", yes(head_said));
        put("head introduced, kind", &pair(yes(head_said), kind));
        put("introduced", yes(introduced));
        let mentions = self.said(&mine, early.min(cand.from).max(cand.from.saturating_sub(SITTING)), cand.from, 2);
        put("mentioned before", ["no", "once", "often"][mentions.min(2)]);
        let later = self.said(&mine, cand.to, t.len().min(cand.to + SITTING), 2);
        put("mentioned after", ["no", "once", "often"][later.min(2)]);
        put("introduced, kind", &pair(yes(introduced), kind));
        let part = lists.components.folded(last).is_some();
        put("part", yes(part));
        put("before", neighbour((from..cand.from).next_back().map(|k| t.item(k))));
        let second = if cand.from >= from + 2 { Some(t.item(cand.from - 2)) } else { None };
        put("second before", neighbour(second));
        put("after", follower(t.get(cand.to)));
        let predicate = predicate(t.row(cand.to.min(to), to));
        put("predicate", predicate);
        put("predicate, kind", &pair(predicate, kind));
        put("first word", &t.item(from).text);
        put("first two", &{
            let a = t.get(from + 1).filter(|_| from + 1 < to).map_or("-", |t| &t.text);
            format!("{} {a}", t.item(from).text)
        });
        let lead = (from..cand.from).all(|k| !t.item(k).is_spoken() || lists.has("before name", &t.item(k).text));
        let whole = t.get(cand.to).is_none_or(Token::ends) || cand.to >= to;
        let stands = match (lead, whole) {
            (true, true) => "alone",
            (true, false) => "front",
            (false, true) => "end",
            _ => "within",
        };
        put("stands", stands);
        put("stuff", stuff);
        put("stuff, stands", &pair(stuff, stands));
        put("stuff, kind", &pair(stuff, kind));
        put("stands where", &pair(stands, sentence));
        put("stands, kind", &pair(stands, kind));
        put("stands, planned", &pair(stands, planned));
        put("far in", ["0", "1", "2", "3", "4", "5", "6"][(cand.from - from).min(6)]);
        let verb = (from..cand.from).rev().find_map(|k| lists.verbs.exact(Tokens(t.row(k, cand.from))).map(|v| v.1));
        put(
            "verb",
            match verb {
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
            },
        );
        put(
            "use",
            match c.main {
                Use::Action => "action",
                Use::Ingredient => "ingredient",
                Use::Remark => "remark",
                Use::Chatter => "left out",
                _ => "other",
            },
        );
        put("story", yes(c.cues.story));
        put("measures here", yes(self.amounts[n] > 0));
        let length = (from..to).filter(|k| t.item(*k).is_spoken()).count();
        put("length", band(length, &[(2, "1"), (4, "3"), (8, "5"), (14, "9")], "15"));
        // What was made before.
        let start = since.unwrap_or(0);
        let held: usize = self.amounts[start..n].iter().sum();
        let held_word = match held {
            0 => "none",
            1 => "one",
            2..=3 => "few",
            4..=6 => "some",
            _ => "many",
        };
        put("held", held_word);
        put("stands, held", &pair(stands, held_word));
        let full = if held >= 3 { "full" } else { "not full" };
        put("stuff, full", &pair(stuff, full));
        put("stands where, full", &pair(stands, &pair(sentence, full)));
        put(
            "strength, sentence, full",
            &pair(["0", "1", "2", "3"][usize::from(cand.strength.min(3))], &pair(sentence, full)),
        );
        put("planned, stands, full", &pair(planned, &pair(stands, full)));
        put("kind, stands, sentence", &pair(kind, &pair(stands, sentence)));
        put("planned, held", &pair(planned, held_word));
        put("strength, held", &pair(["none", "passing", "made", "next"][usize::from(cand.strength.min(3))], held_word));
        let steps = self.clauses.row(start, n).iter().filter(|c| c.main == Use::Action).count();
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
        let near = n.saturating_sub(6).max(start);
        let closed = self.closes[near..n].iter().any(|c| *c);
        put("closed", yes(closed));
        let timed = self
            .clauses
            .row(n.saturating_sub(4).max(start), n)
            .iter()
            .any(|c| self.found.row(c.found.0, c.found.1).iter().any(|f| matches!(f.item, Item::Time(_))));
        let over = match (closed, timed) {
            (true, _) => "closed",
            (_, true) => "timed",
            _ => "no",
        };
        put("over, stands", &pair(over, stands));
        put("over, kind", &pair(over, kind));
        put("over, planned", &pair(over, planned));
        put("over, sentence", &pair(over, sentence));
        put("over, held", &pair(over, held_word));
        let in_hand = self.amounts[n.saturating_sub(2).max(start)..n].iter().sum::<usize>() > 0;
        put("in hand, stands", &pair(yes(in_hand), stands));
        put("in hand, kind", &pair(yes(in_hand), kind));
        put(
            "closed and held",
            match (closed, held) {
                (true, 4..) => "yes, full",
                (true, _) => "yes",
                (false, 4..) => "full",
                _ => "no",
            },
        );
        let quiet = self.amounts[start..n].iter().rev().take_while(|a| **a == 0).count();
        put("quiet", band(quiet, &[(1, "0"), (4, "2"), (9, "5"), (16, "10")], "17"));
        // What is measured after.
        let window = |k: usize| -> usize { self.amounts[n..(n + k).min(self.amounts.len())].iter().sum() };
        let word = |n: usize| ["none", "one", "two", "three", "more"][n.min(4)];
        put("ahead soon", word(window(3)));
        put("ahead", word(window(8)));
        put("ahead far", word(window(16) / 2));
        let had = self.foods[start..n].iter().flatten().any(|f| mine.contains(f));
        put("had its food", yes(had && since.is_some()));
        let gets = self.foods[n..(n + 6).min(self.foods.len())].iter().flatten().any(|f| mine.contains(f));
        put("gets its food", yes(gets));
        let old: Vec<&String> = self.foods[start..n].iter().flatten().collect();
        let again = self.foods[n..(n + 12).min(self.foods.len())].iter().flatten().filter(|f| old.contains(f)).count();
        put("measured again", if since.is_some() { word(again) } else { "first" });
        // The kinds of words that lead up to the name and away from it: "next is our", "that's when you do your".
        let lead_up = self.classes(from, cand.from, 5);
        let away = self.classes(cand.to.min(to), to.min(cand.to + 3), 3);
        put("lead-up", &lead_up);
        put("lead-up, kind", &pair(&lead_up, kind));
        put("lead-up, full", &pair(&lead_up, &pair(full, sentence)));
        put("away", &away);
        put("lead-up, away", &pair(&lead_up, away.split(' ').next().unwrap_or("")));
        put("away, kind", &pair(&away, kind));
        // What the talk turns to: the foods on either side.
        let here = t.item(cand.from).span.start;
        let next = self.measured.partition_point(|m| m.at < here);
        let first = self.measured.partition_point(|m| m.clause < start);
        let had = &self.measured[first.min(next).max(next.saturating_sub(RECENT))..next];
        let far = self.measured.partition_point(|m| m.clause < n + 12);
        let gets = &self.measured[next..far.max(next).min(next + 6)];
        let before = if since.is_none() { "-" } else { taste(&had[had.len().saturating_sub(8)..]) };
        put("taste before, after", &pair(before, taste(gets)));
        put("taste after, kind", &pair(taste(gets), kind));
        put("next food", gets.first().map_or("-", |m| &m.head));
        put("next unit", gets.first().map_or("-", |m| m.unit));
        put("last food", had.last().map_or("-", |m| &m.head));
        put("last unit", had.last().map_or("-", |m| m.unit));
        let next_had = gets.first().map_or("none", |m| yes(had.iter().any(|o| o.head == m.head)));
        put("next food had", next_had);
        put("told again", told_again(had, gets));
        let next_own = self.amounts.get(n + 1).is_some_and(|a| *a > 0) || self.amounts[n] > 0;
        put("measured at once, kind", &pair(yes(next_own), kind));
    }

    /// Whether the clauses around this one run on without a stop.
    pub(super) fn unstopped(&self, n: usize) -> bool {
        let from = n.saturating_sub(6);
        let to = (n + 6).min(self.clauses.len());
        to - from >= 6 && self.clauses.row(from + 1, to).iter().all(|c| !c.piece.opens)
    }

    /// The classes of the last `most` words of a stretch, one letter group each; words of no class are "x".
    fn classes(&self, from: usize, to: usize, most: usize) -> String {
        let lists = lexicon();
        let mut out: Vec<&str> = Vec::new();
        for k in from..to {
            let t = self.tokens.item(k);
            let class = if !t.is_spoken() {
                ","
            } else if let Some(class) = lists.class(&t.text) {
                class
            } else {
                let one = Tokens(self.tokens.row(k, to));
                match lists.verbs.exact(one) {
                    Some((_, v)) if v.class == VerbClass::Everyday => "do",
                    Some(_) => "cook",
                    None if lists.foods.folded(one).is_some() => "food",
                    None if crate::grammar::number::number(one).is_ok() => "number",
                    None => "x",
                }
            };
            if out.last() != Some(&class) || class == "," {
                out.push(class);
            }
        }
        let skip = if out.len() > most && from < to { out.len() - most } else { 0 };
        if out.is_empty() { "-".into() } else { crate::letters::join(&out[skip..], " ") }
    }

    /// The sum of the weights of the signs: above zero a dish opens.
    pub fn weigh(&self, n: usize, cand: &Candidate, opened: &[(usize, &str)]) -> i32 {
        let weights = &*OPENINGS;
        let mut sum = weights.bias();
        self.signs(n, cand, opened, |slot, value| sum += weights.of(slot, value));
        sum
    }
}

/// The band a count falls into: the first whose top it does not pass, else the last.
pub(super) fn band(count: usize, tops: &[(usize, &'static str)], last: &'static str) -> &'static str {
    tops.iter().find(|b| count <= b.0).map_or(last, |b| b.1)
}

/// Two answers as one.
pub(super) fn pair(a: &str, b: &str) -> String {
    let mut both = String::with_capacity(a.len() + b.len() + 2);
    both.push_str(a);
    both.push_str(", ");
    both.push_str(b);
    both
}

/// The word before a name as an answer: the word, a comma for any mark, a dash for none.
pub(super) fn neighbour(token: Option<&Token>) -> &str {
    match token {
        None => "-",
        Some(t) if !t.is_spoken() => ",",
        Some(t) => &t.text,
    }
}

/// The word after a name as an answer: the word, "stop", a comma for any other mark, "end" for none.
pub(super) fn follower(token: Option<&Token>) -> &str {
    match token {
        None => "end",
        Some(t) if t.ends() => "stop",
        other => neighbour(other),
    }
}

/// The kinds of food that a name may be made of, what tells most first.
const STUFFS: &str = "meat groundmeat poultry cured fish shellfish pasta rice pulse bread egg dairy fat sweet fruit stock produce \
                      condiment spice leavening";

/// A name is looked for within so many words before and after; a sitting has a few thousand.
pub(super) const SITTING: usize = 5000;

/// Words share a bucket where their hashes end alike; a map would cost eight kilobytes of wasm.
const BUCKETS: usize = 4096;

fn bucket(word: &str) -> usize {
    word.bytes().fold(5381usize, |h, b| h.wrapping_mul(33) ^ usize::from(b)) % BUCKETS
}

/// What is said of a name right after it: "goes in" puts food into the pot in hand, "goes first" turns to a dish.
fn predicate(row: &[Token]) -> &'static str {
    let lists = lexicon();
    let Some(word) = row.first() else { return "end" };
    let then = |set: &str| row.get(1).is_some_and(|t| lists.has(set, &t.text));
    if word.ends() {
        "stop"
    } else if !word.is_spoken() {
        ","
    } else if word.is_any("go goes going went") {
        if then("put where") { "put in" } else { "turn" }
    } else if word.is_any("is are was were") {
        if then("state") { "state" } else { "being" }
    } else if lists.has("takes", &word.text) {
        "takes"
    } else if lists.has("put where", &word.text) {
        "where"
    } else {
        "other"
    }
}
