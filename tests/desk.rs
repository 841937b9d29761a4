//! The desk: what is answered over the wire, that it follows its files whatever happens to them, and the page in a real
//! browser, where one is installed.
//!
//! `AXE=path/to/axe.min.js cargo test --test desk` also looks at the page with the accessibility rules of axe-core.
//! `EDITS=1000` edits that often; without it 40.

#![cfg(feature = "desk")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]
#![allow(clippy::print_stderr, reason = "what is not looked at is told")]

#[path = "common/browser.rs"]
mod browser;
mod common;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use browser::Browser;
use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A desk with one layout in a folder of its own.
struct Desk {
    process: Child,
    folder: TempDir,
    port: u16,
    secret: String,
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// The text of marram.
fn marram() -> String {
    common::text("layouts/marram.yaml")
}

fn with_aisle(aisle: u32) -> String {
    let line = |line: &str| if line.starts_with("  aisle:") { format!("  aisle: {aisle}") } else { line.to_owned() };
    marram().lines().map(|one| line(one) + "\n").collect()
}

impl Desk {
    fn of(text: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("box.yaml"), text).unwrap();
        let mut process = Command::new(env!("CARGO_BIN_EXE_boxwright"))
            .args(["desk", "box.yaml", "--no-browser"])
            .current_dir(folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(process.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let (_, rest) = line.trim().split_once("http://127.0.0.1:").unwrap();
        let (port, secret) = rest.trim_end_matches('/').split_once('/').unwrap();
        Self { process, port: port.parse().unwrap(), secret: secret.to_owned(), folder }
    }

    fn file(&self) -> PathBuf {
        self.folder.path().join("box.yaml")
    }

    fn address(&self) -> String {
        format!("http://127.0.0.1:{}/{}/", self.port, self.secret)
    }

    /// The answer to a request with these lines.
    fn raw(&self, request: &str) -> String {
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream.write_all(format!("{request}\r\nConnection: close\r\n\r\n").as_bytes()).unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        String::from_utf8_lossy(&bytes).into_owned()
    }

    fn get(&self, path: &str, more: &str) -> String {
        self.raw(&format!("GET /{}/{path} HTTP/1.1\r\nHost: 127.0.0.1:{}{more}", self.secret, self.port))
    }

    fn json(&self, path: &str) -> Value {
        let answer = self.get(path, "");
        let (head, body) = answer.split_once("\r\n\r\n").unwrap();
        assert!(head.starts_with("HTTP/1.1 200"), "{path}: {head}");
        serde_json::from_str(body).unwrap_or_else(|error| panic!("{path}: {error}: {body}"))
    }

    /// The state of the layout once something holds of it.
    fn once(&self, holds: impl Fn(&Value) -> bool) -> Value {
        let begun = Instant::now();
        loop {
            let state = self.json("layout/0");
            if holds(&state) {
                return state;
            }
            assert!(begun.elapsed() < Duration::from_secs(120), "never: {state:.400}");
            std::thread::sleep(Duration::from_millis(20));
        }
    }
}

fn status(answer: &str) -> &str {
    answer.split(' ').nth(1).unwrap_or("")
}

fn faults(state: &Value) -> usize {
    let all = state["report"]["findings"].as_array().unwrap();
    all.iter().filter(|one| one["severity"] == "fault" && one["accepted"].is_null()).count()
}

#[test]
fn only_who_knows_the_secret_and_comes_from_here_is_answered() {
    let desk = Desk::of(&marram());
    let page = desk.get("", "");
    assert_eq!(status(&page), "200");
    for header in
        ["Content-Security-Policy: default-src 'none'", "X-Content-Type-Options: nosniff", "Cache-Control: no-store"]
    {
        assert!(page.contains(header), "{header} in {page:.600}");
    }
    assert!(!page.contains("http://") && !page.contains("https://"), "the page names nothing outside");
    let own = format!("127.0.0.1:{}", desk.port);
    assert_eq!(status(&desk.get("", &format!("\r\nOrigin: http://{own}\r\nSec-Fetch-Site: same-origin"))), "200");
    for stranger in ["\r\nOrigin: http://example.org", "\r\nOrigin: null", "\r\nSec-Fetch-Site: cross-site"] {
        assert_eq!(status(&desk.get("", stranger)), "404", "{stranger}");
    }
    let paths = ["", "layouts", "layout/0", "sheet/0/plan-day", "events"];
    for path in paths {
        let wrong = desk.secret.chars().rev().collect::<String>();
        for secret in ["", "x", &wrong, &desk.secret[1..]] {
            let told = desk.raw(&format!("GET /{secret}/{path} HTTP/1.1\r\nHost: {own}"));
            assert_eq!(status(&told), "404", "{secret} {path}");
        }
        let told = desk.raw(&format!("GET /{}/{path} HTTP/1.1\r\nHost: example.org:{}", desk.secret, desk.port));
        assert_eq!(status(&told), "404", "another host");
        let told = desk.raw(&format!("POST /{}/{path} HTTP/1.1\r\nHost: {own}\r\nContent-Length: 0", desk.secret));
        assert_eq!(status(&told), "404", "a post");
    }
    for path in [
        "../../Cargo.toml",
        "%2e%2e/box.yaml",
        "box.yaml",
        "layout/1",
        "layout/-1",
        "sheet/0/none",
        "small/0/x",
        "about/0/module-none",
        "about/0/%ff",
        "about/0/",
    ] {
        assert_eq!(status(&desk.get(path, "")), "404", "{path}");
    }
}

#[test]
fn what_is_shown_is_what_check_and_build_give() {
    let desk = Desk::of(&with_aisle(420));
    let state = desk.once(|state| state["sheets"].is_array());
    assert!(state["revision"] == 1 && state["pictures"] == 1 && state["stamp"] == "HELD", "{state:.300}");
    let plans: Vec<&str> =
        state["plans"].as_array().unwrap().iter().map(|one| one["title"].as_str().unwrap()).collect();
    assert_eq!(plans, ["day", "night", "travel"]);
    let checked = Command::new(env!("CARGO_BIN_EXE_boxwright"))
        .args(["check", "--format", "json", "box.yaml"])
        .current_dir(desk.folder.path())
        .output()
        .unwrap();
    let checked: Value = serde_json::from_slice(&checked.stdout).unwrap();
    let state = desk
        .once(|state| state["report"]["findings"].as_array().unwrap().iter().any(|one| !one["suggestion"].is_null()));
    assert_eq!(state["report"]["findings"], checked[0]["findings"]);
    let built = Command::new(env!("CARGO_BIN_EXE_boxwright"))
        .args(["build", "box.yaml", "--only", "svg", "--quiet"])
        .current_dir(desk.folder.path())
        .status()
        .unwrap();
    assert_eq!(built.code(), Some(1));
    for head in state["sheets"].as_array().unwrap() {
        let id = head["id"].as_str().unwrap();
        let file = fs::read_to_string(desk.folder.path().join(format!("out/box/{id}.svg"))).unwrap();
        let (before, rest) = file.split_once("<style>").unwrap();
        let (style, after) = rest.split_once("</style>").unwrap();
        let sheet = desk.json(&format!("sheet/0/{id}"));
        let (svg, own) = (sheet["svg"].as_str().unwrap(), sheet["style"].as_str().unwrap());
        let whole = |text: &str| text.split_whitespace().collect::<String>();
        assert!(whole(&format!("{before}{after}")).ends_with(&whole(svg)), "{id} is drawn otherwise");
        assert!(whole(style).starts_with(&whole(own)), "{id} looks otherwise");
    }
    let about = desk.json("about/0/module-galley-2");
    assert_eq!((about["name"].as_str(), about["file"].as_str()), (Some("galley"), Some("box.yaml")));
    let line = about["line"].as_u64().unwrap() as usize;
    assert_eq!(with_aisle(420).lines().nth(line - 1), Some("  galley:"));
    assert!(about["text"].as_str().unwrap().contains("symbol: galley/base-run"));
    let values = about["values"].as_array().unwrap();
    assert!(values.contains(&json!({ "name": "right", "value": "560 mm", "write": "galley.right" })), "{values:?}");
    let picture = desk.get("small/0/plan-day", "");
    assert!(status(&picture) == "200" && picture.contains("image/png"));
}

#[test]
fn it_follows_its_file_whatever_happens_to_it() {
    let desk = Desk::of(&marram());
    let first = desk.once(|state| state["revision"] == 1);
    assert!(first["compiles"] == true && faults(&first) == 0);
    fs::write(desk.file(), with_aisle(420)).unwrap();
    let narrow = desk.once(|state| faults(state) > 0);
    assert_eq!(narrow["pictures"], narrow["revision"]);
    // Saved by an editor that puts another file in its place.
    let other = desk.folder.path().join(".box.yaml.new");
    fs::write(&other, marram()).unwrap();
    fs::rename(&other, desk.file()).unwrap();
    let again = desk.once(|state| state["compiles"] == true && faults(state) == 0);
    // Saved half: the last picture stays, and the errors are told.
    let text = marram();
    fs::write(desk.file(), &text[..text.len() / 2 - 7]).unwrap();
    let half = desk.once(|state| !state["report"]["errors"].as_array().unwrap().is_empty());
    assert!(half["revision"].as_u64() > again["revision"].as_u64());
    let shown = desk.json("sheet/0/plan-day");
    assert!(shown["svg"].as_str().unwrap().len() > 10_000);
    fs::remove_file(desk.file()).unwrap();
    let told = |state: &Value| state["report"]["errors"][0]["message"].to_string();
    let gone = desk.once(|state| told(state).contains("no such file"));
    assert!(gone["pictures"].as_u64() < gone["revision"].as_u64(), "the last picture stays");
    fs::write(desk.file(), with_aisle(420)).unwrap();
    desk.once(|state| state["compiles"] == true && faults(state) > 0);
}

#[test]
fn own_symbols_are_followed_too() {
    let text = "boxwright: 1\ntitle: Own\nsymbols: [own]\nbox: { length: 3000, width: 2000, height: 2000 }\nmodules:\n  a: { symbol: x/one, faces: right, place: { front: 500, left: 0 } }\n";
    let symbol = |run: u32| {
        format!(
            "symbol: x/one\nsays: One\nsize:\n  run: {{ default: {run}, least: 100, most: 2000 }}\n  depth: {{ default: 400, least: 100, most: 800 }}\n  height: {{ default: 400, least: 100, most: 800 }}\nsolids:\n  body: {{ u: [0, run], v: [0, depth], w: [0, height] }}\n"
        )
    };
    let desk = Desk::of(text);
    let missing = desk.once(|state| state["revision"] == 1);
    assert_eq!(missing["compiles"], false);
    fs::create_dir_all(desk.folder.path().join("own/x")).unwrap();
    fs::write(desk.folder.path().join("own/x/one.yaml"), symbol(600)).unwrap();
    desk.once(|state| state["compiles"] == true);
    assert!(desk.json("about/0/module-a")["values"].to_string().contains("1100 mm"));
    fs::write(desk.folder.path().join("own/x/one.yaml"), symbol(700)).unwrap();
    let begun = Instant::now();
    while !desk.json("about/0/module-a")["values"].to_string().contains("1200 mm") {
        assert!(begun.elapsed() < Duration::from_secs(120));
        std::thread::sleep(Duration::from_millis(20));
    }
}

#[test]
fn a_port_that_is_taken_and_standard_input_are_refused() {
    let desk = Desk::of(&marram());
    let port = desk.port.to_string();
    for (arguments, says) in
        [(vec!["desk", "box.yaml", "--port", &port], "can't be had"), (vec!["desk", "-"], "can't be followed")]
    {
        let told = Command::new(env!("CARGO_BIN_EXE_boxwright"))
            .args(arguments)
            .current_dir(desk.folder.path())
            .stdin(Stdio::null())
            .output()
            .unwrap();
        assert_eq!(told.status.code(), Some(2));
        assert!(String::from_utf8_lossy(&told.stderr).contains(says), "{told:?}");
    }
}

// The page, in a browser.

/// A browser that shows the desk; says loudly if there is none.
fn shown(desk: &Desk) -> Option<Browser> {
    let Some(mut browser) = Browser::start() else {
        eprintln!("\n*** NOT LOOKED AT: the page of the desk: no chromium is installed\n");
        return None;
    };
    browser.go(&desk.address());
    browser.wait("document.body?.dataset.revision && document.querySelectorAll('#sheets img').length > 20");
    Some(browser)
}

/// Groups of the sheet whose ids hold some words.
fn groups(words: &str) -> String {
    format!(
        "[...document.getElementById('paper').shadowRoot.querySelectorAll('.item')].filter((one) => one.id.includes('{words}'))"
    )
}

const SHOWN: &str = "document.querySelector('#sheets [aria-current=true]')?.dataset.id";

#[test]
fn the_page_shows_follows_and_points() {
    let desk = Desk::of(&marram());
    let Some(mut page) = shown(&desk) else { return };
    assert_eq!(page.value("document.getElementById('status').textContent"), "no fault, no caution");
    assert_eq!(page.value(SHOWN), "plan-day");
    // A change of the file glows, and brings its findings.
    fs::write(desk.file(), with_aisle(420)).unwrap();
    let glows = |what| format!("{}.some((one) => one.classList.contains('new'))", groups(what));
    page.wait(&glows("dinette"));
    assert_eq!(page.value(&glows("opening-entry")), false);
    page.wait("document.getElementById('stamp').textContent === 'HELD'");
    // A row lights up its place.
    page.value("document.querySelector('#findings button').click()");
    page.wait(&format!("{}.some((one) => one.classList.contains('lit'))", groups("finding-1")));
    // A click tells the lines and the values.
    let click = "dispatchEvent(new MouseEvent('click', { bubbles: true, composed: true }))";
    page.value(&format!("{}[0].querySelector('path').{click}", groups("module-pantry")));
    page.wait("document.getElementById('about-name').textContent === 'pantry'");
    assert!(
        page.value("document.getElementById('about-text').textContent")
            .as_str()
            .unwrap()
            .contains("symbol: galley/tall-cupboard")
    );
    // Keys: arrangements, sheets, findings, zoom.
    page.key("2");
    page.wait(&format!("{SHOWN} === 'plan-night'"));
    page.key("n");
    page.wait(&format!("{SHOWN} === 'plan-travel'"));
    page.key("p");
    page.key("f");
    page.wait("document.activeElement.dataset.number === '2'");
    let moved = "document.getElementById('paper').style.transform";
    let before = page.value(moved);
    page.key("+");
    assert_ne!(page.value(moved), before);
    errors_leave_the_last_picture(&desk, &mut page);
    // Nothing leaves the machine, and nothing went wrong.
    let all = page.asked_for();
    assert!(all.len() > 20 && all.iter().all(|one| one.starts_with(&desk.address())), "{all:?}");
    assert_eq!(page.complaints(), Vec::<String>::new());
}

/// The last picture stays, greyed, until the layout compiles again.
fn errors_leave_the_last_picture(desk: &Desk, page: &mut Browser) {
    fs::write(desk.file(), marram().replace("galley/base-run", "galley/base-rum")).unwrap();
    page.wait("!document.getElementById('errors').hidden");
    page.wait("document.getElementById('stage').classList.contains('old')");
    assert!(
        page.value("document.getElementById('errors').textContent")
            .as_str()
            .unwrap()
            .contains("did you mean `galley/base-run`?")
    );
    fs::write(desk.file(), marram()).unwrap();
    page.wait(
        "document.getElementById('errors').hidden && !document.getElementById('stage').classList.contains('old')",
    );
}

#[test]
fn hostile_names_are_words() {
    let hostile = "<img src=x onerror=document.title=1><script>document.title=2</script>&lt;";
    let text = marram().replacen("title: ", &format!("title: '{hostile}' #"), 1);
    let desk = Desk::of(&text);
    let Some(mut page) = shown(&desk) else { return };
    page.wait("document.getElementById('title').textContent !== ''");
    assert_eq!(page.value("document.getElementById('title').textContent"), hostile);
    assert_eq!(page.value("document.querySelectorAll('#title *, header script').length"), 0);
    assert!(page.value("document.title").as_str().unwrap().contains("<img"));
    assert_eq!(page.complaints(), Vec::<String>::new());
}

#[test]
fn the_page_is_for_everybody() {
    let desk = Desk::of(&with_aisle(420));
    let Some(mut page) = shown(&desk) else { return };
    let Some(axe) = std::env::var_os("AXE").and_then(|path| fs::read_to_string(path).ok()) else {
        eprintln!("\n*** NOT LOOKED AT: accessibility rules: no `AXE=path/to/axe.min.js`\n");
        return;
    };
    page.ask("Page.setBypassCSP", json!({ "enabled": true }));
    for scheme in ["light", "dark"] {
        page.ask(
            "Emulation.setEmulatedMedia",
            json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] }),
        );
        page.value(&axe);
        let found = page.value("axe.run({ exclude: [['#paper']] }).then((all) => all.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(' ')}`))");
        assert_eq!(found, json!([]), "{scheme}");
    }
}

