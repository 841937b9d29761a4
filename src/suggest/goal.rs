//! What counts as cleared: the finding is gone, nothing of its kind has come in its place, and nothing else is worse.
//!
//! Findings are the same when their keys are, whatever their words and figures.

use crate::base::tolerance::{SAME_LENGTH, WAY_WIDTH};
use crate::diagnostic::{Finding, Severity};

/// What a trial has come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// The finding is gone.
    Cleared,
    /// It was a fault and is a caution now.
    Softened,
    /// It is still there.
    Open,
    /// It is still there with the same figure.
    Unmoved,
    /// It is there and misses its limit by more.
    Worse,
    /// The layout does not compile so.
    Refused,
}

/// What one finding's changes have to reach.
pub(super) struct Goal<'a> {
    pub finding: &'a Finding,
    /// What the layout has of the same check and subject.
    before: Vec<&'a Finding>,
}

impl<'a> Goal<'a> {
    pub fn new(finding: &'a Finding, all: &'a [Finding]) -> Self {
        let before = all.iter().filter(|other| concerns(other, finding)).collect();
        Self { finding, before }
    }

    /// The arrangements that the finding holds in, whatever its figures there; empty if it does not depend on them.
    pub fn arrangements(&self) -> Vec<&'a str> {
        let same: Vec<&&Finding> = self.before.iter().filter(|known| known.key == self.finding.key).collect();
        if same.iter().any(|known| known.arrangements.is_empty()) {
            return Vec::new();
        }
        same.iter().flat_map(|known| known.arrangements.iter().map(String::as_str)).collect()
    }

    /// Looks for the finding among those of a trial; of its own check, or of all.
    pub fn outcome(&self, after: &[Finding]) -> Outcome {
        let there: Vec<&Finding> = after.iter().filter(|other| concerns(other, self.finding)).collect();
        let strange = |other: &Finding| !self.before.iter().any(|known| known.key == other.key);
        let left: Vec<&Finding> =
            there.into_iter().filter(|other| other.key == self.finding.key || strange(other)).collect();
        if left.is_empty() {
            return Outcome::Cleared;
        }
        if self.finding.severity == Severity::Fault && left.iter().all(|other| other.severity != Severity::Fault) {
            return Outcome::Softened;
        }
        let same = self.before.iter().filter(|known| known.key == self.finding.key);
        let most = same.map(|known| miss(known)).fold(0.0, f64::max);
        let now = left.iter().map(|other| miss(other)).fold(0.0, f64::max);
        match now - most {
            more if more > WAY_WIDTH => Outcome::Worse,
            more if more.abs() <= SAME_LENGTH => Outcome::Unmoved,
            _ => Outcome::Open,
        }
    }

    /// Whether nothing else is worse than before: no new fault, no fault that misses its limit by more, and, for a
    /// caution, no new caution.
    pub fn nothing_worse(&self, before: &[Finding], after: &[Finding]) -> bool {
        let kept = |known: &Finding, other: &Finding| {
            known.severity <= other.severity && known.key == other.key && miss(other) <= miss(known) + WAY_WIDTH
        };
        let counts = |other: &&Finding| {
            let grave = other.severity <= self.finding.severity.min(Severity::Caution);
            other.accepted.is_none() && grave && other.key != self.finding.key
        };
        after.iter().filter(counts).all(|other| before.iter().any(|known| kept(known, other)))
    }
}

/// Whether a finding is open and about the same thing.
fn concerns(other: &Finding, finding: &Finding) -> bool {
    other.key.check == finding.key.check
        && other.key.subject == finding.key.subject
        && other.severity < Severity::Note
        && other.accepted.is_none()
}

/// By how much a finding misses its limit, in the limit's unit.
pub(super) fn miss(finding: &Finding) -> f64 {
    match (&finding.measured, &finding.required) {
        (Some(measured), Some(required)) => required.miss(measured.value),
        _ => 0.0,
    }
}
