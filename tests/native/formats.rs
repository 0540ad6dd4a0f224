//! Draft formats: one recipe, told in every form a draft comes in, reads to one list.
//!
//! Captions follow two outside forms: WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format": the header, cue identifiers,
//! cue settings, NOTE and STYLE blocks, voice and class spans, escapes) and SubRip (.srt: numbered cues, a comma before
//! the milliseconds; a custom of subtitle makers with no standard behind it).

use super::spell;
use super::sturdy::spans;
use plainspoon::draft::format::talk;
use plainspoon::read;

/// What every form below says, in cues.
const SAID: [&str; 6] = [
    "Okay so today we're making pumpkin soup.",
    "You need two pounds of pumpkin, peeled,",
    "one large onion, chopped, and four cups of chicken broth.",
    "Melt half a stick of butter in the pot.",
    "Add a teaspoon of salt and the pumpkin.",
    "Let it simmer for twenty minutes.",
];

const LIST: [&str; 5] = [
    "2 pound pumpkin [peeled]",
    "1 large onion [chopped]",
    "4 cup chicken broth",
    "1/2 stick butter",
    "1 teaspoon salt",
];

/// Every cue in the form given: a text from its number, counted from 0, and its words.
fn told(head: &str, cue: impl Fn(usize, &str) -> String) -> String {
    let cues: String = SAID.iter().enumerate().map(|(n, words)| cue(n, words)).collect();
    format!("{head}{cues}")
}

fn forms() -> Vec<(&'static str, String)> {
    vec![
        ("plain talk", SAID.join(" ")),
        ("talk in wrapped lines", SAID.join(" ").replace("one large", "one\nlarge").replace("butter in", "butter\nin")),
        ("talk in paragraphs", SAID.join("\n\n").replace("peeled,\n\n", "peeled, ")),
        ("lines that end as on Windows", SAID.join(" ").replace("salt and", "salt\r\nand")),
        ("a byte order mark", format!("\u{feff}{}", SAID.join(" "))),
        ("WebVTT", told("WEBVTT\n\n", |n, w| format!("00:{n:02}.000 --> 00:{n:02}.900\n{w}\n\n"))),
        (
            "WebVTT with hours, identifiers and settings",
            told("WEBVTT - kitchen\nKind: captions\n\n", |n, w| {
                format!("cue-{n}\n00:00:{n:02}.000 --> 00:00:{n:02}.900 align:start position:0%\n{w}\n\n")
            }),
        ),
        (
            "WebVTT with notes and a style",
            told(
                "WEBVTT\n\nSTYLE\n::cue { color: white; }\n\nNOTE\nthree cups of nothing\n\nNOTE two cups of nothing\n\n",
                |n, w| format!("00:{n:02}.000 --> 00:{n:02}.900\n{w}\n\n"),
            ),
        ),
        (
            "WebVTT with a voice",
            told("WEBVTT\n\n", |n, w| format!("00:{n:02}.000 --> 00:{n:02}.900\n<v Odalys>{w}</v>\n\n")),
        ),
        (
            "WebVTT with classes, italics and times within",
            told("WEBVTT\n\n", |n, w| {
                format!(
                    "00:{n:02}.000 --> 00:{n:02}.900\n<c.loud><i>{}</i></c>\n\n",
                    w.replacen(' ', " <00:00:01.500>", 1)
                )
            }),
        ),
        (
            "WebVTT without blank lines to part its words",
            told("WEBVTT\n\n", |n, w| {
                format!("00:{n:02}.000 --> 00:{n:02}.900\n{}\n\n", w.replacen(" and ", "\nand ", 1))
            }),
        ),
        ("SRT", told("", |n, w| format!("{}\n00:00:{n:02},000 --> 00:00:{n:02},900\n{w}\n\n", n + 1))),
        (
            "SRT as Windows writes it",
            told("\u{feff}", |n, w| format!("{}\r\n00:00:{n:02},000 --> 00:00:{n:02},900\r\n{w}\r\n\r\n", n + 1)),
        ),
        ("times in brackets", told("", |n, w| format!("[00:{n:02}] {w}\n"))),
        ("times in round brackets", told("", |n, w| format!("(0:00:{n:02}) {w}\n"))),
        ("leading times", told("", |n, w| format!("0:{n:02} {w}\n"))),
        ("times on lines of their own", told("", |n, w| format!("0:{n:02}\n{w}\n"))),
        ("a speaker's label", told("", |_, w| format!("ODALYS: {w}\n"))),
        ("a label and a time", told("", |n, w| format!("[0:{n:02}] Odalys: {w}\n"))),
        ("arrows for a new speaker", told("", |_, w| format!(">> {w}\n"))),
        ("stage words", told("[Music] ", |_, w| format!("{w} (laughs) [Applause] "))),
    ]
}

