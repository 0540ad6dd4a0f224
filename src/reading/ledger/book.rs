//! The lines of a card as they grow: opened, measured, added to, taken back, used in parts.

use super::{Again, Dispute, Entry, Ledger};
use crate::draft::Span;
use crate::grammar::amount::SaidAmount;
use crate::grammar::food::{Quantifier, SaidFood};
use crate::lexicon::{lexicon, tagged};
use crate::measure::{Amount, Dimension, Ratio, Unit};
use crate::recipe::{Line, Part};
use crate::token::{Token, Tokens, fold};

/// The words that tell a food: folded, without neutral ones.
pub(super) fn key(name: &str) -> Vec<String> {
    let all = crate::token::keys(name);
    let told: Vec<String> = all.iter().filter(|w| !lexicon().has("neutral", w)).cloned().collect();
    if told.is_empty() { all } else { told }
}

/// How well a mention fits a line: 3 the same words, 2 the same food said shorter or longer, 1 the same last word, 0 not.
fn fits(mention: &[String], line: &[String]) -> u8 {
    if mention == line || (mention.len() == line.len() && mention.iter().all(|w| line.contains(w))) {
        return 3;
    }
    // "Pasta water" is no pasta.
    let made = mention.len() > line.len()
        && mention.last() != line.last()
        && mention.last().is_some_and(|w| lexicon().has("mixture", w));
    if made {
        return 0;
    }
    let within = |s: &[String], l: &[String]| s.iter().all(|w| l.contains(w));
    if within(mention, line) || within(line, mention) {
        let (short, long) = if mention.len() < line.len() { (mention, line) } else { (line, mention) };
        // "butter" is no "peanut butter" and "sugar" no "brown sugar" where both are measured; as a mention they may be.
        let described = long.iter().filter(|w| !short.contains(w)).all(|w| {
            let word = [Token::word(w)];
            lexicon().describers.exact(Tokens(&word)).is_some() || lexicon().prep.exact(Tokens(&word)).is_some()
        });
        return if described { 2 } else { 1 };
    }
    u8::from(mention.last() == line.last() && mention.len() == 1)
}

/// Whether the short name of such a food stands for a longer one: "chicken" for chicken thighs, but "oil" for no sesame oil.
fn names_a_kind(tags: &str) -> bool {
    tagged(tags, "meat poultry fish produce fruit pasta stock rice pulse")
}

/// The same amount within a twentieth, in whatever measure.
fn alike(a: Amount, b: Amount) -> bool {
    let Some(other) = a.unit().filter(|u| Some(*u) != b.unit()).and_then(|u| b.to(u)) else { return false };
    let off = if a.low() > other.low() { a.low() - other.low() } else { other.low() - a.low() };
    off * Ratio::whole(20) <= a.low()
}

/// A splash, a drop, a drizzle, a glug.
fn trickles(unit: Unit) -> bool {
    matches!(unit, Unit::Splash | Unit::Drop | Unit::Drizzle | Unit::Glug)
}

/// Whether both figures of a food go in: where the first stands, whether in the same part of the dish, the food's tags.
type Both<'a> = dyn Fn((usize, usize), bool, &str) -> bool + 'a;

#[derive(Clone, Copy)]
pub(super) struct Context<'a> {
    pub correcting: bool,
    pub near: bool,
    pub conditional: bool,
    pub told: bool,
    pub aside: bool,
    pub joined: bool,
    pub restates: bool,
    pub explains: bool,
    pub last: Option<usize>,
    pub recap: bool,
    pub action: bool,
    pub negative: bool,
    /// A food without an amount belongs on the list.
    pub counts: bool,
    /// Two people speak: one puts the other right.
    pub dialogue: bool,
    /// "So it's a whole pound of sausage": the figure that counts.
    pub settles: bool,
    /// "the quarter cup of syrup": an amount that was named before.
    pub definite: bool,
    /// "the second stick of butter": which of several.
    pub ordinal: Option<i64>,
    /// "one egg … and the other one": one of several that were counted.
    pub one_of_them: bool,
    /// Where the food was measured before, both figures go in.
    pub both: &'a Both<'a>,
    /// The clause and the finding.
    pub at: (usize, usize),
}

/// How an amount without a food is said.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bare {
    /// It takes the figure back.
    pub correcting: bool,
    /// Nothing else is said in its clause.
    pub alone: bool,
    /// "only half", "just one".
    pub only: bool,
    /// "could be a whole cup": the most it may be.
    pub up_to: bool,
}

