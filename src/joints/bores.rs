//! Pilot holes of screws and holes of dowels in both pieces of a joint, from each piece's datum corner.

use super::practice::{LEAST_WOOD, PILOT_EDGE, PILOT_THROUGH, dowel_depths};
use super::room::along;
use crate::geometry::{Axis, Point3};
use crate::model::{Fixing, Joint, Lies, Meeting, Part, Partner, PieceAt, Place, Toward};

/// The side of a board that a bore is made from; edges as those of bands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BoreSide {
    /// The machined face.
    Face,
    /// The other face.
    Reverse,
    /// The long edge at the datum corner.
    Front,
    /// The long edge opposite.
    Back,
    /// The short edge at the datum corner.
    Left,
    /// The short edge opposite.
    Right,
}

/// A bore for a screw or a dowel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bore {
    /// In which piece.
    pub piece: PieceAt,
    /// From which side.
    pub side: BoreSide,
    /// On a face from the datum corner along length and width; on an edge along it and below the face, mm.
    pub at: (f64, f64),
    /// mm.
    pub diameter: f64,
    /// mm; `None` goes through.
    pub depth: Option<f64>,
}

/// The bores that a joint asks for in its two pieces; none where nothing is bored, or where a board slopes.
#[must_use]
pub fn bores(parts: &[Part], joint: &Joint) -> Vec<Bore> {
    joint.points.iter().flat_map(|point| bores_at(parts, joint, *point)).collect()
}

/// Those of one screw or dowel, if it were at this point.
pub(super) fn bores_at(parts: &[Part], joint: &Joint, point: Point3) -> Vec<Bore> {
    let Partner::Piece(other) = joint.other else { return Vec::new() };
    let edge = joint.meeting != Meeting::FaceOnFace;
    let (first, second) = match joint.fixing {
        Fixing::Screws { length, .. } => {
            let through = parts.get(joint.one.part).map_or(0.0, |part| part.thickness);
            let reaches = (length - through).max(1.0);
            let deep = if edge { reaches.min(PILOT_EDGE.1) } else { reaches };
            ((PILOT_THROUGH, None), (PILOT_EDGE.0, Some(deep)))
        }
        Fixing::Dowels { diameter, length } => {
            let (short, long) = dowel_depths(length, joint.meeting);
            ((diameter, Some(short)), (diameter, Some(long)))
        }
        _ => return Vec::new(),
    };
    let back = Toward { up: !joint.across.up, ..joint.across };
    let pair = [bore(parts, joint.one, point, joint.across, first), bore(parts, other, point, back, second)];
    pair.into_iter().flatten().collect()
}

fn bore(
    parts: &[Part],
    piece: PieceAt,
    at: Point3,
    from: Toward,
    (diameter, depth): (f64, Option<f64>),
) -> Option<Bore> {
    let place: &Place = parts.get(piece.part)?.places.get(piece.place)?;
    let Lies { length, width, face } = place.lies?;
    let (along_length, along_width) = place.on_face(at)?;
    let below = |axis: Axis| {
        let (low, high) = place.bounds().range(axis);
        if face.up { high - along(at, axis) } else { along(at, axis) - low }
    };
    let low = |toward: Toward| from.up != toward.up;
    let (side, at) = if from.axis == face.axis {
        (if from.up == face.up { BoreSide::Face } else { BoreSide::Reverse }, (along_length, along_width))
    } else if from.axis == length.axis {
        (if low(length) { BoreSide::Left } else { BoreSide::Right }, (along_width, below(face.axis)))
    } else {
        (if low(width) { BoreSide::Front } else { BoreSide::Back }, (along_length, below(face.axis)))
    };
    let (near, far) = place.bounds().range(from.axis);
    Some(Bore { piece, side, at, diameter, depth: depth.map(|depth| depth.min(far - near - LEAST_WOOD)) })
}
