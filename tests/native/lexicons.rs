//! The word lists of `src/lexicon`: every entry parses, stands once, is lower case and in its place.

use super::spell::file;
use plainspoon::lexicon::{VerbClass, lexicon};
use plainspoon::measure::{Shape, Unit};
use plainspoon::token::fold;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// The entries of a list with the numbers of their lines.
fn entries(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().map(|(n, l)| (n + 1, l.trim())).filter(|(_, l)| !l.is_empty() && !l.starts_with('#'))
}

fn list(name: &str) -> String {
    fs::read_to_string(file("src/lexicon").join(name)).expect("the list in UTF-8")
}

fn all_lists() -> BTreeMap<String, String> {
    let folder = fs::read_dir(file("src/lexicon")).expect("the folder of the lists");
    let names = folder.map(|e| e.expect("an entry").file_name().into_string().expect("a plain name"));
    names.filter(|n| n.ends_with(".txt")).map(|n| (n.clone(), list(&n))).collect()
}

/// "name ; tag = spelling, spelling": the three parts.
fn parts(line: &str) -> (&str, &str, Vec<&str>) {
    let (head, spellings) = line.split_once('=').unwrap_or((line, line));
    let (name, tag) = head.split_once(';').unwrap_or((head, ""));
    (name.trim(), tag.trim(), spellings.split(',').map(str::trim).collect())
}

fn folded(phrase: &str) -> String {
    phrase.split_whitespace().map(fold).collect::<Vec<_>>().join(" ")
}

fn as_it_stands(phrase: &str) -> String {
    phrase.to_owned()
}

/// Fails with every spelling that stands on two lines or twice on one.
fn refuse_doubles(name: &str, key: fn(&str) -> String) {
    let text = list(name);
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let mut doubles = Vec::new();
    for (n, line) in entries(&text) {
        for spelling in parts(line).2.into_iter().map(|s| key(s.trim_start_matches('+').trim())) {
            if let Some(before) = seen.insert(spelling.clone(), n) {
                doubles.push(format!("{spelling:?} on lines {before} and {n}"));
            }
        }
    }
    assert!(doubles.is_empty(), "{name}:\n{}", doubles.join("\n"));
}

#[test]
fn every_list_has_a_head_that_says_how_to_add_to_it() {
    for (name, text) in all_lists() {
        assert!(text.starts_with("# "), "{name} begins with no comment");
        assert!(
            text.ends_with('\n') && !text.contains('\r') && !text.contains('\t'),
            "{name} has odd line ends or tabs"
        );
        assert!(entries(&text).next().is_some(), "{name} has no entry");
    }
}

/// Weights and pans carry names of a database and of a shop, which have capitals.
#[test]
fn spellings_are_lower_case_without_doubled_spaces_or_hyphens() {
    for (name, text) in all_lists() {
        if ["weights.txt", "ovenware.txt"].contains(&name.as_str()) {
            continue;
        }
        for (n, line) in entries(&text) {
            for spelling in parts(line).2 {
                assert!(!spelling.is_empty(), "{name}:{n} has an empty spelling");
                assert_eq!(spelling, spelling.to_lowercase(), "{name}:{n}");
                assert!(!spelling.contains("  ") && !spelling.contains('’'), "{name}:{n}: {spelling:?}");
                assert!(!spelling.contains('-'), "{name}:{n}: a hyphen parts words, so {spelling:?} is never found");
            }
        }
    }
}

#[test]
fn no_spelling_stands_twice() {
    for name in ["foods.txt", "heads.txt", "tools.txt", "pans.txt", "components.txt", "yields.txt"] {
        refuse_doubles(name, folded);
    }
    for name in
        ["describers.txt", "dishes.txt", "people.txt", "prep.txt", "cuts.txt", "units.txt", "verbs.txt", "slips.txt"]
    {
        refuse_doubles(name, as_it_stands);
    }
}

