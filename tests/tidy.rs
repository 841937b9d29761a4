//! Holds the shape of the project: floors of rooms, no circles of files, budgets, absences, doc comments, paths in documents.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod tidy {
    mod circles;
}

use boxwright::checks::{Check, page_of};
use boxwright::registry::Registry;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Rooms from the ground up. A room may import rooms of lower floors only.
const FLOORS: [&[&str]; 14] = [
    &["source", "base"],
    &["diagnostic", "geometry"],
    &["language", "model"],
    &["joints"],
    &["resolve"],
    &["joinery", "shell", "services", "drawing"],
    &["vehicle"],
    &["figures"],
    &["checks"],
    &["backends", "views", "suggest", "rules"],
    &["registry", "plug_ins"],
    &["compile"],
    &["compare", "desk", "editor", "vary"],
    &["cli"],
];

/// Imports inside one floor that are wanted: (who, whom).
const SAME_FLOOR: [(&str, &str); 3] = [("language", "model"), ("source", "base"), ("registry", "plug_ins")];

const LONGEST_FUNCTION: usize = 60;
const LONGEST_FILE: usize = 500;
const LONGEST_CHECK: usize = 200;
/// What only the command and the editor server may touch.
const OUTSIDE: [&str; 10] = [
    "std::fs",
    "std::env",
    "std::time",
    "std::process",
    "std::net",
    "std::thread::sleep",
    "std::io::stdin",
    "std::io::stdout",
    "println!",
    "dbg!",
];

struct Text {
    /// Path from the project's root, with `/`.
    path: String,
    text: String,
}

impl Text {
    /// The room under `src/`; empty for `lib.rs` and `main.rs`.
    fn room(&self) -> &str {
        let inner = self.path.strip_prefix("src/").unwrap_or("");
        match inner.split_once('/') {
            Some((room, _)) => room,
            None => inner.strip_suffix(".rs").filter(|name| !["lib", "main"].contains(name)).unwrap_or(""),
        }
    }

    fn is_test(&self) -> bool {
        self.path.starts_with("tests/") || self.path.ends_with("tests.rs") || self.path.contains("/tests/")
    }

    /// Lines of code, without comments and without test modules: one in this file is its end, one in a file of its own
    /// is one line.
    fn code(&self) -> String {
        let mut code = String::new();
        let mut lines = self.text.lines().filter(|line| !line.trim_start().starts_with("//")).peekable();
        while let Some(line) = lines.next() {
            let module = lines.peek().filter(|_| line.trim() == "#[cfg(test)]").map(|next| next.trim_start());
            match module.filter(|next| next.starts_with("mod ") || next.starts_with("pub mod ")) {
                Some(next) if next.ends_with(';') => drop(lines.next()),
                Some(_) => break,
                None => code += &format!("{line}\n"),
            }
        }
        code
    }

    fn is_check(&self) -> bool {
        self.room() == "checks" && self.text.contains("impl Check for ")
    }

    /// Module name in the room: `walkway` of `src/checks/walkway.rs` and of `src/checks/walkway/graph.rs`.
    fn module(&self) -> &str {
        let inner = self.path.splitn(3, '/').nth(2).unwrap_or("");
        inner.split('/').next().unwrap_or("").trim_end_matches(".rs")
    }
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn walk(folder: &Path, into: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if ["target", ".git", "out"].contains(&name.as_str()) {
            continue;
        }
        if path.is_dir() {
            walk(&path, into);
        } else {
            into.push(path);
        }
    }
}

/// All text files of the project, but what `git` ignores.
fn texts() -> Vec<Text> {
    let mut paths = Vec::new();
    walk(&root(), &mut paths);
    let read = |path: PathBuf| {
        let name = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
        fs::read_to_string(&path).ok().map(|text| Text { path: name, text })
    };
    paths.into_iter().filter_map(read).collect()
}

fn sources() -> Vec<Text> {
    texts().into_iter().filter(|text| text.path.ends_with(".rs")).collect()
}

fn built() -> Vec<Text> {
    sources().into_iter().filter(|t| t.path.starts_with("src/") && !t.is_test() && t.room() != "guest").collect()
}

