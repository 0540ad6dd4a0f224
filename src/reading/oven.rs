//! What the oven is set to, kept apart from candy, meat and water; pans and times.

use super::dish::Plan;
use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::grammar::heat::SaidHeat;
use crate::item::Items;
use crate::lexicon::{Sets, lexicon};
use crate::measure::{Heat, Pan, Ratio, Time, TimeUnit};
use crate::recipe::{Said, Use};
use crate::token::{Token, Tokens};

/// Whether a heat found between `from` and `to` is a setting of the oven.
pub fn is_oven_setting(tokens: &[Token], from: usize, to: usize, heat: &SaidHeat) -> bool {
    let row = tokens.row(from, to.min(tokens.len()));
    if heat.scale == Some('g') || heat.fan {
        return true;
    }
    let food = row.iter().any(|t| t.is_in("food heat"));
    let oven_word = row.iter().any(|t| t.is_in("names the oven"));
    let oil = row.iter().any(|t| t.is_any("oil fry frying smoker grill water milk"));
    if (food || oil) && !oven_word {
        return false;
    }
    let n = heat.degrees;
    if !heat.marked && (!n.is_multiple_of(5) || !(100..=550).contains(&n)) {
        return false;
    }
    oven_word || heat.marked && n >= 120 || row.iter().any(|t| t.is_in("of the oven")) && n >= 140
}

/// The ovens, pans and times of a card.
#[derive(Debug, Default)]
pub struct Settings {
    /// Oven settings in order.
    pub ovens: Vec<Said<Heat>>,
    /// Pans in order.
    pub pans: Vec<Said<Pan>>,
    /// Times in order.
    pub times: Vec<Said<Time>>,
    /// Something goes in the oven.
    pub bakes: bool,
}

