//! The reports for programs against their schemas: SARIF 2.1.0 by the schema of OASIS, findings by our own.
//!
//! `tests/oracles/sarif-schema-2.1.0.json` is the schema that OASIS publishes with the standard, unchanged.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::backends::{Found, Report, Rule, findings_schema, sarif_log};
use boxwright::checks::manual_page;
use boxwright::compile::{Compiled, Options, compile};
use boxwright::diagnostic::wire::json_text;
use boxwright::registry::Registry;
use serde_json::Value;

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
    let Compiled { sources, errors, model, checks, findings } = compiled;
    Found { errors: (errors.errors(), errors.dropped()), model: model.as_ref(), checks, findings, sources }
}

fn complaints(schema: &Value, instance: &Value) -> Vec<String> {
    let validator = jsonschema::validator_for(schema).unwrap();
    validator.iter_errors(instance).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

#[test]
fn findings_follow_their_schema() {
    let schema: Value = serde_json::from_str(&findings_schema()).unwrap();
    for (path, compiled) in layouts() {
        let report = serde_json::from_str(&json_text(&Report::new(&path, found(&compiled)))).unwrap();
        assert_eq!(complaints(&schema, &report), Vec::<String>::new(), "{path}");
    }
    let wrong = serde_json::json!({ "format": "something else" });
    assert!(complaints(&schema, &wrong).len() > 1);
}

#[test]
fn the_log_follows_the_schema_of_sarif() {
    // The bracket without its partner is no regular expression of ECMA-262; the schema's errata have this form instead.
    let text = common::text("tests/oracles/sarif-schema-2.1.0.json");
    let text = text.replace("^[a-zA-Z]{2}|^[a-zA-Z]{2}-[a-zA-Z]{2}]?$", "^[a-zA-Z]{2}(-[a-zA-Z]{2})?$");
    let schema: Value = serde_json::from_str(&text).unwrap();
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
    assert_eq!(complaints(&schema, &log), Vec::<String>::new());
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
