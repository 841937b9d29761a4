//! Parts to cut again, parts that stay, and what is bought.

use super::difference::{Difference, Fate};
use super::side::Side;
use super::tree::figure;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// A row of a cut list.
struct Row<'a> {
    number: &'a str,
    name: &'a str,
    count: u64,
    /// Everything that makes it what it is: size, stock, grain, bands, outline, machining.
    made: String,
    size: String,
}

/// What of a row does not change the piece.
const APART: [&str; 6] = ["number", "count", "modules", "stands", "held", "name"];

fn rows(model: &Value) -> Vec<Row<'_>> {
    let all = model.pointer("/cut-list/rows").and_then(Value::as_array);
    all.into_iter().flatten().filter_map(Row::of).collect()
}

impl<'a> Row<'a> {
    fn of(row: &'a Value) -> Option<Self> {
        let word = |key: &str| row.get(key).and_then(Value::as_str);
        let kept = row.as_object()?.iter().filter(|(key, _)| !APART.contains(&key.as_str()));
        let finished = row.get("finished")?.as_array()?.iter().filter_map(Value::as_f64);
        Some(Self {
            number: word("number")?,
            name: word("name")?,
            count: row.get("count")?.as_u64()?,
            made: kept.map(|(key, value)| format!("{key}={value};")).collect(),
            size: finished.map(figure).collect::<Vec<_>>().join(" x "),
        })
    }
}

/// Parts to cut again and not wanted any more; the same parts under another number; how many stay.
pub(super) fn parts(old: &Value, new: &Value) -> (Vec<Difference>, Vec<Difference>, u64) {
    let (olds, news) = (rows(old), rows(new));
    let (mut changed, mut renumbered, mut kept) = (Vec::new(), Vec::new(), 0);
    let mut left: Vec<u64> = olds.iter().map(|row| row.count).collect();
    for row in &news {
        // Of equal pieces the one with the same number first.
        let mut same: Vec<usize> =
            (0..olds.len()).filter(|at| olds.get(*at).is_some_and(|was| was.made == row.made)).collect();
        same.sort_by_key(|at| olds.get(*at).is_none_or(|was| was.number != row.number));
        let mut wanted = row.count;
        for at in same {
            let (Some(was), Some(free)) = (olds.get(at), left.get_mut(at)) else { continue };
            let taken = wanted.min(*free);
            (wanted, *free, kept) = (wanted - taken, *free - taken, kept + taken);
            if taken > 0 && was.number != row.number {
                let says = format!("was {}, {taken} of {}", was.number, row.size);
                renumbered.push(Difference::new(Fate::Changed, row.number, says));
            }
        }
        if wanted > 0 {
            let says = format!("cut {wanted}: {} {}", row.name, row.size);
            let was = olds.iter().find(|was| was.number == row.number);
            let before = was.map(|was| format!(", was {} {}", was.name, was.size)).unwrap_or_default();
            let fate = if was.is_some() { Fate::Changed } else { Fate::New };
            changed.push(Difference::new(fate, row.number, says + &before));
        }
    }
    // Where a number is cut again, it is said what it was.
    let told =
        |was: &Row<'_>| changed.iter().any(|one: &Difference| one.fate == Fate::Changed && one.about == was.number);
    let unwanted: Vec<_> = olds.iter().zip(left).filter(|(was, left)| *left > 0 && !told(was)).collect();
    changed.extend(unwanted.into_iter().map(|(was, left)| {
        Difference::new(Fate::Gone, was.number, format!("{left} not wanted any more: {} {}", was.name, was.size))
    }));
    (changed, renumbered, kept)
}

/// Sheets of each stock, and everything else that is bought.
pub(super) fn bought(old: &Side, new: &Side) -> Vec<Difference> {
    let all = |side: &Side| -> BTreeMap<String, f64> {
        let totals = side.model.pointer("/cut-list/totals").and_then(Value::as_array);
        let mut counts = BTreeMap::new();
        for total in totals.into_iter().flatten() {
            let stocks = total.get("stocks").and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_str);
            let name = format!("sheets of {}", stocks.collect::<Vec<_>>().join(", "));
            *counts.entry(name).or_default() += total.get("sheets-used").and_then(Value::as_f64).unwrap_or_default();
        }
        side.bought.iter().for_each(|(name, count)| *counts.entry(name.clone()).or_default() += count);
        counts
    };
    let (olds, news) = (all(old), all(new));
    let names: BTreeSet<&String> = olds.keys().chain(news.keys()).collect();
    let one = |name: &String| {
        let [was, is] = [&olds, &news].map(|all| all.get(name).copied().unwrap_or_default());
        let fate = match (olds.contains_key(name), news.contains_key(name)) {
            (false, _) => Fate::New,
            (_, false) => Fate::Gone,
            _ => Fate::Changed,
        };
        (was != is).then(|| Difference::new(fate, name.as_str(), format!("{} -> {}", figure(was), figure(is))))
    };
    names.into_iter().filter_map(one).collect()
}
