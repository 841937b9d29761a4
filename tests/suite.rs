//! Compiles every layout of `tests/suite/` and compares what is found with the marks in its comments.
//!
//! `# ! walkway 412` wants a finding of that check on this line, with that measured value (rounded to a whole number;
//! the value may be left out). `# ! error words` wants an error on this line whose message has these words. A line may
//! have several marks: `# ! a 1 ! b 2`. A mark that has a line for itself speaks of the next line. `# clean` in the
//! first line wants nothing graver than a note. Notes and accepted findings may be
//! marked, but need not.
//!
//! The fault atlas: each check has `<check>-clear.yaml`, `<check>-just.yaml` and `<check>-fails.yaml`: well clear of a
//! limit, at it, and past it by the smallest step. These are judged by their own check alone, unless they are marked.
//!
//! All messages together are kept in `tests/suite/messages.txt`, so that their tone can be reviewed as a set;
//! `UPDATE=1 cargo test --release --test suite` writes it anew.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Compiled, Options, compile};
use boxwright::diagnostic::{Finding, Severity};
use boxwright::registry::Registry;
use boxwright::source::{FileId, Span};
use std::collections::BTreeSet;
use std::fmt::Write;

const FOLDER: &str = "tests/suite/";
const MESSAGES: &str = "tests/suite/messages.txt";

/// The three layouts of each check.
const ATLAS: [&str; 3] = ["clear", "just", "fails"];

/// Something wanted on a line.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Mark {
    file: String,
    line: usize,
    wants: String,
}

impl Mark {
    /// The words of an error that is wanted.
    fn error(&self) -> Option<&str> {
        self.wants.strip_prefix("error").map(str::trim_start)
    }
}

/// Marks of one text.
fn marks(file: &str, text: &str) -> Vec<Mark> {
    let lines = text.lines().enumerate().filter_map(|(at, line)| line.split_once("# ! ").map(|split| (at, split)));
    lines
        .flat_map(|(at, (before, wanted))| {
            let line = if before.trim().is_empty() { at + 2 } else { at + 1 };
            wanted.split(" ! ").map(move |wants| Mark { file: file.to_owned(), line, wants: wants.trim().to_owned() })
        })
        .collect()
}

/// Something a compile has given, on a line.
#[derive(Debug)]
struct Given {
    file: String,
    line: usize,
    /// `error message` or `check 412`.
    says: String,
    needed: bool,
}

impl Given {
    fn new(compiled: &Compiled, span: Option<Span>, says: String, needed: bool) -> Self {
        let place = span.and_then(|span| compiled.sources.place(span));
        let (file, line) = place.map_or((String::new(), 0), |(file, at)| (file.to_owned(), at.line));
        Self { file, line, says, needed }
    }

    fn answers(&self, mark: &Mark) -> bool {
        let said = match mark.error() {
            Some(words) => self.says.strip_prefix("error ").is_some_and(|message| message.contains(words)),
            None => self.says == mark.wants || self.says.split(' ').next() == Some(&mark.wants),
        };
        said && self.file == mark.file && self.line == mark.line
    }
}

fn given(compiled: &Compiled) -> Vec<Given> {
    let errors = compiled.errors.errors().iter();
    let errors = errors.map(|error| Given::new(compiled, Some(error.span), format!("error {}", error.message), true));
    let finding = |one: &Finding| {
        let measured = one.measured.map(|measure| format!(" {:.0}", measure.value)).unwrap_or_default();
        let needed = one.severity < Severity::Note && one.accepted.is_none();
        Given::new(compiled, one.spans.first().copied(), format!("{}{measured}", one.key.check), needed)
    };
    errors.chain(compiled.findings.iter().map(finding)).collect()
}

/// Marks of the layout and of every file of the suite that it has read.
fn wanted(compiled: &Compiled, suite: &[(String, String)]) -> Vec<Mark> {
    let read = (0..).map_while(|at| compiled.sources.file(FileId(at)));
    let names: BTreeSet<&str> = read.map(|file| file.name.as_str()).collect();
    suite.iter().filter(|(name, _)| names.contains(name.as_str())).flat_map(|(name, text)| marks(name, text)).collect()
}

/// What is missing and what is there without being wanted.
fn differences(marks: &[Mark], given: &[Given]) -> Vec<String> {
    let missing = marks.iter().filter(|mark| !given.iter().any(|one| one.answers(mark)));
    let missing = missing.map(|mark| format!("{}:{}: not found: {}", mark.file, mark.line, mark.wants));
    let extra = given.iter().filter(|one| one.needed && !marks.iter().any(|mark| one.answers(mark)));
    missing.chain(extra.map(|one| format!("{}:{}: not wanted: {}", one.file, one.line, one.says))).collect()
}

/// The check whose atlas a file belongs to, and which of the three it is.
fn in_atlas(path: &str) -> Option<(&str, &str)> {
    let name = path.strip_prefix(FOLDER)?.strip_suffix(".yaml")?;
    let (check, kind) = name.rsplit_once('-').filter(|(_, kind)| ATLAS.contains(kind))?;
    Registry::standard().check(check).map(|_| (check, kind))
}

