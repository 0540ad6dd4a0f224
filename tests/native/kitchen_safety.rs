//! Cautions, allergens and advice: each from its cause, none without.

use plainspoon::kitchen::caution::{self, Allergen};
use plainspoon::kitchen::{advice, signs::Cause};
use plainspoon::measure::{Heat, Time, TimeUnit};
use plainspoon::output::view;
use plainspoon::recipe::{Card, Note, NoteKind, Piece, PieceKind, Said};

use super::kitchen_cards::{full, lines, step, wanted};

/// A card of "title / line, line / step. step. / note".
fn card(spelled: &str) -> Card {
    let mut parts = spelled.split(" / ");
    let title = parts.next().unwrap();
    let list: Vec<String> =
        parts.next().unwrap_or("").split(", ").filter(|l| !l.is_empty()).map(|l| format!("1 cup | {l}")).collect();
    let mut card = lines(&list.iter().map(String::as_str).collect::<Vec<_>>());
    card.title = title.to_owned();
    card.steps = parts.next().unwrap_or("").split_inclusive(". ").filter(|s| !s.is_empty()).map(step).collect();
    let note = |text: &str| Note { kind: NoteKind::Keeping, text: text.to_owned(), span: Default::default() };
    card.notes = parts.next().into_iter().map(note).collect();
    card
}

#[test]
fn each_caution_has_its_cause() {
    for (spelled, words, cause) in [
        ("roast bird / rice, chicken thighs / Roast it.", "165 °F (74 °C) at its thickest", Cause::Line(1)),
        ("patties / ground beef / Fry.", "Cook ground meat to 160 °F", Cause::Line(0)),
        ("chops / onion, pork chops / Fry.", "145 °F (63 °C) and let them rest", Cause::Line(1)),
        ("ham and peas / ham / Warm through.", "Cooked ham, reheated: 140 °F", Cause::Line(0)),
        ("baked salmon / salmon / Bake.", "Cook fish and shellfish to 145 °F", Cause::Line(0)),
        ("chocolate mousse / eggs / Cook.", "Eggs stay raw", Cause::Title),
        ("flip / milk, eggs / Whisk. Pour.", "Eggs stay raw", Cause::Line(1)),
        ("toast / eggs / Poach the eggs. Serve.", "Eggs stay raw", Cause::Step(0)),
        ("pilau / long grain rice / Simmer.", "Cool cooked rice quickly", Cause::Line(0)),
        ("stuffed bird / turkey / Roast.", "Stuffing must reach 165", Cause::Title),
        ("pie / milk / Bake. / Keep it in the fridge for three days.", "Chill within 2 hours", Cause::Note(0)),
        ("noodle casserole / milk / Bake.", "leftovers and casseroles through to 165", Cause::Title),
        ("beans / green beans / Pack. Lower into the pressure canner. ", "tested process", Cause::Step(1)),
        ("doughnuts / flour / Mix. Heat the oil to 365. ", "Hot fat", Cause::Step(1)),
        ("granola / oats, honey / Bake.", "No honey for children under 12 months", Cause::Line(1)),
    ] {
        let found = caution::cautions(&card(spelled));
        let hit = found.iter().find(|c| c.text.contains(words)).unwrap_or_else(|| panic!("{spelled}: {found:?}"));
        assert_eq!(hit.cause, cause, "{spelled}");
        assert!(!hit.source.is_empty());
    }
}

#[test]
fn hot_glass_needs_glass_and_an_oven() {
    let mut cold = card("trifle / cake / Layer in a glass bowl.");
    assert!(!caution::cautions(&cold).iter().any(|c| c.text.contains("shatter")));
    cold.ovens = vec![Said { what: Heat::Fahrenheit(350), span: Default::default() }];
    assert!(caution::cautions(&cold).iter().any(|c| c.text.contains("shatter")));
}

#[test]
fn none_without_a_cause() {
    for spelled in [
        "green salad / lettuce, olive oil / Toss.",
        "sponge / flour, sugar / Bake.",
        "fruit / coconut, apple / Slice.",
        "popcorn / popcorn, salt / Pop.",
        "lemonade / water, lemon juice, sugar / Stir.",
    ] {
        let found = caution::cautions(&card(spelled));
        assert!(found.iter().all(|c| c.text.starts_with("Wheat:")), "{spelled}: {found:?}");
    }
    for (spelled, never) in [
        ("stew / chicken broth, carrots / Simmer.", "poultry"),
        ("salad / canned tuna, celery / Mix.", "Cook fish"),
        ("soup / rotisserie chicken / Simmer.", "Cook poultry"),
        ("dressing / anchovy, olive oil / Whisk.", "Cook fish"),
        ("marinade / worcestershire sauce / Stir.", "Cook fish"),
        ("cake / eggs, flour / Beat. Bake.", "Eggs stay raw"),
        ("beans / store-bought beans, milk / Heat.", "Chill within"),
        ("soup / milk / Reduce the heat.", "boil down"),
    ] {
        let found = caution::cautions(&card(spelled));
        assert!(!found.iter().any(|c| c.text.contains(never)), "{spelled}: {found:?}");
    }
}

