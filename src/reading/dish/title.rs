//! Names of dishes: where one stands, what is kept of it, and whether two name the same dish.

use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::{VerbClass, lexicon};
use crate::token::{Kind, Token, Tokens, fold};

/// A row of words as a title.
pub(super) fn named(row: &[Token]) -> String {
    said(&[&crate::token::said(row)])
}

/// Words as a title: a short "is" at the end is no part of it ("banana pudding's first").
pub(super) fn said(words: &[&str]) -> String {
    let text = crate::letters::join(words, " ");
    match text.strip_suffix("'s") {
        Some(bare) => bare.to_string(),
        None => text,
    }
}

/// Whether two titles name one dish: one's words lie within the other's, and the last words agree.
pub fn same_dish(a: &str, b: &str) -> bool {
    let words = |t: &str| -> Vec<String> {
        t.split([' ', '-']).filter(|w| !["and", "with", "the", "of", "a"].contains(w)).map(fold).collect()
    };
    let (a, b) = (words(a), words(b));
    if a.is_empty() || b.is_empty() {
        return false;
    }
    let within = |s: &[String], l: &[String]| s.iter().all(|w| l.contains(w));
    let (short, long) = if a.len() <= b.len() { (&a, &b) } else { (&b, &a) };
    within(short, long) && (short.last() == long.last() || short.len() >= 2 || long.contains(&short[0]))
}

/// A title at `at`: the words up to the last dish word of the run. Gives the title and the tokens it takes.
pub(super) fn title_at(tokens: &[Token], at: usize, to: usize) -> Option<(String, usize, usize)> {
    let lists = lexicon();
    let mut from = at;
    while from < to
        && (tokens.item(from).is_in("before a dish")
            || tokens.item(from).text.ends_with("'s") && tokens.item(from).capital)
    {
        from += 1;
    }
    let mut n = from;
    let mut end = None;
    let mut tail = 0;
    while n < to && n < from + 9 {
        let rest = Tokens(tokens.row(n, to));
        let Some(t) = rest.first() else { break };
        if let Some((len, ())) = lists.dishes.folded(rest) {
            // A form of a verb that happens to be a dish word ("fry the", "roast them") is none.
            if lists.verbs.exact(rest).is_some() && rest.nth_any(len, "the it them those that a until in each every") {
                break;
            }
            n += len;
            end = Some(n);
            continue;
        }
        if t.kind != Kind::Word {
            break;
        }
        // After a weak word ("potato", "rice") the run may go on to a better one ("puff hotdish", "and wild rice hotdish").
        if end.is_some() {
            // "Black bean and corn salsa": one name.
            let next = rest.skip(1);
            if t.is("and")
                && let Some((len, _)) = lists.foods.folded(next)
                && let Some((dish, ())) = lists.dishes.folded(next.skip(len))
            {
                n += 1 + len + dish;
                end = Some(n);
                continue;
            }
            tail += 1;
            let on = tail <= 3 && weak_at_end(tokens, n) && strong_ahead(rest);
            if !on {
                break;
            }
            n += 1;
            continue;
        }
        if t.is_any("and with in of") {
            // "chicken and rice casserole": goes on only where a food, a describer or a dish follows.
            let next = rest.skip(1);
            let good = n > from
                && (lists.foods.folded(next).is_some()
                    || lists.describers.exact(next).is_some()
                    || lists.dishes.folded(next).is_some());
            if !good
                || (t.is_any("with of in") && end.is_some())
                || (t.is("and") && end.is_some() && lists.dishes.folded(next).is_none_or(|d| d.0 < 1))
            {
                break;
            }
            // "a roast and some gravy" are two dishes; "mac and cheese" is one entry of the list.
            if t.is("and") && end.is_some() {
                break;
            }
            n += 1;
            continue;
        }
        let food = lists.foods.folded(rest).map(|f| f.0);
        let describer = lists.describers.exact(rest).map(|d| d.0);
        let prep = lists.prep.exact(rest).map(|p| p.0);
        let verb = lists.verbs.exact(rest);
        let participle = t.text.ends_with("ed") || t.text.ends_with("en");
        if let Some(len) = food.or(describer) {
            n += len;
            // "fresh salsa", "cranberry sauce": a food of the list that is a dish, too.
            if food.is_some() && lists.dishes.folded(Tokens(tokens.row(n - 1, n))).is_some() {
                end = Some(n);
            }
            continue;
        }
        if prep.is_some() || participle && verb.is_some() {
            if end.is_some() {
                break;
            }
            n += 1;
            continue;
        }
        let before_dish = lists.dishes.folded(rest.skip(1)).is_some()
            || rest.get(1).is_some_and(|t| t.joined) && lists.dishes.folded(rest.skip(2)).is_some();
        let closed = crate::letters::holds(&t.text, "'")
            || verb.is_some() && !before_dish
            || lists.tools.folded(rest).is_some_and(|(k, ())| lists.dishes.folded(rest.skip(k)).is_none())
            || lists.talk.exact(rest).is_some()
            || crate::grammar::amount::unit(rest).is_some()
                && !lists
                    .tools
                    .folded(rest)
                    .is_some_and(|(k, ())| k > 1 && lists.dishes.folded(rest.skip(k)).is_some())
            || crate::grammar::number::number(rest).is_ok();
        // "Sheet pan fajitas": the tool is part of the name.
        if let Some((k, ())) = lists
            .tools
            .folded(rest)
            .filter(|k| k.0 > 1 && end.is_none() && lists.dishes.folded(rest.skip(k.0)).is_some())
        {
            n += k;
            continue;
        }
        if closed || end.is_some() || t.text.len() < 3 && !t.joined || t.is_in("after a title") {
            break;
        }
        n += 1;
    }
    let end = end?;
    let mut words = crate::token::texts(tokens.row(from, end));
    while words.len() > 1 && lexicon().has("idle title", words[0]) {
        words.remove(0);
        from += 1;
    }
    // A run of five unknown words that ends in "bar" is a tale, not a title.
    (words.len() <= 6).then(|| (said(&words), from, end))
}

