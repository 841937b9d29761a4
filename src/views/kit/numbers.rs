//! One number for each finding, the same on every sheet: faults first, accepted ones last.

use crate::diagnostic::{Finding, Severity};
use crate::model::Arrangement;

/// Findings with their numbers, from 1; what is met has none.
pub(in crate::views) fn numbered(findings: &[Finding]) -> Vec<(usize, &Finding)> {
    let mut ordered: Vec<&Finding> = findings.iter().filter(|finding| finding.severity != Severity::Met).collect();
    ordered.sort_by_key(|finding| (finding.accepted.is_some(), finding.severity));
    ordered.into_iter().enumerate().map(|(index, finding)| (index + 1, finding)).collect()
}

/// It holds in an arrangement, or in all.
pub(in crate::views) fn holds_in(finding: &Finding, arrangement: &Arrangement) -> bool {
    finding.arrangements.is_empty() || finding.arrangements.contains(&arrangement.name)
}
