//! Findings that are new, gone, or have another figure.

use super::difference::{Difference, Fate};
use serde_json::Value;

/// Which finding it is: check, subject, and what tells it from others on the subject.
fn key(finding: &Value) -> String {
    let of = |key: &str| finding.get(key).map(Value::to_string).unwrap_or_default();
    format!("{} {} {} {}", of("check"), of("subject"), of("about"), of("arrangements"))
}

fn word<'a>(finding: &'a Value, key: &str) -> &'a str {
    finding.get(key).and_then(Value::as_str).unwrap_or_default()
}

fn about(finding: &Value) -> String {
    let arrangements = finding.get("arrangements").and_then(Value::as_array).into_iter().flatten();
    let names: Vec<&str> = arrangements.filter_map(Value::as_str).collect();
    let holds_in = if names.is_empty() { String::new() } else { format!(" ({})", names.join(", ")) };
    format!("{} of {}{holds_in}", word(finding, "check"), word(finding, "subject"))
}

fn says(finding: &Value) -> String {
    let accepted = if finding.get("accepted").is_some_and(|why| !why.is_null()) { "accepted " } else { "" };
    format!("{accepted}{}: {}", word(finding, "severity"), word(finding, "message"))
}

/// What is met is no finding for people.
fn told(finding: &&Value) -> bool {
    word(finding, "severity") != "met"
}

pub(super) fn findings(old: &[Value], new: &[Value]) -> Vec<Difference> {
    let mut left: Vec<&Value> = new.iter().filter(told).collect();
    let mut found = Vec::new();
    for was in old.iter().filter(told) {
        let same = left.iter().position(|is| key(is) == key(was));
        match same.map(|at| left.remove(at)) {
            None => found.push(Difference::new(Fate::Gone, about(was), says(was))),
            Some(is) if says(is) == says(was) => {}
            Some(is) => {
                found.push(Difference::new(Fate::Changed, about(is), format!("{}, was {}", says(is), says(was))))
            }
        }
    }
    found.extend(left.into_iter().map(|is| Difference::new(Fate::New, about(is), says(is))));
    found.sort_by_key(|one| one.fate);
    found
}
