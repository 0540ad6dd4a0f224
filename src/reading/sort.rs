//! Each clause gets one main use, with the reason: action, ingredient talk, remark, correction, opening, closing, chatter.

use super::clause::{Lead, Piece, core, later_verb, order};
use super::scan::{Found, Item};
use crate::item::Items;
use crate::lexicon::Sets;
use crate::lexicon::{Verb, VerbClass, lexicon};
use crate::measure::{Ratio, Unit};
use crate::recipe::Use;
use crate::token::{Kind, Token, Tokens};

/// Everything the passes need to know of one clause.
#[derive(Clone, Debug)]
pub struct Sorted {
    /// Its tokens.
    pub piece: Piece,
    /// Its findings: a range of the draft's findings.
    pub found: (usize, usize),
    /// Where it begins once openers and leads are left out.
    pub core: usize,
    /// What led to the core.
    pub lead: Lead,
    /// The verb at the core, if one stands there: its tokens and the verb.
    pub verb: Option<(usize, Verb)>,
    /// The main use.
    pub main: Use,
    /// Why.
    pub why: &'static str,
    /// Cues of the talk that stand in it.
    pub cues: Cues,
}

/// What cues a clause holds.
#[derive(Clone, Copy, Debug, Default)]
#[allow(missing_docs)] // Each is a use of the list of talk.
pub struct Cues {
    pub chatter: bool,
    pub called: bool,
    pub swap: bool,
    pub optional: bool,
    pub taste: bool,
    pub keep: bool,
    pub ahead: bool,
    pub correct: bool,
    pub unsure: bool,
    pub mind: bool,
    pub batch: bool,
    pub recap: bool,
    /// A time that is said here is the sum of all.
    pub whole_time: bool,
    pub story: bool,
}

/// The cues anywhere in the tokens.
pub fn cues(tokens: &[Token], from: usize, to: usize) -> Cues {
    let mut c = Cues::default();
    let mut at = from;
    while at < to {
        match lexicon().talk.exact(Tokens(tokens.row(at, to))) {
            Some((n, cue)) => {
                match cue.0 {
                    "chatter" => c.chatter |= !coin(Tokens(tokens.row(from, at)), tokens.item(at)),
                    "called" => c.called = true,
                    "swap" => c.swap = true,
                    "optional" => c.optional = true,
                    "taste" => c.taste = true,
                    "keep" => c.keep = true,
                    "ahead" => c.ahead = true,
                    "correct" => c.correct = true,
                    "unsure" => c.unsure = true,
                    "mind" => c.mind = true,
                    "batch" => c.batch = true,
                    "recap" => c.recap = true,
                    "total" => c.whole_time = true,
                    _ => {}
                }
                // Openers and leads are short and may hide a longer cue that begins within them.
                at += if matches!(cue.0, "opener" | "lead") { 1 } else { n };
            }
            None => at += 1,
        }
    }
    c.story = story(tokens, from, to);
    c
}

/// "Sliced as thick as a half dollar", "patties the size of a silver dollar": a size, no price.
fn coin(before: Tokens<'_>, word: &Token) -> bool {
    let near = before.skip(before.len().saturating_sub(4));
    let piece = |k: usize| near.nth_any(k, "as of like") && near.skip(k + 1).at_any("a an");
    word.is_any("dollar dollars") && ((0..near.len()).any(piece) || near.0.last().is_some_and(|t| t.is("silver")))
}

