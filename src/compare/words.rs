//! A comparison in words, for people.

use super::difference::{Comparison, Difference};
use std::fmt::Write;

/// Who reads which section, and what it is called.
fn heading(section: &str) -> &'static str {
    match section {
        "findings" => "findings (designer)",
        "masses" => "load cases (designer)",
        "modules" => "modules (fitter)",
        "openings" => "openings (shell maker)",
        "inserts" => "inserts (shell maker)",
        "parts" => "parts (joiner)",
        "renumbered" => "parts that are the same under another number (joiner)",
        "bought" => "to buy",
        _ => "other values",
    }
}

/// The report: sections with something in them, a line for each difference.
#[must_use]
pub fn text(files: [&str; 2], comparison: &Comparison) -> String {
    let mut told = format!("{} -> {}\n", files[0], files[1]);
    if comparison.is_empty() {
        return told + "nothing differs\n";
    }
    for (section, all) in comparison.sections() {
        let lines: Vec<String> = lines(all);
        if !lines.is_empty() {
            let _ = writeln!(told, "\n{}", heading(section));
            lines.iter().for_each(|line| _ = writeln!(told, "  {line}"));
        }
    }
    let _ = writeln!(told, "\n{} pieces stay as they are", comparison.kept);
    told
}

/// A line each; what only follows from something else is left out.
fn lines(all: &[Difference]) -> Vec<String> {
    let line = |one: &Difference| {
        let says = if one.says.is_empty() { String::new() } else { format!(": {}", one.says) };
        format!("{} {}{says}", one.fate.word(), one.about)
    };
    all.iter().filter(|one| one.says != "follows").map(line).collect()
}