#[test]
fn every_caution_defers_and_names_its_line() {
    let shown = view::view(&card("bird / rice, chicken thighs, honey / Roast."), &wanted("1"));
    let cautions: Vec<_> = shown.margin.iter().filter(|m| m.kind == "caution").collect();
    assert!(cautions.len() >= 3);
    for caution in cautions {
        assert!(caution.source.as_ref().is_some_and(|s| s.ends_with(caution::DEFER)), "{caution:?}");
        assert!(caution.line.is_some() || caution.step.is_some() || caution.note.is_some(), "{caution:?}");
    }
}

/// Name, and the letters of what it holds: milk, egg, fish, crustaceans and mollusks, tree nuts, peanuts, wheat, soy,
/// sesame; one line a food in `data/allergens.tsv`.
#[test]
fn nine_allergens_on_a_table_of_foods() {
    let mut foods = 0;
    let mut wrong = Vec::new();
    for row in include_str!("../data/allergens.tsv").lines().filter(|l| !l.starts_with('#') && !l.is_empty()) {
        let (name, expected) = row.split_once('\t').expect("name, tab, allergens");
        let found: Vec<&str> = Allergen::of(name).iter().map(|a| a.tag()).collect();
        let mut expected: Vec<&str> = expected.split(' ').filter(|e| !e.is_empty() && *e != "none").collect();
        expected.sort_by_key(|e| Allergen::ALL.iter().position(|a| a.tag() == *e));
        if found != expected {
            wrong.push(format!("{name}: found {found:?}, expected {expected:?}"));
        }
        foods += 1;
    }
    assert!(foods >= 150, "{foods}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn allergens_are_traced_to_their_lines() {
    let found = caution::allergens(&card("cake / flour, butter, milk, coconut, walnuts / Bake."));
    let named: Vec<(&str, &[usize])> = found.iter().map(|f| (f.allergen.name(), f.lines.as_slice())).collect();
    assert_eq!(named, [("Milk", &[1, 2][..]), ("Tree nuts", &[4]), ("Wheat", &[0])]);
    let clams = caution::cautions(&card("chowder / clams / Simmer."));
    assert!(clams.iter().any(|c| c.text.contains("mollusk")));
}

#[test]
fn advice_where_scaling_bends() {
    for (spelled, factor, words) in [
        ("cake / flour, baking powder / Mix.", "5", "leavening is often cut"),
        ("bread / flour, active dry yeast / Mix.", "5", "rises faster"),
        ("soup / water, salt / Mix.", "5", "less of the salt"),
        ("sauce / tomatoes / Simmer until thick.", "2", "longer to boil down"),
        ("sauce / tomatoes / Simmer until thick.", "1/2", "boils down sooner"),
        ("strawberry jam / strawberries, sugar / Boil.", "2", "single batches"),
        ("penuche / brown sugar / Cook to soft ball.", "2", "single batches"),
        ("chops / pork chops / Brown the chops.", "3", "in batches"),
        ("punch / juice / Stir.", "20", "several batches"),
    ] {
        let found = advice::advice(&card(spelled), &wanted(factor));
        let hit = found.iter().find(|a| a.text.contains(words)).unwrap_or_else(|| panic!("{spelled}: {found:?}"));
        assert_eq!(hit.source, advice::COMMON);
    }
    for (spelled, factor, never) in [
        ("cake / flour, baking powder / Mix.", "4", "leavening"),
        ("caramel cake / flour, sugar / Bake.", "2", "single batches"),
        ("strawberry jam / strawberries, sugar / Boil.", "1/2", "single batches"),
        ("soup / water, salt / Lower the heat.", "2", "boil down"),
    ] {
        let found = advice::advice(&card(spelled), &wanted(factor));
        assert!(!found.iter().any(|a| a.text.contains(never)), "{spelled}: {found:?}");
    }
    assert!(advice::advice(&card("cake / flour, baking powder, salt / Bake."), &wanted("1")).is_empty());
}

#[test]
fn half_a_nine_by_thirteen() {
    let found = advice::advice(&full(), &wanted("1/2"));
    let texts: Vec<&str> = found.iter().map(|a| a.text.as_str()).collect();
    assert_eq!(
        texts,
        [
            "Fits a 9-inch round pan or an 8-inch square pan, about as deep as before.",
            "Baking time does not shrink with the amount: check from 30 minutes.",
        ]
    );
}

#[test]
fn canning_is_never_scaled() {
    let mut jars =
        card("green beans / green beans, salt / Pack the jars. Process the jars in a boiling water canner. ");
    let time = Time::range(20.into(), 20.into(), TimeUnit::Minute).unwrap();
    jars.steps[1].pieces.push(Piece { kind: PieceKind::Time(time), span: None });
    let shown = view::view(&jars, &wanted("2"));
    assert_eq!(shown.groups[0].lines[0].amount, "1 cup");
    assert_eq!(shown.size, "as spoken");
    assert!(shown.sizing.refused.unwrap().contains("tested process"));
    assert!(shown.margin.iter().any(|m| m.kind == "advice" && m.text.contains("not resized")));
}
