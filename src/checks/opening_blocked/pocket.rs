//! Whether a leaf that slides inside finds room beside its opening.

use super::super::check::Context;
use super::super::words::{area, length};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::{Finding, Requirement, Severity};
use crate::figures::panel::{Before, before, named, room};
use crate::model::{Arrangement, Opening, Swings, Wall};

/// The check's name.
pub(super) const NAME: &str = "opening-blocked";
/// How far a leaf that slides inside stands out of its wall, mm; common practice, no source.
const LEAF: f64 = 40.0;

/// What stands where the leaf goes, or that the wall is shorter than its way.
pub(super) fn pocket(context: &Context<'_>, arrangement: &Arrangement, opening: &Opening) -> Option<Finding> {
    let (hole, open) = (opening.hole(), opening.slid()?);
    if opening.swings != Swings::In {
        return None;
    }
    let travel = (open.x0 - hole.x0).abs();
    let swept = hole.union(open);
    let space = &context.model.space;
    let end = if matches!(opening.wall, Wall::Front | Wall::Rear) { space.width } else { space.length };
    let past = (-open.x0).max(open.x1 - end).max(0.0);
    let things = before(context.model, arrangement, opening, swept, LEAF);
    let onward = open.x0 > hole.x0;
    let taken = |before: &Before| {
        let bounds = before.shadow.iter().map(crate::geometry::Polygon::bounds).reduce(|a, b| a.union(b));
        bounds.map_or(0.0, |rect| if onward { swept.x1 - rect.x0 } else { rect.x1 - swept.x0 }.clamp(0.0, travel))
    };
    let most = things.iter().map(taken).fold(past, f64::max);
    if most <= SAME_LENGTH {
        return None;
    }
    let what = if things.is_empty() { "the end of the wall".to_owned() } else { named(&things) };
    let free = travel - most;
    let message =
        format!("the leaf of `{}` slides {} of {} before it meets {what}", opening.name, mm(free), mm(travel));
    let mut finding = Finding::new(NAME, Severity::Fault, &opening.name, message).asks("leaf").names("meets", what);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(most);
    finding.required = Some(Requirement::nothing());
    finding.spans = vec![opening.span];
    finding.spans.extend(things.iter().filter_map(|before| before.thing.span));
    finding.marks = vec![area(room(context.model, opening, swept, LEAF).plan())];
    Some(finding)
}
