//! The program: a draft in, cards out; one line and status 2 for what cannot be used.

use super::spell::file;
use serde_json::Value;
use std::io::Write;
use std::process::{Command, Output, Stdio};

const DRAFT: &str = "We're making corn pudding, it feeds six to eight. Two 15 ounce cans of corn, drained, a cup of milk and half a \
                     stick of butter. Preheat the oven to 375. Mix it all up in a nine by thirteen and bake it 35 to 45 minutes.";

fn run(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_plainspoon"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    // A program that stops at its arguments never reads; the pipe it closes is no fault of ours.
    let _ = child.stdin.take().expect("its standard input").write_all(input);
    child.wait_with_output().expect("the program ends")
}

/// What it prints on a draft that it can use.
fn printed(arguments: &[&str], input: &str) -> String {
    let out = run(arguments, input.as_bytes());
    assert!(out.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8(out.stdout).expect("it prints UTF-8")
}

/// The error of a run that must fail: its status is 2, it prints nothing else, and the error is one line.
fn refused(arguments: &[&str], input: &[u8]) -> String {
    let out = run(arguments, input);
    let error = String::from_utf8(out.stderr).expect("an error in UTF-8");
    assert_eq!(out.status.code(), Some(2), "{arguments:?}: {error}");
    assert!(out.stdout.is_empty(), "{arguments:?} printed as well as failing");
    assert!(error.starts_with("plainspoon: ") && error.trim_end().lines().count() == 1, "{error:?}");
    error
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|e| panic!("{e}: {text}"))
}

#[test]
fn prints_the_card_as_text() {
    let text = printed(&[], DRAFT);
    for part in ["Corn pudding", "2 cans", "375", "9 × 13 in", "35 to 45 minutes"] {
        assert!(text.contains(part), "no {part:?} in:\n{text}");
    }
    assert_eq!(text, printed(&["-"], DRAFT), "a dash is standard input");
    assert!(text.ends_with('\n'));
}

#[test]
fn reads_a_file_as_it_reads_standard_input() {
    let path = file("www/samples/corn-pudding.txt");
    let name = path.to_str().expect("a plain path");
    let draft = std::fs::read_to_string(&path).expect("the sample");
    assert_eq!(printed(&[name], ""), printed(&[], &draft));
    assert_eq!(printed(&["--json", name], ""), printed(&["--json"], &draft));
    assert_eq!(printed(&["--", name], ""), printed(&[], &draft), "all that follows -- is a file");
}

#[test]
fn resizes_what_it_prints() {
    let whole = printed(&[], DRAFT);
    let half = printed(&["--scale", "1/2"], DRAFT);
    assert_ne!(whole, half);
    assert!(half.contains("½ cup") || half.contains("1/2 cup"), "{half}");
    assert_eq!(half, printed(&["--scale=1/2"], DRAFT));
    assert!(printed(&["--servings", "12"], DRAFT).contains("12"));
}

#[test]
fn the_reading_has_every_field() {
    let reading = json(&printed(&["--json"], DRAFT));
    let card = &reading["cards"][0];
    assert_eq!(card["title"], "corn pudding");
    assert_eq!(card["yield"], serde_json::json!({"low": "6", "high": "8", "of": "servings"}));
    assert_eq!(card["bakeware"], serde_json::json!([{"shape": "rectangle", "inches": ["9", "13"]}]));
    assert_eq!(card["oven"], serde_json::json!([{"degrees": "375", "scale": "F"}]));
    assert_eq!(card["times"], serde_json::json!([{"low": "35", "high": "45", "unit": "minute"}]));
    let corn = &card["ingredients"][0];
    assert_eq!(corn["name"], "corn");
    assert_eq!(corn["amount"], serde_json::json!({"low": "2", "high": "2"}));
    assert_eq!(corn["unit"], "can");
    assert_eq!(corn["package"], serde_json::json!({"amount": "15", "unit": "ounce"}));
    assert_eq!(corn["prep"], "drained");
    assert_eq!(
        (&corn["optional"], &corn["to_taste"], &corn["group"]),
        (&Value::Bool(false), &Value::Bool(false), &Value::Null)
    );
    assert_eq!(card["ingredients"][2]["amount"]["low"], "1/2", "amounts are exact fractions as text");
    assert!(card["steps"].as_array().is_some_and(|s| s.len() >= 2 && s.iter().all(Value::is_string)));
    for list in ["notes", "queries"] {
        assert!(card[list].is_array(), "{list}");
    }
    assert!(card.get("headnote").is_some(), "a field with nothing in it is null, not absent");
    assert!(reading["fixes"].is_array());
}

