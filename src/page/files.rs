//! Files dropped on the page or opened with its button become the draft. They are read here and go nowhere.

use super::Page;
use super::dom::{Js, listen};
use js_sys::Function;
use std::rc::Rc;
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{DragEvent, Event, File, FileReader};

impl Page {
    /// Listens for files over the whole window.
    pub(super) fn listen_for_files(self: &Rc<Self>) -> Js<()> {
        let root = &self.parts.document;
        let body = root.body().ok_or("the page has no body")?;
        let mut all = Vec::new();
        let over = body.clone();
        all.push(listen(root, "dragover", move |event| {
            event.prevent_default();
            over.class_list().add_1("dropping")
        })?);
        let left = body.clone();
        all.push(listen(root, "dragleave", move |event| {
            // Leaving one element for another inside the page is not leaving the page.
            let event: DragEvent = event.unchecked_into();
            if event.related_target().is_none() { left.class_list().remove_1("dropping") } else { Ok(()) }
        })?);
        let page = self.clone();
        all.push(listen(root, "drop", move |event| {
            event.prevent_default();
            body.class_list().remove_1("dropping")?;
            let event: DragEvent = event.unchecked_into();
            let Some(data) = event.data_transfer() else { return Ok(()) };
            match data.files().and_then(|files| files.get(0)) {
                Some(file) => page.open(&file),
                None => match data.get_data("text/plain") {
                    Ok(text) if !text.trim().is_empty() => page.replace(&text),
                    _ => Ok(()),
                },
            }
        })?);
        let page = self.clone();
        all.push(listen(&self.parts.file, "change", move |_: Event| {
            let file = page.parts.file.files().and_then(|files| files.get(0));
            page.parts.file.set_value("");
            file.map_or(Ok(()), |file| page.open(&file))
        })?);
        self.listeners.borrow_mut().extend(all);
        Ok(())
    }

    /// Reads a file as text and takes it as the draft.
    fn open(self: &Rc<Self>, file: &File) -> Js<()> {
        if file.size() > super::MOST as f64 {
            return self.notice("That file is larger than four megabytes, more than a day of talk. Open a part of it.");
        }
        let reader = FileReader::new()?;
        let (page, source) = (self.clone(), reader.clone());
        let loaded = Closure::once_into_js(move || {
            if let Err(trouble) = page.opened(&source) {
                web_sys::console::error_1(&trouble);
            }
        });
        reader.set_onload(Some(loaded.unchecked_ref::<Function>()));
        let page = self.clone();
        let failed = Closure::once_into_js(move || {
            // The notice is all there is to do about it.
            let _ = page.notice("That file could not be read.");
        });
        reader.set_onerror(Some(failed.unchecked_ref::<Function>()));
        reader.read_as_text(file)
    }

    fn opened(self: &Rc<Self>, reader: &FileReader) -> Js<()> {
        let text = reader.result()?.as_string().unwrap_or_default();
        if crate::letters::holds(&text, "\0") {
            return self.notice("That file is not text. Open a .txt, .vtt or .srt file, or paste the talk.");
        }
        self.replace(&text)?;
        if crate::letters::holds(&text, "\u{fffd}") {
            self.notice("Some letters of that file were too damaged to read; they stand as \u{fffd} in the draft.")?;
        }
        Ok(())
    }
}
