//! The page: a draft changes, it is read, its cards are set.
//!
//! The page decides nothing about recipes: it walks card views and puts their text into the slots of `www/index.html`.
//! No borrow of the state is held while the document is touched, because setting a value can fire a handler at once.

pub mod dom;
mod files;
mod galley;
mod hands;
mod margin;
mod paint;
mod sizes;
mod slips;
mod store;

use crate::draft::Span;
use crate::edit::{Answer, Kept, Laid, Left, heard, lay};
use crate::kitchen::Wanted;
use crate::output::card::{CardView, Place};
use crate::output::proof::proof;
use crate::output::view::view;
use crate::recipe::Book;
use dom::{Js, Listener, Timer, after, by_id, document, find, show, slot, stamp, window};
use galley::Word;
use js_sys::Function;
use paint::{Settled, Touch};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{Document, Element, Event, HtmlElement, HtmlInputElement, HtmlTextAreaElement, KeyboardEvent};

/// Drafts up to here are read while they are typed, after a breath; longer ones wait for a longer pause.
const SHORT: usize = 40_000;
/// Drafts from here on say that they are being read, because it can take a second.
const LONG: usize = 150_000;
/// The longest draft the page takes, in bytes. A day of talk is a third of it; a guess, to keep the window alive.
const MOST: usize = 4_000_000;

/// The sample drafts, in the order of their buttons; they come with the word lists.
const SAMPLES: [&str; 3] = ["samples/corn-pudding.txt", "samples/sunday-dinner.txt", "samples/flatbreads.vtt"];

/// The parts of the page, found once.
struct Parts {
    document: Document,
    talk: HtmlTextAreaElement,
    proof: HtmlElement,
    cards: HtmlElement,
    empty: HtmlElement,
    tally: HtmlElement,
    notice: HtmlElement,
    heard: HtmlElement,
    lost: HtmlElement,
    slips: HtmlElement,
    edit: HtmlElement,
    done: HtmlElement,
    clear: HtmlElement,
    samples: HtmlElement,
    hint: HtmlElement,
    print_all: HtmlElement,
    restore: HtmlElement,
    file: HtmlInputElement,
}

/// A card on the page.
struct Shell {
    article: Element,
    sheet: HtmlElement,
    touches: Vec<Touch>,
}

/// What the page knows.
#[derive(Default)]
struct State {
    draft: String,
    /// The reading with the answers laid over it.
    book: Book,
    laid: Laid,
    views: Vec<CardView>,
    kept: Kept,
    shells: Vec<Shell>,
    words: Vec<Word>,
    /// What stays lit when the pointer leaves.
    pinned: Option<Vec<Place>>,
    lit: Vec<Element>,
    /// The draft that another one replaced.
    aside: Option<(String, Kept)>,
}

/// The page, shared by its handlers.
struct Page {
    parts: Parts,
    state: RefCell<State>,
    typing: RefCell<Option<Timer>>,
    brief: RefCell<Option<Timer>>,
    listeners: RefCell<Vec<Listener>>,
    proofed: Cell<bool>,
}

thread_local! {
    static PAGE: RefCell<Option<Rc<Page>>> = const { RefCell::new(None) };
}

/// Finds the parts of the page, brings back the last draft and listens. Starting again replaces the page before.
pub fn start() -> Js<()> {
    let old = PAGE.with(|slot| slot.borrow_mut().take());
    drop(old);
    let page = Rc::new(Page {
        parts: Parts::find(document()?)?,
        state: RefCell::default(),
        typing: RefCell::default(),
        brief: RefCell::default(),
        listeners: RefCell::default(),
        proofed: Cell::new(false),
    });
    page.listen_all()?;
    PAGE.with(|slot| *slot.borrow_mut() = Some(page.clone()));
    page.state.borrow_mut().kept = store::kept();
    let draft = store::draft().unwrap_or_default();
    page.parts.talk.set_value(&draft);
    if store::reading_broke() {
        page.state.borrow_mut().draft = draft;
        store::mark_reading(false);
        page.show_proof(false)?;
        return page.notice("The last reading of this draft never came to its end. It is kept here: change a word and it is read again.");
    }
    page.take(draft)?;
    page.show_proof(true)
}

