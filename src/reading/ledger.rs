//! The ledger of a card: what was measured out, what was added to it, and which part of it went where.
//!
//! Amounts become lines of the list; "another cup" adds, "no, three" replaces, "half of the butter" is an entry against
//! what was measured. A mention that measures nothing points back to its line.

use super::dish::Plan;
use super::passing::Mention;
use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::draft::Span;
use crate::grammar::amount::SaidAmount;
use crate::grammar::food::{Quantifier, SaidFood};
use crate::lexicon::lexicon;
use crate::measure::{Amount, Ratio, Unit};
use crate::recipe::{Line, Part, Use};
use crate::token::{Kind, Token, Tokens, fold};

/// What a finding means to the ledger.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    /// The line of the card.
    pub line: usize,
    /// The part that is used here, where it is not all of it.
    pub part: Option<Amount>,
    /// What is used here is a part of the line, whether or not its figure is known.
    pub partial: bool,
    /// The line was measured out here.
    pub measured: bool,
}

/// Two figures for one line, with nothing to tell which is right.
#[derive(Clone, Debug)]
pub struct Dispute {
    /// The line.
    pub line: usize,
    /// The figure of the place of use.
    pub kept: Amount,
    /// The other figure.
    pub other: Amount,
    /// The words of the other figure.
    pub span: Span,
}

/// The books of one card.
#[derive(Debug, Default)]
pub struct Ledger {
    /// The list.
    pub lines: Vec<Line>,
    /// For each finding of the draft, its entry.
    pub entries: Vec<Option<Entry>>,
    /// What does not agree.
    pub disputes: Vec<Dispute>,
    /// Lines whose figure she said she does not know.
    pub unsure: Vec<usize>,
    /// Lines added up from two figures that nothing joins ("another", "more"): the line, the first, the second.
    pub summed: Vec<(usize, Amount, Amount)>,
    keys: Vec<Vec<String>>,
    /// The list's name of each line's food.
    foods: Vec<Option<&'static str>>,
    /// The tags of each line's food.
    pub tags: Vec<&'static str>,
    /// Lines of which she said "some" or "a little": nobody asks how much.
    pub vague: Vec<bool>,
    /// The container said of a line that has no figure yet.
    hints: Vec<Option<Unit>>,
    /// The latest line opened without a figure, and the clause of it.
    waiting: Option<(usize, usize)>,
}

/// The words that tell a food: folded, without neutral ones.
fn key(name: &str) -> Vec<String> {
    let all: Vec<String> = name.split([' ', '-']).filter(|w| !w.is_empty()).map(fold).collect();
    let told: Vec<String> = all.iter().filter(|w| !lexicon().has("neutral", w)).cloned().collect();
    if told.is_empty() { all } else { told }
}

/// How well a mention fits a line: 3 the same words, 2 the same food said shorter or longer, 1 the same last word, 0 not.
fn fits(mention: &[String], line: &[String]) -> u8 {
    if mention == line || (mention.len() == line.len() && mention.iter().all(|w| line.contains(w))) {
        return 3;
    }
    let within = |s: &[String], l: &[String]| s.iter().all(|w| l.contains(w));
    if within(mention, line) || within(line, mention) {
        let (short, long) = if mention.len() < line.len() { (mention, line) } else { (line, mention) };
        // "butter" is no "peanut butter" and "sugar" no "brown sugar" where both are measured; as a mention they may be.
        let extra: Vec<&str> = long.iter().filter(|w| !short.contains(w)).map(|w| w.as_str()).collect();
        let tokens: Vec<Token> = extra.iter().map(|w| Token::word(w)).collect();
        let described = tokens.iter().all(|t| {
            let row = Tokens(std::slice::from_ref(t));
            lexicon().describers.exact(row).is_some() || lexicon().prep.exact(row).is_some()
        });
        return if described { 2 } else { 1 };
    }
    u8::from(mention.last() == line.last() && mention.len() == 1)
}

/// Words that begin a second telling of the list.
const RECAP: &[&[&str]] = &[
    &["recap"],
    &["to", "recap"],
    &["so", "again"],
    &["all", "together", "that's"],
    &["to", "sum", "up"],
    &["once", "more", "the", "list"],
    &["the", "list", "again"],
    &["run", "through", "that", "again"],
    &["one", "more", "time"],
    &["ingredients", "again"],
    &["amounts", "again"],
    &["measurements", "again"],
    &["go", "over", "that", "again"],
    &["go", "over", "it", "again"],
    &["read", "it", "back"],
    &["again", "that's"],
];

