//! What several tests need: the project's files, in memory.

#![allow(dead_code, reason = "each test uses a part of it")]
#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

use boxwright::source::MemoryWorld;
use std::fs;
use std::path::{Path, PathBuf};

/// The project's folder: that of the manifest, or above it where a manifest of its own builds the fuzz targets.
pub fn root() -> PathBuf {
    let mut folders = Path::new(env!("CARGO_MANIFEST_DIR")).ancestors();
    folders.find(|folder| folder.join("layouts").is_dir()).unwrap().to_owned()
}

/// The text of a file of the project; empty if it is not there.
pub fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_default()
}

/// The rules that a demo names: no layout, and in every [`world`].
pub const WORKSHOP: &str = "layouts/rules/workshop.yaml";

/// All YAML files under a folder of the project, as (path from the project's folder, text), sorted.
pub fn yaml_files(folder: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    walk(&root().join(folder), &mut found);
    found.sort();
    found
}

fn walk(folder: &Path, into: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).into_iter().flatten() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            walk(&path, into);
        } else if path.extension().is_some_and(|ending| ending == "yaml") && !path.ends_with(WORKSHOP) {
            let name = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
            into.push((name, fs::read_to_string(&path).unwrap()));
        }
    }
}

/// A world that holds the given files.
pub fn world(files: &[(String, String)]) -> MemoryWorld {
    let rules = (WORKSHOP.to_owned(), text(WORKSHOP));
    // The plug-in that the layout with every key names.
    let plug_in = "tests/oracles/schemas/every.wasm";
    let world = MemoryWorld::default().with_bytes(plug_in, &fs::read(root().join(plug_in)).unwrap());
    files.iter().chain([&rules]).fold(world, |world, (path, text)| world.with(path, text))
}

/// The files that stand directly in a folder, not deeper.
pub fn directly_in<'a>(files: &'a [(String, String)], folder: &'a str) -> impl Iterator<Item = &'a (String, String)> {
    let inside = move |path: &str| path.strip_prefix(folder).is_some_and(|rest| !rest.contains('/'));
    files.iter().filter(move |(path, _)| inside(path))
}
