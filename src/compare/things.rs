//! Modules, openings, inserts and masses of two versions.

use super::difference::{Difference, Fate};
use super::tree::{by_name, figure, named};
use crate::base::number::trimmed;
use crate::base::tolerance::SAME_LENGTH;
use serde_json::Value;
use std::collections::BTreeMap;

/// Masses that differ by no more than this are the same, kg: a hundredth of what a weighbridge tells.
const SAME_MASS: f64 = 0.05;

/// A range of figures.
fn range(value: &Value, key: &str) -> Option<(f64, f64)> {
    let pair = value.get(key)?.as_array()?;
    Some((pair.first()?.as_f64()?, pair.get(1)?.as_f64()?))
}

/// How one range became another, in words: `60 mm to the rear`, or which end by how much. `ends` are the words for the
/// lower and the upper end.
fn moved((old, new): ((f64, f64), (f64, f64)), ends: [&str; 2]) -> Vec<String> {
    let (low, high) = (new.0 - old.0, new.1 - old.1);
    let to = |by: f64| format!("{} mm to the {}", figure(by.abs()), if by < 0.0 { ends[0] } else { ends[1] });
    let told = |by: f64| by.abs() > SAME_LENGTH;
    if told(low) && (low - high).abs() <= SAME_LENGTH {
        return vec![to(low)];
    }
    let edge = |(by, end): (f64, &str)| told(by).then(|| format!("its {end} edge {}", to(by)));
    [(low, ends[0]), (high, ends[1])].into_iter().filter_map(edge).collect()
}

/// Things of a list that are new, gone or elsewhere.
fn things(
    list: &str,
    (old, new): (&Value, &Value),
    born: impl Fn(&Value) -> String,
    changed: impl Fn(&Value, &Value) -> Vec<String>,
) -> Vec<Difference> {
    let (olds, news) = (named(old, list), named(new, list));
    let mut found = Vec::new();
    for (name, was) in &olds {
        match by_name(&news, name) {
            None => found.push(Difference::new(Fate::Gone, *name, "")),
            Some(is) => {
                let says = changed(was, is);
                found.extend((!says.is_empty()).then(|| Difference::new(Fate::Changed, *name, says.join(", "))));
            }
        }
    }
    let fresh = news.iter().filter(|(name, _)| by_name(&olds, name).is_none());
    found.extend(fresh.map(|(name, is)| Difference::new(Fate::New, *name, born(is))));
    found
}

/// Modules.
pub(super) fn modules(old: &Value, new: &Value) -> Vec<Difference> {
    const AXES: [(&str, [&str; 2]); 3] = [("x", ["front", "rear"]), ("y", ["left", "right"]), ("z", ["floor", "top"])];
    let born = |is: &Value| is.get("symbol").and_then(Value::as_str).unwrap_or_default().to_owned();
    let changed = |was: &Value, is: &Value| {
        let ranges = |axis| Some((range(was.get("extent")?, axis)?, range(is.get("extent")?, axis)?));
        let edges = AXES.iter().filter_map(|(axis, ends)| Some(moved(ranges(axis)?, *ends)));
        let mut says: Vec<String> = edges.flatten().collect();
        for key in ["symbol", "faces"] {
            let word = |of: &Value| of.get(key).and_then(Value::as_str).unwrap_or_default().to_owned();
            says.extend((word(was) != word(is)).then(|| format!("{key} {} -> {}", word(was), word(is))));
        }
        says
    };
    things("modules", (old, new), born, changed)
}

/// Openings, as their panel is seen.
pub(super) fn openings(old: &Value, new: &Value) -> Vec<Difference> {
    let wall = |of: &Value| of.get("wall").and_then(Value::as_str).unwrap_or_default().to_owned();
    let changed = |was: &Value, is: &Value| {
        let flat = ["roof", "floor"].contains(&wall(is).as_str());
        let across = ["front", "rear"].contains(&wall(is).as_str());
        let along = if across { ["left", "right"] } else { ["front", "rear"] };
        let up = if flat { ["left", "right"] } else { ["floor", "top"] };
        let ranges = |key| Some((range(was, key)?, range(is, key)?));
        let edges =
            [("along", along), ("up", up)].into_iter().filter_map(|(key, ends)| Some(moved(ranges(key)?, ends)));
        let mut says: Vec<String> = edges.flatten().collect();
        says.extend((wall(was) != wall(is)).then(|| format!("from the {} to the {}", wall(was), wall(is))));
        says
    };
    things("openings", (old, new), |is| format!("in the {}", wall(is)), changed)
}

/// Inserts, by panel: what holds something else, elsewhere, counts as another one.
pub(super) fn inserts(old: &Value, new: &Value) -> Vec<Difference> {
    let count = |report: &Value| {
        let mut counts: BTreeMap<(String, String), u32> = BTreeMap::new();
        let all = report.pointer("/shell/inserts").and_then(Value::as_array);
        for one in all.into_iter().flatten() {
            let panel = one.get("panel").and_then(Value::as_str).unwrap_or_default();
            let at = format!("{} of {}", place(one), one.get("holds").and_then(Value::as_str).unwrap_or_default());
            *counts.entry((panel.to_owned(), at)).or_default() += 1;
        }
        counts
    };
    let (olds, news) = (count(old), count(new));
    let more = |a: &BTreeMap<(String, String), u32>, b: &BTreeMap<(String, String), u32>, fate| {
        let only = a.iter().filter(|(key, many)| b.get(*key).is_none_or(|other| other < *many));
        let mut panels: BTreeMap<String, Vec<String>> = BTreeMap::new();
        only.for_each(|((panel, at), _)| panels.entry(panel.clone()).or_default().push(at.clone()));
        panels.into_iter().map(|(panel, all)| Difference::new(fate, panel, all.join("; "))).collect::<Vec<_>>()
    };
    [more(&olds, &news, Fate::Gone), more(&news, &olds, Fate::New)].concat()
}

fn place(one: &Value) -> String {
    let at = one.get("at").and_then(Value::as_array).into_iter().flatten();
    let figures: Vec<String> = at.filter_map(Value::as_f64).map(figure).collect();
    format!("({})", figures.join(" "))
}

/// Total and axles of each load case.
pub(super) fn masses(old: &Value, new: &Value) -> Vec<Difference> {
    let empty = Value::Null;
    let of = |report: &Value| report.get("vehicle").cloned().unwrap_or(empty.clone());
    let (old, new) = (of(old), of(new));
    let changed = |was: &Value, is: &Value| {
        let one = |key: &'static str| {
            let (was, is) = (was.get(key)?.as_f64()?, is.get(key)?.as_f64()?);
            let more = if is > was { "+" } else { "" };
            ((is - was).abs() > SAME_MASS)
                .then(|| format!("{key} {} -> {} kg ({more}{})", trimmed(was, 1), trimmed(is, 1), trimmed(is - was, 1)))
        };
        ["total", "front", "rear"].into_iter().filter_map(one).collect()
    };
    things("load-cases", (&old, &new), |_| String::new(), changed)
}
