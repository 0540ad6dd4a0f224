//! The weights that tests/train writes, and the marked drafts it learns from: whole in form.

use super::spell::file;
use plainspoon::reading::dish::turn::{CONTEXT, FACTS};
use plainspoon::reading::ledger::{stray, trust, twice};
use plainspoon::reading::vectors;
use plainspoon::reading::weights::VECTORS;
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
    assert_eq!(lists.len(), 9, "openings, starts, turns, titles, mentions, twice, strays, doubts and vectors");
    for (path, text) in &lists {
        let mut seen = BTreeSet::new();
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            let parts: Vec<&str> = line.split(" | ").collect();
            let [sign, answer, weight] = parts[..] else { panic!("{}: {line:?}", path.display()) };
            assert!(seen.insert((sign, answer)), "{}: {sign} | {answer} stands twice", path.display());
            let weight: i32 = weight.parse().unwrap_or_else(|_| panic!("{}: {line:?}", path.display()));
            assert!(weight != 0 || sign == "bias", "{}: {line:?} weighs nothing", path.display());
        }
        let rows = path.file_stem().is_some_and(|s| s == "vectors");
        assert!(rows || seen.contains(&("bias", "-")), "{}: no bias", path.display());
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

#[test]
fn each_row_of_a_word_has_as_many_letters() {
    let text = fs::read_to_string(file("src/lexicon/weights/vectors.txt")).expect("the rows");
    let mut rows = 0;
    for line in text.lines().filter(|l| !l.starts_with('#')) {
        let row = line.split(" | ").nth(1).unwrap_or_else(|| panic!("{line:?} has no row"));
        assert_eq!(row.len(), vectors::WIDTH, "{line:?}");
        let bounds = i32::from(vectors::ZERO) - vectors::TOP..=i32::from(vectors::ZERO) + vectors::TOP;
        assert!(row.bytes().all(|b| bounds.contains(&i32::from(b))), "{line:?}");
        rows += 1;
    }
    assert!(rows > 1000, "{rows} words have rows");
}

#[test]
fn what_is_said_of_like_dishes_is_alike() {
    let sum = |words: &str| {
        let mut sum = [0; vectors::WIDTH];
        words.split(' ').for_each(|w| VECTORS.add(&mut sum, w));
        sum
    };
    let (bread, cake, stew) =
        (sum("yeast knead dough rise"), sum("sugar vanilla egg cake"), sum("beef broth simmer carrot"));
    assert_eq!(vectors::likeness(&bread, &bread), 256);
    assert_eq!(vectors::likeness(&bread, &sum("")), 0);
    let near = vectors::likeness(&cake, &sum("cocoa frosting"));
    let far = vectors::likeness(&stew, &sum("cocoa frosting"));
    assert!(near > far + 64, "a cake {near}, a stew {far}");
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

#[test]
fn each_marked_draft_says_where_its_dishes_begin() {
    let drafts = texts("tests/drafts/marked");
    assert!(drafts.len() >= 600, "only {} marked drafts", drafts.len());
    for (path, text) in &drafts {
        let mut titles = BTreeSet::new();
        let mut rest = text.as_str();
        while let Some((_, after)) = rest.split_once("{{") {
            let (mark, after) =
                after.split_once("}}").unwrap_or_else(|| panic!("{}: a mark stays open", path.display()));
            let mark = mark.trim();
            assert!(!mark.is_empty() && !mark.contains(['{', '\n']), "{}: {mark:?}", path.display());
            if !mark.starts_with("back:") && !mark.starts_with("on:") {
                assert!(titles.insert(mark.to_lowercase()), "{}: {mark:?} begins twice", path.display());
            }
            rest = after;
        }
        assert!(!titles.is_empty(), "{}: no mark", path.display());
    }
}