impl Ledger {
    /// The line a mention means: in its own part of the dish first, then the latest.
    ///
    /// A food of another name on the list is the same only where the words that differ tell nothing ("unsalted").
    fn find_food(&self, said: &SaidFood, mention: &[String], group: &Option<String>, least: u8) -> Option<usize> {
        let n = self.find(mention, group, least)?;
        let other = said.food.map(|f| f.name).zip(self.foods[n]).is_some_and(|(a, b)| a != b);
        if !other || fits(mention, &self.keys[n]) == 3 {
            return Some(n);
        }
        let extra =
            |a: &[String], b: &[String]| a.iter().filter(|w| !b.contains(w)).all(|w| lexicon().has("same food", w));
        let longer = mention.len() > self.keys[n].len();
        let same = extra(mention, &self.keys[n]) && extra(&self.keys[n], mention);
        (same || said.amount.is_none() && !longer).then_some(n)
    }

    pub(super) fn find(&self, mention: &[String], group: &Option<String>, least: u8) -> Option<usize> {
        (0..self.lines.len())
            .map(|n| (fits(mention, &self.keys[n]), self.lines[n].group == *group, n))
            .filter(|s| s.0 >= least)
            .max_by_key(|s| (s.0 == 3 && s.1, s.0 >= 2 && s.1, s.0, s.1, s.2))
            .map(|s| s.2)
    }

    /// A line that was only named by the last word of what is measured now.
    fn named_only(&self, measured: &[String], group: &Option<String>) -> Option<usize> {
        let head = measured.last().filter(|h| measured.len() > 1 && *h != "pepper")?;
        (0..self.lines.len()).rev().find(|n| {
            let line = &self.lines[*n];
            self.keys[*n].len() == 1
                && self.keys[*n][0] == *head
                && line.amount.is_none()
                && !line.to_taste
                && (line.group == *group || line.group.is_none())
                && names_a_kind(self.tags[*n])
        })
    }

    pub(super) fn open(&mut self, said: &SaidFood, group: &Option<String>, span: Span) -> usize {
        self.lines.push(Line {
            name: said.name.clone(),
            amount: said.amount.map(|a| a.amount),
            package: said.package,
            prep: said.prep.clone(),
            to_taste: said.to_taste,
            group: group.clone(),
            spans: vec![span],
            ..Line::default()
        });
        self.keys.push(key(&said.name));
        self.hints.push(None);
        self.whole.push(None);
        self.foods.push(said.food.map(|f| f.name));
        self.tags.push(said.food.map_or("", |f| f.tags));
        self.figure_at.push(None);
        self.vague.push(said.quantifier == Quantifier::Some);
        self.lines.len() - 1
    }

    /// Another food takes the place of one she does not have; without a figure of its own it takes that over as well.
    pub(super) fn replace(&mut self, line: usize, said: &SaidFood, span: Span) -> Entry {
        let held = &mut self.lines[line];
        held.name = said.name.clone();
        if let Some(a) = said.amount {
            held.amount = Some(a.amount);
            held.package = said.package;
        }
        held.prep = said.prep.clone();
        held.spans.insert(0, span);
        self.keys[line] = key(&said.name);
        self.foods[line] = said.food.map(|f| f.name);
        self.tags[line] = said.food.map_or("", |f| f.tags);
        Entry { line, part: None, partial: false, measured: true }
    }

