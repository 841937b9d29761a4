//! Whether a body can be brought to its place along an axis past what stands there already.
//!
//! A body is a prism less pockets; it is cut into prisms of convex outline, whose room on the way is again a prism of convex
//! outline. Exact. Degenerate cases: bodies that touch, or share no more than a film of twice [`tolerance::BEARING`] on the
//! way, pass; pockets along another axis than the body's own, which a body that is no block may have, are left filled.

use super::convex::{Convex, Slot, pieces, pieces_of};
use super::overlap::{common_bounds, shared};
use super::polygon::Polygon;
use super::prism::{Axis, Box3, Prism};
use super::region::Region;
use super::section::slot;
use crate::base::tolerance;
use kurbo::{Point, Vec2};

/// A body to be brought to its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Lump {
    chunks: Vec<Chunk>,
    bounds: Box3,
}

/// A prism of convex outline.
#[derive(Debug, Clone, PartialEq)]
struct Chunk {
    prism: Prism,
    outline: Convex,
}

impl Chunk {
    fn new(axis: Axis, outline: Convex, (low, high): (f64, f64)) -> Self {
        let prism = Prism { axis, outline: Polygon::new(outline.points().to_vec()), low, high };
        Self { prism, outline }
    }

    /// All the room that it takes on its way along an axis; `by` is below 0 for the way down.
    fn on_the_way(&self, axis: Axis, by: f64) -> Self {
        let Prism { axis: own, low, high, .. } = self.prism;
        if axis == own {
            return Self::new(own, self.outline.clone(), (low + by.min(0.0), high + by.max(0.0)));
        }
        let way = if slot(own, axis) == Slot::First { Vec2::new(by, 0.0) } else { Vec2::new(0.0, by) };
        let ends = self.outline.points().iter().flat_map(|at| [*at, *at + way]).collect();
        Self::new(own, hull(ends), (low, high))
    }

    fn shares(&self, other: &Self) -> bool {
        let common = shared(&self.prism, &other.prism, &self.outline, &other.outline);
        common.is_some_and(|common| {
            let size = |axis: Axis| common.range(axis).1 - common.range(axis).0;
            [Axis::X, Axis::Y, Axis::Z].into_iter().all(|axis| size(axis) > 2.0 * tolerance::BEARING)
        })
    }
}

impl Lump {
    /// A prism less what pockets take of it.
    #[must_use]
    pub fn new(prism: &Prism, pockets: &[Prism]) -> Self {
        let bounds = prism.bounds();
        let pockets: Vec<&Prism> =
            pockets.iter().filter(|one| common_bounds(&one.bounds(), &bounds).is_some()).collect();
        let Some(axis) = pockets.first().map(|one| one.axis) else { return Self::whole(prism) };
        let body = match () {
            () if prism.axis == axis => prism.clone(),
            () if is_block(prism) => {
                let (low, high) = bounds.range(axis);
                Prism { axis, outline: Polygon::rect(bounds.across(axis)), low, high }
            }
            () => return Self::whole(prism),
        };
        let mut stops = vec![body.low, body.high];
        stops.extend(pockets.iter().flat_map(|one| [one.low, one.high]));
        stops.retain(|at| (body.low..=body.high).contains(at));
        stops.sort_by(f64::total_cmp);
        let mut chunks = Vec::new();
        for layer in stops.iter().copied().zip(stops.iter().copied().skip(1)) {
            if layer.1 - layer.0 <= tolerance::SAME_LENGTH {
                continue;
            }
            let through = |one: &&&Prism| one.axis == axis && one.low <= layer.0 && one.high >= layer.1;
            let taken = Region::new(pockets.iter().filter(through).map(|one| &one.outline));
            let edges: Vec<(Point, Point)> = if taken.is_empty() {
                body.outline.edges().collect()
            } else {
                Region::new([&body.outline]).subtract(&taken).edges().collect()
            };
            chunks.extend(pieces_of(&edges).into_iter().map(|outline| Chunk::new(axis, outline, layer)));
        }
        Self { chunks, bounds }
    }

    fn whole(prism: &Prism) -> Self {
        let chunk = |outline| Chunk::new(prism.axis, outline, (prism.low, prism.high));
        Self { chunks: pieces(&prism.outline).into_iter().map(chunk).collect(), bounds: prism.bounds() }
    }

    /// The smallest box around it, its pockets filled.
    #[must_use]
    pub fn bounds(&self) -> Box3 {
        self.bounds
    }

