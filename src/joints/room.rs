//! Room for plates and hinge arms: what stands beside an upright, what is cut out of it and bored into it.

use super::hanging::{Bearer, Hanging};
use super::pieces::{AXES, Piece, meet};
use super::practice::{ARM, BORE_GAP, PLATE_HALF, PLATE_OFF_ROW, ROW_BORE};
use crate::geometry::{Axis, Box3, Point3, common_bounds};
use crate::model::{PieceAt, Place};
use kurbo::Point;

/// A bore that stands somewhere in the module.
#[derive(Debug, Clone, Copy)]
struct Taken {
    piece: PieceAt,
    at: Point3,
    /// The board's axis through its faces.
    axis: Axis,
}

/// What is taken already.
#[derive(Debug)]
pub(super) struct Rooms<'a> {
    pieces: &'a [Piece<'a>],
    bought: Vec<Box3>,
    taken: Vec<Taken>,
}

impl<'a> Rooms<'a> {
    /// Only pieces and what is bought are in the way yet.
    pub fn new(pieces: &'a [Piece<'a>], bought: Vec<Box3>) -> Self {
        Self { pieces, bought, taken: Vec::new() }
    }

    /// Notes a bore.
    pub fn bored(&mut self, piece: PieceAt, at: Point3, axis: Axis) {
        self.taken.push(Taken { piece, at, axis });
    }

    /// Whether a plate, with its middle at a place along the hinge line, has room on a board and its arm beside it.
    pub fn has(&self, of: &Hanging<'_, '_>, bearer: &Bearer<'_, '_>, at: f64) -> bool {
        let piece = bearer.piece;
        let (low, high) = piece.bounds.range(of.axis);
        let middle = of.behind(bearer.front, bearer.setback(of.piece.part.thickness));
        let around = |middle: f64, half: f64| (middle - half, middle + half);
        if at - PLATE_HALF < low || at + PLATE_HALF > high {
            return false;
        }
        let plate = piece.bounds.with(of.axis, around(at, PLATE_HALF)).with(of.through, around(middle, BORE_GAP));
        let cut = piece.cutouts().any(|cutout| common_bounds(&cutout.bounds(), &plate).is_some());
        let whole = piece.part.outline.is_none() || carries(piece.place, &plate);
        !cut && whole && !self.in_the_way(of, bearer, at) && !self.clashes(of, bearer, at)
    }

    /// Something stands where the arm goes.
    fn in_the_way(&self, of: &Hanging<'_, '_>, bearer: &Bearer<'_, '_>, at: f64) -> bool {
        let beside = if of.high { (bearer.face, bearer.face + ARM.0) } else { (bearer.face - ARM.0, bearer.face) };
        let (a, b) = (of.inner(), of.behind(of.inner(), ARM.1));
        let arm = Box3::default()
            .with(of.axis, (at - PLATE_HALF, at + PLATE_HALF))
            .with(of.away, beside)
            .with(of.through, (a.min(b), a.max(b)));
        let stands = |piece: &&Piece<'_>| {
            let own = piece.at == bearer.piece.at || piece.at == of.piece.at;
            let shares = AXES.iter().all(|axis| meet(piece.bounds.range(*axis), arm.range(*axis)).is_some());
            !own && shares && !gone(piece, &arm)
        };
        let bought = self.bought.iter().any(|one| common_bounds(one, &arm).is_some());
        bought || self.pieces.iter().any(|piece| stands(&piece))
    }

    /// A bore of another plate, or of a runner, is too near to one of this plate, on either face of the board.
    fn clashes(&self, of: &Hanging<'_, '_>, bearer: &Bearer<'_, '_>, at: f64) -> bool {
        let through = bearer.piece.part.thickness < 2.0 * ROW_BORE.1 + 2.0;
        self.taken.iter().filter(|one| one.piece == bearer.piece.at).any(|one| {
            let same_face = (along(one.at, one.axis) - bearer.face).abs() < 0.5;
            let near = plate_bores(of, bearer, at).into_iter().any(|bore| {
                let apart = |axis: Axis| along(bore, axis) - along(one.at, axis);
                apart(of.axis).hypot(apart(of.through)) < BORE_GAP + ROW_BORE.0
            });
            near && (same_face || through)
        })
    }

    /// Notes the bores of a plate.
    pub fn take(&mut self, of: &Hanging<'_, '_>, bearer: &Bearer<'_, '_>, at: f64) {
        for bore in plate_bores(of, bearer, at) {
            self.bored(bearer.piece.at, bore, of.away);
        }
    }
}

/// Nothing of a piece is left in a room: its cut-outs take it.
fn gone(piece: &Piece<'_>, room: &Box3) -> bool {
    let Some(common) = common_bounds(&piece.bounds, room) else { return false };
    let holds = |outer: &Box3| {
        AXES.iter().all(|axis| {
            let (a, b) = (outer.range(*axis), common.range(*axis));
            a.0 <= b.0 + 0.1 && a.1 >= b.1 - 0.1
        })
    };
    piece.cutouts().any(|cutout| holds(&cutout.bounds()))
}

/// Whether a shaped board is there over all of a place on its face.
fn carries(place: &Place, at: &Box3) -> bool {
    let solid = &place.solid;
    let (first, second) = solid.axis.plane();
    let corner = |a: f64, b: f64| {
        let crossed = |(from, to): &(Point, Point)| {
            (from.y > b) != (to.y > b) && a < from.x + (b - from.y) / (to.y - from.y) * (to.x - from.x)
        };
        solid.outline.edges().filter(crossed).count() % 2 == 1
    };
    let (a, b) = (at.range(first), at.range(second));
    let inset = 0.5;
    corner(a.0 + inset, b.0 + inset)
        && corner(a.0 + inset, b.1 - inset)
        && corner(a.1 - inset, b.0 + inset)
        && corner(a.1 - inset, b.1 - inset)
}

/// The two bores of a plate.
fn plate_bores(of: &Hanging<'_, '_>, bearer: &Bearer<'_, '_>, at: f64) -> [Point3; 2] {
    let back = of.behind(bearer.front, bearer.setback(of.piece.part.thickness));
    [at - PLATE_OFF_ROW, at + PLATE_OFF_ROW]
        .map(|at| super::pieces::point([(of.axis, at), (of.away, bearer.face), (of.through, back)]))
}

/// A coordinate of a point.
pub(super) fn along(point: Point3, axis: Axis) -> f64 {
    match axis {
        Axis::X => point.x,
        Axis::Y => point.y,
        Axis::Z => point.z,
    }
}