impl Parts {
    fn find(document: Document) -> Js<Parts> {
        Ok(Parts {
            talk: by_id(&document, "talk")?,
            proof: by_id(&document, "proof")?,
            cards: by_id(&document, "cards")?,
            empty: by_id(&document, "empty")?,
            tally: by_id(&document, "tally")?,
            notice: by_id(&document, "notice")?,
            heard: by_id(&document, "heard")?,
            lost: by_id(&document, "lost")?,
            slips: by_id(&document, "slips")?,
            edit: by_id(&document, "edit")?,
            done: by_id(&document, "done")?,
            clear: by_id(&document, "clear")?,
            samples: by_id(&document, "samples")?,
            hint: by_id(&document, "hint")?,
            print_all: by_id(&document, "print-all")?,
            restore: by_id(&document, "restore")?,
            file: by_id(&document, "file")?,
            document,
        })
    }
}

impl Page {
    /// Takes a draft: reads it, lays the answers over the reading, paints.
    fn take(self: &Rc<Self>, draft: String) -> Js<()> {
        *self.typing.borrow_mut() = None;
        if draft.len() > MOST {
            return self.notice("This draft is longer than four megabytes. Paste a part of it at a time.");
        }
        if !store::keep_draft(&draft) {
            self.notice("This browser could not keep the draft: copy it somewhere safe before the window closes.")?;
        }
        if draft.len() < LONG {
            return self.read(draft);
        }
        self.parts.tally.set_text_content(Some("Reading…"));
        let page = self.clone();
        let mut draft = Some(draft);
        // The window is given the time to say so first.
        let timer = after(60, move || draft.take().map_or(Ok(()), |d| page.read(d)))?;
        *self.typing.borrow_mut() = Some(timer);
        Ok(())
    }

    fn read(self: &Rc<Self>, draft: String) -> Js<()> {
        store::mark_reading(true);
        let kept = self.state.borrow().kept.clone();
        let mut book = crate::read_leaving(&draft, &kept.left_in(&draft));
        let laid = lay(&mut book, &draft, &kept.answers);
        let views =
            book.cards.iter().enumerate().map(|(at, card)| view(card, &sizes::wanted(&kept, &book, at))).collect();
        {
            let mut state = self.state.borrow_mut();
            state.draft = draft;
            state.book = book;
            state.laid = laid;
            state.views = views;
            state.pinned = None;
        }
        store::mark_reading(false);
        self.paint_cards()?;
        self.paint_proof()?;
        self.paint_slips()?;
        self.paint_about()
    }

    /// Reads the draft again, after an answer was given or taken back.
    fn again(self: &Rc<Self>) -> Js<()> {
        let draft = {
            let state = self.state.borrow();
            store::keep(&state.kept);
            state.draft.clone()
        };
        self.read(draft)
    }

    fn paint_cards(&self) -> Js<()> {
        let wanted = self.state.borrow().views.len();
        let mut shells = std::mem::take(&mut self.state.borrow_mut().shells);
        for gone in shells.drain(wanted.min(shells.len())..) {
            gone.article.remove();
        }
        while shells.len() < wanted {
            let article = stamp(&self.parts.document, "card-template")?;
            article.set_attribute("data-card", &shells.len().to_string())?;
            self.parts.cards.append_child(&article)?;
            shells.push(Shell { sheet: find(&article, "[data-slot=\"sheet\"]")?, article, touches: Vec::new() });
        }
        self.state.borrow_mut().shells = shells;
        for at in 0..wanted {
            self.paint_card(at)?;
        }
        Ok(())
    }