/// Fails with all complaints, so that one run shows everything.
fn none(complaints: impl IntoIterator<Item = String>) {
    let complaints: Vec<String> = complaints.into_iter().collect();
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

fn sample(path: &str, text: &str) -> Text {
    Text { path: path.to_owned(), text: text.to_owned() }
}

// Floors.

fn floor(room: &str) -> Option<usize> {
    FLOORS.iter().position(|rooms| rooms.contains(&room))
}

/// The words that directly follow `before` in `text`, if they are names.
fn names_after<'a>(text: &'a str, before: &'a str) -> impl Iterator<Item = &'a str> {
    text.split(before).skip(1).map(|rest| {
        let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(rest.len());
        &rest[..end]
    })
}

fn may_import(room: &str, other: &str) -> bool {
    match (floor(room), floor(other)) {
        (Some(own), Some(theirs)) => room == other || theirs < own || SAME_FLOOR.contains(&(room, other)),
        _ => false,
    }
}

fn wrong_imports(file: &Text) -> Vec<String> {
    let room = file.room();
    if room.is_empty() {
        return Vec::new();
    }
    if floor(room).is_none() {
        return vec![format!("{}: the room `{room}` has no floor", file.path)];
    }
    let code = file.code();
    let wrong = names_after(&code, "crate::").filter(|other| !may_import(room, other));
    let wrong = wrong.map(|other| match other {
        "" => format!("{}: write one `use crate::<room>` for each room", file.path),
        _ => format!("{}: `{room}` may not import `{other}`", file.path),
    });
    let mut found: BTreeSet<String> = wrong.collect();
    if code.contains(&"super::".repeat(depth(&file.path))) {
        found.insert(format!("{}: reaches out of its room by `super`", file.path));
    }
    found.into_iter().collect()
}

/// How many `super::` lead from a file to the crate.
fn depth(path: &str) -> usize {
    let inner = path.trim_start_matches("src/").trim_end_matches(".rs").trim_end_matches("/mod");
    inner.split('/').count()
}

#[test]
fn imports_go_down_only() {
    none(built().iter().flat_map(wrong_imports));
}

#[test]
fn a_wrong_import_is_seen() {
    let wrong = |path, text| !wrong_imports(&sample(path, text)).is_empty();
    assert!(wrong("src/model/a.rs", "use crate::checks::Check;"));
    assert!(wrong("src/geometry/a.rs", "use crate::model::Model;"));
    assert!(wrong("src/geometry/a.rs", "use super::super::model::Model;"));
    assert!(wrong("src/views/a.rs", "let x = crate::backends::y();"));
    assert!(wrong("src/checks/a.rs", "use crate::{model, registry};"));
    assert!(wrong("src/attic/a.rs", ""));
    assert!(!wrong("src/checks/a.rs", "use crate::model::Model;\nuse super::check::Check;"));
    assert!(!wrong("src/model/a.rs", "#[cfg(test)]\nmod tests {\n    use crate::checks::Check;\n}"));
    assert!(wrong("src/model/a.rs", "#[cfg(test)]\nmod testing;\nuse crate::checks::Check;"));
    assert!(wrong("src/model/a.rs", "#[cfg(test)]\nfn a() {}\nuse crate::checks::Check;"));
    assert!(!wrong("src/registry.rs", "use crate::checks::Check;"));
}

// Budgets.

fn indent(line: &str) -> usize {
    line.len() - line.trim_start().len()
}

fn function_name(line: &str) -> Option<&str> {
    let start = line.trim_start();
    let words = ["pub ", "pub(crate) ", "pub(super) ", "const ", "async "];
    let start = words.iter().fold(start, |rest, word| rest.strip_prefix(word).unwrap_or(rest));
    start.strip_prefix("fn ").and_then(|rest| rest.split(['(', '<']).next())
}

/// Functions with their lengths in lines; relies on the layout that `cargo fmt` gives.
fn functions(text: &str) -> Vec<(String, usize)> {
    let lines: Vec<&str> = text.lines().collect();
    let starts = lines.iter().enumerate().filter_map(|(at, line)| function_name(line).map(|name| (at, name)));
    let length = |at: usize| {
        let shut = format!("{}}}", " ".repeat(indent(lines[at])));
        let one_line = lines[at].ends_with('}') || lines[at].ends_with(';');
        if one_line { Some(1) } else { lines[at..].iter().position(|line| *line == shut).map(|end| end + 1) }
    };
    starts.filter_map(|(at, name)| length(at).map(|length| (name.to_owned(), length))).collect()
}

fn over_budget(file: &Text) -> Vec<String> {
    let lines = file.text.lines().count();
    let most = if file.is_check() { LONGEST_CHECK } else { LONGEST_FILE };
    let long_file = (lines > most).then(|| format!("{}: {lines} lines, at most {most}", file.path));
    let long_functions = functions(&file.text).into_iter().filter(|(_, length)| *length > LONGEST_FUNCTION);
    let long_functions = long_functions
        .map(|(name, length)| format!("{}: `{name}` has {length} lines, at most {LONGEST_FUNCTION}", file.path));
    long_file.into_iter().chain(long_functions).collect()
}

#[test]
fn files_and_functions_stay_small() {
    none(sources().iter().flat_map(over_budget));
}

#[test]
fn a_long_function_or_file_is_seen() {
    let body =
        |lines: usize| format!("impl A {{\n    pub fn long(&self) {{\n{}    }}\n}}\n", "        a();\n".repeat(lines));
    assert_eq!(over_budget(&sample("src/model/a.rs", &body(58))), Vec::<String>::new());
    assert_eq!(over_budget(&sample("src/model/a.rs", &body(59))).len(), 1);
    assert_eq!(over_budget(&sample("src/model/a.rs", &"\n".repeat(500))).len(), 0);
    assert_eq!(over_budget(&sample("src/model/a.rs", &"\n".repeat(501))).len(), 1);
    let check = format!("impl Check for A {{}}\n{}", "\n".repeat(200));
    assert_eq!(over_budget(&sample("src/checks/a.rs", &check)).len(), 1);
}

// Doc comments; those of items are held by the lint `missing_docs`.

#[test]
fn every_file_says_what_it_is() {
    let silent = sources().into_iter().filter(|file| !file.text.starts_with("//! "));
    none(silent.map(|file| format!("{}: begins without a `//!` line", file.path)));
}

// Absences.

fn found<'a>(text: &str, words: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    words.into_iter().filter(|word| text.contains(word)).collect()
}

