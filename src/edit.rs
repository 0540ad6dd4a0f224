//! What the cook settled, laid over a reading and kept apart from it.
//!
//! The reading is a pure function of the draft; an answer is kept by the question it answers, so that reading the draft
//! again after a change keeps every answer whose question still stands and hands back the ones that lost their place.

use crate::draft::Span;
use crate::measure::{Amount, Unit};
use crate::recipe::{Book, Query};

/// An answer to a query.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// The title of the card it was asked on.
    pub card: String,
    /// The question, word for word.
    pub query: String,
    /// What the draft says where the doubt is.
    pub heard: String,
    /// One of the choices, or an amount typed instead.
    pub said: String,
}

/// What looks like a slip of speech-to-text and was heard rightly, with the words around it that hold it in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// The words before.
    pub before: String,
    /// The words themselves, as the draft has them.
    pub heard: String,
    /// The words after.
    pub after: String,
}

impl Left {
    /// How many characters on either side hold it in its place: about three words.
    const AROUND: usize = 20;

    /// What stands at a place of the draft, held by the words around it.
    pub fn at(draft: &str, span: Span) -> Left {
        let (before, heard, after) = span.around(draft, Left::AROUND);
        Left { before: before.into(), heard: heard.into(), after: after.into() }
    }

    /// Where it stands in a draft. The same words in the same surroundings are left alike.
    pub fn places(&self, draft: &str) -> Vec<Span> {
        let mut whole = self.before.clone();
        whole.push_str(&self.heard);
        whole.push_str(&self.after);
        let mut places = Vec::new();
        let mut from = 0;
        while let Some(at) = crate::letters::place(crate::letters::part(draft, from, draft.len()), &whole) {
            let start = from + at + self.before.len();
            from = start + self.heard.len();
            places.push(Span::new(start, from));
        }
        places
    }
}

/// The size a reader chose for a card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Size {
    /// The title of the card.
    pub card: String,
    /// Which of the cards with that title, from 0.
    pub nth: usize,
    /// What names the size: "scale", "servings" or "pan".
    pub by: String,
    /// The size as it was typed: "1/2", "12", "8 by 8".
    pub asked: String,
    /// The name of the units; "said" for the cook's own.
    pub units: String,
}

/// Everything kept beside a draft.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Kept {
    /// Answers, in the order they were given.
    pub answers: Vec<Answer>,
    /// Sizes other than as spoken.
    pub sizes: Vec<Size>,
    /// Slips that are none.
    pub left: Vec<Left>,
}

/// An answer that found its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settled {
    /// Its index in [`Kept::answers`].
    pub answer: usize,
    /// The card, an index into [`Book::cards`].
    pub card: usize,
    /// The line, an index into the card's lines.
    pub line: Option<usize>,
}

/// What laying the answers over a reading came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Laid {
    /// The answers that found their place.
    pub settled: Vec<Settled>,
    /// The answers that lost it, as indexes into [`Kept::answers`].
    pub lost: Vec<usize>,
}

/// Lays answers over a fresh reading of `draft`: each sets the amount it names and takes its query away.
pub fn lay(book: &mut Book, draft: &str, answers: &[Answer]) -> Laid {
    let mut laid = Laid::default();
    for (at, answer) in answers.iter().enumerate() {
        match place(book, draft, answer) {
            Some((card, query)) => {
                let query = book.cards[card].queries.remove(query);
                if let (Some(line), Some(amount)) = (query.line, amount_of(&query, &answer.said))
                    && let Some(line) = book.cards[card].lines.get_mut(line)
                {
                    line.amount = Some(amount);
                }
                laid.settled.push(Settled { answer: at, card, line: query.line });
            }
            None => laid.lost.push(at),
        }
    }
    laid
}

/// The query an answer belongs to: the same question over the same words, on the card of that title if several ask it.
fn place(book: &Book, draft: &str, answer: &Answer) -> Option<(usize, usize)> {
    let mut found = None;
    for (c, card) in book.cards.iter().enumerate() {
        for (q, query) in card.queries.iter().enumerate() {
            if query.text == answer.query && heard(query, draft) == answer.heard {
                if card.title == answer.card {
                    return Some((c, q));
                }
                found = found.or(Some((c, q)));
            }
        }
    }
    found
}

