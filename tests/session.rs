//! A session that has seen other layouts gives what a new one gives, byte for byte: layouts are changed again and again
//! (figures, names, modules that come and go, symbols and extended files), and all errors, findings and outputs compared.
//!
//! `EDITS=1000 cargo test --release --test session` makes so many changes; without it 40.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]

mod common;
#[path = "common/generator.rs"]
mod generator;

use boxwright::compile::{Compiled, Options, Session, Wanted};
use boxwright::registry::Registry;
use common::world;
use generator::{Random, random_layout};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// One change in so many is followed by the search for suggestions, which takes longest.
const SUGGESTED: usize = 8;

fn edits() -> usize {
    std::env::var("EDITS").map_or(40, |count| count.parse().unwrap())
}

/// A project that is edited: its files, and the layout that is compiled.
struct Project {
    layout: &'static str,
    files: Vec<(String, String)>,
}

fn demo(name: &str, own: &str) -> Project {
    let head = format!("boxwright: 1\nextends: {name}.yaml\nsymbols: [own]\n");
    let symbol = common::text(&format!("symbols/{own}.yaml"));
    let files = [
        ("edited.yaml".to_owned(), head),
        (format!("{name}.yaml"), common::text(&format!("layouts/{name}.yaml"))),
        (format!("own/{own}.yaml"), symbol),
    ];
    Project { layout: "edited.yaml", files: files.into() }
}

fn random(seed: u64) -> Project {
    Project { layout: "random.yaml", files: vec![("random.yaml".to_owned(), random_layout(seed).yaml())] }
}

fn projects() -> Vec<Project> {
    let mut all =
        vec![demo("marram", "galley/base-run"), demo("teasel", "bed/fixed-across"), demo("skua", "stow/wardrobe")];
    all.extend((900..905).map(random));
    all
}

/// Where the lines of the modules of a layout begin and end.
fn modules(lines: &[String]) -> Vec<(usize, usize)> {
    let Some(start) = lines.iter().position(|line| line.trim_end() == "modules:") else { return Vec::new() };
    let inside = |line: &&String| line.starts_with("  ") || line.trim().is_empty();
    let end = start + 1 + lines[start + 1..].iter().take_while(inside).count();
    let names: Vec<usize> = (start + 1..end)
        .filter(|at| lines[*at].starts_with("  ") && lines[*at].chars().nth(2).is_some_and(char::is_alphabetic))
        .collect();
    let ends = names.iter().skip(1).copied().chain([end]);
    names.iter().copied().zip(ends).collect()
}

/// Another figure in place of one of a text.
fn with_other_figure(text: &str, random: &mut Random) -> String {
    let digits: Vec<(usize, usize)> = {
        let bytes = text.as_bytes();
        let starts = (0..bytes.len()).filter(|at| bytes[*at].is_ascii_digit() && (*at == 0 || bytes[*at - 1] == b' '));
        starts.map(|at| (at, at + bytes[at..].iter().take_while(|byte| byte.is_ascii_digit()).count())).collect()
    };
    if digits.is_empty() {
        return text.to_owned();
    }
    let (start, end) = *random.pick(&digits);
    let figure: f64 = text[start..end].parse().unwrap();
    format!("{}{}{}", &text[..start], (figure + random.whole(-40, 40)).max(0.0), &text[end..])
}

/// A text with a module less, one more, or one called something else.
fn with_other_modules(text: &str, random: &mut Random) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let modules = modules(&lines);
    if modules.is_empty() {
        return with_other_figure(text, random);
    }
    let (start, end) = *random.pick(&modules);
    let name = lines[start].trim().split(':').next().unwrap().to_owned();
    match random.whole(0, 2) as u32 {
        0 => drop(lines.drain(start..end)),
        1 => {
            let mut copy: Vec<String> = lines[start..end].to_vec();
            copy[0] = copy[0].replacen(&name, &format!("{name}-{}", random.whole(1, 9)), 1);
            lines.splice(end..end, copy);
        }
        _ => return text.replace(&name, &format!("{name}x")),
    }
    lines.join("\n") + "\n"
}

fn edit(project: &mut Project, random: &mut Random) {
    let at = random.whole(0, project.files.len() as i32 - 1) as usize;
    let text = &project.files[at].1;
    let new = if random.in_hundred(70) { with_other_figure(text, random) } else { with_other_modules(text, random) };
    project.files[at].1 = new;
}

