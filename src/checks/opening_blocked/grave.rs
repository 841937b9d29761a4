//! How grave it is that something stands before an opening.

use crate::diagnostic::Severity;
use crate::model::{Opening, OpeningKind};

/// A hatch at least so wide and so high is a pair of a van's doors: a bed or a shelf may stand behind half of it, mm; common
/// practice, no source.
const DOORS: f64 = 1000.0;

/// How grave it is that so much of an opening is covered.
pub(super) fn severity(opening: &Opening, cut: bool, share: f64) -> Severity {
    let hole = opening.hole();
    match opening.kind {
        _ if opening.escape || cut => Severity::Fault,
        OpeningKind::Window | OpeningKind::RoofHatch => Severity::Caution,
        OpeningKind::Hatch if hole.width().min(hole.height()) >= DOORS && share <= 0.5 => Severity::Note,
        _ => Severity::Fault,
    }
}