fn trespasses(file: &Text) -> Vec<String> {
    let (code, room) = (file.code(), file.room());
    let lower = file.text.to_lowercase();
    let mut seen = Vec::new();
    if !["cli", "desk", "editor", ""].contains(&room) {
        seen.extend(found(&code, OUTSIDE));
    }
    if ["geometry", "model"].contains(&room) {
        seen.extend(found(&code.to_lowercase(), ["yaml", "granit", "serde"]));
    }
    if room == "drawing" {
        seen.extend(found(&lower, ["svg", "pdf"]));
    }
    let wire = room == "backends" || file.path.contains("wire") || file.path.contains("json");
    if !wire {
        seen.extend(found(&code, ["Serialize"]));
    }
    if file.path != "src/base/tolerance.rs" {
        seen.extend(found(&code, ["1e-", "EPSILON"]));
    }
    seen.into_iter().map(|word| format!("{}: `{word}` has no place here", file.path)).collect()
}

#[test]
fn rooms_know_nothing_of_what_is_not_theirs() {
    none(built().iter().flat_map(trespasses));
}

#[test]
fn a_trespass_is_seen() {
    let seen = |path, text| trespasses(&sample(path, text)).len();
    assert_eq!(seen("src/views/a.rs", "let now = std::time::Instant::now();"), 1);
    assert_eq!(seen("src/cli/a.rs", "let now = std::time::Instant::now();"), 0);
    assert_eq!(seen("src/resolve/a.rs", "eprintln!(\"x\");"), 1);
    assert_eq!(seen("src/model/a.rs", "fn from_yaml() {}"), 1);
    assert_eq!(seen("src/drawing/a.rs", "/// As an SVG group."), 1);
    assert_eq!(seen("src/joinery/a.rs", "#[derive(Serialize)]"), 1);
    assert_eq!(seen("src/backends/a.rs", "#[derive(Serialize)]"), 0);
    assert_eq!(seen("src/geometry/a.rs", "if a < 1e-9 {}"), 1);
}

