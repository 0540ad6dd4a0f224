//! Where one dish ends and the next begins, what each is called, and which part of it ("the topping") is being made.

use super::scan::{Found, Item};
use super::sort::Sorted;
use crate::draft::Span;
use crate::lexicon::{VerbClass, lexicon};
use crate::recipe::Use;
use crate::token::{Kind, Token, Tokens, fold};

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

/// A possible opening.
#[derive(Clone, Debug)]
struct Opening {
    title: String,
    span: Option<Span>,
    /// 1: only in passing; 2: named as what is being made; 3: announced as the next.
    strength: u8,
}

/// Words that make no title alone: they name a part or a kind of dish.
const WEAK: &[&str] = &[
    "side",
    "snack",
    "dessert",
    "treat",
    "drink",
    "breakfast",
    "sauce",
    "dressing",
    "frosting",
    "cream",
    "butter",
    "gravy",
    "syrup",
    "stock",
    "broth",
    "crumble",
    "custard",
    "green",
    "bean",
    "rice",
    "potato",
    "noodle",
    "chicken",
    "vegetable",
    "tea",
    "ham",
    "spread",
    "bake",
    "bowl",
    "bite",
    "roast",
    "fry",
    "slice",
    "bread",
    "biscuit",
    "cracker",
    "tortilla",
    "sausage",
    "steak",
    "curd",
    "mash",
    "wrap",
    "side",
    "milk",
    "pickle",
    "spaghetti",
    "penne",
    "pasta",
    "rigatoni",
    "couscou",
    "grit",
    "pretzel",
    "granola",
    "pesto",
    "salsa",
    "jam",
    "jelly",
    "chutney",
    "kimchi",
    "naan",
    "bun",
    "toast",
    "popcorn",
    "candy",
    "wing",
    "chop",
    "cutlet",
    "drumstick",
    "ice cream",
    "egg roll",
    "pie crust",
    "egg",
    "meringue",
    "vinaigrette",
    "guacamole",
    "marmalade",
    "roux",
    "oatmeal",
    "stuffing",
    "dumpling",
    "punch",
    "hummu",
    "crisp",
    "taco",
    "cooky",
    "bark",
    "crunch",
    "hash brown",
    "truffle",
    "caramel",
    "macaroni",
    "porridge",
    "mole",
    "fool",
    "injera",
    "collard green",
    "sauerkraut",
    "compote",
    "toffee",
    "praline",
    "gelato",
    "sorbet",
    "muesli",
    "tzatziki",
    "raita",
    "shortbread",
    "gingerbread",
    "pate",
    "brisket",
    "dal",
    "baguette",
];

/// Adjectives no title keeps.
const IDLE: &str = "easy simple favorite favourite famous old little nice good best regular basic new real big quick whole own same great classic usual other couple lovely delicious pretty actual so called few very really just some";