/// Gathers them.
pub fn settings(
    tokens: &[Token],
    clauses: &[Sorted],
    found: &[Found],
    plan: &Plan,
    card: usize,
    metric: bool,
) -> Settings {
    let mut out = Settings::default();
    let mut recap = false;
    let extent = plan.extent[card].clone();
    for (n, c) in clauses.iter().enumerate().take(extent.end).skip(extent.start) {
        if plan.card[n] != Some(card) {
            continue;
        }
        let row = tokens.row(c.piece.from, c.piece.to);
        recap |= row.iter().any(|t| t.is("recap"));
        if c.cues.story || c.cues.called {
            continue;
        }
        let mine = found.row(c.found.0, c.found.1);
        // The sentence around a clause tells what a bare figure is.
        let (mut from, to) = around(clauses, n);
        if to - from <= 3 && n > 0 {
            // "Turn the oven on. 350."
            from = around(clauses, n - 1).0;
        }
        let place = |f: &Found| tokens.item(f.from).span.to(tokens.item(f.to - 1).span);
        if c.main != Use::Chatter && row.iter().any(|t| t.is_any("oven bake bakes baking")) {
            out.bakes |= row.iter().any(|t| t.is_any("bake bakes goes in into back put"))
                && !row.iter().any(|t| t.is_any("not doesn't no don't"));
        }
        for f in mine {
            match &f.item {
                Item::Heat(h) if !recap => {
                    let clause_oven = is_oven_setting(tokens, c.piece.from, c.piece.to, h);
                    let sentence_food = Tokens(tokens.row(from, to)).has_any("thermometer internal");
                    let taken_back = follows_lie(tokens, f.from) && !out.ovens.is_empty() && h.degrees >= 200;
                    if (clause_oven || taken_back || is_oven_setting(tokens, from, to, h) && !sentence_food)
                        && let Some(heat) = h.oven(metric)
                    {
                        let said = Said { what: heat, span: place(f) };
                        if c.cues.correct && c.piece.from > 0 || follows_lie(tokens, f.from) {
                            out.ovens.pop();
                        }
                        if out.ovens.iter().all(|o| o.what != heat) {
                            out.ovens.push(said);
                        }
                    }
                }
                Item::Pan(p) => {
                    let before = tokens.row(f.from.saturating_sub(6), f.from);
                    let rolled = before.iter().any(|t| t.is_in("shaped"))
                        && !before.iter().any(|t| t.is("jelly"))
                        && p.called == "pan";
                    let negative = before.iter().any(|t| t.is_any("not isn't than"));
                    if rolled || negative {
                        continue;
                    }
                    let last_correct = c.cues.correct && !out.pans.is_empty() || follows_lie(tokens, f.from);
                    if last_correct {
                        out.pans.pop();
                    }
                    if !out.pans.iter().any(|q| q.what.same_size(p)) {
                        out.pans.push(Said { what: p.clone(), span: place(f) });
                    }
                }
                Item::Time(t) if !recap => {
                    if keeping(tokens, c, f, t) {
                        continue;
                    }
                    if c.main == Use::Chatter && !clause_is_timing(row) {
                        continue;
                    }
                    // "One hour, actually two hours": the time just said is taken back.
                    let taken_back = c.cues.correct || follows_lie(tokens, f.from);
                    let since = out.times.last().map_or(usize::MAX, |o| f.from.saturating_sub(end_of(tokens, o.span)));
                    // "In like five minutes… okay, more like eight", "an hour, I say an hour, so forty-five minutes".
                    let settled = since <= 24
                        && (tokens.row(f.from.saturating_sub(2), f.from).iter().any(|t| t.is("more"))
                            && tokens.item(f.from - 1).is("like")
                            || f.from > 0 && tokens.item(f.from - 1).is("so"));
                    if settled
                        || taken_back && since <= 8 && out.times.last().is_some_and(|o| o.what.unit() == t.unit())
                    {
                        out.times.pop();
                    }
                    if !out
                        .times
                        .iter()
                        .any(|o| o.what.low_seconds() == t.low_seconds() && o.what.high_seconds() == t.high_seconds())
                    {
                        out.times.push(Said { what: *t, span: place(f) });
                    }
                }
                // "Eight to ten hours on low, or you can do five to six on high."
                Item::Count(figure)
                    if tokens.get(f.to).is_some_and(|t| t.is("on"))
                        && Tokens(tokens).nth_any(f.to + 1, "high low")
                        && out.times.last().is_some_and(|o| {
                            o.what.unit() == TimeUnit::Hour && f.from.saturating_sub(end_of(tokens, o.span)) <= 16
                        }) =>
                {
                    if let Some(time) = Time::range(figure.low, figure.high, TimeUnit::Hour) {
                        out.times.push(Said { what: time, span: place(f) });
                    }
                }
                // "In like five minutes… okay, more like eight."
                Item::Count(figure)
                    if f.from >= 2
                        && tokens.item(f.from - 1).is("like")
                        && tokens.item(f.from - 2).is("more")
                        && !Tokens(tokens).nth_any(f.to, "of cups cup") =>
                {
                    if let Some(last) =
                        out.times.last_mut().filter(|o| f.from - end_of(tokens, o.span).min(f.from) <= 24)
                        && let Some(time) = Time::range(figure.low, figure.high, last.what.unit())
                    {
                        *last = Said { what: time, span: place(f) };
                    }
                }
                _ => {}
            }
        }
        let broil = (c.main == Use::Action || c.main == Use::Ingredient)
            && !row.iter().any(|t| t.is_any("don't no without"))
            && row.iter().enumerate().any(|(k, t)| {
                t.is_any("broiler broil")
                    || t.is("grill")
                        && row.get(k.wrapping_sub(1)).is_some_and(|p| p.is("the"))
                        && row.get(k.wrapping_sub(2)).is_some_and(|p| p.is("under"))
            });
        if broil && out.ovens.iter().all(|o| o.what != Heat::Broil) {
            let at = row.iter().find(|t| t.is_any("broiler broil grill")).map(|t| t.span).unwrap_or(row[0].span);
            out.ovens.push(Said { what: Heat::Broil, span: at });
        }
    }
    out
}

