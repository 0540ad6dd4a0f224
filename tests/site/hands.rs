//! What a reader does with the page, and what must come of it.

use crate::browser::{Browser, Done};

use std::fs;
use std::path::Path;

/// Every test by name. Each starts with a page that has never been used.
pub const TESTS: &[(&str, fn(&Browser) -> Done)] = &[
    ("an empty page says what to do", empty),
    ("a sample becomes cards", sample),
    ("cards appear while a draft is typed", typed),
    ("a paste anywhere becomes the draft, and the old one comes back", pasted),
    ("a file is dropped", dropped),
    ("talk with no recipe in it says so", no_recipe),
    ("a card is halved, doubled, set three times, and back", sized),
    ("servings set the size", servings),
    ("another pan sets the size", pan),
    ("measures are changed", measures),
    ("a query is answered, kept, and undone", answered),
    ("another answer is typed", answered_otherwise),
    ("a misheard word is shown, left as heard, kept, and put right again", misheard),
    ("draft and choices survive a reload", reloaded),
    ("a touched line lights its words", lit_from_card),
    ("touched words light their line", lit_from_draft),
    ("the keyboard reaches lines and words", keyboard),
    ("markup in a draft stays text", markup),
    ("a phone scrolls one way only", phone),
    ("a phone shows the words under the thumb", phone_heard),
    ("one card prints on one page", printed),
    ("all cards print, one a page", printed_all),
    ("a card is copied as text", copied),
    ("a megabyte of talk leaves the page alive", megabyte),
    ("a trap shows the notice", trapped),
    ("contrast is enough, by day and by night", contrast),
];

/// One figure said twice, two ways.
const DOUBT: &str = "for the rice pudding you need two teaspoons of salt and one cup of sugar. whisk the sugar and the salt \
    together. bake it at 350 for 20 minutes. so again that's one cup of sugar and one teaspoon of salt.";

/// Two words that dictation got wrong, one of them a figure, and a sentence about the dish.
const MISHEARD: &str = "Shortbread. This shortbread comes from my aunt Oriel, who made it every Sunday. \
    Take to cups of flour and a stick of butter. Great the butter into the flour. Bake it at 350 for 20 minutes.";

const PUDDING: &str = include_str!("../../www/samples/corn-pudding.txt");

/// Opens the page as somebody who was never there.
pub fn fresh(b: &Browser, address: &str) -> Done {
    b.window(1280, 900, false)?;
    b.go(address)?;
    // Leaving the page keeps the draft, so the last one has to be emptied and not only forgotten.
    b.run("document.getElementById('talk').value = ''; localStorage.clear()", &[])?;
    b.reload()?;
    b.errors()?;
    started(b)
}

fn started(b: &Browser) -> Done {
    b.until("document.readyState === 'complete' && document.getElementById('empty').textContent + document.querySelectorAll('.card').length !== '0'")
}

/// Nothing was logged as an error.
pub fn quiet(b: &Browser) -> Done {
    let errors = b.errors()?;
    if errors.is_empty() { Ok(()) } else { Err(format!("errors were logged: {}", errors.join("; "))) }
}

fn draft(b: &Browser, text: &str) -> Done {
    b.run(
        "const data = new DataTransfer(); data.setData('text/plain', arguments[0]);
         document.body.dispatchEvent(new ClipboardEvent('paste', {clipboardData: data, bubbles: true, cancelable: true}));",
        &[text.into()],
    )?;
    b.until("document.getElementById('tally').textContent !== 'Reading…'")
}

fn text(b: &Browser, selector: &str) -> Done<String> {
    let script = "return document.querySelector(arguments[0])?.innerText ?? ''";
    Ok(b.run(script, &[selector.into()])?.as_str().unwrap_or("").replace('\u{a0}', " "))
}

/// The amount on the line whose food begins so.
fn amount(b: &Browser, food: &str) -> Done<String> {
    let script = "const line = [...document.querySelectorAll('.line')].find(l => l.querySelector('.food').innerText.includes(arguments[0]));
                  return line ? line.querySelector('.amount').innerText : 'no such line'";
    Ok(b.run(script, &[food.into()])?.as_str().unwrap_or("").replace('\u{a0}', " "))
}