/// Splits the draft into dishes and parts.
pub fn plan(tokens: &[Token], clauses: &[Sorted], found: &[Found]) -> Plan {
    let mut plan = Plan::default();
    let (first, planned) = planned_dishes(tokens, clauses, found);
    let mut current: Option<usize> = None;
    let mut content: Vec<Content> = Vec::new();
    let mut group: Option<String> = None;
    let mut revisit: Option<usize> = None;
    let first_measure = clauses.iter().position(|c| measured(c, found) > 0 && !c.cues.story).unwrap_or(clauses.len());
    for (n, c) in clauses.iter().enumerate() {
        let mut opens = false;
        if c.piece.breaks {
            revisit = None;
        }
        let expect_title = n > 0 && announces_only(tokens, &clauses[n - 1]) && c.piece.opens;
        // A paragraph may begin with a word or two before the clause that names the dish.
        let breaks = c.piece.breaks
            || n > 0 && clauses[n - 1].piece.breaks && clauses[n - 1].piece.to - clauses[n - 1].piece.from <= 4;
        let mut opening = opening(tokens, c, n, &planned, expect_title, breaks);
        if c.cues.story && opening.as_ref().is_some_and(|o| o.strength < 3) {
            opening = None;
        }
        if let Some(o) = opening {
            let now = current.map(|k| (k, &plan.dishes[k], &content[k]));
            let is_planned = planned.iter().any(|p| same_dish(&p.0, &o.title));
            let seen = plan.dishes.iter().position(|d| same_dish(&d.title, &o.title));
            match now {
                None => {
                    if o.strength >= 2 || is_planned {
                        // The introduction names several; the first of them comes first.
                        let o = match best_planned(&first) {
                            Some((title, span)) if n < first_measure && o.strength < 3 => {
                                Opening { title: title.clone(), span: *span, strength: o.strength }
                            }
                            _ => o,
                        };
                        plan.dishes.push(Dish { title: o.title, span: o.span });
                        content.push(Content::default());
                        current = Some(plan.dishes.len() - 1);
                        (group, opens) = (None, true);
                    }
                }
                Some((k, dish, _)) if same_dish(&dish.title, &o.title) => {
                    // Said again, perhaps better: "slaw" and then "tri-color slaw". The first announcement wins unless it was bare.
                    let better = o.title.split(' ').count() > dish.title.split(' ').count()
                        && o.strength >= 2
                        && content[k].amounts == 0;
                    if better {
                        plan.dishes[k].title = o.title;
                        plan.dishes[k].span = o.span;
                    }
                    opens = o.strength >= 2;
                }
                Some((k, _, held)) => {
                    let full = held.amounts >= 2 || (held.amounts >= 1 && held.steps >= 3);
                    let closed = held.closed;
                    let enough = o.strength >= 3
                        || (o.strength == 2 && (is_planned || closed))
                        || (o.strength >= 1 && is_planned && (closed || c.piece.opens) && o.strength >= 1);
                    if let Some(back) = seen.filter(|s| *s != k) {
                        // Going back: "oh, the fudge. Don't double the fudge."
                        let returns = tokens[c.piece.from].is_any("oh back also ps")
                            || tokens[c.piece.from..c.piece.to].iter().take(4).any(|t| t.is_any("oh back forgot"));
                        if c.piece.opens && returns && content[back].amounts > 0 {
                            revisit = Some(back);
                        } else if content[back].amounts == 0 && enough && full {
                            current = Some(back);
                            (group, opens, revisit) = (None, true, None);
                        }
                    } else if full && enough {
                        plan.dishes.push(Dish { title: o.title, span: o.span });
                        content.push(Content::default());
                        current = Some(plan.dishes.len() - 1);
                        (group, opens, revisit) = (None, true, None);
                    } else if !full
                        && held.amounts == 0
                        && (o.strength >= 3
                            && !(n < first_measure && plan_holds(&planned, &plan.dishes[k].title) && !(c.piece.opens))
                            || plan.dishes[k].title.is_empty())
                    {
                        // Nothing has been made yet: the later name is the dish's own.
                        plan.dishes[k].title = o.title;
                        plan.dishes[k].span = o.span;
                        opens = true;
                    }
                }
            }
        }
        if current.is_none() && measured(c, found) > 0 && !c.cues.story && c.main != Use::Remark {
            let title = best_planned(&first).cloned();
            plan.dishes.push(Dish {
                title: title.as_ref().map(|t| t.0.clone()).unwrap_or_default(),
                span: title.and_then(|t| t.1),
            });
            content.push(Content::default());
            current = Some(plan.dishes.len() - 1);
        }
        if let Some(k) = current
            && revisit.is_none()
        {
            if let Some(part) = component(tokens, c, &plan.dishes[k].title) {
                group = part;
                opens = true;
            }
            content[k].amounts += measured(c, found);
            content[k].steps += usize::from(c.main == Use::Action);
            content[k].closed |=
                c.main == Use::Closing && content[k].amounts >= 2 || (c.cues.keep && content[k].amounts > 2);
        }
        plan.card.push(revisit.or(current));
        plan.group.push(if revisit.is_some() { None } else { group.clone() });
        plan.opens.push(opens);
    }
    plan.measured_from = (0..plan.dishes.len())
        .map(|k| {
            (0..clauses.len())
                .find(|n| plan.card[*n] == Some(k) && measured_strictly(&clauses[*n], found) > 0)
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
    plan
}

/// The first planned name that is surely a dish; else the first.
fn best_planned(planned: &[Named]) -> Option<&Named> {
    let dish = |title: &str| {
        let tokens: Vec<Token> = title
            .split(' ')
            .map(|w| Token {
                kind: Kind::Word,
                text: w.into(),
                fold: fold(w).into(),
                span: Span::default(),
                capital: false,
                joined: false,
            })
            .collect();
        (0..tokens.len())
            .any(|n| lexicon().dishes.folded(Tokens(&tokens[n..])).is_some_and(|d| n + d.0 == tokens.len()))
    };
    planned.iter().find(|p| dish(&p.0)).or(planned.first())
}

fn plan_holds(planned: &[Named], title: &str) -> bool {
    planned.iter().any(|p| same_dish(&p.0, title))
}

#[derive(Clone, Copy, Debug, Default)]
struct Content {
    amounts: usize,
    steps: usize,
    closed: bool,
}

fn measured(c: &Sorted, found: &[Found]) -> usize {
    found[c.found.0..c.found.1].iter().filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some())).count()
}

