//! Door sills that are stepped over, and doors that are stooped through.
//!
//! # Computes
//! For each door in every arrangement: how far its clear sill (with the lining) lies above the highest surface before it
//! that people get up to. Surfaces are the floor and the tops of solids no higher than the sill; each is gone up to from the
//! one below it by no more than the limit. A surface lies before the door if it covers 300 mm of its width, or all of a
//! narrower one, and 150 mm of the 300 mm before it; steps on the way may stand up to 1,000 mm before it. And the clear height
//! of the door. What is outside is not looked at.
//!
//! # Why
//! A high sill is a fall in the dark, and a low head costs the head.
//!
//! # Limit
//! `step` 230 mm: more to step over is a caution. `height` 1,500 mm of clear height, in a low room `below` 250 mm less than its
//! highest lining, where that is less: lower is a caution.
//!
//! # Source
//! `step`: a bus step is at most 230 mm high (Québec, C-24.2 r. 51 s. 43, as read), which is taken for a sill too. `height`, `below`:
//! common practice, no source.
//!
//! # Change it
//! `limits: { sill-step: { step: 300, because: "..." } }`; put a step (a module such as `build/step-well`) before the door.

use super::check::{Check, Context, page_of};
use super::words::{area, judged, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Severity, SourceClass};
use crate::figures::panel::{clear, room};
use crate::geometry::Axis;
use crate::model::{Arrangement, Opening, OpeningKind, Wall};
use kurbo::Rect;

/// The check `sill-step`.
pub struct SillStep;

const NAME: &str = "sill-step";
/// A surface this near to the door is stepped from, mm; common practice, no source.
const NEAR: f64 = 300.0;
/// Steps on the way to it stand this near, mm; common practice, no source.
const ON_THE_WAY: f64 = 1000.0;
/// Room for a foot: along the wall, and out from it, mm; common practice, no source.
const FOOT: (f64, f64) = (300.0, 150.0);

static LIMITS: [Limit; 3] = [
    Limit::new(
        "step",
        Most(230.0),
        Quantity::Length,
        SourceClass::Published,
        "step of a bus: Québec, C-24.2 r. 51 s. 43",
    ),
    Limit::practice("height", Least(1500.0), Quantity::Length),
    Limit::practice("below", Least(250.0), Quantity::Length),
];

impl Check for SillStep {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "what is stepped over at a door, and its clear height"
    }

    fn manual(&self) -> String {
        page_of(include_str!("sill_step.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let doors = || {
            let openings = context.model.openings.iter();
            openings.filter(|opening| opening.kind == OpeningKind::Door && !opening.lies_flat())
        };
        let arrangements = context.arrangements().iter();
        let steps = arrangements.flat_map(|one| doors().map(move |door| step(context, one, door)));
        with_tightest(steps.chain(doors().map(|door| height(context, door))))
    }
}

/// What of a solid's top lies before a door, within a reach: along the wall, and out from it.
fn before(context: &Context<'_>, door: &Opening, top: Rect, reach: f64) -> (f64, f64) {
    let shared = room(context.model, door, clear(door), reach).plan().intersect(top);
    let across = matches!(door.wall, Wall::Front | Wall::Rear);
    let (x, y) = (shared.width().max(0.0), shared.height().max(0.0));
    if across { (y, x) } else { (x, y) }
}

fn step(context: &Context<'_>, arrangement: &Arrangement, door: &Opening) -> Finding {
    let (hole, required) = (clear(door), context.limits.get("step"));
    let mut tops: Vec<(f64, bool)> = Vec::new();
    let near = room(context.model, door, hole, ON_THE_WAY).with(Axis::Z, (0.0, hole.y1));
    for (_, solid) in context.model.solids_near(arrangement, near) {
        let bounds = solid.prism.bounds();
        let wide = |reach| {
            let (along, out) = before(context, door, bounds.plan(), reach);
            along + SAME_LENGTH >= FOOT.0.min(hole.width()) && out + SAME_LENGTH >= FOOT.1
        };
        if bounds.z.1 <= hole.y0 + SAME_LENGTH && wide(ON_THE_WAY) {
            tops.push((bounds.z.1, wide(NEAR)));
        }
    }
    tops.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut level, mut from) = (0.0, 0.0);
    for (top, near) in tops {
        if required.holds(top - level) {
            level = top;
            from = if near { top } else { from };
        }
    }
    let rise = (hole.y0 - from).max(0.0);
    let onto = if from > 0.0 { format!("the step of {} before it", mm(from)) } else { "the floor".to_owned() };
    let message =
        format!("the sill of `{}` is {} above {onto}, of {} at most", door.name, mm(rise), mm(required.value()));
    let finding = judged(NAME, Severity::Caution, &door.name, (rise, required), message);
    let mut finding = finding.asks("step").figure("from", from, Quantity::Length);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.spans = vec![door.span];
    finding.marks = vec![area(room(context.model, door, hole, NEAR).plan())];
    finding
}

fn height(context: &Context<'_>, door: &Opening) -> Finding {
    let roof = context.model.space.roof.chain();
    let lining = roof.iter().map(|point| point.y).fold(context.model.space.height, f64::max);
    let (usual, below) = (context.limits.get("height"), context.limits.value("below"));
    let needed = usual.value().min((lining - below).max(0.0));
    let hole = clear(door);
    let message = format!(
        "`{}` is {} high clear, {} is needed to get through stooping",
        door.name,
        mm(hole.height()),
        mm(needed)
    );
    let finding = judged(NAME, Severity::Caution, &door.name, (hole.height(), usual.at(needed)), message);
    let mut finding = finding.asks("height");
    finding.spans = vec![door.span];
    finding.marks = vec![area(room(context.model, door, hole, NEAR).plan())];
    finding
}

#[cfg(test)]
mod tests;