/// The words in doubt, as the draft has them; they anchor an answer to its query.
pub fn heard(query: &Query, draft: &str) -> String {
    crate::letters::join(&query.spans.iter().map(|s| s.of(draft)).collect::<Vec<_>>(), " … ")
}

/// What an answer comes to: the choice of that label, or an amount typed.
pub fn amount_of(query: &Query, said: &str) -> Option<Amount> {
    match query.choices.iter().find(|c| c.label == said) {
        Some(choice) => choice.amount,
        None => typed(said),
    }
}

/// Reads an amount as it is typed into a margin: a number, a range or neither more than a unit word.
///
/// ```
/// use plainspoon::edit::typed;
/// for (said, got) in [("1 1/2 teaspoons", "1 1/2 teaspoon"), ("3", "3"), ("2 to 3 cups", "2 to 3 cup")] {
///     assert_eq!(typed(said).map(|a| a.to_string()).as_deref(), Some(got));
/// }
/// assert!(typed("plenty").is_none());
/// ```
pub fn typed(text: &str) -> Option<Amount> {
    let text = text.trim();
    let split = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
    let (figure, word) =
        (crate::letters::part(text, 0, split).trim(), crate::letters::part(text, split, text.len()).trim());
    if let Some(rest) = word.strip_prefix("to ") {
        let high = typed(rest)?;
        return Amount::range(figure.parse().ok()?, high.high(), high.unit());
    }
    let unit = if word.is_empty() { None } else { Some(unit(&crate::letters::lower(word))?) };
    Amount::new(figure.parse().ok()?, unit)
}

fn unit(word: &str) -> Option<Unit> {
    Unit::ALL.iter().copied().find(|u| u.name() == word || u.plural() == word)
}

impl Kept {
    /// One record a line, its fields divided by tabs, for the browser's own storage.
    pub fn to_text(&self) -> String {
        let mut out = String::new();
        for a in &self.answers {
            record(&mut out, &["answer", &a.card, &a.query, &a.heard, &a.said]);
        }
        for s in &self.sizes {
            record(&mut out, &["size", &s.card, &s.nth.to_string(), &s.by, &s.asked, &s.units]);
        }
        for l in &self.left {
            record(&mut out, &["left", &l.before, &l.heard, &l.after]);
        }
        out
    }

    /// Reads [`Kept::to_text`]; a record it does not understand is passed over.
    pub fn from_text(text: &str) -> Kept {
        let mut kept = Kept::default();
        for line in text.lines() {
            let fields: Vec<String> = line.split('\t').map(plain).collect();
            match fields.iter().map(String::as_str).collect::<Vec<_>>()[..] {
                ["answer", card, query, heard, said] => kept.answers.push(Answer {
                    card: card.into(),
                    query: query.into(),
                    heard: heard.into(),
                    said: said.into(),
                }),
                ["size", card, nth, by, asked, units] => {
                    if let Ok(nth) = nth.parse() {
                        let (by, asked, units) = (by.into(), asked.into(), units.into());
                        kept.sizes.push(Size { card: card.into(), nth, by, asked, units });
                    }
                }
                ["left", before, heard, after] if !heard.is_empty() => {
                    kept.left.push(Left { before: before.into(), heard: heard.into(), after: after.into() });
                }
                _ => {}
            }
        }
        kept
    }

    /// Every place of a draft where what was heard is left.
    pub fn left_in(&self, draft: &str) -> Vec<Span> {
        let mut places = Vec::new();
        for left in &self.left {
            places.append(&mut left.places(draft));
        }
        places
    }
}

fn record(out: &mut String, fields: &[&str]) {
    for (at, field) in fields.iter().enumerate() {
        if at > 0 {
            out.push('\t');
        }
        for c in field.chars() {
            match c {
                '\t' => out.push_str("\\t"),
                '\n' => out.push_str("\\n"),
                '\r' => out.push_str("\\r"),
                '\\' => out.push_str("\\\\"),
                c => out.push(c),
            }
        }
    }
    out.push('\n');
}

