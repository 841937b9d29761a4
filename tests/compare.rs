//! Two versions of a layout: what `compare` says is exactly what differs in their models, both ways, and equal ones give
//! nothing. On the demos with numbers of their text changed at random, and over a git repository.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;
#[path = "common/generator.rs"]
mod generator;

use boxwright::backends::model_wire;
use boxwright::compare::{Comparison, Fate, Side, compare};
use boxwright::compile::{Options, Session};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use generator::Random;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::process::{Command, Output};

/// Both forms of one version: what is compared, and its `model.json`.
fn version(session: &Session, text: &str) -> Option<(Side, Value)> {
    let world = MemoryWorld::default().with("box.yaml", text);
    let mut compiled = session.read(&world, "box.yaml");
    session.check(&mut compiled).unwrap();
    let model = serde_json::to_value(model_wire(&compiled.figures()?, &compiled.sources, 0)).unwrap();
    Some((Side::of(session, &compiled)?, plain(model)))
}

/// A tree without places in the file.
fn plain(value: Value) -> Value {
    match value {
        Value::Object(map) => {
            let kept = map.into_iter().filter(|(key, _)| !["place", "places", "placed"].contains(&key.as_str()));
            kept.map(|(key, value)| (key, plain(value))).collect()
        }
        Value::Array(all) => all.into_iter().map(plain).collect(),
        other => other,
    }
}

/// The text with one of its numbers changed.
fn spoilt(text: &str, random: &mut Random) -> String {
    let is_digit = |at: usize| text.as_bytes().get(at).is_some_and(u8::is_ascii_digit);
    let starts: Vec<usize> = (1..text.len()).filter(|at| is_digit(*at) && text.as_bytes()[at - 1] == b' ').collect();
    let at = starts[random.next() as usize % starts.len()];
    let end = (at..).find(|end| !is_digit(*end)).unwrap();
    let number: u64 = text[at..end].parse().unwrap();
    let new = match random.whole(0, 3) {
        0.0 => number + 10,
        1.0 => number.saturating_sub(10),
        _ => number + 1,
    };
    format!("{}{new}{}", &text[..at], &text[end..])
}

fn extents(model: &Value) -> BTreeMap<String, Value> {
    let modules = model["modules"].as_array().unwrap().iter();
    modules.map(|one| (one["name"].as_str().unwrap().to_owned(), one["extent"].clone())).collect()
}

/// Names in a section, with their fates turned if asked.
fn told(all: &[boxwright::compare::Difference], turned: bool) -> BTreeSet<(Fate, String)> {
    let fate = |fate| match fate {
        Fate::New if turned => Fate::Gone,
        Fate::Gone if turned => Fate::New,
        other => other,
    };
    all.iter().map(|one| (fate(one.fate), one.about.clone())).collect()
}

#[test]
fn what_is_said_is_exactly_what_differs() {
    let session = Session::new(Registry::standard(), Options::default());
    let (mut differ, mut same) = (0, 0);
    for demo in ["marram", "skua", "teasel"] {
        let text = common::text(&format!("layouts/{demo}.yaml"));
        let (side, model) = version(&session, &text).unwrap();
        assert_eq!(compare(&side, &side), Comparison { kept: compare(&side, &side).kept, ..Comparison::default() });
        let mut random = Random::new(7);
        let remark = format!("{text}# a remark\n");
        for edited in std::iter::once(remark).chain((0..14).map(|_| spoilt(&text, &mut random))) {
            let Some((other, changed)) = version(&session, &edited) else { continue };
            let (there, back) = (compare(&side, &other), compare(&other, &side));
            let of_model = [&there.values, &there.modules, &there.openings, &there.parts, &there.renumbered];
            assert_eq!(model == changed, of_model.iter().all(|all| all.is_empty()), "{demo}: {there:?}");
            if model == changed {
                same += 1
            } else {
                differ += 1
            }
            for ((name, one), (_, two)) in there.sections().into_iter().zip(back.sections()) {
                // A part is named by its number in the newer version.
                if !["parts", "renumbered", "findings"].contains(&name) {
                    assert_eq!(told(one, false), told(two, true), "{demo}: {name}");
                }
            }
            assert_eq!(there.kept, back.kept);
            let (old, new) = (extents(&model), extents(&changed));
            let moved: BTreeSet<&String> = old.keys().filter(|name| old.get(*name) != new.get(*name)).collect();
            let said: BTreeSet<&String> = there.modules.iter().map(|one| &one.about).collect();
            assert_eq!(moved, said, "{demo}");
        }
    }
    assert!(differ > 20 && same > 0, "{differ} differ, {same} are the same");
}