    /// Paints one card afresh inside its shell, which keeps its controls and what is typed in them.
    fn paint_card(&self, at: usize) -> Js<()> {
        let Some((view, said, card, size, settled, article, sheet)) = ({
            let state = self.state.borrow();
            let shell = state.shells.get(at).map(|s| (s.article.clone(), s.sheet.clone()));
            let mut settled: Vec<Settled> = state
                .laid
                .settled
                .iter()
                .filter(|s| s.card == at)
                .filter_map(|s| {
                    let answer = state.kept.answers.get(s.answer)?;
                    let text = format!("Settled: {}.", answer.said);
                    Some(Settled { act: "undo", index: s.answer, line: s.line, text, query: answer.query.clone() })
                })
                .collect();
            settled.extend(slips::beside(&state.book, at));
            let size = sizes::of(&state.kept, &state.book, at);
            match (state.views.get(at).cloned(), state.book.cards.get(at).cloned(), shell) {
                (Some(shown), Some(card), Some((article, sheet))) => {
                    let said = view(&card, &Wanted::default());
                    Some((shown, said, card, size, settled, article, sheet))
                }
                _ => None,
            }
        }) else {
            return Ok(());
        };
        let resized = sizes::sentence(&view, &said);
        let (page, touches) = paint::sheet(&self.parts.document, &view, &settled, &resized)?;
        sheet.set_text_content(None);
        sheet.append_child(&page)?;
        sizes::show(&article, &size, &card, &view)?;
        if let Some(shell) = self.state.borrow_mut().shells.get_mut(at) {
            shell.touches = touches;
        }
        margin::settle(&sheet)
    }

    fn paint_proof(&self) -> Js<()> {
        let (draft, stretches, fixes) = {
            let mut state = self.state.borrow_mut();
            let stretches = proof(state.draft.len(), &state.book.clauses, &state.book.fixes, &state.views);
            (state.draft.clone(), stretches, std::mem::take(&mut state.book.fixes))
        };
        // While the draft is typed nobody sees the proof; it is painted when it is shown.
        let words = if self.proofed.get() {
            galley::paint(&self.parts.document, &self.parts.proof, &draft, (&stretches, &fixes))?
        } else {
            Vec::new()
        };
        let mut state = self.state.borrow_mut();
        state.words = words;
        state.book.fixes = fixes;
        Ok(())
    }

    /// Paints what stands around the draft and the cards: the tally, the empty page, the answers that lost their place.
    fn paint_about(&self) -> Js<()> {
        let (draft, cards, queries, lost) = {
            let state = self.state.borrow();
            let queries: usize = state.views.iter().map(|v| v.queries.len()).sum();
            let mut lost: Vec<(&str, usize, String)> = state
                .laid
                .lost
                .iter()
                .filter_map(|&at| state.kept.answers.get(at).map(|a| (at, format!("{} Settled: {}.", a.query, a.said))))
                .map(|(at, text)| ("forget", at, text))
                .collect();
            for (at, left) in state.kept.left.iter().enumerate() {
                let places = left.places(&state.draft);
                if !state.book.fixes.iter().any(|f| f.left && places.iter().any(|p| p.meets(f.span))) {
                    lost.push(("unleave", at, format!("“{}” left as heard.", left.heard)));
                }
            }
            (state.draft.trim().is_empty(), state.views.len(), queries, lost)
        };
        let parts = &self.parts;
        let cards_told = if cards == 1 { "1 card".into() } else { format!("{cards} cards") };
        let asked = match queries {
            0 => "nothing left to ask".into(),
            1 => "1 query open".into(),
            n => format!("{n} queries open"),
        };
        parts.tally.set_text_content(Some(&if cards == 0 {
            String::new()
        } else {
            format!("{cards_told} · {asked}")
        }));
        parts.tally.class_list().toggle_with_force("asking", queries > 0)?;
        let empty = if cards > 0 {
            ""
        } else if draft {
            "The cards are set here as the draft comes in: one for each dish, with the words each figure came from."
        } else {
            "No dish is heard in this draft yet. A card starts where somebody names a food and how much of it, or says what to do with it."
        };
        parts.empty.set_text_content(Some(empty));
        show(&parts.empty, cards == 0)?;
        show(&parts.samples, draft)?;
        show(&parts.hint, draft)?;
        show(&parts.clear, !draft)?;
        show(&parts.print_all, cards > 1)?;
        parts.document.body().map_or(Ok(()), |b| b.class_list().toggle_with_force("blank", draft).map(|_| ()))?;
        show(&parts.lost, !lost.is_empty())?;
        let list: Element = find(&parts.lost, "ul")?;
        list.set_text_content(None);
        for (act, at, text) in lost {
            let item = stamp(&parts.document, "lost-template")?;
            slot(&item, "text")?.set_text_content(Some(&text));
            let button: Element = find(&item, "button")?;
            button.set_attribute("data-do", act)?;
            button.set_attribute("data-at", &at.to_string())?;
            list.append_child(&item)?;
        }
        Ok(())
    }