/// Type names after `impl Check for` or `impl Backend for`.
fn registered(files: &[Text]) -> Vec<(&Text, &str)> {
    let kinds = ["impl Check for ", "impl Backend for "];
    files
        .iter()
        .flat_map(|file| kinds.iter().flat_map(move |kind| names_after(&file.text, kind).map(move |n| (file, n))))
        .collect()
}

fn strangers(files: &[Text]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (home, name) in registered(files) {
        let (room, module) = (home.room(), home.module());
        let full = [format!("{room}::{module}::"), format!("{room}::{name}")];
        let near = [format!("super::{module}::"), format!("super::{name}")];
        for file in files.iter().filter(|file| file.path != "src/registry.rs" && !file.path.ends_with("/mod.rs")) {
            let (code, inside) = (file.code(), file.room() == room && file.module().starts_with(module));
            let beside = file.room() == room && near.iter().any(|path| code.contains(path));
            if !inside && (beside || full.iter().any(|path| code.contains(path))) {
                wrong.push(format!("{}: names `{name}`, which only the registry may", file.path));
            }
        }
    }
    wrong
}

/// The limits that a text asks for by name.
fn asked_limits(text: &str) -> Vec<String> {
    let dense: String = text.split_whitespace().collect();
    let asked = ["limits.get(\"", "limits.value(\""].into_iter().flat_map(|call| dense.split(call).skip(1));
    asked.filter_map(|rest| rest.split('"').next()).map(str::to_owned).collect()
}

/// The limits that a built-in check asks for in its own file, which is found by its manual page.
fn asked(check: &dyn Check) -> Vec<String> {
    asked_limits(&built().into_iter().find(|file| page_of(&file.text) == check.manual()).unwrap().text)
}

fn names_of(check: &dyn Check) -> impl Iterator<Item = &str> {
    check.limits().iter().map(|limit| limit.name.as_ref())
}

#[test]
fn checks_ask_only_for_limits_that_they_list() {
    let registry = Registry::standard();
    let own = registry.checks.iter().flat_map(|check| {
        let strange =
            asked(check.as_ref()).into_iter().filter(|name| !names_of(check.as_ref()).any(|known| known == name));
        strange.map(|name| format!("{}: asks for a limit `{name}` that it does not list", check.name()))
    });
    let all: BTreeSet<&str> = registry.checks.iter().flat_map(|check| names_of(check.as_ref())).collect();
    let helpers = built().into_iter().filter(|file| file.room() == "checks" && !file.is_check());
    let beside = helpers.flat_map(|file| {
        let strange = asked_limits(&file.code()).into_iter().filter(|name| !all.contains(name.as_str()));
        strange.map(|name| format!("{}: no check lists a limit `{name}`", file.path)).collect::<Vec<_>>()
    });
    none(own.chain(beside));
}

#[test]
fn an_asked_limit_is_seen() {
    let text = "context.limits.get(\"least\"); let b = limits\n    .value(\"left\"); other.get(\"right\")";
    assert_eq!(asked_limits(text), ["least", "left"]);
    let all = Registry::standard().checks.iter().map(|check| asked(check.as_ref()).len()).sum::<usize>();
    assert!(all >= 5, "{all}");
}

#[test]
fn only_the_registry_names_checks_and_back_ends() {
    none(strangers(&built()));
}

#[test]
fn a_check_that_imports_another_is_seen() {
    let files = |text| [sample("src/checks/swing.rs", "impl Check for Swing {}"), sample("src/checks/slide.rs", text)];
    assert_eq!(strangers(&files("use super::swing::arc;")).len(), 1);
    assert_eq!(strangers(&files("use crate::checks::Swing;")).len(), 1);
    assert_eq!(strangers(&files("use super::check::Check;")).len(), 0);
}

// Documents.