/// Whether someone other than the cook is the subject, or years and money are counted.
fn story(tokens: &[Token], from: usize, to: usize) -> bool {
    let row = Tokens(tokens.row(from, to));
    for n in 0..row.len() {
        let rest = row.skip(n);
        let Some(t) = rest.first() else { break };
        if let Kind::Number(v) = t.kind {
            let year = v.is_whole()
                && (Ratio::whole(1900)..=Ratio::whole(2035)).contains(&v)
                && t.span.end - t.span.start == 4;
            let unit = row.nth_any(n + 1, "grams g ml mils mil gram");
            if year && !unit {
                return true;
            }
        }
        // "Nineteen ninety four".
        if t.is_any("nineteen eighteen") && rest.get(1).is_some_and(|t| t.is_in("tens")) {
            return true;
        }
        if t.is_any("$ £ €")
            || t.is_any("cents cent dollars dollar bucks quid pence")
                && n > 0
                && !coin(Tokens(tokens.row(from, from + n)), t)
        {
            return true;
        }
    }
    // "She puts a teaspoon of spice in hers", "last time I put a cup of sugar".
    let does = |t: &Token| t.is_any("put puts use uses used did do does made make makes had");
    let theirs = row.0.windows(2).any(|w| w[0].is_any("in does did for") && w[1].is_any("hers his theirs"));
    let then = (0..row.len()).any(|n| {
        row.get(n).is_some_and(|t| t.is("last"))
            && row.get(n + 1).is_some_and(|t| t.is_in("time gone by"))
            && !row.has_any("now today same")
    });
    if (theirs || then) && row.0.iter().any(does) {
        return true;
    }
    // The subject: possessive or article, up to two words, someone; before the first verb.
    let (at, lead) = core(tokens, from, to);
    if lead == Lead::Doing {
        return false;
    }
    let mut i = Tokens(tokens.row(at, to));
    if i.is_in("joins a story") {
        i = i.skip(1);
    }
    // "And he goes in the big pot with three quarts of water": the bird.
    if i.at_any("he she") && i.nth_any(1, "goes go") && i.get(2).is_some_and(|t| t.is_in("put where")) {
        return false;
    }
    if i.at_any("he she he's she's he'd she'd he'll she'll") {
        return true;
    }
    someone(i)
}

/// Whether the subject that stands here is someone other than the cook: "my mom uses", "Aunt Vergie put".
pub fn someone(i: Tokens<'_>) -> bool {
    let lists = lexicon();
    let owned = i.is_in("owned by");
    // "Jeanette puts a tablespoon of sugar in hers": a name of no list before a verb that is no order.
    if let Some(t) = i.first()
        && t.capital
        && t.kind == Kind::Word
        && lists.foods.folded(i).is_none()
        && lists.verbs.exact(i).is_none()
        && lists.dishes.folded(i).is_none()
        && lists.talk.exact(i).is_none()
        && lists.describers.exact(i).is_none()
        && lists.tools.folded(i).is_none()
        && lists.components.folded(i).is_none()
        && i.get(if i.get(1).is_some_and(|t| t.is("next")) && i.skip(2).at("door") { 3 } else { 1 })
            .is_some_and(|t| t.is_in("does of someone"))
        && crate::grammar::number::number(i).is_err()
        && !t.is_in("no one")
    {
        return true;
    }
    for n in 0..4 {
        let rest = i.skip(n);
        if let Some((len, ())) = lists.people.folded(rest) {
            // "for six people" counts; "people stop at pink" tells. A name may follow: "Aunt Vergie put".
            let len = len
                + usize::from(rest.get(len).is_some_and(|t| t.capital && lists.foods.folded(rest.skip(len)).is_none()));
            let verb = rest.get(len).is_some_and(|t| {
                t.kind == Kind::Word && (lists.verbs.exact(rest.skip(len)).is_some() || t.is_in("said of someone"))
            });
            // "Your sister Rula she does it in the oven."
            return verb || rest.skip(len + 1).at_any("she he");
        }
        match rest.first() {
            Some(t) if t.kind == Kind::Word && (n == 0 && owned || t.is_in("kin")) => {}
            _ => break,
        }
    }
    false
}

/// "The recipe everybody has says", "the old book's got", "the packet says": what is written somewhere. What a packet has is
/// its size, and "this recipe" is hers.
pub fn source_says(i: Tokens<'_>) -> bool {
    (0..i.len()).any(|n| {
        let Some(t) = i.get(n) else { return false };
        let source = t.text.strip_suffix("'s").unwrap_or(&t.text);
        let hers = n > 0 && i.nth_any(n - 1, "this my");
        // "The book's got one."
        if lexicon().has("book", source) && source.len() < t.text.len() && i.skip(n + 1).at("got") {
            return true;
        }
        let says = if lexicon().has("package", source) {
            "says said tells told calls"
        } else if lexicon().has("book", source) && !hers {
            "says said tells told calls called has had was it's wants wanted uses used"
        } else {
            return false;
        };
        i.skip(n + 1).0.iter().take(4).take_while(|t| t.is_spoken()).any(|t| t.is_any(says))
    })
}

