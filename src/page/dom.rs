//! The few things the page asks of the browser's document: find a part, stamp a template, listen, wait.

use js_sys::Function;
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{Document, Element, Event, EventTarget, HtmlTemplateElement, Window};

/// What a call into the browser gives.
pub type Js<T> = Result<T, JsValue>;

/// The window.
pub fn window() -> Js<Window> {
    web_sys::window().ok_or_else(|| JsValue::from_str("there is no window"))
}

/// The document.
pub fn document() -> Js<Document> {
    window()?.document().ok_or_else(|| JsValue::from_str("there is no document"))
}

/// The part of the page with this id, of the kind asked for.
pub fn by_id<T: JsCast>(document: &Document, id: &str) -> Js<T> {
    let found = document.get_element_by_id(id).and_then(|e| e.dyn_into::<T>().ok());
    found.ok_or_else(|| JsValue::from_str(&format!("the page has no fitting #{id}")))
}

/// The slot of that name inside a part.
pub fn slot(part: &Element, name: &str) -> Js<Element> {
    find(part, &format!("[data-slot=\"{name}\"]"))
}

/// The first element inside a part that a selector of ours names.
pub fn find<T: JsCast>(part: &Element, selector: &str) -> Js<T> {
    let found = part.query_selector(selector)?.and_then(|e| e.dyn_into::<T>().ok());
    found.ok_or_else(|| JsValue::from_str(&format!("nothing fits {selector}")))
}

/// A fresh copy of what a template holds.
pub fn stamp(document: &Document, template: &str) -> Js<Element> {
    let template: HtmlTemplateElement = by_id(document, template)?;
    let first = template.content().first_element_child().ok_or("an empty template")?;
    Ok(first.clone_node_with_deep(true)?.unchecked_into())
}

/// A new element with a class and a text; the text is never read as markup.
pub fn make(document: &Document, tag: &str, class: &str, text: &str) -> Js<Element> {
    let element = document.create_element(tag)?;
    if !class.is_empty() {
        element.set_class_name(class);
    }
    if !text.is_empty() {
        element.set_text_content(Some(text));
    }
    Ok(element)
}

/// Shows or hides a part.
pub fn show(part: &Element, shown: bool) -> Js<()> {
    part.toggle_attribute_with_force("hidden", !shown).map(|_| ())
}

/// A handler that stops listening when it is dropped.
pub struct Listener {
    target: EventTarget,
    kind: &'static str,
    closure: Closure<dyn FnMut(Event)>,
}

impl Drop for Listener {
    fn drop(&mut self) {
        let handler: &Function = self.closure.as_ref().unchecked_ref();
        // It fails only where the target is gone, and then there is nothing left to remove.
        let _ = self.target.remove_event_listener_with_callback(self.kind, handler);
    }
}

/// Listens for one kind of event. An error of the handler is logged.
pub fn listen(
    target: &EventTarget,
    kind: &'static str,
    mut handle: impl FnMut(Event) -> Js<()> + 'static,
) -> Js<Listener> {
    let closure = Closure::<dyn FnMut(Event)>::new(move |event| {
        if let Err(trouble) = handle(event) {
            web_sys::console::error_1(&trouble);
        }
    });
    target.add_event_listener_with_callback(kind, closure.as_ref().unchecked_ref())?;
    Ok(Listener { target: target.clone(), kind, closure })
}

/// Something to do once after a while, unless it is dropped first.
pub struct Timer {
    id: i32,
    _closure: Closure<dyn FnMut()>,
}

impl Drop for Timer {
    fn drop(&mut self) {
        if let Some(window) = web_sys::window() {
            window.clear_timeout_with_handle(self.id);
        }
    }
}

/// Does it after so many milliseconds.
pub fn after(milliseconds: i32, mut act: impl FnMut() -> Js<()> + 'static) -> Js<Timer> {
    let closure = Closure::<dyn FnMut()>::new(move || {
        if let Err(trouble) = act() {
            web_sys::console::error_1(&trouble);
        }
    });
    let handler: &Function = closure.as_ref().unchecked_ref();
    let id = window()?.set_timeout_with_callback_and_timeout_and_arguments_0(handler, milliseconds)?;
    Ok(Timer { id, _closure: closure })
}