/// Whether the word before is a weak one.
pub(super) fn weak_at_end(tokens: &[Token], n: usize) -> bool {
    n > 0
        && (lexicon().has("weak title", &tokens.item(n - 1).fold)
            || tokens.item(n - 1).is("and")
            || lexicon().foods.folded(Tokens(tokens.row(n - 1, n))).is_some()
            || n > 1 && lexicon().has("weak title", &tokens.item(n - 2).fold))
}

/// Whether a dish word that is not weak stands within the next few words, with no closed word between but "and".
fn strong_ahead(i: Tokens<'_>) -> bool {
    for n in 1..5 {
        let rest = i.skip(n);
        if let Some((len, ())) = lexicon().dishes.folded(rest)
            && !rest.get(len - 1).is_some_and(|t| lexicon().has("weak title", &t.fold))
        {
            return true;
        }
        match rest.first() {
            Some(t) if t.kind == Kind::Word && !t.is_in("around a title") => {}
            _ => return false,
        }
    }
    false
}

/// The words up to the next stop, comma or joint, for a dish that was announced by number.
pub(super) fn free_title(tokens: &[Token], at: usize, to: usize) -> Option<(String, usize, usize)> {
    let mut from = at;
    while from < to && (tokens.item(from).kind != Kind::Word || tokens.item(from).is_in("before a title run")) {
        if tokens.item(from).ends() {
            return None;
        }
        from += 1;
    }
    let mut end = from;
    while end < to && end < from + 6 {
        let t = tokens.item(end);
        if t.is("and")
            && end > from
            && tokens.get(end + 1).is_some_and(|t| {
                t.kind == Kind::Word && lexicon().foods.folded(Tokens(std::slice::from_ref(t))).is_some()
            })
        {
            end += 1;
            continue;
        }
        if t.kind != Kind::Word || t.is_in("after a free title") {
            break;
        }
        end += 1;
    }
    if end == from {
        return None;
    }
    let mut words = crate::token::texts(tokens.row(from, end));
    words.retain(|w| !lexicon().has("idle title", w));
    (!words.is_empty() && !words.iter().all(|w| ["first", "second", "thing", "one", "next", "i", "you"].contains(w)))
        .then(|| (said(&words), from, end))
}