fn is(what: &str, got: &str, want: &str) -> Done {
    if got == want { Ok(()) } else { Err(format!("{what}: expected {want:?}, got {got:?}")) }
}

fn empty(b: &Browser) -> Done {
    b.holds("!document.getElementById('samples').hidden", "the samples are offered")?;
    b.holds("document.querySelectorAll('.card').length === 0", "there is no card")?;
    b.holds("document.getElementById('talk').checkVisibility()", "there is a place to paste")?;
    b.holds(
        "document.getElementById('clear').hidden && document.getElementById('print-all').hidden",
        "nothing to clear or print",
    )?;
    b.holds("document.fonts.size > 0", "the faces are declared")
}

fn sample(b: &Browser) -> Done {
    b.click("[data-sample=\"0\"]")?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.holds("document.querySelectorAll('.card .line').length > 5", "the card has its list")?;
    b.holds("document.querySelectorAll('.card .method li').length > 1", "the card has its method")?;
    b.holds("document.getElementById('proof').checkVisibility()", "the draft is shown as a proof")?;
    let shown = b.get("document.getElementById('proof').innerText.replace(/\\s+/g, ' ').trim()")?;
    is("the proof", shown.as_str().unwrap_or(""), &PUDDING.split_whitespace().collect::<Vec<_>>().join(" "))?;
    b.click("#clear")?;
    b.click("[data-sample=\"1\"]")?;
    b.until("document.querySelectorAll('.card').length === 3")?;
    b.click("#clear")?;
    b.click("[data-sample=\"2\"]")?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.holds(
        "![...document.querySelectorAll('.card')].some(c => c.innerText.includes('-->'))",
        "no caption time is on a card",
    )
}

fn typed(b: &Browser) -> Done {
    b.keys("#talk", "so for the pancakes you need two cups of flour")?;
    b.until("document.querySelectorAll('.card .line').length === 1")?;
    b.keys("#talk", " and three eggs. whisk the flour and the eggs together.")?;
    b.until("document.querySelectorAll('.card .line').length === 2")?;
    b.holds("document.getElementById('talk').checkVisibility()", "the text stays while it is typed")?;
    b.click("#done")?;
    b.until("document.getElementById('proof').checkVisibility()")?;
    b.click("#edit")?;
    b.until("document.activeElement === document.getElementById('talk')")
}

fn pasted(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    draft(
        b,
        "for the toast you need two slices of bread and a tablespoon of butter. toast the bread and spread the butter on it.",
    )?;
    b.until("document.getElementById('proof').innerText.startsWith('for the toast')")?;
    b.click("#restore")?;
    b.until("document.getElementById('proof').innerText.startsWith('Hi everybody')")
}

fn dropped(b: &Browser) -> Done {
    let drop = "const data = new DataTransfer();
        data.items.add(new File([arguments[1]], arguments[0], {type: arguments[2]}));
        document.body.dispatchEvent(new DragEvent('drop', {dataTransfer: data, bubbles: true, cancelable: true}));";
    let captions = include_str!("../../www/samples/flatbreads.vtt");
    b.run(drop, &["talk.vtt".into(), captions.into(), "text/vtt".into()])?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.run(drop, &["picture.bin".into(), "a\0b".into(), "application/octet-stream".into()])?;
    b.until("document.getElementById('notice').innerText.includes('not text')")?;
    b.holds("document.querySelectorAll('.card').length === 1", "the draft is still there")
}

fn no_recipe(b: &Browser) -> Done {
    draft(b, "Well good morning. It rained again all night and the bus was late, so I read the paper twice.")?;
    b.until("document.getElementById('empty').innerText.includes('No dish is heard')")?;
    b.holds("document.querySelectorAll('.card').length === 0", "there is no card")?;
    b.holds("document.getElementById('proof').innerText.startsWith('Well good morning')", "the talk stays readable")
}

