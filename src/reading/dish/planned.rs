//! The dishes she says beforehand that she will make.

use super::super::scan::{Found, Item};
use super::super::sort::Sorted;
use super::Named;
use super::title::{is_weak, name_run, same_dish, title_at};
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::lexicon;
use crate::token::{Kind, Token, Tokens, fold};

/// The first planned name that is surely a dish; else the first.
pub(super) fn best_planned(planned: &[Named]) -> Option<&Named> {
    let dish = |title: &str| {
        let tokens = crate::token::words(title);
        (0..tokens.len()).any(|n| {
            lexicon().dishes.folded(Tokens(tokens.row(n, tokens.len()))).is_some_and(|d| n + d.0 == tokens.len())
        })
    };
    planned.iter().find(|p| dish(&p.0)).or(planned.first())
}

/// The dishes she says beforehand that she will make.
pub(super) fn planned_dishes(tokens: &[Token], clauses: &[Sorted], found: &[Found]) -> (Vec<Named>, Vec<Named>) {
    // What comes after "and then" is planned, too, but is never the first dish.
    let mut later: Vec<Named> = Vec::new();
    let mut out: Vec<Named> = Vec::new();
    let mut amounts = 0;
    for (index, c) in clauses.iter().enumerate() {
        amounts += if c.cues.story { 0 } else { measured_well(c, found) };
        if amounts >= 2 || index > 40 {
            break;
        }
        if c.cues.story {
            continue;
        }
        if c.piece.opens {
            let end = clauses
                .row(index, clauses.len())
                .iter()
                .skip(1)
                .find(|d| d.piece.opens)
                .map_or(tokens.len(), |d| d.piece.from);
            let end = (c.piece.from..end).take_while(|n| !tokens.item(*n).ends()).count() + c.piece.from;
            for (name, span) in listed(tokens, c.piece.from, end) {
                if !out.iter().any(|o| same_dish(&o.0, &name)) {
                    out.push((name, span));
                }
            }
        }
        // "…, and then the green sauce", "and then if there's time I do the escarole".
        for n in c.piece.from..c.piece.to {
            if !tokens.item(n).is("then")
                || n > 0 && !tokens.item(n - 1).is_any("and") && tokens.item(n - 1).kind != Kind::Comma
            {
                continue;
            }
            let article = (n + 1..(n + 9).min(tokens.len()))
                .take_while(|k| tokens.item(*k).kind == Kind::Word)
                .find(|k| tokens.item(*k).is_any("the a some"));
            let at = article.map_or(n + 1, |k| k + 1);
            let at = if Tokens(tokens).nth_any(at, "pan pot batch plate")
                && tokens.get(at + 1).is_some_and(|t| t.is("of"))
            {
                at + 2
            } else {
                at
            };
            if let Some((a, b)) = name_run(tokens, at, tokens.len().min(at + 6)) {
                let name = crate::token::said(tokens.row(a, b));
                let part = lexicon().components.folded(Tokens(tokens.row(b - 1, b))).is_some() && b - a == 1;
                if !part && !out.iter().chain(&later).any(|o| same_dish(&o.0, &name)) {
                    later.push((name, Some(tokens.item(a).span.to(tokens.item(b - 1).span))));
                    // "it's the black beans in the pressure cooker, and then picadillo": what stood before "then" comes first.
                    if out.is_empty() {
                        let start = (0..n).rev().find(|k| tokens.item(*k).ends()).map_or(0, |k| k + 1);
                        let before = (start..n)
                            .filter(|k| tokens.item(*k).is_any("the a doing making it's my"))
                            .find_map(|k| name_run(tokens, k + 1, n));
                        if let Some((a, b)) = before {
                            out.push((
                                crate::token::said(tokens.row(a, b)),
                                Some(tokens.item(a).span.to(tokens.item(b - 1).span)),
                            ));
                        }
                    }
                }
            }
        }
        let mut at = c.piece.from;
        while at < c.piece.to {
            let prev = tokens.get(at.wrapping_sub(1));
            let boundary = at == c.piece.from || prev.is_some_and(|p| p.kind != Kind::Word || p.is_in("before a plan"));
            // "In one skillet" says where it is made.
            let boundary = boundary
                && !(at > 1 && tokens.item(at - 1).is_any("one a the") && tokens.item(at - 2).is_any("in on into"));
            // "Cupcakes with a vanilla frosting" names one dish.
            let article = usize::from(at > 0 && tokens.item(at - 1).is_any("a the some my"));
            let with = at > article && tokens.item(at - 1 - article).is("with");
            if boundary && let Some((title, from, to)) = title_at(tokens, at, c.piece.to) {
                let weak = lexicon().has("weak title", &fold(&title)) && !crate::letters::holds(&title, " ");
                let part = lexicon().components.folded(Tokens(tokens.row(to - 1, to))).is_some();
                let part = part
                    || with
                        && title
                            .rsplit(' ')
                            .next()
                            .is_some_and(|w| lexicon().components.folded(Tokens(&[Token::word(w)])).is_some());
                // "the cake stall" is no cake.
                let owned = tokens.get(to).is_some_and(|t| {
                    t.kind == Kind::Word
                        && !lexicon().has("title end", &t.text)
                        && lexicon().talk.exact(Tokens(tokens.row(to, tokens.len()))).is_none()
                        && lexicon().verbs.exact(Tokens(tokens.row(to, tokens.len()))).is_none()
                });
                let head_weak = lexicon().has("weak title", &tokens.item(to - 1).fold)
                    && at == c.piece.from
                    && !tokens.item(at).is_any("the my a");
                let generic =
                    to - from == 1 && tokens.item(at).is_any("a") && prev.is_some_and(|p| p.is_any("it's is that's"));
                let owned = owned || head_weak || generic;
                let told = prev.is_some_and(|p| p.is("the")) || tokens.item(at).is("the");
                let indefinite =
                    tokens.item(at).is("a") && c.piece.from + 12 > at || prev.is_some_and(|p| p.is("then"));
                let telling =
                    indefinite || told && Tokens(tokens.row(c.piece.from, at)).has_any("tell make making doing do");
                let weak = is_weak(&title) && !telling || weak && !telling;
                let nothing = title.split(' ').all(|w| lexicon().has("no title", w));
                if !out.iter().any(|o| same_dish(&o.0, &title)) && !weak && !part && !owned && !nothing {
                    out.push((title, Some(tokens.item(from).span.to(tokens.item(to - 1).span))));
                }
                at = to;
            } else {
                at += 1;
            }
        }
    }
    let mut all = out.clone();
    for l in later {
        if !all.iter().any(|o| same_dish(&o.0, &l.0)) {
            all.push(l);
        }
    }
    (out, all)
}

