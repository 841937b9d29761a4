//! The table of every check that was run: its result, its tightest or worst place, and where its limit comes from.

use crate::diagnostic::Ran;
use crate::diagnostic::{Counts, Finding, Requirement, Severity, SourceClass};
use crate::views::kit::flexible::Flexible;
use crate::views::kit::words::sentence;

/// One row for each check.
pub(in crate::views) fn checks(checks: &[Ran], findings: &[Finding]) -> Flexible {
    let rows = checks.iter().map(|ran| {
        let own: Vec<&Finding> = findings.iter().filter(|finding| finding.key.check == ran.name).collect();
        row(ran, &own)
    });
    let columns = [
        ("check", 27.0, false),
        ("looks at", -0.45, false),
        ("result", 34.0, false),
        ("at", 38.0, false),
        ("in", 26.0, false),
        ("measured", 20.0, true),
        ("required", 20.0, true),
        ("source of the limit", -0.4, false),
    ];
    Flexible::new("Checks", &columns, rows.collect())
}

/// What results on safety are worth, one row for each check that says so.
pub(in crate::views) fn cautions(checks: &[Ran]) -> Option<Flexible> {
    let rows = checks.iter().filter_map(|ran| ran.caution.as_ref().map(|says| vec![ran.name.clone(), sentence(says)]));
    let rows: Vec<Vec<String>> = rows.collect();
    let columns = [("check", 27.0, false), ("caution", -1.0, false)];
    (!rows.is_empty()).then(|| Flexible::new("Cautions", &columns, rows))
}

fn row(ran: &Ran, findings: &[&Finding]) -> Vec<String> {
    let worst = worst(findings);
    let first = || ran.limits.iter().next().map(|(_, required)| required);
    let required = worst.and_then(|finding| finding.required.as_ref()).or_else(first);
    let arrangements = |finding: &Finding| match finding.arrangements.as_slice() {
        [] => "all".to_owned(),
        names => names.join(", "),
    };
    vec![
        ran.name.clone(),
        sentence(&ran.says),
        result(findings),
        worst.map(|finding| finding.key.subject.to_string()).unwrap_or_default(),
        worst.map(arrangements).unwrap_or_default(),
        worst.and_then(|finding| finding.measured).map(|measured| measured.to_string()).unwrap_or_default(),
        required.map(Requirement::short).unwrap_or_default(),
        required.map_or_else(|| SourceClass::Geometry.words().to_owned(), Requirement::origin),
    ]
}

/// The finding that the row shows: the gravest with a figure, else the tightest place that is met.
fn worst<'a>(findings: &[&'a Finding]) -> Option<&'a Finding> {
    let tells = |finding: &&&Finding| finding.measured.is_some() && finding.required.is_some();
    let grave = findings.iter().filter(|finding| finding.severity < Severity::Note);
    let first = grave.clone().filter(tells).chain(grave).next();
    first.or_else(|| findings.iter().find(tells)).copied()
}

/// "2 faults, 1 accepted", or that all is well.
fn result(findings: &[&Finding]) -> String {
    let Counts { faults, cautions, accepted, .. } = Counts::of(findings.iter().copied());
    let counted = [(faults, "fault", "faults"), (cautions, "caution", "cautions"), (accepted, "accepted", "accepted")];
    let parts: Vec<String> = counted
        .iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many)| format!("{count} {}", if *count == 1 { one } else { many }))
        .collect();
    if parts.is_empty() { "met".to_owned() } else { parts.join(", ") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn finding(severity: Severity, accepted: Option<&str>) -> Finding {
        let mut finding = Finding::new("walkway", severity, "entry to bed", "narrow");
        finding.accepted = accepted.map(str::to_owned);
        finding
    }

    #[test]
    fn results_are_counted() {
        let all = [
            finding(Severity::Fault, None),
            finding(Severity::Fault, None),
            finding(Severity::Caution, Some("why")),
            finding(Severity::Note, None),
        ];
        assert_eq!(result(&all.iter().collect::<Vec<_>>()), "2 faults, 1 accepted");
        assert_eq!(result(&[&all[3]]), "met");
    }
}
