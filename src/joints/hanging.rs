//! Leaves with their directions, and the boards square to them at their hinge edges.

use super::pieces::{Piece, middle, shut};
use super::practice::{INSET_GAP, OVERLAY, PLATE_DEPTH, ROW_SETBACK};
use crate::geometry::Axis;
use crate::model::{Move, MoveKind, Swing};

/// No more boards than these are looked at behind one hinge edge.
const MOST_BEARERS: usize = 16;

/// A leaf where it hangs, with its directions.
pub(super) struct Hanging<'p, 'a> {
    pub piece: &'p Piece<'a>,
    pub turns: usize,
    pub swing: &'p Swing,
    pub walk_through: bool,
    /// Along the hinge line.
    pub axis: Axis,
    /// Away from the hinge line, in the leaf.
    pub away: Axis,
    /// Through the leaf.
    pub through: Axis,
    /// The leaf lies on the high side of its hinge edge.
    pub high: bool,
    /// The module is on the high side of the leaf.
    pub inward_high: bool,
}

impl Hanging<'_, '_> {
    /// The hinge edge along `away`.
    pub fn edge(&self) -> f64 {
        let (low, high) = self.piece.bounds.range(self.away);
        if self.high { low } else { high }
    }

    /// The leaf's face toward the module, along `through`.
    pub fn inner(&self) -> f64 {
        let (low, high) = self.piece.bounds.range(self.through);
        if self.inward_high { high } else { low }
    }

    /// A distance from the hinge edge into the leaf.
    pub fn off_edge(&self, by: f64) -> f64 {
        if self.high { self.edge() + by } else { self.edge() - by }
    }

    /// A distance from the inner face into the module.
    pub fn behind(&self, from: f64, by: f64) -> f64 {
        if self.inward_high { from + by } else { from - by }
    }

    /// It is a lid.
    pub fn lies_flat(&self) -> bool {
        self.through == Axis::Z
    }
}

/// A board that may bear a leaf.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bearer<'p, 'a> {
    pub piece: &'p Piece<'a>,
    /// The face that the plate is screwed to, along `away`.
    pub face: f64,
    /// The edge that plates are measured from, along `through`.
    pub front: f64,
    /// The leaf closes beside it, not before it.
    pub inset: bool,
}

impl Bearer<'_, '_> {
    /// From its front edge to the middle of the plate.
    pub fn setback(&self, leaf: f64) -> f64 {
        if self.inset { ROW_SETBACK + leaf } else { ROW_SETBACK }
    }
}

/// The leaves with their directions.
pub(super) fn hanging<'p, 'a>(pieces: &'p [Piece<'a>], moves: &'p [Move]) -> Vec<Hanging<'p, 'a>> {
    let one = |(turns, one): (usize, &'p Move)| {
        let MoveKind::Swing(swing) = &one.kind else { return None };
        let piece = pieces.iter().find(|piece| piece.moves == Some(turns))?;
        let through = piece.face()?;
        if through == swing.axis {
            return None;
        }
        let away = swing.axis.third(through);
        let hinge = |axis: Axis| if swing.axis.plane().0 == axis { swing.hinge.x } else { swing.hinge.y };
        let leaf = shut(swing);
        let high = hinge(away) <= middle(leaf.range(away));
        let inward_high = hinge(through) <= middle(leaf.range(through));
        Some(Hanging {
            piece,
            turns,
            swing,
            walk_through: one.walk_through,
            axis: swing.axis,
            away,
            through,
            high,
            inward_high,
        })
    };
    moves.iter().enumerate().filter_map(one).collect()
}

/// The boards square to a leaf at its hinge edge.
pub(super) fn bearers<'p, 'a>(of: &Hanging<'_, 'a>, pieces: &'p [Piece<'a>]) -> Vec<Bearer<'p, 'a>> {
    let still = pieces.iter().filter(|piece| piece.moves.is_none());
    still.filter_map(|piece| bearer(of, piece)).take(MOST_BEARERS).collect()
}

fn bearer<'p, 'a>(of: &Hanging<'_, 'a>, piece: &'p Piece<'a>) -> Option<Bearer<'p, 'a>> {
    if piece.face() != Some(of.away)
        || super::pieces::meet(piece.bounds.range(of.axis), of.piece.bounds.range(of.axis)).is_none()
    {
        return None;
    }
    let (low, high) = piece.bounds.range(of.away);
    let (front, back) =
        if of.inward_high { piece.bounds.range(of.through) } else { swapped(piece.bounds.range(of.through)) };
    let face = if of.high { high } else { low };
    let covered = if of.high { face - of.edge() } else { of.edge() - face };
    let deep = (back - front).abs() >= PLATE_DEPTH;
    let before = (front - of.inner()).abs() <= 1.0;
    if before && deep && covered >= OVERLAY.0 && covered <= OVERLAY.1 {
        return Some(Bearer { piece, face, front, inset: false });
    }
    let beside = (-INSET_GAP..=0.05).contains(&covered);
    let around = super::pieces::meet(piece.bounds.range(of.through), of.piece.bounds.range(of.through)).is_some();
    let behind = (back - of.inner()).abs() >= PLATE_DEPTH && (back > of.inner()) == of.inward_high;
    (beside && around && behind).then_some(Bearer { piece, face, front, inset: true })
}

fn swapped((low, high): (f64, f64)) -> (f64, f64) {
    (high, low)
}