/// The verb at the core of a clause, in any form.
pub fn core_verb(tokens: &[Token], at: usize, to: usize) -> Option<(usize, Verb)> {
    let whole = lexicon().verbs.exact(Tokens(tokens.row(at, to)));
    if whole.is_some_and(|v| v.1.class != VerbClass::Everyday) {
        return whole;
    }
    split_verb(tokens, at, to).or(whole)
}

/// "Punch the dough down", "break it up", "bring that to a boil": a verb whose second part stands after its object.
fn split_verb(tokens: &[Token], at: usize, to: usize) -> Option<(usize, Verb)> {
    let first = tokens.row(at, to).first().filter(|t| t.kind == Kind::Word)?;
    let object = tokens.row(at + 1, to).first()?;
    let pronoun = object.is_any("it them that this those these everything");
    if !pronoun && !object.is_any("the your my a this that those") {
        return None;
    }
    let most = if pronoun { 1 } else { 4 };
    for len in 1..=most {
        let rest = tokens.get(at + 1 + len..to)?;
        if !rest.first()?.is_in("second part") {
            continue;
        }
        let mut row = vec![first.clone()];
        row.extend(rest.iter().take(4).cloned());
        if let Some((n, v)) = lexicon().verbs.exact(Tokens(&row))
            && n > 1
            && v.class != VerbClass::Everyday
        {
            let base = v.base.split(' ').next().unwrap_or(v.base);
            return Some((1, Verb { base, class: v.class }));
        }
    }
    None
}