#[test]
fn lists_that_say_so_are_in_the_order_of_the_alphabet() {
    for name in [
        "describers.txt",
        "dishes.txt",
        "foods.txt",
        "pans.txt",
        "people.txt",
        "prep.txt",
        "tools.txt",
        "units.txt",
        "verbs.txt",
        "yields.txt",
    ] {
        let text = list(name);
        let rows: Vec<(usize, &str)> = entries(&text).collect();
        let mut wrong = Vec::new();
        for pair in rows.windows(2) {
            let ((_, a), (n, b)) = (pair[0], pair[1]);
            // The adverbs of prep.txt stand at its end; what a recipe makes one of stands first in yields.txt.
            if a.starts_with(['+', '!']) == b.starts_with(['+', '!']) && parts(a).0 > parts(b).0 {
                wrong.push(format!("{name}:{n}: {} stands after {}", parts(b).0, parts(a).0));
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }
}

#[test]
fn units_are_units() {
    let mut named = BTreeSet::new();
    for (n, line) in entries(&list("units.txt")) {
        let (name, _, spellings) = parts(line);
        let unit: Unit = name.parse().unwrap_or_else(|_| panic!("units.txt:{n}: {name} is no unit"));
        assert!(named.insert(unit), "units.txt:{n}: {name} has two lines");
        assert!(spellings.contains(&unit.name()), "units.txt:{n}: {name} is not among its own spellings");
        assert!(spellings.contains(&unit.plural()), "units.txt:{n}: {} is not among its spellings", unit.plural());
    }
    for unit in Unit::ALL {
        assert!(named.contains(unit), "{unit} cannot be said: it has no line in units.txt");
    }
    assert_eq!("cups".parse::<Unit>().ok(), None, "canonical names are singular");
}

#[test]
fn verbs_have_a_class() {
    let classes = ["heat", "mix", "cut", "move", "wait", "prep", "finish", "everyday"];
    for (n, line) in entries(&list("verbs.txt")) {
        let (base, class, forms) = parts(line);
        assert!(classes.contains(&class), "verbs.txt:{n}: {base} has the class {class:?}");
        assert!(forms.contains(&base), "verbs.txt:{n}: {base} is not among its own forms");
    }
    let verbs: Vec<_> = lexicon().verbs.entries().collect();
    let said = |w: &str| verbs.iter().find(|v| v.0.join(" ") == w).map(|v| (v.1.base, v.1.class));
    assert_eq!(said("stirring"), Some(("stir", VerbClass::Mix)));
    assert_eq!(said("chopped"), Some(("chop", VerbClass::Cut)));
}

#[test]
fn pans_have_a_shape_or_none() {
    let shapes = [
        Shape::Rectangle,
        Shape::Square,
        Shape::Round,
        Shape::Loaf,
        Shape::Skillet,
        Shape::Tube,
        Shape::Pie,
        Shape::Sheet,
        Shape::Muffin,
    ];
    for (n, line) in entries(&list("pans.txt")) {
        let (name, shape, _) = parts(line);
        assert!(shape.is_empty() || shapes.iter().any(|s| s.name() == shape), "pans.txt:{n}: {name} is a {shape:?}");
    }
    for (n, line) in entries(&list("ovenware.txt")) {
        let shape = line.split(';').nth(1).map_or("", str::trim);
        assert!(shapes.iter().any(|s| s.name() == shape), "ovenware.txt:{n}: {shape:?} is no shape");
    }
}

#[test]
fn slips_say_when() {
    for (n, line) in entries(&list("slips.txt")) {
        let (meant, when, heard) = parts(line);
        assert!(
            ["always", "food", "number", "unit", "verb", "order"].contains(&when),
            "slips.txt:{n}: when is {when:?}"
        );
        assert!(line.contains('=') && !heard.contains(&meant), "slips.txt:{n}: {meant} is heard as itself");
    }
}

#[test]
fn foods_come_first_among_their_spellings() {
    for (n, line) in entries(&list("foods.txt")) {
        let (name, _, spellings) = parts(line);
        assert!(line.contains('='), "foods.txt:{n} has no spellings");
        assert_eq!(spellings.first().map(|s| folded(s)), Some(folded(name)), "foods.txt:{n}");
    }
}

/// The allergens a card warns of are the tags the head of foods.txt names; a tag written otherwise would warn of nothing.
#[test]
fn tags_of_foods_are_known_words() {
    let mut tags: BTreeMap<String, usize> = BTreeMap::new();
    for (_, line) in entries(&list("foods.txt")) {
        for tag in parts(line).1.split(',').map(str::trim).filter(|t| !t.is_empty()) {
            *tags.entry(tag.to_owned()).or_default() += 1;
        }
    }
    for allergen in ["dairy", "egg", "fish", "shellfish", "treenut", "peanut", "wheat", "soy", "sesame"] {
        assert!(tags.contains_key(allergen), "no food has {allergen}");
    }
    let rare: Vec<&String> = tags.iter().filter(|t| *t.1 < 2).map(|t| t.0).collect();
    assert!(rare.is_empty(), "tags of one food only, perhaps mistyped: {rare:?}");
}

/// What the build packs is what lies in the folder.
#[test]
fn every_list_is_packed() {
    for (name, text) in all_lists() {
        let packed: Vec<&str> = plainspoon::lexicon::lists::list(&name).lines().collect();
        let there: Vec<&str> = entries(&text).map(|e| e.1).collect();
        assert_eq!(packed, there, "{name}");
    }
    assert_eq!(plainspoon::lexicon::lists::list("absent.txt"), "");
}
