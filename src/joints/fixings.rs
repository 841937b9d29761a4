//! What holds two pieces that meet, and where its screws or dowels are.

use super::pieces::{AXES, Piece, middle, point};
use super::practice::{
    BORE_GAP, DOWEL_END, DOWEL_PITCH, GRID, LEAST_BORED, LEAST_WOOD, SCREW_END, SCREW_PITCH, SHORT, THIN, dowel,
    dowel_depths, edge_screw, face_screw,
};
use crate::base::tolerance::ROUNDING;
use crate::geometry::{Axis, Box3, Point3};
use crate::model::{Fixing, JointWord, Meeting, Toward};

/// Most spans between screws along one side of a contact.
const MOST_SPANS: f64 = 100.0;

/// A flat contact of two pieces.
#[derive(Debug, Clone, Copy)]
pub(super) struct Contact {
    pub meeting: Meeting,
    pub at: Box3,
    /// From the first piece to the second.
    pub toward: Toward,
}

impl Contact {
    /// One whose place does not matter.
    pub fn in_groove() -> Self {
        Self { meeting: Meeting::InGroove, at: Box3::default(), toward: Toward { axis: Axis::Z, up: true } }
    }

    /// The two axes of the contact, the longer one first.
    fn axes(&self) -> (Axis, Axis) {
        let (first, second) = self.toward.axis.plane();
        if self.reach(first) >= self.reach(second) { (first, second) } else { (second, first) }
    }

    fn reach(&self, axis: Axis) -> f64 {
        let (low, high) = self.at.range(axis);
        high - low
    }

    /// Length and breadth of the contact, mm.
    pub fn size(&self) -> (f64, f64) {
        let (long, broad) = self.axes();
        (self.reach(long), self.reach(broad))
    }
}

/// What holds a first piece, whose face is met, and a second one.
pub(super) fn fixing(first: &Piece<'_>, second: &Piece<'_>, contact: &Contact) -> Fixing {
    let usual = usual(first, second, contact);
    let Some(chosen) = first.part.joint.or(second.part.joint) else { return usual };
    let (through, into) = (first.part.thickness, second.part.thickness);
    let fixing = match chosen.by {
        JointWord::None => Fixing::Rests,
        JointWord::Glue => Fixing::Glue,
        JointWord::Housing => Fixing::Groove,
        JointWord::Cam => Fixing::Chosen("cam fittings"),
        JointWord::Pocket => Fixing::Chosen("pocket screws"),
        JointWord::Dowel => dowel(through.min(into)),
        JointWord::Screw if contact.meeting == Meeting::FaceOnFace => face_screw(through, into, false),
        JointWord::Screw => edge_screw(through, behind(second, contact)),
    };
    match fixing {
        Fixing::Screws { diameter, length, glued } => Fixing::Screws {
            diameter: chosen.diameter.unwrap_or(diameter),
            length: chosen.length.unwrap_or(length),
            glued,
        },
        Fixing::Dowels { diameter, length } => {
            Fixing::Dowels { diameter: chosen.diameter.unwrap_or(diameter), length: chosen.length.unwrap_or(length) }
        }
        other => other,
    }
}

fn usual(first: &Piece<'_>, second: &Piece<'_>, contact: &Contact) -> Fixing {
    let (through, into) = (first.part.thickness, second.part.thickness);
    let loose = first.part.clear > 0.0 || second.part.clear > 0.0;
    match contact.meeting {
        Meeting::FaceOnFace => face_screw(through, into, !loose),
        Meeting::EdgeOnEdge if through.min(into) < 12.0 => Fixing::Glue,
        _ if contact.size().1 < LEAST_BORED => Fixing::Glue,
        Meeting::EdgeOnEdge => dowel_in(first, second, contact),
        _ if into < THIN => Fixing::Glue,
        // A good face is not screwed through.
        _ if first.part.faced && good_face_away(first, contact) => dowel_in(first, second, contact),
        _ => edge_screw(through, behind(second, contact)),
    }
}

