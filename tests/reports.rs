//! The reports for programs. `tests/oracles/validate_reports.py`, which `.ci/run` runs, holds them against their schemas.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::backends::{Found, Report, Rule, findings_schema, sarif_log};
use boxwright::checks::manual_page;
use boxwright::compile::{Compiled, Options, compile};
use boxwright::diagnostic::wire::json_text;
use boxwright::registry::Registry;
use serde_json::Value;
use std::collections::BTreeSet;

/// Every layout of the suite and of the demos, compiled: errors and findings of all kinds.
fn layouts() -> Vec<(String, Compiled)> {
    let registry = Registry::standard();
    let of = |folder: &str| {
        let files = common::yaml_files(folder);
        let world = common::world(&files);
        let compiled = |path: &str| (path.to_owned(), compile(&world, path, &registry, &Options::default()));
        common::directly_in(&files, folder).map(|(path, _)| compiled(path)).collect::<Vec<_>>()
    };
    of("tests/suite/").into_iter().chain(of("layouts/")).collect()
}

fn found(compiled: &Compiled) -> Found<'_> {
    let Compiled { sources, errors, model, checks, findings, .. } = compiled;
    Found { errors: (errors.errors(), errors.dropped()), model: model.as_ref(), checks, findings, sources }
}

/// Every key that a report has is in its schema, and every key that the schema asks for is there.
fn same_keys(schema: &Value, of: &Value, report: &Value) {
    let of = match of["$ref"].as_str() {
        Some(name) => &schema["$defs"][name.rsplit('/').next().unwrap()],
        None => of,
    };
    if let (Some(properties), Some(object)) = (of["properties"].as_object(), report.as_object()) {
        let keys = |object: &serde_json::Map<String, Value>| object.keys().cloned().collect::<BTreeSet<_>>();
        assert_eq!(keys(properties), keys(object));
        properties.iter().for_each(|(key, inner)| same_keys(schema, inner, &object[key]));
    }
    for entry in report.as_array().into_iter().flatten() {
        same_keys(schema, &of["items"], entry);
    }
}

#[test]
fn findings_have_the_keys_of_their_schema() {
    let schema: Value = serde_json::from_str(&findings_schema()).unwrap();
    for (path, compiled) in layouts() {
        let report = serde_json::from_str(&json_text(&Report::new(&path, found(&compiled)))).unwrap();
        same_keys(&schema, &schema, &report);
    }
}

#[test]
fn the_log_has_every_error_and_finding() {
    let registry = Registry::standard();
    let rule = |check: &&'static dyn boxwright::checks::Check| Rule {
        name: check.name(),
        says: check.says(),
        page: manual_page(*check),
    };
    let rules: Vec<Rule> = registry.checks.iter().map(rule).collect();
    let layouts = layouts();
    let all: Vec<Found<'_>> = layouts.iter().map(|(_, compiled)| found(compiled)).collect();
    let log: Value = serde_json::from_str(&sarif_log(&rules, &all)).unwrap();
    let results = log["runs"][0]["results"].as_array().unwrap();
    let count: usize = layouts.iter().map(|(_, one)| one.errors.errors().len() + one.findings.len()).sum();
    assert_eq!(results.len(), count);
    let of_level = |level: &str| results.iter().filter(|result| result["level"] == level).count();
    assert!(of_level("error") > 50 && of_level("warning") > 5 && of_level("note") > 5);
    assert!(results.iter().any(|result| result["suppressions"][0]["justification"].is_string()));
    for result in results {
        let rule =
            &log["runs"][0]["tool"]["driver"]["rules"][usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap()];
        assert_eq!(rule["id"], result["ruleId"]);
    }
}
