//! A list told again when its dish is long done: "a kilo of mince, two onions, two slices of bread", at the end of the rusks.

use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use super::topic::RECENT;
use super::{LOOK_BACK, Plan};
use crate::grammar::food::SaidFood;
use crate::item::Items;
use crate::recipe::Use;
use crate::token::fold;
use std::ops::Range;

/// Fewer foods than this may be alike by chance.
const FOODS: usize = 3;

/// The tags of foods that tell one dish from another.
const TELLING: &str = "meat groundmeat poultry fish shellfish cured produce fruit pulse pasta rice bread condiment";

fn foods<'a>(clauses: &[Sorted], found: &'a [Found], at: &Range<usize>) -> Vec<&'a SaidFood> {
    let mine = found.row(clauses.item(at.start).found.0, clauses.item(at.end - 1).found.1).iter();
    mine.filter_map(|f| if let Item::Food(x) = &f.item { Some(&**x) } else { None }).collect()
}

/// Gives each sentence that only lists the foods of an earlier dish, with its figures, to that dish.
pub(super) fn retold(clauses: &[Sorted], found: &[Found], plan: &mut Plan) {
    plan.retold = vec![false; clauses.len()];
    if plan.dishes.len() < 2 {
        return;
    }
    // The foods each dish has measured so far: the last word of the name, and the figure.
    let mut held: Vec<Vec<(String, String)>> = vec![Vec::new(); plan.dishes.len()];
    let mut start = 0;
    while start < clauses.len() {
        let end = (start + 1..clauses.len()).find(|n| clauses.item(*n).piece.opens).unwrap_or(clauses.len());
        let said = foods(clauses, found, &(start..end));
        let lists = clauses.row(start, end).iter().all(|c| c.main != Use::Action);
        let current = plan.card[start];
        let named: Vec<(String, Option<String>)> = said
            .iter()
            .map(|x| {
                let head = x.name.rsplit(' ').next().map(fold).unwrap_or_default();
                (head, x.amount.map(|a| a.amount.low().to_string()))
            })
            .collect();
        let told = |k: usize| {
            let known = named.iter().filter(|n| held[k].iter().any(|h| h.0 == n.0)).count();
            let same = |n: &&(String, Option<String>)| held[k].iter().any(|h| h.0 == n.0 && Some(&h.1) == n.1.as_ref());
            (known, named.iter().filter(|n| n.1.is_some()).filter(same).count())
        };
        // "A cup of sugar, two eggs and a teaspoon of salt" is in many dishes.
        let telling = |k: usize| {
            let heads = said.iter().filter(|x| x.food.is_some_and(|f| f.is(TELLING)));
            heads.filter(|x| held[k].iter().any(|h| x.name.rsplit(' ').next().is_some_and(|w| fold(w) == h.0))).count()
        };
        let measured = named.iter().filter(|n| n.1.is_some()).count();
        if let Some(k) = current
            && lists
            && named.len() >= FOODS
            && measured > 0
            && held[k].len() >= FOODS
            && told(k).0 <= 1
            && let Some(other) = (k.saturating_sub(LOOK_BACK)..k).find(|j| {
                let (known, same) = told(*j);
                known >= FOODS && known * 4 >= named.len() * 3 && same * 2 >= measured && telling(*j) >= 2
            })
        {
            for n in start..end {
                plan.card[n] = Some(other);
                plan.group[n] = None;
                plan.retold[n] = true;
            }
        } else if let Some(k) = current {
            held[k].extend(named.into_iter().filter_map(|n| n.1.map(|figure| (n.0, figure))));
            let old = held[k].len().saturating_sub(RECENT);
            held[k].drain(..old);
        }
        start = end;
    }
}
