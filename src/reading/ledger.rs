//! The ledger of a card: what was measured out, what was added to it, and which part of it went where.
//!
//! Amounts become lines of the list; "another cup" adds, "no, three" replaces, "half of the butter" is an entry against
//! what was measured. A mention that measures nothing points back to its line.

mod book;
pub mod stray;
pub mod trust;
pub mod twice;

use super::dish::Plan;
use super::passing::Mention;
use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::draft::Span;
use crate::grammar::amount::SaidAmount;
use crate::grammar::food::{Quantifier, SaidFood};
use crate::item::Items;
use crate::lexicon::{Sets, lexicon, tagged};
use crate::measure::{Amount, Ratio, Unit};
use crate::recipe::{Line, Use};
use crate::token::{Kind, Token, Tokens};
use book::{Bare, Context, key};

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

/// The entries of the findings that lie between the first clause of a card and its last; the others have none.
#[derive(Debug, Default)]
pub struct Entries {
    from: usize,
    list: Vec<Option<Entry>>,
}

impl std::ops::Index<usize> for Entries {
    type Output = Option<Entry>;

    fn index(&self, id: usize) -> &Option<Entry> {
        id.checked_sub(self.from).and_then(|n| self.list.get(n)).unwrap_or(&None)
    }
}

impl std::ops::IndexMut<usize> for Entries {
    fn index_mut(&mut self, id: usize) -> &mut Option<Entry> {
        &mut self.list[id - self.from]
    }
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

/// A food that was measured again.
#[derive(Clone, Copy, Debug)]
pub struct Again {
    /// The line.
    pub line: usize,
    /// The clause and the finding of its figure so far.
    pub first: (usize, usize),
    /// The clause and the finding of the other.
    pub second: (usize, usize),
    /// The two stand in one part of the dish.
    pub together: bool,
    /// The figure so far.
    pub held: Amount,
    /// The other one.
    pub said: Amount,
}

/// The books of one card.
#[derive(Debug, Default)]
pub struct Ledger {
    /// The list.
    pub lines: Vec<Line>,
    /// Foods that were measured twice, and whether both figures went in: the line, the two findings with their clauses.
    pub twice: Vec<Again>,
    /// For each finding of the draft, its entry.
    pub entries: Entries,
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
    /// The whole container of a line that takes a part of it.
    whole: Vec<Option<Amount>>,
    /// The container said of a line that has no figure yet.
    hints: Vec<Option<Unit>>,
    /// For each line, the clause and the finding of its figure.
    figure_at: Vec<Option<(usize, usize)>>,
    /// The latest line opened without a figure, and the clause of it.
    waiting: Option<(usize, usize)>,
}

/// Keeps the books of card `card`.
///
/// With `all`, every food named in passing gets its line, as the training of that choice needs it.
pub fn keep(tokens: &[Token], clauses: &[Sorted], found: &[Found], plan: &Plan, card: usize, all: bool) -> Ledger {
    let extent = plan.extent.get(card).cloned().unwrap_or(0..0);
    let mine = match (clauses.get(extent.start), clauses.row(0, extent.end).last()) {
        (Some(first), Some(last)) if !extent.is_empty() => first.found.0..last.found.1,
        _ => 0..0,
    };
    let entries = Entries { from: mine.start, list: vec![None; mine.len()] };
    let mut book = Ledger { entries, ..Ledger::default() };
    let others = plan.others(card);
    let mut last: Option<usize> = None;
    let mut last_clause = 0;
    let mut last_measured = 0;
    let mut measured_line: Option<usize> = None;
    // The line that was measured for one jar of several, and the clause.
    let mut per_jar: Option<(usize, usize)> = None;
    // The amount said last, and its clause.
    let mut last_said: Option<(Amount, usize)> = None;
    // The clause in which something was taken back; it waits a few clauses for the right figure.
    let mut taken_back: Option<usize> = None;
    let mut last_time = 0;
    let dialogue = plan.dialogue;
    let mut called: Option<SaidFood> = None;
    let mut called_at = 0;
    // A food that went on the list without a figure, and the clause.
    let mut bare: Option<(SaidFood, usize)> = None;
    // The clause of a story that named it.
    let mut told_by = 0;
    let mut recap = false;
    // The clause that told how much came of it.
    let mut outcome_at: Option<usize> = None;
    // The food the dish was announced with: "wings first; I got five pounds here".
    let mut subject: Option<SaidFood> = None;
    let mut subject_at: Option<usize> = None;
    // A food named in passing, and the clause: an amount that follows measures it.
    let mut passed: Option<(SaidFood, usize)> = None;
    // A measured food that she says she does not have, and the clause.
    let mut lacking: Option<(usize, usize)> = None;
    // An amount that broke off before its food, and the clause.
    let mut owed: Option<(SaidAmount, usize)> = None;
    // A food of which there has to be enough, and the clause.
    let mut enough: Option<(SaidFood, usize)> = None;
    for (n, c) in clauses.iter().enumerate().take(extent.end).skip(extent.start) {
        if plan.card[n] != Some(card) {
            continue;
        }
        let row = Tokens(tokens.row(c.piece.from, c.piece.to));
        // What has not been told cannot be told again: "I'm not writing it down" opens a draft.
        recap |= c.cues.recap && book.lines.len() >= 2;
        let group = plan.group[n].clone();
        let mine = found.row(c.found.0, c.found.1);
        if c.piece.opens && !recap && book.lines.len() >= 2 {
            // A sentence that measures three or more foods, all of which stand on the list with these figures, tells it again.
            let end =
                clauses.row(n + 1, clauses.len()).iter().find(|d| d.piece.opens).map_or(found.len(), |d| d.found.0);
            let mut all = 0;
            let mut known = 0;
            let mut equal = 0;
            // "Two more onions, a tablespoon of salt" goes on.
            let mut more = false;
            for f in found.row(c.found.0, end.max(c.found.0)) {
                if let Item::Food(x) = &f.item
                    && let Some(a) = x.amount
                {
                    all += 1;
                    more |= a.more;
                    if let Some(line) = book.find(&key(&x.name), &None, 2) {
                        known += 1;
                        equal += usize::from(book.lines[line].amount.is_some_and(|h| h.same_size(&a.amount)));
                    }
                }
            }
            let sums_up = row.first_any(4, "that's again that");
            recap |= !more
                && (known == all && (all >= 3 && equal * 2 >= all || all >= 2 && sums_up && equal == all)
                    || all >= 4 && sums_up && known * 5 >= all * 4 && equal * 2 >= all);
        }
        let foods_here = mine.iter().any(|f| matches!(f.item, Item::Food(_)));
        if c.cues.story {
            // "No, not two tablespoons, that was the year nobody ate it."
            if row.at("no") && n <= last_measured + 1 && last_measured > 0 {
                taken_back = Some(n);
            }
            // "Some people want cinnamon; I put in a quarter teaspoon": she names it, and then her own figure.
            called = mine.iter().rev().find_map(|f| match &f.item {
                Item::Food(x) if x.amount.is_none() && x.food.is_some() => Some((**x).clone()),
                _ => None,
            });
            told_by = n;
            continue;
        }
        if told_by + 2 < n && told_by > 0 {
            (called, told_by) = (None, 0);
        }
        // "Crispy bacon on top; four rashers would do it": how much of it, nothing else.
        let would_do = !foods_here
            && !c.cues.called
            && book.waiting.is_some_and(|w| n <= w.1 + 1)
            && matches!(mine, [Found { item: Item::Loose(_), from, to }] if *from <= c.piece.from + 1
                && Tokens(tokens.row(*to, tokens.len())).at_any("would will should"));
        if c.main == Use::Remark && (c.cues.called || c.cues.swap) && !would_do {
            if c.cues.called && foods_here {
                called_at = n;
                called = mine
                    .iter()
                    .rev()
                    .find_map(|f| if let Item::Food(x) = &f.item { Some((**x).clone()) } else { None });
            }
            // "Salt… it says three quarters of a teaspoon, and I put in a half": the food stands in the clause before.
            if c.cues.called && !foods_here {
                let figure = mine.iter().find_map(|f| if let Item::Loose(a) = &f.item { Some(*a) } else { None });
                if let (Some(amount), Some(food)) = (figure, bare.take().filter(|b| n <= b.1 + 2).map(|b| b.0)) {
                    called_at = n;
                    called = Some(SaidFood { amount: Some(amount), ..food });
                }
            }
            note_options(&mut book, c, mine, last, c.found.0);
            continue;
        }
        // "Hmm, no, more like three quarters."
        let lead = row.0.iter().take_while(|t| !t.is_spoken() || t.is_any("hmm mm um uh er oh well")).count();
        let said_no = row.skip(lead);
        let no = said_no.at("no")
            && said_no.get(1).is_none_or(|t| {
                !t.is_spoken()
                    || t.is_any("i i'm wait make it's that's not more")
                    || crate::grammar::number::number(said_no.skip(1)).is_ok()
            })
            // "Well, four and a half": nothing else is said, and a figure was said just now.
            || (row.at_any("well rather") || row.at("or") && row.get(1).is_some_and(|t| t.is("rather")))
                && !mine.iter().any(|f| matches!(f.item, Item::Food(_)))
                && n <= last_measured + 1
                && last_measured > 0
                && mine.iter().any(|f| spoken_alone(tokens, c, f, mine) && matches!(f.item, Item::Loose(_) | Item::Count(_)));
        if c.cues.correct || no {
            taken_back = Some(n);
        }
        // "And then the tots. You need two bags": a food of no list, measured in what follows.
        if c.piece.opens
            && !foods_here
            && clauses.get(n + 1).is_none_or(|d| d.piece.opens)
            && let Some((a, b)) = super::scan::unlisted::bare_name(tokens, c.piece.from, c.piece.to)
        {
            passed = Some((SaidFood::named(crate::token::said(tokens.row(a, b))), n));
            continue;
        }
        let mut correcting = taken_back.is_some_and(|t| n <= t + 4);
        let mut in_clause: Vec<usize> = Vec::new();
        // "Four tablespoons of salt. No, teaspoons": only the unit is taken back.
        let just_now = n > 0 && clauses.item(n - 1).cues.correct && row.at_any("that that's it's");
        if (no || c.cues.correct || correcting || just_now || dialogue && row.len() <= 2)
            && let Some(line) = last.filter(|_| n <= last_clause + 2)
            && let Some(unit) = bare_unit(tokens, c, mine)
            && let Some(held) = book.lines[line].amount
            && held.unit().is_some_and(|u| u != unit && u.dimension() == unit.dimension())
            && let Some(right) = Amount::range(held.low(), held.high(), Some(unit))
        {
            book.lines[line].amount = Some(right);
            book.lines[line].parts.clear();
            taken_back = None;
            correcting = false;
        }
        for (k, f) in mine.iter().enumerate() {
            let id = c.found.0 + k;
            let span = tokens.item(f.from).span.to(tokens.item(f.to - 1).span);
            match &f.item {
                Item::Food(said) => {
                    // "About a cup at a time", "two steaks at a time": not how much there is.
                    let some = SaidFood { amount: None, ..(**said).clone() };
                    let pours = at_a_time(Tokens(tokens.row(f.to, (f.to + 3).min(tokens.len()))))
                        && said
                            .amount
                            .is_some_and(|a| a.amount.unit().is_none_or(|u| !u.is_loose() && u != Unit::Spoonful))
                        || said.amount.is_some_and(|a| beyond_a_kitchen(a.amount));
                    // "A teaspoon of cumin and the same of paprika, half that of chili powder."
                    let likewise =
                        as_much(tokens, c, f, said, last_said.map(|s| s.0)).zip(last_said.filter(|s| n <= s.1 + 1));
                    let alike = likewise.map(|(times, (amount, _))| SaidFood {
                        amount: Some(SaidAmount::plain(amount.times(times))),
                        quantifier: Quantifier::None,
                        ..(**said).clone()
                    });
                    // Only what is named and no more: "Ketchup." "Butter the dish" is an order.
                    let names = c.main != Use::Action && said.amount.is_none() && said.food.is_some();
                    let broken = owed.take_if(|_| names).filter(|o| n <= o.1 + 2);
                    let whole = broken.map(|o| SaidFood { amount: Some(o.0), ..(**said).clone() });
                    let said = if pours { &some } else { alike.as_ref().or(whole.as_ref()).unwrap_or(said) };
                    // "You said half on the phone… Then sesame seeds, one teaspoon": it goes on, and was no second telling.
                    recap &= said.amount.is_none()
                        || book.find(&key(&said.name), &None, 1).is_some()
                        || !(c.main == Use::Action
                            || row.first_any(2, "then now")
                            || row.at("for") && row.has_any("want need"));
                    // "A cup of buttermilk. I don't have buttermilk today, so I'm using yogurt."
                    let same = book.find(&key(&said.name), &group, 2);
                    if said.amount.is_none()
                        && same.is_some()
                        && same == measured_line
                        && n <= last_measured + 3
                        && lacks(tokens, c, f)
                    {
                        lacking = measured_line.map(|l| (l, n));
                    }
                    if let Some((line, at)) = lacking
                        && same.is_none()
                        && said.food.is_some()
                        && n <= at + 3
                        && c.main != Use::Chatter
                        && Tokens(tokens.row(c.piece.from, f.from)).has_any("use using used put putting grabbed")
                    {
                        let entry = book.replace(line, said, span);
                        // The figure was said of the other food.
                        if said.amount.is_none() && !book.unsure.contains(&line) {
                            book.unsure.push(line);
                        }
                        book.entries[id] = Some(entry);
                        (lacking, last, last_clause) = (None, Some(line), n);
                        (measured_line, last_measured) = (Some(line), n);
                        in_clause.push(line);
                        continue;
                    }
                    // "Two tablespoons of butter or oil": either will do.
                    let either = k > 0
                        && said.amount.is_none()
                        && mine[k - 1].to + 1 == f.from
                        && tokens.item(f.from - 1).is("or")
                        && matches!(&mine[k - 1].item, Item::Food(x) if x.amount.is_some());
                    if either && book.find(&key(&said.name), &group, 2).is_none() {
                        continue;
                    }
                    let mention = Mention {
                        tokens,
                        clause: c,
                        mine,
                        at: (f.from, f.to),
                        said,
                        title: &plan.dishes[card].title,
                        others: &others,
                        lines: book.lines.len(),
                    };
                    if plan.opens[n] && overlaps(plan, card, span) {
                        if said.food.is_some() && said.amount.is_none() {
                            subject = Some(said.clone());
                            subject_at = Some(n);
                        }
                        continue;
                    }
                    if c.main == Use::Chatter && said.quantifier != Quantifier::Again
                        || c.main == Use::Closing && said.amount.is_none()
                    {
                        // "How much butter do you want? Four ounces." "While waiting, your carrots. Three big ones."
                        let asked = how_much(tokens, f);
                        let named = f.to >= c.piece.to
                            && Tokens(tokens.row(f.from.saturating_sub(1), f.from + 1)).has_any("the your my our")
                            && tokens.row(c.piece.from, f.from).iter().any(|t| t.kind == Kind::Comma);
                        // "And then the last is the palm oil. Two cups."
                        let shown = f.to >= c.piece.to
                            && c.main == Use::Chatter
                            && !c.cues.chatter
                            && said.amount.is_none()
                            && Tokens(tokens.row(f.from.saturating_sub(1).max(c.piece.from), f.from + 1))
                                .has_any("is the your my our are");
                        if (asked || named || shown) && said.food.is_some() {
                            passed = Some((said.clone(), n));
                        }
                        continue;
                    }
                    if c.main == Use::Remark && said.amount.is_none() {
                        // Keeping, making ahead, leaving out: they point at lines and add none.
                        if let Some(line) = book.find(&key(&said.name), &group, 2) {
                            in_clause.push(line);
                        } else if c.cues.optional
                            && !(c.cues.keep || c.cues.ahead || c.cues.called)
                            && said.food.is_some()
                            && !compared(tokens, c, f)
                            && !is_negative(tokens, c, f.from, !slight(said))
                        {
                            // "Roasted seaweed, if you have it": an ingredient that may be left out.
                            if all || mention.counts() {
                                let line = book.open(said, &group, span);
                                book.lines[line].optional = true;
                                book.entries[id] = Some(Entry { line, part: None, partial: false, measured: true });
                                (last, last_clause) = (Some(line), n);
                            }
                        }
                        continue;
                    }
                    if c.main == Use::Remark && (c.cues.keep || c.cues.ahead) {
                        continue;
                    }
                    // "If it gets too stiff, a tablespoon of milk": no line of its own.
                    if c.why == "what to do if it happens" && book.find(&key(&said.name), &group, 2).is_none() {
                        continue;
                    }
                    // "Candlenut" of "six buah keras, that's candlenut" has a line already.
                    if said.amount.is_none() && last.is_some() && glosses(tokens, f, found.row(0, id).last()) {
                        continue;
                    }
                    // "We eat it with a banana and a piece of jaggery": what it goes with is bought, or another card.
                    if beside(tokens, c, f)
                        && said
                            .amount
                            .is_none_or(|a| a.amount.unit().is_none_or(|u| u == Unit::Piece || u == Unit::Slice))
                        && book.find(&key(&said.name), &group, 2).is_none()
                    {
                        continue;
                    }
                    // "And the guascas. It's a herb, dry. Two tablespoons": what it is, and no food of its own.
                    let waits = book.waiting.is_some_and(|w| n <= w.1 + 4 && book.lines[w.0].amount.is_none());
                    if waits
                        && row.at_any("it's its that's thats this they're")
                        && f.from <= c.piece.from + 2
                        && said.amount.is_some_and(|a| a.article && a.amount.unit().is_none() && a.package.is_none())
                    {
                        continue;
                    }
                    // The name of the dish is no line, nor is what is named before anything is measured.
                    let unmeasured = said.amount.is_none_or(|a| {
                        a.amount.unit().is_none()
                            && a.package.is_none()
                            && tokens.item(f.from).is_any("a an")
                            && (plan.opens[n] || overlaps(plan, card, span))
                    });
                    let announced = n < plan.measured_from[card] && c.main != Use::Action;
                    if unmeasured && (announced || plan.opens[n] && overlaps(plan, card, span)) && said.food.is_some() {
                        subject = Some(said.clone());
                        subject_at = Some(n);
                    }
                    // "Just enough water to cover, about four cups."
                    if f.from > c.piece.from
                        && tokens.item(f.from - 1).is("enough")
                        && said.food.is_some()
                        && slight(said)
                    {
                        passed = Some((said.clone(), n));
                        enough.clone_from(&passed);
                    }
                    if unmeasured && (announced || plan.opens[n] && overlaps(plan, card, span))
                        || compared(tokens, c, f) && said.amount.is_none_or(|a| a.article)
                        || of_a_dish(tokens, f) && slight(said)
                        || titled(&plan.dishes[card].title, said)
                    {
                        continue;
                    }
                    // "Half a cup of juice. It took me five oranges": what it took is not what goes in.
                    let took = (c.piece.from..f.from).any(|k| {
                        tokens.item(k).is_any("took takes")
                            && Tokens(tokens).nth_any(k + 1, "me us you")
                            && k + 4 >= f.from
                    });
                    if took && said.amount.is_some_and(|a| a.amount.unit().is_none()) && n <= last_measured + 1 {
                        continue;
                    }
                    // "Two sausages apiece" counts for one plate.
                    let after = Tokens(tokens.row(f.to, (f.to + 3).min(tokens.len())));
                    // "One onion does not fill a jar" measures nothing.
                    let refused =
                        after.at_any("doesn't won't isn't") || after.at_any("does will is") && after.skip(1).at("not");
                    if said.amount.is_some()
                        && (after.at("apiece")
                            || refused
                            || after.at_any("per a each") && after.skip(1).at_any("head person plate serving"))
                    {
                        continue;
                    }
                    // "Now potatoes. Three pounds of russets": the kind of what was just named.
                    if let Some((line, at)) = book.waiting
                        && n <= at + 1
                        && said.amount.map_or(row.len() <= 2, |a| a.amount.unit() != Some(Unit::Inch))
                        && book.lines[line].amount.is_none()
                        && let Some(food) = said.food
                        && !said.name.ends_with(book.lines[line].name.as_str())
                        && food.name.rsplit(' ').next() == Some(crate::token::fold(&book.lines[line].name).as_str())
                    {
                        book.replace(line, &some, span);
                    }
                    // "So two cups of water total."
                    let total = said.amount.is_some() && row.at("so") && totals(tokens, f);
                    let near = total || n <= last_clause + if correcting { 8 } else { 3 };
                    // "A teaspoon of salt in the meat and half a teaspoon in the sauce" goes on.
                    let restates = n <= last_measured + if dialogue { 5 } else { 1 }
                        && !row.at_any("then and plus also another")
                        && !(f.from > 0 && tokens.item(f.from - 1).is_any("and plus"))
                        // "Half a teaspoon of salt for the dough. For the top one teaspoon of salt."
                        && !last.and_then(|l| book.figure_at[l]).is_some_and(|first| {
                            let (second, tags) = ((n, id), "");
                            twice::Twice { tokens, clauses, found, first, second, together: false, tags, dialogue }.apart()
                        });
                    let conditional = c.why == "what to do if it happens"
                        || Tokens(tokens.row(c.core, c.piece.to)).at_any("if unless");
                    // "that's one teaspoon of salt like I told you": the same figure again, or another one.
                    let told = (0..row.len())
                        .any(|k| row.skip(k).at_any("told said say") && k > 0 && row.nth_any(k - 1, "i i've as"));
                    // "It's a quart of milk and two cans of evaporated": the second of a list explains nothing.
                    let listed = last_measured == n && f.from > 0 && tokens.item(f.from - 1).is_any("and plus");
                    let explains = !listed && row.at_any("that's which about it's")
                        || c.core > c.piece.from && tokens.item(c.core).is_any("that's which")
                        || tokens.item(c.core).is("that") && Tokens(tokens).nth_any(c.core + 1, "is was");
                    let entry = book.mention(
                        said,
                        &group,
                        span,
                        Context {
                            correcting,
                            settles: total || row.at("so") && row.nth_any(1, "it's that's i'm make we're let's call"),
                            near,
                            conditional,
                            told,
                            aside: c.piece.opens && n > last_measured + 3 && tokens.item(c.piece.from).is_any("oh and"),
                            joined: Tokens(
                                tokens.row(f.from.saturating_sub(3).max(c.piece.from), (f.to + 3).min(c.piece.to)),
                            )
                            .has_any("more another extra additional also"),
                            restates,
                            explains,
                            last,
                            recap,
                            action: c.main == Use::Action,
                            negative: is_negative(tokens, c, f.from, !slight(said)),
                            counts: !slight(said)
                                || !taken_out(c)
                                    && (all
                                        || mention.counts()
                                        || said.quantifier == Quantifier::Some && rolled_in(tokens, c, f)),
                            dialogue,
                            definite: f.from > c.piece.from
                                && tokens.item(f.from - 1).is_any("the that your those this last other")
                                && said.amount.is_some_and(|a| !a.bare && !a.article),
                            ordinal: ordinal(tokens, c, f),
                            one_of_them: one_of_them(tokens, f, &said.name),
                            both: &|first, together, tags| {
                                let second = (n, id);
                                let twice =
                                    twice::Twice { tokens, clauses, found, first, second, together, tags, dialogue };
                                all || twice.both()
                            },
                            at: (n, id),
                        },
                    );
                    if entry.is_none()
                        && said.amount.is_none()
                        && said.food.is_some()
                        && !is_negative(tokens, c, f.from, !slight(said))
                    {
                        passed = Some((said.clone(), n));
                    }
                    if let Some(e) = entry {
                        if said.amount.is_some() || said.quantifier == Quantifier::Again {
                            if e.measured {
                                book.figure_at[e.line] = Some((n, id));
                            }
                            passed = None;
                            if of_each_one(tokens, c, f) {
                                per_jar = Some((e.line, n));
                            }
                            last_said = said.amount.map(|a| (a.amount, n));
                            measured_line = Some(e.line);
                            correcting = false;
                            taken_back = None;
                            last_measured = n;
                        }
                        in_clause.push(e.line);
                        if c.main != Use::Chatter {
                            last = Some(e.line);
                            last_clause = n;
                        }
                        // "How many tomatoes? Eight": the one that is asked for waits, whatever was named since.
                        let asked = how_much(tokens, f);
                        if book.lines[e.line].amount.is_none() && (e.measured || asked) {
                            bare = Some((said.clone(), n));
                            book.waiting = Some((e.line, n));
                        }
                        book.entries[id] = Some(e);
                    }
                    if said.amount.is_some() {
                        called = None;
                    }
                }
                Item::Loose(_) | Item::Count(_) => {
                    // "Five eggs, no, six today": taken back within the clause.
                    let flat_no = (c.piece.from..f.from)
                        .rev()
                        .find(|k| tokens.item(*k).is_spoken())
                        .is_some_and(|k| tokens.item(k).is_any("no naw nah nope"));
                    // "A tablespoon of seasoning, naw, let's say two teaspoons."
                    let rather = (c.piece.from..f.from).any(|k| {
                        k + 3 >= f.from
                            && (tokens.item(k).is("let's") && tokens.item(k + 1).is_any("say do")
                                || tokens.item(k).is("me")
                                    && k > c.piece.from
                                    && tokens.item(k - 1).is("let")
                                    && tokens.item(k + 1).is_any("do say make put")
                                || tokens.item(k).is_any("call make") && tokens.item(k + 1).is_any("it that"))
                    });
                    // "One and a half tablespoons, no no, teaspoons, one and a half teaspoons."
                    let since = mine[..k].last().map_or(c.piece.from, |m| m.to);
                    let takes_back = (since..f.from).any(|k| {
                        // "A cup of milk, well, three quarters of a cup."
                        let well = tokens.item(k).is("well") && k > since && !tokens.item(k - 1).is_spoken();
                        // "Half a cup, no, that swims, six tablespoons."
                        let no = tokens.item(k).is("no")
                            && k > since
                            && !tokens.item(k - 1).is_spoken()
                            && !tokens.item(k + 1).is_spoken();
                        well || no
                            || lexicon().talk.exact(Tokens(tokens.row(k, f.from))).is_some_and(|m| m.1.0 == "correct")
                    });
                    correcting |= (flat_no || rather || takes_back && bare_round(tokens, since, f.to))
                        && (last_clause == n || rather && n <= last_clause + 2);
                    // "Did I say two, I meant one", "half a cup, not a whole cup": not that one.
                    let back = |k: usize| f.from.checked_sub(k).filter(|b| *b >= c.piece.from).map(|b| tokens.item(b));
                    if c.cues.correct && back(1).is_some_and(|t| t.is_any("say said"))
                        || back(1).is_some_and(|t| t.is("not"))
                    {
                        continue;
                    }
                    // "Melt a stick of it, and hold on to the half" points back.
                    if matches!(&f.item, Item::Count(x) if x.high < Ratio::ONE)
                        && back(1).is_some_and(|t| t.is("the"))
                        && !c.cues.correct
                        && tokens.get(f.to).is_none_or(|t| !t.is_spoken())
                    {
                        continue;
                    }
                    // "I'm seventeen, so I didn't": an age.
                    if matches!(f.item, Item::Count(_))
                        && back(1).is_some_and(|t| t.is_any("i'm he's she's you're they're turned"))
                    {
                        continue;
                    }
                    // "The frozen ones, the eight inch", "from the packet, the 40 gram": its size, whatever it measures.
                    if matches!(&f.item, Item::Loose(a) if a.amount.unit().is_some_and(|u| !u.is_container() && !u.is_loose()))
                        && back(1).is_some_and(|t| t.is("the"))
                        && tokens.get(f.to).is_none_or(|t| !t.is_spoken() || t.is_any("one ones kind size"))
                        && back(2).is_none_or(|t| !t.is_any("with for in of"))
                    {
                        continue;
                    }
                    // "A quarter cup of…" and somebody else says of what.
                    if let Item::Loose(a) = &f.item
                        && tokens.get(f.to).is_some_and(|t| t.is("of"))
                        && f.to + 1 >= c.piece.to
                    {
                        owed = Some((*a, n));
                        continue;
                    }
                    // "Just enough water to come level with the potatoes, which is about three cups."
                    if let Item::Loose(a) = &f.item
                        && a.amount.unit().is_some_and(|u| u.dimension() == crate::measure::Dimension::Volume)
                        && enough.as_ref().is_some_and(|e| n <= e.1 + 1)
                    {
                        called = enough.take().map(|e| e.0);
                    }
                    // "A piece of ginger, let me say two inches", "lotus stem, one piece, about two hundred grams".
                    if let (Item::Loose(a), Some(line)) = (&f.item, last.filter(|_| n <= last_clause + 1))
                        && a.amount
                            .unit()
                            .is_some_and(|u| u == Unit::Inch || u.dimension() == crate::measure::Dimension::Weight)
                        && book.lines[line]
                            .amount
                            .is_some_and(|h| h.unit() == Some(Unit::Piece) && h.high() == Ratio::ONE)
                        && tokens
                            .row(mine[..k].last().map_or(0, |m| m.to).max(f.from.saturating_sub(8)), f.from)
                            .iter()
                            .rev()
                            .take_while(|t| t.is_spoken() && !t.is_any("piece thumb chunk hunk"))
                            .all(|t| t.is_in("so to say"))
                        && tokens
                            .get(f.to)
                            .is_none_or(|t| !t.is_spoken() || t.is_any("long and") || t.text.ends_with("ed"))
                    {
                        book.lines[line].amount = Some(a.amount);
                        book.lines[line].spans.push(span);
                        continue;
                    }
                    let bare_clause = spoken_alone(tokens, c, f, mine);
                    let leads = f.from <= c.core + 1 && matches!(f.item, Item::Loose(_)) && !foods_here;
                    // "It was dry, so it's three cups", "you need one cup": the figure that counts.
                    // "You might need up to a cup."
                    let up_to = (c.piece.from..f.from).any(|k| {
                        tokens.item(k).is_any("maybe perhaps")
                            || tokens.item(k).is_any("could might may up")
                                && Tokens(tokens).nth_any(k + 1, "be need take go to want")
                    });
                    // "You might want a couple of tablespoons more."
                    if up_to && matches!(&f.item, Item::Loose(a) if a.more) {
                        continue;
                    }
                    let food_before = mine[..k].iter().any(|f| matches!(f.item, Item::Food(_)));
                    // "Cheese, two cups. Three. It's three because of the top": said twice, and nothing else between.
                    let twice_said = matches!(&f.item, Item::Count(x) if row.at("it's")
                    && n <= last_measured + 2
                    && f.from == c.piece.from + 1
                    && n.checked_sub(1).is_some_and(|before| {
                        let before = clauses.item(before);
                        matches!(found.row(before.found.0, before.found.1),
                            [Found { item: Item::Count(y), from, to }] if y.low == x.low
                                && *from <= before.piece.from + 1 && *to + 1 >= before.piece.to)
                    }));
                    let settles = !food_before
                        && !up_to
                        && (f.from > c.piece.from && tokens.item(f.from - 1).is("only") && n <= last_measured + 2
                            // "It's a cup and three quarters in mine now."
                            || row.at("it's") && tokens.row(f.to, c.piece.to.min(f.to + 3)).iter().any(|t| t.is("now"))
                            || row.at("so")
                                && row.first_any(5, "it's i'm that's make call we're now do use")
                            || row.first_any(3, "need use")
                                && row.first_any(2, "you i we just"));
                    // "If yours is hot, use one cup": a figure for another case.
                    let supposed = !c.piece.opens
                        && n > 0
                        && clauses.row(0, n).iter().rev().take(3).find(|d| d.piece.opens).is_some_and(|d| {
                            Tokens(tokens.row(d.core, d.piece.to)).at_any("if unless")
                                || !bare_clause && Tokens(tokens.row(d.core, d.piece.to)).at("when")
                                || tokens.row(d.piece.from, d.piece.to).iter().take(2).any(|t| t.is("if"))
                        })
                        && book.waiting.is_none()
                        // "It's kosher salt, if you've got the regular then make it two teaspoons."
                        || !c.piece.opens
                            && n > 0
                            && book.waiting.is_none()
                            && row.0.iter().take(3).any(|t| t.is("make"))
                            && Tokens(tokens.row(clauses.item(n - 1).core, clauses.item(n - 1).piece.to)).at_any("if unless");
                    if supposed {
                        continue;
                    }
                    // "My dad drank eleven cups a day."
                    let later = Tokens(tokens.row(f.to, (f.to + 3).min(tokens.len())));
                    let a_day = later.at_any("a per every each") && later.nth_any(1, "day week month year night");
                    if a_day || matches!(&f.item, Item::Loose(a) if beyond_a_kitchen(a.amount)) {
                        continue;
                    }
                    // "Two tablespoons now and two at the end": the second adds to the first.
                    let later = later.skip(usize::from(later.at("more")));
                    let in_turn = match &f.item {
                        Item::Count(x) => x.low >= Ratio::ONE,
                        Item::Loose(a) => last
                            .and_then(|l| book.lines[l].amount)
                            .is_some_and(|h| h.unit() == a.amount.unit() && h.unit().is_some()),
                        _ => false,
                    } && n <= last_measured + 1
                        && last_measured > 0
                        && later.at_any("at later for on to after")
                        && k > 0
                        && Tokens(tokens).nth_any(mine[k - 1].to, "now first here")
                        && match &mine[k - 1].item {
                            Item::Food(x) => x.amount.is_some(),
                            Item::Loose(_) => true,
                            _ => false,
                        }
                        && tokens.row(f.from.saturating_sub(2), f.from).iter().any(|t| t.is("and"));
                    // "Onion too, I sliced another half and threw it in."
                    let another = matches!(&f.item, Item::Count(_))
                        && tokens.item(f.from).is("another")
                        && (later.first().is_none_or(|t| !t.is_spoken()) || later.at("and"))
                        && n <= last_clause + 1
                        && !c.piece.opens
                        && last.and_then(|l| book.lines[l].amount).is_some_and(|a| a.unit().is_none());
                    let in_turn = in_turn || another;
                    // "Half an onion, and the other half goes in later."
                    let other_half = matches!(&f.item, Item::Count(x) if x.low == Ratio::of(1, 2))
                        && back(1).is_some_and(|t| t.is("other"))
                        && last
                            .and_then(|l| book.lines[l].amount)
                            .is_some_and(|a| a.low() == Ratio::of(1, 2) && !a.is_range() && a.unit().is_none())
                        && later.at_any("goes go at for on later in");
                    // "Two cups of flour plus two tablespoons", "half a cup of butter, and two tablespoons for greasing".
                    let plus = match &f.item {
                        Item::Loose(a)
                            if last_measured == n
                                && (back(1).is_some_and(|t| t.is("plus"))
                                    || back(1).is_some_and(|t| t.is("and"))
                                        && later.at_any("for to")
                                        && later.get(1).is_some_and(|t| t.is_in("uses of their own"))) =>
                        {
                            measured_line.filter(|l| {
                                book.lines[*l].amount.and_then(|h| h.plus(a.amount)).is_some()
                                    && a.amount.unit().is_some_and(|u| !u.is_loose())
                            })
                        }
                        _ => None,
                    };
                    if let (Some(line), Item::Loose(a)) = (plus, &f.item) {
                        let sum = |held: Amount| {
                            let same = held.unit().and_then(|u| a.amount.to(u)).and_then(|more| held.plus(more));
                            same.or_else(|| held.plus(a.amount))
                        };
                        book.lines[line].amount = book.lines[line].amount.and_then(sum);
                        book.lines[line].spans.push(span);
                        continue;
                    }
                    // "A quarter cup of oil in all. Two tablespoons now", "I use one tablespoon for the top": a part of what was
                    // measured.
                    let of_the_whole = later.at_any("for on over") && later.nth_any(1, "the each");
                    if let (Item::Loose(a), Some(line)) = (&f.item, last.filter(|_| n <= last_clause + 1))
                        && (later.at_any("now first")
                            || of_the_whole && back(1).is_some_and(|t| t.is_any("use put take")))
                        && !foods_here
                        && let Some(held) = book.lines[line].amount
                        && a.amount.unit().and_then(|u| held.to(u)).is_some_and(|h| a.amount.high() < h.low())
                    {
                        book.part(line, Some(a.amount), span);
                        continue;
                    }
                    // "One more cube, so three cubes altogether" counts the seasoning cubes, whatever was named since.
                    if let Item::Loose(a) = &f.item
                        && let Some(unit) = a.amount.unit()
                    {
                        let total = totals(tokens, f);
                        let pieces = unit.dimension() == crate::measure::Dimension::Piece && !unit.is_container();
                        let line = (0..book.lines.len()).rev().filter(|_| pieces && (total || a.more)).find(|l| {
                            book.lines[*l].amount.is_some_and(|h| {
                                let named = book.keys[*l].last().is_some_and(|w| *w == unit.name());
                                h.unit() == Some(unit) || h.unit().is_none() && named
                            })
                        });
                        // "The other half teaspoon of turmeric, so one teaspoon in the whole dish."
                        let sums = total && row.at("so");
                        let again = Tokens(tokens.row(f.from.saturating_sub(24), f.from))
                            .has_any("other another more again extra second");
                        let line = line.or(last.filter(|l| {
                            let held = book.lines[*l].amount.and_then(|h| h.to(unit));
                            sums && again && n <= last_clause + 1 && held.is_some_and(|h| h.high() <= a.amount.low())
                        }));
                        // "A teaspoon of salt and one of pepper, so two teaspoons in all": of both together.
                        if sums && !again && line.is_none() {
                            continue;
                        }
                        if let Some(line) = line
                            && let Some(held) = book.lines[line].amount
                        {
                            // "One more stick if you like it strong."
                            if !total && Tokens(tokens).nth_any(f.to, "if unless or for") {
                                continue;
                            }
                            let new = if pieces { a.amount.in_unit(held.unit()) } else { a.amount };
                            book.lines[line].amount = if total { Some(new) } else { held.plus(new) };
                            book.lines[line].spans.push(span);
                            continue;
                        }
                    }
                    let correcting_here = correcting;
                    // "I bought three pounds, but I'm using two."
                    let ends_here = tokens.get(f.to).is_none_or(|t| !t.is_spoken());
                    // "These are little eggs, so I'm using four", "this time we're doing a cup and a half".
                    let here = Tokens(tokens).nth_any(f.to, "here today")
                        && back(1).is_some_and(|t| t.is("got"))
                        && back(2).is_some_and(|t| t.is_any("i've we've have"));
                    let own_now = (ends_here || here)
                        && last_measured > 0
                        && n <= last_measured + 4
                        && last.is_some_and(|l| Some(l) == measured_line)
                        && (here
                            || back(1).is_some_and(|t| t.is_any("using doing putting going taking"))
                                && back(2).is_some_and(|t| t.is_any("i'm we're im")));
                    let uses_fewer = matches!(f.item, Item::Count(_))
                        && f.from > c.piece.from
                        && tokens.item(f.from - 1).is_any("using use used")
                        && ends_here
                        && n <= last_measured + 1
                        && last_measured > 0
                        || own_now && matches!(f.item, Item::Count(_));
                    let uses_so_many = matches!(f.item, Item::Count(_))
                        && f.from > c.piece.from
                        && tokens.item(f.from - 1).is_any("use take put need do")
                        && tokens.get(f.to).is_none_or(|t| !t.is_spoken());
                    // "I told your cousin four cups and hers came out soupy, so three and a half."
                    // "Two cups of flour, no, it was still sticky, so two and a half cups and a teaspoon of salt."
                    let comes_to = row.at("so")
                        && f.from == c.piece.from + 1
                        && if let Item::Count(_) = f.item {
                            tokens.get(f.to).is_none_or(|t| !t.is_spoken())
                        } else {
                            tokens.row(c.piece.from.saturating_sub(8), c.piece.from).iter().any(|t| t.is("no"))
                        }
                        && n <= last_measured + 2
                        && last_measured > 0;
                    correcting |= uses_fewer || comes_to || own_now;
                    // "These are the ten-ounce cans, and you need three of those."
                    let of_those = matches!(f.item, Item::Count(_))
                        && tokens.get(f.to).is_some_and(|t| t.is("of"))
                        && Tokens(tokens).nth_any(f.to + 1, "those them these");
                    // "Ten ounces, so that's one bag" takes nothing back.
                    let told_again = match &f.item {
                        Item::Loose(a) => last.and_then(|l| book.lines[l].amount).is_some_and(|held| {
                            held.unit().zip(a.amount.unit()).is_some_and(|(h, u)| {
                                h.factor_to(u).is_none() && !h.is_loose() && !h.is_container() && u.is_container()
                            })
                        }),
                        _ => false,
                    };
                    correcting |= twice_said && n <= last_clause + 2;
                    // "Two tablespoons of curry powder, I do two dessertspoons of it": her own figure.
                    let of = usize::from(later.at("of") && later.nth_any(1, "it that")) * 2;
                    let own = matches!(f.item, Item::Loose(_))
                        && back(1).is_some_and(|t| t.is_any("do use put take"))
                        && back(2).is_some_and(|t| t.is_any("i we"))
                        && tokens.get(f.to + of).is_none_or(|t| !t.is_spoken() || t.is("and"));
                    correcting |= own && of > 0 && !foods_here && n <= last_clause + 2;
                    correcting |= settles
                        && !told_again
                        && (of_those || matches!(f.item, Item::Loose(_)))
                        && n <= last_clause + 4;
                    let awaited = (uses_so_many
                        || matches!(&f.item, Item::Loose(a) if a.amount.unit().is_some_and(|u| !u.is_loose())))
                        && book.waiting.is_some_and(|w| {
                            n <= w.1
                                + if settles
                                    || row.first_any(4, "takes need use")
                                    || row.at_any("i we") && row.skip(1).at_any("put do add")
                                {
                                    6
                                } else {
                                    2
                                }
                                && book.lines[w.0].amount.is_none()
                        });
                    // "And ham, I had a pound of it left."
                    let of_it = matches!(f.item, Item::Loose(_))
                        && tokens.get(f.to).is_some_and(|t| t.is("of"))
                        && Tokens(tokens).nth_any(f.to + 1, "it them those")
                        && passed.as_ref().is_some_and(|p| n <= p.1 + 1);
                    // "Four teaspoons for the whole batch, and I have two here."
                    let answers = n <= called_at + 2 && called.is_some();
                    if c.main == Use::Chatter
                        && !(c.cues.correct
                            || correcting
                            || bare_clause
                            || leads
                            || awaited
                            || answers
                            || of_it
                            || up_to
                            || in_turn
                            || other_half)
                    {
                        continue;
                    }
                    let said = match &f.item {
                        Item::Loose(a) => SaidAmount { more: a.more || in_turn, ..*a },
                        Item::Count(number) => match Amount::range(number.low, number.high, None) {
                            Some(amount) if in_turn || other_half => {
                                let unit = last.and_then(|l| book.lines[l].amount).and_then(|a| a.unit());
                                SaidAmount { more: true, ..SaidAmount::plain(amount.in_unit(unit)) }
                            }
                            Some(amount) => SaidAmount::plain(amount),
                            None => continue,
                        },
                        _ => continue,
                    };
                    let whole = said.package.and_then(|p| Amount::new(p.size, Some(p.unit)));
                    if let (Some((line, at)), Some(whole)) = (per_jar, whole)
                        && n <= at + 1
                        && book.lines[line].amount.and_then(|h| h.unit()).is_some_and(|u| whole.to(u).is_some())
                    {
                        // The total looked like the size of the jar.
                        book.lines[line].amount = Some(whole);
                        book.lines[line].spans.insert(0, span);
                        per_jar = None;
                        continue;
                    }
                    // "Butter, of course. Two loaves": how many it makes.
                    if said.amount.unit() == Some(Unit::Loaf) && last.is_some_and(|l| !tagged(book.tags[l], "bread")) {
                        continue;
                    }
                    // "Hard like a brick" measures nothing.
                    let likened = f.from > c.piece.from && tokens.item(f.from - 1).is_any("like as than");
                    // "They go in a tin with paper", "leave it in the one pot": where it is kept.
                    let spread = f.from > c.piece.from && tokens.item(f.from - 1).is_any("among between");
                    let place = spread
                        || said.article
                            && said.amount.unit().is_some_and(Unit::is_container)
                            && f.from > c.piece.from
                            && tokens.item(f.from - 1).is_any("in into from on onto over to");
                    // "The bag's ten ounces" tells its size.
                    let vessel = |k: usize| {
                        let word = tokens.item(k).text.strip_suffix("'s").unwrap_or(&tokens.item(k).text);
                        crate::grammar::amount::unit(Tokens(&[Token::word(word)]))
                            .is_some_and(|(_, u)| u.is_container())
                    };
                    let before = f.from.saturating_sub(1);
                    let sized = f.from > c.piece.from
                        && said.amount.unit().is_some_and(|u| !u.is_container())
                        && (tokens.item(before).text.ends_with("'s") && vessel(before)
                            || tokens.item(before).is("is") && before > c.piece.from && vessel(before - 1));
                    // "That comes out about five cups": what came of it, and what takes such a figure back speaks of it as well.
                    let outcome = (c.piece.from..f.from).rev().take(5).any(|k| {
                        lexicon()
                            .talk
                            .exact(Tokens(tokens.row(k, f.from)))
                            .is_some_and(|m| m.1.0 == "outcome" && k + m.0 + 1 >= f.from)
                    });
                    if outcome {
                        outcome_at = Some(n);
                    }
                    let outcome = outcome || outcome_at.is_some_and(|o| n <= o + 3 && o >= last_clause && correcting);
                    let vague = likened
                        || outcome
                        || at_a_time(Tokens(tokens.row(f.to, (f.to + 3).min(tokens.len()))))
                        || place
                        || sized
                        || said.article
                            && said.amount.unit().is_some_and(|u| u.dimension() == crate::measure::Dimension::Piece)
                            && book.waiting.is_none();
                    let above = Tokens(tokens.row(f.to, c.piece.to.min(f.to + 2))).at_any("over above past up deep");
                    if said.amount.unit() == Some(Unit::Inch)
                        && (above || !(of_it || book.waiting.is_some_and(|w| n <= w.1 + 1) && !foods_here))
                        || recap
                        || vague
                    {
                        continue;
                    }
                    // "In five minutes; okay, more like eight" speaks of the time.
                    let count = said.amount.unit().is_none();
                    // "For all eight", "for six": how many it is for.
                    let heads = count && f.from > c.piece.from && tokens.item(f.from - 1).is_any("all for");
                    if count && last_time > last_measured.max(last_clause) && n <= last_time + 3
                        || heads
                        || count && correcting && !bare_clause && !c.cues.correct && !uses_fewer
                    {
                        continue;
                    }
                    // What was named last is what is measured, also where it was only named.
                    let headed = passed.as_ref().is_some_and(|p| {
                        let piece = clauses.item(p.1).piece;
                        let words = tokens.row(piece.from, piece.to).iter().filter(|t| t.is_spoken()).count();
                        piece.opens && (words <= p.0.name.split(' ').count() + 1 || p.0.food.is_none())
                    });
                    // "A tablespoon of salt. No, hold on, the clam juice is salty. Two teaspoons": it takes back what was
                    // measured, not what was named since.
                    let retaken = measured_line.filter(|l| {
                        taken_back.is_some()
                            && !headed
                            && book.waiting.is_none_or(|w| {
                                // A food that is all of its sentence waits for its own figure.
                                let piece = clauses.item(w.1).piece;
                                let alone =
                                    tokens.row(piece.from, piece.to).iter().filter(|t| t.is_spoken()).count() <= 3;
                                w.1 <= last_measured
                                    || book.lines[w.0].amount.is_some()
                                    || !alone && taken_back.is_some_and(|t| w.1 >= t)
                            })
                            && bare_clause
                            && n <= last_measured + 5
                            && said.amount.unit().is_none_or(|u| {
                                book.lines[*l].amount.is_some_and(|a| {
                                    a.unit().is_some_and(|h| h.factor_to(u).is_some() && h.dimension() == u.dimension())
                                })
                            })
                    });
                    if retaken.is_some() {
                        passed = None;
                    }
                    let fresh = passed.take().filter(|p| {
                        n <= p.1
                            + if bare_clause && c.piece.opens {
                                4
                            } else if headed {
                                3
                            } else {
                                2
                            }
                            && p.1 >= last_clause
                            && (bare_clause
                                || headed
                                // "Your banana blossom. This is the dried one, fifty grams."
                                || ends_here && !foods_here && row.at_any("this these it's they're")
                                || leads
                                || p.1 == n
                                || Tokens(tokens.row(f.to, (f.to + 2).min(tokens.len()))).at("of")
                                    && Tokens(tokens).nth_any(f.to + 1, "that it them those"))
                            && (said.amount.unit().is_some()
                                // "Oranges. I'm only using two."
                                // "Then tomatoes. I use four, ripe."
                                || headed
                                    && (uses_fewer || settles || bare_clause || uses_so_many)
                                    && is_counted(&p.0)
                                // "That's for the ripe bananas, the black ones. Three of them."
                                || bare_clause && super::scan::counts_them(tokens, f.to) && is_counted(&p.0)
                                // "When that's done, potatoes. Four, peeled, cut in half."
                                || bare_clause && c.piece.opens && f.from == c.piece.from && p.1 + 1 == n && is_counted(&p.0))
                    });
                    let own_figure = told_by == 0 || row.first_any(3, "i we i'm i've we're im mine");
                    // "She's got milk warming. Four cups", "some people put marshmallows, and if you want to it's a cup": of the
                    // food of the story, and in no case of what was measured before it.
                    let told = told_by > 0 && n == told_by + 1 && called.is_some();
                    let hers = told
                        && (c.cues.optional || {
                            let story = clauses.item(told_by).piece;
                            tokens.row(story.from, story.to).iter().any(|t| t.is("got"))
                        });
                    if told && !own_figure && !hers {
                        continue;
                    }
                    if let Some(food) =
                        called.take().filter(|_| own_figure || hers).or(fresh.map(|p| p.0)).or_else(|| {
                            // "Now the pork chops. I've got four of them", "then oil. Half a cup."
                            let at_once = subject_at.is_some_and(|s| n <= s + 2 && s >= last_clause)
                                && bare_clause
                                && subject.as_ref().is_some_and(|s| said.amount.unit().is_some() || is_counted(s));
                            if subject_at == Some(n) && f.from >= c.piece.from
                                || at_once
                                || book.lines.is_empty() && said.amount.unit().is_some_and(|u| u != Unit::Cup)
                            {
                                subject.take()
                            } else {
                                None
                            }
                        })
                    {
                        // "The card has two cups of flour, so I'm putting in one."
                        let unit = said.amount.unit().or(food.amount.and_then(|a| a.amount.unit()));
                        let mut mine = food;
                        mine.amount = Some(SaidAmount { amount: said.amount.in_unit(unit), ..said });
                        mine.quantifier = Quantifier::None;
                        // "The book says half a cup of sugar. That's a dessert. Two tablespoons": as was said before.
                        let held =
                            |l: &Line| l.name == mine.name && l.amount.is_some_and(|a| a.same_size(&said.amount));
                        if book.lines.iter().any(held) {
                            correcting = false;
                            continue;
                        }
                        if let Some(e) = book.mention(
                            &mine,
                            &group,
                            span,
                            Context {
                                correcting,
                                settles: false,
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
                                dialogue,
                                definite: false,
                                ordinal: None,
                                one_of_them: false,
                                both: &|_, _, _| true,
                                at: (n, id),
                            },
                        ) {
                            book.entries[id] = Some(e);
                            book.figure_at[e.line] = Some((n, id));
                            // "One bag for each pan, so two bags": the talk is of this food now.
                            book.waiting = None;
                            (last, last_clause) = (Some(e.line), n);
                            (measured_line, last_measured) = (Some(e.line), n);
                            in_clause.push(e.line);
                        }
                        taken_back = None;
                        correcting = false;
                        continue;
                    }
                    // A line still without a figure comes first; otherwise the one just measured.
                    let waiting = book
                        .waiting
                        .filter(|w| {
                            n <= w.1 + if settles || awaited { 8 } else { 4 }
                                && book.lines[w.0].amount.is_none()
                                && !foods_here
                        })
                        .map(|w| w.0);
                    let latest = last.filter(|_| n <= last_clause + if correcting { 6 } else { 3 });
                    let latest = retaken.or(latest);
                    // "A 12 ounce bag, but I'd say just half" speaks of the bag, whatever else still waits for its figure.
                    let boxed = latest.filter(|l| {
                        count
                            && said.amount.high() < Ratio::ONE
                            && book.lines[*l].amount.is_some_and(|a| a.unit().is_some_and(Unit::is_container))
                    });
                    // "A teaspoon a jar, that's seven teaspoons", "every jar gets a clove, so seven of those": all of it.
                    if let Some((line, at)) = per_jar
                        && n <= at + 2
                        && Tokens(tokens.row(c.piece.from, f.from)).has_any("that's so makes all")
                        && let Some(held) = book.lines[line].amount
                        && (count
                            || said
                                .amount
                                .unit()
                                .is_some_and(|u| held.unit().is_some_and(|h| h.factor_to(u).is_some())))
                    {
                        book.lines[line].amount =
                            Some(if count { said.amount.in_unit(held.unit()) } else { said.amount });
                        book.lines[line].spans.insert(0, span);
                        per_jar = None;
                        continue;
                    }
                    // "A cup of oil and a cup of flour, but today it's a cup and a half of each."
                    if said.each && n <= last_measured + 2 && book.lines.len() >= 2 {
                        let two = book.lines.len() - 2;
                        let same = |l: usize| book.lines[l].amount.and_then(|a| a.unit()) == said.amount.unit();
                        if same(two) && same(two + 1) {
                            for line in [two, two + 1] {
                                book.lines[line].amount = Some(said.amount);
                                book.lines[line].spans.insert(0, span);
                            }
                            (last_measured, last_clause) = (n, n);
                            continue;
                        }
                    }
                    let Some(line) = boxed.or(retaken).or(waiting).or(latest) else { continue };
                    let alone = !foods_here && (bare_clause || waiting.is_some() && leads);
                    let only = Tokens(tokens.row(f.from.saturating_sub(4).max(c.piece.from), f.from))
                        .has_any("only just using")
                        && !foods_here;
                    // "I'm only going to do half of that", "half the bag": how much of the container goes in.
                    let back = Tokens(tokens.row(f.to, c.piece.to.min(f.to + 3)));
                    let ends = tokens.get(f.to).is_none_or(|t| !t.is_spoken()) || f.to >= c.piece.to;
                    // "Hold on to the half" points back.
                    let held_back = f.from > c.piece.from && tokens.item(f.from - 1).is("the");
                    // "Three quarters of the tin now": the rest comes later.
                    let now = Tokens(tokens).nth_any(f.to, "now first");
                    let points = !held_back
                        && !now
                        && (count && ends
                            || count && back.at("of") && back.nth_any(1, "it that this them those the")
                            || said.of_the && said.amount.unit().is_some_and(Unit::is_container));
                    let used = (c.piece.from..f.from).any(|k| tokens.item(k).is("used")) && back.nth_any(1, "it that");
                    let uses = used
                        || (c.piece.from..f.from)
                            .any(|k| tokens.item(k).is_any("only just using use takes need about"))
                        || row.0.iter().any(|t| t.is("only"))
                        || bare_clause && n <= last_measured + 1;
                    let food_after = mine[k + 1..].iter().any(|f| matches!(f.item, Item::Food(_)));
                    if points
                        && uses
                        && !food_after
                        && said.amount.high() < Ratio::ONE
                        && let Some(e) = book.cut(line, said.amount.high(), said.amount.unit(), used, span)
                    {
                        book.entries[id] = Some(e);
                        in_clause.push(line);
                        last_clause = n;
                        continue;
                    }
                    // "A cup of mayo, a teaspoon of sugar. It was dry last time, so go a cup and a half": of what is measured like it.
                    let many = |l: usize| {
                        let held = book.lines[l].amount.zip(said.amount.unit()).and_then(|(h, u)| h.to(u));
                        held.map(|h| (said.amount.high() / h.low()).max(h.low() / said.amount.high()))
                    };
                    let line = match many(line) {
                        Some(times) if times > Ratio::whole(12) && !said.more => {
                            let unit = |l: &usize| book.lines[*l].amount.and_then(|a| a.unit()) == said.amount.unit();
                            let near = |l: &usize| many(*l).is_some_and(|t| t <= Ratio::whole(3));
                            match (0..book.lines.len()).rev().take(6).find(|l| unit(l) && near(l)) {
                                Some(other) => other,
                                None => continue,
                            }
                        }
                        _ => line,
                    };
                    // "One. Look at the jar, it's a pint": a measure of another kind speaks of something else.
                    let kin = book.lines[line].amount.is_none_or(|a| match (a.unit(), said.amount.unit()) {
                        (_, None) => true,
                        (Some(a), Some(b)) => a.factor_to(b).is_some(),
                        (None, Some(_)) => false,
                    });
                    let taken_back_here = correcting || dialogue && bare_clause && n <= last_measured + 3 && kin;
                    // "Cheese, two cups. Three." said right after it and alone: another figure, and she does not say which.
                    if count
                        && bare_clause
                        && c.piece.opens
                        && !taken_back_here
                        && n == last_measured + 1
                        && measured_line == Some(line)
                        && let Some(held) = book.lines[line].amount.filter(|h| !h.is_range() && h.low() > Ratio::ONE)
                        && said.amount.low().is_whole()
                        && said.amount.low() > Ratio::ONE
                        && said.amount.low() != held.low()
                        && said.amount.high() <= held.high() * Ratio::whole(2)
                    {
                        let other = said.amount.in_unit(held.unit());
                        book.disputes.push(Dispute { line, kept: held, other, span });
                        continue;
                    }
                    let own_count = uses_so_many
                        && !foods_here
                        && row.first_any(3, "i we you")
                        && book.lines[line].amount.is_none();
                    let how = Bare { correcting: taken_back_here, alone: alone || own_count, only, up_to };
                    if let Some(e) = book.loose(line, said, span, how) {
                        book.entries[id] = Some(e);
                        in_clause.push(line);
                        if e.measured {
                            book.figure_at[line] = Some((n, id));
                            measured_line = Some(line);
                            correcting = false;
                            taken_back = None;
                            last_measured = n;
                        }
                        last_clause = n;
                    }
                    correcting &= correcting_here;
                }
                Item::Time(_) => last_time = n,
                _ => {}
            }
        }
        // "A tablespoon of salt, sorry, teaspoon": taken back within the clause.
        if c.cues.correct
            && let Some(line) = in_clause.last().copied()
            && let Some(held) = book.lines[line].amount
            && let Some(unit) = (mine.last().map_or(c.piece.from, |f| f.to) + 1..c.piece.to).find_map(|k| {
                let t = tokens.item(k - 1);
                let turned = t.is_any("sorry no mean meant")
                    || t.kind == crate::token::Kind::Comma && tokens.item(k - 2).is_any("sorry no wait");
                crate::grammar::amount::unit(Tokens(tokens.row(k, c.piece.to))).filter(|_| turned).map(|u| u.1)
            })
            && held.unit().is_some_and(|u| u != unit && u.dimension() == unit.dimension())
            && let Some(right) = Amount::range(held.low(), held.high(), Some(unit))
        {
            book.lines[line].amount = Some(right);
            book.lines[line].parts.clear();
        }
        // "One teaspoon of sugar, no, I am putting two": the clause ends with it.
        let end = mine.last().map_or(c.piece.from, |f| f.to);
        if measured_line.is_some()
            && last_measured == n
            && tokens.row(end, c.piece.to).iter().filter(|t| t.is_spoken()).count() == 1
            && Tokens(tokens.row(end, c.piece.to)).has_any("no wait nope naw")
        {
            taken_back = Some(n);
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
                // "My sister uses a can of soup, you can if you want": of hers, not of the food before.
                let told = n > 0 && clauses.item(n - 1).cues.story && n - 1 > last_clause;
                if let Some(line) = last.filter(|_| n <= last_clause + 2 && !told) {
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

/// Whether a finding ends with, or is followed by, what says that it is all there is: "three cubes altogether".
fn totals(tokens: &[Token], f: &Found) -> bool {
    (f.from + 1..=f.to)
        .any(|k| lexicon().talk.exact(Tokens(tokens.row(k, tokens.len()))).is_some_and(|m| m.1.0 == "total"))
}

fn overlaps(plan: &Plan, card: usize, span: Span) -> bool {
    plan.dishes.get(card).and_then(|d| d.span).is_some_and(|t| t.start < span.end && span.start < t.end)
}

/// "like peas", "the colour of peanut butter", "the size of a walnut", "not the mint": a likeness, or what stays out.
fn compared(tokens: &[Token], c: &Sorted, f: &Found) -> bool {
    let from = (c.piece.from..f.from).rev().find(|n| !tokens.item(*n).is_spoken()).map_or(c.piece.from, |n| n + 1);
    let row = tokens.row(from.max(f.from.saturating_sub(6)), f.from);
    let last = row.iter().rev().find(|t| !t.is_any("a an the some"));
    // "Sounds like a leaf blower", "little bits like a lima bean".
    // "If you like a small piece of cinnamon" likens nothing.
    if c.cues.optional && last.is_some_and(|t| t.is("like")) {
        return false;
    }
    // "A teaspoon no a teaspoon and a half of cinnamon" refuses the figure, and no cinnamon.
    if last.is_some_and(|t| t.is("no")) && matches!(&f.item, Item::Food(x) if !slight(x)) {
        return false;
    }
    let likened = tokens.item(f.from).is("like")
        && f.from > c.piece.from
        && tokens.item(f.from - 1).is_spoken()
        && !tokens.item(f.from - 1).is_in("before a mere name")
        && matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.article));
    let halves = matches!(&f.item, Item::Food(x) if x.name == "half and half")
        && last.is_some_and(|t| t.is_any("go goes do did does went"));
    halves
        || likened
        || last.is_some_and(|t| t.is_in("before a likeness"))
            && !row.windows(2).any(|w| w[1].is("like") && w[0].is_any("i we you they also"))
        || row.windows(2).any(|w| w[0].is_in("sort of it") && w[1].is("of"))
        || row.iter().any(|t| t.is_in("is like"))
            && last.is_some_and(|t| t.is_any("like for as coarse wet damp thick of"))
        || row.iter().any(|t| t.is("like"))
            && last.is_some_and(|t| t.is_any("of on in"))
            && row.iter().any(|t| t.is_any("look looks be it's it"))
}

/// "Buah keras, that's candlenut", "terasi, that is the shrimp paste", "kalo jeera we call it": another name of the food before.
fn glosses(tokens: &[Token], f: &Found, before: Option<&Found>) -> bool {
    let Some(Found { item: Item::Food(x), to, .. }) = before else { return false };
    let gap = crate::token::spoken(tokens.row(*to, f.from));
    let after = Tokens(tokens.row(f.to, tokens.len()));
    let named = after.at_any("we they you i")
        && after.skip(1).at_any("call say")
        && after.skip(2).0.first().is_some_and(|t| t.is("it") || !t.is_spoken());
    let is = match gap.as_slice() {
        [that, rest @ ..] if that.is_any("that's thats") => rest.iter().all(|t| t.is_in("before another name")),
        [that, is, rest @ ..] if that.is_any("that which") && is.is("is") => {
            rest.iter().all(|t| t.is_in("before another name"))
        }
        _ => named && gap.len() <= 1,
    };
    // "Kecap, that's soy sauce": where only the other name tells of an allergen, it stays on the card.
    let tells = |tag: &str| {
        let has = |food: &SaidFood| food.food.is_some_and(|f| f.is(tag));
        matches!(&f.item, Item::Food(other) if has(other)) && !has(x)
    };
    is && x.amount.is_some() && !"dairy egg fish shellfish treenut peanut wheat soy sesame".split(' ').any(tells)
}

/// Whether a food is only served with the dish: "eat it with", "with this we have".
fn beside(tokens: &[Token], c: &Sorted, f: &Found) -> bool {
    (c.piece.from..f.from).any(|k| {
        let (row, back) = (Tokens(tokens.row(k, f.from)), tokens.row(c.piece.from.max(k.saturating_sub(3)), k));
        let it = |t: &Token| t.is_any("it them this that these 'em em");
        let eats = |t: &Token| t.is_any("eat eats eating serve serves have had take");
        row.at("with")
            && (back.iter().any(eats) && back.iter().any(it)
                || row.get(1).is_some_and(it) && row.nth_any(2, "we i you they") && row.get(3).is_some_and(eats))
    })
}

/// "The same of paprika", "half that of salt", "twice as much sugar": how many times the amount said before.
fn as_much(tokens: &[Token], c: &Sorted, f: &Found, said: &SaidFood, last: Option<Amount>) -> Option<Ratio> {
    // "Half a teaspoon of chilli powder. And salt, another half."
    let again = tokens.row(f.from, f.to).windows(2).any(|w| w[0].is("another") && w[1].is("half"));
    if again
        && last.is_some_and(|a| a.low() == Ratio::of(1, 2))
        && said.amount.is_some_and(|a| a.amount.unit().is_none())
        && tokens.get(f.to).is_none_or(|t| !t.is_spoken())
    {
        return Some(Ratio::ONE);
    }
    if said.amount.is_some_and(|a| !a.article && !a.bare) {
        return None;
    }
    // "Basil, the same."
    let after = Tokens(tokens.row(f.to, c.piece.to.max(f.to)));
    let after = after.skip(usize::from(after.first().is_some_and(|t| t.kind == crate::token::Kind::Comma)));
    if after.at("the") && after.get(1).is_some_and(|t| t.is("same")) && after.get(2).is_none_or(|t| !t.is_spoken()) {
        return Some(Ratio::ONE);
    }
    let name = f.from + said.name_at.0;
    let row = tokens.row(f.from.saturating_sub(5).max(c.piece.from), name.min(f.to));
    let at = row.iter().rposition(|t| !t.is_in("as much"))?;
    let row = Tokens(&row[at + 1..]);
    let row = row.skip(usize::from(row.at("the")));
    let that = row.nth_any(1, "that as");
    let ends = row.0.last().is_some_and(|t| t.is_any("of much"));
    match () {
        () if !ends => None,
        () if row.at("same") => Some(Ratio::ONE),
        () if row.at("half") && that => Some(Ratio::of(1, 2)),
        () if row.at_any("twice double") && that => Some(Ratio::whole(2)),
        () => None,
    }
}

/// "A teaspoon a jar", "a quarter teaspoon in each one", "every jar gets a clove".
fn of_each_one(tokens: &[Token], c: &Sorted, f: &Found) -> bool {
    let after = Tokens(tokens.row(f.to, c.piece.to.max(f.to)));
    let after = after.skip(usize::from(after.first().is_some_and(|t| !t.is_spoken())));
    let one = |i: Tokens<'_>| i.at_any("jar pan batch tray loaf pie pizza bowl one");
    let per = after.at_any("a per each every") && one(after.skip(1))
        || after.at_any("in on") && after.nth_any(1, "each every");
    let led = (c.piece.from..f.from)
        .any(|k| tokens.item(k).is_any("each every") && one(Tokens(tokens.row(k + 1, tokens.len()))));
    per || led
}

fn at_a_time(i: Tokens<'_>) -> bool {
    i.at("at") && i.nth_any(1, "a one") && i.nth_any(2, "time go")
}

/// "I don't have buttermilk today", "I'm out of molasses", "but I don't keep cream in the house".
fn lacks(tokens: &[Token], c: &Sorted, f: &Found) -> bool {
    let row = tokens.row(c.piece.from.max(f.from.saturating_sub(6)), f.from);
    let row = Tokens(row);
    let supposed = Tokens(tokens.row(c.piece.from, f.from)).has_any("if when unless");
    let last = |n: usize| row.len().checked_sub(n).and_then(|k| row.get(k));
    let skip = usize::from(last(1).is_some_and(|t| t.is_any("any the no enough")));
    let has = last(skip + 1).is_some_and(|t| t.is_any("have keep got"))
        && (skip == 1 && last(1).is_some_and(|t| t.is("no"))
            || last(skip + 2).is_some_and(|t| t.is_any("don't didn't haven't ain't never not doesn't")));
    let out = last(skip + 1).is_some_and(|t| t.is("of")) && last(skip + 2).is_some_and(|t| t.is("out"));
    (has || out) && !supposed && row.has_any("i i'm i've we we're i'd")
}

/// "Roll them in some breadcrumbs", "dust it with a little flour".
fn rolled_in(tokens: &[Token], c: &Sorted, f: &Found) -> bool {
    c.main == Use::Action
        && f.from > c.piece.from
        && tokens.item(f.from - 1).is_any("in with")
        && c.verb.is_some_and(|v| crate::lexicon::lexicon().has("coats", v.1.base))
}

/// "Fish out the bay leaves", "take the pepper out": what is taken away is no ingredient that was forgotten.
fn taken_out(c: &Sorted) -> bool {
    c.verb.is_some_and(|v| lexicon().has("takes out", v.1.base))
}

/// "A tater tot hotdish", "the chicken noodle casserole": the food is only in the name of a dish.
fn of_a_dish(tokens: &[Token], f: &Found) -> bool {
    let lists = lexicon();
    (f.to..(f.to + 2).min(tokens.len()))
        .take_while(|k| {
            tokens.item(*k).kind == crate::token::Kind::Word && !lists.has("governs", &tokens.item(*k).text)
        })
        .any(|k| {
            let rest = Tokens(tokens.row(k, tokens.len()));
            lists.dishes.folded(rest).is_some()
                && lists.foods.folded(rest).is_none()
                && lists.verbs.exact(rest).is_none()
        })
}

/// "A big pot of taco soup", on the card of that name.
fn titled(title: &str, said: &SaidFood) -> bool {
    let (title, name) = (crate::token::keys(title), crate::token::keys(&said.name));
    let pot = said.amount.is_none_or(|a| {
        a.amount.unit().is_none_or(|u| u == Unit::Container) && a.amount.high() <= Ratio::ONE && a.package.is_none()
    });
    let dish = crate::token::words(&said.name);
    let named = (0..dish.len()).any(|n| lexicon().dishes.folded(Tokens(&dish[n..])).is_some());
    pot && named && name.len() > 1 && name.iter().all(|w| title.contains(w))
}

/// "We butchered two hogs at three hundred pounds", "they cooked fifty kilos for the wedding": more than goes into a home cook's
/// pots. No food of our drafts weighs nine kilograms or fills twelve litres.
fn beyond_a_kitchen(amount: Amount) -> bool {
    let over = |unit, most| amount.to(unit).is_some_and(|a| a.low() > Ratio::whole(most));
    over(Unit::Kilogram, 12) || over(Unit::Liter, 20)
}

/// "How much butter", "how many tomatoes".
fn how_much(tokens: &[Token], f: &Found) -> bool {
    f.from > 1 && tokens.item(f.from - 1).is_any("much many") && tokens.item(f.from - 2).is("how")
}

/// A food that is bought by the piece.
fn is_counted(said: &SaidFood) -> bool {
    said.food.is_some_and(|f| tagged(f.tags, "fruit produce egg meat poultry fish shellfish bread"))
}

/// No amount, or only "a": the food may be named in passing.
pub fn slight(said: &SaidFood) -> bool {
    said.amount.is_none_or(|a| a.article && a.amount.unit().is_none() && a.package.is_none())
}

/// A unit that stands alone in a clause, or before "not": the right one.
fn bare_unit(tokens: &[Token], c: &Sorted, mine: &[Found]) -> Option<Unit> {
    (c.piece.from..c.piece.to).find_map(|k| {
        let t = tokens.item(k);
        let free = !mine.iter().any(|f| f.from <= k && k < f.to)
            && (t.text.ends_with('s')
                || k > c.piece.from && tokens.item(k - 1).is_any("meant mean")
                || only_settles(tokens, c, k))
            && (k == c.piece.from || !tokens.item(k - 1).is_in("before no bare unit"));
        let (_, unit) = crate::grammar::amount::unit(Tokens(tokens.row(k, c.piece.to))).filter(|_| free)?;
        let kind = unit.dimension();
        matches!(kind, crate::measure::Dimension::Volume | crate::measure::Dimension::Weight).then_some(unit)
    })
}

/// "Sorry, teaspoon": nothing but the taking back stands round the unit.
fn only_settles(tokens: &[Token], c: &Sorted, unit: usize) -> bool {
    let mut rest = (c.piece.from..c.piece.to).filter(|k| *k != unit && tokens.item(*k).is_spoken());
    rest.all(|k| tokens.item(k).is_in("settles a unit")) && c.piece.to > c.piece.from + 1
}

/// How many words after one of several the other may be named.
const FURTHER: usize = 60;

/// "The second stick of butter", "the other stock cube": which of several is meant.
fn ordinal(tokens: &[Token], c: &Sorted, f: &Found) -> Option<i64> {
    let lead = "the your my that this";
    // The name may have taken the article, or the article and the ordinal, into its span.
    let at = (f.from.saturating_sub(2).max(c.piece.from)..f.to).find(|k| {
        tokens.item(*k).is_any(lead) && tokens.row(*k + 1, f.to).first().is_some_and(|t| t.is_in("which of several"))
    })?;
    let which = tokens.item(at + 1);
    // "The other half of the onion" is no second onion.
    if tokens.get(at + 2).is_none_or(|t| t.is_any("half quarter third part of")) {
        return None;
    }
    // "The other onion" is the second.
    let nth = ["first", "second", "third", "fourth", "fifth", "sixth"].iter().position(|w| which.is(w)).unwrap_or(1);
    Some(nth as i64 + 1)
}

/// "Two eggs. One egg goes in the dough, and the other one is for the top": one of those that were counted.
fn one_of_them(tokens: &[Token], f: &Found, name: &str) -> bool {
    let head = twice::head(name);
    (f.to..tokens.len().min(f.to + FURTHER)).any(|k| {
        tokens.item(k).is_any("other second")
            && k > 0
            && tokens.item(k - 1).is_any("the your my that")
            && tokens.get(k + 1).is_some_and(|t| t.is_any("one ones") || *t.fold == *head)
    })
}

/// "Don't add water": names what stays out, as far as the next comma.
fn is_negative(tokens: &[Token], c: &Sorted, food: usize, measured: bool) -> bool {
    // "Instead of the cream": what she goes without.
    let two = Tokens(tokens.row(food.saturating_sub(2).max(c.piece.from), food));
    if two.at_any("instead place rather") && two.nth_any(1, "of than") {
        return true;
    }
    let from = (c.core..food).rev().find(|n| !tokens.item(*n).is_spoken()).map_or(c.core, |n| n + 1);
    let row = tokens.row(from, food.max(from));
    let back = row.iter().rev().take(6).take_while(|t| !t.is_any("and then plus forget skip"));
    // "When it's not red any more you put paprika": what she does with it was not refused.
    let back = back.take_while(|t| !t.is_any("you i we"));
    // "Ground pork, not the lean stuff, a teaspoon of sage": a "not" without its verb refuses what follows at once.
    let refuses = |k: usize, t: &Token| {
        let verb = row
            .len()
            .checked_sub(k + 2)
            .is_some_and(|b| row[b].is_any("do does did would will should can could must may"));
        // "A teaspoon, no, a teaspoon and a half of cinnamon", "oil so the butter doesn't burn one big onion".
        if measured && t.is_any("no doesn't won't didn't can't") {
            return false;
        }
        !t.is("not") || verb || row[row.len() - k..].iter().all(|w| w.is_in("before what is refused"))
    };
    back.enumerate().any(|(k, t)| t.is_in("negative") && refuses(k, t))
}

/// Which line an "if you like" belongs to: the last food before the cue, or the only one.
fn optional_of(tokens: &[Token], c: &Sorted, mine: &[Found], book: &Ledger, first: usize) -> Option<usize> {
    let cue = |n: usize| {
        let said = lexicon().talk.exact(Tokens(tokens.row(n, c.piece.to))).filter(|m| m.1.0 == "optional");
        said.map(|m| (n, n + m.0))
    };
    let (cue, end) = (c.piece.from..c.piece.to).find_map(cue).unwrap_or((c.piece.from, c.piece.from));
    let entry = |k: usize| book.entries[first + k].map(|e| e.line);
    // "Five cardamoms, and if you like a stick of cinnamon": what follows at once is meant.
    let led = tokens.item(cue).is("if")
        && cue > c.piece.from
        && tokens.item(cue - 1).is_any("and or")
        && mine.iter().any(|f| f.from >= cue && f.from <= end + 1);
    let before = mine
        .iter()
        .enumerate()
        .rev()
        .find(|(k, f)| !led && f.to <= cue && entry(*k).is_some())
        .and_then(|(k, _)| entry(k));
    let after = |(k, f): (usize, &Found)| if led && f.to <= cue { None } else { entry(k) };
    before.or_else(|| mine.iter().enumerate().find_map(after))
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

/// Whether a comma or a stop stands at the end, so that what came before names no food of its own.
fn bare_round(tokens: &[Token], from: usize, to: usize) -> bool {
    tokens.get(to).is_none_or(|t| !t.is_spoken()) && to - from <= 12
}

/// Whether a loose amount is all that its clause says, but for words that only settle it.
fn spoken_alone(tokens: &[Token], c: &Sorted, f: &Found, mine: &[Found]) -> bool {
    // "Cucumbers. Three of them, the long kind", "potatoes. Four medium ones, peeled": it counts what was named.
    let end =
        if matches!(f.item, Item::Count(_)) && super::scan::counts_them(tokens, f.to) { f.to } else { c.piece.to };
    let before = tokens.row(c.piece.from, end).iter().enumerate();
    let mut others = 0;
    let mut skip = 0;
    for (k, t) in before {
        let at = c.piece.from + k;
        if (f.from..f.to).contains(&at) || !t.is_spoken() || at < skip || mine.iter().any(|m| m.from <= at && at < m.to)
        {
            continue;
        }
        if let Some((n, _)) =
            lexicon().talk.exact(Tokens(tokens.row(at, c.piece.to))).filter(|m| m.1.0 == "opener" || m.1.0 == "correct")
        {
            skip = at + n;
            continue;
        }
        // "Now potatoes. Four big."
        if at >= f.to && matches!(f.item, Item::Count(_)) && t.is_in("size of a piece") {
            continue;
        }
        // "The onions now. I use two, chopped."
        if at > f.to
            && let Some((n, ())) = lexicon().prep.exact(Tokens(tokens.row(at, end)))
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
    let after = Tokens(tokens.row(f.to, (f.to + 3).min(tokens.len())));
    let clock = after.at_any("o'clock am pm people years degrees")
        || after.at("in") && after.get(1).is_some_and(|t| t.is("the"))
        || after.at("of") && crate::grammar::number::number(after.skip(1)).is_ok();
    others <= 5 && !clock
}
