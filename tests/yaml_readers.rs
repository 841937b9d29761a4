//! Our YAML reader beside `serde_yaml`, over the project's files, spoilt ones and small made-up ones: the same values, but for
//! the differences that the table in DEVELOPERS.md names.
//!
//! `FUZZ=1000000 FUZZ_SEED=7 cargo test --release --test yaml_readers -- --nocapture` for a long run.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a test may stop at once, and tells what it did")]

mod common;
mod fuzz {
    pub mod spoil;
}
#[path = "common/second_yaml.rs"]
mod second_yaml;

use fuzz::spoil::{Random, spoil};
use second_yaml::{Read, Value, ours, theirs};
use std::collections::BTreeMap;

/// Spoilt files in an ordinary run, and twice as many small texts.
const FEW: u64 = 8000;

fn setting(name: &str, default: u64) -> u64 {
    std::env::var(name).ok().and_then(|value| value.parse().ok()).unwrap_or(default)
}

// Kinds of differences: each has its row in the table.

const BASES: &str = "numbers with a base";
const ZERO: &str = "a zero before digits";
const NAMES: &str = "signs in names behind `&`";
const QUESTION: &str = "`?` and `:` in brackets";
const NO_END: &str = "a block of text that ends with the file";
const TABS: &str = "tabs between values";
const LINES: &str = "a key on two lines";
const REPEATS: &str = "repeats in repeats";
const MARK: &str = "a byte order mark at the start";
const OWN: &str = "rules of our languages";
const CLOSE: &str = "signs too close or too far left";

/// What our reader refuses that is good YAML; the message says what the languages want.
const RULES: [&str; 13] = [
    "is not a number that can be measured",
    "is too large",
    "is not part of the language",
    "this text has",
    "turns the direction",
    "breaks a line without",
    "is a line end of another kind",
    "is a control character",
    "a key is missing before the colon",
    "a list or map stands where a key is wanted",
    "a repeated value can't be a key",
    "lists and maps lie more than 64 deep",
    "the file has more than 100000 values",
];

/// What our reader refuses that is no YAML 1.2.
const NO_YAML: [&str; 8] = [
    "a comment needs a space before its `#`",
    "is no value",
    "an invisible byte order mark stands here",
    "this line has no `key: value`",
    "is not indented evenly",
    "a second `: ` stands in one value",
    "a tab is used to indent",
    "this value repeats itself without end",
];

/// Where two values differ.
fn leaves<'a>(a: &'a Value, b: &'a Value, into: &mut Vec<(&'a Value, &'a Value)>) {
    match (a, b) {
        (Value::List(x), Value::List(y)) if x.len() == y.len() => {
            x.iter().zip(y).for_each(|(x, y)| leaves(x, y, into));
        }
        (Value::Map(x), Value::Map(y)) if x.len() == y.len() && x.iter().zip(y).all(|(x, y)| x.0 == y.0) => {
            x.iter().zip(y).for_each(|(x, y)| leaves(&x.1, &y.1, into));
        }
        _ if a == b => {}
        _ => into.push((a, b)),
    }
}

/// Whether a name behind `&` has a sign that `serde_yaml` ends it at.
fn has_odd_name(text: &str) -> bool {
    text.match_indices('&').any(|(at, _)| {
        let name = text[at + 1..].split(|c: char| c.is_whitespace() || ",[]{}".contains(c)).next().unwrap_or("");
        name.chars().any(|c| !(c.is_ascii_alphanumeric() || c == '-' || c == '_'))
    })
}

/// All keys and texts.
fn words(value: &Value) -> Vec<&str> {
    match value {
        Value::Text(text) => vec![text],
        Value::List(values) => values.iter().flat_map(words).collect(),
        Value::Map(entries) => {
            entries.iter().flat_map(|(key, value)| [vec![key.as_str()], words(value)].concat()).collect()
        }
        _ => Vec::new(),
    }
}

/// The same without line ends at the ends of keys and texts.
fn without_ends(value: &Value) -> Value {
    let bare = |text: &str| text.trim_end_matches('\n').to_owned();
    match value {
        Value::Text(text) => Value::Text(bare(text)),
        Value::List(values) => Value::List(values.iter().map(without_ends).collect()),
        Value::Map(entries) => {
            Value::Map(entries.iter().map(|(key, value)| (bare(key), without_ends(value))).collect())
        }
        other => other.clone(),
    }
}