/// Keeps the books of card `card`.
///
/// With `all`, every food named in passing gets its line, as the training of that choice needs it.
pub fn keep(tokens: &[Token], clauses: &[Sorted], found: &[Found], plan: &Plan, card: usize, all: bool) -> Ledger {
    let mut book = Ledger { entries: vec![None; found.len()], ..Ledger::default() };
    let mut last: Option<usize> = None;
    let mut last_clause = 0;
    let mut last_measured = 0;
    // The clause in which something was taken back; it waits a few clauses for the right figure.
    let mut taken_back: Option<usize> = None;
    let mut last_time = 0;
    let dialogue = tokens.iter().filter(|t| t.kind == Kind::Break(crate::draft::format::Gap::Speaker)).count() >= 4;
    let mut called: Option<SaidFood> = None;
    let mut recap = false;
    // The food the dish was announced with: "wings first; I got five pounds here".
    let mut subject: Option<SaidFood> = None;
    // A food named in passing, and the clause: an amount that follows measures it.
    let mut passed: Option<(SaidFood, usize)> = None;
    for (n, c) in clauses.iter().enumerate() {
        if plan.card[n] != Some(card) {
            continue;
        }
        let row = Tokens(&tokens[c.piece.from..c.piece.to]);
        if (0..row.len()).any(|k| {
            RECAP.iter().any(|words| words.iter().enumerate().all(|(j, w)| row.get(k + j).is_some_and(|t| t.is(w))))
        }) {
            recap = true;
        }
        let group = plan.group[n].clone();
        let mine = &found[c.found.0..c.found.1];
        if c.piece.opens && !recap && book.lines.len() >= 2 {
            // A sentence that measures three or more foods, all of which stand on the list with these figures, tells it again.
            let end = clauses[n + 1..].iter().find(|d| d.piece.opens).map_or(found.len(), |d| d.found.0);
            let mut all = 0;
            let mut known = 0;
            let mut equal = 0;
            for f in &found[c.found.0..end.max(c.found.0)] {
                if let Item::Food(x) = &f.item
                    && let Some(a) = x.amount
                {
                    all += 1;
                    if let Some(line) = book.find(&key(&x.name), &None, 2) {
                        known += 1;
                        equal += usize::from(book.lines[line].amount.is_some_and(|h| h.same_size(&a.amount)));
                    }
                }
            }
            let sums_up = row.0.iter().take(4).any(|t| t.is_any("that's again that"));
            recap |= known == all && (all >= 3 && equal * 2 >= all || all >= 2 && sums_up && equal == all);
        }
        let foods_here = mine.iter().any(|f| matches!(f.item, Item::Food(_)));
        if c.cues.story {
            continue;
        }
        if c.main == Use::Remark && (c.cues.called || c.cues.swap) {
            if c.cues.called && foods_here {
                called = mine
                    .iter()
                    .rev()
                    .find_map(|f| if let Item::Food(x) = &f.item { Some((**x).clone()) } else { None });
            }
            note_options(&mut book, c, mine, last, c.found.0);
            continue;
        }
        let no = row.at("no")
            && row.get(1).is_none_or(|t| {
                !t.is_spoken()
                    || t.is_any("i i'm wait make it's that's not")
                    || crate::grammar::number::number(row.skip(1)).is_ok()
            });
        if c.cues.correct || no {
            taken_back = Some(n);
        }
        let mut correcting = taken_back.is_some_and(|t| n <= t + 4);
        let mut in_clause: Vec<usize> = Vec::new();
        for (k, f) in mine.iter().enumerate() {
            let id = c.found.0 + k;
            let span = tokens[f.from].span.to(tokens[f.to - 1].span);
            match &f.item {
                Item::Food(said) => {
                    if plan.opens[n] && overlaps(plan, card, span) {
                        if said.food.is_some() && said.amount.is_none() {
                            subject = Some((**said).clone());
                        }
                        continue;
                    }
                    if c.main == Use::Chatter || c.main == Use::Closing && said.amount.is_none() {
                        continue;
                    }
                    if c.main == Use::Remark && said.amount.is_none() {
                        // Keeping, making ahead, leaving out: they point at lines and add none.
                        if let Some(line) = book.find(&key(&said.name), &group, 2) {
                            in_clause.push(line);
                        }
                        continue;
                    }
                    if c.main == Use::Remark && (c.cues.keep || c.cues.ahead) {
                        continue;
                    }
                    // The name of the dish is no line, nor is what is named before anything is measured.
                    let unmeasured = said.amount.is_none_or(|a| {
                        a.amount.unit().is_none()
                            && a.package.is_none()
                            && tokens[f.from].is_any("a an")
                            && (plan.opens[n] || overlaps(plan, card, span))
                    });
                    let announced = n < plan.measured_from[card] && c.main != Use::Action;
                    if unmeasured && (announced || plan.opens[n] && overlaps(plan, card, span)) && said.food.is_some() {
                        subject = Some((**said).clone());
                    }
                    if unmeasured && (announced || plan.opens[n] && overlaps(plan, card, span))
                        || compared(tokens, f) && said.amount.is_none()
                    {
                        continue;
                    }
                    let near = n <= last_clause + if correcting { 8 } else { 3 };
                    let restates =
                        n <= last_measured + if dialogue { 5 } else { 1 } && !row.at_any("then and plus also another");
                    let conditional = Tokens(&tokens[c.core..c.piece.to]).at_any("if unless");
                    // "that's one teaspoon of salt like I told you": the same figure again, or another one.
                    let told = (0..row.len()).any(|k| {
                        row.skip(k).at_any("told said say")
                            && k > 0
                            && row.get(k - 1).is_some_and(|t| t.is_any("i i've as"))
                    });
                    let explains = row.at_any("that's which about it's")
                        || c.core > c.piece.from && tokens[c.core].is_any("that's which")
                        || tokens[c.core].is("that") && tokens.get(c.core + 1).is_some_and(|t| t.is_any("is was"));
                    let mention = Mention {
                        tokens,
                        clause: c,
                        mine,
                        at: (f.from, f.to),
                        said,
                        title: &plan.dishes[card].title,
                        lines: book.lines.len(),
                    };
                    let entry = book.mention(
                        said,
                        &group,
                        span,
                        Context {
                            correcting,
                            near,
                            conditional,
                            told,
                            aside: c.piece.opens && n > last_measured + 3 && tokens[c.piece.from].is_any("oh and"),
                            joined: row
                                .0
                                .iter()
                                .any(|t| t.is_any("more another other again extra additional also too plus rest half")),
                            restates,
                            explains,
                            last,
                            recap,
                            action: c.main == Use::Action,
                            negative: is_negative(tokens, c, f.from),
                            counts: all || said.amount.is_some() || mention.counts(),
                        },
                    );
                    if entry.is_none()
                        && said.amount.is_none()
                        && said.food.is_some()
                        && !is_negative(tokens, c, f.from)
                    {
                        passed = Some(((**said).clone(), n));
                    }
                    if let Some(e) = entry {
                        if said.amount.is_some() {
                            correcting = false;
                            taken_back = None;
                            last_measured = n;
                        }
                        in_clause.push(e.line);
                        if c.main != Use::Chatter {
                            last = Some(e.line);
                            last_clause = n;
                        }
                        if book.lines[e.line].amount.is_none() && e.measured {
                            book.waiting = Some((e.line, n));
                        }
                        book.entries[id] = Some(e);
                    }
                    if said.amount.is_some() {
                        called = None;
                    }
                }
                Item::Loose(_) | Item::Count(_) => {
                    let bare_clause = spoken_alone(tokens, c, f, mine);
                    let leads = f.from <= c.core + 1 && matches!(f.item, Item::Loose(_)) && !foods_here;
                    if c.main == Use::Chatter && !(c.cues.correct || correcting || bare_clause || leads) {
                        continue;
                    }
                    let said = match &f.item {
                        Item::Loose(a) => *a,
                        Item::Count(number) => match Amount::range(number.low, number.high, None) {
                            Some(amount) => SaidAmount::plain(amount),
                            None => continue,
                        },
                        _ => continue,
                    };
                    let vague = said.article
                        && said.amount.unit().is_some_and(|u| u.dimension() == crate::measure::Dimension::Piece)
                        && book.waiting.is_none();
                    if said.amount.unit() == Some(Unit::Inch)
                        && !(book.waiting.is_some_and(|w| n <= w.1 + 1) && !foods_here)
                        || recap
                        || vague
                    {
                        continue;
                    }
                    // "In five minutes; okay, more like eight" speaks of the time.
                    let count = said.amount.unit().is_none();
                    if count && last_time > last_measured.max(last_clause)
                        || count && correcting && !bare_clause && !c.cues.correct
                    {
                        continue;
                    }
                    let fresh = passed.take().filter(|p| {
                        n <= p.1 + 2
                            && p.1 >= last_clause
                            && (bare_clause || leads || p.1 == n)
                            && said.amount.unit().is_some()
                    });
                    if let Some(food) = called.take().or(fresh.map(|p| p.0)).or_else(|| {
                        if book.lines.is_empty() && said.amount.unit().is_some_and(|u| u != Unit::Cup) {
                            subject.take()
                        } else {
                            None
                        }
                    }) {
                        // "The card has two cups of flour, so I'm putting in one."
                        let unit = said.amount.unit().or(food.amount.and_then(|a| a.amount.unit()));
                        let mut mine = food;
                        mine.amount = Some(SaidAmount { amount: said.amount.in_unit(unit), ..said });
                        mine.quantifier = Quantifier::None;
                        if let Some(e) = book.mention(
                            &mine,
                            &group,
                            span,
                            Context {
                                correcting,
                                near: true,
                                conditional: false,
                                told: false,
                                aside: false,
                                joined: true,
                                restates: true,
                                explains: false,
                                last,
                                recap,
                                action: false,
                                negative: false,
                                counts: true,
                            },
                        ) {
                            book.entries[id] = Some(e);
                            last = Some(e.line);
                            in_clause.push(e.line);
                        }
                        taken_back = None;
                        correcting = false;
                        continue;
                    }
                    // A line still without a figure comes first; otherwise the one just measured.
                    let waiting = book
                        .waiting
                        .filter(|w| n <= w.1 + 6 && book.lines[w.0].amount.is_none() && !foods_here)
                        .map(|w| w.0);
                    let Some(line) = waiting.or(last.filter(|_| n <= last_clause + if correcting { 6 } else { 3 }))
                    else {
                        continue;
                    };
                    let alone = !foods_here && (bare_clause || waiting.is_some() && leads);
                    let only = row.0.iter().any(|t| t.is_any("only just using")) && !foods_here;
                    if let Some(e) = book.loose(line, said, span, correcting, alone, only) {
                        book.entries[id] = Some(e);
                        in_clause.push(line);
                        if e.measured {
                            correcting = false;
                            taken_back = None;
                            last_measured = n;
                        }
                        last_clause = n;
                    }
                }
                Item::Time(_) => last_time = n,
                _ => {}
            }
        }
        if c.cues.unsure
            && let Some(line) = in_clause.last().copied().or(last.filter(|_| n <= last_clause + 2))
            && !book.unsure.contains(&line)
        {
            book.unsure.push(line);
        }
        if c.cues.optional {
            let whole = in_clause.clone();
            if whole.is_empty() {
                if let Some(line) = last.filter(|_| n <= last_clause + 2) {
                    book.lines[line].optional = true;
                }
            } else if let Some(line) = optional_of(tokens, c, mine, &book, c.found.0) {
                book.lines[line].optional = true;
            }
        }
        if c.cues.taste {
            for line in &in_clause {
                if book.lines[*line].amount.is_none() {
                    book.lines[*line].to_taste = true;
                }
            }
        }
        if c.main != Use::Remark {
            // A figure of the recipe's own waits for one clause only.
            if foods_here {
                called = None;
            }
        }
    }
    book.finish();
    book
}