fn run(path: &str, suite: &[(String, String)]) -> Compiled {
    compile(&common::world(suite), path, &Registry::standard(), &Options::default())
}

#[test]
fn every_layout_of_the_suite_gives_what_its_marks_want() {
    let suite = common::yaml_files(FOLDER);
    let mut wrong = Vec::new();
    for (path, text) in common::directly_in(&suite, FOLDER) {
        let compiled = run(path, &suite);
        let marks = wanted(&compiled, &suite);
        if marks.is_empty() != text.starts_with("# clean") {
            wrong.push(format!("{path}: has either marks or `# clean` in its first line, not both and not neither"));
        }
        if compiled.errors.is_empty() == marks.iter().any(|mark| mark.error().is_some()) {
            wrong.push(format!("{path}: does it compile?"));
        }
        let mut given = given(&compiled);
        if let Some((check, _)) = in_atlas(path) {
            given.iter_mut().for_each(|one| one.needed &= one.says.split(' ').next() == Some(check));
        }
        wrong.extend(differences(&marks, &given));
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn every_check_passes_clear_passes_just_and_fails_just() {
    let suite = common::yaml_files(FOLDER);
    let mut wrong = Vec::new();
    for check in Registry::standard().checks.iter().map(|check| check.name()) {
        for kind in ATLAS {
            let path = format!("{FOLDER}{check}-{kind}.yaml");
            let compiled = run(&path, &suite);
            let graver = |one: &&Finding| one.key.check == check && one.severity < Severity::Note;
            let found = compiled.findings.iter().find(graver);
            if !compiled.errors.is_empty() {
                wrong.push(format!("{path}: is not there or does not compile"));
            } else if found.is_some() != (kind == "fails") {
                wrong.push(format!("{path}: {}", found.map_or("no finding of it", |one| one.message.as_str())));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn a_difference_is_seen() {
    let text = "a: 1 # ! walkway 412 ! swing\n# ! error no such name\nb: 2\n";
    let marks = marks("x", text);
    let mark = |line, wants: &str| Mark { file: "x".to_owned(), line, wants: wants.to_owned() };
    assert_eq!(marks, [mark(1, "walkway 412"), mark(1, "swing"), mark(3, "error no such name")]);
    let one = |line, says: &str, needed| Given { file: "x".to_owned(), line, says: says.to_owned(), needed };
    let all =
        || vec![one(1, "walkway 412", true), one(1, "swing 5", true), one(3, "error there is no such name `a`", true)];
    assert_eq!(differences(&marks, &all()), Vec::<String>::new());
    let mut other = all();
    other[0].line = 2;
    assert_eq!(differences(&marks, &other).len(), 2);
    let mut noted = all();
    noted.push(one(9, "boot-volume 100", false));
    assert_eq!(differences(&marks, &noted), Vec::<String>::new());
}

fn told(compiled: &Compiled) -> String {
    let mut text = String::new();
    let line = |span: &Span| compiled.sources.place(*span).map_or(0, |(_, at)| at.line);
    for error in compiled.errors.errors() {
        let _ = writeln!(text, "  {}: error: {}", line(&error.span), error.message);
        let _ = writeln!(text, "      label: {}", error.label);
        error.notes.iter().for_each(|note| text += &format!("      note: {}\n", note.says));
        error.help.iter().for_each(|help| text += &format!("      help: {help}\n"));
    }
    for one in compiled.findings.iter().filter(|one| one.severity != Severity::Met) {
        let severity = format!("{:?}", one.severity).to_lowercase();
        let at = one.spans.first().map_or(0, line);
        let when =
            if one.arrangements.is_empty() { String::new() } else { format!(" ({})", one.arrangements.join(", ")) };
        let _ = writeln!(text, "  {at}: {severity} {}{when}: {}", one.key.check, one.message);
        one.required.iter().for_each(|required| text += &format!("      source: {}\n", required.source));
        one.suggestion.iter().for_each(|suggestion| text += &format!("      try: {}\n", suggestion.words));
        one.help.iter().for_each(|help| text += &format!("      help: {help}\n"));
        one.accepted.iter().for_each(|why| text += &format!("      accepted: {why}\n"));
    }
    text.replace("      label: \n", "")
}

#[test]
fn messages_are_the_reviewed_ones() {
    let suite = common::yaml_files(FOLDER);
    let files = common::directly_in(&suite, FOLDER);
    let messages: String =
        files.map(|(path, _)| format!("{}\n{}", &path[FOLDER.len()..], told(&run(path, &suite)))).collect();
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(common::root().join(MESSAGES), &messages).unwrap();
    }
    let reviewed = common::text(MESSAGES);
    let changed = reviewed.lines().zip(messages.lines()).find(|(old, new)| old != new);
    assert!(reviewed == messages, "messages have changed: {changed:?}; look at them, then run with UPDATE=1");
}
