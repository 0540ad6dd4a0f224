//! Draft formats: captions, labelled speakers, notes and plain talk become stretches of talk.
//!
//! A cue number, a cue time, `[Music]` and a speaker's label are not talk; what is left keeps its place in the draft. Every
//! stretch says what parts it from the one before, since a line's end means nothing in captions and everything in notes.

use super::Span;

/// What parts a stretch of talk from the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gap {
    /// Nothing a speaker would notice: the end of a caption line.
    Soft,
    /// The end of a line in notes.
    Line,
    /// A blank line.
    Paragraph,
    /// Another speaker.
    Speaker,
}

/// A stretch of talk.
#[derive(Clone, Copy, Debug)]
pub struct Talk {
    /// Its place.
    pub span: Span,
    /// What comes before it.
    pub gap: Gap,
}

/// The talk of a draft, in order, whatever its format.
pub fn talk(draft: &str) -> Vec<Talk> {
    let lines = lines(draft);
    let captions = is_captions(&lines);
    let timed = lines.iter().filter(|l| leading_time(l.text).is_some()).count();
    let timed = timed >= 3 || (timed >= 1 && timed * 2 >= lines.iter().filter(|l| !l.text.trim().is_empty()).count());
    let labels = labels(&lines);
    let hard = !captions && lines_are_notes(&lines);
    let long = !captions && average_length(&lines) > 120;

    let mut out = Vec::new();
    let mut gap = Gap::Soft;
    let mut skip_block = false;
    for (n, line) in lines.iter().enumerate() {
        let trimmed = line.text.trim();
        if trimmed.is_empty() {
            skip_block = false;
            gap = gap.max(if captions { Gap::Soft } else { Gap::Paragraph });
            continue;
        }
        if skip_block {
            continue;
        }
        if captions {
            if n == 0 && trimmed.trim_start_matches('\u{feff}').starts_with("WEBVTT") {
                skip_block = true;
                continue;
            }
            if trimmed == "STYLE" || trimmed == "REGION" || trimmed.starts_with("NOTE ") || trimmed == "NOTE" {
                skip_block = true;
                continue;
            }
            let next = lines.get(n + 1).map_or("", |l| l.text);
            if is_cue_time(trimmed) || is_cue_time(next) {
                continue;
            }
        }
        let (mut start, end) = (line.start, line.start + line.text.len());
        if timed && let Some(cut) = leading_time(line.text) {
            start += cut;
        }
        let rest = draft.get(start..end).unwrap_or("");
        if let Some(cut) = label_of(rest).filter(|l| labels.contains(&l.0)).map(|l| l.1) {
            start += cut;
            gap = Gap::Speaker;
        }
        strip_marks(draft, start, end, gap, &mut out);
        gap = if hard {
            Gap::Line
        } else if long {
            Gap::Paragraph
        } else {
            Gap::Soft
        };
    }
    out
}

struct Line<'d> {
    start: usize,
    text: &'d str,
}

fn lines(draft: &str) -> Vec<Line<'_>> {
    let mut start = 0;
    draft
        .split_inclusive('\n')
        .map(|text| {
            let line = Line { start, text: text.trim_end_matches(['\n', '\r']) };
            start += text.len();
            line
        })
        .collect()
}

