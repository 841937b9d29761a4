//! How far pieces are pulled apart, each the way it comes in, until it stands clear of those that stand before it.

use super::bodies::Standing;
use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Axis, Box3};
use crate::joinery::before;
use crate::joints::Step;
use crate::model::{Module, PieceAt, Toward};

/// Least gap between what is pulled apart, mm, and as a share of the module's largest extent.
const GAP: (f64, f64) = (40.0, 0.05);
/// So much more for leaves, which would hide what is behind them.
const LEAF: f64 = 3.0;
/// What is made up before comes out by so much of its depth.
const OUT: f64 = 0.7;
/// Pieces that share less than this across the way do not stand in each other's way, mm: a groove is less deep.
const BESIDE: f64 = 8.0;
/// Rounds in which a piece finds its place.
const ROUNDS: usize = 40;

/// Where the pieces of a step go, as who stands before the module sees it: all the same way, so that they do not meet each other.
#[derive(Debug, Clone)]
pub(super) struct Way {
    pub pieces: Vec<PieceAt>,
    pub from: Option<Toward>,
    /// Gaps are so many times wider.
    wide: f64,
    /// A share of its own depth that it comes out at least.
    out: f64,
}

/// The ways of steps, in their order.
pub(super) fn ways(module: &Module, steps: &[Step]) -> Vec<Way> {
    let way = |step: &Step| {
        let leaf = |piece: &PieceAt| module.together.leaves.iter().any(|leaf| leaf.piece == *piece);
        Way {
            pieces: step.pieces.clone(),
            from: step.from.map(|from| toward(module, from)),
            wide: if step.pieces.iter().any(leaf) { LEAF } else { 1.0 },
            out: if step.kit.is_some() { OUT } else { 0.0 },
        }
    };
    steps.iter().map(way).collect()
}

/// A direction as who stands before a module sees it.
pub(super) fn toward(module: &Module, from: Toward) -> Toward {
    let point = before(module, &Box3::default());
    let moved = before(module, &Box3::default().moved(from.axis, if from.up { 1.0 } else { -1.0 }));
    let by = |axis: Axis| moved.range(axis).0 - point.range(axis).0;
    let axis = [Axis::X, Axis::Y, Axis::Z].into_iter().find(|axis| by(*axis) != 0.0).unwrap_or(from.axis);
    Toward { axis, up: by(axis) > 0.0 }
}

/// How far each standing piece is moved, with gaps some times the least.
pub(super) fn offsets(standing: &[Standing], ways: &[Way], factor: f64) -> Vec<(Axis, f64)> {
    let mut offsets = vec![(Axis::Z, 0.0); standing.len()];
    let Some(whole) = standing.iter().map(|one| one.at).reduce(|a, b| a.union(&b)) else { return offsets };
    let extent = |axis: Axis| whole.range(axis).1 - whole.range(axis).0;
    let largest = extent(Axis::X).max(extent(Axis::Y)).max(extent(Axis::Z));
    let gap = (GAP.0 + GAP.1 * largest) * factor;
    let mut placed: Vec<Box3> = Vec::new();
    for way in ways {
        let own: Vec<usize> =
            way.pieces.iter().filter_map(|p| standing.iter().position(|one| one.piece == *p)).collect();
        let boxes: Vec<Box3> = own.iter().filter_map(|at| standing.get(*at)).map(|one| one.at).collect();
        let Some(whole) = boxes.iter().copied().reduce(|a, b| a.union(&b)) else { continue };
        let Some(from) = way.from else {
            placed.extend(boxes);
            continue;
        };
        let least = way.out * (whole.range(from.axis).1 - whole.range(from.axis).0);
        let by = clear(&boxes, &placed, from, (gap * way.wide, least));
        placed.extend(boxes.iter().map(|at| at.moved(from.axis, by)));
        own.iter().for_each(|at| offsets.get_mut(*at).into_iter().for_each(|offset| *offset = (from.axis, by)));
    }
    offsets
}

/// The least way on which boxes stand clear of those placed before by a gap, or more.
fn clear(own: &[Box3], placed: &[Box3], from: Toward, (gap, least): (f64, f64)) -> f64 {
    let sign = if from.up { 1.0 } else { -1.0 };
    let (first, second) = from.axis.plane();
    let share = |a: (f64, f64), b: (f64, f64)| a.1.min(b.1) - a.0.max(b.0) > BESIDE;
    let along = |of: &Box3| {
        let (low, high) = of.range(from.axis);
        if from.up { (low, high) } else { (-high, -low) }
    };
    let pairs: Vec<((f64, f64), (f64, f64))> = own
        .iter()
        .flat_map(|a| placed.iter().map(move |b| (a, b)))
        .filter(|(a, b)| share(a.range(first), b.range(first)) && share(a.range(second), b.range(second)))
        .map(|(a, b)| (along(a), along(b)))
        .collect();
    let mut by = least;
    for _ in 0..ROUNDS {
        // What lies ahead beyond a gap is not in the way.
        let near = pairs.iter().filter(|(a, b)| a.0 + by < b.1 + gap && b.0 < a.1 + by + gap);
        let Some(next) = near.map(|(a, b)| b.1 + gap - a.0).reduce(f64::max).filter(|next| *next > by + SAME_LENGTH)
        else {
            break;
        };
        by = next;
    }
    sign * by
}
