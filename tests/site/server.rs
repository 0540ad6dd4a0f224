//! Serves the built page on the loopback while the tests run.

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};

/// Serves a folder on a free port, for as long as the program runs, and gives the address.
pub fn serve(folder: &Path) -> Result<String, String> {
    let listener = TcpListener::bind("127.0.0.1:0").map_err(|e| e.to_string())?;
    let port = listener.local_addr().map_err(|e| e.to_string())?.port();
    let folder = folder.to_path_buf();
    std::thread::spawn(move || {
        for stream in listener.incoming().flatten() {
            let folder = folder.clone();
            // A browser that hangs up early is no concern of a test.
            std::thread::spawn(move || drop(answer(stream, &folder)));
        }
    });
    Ok(format!("http://127.0.0.1:{port}/"))
}

fn answer(mut stream: TcpStream, folder: &Path) -> std::io::Result<()> {
    let mut lines = BufReader::new(stream.try_clone()?).lines();
    let first = lines.next().transpose()?.unwrap_or_default();
    for line in lines {
        if line?.is_empty() {
            break;
        }
    }
    let asked = first.split(' ').nth(1).unwrap_or("/").split('?').next().unwrap_or("/");
    let file = PathBuf::from(asked.trim_start_matches('/'));
    let inside = file.components().all(|c| matches!(c, Component::Normal(_)));
    let file = if file.as_os_str().is_empty() { PathBuf::from("index.html") } else { file };
    let kind = match file.extension().and_then(|e| e.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css",
        Some("js") => "text/javascript",
        Some("wasm") => "application/wasm",
        Some("svg") => "image/svg+xml",
        Some("woff2") => "font/woff2",
        _ => "application/octet-stream",
    };
    let (status, body) = match fs::read(folder.join(&file)) {
        Ok(body) if inside => ("200 OK", body),
        _ => ("404 Not Found", b"no such file".to_vec()),
    };
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    stream.write_all(&body)
}