/// Sorts one clause.
pub fn sort(tokens: &[Token], piece: Piece, found: &[Found], range: (usize, usize)) -> Sorted {
    let (at, lead) = core(tokens, piece.from, piece.to);
    let mut cues = cues(tokens, piece.from, piece.to);
    let mine = found.row(range.0, range.1);
    cues.optional |= at_hand(tokens, at, piece.to, mine);
    // A food at the core is no verb: "salt and pepper to taste".
    let food_first = mine.iter().any(|f| matches!(f.item, Item::Food(_)) && f.from == at);
    let verb = core_verb(tokens, at, piece.to).filter(|_| !food_first);
    let foods = mine.iter().filter(|f| matches!(f.item, Item::Food(_))).count();
    let measured = mine.iter().filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some())).count();
    let last = mine.iter().rev().find(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some()));
    cues.called |= last.is_some_and(|f| source_says(Tokens(tokens.row(piece.from, f.from))));
    let timed = mine.iter().any(|f| matches!(f.item, Item::Time(_) | Item::Heat(_)));
    let yields = mine.iter().any(|f| matches!(f.item, Item::Yield(_)));
    let spoken = tokens.row(piece.from, piece.to).iter().filter(|t| t.is_spoken()).count();
    let rest = Tokens(tokens.row(at, piece.to));
    let kitchen = verb.is_some_and(|v| v.1.class != VerbClass::Everyday);
    let is_order = order(rest) && !food_first;
    let action = kitchen && (lead == Lead::Doing || is_order || !rest.is_empty() && form_of_doing(tokens, at, verb))
        || (lead == Lead::Doing || is_order)
            && verb.is_some_and(|v| lexicon().has("plain order", v.1.base.split(' ').next().unwrap_or("")))
            && (foods > 0 || timed || placed(rest))
        || is_order && shapes(rest)
        || needs_doing(rest)
        || passive_action(tokens, at, piece.to)
        || (lead == Lead::Doing || is_order || rest.at_any("take put turn get bring pull cut"))
            && rest.is_in("moves things")
            && rest.first_any(6, "out off up down in on back over aside away")
        || later_verb(tokens, at, piece.to)
            .is_some_and(|(_, v)| core_verb(tokens, v, piece.to).is_some_and(|v| v.1.class != VerbClass::Everyday));
    // "It's good for a week in there", "they'll last two days".
    let days = mine.iter().any(|f| matches!(&f.item, Item::Time(t) if t.high_seconds() >= Ratio::whole(86_400)));
    cues.keep |= days && !action && foods == 0 && tokens.row(piece.from, piece.to).iter().any(|t| t.is_in("keeping"));
    let (main, why) = if spoken == 0 {
        (Use::Chatter, "no words")
    } else if at >= piece.to {
        (Use::Chatter, "only openers")
    } else if cues.story && !cues.called {
        (Use::Chatter, "a story: someone else, a year or a price")
    } else if cues.chatter && measured == 0 && !(kitchen && timed)
        || rest.len() == 1 && rest.first().is_some_and(|t| lexicon().has("camera", &t.text))
    {
        // "Right, we're rolling" is of the camera, "we're rolling it out" of the dough.
        (Use::Chatter, "talk to the listener")
    } else if cues.called {
        (Use::Remark, "what the recipe called for")
    } else if yields
        && !(kitchen
            && action
            && verb.is_some_and(|v| {
                matches!(v.1.class, VerbClass::Cut | VerbClass::Move | VerbClass::Prep | VerbClass::Mix)
            }))
        && !(rest.at_any("make roll shape form") && rest.first_any(4, "balls patties rounds logs circles cakes"))
    {
        (Use::Closing, "how much it makes")
    } else if cues.batch && measured == 0 {
        (Use::Remark, "more or less than the recipe is made")
    } else if rest.at("if")
        && !cues.optional
        && (measured == 0 && (kitchen_after(rest) || foods > 0 || has_trouble(rest))
            || measured > 0 && other_case(rest))
    {
        (Use::Remark, "what to do if it happens")
    } else if cues.keep || cues.ahead && !(measured > 0 && kitchen && action) {
        // "You boil a kilo of potatoes the day before" is the first step.
        (Use::Remark, "keeping or making ahead")
    } else if timed && foods == 0 && slow(Tokens(tokens.row(piece.from, piece.to))) {
        (Use::Action, "a time or a heat")
    } else if lines_pan(tokens, at, piece.to).is_some() {
        (Use::Action, "where it goes")
    } else if cues.swap
        && !(measured > 0 && hers(tokens, piece))
        && !(measured > 0
            && tokens.row(piece.from, piece.to).windows(2).any(|w| w[0].is_any("will would") && w[1].is_any("do work")))
    {
        (Use::Remark, "what would do instead")
    } else if cues.optional && measured == 0 {
        (Use::Remark, "it can be left out")
    } else if cues.unsure && measured == 0 && foods == 0 && !kitchen {
        (Use::Remark, "she does not know the figure")
    } else if rest.at_any("don't never") || (rest.at("do") && rest.get(1).is_some_and(|t| t.is("not"))) {
        if kitchen_after(rest) || foods > 0 {
            (Use::Action, "what not to do")
        } else {
            (Use::Chatter, "no verb of the kitchen")
        }
    } else if action {
        (Use::Action, "a verb of the kitchen")
    } else if measured > 0 {
        (Use::Ingredient, "an amount of a food")
    } else if doneness(rest) {
        (Use::Action, "a sign of doneness")
    } else if timed && ((spoken <= 20 || placed(rest)) && lead == Lead::None || takes_time(rest, spoken)) {
        (Use::Action, "a time or a heat")
    } else if rest.at_any("if when once unless") && (kitchen_after(rest) || foods > 0) {
        (Use::Action, "a condition")
    } else if foods > 0 && (lead == Lead::Doing && has_verb(rest) || foods_lead(mine, rest, at) || food_talk(rest)) {
        (Use::Ingredient, "foods are named")
    } else if done_sign(rest) && spoken <= 14 && !has_was(rest) {
        (Use::Action, "a sign of doneness")
    } else if (placed(rest) && spoken <= 12 || rest.at_any("onto into") && spoken <= 7)
        && lead == Lead::None
        && !has_was(rest)
    {
        (Use::Action, "where it goes")
    } else {
        (Use::Chatter, "nothing of the kitchen in it")
    };
    Sorted { piece, found: range, core: at, lead, verb, main, why, cues }
}

/// "Eight to ten hours on low, or you can do five to six on high": a slow cooker's two settings are one order.
pub fn slow(i: Tokens<'_>) -> bool {
    i.0.windows(2).any(|w| w[0].is("on") && w[1].is("low")) && i.0.windows(2).any(|w| w[0].is("on") && w[1].is("high"))
}

