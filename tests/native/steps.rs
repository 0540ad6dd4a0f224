//! Steps as an editor writes them: what the talk says of the doing, and what is left out of it.
//!
//! A case is a piece of talk in the middle of a stew and the steps it makes, those that frame it left out. The forms are common
//! practice of speech, made up for this table.

use super::spell;
use plainspoon::kitchen::Wanted;
use plainspoon::output::view::view;
use plainspoon::read;

fn steps(said: &str) -> String {
    let book = read(&format!("Beef stew. Brown two pounds of beef. {said} Then stir in a cup of peas."));
    let shown = view(&book.cards[0], &Wanted::default());
    let told = shown.steps.iter().map(|s| s.pieces.iter().fold(s.lead.clone(), |all, p| all + &p.text));
    let all = told.collect::<Vec<_>>().join(" ");
    let all = all.strip_prefix("Brown the beef").unwrap_or(&all);
    all.strip_suffix("Stir in the peas.").unwrap_or(all).trim().trim_start_matches(". ").to_owned()
}

fn check(cases: &[(&str, &str)]) {
    spell::check(cases, steps);
}

#[test]
fn an_object_is_named_once() {
    check(&[
        ("Chop two onions.", "Chop the onions."),
        ("Fry two onions in a cup of oil.", "Fry the onions in the oil."),
        ("Sauté the onions in a cup of oil.", "Saute the onions in the oil."),
    ]);
}

#[test]
fn a_container_is_a_place() {
    check(&[
        ("Put the milk in a pot.", "Put the milk in a pot."),
        ("Put it all in a big jar and shake it.", "Put it all in a big jar. Shake it."),
    ]);
}

#[test]
fn how_it_turns_out_is_no_place() {
    check(&[
        ("Keep it on low or it goes to paste.", "Keep it on low, or it goes to paste."),
        ("It goes a lovely colour.", "."),
        ("It goes another ten minutes.", ", for another 10 minutes."),
        ("The carrots go right in the pot.", "Put the carrots right in the pot."),
    ]);
}

#[test]
fn what_nobody_can_do() {
    check(&[
        ("I have cooked it for thirty years.", "."),
        ("You don't know how good it is.", "."),
        ("Stir it how long?", "."),
        ("One second, the phone.", "."),
        ("You don't want it dry.", "It should not be dry."),
        ("Don't be opening the lid.", "Do not open the lid."),
        ("Put two and a half.", "."),
        ("Put the salt.", "Add the salt."),
        ("Drain it and.", "Drain the beef."),
    ]);
}
