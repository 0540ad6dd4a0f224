//! The draft as a proof: its words in stretches that can be touched and lit.

use super::dom::{Js, make};
use crate::draft::Span;
use crate::output::card::Place;
use crate::output::proof::{Fate, Stretch};
use crate::recipe::Fix;
use web_sys::{Document, Element};

/// A stretch of the proof on the page.
pub struct Word {
    /// Its bytes in the draft.
    pub place: Place,
    /// Its element.
    pub element: Element,
}

/// Paints the draft into the proof, a paragraph for each of its lines, and gives the stretches in order. A slip that was
/// put right is struck out with the word that was meant beside it.
pub fn paint(
    document: &Document,
    proof: &Element,
    draft: &str,
    (stretches, fixes): (&[Stretch], &[Fix]),
) -> Js<Vec<Word>> {
    proof.set_text_content(None);
    let slips = fixes.iter().filter(|f| !f.left);
    let mut words = Vec::new();
    let mut paragraph = make(document, "p", "", "")?;
    let mut touchable = false;
    for stretch in stretches {
        let class = match stretch.fate {
            Fate::Used => "used",
            Fate::Asked => "asked",
            Fate::Kept => "kept",
            Fate::LeftOut => "out",
        };
        let mut start = stretch.start as usize;
        let text = draft.get(start..stretch.end as usize).unwrap_or("");
        for line in text.split_inclusive('\n') {
            let end = start + line.len();
            let shown = line.trim_end_matches(['\n', '\r']);
            if !shown.is_empty() {
                // A stop or a space between two words in use is no talk left out.
                let word = shown.contains(char::is_alphanumeric);
                let element = make(document, "span", if word { class } else { "kept" }, shown)?;
                if matches!(stretch.fate, Fate::Used | Fate::Asked) && !shown.trim().is_empty() {
                    element.set_attribute("data-word", &words.len().to_string())?;
                    element.set_attribute("tabindex", if touchable { "-1" } else { "0" })?;
                    touchable = true;
                }
                let here = Span::new(start, end);
                if let Some(fix) = slips.clone().find(|f| f.span.meets(here)) {
                    element.class_list().add_1("slip")?;
                    if fix.span.end as usize == end {
                        element.set_attribute("data-meant", &fix.meant)?;
                    }
                }
                paragraph.append_child(&element)?;
                words.push(Word { place: (start as u32, end as u32), element });
            }
            if line.ends_with('\n') {
                close(proof, &paragraph)?;
                paragraph = make(document, "p", "", "")?;
            }
            start = end;
        }
    }
    close(proof, &paragraph)?;
    Ok(words)
}

fn close(proof: &Element, paragraph: &Element) -> Js<()> {
    if paragraph.has_child_nodes() {
        // The numbers and times of a caption file are set small, so that the talk reads on.
        let text = paragraph.text_content().unwrap_or_default();
        if crate::letters::holds(&text, "-->") || !text.contains(char::is_alphabetic) {
            paragraph.set_class_name("stamp");
        }
        proof.append_child(paragraph)?;
    }
    Ok(())
}

/// The stretches inside any of the places.
pub fn within<'a>(words: &'a [Word], places: &'a [Place]) -> impl Iterator<Item = &'a Word> {
    places.iter().flat_map(|&(start, end)| {
        let first = words.partition_point(|w| w.place.1 <= start);
        words[first..].iter().take_while(move |w| w.place.0 < end)
    })
}
