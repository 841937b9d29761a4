//! The pieces of a module as bodies that can be seen, as who stands before it sees them.

use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Body, Box3, Polygon, Prism};
use crate::joinery::prism_before;
use crate::model::{Machining, Module, Part, PieceAt, Place};
use kurbo::{Point, Rect, Vec2};

/// Corners of a round hole.
const CORNERS: u32 = 24;
/// Smaller holes are not drawn, mm.
const LEAST_HOLE: f64 = 20.0;

/// A piece where it stands.
#[derive(Debug, Clone)]
pub(super) struct Standing {
    pub piece: PieceAt,
    pub body: Body,
    pub at: Box3,
}

/// All pieces whose place is known.
pub(super) fn standing(module: &Module) -> Vec<Standing> {
    let mut made = Vec::new();
    for (index, part) in module.parts.iter().enumerate() {
        for (number, place) in part.places.iter().enumerate() {
            let body = body(module, part, place);
            let at = body.prism.bounds();
            made.push(Standing { piece: PieceAt { part: index, place: number }, body, at });
        }
    }
    made
}

fn body(module: &Module, part: &Part, place: &Place) -> Body {
    let solid = prism_before(module, &place.solid);
    let face = place.carved(&Polygon::default(), (0.0, 0.0)).map(|face| prism_before(module, &face));
    let Some(face) = face else { return Body::from(solid) };
    // A block is a prism along any axis: it is taken as one through its faces, so that holes and grooves go along it.
    let bounds = solid.bounds();
    let prism = match () {
        () if solid.axis == face.axis => solid,
        () if part.outline.is_none() => {
            let (low, high) = bounds.range(face.axis);
            Prism { axis: face.axis, outline: Polygon::rect(bounds.across(face.axis)), low, high }
        }
        () => return Body::from(solid),
    };
    let mut body = Body::from(prism);
    for machining in &part.machining {
        let (outline, depth) = match machining {
            Machining::Cutout { outline, .. } => (outline.clone(), (0.0, part.thickness)),
            Machining::Groove { depth, reverse, .. } => {
                (Polygon::rect(machining.bounds()), within(*depth, *reverse, part.thickness))
            }
            Machining::Hole { diameter, .. } if *diameter < LEAST_HOLE => continue,
            Machining::Hole { depth, reverse, .. } => {
                let deep = depth.unwrap_or(part.thickness);
                (round(machining.bounds()), within(deep, *reverse, part.thickness))
            }
        };
        let Some(cut) = place.carved(&outline, depth).map(|cut| prism_before(module, &cut)) else { continue };
        if cut.high - cut.low >= part.thickness - SAME_LENGTH {
            body.holes.push(cut.outline);
        } else {
            let high = f64::midpoint(cut.low, cut.high) > f64::midpoint(body.prism.low, body.prism.high);
            body.marks.push((high, cut.outline));
        }
    }
    body
}

fn within(depth: f64, reverse: bool, thickness: f64) -> (f64, f64) {
    let from = if reverse { thickness - depth } else { 0.0 };
    (from, from + depth)
}

fn round(bounds: Rect) -> Polygon {
    let point = |step: u32| {
        let turn = f64::from(step) / f64::from(CORNERS) * std::f64::consts::TAU;
        bounds.center() + Vec2::from_angle(turn) * (bounds.width() / 2.0)
    };
    Polygon::new((0..CORNERS).map(point).collect::<Vec<Point>>())
}
