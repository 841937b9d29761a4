//! What a compile has found out, in text for people and in JSON for programs.

use super::console::Console;
use crate::backends::{Found, Report, Rule, sarif_log};
use crate::checks::Check;
use crate::compile::Compiled;
use crate::diagnostic::wire::json_text;
use crate::diagnostic::{Counts, Finding, Severity, report};
use crate::registry::Registry;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Prints errors, findings and one line that sums them up.
pub(super) fn text(file: &str, compiled: &Compiled, console: &mut Console) -> io::Result<()> {
    if compiled.model.is_none() {
        console.report(&report::errors(&compiled.errors, &compiled.sources, console.colour))?;
        return console.say(&format!("{file}: does not compile, {}", errors(compiled)));
    }
    let quiet = console.quiet;
    let shown: Vec<Finding> = compiled.findings.iter().filter(|one| shown(one, quiet)).cloned().collect();
    console.report(&report::findings(&shown, &compiled.sources, console.colour))?;
    console.say(&format!("{file}: {}", summary(&compiled.findings)))
}

/// A layout that was checked for a report to programs.
pub(super) struct Checked {
    /// Name of its file in its folder.
    pub file: String,
    /// The folder.
    pub home: PathBuf,
    pub compiled: Compiled,
}

/// All layouts in one JSON list, each as in `findings.json` but named by its file.
pub(super) fn json(layouts: &[Checked]) -> String {
    json_text(&layouts.iter().map(|one| Report::new(&one.file, found(&one.compiled))).collect::<Vec<_>>())
}

/// All layouts in one SARIF log.
pub(super) fn sarif(layouts: &[Checked], registry: &Registry) -> String {
    let mut homes: Vec<&Path> = Vec::new();
    for one in layouts.iter().map(|one| one.home.as_path()) {
        if !homes.contains(&one) {
            homes.push(one);
        }
    }
    let home = |one: &Checked| homes.iter().position(|home| *home == one.home).unwrap_or_default();
    let rule = |check: &Arc<dyn Check>| Rule {
        name: check.name().to_owned(),
        says: check.says().to_owned(),
        page: check.manual(),
    };
    let rules: Vec<Rule> = registry.checks.iter().map(rule).collect();
    sarif_log(&rules, &layouts.iter().map(|one| (home(one), found(&one.compiled))).collect::<Vec<_>>())
}

fn found(one: &Compiled) -> Found<'_> {
    let Compiled { sources, errors, model, checks, findings, .. } = one;
    Found { errors: (errors.errors(), errors.dropped()), model: model.as_ref(), checks, findings, sources }
}

fn errors(compiled: &Compiled) -> String {
    let dropped = match compiled.errors.dropped() {
        0 => String::new(),
        dropped => format!(" shown and {dropped} more"),
    };
    format!("{}{dropped}", count(compiled.errors.errors().len(), "error"))
}

/// Requirements that are met are for the record; a quiet report has faults only.
fn shown(finding: &Finding, quiet: bool) -> bool {
    if quiet { finding.is_open_fault() } else { finding.severity != Severity::Met }
}

fn summary(findings: &[Finding]) -> String {
    let Counts { faults, cautions, notes, accepted, .. } = Counts::of(findings);
    let counted = [(faults, "fault"), (cautions, "caution"), (notes, "note")];
    let mut parts: Vec<String> =
        counted.iter().filter(|(number, _)| *number > 0).map(|(number, word)| count(*number, word)).collect();
    if faults == 0 {
        parts.insert(0, "no fault".to_owned());
    }
    if accepted > 0 {
        parts.push(format!("{accepted} accepted"));
    }
    parts.join(", ")
}

/// `1 file`, `2 files`.
pub(super) fn count(number: usize, word: &str) -> String {
    if number == 1 { format!("1 {word}") } else { format!("{number} {word}s") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn findings_are_counted() {
        let one = |severity, accepted: Option<&str>| {
            let mut finding = Finding::new("walkway", severity, "a", "b");
            finding.accepted = accepted.map(str::to_owned);
            finding
        };
        assert_eq!(summary(&[]), "no fault");
        let mixed = [one(Severity::Fault, None), one(Severity::Note, None), one(Severity::Note, None)];
        assert_eq!(summary(&mixed), "1 fault, 2 notes");
        assert_eq!(summary(&[one(Severity::Fault, Some("why"))]), "no fault, 1 accepted");
    }
}