/// `UPDATE=1` writes the picture of the README anew; browsers draw letters each in their own way, so it is not compared.
#[test]
fn the_picture_of_the_readme_is_made_here() {
    if std::env::var_os("UPDATE").is_none() {
        assert!(
            common::text("README.md").contains("layouts/desk.png") && common::root().join("layouts/desk.png").is_file()
        );
        return;
    }
    let desk = Desk::of(&with_aisle(640));
    let Some(mut page) = shown(&desk) else { return };
    page.wait("document.querySelector('#findings .try')");
    let click = "dispatchEvent(new MouseEvent('click', { bubbles: true, composed: true }))";
    page.value(&format!("{}[0].querySelector('path').{click}", groups("module-galley")));
    page.wait("document.getElementById('about-name').textContent === 'galley'");
    std::thread::sleep(Duration::from_secs(2));
    let picture = page.ask("Page.captureScreenshot", json!({}));
    let bytes = STANDARD.decode(picture["data"].as_str().unwrap()).unwrap();
    fs::write(common::root().join("layouts/desk.png"), bytes).unwrap();
}

/// The memory of a process in pages that only it has, KiB; from `/proc`, so on Linux alone.
fn memory(process: &Child) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{}/status", process.id())).ok()?;
    let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

#[test]
fn a_day_of_edits_does_not_make_it_grow() {
    let edits = std::env::var("EDITS").map_or(40, |count| count.parse::<u32>().unwrap());
    let desk = Desk::of(&marram());
    desk.once(|state| state["revision"] == 1);
    let (mut warm, settle) = (None, edits / 4);
    for edit in 0..edits {
        fs::write(desk.file(), with_aisle(700 + edit % 97)).unwrap();
        let wanted = format!("{}", 700 + edit % 97);
        desk.once(|state| state["revision"].as_u64() > Some(u64::from(edit)));
        assert!(fs::read_to_string(desk.file()).unwrap().contains(&wanted));
        if edit == settle {
            warm = memory(&desk.process);
        }
    }
    let (Some(warm), Some(now)) = (warm, memory(&desk.process)) else { return };
    assert!(now < 2 * warm + 50_000, "{warm} KiB after {settle} edits, {now} after {edits}");
}
