//! The native program: a draft in, cards out.

use plainspoon::output::json;
use std::io::Read;

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let mut text = String::new();
    match args.iter().find(|a| !a.starts_with("--")) {
        Some(f) => text = std::fs::read_to_string(f).unwrap_or_default(),
        None => {
            let _ = std::io::stdin().read_to_string(&mut text);
        }
    }
    let book = plainspoon::read(&text);
    if args.iter().any(|a| a == "--account") {
        for c in &book.clauses {
            println!("[{}] {:10} {:?} | {} ({})", c.card.map_or("-".into(), |k| k.to_string()), c.main.name(), c.span, c.span.of(&text).replace('\n', " "), c.why);
        }
        return;
    }
    if let Ok(out) = serde_json::to_string(&json::book(&book)) {
        println!("{out}");
    }
}
