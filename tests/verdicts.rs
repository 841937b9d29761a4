//! The severity of every finding says the same as its figures: a fault or a caution exactly where the limit is missed. And
//! what a finding is: its key tells it from all others, its words are made of key, figures and arguments.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]

mod common;
#[path = "common/generator.rs"]
mod generator;

use boxwright::backends::{Found, Report};
use boxwright::checks::Context;
use boxwright::compile::{Compiled, Options, Session};
use boxwright::diagnostic::Finding;
use boxwright::diagnostic::wire::json_text;
use boxwright::registry::Registry;
use generator::random_layout;
use serde_json::Value;
use std::collections::BTreeMap;

/// Random layouts that are looked at.
const RANDOM: u64 = 24;

/// Every layout of the suite, the demos and some random ones, checked.
fn layouts() -> Vec<(String, Compiled)> {
    let session = Session::new(Registry::standard(), Options::default());
    let mut files: Vec<(String, String)> =
        ["tests/suite/", "layouts/", "symbols/"].into_iter().flat_map(common::yaml_files).collect();
    files.extend((0..RANDOM).map(|at| (format!("tests/suite/random-{at}.yaml"), random_layout(at).yaml())));
    let world = common::world(&files);
    let own = ["tests/suite/", "layouts/"].into_iter().flat_map(|folder| common::directly_in(&files, folder));
    let checked = own.map(|(path, _)| {
        let mut compiled = session.read(&world, path);
        session.check(&mut compiled).unwrap();
        (path.clone(), compiled)
    });
    checked.collect()
}

/// Whether a figure misses its limit, by the words of the report alone.
fn misses(finding: &Value) -> Option<bool> {
    let (measured, required) = (finding["measured"]["value"].as_f64()?, &finding["required"]);
    let (limit, within) = (required["value"].as_f64()?, required["within"].as_f64().unwrap());
    assert_eq!(finding["measured"]["unit"], required["unit"], "{finding}");
    let past = match required["bound"].as_str().unwrap() {
        "least" => limit - measured,
        "most" => measured - limit,
        "between" => (limit - measured).max(measured - required["to"].as_f64().unwrap()),
        other => panic!("{other}"),
    };
    // Figures of the report are rounded to the third place: who misses by less than that can't be told from it.
    ((past - within).abs() > 0.0015).then_some(past > within)
}

#[test]
fn a_fault_or_caution_is_exactly_what_misses_its_limit() {
    let (mut seen, mut wrong) = (BTreeMap::<(String, String), usize>::new(), Vec::new());
    for (path, compiled) in layouts() {
        let Compiled { sources, errors, model, checks, findings, .. } = &compiled;
        for finding in findings {
            let holds = finding.measured.zip(finding.required.as_ref()).map(|(m, r)| r.holds(m.value));
            let severity = finding.severity.word();
            let right = match severity {
                "note" => holds != Some(false),
                _ => holds == Some(severity == "met"),
            };
            if !right {
                wrong.push(format!("{path}: {} {severity}: {}: {holds:?}", finding.key.check, finding.message));
            }
            *seen.entry((finding.key.check.to_string(), severity.to_owned())).or_default() += 1;
        }
        let found = Found { errors: (errors.errors(), 0), model: model.as_ref(), checks, findings, sources };
        let report: Value = serde_json::from_str(&json_text(&Report::new(&path, found))).unwrap();
        for finding in report["findings"].as_array().unwrap() {
            let missed = finding["severity"] == "fault" || finding["severity"] == "caution";
            if misses(finding).is_some_and(|says| says != missed) {
                wrong.push(format!("{path}, report: {finding}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{} of them:\n{}", wrong.len(), wrong.join("\n"));
    let checks: std::collections::BTreeSet<&str> = seen
        .keys()
        .filter(|(_, severity)| severity == "fault" || severity == "caution")
        .map(|(check, _)| check.as_str())
        .collect();
    let all = Registry::standard().checks.len();
    assert!(checks.len() + 3 >= all, "only {} of {all} checks find something: {checks:?}", checks.len());
}

/// Two findings of one arrangement are never the same one. Also as the checks give them, before they are joined.
#[test]
fn a_key_belongs_to_one_finding_of_an_arrangement() {
    let (mut seen, mut wrong) = (0, Vec::new());
    for (path, compiled) in layouts() {
        for found in [&given(&compiled), &compiled.findings] {
            let mut known: BTreeMap<_, &Finding> = BTreeMap::new();
            for one in found {
                let anywhere = one.arrangements.is_empty().then_some("");
                for name in one.arrangements.iter().map(String::as_str).chain(anywhere) {
                    if let Some(other) = known.insert((&one.key, name), one) {
                        wrong.push(format!("{path}, {name}: {:?}:\n  {}\n  {}", one.key, other.message, one.message));
                    }
                    seen += 1;
                }
            }
        }
    }
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{} of {seen}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(seen > 3000, "{seen}");
}

/// What would be lost where findings of several arrangements are joined: words that say more than key, figures and arguments.
#[test]
fn findings_that_are_joined_have_the_same_words() {
    let (mut joined, mut wrong) = (0, Vec::new());
    for (path, compiled) in layouts() {
        let found = given(&compiled);
        for (at, one) in found.iter().enumerate() {
            for other in found.iter().take(at).filter(|other| other.says_as_much(one)) {
                joined += 1;
                if one.message != other.message {
                    wrong.push(format!("{path}: {}: {}, {}", one.key.check, one.message, other.message));
                }
            }
        }
    }
    wrong.dedup();
    assert!(wrong.is_empty(), "{} of {joined}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(joined > 100, "{joined}");
}

/// All that the checks find, arrangement by arrangement.
fn given(compiled: &Compiled) -> Vec<Finding> {
    let Some(figures) = compiled.figures() else { return Vec::new() };
    let registry = &compiled.registry;
    registry.checks.iter().flat_map(|check| check.run(&Context::new(check.as_ref(), &figures))).collect()
}
