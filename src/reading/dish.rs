//! Where one dish ends and the next begins, what each is called, and which part of it ("the topping") is being made.

mod company;
pub mod evidence;
pub mod naming;
mod opening;
mod part;
mod planned;
pub mod title;
pub mod topic;
pub mod turn;
pub mod unnamed;

use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::draft::Span;
use crate::item::Items;
use crate::recipe::Use;
use crate::token::{Kind, Token, Tokens};
use evidence::{Candidate, View};
use naming::Stretch;
use part::component;
use planned::{best_planned, plan_holds};
use title::same_dish;

/// Which card and which part each clause belongs to.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    /// The dishes, in the order they were opened.
    pub dishes: Vec<Dish>,
    /// For each clause, its dish.
    pub card: Vec<Option<usize>>,
    /// For each clause, the part of the dish.
    pub group: Vec<Option<String>>,
    /// Clauses that open a dish or a part.
    pub opens: Vec<bool>,
    /// The clause at which each dish opens.
    pub opened: Vec<usize>,
    /// Two people speak.
    pub dialogue: bool,
    /// The clauses from the first of each dish to its last; others may lie between.
    pub extent: Vec<std::ops::Range<usize>>,
    /// The clause in which each dish is first measured; what is named before is only announced.
    pub measured_from: Vec<usize>,
}

/// A name and where it was said.
type Named = (String, Option<Span>);

/// A dish that was opened.
#[derive(Clone, Debug)]
pub struct Dish {
    /// Its title; empty where none was said.
    pub title: String,
    /// Where.
    pub span: Option<Span>,
}

/// Splits the draft into dishes and parts.
pub fn plan(tokens: &[Token], clauses: &[Sorted], found: &[Found]) -> Plan {
    let view = View::new(tokens, clauses, found);
    let mut plan = openings(&view);
    rename(&view, &mut plan);
    plan.come_back();
    plan
}

/// Splits the draft into dishes and parts; each dish has the name that opened it, or none.
///
/// The gaps between measured foods are judged twice: what the first round says of those that follow helps the second.
pub fn openings(view: &View<'_>) -> Plan {
    let mut judged: Vec<Option<turn::Judged>> = vec![None; view.measuring.len()];
    round(view, None, &mut judged);
    let sums: Vec<i32> = judged.iter().map(|j| j.as_ref().map_or(turn::UNJUDGED, |j| j.sum)).collect();
    round(view, Some(&sums), &mut judged)
}

/// One round; what was weighed in the one before, after the same dishes, is not weighed again.
fn round(view: &View<'_>, first: Option<&[i32]>, known: &mut [Option<turn::Judged>]) -> Plan {
    cut(view, |gap, hand, opened| {
        let weighed = match known[gap.index].take().filter(|j| j.after(opened, hand.since)) {
            Some(same) => same,
            None => view.weigh_gap(gap, hand, opened),
        };
        let turn = view.turn(gap, &weighed, first);
        known[gap.index] = Some(weighed);
        turn
    })
}