    /// Shows the draft as a proof to read and touch, or as text to change. An empty draft is always text.
    fn show_proof(&self, wanted: bool) -> Js<()> {
        let proofed = wanted && !self.state.borrow().draft.trim().is_empty();
        let changed = self.proofed.replace(proofed) != proofed;
        let parts = &self.parts;
        show(&parts.proof, proofed)?;
        show(&parts.talk, !proofed)?;
        show(&parts.edit, proofed)?;
        show(&parts.done, !proofed && !self.state.borrow().draft.trim().is_empty())?;
        if changed && proofed { self.paint_proof() } else { Ok(()) }
    }

    /// Puts another draft in the place of this one, which can be brought back.
    fn replace(self: &Rc<Self>, draft: &str) -> Js<()> {
        {
            let mut state = self.state.borrow_mut();
            let kept = std::mem::take(&mut state.kept);
            let old = std::mem::take(&mut state.draft);
            if !old.trim().is_empty() && old != draft {
                state.aside = Some((old, kept));
            }
            store::keep(&state.kept);
        }
        self.parts.talk.set_value(draft);
        show(&self.parts.notice, false)?;
        if self.state.borrow().aside.is_some() {
            self.notice("The draft that was here is set aside.")?;
            show(&self.parts.restore, true)?;
        }
        self.state.borrow_mut().draft = draft.to_string();
        self.take(draft.to_string())?;
        self.show_proof(true)
    }

    fn bring_back(self: &Rc<Self>) -> Js<()> {
        let Some((draft, kept)) = self.state.borrow_mut().aside.take() else { return Ok(()) };
        store::keep(&kept);
        {
            let mut state = self.state.borrow_mut();
            state.kept = kept;
            state.draft = draft.clone();
        }
        self.parts.talk.set_value(&draft);
        show(&self.parts.notice, false)?;
        self.take(draft)?;
        self.show_proof(true)
    }

    fn notice(&self, text: &str) -> Js<()> {
        slot(&self.parts.notice, "text")?.set_text_content(Some(text));
        show(&self.parts.restore, false)?;
        show(&self.parts.notice, true)
    }

    /// Waits for a pause in the typing and reads.
    fn typed(self: &Rc<Self>) -> Js<()> {
        let length = self.parts.talk.value().len();
        let pause = if length < SHORT {
            180
        } else if length < LONG {
            500
        } else {
            1200
        };
        let page = self.clone();
        let timer = after(pause, move || {
            let draft = page.parts.talk.value();
            page.take(draft)?;
            show(&page.parts.done, !page.parts.talk.value().trim().is_empty())
        })?;
        *self.typing.borrow_mut() = Some(timer);
        Ok(())
    }

    /// Lights these words in the draft, and every part of a card that came from them.
    fn light(&self, places: &[Place]) -> Js<()> {
        let (old, lit) = {
            let mut state = self.state.borrow_mut();
            let mut lit: Vec<Element> = galley::within(&state.words, places).map(|w| w.element.clone()).collect();
            let meets = |touch: &&Touch| touch.places.iter().any(|a| places.iter().any(|b| a.0 < b.1 && b.0 < a.1));
            lit.extend(state.shells.iter().flat_map(|s| &s.touches).filter(meets).map(|t| t.element.clone()));
            (std::mem::replace(&mut state.lit, lit.clone()), lit)
        };
        for element in &old {
            element.class_list().remove_1("lit")?;
        }
        for element in &lit {
            element.class_list().add_1("lit")?;
        }
        Ok(())
    }

