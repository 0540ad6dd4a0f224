//! Reading never fails: any text at all gives a book, twice the same one, with its places between characters.

use super::spell::whole_drafts;
use plainspoon::draft::Span;
use plainspoon::draft::format::talk;
use plainspoon::read;
use plainspoon::recipe::Book;
use plainspoon::token::lex::lex;

/// Every place a book points at.
pub fn spans(book: &Book) -> Vec<Span> {
    let mut out: Vec<Span> = book.clauses.iter().map(|c| c.span).collect();
    out.extend(book.fixes.iter().map(|f| f.span));
    for card in &book.cards {
        out.extend(card.title_span);
        out.extend(card.headnote.iter().map(|h| h.span));
        out.extend(card.makes.iter().map(|y| y.span));
        out.extend(card.pans.iter().map(|s| s.span));
        out.extend(card.ovens.iter().map(|s| s.span));
        out.extend(card.times.iter().map(|s| s.span));
        out.extend(card.lines.iter().flat_map(|l| &l.spans));
        out.extend(card.lines.iter().flat_map(|l| &l.parts).map(|p| p.span));
        out.extend(card.steps.iter().flat_map(|s| &s.pieces).filter_map(|p| p.span));
        out.extend(card.notes.iter().map(|n| n.span));
        out.extend(card.queries.iter().flat_map(|q| &q.spans));
    }
    out
}

/// Reads a text and checks what holds for every text.
fn check(draft: &str) {
    let book = read(draft);
    for span in spans(&book) {
        let words = draft.get(span.start as usize..span.end as usize);
        assert!(words.is_some(), "{span:?} does not lie between characters of {draft:?}");
    }
    for card in &book.cards {
        let asked = card.queries.iter().filter_map(|q| q.line);
        assert!(asked.clone().all(|n| n < card.lines.len()), "a query about no line of {draft:?}");
    }
}

fn boundary(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at += 1;
    }
    at
}

/// Each sixth draft is cut at a dozen places, at other bytes in each, so that cuts fall within words, figures and caption times.
#[test]
fn every_draft_may_stop_anywhere() {
    for (nth, (_, draft)) in whole_drafts().iter().enumerate() {
        let step = draft.len() / 12 + 1;
        check(draft);
        if nth % 6 > 0 {
            continue;
        }
        for at in (nth % step..draft.len()).step_by(step) {
            check(&draft[..boundary(draft, at)]);
        }
    }
}

/// One short draft with something of everything is cut at every character.
#[test]
fn a_short_draft_may_stop_at_every_character() {
    let draft = "WEBVTT\n\n00:01.000 --> 00:04.500\n<v Ada>Okay so we're making Tía's sopa, it feeds 4, um, five.\n\n\
                 00:05.000 --> 00:09.000\n1½ c. flour, two 14 oz cans of jalapeños (drained), a cup and a half of crème fraîche,\n\n\
                 00:09.500 --> 00:14.000\nno wait, two cups. Oven at 350°F / 180 fan, a 9x13 pan, half an hour … or till it's done \u{1f35e}.\n";
    for (at, _) in draft.char_indices() {
        check(&draft[..at]);
    }
    check(draft);
}

#[test]
fn shuffled_words_are_read() {
    let mut chance = fastrand::Rng::with_seed(7);
    for draft in whole_drafts().values() {
        let mut words: Vec<&str> = draft.split_whitespace().collect();
        chance.shuffle(&mut words);
        check(&words.join(" "));
    }
}

#[test]
fn one_word_over_and_over() {
    for (word, bytes) in [
        ("and ", 10_000),
        ("a ", 10_000),
        ("half ", 20_000),
        ("two ", 20_000),
        ("cup ", 20_000),
        ("of ", 20_000),
        ("butter ", 20_000),
        (", ", 20_000),
        ("\n", 20_000),
        ("( ", 20_000),
        ("1/", 20_000),
        ("stir ", 20_000),
        ("no wait ", 20_000),
        ("two cups of flour. ", 20_000),
    ] {
        check(&word.repeat(bytes / word.len()));
    }
    // 100 KB without a space anywhere.
    check(&"and".repeat(34_000));
    check(&"9".repeat(30_000));
}

