//! Joints of the library and of the demos: what hangs, what is loose, what shares room.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;
#[path = "common/library.rs"]
mod library;

use boxwright::compile::{Options, read, run_checks};
use boxwright::diagnostic::Severity;
use boxwright::language::library_names;
use boxwright::registry::Registry;
use library::{Case, OTHER_STOCKS, ROOMY, document, layout, make, settings, sized, usual};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Checks of how furniture goes together.
const TOGETHER: [&str; 7] =
    ["part-loose", "parts-collide", "bore-clash", "hinge-backing", "leaf-too-heavy", "wall-gap", "sag"];

/// A registry of these checks alone.
fn own() -> Registry {
    let mut registry = Registry::standard();
    registry.checks.retain(|check| TOGETHER.contains(&check.name()));
    registry
}

/// Every symbol of the library at its least, usual and greatest sizes, with each value of each setting.
#[test]
fn the_library_goes_together() {
    let wanted = std::env::var("SYMBOL").unwrap_or_default();
    let names: Vec<String> = library_names().into_iter().filter(|name| name.contains(&wanted)).collect();
    let wrong: Vec<String> = names.par_iter().flat_map(|name| wrong(name)).collect();
    let mut kinds: BTreeMap<String, String> = BTreeMap::new();
    for one in wrong {
        kinds.entry(one.chars().filter(|letter| !letter.is_ascii_digit()).collect()).or_insert(one);
    }
    let shown: Vec<String> = kinds.into_values().collect();
    assert!(shown.is_empty(), "{} kinds:\n{}\n", shown.len(), shown.join("\n"));
}

/// The model, with its module in a corner of the box; of the files in `symbols/` as they are now where `FROM_DISK` is set, for work on them.
fn make_from(text: &str) -> Result<boxwright::model::Model, Vec<String>> {
    let text =
        text.replace("faces: rear, place: { front: 3000, left: 3000 }", "faces: right, place: { front: 0, left: 0 }");
    if std::env::var("FROM_DISK").is_err() {
        return make(&text);
    }
    let text = text.replacen("modules:", "symbols: [symbols]\nmodules:", 1);
    let mut files = common::yaml_files("symbols");
    files.push(("layout.yaml".to_owned(), text));
    let compiled = read(&common::world(&files), "layout.yaml", &own(), &Options::default());
    let errors = compiled.errors.errors().iter().map(|error| error.message.clone()).collect();
    compiled.model.ok_or(errors)
}

fn wrong(name: &str) -> Vec<String> {
    let usual = usual(name);
    let cases: Vec<Case> = settings(&document(name)).iter().flat_map(|set| sized(name, usual, set)).collect();
    let mut all = Vec::new();
    for (head, cases) in [(ROOMY.to_owned(), &cases[..]), (format!("{ROOMY}{OTHER_STOCKS}"), &cases[..3])] {
        for case in cases {
            let model = match make_from(&layout(name, std::slice::from_ref(case), &head)) {
                Ok(model) => model,
                Err(errors) => return errors,
            };
            let found = run_checks(&model, &own()).into_iter();
            let graver = found.filter(|one| one.severity <= Severity::Note);
            all.extend(
                graver.map(|one| format!("{name} {}: {}  {:?} {:?}", one.key.check, one.message, case.size, case.set)),
            );
        }
    }
    all
}

#[test]
fn the_demos_go_together() {
    let files = common::yaml_files("layouts");
    let world = common::world(&files);
    for (path, _) in &files {
        let model = read(&world, path, &Registry::standard(), &Options::default()).model.unwrap();
        let found = run_checks(&model, &own()).into_iter();
        let graver = found.filter(|one| one.severity < Severity::Note);
        let wrong: Vec<String> = graver.map(|one| one.message).collect();
        assert!(wrong.is_empty(), "{path}:\n{}", wrong.join("\n"));
    }
}