fn differ(text: &str, a: &Value, b: &Value) -> Option<&'static str> {
    let mut found = Vec::new();
    leaves(a, b, &mut found);
    let all = |is: &dyn Fn(&Value, &Value) -> bool| found.iter().all(|(a, b)| is(a, b));
    let number = |is: &dyn Fn(&str) -> bool| {
        all(&|a, b| matches!((a, b), (Value::Text(text), Value::Number(_)) if is(text.trim_start_matches(['-', '+']))))
    };
    if number(&|text| ["0x", "0o", "0b"].iter().any(|base| text.starts_with(base))) {
        Some(BASES)
    } else if number(&|text| text.starts_with('0') && text.contains(['.', 'e', 'E'])) {
        Some(ZERO)
    } else if has_odd_name(text) {
        Some(NAMES)
    } else if text.starts_with("\u{feff}\u{feff}") {
        Some(MARK)
    } else if text.contains(['{', '[']) && words(a).iter().any(|word| word.starts_with(['?', ':'])) {
        Some(QUESTION)
    } else {
        (!text.ends_with('\n') && without_ends(a) == without_ends(b)).then_some(NO_END)
    }
}

fn only_ours(text: &str, value: &Value, why: &str) -> Option<&'static str> {
    let words = words(value);
    if why.contains("repetition limit") {
        Some(REPEATS)
    } else if has_odd_name(text) {
        Some(NAMES)
    } else if text.starts_with("\u{feff}---") || text.starts_with('\u{feff}') && why.contains("more than one document")
    {
        Some(MARK)
    } else if text.contains('\t') && ["token", "tab", "more than one document"].iter().any(|said| why.contains(said)) {
        Some(TABS)
    } else if text.contains(['{', '['])
        && (why.contains("found unexpected ':'") || words.iter().any(|word| word.starts_with([':', '?'])))
    {
        Some(QUESTION)
    } else {
        let on_two = words.iter().any(|word| word.contains(' ') && !text.contains(word))
            || text.lines().any(|line| line.trim_start().starts_with(':'));
        (on_two && why.contains("did not find expected ','")).then_some(LINES)
    }
}

fn only_theirs(text: &str, why: &str) -> Option<&'static str> {
    if RULES.iter().any(|rule| why.contains(rule)) {
        Some(OWN)
    } else if has_odd_name(text) {
        Some(NAMES)
    } else {
        NO_YAML.iter().any(|rule| why.contains(rule)).then_some(CLOSE)
    }
}

/// The kind of the difference between what two readers made of a text, if there is one and it has a name.
fn kind(text: &str, a: &Read, b: &Read) -> Result<Option<&'static str>, String> {
    let named = match (a, b) {
        (Ok(a), Ok(b)) if a == b => return Ok(None),
        (Err(_), Err(_)) => return Ok(None),
        (Ok(a), Ok(b)) => differ(text, a, b),
        (Ok(a), Err(why)) => only_ours(text, a, why),
        (Err(why), Ok(_)) => only_theirs(text, why),
    };
    let says = |read: &Read| read.as_ref().map_or_else(|why| format!("refused ({why})"), ToString::to_string);
    named.map(Some).ok_or_else(|| format!("{text:?}\n  ours   {:.800}\n  theirs {:.800}", says(a), says(b)))
}

/// Counts of texts that both read alike, that both refuse, and of differences by their kind.
#[derive(Default)]
struct Tally {
    alike: u64,
    refused: u64,
    kinds: BTreeMap<&'static str, u64>,
    unnamed: Vec<String>,
}

impl Tally {
    fn add(&mut self, text: &str) {
        let (a, b) = (ours(text), theirs(text));
        match kind(text, &a, &b) {
            Ok(None) if a.is_ok() => self.alike += 1,
            Ok(None) => self.refused += 1,
            Ok(Some(kind)) => *self.kinds.entry(kind).or_default() += 1,
            Err(unnamed) => self.unnamed.push(unnamed),
        }
    }

    /// Prints the counts and fails on a difference without a name.
    fn end(&self, what: &str) {
        println!("{what}: {} read alike, {} refused by both, {:?}", self.alike, self.refused, self.kinds);
        let shown = self.unnamed.iter().take(20).cloned().collect::<Vec<_>>();
        assert!(shown.is_empty(), "{} differences without a name:\n{}", self.unnamed.len(), shown.join("\n"));
    }
}

fn files() -> Vec<String> {
    let files = ["layouts/", "symbols/", "src/", "tests/"].into_iter().flat_map(common::yaml_files);
    files.map(|(_, text)| text).collect()
}