    /// The words of what an event touched, and whether it was touched on a card.
    fn touched(&self, event: &Event) -> Option<(Vec<Place>, bool)> {
        let target: Element = event.target()?.dyn_into().ok()?;
        if let Some(part) = target.closest("[data-touch]").ok().flatten() {
            if target.closest("button, input, form, select").ok().flatten().is_some() {
                return None;
            }
            let at: usize = part.get_attribute("data-touch")?.parse().ok()?;
            let places = self.state.borrow().shells.get(card_of(&part)?)?.touches.get(at)?.places.clone();
            return Some((places, true));
        }
        if let Some(note) = target.closest("[data-query]").ok().flatten() {
            let at: usize = note.get_attribute("data-query")?.parse().ok()?;
            let places = self.state.borrow().views.get(card_of(&note)?)?.queries.get(at)?.places.clone();
            return Some((places, true));
        }
        if let Some(slip) = target.closest("[data-slip]").ok().flatten() {
            let at: usize = slip.get_attribute("data-slip")?.parse().ok()?;
            let span = self.state.borrow().book.fixes.get(at)?.span;
            return Some((vec![(span.start, span.end)], true));
        }
        let word = target.closest("[data-word]").ok().flatten()?;
        let at: usize = word.get_attribute("data-word")?.parse().ok()?;
        let place = self.state.borrow().words.get(at)?.place;
        Some((vec![place], false))
    }

    fn hover(&self, event: &Event) -> Js<()> {
        match self.touched(event) {
            Some((places, _)) => self.light(&places),
            None => {
                let pinned = self.state.borrow().pinned.clone().unwrap_or_default();
                self.light(&pinned)
            }
        }
    }

    /// Keeps what was touched lit, and shows the other side of it.
    fn pin(&self, event: &Event) -> Js<()> {
        let Some((places, from_card)) = self.touched(event) else { return Ok(()) };
        // While the words are being changed there is nothing to light them in.
        if from_card && !self.proofed.get() && self.parts.talk.value() == self.state.borrow().draft {
            self.show_proof(true)?;
        }
        self.state.borrow_mut().pinned = Some(places.clone());
        self.light(&places)?;
        let (word, touch) = {
            let state = self.state.borrow();
            let word = galley::within(&state.words, &places).next().map(|w| w.element.clone());
            let meets = |t: &&Touch| t.places.iter().any(|a| places.iter().any(|b| a.0 < b.1 && b.0 < a.1));
            let touch = state.shells.iter().flat_map(|s| &s.touches).find(meets).map(|t| t.element.clone());
            (word, touch)
        };
        let other = if from_card { word } else { touch };
        self.show_heard(&places, from_card, other.clone())?;
        // In one column the other side is a page away: the strip at the foot says it instead.
        let wide = window()?.match_media("(min-width: 62rem)")?.is_some_and(|m| m.matches());
        match other {
            Some(other) if wide => reveal(&other),
            _ => Ok(()),
        }
    }

    /// Fills the strip at the foot of a narrow window: the words a line came from, or the line that words went to.
    fn show_heard(&self, places: &[Place], from_card: bool, other: Option<Element>) -> Js<()> {
        let text = slot(&self.parts.heard, "text")?;
        text.set_text_content(None);
        let document = &self.parts.document;
        if from_card {
            let said = self.state.borrow().draft.clone();
            let Some(&(start, end)) = places.first() else { return Ok(()) };
            let (before, words, after) = Span { start, end }.around(&said, 40);
            text.append_child(&document.create_text_node(&format!("… {before}")))?;
            text.append_child(&*dom::make(document, "mark", "", words)?)?;
            text.append_child(&document.create_text_node(&format!("{after} …")))?;
        } else {
            let Some(line) = &other else { return Ok(()) };
            let shown = line.text_content().unwrap_or_default();
            text.set_text_content(Some(shown.trim()));
            // A line's amount and food stand in two columns; here they follow each other.
            if let (Ok(amount), Ok(food)) = (slot(line, "amount"), slot(line, "food")) {
                let pair = format!(
                    "{} {}",
                    amount.text_content().unwrap_or_default(),
                    food.text_content().unwrap_or_default()
                );
                text.set_text_content(Some(pair.trim()));
            }
        }
        self.parts.heard.set_attribute("data-from", if from_card { "card" } else { "draft" })?;
        show(&self.parts.heard, true)
    }

