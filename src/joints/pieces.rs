//! The pieces of a module in its first pose, and which of them move together.

use super::practice::RUNNERS;
use crate::geometry::{Axis, Box3, Point3, Polygon, Prism, common_bounds};
use crate::model::{Machining, Move, MoveKind, Part, PieceAt, Place, Swing};
use kurbo::Vec2;

/// The three axes.
pub(super) const AXES: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];
/// A share of a piece that lies in a leaf or a drawer and so is that leaf, or part of that drawer.
const MOST_OF_IT: f64 = 0.8;

/// One piece.
#[derive(Debug)]
pub(super) struct Piece<'a> {
    pub at: PieceAt,
    pub part: &'a Part,
    pub place: &'a Place,
    pub bounds: Box3,
    /// Index of the move that it goes with.
    pub moves: Option<usize>,
}

impl Piece<'_> {
    /// The axis that its faces look along; of a sloping board none is.
    pub fn face(&self) -> Option<Axis> {
        self.place.lies.map(|lies| lies.face.axis)
    }

    /// How far it reaches along an axis.
    pub fn size(&self, axis: Axis) -> f64 {
        let (low, high) = self.bounds.range(axis);
        high - low
    }

    /// What its cut-outs take of it.
    pub fn cutouts(&self) -> impl Iterator<Item = Prism> + '_ {
        let through = |machining: &Machining| match machining {
            Machining::Cutout { outline, .. } => self.place.carved(outline, (0.0, self.part.thickness)),
            _ => None,
        };
        self.part.machining.iter().filter_map(through)
    }

    /// What its grooves for other pieces take of it.
    pub fn grooves(&self) -> impl Iterator<Item = Prism> + '_ {
        let groove = |machining: &Machining| match machining {
            Machining::Groove { depth, reverse, holds: None, .. } => {
                let from = if *reverse { self.part.thickness - depth } else { 0.0 };
                self.place.carved(&Polygon::rect(machining.bounds()), (from, from + depth))
            }
            _ => None,
        };
        self.part.machining.iter().filter_map(groove)
    }
}

/// All pieces that stand somewhere.
pub(super) fn pieces<'a>(parts: &'a [Part], moves: &[Move]) -> Vec<Piece<'a>> {
    let mut all: Vec<Piece<'a>> = Vec::new();
    for (index, part) in parts.iter().enumerate() {
        for (number, place) in part.places.iter().enumerate() {
            let at = PieceAt { part: index, place: number };
            all.push(Piece { at, part, place, bounds: place.bounds(), moves: None });
        }
    }
    for (index, one) in moves.iter().enumerate() {
        for at in moved_by(&all, one) {
            all.get_mut(at).into_iter().for_each(|piece| piece.moves = Some(index));
        }
    }
    all
}

/// Indices of the pieces that go with a move: the leaf, or what a runner carries with the rest of its drawer.
fn moved_by(all: &[Piece<'_>], one: &Move) -> Vec<usize> {
    match &one.kind {
        MoveKind::Swing(swing) => {
            let leaf = shut(swing);
            let most = all.iter().enumerate().map(|(at, piece)| (at, share(piece, &leaf)));
            let best = most.filter(|(_, share)| *share >= MOST_OF_IT).max_by(|a, b| a.1.total_cmp(&b.1));
            best.into_iter().map(|(at, _)| at).collect()
        }
        MoveKind::Slide(slide) => {
            let inside = |piece: &Piece<'_>| share(piece, &slide.body) >= MOST_OF_IT;
            let carried = |piece: &Piece<'_>| piece.part.held.as_deref().is_some_and(|held| RUNNERS.contains(&held));
            let Some(first) = all.iter().find(|piece| carried(piece) && inside(piece)) else { return Vec::new() };
            let whose = first.part.piece;
            let own = |(_, piece): &(usize, &Piece<'_>)| piece.part.piece == whose && inside(piece);
            all.iter().enumerate().filter(own).map(|(at, _)| at).collect()
        }
    }
}

/// The leaf of a swing when shut, by its bounds.
pub(super) fn shut(swing: &Swing) -> Box3 {
    let Swing { axis, hinge, along, length, thickness, shut, opens } = swing;
    let leaf = Vec2::from_angle(shut.to_radians()) * *length;
    let behind = Vec2::new(leaf.y, -leaf.x) / length.max(f64::MIN_POSITIVE) * *thickness * opens.signum();
    let corners = vec![*hinge, *hinge + leaf, *hinge + leaf + behind, *hinge + behind];
    Prism { axis: *axis, outline: Polygon::new(corners), low: along.0, high: along.1 }.bounds()
}

/// Which share of a piece lies in a box, by bounds.
fn share(piece: &Piece<'_>, room: &Box3) -> f64 {
    let volume = |of: &Box3| AXES.iter().map(|axis| of.range(*axis).1 - of.range(*axis).0).product::<f64>();
    common_bounds(&piece.bounds, room)
        .map_or(0.0, |common| volume(&common) / volume(&piece.bounds).max(f64::MIN_POSITIVE))
}

/// The middle of a range.
pub(super) fn middle((low, high): (f64, f64)) -> f64 {
    f64::midpoint(low, high)
}

/// A point by its coordinates along two axes and a third.
pub(super) fn point(of: [(Axis, f64); 3]) -> Point3 {
    of.into_iter().fold(Point3::default(), |point, (axis, value)| point.on(axis, value))
}

/// Whether two ranges share more than a touch.
pub(super) fn meet(a: (f64, f64), b: (f64, f64)) -> Option<(f64, f64)> {
    let common = (a.0.max(b.0), a.1.min(b.1));
    (common.1 - common.0 > super::practice::TOUCH).then_some(common)
}
