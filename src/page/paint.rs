//! A card view becomes elements of the page. Every text goes in as text; nothing here reads markup.

use super::dom::{Js, find, make, show, slot, stamp};
use crate::letters::capital;
use crate::output::card::{CardView, LineView, MarginView, Place, QueryView};
use crate::output::figures::{Run, runs};
use web_sys::{Document, Element};

/// A part of a card that can be touched, and the words it came from.
pub struct Touch {
    /// The part.
    pub element: Element,
    /// Its words.
    pub places: Vec<Place>,
}

/// What was settled and can be undone: an answer, or a slip of speech-to-text put right.
pub struct Settled {
    /// What its button does.
    pub act: &'static str,
    /// Its index among the answers or the slips.
    pub index: usize,
    /// The line it stands beside.
    pub line: Option<usize>,
    /// What the margin says.
    pub text: String,
    /// The question, where there was one.
    pub query: String,
}

/// Paints the sheet of a card afresh and gives its touchable parts.
pub fn sheet(document: &Document, card: &CardView, settled: &[Settled], resized: &str) -> Js<(Element, Vec<Touch>)> {
    let page = stamp(document, "sheet-template")?;
    let mut painter = Painter { document, card, settled, touches: Vec::new() };
    let title = slot(&page, "title")?;
    figures(document, &title, &card.title)?;
    painter.touch(&title, card.title_place.into_iter().collect())?;
    fill(document, &slot(&page, "headnote")?, card.headnote.as_deref().unwrap_or(""))?;
    fill(document, &slot(&page, "resized")?, resized)?;
    painter.facts(&slot(&page, "facts")?)?;
    painter.asides(&slot(&page, "asides")?, None)?;
    painter.list(&slot(&page, "list")?)?;
    painter.method(&slot(&page, "method")?)?;
    painter.notes(&slot(&page, "notes")?)?;
    painter.remarks(&slot(&page, "below")?, |m| m.line.is_none() && m.step.is_none() && m.note.is_none())?;
    Ok((page, painter.touches))
}

struct Painter<'a> {
    document: &'a Document,
    card: &'a CardView,
    settled: &'a [Settled],
    touches: Vec<Touch>,
}