/// The token that ends at the end of a place.
fn end_of(tokens: &[Token], span: crate::draft::Span) -> usize {
    tokens.partition_point(|t| t.span.end < span.end)
}

/// "400. No I lied, 375": what stands just before takes the figure back.
fn follows_lie(tokens: &[Token], at: usize) -> bool {
    let before = tokens.row(at.saturating_sub(9), at);
    let row = Tokens(before);
    // "375, no, 350": a "no" between two pauses.
    let n = before.len();
    let flat_no = n >= 2 && before[n - 1].kind == crate::token::Kind::Comma && before[n - 2].is("no")
        || n >= 1 && before[n - 1].is("no") && n >= 2 && !before[n - 2].is_spoken();
    flat_no
        || (0..row.len()).any(|n| {
            lexicon().talk.exact(row.skip(n)).is_some_and(|m| m.1.0 == "correct" && !row.skip(n).at_any("make"))
        }) && before.iter().any(|t| t.is_in("takes back"))
}

/// The tokens of the sentence a clause lies in.
fn around(clauses: &[Sorted], n: usize) -> (usize, usize) {
    let mut a = n;
    while a > 0 && !clauses.item(a).piece.opens {
        a -= 1;
    }
    let mut b = n + 1;
    while b < clauses.len() && !clauses.item(b).piece.opens {
        b += 1;
    }
    (clauses.item(a).piece.from, clauses.item(b - 1).piece.to)
}

/// A keeping time, an age, a moment to look: not a time of the method.
fn keeping(tokens: &[Token], c: &Sorted, f: &Found, t: &Time) -> bool {
    let row = tokens.row(c.piece.from, c.piece.to);
    if matches!(t.unit(), TimeUnit::Week | TimeUnit::Month | TimeUnit::Year) {
        return true;
    }
    let before = tokens.row(f.from.saturating_sub(4), f.from);
    let after = Tokens(tokens.row(f.to, (f.to + 3).min(tokens.len())));
    if after.at_any("ago old out ahead") && !(after.at("out"))
        || before.iter().any(|t| t.is_any("at check checking")) && before.iter().any(|t| t.is_any("check checking"))
    {
        return true;
    }
    // "It took three hours", "in all it takes forty-five minutes", "you've lost twenty minutes", "four days off": told of, not done.
    // "At the last minute" is no time.
    if tokens.item(f.from).is("the") && !(f.from >= 1 && tokens.item(f.from - 1).is_any("for in")) {
        return true;
    }
    let told = before.iter().position(|t| t.is_any("took lost every"));
    if told.is_some_and(|k| !before.get(k + 1).is_some_and(|t| t.is_any("me us")))
        || after.at_any("off early late less")
        || before.last().is_some_and(|t| t.is_any("within"))
        || c.cues.whole_time
    {
        return true;
    }
    if t.unit() == TimeUnit::Second && t.high_seconds() <= Ratio::whole(2) {
        return true;
    }
    // "Eat it in three days", "you can make it two days before", "it never sees three days".
    if t.unit() == TimeUnit::Day
        && (before.last().is_some_and(|t| t.is_any("in over sees not"))
            || after.at("before") && after.get(1).is_none_or(|t| !t.is_any("you it they")))
    {
        return true;
    }
    let keeps = row.iter().any(|t| t.is_in("keeping"));
    if t.unit() == TimeUnit::Day
        && (keeps || t.high_seconds() >= Ratio::whole(2 * 86_400) && c.cues.keep || after.at("out"))
    {
        return true;
    }
    c.cues.keep && t.unit() >= TimeUnit::Hour && keeps && !row.iter().any(|t| t.is_any("fridge chill before"))
}

fn clause_is_timing(row: &[Token]) -> bool {
    row.iter().filter(|t| t.is_spoken()).count() <= 8
}