fn overlaps(plan: &Plan, card: usize, span: Span) -> bool {
    plan.dishes.get(card).and_then(|d| d.span).is_some_and(|t| t.start < span.end && span.start < t.end)
}

/// "like peas", "as mayonnaise", "past peanut butter", "looking for a chocolate bar": a likeness, not a food that goes in.
fn compared(tokens: &[Token], f: &Found) -> bool {
    let before = &tokens[f.from.saturating_sub(3)..f.from];
    before.last().is_some_and(|t| t.is_any("like as past than resembles without no enough"))
        || before.iter().any(|t| t.is_any("looks looking resembles smells tastes like"))
            && before.last().is_some_and(|t| t.is_any("like for as coarse wet damp thick of a"))
}

/// "Don't add water": names what stays out, as far as the next comma.
fn is_negative(tokens: &[Token], c: &Sorted, food: usize) -> bool {
    let from = (c.core..food).rev().find(|n| !tokens[*n].is_spoken()).map_or(c.core, |n| n + 1);
    tokens[from..food.max(from)]
        .iter()
        .any(|t| t.is_any("don't never not no without doesn't can't won't didn't ain't nor"))
}

/// Which line an "if you like" belongs to: the last food before the cue, or the only one.
fn optional_of(tokens: &[Token], c: &Sorted, mine: &[Found], book: &Ledger, first: usize) -> Option<usize> {
    let cue = (c.piece.from..c.piece.to)
        .find(|n| lexicon().talk.exact(Tokens(&tokens[*n..c.piece.to])).is_some_and(|m| m.1.0 == "optional"))?;
    let entry = |k: usize| book.entries.get(first + k).copied().flatten().map(|e| e.line);
    let before =
        mine.iter().enumerate().rev().find(|(k, f)| f.to <= cue && entry(*k).is_some()).and_then(|(k, _)| entry(k));
    before.or_else(|| mine.iter().enumerate().find_map(|(k, _)| entry(k)))
}

