//! What a plug-in reads, as paths into the forms that are published.

use crate::base::text::nearest;
use crate::diagnostic::wire::Wants;
use schemars::JsonSchema;
use serde::Deserialize;
use serde_json::Value;
use std::collections::BTreeSet;

/// Most paths of one list, and longest path.
const MOST_PATHS: usize = 200;
const LONGEST_PATH: usize = 200;

/// What is read of each form: paths such as `modules/*/extent`, where `*` is every entry of a list or every key. A form that
/// is not named is not sent, but for the model: where that is not named, all of it is.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
#[schemars(rename = "Reads")]
pub struct ReadsWire {
    /// Of the resolved layout: `boxwright schema model`.
    pub model: Option<Vec<String>>,
    /// Of errors and findings: `boxwright schema findings`. Nothing for checks, which run before there are findings.
    pub findings: Option<Vec<String>>,
    /// Of masses, heat and services: `boxwright schema report`. Nothing for checks.
    pub report: Option<Vec<String>>,
    /// Of the drawings: `boxwright schema sheets`. Nothing for checks and sheets.
    pub sheets: Option<Vec<String>>,
}

/// The same, understood.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Reading {
    /// Of the model.
    pub model: Wants,
    /// Of findings.
    pub findings: Wants,
    /// Of the report.
    pub report: Wants,
    /// Of the sheets.
    pub sheets: Wants,
}

impl Reading {
    /// What some parts of a plug-in read together.
    ///
    /// # Errors
    /// Which path leads nowhere; `schema` gives the schema of a form by its name.
    pub fn of<'a>(
        all: impl IntoIterator<Item = &'a ReadsWire>,
        schema: &dyn Fn(&str) -> &'static Value,
    ) -> Result<Self, String> {
        let mut reading = Self::default();
        for ReadsWire { model, findings, report, sheets } in all {
            let lists = [("findings", findings), ("report", report), ("sheets", sheets), ("model", model)];
            let into = [&mut reading.findings, &mut reading.report, &mut reading.sheets, &mut reading.model];
            for ((form, paths), wants) in lists.into_iter().zip(into) {
                let Some(paths) = paths else { continue };
                if paths.len() > MOST_PATHS {
                    return Err(format!("reads more than {MOST_PATHS} paths of the {form}"));
                }
                if !paths.is_empty() {
                    let schema = schema(form);
                    paths.iter().try_for_each(|path| leads(path, form, schema))?;
                }
                paths.iter().for_each(|path| wants.add(path));
            }
            if model.is_none() {
                reading.model.add("");
            }
        }
        Ok(reading)
    }
}

/// Whether a path leads somewhere in a schema.
fn leads(path: &str, form: &str, schema: &Value) -> Result<(), String> {
    if path.len() > LONGEST_PATH {
        return Err(format!("reads a path of the {form} that is longer than {LONGEST_PATH} bytes"));
    }
    let mut here = vec![schema];
    for step in path.split('/').filter(|step| !step.is_empty()) {
        let all = here.iter().flat_map(|node| alternatives(node, schema)).collect::<Vec<_>>();
        here = all.iter().flat_map(|node| below(node, step)).collect();
        if here.is_empty() {
            let names: BTreeSet<&str> = all.iter().flat_map(|node| keys(node)).collect();
            let near = nearest(step, names.iter().copied());
            let help = match (near, names.is_empty()) {
                (Some(near), _) => format!("did you mean `{near}`?"),
                (None, true) => "nothing, or `*` for the entries of a list, may stand there".to_owned(),
                (None, false) => format!("there are {}", names.into_iter().collect::<Vec<_>>().join(", ")),
            };
            return Err(format!("reads `{path}` of the {form}, and there is no `{step}`: {help}"));
        }
    }
    Ok(())
}

/// A node of a schema with all that it may be instead.
fn alternatives<'a>(node: &'a Value, schema: &'a Value) -> Vec<&'a Value> {
    let (mut all, mut next): (Vec<&'a Value>, _) = (Vec::new(), vec![node]);
    while let Some(node) = next.pop() {
        if all.iter().any(|known| std::ptr::eq(*known, node)) {
            continue;
        }
        all.push(node);
        let named = node.get("$ref").and_then(Value::as_str).and_then(|name| name.strip_prefix('#'));
        next.extend(named.and_then(|name| schema.pointer(name)));
        let several = ["anyOf", "oneOf", "allOf"].into_iter().filter_map(|key| node.get(key)?.as_array());
        next.extend(several.flatten());
    }
    all
}

fn keys(node: &Value) -> Vec<&str> {
    let keys = node.get("properties").and_then(Value::as_object);
    keys.map(|keys| keys.keys().map(String::as_str).collect()).unwrap_or_default()
}

fn below<'a>(node: &'a Value, step: &str) -> Vec<&'a Value> {
    let keys = node.get("properties").and_then(Value::as_object);
    let entries = ["items", "additionalProperties"].into_iter().filter_map(|key| node.get(key));
    let tuple = node.get("prefixItems").and_then(Value::as_array).into_iter().flatten();
    if step == "*" {
        return keys.into_iter().flat_map(|keys| keys.values()).chain(entries).chain(tuple).collect();
    }
    keys.and_then(|keys| keys.get(step)).into_iter().collect()
}