    pub(super) fn mention(
        &mut self,
        said: &SaidFood,
        group: &Option<String>,
        span: Span,
        at: Context<'_>,
    ) -> Option<Entry> {
        let k = key(&said.name);
        if said.quantifier == Quantifier::Again {
            let line = self.find_food(said, &k, group, 2)?;
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        let points = !matches!(said.quantifier, Quantifier::None | Quantifier::Some);
        // "And slowly your broth, it's chicken broth": the longer name of what was just named.
        if let Some((line, _)) = self.waiting
            && at.last == Some(line)
            && self.lines[line].amount.is_none()
            && self.keys[line].len() == 1
            && k.len() > 1
            && k.last() == self.keys[line].last()
        {
            self.lines[line].name = said.name.clone();
            self.keys[line] = k.clone();
        }
        // "The second stock cube": one of several, which the line may not count yet.
        if let Some(which) = at.ordinal
            && said.amount.is_none_or(|a| a.bare || a.article)
            && let Some(line) = self.find_food(said, &k, group, 3)
            && let Some(held) = self.lines[line].amount
            && !held.is_range()
            && held.high().is_whole()
            && said.amount.map_or(held.unit().is_none(), |a| a.amount.unit() == held.unit())
        {
            let one = Amount::range(Ratio::ONE, Ratio::ONE, held.unit())?;
            if held.high() < Ratio::whole(which) && held.unit().is_none_or(|u| !u.is_loose()) {
                if self.lines[line].parts.is_empty() {
                    let first = self.lines[line].spans[0];
                    self.part(line, Some(held), first);
                }
                self.lines[line].amount = Amount::range(Ratio::whole(which), Ratio::whole(which), held.unit());
            }
            self.part(line, Some(one), span);
            return Some(Entry { line, part: Some(one), partial: true, measured: false });
        }
        let Some(amount) = said.amount else {
            let line = self.find_food(said, &k, group, if points { 1 } else { 2 });
            // "And some pepper" is the spice, whatever pepper was cut up before.
            let spice =
                |l: &usize| self.keys[*l].len() == 1 || self.keys[*l].iter().any(|w| w == "black" || w == "white");
            let line = line.filter(|l| k != ["pepper"] || said.quantifier != Quantifier::Some || spice(l));
            if let Some(line) = line {
                if at.recap {
                    return Some(Entry { line, part: None, partial: false, measured: false });
                }
                // "some parsley" in another part of the dish is a line of its own there.
                let elsewhere = self.lines[line].group != *group
                    && matches!(said.quantifier, Quantifier::None | Quantifier::Some)
                    && at.action;
                let fresh = elsewhere && said.quantifier == Quantifier::Some && fits(&k, &self.keys[line]) == 3;
                if !fresh {
                    return self.point(line, said, group, span);
                }
            }
            if at.negative || at.recap || at.conditional {
                return None;
            }
            // "The yolks go in with the sugar": of the eggs on the list.
            if k.last().is_some_and(|w| w == "yolk" || w == "white")
                && let Some(line) = (0..self.lines.len()).rev().find(|n| self.keys[*n].iter().any(|w| w == "egg"))
            {
                self.lines[line].spans.push(span);
                return Some(Entry { line, part: None, partial: true, measured: false });
            }
            let generic = lexicon().has("mixture", &said.name)
                || lexicon().has("mixture", &fold(&said.name))
                || k.len() == 1 && lexicon().has("mixture", &k[0]);
            // "Use half the cabbage": what was never counted is a half of one.
            if said.quantifier == Quantifier::Part
                && !generic
                && let Some(part) = said.part.filter(|p| *p < Ratio::ONE)
                && said.food.is_some_and(|f| f.is("produce") || f.is("fruit"))
                && !said.name.ends_with('s')
                && let Some(amount) = Amount::range(part, part, None)
            {
                let half = SaidFood { amount: Some(SaidAmount::plain(amount)), ..said.clone() };
                let line = self.open(&half, group, span);
                return Some(Entry { line, part: None, partial: false, measured: true });
            }
            if said.food.is_none()
                || generic
                || matches!(said.quantifier, Quantifier::Rest | Quantifier::Part | Quantifier::All)
            {
                return None;
            }
            // "The chicken" of chicken thighs, "some broth" of chicken broth.
            if said.food.is_some_and(|f| names_a_kind(f.tags))
                && k.len() == 1
                && k[0] != "pepper"
                && !at.conditional
                && let Some(line) = (0..self.lines.len()).rev().find(|n| {
                    // "Olives" are no olive oil.
                    let fat = tagged(self.tags[*n], "fat");
                    let kin = !fat || said.food.is_some_and(|f| f.is("fat"));
                    self.keys[*n].contains(&k[0]) && self.lines[*n].amount.is_some() && kin
                })
            {
                self.lines[line].spans.push(span);
                return Some(Entry { line, part: None, partial: false, measured: false });
            }
            if said.quantifier == Quantifier::The && self.keys.iter().any(|l| k.last().is_some_and(|w| l.contains(w))) {
                return None;
            }
            if !at.counts {
                return None;
            }
            let line = self.open(said, group, span);
            return Some(Entry { line, part: None, partial: false, measured: true });
        };
        if (at.told || at.aside && at.explains)
            && !at.correcting
            && let Some(line) = self.find_food(said, &k, group, 2).filter(|l| self.lines[*l].amount.is_some())
        {
            self.compare(line, amount.amount, said, span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        // "If it's dry, put another spoonful": for another case.
        if at.conditional
            && !at.correcting
            && let Some(line) = self.find_food(said, &k, group, 2)
        {
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: true, measured: false });
        }
        // "Puff pastry, four… four sheets of frozen puff pastry": the same amount under its longer name.
        if let Some(line) = at.last
            && self.lines[line].amount.is_some_and(|a| a.same_size(&amount.amount))
            && !amount.more
            && !at.joined
            && self.lines[line].group == *group
            && said.name.len() > self.lines[line].name.len()
            && said.name.ends_with(&format!(" {}", self.lines[line].name))
        {
            self.lines[line].name = said.name.clone();
            self.keys[line] = k;
            self.lines[line].spans.push(span);
            self.prep(line, said);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        // "a leek", "an egg" said in passing of what was counted.
        if amount.article
            && amount.amount.unit().is_none()
            && amount.package.is_none()
            && let Some(line) = self.find(&k, group, 2)
            && self.lines[line].amount.is_some()
        {
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        // "Eight cups, that's ten or twelve peaches": said another way.
        if at.explains
            && at.near
            && let Some(line) = at.last.filter(|l| fits(&k, &self.keys[*l]) >= 2)
            && let Some(held) = self.lines[line].amount.filter(|a| a.plus(amount.amount).is_none())
        {
            // "A mug of eggs, which is four eggs": the plain figure is the one to cook from.
            if held.unit().is_some_and(|u| u.is_loose() || u == Unit::Mug) {
                self.lines[line].amount = Some(amount.amount);
            }
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        // A splash or a drop of what is measured already thins or finishes: it makes no line of its own.
        if amount.amount.unit().is_some_and(trickles)
            && let Some(line) = self.find_food(said, &k, group, 2)
            && self.lines[line].group == *group
            && self.lines[line].amount.is_some_and(|a| a.unit() != amount.amount.unit())
        {
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: true, measured: false });
        }
        let here = self
            .find_food(said, &k, group, 2)
            .filter(|n| self.lines[*n].group == *group)
            .or_else(|| if amount.of_the || amount.more { self.find(&k, group, 1) } else { None })
            // "One English cucumber… no, sorry, half a cucumber": taken back under a shorter name.
            .or_else(|| {
                let taken_back = (at.correcting || at.settles) && at.near && !amount.more;
                at.last.filter(|l| taken_back && k.len() == 1 && self.keys[*l].last() == k.last())
            });
        if at.recap {
            let line = self.find(&k, group, 2).or_else(|| self.find(&k, group, 1))?;
            self.compare(line, amount.amount, said, span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        if let Some(line) = here {
            let old = self.lines[line].amount;
            let package = self.lines[line].package;
            if amount.of_the && !amount.more && old.is_some() {
                // "two tablespoons of the butter"
                let part = amount.amount;
                self.part(line, Some(part), span);
                return Some(Entry { line, part: Some(part), partial: true, measured: false });
            }
            // "…and the quarter cup of syrup", which was saved before.
            if let Some(old) = old.filter(|_| at.definite && !amount.more)
                && (old.same_size(&amount.amount) || old.minus(amount.amount).is_some())
            {
                if old.same_size(&amount.amount) {
                    self.lines[line].spans.push(span);
                    return Some(Entry { line, part: None, partial: false, measured: false });
                }
                self.part(line, Some(amount.amount), span);
                return Some(Entry { line, part: Some(amount.amount), partial: true, measured: false });
            }
            // "A splash of water" to loosen the pan, and then two cups of it: the measure is the line's.
            if old.is_some_and(|o| o.unit().is_some_and(trickles))
                && amount.amount.unit().is_some_and(|u| !u.is_loose())
            {
                self.set(line, said, span);
                return Some(Entry { line, part: None, partial: false, measured: true });
            }
            // "Two hundred grams, that's about seven ounces": the same by another measure; the first one stays.
            if old.is_some_and(|o| (at.explains || at.settles) && alike(o, amount.amount)) && !amount.more {
                self.lines[line].spans.push(span);
                return Some(Entry { line, part: None, partial: false, measured: false });
            }
            let exact = fits(&k, &self.keys[line]) == 3 || old.is_none();
            // "Two stalks of scallion… and one more scallion."
            let more = old.and_then(|o| o.unit()).filter(|u| {
                amount.more
                    && amount.amount.unit().is_none()
                    && u.dimension() == Dimension::Piece
                    && !u.is_container()
                    && !u.is_loose()
            });
            let amount =
                SaidAmount { amount: more.map_or(amount.amount, |u| amount.amount.in_unit(Some(u))), ..amount };
            if let Some(old) = old {
                let counted = amount.amount.unit().is_none() && old.unit().is_none();
                if at.one_of_them
                    && counted
                    && amount.amount.low().is_whole()
                    && amount.amount.high() < old.low()
                    && !at.correcting
                    && !amount.more
                {
                    self.part(line, Some(amount.amount), span);
                    return Some(Entry { line, part: Some(amount.amount), partial: true, measured: false });
                }
                let restated = at.restates && at.last == Some(line) && !amount.more;
                if (at.correcting || at.settles) && at.near && !amount.more
                    || restated
                        && !old.same_size(&amount.amount)
                        && (exact || at.dialogue)
                        && self.comparable(line, old, amount.amount)
                {
                    self.set(line, said, span);
                    return Some(Entry { line, part: None, partial: false, measured: true });
                }
                if restated && (old.same_size(&amount.amount) || !self.comparable(line, old, amount.amount)) {
                    self.lines[line].spans.push(span);
                    return Some(Entry { line, part: None, partial: false, measured: false });
                }
                // "three noodles" of the twelve: a part of what was counted.
                if amount.amount.unit().is_none()
                    && old.unit().is_none()
                    && amount.amount.high() < old.low()
                    && !amount.more
                    && at.action
                {
                    self.part(line, Some(amount.amount), span);
                    return Some(Entry { line, part: Some(amount.amount), partial: true, measured: false });
                }
                let whole_named = exact || amount.more || self.lines[line].name.ends_with(&said.name);
                if whole_named
                    && (package.is_none()
                        || said.package.is_none()
                        || package.map(|p| (p.size, p.unit)) == said.package.map(|p| (p.size, p.unit)))
                    && let Some(sum) = old.plus(amount.amount)
                {
                    if let Some(first) = self.figure_at[line]
                        && !amount.more
                        && !at.joined
                    {
                        let together = self.lines[line].group == *group;
                        let (held, other) = (old, amount.amount);
                        self.twice.push(Again { line, first, second: at.at, together, held, said: other });
                        self.summed.push((line, old, amount.amount));
                        if !(at.both)(first, together, self.tags[line]) {
                            self.set(line, said, span);
                            return Some(Entry { line, part: None, partial: false, measured: true });
                        }
                    }
                    if self.lines[line].parts.is_empty() {
                        let first = self.lines[line].spans[0];
                        self.part(line, Some(old), first);
                    }
                    self.lines[line].amount = Some(sum);
                    self.part(line, Some(amount.amount), span);
                    self.prep(line, said);
                    return Some(Entry { line, part: Some(amount.amount), partial: true, measured: true });
                }
            } else {
                self.lines[line].amount = Some(amount.amount);
                self.lines[line].package = said.package;
                self.lines[line].spans.insert(0, span);
                if said.name.len() > self.lines[line].name.len() {
                    self.lines[line].name = said.name.clone();
                    self.keys[line] = k;
                }
                self.prep(line, said);
                return Some(Entry { line, part: None, partial: false, measured: true });
            }
        }
        // "A cup of cream, no, a cup of milk": the same figure of another food takes its place.
        if at.correcting
            && at.near
            && let Some(line) = at.last
            && self.lines[line].amount.is_some_and(|a| a.same_size(&amount.amount))
            && self.lines[line].parts.is_empty()
            && said.food.is_some()
            && self.foods[line].is_some_and(|f| Some(f) != said.food.map(|s| s.name))
        {
            return Some(self.replace(line, said, span));
        }
        // The same food again in a measure that does not add up with the first: one of them may be meant.
        if let Some(line) = here
            && fits(&k, &self.keys[line]) == 3
            && let Some(old) = self.lines[line].amount
            && old.plus(amount.amount).is_none()
            && !amount.more
            && !at.joined
            && !old.unit().is_some_and(Unit::is_loose)
            && !amount.amount.unit().is_some_and(Unit::is_loose)
        {
            self.lines[line].spans.push(span);
            self.disputes.push(Dispute { line, kept: old, other: amount.amount, span });
            return Some(Entry { line, part: None, partial: true, measured: false });
        }
        // "Four cups of your stock", "a ladle of the sauce", "a spoonful of filling": what was made here is no ingredient.
        let dealt = lexicon().has("portions", &said.name) && !amount.amount.unit().is_none_or(|u| u.is_container());
        if dealt
            || amount.of_the
                && (lexicon().has("mixture", &fold(&said.name)) || k.len() == 1 && lexicon().has("mixture", &k[0]))
        {
            return None;
        }
        if !at.counts {
            return None;
        }
        // A figure that takes back the one just said may name a better-described food: "nutmeg" for "cinnamon" is a new line.
        if at.negative {
            return None;
        }
        // "Vanilla wafers on the bottom… It's one box of wafers": measured under its shorter name.
        if at.near
            && k.len() == 1
            && amount.amount.unit().is_some()
            && let Some(line) = self.waiting.map(|w| w.0).or(at.last).filter(|l| {
                self.lines[*l].amount.is_none()
                    && self.keys[*l].len() > 1
                    && self.keys[*l].last() == k.last()
                    && self.lines[*l].group == *group
            })
        {
            self.lines[line].amount = Some(amount.amount);
            self.lines[line].package = said.package;
            self.lines[line].spans.insert(0, span);
            self.prep(line, said);
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        // "Now the rice. … It's a cup and a half of long grain rice": named first, described when it is measured.
        if let Some(line) = self.named_only(&k, group) {
            self.lines[line].name = said.name.clone();
            self.lines[line].amount = Some(amount.amount);
            self.lines[line].package = said.package;
            self.lines[line].spans.insert(0, span);
            self.keys[line] = k;
            self.foods[line] = said.food.map(|f| f.name);
            self.prep(line, said);
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        // Measured before in another part of the dish: told again, or measured for this part as well.
        if here.is_none()
            && !amount.more
            && let Some(line) = self.find_food(said, &k, group, 2)
            && let Some(held) = self.lines[line].amount
            && held.plus(amount.amount).is_some()
            && let Some(first) = self.figure_at[line]
        {
            self.twice.push(Again { line, first, second: at.at, together: false, held, said: amount.amount });
            if !(at.both)(first, false, self.tags[line]) {
                self.summed.push((line, held, amount.amount));
                self.set(line, said, span);
                return Some(Entry { line, part: None, partial: false, measured: true });
            }
        }
        let line = self.open(said, group, span);
        // "75 butter": butter is not counted, so a word is missing.
        let many = said.name.ends_with('s');
        if amount.amount.unit().is_none() && !many && amount.package.is_none() && !self.plausible(line, &amount.amount)
        {
            self.unsure.push(line);
        }
        Some(Entry { line, part: None, partial: false, measured: true })
    }

    /// A mention without an amount of its own.
    fn point(&mut self, line: usize, said: &SaidFood, group: &Option<String>, span: Span) -> Option<Entry> {
        let total = self.lines[line].amount;
        let mut partial = false;
        let mut part = None;
        match said.quantifier {
            Quantifier::Part => {
                partial = true;
                part = said.part.and_then(|p| total.map(|t| t.times(p)));
                self.part(line, part, span);
            }
            // "The other half of that lemon": of a fruit that was halved.
            Quantifier::Rest
                if total.is_some_and(|t| {
                    let whole = |u: Unit| u.dimension() == Dimension::Piece && !u.is_loose();
                    t.unit().is_none_or(whole) && t.low() == Ratio::of(1, 2) && !t.is_range()
                }) && said.part.is_none()
                    && said.name_at.0 > 1 =>
            {
                let half = total?;
                if self.lines[line].group == *group {
                    let first = self.lines[line].spans[0];
                    if self.lines[line].parts.is_empty() {
                        self.part(line, Some(half), first);
                    }
                    self.lines[line].amount = half.plus(half);
                    self.part(line, Some(half), span);
                    return Some(Entry { line, part: Some(half), partial: true, measured: true });
                }
                let mut own = said.clone();
                own.amount = Some(SaidAmount::plain(half));
                let line = self.open(&own, group, span);
                return Some(Entry { line, part: None, partial: false, measured: true });
            }
            Quantifier::Rest if self.whole[line].is_some() => {
                partial = true;
                part = self.restore(line, span);
            }
            Quantifier::Rest => {
                partial = true;
                let used = self.lines[line].parts.iter().map(|p| p.amount).collect::<Option<Vec<_>>>();
                part = used
                    .filter(|u| !u.is_empty())
                    .and_then(|used| used.into_iter().try_fold(total?, |left, p| left.minus(p)));
                self.part(line, part, span);
            }
            Quantifier::More => {
                partial = true;
                self.part(line, None, span);
            }
            _ => self.lines[line].spans.push(span),
        }
        if said.quantifier != Quantifier::The {
            self.prep(line, said);
        }
        if said.to_taste && total.is_none() {
            self.lines[line].to_taste = true;
        }
        Some(Entry { line, part, partial, measured: false })
    }

    /// Whether one figure may stand for the other: not six peaches for five cups of them.
    fn comparable(&self, line: usize, held: Amount, said: Amount) -> bool {
        let vague = |u: Unit| u.is_loose() || u.is_container() || u == Unit::Spoonful;
        match (held.unit(), said.unit()) {
            (Some(u), None) => vague(u) || !self.plausible(line, &said),
            (Some(a), Some(b)) => vague(a) || vague(b) || a.factor_to(b).is_some(),
            (None, Some(u)) => u.is_loose() || u == Unit::Clove,
            (None, None) => true,
        }
    }

    /// Whether a food of this kind is measured so at all.
    pub(super) fn plausible(&self, line: usize, amount: &Amount) -> bool {
        let is = |any: &str| tagged(self.tags[line], any);
        let whole = self.keys[line].iter().any(|w| crate::lexicon::lexicon().has("small things", w));
        match amount.unit() {
            // "Peppers" are vegetables, whatever pepper is.
            None => {
                whole
                    || self.lines[line].name.ends_with("peppers") && amount.low() >= Ratio::ONE
                    || !is("spice salt sweet fat leavening liquid dairy grain water stock")
            }
            Some(Unit::Inch) => is("produce spice fat") && !is("salt"),
            Some(u)
                if u.is_container()
                    || matches!(u, Unit::Gallon | Unit::Quart | Unit::Pint | Unit::Scoop | Unit::Strip) =>
            {
                !is("salt leavening") && !(is("spice") && !whole && !is("produce"))
            }
            Some(Unit::Cup) => !(is("salt leavening") && amount.high() > Ratio::ONE),
            Some(_) => true,
        }
    }

    /// "Half of that bag": the line becomes that part of its container.
    ///
    /// With `used` it may be a pound or a cup as well: "I had a pound, used about half of it".
    pub(super) fn cut(
        &mut self,
        line: usize,
        part: Ratio,
        unit: Option<Unit>,
        used: bool,
        span: Span,
    ) -> Option<Entry> {
        let whole = self.lines[line].amount?;
        let container = whole.unit().filter(|u| u.is_container() || used)?;
        if unit.is_some_and(|u| u != container) || whole.is_range() || whole.high() > Ratio::whole(2) {
            return None;
        }
        self.whole[line] = Some(whole);
        self.lines[line].amount = Some(whole.times(part));
        self.lines[line].spans.push(span);
        Some(Entry { line, part: None, partial: false, measured: false })
    }

    /// What is left of a container that was used in part: it goes in, too.
    pub(super) fn restore(&mut self, line: usize, span: Span) -> Option<Amount> {
        let (whole, used) = (self.whole[line].take()?, self.lines[line].amount?);
        let rest = whole.minus(used)?;
        self.lines[line].amount = Some(whole);
        if self.lines[line].parts.is_empty() {
            let first = self.lines[line].spans[0];
            self.part(line, Some(used), first);
        }
        self.part(line, Some(rest), span);
        Some(rest)
    }

    pub(super) fn part(&mut self, line: usize, amount: Option<Amount>, span: Span) {
        self.lines[line].parts.push(Part { amount, span });
        if !self.lines[line].spans.contains(&span) {
            self.lines[line].spans.push(span);
        }
    }

    fn prep(&mut self, line: usize, said: &SaidFood) {
        for p in &said.prep {
            if !self.lines[line].prep.iter().any(|q| q == p || crate::letters::holds(q, p)) {
                self.lines[line].prep.push(p.clone());
            }
        }
    }

    fn set(&mut self, line: usize, said: &SaidFood, span: Span) {
        // "Make the garlic powder two": the unit stays.
        let unit = self.lines[line].amount.and_then(|a| a.unit());
        self.lines[line].amount = said.amount.map(|a| match a.amount.unit() {
            None if !self.plausible(line, &a.amount) => a.amount.in_unit(unit),
            _ => a.amount,
        });
        if said.package.is_some() {
            self.lines[line].package = said.package;
        }
        self.lines[line].parts.clear();
        self.lines[line].spans.insert(0, span);
        self.prep(line, said);
    }

    /// An amount without a food: it measures the food just named, or takes back its figure.
    pub(super) fn loose(&mut self, line: usize, said: SaidAmount, span: Span, how: Bare) -> Option<Entry> {
        let Bare { correcting, alone, only, up_to } = how;
        let held = self.lines[line].amount;
        let count = said.amount.unit().is_none();
        let container = said.amount.unit().filter(|u| u.is_container());
        // "these are the ten and a half ounce cans": only the size of what is or will be counted.
        if said.package.is_some()
            && container.is_some()
            && (held.is_some_and(|h| h.unit() == container) && self.lines[line].package.is_none()
                || said.bare
                || held.is_none() && said.amount.low() == Ratio::ONE && !alone)
        {
            self.lines[line].package = said.package;
            self.hints[line] = container;
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        if said.of_the && held.is_some() && !correcting && !count {
            self.part(line, Some(said.amount), span);
            return Some(Entry { line, part: Some(said.amount), partial: true, measured: false });
        }
        // "half a can": she says how much of the container she uses.
        if count
            && said.amount.high() < Ratio::ONE
            && only
            && let Some(h) = held.filter(|h| h.unit().is_some_and(Unit::is_container) && h.low() >= Ratio::ONE)
        {
            self.lines[line].amount = Some(h.times(said.amount.high()));
            self.lines[line].spans.insert(0, span);
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        // Salt is not counted and sugar does not come by the inch: such a figure speaks of something else.
        if held.is_none() && !self.plausible(line, &said.amount) {
            return None;
        }
        let amount = match held {
            Some(old) if count => said.amount.in_unit(old.unit()),
            None if count => said.amount.in_unit(self.hints[line]),
            _ => said.amount,
        };
        let Some(old) = held else {
            if count && !alone {
                return None;
            }
            if self.lines[line].to_taste && !alone {
                return None;
            }
            self.lines[line].amount = Some(amount);
            self.lines[line].package = said.package.or(self.lines[line].package);
            self.lines[line].spans.insert(0, span);
            return Some(Entry { line, part: None, partial: false, measured: true });
        };
        // Nobody who says a pinch means eleven cups.
        let far = amount
            .unit()
            .is_some_and(|u| u.dimension() == Dimension::Volume && u.factor_to(Unit::Cup) >= Some(Ratio::ONE));
        if old.unit().is_some_and(|u| matches!(u, Unit::Pinch | Unit::Dash | Unit::Drop)) && far && !correcting {
            return None;
        }
        let kin =
            old.unit() == amount.unit() || old.unit().zip(amount.unit()).is_some_and(|(a, b)| a.factor_to(b).is_some());
        let vague = old.unit().is_some_and(|u| u.is_loose() || u == Unit::Spoonful);
        if !kin && !vague && !(correcting && alone) {
            // A measure of another kind speaks of something else.
            return None;
        }
        if said.more && up_to {
            // "You might need another half a cup."
            let sum = old.plus(amount)?;
            self.lines[line].amount = Amount::range(old.low(), sum.high(), old.unit());
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        if said.more {
            let sum = old.plus(amount)?;
            if self.lines[line].parts.is_empty() {
                let first = self.lines[line].spans[0];
                self.part(line, Some(old), first);
            }
            self.lines[line].amount = Some(sum);
            self.part(line, Some(amount), span);
            return Some(Entry { line, part: Some(amount), partial: true, measured: true });
        }
        // "Three quarters of a cup, could be a whole cup."
        if up_to
            && !correcting
            && !old.is_range()
            && self.lines[line].parts.is_empty()
            && let Some(most) = old.unit().map_or(Some(amount), |u| amount.to(u))
            && most.low() > old.high()
            && most.high() <= old.high() * Ratio::whole(2)
            && let Some(range) = Amount::range(old.low(), most.high(), old.unit())
        {
            self.lines[line].amount = Some(range);
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        // A bare number that takes nothing back speaks of something else: an age, a count of pieces, a time.
        let far = count && (amount.high() > old.high() * Ratio::whole(4) || old.low() > amount.low() * Ratio::whole(8));
        if count && (!correcting || far) && held.is_some() {
            return None;
        }
        if alike(old, amount) {
            // "Two hundred grams; that's about seven ounces."
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        if correcting || alone || vague && !kin {
            // "Two teaspoons. Two teaspoons." and "make it three".
            if !old.same_size(&amount) {
                // A part said alone ("half") is no new total.
                if count && said.amount.high() < Ratio::ONE && !correcting {
                    return None;
                }
                self.lines[line].amount = Some(amount);
                if said.package.is_some() {
                    self.lines[line].package = said.package;
                }
                self.lines[line].parts.clear();
                self.lines[line].spans.insert(0, span);
            }
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        None
    }

    /// A second telling: the figure of the place of use stays; another figure is a dispute.
    fn compare(&mut self, line: usize, again: Amount, said: &SaidFood, span: Span) {
        self.lines[line].spans.push(span);
        let Some(held) = self.lines[line].amount else {
            self.lines[line].amount = Some(again);
            self.lines[line].package = self.lines[line].package.or(said.package);
            return;
        };
        let same_kind =
            held.unit() == again.unit() || held.unit().zip(again.unit()).is_some_and(|(a, b)| a.factor_to(b).is_some());
        // "a pound of beef" for "one pound", "28 ounce can" for "1 can of 28".
        if same_kind && !held.same_size(&again) {
            self.disputes.push(Dispute { line, kept: held, other: again, span });
        }
    }

    pub(super) fn finish(&mut self) {
        for line in &mut self.lines {
            // "Eighteen tortillas… six tortillas… six more… six more": what was got out first is what was used after.
            if line.parts.len() >= 3
                && let Some(first) = line.parts[0].amount
                && let Some(rest) = line.parts[1..]
                    .iter()
                    .map(|p| p.amount)
                    .reduce(|a, b| a.zip(b).and_then(|(a, b)| a.plus(b)))
                    .flatten()
                && first.same_size(&rest)
                && line.amount.is_some_and(|a| first.plus(rest).is_some_and(|s| s.same_size(&a)))
            {
                line.amount = Some(first);
                line.parts.remove(0);
            }
            line.divided = line.parts.len() >= 2
                || line.parts.iter().any(|p| p.amount.is_some_and(|a| line.amount.is_some_and(|t| !a.same_size(&t))));
            let mut seen: Vec<String> = Vec::new();
            line.prep.retain(|p| {
                let new = !seen.iter().any(|s| s == p);
                seen.push(p.clone());
                new
            });
            if line.amount.is_some() {
                line.to_taste = false;
            }
        }
    }
}
