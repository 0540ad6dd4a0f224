//! How long a reading takes: `cargo bench --bench reading --profile native`.
//!
//! Prints the best of several runs for 3,500 words, and for growing drafts up to 1 MB, so that a reading that is no longer
//! linear shows. Nothing here passes or fails: a slow machine is no fault.

use std::time::Instant;

fn best(draft: &str, runs: usize) -> f64 {
    (0..runs)
        .map(|_| {
            let began = Instant::now();
            std::hint::black_box(plainspoon::read(std::hint::black_box(draft)));
            began.elapsed().as_secs_f64() * 1000.0
        })
        .fold(f64::INFINITY, f64::min)
}

fn main() {
    let talk: Vec<&str> =
        [include_str!("../../www/samples/corn-pudding.txt"), include_str!("../../www/samples/sunday-dinner.txt")]
            .iter()
            .flat_map(|t| t.split_whitespace())
            .collect();
    let words: Vec<&str> = talk.iter().cycle().take(3500).copied().collect();
    let draft = words.join(" ");
    // The word lists are made ready at first use; that is measured apart.
    let began = Instant::now();
    plainspoon::read("a cup of flour");
    println!("word lists made ready: {:.1} ms", began.elapsed().as_secs_f64() * 1000.0);
    println!("3,500 words: {:.1} ms", best(&draft, 20));
    let mut before = 0.0;
    for kilobytes in [62, 125, 250, 500, 1000] {
        let many: String = draft.chars().cycle().take(kilobytes * 1000).collect();
        let took = best(&many, 2);
        let times = if before > 0.0 { format!(", {:.2} times the one before", took / before) } else { String::new() };
        println!("{kilobytes} KB: {took:.0} ms{times}");
        before = took;
    }
}
