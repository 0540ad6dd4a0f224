//! Drives the built page in Chromium, as a reader's hands would. `tests/run` builds the page and starts this.
//!
//! `PICTURES=folder` saves pictures of the page, and the printed cards, into the folder.

#[cfg(not(target_arch = "wasm32"))]
mod browser;
#[cfg(not(target_arch = "wasm32"))]
mod hands;
#[cfg(not(target_arch = "wasm32"))]
mod server;

#[cfg(target_arch = "wasm32")]
fn main() {}

#[cfg(not(target_arch = "wasm32"))]
fn main() -> std::process::ExitCode {
    use std::path::Path;
    use std::process::ExitCode;

    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let dist = root.join("dist");
    if !dist.join("index.html").is_file() {
        eprintln!("site: dist/ is not built; run tests/run, or `trunk build --release` first");
        return ExitCode::FAILURE;
    }
    let opened = server::serve(&dist).and_then(|address| Ok((address, browser::Browser::open()?)));
    let (address, browser) = match opened {
        Ok(both) => both,
        Err(trouble) => {
            eprintln!("site: {trouble}");
            return ExitCode::FAILURE;
        }
    };
    let only: Vec<String> = std::env::args().skip(1).filter(|a| !a.starts_with('-')).collect();
    let (mut passed, mut failed) = (0, 0);
    for (name, test) in hands::TESTS {
        if !only.is_empty() && !only.iter().any(|o| name.contains(o.as_str())) {
            continue;
        }
        match hands::fresh(&browser, &address).and_then(|()| test(&browser)).and_then(|()| hands::quiet(&browser)) {
            Ok(()) => {
                passed += 1;
                println!("ok      {name}");
            }
            Err(trouble) => {
                failed += 1;
                println!("FAILED  {name}: {trouble}");
            }
        }
    }
    if let Ok(folder) = std::env::var("PICTURES")
        && let Err(trouble) = hands::pictures(&browser, &address, Path::new(&folder))
    {
        println!("FAILED  pictures: {trouble}");
        failed += 1;
    }
    println!("site: {passed} passed, {failed} failed");
    if failed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
