//! What the reader does with her hands: every handler of the page, each on a part that stays.

use super::dom::{Js, find, listen, show, slot, window};
use super::{Page, SAMPLES, card_of};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, EventTarget, HtmlElement, HtmlInputElement, HtmlSelectElement};

impl Page {
    /// Listens everywhere.
    pub(super) fn listen_all(self: &Rc<Self>) -> Js<()> {
        self.listen_for_files()?;
        let parts = &self.parts;
        self.on(&parts.talk, "input", |page, _| page.typed())?;
        self.on(&parts.talk, "paste", |page, _| {
            // The pasted words arrive after this event; a paste into an empty page is shown as a proof at once.
            let fresh = page.parts.talk.value().trim().is_empty();
            let again = page.clone();
            let timer = super::after(0, move || {
                again.take(again.parts.talk.value())?;
                again.show_proof(fresh)
            })?;
            *page.brief.borrow_mut() = Some(timer);
            Ok(())
        })?;
        self.on(&parts.talk, "keydown", |page, event| {
            let key: &web_sys::KeyboardEvent = event.unchecked_ref();
            if key.key() == "Escape" { page.finish() } else { Ok(()) }
        })?;
        self.on(&parts.edit, "click", |page, _| page.change_words())?;
        self.on(&parts.proof, "dblclick", |page, _| page.change_words())?;
        self.on(&parts.done, "click", |page, _| page.finish())?;
        self.on(&parts.clear, "click", |page, _| {
            page.replace("")?;
            page.parts.talk.focus()
        })?;
        self.on(&parts.restore, "click", |page, _| page.bring_back())?;
        self.on(&parts.print_all, "click", |page, _| page.print(None))?;
        let file = parts.file.clone();
        let open: HtmlElement = super::by_id(&parts.document, "open")?;
        self.on(&open, "click", move |_, _| {
            file.click();
            Ok(())
        })?;
        self.on(&parts.samples, "click", |page, event| {
            let sample = attribute(event, "data-sample").and_then(|s| s.parse::<usize>().ok());
            sample.and_then(|s| SAMPLES.get(s)).map_or(Ok(()), |name| page.replace(crate::lexicon::lists::list(name)))
        })?;
        for id in ["heard-go", "heard-close"] {
            let button: HtmlElement = super::by_id(&parts.document, id)?;
            self.on(&button, "click", move |page, _| if id == "heard-go" { page.go_to_heard() } else { page.unpin() })?;
        }
        for side in [&parts.proof, &parts.slips, &parts.cards] {
            self.on(side, "pointerover", |page, event| {
                let pointer: &web_sys::PointerEvent = event.unchecked_ref();
                // A finger has no hover: what it touches is pinned.
                if pointer.pointer_type() == "mouse" { page.hover(event) } else { Ok(()) }
            })?;
            self.on(side, "pointerleave", |page, event| page.hover(event))?;
            self.on(side, "focusin", |page, event| {
                // A size is typed over, not after.
                if let Some(input) = event.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                    input.select();
                }
                page.hover(event)
            })?;
            self.on(side, "keydown", |page, event| page.walk(event.unchecked_ref()))?;
            self.on(side, "click", |page, event| {
                page.act(event)?;
                page.unfolded(event)?;
                page.pin(event)
            })?;
        }
        self.on(&parts.lost, "click", |page, event| page.act(event))?;
        self.on(&parts.cards, "input", |page, event| page.change(event, false))?;
        self.on(&parts.cards, "change", |page, event| page.change(event, true))?;
        self.on(&parts.cards, "submit", |page, event| {
            event.prevent_default();
            page.answer_typed(event)
        })?;
        let view = window()?;
        self.on(&view, "resize", |page, _| page.settle_margins())?;
        self.on(&view, "afterprint", |page, _| page.after_print())?;
        self.on(&view, "pagehide", |page, _| {
            super::store::keep_draft(&page.parts.talk.value());
            Ok(())
        })?;
        // A paste anywhere on a page that has no draft, or a proof, is meant for the draft.
        self.on(&parts.document, "paste", |page, event| page.paste_anywhere(event.unchecked_ref()))?;
        // Margins are measured again once the faces have arrived, because they change the length of every line.
        if let Ok(fonts) = js_sys::Reflect::get(&parts.document, &"fonts".into())
            && let Ok(fonts) = fonts.dyn_into::<EventTarget>()
        {
            self.on(&fonts, "loadingdone", |page, _| page.settle_margins())?;
        }
        Ok(())
    }

    fn on(
        self: &Rc<Self>,
        target: &EventTarget,
        kind: &'static str,
        handle: impl Fn(&Rc<Page>, &Event) -> Js<()> + 'static,
    ) -> Js<()> {
        // The handler holds the page weakly, or the two would keep each other for ever.
        let page = Rc::downgrade(self);
        let listener = listen(target, kind, move |event| page.upgrade().map_or(Ok(()), |page| handle(&page, &event)))?;
        self.listeners.borrow_mut().push(listener);
        Ok(())
    }

    fn change_words(self: &Rc<Self>) -> Js<()> {
        self.unpin()?;
        self.show_proof(false)?;
        self.parts.talk.focus()
    }

    /// Goes from the text to the proof; what was typed last is read first.
    fn finish(self: &Rc<Self>) -> Js<()> {
        let draft = self.parts.talk.value();
        if draft != self.state.borrow().draft {
            self.take(draft)?;
        }
        self.show_proof(true)?;
        self.parts.edit.focus()
    }

    fn paste_anywhere(self: &Rc<Self>, event: &Event) -> Js<()> {
        let inside = event.target().and_then(|t| t.dyn_into::<Element>().ok());
        if inside.is_some_and(|e| e.closest("textarea, input").ok().flatten().is_some()) {
            return Ok(());
        }
        let data = js_sys::Reflect::get(event, &"clipboardData".into())?;
        let Ok(data) = data.dyn_into::<web_sys::DataTransfer>() else { return Ok(()) };
        let text = data.get_data("text/plain")?;
        if text.trim().is_empty() {
            return Ok(());
        }
        event.prevent_default();
        self.replace(&text)
    }

    /// The buttons of the cards.
    fn act(self: &Rc<Self>, event: &Event) -> Js<()> {
        let Some(button) = event.target().and_then(|t| t.dyn_into::<Element>().ok()) else { return Ok(()) };
        let Some(button) = button.closest("button[data-do]")? else { return Ok(()) };
        let at = button.get_attribute("data-at").and_then(|v| v.parse::<usize>().ok());
        let card = card_of(&button);
        match (button.get_attribute("data-do").unwrap_or_default().as_str(), card) {
            ("size", Some(card)) => {
                let by = button.get_attribute("data-by").unwrap_or_default();
                let article = button.closest(".card")?.ok_or("a card")?;
                let refused = self.resize(card, |choice| (choice.by, choice.asked) = ("scale".into(), by))?;
                trouble(&article, refused.as_deref().unwrap_or(""))
            }
            ("print", Some(card)) => self.print(Some(card)),
            ("copy", Some(card)) => self.copy(card),
            ("choose", Some(card)) => {
                let said = button.get_attribute("data-label").unwrap_or_default();
                query_of(&button)?.map_or(Ok(()), |query| self.answer(card, query, &said))
            }
            ("ask-other", Some(_)) => {
                let Some(note) = button.closest("[data-query]")? else { return Ok(()) };
                let form: Element = find(&note, "form")?;
                show(&form, true)?;
                show(&button, false)?;
                self.settle_margins()?;
                find::<HtmlInputElement>(&form, "input")?.focus()
            }
            (act, _) => match (act, at) {
                ("undo" | "forget", Some(answer)) => self.forget(answer),
                ("leave", Some(slip)) => self.leave(slip),
                ("unleave", Some(left)) => self.unleave(left),
                _ => Ok(()),
            },
        }
    }

    /// A source unfolds in the margin, and what stands below it makes room.
    fn unfolded(self: &Rc<Self>, event: &Event) -> Js<()> {
        let inside = event.target().and_then(|t| t.dyn_into::<Element>().ok());
        if inside.and_then(|e| e.closest("summary").ok().flatten()).is_some() {
            let page = self.clone();
            *self.brief.borrow_mut() = Some(super::after(0, move || page.settle_margins())?);
        }
        Ok(())
    }

    /// A typed size or other measures. While it is typed a number that is not one yet is no trouble.
    fn change(self: &Rc<Self>, event: &Event, finished: bool) -> Js<()> {
        let Some(control) = event.target().and_then(|t| t.dyn_into::<Element>().ok()) else { return Ok(()) };
        let (Some(card), Some(article)) = (card_of(&control), control.closest(".card")?) else { return Ok(()) };
        let act = control.get_attribute("data-do").unwrap_or_default();
        let refused = if let Some(select) = control.dyn_ref::<HtmlSelectElement>() {
            let units = select.value();
            self.resize(card, |choice| choice.units = units)?
        } else if let Some(input) =
            control.dyn_ref::<HtmlInputElement>().filter(|_| ["scale", "servings", "pan"].contains(&act.as_str()))
        {
            let text = input.value().trim().to_string();
            if text.is_empty() {
                // An emptied field asks for nothing; left empty, the card is as spoken again.
                if !finished {
                    return Ok(());
                }
                self.resize(card, |choice| (choice.by, choice.asked) = ("scale".into(), "1".into()))?
            } else if finished && self.shown(card, &act).is_some_and(|shown| shown == text) {
                None
            } else {
                self.resize(card, |choice| (choice.by, choice.asked) = (act.clone(), text))?
            }
        } else {
            return Ok(());
        };
        match refused {
            // A pan is not one until it is typed to its end.
            Some(_) if !finished => Ok(()),
            refused => trouble(&article, refused.as_deref().unwrap_or("")),
        }
    }

    /// What a field of the size shows, so that leaving it unchanged asks for nothing.
    fn shown(&self, card: usize, act: &str) -> Option<String> {
        let state = self.state.borrow();
        let sizing = &state.views.get(card)?.sizing;
        match act {
            "scale" => Some(sizing.factor.clone()),
            "servings" => sizing.makes.clone(),
            _ => None,
        }
    }

    /// The answer typed into a query's own field.
    fn answer_typed(self: &Rc<Self>, event: &Event) -> Js<()> {
        let Some(form) = event.target().and_then(|t| t.dyn_into::<Element>().ok()) else { return Ok(()) };
        let (Some(card), Some(query)) = (card_of(&form), query_of(&form)?) else { return Ok(()) };
        let said = find::<HtmlInputElement>(&form, "input")?.value();
        let said = said.trim();
        // Beside a line an answer is an amount; a query about the whole card takes any words.
        let beside = self.state.borrow().views.get(card).and_then(|v| v.queries.get(query)).and_then(|q| q.line);
        if said.is_empty() || (beside.is_some() && crate::edit::typed(said).is_none()) {
            let slot = slot(&form, "trouble")?;
            slot.set_text_content(Some("Type an amount, such as 1 1/2 cups or 3."));
            show(&slot, true)?;
            return self.settle_margins();
        }
        self.answer(card, query, said)
    }
}

/// Says beside the controls of a card what is wrong with what was typed, or nothing.
fn trouble(article: &Element, message: &str) -> Js<()> {
    let slot: HtmlElement = find(article, ".sizing [data-slot=\"trouble\"]")?;
    slot.set_text_content(Some(message));
    show(&slot, !message.is_empty())
}

fn query_of(element: &Element) -> Js<Option<usize>> {
    let note = element.closest("[data-query]")?;
    Ok(note.and_then(|n| n.get_attribute("data-query")).and_then(|q| q.parse().ok()))
}

fn attribute(event: &Event, name: &str) -> Option<String> {
    let target: Element = event.target()?.dyn_into().ok()?;
    target.closest(&format!("[{name}]")).ok()??.get_attribute(name)
}
