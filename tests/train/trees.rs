//! Small trees that are fitted one after another, each to what those before it still miss.
//!
//! Gradient boosting with the logistic loss: J. H. Friedman, "Greedy function approximation: a gradient boosting machine",
//! Annals of Statistics 29 (2001), with the second-order leaves of Chen and Guestrin, KDD 2016. Everything is summed in the
//! order of the rows, so the same drafts give the same trees.

use super::Draws;

/// Rows of trees with other draws err apart; what they say is averaged.
pub const DRAWS: u64 = 5;
/// How many trees.
const TREES: usize = 250;
/// How much of its answer each tree gives.
const RATE: f64 = 0.06;
/// How many leaves a tree has at most.
const LEAVES: usize = 8;
/// How many rows a leaf has at least.
const ROWS: usize = 25;
/// What pulls a leaf towards zero.
const PULL: f64 = 1.0;
/// A question may be of so many tenths of the facts, drawn anew for each: trees that differ err less together.
const DRAWN: u64 = 3;
/// A question is asked at one of so many places of a fact.
const PLACES: usize = 64;
/// The leaves are written as whole numbers of this fraction.
const SCALE: f64 = 256.0;

/// A row: its facts, the answer, and how much it counts.
pub struct Row {
    pub facts: Vec<i32>,
    pub yes: bool,
    pub counts: f64,
}

enum Node {
    Ask { fact: usize, top: i32, below: Box<Node>, above: Box<Node> },
    Leaf(f64),
}

impl Node {
    fn of(&self, facts: &[i32]) -> f64 {
        match self {
            Node::Leaf(value) => *value,
            Node::Ask { fact, top, below, above } => if facts[*fact] <= *top { below } else { above }.of(facts),
        }
    }

    fn write(&self, out: &mut Vec<String>) {
        match self {
            Node::Leaf(value) => out.push(format!("{}", whole(*value))),
            Node::Ask { fact, top, below, above } => {
                out.push(format!("{fact}:{top}"));
                below.write(out);
                above.write(out);
            }
        }
    }

    /// The tree with so many parts of its answers.
    fn part(self, parts: f64) -> Node {
        match self {
            Node::Leaf(value) => Node::Leaf(value / parts),
            Node::Ask { fact, top, below, above } => {
                Node::Ask { fact, top, below: Box::new(below.part(parts)), above: Box::new(above.part(parts)) }
            }
        }
    }

    /// The sum of its leaf as the program adds it.
    fn whole(&self, facts: &[i32]) -> i32 {
        whole(self.of(facts))
    }
}

fn whole(value: f64) -> i32 {
    (value * SCALE).round() as i32
}

/// The trees of a choice.
pub struct Trees {
    base: f64,
    trees: Vec<Node>,
}

impl Trees {
    /// The sum that the program reaches: above zero the answer is yes.
    pub fn sum(&self, facts: &[i32]) -> i32 {
        whole(self.base) + self.trees.iter().map(|t| t.whole(facts)).sum::<i32>()
    }

    /// A tree a line, as `src/reading/weights.rs` reads them; `lean` is added to the sum.
    pub fn text(&self, lean: i32) -> String {
        let mut out = format!("{}\n", whole(self.base) + lean);
        for tree in &self.trees {
            let mut words = Vec::new();
            tree.write(&mut words);
            out.push_str(&words.join(" "));
            out.push('\n');
        }
        out
    }
}

/// A leaf that may still be parted: its rows and the best question to part them by.
struct Open {
    rows: Vec<usize>,
    gain: f64,
    fact: usize,
    top: i32,
    path: Vec<bool>,
}

fn value(slope: f64, bend: f64) -> f64 {
    slope / (bend + PULL)
}

/// The places at which a fact may be parted: between the values it takes, evenly over the rows.
fn places(rows: &[&Row], fact: usize) -> Vec<i32> {
    let mut all: Vec<i32> = rows.iter().map(|r| r.facts[fact]).collect();
    all.sort_unstable();
    let last = all[all.len() - 1];
    let mut out: Vec<i32> = (1..PLACES).map(|k| all[k * all.len() / PLACES]).filter(|v| *v < last).collect();
    // What few rows have counts as well: each value of a fact with few values.
    all.dedup();
    if all.len() <= PLACES {
        out = all[..all.len() - 1].to_vec();
    }
    out.dedup();
    out
}

