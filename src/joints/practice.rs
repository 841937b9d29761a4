//! Kinds, fixings and pitches of joints at one place. All of it is common practice, no source, but where a line says more.

use crate::base::tolerance::{BEARING, SAME_LENGTH};
use crate::model::{Fixing, Meeting};

/// Faces of two pieces this near meet, mm, and half of what lengths are rounded to.
pub(super) const TOUCH: f64 = BEARING + SAME_LENGTH / 2.0;
/// What meets over less than this holds nothing, mm: along and across.
pub(super) const LEAST_HOLD: (f64, f64) = (12.0, 5.0);

/// What meets over less breadth than this is glued: no bore has room in it, mm.
pub(super) const LEAST_BORED: f64 = 8.0;

/// Boards thinner than this are nailed or glued rather than screwed into, mm.
pub(super) const THIN: f64 = 9.0;
/// First screw from the end of a joint, mm.
pub const SCREW_END: f64 = 40.0;
/// Most from screw to screw along an edge, mm.
pub const SCREW_PITCH: f64 = 200.0;
/// Most from screw to screw of two faces, either way, mm.
pub const GRID: f64 = 250.0;
/// First dowel from the front, mm.
pub const DOWEL_END: f64 = 25.0;
/// One dowel for about so much, mm.
pub const DOWEL_PITCH: f64 = 150.0;
/// Joints shorter than this take one screw or dowel, mm.
pub(super) const SHORT: f64 = 32.0;

/// Pilot hole through the face piece, mm.
pub const PILOT_THROUGH: f64 = 3.0;
/// Pilot hole in the edge: diameter and depth, mm.
pub const PILOT_EDGE: (f64, f64) = (2.5, 30.0);

/// Rows of bores are so far apart, mm.
pub const ROW: f64 = 32.0;
/// The first bore of a side above its lower end is two rows up, so the rows begin at its end, and the middle of a plate is
/// half a row further, mm.
pub const PLATE_OFF_ROW: f64 = ROW / 2.0;
/// From the front edge of an upright to plates, runners and pins, mm.
pub const ROW_SETBACK: f64 = 37.0;
/// Bores of plates and runners: diameter and depth, mm.
pub const ROW_BORE: (f64, f64) = (5.0, 11.0);

/// The middle of a row's bore is at least so far from an edge of its board, mm.
pub(super) const ROW_BORE_EDGE: f64 = 10.0;

/// A cup of a hinge: diameter, depth, middle from the edge of the leaf, mm. Published chart of hinge makers: 20.5 to 25.5
/// from the edge.
pub const CUP: (f64, f64, f64) = (35.0, 11.5, 22.5);
/// First hinge from the end of its leaf, mm.
pub(super) const HINGE_END: f64 = 100.0;
/// An upright is covered by the leaf by at least so much and at most so much, mm.
pub(super) const OVERLAY: (f64, f64) = (3.0, 28.0);
/// Beside an inset leaf the upright is at most so far away, mm.
pub(super) const INSET_GAP: f64 = 6.0;
/// An upright runs back from its front edge at least so far to take a plate, mm.
pub(super) const PLATE_DEPTH: f64 = 50.0;
/// Half of the height of a plate, mm.
pub(super) const PLATE_HALF: f64 = 25.0;
/// Room of the arm beside the upright and behind the leaf, mm.
pub(super) const ARM: (f64, f64) = (20.0, 60.0);
/// Bores keep so far from each other, mm.
pub(super) const BORE_GAP: f64 = 8.0;
/// Wood that is left around bores at least, mm.
pub const LEAST_WOOD: f64 = 2.0;
/// A piano hinge lies on its bearer this near the edge of the leaf, mm.
pub(super) const PIANO_GAP: f64 = 4.0;

/// The middle of a lock or handle from the edge that opens, mm.
pub(super) const LOCK_INSET: f64 = 40.0;
/// A lock reaches a board that keeps it shut so far from its middle, mm.
pub(super) const LOCK_REACH: f64 = 45.0;

/// Wood above the bore of a lock through the box of a drawer, mm.
pub(super) const LOCK_WOOD: f64 = 6.0;

/// Runners of drawers by name.
pub(super) const RUNNERS: [&str; 2] = ["drawer-runner-pair", "heavy-runner-pair"];