fn sized(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    let said = text(b, ".list")?;
    b.click("[data-do=\"size\"][data-by=\"2\"]")?;
    b.until("!document.querySelector('.resized').hidden")?;
    is("cornmeal, doubled", &amount(b, "cornmeal")?, "1 cup")?;
    b.holds("document.querySelector('.resized').innerText.includes('As spoken it serves')", "what was spoken is said")?;
    b.holds("document.querySelector('[data-by=\"2\"]').getAttribute('aria-pressed') === 'true'", "the size is marked")?;
    b.click("[data-do=\"size\"][data-by=\"1/2\"]")?;
    is("cornmeal, halved", &amount(b, "cornmeal")?, "1/4 cup")?;
    b.retype("[data-do=\"scale\"]", "3")?;
    is("cornmeal, three times", &amount(b, "cornmeal")?, "1 1/2 cups")?;
    b.holds("document.querySelector('.card .frac') !== null", "a fraction is set as one")?;
    b.retype("[data-do=\"scale\"]", "3000\u{e007}")?;
    b.until("document.querySelector('.sizing .trouble').innerText.includes('1/16 to 100')")?;
    b.click("[data-do=\"size\"][data-by=\"1\"]")?;
    is("as spoken again", &text(b, ".list")?, &said)?;
    b.holds(
        "document.querySelector('.resized').hidden && document.querySelector('.sizing .trouble').hidden",
        "nothing is left over",
    )
}

fn servings(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.holds(
        "document.querySelector('[data-do=\"servings\"]').checkVisibility()",
        "the number of servings can be typed",
    )?;
    b.retype("[data-do=\"servings\"]", "16")?;
    is("cornmeal for sixteen", &amount(b, "cornmeal")?, "1 cup")?;
    b.holds("document.querySelector('[data-do=\"scale\"]').value === '2'", "the factor follows")?;
    b.holds(
        "document.querySelector('[data-by=\"2\"]').getAttribute('aria-pressed') === 'true'",
        "sixteen of eight is double",
    )
}

fn pan(b: &Browser) -> Done {
    draft(
        b,
        "for the date bars you need two cups of flour and a cup of sugar. mix the flour and the sugar and spread it in a 9 by 13 pan. bake it at 350 for 25 minutes.",
    )?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.keys("[data-do=\"pan\"]", "8 by 8")?;
    is("flour for the smaller pan", &amount(b, "flour")?, "1 cup")?;
    b.retype("[data-do=\"pan\"]", "a hat\u{e007}")?;
    b.until("!document.querySelector('.sizing .trouble').hidden")?;
    b.click("[data-do=\"size\"][data-by=\"1\"]")?;
    is("flour as spoken", &amount(b, "flour")?, "2 cups")
}

fn measures(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    let said = text(b, ".list")?;
    b.run("const s = document.querySelector('[data-do=\"units\"]'); s.value = 'metric'; s.dispatchEvent(new Event('change', {bubbles: true}))", &[])?;
    b.until("/\\bml\\b|\\bg\\b|milliliter|gram/.test(document.querySelector('.list').innerText)")?;
    b.run("const s = document.querySelector('[data-do=\"units\"]'); s.value = 'said'; s.dispatchEvent(new Event('change', {bubbles: true}))", &[])?;
    is("her own measures again", &text(b, ".list")?, &said)
}

