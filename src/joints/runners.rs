//! Runners: their bores in the board beside a drawer and in the drawer, on one row.

use super::pieces::{Piece, middle, point};
use super::practice::{ROW, ROW_BORE_EDGE, ROW_SETBACK, RUNNERS};
use crate::geometry::{Axis, Point3};
use crate::model::{Fixing, Joint, Meeting, Partner, PieceAt};

/// Bores of a runner: the board, where, and the axis through it.
pub(super) struct Bores {
    pub piece: PieceAt,
    pub at: Vec<Point3>,
    pub axis: Axis,
}

/// The bores in the boards that carry runners: 37 mm from the front edge of the board, and every seven rows behind it, on
/// the row nearest to the middle of the drawer's side. The other face of a thin board may have others, so bores that are
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
        let count = ((reach - ROW_SETBACK) / (7.0 * ROW)).floor().clamp(1.0, 3.0) as u32;
        let face = joint.at.range(joint.across.axis).0;
        let at = |index: u32| {
            point([
                (depth, front(ROW_SETBACK + 7.0 * ROW * f64::from(index))),
                (Axis::Z, level),
                (joint.across.axis, face),
            ])
        };
        Some(Bores { piece: bearer.at, at: (0..=count).map(at).collect(), axis: joint.across.axis })
    };
    joints.iter().filter(runner).filter_map(one).collect()
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