/// "Muffin tin, paper liners", "foil in a 9 by 13": the pan and what lines it, where nothing else is said.
pub fn lines_pan(tokens: &[Token], from: usize, to: usize) -> Option<((usize, usize), (usize, usize))> {
    let lists = lexicon();
    let (mut pan, mut lining) = (None, None);
    let mut n = from;
    while n < to {
        let rest = Tokens(tokens.row(n, to));
        let run = rest.0.iter().take_while(|t| lists.has("lining", &t.text)).count();
        let vessel = lists.pans.folded(rest).map(|p| p.0).or_else(|| lists.tools.folded(rest).map(|p| p.0));
        let vessel = crate::grammar::pan::pan(rest).map_or(vessel, |(after, _)| Some(rest.len() - after.len()));
        match (run, vessel) {
            (1.., _) if lining.is_none() => {
                lining = Some((n, n + run));
                n += run;
            }
            (_, Some(len)) if pan.is_none() => {
                pan = Some((n, n + len));
                n += len;
            }
            _ if !tokens.item(n).is_spoken() || tokens.item(n).is_any("in on with a an the your my it of and then") => {
                n += 1
            }
            _ => return None,
        }
    }
    let (pan, lining) = (pan?, lining?);
    let real = Tokens(tokens.row(lining.0, lining.1)).has_any("foil parchment liners papers paper");
    real.then_some((pan, lining))
}

/// "Make eight balls", "make a swirl": what the hands form.
fn shapes(i: Tokens<'_>) -> bool {
    i.at_any("make form") && i.0.iter().take(6).any(|t| lexicon().has("shape", &t.text))
}

/// "They need to cool completely", "it has to rest": an order with a subject.
fn needs_doing(i: Tokens<'_>) -> bool {
    i.at_any("it they these those that this the everything")
        && !has_was(i)
        && (1..4).any(|k| {
            i.nth_any(k, "need needs has have wants want got")
                && i.get(k + 1).is_some_and(|t| t.is("to"))
                && lexicon().verbs.exact(i.skip(k + 2)).is_some_and(|v| v.1.class != VerbClass::Everyday)
        })
}

/// "This one bakes at 350 for 45 to 50 minutes", "they want about 25 minutes, until they're soft".
fn takes_time(i: Tokens<'_>, spoken: usize) -> bool {
    spoken <= 26
        && !has_was(i)
        && i.at_any("it they these those that this everything the")
        && (1..4).any(|k| {
            lexicon().verbs.exact(i.skip(k)).is_some_and(|v| matches!(v.1.class, VerbClass::Heat | VerbClass::Wait))
                || i.nth_any(k, "takes take want wants need needs gets")
        })
}

/// "If it gets too thick", "if they crack on you".
/// "If you have purslane put a handful", "if you find plums": an ingredient for those who have it.
fn at_hand(tokens: &[Token], at: usize, to: usize, mine: &[Found]) -> bool {
    let row = Tokens(tokens.row(at, to));
    let can = usize::from(row.nth_any(2, "can have've"));
    let has = row.at("if") && row.nth_any(1, "you you've") && row.nth_any(2 + can, "have find get got like want");
    let food = |f: &Found| {
        f.from <= at + can + 4 && matches!(&f.item, Item::Food(x) if x.food.is_some() && x.amount.is_none())
    };
    has && !has_trouble(row) && mine.iter().any(food) && mine.iter().any(|f| matches!(&f.item, Item::Loose(_)))
}

fn has_trouble(i: Tokens<'_>) -> bool {
    i.0.iter().take(10).any(|t| ["trouble", "other case"].iter().any(|s| lexicon().has(s, &t.text)))
}

/// "If it gets too stiff, a tablespoon of milk", "if you only have dried it's half a teaspoon": not what was made today.
fn other_case(i: Tokens<'_>) -> bool {
    let measure = (1..i.len()).find(|n| crate::grammar::amount::amount(i.skip(*n)).is_ok()).unwrap_or(i.len());
    has_trouble(Tokens(&i.0[..measure.min(10)]))
}

