//! Learns whether a dish begins between two measured foods.

use super::{Dish, FOLDS, Row, Signs, Taught, common, drafts, lean, pull, starts, whole, write};
use super::{openings, trees};
use plainspoon::reading::dish::evidence::View;
use plainspoon::reading::dish::turn::{FACTS, Gap, InHand, UNJUDGED};
use std::fs;
use std::path::PathBuf;

/// What is added to the sum: a dish too many takes foods from its neighbour and stands there as a card of its own.
const LEAN: i32 = -100;

/// Facts that speak for a yes, the more the higher: the sums of the learned weights.
const RISING: [usize; 5] = [0, 3, 4, 23, FACTS];

/// One gap of a draft.
struct Place {
    draft: usize,
    gap: Gap,
    /// The dishes that were opened before it.
    opened: Vec<(usize, String)>,
    /// The clause that opened the one in hand, and its name if it has one.
    since: usize,
    titles: Vec<String>,
    begins: bool,
    words: Row,
}

fn begins(d: &Dish) -> usize {
    d.opening.as_ref().map_or(d.start, |o| o.0)
}

/// The clause that opened the dish in hand, the names it goes by, and all that were opened so far.
type Hand = (usize, Vec<String>, Vec<(usize, String)>);

/// The gaps of a draft, each one in which a dish begins or not.
fn places(draft: usize, taught: &Taught, view: &View<'_>, dishes: &[Dish], signs: &mut Signs) -> Vec<Place> {
    let first = |d: &Dish| view.measuring.iter().copied().find(|m| *m >= d.gap.1);
    let all: Vec<Option<usize>> = dishes.iter().map(first).collect();
    // What the program has in hand there if it cut rightly so far: the names it goes by, which are not always the editor's.
    let mut hands: Vec<Option<Hand>> = vec![None; view.measuring.len()];
    plainspoon::reading::dish::cut(view, |gap, hand, opened| {
        let titles = hand.titles.iter().map(|t| t.to_string()).collect();
        hands[gap.index] = Some((hand.since, titles, opened.iter().map(|o| (o.0, o.1.to_string())).collect()));
        let dish = &dishes[all.iter().position(|m| *m == Some(gap.to))?];
        let within = |n: usize| n.clamp(gap.from, gap.to);
        Some(match &dish.opening {
            Some((n, name)) if within(*n) == *n => (*n, Some(name.clone())),
            _ => (within(dish.start), None),
        })
    });
    let mut out = Vec::new();
    for gap in (1..view.clauses.len()).filter_map(|n| view.gap(n)) {
        let mut opened: Vec<(usize, String)> =
            dishes.iter().map(|d| (begins(d), d.titles[0].clone())).filter(|d| d.0 < gap.from).collect();
        if opened.is_empty() {
            opened.push((view.first_measure, String::new()));
        }
        let mut words = Row { opens: false, signs: Vec::new(), place: String::new() };
        view.words(&gap, |sign, word| words.signs.push(signs.id(sign, word)));
        let here = all.contains(&Some(gap.to));
        let since = opened[opened.len() - 1].0;
        // What an editor calls it by any of its names is the dish in hand.
        let known = dishes.iter().find(|d| begins(d) == since);
        let titles = known.iter().flat_map(|d| d.titles.iter().cloned()).collect();
        let (since, titles, opened) = hands[gap.index].take().unwrap_or((since, titles, opened));
        words.opens = here;
        words.place = format!("{} before {}", taught.name, super::place(&taught.read, gap.to, ""));
        out.push(Place { draft, gap, opened, since, titles, begins: here, words });
    }
    out
}

/// Weights that were learned without some of the drafts.
struct Learned {
    bias: i32,
    weights: Vec<f64>,
}

impl Learned {
    fn of(rows: &[&Row], count: usize, task: &str) -> Learned {
        let (bias, weights) = super::learn(rows, count, pull(task));
        Learned { bias: whole(bias) + lean(task), weights }
    }

    fn weight(&self, signs: &Signs, sign: &str, answer: &str) -> i32 {
        signs.index.get(&(sign.to_string(), answer.to_string())).map_or(0, |id| whole(self.weights[*id]))
    }
}