    fn unpin(&self) -> Js<()> {
        self.state.borrow_mut().pinned = None;
        show(&self.parts.heard, false)?;
        self.light(&[])
    }

    /// Scrolls to the other side of what is pinned.
    fn go_to_heard(&self) -> Js<()> {
        let from_card = self.parts.heard.get_attribute("data-from").as_deref() == Some("card");
        let side: &Element = if from_card { &self.parts.proof } else { &self.parts.cards };
        show(&self.parts.heard, false)?;
        match side.query_selector(".lit")? {
            Some(lit) => reveal(&lit),
            None => Ok(()),
        }
    }

    /// Moves the focus among the parts of one card, or among the words of the proof.
    fn walk(&self, event: &KeyboardEvent) -> Js<()> {
        let key = event.key();
        if key == "Escape" {
            return self.unpin();
        }
        let Some(target) = event.target().and_then(|t| t.dyn_into::<HtmlElement>().ok()) else { return Ok(()) };
        let (kind, home) = if target.has_attribute("data-touch") {
            ("[data-touch]", target.closest(".card")?)
        } else if target.has_attribute("data-word") {
            ("[data-word]", Some(self.parts.proof.clone().into()))
        } else {
            return Ok(());
        };
        if key == "Enter" || key == " " {
            event.prevent_default();
            return self.pin(event);
        }
        let step: i64 = match key.as_str() {
            "ArrowDown" | "ArrowRight" => 1,
            "ArrowUp" | "ArrowLeft" => -1,
            _ => return Ok(()),
        };
        event.prevent_default();
        let Some(home) = home else { return Ok(()) };
        let all = home.query_selector_all(kind)?;
        let here = (0..all.length()).find(|&i| all.item(i).is_some_and(|n| n.is_same_node(Some(&target))));
        let next = here.map(|i| i64::from(i) + step).and_then(|i| u32::try_from(i).ok()).and_then(|i| all.item(i));
        if let Some(next) = next.and_then(|n| n.dyn_into::<HtmlElement>().ok()) {
            target.set_attribute("tabindex", "-1")?;
            next.set_attribute("tabindex", "0")?;
            next.focus()?;
        }
        Ok(())
    }

    /// Settles a query with an answer.
    fn answer(self: &Rc<Self>, card: usize, query: usize, said: &str) -> Js<()> {
        {
            let mut state = self.state.borrow_mut();
            let Some(found) = state.book.cards.get(card) else { return Ok(()) };
            let Some(asked) = found.queries.get(query) else { return Ok(()) };
            let answer = Answer {
                card: found.title.clone(),
                query: asked.text.clone(),
                heard: heard(asked, &state.draft),
                said: said.to_string(),
            };
            state
                .kept
                .answers
                .retain(|a| (&a.query, &a.heard) != (&answer.query, &answer.heard) || a.card != answer.card);
            state.kept.answers.push(answer);
        }
        self.again()
    }

    fn forget(self: &Rc<Self>, answer: usize) -> Js<()> {
        {
            let mut state = self.state.borrow_mut();
            if answer < state.kept.answers.len() {
                state.kept.answers.remove(answer);
            }
        }
        self.again()
    }

