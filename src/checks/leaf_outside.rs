//! Doors, hatches, awnings, steps and what else is outside, against each other.
//!
//! # Computes
//! For each leaf of an opening in a wall that swings out, hinged at the outer face and as thick as the wall: the angle to which it opens before
//! it meets a load outside, and before it meets another leaf that stands open. The worse of both directions counts for two
//! leaves. And for each door: how far out the nearest load stands that covers part of its clear hole; a load with `is: step` may
//! stand there. Leaves that slide, leaves of the vehicle itself, and an awning that is rolled out are not looked at.
//!
//! # Why
//! Two leaves that meet bend their hinges, and an awning on the wrong rail shuts the door for good.
//!
//! # Limit
//! `percent` 100 of the leaf's `opens`: less before a load is a fault, before another leaf a caution. `before` 600 mm free before a
//! door: less is a caution.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { leaf-outside: { percent: 80, because: "..." } }`; another `hinge`, another place for the load.

use super::check::{Check, Context, page_of};
use super::words::{area, judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::{LEAF_GAP, ROUNDING, SAME_LENGTH};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, Subject};
use crate::figures::around::Hinged;
use crate::figures::panel::clear;
use crate::geometry::{Axis, Box3, Leaf, Prism, common_bounds, overlap};
use crate::model::{Load, LoadKind, Model, Opening, OpeningKind, Wall};

/// The check `leaf-outside`.
pub struct LeafOutside;

const NAME: &str = "leaf-outside";

static LIMITS: [Limit; 2] = [
    Limit::practice("percent", Least(100.0), Quantity::Percent),
    Limit::practice("before", Least(600.0), Quantity::Length),
];

