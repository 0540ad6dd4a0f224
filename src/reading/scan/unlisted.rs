//! A food of no list with its amount: "Kewra, two drops." It is a sentence of its own or leads one, and what it is called
//! is no word that the lists know for anything else.

use super::{Found, Item};
use crate::grammar::food::{Quantifier, SaidFood};
use crate::item::Items;
use crate::lexicon::lexicon;
use crate::token::{Kind, Token, Tokens};

/// Words that stand before a name at the front of a sentence.
const LEADS: &str = "and then now so next also okay ok oh my your the our some for last finally plus well";

/// So many words round about a name it may be said again.
const NEAR: usize = 300;

/// Sets of words that are no food.
const OTHERS: [&str; 8] =
    ["settle", "filler", "idle title", "name end", "no title", "before name", "no food", "governs"];

/// Gives an amount without a food the unknown word it is said of, and one before a comma the food after it.
pub(super) fn unlisted(tokens: &[Token], from: usize, found: &mut Vec<Found>) {
    let mut n = 0;
    while n < found.len() {
        let Item::Loose(said) = found[n].item else {
            n += 1;
            continue;
        };
        let at = found[n].from;
        let measure =
            said.amount.unit().is_some_and(|u| u.dimension() != crate::measure::Dimension::Length) && !said.of_the;
        // "Two cups, milk."
        if measure
            && opens(tokens, at)
            && tokens.get(found[n].to).is_some_and(|t| t.kind == Kind::Comma)
            && found.get(n + 1).is_some_and(|f| {
                f.from == found[n].to + 1
                    && tokens.get(f.to).is_none_or(Token::ends)
                    && matches!(&f.item, Item::Food(x) if x.amount.is_none() && x.quantifier == Quantifier::None && x.food.is_some())
            })
        {
            if let Item::Food(x) = &mut found[n + 1].item {
                x.amount = Some(said);
            }
            found.remove(n);
            continue;
        }
        let start = (from..at).rev().find(|k| tokens.item(*k).ends()).map_or(from, |k| k + 1);
        // "A teaspoon of cumin, and papelón, two tablespoons."
        let listed = n > 0 && {
            let gap = tokens.row(found[n - 1].to, at);
            found[n - 1].to > start
                && gap.first().is_some_and(|t| t.kind == Kind::Comma || t.is("and"))
                && gap.iter().skip(1).any(|t| t.kind == Kind::Comma)
                && matches!(&found[n - 1].item, Item::Food(x) if x.amount.is_some())
        };
        let start = if listed { found[n - 1].to } else { start };
        let mut name = start;
        while name < at && (tokens.item(name).is_any(LEADS) || tokens.item(name).kind == Kind::Comma) {
            name += 1;
        }
        // "I use walu, one kilo."
        if tokens.item(name).is_any("i we you") && tokens.item(name + 1).is_any("use have take") {
            name += 2;
        }
        let known = listed && Tokens(tokens.row(start, name)).has_any("the my your our");
        let end = (name..at)
            .find(|k| tokens.item(*k).kind != Kind::Word || lexicon().has("governs", &tokens.item(*k).text))
            .unwrap_or(at);
        let free = n == 0 || found[n - 1].to <= start;
        if measure
            && free
            && !known
            && called(tokens.row(name, end))
            && super::joins(tokens.row(end, at), tokens, found[n].to, false)
        {
            let name_said = crate::token::said(tokens.row(name, end));
            let food = SaidFood { amount: Some(said), package: said.package, ..SaidFood::named(name_said) };
            found[n] = Found { item: Item::Food(Box::new(food)), from: name, to: found[n].to };
        }
        n += 1;
    }
}

/// "And then the tots.": a name of no list that is all of its sentence. Gives its tokens.
pub fn bare_name(tokens: &[Token], from: usize, to: usize) -> Option<(usize, usize)> {
    let name = (from..to).find(|k| !tokens.item(*k).is_any(LEADS) && tokens.item(*k).kind == Kind::Word)?;
    // "Langka. I bought it sliced, half a kilo": elsewhere it is said as a word, and not as the name of somebody.
    let said = || {
        let near = tokens.row(name.saturating_sub(NEAR), (to + NEAR).min(tokens.len()));
        to == name + 1 && near.iter().any(|t| !t.capital && t.fold == tokens.item(name).fold)
    };
    let led = (from..name).any(|k| tokens.item(k).is_any("the your my some")) || said();
    (led && (1..=2).contains(&(to - name)) && tokens.row(name, to).iter().all(unknown)).then_some((name, to))
}

/// One or two words of no list; before one of them may stand how it is sold: "dried beletete".
fn called(row: &[Token]) -> bool {
    match row {
        [first, name] if !unknown(first) => {
            let one = Tokens(std::slice::from_ref(first));
            let sold = lexicon().prep.exact(one).is_some() || lexicon().describers.exact(one).is_some();
            sold && unknown(name) && !lexicon().has("ordinary", &name.text)
        }
        _ => (1..=2).contains(&row.len()) && row.iter().all(unknown),
    }
}

fn opens(tokens: &[Token], at: usize) -> bool {
    at == 0 || tokens.item(at - 1).ends()
}

/// A word of no list.
pub fn unknown(t: &Token) -> bool {
    let lists = lexicon();
    let one = Tokens(std::slice::from_ref(t));
    t.kind == Kind::Word
        && t.text.len() >= 3
        && !crate::letters::holds(&t.text, "'")
        && !t.text.ends_with("ly")
        && !t.text.ends_with("ing")
        && OTHERS.iter().all(|s| !lists.has(s, &t.text))
        && lists.verbs.exact(one).is_none()
        && lists.tools.folded(one).is_none()
        && lists.people.folded(one).is_none()
        && lists.components.folded(one).is_none()
        && lists.dishes.folded(one).is_none()
        && lists.pans.folded(one).is_none()
        && lists.prep.exact(one).is_none()
        && lists.describers.exact(one).is_none()
        && lists.talk.exact(one).is_none()
        && lists.adverbs.exact(one).is_none()
        && crate::grammar::amount::unit(one).is_none()
        && crate::grammar::number::number(one).is_err()
}