/// A remark that a food can be left out or swapped marks its line.
fn note_options(book: &mut Ledger, c: &Sorted, mine: &[Found], last: Option<usize>, _first: usize) {
    if !c.cues.optional {
        return;
    }
    let named = mine.iter().find_map(|f| match &f.item {
        Item::Food(x) => book.find(&key(&x.name), &None, 2),
        _ => None,
    });
    if let Some(line) = named.or(last) {
        book.lines[line].optional = true;
    }
}

/// Whether a loose amount is all that its clause says, but for words that only settle it.
fn spoken_alone(tokens: &[Token], c: &Sorted, f: &Found, mine: &[Found]) -> bool {
    let before = tokens[c.piece.from..c.piece.to].iter().enumerate();
    let mut others = 0;
    let mut skip = 0;
    for (k, t) in before {
        let at = c.piece.from + k;
        if (f.from..f.to).contains(&at) || !t.is_spoken() || at < skip || mine.iter().any(|m| m.from <= at && at < m.to)
        {
            continue;
        }
        if let Some((n, _)) =
            lexicon().talk.exact(Tokens(&tokens[at..c.piece.to])).filter(|m| m.1.0 == "opener" || m.1.0 == "correct")
        {
            skip = at + n;
            continue;
        }
        if !lexicon().has("settle", &t.text) {
            return false;
        }
        others += 1;
    }
    // "It's nine in the morning", "it's ten of five".
    let after = Tokens(&tokens[f.to..(f.to + 3).min(tokens.len())]);
    let clock = after.at_any("o'clock am pm people years degrees")
        || after.at("in") && after.get(1).is_some_and(|t| t.is("the"))
        || after.at("of") && crate::grammar::number::number(after.skip(1)).is_ok();
    others <= 5 && !clock
}

