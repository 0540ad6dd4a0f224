//! Foods by name: "cold unsalted butter" is a kind of butter, and butter is dairy.

use super::order::order;
use std::sync::LazyLock;

/// A food of the list, with its tags.
#[derive(Clone, Copy, Debug)]
pub struct Food {
    /// The name the list gives it.
    pub name: &'static str,
    tags: &'static str,
}

impl Food {
    /// Whether the list marks it so, or as one of several: "dairy", "meat poultry".
    pub fn is(&self, any: &str) -> bool {
        crate::lexicon::tagged(self.tags, any)
    }
}

// Invariant: sorted by folded spelling.
static FOODS: LazyLock<Vec<(String, Food)>> = LazyLock::new(|| {
    let mut all = Vec::new();
    for line in crate::lexicon::lists::list("foods.txt").lines().filter(|l| !l.starts_with('#')) {
        let Some((head, spellings)) = line.split_once('=') else { continue };
        let (name, tags) = head.split_once(';').unwrap_or((head, ""));
        let food = Food { name: name.trim(), tags };
        all.extend(spellings.split(',').map(|s| (fold(s), food)));
    }
    let order = order(all.len(), &mut |a: usize, b: usize| all[a].0 < all[b].0);
    order.into_iter().map(|i| (std::mem::take(&mut all[i].0), all[i].1)).collect()
});

/// The food a line names: its longest spelling within the name, and of two as long the later ("peanut butter cup").
pub fn find(name: &str) -> Option<Food> {
    let folded = fold(name);
    let words: Vec<&str> = folded.split(' ').collect();
    for length in (1..=words.len()).rev() {
        for start in (0..=words.len() - length).rev() {
            let phrase = crate::letters::join(&words[start..start + length], " ");
            if let Ok(at) = FOODS.binary_search_by(|f| f.0.as_str().cmp(&phrase)) {
                return Some(FOODS[at].1);
            }
        }
    }
    None
}

/// Whether a line's food has the tag.
pub fn is(name: &str, tag: &str) -> bool {
    find(name).is_some_and(|f| f.is(tag))
}

/// Lower case, hyphens as spaces, plurals as singulars: "Cherry-Tomatoes" is "cherry tomato". Applied to both sides of
/// a comparison, so that where it is wrong about English it is wrong alike.
pub fn fold(text: &str) -> String {
    let spaced = crate::letters::lower(text).replace(|c: char| !c.is_alphanumeric() && c != '\'', " ");
    crate::letters::join(&spaced.split_whitespace().map(singular).collect::<Vec<_>>(), " ")
}

/// Whether `phrase` stands in `text` as whole words; both folded.
pub fn holds(text: &str, phrase: &str) -> bool {
    !phrase.is_empty() && crate::letters::holds(&format!(" {text} "), &format!(" {phrase} "))
}

/// One word's singular by the regular rules of English, and the few irregular foods.
pub fn singular(word: &str) -> String {
    let irregular = [("leaves", "leaf"), ("loaves", "loaf"), ("halves", "half"), ("calves", "calf")];
    if let Some((_, one)) = irregular.iter().find(|(many, _)| *many == word) {
        return (*one).to_owned();
    }
    let cut = |n: usize, tail: &str| format!("{}{tail}", crate::letters::part(word, 0, word.len() - n));
    if word.len() < 4 || word.ends_with("ss") || word.ends_with("us") || word.ends_with("is") || !word.is_ascii() {
        word.to_owned()
    } else if word.ends_with("ies")
        && word.len() > 5
        && !["cookies", "brownies", "smoothies", "veggies"].contains(&word)
    {
        cut(3, "y")
    } else if ["oes", "ches", "shes", "xes", "sses"].iter().any(|e| word.ends_with(*e)) {
        cut(2, "")
    } else if word.ends_with('s') {
        cut(1, "")
    } else {
        word.to_owned()
    }
}

/// One word's plural by the same rules.
pub fn plural(word: &str) -> String {
    let irregular = [("leaf", "leaves"), ("loaf", "loaves"), ("half", "halves")];
    if let Some((_, many)) = irregular.iter().find(|(one, _)| *one == word) {
        return (*many).to_owned();
    }
    let before_y = word.chars().rev().nth(1).unwrap_or('a');
    if word.ends_with('y') && !matches!(before_y, 'a' | 'e' | 'i' | 'o' | 'u') {
        format!("{}ies", crate::letters::part(word, 0, word.len() - 1))
    } else if ["ch", "sh", "x", "ss"].iter().any(|e| word.ends_with(*e))
        || ["tomato", "potato", "mango"].contains(&word)
    {
        format!("{word}es")
    } else {
        format!("{word}s")
    }
}
