//! Capitals and small letters of the scripts that kitchen words are written in: Latin with its accents, Greek, Cyrillic.
//!
//! The library knows every script there is, by tables that would weigh as much as a chapter of the grammar.

/// The small letter of a capital, or the letter itself.
pub fn small(c: char) -> char {
    let shifted = |by: u32| char::from_u32(u32::from(c) + by).unwrap_or(c);
    match c {
        'A'..='Z' | 'À'..='Ö' | 'Ø'..='Þ' | 'Α'..='Ρ' | 'Σ'..='Ω' | 'А'..='Я' => shifted(32),
        'Ѐ'..='Џ' => shifted(80),
        'Ÿ' => 'ÿ',
        // Of two neighbours the capital comes first, on an even place or on an odd one.
        'Ā'..='ķ' | 'Ŋ'..='ŷ' | 'Ș'..='ț' | 'Ḁ'..='ỿ' if u32::from(c).is_multiple_of(2) => shifted(1),
        'Ĺ'..='ň' | 'Ź'..='ž' if !u32::from(c).is_multiple_of(2) => shifted(1),
        'Ơ' | 'Ư' => shifted(1),
        _ => c,
    }
}

/// The capital of a small letter, or the letter itself.
pub fn large(c: char) -> char {
    let shifted = |by: u32| char::from_u32(u32::from(c) - by).unwrap_or(c);
    match c {
        'a'..='z' | 'à'..='ö' | 'ø'..='þ' | 'α'..='ρ' | 'σ'..='ω' | 'а'..='я' => shifted(32),
        'ѐ'..='џ' => shifted(80),
        'ÿ' => 'Ÿ',
        'ā'..='ž' | 'ơ'..='ư' | 'ș'..='ț' | 'ḁ'..='ỿ' => {
            let before = shifted(1);
            if small(before) == c { before } else { c }
        }
        _ => c,
    }
}

/// The text in small letters.
pub fn lower(text: &str) -> String {
    text.chars().map(small).collect()
}

/// Whether a letter is a capital.
pub fn is_capital(c: char) -> bool {
    small(c) != c
}

/// The text with a capital at its head.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| std::iter::once(large(c)).chain(chars).collect()).unwrap_or_default()
}

/// The text with a small letter at its head.
pub fn uncapital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| std::iter::once(small(c)).chain(chars).collect()).unwrap_or_default()
}

/// Whether a text has these letters in it: the library's search would bring three kilobytes of wasm.
pub fn holds(text: &str, part: &str) -> bool {
    place(text, part).is_some()
}

/// Where these letters begin in a text, in bytes.
pub fn place(text: &str, part: &str) -> Option<usize> {
    text.as_bytes().windows(part.len().max(1)).position(|w| w == part.as_bytes())
}

/// The part of a text between two places, in bytes; nothing where they do not stand between letters.
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn part(text: &str, from: usize, to: usize) -> &str {
    text.get(from..to).unwrap_or("")
}

/// Texts in a row with something between them. The library's own weighs seven times as much, once for each kind of text.
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn join<T: AsRef<str>>(texts: &[T], between: &str) -> String {
    let mut out = String::new();
    for (at, text) in texts.iter().enumerate() {
        if at > 0 {
            out.push_str(between);
        }
        out.push_str(text.as_ref());
    }
    out
}

/// A text with some letters in place of others, wherever they stand.
pub fn swap(text: &str, old: &str, new: &str) -> String {
    let (mut out, mut rest) = (String::new(), text);
    while let Some(at) = place(rest, old) {
        out.push_str(part(rest, 0, at));
        out.push_str(new);
        rest = part(rest, at + old.len(), rest.len());
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The standard library's own answer, for each letter of these scripts that has just one counterpart.
    #[test]
    fn the_standard_library_gives_the_same() {
        let accented = ['Ș', 'ș', 'Ț', 'ț', 'Ơ', 'ơ', 'Ư', 'ư'];
        let all = ('A'..='ž').chain('Α'..='ω').chain('Ѐ'..='џ').chain('Ḁ'..='ẕ').chain('Ạ'..='ỹ').chain(accented);
        for c in all {
            // The dotted and the dotless i, the final sigma and their like have no counterpart of their own.
            let odd = "İıŉſĸßµςΪΫάέήίΰϊϋόύώ";
            let one = |mut all: Box<dyn Iterator<Item = char>>| all.next().filter(|_| all.next().is_none());
            if odd.chars().any(|o| o == c) {
                continue;
            }
            if let Some(l) = one(Box::new(c.to_lowercase())) {
                assert_eq!(small(c), l, "{c} in small letters");
            }
            if let Some(u) = one(Box::new(c.to_uppercase())) {
                assert_eq!(large(c), u, "{c} as a capital");
            }
        }
    }

    #[test]
    fn words_begin_with_a_capital_or_not() {
        assert_eq!(capital("über"), "Über");
        assert_eq!(uncapital("Éclair"), "éclair");
        assert_eq!(lower("CRÈME Brûlée"), "crème brûlée");
        assert!(is_capital('Ž') && !is_capital('ž') && !is_capital('7'));
    }
}
