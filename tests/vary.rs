//! Many versions of a layout: what is told of each is what `check` says of it when it is written down.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use serde_json::Value;
use std::fs;
use std::process::{Command, Output};
use tempfile::TempDir;

fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("box.yaml"), common::text("layouts/marram.yaml")).unwrap();
    folder
}

fn run(folder: &TempDir, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_boxwright")).args(arguments).current_dir(folder).output().unwrap()
}

fn rows(told: &Output) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(told.stdout.as_slice());
    reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
}

#[test]
fn each_version_is_what_check_says_of_it() {
    let folder = folder();
    let set = ["--set", "aisle=540..740/100", "--set", "galley.drawers=2,3"];
    let told = run(&folder, &[&["vary", "box.yaml", "--format", "csv", "--tell", "mass,pieces"], &set[..]].concat());
    assert_eq!(told.status.code(), Some(0));
    let rows = rows(&told);
    assert_eq!(rows[0].join(" "), "no best aisle galley.drawers faults cautions mass pieces error");
    assert_eq!(rows.len(), 7);
    for (number, row) in rows.iter().enumerate().skip(1) {
        let (file, number) = (format!("v{number}.yaml"), number.to_string());
        let written = run(&folder, &[&["vary", "box.yaml", "--write", &number, "--to", &file], &set[..]].concat());
        assert_eq!(written.status.code(), Some(0), "{written:?}");
        let checked = run(&folder, &["check", "--format", "json", &file]);
        let report: Value = serde_json::from_slice(&checked.stdout).unwrap();
        let open = |severity: &str| {
            let all = report[0]["findings"].as_array().unwrap().iter();
            all.filter(|one| one["severity"] == severity && one["accepted"].is_null()).count().to_string()
        };
        assert_eq!((&row[4], &row[5]), (&open("fault"), &open("caution")), "{file}");
        run(&folder, &["build", &file, "--only", "model-json,report-json"]);
        let read = |name: &str| -> Value {
            let text = fs::read_to_string(folder.path().join(format!("out/v{number}/{name}"))).unwrap();
            serde_json::from_str(&text).unwrap()
        };
        let cases = read("report.json")["vehicle"]["load-cases"].as_array().unwrap().clone();
        let most = cases.iter().map(|case| case["total"].as_f64().unwrap()).fold(0.0, f64::max);
        assert!((row[6].parse::<f64>().unwrap() - most).abs() < 0.051, "{file}: {} {most}", row[6]);
        let pieces = read("model.json")["cut-list"]["rows"].as_array().unwrap().clone();
        assert_eq!(row[7], pieces.iter().map(|one| one["count"].as_u64().unwrap()).sum::<u64>().to_string());
    }
    assert!(rows.iter().skip(1).any(|row| row[1] == "*") && rows.iter().skip(1).any(|row| row[1].is_empty()));
}

#[test]
fn one_thread_or_many_say_the_same_and_broken_versions_are_counted() {
    let folder = folder();
    let arguments =
        ["vary", "box.yaml", "--set", "galley.depth=200..600/200", "--set", "box.length=3960,much", "--all"];
    let told = run(&folder, &arguments);
    let alone = Command::new(env!("CARGO_BIN_EXE_boxwright"))
        .args(arguments)
        .env("RAYON_NUM_THREADS", "1")
        .current_dir(&folder)
        .output()
        .unwrap();
    assert_eq!(told.stdout, alone.stdout);
    let said = String::from_utf8(told.stdout).unwrap();
    assert!(said.ends_with("4 that do not compile\n") && said.contains("6 versions, "), "{said}");
}

#[test]
fn what_can_not_be_tried_is_said() {
    let folder = folder();
    for (set, says) in [
        ("aisl=1", "there is no parameter `aisl`"),
        ("aisle", "sets nothing"),
        ("aisle=1..2", "is no range for `aisle`"),
        ("aisle=1..99999/1", "more than 1000 values"),
        ("aisle={a: 1}", "is no value for `aisle`"),
        ("a b=1", "is no name of a value"),
    ] {
        let told = run(&folder, &["vary", "box.yaml", "--set", set]);
        assert_eq!(told.status.code(), Some(2), "{set}");
        assert!(String::from_utf8_lossy(&told.stderr).contains(says), "{set}: {told:?}");
    }
    let many = ["vary", "box.yaml", "--set", "aisle=500..999/1", "--set", "bench=500..999/1"];
    let told = run(&folder, &many);
    assert!(String::from_utf8_lossy(&told.stderr).contains("`--sample N`"), "{told:?}");
    let some = run(&folder, &[&many[..], &["--sample", "3", "--format", "csv"]].concat());
    assert_eq!(rows(&some).len(), 4);
    for (to, number, says) in [
        ("x/v.yaml", "1", "in the folder of its layout"),
        ("v.yaml", "7", "numbered from 1 to 2"),
        ("box.yaml", "1", "is there already"),
    ] {
        let told = run(&folder, &["vary", "box.yaml", "--set", "aisle=700,760", "--write", number, "--to", to]);
        assert_eq!(told.status.code(), Some(2), "{to}");
        assert!(String::from_utf8_lossy(&told.stderr).contains(says), "{told:?}");
    }
    let told = run(&folder, &["vary", "none.yaml", "--set", "aisle=700"]);
    assert_eq!(told.status.code(), Some(2));
}
