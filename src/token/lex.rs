//! The draft becomes tokens: case, hyphens, ½ and 1/2, "9x13", "350°F", "2T", "c." for a cup.

use super::{Kind, Token, fold};
use crate::draft::Span;
use crate::draft::format::{Gap, Talk};
use crate::letters::{is_capital, small};
use crate::measure::Ratio;
use crate::measure::ratio::of_glyph;

/// Short forms whose full stop ends no sentence.
const SHORT: &str = "tsp tsps tbsp tbsps tbs tb oz lb lbs pkg pkgs env approx qt qts pt gal med lg sm mr mrs ms dr st min mins hr hrs sec secs temp abt w doz ea vs";
/// Short forms whose full stop ends no sentence after a figure: "1 c. sugar".
const SHORT_AFTER_NUMBER: &str = "c t g ml l kg in cm f";
/// Contractions that reach us without their apostrophe.
const BARE: &[(&str, &str)] = &[
    ("dont", "don't"),
    ("doesnt", "doesn't"),
    ("didnt", "didn't"),
    ("cant", "can't"),
    ("wont", "won't"),
    ("isnt", "isn't"),
    ("arent", "aren't"),
    ("thats", "that's"),
    ("theres", "there's"),
    ("youre", "you're"),
    ("theyre", "they're"),
    ("youll", "you'll"),
    ("youve", "you've"),
    ("ive", "i've"),
    ("im", "i'm"),
    ("itll", "it'll"),
    ("theyll", "they'll"),
    ("wasnt", "wasn't"),
    ("wouldnt", "wouldn't"),
    ("shouldnt", "shouldn't"),
    ("couldnt", "couldn't"),
    ("havent", "haven't"),
    ("hes", "he's"),
    ("shes", "she's"),
    ("whats", "what's"),
    ("heres", "here's"),
    ("youd", "you'd"),
    ("weve", "we've"),
    ("lets", "let's"),
    ("goin", "going"),
    ("gon", "going"),
    ("'til", "until"),
    ("til", "until"),
    ("till", "until"),
    ("'em", "them"),
    ("em", "them"),
    ("thru", "through"),
    ("w/", "with"),
    ("abt", "about"),
];

/// Tokens of the talk, in order. Every spoken character of it lies in exactly one token.
pub fn lex(draft: &str, talk: &[Talk]) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(draft.len() / 5);
    for stretch in talk {
        if stretch.gap > Gap::Soft && !out.is_empty() {
            let at = Span { start: stretch.span.start, end: stretch.span.start };
            push(&mut out, Kind::Break(stretch.gap), "", at, false, false);
        }
        stretch_tokens(draft, stretch.span, &mut out);
    }
    out
}

fn push(out: &mut Vec<Token>, kind: Kind, text: &str, span: Span, capital: bool, joined: bool) {
    let fold = if kind == Kind::Word { fold(text) } else { text.to_string() };
    out.push(Token { kind, text: text.into(), fold: fold.into(), span, capital, joined });
}