/// "Some people add a piece of cinnamon, that's up to you": what others put in is hers to leave out, where she says so.
fn offers(tokens: &[Token], c: &mut Sorted, free: bool, found: &[Found]) {
    let row = tokens.row(c.piece.from, c.piece.to);
    let measured = |f: &&Found| matches!(&f.item, Item::Food(x) if x.amount.is_some());
    let mine = found.row(c.found.0, c.found.1);
    // "Some people put chives through it, a tablespoon": the amount comes after its food.
    let one = match mine {
        [a, b] => {
            matches!((&a.item, &b.item), (Item::Food(x), Item::Loose(_)) if x.amount.is_none() && x.food.is_some())
        }
        _ => mine.iter().filter(measured).count() == 1,
    };
    if c.cues.story
        && !c.cues.called
        && (free || c.cues.optional)
        && one
        && row.iter().any(|t| t.is_any("put puts add adds throw throws putting adding adding do does like likes"))
        && !row.iter().any(|t| t.is_any("instead place replace used never hers his theirs"))
    {
        (c.cues.story, c.cues.optional) = (false, true);
        (c.main, c.why) = (Use::Ingredient, "others put it in, and she may");
    }
}

/// "But you could", "you may", "and you can": nothing else is said.
fn allows(tokens: &[Token], c: &Sorted) -> bool {
    let row = Tokens(tokens.row(c.piece.from, c.piece.to));
    let row = row.skip(usize::from(row.at_any("but and")));
    row.at("you")
        && row.nth_any(1, "could can may")
        && row.get(2).is_none_or(|t| !t.is_spoken() || t.is_any("do too as"))
}

/// Whether she tells of her own swap: "a cup of milk instead of cream"; no "you can use milk instead".
fn hers(tokens: &[Token], piece: Piece) -> bool {
    let row = tokens.row(piece.from, piece.to);
    row.windows(2).any(|w| w[0].is_any("instead place rather") && w[1].is_any("of than"))
        && !row.iter().any(|t| t.is_in("only offered"))
}