fn answered(b: &Browser) -> Done {
    draft(b, DOUBT)?;
    b.until("document.querySelectorAll('.query').length === 1")?;
    b.holds("document.querySelectorAll('.line.asked').length === 1", "the line asked about is marked")?;
    b.holds("document.querySelectorAll('.proof .asked').length > 0", "the words in doubt are marked")?;
    b.click(".query [data-label=\"1 teaspoon\"]")?;
    b.until("document.querySelectorAll('.query').length === 0 && document.querySelectorAll('.settled').length === 1")?;
    is("salt", &amount(b, "salt")?, "1 teaspoon")?;
    b.reload()?;
    started(b)?;
    b.until("document.querySelectorAll('.settled').length === 1")?;
    is("salt after a reload", &amount(b, "salt")?, "1 teaspoon")?;
    b.click("[data-do=\"undo\"]")?;
    b.until("document.querySelectorAll('.query').length === 1 && document.querySelectorAll('.settled').length === 0")?;
    // An answer whose words are gone is handed back and not dropped.
    b.click(".query [data-label=\"1 teaspoon\"]")?;
    b.click("#edit")?;
    b.run("const t = document.getElementById('talk'); t.value = t.value.replace('two teaspoons of salt', 'a pinch of salt'); t.dispatchEvent(new Event('input', {bubbles: true}))", &[])?;
    b.until("!document.getElementById('lost').hidden")?;
    b.click("[data-do=\"forget\"]")?;
    b.until("document.getElementById('lost').hidden")
}

fn answered_otherwise(b: &Browser) -> Done {
    draft(b, DOUBT)?;
    b.until("document.querySelectorAll('.query').length === 1")?;
    b.click("[data-do=\"ask-other\"]")?;
    b.keys(".query form input", "a lot\u{e007}")?;
    b.until("!document.querySelector('.query form .trouble').hidden")?;
    b.run("document.querySelector('.query form input').value = ''", &[])?;
    b.keys(".query form input", "1 1/2 teaspoons\u{e007}")?;
    b.until("document.querySelectorAll('.settled').length === 1")?;
    is("salt", &amount(b, "salt")?, "1 1/2 teaspoons")
}

fn misheard(b: &Browser) -> Done {
    draft(b, MISHEARD)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    is("flour", &amount(b, "flour")?, "2 cups")?;
    is("the tally of slips", &text(b, "#slips summary")?, "Words put right: 2")?;
    is("beside the line", &text(b, ".line .settled p")?, "Heard “to”, read as “two”.")?;
    let struck = b.get(
        "[...document.querySelectorAll('.proof .slip')].map(e => e.innerText + '>' + e.dataset.meant).join(' ')",
    )?;
    is("struck out", struck.as_str().unwrap_or(""), "to>two Great>grate")?;
    // The list shows the place among the words.
    b.click("#slips summary")?;
    b.click("#slips li span")?;
    b.until("document.querySelector('.proof .lit')?.innerText === 'to'")?;
    b.click("#slips [data-do=\"leave\"]")?;
    b.until("document.querySelector('#slips summary').innerText.endsWith('left as heard: 1')")?;
    b.holds("!document.querySelector('.list').innerText.includes('2 cups')", "the figure is gone with the slip")?;
    b.holds("document.querySelectorAll('.proof .slip').length === 1", "the word stands as it was heard")?;
    b.reload()?;
    started(b)?;
    is("the tally after a reload", &text(b, "#slips summary")?, "Words put right: 1 · left as heard: 1")?;
    b.click("#slips summary")?;
    b.click("#slips [data-do=\"leave\"]")?;
    b.until("document.querySelector('#slips summary').innerText === 'Words put right: 2'")?;
    is("flour again", &amount(b, "flour")?, "2 cups")?;
    // Taken back from the margin, and its words changed afterwards.
    b.click(".line .settled button")?;
    b.until("document.querySelector('#slips summary').innerText.endsWith('left as heard: 1')")?;
    b.click("#edit")?;
    b.run("const t = document.getElementById('talk'); t.value = t.value.replace('Take to cups', 'Take three cups'); t.dispatchEvent(new Event('input', {bubbles: true}))", &[])?;
    b.until("!document.getElementById('lost').hidden")?;
    b.click("#lost button")?;
    b.until("document.getElementById('lost').hidden")?;
    is("flour in other words", &amount(b, "flour")?, "3 cups")
}

fn reloaded(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.click("[data-do=\"size\"][data-by=\"2\"]")?;
    let list = text(b, ".list")?;
    b.reload()?;
    started(b)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    is("the list after a reload", &text(b, ".list")?, &list)?;
    b.holds("document.getElementById('proof').innerText.startsWith('Hi everybody')", "the draft is back")
}