/// A run of one to four plain words that could name a dish, ended by a comma, a joint or a stop.
pub(super) fn name_run(tokens: &[Token], from: usize, to: usize) -> Option<(usize, usize)> {
    let lists = lexicon();
    let mut n = from;
    let (mut known, mut unknown) = (0, 0);
    while n < to && n < from + 5 {
        let rest = Tokens(tokens.row(n, to));
        let t = tokens.item(n);
        if t.kind != Kind::Word || lexicon().has("title end", &t.text) || crate::letters::holds(&t.text, "'") {
            break;
        }
        let food = lists.foods.folded(rest).map(|f| f.0).or_else(|| lists.dishes.folded(rest).map(|d| d.0));
        if let Some(len) = food {
            n += len;
            known += 1;
            continue;
        }
        // "cheesecake cups", "caramel squares": a measure that ends a name counts pieces.
        if n > from
            && crate::grammar::amount::unit(rest).is_some()
            && t.text.ends_with('s')
            && tokens.get(n + 1).is_none_or(|t| t.kind != Kind::Word || t.is_any("now first next"))
        {
            n += 1;
            break;
        }
        // "Rolls.", "trail mix", "sheet pan bake": a verb that nothing follows is the name of a thing.
        let closes =
            tokens.get(n + 1).is_none_or(|t| t.kind != Kind::Word || n + 1 >= to || lists.has("title end", &t.text));
        let thing = closes && (n > from || t.text.ends_with('s'));
        let verb = !thing
            && lists.verbs.exact(rest).is_some_and(|v| v.1.class != VerbClass::Everyday && !t.text.ends_with("ed"))
            || lists.talk.exact(rest).is_some()
            || lists.people.folded(rest).is_some();
        // "Then the squares.": a piece that is all of a name.
        let pieces = n == from
            && thing
            && n > 0
            && tokens.item(n - 1).is_any("the my")
            && crate::grammar::amount::unit(rest)
                .is_some_and(|u| u.1.dimension() == crate::measure::Dimension::Piece && !u.1.is_container());
        if verb
            || crate::grammar::amount::unit(rest).is_some() && !pieces
            || crate::grammar::number::number(rest).is_ok() && !t.text.ends_with("ens")
            || lists.tools.folded(rest).is_some() && tokens.get(n + 1).is_none_or(|t| t.kind != Kind::Word)
        {
            break;
        }
        unknown +=
            usize::from(lists.describers.exact(rest).is_none() && lists.prep.exact(rest).is_none() && !t.is("thing"));
        n += 1;
    }
    if known == 0 && unknown > 1 {
        return None;
    }
    let ended = tokens.get(n).is_none_or(|t| {
        t.kind != Kind::Word
            || n >= to
            || lists.has("title end", &t.text)
            || crate::grammar::number::number(Tokens(tokens.row(n, to))).is_ok()
            || t.is_any("today but now next he she thing")
    });
    (n > from && ended).then_some((from, n))
}

/// Whether a title is only a food or a part of a dish: no dish opens with it unless it was announced.
pub(super) fn is_weak(title: &str) -> bool {
    let folded = crate::letters::join(&crate::token::keys(title), " ");
    let tokens = crate::token::words(title);
    let row = Tokens(&tokens);
    let lists = lexicon();
    let whole_food = lists.foods.folded(row).is_some_and(|f| f.0 == tokens.len());
    let last = Tokens(tokens.row(tokens.len().saturating_sub(1), tokens.len()));
    let weak_head =
        last.first().is_some_and(|t| lexicon().has("weak title", &t.fold)) || lists.components.folded(last).is_some();
    let plain = (0..tokens.len().saturating_sub(1)).all(|n| {
        let rest = row.skip(n);
        let cooked = lists.verbs.exact(rest).is_some_and(|v| v.1.class == VerbClass::Heat)
            || tokens.item(n).is_any("pickled stuffed mashed roasted candied");
        !cooked
            && (lists.describers.exact(rest).is_some()
                || tokens.item(n).is_any("and slowly your biggest inch")
                || tokens.item(n).text.ends_with("ly"))
    });
    let tool = lists.tools.folded(last).is_some() || lists.pans.folded(last).is_some();
    lexicon().has("weak title", &folded) || whole_food || weak_head && plain || tool && plain
}

/// The first title anywhere in the clause.
pub(super) fn anywhere(tokens: &[Token], at: usize, to: usize) -> Option<(String, usize, usize)> {
    (at..to).find_map(|n| {
        let prev = if n > at { tokens.get(n - 1) } else { None };
        let edge = prev.is_none_or(|p| p.kind != Kind::Word || p.is_in("before a near title"));
        edge.then(|| title_at(tokens, n, to)).flatten()
    })
}

/// A title within the first few words.
pub(super) fn title_near(tokens: &[Token], at: usize, to: usize, within: usize) -> Option<(String, usize, usize)> {
    (at..(at + within).min(to)).find_map(|n| {
        let prev = tokens.get(n.wrapping_sub(1));
        let edge = n == at || prev.is_some_and(|p| p.is_in("in a title"));
        edge.then(|| title_at(tokens, n, to)).flatten()
    })
}
