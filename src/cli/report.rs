//! What a compile has found out, in text for people and in JSON for programs.

use super::arguments::Detail;
use super::console::Console;
use crate::backends::{Found, Report, Rule, sarif_log};
use crate::checks::Check;
use crate::compile::Compiled;
use crate::diagnostic::wire::json_text;
use crate::diagnostic::{Counts, Finding, Severity, report};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Prints errors, findings and one line that sums them up.
pub(super) fn text(file: &str, compiled: &Compiled, detail: Detail, console: &mut Console) -> io::Result<()> {
    if compiled.model.is_none() {
        return refused(file, compiled, console);
    }
    told(compiled, console)?;
    let shown = |one: &&Finding| shown(one, detail, console.quiet);
    let (findings, sources) = (compiled.findings.iter().filter(shown), &compiled.sources);
    let found = match detail.full {
        true => report::findings(findings, sources, console.colour),
        false => report::lines(findings, sources, console.colour),
    };
    console.report(&found)?;
    let draft = match compiled.errors.is_empty() {
        true => String::new(),
        false => format!("a draft with {}; ", errors(compiled)),
    };
    console.say(&format!("{file}: {draft}{}", summary(&compiled.findings)))
}

/// Prints the errors.
fn told(compiled: &Compiled, console: &mut Console) -> io::Result<()> {
    console.report(&report::errors(&compiled.errors, &compiled.sources, console.colour))
}

/// Prints the errors of a layout that does not compile.
pub(super) fn refused(file: &str, compiled: &Compiled, console: &mut Console) -> io::Result<()> {
    told(compiled, console)?;
    console.say(&format!("{file}: does not compile, {}", errors(compiled)))
}

/// Prints what holds the drawings: errors, and faults, one line each.
pub(super) fn held(compiled: &Compiled, console: &mut Console) -> io::Result<()> {
    told(compiled, console)?;
    let faults = compiled.findings.iter().filter(|one| one.is_open_fault());
    console.report(&report::lines(faults, &compiled.sources, console.colour))
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
pub(super) fn sarif(layouts: &[Checked]) -> String {
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
    let mut checks: Vec<&Arc<dyn Check>> = Vec::new();
    for check in layouts.iter().flat_map(|one| &one.compiled.registry.checks) {
        if checks.iter().all(|known| known.name() != check.name()) {
            checks.push(check);
        }
    }
    let rules: Vec<Rule> = checks.into_iter().map(rule).collect();
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

/// Requirements that are met are for the record, notes are asked for; a quiet report has faults only.
fn shown(finding: &Finding, detail: Detail, quiet: bool) -> bool {
    let all = detail.full || detail.notes;
    match finding.severity {
        _ if quiet => finding.is_open_fault(),
        Severity::Met => false,
        Severity::Note => all || finding.is_of_idle_entry(),
        Severity::Fault | Severity::Caution => all || finding.accepted.is_none(),
    }
}

/// "held by 2 faults (swing, walkway); 1 caution, 3 notes".
fn summary(findings: &[Finding]) -> String {
    let faults: Vec<&Finding> = findings.iter().filter(|one| one.is_open_fault()).collect();
    let first = match faults.len() {
        0 => "no fault".to_owned(),
        number => {
            format!("held by {} ({})", count(number, "fault"), report::by_check(faults.iter().copied()))
        }
    };
    let rest = beside_faults(findings);
    if rest.is_empty() { first } else { format!("{first}; {rest}") }
}

/// "1 caution, 3 notes, 1 accepted".
pub(super) fn beside_faults(findings: &[Finding]) -> String {
    let Counts { cautions, notes, accepted, .. } = Counts::of(findings);
    let counted = [(cautions, "caution"), (notes, "note")];
    let told = counted.iter().filter(|(number, _)| *number > 0).map(|(number, word)| count(*number, word));
    let accepted = (accepted > 0).then(|| format!("{accepted} accepted"));
    told.chain(accepted).collect::<Vec<_>>().join(", ")
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
        assert_eq!(summary(&mixed), "held by 1 fault (walkway); 2 notes");
        let mixed = [one(Severity::Fault, None), one(Severity::Fault, None), one(Severity::Caution, None)];
        assert_eq!(summary(&mixed), "held by 2 faults (walkway (2)); 1 caution");
        assert_eq!(summary(&[one(Severity::Fault, Some("why"))]), "no fault; 1 accepted");
    }

    #[test]
    fn notes_are_counted_unless_they_are_asked_for() {
        let of = |severity| Finding::new("walkway", severity, "a", "b");
        let accepted = Finding { accepted: Some("why".to_owned()), ..of(Severity::Fault) };
        let all = [of(Severity::Fault), of(Severity::Caution), of(Severity::Note), of(Severity::Met), accepted];
        let told = |detail, quiet| all.iter().map(|one| shown(one, detail, quiet)).collect::<Vec<_>>();
        let detail = |full, notes| Detail { full, notes };
        assert_eq!(told(detail(false, false), false), [true, true, false, false, false]);
        assert_eq!(told(detail(false, true), false), [true, true, true, false, true]);
        assert_eq!(told(detail(true, false), false), [true, true, true, false, true]);
        assert_eq!(told(detail(true, true), true), [true, false, false, false, false]);
        assert!(shown(&of(Severity::Note).of_acceptance(), detail(false, false), false));
    }
}
