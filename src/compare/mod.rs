//! Two versions of a layout held against each other: what is new, gone or otherwise, told to those who must do something
//! again.
//!
//! Both are compared in the forms that programs read (`model.json`, `report.json`, `findings.json`), so that nothing is
//! left out: what no section of its own tells stands among the values.

mod difference;
mod findings;
mod parts;
mod side;
mod things;
mod tree;
mod words;

use serde_json::{Value, json};

pub use difference::{Comparison, Difference, Fate};
pub use side::Side;
pub use words::text;

/// Holds two versions against each other.
#[must_use]
pub fn compare(old: &Side, new: &Side) -> Comparison {
    let (parts, renumbered, kept) = parts::parts(&old.model, &new.model);
    Comparison {
        findings: findings::findings(&old.findings, &new.findings),
        masses: things::masses(&old.report, &new.report),
        modules: things::modules(&old.model, &new.model),
        openings: things::openings(&old.model, &new.model),
        inserts: things::inserts(&old.report, &new.report),
        parts,
        renumbered,
        kept,
        bought: parts::bought(old, new),
        values: tree::values(&old.model, &new.model),
    }
}

/// A comparison as JSON, for programs.
#[must_use]
pub fn to_json(files: [&str; 2], comparison: &Comparison) -> Value {
    let row = |one: &Difference| json!({ "fate": one.fate.word(), "about": one.about, "says": one.says });
    let sections = comparison.sections().map(|(name, all)| (name.to_owned(), all.iter().map(row).collect::<Value>()));
    let mut told = json!({ "format": "boxwright-comparison", "version": 1, "old": files[0], "new": files[1], "parts-kept": comparison.kept });
    if let Some(told) = told.as_object_mut() {
        told.extend(sections);
    }
    told
}