    /// Sets a card in another size or other measures, or gives the reason why the kitchen cannot.
    fn resize(self: &Rc<Self>, card: usize, change: impl FnOnce(&mut sizes::Choice)) -> Js<Option<String>> {
        {
            let mut state = self.state.borrow_mut();
            let before = sizes::of(&state.kept, &state.book, card);
            let mut choice = before.clone();
            change(&mut choice);
            if choice == before {
                return Ok(None);
            }
            if let Some(Err(why)) = state.book.cards.get(card).map(|c| choice.wanted(c)) {
                return Ok(Some(why.to_string()));
            }
            let State { kept, book, .. } = &mut *state;
            sizes::set(kept, book, card, choice);
            let wanted = sizes::wanted(&state.kept, &state.book, card);
            let Some(painted) = state.book.cards.get(card).map(|c| view(c, &wanted)) else { return Ok(None) };
            if let Some(place) = state.views.get_mut(card) {
                *place = painted;
            }
            store::keep(&state.kept);
        }
        self.paint_card(card)?;
        let pinned = self.state.borrow().pinned.clone().unwrap_or_default();
        self.light(&pinned)?;
        Ok(None)
    }

    /// Prints one card, or all of them where none is named.
    fn print(&self, card: Option<usize>) -> Js<()> {
        let Some(body) = self.parts.document.body() else { return Ok(()) };
        let articles: Vec<Element> = self.state.borrow().shells.iter().map(|s| s.article.clone()).collect();
        for (at, article) in articles.iter().enumerate() {
            article.class_list().toggle_with_force("chosen", card == Some(at))?;
        }
        body.class_list().toggle_with_force("print-one", card.is_some())?;
        window()?.print()
    }

    fn after_print(&self) -> Js<()> {
        let body = self.parts.document.body();
        body.map_or(Ok(()), |b| b.class_list().remove_1("print-one"))
    }

    /// Copies a card as text and says so beside the button.
    fn copy(self: &Rc<Self>, card: usize) -> Js<()> {
        let (text, article) = {
            let state = self.state.borrow();
            let (Some(view), Some(shell)) = (state.views.get(card), state.shells.get(card)) else { return Ok(()) };
            (as_text(view), shell.article.clone())
        };
        let done = slot(&article, "done")?;
        // Outside a secure context a browser has no clipboard to write to.
        let clipboard = js_sys::Reflect::get(&window()?.navigator(), &"clipboard".into())?;
        let Ok(clipboard) = clipboard.dyn_into::<web_sys::Clipboard>() else {
            done.set_text_content(Some("This browser does not let the page copy."));
            return Ok(());
        };
        let say = |text: &'static str| {
            let done = done.clone();
            Closure::once_into_js(move |_: JsValue| done.set_text_content(Some(text)))
        };
        let (copied, refused) = (say("Copied."), say("This browser did not let the page copy."));
        let then: Function = js_sys::Reflect::get(&clipboard, &"writeText".into())?.dyn_into()?;
        let promise: js_sys::Promise = then.call1(&clipboard, &text.into())?.dyn_into()?;
        let attach: Function = js_sys::Reflect::get(&promise, &"then".into())?.dyn_into()?;
        attach.call2(&promise, &copied, &refused)?;
        let timer = after(4000, move || {
            done.set_text_content(None);
            Ok(())
        })?;
        *self.brief.borrow_mut() = Some(timer);
        Ok(())
    }

    fn settle_margins(&self) -> Js<()> {
        let sheets: Vec<HtmlElement> = self.state.borrow().shells.iter().map(|s| s.sheet.clone()).collect();
        sheets.iter().try_for_each(margin::settle)
    }
}

/// The card as text. The one place the page asks for it.
fn as_text(card: &CardView) -> String {
    crate::output::text::text(card)
}

/// Which card an element belongs to.
fn card_of(element: &Element) -> Option<usize> {
    element.closest(".card").ok()??.get_attribute("data-card")?.parse().ok()
}

/// Brings an element into view, without a glide where the reader asked for less motion.
fn reveal(element: &Element) -> Js<()> {
    let still = window()?.match_media("(prefers-reduced-motion: reduce)")?.is_some_and(|m| m.matches());
    let options = web_sys::ScrollIntoViewOptions::new();
    options.set_behavior(if still { web_sys::ScrollBehavior::Instant } else { web_sys::ScrollBehavior::Smooth });
    options.set_block(web_sys::ScrollLogicalPosition::Nearest);
    element.scroll_into_view_with_scroll_into_view_options(&options);
    Ok(())
}
