//! Machining that follows from joints, put into the parts; pieces of one part that are worked otherwise become parts of their
//! own.

use super::hardware::own_axis;
use super::practice::{CUP, LEAST_WOOD, PLATE_OFF_ROW, ROW_BORE};
use super::runners::Bores;
use crate::base::number::micrometres;
use crate::geometry::{Axis, Point3};
use crate::model::{Hinge, Hung, Leaf, Lock, Machining, Part, Partner, PieceAt, Together, by_hand};
use kurbo::Point;

/// Bores this near are one, mm.
const SAME_BORE: f64 = 0.5;

/// A bore of a piece.
pub(super) struct More {
    piece: PieceAt,
    machining: Machining,
}

/// Cups, plates and runner bores that a part has not yet by its symbol.
pub(super) fn machining(parts: &[Part], runners: &[Bores], leaves: &[Leaf], locks: &[Lock]) -> Vec<More> {
    let mut made = Vec::new();
    for Bores { piece, at, axis } in runners {
        at.iter().for_each(|at| bore(parts, *piece, *at, *axis, blind(ROW_BORE), &mut made));
    }
    for leaf in leaves.iter().filter(|leaf| leaf.hung == Hung::Cups) {
        let through = own_axis(leaf, parts);
        for Hinge { at, bearer } in &leaf.hinges {
            bore(parts, leaf.piece, *at, through, blind((CUP.0, CUP.1)), &mut made);
            let Some((bearer, plate)) = bearer else { continue };
            for by in [-PLATE_OFF_ROW, PLATE_OFF_ROW] {
                let at = plate.on(leaf.axis, super::room::along(*plate, leaf.axis) + by);
                bore(parts, *bearer, at, leaf.axis.third(through), blind(ROW_BORE), &mut made);
            }
        }
    }
    for lock in locks {
        for (off, diameter) in lock.by.bores() {
            let at = lock.at.on(lock.along, super::room::along(lock.at, lock.along) + off);
            lock.through.iter().for_each(|piece| bore(parts, *piece, at, lock.across, (*diameter, None), &mut made));
        }
    }
    made
}

/// Diameter and depth of a bore that does not go through.
fn blind((diameter, depth): (f64, f64)) -> (f64, Option<f64>) {
    (diameter, Some(depth))
}

fn bore(
    parts: &[Part],
    piece: PieceAt,
    at: Point3,
    axis: Axis,
    (diameter, depth): (f64, Option<f64>),
    made: &mut Vec<More>,
) {
    let Some(part) = parts.get(piece.part) else { return };
    let Some(place) = part.places.get(piece.place) else { return };
    let Some((place_at, lies)) = place.on_face(at).zip(place.lies) else { return };
    if lies.face.axis != axis {
        return;
    }
    let (low, high) = place.bounds().range(axis);
    let up = super::room::along(at, axis) > f64::midpoint(low, high);
    let reverse = depth.is_some() && up != lies.face.up;
    let at = (micrometres(place_at.0), micrometres(place_at.1));
    let near = |other: &Machining| match other {
        Machining::Hole { at: known, depth, reverse: side, .. } => {
            Point::from(*known).distance(at.into()) < SAME_BORE && (depth.is_none() || *side == reverse)
        }
        _ => false,
    };
    let known = part.machining.iter().any(near) || made.iter().any(|one| one.piece == piece && near(&one.machining));
    if !known {
        let depth = depth.map(|depth| depth.min(part.thickness - LEAST_WOOD));
        made.push(More { piece, machining: Machining::Hole { at, diameter, depth, reverse } });
    }
}

/// The parts with their machining; pieces in what goes together are found again.
pub(super) fn worked(parts: Vec<Part>, more: &[More], together: &mut Together) -> Vec<Part> {
    if more.is_empty() {
        return parts;
    }
    let mut made: Vec<(usize, Part)> = Vec::new();
    for (index, part) in parts.iter().enumerate() {
        made.extend(split(index, part, more).into_iter().map(|part| (index, part)));
    }
    let again = |at: PieceAt| {
        let place = parts.get(at.part).and_then(|part| part.places.get(at.place));
        let of = |(number, (index, part)): (usize, &(usize, Part))| {
            let found = part.places.iter().position(|one| Some(one) == place)?;
            (*index == at.part).then_some(PieceAt { part: number, place: found })
        };
        made.iter().enumerate().find_map(of).unwrap_or(at)
    };
    for joint in &mut together.joints {
        joint.one = again(joint.one);
        if let Partner::Piece(piece) = joint.other {
            joint.other = Partner::Piece(again(piece));
        }
    }
    for moving in &mut together.moving {
        *moving = again(*moving);
    }
    for leaf in &mut together.leaves {
        leaf.piece = again(leaf.piece);
        for (bearer, _) in leaf.hinges.iter_mut().filter_map(|hinge| hinge.bearer.as_mut()) {
            *bearer = again(*bearer);
        }
    }
    for lock in &mut together.locks {
        lock.through.iter_mut().for_each(|piece| *piece = again(*piece));
        lock.keep.iter_mut().for_each(|(piece, _)| *piece = again(*piece));
    }
    made.into_iter().map(|(_, part)| part).collect()
}

/// One part for each way its pieces are worked, and for each hand.
fn split(index: usize, part: &Part, more: &[More]) -> Vec<Part> {
    let own = |place: usize| {
        let of = more.iter().filter(|one| one.piece == PieceAt { part: index, place });
        of.map(|one| one.machining.clone()).collect::<Vec<_>>()
    };
    let mut groups: Vec<(Vec<Machining>, Vec<usize>)> = Vec::new();
    for place in 0..part.places.len() {
        let extra = own(place);
        match groups.iter_mut().find(|(known, _)| *known == extra) {
            Some((_, places)) => places.push(place),
            None => groups.push((extra, vec![place])),
        }
    }
    if groups.iter().all(|(extra, _)| extra.is_empty()) {
        return vec![part.clone()];
    }
    let made = groups.into_iter().flat_map(|(extra, places)| {
        let places: Vec<_> = places.iter().filter_map(|place| part.places.get(*place).cloned()).collect();
        let machining = part.machining.iter().cloned().chain(extra).collect();
        let count = u32::try_from(places.len()).unwrap_or(u32::MAX);
        let one = Part { count, places, machining, ..part.clone() };
        if part.hand.is_some() { vec![one] } else { by_hand(one) }
    });
    made.collect()
}