/// The dishes she says beforehand that she will make.
fn planned_dishes(tokens: &[Token], clauses: &[Sorted], found: &[Found]) -> (Vec<Named>, Vec<Named>) {
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
            let end = clauses[index..].iter().skip(1).find(|d| d.piece.opens).map_or(tokens.len(), |d| d.piece.from);
            let end = (c.piece.from..end).take_while(|n| !tokens[*n].ends()).count() + c.piece.from;
            for (name, span) in listed(tokens, c.piece.from, end) {
                if !out.iter().any(|o| same_dish(&o.0, &name)) {
                    out.push((name, span));
                }
            }
        }
        // "…, and then the green sauce", "and then if there's time I do the escarole".
        for n in c.piece.from..c.piece.to {
            if !tokens[n].is("then") || n > 0 && !tokens[n - 1].is_any("and") && tokens[n - 1].kind != Kind::Comma {
                continue;
            }
            let article = (n + 1..(n + 9).min(tokens.len()))
                .take_while(|k| tokens[*k].kind == Kind::Word)
                .find(|k| tokens[*k].is_any("the a some"));
            let at = article.map_or(n + 1, |k| k + 1);
            let at = if tokens.get(at).is_some_and(|t| t.is_any("pan pot batch plate"))
                && tokens.get(at + 1).is_some_and(|t| t.is("of"))
            {
                at + 2
            } else {
                at
            };
            if let Some((a, b)) = name_run(tokens, at, tokens.len().min(at + 6)) {
                let name: Vec<&str> = tokens[a..b].iter().map(|t| &*t.text).collect();
                let name = name.join(" ");
                let part = lexicon().components.folded(Tokens(&tokens[b - 1..b])).is_some() && b - a == 1;
                if !part && !out.iter().chain(&later).any(|o| same_dish(&o.0, &name)) {
                    later.push((name, Some(tokens[a].span.to(tokens[b - 1].span))));
                    // "it's the black beans in the pressure cooker, and then picadillo": what stood before "then" comes first.
                    if out.is_empty() {
                        let start = (0..n).rev().find(|k| tokens[*k].ends()).map_or(0, |k| k + 1);
                        let before = (start..n)
                            .filter(|k| tokens[*k].is_any("the a doing making it's my"))
                            .find_map(|k| name_run(tokens, k + 1, n));
                        if let Some((a, b)) = before {
                            let name: Vec<&str> = tokens[a..b].iter().map(|t| &*t.text).collect();
                            out.push((name.join(" "), Some(tokens[a].span.to(tokens[b - 1].span))));
                        }
                    }
                }
            }
        }
        let mut at = c.piece.from;
        while at < c.piece.to {
            let prev = tokens.get(at.wrapping_sub(1));
            let boundary = at == c.piece.from
                || prev.is_some_and(|p| {
                    p.kind != Kind::Word
                        || p.is_any("a an the my of is it's and for make making made doing do be then with some wanted your this that our her his their one so today fixing cooking baking that's frying now okay up um uh er called doing is")
                });
            if boundary && let Some((title, from, to)) = title_at(tokens, at, c.piece.to) {
                let weak = WEAK.contains(&fold(&title).as_str()) && !title.contains(' ');
                let part = lexicon().components.folded(Tokens(&tokens[to - 1..to])).is_some();
                // "the cake stall" is no cake.
                let owned = tokens.get(to).is_some_and(|t| {
                    t.kind == Kind::Word
                        && !t.is_any(CLOSED)
                        && lexicon().talk.exact(Tokens(&tokens[to..])).is_none()
                        && lexicon().verbs.exact(Tokens(&tokens[to..])).is_none()
                });
                let head_weak =
                    WEAK.contains(&&*tokens[to - 1].fold) && at == c.piece.from && !tokens[at].is_any("the my a");
                let generic =
                    to - from == 1 && tokens[at].is_any("a") && prev.is_some_and(|p| p.is_any("it's is that's"));
                let owned = owned || head_weak || generic;
                let told = prev.is_some_and(|p| p.is("the")) || tokens[at].is("the");
                let indefinite = tokens[at].is("a") && c.piece.from + 12 > at || prev.is_some_and(|p| p.is("then"));
                let telling = indefinite
                    || told && tokens[c.piece.from..at].iter().any(|t| t.is_any("tell make making doing do"));
                let weak = is_weak(&title) && !telling || weak && !telling;
                if !out.iter().any(|o| same_dish(&o.0, &title)) && !weak && !part && !owned {
                    out.push((title, Some(tokens[from].span.to(tokens[to - 1].span))));
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
    const CUES: &str = "making make do doing things it's there's for tell recipes brought dishes its wanted want have be is with of cooking me so today";
    let mut chains: Vec<Vec<(usize, usize)>> = Vec::new();
    let mut n = from;
    while n < to {
        let article = tokens[n].is_any("the my a some");
        let prev = if n > from { Some(&tokens[n - 1]) } else { None };
        let starts = prev.is_none_or(|p| p.kind == Kind::Comma || p.kind == Kind::Pause || p.is_any(CUES));
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
                && (tokens[k].kind == Kind::Comma
                    || tokens[k]
                        .is_any("and then there's you asked for he she i doing making it's also plus i'm wanted"))
            {
                joints += usize::from(tokens[k].kind == Kind::Comma || tokens[k].is("and"));
                k += 1;
            }
            let article = k < to && tokens[k].is_any("the my a some");
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
            let words: Vec<&str> = tokens[a..b].iter().map(|t| &*t.text).filter(|w| *w != "thing").collect();
            (words.join(" "), Some(tokens[a].span.to(tokens[b - 1].span)))
        })
        .filter(|n| !n.0.is_empty())
        .collect()
}

/// A run of one to four plain words that could name a dish, ended by a comma, a joint or a stop.
fn name_run(tokens: &[Token], from: usize, to: usize) -> Option<(usize, usize)> {
    let lists = lexicon();
    let mut n = from;
    let (mut known, mut unknown) = (0, 0);
    while n < to && n < from + 5 {
        let rest = Tokens(&tokens[n..to]);
        let t = &tokens[n];
        if t.kind != Kind::Word || t.is_any(CLOSED) || t.text.contains('\'') {
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
        let verb = lists.verbs.exact(rest).is_some_and(|v| v.1.class != VerbClass::Everyday && !t.text.ends_with("ed"))
            || lists.talk.exact(rest).is_some()
            || lists.people.folded(rest).is_some();
        if verb
            || crate::grammar::amount::unit(rest).is_some()
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
            || t.is_any(
                "my her if and for then with that first so are is you i all on today because but now next he she thing",
            )
    });
    (n > from && ended).then_some((from, n))
}

/// Words that end a name.
const CLOSED: &str = "for from that is are was i you we it to the on at but or if when not which they she he her his their because going there here what how who about than as by into over and with in of a an my your our this these those first second third next last now then so all both one ones other things thing's today way time day morning house church kitchen whole do be no old same people phone video book recipe recipes card party weather family table street school place week year years oven rest end top bottom half";

/// How many foods are measured or counted by a number of their own.
fn measured_well(c: &Sorted, found: &[Found]) -> usize {
    found[c.found.0..c.found.1].iter().filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit().is_some() || !a.article && x.food.is_some()))).count()
}

