//! The pieces of a module as its sheet shows them: true outlines, and what is cut into them.

use super::look::Look;
use crate::drawing::{Item, LineClass};
use crate::geometry::{Axis, Box3, Polygon, Prism};
use crate::joinery::prism_before;
use crate::model::{Machining, Module, Part, Place};
use crate::views::kit::placement::Placement;
use kurbo::{BezPath, Point, Rect, Vec2};

/// Corners of a bore on paper.
const CORNERS: u32 = 24;

/// A piece in the directions of who stands before the module.
pub(super) struct Piece {
    /// Index of its part in the module.
    pub part: usize,
    pub at: Box3,
    solid: Prism,
    cuts: Vec<(Prism, LineClass)>,
}

/// All pieces whose place is known, from the module's front left lower corner.
pub(super) fn pieces(module: &Module) -> Vec<Piece> {
    let places =
        module.parts.iter().enumerate().flat_map(|(index, part)| part.places.iter().map(move |at| (index, part, at)));
    let mut pieces: Vec<Piece> = places.map(|(index, part, at)| Piece::new(module, index, part, at)).collect();
    if let Some(whole) = whole(&pieces) {
        pieces.iter_mut().for_each(|piece| piece.move_by([-whole.x.0, -whole.y.0, -whole.z.0]));
    }
    pieces
}

/// The box around all pieces.
pub(super) fn whole(pieces: &[Piece]) -> Option<Box3> {
    pieces.iter().map(|piece| piece.at).reduce(|a, b| a.union(&b))
}

impl Piece {
    fn new(module: &Module, index: usize, part: &Part, place: &Place) -> Self {
        let solid = prism_before(module, &place.solid);
        let cuts = part.machining.iter().filter_map(|one| {
            let (outline, line) = mark(one);
            let cut = place.carved(&outline, (0.0, part.thickness))?;
            Some((prism_before(module, &cut), line))
        });
        Self { part: index, at: solid.bounds(), cuts: cuts.collect(), solid }
    }

    fn move_by(&mut self, by: [f64; 3]) {
        for (axis, by) in [Axis::X, Axis::Y, Axis::Z].into_iter().zip(by) {
            self.solid = self.solid.moved(axis, by);
            self.cuts.iter_mut().for_each(|(cut, _)| *cut = cut.moved(axis, by));
        }
        self.at = self.solid.bounds();
    }

    /// Its outlines as they are seen.
    pub fn outlines(&self, look: Look, place: Placement) -> Vec<BezPath> {
        seen(&self.solid, look, place)
    }

    /// What is cut into it, where its face or its back is seen: what goes through as visible edges, the rest dashed.
    pub fn cuts(&self, look: Look, place: Placement) -> Vec<Item> {
        let facing = self.cuts.iter().filter(|(cut, _)| cut.axis == look.axis());
        facing.flat_map(|(cut, line)| seen(cut, look, place).into_iter().map(|path| Item::line(path, *line))).collect()
    }
}

fn seen(prism: &Prism, look: Look, place: Placement) -> Vec<BezPath> {
    let outlines = look.shadow(prism, f64::NEG_INFINITY, f64::INFINITY);
    outlines.iter().map(|outline| place.closed(outline.points())).collect()
}

/// What a machining takes of the face, and how its edge is drawn.
fn mark(machining: &Machining) -> (Polygon, LineClass) {
    match machining {
        Machining::Cutout { outline, .. } => (outline.clone(), LineClass::Visible),
        Machining::Groove { .. } => (Polygon::rect(machining.bounds()), LineClass::Above),
        Machining::Hole { depth, .. } => {
            let line = if depth.is_none() { LineClass::Visible } else { LineClass::Above };
            (round(machining.bounds()), line)
        }
    }
}

fn round(bounds: Rect) -> Polygon {
    let point = |step: u32| {
        let turn = f64::from(step) / f64::from(CORNERS) * std::f64::consts::TAU;
        bounds.center() + Vec2::from_angle(turn) * (bounds.width() / 2.0)
    };
    Polygon::new((0..CORNERS).map(point).collect::<Vec<Point>>())
}