impl Check for LeafOutside {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "leaves and things outside that meet, and doors that something stands before"
    }

    fn manual(&self) -> String {
        page_of(include_str!("leaf_outside.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let leaves: Vec<Hinged<'_>> = model.openings.iter().flat_map(|one| Hinged::outside(model, one)).collect();
        let loads: Vec<(&Load, &Prism)> = model
            .loads
            .iter()
            .filter_map(|load| Some((load, load.room.as_ref()?)))
            .filter(|(_, room)| is_outside(model, room))
            .collect();
        let mut found = Vec::new();
        for (at, leaf) in leaves.iter().enumerate() {
            found.extend(loads.iter().filter_map(|(load, room)| at_load(context, leaf, load, room)));
            found.extend(leaves.iter().skip(at + 1).filter_map(|other| of_two(context, leaf, other)));
        }
        let doors = model.openings.iter().filter(|one| one.kind == OpeningKind::Door && !one.lies_flat());
        found.extend(doors.flat_map(|door| loads.iter().filter_map(|(load, room)| before(context, door, load, room))));
        with_tightest(found)
    }
}

/// Whether some of it is outside the box.
fn is_outside(model: &Model, room: &Prism) -> bool {
    let (bounds, space) = (room.bounds(), &model.space);
    bounds.x.0 < 0.0 || bounds.x.1 > space.length || bounds.y.0 < 0.0 || bounds.y.1 > space.width
}

/// How far a leaf opens with something in its way; `None` where that is not met.
fn reached(leaf: &Hinged<'_>, obstacle: &Prism) -> Option<f64> {
    common_bounds(&leaf.near(), &obstacle.bounds())?;
    let own = Leaf { length: (leaf.leaf.length - LEAF_GAP).max(0.0), ..leaf.leaf };
    own.stop(&obstacle.shadow(leaf.axis, leaf.along.0, leaf.along.1)).map(|stop| stop.angle)
}

/// How far a leaf should open.
fn wanted(context: &Context<'_>, leaf: &Hinged<'_>) -> f64 {
    leaf.leaf.opens.abs() * context.limits.value("percent") / 100.0
}

/// A leaf that stands open as far as it should.
fn open(context: &Context<'_>, leaf: &Hinged<'_>) -> Prism {
    let (low, high) = leaf.along;
    Prism { axis: leaf.axis, outline: leaf.leaf.outline(wanted(context, leaf)), low, high }
}

fn at_load(context: &Context<'_>, leaf: &Hinged<'_>, load: &Load, room: &Prism) -> Option<Finding> {
    let (angle, needed) = (reached(leaf, room)?, wanted(context, leaf));
    let message = format!(
        "{} opens {} degrees before it meets `{}`, {} are needed",
        leaf.says,
        trimmed(angle, 1),
        load.name,
        trimmed(needed, 1)
    );
    let required = context.limits.get("percent").of(needed, Quantity::Angle);
    let finding = judged(NAME, Severity::Fault, leaf.owner, (angle, required), message);
    let mut finding = finding.asks("percent").with_other(&load.name);
    finding.spans = leaf.spans.iter().copied().chain([load.span]).collect();
    finding.marks = vec![area(room.bounds().plan())];
    Some(finding)
}

fn of_two(context: &Context<'_>, one: &Hinged<'_>, other: &Hinged<'_>) -> Option<Finding> {
    let both = [(one, other), (other, one)].into_iter().filter_map(|(leaf, at)| {
        let angle = reached(leaf, &open(context, at))?;
        Some((angle, wanted(context, leaf), leaf, at))
    });
    let share = |angle: f64, needed: f64| angle / needed.max(f64::MIN_POSITIVE);
    let (angle, needed, leaf, at) =
        both.reduce(|a, b| if share(b.0, b.1) < share(a.0, a.1) - ROUNDING { b } else { a })?;
    let message = format!(
        "{} opens {} degrees while {} stands open, {} are needed",
        leaf.says,
        trimmed(angle, 1),
        at.says,
        trimmed(needed, 1)
    );
    let required = context.limits.get("percent").of(needed, Quantity::Angle);
    let subject = Subject::pair(one.owner, other.owner);
    let finding = judged(NAME, Severity::Caution, subject, (angle, required), message);
    let mut finding = finding.asks("percent").names("moved", &leaf.says).names("open", &at.says);
    finding.spans = [&leaf.spans[..], &at.spans[..]].concat();
    finding.marks = [leaf, at].map(|part| area(part.plan(wanted(context, part)).bounds())).into();
    Some(finding)
}

/// Something that stands before a door.
fn before(context: &Context<'_>, door: &Opening, load: &Load, room: &Prism) -> Option<Finding> {
    if load.kind == LoadKind::Step {
        return None;
    }
    let required = context.limits.get("before");
    let way = way_out(context.model, door, required.value());
    let shared = overlap(&way.into(), room).filter(|shared| {
        let (width, height) = match door.wall {
            Wall::Front | Wall::Rear => (shared.y, shared.z),
            _ => (shared.x, shared.z),
        };
        width.1 - width.0 > SAME_LENGTH && height.1 - height.0 > SAME_LENGTH
    })?;
    let out = match door.wall {
        Wall::Front => way.x.1 - shared.x.1,
        Wall::Rear => shared.x.0 - way.x.0,
        Wall::Left => way.y.1 - shared.y.1,
        _ => shared.y.0 - way.y.0,
    };
    let message =
        format!("`{}` stands {} before `{}`, {} is to be free", load.name, mm(out), door.name, mm(required.value()));
    let finding = judged(NAME, Severity::Caution, &door.name, (out, required), message);
    let mut finding = finding.asks("before").with_other(&load.name);
    finding.spans = vec![door.span, load.span];
    finding.marks = vec![area(shared.plan())];
    Some(finding)
}

/// The way out of a door, from the outer face of its wall.
fn way_out(model: &Model, door: &Opening, far: f64) -> Box3 {
    let (hole, wall) = (clear(door), model.space.walls.thickness);
    let (long, wide) = (model.space.length + wall, model.space.width + wall);
    let (along, z) = ((hole.x0, hole.x1), (hole.y0, hole.y1));
    match door.wall {
        Wall::Front => Box3 { x: (-wall - far, -wall), y: along, z },
        Wall::Rear => Box3 { x: (long, long + far), y: along, z },
        Wall::Left => Box3 { x: along, y: (-wall - far, -wall), z },
        _ => Box3 { x: along, y: (wide, wide + far), z },
    }
    .with(Axis::Z, z)
}

#[cfg(test)]
mod tests;
