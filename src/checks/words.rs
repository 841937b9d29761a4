//! Words and marks that several checks use: directions, sizes, rectangles.

use super::check::Context;
use crate::base::number::trimmed;
use crate::diagnostic::{Finding, Mark, Measure, Quantity, Requirement, Severity, Subject};
use crate::geometry::{Axis, Box3};
use crate::joinery::{Stand, stand, standing};
use crate::model::{Module, Part};
use kurbo::{Rect, Shape};

/// The direction of a move along an axis: "to the rear", "down".
pub(super) fn direction(axis: Axis, up: bool) -> &'static str {
    match (axis, up) {
        (Axis::X, true) => "to the rear",
        (Axis::X, false) => "to the front",
        (Axis::Y, true) => "to the right",
        (Axis::Y, false) => "to the left",
        (Axis::Z, true) => "up",
        (Axis::Z, false) => "down",
    }
}

/// A box as length x width x height: `120 x 40 x 300 mm`.
pub(super) fn size(of: &Box3) -> String {
    let side = |range: (f64, f64)| trimmed(range.1 - range.0, 1);
    format!("{} x {} x {} mm", side(of.x), side(of.y), side(of.z))
}

/// A part as messages name it, with where its pieces stand in the module if another part has its name:
/// `` `door` (left 466.7, front 0, up 0) ``.
pub(super) fn named(module: &Module, part: &Part) -> String {
    let stands: Vec<Stand> = part.places.iter().map(|place| stand(module, &place.bounds())).collect();
    let alike = module.parts.iter().filter(|other| other.name == part.name).count();
    if alike < 2 || stands.is_empty() {
        return format!("`{}`", part.name);
    }
    format!("`{}` ({})", part.name, standing(&stands))
}

/// A rectangle in plan, marked.
pub(super) fn area(rect: Rect) -> Mark {
    Mark::Area(rect.to_path(0.1))
}

/// All findings but those that are met, and of these the tightest: the one whose measure is nearest to its requirement, as a
/// share of it.
pub(super) fn with_tightest(findings: impl IntoIterator<Item = Finding>) -> Vec<Finding> {
    let (met, mut others): (Vec<Finding>, Vec<Finding>) =
        findings.into_iter().partition(|finding| finding.severity == Severity::Met);
    let spare = |finding: &Finding| match (&finding.measured, &finding.required) {
        (Some(measured), Some(required)) => required.spare(measured.value),
        _ => f64::INFINITY,
    };
    others.extend(met.into_iter().min_by(|a, b| spare(a).total_cmp(&spare(b))));
    others
}

/// Whether the ways to the standing spaces of a finding's module surely are narrower than it wants, in any arrangement.
pub(super) fn stays_narrow(context: &Context<'_>, before: &Finding) -> bool {
    let (Some(required), Subject::One(subject)) = (&before.required, &before.key.subject) else { return false };
    context.arrangements().iter().any(|one| context.floor(one).shut_off(subject, required.value()))
}

/// A measured length.
pub(super) fn length(mm: f64) -> Option<Measure> {
    Some(Measure { value: mm, quantity: Quantity::Length })
}

/// A figure against its requirement: met, or a finding of the severity.
pub(super) fn judged(
    check: &'static str,
    severity: Severity,
    subject: impl Into<Subject>,
    (value, required): (f64, Requirement),
    message: String,
) -> Finding {
    let severity = if required.holds(value) { Severity::Met } else { severity };
    let mut finding = Finding::new(check, severity, subject, message);
    finding.measured = Some(Measure { value, quantity: required.quantity });
    finding.required = Some(required);
    finding
}
