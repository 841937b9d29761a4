//! Screws and dowels keep out of each other's way: those that would run into something that is cut into either piece move
//! along their joint.

use super::bores::{Bore, bores_at};
use super::pieces::middle;
use super::practice::{BORE_GAP, LEAST_WOOD, SHORT};
use super::room::along;
use super::wood::{Cut, between, drilled_by, machined};
use crate::base::number::micrometres;
use crate::geometry::{Axis, Point3};
use crate::model::{Fixing, Joint, Part, PieceAt, Together};
use std::collections::BTreeMap;

/// From one place that is tried to the next, mm.
const STEP: f64 = 2.0;
/// Places that are tried each way: less than half of the usual pitch.
const TRIES: u32 = 48;
/// From the end of a joint, mm; in short ones a third of it.
const FROM_END: f64 = 10.0;

/// What is cut into each piece so far.
type Cuts<'p> = BTreeMap<PieceAt, Vec<Cut<'p>>>;

/// Moves screws and dowels, joint after joint, from where they would run into something; the shortest joints, which leave
/// least choice, come first. One that is so short that it has a single screw or dowel is glued where no place is free. In
/// others they stay then, and the check on bores says so.
pub(super) fn settle(parts: &[Part], together: &mut Together) {
    let mut cuts = Cuts::new();
    for joint in together.joints.iter().filter(|joint| !joint.points.is_empty()) {
        for piece in [Some(joint.one), joint.other.piece()].into_iter().flatten() {
            let Some(part) = parts.get(piece.part) else { continue };
            cuts.entry(piece).or_insert_with(|| part.machining.iter().map(|one| machined(part, one)).collect());
        }
    }
    let mut joints: Vec<&mut Joint> = together.joints.iter_mut().collect();
    joints.sort_by(|a, b| length(a).total_cmp(&length(b)));
    for joint in joints {
        for point in std::mem::take(&mut joint.points) {
            let is_free =
                |at: &Point3, gap: f64| bores_at(parts, joint, *at).iter().all(|bore| is_free(parts, &cuts, bore, gap));
            let free = |gap: f64| places(joint, point).find(|at| is_free(at, gap));
            let found = free(BORE_GAP).or_else(|| free(LEAST_WOOD));
            if found.is_none() && length(joint) < SHORT {
                joint.fixing = Fixing::Glue;
                break;
            }
            let at = found.unwrap_or(point);
            joint.points.push(at);
            for bore in bores_at(parts, joint, at) {
                let Some(part) = parts.get(bore.piece.part) else { continue };
                cuts.entry(bore.piece).or_default().push(drilled_by(part, &bore));
            }
        }
    }
}

/// A bore leaves so much wood to all else in its piece.
fn is_free(parts: &[Part], cuts: &Cuts<'_>, bore: &Bore, gap: f64) -> bool {
    let Some(part) = parts.get(bore.piece.part) else { return true };
    let new = drilled_by(part, bore);
    let apart = |cut: &Cut<'_>| between(&new, cut).is_none_or(|wood| wood >= gap);
    cuts.get(&bore.piece).into_iter().flatten().all(apart)
}

/// A point and those beside it along its joint: first toward the middle, so that mirrored joints stay mirrored, then away;
/// last the same nearer to either side of the joint.
fn places(joint: &Joint, point: Point3) -> impl Iterator<Item = Point3> {
    let (axis, other) = axes(joint);
    let (at, (low, high)) = (along(point, axis), joint.at.range(axis));
    let inward = if at > middle((low, high)) { -STEP } else { STEP };
    let steps = move |by: f64| (1..=TRIES).map(move |step| at + by * f64::from(step));
    let end = FROM_END.min((high - low) / 3.0);
    let within = move |to: &f64| *to >= low + end && *to <= high - end;
    let aside = reach(joint, other).min(2.0 * FROM_END) / 6.0;
    [0.0, aside, -aside].into_iter().flat_map(move |by| {
        let level = point.on(other, along(point, other) + by);
        let beside = steps(inward).chain(steps(-inward)).filter(within);
        std::iter::once(level).chain(beside.map(move |to| level.on(axis, to)))
    })
}

/// The axis along which a joint is longer, and the other one.
fn axes(joint: &Joint) -> (Axis, Axis) {
    let (first, second) = joint.across.axis.plane();
    if reach(joint, first) >= reach(joint, second) { (first, second) } else { (second, first) }
}

fn reach(joint: &Joint, axis: Axis) -> f64 {
    let (low, high) = joint.at.range(axis);
    micrometres(high - low)
}

fn length(joint: &Joint) -> f64 {
    reach(joint, axes(joint).0)
}
