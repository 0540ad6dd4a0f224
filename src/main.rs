//! The native program: a draft in, cards out.
//!
//! `plainspoon [FILE]` prints the cards as text, `--json` the reading, `--lines` reads and writes one record a line,
//! `--account` prints what became of every clause. Errors go to standard error; the exit status is 2 for arguments that
//! cannot be used or a draft that is not UTF-8 text, and 0 otherwise.

use plainspoon::kitchen::Wanted;
use plainspoon::kitchen::ask::{self, Options};
use plainspoon::output::{json, text, view};
use plainspoon::recipe::Book;
use serde::{Deserialize, Serialize};
use std::io::{BufRead, Read, Write};
use std::process::ExitCode;

const USAGE: &str = "plainspoon [FILE] [--json | --lines | --account] [--scale N | --servings N | --pan \"8 by 8\"] [--units said|us|metric|weight]";

/// What to print.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Print {
    Text,
    Json,
    Lines,
    Account,
}

/// The arguments, made out.
#[derive(Default)]
struct Asked {
    file: Option<String>,
    print: Option<Print>,
    scale: Option<String>,
    servings: Option<String>,
    pan: Option<String>,
    units: Option<String>,
    help: bool,
}

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("plainspoon: {message}");
            ExitCode::from(2)
        }
    }
}

fn run() -> Result<(), String> {
    let asked = arguments(std::env::args().skip(1))?;
    let mut out = std::io::stdout().lock();
    if asked.help {
        return write(&mut out, &format!("{USAGE}\n"));
    }
    let options = Options {
        scale: asked.scale.as_deref(),
        servings: asked.servings.as_deref(),
        pan: asked.pan.as_deref(),
        units: asked.units.as_deref(),
        ..Options::default()
    };
    if asked.print == Some(Print::Lines) {
        return lines(asked.file.as_deref(), &mut out);
    }
    let draft = draft(asked.file.as_deref())?;
    let book = plainspoon::read(&draft);
    match asked.print.unwrap_or(Print::Text) {
        Print::Json => write(&mut out, &(to_json(&json::book(&book))? + "\n")),
        Print::Account => write(&mut out, &account(&book, &draft)),
        Print::Text | Print::Lines => {
            if book.cards.is_empty() {
                eprintln!("plainspoon: no recipe was found in this draft");
            }
            let asked: Vec<_> = book.cards.iter().map(|card| ask::wanted(card, &options)).collect();
            // A size that fits one dish of several ("--pan", where only one names a pan) leaves the others as spoken.
            if let Some(Err(why)) = asked.first().filter(|_| asked.iter().all(Result::is_err)) {
                return Err(why.to_string());
            }
            for (n, (card, wanted)) in book.cards.iter().zip(asked).enumerate() {
                let wanted = wanted.unwrap_or_else(|why| {
                    eprintln!("plainspoon: {} is printed as spoken: {why}", card.title);
                    Wanted::default()
                });
                let rule = if n > 0 { "\n" } else { "" };
                write(&mut out, &format!("{rule}{}", text::text(&view::view(card, &wanted))))?;
            }
            Ok(())
        }
    }
}

fn arguments(mut args: impl Iterator<Item = String>) -> Result<Asked, String> {
    let mut asked = Asked::default();
    let mut only_files = false;
    while let Some(arg) = args.next() {
        let (name, joined) = match arg.split_once('=') {
            Some((name, value)) if name.starts_with("--") => (name.to_string(), Some(value.to_string())),
            _ => (arg.clone(), None),
        };
        let print = |asked: &mut Asked, what: Print| match asked.print.replace(what) {
            Some(before) if before != what => {
                Err("only one of --json, --lines and --account can be printed".to_string())
            }
            _ => Ok(()),
        };
        if only_files || !arg.starts_with("--") || arg == "-" {
            if asked.file.replace(arg).is_some() {
                return Err("only one draft can be read at a time".into());
            }
            continue;
        }
        let mut value =
            || joined.clone().or_else(|| args.next()).ok_or_else(|| format!("{name} needs a value (usage: {USAGE})"));
        match name.as_str() {
            "--" => only_files = true,
            "--help" => asked.help = true,
            "--json" => print(&mut asked, Print::Json)?,
            "--lines" => print(&mut asked, Print::Lines)?,
            "--account" => print(&mut asked, Print::Account)?,
            "--scale" => asked.scale = Some(value()?),
            "--servings" => asked.servings = Some(value()?),
            "--pan" => asked.pan = Some(value()?),
            "--units" => asked.units = Some(value()?),
            _ => return Err(format!("there is no option {name} (usage: {USAGE})")),
        }
    }
    Ok(asked)
}

