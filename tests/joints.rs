//! Joints of the library and of the demos: what hangs, what is loose, what shares room.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;
#[path = "common/library.rs"]
mod library;

use boxwright::compile::{Alone, Options, Session, read, run_checks};
use boxwright::diagnostic::Severity;
use boxwright::language::library_names;
use boxwright::registry::Registry;
use library::OTHER_STOCKS;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Checks of how furniture goes together.
const TOGETHER: [&str; 7] =
    ["part-loose", "parts-collide", "bore-clash", "hinge-backing", "leaf-too-heavy", "wall-gap", "sag"];

/// A registry of these checks alone.
fn own() -> Registry {
    let mut registry = Registry::of_furniture();
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

/// Looks at one symbol of the library, as the files in `symbols/` are now where `FROM_DISK` is set, for work on them.
fn wrong(name: &str) -> Vec<String> {
    let (files, folder) = match std::env::var("FROM_DISK") {
        Ok(_) => (common::yaml_files("symbols"), Some("symbols")),
        Err(_) => (Vec::new(), None),
    };
    let (world, session) = (common::world(&files), Session::new(own(), Options::default()));
    let mut all = Vec::new();
    for head in ["", OTHER_STOCKS] {
        let tried = session.alone(&world, Alone { name, folder, head });
        assert!(tried.broken.is_none(), "{name}: {:?}", tried.broken.map(|(case, _)| case));
        assert!(tried.cases > 0, "{name}");
        all.extend(
            tried
                .found
                .iter()
                .map(|(case, one)| format!("{name} {}: {}  at {}", one.key.check, one.message, case.told())),
        );
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