/// What a clause alone cannot tell: it goes on what the one before it began.
pub fn follow_on(tokens: &[Token], clauses: &mut [Sorted], found: &[Found]) {
    for n in 1..clauses.len() {
        let (before, rest) = clauses.split_at_mut(n);
        let (Some(before), Some((c, more))) = (before.last_mut(), rest.split_first_mut()) else { continue };
        // "I don't, but you could": what is hers to do may come after what she does not do herself.
        let refuses = c.found.0 == c.found.1
            && Tokens(tokens.row(c.piece.from, c.piece.to)).at_any("i")
            && Tokens(tokens.row(c.piece.from, c.piece.to)).has_any("don't do never");
        let later = more.first().filter(|_| refuses);
        let free = c.cues.optional || later.is_some_and(|d| d.cues.optional || allows(tokens, d));
        offers(tokens, before, free || allows(tokens, c), found);
        // "If Denny's cutting": someone by name, where no amount is said.
        let by_name = c.main == Use::Remark
            && tokens.row(c.piece.from + 1, c.piece.to).iter().any(|t| {
                t.capital
                    && t.text.ends_with("'s")
                    && t.text.len() > 4
                    && lexicon().foods.folded(Tokens(std::slice::from_ref(t))).is_none()
            });
        if by_name {
            c.main = Use::Chatter;
            c.why = "a story: someone else, a year or a price";
        }
        // "Some grate a clove of garlic in. I do", "she put in sugar. So I do it too."
        let said = Tokens(tokens.row(c.piece.from, c.piece.to));
        let said = said.skip(usize::from(said.at_any("so and well")));
        let too = said.len() <= 5 && said.at("i") && said.skip(1).at_any("do always");
        if before.cues.story && too {
            before.cues.story = false;
            before.main = Use::Ingredient;
            before.why = "an amount of a food";
        }
        // "If you like, one red chilli": what follows is meant, not what was said before.
        let row = Tokens(tokens.row(before.piece.from, before.piece.to));
        let joined = row.at_any("and or then");
        let row = row.skip(usize::from(joined));
        let only = lexicon().talk.exact(row).is_some_and(|m| m.1.0 == "optional" && m.0 + 1 >= row.len());
        if only && (joined || before.piece.opens) && row.at("if") && !c.piece.opens && c.found.1 > c.found.0 {
            (before.cues.optional, c.cues.optional) = (false, true);
        }
        if c.piece.opens || c.cues.story {
            continue;
        }
        let row = Tokens(tokens.row(c.piece.from, c.piece.to));
        // "If the top gets dark, lay some foil over it": what to do then is part of the remark.
        let measures = |c: &Sorted| {
            let foods = found.row(c.found.0, c.found.1).iter();
            foods.filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some())).count()
        };
        let supposes = before.why == "what to do if it happens" && measures(before) == 0;
        if supposes && c.main == Use::Action && !row.at_any("then and") && measures(c) <= 1 {
            c.main = Use::Remark;
            c.why = "what to do if it happens";
            continue;
        }
        // "I used to use the can, the little ten ounce can of tomatoes": what she once took, by another name.
        let once = tokens.row(before.piece.from, before.piece.to).windows(2).any(|w| w[0].is("used") && w[1].is("to"));
        if once
            && before.cues.called
            && before.main == Use::Remark
            && c.main == Use::Ingredient
            && row.at_any("the a an that those one two three")
        {
            c.main = Use::Remark;
            c.why = before.why;
            c.cues.called = true;
            continue;
        }
        // "My cousin made it for the Legion one year, twenty pounds of flour and three dozen eggs": no figure of the card.
        let many = found
            .row(c.found.0, c.found.1)
            .iter()
            .any(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.low() >= Ratio::whole(10))));
        let tale = tokens.row(before.piece.from, before.piece.to);
        let made = tale.iter().any(|t| t.is_any("made did cooked had brought makes does cooks"));
        let hers = tale.iter().any(|t| t.is_any("hers theirs"));
        if before.cues.story && made && (many || hers && measures(c) > 0) {
            c.cues.story = true;
            c.main = before.main;
            continue;
        }
        // "If you have no shallots, one onion", "if you've the plain kind, you'd put in a tablespoon of baking powder": what would
        // do then.
        let supposed = Tokens(tokens.row(before.core, before.piece.to)).at("if") && measures(before) == 0;
        let listed = row.0.iter().any(|t| t.is("and") || t.kind == Kind::Comma);
        let few = measures(c) == 1 || measures(c) == 2 && !listed;
        if supposed && (before.cues.swap && (few || row.at("it's")) || row.at("you'd")) && measures(c) > 0 {
            c.main = Use::Remark;
            c.why = "what would do instead";
            c.cues.swap = true;
            continue;
        }
        // "Put a splash of water if it sticks": the condition comes after what it calls for.
        // "A lemon on there, and dill, a handful, if it hasn't bolted" is no remedy.
        let foods = found.row(before.found.0, before.found.1).iter().filter_map(|f| match &f.item {
            Item::Food(x) => Some(x.amount.and_then(|a| a.amount.unit())),
            _ => None,
        });
        let alone = foods.clone().count() == 1;
        let splash = foods.flatten().any(|u| u.is_loose() && (alone || u != Unit::Handful));
        if c.why == "what to do if it happens" && before.main == Use::Action && splash {
            before.main = Use::Remark;
            before.why = "what to do if it happens";
            continue;
        }
        // "Frozen corn works too, just thaw it first": what is then done with it.
        let foods = found.row(c.found.0, c.found.1).iter().any(|f| matches!(&f.item, Item::Food(_)));
        if before.why == "what would do instead" && c.main == Use::Action && !foods && !row.at_any("then and so") {
            c.main = Use::Remark;
            c.why = "what would do instead";
            continue;
        }
        // "Keep the flame low, otherwise it burns": the reason belongs to the step.
        let turns = row.at_any("or otherwise because so else");
        let outcome = row.0.iter().take(6).any(|t| t.is_in("may happen"));
        let person = measures(c) > 0 || row.has_any("i i'm i'll my me we");
        // "Or it goes to paste" is no order for where it goes.
        let told = c.main == Use::Action
            && !(row.at_any("or otherwise else") && goes_at(tokens, c.core, c.piece.to).is_some());
        if turns && outcome && !person && before.main == Use::Action && !told && row.len() <= 14 {
            c.main = Use::Action;
            c.why = "what happens otherwise";
        }
    }
}