fn is_captions(lines: &[Line<'_>]) -> bool {
    lines.first().is_some_and(|l| l.text.trim_start_matches('\u{feff}').starts_with("WEBVTT"))
        || lines.iter().filter(|l| is_cue_time(l.text.trim())).take(2).count() == 2
}

/// "00:01:02,500 --> 00:01:04,000", with or without the hours, a comma (SRT) or a stop (WebVTT).
fn is_cue_time(line: &str) -> bool {
    let Some(at) = crate::letters::place(line, "-->") else { return false };
    let (Some(a), Some(b)) = (line.get(..at), line.get(at + 3..)) else { return false };
    let clock = |t: &str| {
        !t.is_empty() && crate::letters::holds(t, ":") && t.bytes().all(|c| c.is_ascii_digit() || b":.,".contains(&c))
    };
    clock(a.trim()) && b.split_whitespace().next().is_some_and(clock)
}

/// The length of a time a line begins with: "[00:12] ", "(1:02:33) ", "0:12 ".
fn leading_time(line: &str) -> Option<usize> {
    let indent = line.len() - line.trim_start().len();
    let text = line.get(indent..)?;
    let open = text.starts_with(['[', '(']);
    let body = if open { text.get(1..)? } else { text };
    let clock: usize = body.bytes().take_while(|c| c.is_ascii_digit() || b":.,".contains(c)).count();
    let figure = body.get(..clock)?;
    let colons = figure.bytes().filter(|c| *c == b':').count();
    if !(1..=3).contains(&colons) || !figure.as_bytes().first()?.is_ascii_digit() {
        return None;
    }
    let mut at = indent + usize::from(open) + clock;
    if open {
        if !line.get(at..)?.starts_with([']', ')']) {
            return None;
        }
        at += 1;
    }
    let rest = line.get(at..)?;
    if !(rest.is_empty() || rest.starts_with(char::is_whitespace) || open) {
        return None;
    }
    Some(at + (rest.len() - rest.trim_start_matches([' ', '\t', '-', ':']).len()))
}

/// A label at the start of a line and the bytes it takes: "REGGIE: ".
fn label_of(line: &str) -> Option<(&str, usize)> {
    let indent = line.len() - line.trim_start_matches([' ', '\t', '>', '-']).len();
    let text = line.get(indent..)?;
    let colon = text.find(':')?;
    let name = text.get(..colon)?.trim();
    let letters = name.chars().all(|c| c.is_alphanumeric() || matches!(c, ' ' | '.' | '\'' | '-' | '(' | ')'));
    let capital = name.chars().next().is_some_and(crate::letters::is_capital);
    let words = name.split_whitespace().count();
    let after = text.get(colon + 1..)?;
    if !letters
        || !capital
        || words > 3
        || name.len() > 24
        || !(after.is_empty() || after.starts_with(char::is_whitespace))
    {
        return None;
    }
    Some((name, indent + colon + 1 + (after.len() - after.trim_start().len())))
}

/// The labels that are speakers: those that come back. A heading ("Topping:") stands once.
fn labels<'d>(lines: &[Line<'d>]) -> Vec<&'d str> {
    let mut seen: Vec<(&str, usize)> = Vec::new();
    for line in lines {
        let text = leading_time(line.text).and_then(|cut| line.text.get(cut..)).unwrap_or(line.text);
        if let Some((name, _)) = label_of(text) {
            match seen.iter_mut().find(|s| s.0 == name) {
                Some(s) => s.1 += 1,
                None => seen.push((name, 1)),
            }
        }
    }
    if seen.iter().any(|s| s.1 >= 2) && seen.len() <= 8 {
        let some_shout = seen.iter().any(|s| s.1 >= 2 && s.0.chars().all(|c| !c.is_lowercase()));
        seen.into_iter()
            .filter(|s| s.1 >= 2 || (some_shout && s.0.chars().all(|c| !c.is_lowercase())))
            .map(|s| s.0)
            .collect()
    } else {
        Vec::new()
    }
}

fn average_length(lines: &[Line<'_>]) -> usize {
    let full: Vec<usize> = lines.iter().map(|l| l.text.trim().len()).filter(|n| *n > 0).collect();
    full.iter().sum::<usize>() / full.len().max(1)
}

/// Whether each line is a note of its own: several lines of uneven length, most of which begin like one.
fn lines_are_notes(lines: &[Line<'_>]) -> bool {
    let full: Vec<&str> = lines.iter().map(|l| l.text.trim()).filter(|t| !t.is_empty()).collect();
    if full.len() < 5 || average_length(lines) > 160 {
        return false;
    }
    let begins = full
        .iter()
        .filter(|t| t.chars().next().is_some_and(|c| crate::letters::is_capital(c) || !c.is_alphabetic()))
        .count();
    let widest = full.iter().map(|t| t.len()).max().unwrap_or(0);
    // Wrapped prose fills its lines: all but the last of a paragraph come near the widest.
    let filled = full.iter().filter(|t| t.len() * 4 > widest * 3).count();
    begins * 10 > full.len() * 7 && filled * 3 < full.len() * 2
}

/// Leaves out `[Music]`, `(laughs)` and caption tags; a new voice (`<v Name>`, `>>`) is a new speaker.
fn strip_marks(draft: &str, start: usize, end: usize, mut gap: Gap, out: &mut Vec<Talk>) {
    let Some(text) = draft.get(start..end) else { return };
    let mut from = 0;
    let mut at = 0;
    let mut push = |from: usize, to: usize, gap: &mut Gap| {
        if text.get(from..to).is_some_and(|t| !t.trim().is_empty()) {
            out.push(Talk { span: Span::new(start + from, start + to), gap: *gap });
            *gap = Gap::Soft;
        }
    };
    while at < text.len() {
        let rest = crate::letters::part(text, at, text.len());
        let cut = if rest.starts_with('[') {
            rest.find(']')
                .filter(|n| crate::letters::part(rest, 0, *n).split_whitespace().count() <= 4)
                .map(|n| (n + 1, false))
        } else if rest.starts_with('(') {
            rest.find(')').filter(|n| is_stage_word(crate::letters::part(rest, 1, *n))).map(|n| (n + 1, false))
        } else if rest.starts_with('<') {
            rest.find('>').filter(|n| *n < 60).map(|n| (n + 1, rest.starts_with("<v")))
        } else if rest.starts_with(">>") {
            Some((2, true))
        } else if rest.starts_with("&gt;&gt;") {
            Some((8, true))
        } else {
            None
        };
        match cut {
            Some((len, voice)) => {
                push(from, at, &mut gap);
                if voice {
                    gap = Gap::Speaker;
                }
                at += len;
                from = at;
            }
            None => at += rest.chars().next().map_or(1, char::len_utf8),
        }
    }
    push(from, text.len(), &mut gap);
}

fn is_stage_word(text: &str) -> bool {
    ["laughs", "laughter", "music", "applause", "inaudible", "crosstalk", "sighs", "coughs", "pause", "laughing"]
        .iter()
        .any(|w| text.eq_ignore_ascii_case(w))
}