impl Painter<'_> {
    /// Marks an element as one that came from the draft. One part of a card can be reached with Tab, the others with
    /// the arrows.
    fn touch(&mut self, element: &Element, places: Vec<Place>) -> Js<()> {
        if places.is_empty() {
            return Ok(());
        }
        element.set_attribute("data-touch", &self.touches.len().to_string())?;
        element.set_attribute("tabindex", if self.touches.is_empty() { "0" } else { "-1" })?;
        self.touches.push(Touch { element: element.clone(), places });
        Ok(())
    }

    /// Facts of one kind stand together: "Time 40–45 min, 10 min".
    fn facts(&mut self, list: &Element) -> Js<()> {
        let mut open: Option<(&str, Element)> = None;
        for fact in &self.card.facts {
            let entry = match open.take() {
                Some((label, entry)) if label == fact.label => entry,
                _ => {
                    let entry = stamp(self.document, "fact-template")?;
                    figures(self.document, &find(&entry, "dt")?, &fact.label)?;
                    list.append_child(&entry)?;
                    entry
                }
            };
            let value = make(self.document, "dd", "", "")?;
            figures(self.document, &value, &fact.value)?;
            entry.append_child(&value)?;
            self.touch(&value, fact.place.into_iter().collect())?;
            open = Some((&fact.label, entry));
        }
        show(list, !self.card.facts.is_empty())
    }

    fn list(&mut self, list: &Element) -> Js<()> {
        for group in &self.card.groups {
            if let Some(name) = &group.name {
                list.append_child(&*make(self.document, "h3", "", &capital(name))?)?;
            }
            let lines = make(self.document, "ul", "", "")?;
            for line in &group.lines {
                let item = self.line(line)?;
                lines.append_child(&item)?;
            }
            list.append_child(&lines)?;
        }
        Ok(())
    }

    fn line(&mut self, line: &LineView) -> Js<Element> {
        let item = stamp(self.document, "line-template")?;
        let amount = slot(&item, "amount")?;
        figures(self.document, &amount, &line.amount)?;
        if let Some(exact) = &line.exact {
            amount.set_attribute("title", &format!("exactly {exact}"))?;
        }
        let food = slot(&item, "food")?;
        figures(self.document, &food, &line.name)?;
        for extra in [&line.prep, &line.remark] {
            if !extra.is_empty() {
                food.append_child(&self.document.create_text_node(", "))?;
                let part = make(self.document, "i", "", "")?;
                figures(self.document, &part, extra)?;
                food.append_child(&part)?;
            }
        }
        self.touch(&item, line.places.clone())?;
        if self.card.queries.iter().any(|q| q.line == Some(line.index)) {
            item.class_list().add_1("asked")?;
        }
        self.asides(&item, Some(line.index))?;
        self.remarks(&item, |m| m.line == Some(line.index))?;
        Ok(item)
    }

    /// The queries beside a line, and what is settled there.
    fn asides(&mut self, beside: &Element, line: Option<usize>) -> Js<()> {
        let known =
            |l: Option<usize>| l.filter(|l| self.card.groups.iter().any(|g| g.lines.iter().any(|v| v.index == *l)));
        for (index, query) in self.card.queries.iter().enumerate().filter(|(_, q)| known(q.line) == line) {
            beside.append_child(&*self.query(index, query)?)?;
        }
        for settled in self.settled.iter().filter(|s| known(s.line) == line) {
            let note = stamp(self.document, "settled-template")?;
            figures(self.document, &slot(&note, "text")?, &settled.text)?;
            note.set_attribute("title", &settled.query)?;
            let button: Element = find(&note, "button")?;
            button.set_attribute("data-do", settled.act)?;
            button.set_attribute("data-at", &settled.index.to_string())?;
            beside.append_child(&note)?;
        }
        Ok(())
    }

    fn query(&self, index: usize, query: &QueryView) -> Js<Element> {
        let note = stamp(self.document, "query-template")?;
        note.set_attribute("data-query", &index.to_string())?;
        figures(self.document, &slot(&note, "text")?, &query.text)?;
        let choices = slot(&note, "choices")?;
        let choice = |label: &str, act: &str| -> Js<()> {
            let button = stamp(self.document, "choice-template")?;
            figures(self.document, &button, label)?;
            button.set_attribute("data-do", act)?;
            button.set_attribute("data-label", label)?;
            choices.append_child(&button).map(|_| ())
        };
        for label in &query.choices {
            choice(label, "choose")?;
        }
        choice(if query.choices.is_empty() { "Answer" } else { "Other" }, "ask-other")?;
        Ok(note)
    }

    fn remarks(&self, beside: &Element, here: impl Fn(&MarginView) -> bool) -> Js<()> {
        for remark in self.card.margin.iter().filter(|m| here(m)) {
            beside.append_child(&*self.remark(remark)?)?;
        }
        Ok(())
    }

    fn remark(&self, remark: &MarginView) -> Js<Element> {
        let note = stamp(self.document, "remark-template")?;
        note.class_list().add_1(remark.kind)?;
        figures(self.document, &slot(&note, "text")?, &remark.text)?;
        if let Some(source) = &remark.source {
            slot(&note, "source")?.set_text_content(Some(source));
            show(&find::<Element>(&note, "details")?, true)?;
        }
        Ok(note)
    }

    fn method(&mut self, method: &Element) -> Js<()> {
        let mut list: Option<Element> = None;
        let mut group = None;
        for (at, step) in self.card.steps.iter().enumerate() {
            if step.group.is_some() && step.group != group {
                group = step.group.clone();
                method.append_child(&*make(self.document, "h3", "", &capital(group.as_deref().unwrap_or("")))?)?;
                list = None;
            }
            let list = match &list {
                Some(list) => list.clone(),
                None => {
                    let fresh = make(self.document, "ol", "", "")?;
                    method.append_child(&fresh)?;
                    list.insert(fresh).clone()
                }
            };
            let item = make(self.document, "li", "", "")?;
            let told = make(self.document, "p", "", "")?;
            item.append_child(&told)?;
            if !step.lead.is_empty() {
                let lead = make(self.document, "b", "", "")?;
                figures(self.document, &lead, &step.lead)?;
                told.append_child(&lead)?;
            }
            for piece in &step.pieces {
                let part = make(self.document, "span", piece.kind, "")?;
                figures(self.document, &part, &piece.text)?;
                self.touch(&part, piece.place.into_iter().collect())?;
                told.append_child(&part)?;
            }
            self.remarks(&item, |m| m.step == Some(at))?;
            list.append_child(&item)?;
        }
        Ok(())
    }

    fn notes(&mut self, notes: &Element) -> Js<()> {
        for (at, note) in self.card.notes.iter().enumerate() {
            let item = make(self.document, "div", "note", "")?;
            let part = make(self.document, "p", "", "")?;
            if !note.lead.is_empty() {
                let stop = if note.lead.ends_with(|c: char| c.is_alphanumeric()) { "." } else { "" };
                let lead = make(self.document, "b", "", &format!("{}{stop}", note.lead))?;
                part.append_child(&lead)?;
                part.append_child(&self.document.create_text_node(" "))?;
            }
            figures(self.document, &part, &note.text)?;
            self.touch(&part, note.place.into_iter().collect())?;
            item.append_child(&part)?;
            self.remarks(&item, |m| m.note == Some(at))?;
            notes.append_child(&item)?;
        }
        show(notes, !self.card.notes.is_empty())
    }
}

/// Sets a text at the end of an element: fractions as fractions, a number tied to its unit.
pub fn figures(document: &Document, element: &Element, text: &str) -> Js<()> {
    let mut mixed: Option<Element> = None;
    for run in runs(text) {
        match run {
            Run::Text(text) => {
                element.append_child(&document.create_text_node(&text))?;
            }
            Run::Tied(whole) => {
                let pair = make(document, "span", "mixed", &format!("{whole}\u{a0}"))?;
                element.append_child(&pair)?;
                mixed = Some(pair);
            }
            Run::Fraction(fraction) => {
                let set = make(document, "span", "frac", &fraction)?;
                mixed.take().as_ref().unwrap_or(element).append_child(&set)?;
            }
        }
    }
    Ok(())
}

/// Fills a slot and shows it, or hides it where there is nothing to say.
fn fill(document: &Document, slot: &Element, text: &str) -> Js<()> {
    slot.set_text_content(None);
    figures(document, slot, text)?;
    show(slot, !text.is_empty())
}