fn plain(field: &str) -> String {
    let mut out = String::with_capacity(field.len());
    let mut chars = field.chars();
    while let Some(c) = chars.next() {
        match c {
            '\\' => match chars.next() {
                Some('t') => out.push('\t'),
                Some('n') => out.push('\n'),
                Some('r') => out.push('\r'),
                Some(c) => out.push(c),
                None => {}
            },
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::Span;
    use crate::measure::Ratio;
    use crate::recipe::{Card, Choice, Line};

    const DRAFT: &str = "two teaspoons of salt, one teaspoon like I said";

    fn book() -> Book {
        let one = Amount::new(Ratio::ONE, Some(Unit::Teaspoon));
        let two = Amount::new(Ratio::whole(2), Some(Unit::Teaspoon));
        let query = Query {
            text: "Salt: two or one?".into(),
            line: Some(0),
            choices: vec![
                Choice { label: "1 teaspoon".into(), amount: one },
                Choice { label: "2 teaspoons".into(), amount: two },
            ],
            spans: vec![Span::new(0, 21)],
        };
        let line = Line { name: "salt".into(), amount: two, ..Line::default() };
        let card = Card { title: "stew".into(), lines: vec![line], queries: vec![query], ..Card::default() };
        Book { cards: vec![card], ..Book::default() }
    }

    fn answer(said: &str) -> Answer {
        Answer {
            card: "stew".into(),
            query: "Salt: two or one?".into(),
            heard: "two teaspoons of salt".into(),
            said: said.into(),
        }
    }

    fn check(said: &str, want: &str) {
        let mut book = book();
        let laid = lay(&mut book, DRAFT, &[answer(said)]);
        assert_eq!(laid, Laid { settled: vec![Settled { answer: 0, card: 0, line: Some(0) }], lost: vec![] });
        assert!(book.cards[0].queries.is_empty());
        assert_eq!(book.cards[0].lines[0].amount.map(|a| a.to_string()).as_deref(), Some(want));
    }

    #[test]
    fn an_answer_sets_the_amount_and_settles_the_query() {
        check("1 teaspoon", "1 teaspoon");
        check("2 teaspoons", "2 teaspoon");
        check("1 1/2 teaspoons", "1 1/2 teaspoon");
        // Words that name no amount settle the question and leave the figure alone.
        check("as it comes", "2 teaspoon");
    }

    #[test]
    fn an_answer_without_its_place_is_handed_back() {
        let mut book = book();
        let laid = lay(&mut book, "three teaspoons of salt", &[answer("1 teaspoon")]);
        assert_eq!(laid, Laid { settled: vec![], lost: vec![0] });
        assert_eq!(book.cards[0].queries.len(), 1);
    }

    #[test]
    fn typed_amounts() {
        for (text, want) in [
            ("½ cup", Some("1/2 cup")),
            ("  2   cups ", Some("2 cup")),
            ("2 TABLESPOONS", Some("2 tablespoon")),
            ("1/2 to 3/4 cup", Some("1/2 to 3/4 cup")),
            ("fluid ounces", None),
            ("3 fluid ounces", Some("3 fluid ounce")),
            ("0", None),
            ("", None),
            ("2 smidgens", None),
        ] {
            assert_eq!(typed(text).map(|a| a.to_string()).as_deref(), want, "{text}");
        }
    }

    #[test]
    fn kept_comes_back_as_it_was() {
        let kept = Kept {
            answers: vec![Answer { said: "a\tb\\n\nc\r".into(), ..answer("") }],
            sizes: vec![Size {
                card: "pie".into(),
                nth: 1,
                by: "pan".into(),
                asked: "8 by 8".into(),
                units: "metric".into(),
            }],
            left: vec![Left { before: "then\n".into(), heard: "flower".into(), after: " and salt".into() }],
        };
        assert_eq!(Kept::from_text(&kept.to_text()), kept);
        assert_eq!(Kept::from_text("nonsense\nsize\tpie\tx\tscale\t1\tsaid\nleft\t\t\t\n"), Kept::default());
    }

    #[test]
    fn what_is_left_as_heard_keeps_its_place() {
        let draft = "a cup of flower for the dough, and later another cup of flower for the board";
        let at = draft.rfind("flower").unwrap_or(0);
        let left = Left::at(draft, Span::new(at, at + 6));
        assert_eq!(left.places(draft), [Span::new(at, at + 6)]);
        // Talk put in far away moves it; words changed beside it take its place away.
        assert_eq!(left.places(&format!("Hello. {draft}")), [Span::new(at + 7, at + 13)]);
        assert!(left.places(&draft.replace("for the board", "to finish")).is_empty());
        // The same words in the same surroundings are left alike.
        let twice = Left::at("flower flower", Span::new(0, 6));
        assert_eq!(twice.places("flower flower, flower flower").len(), 2);
    }
}