    /// Whether it meets another body when it is taken away along an axis without end, to the high end or to the low one.
    #[must_use]
    pub fn meets(&self, other: &Self, axis: Axis, up: bool) -> bool {
        let (own, theirs) = (self.bounds.range(axis), other.bounds.range(axis));
        let by = if up { theirs.1 - own.0 } else { theirs.0 - own.1 };
        if (by > 0.0) != up || common_bounds(&reach(&self.bounds, axis, by), &other.bounds).is_none() {
            return false;
        }
        self.chunks.iter().map(|chunk| chunk.on_the_way(axis, by)).any(|way| {
            let bounds = way.prism.bounds();
            let near = |chunk: &&Chunk| common_bounds(&bounds, &chunk.prism.bounds()).is_some();
            other.chunks.iter().filter(near).any(|chunk| way.shares(chunk))
        })
    }
}

fn reach(bounds: &Box3, axis: Axis, by: f64) -> Box3 {
    let (low, high) = bounds.range(axis);
    bounds.with(axis, (low + by.min(0.0), high + by.max(0.0)))
}

fn is_block(prism: &Prism) -> bool {
    let area = prism.outline.bounds().area();
    prism.outline.points().len() == 4 && (prism.outline.area() - area).abs() <= tolerance::ROUNDING * area
}

/// The convex outline around points.
fn hull(mut points: Vec<Point>) -> Convex {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for point in points {
            while let [.., a, b] = chain[..]
                && (b - a).cross(point - a) <= 0.0
            {
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut all = half(&mut points.iter().copied());
    all.extend(half(&mut points.iter().rev().copied()));
    Convex::new(all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Rect;

    fn block(x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Prism {
        Prism::from(Box3 { x, y, z })
    }

    fn ways(body: &Lump, other: &Lump) -> Vec<(Axis, bool)> {
        let all = [Axis::X, Axis::Y, Axis::Z].into_iter().flat_map(|axis| [(axis, false), (axis, true)]);
        all.filter(|(axis, up)| !body.meets(other, *axis, *up)).collect()
    }

    /// A shelf beside a side: all ways but through it.
    #[test]
    fn what_touches_passes() {
        let side = Lump::new(&block((0.0, 15.0), (0.0, 300.0), (0.0, 800.0)), &[]);
        let shelf = Lump::new(&block((15.0, 500.0), (0.0, 300.0), (400.0, 415.0)), &[]);
        let all = ways(&shelf, &side);
        assert_eq!(all, [(Axis::X, true), (Axis::Y, false), (Axis::Y, true), (Axis::Z, false), (Axis::Z, true)]);
        let (a, b) = (side.meets(&shelf, Axis::X, true), shelf.meets(&side, Axis::X, false));
        assert!(a && b, "it is as much in the other's way");
    }

    /// A back in a groove of a side that is open at the top only: up, and out of the groove.
    #[test]
    fn a_panel_leaves_its_groove_along_it() {
        let side = block((0.0, 15.0), (0.0, 300.0), (0.0, 800.0));
        let groove =
            Prism { axis: Axis::X, outline: Polygon::rect(Rect::new(280.0, 60.0, 286.0, 800.0)), low: 8.0, high: 15.0 };
        let side = Lump::new(&side, &[groove]);
        let back = Lump::new(&block((8.5, 500.0), (280.0, 286.0), (60.0, 800.0)), &[]);
        assert_eq!(ways(&back, &side), [(Axis::X, true), (Axis::Z, true)]);
    }

    /// A sink of 300 x 300 in its cut-out of a worktop goes up and down, one with a sloping side only up.
    #[test]
    fn through_a_hole_and_a_wedge_in_it() {
        let top = block((0.0, 800.0), (0.0, 600.0), (880.0, 900.0));
        let hole = Prism::upright(Rect::new(200.0, 100.0, 500.0, 400.0), 880.0, 900.0);
        let top = Lump::new(&top, &[hole]);
        let sink = Lump::new(&block((200.0, 500.0), (100.0, 400.0), (700.0, 900.0)), &[]);
        assert_eq!(ways(&sink, &top), [(Axis::Z, false), (Axis::Z, true)]);
        let corners =
            [(200.0, 900.0), (200.0, 880.0), (150.0, 700.0), (500.0, 700.0), (500.0, 900.0)].map(Point::from).to_vec();
        let wedge = Prism { axis: Axis::Y, outline: Polygon::new(corners), low: 100.0, high: 400.0 };
        assert_eq!(ways(&Lump::new(&wedge, &[]), &top), [(Axis::Z, false)]);
    }

    /// An angle bracket round a post cannot go through it, and passes where it is open.
    #[test]
    fn an_l_leaves_a_post_at_its_open_sides() {
        let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 10.0), (10.0, 10.0), (10.0, 100.0), (0.0, 100.0)];
        let l = Prism { axis: Axis::Z, outline: Polygon::new(corners.map(Point::from).to_vec()), low: 0.0, high: 50.0 };
        let post = Lump::new(&block((20.0, 60.0), (20.0, 60.0), (-100.0, 500.0)), &[]);
        assert_eq!(
            ways(&Lump::new(&l, &[]), &post),
            [(Axis::X, false), (Axis::Y, false), (Axis::Z, false), (Axis::Z, true)]
        );
    }
}
