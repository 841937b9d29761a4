//! What a living box usually has and a layout has no mass for.

use crate::diagnostic::{Finding, Severity};
use crate::model::Model;

/// What a living box usually has: a word of its name, and what it is.
const USUAL: [(&str, &str); 6] = [
    ("heat", "a heater"),
    ("solar", "solar panels"),
    ("subframe", "a subframe"),
    ("gas", "gas bottles"),
    ("batter", "a battery"),
    ("extinguish", "an extinguisher"),
];

/// The note about what a living box usually has and this layout has no mass for: no load and nothing that is fitted has its name.
pub(super) fn note(check: &'static str, model: &Model) -> Option<Finding> {
    let fitted = model.modules.iter().flat_map(|module| module.masses.iter().map(|item| item.name.as_str()));
    let all: Vec<&str> = model.loads.iter().map(|load| load.name.as_str()).chain(fitted).collect();
    let missing = USUAL.iter().filter(|(word, _)| !all.iter().any(|name| name.contains(word)));
    let missing: Vec<&str> = missing.map(|(_, what)| *what).collect();
    let names = missing.join(", ");
    let message = format!("no mass is given for {names}, by the names of loads and of what is fitted");
    let note = Finding::new(check, Severity::Note, "vehicle", message).asks("unweighed").names("of", names);
    (!missing.is_empty()).then_some(note)
}
