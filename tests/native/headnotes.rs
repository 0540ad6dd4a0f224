//! What may stand above a card: a sentence of hers about the dish itself, and nothing that was only for the moment.
//!
//! The sentences are made up; what a headnote is for (where a dish comes from, when it is made, how it tastes) is common practice.

use plainspoon::read;

/// The headnote of the first card of a talk that ends with `said`.
fn above(said: &str) -> String {
    let talk = format!(
        "We're making plum kuchen. Two cups of flour and a cup of plums. Stir it and bake it for an hour. {said}"
    );
    let book = read(&talk);
    book.cards.first().and_then(|c| c.headnote.as_ref()).map_or(String::new(), |h| h.text.clone())
}

#[test]
fn where_it_comes_from_and_how_it_tastes() {
    for (said, wanted) in [
        (
            "Kuchen is my grandmother's, from the village by the lake.",
            "Kuchen is my grandmother's, from the village by the lake.",
        ),
        ("So, it's tangy and rich and a little sticky.", "It's tangy and rich and a little sticky."),
        ("It was on the table every Easter, and at weddings.", "It was on the table every Easter, and at weddings."),
    ] {
        assert_eq!(above(said), wanted);
    }
}

#[test]
fn talk_for_the_moment_stays_out() {
    for said in [
        "It's so tangy, you have to subscribe to my channel.",
        "My grandmother's dog ate every shoe in the village.",
        "It's tangy and crisp and it takes two cups of sugar.",
        "Is it not tangy and crisp the way my mother's was?",
        "This is my aunt, who lives in the village every summer",
        "It was made every Christmas in 1962 and never again.",
    ] {
        assert_eq!(above(said), "", "{said}");
    }
}

#[test]
fn what_stands_in_a_note_does_not_stand_above_as_well() {
    let book = read(
        "We're making plum kuchen. Two cups of flour and a cup of plums. Stir it. It keeps a week in a tin, crisp and tangy, every Christmas.",
    );
    let card = &book.cards[0];
    assert!(card.notes.iter().any(|n| n.text.contains("keeps a week")), "{:?}", card.notes);
    assert!(card.headnote.is_none(), "{:?}", card.headnote);
}