/// Names listed in an introduction: "it's the beef, the Yorkshires and the gravy", "cheese rolls, ginger crunch, lemonade
/// scones". Anything counts as a name there, a plain food or a word of no list, if at least two stand together.
fn listed(tokens: &[Token], from: usize, to: usize) -> Vec<Named> {
    const CUES: &str = "plans";
    let mut chains: Vec<Vec<(usize, usize)>> = Vec::new();
    let mut n = from;
    while n < to {
        let article = tokens.item(n).is_any("the my a some");
        let prev = if n > from { Some(tokens.item(n - 1)) } else { None };
        let starts = prev.is_none_or(|p| p.kind == Kind::Comma || p.kind == Kind::Pause || p.is_in(CUES));
        let at = if article { n + 1 } else { n };
        let run = if starts { name_run(tokens, at, to) } else { None };
        let Some((a, b)) = run else {
            n += 1;
            continue;
        };
        let mut chain = vec![(a, b)];
        let mut led = usize::from(article);
        let mut next = b;
        // The next name after "," "and" "and then" "and there's" "and you asked for".
        loop {
            let mut k = next;
            let mut joints = 0;
            while k < to
                && k < next + 6
                && (tokens.item(k).kind == Kind::Comma || tokens.item(k).is_in("around a plan"))
            {
                joints += usize::from(tokens.item(k).kind == Kind::Comma || tokens.item(k).is("and"));
                k += 1;
            }
            let article = k < to && tokens.item(k).is_any("the my a some");
            k += usize::from(article);
            if joints == 0 || k >= to {
                break;
            }
            let Some((c, d)) = name_run(tokens, k, to) else { break };
            led += usize::from(article);
            chain.push((c, d));
            next = d;
        }
        let whole = chain.first().is_some_and(|c| c.0 <= from + 2) && tokens.get(next).is_none_or(Token::ends);
        if chain.len() >= 2
            && (led >= 2
                || led >= 1 && whole
                || chain.len() >= 3 && whole
                || led >= 1 && chain.len() >= 3
                || prev.is_some_and(|p| p.is("doing")))
        {
            chains.push(chain);
        }
        n = next.max(n + 1);
    }
    chains
        .into_iter()
        .flatten()
        .map(|(a, b)| {
            let mut words = crate::token::texts(tokens.row(a, b));
            words.retain(|w| *w != "thing");
            (crate::letters::join(&words, " "), Some(tokens.item(a).span.to(tokens.item(b - 1).span)))
        })
        .filter(|n| !n.0.is_empty())
        .collect()
}

pub(super) fn plan_holds(planned: &[Named], title: &str) -> bool {
    planned.iter().any(|p| same_dish(&p.0, title))
}

/// How many foods are measured or counted by a number of their own.
fn measured_well(c: &Sorted, found: &[Found]) -> usize {
    found.row(c.found.0, c.found.1).iter().filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit().is_some() || !a.article && x.food.is_some()))).count()
}
