//! The page's own code in a real browser: slots found, typing read, text kept as text.
#![cfg(target_arch = "wasm32")]

use js_sys::{JSON, Reflect};
use plainspoon::page::dom::{Js, after, by_id, document, listen, make, show, stamp, window};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Element, Event, HtmlElement, HtmlTextAreaElement};

wasm_bindgen_test_configure!(run_in_browser);

/// Puts the real structure of the page into the test's document, with nothing kept from before, and starts it.
fn open(draft: &str) -> Js<HtmlElement> {
    let storage = window()?.local_storage()?.ok_or("no storage")?;
    storage.clear()?;
    storage.set_item("plainspoon.draft", draft)?;
    let html = include_str!("../../www/index.html");
    let body = html.split_once("<body>").and_then(|(_, rest)| rest.split_once("</body>")).ok_or("no body")?.0;
    let root = match document()?.get_element_by_id("under-test") {
        Some(root) => root,
        None => {
            let root = make(&document()?, "div", "", "")?;
            root.set_id("under-test");
            document()?.body().ok_or("no body")?.append_child(&root)?;
            root
        }
    };
    root.set_inner_html(body);
    plainspoon::js::start()?;
    Ok(root.unchecked_into())
}

fn count(selector: &str) -> Js<u32> {
    Ok(document()?.query_selector_all(selector)?.length())
}

fn text(selector: &str) -> Js<String> {
    let found = document()?.query_selector(selector)?.ok_or(selector)?;
    Ok(found.text_content().unwrap_or_default().replace('\u{a0}', " "))
}

/// Waits so many milliseconds.
async fn pause(milliseconds: i32) -> Js<()> {
    let mut timer = None;
    let promise = js_sys::Promise::new(&mut |done, _| {
        timer = after(milliseconds, move || done.call0(&JsValue::NULL).map(|_| ())).ok();
    });
    wasm_bindgen_futures::JsFuture::from(promise).await.map(|_| ())
}

const DRAFT: &str =
    "today is shortbread. you need two cups of flour and half a cup of butter. stir the flour and the butter together.";

#[wasm_bindgen_test]
fn an_empty_page_has_no_card() -> Js<()> {
    open("")?;
    assert_eq!(count(".card")?, 0);
    assert!(!by_id::<Element>(&document()?, "samples")?.has_attribute("hidden"));
    Ok(())
}

#[wasm_bindgen_test]
fn a_kept_draft_is_set_again() -> Js<()> {
    open(DRAFT)?;
    assert_eq!(count(".card")?, 1);
    assert_eq!(count(".card .line")?, 2);
    assert_eq!(text("#proof")?, DRAFT);
    assert_eq!(count(".card .list .frac")?, 1, "half a cup is set as a fraction");
    Ok(())
}

#[wasm_bindgen_test]
async fn typing_is_read_after_a_pause() -> Js<()> {
    open("")?;
    let talk: HtmlTextAreaElement = by_id(&document()?, "talk")?;
    for end in [10, 40, DRAFT.len()] {
        talk.set_value(&DRAFT[..end]);
        talk.dispatch_event(&Event::new("input")?)?;
        assert_eq!(count(".card")?, 0, "nothing is read between two keys");
    }
    while count(".card")? == 0 {
        pause(50).await?;
    }
    assert_eq!(count(".card .line")?, 2);
    Ok(())
}

#[wasm_bindgen_test]
fn what_was_said_never_becomes_markup() -> Js<()> {
    open(
        "for the <b id=bold>soup</b> you need two cups of <img src=x> peas & one cup of \"cream\". stir the peas together.",
    )?;
    assert_eq!(count("#bold, #under-test img")?, 0);
    assert!(text("#proof")?.contains("<b id=bold>soup</b>"));
    Ok(())
}

#[wasm_bindgen_test]
fn a_touched_line_lights_its_words() -> Js<()> {
    let root = open(DRAFT)?;
    let food = root.query_selector(".line .food")?.ok_or("a line")?;
    food.unchecked_ref::<HtmlElement>().click();
    assert!(count("#proof .lit")? > 0);
    assert!(text("#proof .lit")?.contains("flour"), "{}", text("#proof .lit")?);
    Ok(())
}

#[wasm_bindgen_test]
fn a_listener_stops_when_it_is_dropped() -> Js<()> {
    let target = make(&document()?, "i", "", "")?;
    let heard = Rc::new(Cell::new(0));
    let count = heard.clone();
    let listener = listen(&target, "click", move |_| {
        count.set(count.get() + 1);
        Ok(())
    })?;
    target.dispatch_event(&Event::new("click")?)?;
    drop(listener);
    target.dispatch_event(&Event::new("click")?)?;
    assert_eq!(heard.get(), 1);
    assert_eq!(Rc::strong_count(&heard), 1, "the handler is gone with its listener");
    Ok(())
}

#[wasm_bindgen_test]
async fn a_timer_that_is_dropped_does_nothing() -> Js<()> {
    let rang = Rc::new(Cell::new(false));
    let ring = rang.clone();
    drop(after(1, move || {
        ring.set(true);
        Ok(())
    })?);
    pause(30).await?;
    assert!(!rang.get());
    Ok(())
}

#[wasm_bindgen_test]
fn templates_are_stamped_and_parts_hidden() -> Js<()> {
    open("")?;
    let card = stamp(&document()?, "card-template")?;
    assert!(card.class_list().contains("card"));
    show(&card, false)?;
    assert!(card.has_attribute("hidden"));
    show(&card, true)?;
    assert!(!card.has_attribute("hidden"));
    assert!(by_id::<HtmlTextAreaElement>(&document()?, "proof").is_err(), "a part of another kind is not found");
    Ok(())
}

#[wasm_bindgen_test]
fn scripts_get_plain_objects() -> Js<()> {
    let read = plainspoon::js::read(DRAFT)?;
    let again = JSON::parse(&String::from(JSON::stringify(&read)?))?;
    let cards = Reflect::get(&again, &"cards".into())?;
    assert_eq!(Reflect::get(&cards, &"length".into())?, JsValue::from_f64(1.0));
    let shown = String::from(JSON::stringify(&cards)?);
    assert!(shown.contains("\"amount\":\"2 cups\"") && shown.contains("\"name\":\"flour\""), "{shown}");
    Ok(())
}

#[wasm_bindgen_test]
fn scripts_set_a_card_in_another_size() -> Js<()> {
    let double = JSON::parse(r#"{"scale": "2"}"#)?;
    let card = String::from(JSON::stringify(&plainspoon::js::set(DRAFT, 0, double)?)?);
    assert!(card.contains("4 cups"), "{card}");
    assert!(plainspoon::js::set(DRAFT, 0, JSON::parse(r#"{"scale": "lots"}"#)?).is_err());
    assert!(plainspoon::js::set(DRAFT, 7, JSON::parse("{}")?).is_err());
    Ok(())
}