/// A dowel between two pieces, glue where one of them is too short behind the joint for it.
fn dowel_in(first: &Piece<'_>, second: &Piece<'_>, contact: &Contact) -> Fixing {
    let fixing = dowel(first.part.thickness.min(second.part.thickness));
    let Fixing::Dowels { length, .. } = fixing else { return fixing };
    let (short, long) = dowel_depths(length, contact.meeting);
    let room = |piece: &Piece<'_>, deep: f64| piece.size(contact.toward.axis) >= deep + LEAST_WOOD;
    if room(first, short) && room(second, long) { fixing } else { Fixing::Glue }
}

/// How much wood a screw finds behind the edge of a piece, mm.
fn behind(second: &Piece<'_>, contact: &Contact) -> f64 {
    if contact.meeting == Meeting::InGroove { f64::INFINITY } else { second.size(contact.toward.axis) }
}

/// The good face of a piece looks away from the contact.
fn good_face_away(piece: &Piece<'_>, contact: &Contact) -> bool {
    piece.place.lies.is_some_and(|lies| lies.face.axis == contact.toward.axis && lies.face.up != contact.toward.up)
}

/// Where the screws or dowels of a contact are.
pub(super) fn points(first: &Piece<'_>, second: &Piece<'_>, contact: &Contact, fixing: &Fixing) -> Vec<Point3> {
    let chosen = first.part.joint.or(second.part.joint).and_then(|chosen| chosen.pitch);
    let (long, broad) = contact.axes();
    let (ends, pitch, both) = match fixing {
        Fixing::Screws { .. } if contact.meeting == Meeting::FaceOnFace => (SCREW_END, GRID, true),
        Fixing::Screws { .. } => (SCREW_END, SCREW_PITCH, false),
        Fixing::Dowels { .. } => (DOWEL_END, DOWEL_PITCH, false),
        _ => return Vec::new(),
    };
    let pitch = chosen.unwrap_or(pitch);
    let rows = if both && contact.size().1 > GRID {
        shares(contact.at.range(broad), ends, pitch)
    } else {
        vec![middle(contact.at.range(broad))]
    };
    let level = contact.at.range(contact.toward.axis).0;
    let at = |along: f64, across: f64| point([(long, along), (broad, across), (contact.toward.axis, level)]);
    let along = shares(contact.at.range(long), ends, pitch);
    let all = rows.iter().flat_map(|across| along.iter().map(|along| at(*along, *across)).collect::<Vec<_>>());
    all.filter(|point| !cut_away(first, *point) && !cut_away(second, *point)).collect()
}

/// A place in a cut-out, or too near to one.
fn cut_away(piece: &Piece<'_>, at: Point3) -> bool {
    piece.cutouts().any(|cutout| {
        let bounds = cutout.bounds();
        AXES.into_iter().all(|axis| {
            let (low, high) = bounds.range(axis);
            let along = super::room::along(at, axis);
            along > low - BORE_GAP && along < high + BORE_GAP
        })
    })
}

/// Places along a range: near both ends, and evenly between, at most a pitch apart; one in the middle of a short range.
fn shares((low, high): (f64, f64), end: f64, pitch: f64) -> Vec<f64> {
    let length = high - low;
    if length < SHORT {
        return vec![middle((low, high))];
    }
    let end = end.min(length / 4.0);
    let spans = ((length - 2.0 * end) / pitch.max(1.0) - ROUNDING).ceil().clamp(1.0, MOST_SPANS);
    let step = (length - 2.0 * end) / spans;
    (0..=spans as u32).map(|index| low + end + step * f64::from(index)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 560 mm less 40 at each end are 480, three spans of 160; 480 less 80 are 400, two of 200; 25 takes one.
    #[test]
    fn screws_share_an_edge() {
        assert_eq!(shares((0.0, 560.0), 40.0, 200.0), [40.0, 200.0, 360.0, 520.0]);
        assert_eq!(shares((100.0, 580.0), 40.0, 200.0), [140.0, 340.0, 540.0]);
        assert_eq!(shares((0.0, 25.0), 40.0, 200.0), [12.5]);
        assert_eq!(shares((0.0, 60.0), 40.0, 200.0), [15.0, 45.0]);
    }
}
