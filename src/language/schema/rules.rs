//! The schemas of house rules: in layouts, and in files of their own.

use super::keys::{Keys, at_most, by_name, document, named, named_some, words};
use crate::language::lower_layout::{MOST_LIMITS, SEVERITIES};
use serde_json::{Value, json};

/// The schema of a file of house rules, JSON Schema 2020-12.
#[must_use]
pub fn rules_schema() -> Value {
    let file = Keys::of("A file of house rules")
        .need("house-rules", "Version of house rules", json!({ "const": 1 }))
        .opt("rules", "", named(by_name("rule")));
    document("House rules", "Rules that several layouts name", file.closed(), vec![("rule", rule())])
}

/// One rule.
pub(super) fn rule() -> Value {
    let text = |says: &str| json!({ "description": says, "type": "string", "pattern": "\\S" });
    Keys::of("A house rule")
        .need("each", "What it is about", text("Kinds of things with names: `module m where m.height > 900`"))
        .need("needs", "The condition", by_name("condition"))
        .need("says", "What is said of what misses it; expressions in braces", by_name("text"))
        .need("because", "Whose rule it is, and why", by_name("text"))
        .opt("severity", "How grave what misses it is; `fault` if left out", words(&SEVERITIES))
        .opt("limits", "Figures that a layout may change", at_most(MOST_LIMITS, named_some(by_name("number"))))
        .closed()
}
