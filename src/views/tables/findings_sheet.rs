//! The sheet of checks, of findings and of accepted findings, with measured and required values and where limits come from; after
//! them the limits that the layout changes, and the revisions.

use crate::base::number::trimmed;
use crate::diagnostic::{Finding, Requirement};
use crate::drawing::Paper;
use crate::model::{LimitChange, Revision};
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::pages;
use crate::views::kit::words::sentence;
use crate::views::plan::legend::words;

/// Sheets for all findings; one that says so when there are none.
pub(in crate::views) fn sheets(
    paper: Paper,
    held: bool,
    checks: [Option<Flexible>; 2],
    findings: &[(usize, &Finding)],
    (limits, revisions): (&[LimitChange], &[Revision]),
) -> Vec<Draft> {
    let changed = (!limits.is_empty()).then(|| changed_limits(limits));
    let history = (!revisions.is_empty()).then(|| history(revisions));
    let [checks, cautions] = checks;
    let tables = checks.into_iter().chain([all(findings)]).chain(changed).chain(cautions).chain(history);
    pages::sheets(paper, held, "checks", "Checks", &tables.collect::<Vec<_>>(), 0)
}

/// The limits that the layout changes, with its reasons.
fn changed_limits(limits: &[LimitChange]) -> Flexible {
    let row = |change: &LimitChange| {
        vec![change.check.clone(), change.name.clone(), trimmed(change.value, 1), sentence(&change.because)]
    };
    let columns = [
        ("check", 32.0, false),
        ("limit", 32.0, false),
        ("value (mm, or the limit's unit)", 44.0, true),
        ("reason", -1.0, false),
    ];
    Flexible::new("Changed limits", &columns, limits.iter().map(row).collect())
}

/// The revisions, the current one last.
fn history(revisions: &[Revision]) -> Flexible {
    let row = |revision: &Revision| {
        let Revision { mark, note, date, by } = revision;
        [mark, note, date, by].map(Clone::clone).to_vec()
    };
    let columns =
        [("revision", 20.0, false), ("what changed", -1.0, false), ("date", 24.0, false), ("by", 40.0, false)];
    Flexible::new("Revisions", &columns, revisions.iter().map(row).collect())
}

fn all(findings: &[(usize, &Finding)]) -> Flexible {
    let numbers = findings.iter().map(|(number, _)| number);
    let links = numbers.map(|number| (format!("row-finding-{number}"), format!("finding-{number}")));
    let mut rows: Vec<Vec<String>> = findings.iter().map(|(number, finding)| row(*number, finding)).collect();
    if rows.is_empty() {
        rows.push(
            ["", "", "", "", "", "No findings: every check is satisfied", "", "", ""].map(str::to_owned).to_vec(),
        );
    }
    let columns = [
        ("no.", 9.0, true),
        ("kind", 17.0, false),
        ("check", 25.0, false),
        ("of", 32.0, false),
        ("in", 28.0, false),
        ("finding", -0.6, false),
        ("measured", 21.0, true),
        ("required", 21.0, true),
        ("source of the limit", -0.4, false),
    ];
    Flexible::new("Findings", &columns, rows).leading(links)
}

fn row(number: usize, finding: &Finding) -> Vec<String> {
    let required = finding.required.as_ref();
    let mut text = words(finding);
    let suggestion = finding.suggestion.as_ref().map(|suggestion| &suggestion.words);
    for advice in suggestion.into_iter().chain(&finding.help).filter(|_| finding.accepted.is_none()) {
        text = format!("{text}. {}", sentence(advice));
    }
    let arrangements = if finding.arrangements.is_empty() { "all".to_owned() } else { finding.arrangements.join(", ") };
    vec![
        number.to_string(),
        finding.kind().to_owned(),
        finding.key.check.to_string(),
        finding.key.subject.to_string(),
        arrangements,
        text,
        finding.measured.map(|measured| measured.to_string()).unwrap_or_default(),
        required.map(Requirement::short).unwrap_or_default(),
        required.map(Requirement::origin).unwrap_or_default(),
    ]
}
