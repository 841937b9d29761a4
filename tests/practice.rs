//! Layouts as they are built, and mistakes as they are made: the first stay quiet, the others do not.
//!
//! `tests/practice/quiet-*.yaml` says in its first line what practice accepts; no check may find a fault or a caution in it, and it
//! changes no limit and accepts nothing. `tests/practice/mistake-*.yaml` says what is wrong, and in its second line
//! (`# wants: check of subject`) which fault or caution has to come. All of it is common practice, no source, and each first line says so.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Compiled, Options, compile};
use boxwright::diagnostic::Severity;
use boxwright::registry::Registry;
use common::{world, yaml_files};

const FOLDER: &str = "tests/practice/";

/// The layouts whose names begin with a word: path, text and what came of it.
fn layouts(kind: &str) -> Vec<(String, String, Compiled)> {
    let files = yaml_files("tests/practice");
    let world = world(&files);
    let begins = format!("{FOLDER}{kind}-");
    let own = files.iter().filter(|(path, _)| path.starts_with(&begins));
    let compiled = |path: &str| compile(&world, path, &Registry::standard(), &Options::default());
    own.map(|(path, text)| (path.clone(), text.clone(), compiled(path))).collect()
}

/// The open faults and cautions, as `check of subject`.
fn grave(path: &str, compiled: &Compiled) -> Vec<String> {
    assert!(compiled.errors.errors().is_empty(), "{path}: {:?}", compiled.errors.errors());
    let open = compiled.findings.iter().filter(|one| one.severity < Severity::Note && one.accepted.is_none());
    open.map(|one| format!("{} of {}", one.key.check, one.key.subject)).collect()
}

#[test]
fn what_practice_accepts_stays_quiet() {
    let all = layouts("quiet");
    assert_eq!(all.len(), 12);
    for (path, text, compiled) in &all {
        assert!(text.starts_with("# Common practice, no source: "), "{path} does not say what practice accepts");
        assert!(!text.contains("\nlimits:") && !text.contains("\naccepted:"), "{path} helps itself");
        assert_eq!(grave(path, compiled), Vec::<String>::new(), "{path}");
    }
}

#[test]
fn a_mistake_is_found() {
    let all = layouts("mistake");
    assert_eq!(all.len(), 12);
    for (path, text, compiled) in &all {
        let first = text.lines().next().unwrap_or_default();
        assert!(first.starts_with("# A mistake: ") && first.ends_with("(common practice, no source)."), "{path}");
        let wants = text.lines().nth(1).and_then(|line| line.strip_prefix("# wants: ")).expect("what is wanted");
        let found = grave(path, compiled);
        assert!(found.iter().any(|one| one == wants), "{path}: {wants} is not among {found:?}");
    }
}
