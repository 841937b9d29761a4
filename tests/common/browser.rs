//! A real browser without a window, driven over a pipe by the Chrome DevTools Protocol
//! (<https://chromedevtools.github.io/devtools-protocol/>): messages are JSON, each with a zero byte at its end.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};

/// A browser with one page.
pub struct Browser {
    process: Child,
    _folder: tempfile::TempDir,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
    last: u64,
    page: String,
    /// What the page told without being asked.
    pub events: Vec<Value>,
}

impl Browser {
    /// The first of `chromium`, `chromium-browser` and `google-chrome` that starts; `None` if there is none.
    pub fn start() -> Option<Self> {
        ["chromium", "chromium-browser", "google-chrome"].into_iter().find_map(Self::named)
    }

    fn named(name: &str) -> Option<Self> {
        Command::new(name).arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status().ok()?;
        // Its children keep what they inherit open, so standard error goes nowhere.
        let folder = tempfile::tempdir().ok()?;
        let line = format!(
            "exec {name} --headless=new --no-sandbox --disable-gpu --window-size=1500,950 --disable-extensions \
             --user-data-dir='{}' --remote-debugging-pipe 3<&0 4>&1 1>&2 2>/dev/null",
            folder.path().display()
        );
        let mut process = Command::new("sh")
            .args(["-c", &line])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .ok()?;
        let (to, from) = (process.stdin.take()?, BufReader::new(process.stdout.take()?));
        let mut browser = Self { process, _folder: folder, to, from, last: 0, page: String::new(), events: Vec::new() };
        let target = browser.ask("Target.createTarget", json!({ "url": "about:blank" }));
        let attached = browser.ask("Target.attachToTarget", json!({ "targetId": target["targetId"], "flatten": true }));
        browser.page = attached["sessionId"].as_str()?.to_owned();
        for domain in ["Page", "Runtime", "Network", "Log"] {
            browser.ask(&format!("{domain}.enable"), json!({}));
        }
        Some(browser)
    }

    /// Asks for something and waits for the answer.
    pub fn ask(&mut self, method: &str, values: Value) -> Value {
        self.last += 1;
        let mut message = json!({ "id": self.last, "method": method, "params": values });
        if !self.page.is_empty() {
            message["sessionId"] = json!(self.page);
        }
        self.to.write_all(format!("{message}\0").as_bytes()).unwrap();
        self.to.flush().unwrap();
        loop {
            let mut bytes = Vec::new();
            self.from.read_until(0, &mut bytes).unwrap();
            assert!(bytes.pop().is_some(), "the browser has gone");
            let told: Value = serde_json::from_slice(&bytes).unwrap();
            if told["id"] == json!(self.last) {
                assert!(told["error"].is_null(), "{method}: {told}");
                return told["result"].clone();
            }
            self.events.push(told);
        }
    }

    /// Goes to an address.
    pub fn go(&mut self, address: &str) {
        self.ask("Page.navigate", json!({ "url": address }));
    }

    /// The value of an expression in the page.
    pub fn value(&mut self, expression: &str) -> Value {
        let wanted = json!({ "expression": expression, "awaitPromise": true, "returnByValue": true });
        let told = self.ask("Runtime.evaluate", wanted);
        assert!(told["exceptionDetails"].is_null(), "{expression}: {told}");
        told["result"]["value"].clone()
    }

    /// Waits until an expression is true; fails after two minutes.
    pub fn wait(&mut self, expression: &str) {
        let begun = Instant::now();
        while self.value(&format!("Boolean({expression})")) != json!(true) {
            if begun.elapsed() > Duration::from_secs(120) {
                let shown = self.value("document.body?.innerText.slice(0, 400)");
                panic!("never: {expression}; the page says {shown}, the browser {:?}", self.complaints());
            }
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// Presses a key.
    pub fn key(&mut self, key: &str) {
        for kind in ["keyDown", "keyUp"] {
            let text = if kind == "keyDown" && key.chars().count() == 1 { key } else { "" };
            self.ask("Input.dispatchKeyEvent", json!({ "type": kind, "key": key, "text": text }));
        }
    }

    /// Addresses that the page asked for.
    pub fn asked_for(&self) -> Vec<String> {
        let sent = self.events.iter().filter(|one| one["method"] == "Network.requestWillBeSent");
        sent.filter_map(|one| one["params"]["request"]["url"].as_str().map(str::to_owned)).collect()
    }

    /// Complaints: exceptions, and what the browser wrote into its log.
    pub fn complaints(&self) -> Vec<String> {
        let bad = ["Runtime.exceptionThrown", "Log.entryAdded"];
        self.events.iter().filter(|one| bad.iter().any(|bad| one["method"] == *bad)).map(Value::to_string).collect()
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
