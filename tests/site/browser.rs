//! A browser driven over the WebDriver protocol (W3C), which is JSON over HTTP on the loopback.

use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// What went wrong, as a sentence.
pub type Done<T = ()> = Result<T, String>;

/// How long a page may take to come to what a test waits for. A slow machine is not a fault of the page; whoever works on
/// a test that fails sets `PATIENCE` to fewer seconds.
fn patience() -> Duration {
    let seconds = std::env::var("PATIENCE").ok().and_then(|s| s.parse().ok());
    Duration::from_secs(seconds.unwrap_or(180))
}

/// A Chromium with one window, closed when it is dropped.
pub struct Browser {
    driver: Child,
    port: u16,
    session: String,
    profile: PathBuf,
}

impl Browser {
    /// Starts chromedriver on a free port and opens a window with a profile of its own.
    pub fn open() -> Done<Browser> {
        let program = std::env::var("CHROMEDRIVER").unwrap_or_else(|_| "chromedriver".into());
        let mut driver = Command::new(&program)
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|e| format!("{program} does not start: {e}"))?;
        let mut lines = BufReader::new(driver.stdout.take().ok_or("chromedriver has no output")?).lines();
        let port = lines
            .by_ref()
            .map_while(Result::ok)
            .find_map(|line| {
                line.split_once("successfully on port ").and_then(|(_, n)| n.trim_end_matches('.').parse().ok())
            })
            .ok_or("chromedriver did not say its port")?;
        // Its output has to be read to the end, or it stops when the pipe is full.
        std::thread::spawn(move || lines.for_each(drop));
        let profile = std::env::temp_dir().join(format!("plainspoon-site-{}-{port}", std::process::id()));
        let mut options = json!({"args": [
            "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync",
            "--disable-dev-shm-usage", "--window-size=1280,900", format!("--user-data-dir={}", profile.display()),
        ]});
        if let Ok(binary) = std::env::var("CHROME") {
            options["binary"] = binary.into();
        }
        let mut browser = Browser { driver, port, session: String::new(), profile };
        let wanted = json!({"capabilities": {"alwaysMatch": {
            "goog:chromeOptions": options, "goog:loggingPrefs": {"browser": "ALL"},
            "timeouts": {"script": 300_000, "pageLoad": 300_000},
        }}});
        let opened = browser.call("POST", "/session", &wanted)?;
        browser.session = opened["sessionId"].as_str().ok_or("no session was opened")?.into();
        Ok(browser)
    }

    fn call(&self, method: &str, path: &str, body: &Value) -> Done<Value> {
        let text = if method == "POST" { body.to_string() } else { String::new() };
        let asked = || -> std::io::Result<Vec<u8>> {
            let mut stream = TcpStream::connect(("127.0.0.1", self.port))?;
            write!(
                stream,
                "{method} {path} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nContent-Type: application/json\r\nContent-Length: {}\r\nConnection: close\r\n\r\n{text}",
                self.port,
                text.len()
            )?;
            // The driver keeps the line open, so the length of the body is what it says.
            let mut stream = BufReader::new(stream);
            let (mut line, mut length) = (String::new(), 0);
            while stream.read_line(&mut line)? > 2 {
                if let Some((name, value)) = line.split_once(':')
                    && name.eq_ignore_ascii_case("content-length")
                {
                    length = value.trim().parse().unwrap_or(0);
                }
                line.clear();
            }
            let mut body = vec![0; length];
            stream.read_exact(&mut body)?;
            Ok(body)
        };
        let body = asked().map_err(|e| format!("chromedriver does not answer: {e}"))?;
        let value: Value = serde_json::from_slice(&body).map_err(|e| format!("an answer that is not JSON: {e}"))?;
        match value["value"]["error"].as_str() {
            Some(error) => Err(format!("{error}: {}", value["value"]["message"].as_str().unwrap_or(""))),
            None => Ok(value["value"].clone()),
        }
    }

    fn post(&self, command: &str, body: &Value) -> Done<Value> {
        self.call("POST", &format!("/session/{}/{command}", self.session), body)
    }

    /// Opens an address.
    pub fn go(&self, address: &str) -> Done {
        self.post("url", &json!({"url": address})).map(drop)
    }

    /// Loads the page again.
    pub fn reload(&self) -> Done {
        self.post("refresh", &json!({})).map(drop)
    }

    /// Runs a function body in the page and gives what it returns.
    pub fn run(&self, script: &str, args: &[Value]) -> Done<Value> {
        self.post("execute/sync", &json!({"script": script, "args": args}))
    }

    /// The value of an expression in the page.
    pub fn get(&self, expression: &str) -> Done<Value> {
        self.run(&format!("return {expression}"), &[])
    }

    /// Waits until an expression holds in the page.
    pub fn until(&self, expression: &str) -> Done {
        let (start, patience) = (Instant::now(), patience());
        loop {
            match self.get(expression) {
                Ok(Value::Bool(true)) => return Ok(()),
                other if start.elapsed() > patience => return Err(format!("{expression} never held: {other:?}")),
                _ => sleep(Duration::from_millis(40)),
            }
        }
    }

    /// Fails with the sentence where an expression does not hold.
    pub fn holds(&self, expression: &str, sentence: &str) -> Done {
        match self.get(expression)? {
            Value::Bool(true) => Ok(()),
            other => Err(format!("{sentence} ({expression} is {other})")),
        }
    }

    fn find(&self, selector: &str) -> Done<String> {
        let found = self.post("element", &json!({"using": "css selector", "value": selector}))?;
        let id = found.as_object().and_then(|o| o.values().next()).and_then(Value::as_str);
        id.map(String::from).ok_or_else(|| format!("nothing fits {selector}"))
    }

    /// Clicks with the pointer, as a hand would.
    pub fn click(&self, selector: &str) -> Done {
        let id = self.find(selector)?;
        self.run("arguments[0].scrollIntoView({block: 'center'})", &[element(&id)])?;
        self.post(&format!("element/{id}/click"), &json!({})).map(drop).map_err(|e| format!("{selector}: {e}"))
    }

    /// Types into a field, key by key.
    pub fn keys(&self, selector: &str, text: &str) -> Done {
        let id = self.find(selector)?;
        self.post(&format!("element/{id}/value"), &json!({"text": text})).map(drop)
    }

    /// Types over what a field holds.
    pub fn retype(&self, selector: &str, text: &str) -> Done {
        self.run(
            "const field = document.querySelector(arguments[0]); field.focus(); field.value = ''",
            &[selector.into()],
        )?;
        self.keys(selector, text)
    }

    /// Presses keys wherever the focus is.
    pub fn press(&self, keys: &[&str]) -> Done {
        let actions: Vec<Value> = keys
            .iter()
            .flat_map(|k| [json!({"type": "keyDown", "value": k}), json!({"type": "keyUp", "value": k})])
            .collect();
        self.post("actions", &json!({"actions": [{"type": "key", "id": "keys", "actions": actions}]})).map(drop)
    }

    /// A window of that size in CSS pixels, and whether the night colours are asked for.
    pub fn window(&self, width: u32, height: u32, night: bool) -> Done {
        let size = json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false});
        self.devtools("Emulation.setDeviceMetricsOverride", size)?;
        let scheme = if night { "dark" } else { "light" };
        self.devtools(
            "Emulation.setEmulatedMedia",
            json!({"features": [{"name": "prefers-color-scheme", "value": scheme}]}),
        )
    }

    fn devtools(&self, command: &str, params: Value) -> Done {
        self.post("goog/cdp/execute", &json!({"cmd": command, "params": params})).map(drop)
    }

    /// The page as a PDF on A4.
    pub fn pdf(&self) -> Done<Vec<u8>> {
        let page = json!({"page": {"width": 21.0, "height": 29.7}, "shrinkToFit": false});
        bytes(self.post("print", &page)?.as_str().unwrap_or(""))
    }

    /// What the page logged as an error since the last time it was asked.
    pub fn errors(&self) -> Done<Vec<String>> {
        let log = self.post("se/log", &json!({"type": "browser"}))?;
        let severe = log.as_array().into_iter().flatten().filter(|e| e["level"] == "SEVERE");
        Ok(severe.map(|e| e["message"].to_string()).collect())
    }

    /// Saves a picture of the window, of the whole length of the page if wanted.
    pub fn picture(&self, path: &std::path::Path) -> Done {
        let shot = self.call("GET", &format!("/session/{}/screenshot", self.session), &Value::Null)?;
        fs::write(path, bytes(shot.as_str().unwrap_or(""))?).map_err(|e| e.to_string())
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.call("DELETE", &format!("/session/{}", self.session), &Value::Null);
        let _ = self.driver.kill();
        let _ = self.driver.wait();
        let _ = fs::remove_dir_all(&self.profile);
    }
}

/// An element as WebDriver hands it back and forth.
fn element(id: &str) -> Value {
    json!({"element-6066-11e4-a52e-4f735466cecf": id})
}

/// Base64 (RFC 4648, section 4) as bytes.
fn bytes(text: &str) -> Done<Vec<u8>> {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = Vec::with_capacity(text.len() / 4 * 3);
    let (mut held, mut bits) = (0u32, 0);
    for byte in text.bytes().filter(|b| *b != b'=') {
        let digit = DIGITS.iter().position(|d| *d == byte).ok_or("not base64")?;
        held = (held << 6 | digit as u32) & 0xff_ffff;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            out.push((held >> bits) as u8);
        }
    }
    Ok(out)
}
