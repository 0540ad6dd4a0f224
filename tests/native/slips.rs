//! Slips of speech-to-text: what is put right, what stays as it was heard, and what the cook takes back.
//!
//! A case is a piece of talk and its slips, "heard > meant". The sentences are made up for this table; that dictation writes
//! one word for another that sounds like it is common practice.

use super::spell;
use plainspoon::draft::Span;
use plainspoon::kitchen::Wanted;
use plainspoon::output::view::view;
use plainspoon::{read, read_leaving};

fn slips(said: &str) -> String {
    let book = read(&format!("Beef stew. Take two pounds of beef. {said} Cook it for an hour."));
    let spelled = book.fixes.iter().map(|f| format!("{} > {}", f.heard, f.meant));
    spelled.collect::<Vec<_>>().join("; ")
}

fn check(cases: &[(&str, &str)]) {
    spell::check(cases, slips);
}

#[test]
fn a_food_beside_its_measure_or_its_preparation() {
    check(&[
        ("Two cups of flower.", "flower > flour"),
        ("One union, chopped.", "union > onion"),
        ("A pound of unions.", "unions > onions"),
        ("A pound of oprah.", "oprah > okra"),
        ("Two tablespoons of gee.", "gee > ghee"),
        ("Three stocks of celery.", "stocks of celery > stalks of celery"),
        ("Then stir in some flower.", "flower > flour"),
        ("Half a cup of reasons.", "cup of reasons > cup of raisins"),
        ("Two teaspoons of course salt.", "course salt > coarse salt"),
        ("A teaspoon of come in.", "teaspoon of come in > teaspoon of cumin"),
    ]);
}

#[test]
fn a_figure_before_what_is_counted_by_it() {
    check(&[
        ("Add for cups of water.", "for > four"),
        ("Then to tablespoons of butter.", "to > two"),
        ("Ate ounces of cheese.", "ate > eight"),
    ]);
}

#[test]
fn an_order_before_its_food() {
    check(&[
        ("Great the cheese over the top.", "great > grate"),
        ("Mints the garlic and risk the eggs.", "mints > mince; risk > whisk"),
        ("Saw tay the onions.", "saw tay > saute"),
    ]);
}

#[test]
fn words_that_only_sound_like_it() {
    check(&[
        ("Great, the cheese is here.", ""),
        ("Great the cheese is here already.", ""),
        ("Great the kids love it.", ""),
        ("It is worth the risk.", ""),
        ("He has a good salary.", ""),
        ("Of course salt it.", ""),
        ("She is in the teachers' union.", ""),
        ("We had two unions at the plant and lived on one salary.", ""),
        ("There are two reasons for that.", ""),
        ("Cut each half in half.", ""),
        ("Let it rise, and take your time.", ""),
        ("Go for minutes and minutes.", ""),
        ("Add to flour what is left.", ""),
        ("Two of them come in a pack.", ""),
    ]);
}

/// An accent is no slip; the order is known with it.
#[test]
fn an_order_with_its_accent() {
    let card = |said: &str| {
        let book = read(&format!("Beef stew. Brown two pounds of beef. {said} Cook it for an hour."));
        assert!(book.fixes.is_empty());
        plainspoon::output::text::text(&view(&book.cards[0], &Wanted::default()))
    };
    assert!(card("Sauté two onions in a cup of oil.").contains("Saute the onions in the oil."));
    assert!(card("Purée the soup.").contains("Puree the soup."));
}

#[test]
fn a_slip_taken_back_is_read_as_it_was_heard() {
    let draft = "Beef stew. Take two pounds of beef. Add for cups of water and to tablespoons of butter.";
    let amounts = |left: &[Span]| {
        let book = read_leaving(draft, left);
        let told = book.fixes.iter().map(|f| (f.heard.as_str().to_owned(), f.left)).collect::<Vec<_>>();
        let lines = book.cards[0].lines.iter().map(|l| (l.name.clone(), l.amount.map(|a| a.to_string())));
        (told, lines.collect::<Vec<_>>())
    };
    let (told, lines) = amounts(&[]);
    assert_eq!(told, [("for".to_owned(), false), ("to".to_owned(), false)]);
    assert!(lines.contains(&("water".to_owned(), Some("4 cup".to_owned()))), "{lines:?}");
    assert!(lines.contains(&("butter".to_owned(), Some("2 tablespoon".to_owned()))), "{lines:?}");
    let at = draft.find("for cups").expect("the slip");
    let (told, lines) = amounts(&[Span::new(at, at + 3)]);
    assert_eq!(told, [("for".to_owned(), true), ("to".to_owned(), false)]);
    assert!(!lines.iter().any(|l| l.1.as_deref() == Some("4 cup")), "{lines:?}");
    assert!(lines.contains(&("butter".to_owned(), Some("2 tablespoon".to_owned()))), "{lines:?}");
}