#[derive(Clone, Copy, Debug)]
struct Context {
    correcting: bool,
    near: bool,
    conditional: bool,
    told: bool,
    aside: bool,
    joined: bool,
    restates: bool,
    explains: bool,
    last: Option<usize>,
    recap: bool,
    action: bool,
    negative: bool,
    /// A food without an amount belongs on the list.
    counts: bool,
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

    fn find(&self, mention: &[String], group: &Option<String>, least: u8) -> Option<usize> {
        (0..self.lines.len())
            .map(|n| (fits(mention, &self.keys[n]), self.lines[n].group == *group, n))
            .filter(|s| s.0 >= least)
            .max_by_key(|s| (s.0 == 3 && s.1, s.0 >= 2 && s.1, s.0, s.1, s.2))
            .map(|s| s.2)
    }

    fn open(&mut self, said: &SaidFood, group: &Option<String>, span: Span) -> usize {
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
        self.foods.push(said.food.map(|f| f.name));
        self.tags.push(said.food.map_or("", |f| f.tags));
        self.vague.push(said.quantifier == Quantifier::Some);
        self.lines.len() - 1
    }

    fn mention(&mut self, said: &SaidFood, group: &Option<String>, span: Span, at: Context) -> Option<Entry> {
        let k = key(&said.name);
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
        let Some(amount) = said.amount else {
            let line = self.find_food(said, &k, group, if points { 1 } else { 2 });
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
                    return Some(self.point(line, said, span));
                }
            }
            if at.negative || at.recap || at.conditional {
                return None;
            }
            let generic = lexicon().has("mixture", &said.name)
                || lexicon().has("mixture", &fold(&said.name))
                || k.len() == 1 && lexicon().has("mixture", &k[0]);
            if said.food.is_none()
                || generic
                || matches!(said.quantifier, Quantifier::Rest | Quantifier::Part | Quantifier::All)
            {
                return None;
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
            && self.lines[line].amount.is_some_and(|a| a.plus(amount.amount).is_none())
        {
            self.lines[line].spans.push(span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        let here = self
            .find_food(said, &k, group, 2)
            .filter(|n| self.lines[*n].group == *group)
            .or_else(|| if amount.of_the || amount.more { self.find(&k, group, 1) } else { None });
        if at.recap {
            let line = self.find(&k, group, 2).or_else(|| self.find(&k, group, 1))?;
            self.compare(line, amount.amount, said, span);
            return Some(Entry { line, part: None, partial: false, measured: false });
        }
        if let Some(line) = here {
            let old = self.lines[line].amount;
            let package = self.lines[line].package;
            if amount.of_the && !(amount.more && old.is_none()) && old.is_some() {
                // "two tablespoons of the butter"
                let part = amount.amount;
                self.part(line, Some(part), span);
                return Some(Entry { line, part: Some(part), partial: true, measured: false });
            }
            let exact = fits(&k, &self.keys[line]) == 3 || old.is_none();
            if let Some(old) = old {
                let restated = at.restates && at.last == Some(line) && !amount.more;
                if at.correcting && at.near && !amount.more || restated && !old.same_size(&amount.amount) && exact {
                    self.set(line, said, span);
                    return Some(Entry { line, part: None, partial: false, measured: true });
                }
                if restated && old.same_size(&amount.amount) {
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
                    if !amount.more && !at.joined {
                        self.summed.push((line, old, amount.amount));
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
            self.lines[line].name = said.name.clone();
            self.lines[line].prep = said.prep.clone();
            self.lines[line].package = said.package;
            self.lines[line].spans.insert(0, span);
            self.keys[line] = k;
            self.foods[line] = said.food.map(|f| f.name);
            return Some(Entry { line, part: None, partial: false, measured: true });
        }
        // A figure that takes back the one just said may name a better-described food: "nutmeg" for "cinnamon" is a new line.
        if at.negative {
            return None;
        }
        let line = self.open(said, group, span);
        Some(Entry { line, part: None, partial: false, measured: true })
    }

    /// A mention without an amount of its own.
    fn point(&mut self, line: usize, said: &SaidFood, span: Span) -> Entry {
        let total = self.lines[line].amount;
        let mut partial = false;
        let mut part = None;
        match said.quantifier {
            Quantifier::Part => {
                partial = true;
                part = said.part.and_then(|p| total.map(|t| t.times(p)));
                self.part(line, part, span);
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
        Entry { line, part, partial, measured: false }
    }

    fn part(&mut self, line: usize, amount: Option<Amount>, span: Span) {
        self.lines[line].parts.push(Part { amount, span });
        if !self.lines[line].spans.contains(&span) {
            self.lines[line].spans.push(span);
        }
    }

    fn prep(&mut self, line: usize, said: &SaidFood) {
        for p in &said.prep {
            if !self.lines[line].prep.iter().any(|q| q == p || q.contains(p.as_str())) {
                self.lines[line].prep.push(p.clone());
            }
        }
    }

    fn set(&mut self, line: usize, said: &SaidFood, span: Span) {
        self.lines[line].amount = said.amount.map(|a| a.amount);
        if said.package.is_some() {
            self.lines[line].package = said.package;
        }
        self.lines[line].parts.clear();
        self.lines[line].spans.insert(0, span);
        self.prep(line, said);
    }

    /// An amount without a food: it measures the food just named, or takes back its figure.
    fn loose(
        &mut self,
        line: usize,
        said: SaidAmount,
        span: Span,
        correcting: bool,
        alone: bool,
        only: bool,
    ) -> Option<Entry> {
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
            && let Some(h) = held.filter(|h| h.unit().is_some_and(Unit::is_container))
        {
            self.lines[line].amount = Some(h.times(said.amount.high()));
            self.lines[line].spans.insert(0, span);
            return Some(Entry { line, part: None, partial: false, measured: true });
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
        let kin =
            old.unit() == amount.unit() || old.unit().zip(amount.unit()).is_some_and(|(a, b)| a.factor_to(b).is_some());
        let vague = old.unit().is_some_and(|u| u.is_loose() || u == Unit::Spoonful);
        if !kin && !vague && !(correcting && alone) {
            // A measure of another kind speaks of something else.
            return None;
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

    fn finish(&mut self) {
        for line in &mut self.lines {
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
