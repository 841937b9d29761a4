//! What a designer would do, and what not, to clear a finding: changes that break the rule are not tried further. The
//! rule in words is in `DEVELOPERS.md`.

use super::candidate::Candidate;
use super::slot::Group;
use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Axis, Box3};
use crate::language::expression::ExprKind;
use crate::model::{Model, OpeningKind};

/// A size or a setting may become this part of what it was, and as much the other way.
const SHRINK: f64 = 0.5;

/// Whether a designer would make a change that turns one layout into another.
pub(super) fn would_do(candidate: &Candidate, step: f64, before: &Model, after: &Model) -> bool {
    keeps_its_size(candidate, step)
        && leaves_the_given(before, after)
        && stays_inside(candidate, before, after)
        && comes_into_range(candidate, after)
}

/// What is out of its symbol's range is not left there.
fn comes_into_range(candidate: &Candidate, after: &Model) -> bool {
    let mut named = after.modules.iter().filter(|module| candidate.misfit && module.name == candidate.name);
    named.all(|module| module.misfits.iter().all(|one| one.what != candidate.slot.key))
}

/// A written size or setting stays near what was asked for.
fn keeps_its_size(candidate: &Candidate, step: f64) -> bool {
    let old = match candidate.old.as_ref().map(|old| &old.kind) {
        Some(ExprKind::Number(old)) => *old,
        Some(_) => return true,
        None => candidate.current,
    };
    match (candidate.slot.group, candidate.value(step).kind) {
        (Group::Size | Group::Set, ExprKind::Number(new)) if candidate.has_steps() && !candidate.misfit => {
            new >= old * SHRINK && new * SHRINK <= old
        }
        _ => true,
    }
}

/// What people, the vehicle, the customer and the layout's own limits ask for is not changed to clear a finding.
fn leaves_the_given(before: &Model, after: &Model) -> bool {
    let same = before.people == after.people
        && before.limits == after.limits
        && before.accepted == after.accepted
        && before.vehicle == after.vehicle
        && before.climate == after.climate
        && before.cargo == after.cargo
        && before.routes.iter().zip(&after.routes).all(|(a, b)| a.least == b.least);
    same && (!before.is_van() || (before.space == after.space && doors(before).eq(doors(after))))
}

fn doors(model: &Model) -> impl Iterator<Item = &crate::model::Opening> {
    model.openings.iter().filter(|opening| opening.kind == OpeningKind::Door)
}

/// No module goes farther out of the box, and an edge that is written with the box's does not pass it.
fn stays_inside(candidate: &Candidate, before: &Model, after: &Model) -> bool {
    let [top, new_top] = [before, after].map(|model| {
        let heights = model.space.roof.chain().into_iter().map(|point| point.y);
        heights.fold(model.space.height, f64::max)
    });
    let outside = |model: &Model, top: f64, extent: &Box3| {
        let ends = [(extent.x, model.space.length), (extent.y, model.space.width), (extent.z, top)];
        ends.into_iter().map(|((low, high), end)| (-low).max(high - end).max(0.0)).fold(0.0, f64::max)
    };
    let all = before.modules.iter().zip(&after.modules);
    let inside = |(was, is): (&crate::model::Module, &crate::model::Module)| {
        outside(after, new_top, &is.extent) <= outside(before, top, &was.extent) + SAME_LENGTH
    };
    all.clone().all(inside)
        && all.filter(|(was, _)| was.name == candidate.name).all(|(was, is)| {
            let past = |model: &Model, extent: &Box3| past_its_wall(candidate, model, extent);
            past(after, &is.extent) <= past(before, &was.extent).max(0.0) + SAME_LENGTH
        })
}

/// How far an edge that names the same edge of the box lies beyond it; below zero inside.
fn past_its_wall(candidate: &Candidate, model: &Model, extent: &Box3) -> f64 {
    let key = candidate.slot.key.as_str();
    let mut named = false;
    if let Some(old) = &candidate.old {
        old.each_name(&mut |name| named |= name.strip_prefix("box.") == Some(key));
    }
    let space = &model.space;
    match key {
        _ if !named || candidate.slot.group != Group::Place => f64::NEG_INFINITY,
        "front" | "left" | "floor" => {
            let axis = if key == "front" {
                Axis::X
            } else if key == "left" {
                Axis::Y
            } else {
                Axis::Z
            };
            -extent.range(axis).0
        }
        "rear" => extent.x.1 - space.length,
        "right" => extent.y.1 - space.width,
        "top" => extent.z.1 - space.height,
        _ => f64::NEG_INFINITY,
    }
}