#[test]
fn files_of_the_project_and_spoilt_ones_are_read_alike() {
    let (files, mut random, mut tally) = (files(), Random(setting("FUZZ_SEED", 1)), Tally::default());
    files.iter().for_each(|text| tally.add(text));
    assert!(tally.kinds.keys().all(|kind| *kind == OWN), "unspoilt files: {:?}", tally.kinds);
    assert!(tally.alike > 300 && tally.alike + 20 > files.len() as u64, "{} of {}", tally.alike, files.len());
    for _ in 0..setting("FUZZ", FEW) {
        let text = spoil(random.pick::<String>(&files), &mut random);
        tally.add(&text);
    }
    tally.end("files and spoilt files");
}

/// Signs of YAML, words and blanks, to put small texts together from.
const PIECES: [&str; 68] = [
    "a",
    "b",
    "1",
    "-",
    "- ",
    ": ",
    ":",
    ", ",
    ",",
    "[",
    "]",
    "{",
    "}",
    "&a ",
    "&a",
    "*a",
    "*a ",
    "!t ",
    "#",
    " #",
    "'",
    "\"",
    "|",
    ">",
    "|\n",
    ">\n",
    " ",
    "  ",
    "\n",
    "\n",
    "\n  ",
    "\n- ",
    "\t",
    "?",
    "? ",
    "~",
    "a: ",
    "b: ",
    "\na: ",
    "\n  b: ",
    "- a: ",
    "%",
    "@",
    "\\",
    "\\n",
    "---",
    "...",
    "é",
    "|-",
    ">+",
    "|2",
    "\n \n",
    "''",
    "\"\"",
    "0x1",
    "=",
    "<<: ",
    "{ a: ",
    "[a, ",
    "-0x1",
    "01.5",
    "0b1",
    ".5",
    "1e3",
    "+1",
    "true",
    "1_0",
    "99999999999999999999",
];

#[test]
fn small_texts_are_read_alike() {
    let (mut random, mut tally) = (Random(setting("FUZZ_SEED", 1)), Tally::default());
    for _ in 0..2 * setting("FUZZ", FEW) {
        let text: String = (0..2 + random.below(6)).map(|_| *random.pick(&PIECES)).collect();
        tally.add(&match random.below(5) {
            0 => format!("a: {text}"),
            1 => format!("a: {text}\n"),
            2 => format!("{{ a: {text} }}\n"),
            3 => format!("b: 1\n{text}\n"),
            _ => format!("a:\n  {text}\nb: 1\n"),
        });
    }
    tally.end("small texts");
}

/// Rows of the table: kind, example if there is one as text, and what each reader makes of it.
fn rows(page: &str) -> Vec<[String; 4]> {
    let table = page.split("## Two readers of YAML").nth(1).unwrap().split("\n## ").next().unwrap();
    let rows = table.lines().filter(|line| line.starts_with("| ")).skip(1);
    rows.map(|line| {
        let cells: Vec<&str> = line.split(" | ").collect();
        [0, 1, 2, 3].map(|at| cells[at].trim_start_matches("| ").to_owned())
    })
    .collect()
}

/// The text between backticks, if a cell has one.
fn code(cell: &str) -> Option<String> {
    let text = cell.strip_prefix('`')?.strip_suffix('`')?;
    Some(text.replace("\\n", "\n").replace("\\t", "\t").replace("\\uFEFF", "\u{feff}").replace("\\|", "|"))
}

#[test]
fn the_table_of_differences_is_true() {
    let rows = rows(&common::text("DEVELOPERS.md"));
    let mut named: Vec<&str> = rows.iter().map(|row| row[0].as_str()).collect();
    named.sort_unstable();
    named.dedup();
    let mut kinds = [BASES, ZERO, NAMES, QUESTION, NO_END, TABS, LINES, REPEATS, MARK, OWN, CLOSE];
    kinds.sort_unstable();
    assert_eq!(named, kinds);
    for [name, example, our_value, their_value] in rows {
        let Some(text) = code(&example) else { continue };
        let (a, b) = (ours(&text), theirs(&text));
        assert_eq!(kind(&text, &a, &b), Ok(Some(name.as_str())), "{text:?}");
        for (read, says) in [(a, our_value), (b, their_value)] {
            let made = read.map_or("refused".to_owned(), |value| value.to_string());
            assert_eq!(format!("`{made}`"), says, "{text:?}");
        }
    }
}

#[test]
fn a_difference_without_a_name_is_seen() {
    let text = |text: &str| Ok(Value::Text(text.to_owned()));
    assert_eq!(kind("a\n", &text("a"), &text("a")), Ok(None));
    assert!(kind("a\n", &text("a"), &text("b")).is_err());
    assert!(kind("01\n", &text("01"), &Ok(Value::Number(1.0))).is_err());
    assert!(kind("a\n", &text("a"), &Err("did not find expected key".to_owned())).is_err());
    assert!(kind("a\n", &Err("this bracket closes nothing".to_owned()), &text("a")).is_err());
}
