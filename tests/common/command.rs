//! The command in a folder of its own.

#![allow(dead_code, reason = "each test uses a part of it")]
#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

use assert_cmd::Command;
use assert_cmd::cargo::cargo_bin_cmd;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// A folder with a clean layout `good.yaml`, one with a fault `tight.yaml`, and one that does not compile `bad.yaml`.
pub fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    boxwright(&folder).args(["new", "good"]).assert().code(0);
    let good = fs::read_to_string(folder.path().join("good.yaml")).unwrap();
    let twin = "\n  twin:\n    symbol: bed/fixed-across\n    faces: front\n    \
                place: { rear: box.rear - 5, left: box.left, right: box.right }\n    size: { depth: 900 }\n";
    write(&folder, "tight.yaml", &good.replacen("modules:\n", &format!("modules:{twin}"), 1));
    write(&folder, "bad.yaml", &good.replacen("  length: 4000", "  lenght: 4000", 1));
    folder
}

pub fn write(folder: &TempDir, name: &str, text: &str) {
    fs::write(folder.path().join(name), text).unwrap();
}

pub fn boxwright(folder: &TempDir) -> Command {
    let mut command = cargo_bin_cmd!("boxwright");
    command.current_dir(folder.path()).env_remove("NO_COLOR");
    command
}

pub fn stdout(command: &mut Command) -> String {
    String::from_utf8(command.output().unwrap().stdout).unwrap()
}

pub fn stderr(command: &mut Command) -> String {
    String::from_utf8(command.output().unwrap().stderr).unwrap()
}

/// Names and bytes of the files in a folder.
pub fn bytes(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    entries.map(|entry| (entry.file_name().into_string().unwrap(), fs::read(entry.path()).unwrap())).collect()
}

/// Names in a folder, sorted.
pub fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    let mut names: Vec<String> = entries.map(|entry| entry.file_name().into_string().unwrap()).collect();
    names.sort();
    names
}