/// Everything that a compile gives, as one text.
fn given(session: &Session, project: &Project, suggest: bool) -> (bool, BTreeMap<String, Vec<u8>>) {
    let world = world(&project.files);
    let mut compiled: Compiled = session.read(&world, project.layout);
    session.check(&mut compiled).unwrap();
    if suggest {
        session.suggest(&mut compiled).unwrap();
    }
    let mut all = BTreeMap::new();
    all.insert("errors".to_owned(), format!("{:#?}", compiled.errors).into_bytes());
    all.insert("findings".to_owned(), format!("{:#?}", compiled.findings).into_bytes());
    let outputs = session.draw(&compiled, &Wanted::all()).unwrap();
    if let Some(outputs) = &outputs {
        let product = outputs.product(&compiled);
        let made: Vec<_> = session.registry.backends.par_iter().map(|backend| backend.files(&product)).collect();
        all.extend(made.into_iter().flatten().flatten().map(|file| (file.name, file.bytes)));
    }
    (outputs.is_some(), all)
}

fn differ(project: &Project, old: &BTreeMap<String, Vec<u8>>, new: &BTreeMap<String, Vec<u8>>) {
    let names: Vec<&String> = old.keys().chain(new.keys()).filter(|name| old.get(*name) != new.get(*name)).collect();
    let text = |of: &BTreeMap<String, Vec<u8>>| {
        names.first().and_then(|name| of.get(*name)).map(|bytes| String::from_utf8_lossy(bytes).into_owned())
    };
    assert!(names.is_empty(), "{names:?} differ\n{:?}\n{:?}\n{:#?}", text(old), text(new), project.files);
}

#[test]
fn a_session_gives_what_a_new_one_gives() {
    let kept = Session::new(Registry::standard(), Options::default());
    let (mut random, mut projects) = (Random::new(11), projects());
    let mut wholes: Vec<_> = projects.iter().map(|project| project.files.clone()).collect();
    let mut drawn = 0;
    for turn in 0..edits() {
        let at = turn % projects.len();
        edit(&mut projects[at], &mut random);
        let new = Session::new(Registry::standard(), Options::default());
        let suggest = turn % SUGGESTED == 0;
        let (whole, scratch) = given(&new, &projects[at], suggest);
        differ(&projects[at], &given(&kept, &projects[at], suggest).1, &scratch);
        drawn += usize::from(whole);
        // One layout in three that does not compile stays so for a while, as it does under a person's hands.
        if whole {
            wholes[at].clone_from(&projects[at].files);
        } else if random.in_hundred(66) {
            projects[at].files.clone_from(&wholes[at]);
        }
    }
    assert!(drawn * 5 > edits() * 2, "too few layouts compile: {drawn}");
}

/// Each result that is found again is made again and compared: a stage that reads more than its key stops the test.
#[test]
fn every_result_that_is_found_again_is_right() {
    let session = Session::proving(Registry::standard(), Options::default());
    let (mut random, mut projects) = (Random::new(23), projects());
    for turn in 0..edits() / 4 {
        let at = turn % projects.len();
        let before = projects[at].files.clone();
        edit(&mut projects[at], &mut random);
        if !given(&session, &projects[at], false).0 {
            projects[at].files = before;
        }
    }
}

/// A stage that is asked to end says so, and the next one that is asked for works.
#[test]
fn a_stage_can_be_stopped() {
    let session = Session::new(Registry::standard(), Options::default());
    let project = demo("marram", "galley/base-run");
    let mut compiled = session.read(&world(&project.files), project.layout);
    session.stop().ask();
    assert!(session.check(&mut compiled).is_err());
    assert!(compiled.findings.is_empty());
    assert!(session.draw(&compiled, &Wanted::all()).is_err());
    session.stop().clear();
    assert!(session.check(&mut compiled).is_ok());
    assert!(!compiled.findings.is_empty());
}

/// What no asked-for output reads is not made: a plan alone has no other sheet and nests nothing.
#[test]
fn only_what_is_read_is_made() {
    let session = Session::new(Registry::standard(), Options::default());
    let project = demo("marram", "galley/base-run");
    let mut compiled = session.read(&world(&project.files), project.layout);
    session.check(&mut compiled).unwrap();
    let sheets = boxwright::views::Chosen(vec!["plan-day".parse().unwrap()]);
    let reads = vec![boxwright::backends::Reads::Sheets];
    let outputs = session.draw(&compiled, &Wanted { reads, sheets }).unwrap().unwrap();
    let ids: Vec<&str> = outputs.sheets.iter().map(|sheet| sheet.id.as_str()).collect();
    assert_eq!(ids, ["plan-day"]);
    assert!(outputs.labels.is_empty() && outputs.sums.is_empty());
    assert!(!outputs.has_cut_list(), "a plan nests nothing");
}
