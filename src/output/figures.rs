//! The text of a card becomes runs to set: "1 1/2 cups" is a mixed number whose 1/2 is set as a fraction, and a number
//! and its unit never part at a line's end.
//!
//! ```
//! use plainspoon::output::figures::{runs, Run};
//! let set = runs("1 1/2 cups");
//! assert_eq!(set, [Run::Tied("1".into()), Run::Fraction("1/2".into()), Run::Text("\u{a0}cups".into())]);
//! ```

use crate::measure::ratio::of_glyph;

/// A stretch of text set in one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Run {
    /// Set as it stands.
    Text(String),
    /// The whole number of a mixed number: a thin gap and a fraction follow.
    Tied(String),
    /// "1/2": set as a fraction.
    Fraction(String),
}

/// Divides a text into runs. Joining them again (with a space after each [`Run::Tied`]) gives the text, with its spaces
/// after numbers made no-break.
pub fn runs(text: &str) -> Vec<Run> {
    let mut out = Vec::new();
    let mut plain = String::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let inside_word = plain.chars().next_back().is_some_and(|p| p.is_alphanumeric() || p == '/' || p == '.');
        if let Some((fraction, after)) = fraction(rest).filter(|_| !inside_word || of_glyph(c).is_some()) {
            tie_whole(&mut plain, &mut out);
            out.push(Run::Fraction(fraction));
            rest = tie_unit(after, &mut plain);
        } else if c.is_ascii_digit() && !inside_word {
            let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
            let (digits, after) = (crate::letters::part(rest, 0, end), crate::letters::part(rest, end, rest.len()));
            plain.push_str(digits);
            rest = tie_unit(after, &mut plain);
        } else {
            plain.push(c);
            rest = crate::letters::part(rest, c.len_utf8(), rest.len());
        }
    }
    if !plain.is_empty() {
        out.push(Run::Text(plain));
    }
    out
}

// fraction := digits "/" digits | glyph
fn fraction(text: &str) -> Option<(String, &str)> {
    let first = text.chars().next()?;
    if let Some(r) = of_glyph(first) {
        return Some((format!("{}/{}", r.num(), r.den()), crate::letters::part(text, first.len_utf8(), text.len())));
    }
    let top = text.find(|c: char| !c.is_ascii_digit()).filter(|n| (1..=3).contains(n))?;
    let after = crate::letters::part(text, top, text.len())
        .strip_prefix('/')
        .or_else(|| crate::letters::part(text, top, text.len()).strip_prefix('\u{2044}'))?;
    let bottom = after.find(|c: char| !c.is_ascii_digit()).unwrap_or(after.len());
    // "24/7/365" and "1/2x" are not fractions of a card.
    let next = crate::letters::part(after, bottom, after.len()).chars().next();
    let whole = (1..=3).contains(&bottom) && next.is_none_or(|c| !c.is_alphanumeric() && c != '/');
    whole.then(|| {
        (
            format!("{}/{}", crate::letters::part(text, 0, top), crate::letters::part(after, 0, bottom)),
            crate::letters::part(after, bottom, after.len()),
        )
    })
}

/// Takes the whole number of a mixed number off the end of `plain`.
fn tie_whole(plain: &mut String, out: &mut Vec<Run>) {
    let body = plain.strip_suffix(['\u{a0}', ' ']).unwrap_or(plain);
    let start = body
        .rfind(|c: char| !c.is_ascii_digit())
        .map_or(0, |at| at + crate::letters::part(body, at, body.len()).chars().next().map_or(1, char::len_utf8));
    let (before, whole) = (crate::letters::part(body, 0, start), crate::letters::part(body, start, body.len()));
    if whole.is_empty() {
        if !plain.is_empty() {
            out.push(Run::Text(std::mem::take(plain)));
        }
        return;
    }
    if !before.is_empty() {
        out.push(Run::Text(before.to_string()));
    }
    out.push(Run::Tied(whole.to_string()));
    plain.clear();
}

/// Makes the one space after a number no-break where a word, a number or a mark follows.
fn tie_unit<'a>(after: &'a str, plain: &mut String) -> &'a str {
    match after.strip_prefix(' ') {
        Some(rest) if rest.starts_with(|c: char| c.is_alphanumeric() || matches!(c, '°' | '×' | '(')) => {
            plain.push('\u{a0}');
            rest
        }
        _ => after,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, want: &str) {
        let got: Vec<String> = runs(text)
            .into_iter()
            .map(|r| match r {
                Run::Text(t) => t.replace('\u{a0}', "~"),
                Run::Tied(t) => format!("[{t}]"),
                Run::Fraction(t) => format!("<{t}>"),
            })
            .collect();
        assert_eq!(got.concat(), want, "{text}");
    }

    #[test]
    fn numbers_and_fractions() {
        check("1 1/2 cups", "[1]<1/2>~cups");
        check("1½ cups", "[1]<1/2>~cups");
        check("½ cup", "<1/2>~cup");
        check("3/4 to 1 1/4 cups", "<3/4>~to [1]<1/4>~cups");
        check("1/4 cup plus 2 tablespoons", "<1/4>~cup plus 2~tablespoons");
        check("40 to 45 minutes", "40~to 45~minutes");
        check("Heat to 375 °F.", "Heat to 375~°F.");
        check("a 9 × 13-inch pan", "a 9~× 13-inch pan");
        check("3 (15-ounce) cans", "3~(15-ounce) cans");
        check("step 2.", "step 2.");
        check("", "");
    }

    #[test]
    fn what_only_looks_like_one() {
        check("24/7/365", "24/7/365");
        check("and/or", "and/or");
        check("B12 1/x", "B12 1/x");
        check("1/2x", "1/2x");
        check("1234/5", "1234/5");
        check("é 1/2", "é <1/2>");
        check("é1/2", "é1/2");
    }
}