#[test]
fn every_form_reads_to_one_list() {
    for (form, draft) in forms() {
        let book = read(&draft);
        assert_eq!(book.cards.len(), 1, "{form}:\n{draft}");
        assert_eq!(spell::lines(&book), LIST, "{form}:\n{draft}");
        assert_eq!(book.cards[0].title, "pumpkin soup", "{form}");
        let times: Vec<String> = book.cards[0].times.iter().map(|t| t.what.to_string()).collect();
        assert_eq!(times, ["20 minutes"], "{form}: a caption's time is no time of the recipe");
    }
}

#[test]
fn notes_one_a_line_read_to_the_same_amounts() {
    let draft = "Pumpkin soup\n\n2 pounds pumpkin, peeled\n1 large onion, chopped\n4 c. chicken broth\n½ stick butter\n1 tsp. salt\n\n\
                 Melt the butter in the pot.\nAdd everything.\nSimmer 20 minutes.\n";
    assert_eq!(spell::lines(&read(draft)), LIST);
}

#[test]
fn places_of_a_line_show_its_words_in_the_draft() {
    for (form, draft) in forms() {
        let book = read(&draft);
        for span in spans(&book) {
            let words = draft.get(span.start as usize..span.end as usize);
            assert!(words.is_some(), "{form}: {span:?} does not lie between characters");
            assert!(words.is_some_and(|w| !w.is_empty()), "{form}: {span:?} shows nothing");
        }
        for line in &book.cards[0].lines {
            assert!(!line.spans.is_empty(), "{form}: {} has no place", line.name);
            let last = line.name.rsplit(' ').next().expect("a name has a word");
            let first = line.spans[0].of(&draft).to_lowercase();
            assert!(first.contains(last), "{form}: {} points at {first:?}", line.name);
        }
    }
}

/// What is talk and what is not: the stretches of a draft, joined.
#[test]
fn marks_are_no_talk() {
    let cases = [
        ("[00:01] Add salt.\n[00:02] Stir.\n[00:03] Eat.", "Add salt. Stir. Eat."),
        ("0:01 Add salt.\n0:02 Stir.\n0:03 Eat.", "Add salt. Stir. Eat."),
        ("1\n00:00:01,000 --> 00:00:02,000\nAdd salt.\n\n2\n00:00:02,000 --> 00:00:03,000\nStir.", "Add salt. Stir."),
        ("WEBVTT\n\n00:01.000 --> 00:02.000\n<v Ida>Add <b>salt</b>.", "Add salt ."),
        ("IDA: Add salt.\nBO: How much?\nIDA: A pinch.", "Add salt. How much? A pinch."),
        ("Add salt [Music] and stir (laughs).", "Add salt and stir ."),
        // A heading stands once, so it is no speaker.
        ("Topping: a cup of oats.", "Topping: a cup of oats."),
        // A bracket with more than a few words is hers.
        ("two eggs (room temperature) and milk", "two eggs (room temperature) and milk"),
        // One figure that looks like a time is no caption.
        (
            "Mix it 1:1 with water, then stir it in and wait.\nThat is all.",
            "Mix it 1:1 with water, then stir it in and wait. That is all.",
        ),
    ];
    for (draft, wanted) in cases {
        let words: Vec<&str> =
            talk(draft).iter().flat_map(|t| t.span.of(draft).split_whitespace().collect::<Vec<_>>()).collect();
        assert_eq!(words.join(" "), wanted, "{draft:?}");
    }
}
