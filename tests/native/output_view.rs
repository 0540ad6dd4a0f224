//! The card view: titles, leads, side heads.

use plainspoon::kitchen::Wanted;
use plainspoon::output::view;

use super::kitchen_cards::{lines, step};

#[test]
fn a_step_opens_with_what_to_do() {
    for (sentence, lead) in [
        ("Stir together the rice and cream.", "Stir together"),
        ("Heat the oven to 375.", "Heat the oven"),
        ("Set aside.", "Set aside"),
        ("Bake.", "Bake"),
        ("Gently fold in the whites.", "Gently fold in"),
        ("Cook in a wide pan until soft.", "Cook"),
        ("Stir in the flour.", "Stir in"),
        ("In a wide pan, melt the butter.", "In a wide pan, melt"),
        ("Once it thickens, take it off.", "Once it thickens, take"),
        ("Whisk, then rest.", "Whisk"),
    ] {
        let mut card = lines(&[]);
        card.steps = vec![step(sentence)];
        let shown = view::view(&card, &Wanted::default());
        assert_eq!(shown.steps[0].lead, lead, "{sentence}");
        let rest: String = shown.steps[0].pieces.iter().map(|p| p.text.as_str()).collect();
        assert_eq!(format!("{}{rest}", shown.steps[0].lead), sentence);
    }
}

#[test]
fn a_group_is_named_where_it_changes() {
    let mut card = lines(&["1 cup | flour", "2 tablespoon | butter", "1 cup | cream"]);
    card.lines[1].group = Some("topping".to_owned());
    card.steps = vec![step("Stir."), step("Rub."), step("Scatter.")];
    card.steps[1].group = Some("topping".to_owned());
    card.steps[2].group = Some("topping".to_owned());
    let shown = view::view(&card, &Wanted::default());
    assert_eq!(shown.title, "Baked rice");
    let names: Vec<Option<&str>> = shown.groups.iter().map(|g| g.name.as_deref()).collect();
    assert_eq!(names, [None, Some("topping")]);
    let heads: Vec<Option<&str>> = shown.steps.iter().map(|s| s.group.as_deref()).collect();
    assert_eq!(heads, [None, Some("topping"), None]);
}
