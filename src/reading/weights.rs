//! Soft choices: signs, each with an answer that weighs a whole number; what they add up to decides.
//!
//! Where a dish begins, whether a food named in passing belongs on the list and what a dish is called are settled by no
//! single word. tests/train learns the weights from drafts that have an editor's cards; whole numbers give the same answer on
//! every machine. They stand with the word lists (`src/lexicon/weights`), since they are data as well. No figure of a card
//! ever comes from here.

use crate::lexicon::lists::list;
use std::sync::LazyLock;

/// The weights of one choice.
pub struct Weights {
    bias: i32,
    // Sorted by sign and answer.
    rows: Vec<(&'static str, &'static str, i32)>,
}

impl Weights {
    /// Reads lines "sign | answer | weight"; the sign "bias" counts always.
    pub fn parse(text: &'static str) -> Weights {
        let mut weights = Weights { bias: 0, rows: Vec::new() };
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            let mut parts = line.split('|').map(str::trim);
            if let (Some(sign), Some(answer), Some(Ok(weight))) =
                (parts.next(), parts.next(), parts.next().map(str::parse::<i32>))
            {
                if sign == "bias" {
                    weights.bias = weight;
                } else {
                    weights.rows.push((sign, answer, weight));
                }
            }
        }
        crate::order::sort(&mut weights.rows);
        weights
    }

    /// What the choice starts from.
    pub fn bias(&self) -> i32 {
        self.bias
    }

    /// The weight of an answer; 0 where none was learned.
    pub fn of(&self, sign: &str, answer: &str) -> i32 {
        self.rows.binary_search_by(|r| (r.0, r.1).cmp(&(sign, answer))).map_or(0, |at| self.rows[at].2)
    }
}

/// Trees of plain questions whose leaves add up: a choice that hangs on sums and counts together.
pub struct Trees {
    nodes: Vec<Node>,
    roots: Vec<usize>,
}

enum Node {
    /// Up to `top` the next node answers, above it the node at `above`.
    Ask {
        fact: usize,
        top: i32,
        above: usize,
    },
    Leaf(i32),
}

impl Trees {
    /// Reads a tree a line, each node before those below it: "3:12" asks whether fact 3 is at most 12, and is followed by
    /// what answers if it is and what answers if not; a bare number is a leaf.
    fn parse(text: &str) -> Trees {
        let mut trees = Trees { nodes: Vec::new(), roots: Vec::new() };
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            trees.roots.push(trees.nodes.len());
            trees.read(&mut line.split(' '));
        }
        trees
    }

    fn read(&mut self, words: &mut std::str::Split<'_, char>) {
        let Some(word) = words.next() else { return };
        match word.split_once(':') {
            Some((fact, top)) => {
                let at = self.nodes.len();
                let (fact, top) = (fact.parse().unwrap_or(0), top.parse().unwrap_or(0));
                self.nodes.push(Node::Ask { fact, top, above: 0 });
                self.read(words);
                let above = self.nodes.len();
                self.nodes[at] = Node::Ask { fact, top, above };
                self.read(words);
            }
            None => self.nodes.push(Node::Leaf(word.parse().unwrap_or(0))),
        }
    }

    /// The sum of the leaves that these facts lead to: above zero the answer is yes.
    pub fn sum(&self, facts: &[i32]) -> i32 {
        self.roots.iter().map(|root| self.leaf(*root, facts)).sum()
    }

    fn leaf(&self, mut at: usize, facts: &[i32]) -> i32 {
        loop {
            match self.nodes.get(at) {
                Some(Node::Ask { fact, top, above }) => {
                    at = if facts.get(*fact).is_none_or(|f| f <= top) { at + 1 } else { *above };
                }
                Some(Node::Leaf(value)) => return *value,
                None => return 0,
            }
        }
    }
}

/// Where a dish opens.
pub static OPENINGS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/openings.txt")));
/// Where a dish begins that nobody names.
pub static STARTS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/starts.txt")));
/// Whether a clause tells a cook anything.
pub static TELLING: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/telling.txt")));
/// Whether a food that was named without an amount belongs on the list.
pub static MENTIONS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/mentions.txt")));
/// Which name is the dish's title.
pub static TITLES: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/titles.txt")));
/// What the words between two measured foods say of a turn to another dish.
pub static TURNS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/turns.txt")));
/// Whether there is one.
pub static TREES: LazyLock<Trees> = LazyLock::new(|| Trees::parse(list("weights/trees.txt")));
/// Whether there is one, once the gaps round about have been judged.
pub static AGAIN: LazyLock<Trees> = LazyLock::new(|| Trees::parse(list("weights/again.txt")));
/// What the words round about a figure say of it.
pub static DOUBTS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/doubts.txt")));
/// Whether it is to be asked for.
pub static DOUBTED: LazyLock<Trees> = LazyLock::new(|| Trees::parse(list("weights/doubted.txt")));
/// What the words round about a line say of it as an ingredient.
pub static STRAYS: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/strays.txt")));
/// Whether it is none.
pub static ASTRAY: LazyLock<Trees> = LazyLock::new(|| Trees::parse(list("weights/astray.txt")));
/// What the words between two figures of a food say of them.
pub static TWICE: LazyLock<Weights> = LazyLock::new(|| Weights::parse(list("weights/twice.txt")));
/// Whether both go in.
pub static BOTH: LazyLock<Trees> = LazyLock::new(|| Trees::parse(list("weights/both.txt")));