fn best(
    rows: Vec<usize>,
    tops: &[Vec<i32>],
    bins: &[Vec<u8>],
    slopes: &[(f64, f64)],
    path: Vec<bool>,
    draws: &mut Draws,
    rising: &[usize],
) -> Open {
    let whole = rows.iter().fold((0.0, 0.0), |s, r| (s.0 + slopes[*r].0, s.1 + slopes[*r].1));
    let worth = |s: f64, b: f64| s * s / (b + PULL);
    let mut out = Open { rows: Vec::new(), gain: 0.0, fact: 0, top: 0, path };
    if rows.len() >= 2 * ROWS {
        for (fact, tops) in tops.iter().enumerate() {
            if draws.next() % 10 >= DRAWN {
                continue;
            }
            let mut held = vec![(0.0, 0.0, 0usize); tops.len() + 1];
            for r in &rows {
                let bin = &mut held[usize::from(bins[fact][*r])];
                *bin = (bin.0 + slopes[*r].0, bin.1 + slopes[*r].1, bin.2 + 1);
            }
            let (mut s, mut b, mut n) = (0.0, 0.0, 0);
            for (bin, top) in held.iter().zip(tops) {
                (s, b, n) = (s + bin.0, b + bin.1, n + bin.2);
                if n < ROWS || rows.len() - n < ROWS {
                    continue;
                }
                let gain = worth(s, b) + worth(whole.0 - s, whole.1 - b) - worth(whole.0, whole.1);
                let falls = rising.contains(&fact) && value(s, b) > value(whole.0 - s, whole.1 - b);
                if gain > out.gain + 1e-9 && !falls {
                    (out.gain, out.fact, out.top) = (gain, fact, *top);
                }
            }
        }
    }
    out.rows = rows;
    out
}

fn tree(
    rows: &[&Row],
    tops: &[Vec<i32>],
    bins: &[Vec<u8>],
    slopes: &[(f64, f64)],
    draws: &mut Draws,
    rising: &[usize],
) -> Node {
    let mut open = vec![best((0..rows.len()).collect(), tops, bins, slopes, Vec::new(), draws, rising)];
    let mut asked: Vec<(Vec<bool>, usize, i32)> = Vec::new();
    while open.len() < LEAVES {
        let Some(at) = (0..open.len()).max_by(|a, b| open[*a].gain.total_cmp(&open[*b].gain)) else { break };
        if open[at].gain <= 0.0 {
            break;
        }
        let leaf = open.swap_remove(at);
        let (below, above): (Vec<usize>, Vec<usize>) =
            leaf.rows.iter().partition(|r| rows[**r].facts[leaf.fact] <= leaf.top);
        asked.push((leaf.path.clone(), leaf.fact, leaf.top));
        for (side, part) in [(false, below), (true, above)] {
            let path = leaf.path.iter().copied().chain([side]).collect();
            open.push(best(part, tops, bins, slopes, path, draws, rising));
        }
    }
    grow(&[], &asked, &open, slopes)
}

fn grow(path: &[bool], asked: &[(Vec<bool>, usize, i32)], leaves: &[Open], slopes: &[(f64, f64)]) -> Node {
    if let Some((_, fact, top)) = asked.iter().find(|a| a.0 == path) {
        let side = |side: bool| {
            let path: Vec<bool> = path.iter().copied().chain([side]).collect();
            Box::new(grow(&path, asked, leaves, slopes))
        };
        return Node::Ask { fact: *fact, top: *top, below: side(false), above: side(true) };
    }
    let rows = leaves.iter().find(|l| l.path == path).map_or(&[][..], |l| &l.rows);
    let (s, b) = rows.iter().fold((0.0, 0.0), |s, r| (s.0 + slopes[*r].0, s.1 + slopes[*r].1));
    Node::Leaf(RATE * value(s, b))
}

/// Fits trees to the rows, so many rounds with other draws; the facts that are `rising` speak for a yes, the more the higher.
pub fn fit(rows: &[&Row], rising: &[usize], rounds: u64) -> Trees {
    let facts = rows.first().map_or(0, |r| r.facts.len());
    let tops: Vec<Vec<i32>> = (0..facts).map(|f| places(rows, f)).collect();
    let bins: Vec<Vec<u8>> = (0..facts)
        .map(|f| {
            let bin = |v: i32| tops[f].partition_point(|t| *t < v);
            rows.iter().map(|r| u8::try_from(bin(r.facts[f])).expect("few places")).collect()
        })
        .collect();
    let counts: f64 = rows.iter().map(|r| r.counts).sum();
    let share = rows.iter().filter(|r| r.yes).map(|r| r.counts).sum::<f64>() / counts;
    let base = (share / (1.0 - share)).ln();
    let mut trees = Vec::new();
    for (mut sums, mut draws) in (1..=rounds).map(|d| (vec![base; rows.len()], Draws(d))) {
        for _ in 0..TREES {
            let slopes: Vec<(f64, f64)> = rows
                .iter()
                .zip(&sums)
                .map(|(r, s)| {
                    let p = 1.0 / (1.0 + (-s).exp());
                    (r.counts * (f64::from(r.yes) - p), r.counts * p * (1.0 - p))
                })
                .collect();
            let tree = tree(rows, &tops, &bins, &slopes, &mut draws, rising);
            for (s, r) in sums.iter_mut().zip(rows) {
                *s += tree.of(&r.facts);
            }
            trees.push(tree.part(rounds as f64));
        }
    }
    Trees { base, trees }
}