fn lit_from_card(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.run("[...document.querySelectorAll('.line')].find(l => l.innerText.includes('cornmeal')).querySelector('.food').click()", &[])?;
    b.until("document.querySelectorAll('.proof .lit').length > 0")?;
    b.holds(
        "[...document.querySelectorAll('.proof .lit')].map(e => e.innerText).join('').includes('cornmeal')",
        "its own words are lit",
    )?;
    b.holds(
        "[...document.querySelectorAll('.line.lit')].some(l => l.innerText.includes('cornmeal'))",
        "the line is lit",
    )?;
    b.run("document.querySelector('.line.lit').dispatchEvent(new KeyboardEvent('keydown', {key: 'Escape', bubbles: true}))", &[])?;
    b.until("document.querySelectorAll('.lit').length === 0")
}

fn lit_from_draft(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.run("[...document.querySelectorAll('.proof .used')].find(e => e.innerText.includes('cornmeal')).click()", &[])?;
    b.until("[...document.querySelectorAll('.line.lit')].some(l => l.innerText.includes('cornmeal'))")
}

fn keyboard(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.run("document.querySelector('.card [data-touch][tabindex=\"0\"]').focus()", &[])?;
    b.until("document.querySelectorAll('.proof .lit').length > 0")?;
    let first = text(b, ":focus")?;
    b.press(&["\u{e015}", "\u{e015}"])?;
    b.holds("document.activeElement.hasAttribute('data-touch')", "an arrow moves along the card")?;
    if text(b, ":focus")? == first {
        return Err("the arrow stayed where it was".into());
    }
    b.holds("document.querySelectorAll('.card [data-touch][tabindex=\"0\"]').length === 1", "one stop for each card")?;
    b.run("document.querySelector('.proof [data-word][tabindex=\"0\"]').focus()", &[])?;
    b.until("document.querySelectorAll('.card .lit').length > 0")?;
    b.press(&["\u{e014}"])?;
    b.holds("document.activeElement.hasAttribute('data-word')", "an arrow moves along the words")
}

fn markup(b: &Browser) -> Done {
    draft(
        b,
        "for the <b id=bad>stew</b> you need two cups of <img src=x onerror=alert(1)> carrots and <script>alert(2)</script> one cup of peas. \
         stir the carrots and the peas together.",
    )?;
    b.until("document.getElementById('proof').innerText.includes('<img src=x onerror=alert(1)>')")?;
    b.holds("!document.querySelector('#bad, main img, main script')", "no markup came of it")
}

fn phone(b: &Browser) -> Done {
    for sample in [0, 1, 2] {
        b.window(360, 740, false)?;
        b.click(&format!("[data-sample=\"{sample}\"]"))?;
        b.until("document.querySelectorAll('.card').length > 0")?;
        b.holds("document.documentElement.scrollWidth <= 360", "nothing is wider than the window")?;
        b.holds("[...document.querySelectorAll('main *')].every(e => e.closest('.away') || e.getBoundingClientRect().right <= 361)", "nothing is cut off at the right")?;
        b.holds("[...document.querySelectorAll('.query')].every(q => { const l = q.closest('.line'); return !l || q.getBoundingClientRect().top >= l.querySelector('.food').getBoundingClientRect().top })", "a query stands under its line")?;
        b.click("#clear")?;
    }
    Ok(())
}

fn phone_heard(b: &Browser) -> Done {
    b.window(360, 740, false)?;
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.run("[...document.querySelectorAll('.line')].find(l => l.innerText.includes('cornmeal')).querySelector('.food').click()", &[])?;
    b.until("document.getElementById('heard').checkVisibility()")?;
    b.holds("document.querySelector('#heard mark').innerText.includes('cornmeal')", "the words are shown")?;
    b.click("#heard-close")?;
    b.holds("!document.getElementById('heard').checkVisibility()", "the strip closes")
}

fn pages(pdf: &[u8]) -> usize {
    pdf.windows(b"/Type /Page".len() + 1).filter(|w| w.starts_with(b"/Type /Page") && !w.ends_with(b"s")).count()
}