/// Learns from the drafts of these folders; `trial` prints how well it does on drafts held out, and writes nothing.
pub fn learn(folders: &[PathBuf], trial: bool) {
    let all: Vec<Taught> = folders.iter().flat_map(|f| drafts(f)).map(|p| Taught::of(&p)).collect();
    let views: Vec<View<'_>> = all.iter().map(|t| View::new(&t.read.tokens, &t.read.clauses, &t.read.found)).collect();
    let dishes: Vec<Vec<Dish>> = all.iter().zip(&views).map(|(t, v)| t.dishes(v)).collect();
    let mut signs = [Signs::default(), Signs::default(), Signs::default()];
    let mut rows: [Vec<(usize, Vec<Row>)>; 3] = Default::default();
    let mut gaps: Vec<Place> = Vec::new();
    for (n, (taught, view)) in all.iter().zip(&views).enumerate() {
        rows[0].push((n, openings(&taught.read, view, &dishes[n], &taught.name, &mut signs[0])));
        rows[1].push((n, starts(&taught.read, view, &dishes[n], &taught.name, &mut signs[1])));
        let mut mine = places(n, taught, view, &dishes[n], &mut signs[2]);
        let words = mine.iter_mut().map(|p| std::mem::replace(&mut p.words, Row::empty()));
        rows[2].push((n, words.collect()));
        gaps.extend(mine);
    }
    let counts: Vec<usize> = signs.iter().map(|s| s.names.len()).collect();
    for (rows, count) in rows.iter_mut().zip(&counts) {
        common(rows, *count);
    }
    const TASKS: [&str; 3] = ["openings", "starts", "turns"];
    let without = |fold: Option<usize>, k: usize| {
        let rows: Vec<&Row> = rows[k].iter().filter(|r| Some(r.0 % FOLDS) != fold).flat_map(|r| &r.1).collect();
        Learned::of(&rows, counts[k], TASKS[k])
    };
    // What the first weights say of a draft has to be what they say of a draft they have not seen.
    let learned: Vec<[Learned; 3]> = std::thread::scope(|scope| {
        let without = &without;
        let folds: Vec<_> =
            (0..FOLDS).map(|fold| scope.spawn(move || [0, 1, 2].map(|k| without(Some(fold), k)))).collect();
        folds.into_iter().map(|f| f.join().expect("a fold")).collect()
    });
    let facts: Vec<trees::Row> = gaps
        .iter()
        .map(|p| {
            let view = &views[p.draft];
            let mine = &learned[p.draft % FOLDS];
            let opened: Vec<(usize, &str)> = p.opened.iter().map(|o| (o.0, o.1.as_str())).collect();
            let titles: Vec<&str> = p.titles.iter().map(String::as_str).collect();
            let since = p.since;
            let hand = InHand { since, titles: &titles };
            let sums = view.sums(
                &p.gap,
                hand,
                &|n, c| {
                    let mut sum = mine[0].bias;
                    view.signs(n, c, &opened, |s, a| sum += mine[0].weight(&signs[0], s, a));
                    sum
                },
                &|n| {
                    let mut sum = mine[1].bias;
                    view.start_signs(n, &opened, |s, a| sum += mine[1].weight(&signs[1], s, a));
                    sum
                },
                &|s, a| mine[2].weight(&signs[2], s, a),
            );
            let facts = view.facts(&p.gap, hand, &sums).to_vec();
            trees::Row { facts, yes: p.begins, counts: 1.0 }
        })
        .collect();
    let yes = facts.iter().filter(|r| r.yes).count();
    eprintln!("{} drafts, a dish begins in {yes} of {} gaps", all.len(), facts.len());
    let apart = |fold: Option<usize>| -> Vec<&trees::Row> {
        let kept = facts.iter().zip(&gaps).filter(|(_, p)| Some(p.draft % FOLDS) != fold);
        kept.map(|(r, _)| r).collect()
    };
    // The second round sees the sums of the first, each draft judged by trees that have not seen it.
    let mut sums: Vec<Vec<i32>> = views.iter().map(|v| vec![UNJUDGED; v.measuring.len()]).collect();
    let judged: Vec<trees::Trees> = std::thread::scope(|scope| {
        let apart = &apart;
        let folds: Vec<_> =
            (0..FOLDS).map(|fold| scope.spawn(move || trees::fit(&apart(Some(fold)), &RISING, trees::DRAWS))).collect();
        folds.into_iter().map(|f| f.join().expect("a fold")).collect()
    });
    for (row, p) in facts.iter().zip(&gaps) {
        sums[p.draft][p.gap.index] = judged[p.draft % FOLDS].sum(&row.facts) + LEAN;
    }
    let again: Vec<trees::Row> = facts
        .iter()
        .zip(&gaps)
        .map(|(row, p)| {
            let mut facts = row.facts.clone();
            facts.extend(views[p.draft].context(&p.gap, &sums[p.draft]));
            trees::Row { facts, yes: row.yes, counts: row.counts }
        })
        .collect();
    let again_apart = |fold: Option<usize>| -> Vec<&trees::Row> {
        let kept = again.iter().zip(&gaps).filter(|(_, p)| Some(p.draft % FOLDS) != fold);
        kept.map(|(r, _)| r).collect()
    };
    if trial {
        let mut tally = [0usize; 3];
        for fold in 0..FOLDS {
            let fitted = trees::fit(&again_apart(Some(fold)), &RISING, trees::DRAWS);
            for (row, p) in again.iter().zip(&gaps).filter(|(_, p)| p.draft % FOLDS == fold) {
                let sum = fitted.sum(&row.facts) + LEAN;
                tally[2] += usize::from(row.yes);
                let what = match (row.yes, sum > 0) {
                    (true, true) => {
                        tally[0] += 1;
                        continue;
                    }
                    (false, true) => {
                        tally[1] += 1;
                        "extra "
                    }
                    (true, false) => "missed",
                    _ => continue,
                };
                let said: Vec<String> =
                    (p.gap.from..=p.gap.to).map(|n| super::place(&all[p.draft].read, n, "")).collect();
                println!("{what} {sum:>5}  {}{}", all[p.draft].name, said.join(" |"));
            }
        }
        println!("held out: {} of {} found, {} extra", tally[0], tally[2], tally[1]);
        return;
    }
    let words = without(None, 2);
    write("turns", &signs[2], words.bias, &words.weights);
    let text = trees::fit(&apart(None), &RISING, trees::DRAWS).text(LEAN);
    let head =
        "# Trees of questions about a gap between two measured foods. Written by tests/train; do not edit by hand.\n";
    fs::write("src/lexicon/weights/trees.txt", format!("{head}{text}")).expect("the file of trees");
    let text = trees::fit(&again_apart(None), &RISING, trees::DRAWS).text(LEAN);
    fs::write("src/lexicon/weights/again.txt", format!("{head}{text}")).expect("the file of trees");
}