fn measured_strictly(c: &Sorted, found: &[Found]) -> usize {
    found[c.found.0..c.found.1]
        .iter()
        .filter(|f| matches!(&f.item, Item::Food(x) if x.amount.is_some_and(|a| a.amount.unit().is_some())))
        .count()
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
fn title_at(tokens: &[Token], at: usize, to: usize) -> Option<(String, usize, usize)> {
    let lists = lexicon();
    let mut from = at;
    while from < to
        && (tokens[from].is_any("a an the my our your some this that these those one soft her his their")
            || tokens[from].text.ends_with("'s") && tokens[from].capital)
    {
        from += 1;
    }
    let mut n = from;
    let mut end = None;
    let mut tail = 0;
    while n < to && n < from + 9 {
        let rest = Tokens(&tokens[n..to]);
        let Some(t) = rest.first() else { break };
        if let Some((len, ())) = lists.dishes.folded(rest) {
            // A form of a verb that happens to be a dish word ("fry the", "roast them") is none.
            if lists.verbs.exact(rest).is_some()
                && rest.get(len).is_some_and(|t| t.is_any("the it them those that a until in each every"))
            {
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
            if food.is_some() && lists.dishes.folded(Tokens(&tokens[n - 1..n])).is_some() {
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
        let closed = t.text.contains('\'')
            || verb.is_some() && !before_dish
            || lists.tools.folded(rest).is_some_and(|(k, ())| lists.dishes.folded(rest.skip(k)).is_none())
            || lists.talk.exact(rest).is_some()
            || crate::grammar::amount::unit(rest).is_some()
            || crate::grammar::number::number(rest).is_ok();
        if closed
            || end.is_some()
            || t.text.len() < 3 && !t.joined
            || t.is_any("for from that is are was i you we it to the on at but or if when not which they she he her his their because going there here what how who about than as by into over")
        {
            break;
        }
        n += 1;
    }
    let end = end?;
    let mut words: Vec<&str> = tokens[from..end].iter().map(|t| &*t.text).collect();
    while words.len() > 1 && crate::token::listed(IDLE, words[0]) {
        words.remove(0);
        from += 1;
    }
    // A run of five unknown words that ends in "bar" is a tale, not a title.
    (words.len() <= 6).then(|| (words.join(" "), from, end))
}

/// Whether the word before is a weak one.
fn weak_at_end(tokens: &[Token], n: usize) -> bool {
    n > 0
        && (WEAK.contains(&&*tokens[n - 1].fold)
            || tokens[n - 1].is("and")
            || lexicon().foods.folded(Tokens(&tokens[n - 1..n])).is_some()
            || n > 1 && WEAK.contains(&&*tokens[n - 2].fold))
}

/// Whether a dish word that is not weak stands within the next few words, with no closed word between but "and".
fn strong_ahead(i: Tokens<'_>) -> bool {
    for n in 1..5 {
        let rest = i.skip(n);
        if let Some((len, ())) = lexicon().dishes.folded(rest)
            && !rest.get(len - 1).is_some_and(|t| WEAK.contains(&&*t.fold))
        {
            return true;
        }
        match rest.first() {
            Some(t)
                if t.kind == Kind::Word
                    && !t.is_any("a the with in is are for that i you my it some to on of then") => {}
            _ => return false,
        }
    }
    false
}

/// The words up to the next stop, comma or joint, for a dish that was announced by number.
fn free_title(tokens: &[Token], at: usize, to: usize) -> Option<(String, usize, usize)> {
    let mut from = at;
    while from < to
        && (tokens[from].kind != Kind::Word
            || tokens[from].is_any("a an the my our is it's are we have i on to and of got for you i'm we're making this that's some be called going here i've doing make do another"))
    {
        if tokens[from].ends() {
            return None;
        }
        from += 1;
    }
    let mut end = from;
    while end < to && end < from + 6 {
        let t = &tokens[end];
        if t.is("and")
            && end > from
            && tokens.get(end + 1).is_some_and(|t| {
                t.kind == Kind::Word && lexicon().foods.folded(Tokens(std::slice::from_ref(t))).is_some()
            })
        {
            end += 1;
            continue;
        }
        if t.kind != Kind::Word
            || t.is_any("and which that with because so is are you i we it for but this in has have from needs only to if on then")
        {
            break;
        }
        end += 1;
    }
    if end == from {
        return None;
    }
    let words: Vec<&str> =
        tokens[from..end].iter().map(|t| &*t.text).filter(|w| !crate::token::listed(IDLE, w)).collect();
    (!words.is_empty() && !words.iter().all(|w| ["first", "second", "thing", "one", "next", "i", "you"].contains(w)))
        .then(|| (words.join(" "), from, end))
}

const ORDINALS: &[&str] =
    &["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "next", "last", "final", "other"];

/// The length of "the first one", "side dish number three", "next up", "number two": an announcement of a dish.
fn announcement(i: Tokens<'_>) -> Option<usize> {
    let mut n = 0;
    while i.get(n).is_some_and(|t| {
        t.kind == Kind::Comma
            || t.is_any("the my our so okay ok now and then all right alright for on to moving onto over well um")
    }) {
        n += 1;
    }
    let kinds = [
        "one",
        "thing",
        "dish",
        "recipe",
        "salad",
        "side",
        "snack",
        "dip",
        "dessert",
        "pasta",
        "soup",
        "casserole",
        "meal",
        "up",
        "item",
        "sauce",
        "cake",
        "drink",
        "card",
        "lunch",
        "video",
    ];
    if i.get(n).is_some_and(|t| t.is_any_of(ORDINALS)) {
        let mut k = n + 1;
        let mut named = false;
        while i.get(k).is_some_and(|t| t.is_any_of(&kinds)) {
            named = true;
            k += 1;
        }
        let verb = i.get(k).is_some_and(|t| t.is_any("is i'm we i we're i've it's that you are"));
        let comma = i.get(k).is_none_or(|t| t.kind != Kind::Word);
        if named
            && (verb || comma || i.get(n).is_some_and(|t| t.is("next")) && i.get(n + 1).is_some_and(|t| t.is("up")))
        {
            // "the last thing you do", "the next thing is the broth": a step, not a dish.
            let step = i.get(n + 1).is_some_and(|t| t.is("thing"))
                && (i.get(k).is_some_and(|t| t.is_any("you i that we i'm we're in"))
                    || i.get(n).is_some_and(|t| t.is("last")) && i.get(k).is_some_and(|t| t.is("is")));
            return (!step).then_some(k);
        }
        if i.get(n + 1).is_some_and(|t| t.is("is")) && !i.get(n).is_some_and(|t| t.is("other"))
            || i.get(n).is_some_and(|t| t.is("next"))
                && i.get(n + 1).is_some_and(|t| t.is_any("we i'm we're i"))
                && i.get(n + 2).is_some_and(|t| t.is_any("have making doing make am"))
        {
            // "the first is strawberry jam", "next we have a coleslaw": only with a dish's own name.
            let at = n + 2;
            let named = (at..(at + 4).min(i.len())).any(|k| title_at(i.0, k, i.len()).is_some_and(|t| !is_weak(&t.0)));
            return named.then_some(at);
        }
        return None;
    }
    // "snack number one", "side dish number three", "number two"
    let mut k = n;
    while i.get(k).is_some_and(|t| t.is_any_of(&kinds)) {
        k += 1;
    }
    if i.get(k).is_some_and(|t| t.is("number")) && crate::grammar::number::whole(i.skip(k + 1)).is_ok() {
        return Some(k + 2);
    }
    None
}

/// A sentence that only announces: "Number three." "Four!" "Okay, next one."
fn announces_only(tokens: &[Token], c: &Sorted) -> bool {
    let row = Tokens(&tokens[c.piece.from..c.piece.to]);
    let spoken: Vec<&Token> = row.0.iter().filter(|t| t.is_spoken()).collect();
    if spoken.len() == 1
        && c.piece.opens
        && tokens.get(c.piece.to).is_some_and(|t| t.kind == Kind::Stop && t.text.starts_with('!'))
    {
        return ["one", "two", "three", "four", "five", "six", "seven", "eight"].contains(&&*spoken[0].text);
    }
    announcement(row).is_some_and(|n| row.skip(n).0.iter().all(|t| !t.is_spoken()))
}

fn opening(
    tokens: &[Token],
    c: &Sorted,
    n: usize,
    planned: &[Named],
    expect_title: bool,
    breaks: bool,
) -> Option<Opening> {
    let (from, to) = (c.piece.from, c.piece.to);
    let found = |t: (String, usize, usize), strength| {
        Some(Opening { span: Some(tokens[t.1].span.to(tokens[t.2 - 1].span)), title: t.0, strength })
    };
    if expect_title {
        let named =
            title_at(tokens, c.core.min(to.saturating_sub(1)), to).or_else(|| free_title(tokens, c.piece.from, to));
        return named.and_then(|t| found(t, 3));
    }
    let row = Tokens(&tokens[from..to]);
    if let Some(len) = announcement(row) {
        let at = from + len;
        let kind = tokens[from..at]
            .iter()
            .rev()
            .find(|t| t.is_any("salad dip pasta soup casserole cake sauce drink"))
            .map(|t| t.text.to_string());
        let mut named = anywhere(tokens, at, to)
            .filter(|t| !is_weak(&t.0) || kind.is_none())
            .or_else(|| free_title(tokens, at, to));
        if let (Some(t), Some(kind)) = (&mut named, kind)
            && let Some(stem) = t.0.strip_suffix(" one")
        {
            t.0 = format!("{stem} {kind}");
        }
        return named.and_then(|t| found(t, 3));
    }
    // "Last thing is the cookie": with the name of a planned dish.
    if c.piece.opens
        && let Some(at) = (from..to.min(from + 6)).find(|n| {
            tokens[*n].is("thing") && tokens.get(n + 1).is_some_and(|t| t.is_any("is is it's") || t.kind == Kind::Comma)
        })
        && let Some((a, b)) =
            name_run(tokens, at + 2 + usize::from(tokens.get(at + 2).is_some_and(|t| t.is_any("the my a"))), to)
    {
        let text: Vec<&str> = tokens[a..b].iter().map(|t| &*t.text).collect();
        let text = text.join(" ");
        if let Some(topic) = planned.iter().find(|p| same_dish(&p.0, &text)) {
            return Some(Opening {
                title: topic.0.clone(),
                span: Some(tokens[a].span.to(tokens[b - 1].span)),
                strength: 3,
            });
        }
    }
    let weak = is_weak;
    let is_planned = |t: &str| planned.iter().any(|p| same_dish(&p.0, t));
    // "we're making X", "I'm doing X today", "this is my X", "it's the X"
    // "while the soup simmers I'm going to make the cornbread": what comes after the front counts.
    let fronted = super::clause::later_verb(tokens, c.core, to)
        .filter(|v| tokens[v.1].is_any("make making do doing fix fixing"))
        .map(|v| v.1);
    let from_core = fronted.unwrap_or(c.core);
    let core = Tokens(&tokens[from_core..to]);
    let makes = fronted.is_some()
        || core.at_any("making doing make fixing do cooking baking showing share sharing have got")
            && c.lead == super::clause::Lead::Doing;
    let is = [
        "this is",
        "it's",
        "these are",
        "today is",
        "it is",
        "today it's",
        "tonight is",
        "that's",
        "and it's",
        "here's",
        "this one's",
        "this one is",
        "today's",
    ]
    .iter()
    .find_map(|lead| {
        let words: Vec<&str> = lead.split(' ').collect();
        (0..core.len().min(14)).find_map(|at| {
            let edge = at == 0 || core.get(at - 1).is_some_and(|t| t.kind == Kind::Comma) && lead.starts_with("this");
            (edge && words.iter().enumerate().all(|(k, w)| core.get(at + k).is_some_and(|t| t.is(w))))
                .then_some(at + words.len())
        })
    });
    if (makes || is.is_some()) && !core.get(is.unwrap_or(1)).is_some_and(|t| t.is_any("for in on")) {
        let skip = is.unwrap_or(1);
        let at = from_core + skip;
        let have = core.at_any("have got");
        if let Some(t) = title_near(tokens, at, to, 4)
            && (!have || is_planned(&t.0) || t.0.contains(' ') && (n < 12 || breaks))
            && !(core.0.get(skip).is_some_and(|t| t.is("a")) && !t.0.contains(' ') && !is_planned(&t.0))
            && (!weak(&t.0)
                || is_planned(&t.0)
                || n < 14
                    && core.at_any("making make fixing cooking baking")
                    && tokens.get(t.2).is_none_or(|a| !a.is_spoken() || a.is_any("today tonight for and this"))
                || breaks
                    && t.0.contains(' ')
                    && (from..t.1).all(|k| crate::grammar::amount::unit(Tokens(&tokens[k..to])).is_none()))
        {
            let shown =
                core.0.iter().take(6).any(|t| t.is_any("this these today today's tonight")) && t.0.contains(' ');
            let strength =
                if core.at_any("doing making do make") || is_planned(&t.0) || shown || have && breaks { 2 } else { 1 };
            return found(t, strength);
        }
    }
    // "Now the slice", "then kelewele", "okay, bars.", "fudge I'll do first", "cranberry sauce next", "for the salsa".
    let mut at = from;
    let mut cue = false;
    while at < to {
        let t = &tokens[at];
        if t.kind == Kind::Comma {
            at += 1;
            continue;
        }
        if t.is_any("now then next last lastly finally till") {
            cue = true;
            at += 1;
        } else if t.is_any("okay ok so and right alright well oh all on to moving onto for the first over there's here also start with let's do you've got have make about") || lexicon().talk.exact(Tokens(&tokens[at..to])).is_some_and(|m| m.1.0 == "opener")
        {
            at += 1;
        } else {
            break;
        }
    }
    if at >= to {
        return None;
    }
    // "Beef first.", "The brisket. You want…", "Ginger crunch. Base.": a name that is all of its sentence.
    let called = tokens[from].is_any("ok okay now alright next") && from > 0;
    if (c.piece.opens || called)
        && let Some((a, b)) = name_run(tokens, at, to)
    {
        let after = tokens.get(b);
        let ends = after.is_none_or(Token::ends);
        let then = after.is_some_and(|t| t.is_any("first now next"));
        let comma = after.is_some_and(|t| t.kind == Kind::Comma);
        let text: Vec<&str> = tokens[a..b].iter().map(|t| &*t.text).collect();
        let text = text.join(" ");
        let topic = planned.iter().find(|p| same_dish(&p.0, &text)).or_else(|| {
            planned
                .iter()
                .find(|p| b - a == 1 && p.0.split(' ').next_back().is_some_and(|w| fold(w) == *tokens[b - 1].fold))
        });
        let part = lexicon().components.folded(Tokens(&tokens[b - 1..b])).is_some() && topic.is_none();
        let measured = crate::grammar::amount::amount(Tokens(&tokens[(b + 1).min(tokens.len())..])).is_ok()
            || crate::grammar::number::number(Tokens(&tokens[(b + 1).min(tokens.len())..]))
                .is_ok_and(|(rest, _)| !rest.is_empty());
        if let Some(topic) = topic
            && (ends || then || comma && !measured || c.piece.breaks || cue || called)
        {
            let longer = text.split(' ').count() > topic.0.split(' ').count() && same_dish(&topic.0, &text);
            let title = if longer { text } else { topic.0.clone() };
            return Some(Opening { title, span: Some(tokens[a].span.to(tokens[b - 1].span)), strength: 3 });
        }
        // "The salsa first", when something else is planned, is a part of it.
        if then && topic.is_none() && !planned.is_empty() && (a > 0 && tokens[a - 1].is("the")) {
            return None;
        }
        let food = lexicon().foods.folded(Tokens(&tokens[a..b])).is_some_and(|f| f.0 == b - a);
        let now = tokens[c.piece.from..at].iter().any(|t| t.is("now"));
        if !part
            && c.piece.opens
            && c.piece.breaks
            && (ends && !food || then || ends && food && !measured && (now || planned.len() < 2))
            && !lexicon().talk.exact(Tokens(&tokens[a..b])).is_some()
        {
            // Of a word of no list it takes a dish before it that is done.
            let known = lexicon().dishes.folded(Tokens(&tokens[b - 1..b])).is_some()
                || b - a > 1 && lexicon().dishes.folded(Tokens(&tokens[b - 2..b])).is_some();
            return Some(Opening {
                title: text,
                span: Some(tokens[a].span.to(tokens[b - 1].span)),
                strength: if known && (!food || now) || then { 3 } else { 2 },
            });
        }
    }
    // "Now do the onions": the last word of what was planned.
    let one = &tokens[at];
    if (cue || c.piece.breaks)
        && c.piece.opens
        && let Some((title, span)) =
            planned.iter().find(|p| p.0.split(' ').next_back().is_some_and(|w| fold(w) == *one.fold))
    {
        return Some(Opening { title: title.clone(), span: *span, strength: 3 });
    }
    let Some(t) = title_at(tokens, at, to) else {
        // A new paragraph that names a dish of several words: "and cranberries, you've got to have cranberry sauce".
        return if c.piece.breaks {
            anywhere(tokens, at, to)
                .filter(|t| {
                    t.0.contains(' ')
                        && (from..t.1).all(|k| crate::grammar::amount::unit(Tokens(&tokens[k..to])).is_none())
                })
                .and_then(|t| found(t, 2))
        } else {
            None
        };
    };
    let after = tokens.get(t.2);
    if after.is_some_and(|a| a.kind == Kind::Word)
        && lexicon().tools.folded(Tokens(&tokens[t.2..])).is_some()
        && lexicon().dishes.folded(Tokens(&tokens[t.2..])).is_none()
    {
        return None;
    }
    let ends = after.is_none_or(|a| a.ends());
    let comma = after.is_some_and(|a| matches!(a.kind, Kind::Comma | Kind::Pause));
    let next = after.is_some_and(|a| a.is_any("first next now last today"))
        || (after.is_some_and(|a| a.is("i'll")) && tokens.get(t.2 + 1).is_some_and(|a| a.is("do")))
        || (after.is_some_and(|a| a.is_any("goes is are"))
            && tokens.get(t.2 + 1).is_some_and(|a| a.is_any("first next last")));
    let named_twice = after
        .is_some_and(|a| a.is_any("and for which with that from when do is this this's these then so i'm it's you"));
    let alone = c.piece.breaks && (ends || next);
    let slight = weak(&t.0) && !is_planned(&t.0);
    let part = lexicon().components.folded(Tokens(&tokens[t.2 - 1..t.2])).is_some();
    let listed = t.0.split(' ').count() == 1
        && WEAK.contains(&fold(&t.0).as_str())
        && lexicon().foods.folded(Tokens(&tokens[t.1..t.2])).is_some();
    if slight && (part || listed && !next || !alone && !(next && c.piece.opens)) {
        return None;
    }
    if slight && !next {
        return found(t, 2);
    }
    let strength = if next && c.piece.opens {
        3
    } else if c.piece.opens && ends {
        if cue || is_planned(&t.0) || !weak(&t.0) { 3 } else { 2 }
    } else if c.piece.opens && (comma || cue && (named_twice || is_planned(&t.0))) {
        if is_planned(&t.0) || cue || c.piece.breaks { 3 } else { 2 }
    } else if c.piece.breaks && named_twice {
        3
    } else if c.piece.opens && (named_twice || is_planned(&t.0)) {
        2
    } else {
        1
    };
    // A verb right after the first word of an order ("bake the bread") is no opening.
    found(t, strength)
}

/// Whether a title is only a food or a part of a dish: no dish opens with it unless it was announced.
fn is_weak(title: &str) -> bool {
    let folded = title.split(' ').map(fold).collect::<Vec<_>>().join(" ");
    let tokens: Vec<Token> = title
        .split(' ')
        .map(|w| Token {
            kind: Kind::Word,
            text: w.into(),
            fold: fold(w).into(),
            span: Span::default(),
            capital: false,
            joined: false,
        })
        .collect();
    let row = Tokens(&tokens);
    let lists = lexicon();
    let whole_food = lists.foods.folded(row).is_some_and(|f| f.0 == tokens.len());
    let last = Tokens(&tokens[tokens.len().saturating_sub(1)..]);
    let weak_head = last.first().is_some_and(|t| WEAK.contains(&&*t.fold)) || lists.components.folded(last).is_some();
    let plain = (0..tokens.len().saturating_sub(1)).all(|n| {
        let rest = row.skip(n);
        let cooked = lists.verbs.exact(rest).is_some_and(|v| v.1.class == VerbClass::Heat)
            || tokens[n].is_any("pickled stuffed mashed roasted candied");
        !cooked
            && (lists.describers.exact(rest).is_some()
                || tokens[n].is_any("and slowly your biggest inch")
                || tokens[n].text.ends_with("ly"))
    });
    let tool = lists.tools.folded(last).is_some() || lists.pans.folded(last).is_some();
    WEAK.contains(&folded.as_str()) || whole_food || weak_head && plain || tool && plain
}

/// The first title anywhere in the clause.
fn anywhere(tokens: &[Token], at: usize, to: usize) -> Option<(String, usize, usize)> {
    (at..to).find_map(|n| {
        let prev = if n > at { tokens.get(n - 1) } else { None };
        let edge = prev.is_none_or(|p| {
            p.kind != Kind::Word
                || p.is_any("a an the my is with making doing have our of it's are some for this we do make up number i'm called")
        });
        edge.then(|| title_at(tokens, n, to)).flatten()
    })
}

/// A title within the first few words.
fn title_near(tokens: &[Token], at: usize, to: usize, within: usize) -> Option<(String, usize, usize)> {
    (at..(at + within).min(to)).find_map(|n| {
        let prev = tokens.get(n.wrapping_sub(1));
        let edge =
            n == at || prev.is_some_and(|p| p.is_any("a an the my of pot with our pan some for batch you today"));
        edge.then(|| title_at(tokens, n, to)).flatten()
    })
}

/// The part of the dish a clause turns to: `Some(None)` goes back to the main one.
fn component(tokens: &[Token], c: &Sorted, title: &str) -> Option<Option<String>> {
    let lists = lexicon();
    let (from, to) = (c.piece.from, c.piece.to);
    let mut at = from;
    let mut cue = false;
    let mut turned = false;
    while at < to {
        let t = &tokens[at];
        if matches!(t.kind, Kind::Comma | Kind::Pause) {
            at += 1;
        } else if t.is_any("for now next then meantime meanwhile make making do doing start starting second last mix with on to while is are it's bottom first") {
            cue |= !t.is_any("with on to is are");
            turned |= t.is_any("for now next do make making doing");
            at += 1;
        } else if t.is_any("the your my our a and so okay you i can i'm we're we you're going can that's by go ahead get all right alright well in oh wet layer this simple quick want gonna let's i'll we'll first start off started have got") {
            at += 1;
        } else {
            break;
        }
        if at > from + 9 {
            break;
        }
    }
    // A qualifier of one or two foods: "cream cheese frosting", "peanut dressing", "meat sauce", "tahini dressing".
    let start = at;
    for _ in 0..3 {
        let rest = Tokens(&tokens[at.min(to)..to]);
        if let Some((n, name)) = lists.components.folded(rest).map(|(n, c)| (n, c.0)) {
            let after = tokens.get(at + n);
            let own = title.split(' ').any(|w| name.split(' ').any(|p| fold(w) == fold(p)));
            // Followed by a stop, "is", an amount, "first" or "I": talk of making it. "Sprinkle the topping over" uses it.
            let ends = after.is_none_or(|a| {
                !a.is_spoken()
                    || a.is_any("is are it's i i'm you we which that first now so you're we're has takes in for goes and part layer i've on of melt mix whisk the this i'd while")
            }) || crate::grammar::amount::amount(Tokens(&tokens[(at + n).min(to)..to])).is_ok()
                || crate::grammar::food::food(Tokens(&tokens[(at + n).min(to)..to])).is_ok();
            let uses = after.is_some_and(|a| a.is_any("goes in on over and to")) && !turned;
            let opens = (c.piece.opens || cue) && ends && !uses && (turned || c.piece.opens);
            // "over the topping", "in the sauce" within a sentence only mention it.
            if opens {
                if own && title.split(' ').count() == 1 {
                    return Some(None);
                }
                let mut label: Vec<String> =
                    tokens[start..at].iter().filter(|t| t.kind == Kind::Word).map(|t| t.text.to_string()).collect();
                label.retain(|w| !w.is_empty());
                let label = if label.is_empty() || label.len() > 2 || name.split(' ').count() > 1 {
                    name.to_string()
                } else {
                    format!("{} {name}", label.join(" "))
                };
                return Some(Some(label));
            }
            return None;
        }
        if let Some((n, _)) = lists.foods.folded(rest) {
            at += n;
            continue;
        }
        if let Some((n, ())) = lists.describers.exact(rest) {
            at += n;
            continue;
        }
        break;
    }
    // "Icing's 200 grams of icing sugar": the part is the subject.
    if c.piece.opens
        && let Some(t) = tokens.get(start)
        && let Some(stem) = t.text.strip_suffix("'s")
    {
        let one = Token { text: stem.into(), fold: fold(stem).into(), ..t.clone() };
        if let Some((_, cue)) = lists.components.folded(Tokens(std::slice::from_ref(&one))) {
            return Some(Some(cue.0.to_string()));
        }
    }
    None
}
