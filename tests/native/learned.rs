//! The weights that tests/train writes: whole in form.

use super::spell::file;
use plainspoon::lexicon::makings::{UNKNOWN, makings};
use plainspoon::reading::dish::turn::{CONTEXT, FACTS};
use plainspoon::reading::ledger::{stray, trust, twice};
use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

fn texts(folder: &str) -> Vec<(PathBuf, String)> {
    let entries = fs::read_dir(file(folder)).expect("the folder");
    let mut paths: Vec<PathBuf> = entries.map(|e| e.expect("an entry").path()).collect();
    paths.retain(|p| p.extension().is_some_and(|e| e == "txt"));
    paths.sort();
    paths.into_iter().map(|p| (p.clone(), fs::read_to_string(&p).expect("UTF-8"))).collect()
}

#[test]
fn each_weight_is_a_whole_number_of_one_answer() {
    let all = texts("src/lexicon/weights");
    let trees = |p: &PathBuf| {
        ["trees", "again", "both", "doubted", "astray"].iter().any(|n| p.file_stem().is_some_and(|s| s == *n))
    };
    let lists: Vec<_> = all.iter().filter(|l| !trees(&l.0)).collect();
    assert_eq!(lists.len(), 9, "openings, starts, turns, titles, mentions, twice, strays, doubts and telling");
    for (path, text) in &lists {
        let mut seen = BTreeSet::new();
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            let parts: Vec<&str> = line.split(" | ").collect();
            let [sign, answer, weight] = parts[..] else { panic!("{}: {line:?}", path.display()) };
            assert!(seen.insert((sign, answer)), "{}: {sign} | {answer} stands twice", path.display());
            let weight: i32 = weight.parse().unwrap_or_else(|_| panic!("{}: {line:?}", path.display()));
            assert!(weight != 0 || sign == "bias", "{}: {line:?} weighs nothing", path.display());
        }
        assert!(seen.contains(&("bias", "-")), "{}: no bias", path.display());
    }
    // They are loaded with the word lists, so they have to stay small.
    let text: String = all
        .iter()
        .flat_map(|l| l.1.lines())
        .filter(|l| !l.starts_with('#'))
        .fold(String::new(), |text, line| text + line + "\n");
    let bytes = miniz_oxide::deflate::compress_to_vec(text.as_bytes(), 10).len();
    assert!(bytes < 150_000, "{bytes} bytes of weights, deflated");
}

/// Names, foods and parts of a line of the list of makings.
fn made_of(line: &str) -> (Vec<&str>, Vec<&str>, Vec<&str>) {
    let (names, held) = line.split_once(" = ").unwrap_or_else(|| panic!("{line:?} has no foods"));
    let (foods, parts) = held.split_once(" ; ").unwrap_or((held, ""));
    (names.split(", ").collect(), foods.split(", ").collect(), parts.split(", ").filter(|p| !p.is_empty()).collect())
}

#[test]
fn each_dish_of_the_makings_has_foods_and_stands_in_its_place() {
    let text = fs::read_to_string(file("src/lexicon/makings.txt")).expect("the list");
    let lines: Vec<&str> = text.lines().filter(|l| !l.starts_with('#')).collect();
    assert!(lines.len() > 5000, "{} dishes", lines.len());
    for pair in lines.windows(2) {
        assert!(made_of(pair[0]).0[0] <= made_of(pair[1]).0[0], "{:?} stands before {:?}", pair[0], pair[1]);
    }
    for line in &lines {
        let (names, foods, parts) = made_of(line);
        assert!(foods.len() >= 4, "{line:?} tells too little");
        let words = foods.iter().chain(&parts);
        assert!(words.clone().all(|w| !w.is_empty() && !w.contains(' ')), "{line:?}: last words only");
        assert!(names.iter().all(|n| !n.is_empty() && n.trim() == *n), "{line:?}");
        assert_eq!(foods.iter().collect::<BTreeSet<_>>().len(), foods.len(), "{line:?} says a food twice");
    }
}

/// What goes into these is common practice.
#[test]
fn foods_that_belong_together_are_known_to() {
    let all = makings();
    let foods = |said: &str| all.foods(said.split(' ').map(str::to_string).collect::<Vec<_>>().iter(), 30);
    let (cake, stew) = (foods("flour sugar egg butter cocoa"), foods("beef carrot potato stock thyme"));
    for (name, its, not) in [("chocolate cake", &cake, &stew), ("beef stew", &stew, &cake)] {
        let called = all.called(name);
        assert!(called.wholly, "{name}");
        let (its, not) = (all.share(&called.dishes, its), all.share(&called.dishes, not));
        assert!(its > 400 && not < 100, "{name}: its own {its}, of the other {not}");
    }
    // A longer title is known by its last words, a name that nobody has is not.
    let last = all.called("gran's best beef stew");
    assert!(!last.dishes.is_empty());
    assert!(all.called("zzz").dishes.is_empty() && all.called("").dishes.is_empty());
    assert_eq!(all.share(&[], &cake), UNKNOWN);
    // No one dish has both lists; each alone is told of.
    let (a, b) = (all.held(&cake), all.held(&stew));
    assert!(a.most() > 700 && b.most() > 700, "{} and {}", a.most(), b.most());
    assert!(a.with(&b) < a.most() + b.most() - 300, "{}", a.with(&b));
    assert!(a.likely().len() == 8 && a.likely().windows(2).all(|w| a.sums[w[0]] >= a.sums[w[1]]));
    // Dumplings are a part of chicken and dumplings.
    assert!(all.part(&all.called("chicken and dumplings").dishes, "dumpling") > 0);
}

/// Counts the questions of a tree told in order, each before what answers when it holds and what answers when it does not.
fn questions<'a>(words: &mut impl Iterator<Item = &'a str>, facts: usize) -> usize {
    let word = words.next().expect("a tree that ends");
    let Some((fact, top)) = word.split_once(':') else {
        word.parse::<i32>().expect("a leaf is a whole number");
        return 0;
    };
    assert!(fact.parse::<usize>().expect("a fact") < facts, "{word} asks for a fact that is not there");
    top.parse::<i32>().expect("a whole number");
    1 + questions(words, facts) + questions(words, facts)
}

#[test]
fn each_tree_is_whole_and_asks_for_facts_that_are_there() {
    for (name, facts) in [
        ("trees", FACTS),
        ("again", FACTS + CONTEXT),
        ("both", twice::FACTS),
        ("doubted", trust::FACTS),
        ("astray", stray::FACTS),
    ] {
        let text = fs::read_to_string(file(&format!("src/lexicon/weights/{name}.txt"))).expect("the trees");
        let mut trees = 0;
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            let mut words = line.split(' ');
            assert!(questions(&mut words, facts) < 8, "{name}: {line:?} has more than eight leaves");
            assert_eq!(words.next(), None, "{name}: {line:?} goes on after its tree");
            trees += 1;
        }
        assert!(trees > 100, "{name}: only {trees} trees");
    }
}