#[test]
fn a_draft_without_a_recipe_gives_no_card() {
    for draft in ["", "Hello, is this thing on? I was at the shop today."] {
        assert_eq!(json(&printed(&["--json"], draft))["cards"], serde_json::json!([]));
        let out = run(&[], draft.as_bytes());
        assert!(out.status.success() && out.stdout.is_empty());
        assert!(String::from_utf8_lossy(&out.stderr).contains("no recipe"));
    }
}

#[test]
fn reads_one_record_a_line() {
    let record = |id: Value| serde_json::json!({"id": id, "draft": DRAFT}).to_string();
    let input = [
        record(serde_json::json!("a")),
        record(serde_json::json!(7)),
        String::new(),
        r#"{"id": "no draft"}"#.to_owned(),
        "this is no JSON".to_owned(),
        r#"{"draft": "We're making toast. Two slices of bread and a pat of butter."}"#.to_owned(),
        record(serde_json::json!({"file": "x", "n": 2})),
    ]
    .join("\n");
    let out = printed(&["--lines"], &input);
    let answers: Vec<Value> = out.lines().map(json).collect();
    assert_eq!(answers.len(), 6, "an answer for each record, none for an empty line:\n{out}");

    let alone = json(&printed(&["--json"], DRAFT));
    for (n, id) in
        [(0, serde_json::json!("a")), (1, serde_json::json!(7)), (5, serde_json::json!({"file": "x", "n": 2}))]
    {
        assert_eq!(answers[n]["id"], id);
        assert_eq!(answers[n]["cards"], alone["cards"], "a record reads as a draft alone does");
    }
    assert_eq!(answers[2]["id"], "no draft");
    assert!(answers[2]["error"].is_string() && answers[2].get("cards").is_none());
    assert!(answers[3]["error"].is_string() && answers[3]["id"].is_null());
    assert!(answers[4]["id"].is_null() && answers[4]["cards"].is_array());
}

/// A record that is no text spoils only its own line.
#[test]
fn a_bad_line_spoils_no_other() {
    let mut input = b"\xff\xfe\n".to_vec();
    input.extend(serde_json::json!({"id": 1, "draft": DRAFT}).to_string().bytes());
    let out = run(&["--lines"], &input);
    assert!(out.status.success());
    let answers: Vec<Value> = String::from_utf8(out.stdout).expect("UTF-8").lines().map(json).collect();
    assert!(answers[0]["error"].is_string());
    assert_eq!(answers[1]["cards"].as_array().map(Vec::len), Some(1));
}

#[test]
fn accounts_for_every_word() {
    let account = printed(&["--account"], DRAFT);
    for word in DRAFT.split_whitespace().map(|w| w.trim_end_matches(['.', ','])) {
        assert!(account.contains(word), "{word} is not accounted for:\n{account}");
    }
    assert!(account.contains("ingredient") && account.contains("action"), "{account}");
}

#[test]
fn says_how_it_is_used() {
    let help = printed(&["--help"], "");
    for option in ["--json", "--lines", "--account", "--scale", "--servings", "--pan", "--units"] {
        assert!(help.contains(option), "{option}: {help}");
    }
}

#[test]
fn refuses_arguments_it_cannot_use() {
    assert!(refused(&["--jsno"], b"").contains("--jsno"));
    assert!(refused(&["--json", "--lines"], b"").contains("only one"));
    assert!(refused(&["one.txt", "two.txt"], b"").contains("one draft"));
    assert!(refused(&["--scale"], b"").contains("--scale"));
    assert!(refused(&["no such file.txt"], b"").contains("no such file.txt"));
    for wrong in ["0", "-1", "1/0", "lots", "99999999999999999999999999999999999999999999"] {
        refused(&["--scale", wrong], DRAFT.as_bytes());
    }
    refused(&["--units", "furlongs"], DRAFT.as_bytes());
    refused(&["--pan", "big"], DRAFT.as_bytes());
}

#[test]
fn names_the_byte_where_a_draft_stops_being_text() {
    assert!(refused(&[], b"two cups \xff of flour").contains("byte 9"));
    assert!(refused(&["--json"], b"\xc3\x28").contains("byte 0"));
    // A character cut off by the end of the file.
    assert!(refused(&["--account"], b"caf\xc3").contains("byte 3"));
    assert!(run(&["--json"], "café".as_bytes()).status.success());
}