#[test]
fn figures_too_large_to_hold_are_read() {
    for draft in [
        "99999999999999999999999999999999999999999999 cups of flour",
        "170141183460469231731687303715884105728 cups of flour and 1/170141183460469231731687303715884105727 teaspoon salt",
        "1/0 cup of flour, 0/0 cup of sugar, 0 eggs, 00 flour",
        "0.000000000000000000000000000000000000000000001 cup of salt",
        "bake at 99999999999 degrees for 99999999999999999999999999 hours in a 999999999999 by 99999999999999 pan",
        "nine hundred thousand million cups of flour",
        "1 2 3 4 5 6 7 8 9 10 11 12 cups of flour",
    ] {
        check(draft);
        check(&format!("we're making bread. {draft}. mix it and bake it."));
    }
}

#[test]
fn bytes_of_chance_are_read() {
    let mut chance = fastrand::Rng::with_seed(11);
    let marks: Vec<char> = " \n\r\t.,;:-–—()[]<>/½⅔°×&$%'’0123456789abctx".chars().collect();
    for _ in 0..60 {
        let bytes: Vec<u8> = (0..600).map(|_| chance.u8(..)).collect();
        check(&String::from_utf8_lossy(&bytes));
        let letters: String = (0..400).filter_map(|_| char::from_u32(chance.u32(0..0x3000))).collect();
        check(&letters);
        let near: String = (0..400).map(|_| marks[chance.usize(..marks.len())]).collect();
        check(&near);
    }
}

#[test]
fn emoji_and_combining_marks_are_read() {
    for draft in [
        "🥚🥚 two eggs 🧈 a stick of butter 👩‍🍳👨🏽‍🍳 stir it 🔥",
        "cre\u{301}me frai\u{302}che, a cup, and jalapen\u{303}os, two",
        "\u{301}\u{302}\u{303} a cup of flour",
        "a\u{200d}cup\u{200b}of\u{feff} flour\u{a0}and\u{2009}two\u{202f}eggs",
        "½\u{301} cup flour, 1⅔ cups, ⅞, 1\u{2044}2 cup",
        "İstanbul'da İKİ cup of SİMİT, ǅ, ﬀ, ß",
        "两杯面粉 and two cups of flour، ٢ cups of milk",
        "\u{0}two\u{7}cups\u{1b}[31m of flour",
        "he said ‘two cups’ “of flour” — and… that’s it",
    ] {
        check(draft);
        for (at, _) in draft.char_indices() {
            check(&draft[at..]);
        }
    }
}

#[test]
fn empty_drafts_have_no_card() {
    for draft in
        ["", " ", "\n\n\n", "\u{feff}", "WEBVTT", "WEBVTT\n\n00:01.000 --> 00:02.000\n", "...", "🙂", "[Music]"]
    {
        assert!(read(draft).cards.is_empty(), "{draft:?}");
    }
}

/// "Each word of the draft lies in exactly one" clause, and they stand in its order.
#[test]
fn every_spoken_word_lies_in_one_clause() {
    for (name, draft) in whole_drafts() {
        let book = read(&draft);
        for pair in book.clauses.windows(2) {
            assert!(pair[0].span.end <= pair[1].span.start, "{name}: {:?}", pair[1].span.of(&draft));
        }
        for token in lex(&draft, &talk(&draft)).iter().filter(|t| t.is_spoken()) {
            let at = token.span;
            let homes = book.clauses.iter().filter(|c| c.span.start <= at.start && at.end <= c.span.end).count();
            assert_eq!(homes, 1, "{name}: {:?} at byte {}", at.of(&draft), at.start);
        }
    }
}

#[test]
fn a_draft_reads_the_same_twice() {
    for (name, draft) in whole_drafts() {
        assert_eq!(format!("{:?}", read(&draft)), format!("{:?}", read(&draft)), "{name}");
    }
}