/// Paths of project files that a document names.
fn named_paths(text: &str) -> BTreeSet<&str> {
    let folders = ["src/", "tests/", "layouts/", "symbols/", ".ci/", ".cargo/"];
    let part = |c: char| c.is_alphanumeric() || "_-./".contains(c);
    let words = text.split(|c: char| !part(c)).map(|word| word.trim_start_matches("./").trim_end_matches('.'));
    words.filter(|word| folders.iter().any(|folder| word.starts_with(folder))).collect()
}

fn dead_paths(file: &Text, exists: impl Fn(&str) -> bool) -> Vec<String> {
    let dead = named_paths(&file.text).into_iter().filter(|path| !exists(path));
    dead.map(|path| format!("{}: names `{path}`, which is not there", file.path)).collect()
}

#[test]
fn paths_in_documents_exist() {
    let documents = texts().into_iter().filter(|file| file.path.ends_with(".md"));
    none(documents.flat_map(|file| dead_paths(&file, |path| root().join(path).exists())));
}

#[test]
fn a_dead_path_is_seen() {
    let page = sample("A.md", "See `src/lib.rs`, [b](tests/gone.rs) and `layouts/<name>.yaml`.");
    assert_eq!(named_paths(&page.text), BTreeSet::from(["src/lib.rs", "tests/gone.rs", "layouts/"]));
    assert_eq!(dead_paths(&page, |path| path != "tests/gone.rs").len(), 1);
}

/// Names of the dependencies in a manifest.
fn dependencies(manifest: &str) -> Vec<&str> {
    let mut inside = false;
    let mut names = Vec::new();
    for line in manifest.lines() {
        if line.starts_with('[') {
            inside = line.ends_with("dependencies]");
        } else if let (true, Some((name, _))) = (inside, line.split_once(" = ")) {
            names.push(name);
        }
    }
    names
}

#[test]
fn every_dependency_is_used_and_has_its_reason() {
    let (manifest, sources) = (fs::read_to_string(root().join("Cargo.toml")).unwrap(), sources());
    let reasons = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let first_cells: Vec<&str> =
        reasons.lines().filter_map(|line| line.strip_prefix("| ")?.split('|').next()).collect();
    let listed: BTreeSet<&str> = first_cells.into_iter().flat_map(|cell| cell.trim().split(", ")).collect();
    let names = dependencies(&manifest);
    assert!(names.len() > 5);
    let used = |name: &str| sources.iter().any(|file| file.text.contains(&format!("{}::", name.replace('-', "_"))));
    let silent = names.iter().filter(|name| !listed.contains(*name)).map(|name| format!("`{name}` has no reason"));
    none(silent.chain(names.iter().filter(|name| !used(name)).map(|name| format!("`{name}` is not used"))));
}

/// Words that say where or how the project was made rather than what it is; split so that this file passes.
fn words_of_the_workplace() -> Vec<String> {
    let split = [
        ("/wo", "rk/"),
        ("/tm", "p/"),
        ("sha", "red/design"),
        ("sha", "red/reference"),
        ("sha", "red/oracles"),
        ("issues ", "show"),
        ("trans", "cript"),
        ("seed ", "document"),
        ("clau", "de"),
        ("anthro", "pic"),
        ("open", "ai"),
        ("chat", "gpt"),
        ("large language ", "model"),
        ("this ", "session"),
        ("the ", "brief"),
    ];
    split.iter().map(|(a, b)| format!("{a}{b}")).collect()
}

fn leaks(file: &Text, words: &[String]) -> Vec<String> {
    let lower = file.text.to_lowercase();
    let found = words.iter().filter(|word| lower.contains(word.as_str()));
    found.map(|word| format!("{}: says `{word}`", file.path)).collect()
}

#[test]
fn files_speak_of_the_project_only() {
    let words = words_of_the_workplace();
    none(texts().iter().flat_map(|file| leaks(file, &words)));
}

#[test]
fn a_leak_is_seen() {
    let words = words_of_the_workplace();
    assert_eq!(leaks(&sample("a.md", "made in This \u{53}ession"), &words).len(), 1);
    assert_eq!(leaks(&sample("a.md", "a plain page"), &words).len(), 0);
}
