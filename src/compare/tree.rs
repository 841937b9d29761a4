//! Values as trees: without places in files, and what differs between two of them.

use super::difference::{Difference, Fate};
use crate::base::number::trimmed;
use serde_json::{Map, Value};
use std::collections::BTreeSet;

/// Keys of places in files, which move with every line.
const PLACES: [&str; 3] = ["place", "places", "placed"];

/// What follows from values that are told, and would only repeat them.
const FOLLOWS: [&str; 8] = ["cut-list", "stowage", "poses", "parts", "together", "hardware", "masses", "connects"];

/// Told by sections of their own.
const TOLD: [&str; 3] = ["extent", "along", "up"];

/// A tree without places in files.
pub(super) fn without_places(value: Value) -> Value {
    match value {
        Value::Object(map) => {
            let kept = map.into_iter().filter(|(key, _)| !PLACES.contains(&key.as_str()));
            Value::Object(kept.map(|(key, value)| (key, without_places(value))).collect())
        }
        Value::Array(all) => all.into_iter().map(without_places).collect(),
        other => other,
    }
}

/// Things of a list by their names; nothing for a list without.
pub(super) fn named<'a>(tree: &'a Value, list: &str) -> Vec<(&'a str, &'a Value)> {
    let all = tree.get(list).and_then(Value::as_array).into_iter().flatten();
    all.filter_map(|one| Some((one.get("name")?.as_str()?, one))).collect()
}

/// A thing of a name among some.
pub(super) fn by_name<'a>(all: &[(&str, &'a Value)], name: &str) -> Option<&'a Value> {
    all.iter().find(|(other, _)| *other == name).map(|(_, one)| *one)
}

/// A figure as it is told.
pub(super) fn figure(value: f64) -> String {
    trimmed(value, 3)
}

/// Every value that differs, but for what is told elsewhere.
pub(super) fn values(old: &Value, new: &Value) -> Vec<Difference> {
    let mut found = Vec::new();
    differ("", old, new, &mut found);
    found
}

fn differ(path: &str, old: &Value, new: &Value, found: &mut Vec<Difference>) {
    match (old, new) {
        _ if old == new => {}
        (Value::Object(a), Value::Object(b)) => of_maps(path, a, b, found),
        (Value::Array(a), Value::Array(b)) if has_names(a) && has_names(b) => of_named(path, a, b, found),
        _ => found.push(Difference::new(Fate::Changed, path, format!("{} -> {}", short(old), short(new)))),
    }
}

fn of_maps(path: &str, a: &Map<String, Value>, b: &Map<String, Value>, found: &mut Vec<Difference>) {
    let keys: BTreeSet<&String> = a.keys().chain(b.keys()).collect();
    for key in keys {
        let (old, new) = (a.get(key).unwrap_or(&Value::Null), b.get(key).unwrap_or(&Value::Null));
        let below = joined(path, key);
        let inside = path.is_empty() || path.split('/').count() == 2;
        match key.as_str() {
            "name" if path.is_empty() => {}
            key if old != new && inside && FOLLOWS.contains(&key) => {
                found.push(Difference::new(Fate::Changed, below, "follows"));
            }
            key if TOLD.contains(&key) && ["modules", "openings"].iter().any(|list| path.starts_with(list)) => {}
            _ => differ(&below, old, new, found),
        }
    }
}

fn of_named(path: &str, a: &[Value], b: &[Value], found: &mut Vec<Difference>) {
    let name = |one: &Value| one.get("name").and_then(Value::as_str).unwrap_or_default().to_owned();
    let list = |all: &[Value]| -> Vec<String> { all.iter().map(name).collect() };
    let (olds, news) = (list(a), list(b));
    for (one, value) in olds.iter().zip(a) {
        match news.iter().position(|other| other == one).and_then(|at| b.get(at)) {
            Some(other) => differ(&joined(path, one), value, other, found),
            None => found.push(Difference::new(Fate::Gone, joined(path, one), "")),
        }
    }
    let new = news.iter().filter(|one| !olds.contains(one));
    found.extend(new.map(|one| Difference::new(Fate::New, joined(path, one), "")));
    let common =
        |of: &[String], other: &[String]| of.iter().filter(|one| other.contains(one)).cloned().collect::<Vec<_>>();
    if common(&olds, &news) != common(&news, &olds) {
        found.push(Difference::new(Fate::Changed, path, "stand in another order"));
    }
}

/// Whether all have a name, and none the same.
fn has_names(all: &[Value]) -> bool {
    let names: BTreeSet<&str> = all.iter().filter_map(|one| one.get("name")?.as_str()).collect();
    names.len() == all.len()
}

fn joined(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_owned() } else { format!("{path}/{key}") }
}

/// A value in a few words.
fn short(value: &Value) -> String {
    const MOST: usize = 60;
    let text = match value {
        Value::Null => "nothing".to_owned(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    };
    if text.chars().count() <= MOST { text } else { text.chars().take(MOST).chain("...".chars()).collect() }
}
