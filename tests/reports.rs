//! The reports for programs. `tests/oracles/validate_reports.py`, which `.ci/run` runs, holds them against their schemas.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::backends::{
    Backend, Found, ModelJson, Reads, Report, ReportJson, Rule, findings_schema, model_schema, report_schema, sarif_log,
};
use boxwright::checks::Check;
use boxwright::compile::{Compiled, Options, Session, Wanted, compile};
use boxwright::diagnostic::wire::json_text;
use boxwright::registry::Registry;
use serde_json::Value;
use std::collections::BTreeSet;
use std::sync::Arc;

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

/// Names resolved and alternatives laid side by side.
fn plain<'a>(schema: &'a Value, of: &'a Value) -> Vec<&'a Value> {
    let named = of["$ref"].as_str().map(|path| &schema["$defs"][path.rsplit('/').next().unwrap()]);
    let others = ["anyOf", "oneOf", "allOf"].into_iter().flat_map(|key| of[key].as_array().into_iter().flatten());
    let inner = named.into_iter().chain(others).flat_map(|inner| plain(schema, inner));
    std::iter::once(of).chain(inner).collect()
}

/// Every key of a value is in its schema, and every key that the schema asks for is there.
fn same_keys(schema: &Value, forms: &[&Value], value: &Value) {
    let forms: Vec<&Value> = forms.iter().flat_map(|of| plain(schema, of)).collect();
    let maps: Vec<&Value> = forms.iter().copied().filter(|of| of["properties"].is_object()).collect();
    for (key, inner) in value.as_object().into_iter().flatten() {
        let known: Vec<&Value> = maps.iter().filter_map(|of| of["properties"].get(key)).collect();
        assert!(!known.is_empty() || inner.is_null(), "`{key}` is in no schema: {value}");
        same_keys(schema, &known, inner);
    }
    if let (Some(object), [map]) = (value.as_object(), maps.as_slice()) {
        let keys = |map: &Value| map["properties"].as_object().unwrap().keys().cloned().collect::<BTreeSet<_>>();
        assert_eq!(keys(map), object.keys().cloned().collect());
    }
    let entries: Vec<&Value> =
        forms.iter().flat_map(|of| of["prefixItems"].as_array().into_iter().flatten().chain(of.get("items"))).collect();
    value.as_array().into_iter().flatten().for_each(|entry| same_keys(schema, &entries, entry));
}

#[test]
fn findings_have_the_keys_of_their_schema() {
    let schema = findings_schema();
    for (path, compiled) in layouts() {
        let report = serde_json::from_str(&json_text(&Report::new(&path, found(&compiled)))).unwrap();
        same_keys(&schema, &[&schema], &report);
    }
}

/// The layout with every key and the demos: all that a layout can say is in the model.
#[test]
fn model_and_report_have_the_keys_of_their_schemas() {
    let session = Session::new(Registry::standard(), Options::default());
    for folder in ["tests/oracles/schemas/", "layouts/"] {
        let files = common::yaml_files(folder);
        let world = common::world(&files);
        for (path, text) in common::directly_in(&files, folder) {
            if text.contains("\ntheme: 1") || text.contains("house-rules: 1") {
                continue;
            }
            let mut compiled = session.read(&world, path);
            session.check(&mut compiled).unwrap();
            let wanted = Wanted { reads: vec![Reads::Sums], ..Wanted::default() };
            let outputs = session.draw(&compiled, &wanted).unwrap().unwrap();
            let product = outputs.product(&compiled);
            for (backend, schema) in [(&ModelJson as &dyn Backend, model_schema()), (&ReportJson, report_schema())] {
                let bytes = backend.files(&product).unwrap().remove(0).bytes;
                same_keys(&schema, &[&schema], &serde_json::from_slice(&bytes).unwrap());
            }
        }
    }
}

#[test]
fn the_log_has_every_error_and_finding() {
    let registry = Registry::standard();
    let rule = |check: &Arc<dyn Check>| Rule {
        name: check.name().to_owned(),
        says: check.says().to_owned(),
        page: check.manual(),
    };
    let layouts = layouts();
    // A layout may have rules of its own.
    let own = layouts.iter().flat_map(|(_, compiled)| &compiled.registry.checks);
    let own = own.filter(|check| registry.check(check.name()).is_none());
    let mut rules: Vec<Rule> = registry.checks.iter().chain(own).map(rule).collect();
    let mut seen = BTreeSet::new();
    rules.retain(|rule| seen.insert(rule.name.clone()));
    let all: Vec<(usize, Found<'_>)> = layouts.iter().map(|(_, compiled)| (0, found(compiled))).collect();
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
