//! Runners: their bores in the board beside a drawer and in the drawer, on one row.

use super::pieces::{Piece, middle, point};
use super::practice::{ROW, ROW_BORE_EDGE, ROW_SETBACK, RUNNERS};
use crate::geometry::{Axis, Point3};
use crate::model::{Fixing, Joint, Meeting, Partner, PieceAt};

/// Rows from one bore of a runner to the next.
const SPACING: u32 = 7;

/// Bores of a runner: the board, where, and the axis through it.
pub(super) struct Bores {
    pub piece: PieceAt,
    pub at: Vec<Point3>,
    pub axis: Axis,
}

/// The bores in the boards that carry runners: 37 mm from the front edge of the board and on rows behind it, on the
/// row nearest to the middle of the drawer's side. The other face of a thin board may have others, so bores that are
/// known already are left out.
pub(super) fn bores(pieces: &[Piece<'_>], joints: &[Joint], front_high: Option<(Axis, bool)>) -> Vec<Bores> {
    let Some((depth, front_high)) = front_high else { return Vec::new() };
    let find = |at: PieceAt| pieces.iter().find(|piece| piece.at == at);
    let runner = |joint: &&Joint| {
        joint.meeting == Meeting::Carried && matches!(&joint.fixing, Fixing::Held(by) if RUNNERS.contains(&by.as_str()))
    };
    let one = |joint: &Joint| {
        let Partner::Piece(drawer) = joint.other else { return None };
        let (bearer, drawer) = (find(joint.one)?, find(drawer)?);
        let (low, high) = bearer.bounds.range(depth);
        let front = |by: f64| if front_high { high - by } else { low + by };
        let datum = bearers_foot(pieces, joints).unwrap_or(bearer.bounds.z.0);
        let row = datum + ((middle(drawer.bounds.z) - datum) / ROW).round() * ROW;
        let (foot, head) = (bearer.bounds.z.0 + ROW_BORE_EDGE, bearer.bounds.z.1 - ROW_BORE_EDGE);
        let level = if row > head {
            row - ROW
        } else if row < foot {
            row + ROW
        } else {
            row
        };
        let reach = meet_length(bearer, drawer, depth);
        let face = joint.at.range(joint.across.axis).0;
        let at = |row: u32| {
            point([(depth, front(ROW_SETBACK + ROW * f64::from(row))), (Axis::Z, level), (joint.across.axis, face)])
        };
        Some(Bores { piece: bearer.at, at: rows(reach).into_iter().map(at).collect(), axis: joint.across.axis })
    };
    joints.iter().filter(runner).filter_map(one).collect()
}

/// The rows of a runner of a length, counted from its first bore: every seventh, at most four, or the last one of a short runner.
fn rows(length: f64) -> Vec<u32> {
    let last = |from_end: f64| ((length - ROW_SETBACK - from_end) / ROW).floor().clamp(1.0, 21.0) as u32;
    match last(0.0) / SPACING {
        0 => vec![0, last(ROW_BORE_EDGE)],
        more => (0..=more).map(|index| index * SPACING).collect(),
    }
}

/// The lowest end of the boards that carry runners: rows begin there.
fn bearers_foot(pieces: &[Piece<'_>], joints: &[Joint]) -> Option<f64> {
    let carries = |joint: &&Joint| joint.meeting == Meeting::Carried;
    let foot = |joint: &Joint| pieces.iter().find(|piece| piece.at == joint.one).map(|piece| piece.bounds.z.0);
    joints.iter().filter(carries).filter_map(foot).reduce(f64::min)
}

fn meet_length(a: &Piece<'_>, b: &Piece<'_>, axis: Axis) -> f64 {
    super::pieces::meet(a.bounds.range(axis), b.bounds.range(axis)).map_or(0.0, |(low, high)| high - low)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 37 and 7 x 32 = 224 are 261; 150 less 37 and 10 at its end are 103, three rows of 32.
    #[test]
    fn a_short_runner_is_bored_within_its_length() {
        assert_eq!(
            [rows(150.0), rows(260.0), rows(261.0), rows(500.0)],
            [vec![0, 3], vec![0, 6], vec![0, 7], vec![0, 7, 14]]
        );
        assert_eq!(rows(1000.0), [0, 7, 14, 21]);
    }
}