/// Pieces: those that stay and those that are cut again are all that the newer version has.
#[test]
fn every_piece_stays_or_is_cut() {
    let session = Session::new(Registry::standard(), Options::default());
    let text = common::text("layouts/marram.yaml");
    let narrow = text.replace("  aisle: 760", "  aisle: 700");
    let ((old, _), (new, model)) = (version(&session, &text).unwrap(), version(&session, &narrow).unwrap());
    let all = compare(&old, &new);
    let cut = all
        .parts
        .iter()
        .filter_map(|one| one.says.strip_prefix("cut ").and_then(|rest| rest.split(':').next()?.parse::<u64>().ok()));
    let pieces: u64 =
        model["cut-list"]["rows"].as_array().unwrap().iter().map(|row| row["count"].as_u64().unwrap()).sum();
    assert_eq!(all.kept + cut.sum::<u64>(), pieces);
    assert!(all.parts.iter().all(|one| one.about.starts_with("dinette")), "{:?}", all.parts);
    assert_eq!(all.modules[0].says, "its left edge 60 mm to the left");
}

fn run(folder: &tempfile::TempDir, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_boxwright")).args(arguments).current_dir(folder).output().unwrap()
}

#[test]
fn revisions_of_a_repository_are_compared() {
    let folder = tempfile::tempdir().unwrap();
    let git = |arguments: &[&str]| {
        let own = ["-c", "user.name=N", "-c", "user.email=n@example.org", "-c", "commit.gpgsign=false"];
        let done = Command::new("git").args(own).args(arguments).current_dir(&folder).output();
        assert!(done.unwrap().status.success(), "git {arguments:?}");
    };
    git(&["init", "--quiet"]);
    fs::create_dir(folder.path().join("a")).unwrap();
    let file = folder.path().join("a/box.yaml");
    fs::write(&file, common::text("layouts/marram.yaml")).unwrap();
    git(&["add", "."]);
    git(&["commit", "--quiet", "-m", "one"]);
    fs::write(&file, common::text("layouts/marram.yaml").replace("  aisle: 760", "  aisle: 700")).unwrap();
    let told = run(&folder, &["compare", "HEAD:a/box.yaml", "a/box.yaml"]);
    let said = String::from_utf8(told.stdout).unwrap();
    assert_eq!(told.status.code(), Some(0));
    assert!(said.contains("changed dinette: its left edge 60 mm to the left"), "{said}");
    let same = run(&folder, &["compare", "HEAD:a/box.yaml", "HEAD:a/box.yaml"]);
    assert!(String::from_utf8(same.stdout).unwrap().ends_with("nothing differs\n"));
    let json = run(&folder, &["compare", "--format", "json", "HEAD:a/box.yaml", "a/box.yaml"]);
    let json: Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(
        (json["format"].as_str(), json["modules"][0]["about"].as_str()),
        (Some("boxwright-comparison"), Some("dinette"))
    );
    for (old, new, says) in [
        ("HEAD:a/none.yaml", "a/box.yaml", "git has no such file in the revision `HEAD`"),
        ("nowhere:a/box.yaml", "a/box.yaml", "git has no such file in the revision `nowhere`"),
        ("a/none.yaml", "a/box.yaml", "no such file"),
        ("-", "-", "both versions can't be standard input"),
    ] {
        let told = run(&folder, &["compare", old, new]);
        let said = String::from_utf8_lossy(&told.stdout).into_owned() + &String::from_utf8_lossy(&told.stderr);
        assert_eq!(told.status.code(), Some(2), "{old}");
        assert!(said.contains(says), "{old}: {said}");
    }
}