/// "added", "adding": a form of doing without its subject.
fn form_of_doing(tokens: &[Token], at: usize, verb: Option<(usize, Verb)>) -> bool {
    let Some((n, v)) = verb else { return false };
    let said = crate::token::said(tokens.row(at, at + n));
    let first = tokens.item(at).text.as_ref();
    said == v.base || first.ends_with("ing")
}

/// "that goes in the oven", "half of that gets stirred in", "the foil comes off", "everything goes in the bowl".
fn passive_action(tokens: &[Token], at: usize, to: usize) -> bool {
    goes_at(tokens, at, to).is_some()
}

/// Where "goes", "gets" or "comes" stands after its subject, within the first words of a clause.
pub fn goes_at(tokens: &[Token], at: usize, to: usize) -> Option<usize> {
    let limit = (at + 14).min(to);
    for n in at..limit {
        let t = tokens.item(n);
        if n > at && t.is_any("goes go gets get comes come went") {
            let before = tokens.item(n - 1);
            if before.is_any("to i you we 'll can don't doesn't")
                || Tokens(tokens.row(at, n)).has_any("let lets letting")
            {
                return None;
            }
            return Some(n);
        }
        // "The cheese that I kept back goes on first": a relative clause lies between.
        if n > at && t.is_any("i you we") && tokens.item(n - 1).is_any("that which") {
            continue;
        }
        if t.is_in("no object") {
            return None;
        }
        if matches!(t.kind, Kind::Pause) {
            return None;
        }
    }
    None
}

/// Whether a verb of the kitchen follows within the clause.
fn kitchen_after(i: Tokens<'_>) -> bool {
    (0..i.len()).any(|n| lexicon().verbs.exact(i.skip(n)).is_some_and(|v| v.1.class != VerbClass::Everyday))
}

fn has_verb(i: Tokens<'_>) -> bool {
    (0..i.len().min(4)).any(|n| lexicon().verbs.exact(i.skip(n)).is_some())
}

fn has_was(i: Tokens<'_>) -> bool {
    i.has_any("was were had would did said told")
}

/// "into the fridge", "lid on", "back in", "off the heat", "on the stove".
fn placed(i: Tokens<'_>) -> bool {
    const PLACES: &str = "place";
    i.0.iter().any(|t| t.is_in(PLACES))
}

/// "until it's golden", "you want it to look like gravel", "it should sizzle".
fn doneness(i: Tokens<'_>) -> bool {
    let first = i.first();
    let states = i.first_any(9, "should ought");
    let ready = i.first_any(6, "ready done");
    let want = i.at_any("you're looking") && i.0.iter().take(4).any(|t| t.is("looking"));
    let want_to = i.0.iter().take(3).any(|t| t.is("want")) && i.0.iter().any(|t| t.is("to"));
    first.is_some_and(|t| t.is_any("until till")) || states || ready && !has_was(i) || want || (want_to && !i.at("i"))
}

/// "It'll be puffed in the middle", "they're golden", "the edges look set": how it shows that it is done.
pub fn done_sign(i: Tokens<'_>) -> bool {
    let subject = if i.at_any("it'll they'll it's they're that'll") {
        1
    } else if i.at_any("it they") && i.get(1).is_some_and(|t| t.is_in("shows state")) {
        2
    } else if i.at_any("the your")
        && let Some(n) = (2..5).find(|n| i.get(*n).is_some_and(|t| t.is_in("shows it")))
    {
        n + 1
    } else {
        return false;
    };
    i.0.iter().skip(subject).take(6).any(|t| lexicon().has("done sign", &t.text))
}

/// A clause that begins with its food.
fn foods_lead(found: &[Found], i: Tokens<'_>, at: usize) -> bool {
    // "On the top, some paprika."
    let place = i.0.iter().take_while(|t| !t.is_spoken() || t.is_any("on over the that this it top for")).count();
    found.first().is_some_and(|f| matches!(f.item, Item::Food(_)) && f.from <= at + place.max(2))
}

/// "there's salt in it", "it's just flour and water", "with some parsley".
fn food_talk(i: Tokens<'_>) -> bool {
    // "Roux is equal parts oil and flour."
    let equal = i.0.windows(2).take(5).any(|w| w[0].is("equal") && w[1].is_any("parts amounts"));
    (i.at_any("there's and plus some also top just") || equal) && !has_was(i)
}
