//! Words with their places: the draft becomes tokens.

pub mod input;
pub mod lex;

pub use input::{Miss, Read, Tokens};

use crate::draft::Span;
use crate::draft::format::Gap;
use crate::measure::Ratio;

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// A word, lower case.
    Word,
    /// A figure written in digits or as a glyph: 2, 1/2, ½, 1.5.
    Number(Ratio),
    /// A full stop, exclamation or question mark.
    Stop,
    /// A comma.
    Comma,
    /// A semicolon, colon, dash or bracket: parts less than a stop and more than a comma.
    Pause,
    /// A sign: °, %, &, $, ×.
    Sign,
    /// The end of a line, paragraph or turn, where it means something; covers no bytes.
    Break(Gap),
}

/// One word, figure or stop of the draft.
#[derive(Clone, Debug)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Lower case, with straight apostrophes; after mending, the word that was meant.
    pub text: Box<str>,
    /// The same without its plural ending.
    pub fold: Box<str>,
    /// Its bytes.
    pub span: Span,
    /// It began with a capital.
    pub capital: bool,
    /// No space parts it from the token before ("half-inch", "9x13").
    pub joined: bool,
}

impl Token {
    /// A word of no draft, for looking texts up in the word lists.
    pub fn word(text: &str) -> Token {
        Token {
            kind: Kind::Word,
            text: text.into(),
            fold: fold(text).into(),
            span: Span::default(),
            capital: false,
            joined: false,
        }
    }

    /// Whether it is this word, written in lower case.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn is(&self, word: &str) -> bool {
        matches!(self.kind, Kind::Word | Kind::Sign) && *self.text == *word
    }

    /// Whether it is one of these words, which stand in one text with spaces between: "the a an".
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn is_any(&self, words: &str) -> bool {
        matches!(self.kind, Kind::Word | Kind::Sign) && listed(words, &self.text)
    }

    /// Whether it ends a sentence: a stop, or a break that means one.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn ends(&self) -> bool {
        matches!(self.kind, Kind::Stop | Kind::Break(_))
    }

    /// Whether it is a word or a figure.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn is_spoken(&self) -> bool {
        matches!(self.kind, Kind::Word | Kind::Number(_))
    }
}

/// The words of a row.
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn texts(row: &[Token]) -> Vec<&str> {
    row.iter().map(|t| &*t.text).collect()
}

/// The words and numbers of a row.
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn spoken(row: &[Token]) -> Vec<&Token> {
    row.iter().filter(|t| t.is_spoken()).collect()
}

/// The words of a name, folded.
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn keys(name: &str) -> Vec<String> {
    parts(name).map(fold).collect()
}

/// The words of a name as tokens.
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn words(name: &str) -> Vec<Token> {
    parts(name).map(Token::word).collect()
}

fn parts(name: &str) -> impl Iterator<Item = &str> {
    name.split([' ', '-']).filter(|w| !w.is_empty())
}

/// The words of a row, parted by spaces.
#[cfg_attr(target_arch = "wasm32", inline(never))]
pub fn said(row: &[Token]) -> String {
    crate::letters::join(&texts(row), " ")
}

/// A letter without its accent.
fn plain_letter(c: char) -> char {
    const ROWS: [(&str, char); 14] = [
        ("áàâäãåāăąảạấầẩẫậắằẳẵặ", 'a'),
        ("çćč", 'c'),
        ("ďđð", 'd'),
        ("éèêëēęěẻẽẹếềểễệ", 'e'),
        ("ğģ", 'g'),
        ("íìîïīıỉĩị", 'i'),
        ("łļ", 'l'),
        ("ñńňņ", 'n'),
        ("óòôöõøōőỏọốồổỗộơớờởỡợ", 'o'),
        ("řŗ", 'r'),
        ("śšşș", 's'),
        ("ťţț", 't'),
        ("úùûüūůűủũụưứừửữự", 'u'),
        ("ýÿỳỷỹỵ", 'y'),
    ];
    ROWS.iter()
        .find(|r| r.0.chars().any(|o| o == c))
        .map_or(if matches!(c, 'ź' | 'ż' | 'ž') { 'z' } else { c }, |r| r.1)
}

/// A word without its accents.
pub fn plain(word: &str) -> String {
    word.chars().map(plain_letter).collect()
}

/// A word without its plural ending and its accents: one key for berry and berries, leaf and leaves, tomato and tomatoes.
pub fn fold(word: &str) -> String {
    if !word.is_ascii() && word.chars().any(|c| plain_letter(c) != c) {
        return fold(&plain(word));
    }
    match word {
        "leaves" => return "leaf".into(),
        // More than one of them is no pot of chili.
        "chilies" => return "chilly".into(),
        "loaves" => return "loaf".into(),
        "halves" => return "half".into(),
        "knives" => return "knife".into(),
        _ => {}
    }
    // "the pudding's first": the short form of "is", and the possessive, leave the word what it is.
    let word = match word.strip_suffix("'s") {
        Some(stem) if stem.len() >= 3 && !listed("that there here what who where how let she", stem) => stem,
        _ => word,
    };
    let n = word.len();
    let ends = |e: &[&str]| e.iter().any(|e| word.ends_with(*e));
    if n > 4 && ends(&["ies"]) {
        return format!("{}y", crate::letters::part(word, 0, n - 3));
    }
    if n > 4 && ends(&["ie"]) {
        return format!("{}y", crate::letters::part(word, 0, n - 2));
    }
    if n > 4 && ends(&["ches", "shes", "sses", "xes", "toes", "goes", "roes", "does"]) {
        return crate::letters::part(word, 0, n - 2).into();
    }
    let cut =
        if n > 3 && ends(&["s"]) && !ends(&["ss", "us", "'s"]) { crate::letters::part(word, 0, n - 1) } else { word };
    if cut.len() > 4 && cut.ends_with('i') {
        format!("{}y", crate::letters::part(cut, 0, cut.len() - 1))
    } else {
        cut.into()
    }
}

/// Whether `word` is one of the words of `list`, which are parted by single spaces. A list in one text costs the page half
/// of what a list of texts costs.
pub fn listed(list: &str, word: &str) -> bool {
    let (list, word) = (list.as_bytes(), word.as_bytes());
    let n = word.len();
    let mut at = 0;
    while at + n <= list.len() {
        if list[at..].starts_with(word) && list.get(at + n).is_none_or(|b| *b == b' ') {
            return true;
        }
        match list[at..].iter().position(|b| *b == b' ') {
            Some(space) => at += space + 1,
            None => return false,
        }
    }
    false
}