fn write(out: &mut impl Write, text: &str) -> Result<(), String> {
    match out.write_all(text.as_bytes()) {
        // A reader that has seen enough closes the pipe; that is no fault.
        Err(e) if e.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        other => other.map_err(|e| format!("cannot write: {e}")),
    }
}

fn bytes(file: Option<&str>) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    match file.filter(|f| *f != "-") {
        Some(name) => bytes = std::fs::read(name).map_err(|e| format!("cannot read {name}: {e}"))?,
        None => {
            std::io::stdin().read_to_end(&mut bytes).map_err(|e| format!("cannot read standard input: {e}"))?;
        }
    }
    Ok(bytes)
}

fn draft(file: Option<&str>) -> Result<String, String> {
    String::from_utf8(bytes(file)?)
        .map_err(|e| format!("the draft is not UTF-8 text: it breaks at byte {}", e.utf8_error().valid_up_to()))
}

fn to_json(record: &impl Serialize) -> Result<String, String> {
    serde_json::to_string(record).map_err(|e| format!("cannot print the reading: {e}"))
}

/// Every clause with its use and the reason, a line each.
fn account(book: &Book, draft: &str) -> String {
    let mut out = String::new();
    for c in &book.clauses {
        let card = c.card.map_or("-".to_string(), |n| (n + 1).to_string());
        let words: Vec<&str> = c.span.of(draft).split_whitespace().collect();
        out.push_str(&format!("{card:>2}  {:10}  {}  ({})\n", c.main.name(), words.join(" "), c.why));
    }
    for f in &book.fixes {
        out.push_str(&format!("heard \"{}\", read as \"{}\"\n", f.heard, f.meant));
    }
    out
}

#[derive(Deserialize)]
struct Record {
    #[serde(default)]
    id: serde_json::Value,
    draft: Option<String>,
}

#[derive(Serialize)]
struct Answer {
    id: serde_json::Value,
    #[serde(flatten)]
    reading: json::BookRecord,
}

#[derive(Serialize)]
struct Failure {
    id: serde_json::Value,
    error: String,
}

/// One JSON record a line in, one a line out, with no state between.
fn lines(file: Option<&str>, out: &mut impl Write) -> Result<(), String> {
    let reader: Box<dyn BufRead> = match file.filter(|f| *f != "-") {
        Some(name) => Box::new(std::io::BufReader::new(
            std::fs::File::open(name).map_err(|e| format!("cannot read {name}: {e}"))?,
        )),
        None => Box::new(std::io::BufReader::new(std::io::stdin())),
    };
    for line in reader.split(b'\n') {
        let line = line.map_err(|e| format!("cannot read: {e}"))?;
        if line.iter().all(u8::is_ascii_whitespace) {
            continue;
        }
        let answer = match serde_json::from_slice::<Record>(&line) {
            Ok(Record { id, draft: Some(draft) }) => {
                to_json(&Answer { id, reading: json::book(&plainspoon::read(&draft)) })?
            }
            Ok(Record { id, draft: None }) => to_json(&Failure { id, error: "the record has no draft".into() })?,
            Err(e) => to_json(&Failure { id: serde_json::Value::Null, error: format!("no JSON record: {e}") })?,
        };
        write(out, &(answer + "\n"))?;
    }
    Ok(())
}