/// Splits the draft where `turns` says of a gap that another dish begins in it; it is told what is in hand and what was opened.
pub fn cut(
    view: &View<'_>,
    mut turns: impl FnMut(&turn::Gap, turn::InHand<'_>, &[(usize, &str)]) -> Option<turn::Turn>,
) -> Plan {
    let mut plan = Plan::default();
    let (tokens, clauses, found) = (view.tokens, view.clauses, view.found);
    let mut current: Option<usize> = None;
    let mut content: Vec<Content> = Vec::new();
    let mut group: Option<String> = None;
    let mut revisit: Option<usize> = None;
    let first_measure = view.first_measure;
    // Up to which clause the gap in hand reaches, and where the talk turns in it.
    let mut judged = 0;
    let mut turn: Option<turn::Turn> = None;
    for (n, c) in clauses.iter().enumerate() {
        let mut opens = false;
        if c.piece.breaks {
            revisit = None;
        }
        // A sitting has a handful of dishes; a text of any length is read in time by looking back at so many.
        let recent = plan.dishes.len().saturating_sub(LOOK_BACK);
        let opened: Vec<(usize, String)> =
            plan.dishes.iter().zip(&content).skip(recent).map(|(d, c)| (c.opened, d.title.clone())).collect();
        let opened: Vec<(usize, &str)> = opened.iter().map(|o| (o.0, o.1.as_str())).collect();
        if let Some(k) = current.filter(|k| content[*k].amounts > 0)
            && let Some(gap) = view.gap(n)
        {
            judged = gap.to + 1;
            let title = [plan.dishes[k].title.as_str()];
            // "The soup goes on first. No, the dough first… All right, now the soup": the first dish was not the soup.
            let again = |n: usize| view.candidates(n).iter().any(|c| c.strength >= 3 && same_dish(title[0], &c.title));
            content[k].assumed |= k == 0 && content[k].opened < first_measure && (gap.from..=gap.to).any(again);
            let titles = if content[k].supposed() || title[0].is_empty() { &[] } else { &title[..] };
            let hand = turn::InHand { since: content[k].opened, titles };
            turn = turns(&gap, hand, &opened);
        }
        let turned = turn.take_if(|t| t.0 == n);
        let named = turned.as_ref().and_then(|t| t.1.as_ref());
        let mut best: Option<(i32, Candidate)> = None;
        let returns = Tokens(tokens.row(c.piece.from, c.piece.to)).first_any(5, "oh back forgot ps");
        for cand in view.candidates(n) {
            let turns = named.is_some_and(|c| (c.from, c.to) == (cand.from, cand.to));
            if let Some(k) = current
                && same_dish(&plan.dishes[k].title, &cand.title)
                && !turns
            {
                // Said again, perhaps better: "slaw" and then "tri-color slaw".
                let dish: &mut Dish = &mut plan.dishes[k];
                if cand.title.split(' ').count() > dish.title.split(' ').count()
                    && cand.strength >= 2
                    && content[k].amounts == 0
                {
                    dish.title = cand.title;
                    dish.span = cand.span;
                }
                opens |= cand.strength >= 2;
                continue;
            }
            // Going back: "oh, the fudge. Don't double the fudge."
            let back = position(&plan.dishes, recent, |d| same_dish(&d.title, &cand.title));
            if let Some(back) = back.filter(|b| c.piece.opens && returns && content[*b].amounts > 0) {
                revisit = Some(back);
                continue;
            }
            // "Back to the dal", which was made without being named.
            let goes_back =
                tokens.row(c.piece.from, cand.from).windows(2).any(|w| w[0].is("back") && w[1].is_any("to on"));
            if goes_back
                && back.is_none()
                && let Some(k) = position(&plan.dishes, recent, |d| d.title.is_empty()).filter(|k| Some(*k) != current)
            {
                plan.dishes[k] = Dish { title: cand.title, span: cand.span };
                revisit = Some(k);
                continue;
            }
            // Before anything is made the plainest name counts; after that the sum of the signs.
            let making = current.is_some_and(|k| content[k].amounts > 0);
            let planned = view.planned.iter().any(|p| same_dish(&p.0, &cand.title));
            let sum = match (making, cand.strength) {
                (true, _) if n < judged => i32::from(turns),
                // After the last food that is measured its name alone tells.
                (true, _) => view.weigh(n, &cand, &opened),
                (false, 0) => 0,
                (false, strength) => i32::from(strength) - 1 + i32::from(planned),
            };
            if best.as_ref().is_none_or(|b| sum > b.0) {
                best = Some((sum, cand));
            }
        }
        if let Some((_, cand)) = best.filter(|b| b.0 > 0 && !(c.cues.story && b.1.strength < 3 && current.is_none())) {
            let seen = position(&plan.dishes, recent, |d| same_dish(&d.title, &cand.title));
            // The first dish was only thought to be this one, from the introduction: it is another.
            let seen = match seen {
                Some(k)
                    if content[k].supposed()
                        || current != Some(k)
                            && (content[k].assumed || content[k].amounts < 3 && content[k].opened <= first_measure) =>
                {
                    plan.dishes[k] = Dish { title: String::new(), span: None };
                    content[k].assumed = false;
                    None
                }
                other => other,
            };
            match current {
                None => {
                    // The introduction names several; the first of them comes first.
                    let own = view.planned.is_empty() || cand.strength >= 3 || n >= first_measure;
                    let (title, span) = match best_planned(&view.first) {
                        Some(p) if !own => p.clone(),
                        _ => (cand.title, cand.span),
                    };
                    let k = open(&mut plan, &mut content, Dish { title, span }, n);
                    content[k].assumed = !own;
                    current = Some(k);
                    (group, opens) = (None, true);
                }
                Some(k) if content[k].amounts == 0 => {
                    // Nothing has been made yet: the later name is the dish's own.
                    let planned = n < first_measure && plan_holds(&view.planned, &plan.dishes[k].title);
                    if cand.strength >= 3 && !(planned && !c.piece.opens) && seen.is_none()
                        || plan.dishes[k].title.is_empty()
                    {
                        plan.dishes[k].title = cand.title;
                        plan.dishes[k].span = cand.span;
                        content[k].assumed = false;
                        opens = true;
                    }
                }
                Some(_) => match seen {
                    Some(back) if content[back].amounts == 0 => {
                        current = Some(back);
                        content[back].opened = n;
                        (group, opens, revisit) = (None, true, None);
                    }
                    Some(_) => {}
                    None => {
                        let dish = Dish { title: cand.title, span: cand.span };
                        current = Some(open(&mut plan, &mut content, dish, n));
                        (group, opens, revisit) = (None, true, None);
                    }
                },
            }
        }
        // Nobody names it, but the dish before is done and other foods are measured out.
        if current.is_some() && !opens && revisit.is_none() && turned.is_some_and(|t| t.1.is_none()) {
            current = Some(open(&mut plan, &mut content, Dish { title: String::new(), span: None }, n));
            group = None;
        }
        if current.is_none() && measured(c, found) > 0 && !c.cues.story && c.main != Use::Remark {
            let (title, span) = best_planned(&view.first).cloned().unwrap_or_default();
            let k = open(&mut plan, &mut content, Dish { title, span }, n);
            content[k].assumed = true;
            current = Some(k);
        }
        if let Some(k) = current
            && revisit.is_none()
        {
            if let Some(part) = component(tokens, c, &plan.dishes[k].title) {
                group = part;
                opens = true;
            }
            content[k].amounts += measured(c, found);
        }
        // "A quarter cup of minced onion goes in the ham balls": measured for a dish that was made before.
        let elsewhere =
            if measured(c, found) > 0 && revisit.is_none() { said_of(tokens, c, &plan, current) } else { None };
        let revisit = revisit.or(elsewhere);
        plan.card.push(revisit.or(current));
        plan.group.push(if revisit.is_some() { None } else { group.clone() });
        plan.opens.push(opens);
    }
    plan.opened = content.iter().map(|c| c.opened).collect();
    plan.measured_from = (0..plan.dishes.len())
        .map(|k| {
            // Its first clause lies at or after its opening; what goes back to it comes later.
            (content[k].opened..clauses.len())
                .take_while(|n| plan.dishes.len() <= LOOK_BACK || *n < content[k].opened + 4000)
                .find(|n| plan.card[*n] == Some(k) && measured_strictly(clauses.item(*n), found) > 0)
                .unwrap_or(0)
        })
        .collect();
    // What came before the first opening belongs to the first dish ("the oven first, 375").
    for card in plan.card.iter_mut() {
        if card.is_some() {
            break;
        }
        *card = if plan.dishes.is_empty() { None } else { Some(0) };
    }
    let speakers = tokens.iter().filter(|t| t.kind == Kind::Break(crate::draft::format::Gap::Speaker)).count();
    plan.dialogue = speakers >= 4;
    plan.extent = vec![0..0; plan.dishes.len()];
    for (n, card) in plan.card.iter().enumerate() {
        if let Some(k) = card {
            let all = &mut plan.extent[*k];
            *all = if all.start == all.end { n..n + 1 } else { all.start..n + 1 };
        }
    }
    plan
}

impl Plan {
    /// Gives what was said of a dish that is none to the one before it; of the first, to the next one.
    ///
    /// "Pat the onion and put it by. Now the pound cake…": an ingredient alone makes no card.
    pub fn fold(&mut self, k: usize) {
        self.join(k, k.checked_sub(1).unwrap_or(1));
    }

    /// "The stew peas… a pudding… and back to the stew peas": a dish that has the name of an earlier one, and no other, is that one.
    fn come_back(&mut self) {
        for k in 1..self.dishes.len() {
            let title = &self.dishes[k].title;
            let first = k.saturating_sub(LOOK_BACK)..k;
            if let Some(to) = first.rev().find(|j| !title.is_empty() && self.dishes[*j].title == *title) {
                self.join(k, to);
            }
        }
    }

    fn join(&mut self, k: usize, to: usize) {
        if to < self.extent.len() {
            let mine = std::mem::take(&mut self.extent[k]);
            let all = &mut self.extent[to];
            let start = if all.end == 0 { mine.start } else { all.start.min(mine.start) };
            *all = start..all.end.max(mine.end);
            self.card[mine].iter_mut().filter(|c| **c == Some(k)).for_each(|c| *c = Some(to));
        }
    }

    /// The clauses of a dish and what stands for its name so far.
    pub fn stretch<'a>(&'a self, view: &View<'_>, k: usize) -> Stretch<'a> {
        let from = self.opened[k];
        let to = self.opened.get(k + 1).map_or(view.clauses.len(), |c| (*c).max(from + 1));
        let opened = &self.dishes[k].title;
        Stretch { dish: k, from, to, opened, others: self.others(k), foods: view.foods_of(from, to) }
    }

    /// The titles of the dishes round about dish `k`.
    pub fn others(&self, k: usize) -> Vec<&str> {
        let near = self.dishes.iter().enumerate().skip(k.saturating_sub(LOOK_BACK)).take(2 * LOOK_BACK);
        near.filter(|d| d.0 != k).map(|d| d.1.title.as_str()).collect()
    }
}

/// Gives each dish the best of the names that were said of it; of two neighbours with one name the likelier keeps it.
fn rename(view: &View<'_>, plan: &mut Plan) {
    for k in 0..plan.dishes.len() {
        if let Some((_, dish)) = best_name(view, plan, k, "") {
            let near = k.saturating_sub(LOOK_BACK)..k;
            if near.rev().all(|j| plan.dishes[j].title != dish.title) {
                plan.dishes[k] = dish;
            }
        }
    }
    for k in 1..plan.dishes.len() {
        let title = plan.dishes[k].title.clone();
        if title.is_empty() || plan.dishes[k - 1].title != title {
            continue;
        }
        // What each would lose with its next best name.
        let (here, before) = (best_name(view, plan, k, &title), best_name(view, plan, k - 1, &title));
        let loss = |n: &Option<(i32, Dish)>| n.as_ref().map_or(i32::MAX, |n| n.0);
        let (j, dish) = if loss(&here) <= loss(&before) { (k, here) } else { (k - 1, before) };
        if let Some((_, dish)) = dish {
            plan.dishes[j] = dish;
        }
    }
}

/// The best name of dish `k` but `not`, and by how much that one is likelier.
fn best_name(view: &View<'_>, plan: &Plan, k: usize, not: &str) -> Option<(i32, Dish)> {
    let stretch = plan.stretch(view, k);
    let names = view.names(&stretch);
    let mut held = UNLIKELY;
    let mut best: Option<(i32, usize)> = None;
    for (n, name) in names.iter().enumerate() {
        let sum = view.weigh_name(&stretch, name);
        if !not.is_empty() && same_dish(&name.candidate.title, not) {
            held = held.max(sum);
        } else if sum > best.map_or(UNLIKELY, |b| b.0) {
            best = Some((sum, n));
        }
    }
    let (sum, n) = best?;
    let name = &names[n].candidate;
    Some((held - sum, Dish { title: name.title.clone(), span: name.span }))
}

/// A name whose sum is lower is none.
const UNLIKELY: i32 = -60;

/// How many dishes back a name may mean.
const LOOK_BACK: usize = 40;

/// The first dish from `from` on of which something holds.
fn position(dishes: &[Dish], from: usize, holds: impl Fn(&Dish) -> bool) -> Option<usize> {
    dishes[from..].iter().position(holds).map(|k| k + from)
}

/// The earlier dish into which a clause says its foods go: "in the ham balls", "for the slaw".
fn said_of(tokens: &[Token], c: &Sorted, plan: &Plan, current: Option<usize>) -> Option<usize> {
    let (from, to) = (c.piece.from, c.piece.to);
    let recent = plan.dishes.len().saturating_sub(LOOK_BACK);
    plan.dishes.iter().enumerate().skip(recent).filter(|(k, d)| Some(*k) != current && !d.title.is_empty()).find_map(
        |(k, d)| {
            let words = crate::token::keys(&d.title);
            let tail = &words[words.len().saturating_sub(2)..];
            (from + 2..to).find(|n| {
                tokens.item(*n - 1).is_any("the that those your my")
                    && tokens.item(*n - 2).is_any("in into for on to")
                    && tail.iter().enumerate().all(|(j, w)| tokens.get(n + j).is_some_and(|t| *t.fold == **w))
            })?;
            Some(k)
        },
    )
}

#[derive(Clone, Copy, Debug, Default)]
struct Content {
    /// The clause that opened it.
    opened: usize,
    /// How many foods were measured since.
    amounts: usize,
    /// Its name was only taken from the introduction.
    assumed: bool,
}

impl Content {
    /// It was only thought to be this dish, from the introduction: it may be another.
    fn supposed(&self) -> bool {
        self.assumed && self.amounts >= 3
    }
}

fn open(plan: &mut Plan, content: &mut Vec<Content>, dish: Dish, opened: usize) -> usize {
    plan.dishes.push(dish);
    content.push(Content { opened, amounts: 0, assumed: false });
    plan.dishes.len() - 1
}

fn measured(c: &Sorted, found: &[Found]) -> usize {
    found.row(c.found.0, c.found.1).iter().filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some())).count()
}

fn measured_strictly(c: &Sorted, found: &[Found]) -> usize {
    found
        .row(c.found.0, c.found.1)
        .iter()
        .filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit().is_some())))
        .count()
}