fn stretch_tokens(draft: &str, span: Span, out: &mut Vec<Token>) {
    let end = span.end as usize;
    let mut at = span.start as usize;
    let mut spaced = true;
    while at < end {
        let Some(rest) = draft.get(at..end) else { return };
        let Some(c) = rest.chars().next() else { return };
        let here = |len: usize| Span::new(at, at + len);
        let joined = !spaced;
        if c.is_whitespace() {
            at += c.len_utf8();
            spaced = true;
            continue;
        }
        spaced = false;
        if c.is_ascii_digit() || of_glyph(c).is_some() || (c == '.' && joined_decimal(rest)) {
            let (len, value) = figure(rest);
            // "1st" and "2nd" order things; they count nothing.
            let after = rest.get(len..).unwrap_or("");
            let word_len = after.bytes().take_while(u8::is_ascii_alphabetic).count();
            let suffix = after.get(..word_len).unwrap_or("").to_ascii_lowercase();
            if super::listed("st nd rd th s", &suffix) || rest.get(len..).is_some_and(is_clock_tail) {
                let whole = len + if is_clock_tail(after) { 3 } else { word_len };
                push(
                    out,
                    Kind::Word,
                    &crate::letters::part(rest, 0, whole).to_ascii_lowercase(),
                    here(whole),
                    false,
                    joined,
                );
                at += whole;
            } else {
                push(out, Kind::Number(value), crate::letters::part(rest, 0, len), here(len), false, joined);
                at += len;
            }
            continue;
        }
        if c.is_alphabetic() || (is_apostrophe(c) && rest.chars().nth(1).is_some_and(char::is_alphabetic)) {
            let len = word_length(rest);
            let word = crate::letters::part(rest, 0, len);
            let mut text: String = word.chars().map(|c| if is_apostrophe(c) { '\'' } else { small(c) }).collect();
            let mut len = len;
            if text == "w" && rest.get(len..).is_some_and(|r| r.starts_with('/')) {
                text = "with".into();
                len += 1;
            }
            if let Some(full) = BARE.iter().find(|b| b.0 == text) {
                text = full.1.into();
            }
            let capital = is_capital(c);
            // A lone T is a tablespoon and a lone t a teaspoon, as cooks write them; the case is lost below, so it is kept here.
            if word == "T" && out.last().is_some_and(|t| matches!(t.kind, Kind::Number(_))) {
                text = "tbsp".into();
            }
            let after_number = out.last().is_some_and(|t| matches!(t.kind, Kind::Number(_)));
            push(out, Kind::Word, &text, here(len), capital, joined);
            at += len;
            let short = super::listed(SHORT, &text) || (after_number && super::listed(SHORT_AFTER_NUMBER, &text));
            // "Bake 30 min. Old card says 350": after a time, a capital begins a sentence.
            let timed = super::listed("min mins hr hrs sec secs temp f", &text);
            let anew = timed
                && draft.get(at + 1..end).is_some_and(|r| {
                    let mut after = r.chars().skip_while(|c| *c == ' ');
                    after.next().is_some_and(is_capital)
                        && after.next().is_some_and(|c| c.is_alphabetic() && !is_capital(c))
                });
            if short && !anew && draft.get(at..end).is_some_and(|r| r.starts_with('.') && !r.starts_with("..")) {
                at += 1;
                spaced = true;
            }
            continue;
        }
        let kind = match c {
            '.' | '!' | '?' | '\u{2026}' => Kind::Stop,
            ',' => Kind::Comma,
            ';' | ':' | '(' | ')' | '[' | ']' | '\u{2013}' | '\u{2014}' => Kind::Pause,
            '-' => {
                // Between figures a hyphen is "to"; between words it joins; with spaces it is a dash.
                let before = joined && out.last().is_some_and(Token::is_spoken);
                let after = rest.chars().nth(1).is_some_and(|c| c.is_alphanumeric() || of_glyph(c).is_some());
                if before && after {
                    if out.last().is_some_and(|t| matches!(t.kind, Kind::Number(_)))
                        && rest.chars().nth(1).is_some_and(|c| c.is_ascii_digit() || of_glyph(c).is_some())
                    {
                        push(out, Kind::Word, "to", here(1), false, true);
                    }
                    at += 1;
                    continue;
                }
                Kind::Pause
            }
            _ => Kind::Sign,
        };
        let text = if c == '&' { "and" } else { crate::letters::part(rest, 0, c.len_utf8()) };
        let kind = if c == '&' { Kind::Word } else { kind };
        push(out, kind, text, here(c.len_utf8()), false, joined);
        at += c.len_utf8();
    }
}

fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '\u{2019}' | '\u{2018}')
}

fn joined_decimal(rest: &str) -> bool {
    rest.as_bytes().get(1).is_some_and(u8::is_ascii_digit)
}

/// ":30" after figures makes a time of day.
fn is_clock_tail(after: &str) -> bool {
    let b = after.as_bytes();
    b.first() == Some(&b':') && b.get(1).is_some_and(u8::is_ascii_digit) && b.get(2).is_some_and(u8::is_ascii_digit)
}

fn word_length(rest: &str) -> usize {
    let mut len = 0;
    let mut chars = rest.char_indices().peekable();
    while let Some((n, c)) = chars.next() {
        let inside =
            c.is_alphabetic() || (is_apostrophe(c) && (n == 0 || chars.peek().is_some_and(|p| p.1.is_alphabetic())));
        if !inside {
            break;
        }
        len = n + c.len_utf8();
    }
    len.max(rest.chars().next().map_or(1, char::len_utf8))
}

/// A figure at the start: its length in bytes and its value. "1/2", "1½", "1.5", "1,200", "½".
fn figure(rest: &str) -> (usize, Ratio) {
    if let Some((c, value)) = rest.chars().next().and_then(|c| of_glyph(c).map(|v| (c, v))) {
        return (c.len_utf8(), value);
    }
    let b = rest.as_bytes();
    let digits = |from: usize| b[from.min(b.len())..].iter().take_while(|c| c.is_ascii_digit()).count();
    let mut len = digits(0);
    // "1,200" is one figure; "1,20" is two.
    while b.get(len) == Some(&b',') && digits(len + 1) == 3 && len <= 3 {
        len += 4;
    }
    let read = |text: &str| text.replace(',', "").parse::<Ratio>().unwrap_or(Ratio::whole(999_999_999));
    if b.get(len) == Some(&b'/') && digits(len + 1) > 0 {
        let whole = len + 1 + digits(len + 1);
        if let Ok(value) = crate::letters::part(rest, 0, whole).parse::<Ratio>() {
            return (whole, value);
        }
    }
    if b.get(len) == Some(&b'.') && digits(len + 1) > 0 {
        let whole = len + 1 + digits(len + 1);
        return (whole, read(crate::letters::part(rest, 0, whole)));
    }
    let value = read(crate::letters::part(rest, 0, len));
    // "1½" without a space.
    if let Some((c, part)) =
        crate::letters::part(rest, len, rest.len()).chars().next().and_then(|c| of_glyph(c).map(|v| (c, v)))
    {
        return (len + c.len_utf8(), value + part);
    }
    (len.max(1), value)
}