/// How many hinges by the height of a leaf and by its mass, the larger of both: published chart of hinge makers (height to
/// 1,016, 1,524, 2,032, 2,540 mm) and general guidance (mass to 6, 12, 17, 22 kg).
#[must_use]
pub fn hinge_count(tall: f64, mass: f64) -> usize {
    let by = |figure: f64, steps: [f64; 3]| 2 + steps.iter().filter(|step| figure > **step).count();
    by(tall, [1016.0, 1524.0, 2032.0]).max(by(mass, [6.0, 12.0, 17.0]))
}

/// Screws are so long, mm.
const SCREWS: [f64; 9] = [60.0, 50.0, 40.0, 35.0, 30.0, 25.0, 20.0, 16.0, 12.0];
/// A screw stays so far below the far side, mm.
const SCREW_BELOW: f64 = 3.0;

/// The longest screw of at most a length that stays in so much wood.
fn screw(most: f64, wood: f64) -> Option<f64> {
    SCREWS.into_iter().find(|length| *length <= most && *length <= wood - SCREW_BELOW)
}

/// The usual screw from a face of a thickness into an edge, behind which there is so much wood; a shorter one where it would
/// come out at the far side.
pub(super) fn edge_screw(face: f64, behind: f64) -> Fixing {
    let usual = match face {
        _ if face < THIN => 20.0,
        _ if face < 15.0 => 40.0,
        _ if face <= 22.0 => 50.0,
        _ => 60.0,
    };
    let length = screw(usual, face + behind).unwrap_or(usual);
    Fixing::Screws { diameter: if face < THIN { 3.0 } else { 4.0 }, length, glued: false }
}

/// The usual screws that join two faces: the longest that stays below the far face.
pub(super) fn face_screw(through: f64, into: f64, glued: bool) -> Fixing {
    match screw(50.0, through + into) {
        Some(length) => Fixing::Screws { diameter: if length <= 20.0 { 3.0 } else { 4.0 }, length, glued },
        None => Fixing::Glue,
    }
}

/// The usual dowel in a board: at most half as thick as the board.
pub(super) fn dowel(board: f64) -> Fixing {
    let (diameter, length) = if board >= 16.0 { (8.0, 30.0) } else { (6.0, 30.0) };
    Fixing::Dowels { diameter, length }
}

/// How deep a dowel is in the first and in the second piece, mm: two thirds of it in an edge that stands on a face, half in
/// each of two edges. General guidance for dowelled carcasses.
pub(super) fn dowel_depths(length: f64, meeting: Meeting) -> (f64, f64) {
    let first = if meeting == Meeting::EdgeOnEdge { length / 2.0 } else { length / 3.0 };
    (first, length - first)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A leaf of 1,900 x 480 x 18 mm: at 450 kg/m3 7.39 kg, at 685 kg/m3 11.24 kg; three by mass, four by height.
    #[test]
    fn hinges_by_height_and_by_mass() {
        let mass = |density: f64| 1.9 * 0.48 * 0.018 * density;
        assert!((mass(450.0) - 7.39).abs() < 0.005 && (mass(685.0) - 11.24).abs() < 0.006);
        assert_eq!((hinge_count(1900.0, mass(450.0)), hinge_count(900.0, mass(685.0))), (4, 3));
        assert_eq!((hinge_count(1016.0, 6.0), hinge_count(1016.1, 6.0), hinge_count(300.0, 12.1)), (2, 3, 4));
    }

    /// By hand: 18 + 30 less 3 are 45, so 40 is the longest; there is room for the usual 50 in 18 + 300.
    #[test]
    fn a_screw_stays_in_a_narrow_board() {
        let length = |behind: f64| match edge_screw(18.0, behind) {
            Fixing::Screws { length, .. } => length,
            _ => 0.0,
        };
        assert_eq!([length(300.0), length(35.0), length(34.9), length(30.0)], [50.0, 50.0, 40.0, 40.0]);
    }

    /// Dowels are at most half of the board.
    #[test]
    fn a_dowel_of_8_needs_16() {
        for board in [12.0, 15.0, 16.0, 18.0] {
            let Fixing::Dowels { diameter, .. } = dowel(board) else { panic!("a dowel") };
            assert!(diameter * 2.0 <= board);
        }
    }
}
