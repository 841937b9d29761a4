//! `boxwright mend`: changes are shown as a diff that another program applies, and written whole or not at all.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/command.rs"]
mod command;

use assert_cmd::assert::Assert;
use command::{boxwright, folder, write};
use std::fs;
use tempfile::TempDir;

/// Two shelves that overlap by 40 mm, and one 60 mm behind the rear wall; with comments.
const LAYOUT: &str = "boxwright: 1
title: To be mended
box: { length: 4000, width: 2000, height: 1900 }
openings:
  entry: { kind: door, wall: right, front: 2000, run: 600, height: 1800, radius: 40 }   # stays
modules:
  # the first
  one: { symbol: stow/shelf, faces: right, place: { front: 0, left: 0, floor: 800 }, size: { run: 900 } }
  two: { symbol: stow/shelf, faces: right, place: { front: 860, left: 0, floor: 800 }, size: { run: 900 } } # the second
  end: { symbol: stow/shelf, faces: right, place: { rear: box.rear + 60, left: 0, floor: 800 }, size: { run: 900 } }
";

fn with_layout() -> TempDir {
    let folder = folder();
    write(&folder, "a.yaml", LAYOUT);
    folder
}

fn text(folder: &TempDir) -> String {
    fs::read_to_string(folder.path().join("a.yaml")).unwrap()
}

fn told(command: &Assert) -> String {
    String::from_utf8(command.get_output().stdout.clone()).unwrap()
}

fn complaint(command: &Assert) -> String {
    String::from_utf8(command.get_output().stderr.clone()).unwrap()
}

#[test]
fn changes_are_shown_and_nothing_is_written() {
    let folder = with_layout();
    let shown = told(&boxwright(&folder).args(["mend", "a.yaml"]).assert().code(1));
    assert_eq!(text(&folder), LAYOUT);
    for line in [
        "--- a.yaml",
        "-  end: { symbol: stow/shelf, faces: right, place: { rear: box.rear + 60, left: 0, floor: 800 }, size: { run: 900 } }",
        "+  end: { symbol: stow/shelf, faces: right, place: { rear: box.rear, left: 0, floor: 800 }, size: { run: 900 } }",
    ] {
        assert!(shown.lines().any(|shown| shown == line), "{line}\n{shown}");
    }
    assert!(shown.contains("\n2: ") && shown.contains("a.yaml: 2 changes"), "{shown}");
}

#[test]
fn what_is_chosen_is_written_and_comments_stay() {
    let folder = with_layout();
    boxwright(&folder).args(["mend", "a.yaml", "--apply", "1"]).assert().code(0);
    let one = text(&folder);
    let differ = |other: &str| one.lines().zip(other.lines()).filter(|(a, b)| a != b).count();
    assert_eq!((differ(LAYOUT), one.lines().count()), (1, LAYOUT.lines().count()));
    assert!(one.contains("# stays") && one.contains("# the first") && one.contains("# the second"));
    boxwright(&folder).args(["mend", "a.yaml", "--apply", "all"]).assert().code(0);
    boxwright(&folder).args(["check", "a.yaml"]).assert().code(0);
    let nothing = boxwright(&folder).args(["mend", "a.yaml"]).assert().code(0);
    assert!(told(&nothing).contains("a.yaml: 0 changes"), "{}", told(&nothing));
}

#[test]
fn a_draft_is_brought_into_range() {
    let folder = with_layout();
    write(
        &folder,
        "a.yaml",
        &LAYOUT
            .replace("front: 860", "front: 900")
            .replace("box.rear + 60", "box.rear")
            .replace("floor: 800 }, size: { run: 900 } } # the", "floor: 800 }, size: { run: 3400 } } # the"),
    );
    let shown = told(&boxwright(&folder).args(["mend", "a.yaml"]).assert().code(2));
    assert!(shown.contains("   error: the run of module `two` is 3400 mm"), "{shown}");
}

#[test]
fn what_cannot_be_written_changes_nothing() {
    let folder = with_layout();
    for (apply, says) in
        [("9", "there is no change `9`"), ("1,x", "there is no change `x`"), ("0", "there is no change `0`")]
    {
        let refused = boxwright(&folder).args(["mend", "a.yaml", "--apply", apply]).assert().code(2);
        assert!(complaint(&refused).contains(says), "{}", complaint(&refused));
        assert_eq!(text(&folder), LAYOUT);
    }
    let broken = boxwright(&folder).args(["mend", "bad.yaml", "--apply", "all"]).assert().code(2);
    assert!(told(&broken).contains("does not compile"), "{}", told(&broken));
    let stdin = boxwright(&folder).args(["mend", "-", "--apply", "1"]).write_stdin(LAYOUT).assert().code(2);
    assert!(complaint(&stdin).contains("standard input"));
    boxwright(&folder).args(["mend", "-"]).write_stdin(LAYOUT).assert().code(1);
}