/// Presses a print button with the browser's own dialog put aside, so that the page stays as it would be printed.
fn press_print(b: &Browser, button: &str) -> Done {
    b.run("window.print = () => { window.printed = true }", &[])?;
    b.click(button)?;
    b.until("window.printed === true")
}

fn printed(b: &Browser) -> Done {
    b.click("[data-sample=\"1\"]")?;
    b.until("document.querySelectorAll('.card').length === 3")?;
    press_print(b, ".card[data-card=\"1\"] [data-do=\"print\"]")?;
    let pdf = b.pdf()?;
    is("pages of one card", &pages(&pdf).to_string(), "1")
}

fn printed_all(b: &Browser) -> Done {
    b.click("[data-sample=\"1\"]")?;
    b.until("document.querySelectorAll('.card').length === 3")?;
    press_print(b, "#print-all")?;
    let pdf = b.pdf()?;
    is("pages of three cards", &pages(&pdf).to_string(), "3")
}

fn copied(b: &Browser) -> Done {
    draft(b, PUDDING)?;
    b.until("document.querySelectorAll('.card').length === 1")?;
    b.run("Object.defineProperty(navigator.clipboard, 'writeText', {value: text => { window.copy = text; return Promise.resolve() }})", &[])?;
    b.click("[data-do=\"copy\"]")?;
    b.until("document.querySelector('.doings').innerText.includes('Copied')")?;
    b.holds("window.copy.includes('cornmeal') && window.copy.includes('375')", "the card is in the text")
}

fn trapped(b: &Browser) -> Done {
    b.reload()?;
    started(b)?;
    b.run("setTimeout(() => { throw new TypeError('of the page only') })", &[])?;
    b.run("window.settled = false; setTimeout(() => window.settled = true, 50)", &[])?;
    b.until("window.settled")?;
    b.holds("document.getElementById('broken').hidden", "the page goes on after an error of the page")?;
    // Eight bytes of head, one type, one function, one export "f", whose body is `unreachable`.
    b.run(
        "const f = new WebAssembly.Instance(new WebAssembly.Module(new Uint8Array([0,97,115,109,1,0,0,0,1,4,1,96,0,0,3,2,1,0,\
         7,5,1,1,102,0,0,10,5,1,3,0,0,11]))).exports.f; setTimeout(() => f())",
        &[],
    )?;
    b.until("!document.getElementById('broken').hidden")?;
    b.click("#reload")?;
    started(b)?;
    b.holds("document.getElementById('broken').hidden", "the page starts anew")?;
    // These two were made to happen.
    let odd = |e: &String| !e.contains("of the page only") && !e.contains("unreachable");
    match b.errors()?.iter().find(|e| odd(e)) {
        None => Ok(()),
        Some(other) => Err(format!("another error was logged: {other}")),
    }
}

fn megabyte(b: &Browser) -> Done {
    let mut talk = String::new();
    while talk.len() < 1_000_000 {
        talk.push_str(PUDDING);
        talk.push_str("\n\n");
    }
    draft(b, &talk)?;
    b.until(
        "document.querySelectorAll('.card').length > 0 && document.getElementById('tally').innerText.includes('card')",
    )?;
    b.holds("document.getElementById('broken').hidden", "the page has not stopped")?;
    b.reload()?;
    started(b)?;
    b.until("document.querySelectorAll('.card').length > 0")?;
    // Emptied before the page is left, so that the tests after this one start at once.
    b.click("#clear")?;
    b.until("document.querySelectorAll('.card').length === 0")
}

/// WCAG 2.2, 1.4.3: text against its ground at least 4.5 to 1.
fn contrast(b: &Browser) -> Done {
    let script = "
        const channel = v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
        const light = c => { const [r, g, b] = c.match(/[\\d.]+/g).map(Number); return 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b) };
        const clear = c => /, 0\\)$/.test(c) || c === 'transparent';
        const ground = e => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor; if (!clear(c)) return c } return 'rgb(255, 255, 255)' };
        const bad = [];
        for (const e of document.querySelectorAll('body *')) {
            if (!e.checkVisibility() || ![...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())) continue;
            const [a, z] = [light(getComputedStyle(e).color), light(ground(e))].sort((x, y) => y - x);
            const ratio = (a + 0.05) / (z + 0.05);
            if (ratio < 4.5) bad.push(e.className + ' ' + e.textContent.slice(0, 20) + ' ' + ratio.toFixed(2));
        }
        return [...new Set(bad)].join('; ')";
    for night in [false, true] {
        b.window(1280, 900, night)?;
        draft(b, PUDDING)?;
        b.until("document.querySelectorAll('.card').length === 1")?;
        b.run("document.querySelector('.line .food').click()", &[])?;
        b.until("document.querySelectorAll('.proof .lit').length > 0")?;
        // The wash of a touched word fades in.
        b.until("document.getAnimations().length === 0")?;
        is("too faint", b.run(script, &[])?.as_str().unwrap_or(""), "")?;
    }
    Ok(())
}

/// Saves pictures of the page for whoever works on its look.
pub fn pictures(b: &Browser, address: &str, folder: &Path) -> Done {
    fs::create_dir_all(folder).map_err(|e| e.to_string())?;
    let shot = |name: &str| b.picture(&folder.join(format!("{name}.png")));
    let ready = || b.until("document.fonts.status === 'loaded' && document.getAnimations().length === 0");
    fresh(b, address)?;
    ready()?;
    shot("empty-1280")?;
    b.window(360, 740, false)?;
    shot("empty-360")?;
    for (width, height, night, name) in [
        (1280, 900, false, "desk"),
        (1280, 900, true, "night"),
        (360, 2600, false, "phone"),
        (800, 1400, false, "tablet"),
    ] {
        for sample in [0, 1, 2] {
            fresh(b, address)?;
            b.window(width, height, night)?;
            b.click(&format!("[data-sample=\"{sample}\"]"))?;
            b.until("document.querySelectorAll('.card').length > 0")?;
            ready()?;
            shot(&format!("{name}-{sample}"))?;
            if width > 1000 && sample == 0 {
                b.run("document.querySelectorAll('.line')[4]?.querySelector('.food').click()", &[])?;
                ready()?;
                shot(&format!("{name}-lit"))?;
                b.click("[data-do=\"size\"][data-by=\"2\"]")?;
                b.run("document.querySelector('.query [data-do=\"choose\"]')?.click(); scrollTo(0, 0)", &[])?;
                ready()?;
                shot(&format!("{name}-doubled"))?;
            }
        }
    }
    for (width, height, night, name) in
        [(1280, 900, false, "doubt-1280"), (360, 1500, false, "doubt-360"), (1280, 900, true, "doubt-night")]
    {
        fresh(b, address)?;
        b.window(width, height, night)?;
        draft(b, DOUBT)?;
        b.click("[data-do=\"ask-other\"]")?;
        ready()?;
        shot(name)?;
    }
    for (width, height, night, name) in
        [(1280, 900, false, "slips-1280"), (360, 1500, false, "slips-360"), (1280, 900, true, "slips-night")]
    {
        fresh(b, address)?;
        b.window(width, height, night)?;
        draft(b, MISHEARD)?;
        b.click("#slips summary")?;
        ready()?;
        shot(name)?;
    }
    fresh(b, address)?;
    b.window(360, 740, false)?;
    draft(b, PUDDING)?;
    b.run("document.querySelectorAll('.line')[4]?.querySelector('.food').click()", &[])?;
    ready()?;
    shot("phone-heard")?;
    for (sample, name) in [(0, "one"), (1, "three"), (2, "captions")] {
        fresh(b, address)?;
        b.click(&format!("[data-sample=\"{sample}\"]"))?;
        b.until("document.querySelectorAll('.card').length > 0")?;
        ready()?;
        let pdf = b.pdf()?;
        fs::write(folder.join(format!("print-{name}.pdf")), pdf).map_err(|e| e.to_string())?;
    }
    Ok(())
}
