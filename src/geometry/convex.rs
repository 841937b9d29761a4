//! Convex pieces of a polygon, and cutting them with straight lines and with each other.

use super::polygon::Polygon;
use crate::base::tolerance;
use kurbo::{Point, Rect};

/// A convex polygon, counter-clockwise; may be empty.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Convex {
    points: Vec<Point>,
}

/// Which of the two coordinates of a plane point is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Slot {
    /// The first.
    First,
    /// The second.
    Second,
}

impl Slot {
    /// That coordinate of a point.
    pub(super) fn of(self, point: Point) -> f64 {
        match self {
            Self::First => point.x,
            Self::Second => point.y,
        }
    }
}

impl Convex {
    /// Convex corners in counter-clockwise order.
    pub(super) fn new(points: Vec<Point>) -> Self {
        Self { points }
    }

    /// The corners.
    pub(super) fn points(&self) -> &[Point] {
        &self.points
    }

    /// The smallest rectangle around it.
    pub(super) fn bounds(&self) -> Rect {
        let Some(first) = self.points.first() else { return Rect::ZERO };
        self.points.iter().fold(Rect::from_points(*first, *first), |rect, point| rect.union_pt(*point))
    }

    /// Range along one coordinate; (0, 0) when empty.
    pub(super) fn range(&self, slot: Slot) -> (f64, f64) {
        let bounds = self.bounds();
        match slot {
            Slot::First => (bounds.x0, bounds.x1),
            Slot::Second => (bounds.y0, bounds.y1),
        }
    }

    /// Whether it is wider than [`tolerance::SAME_LENGTH`]: twice the area over the outline's length, which for a thin
    /// strip is its width.
    pub(super) fn is_thick(&self) -> bool {
        self.is_wider_than(tolerance::SAME_LENGTH)
    }

    /// The same for another width, mm.
    pub(super) fn is_wider_than(&self, width: f64) -> bool {
        let corners = || self.points.iter().zip(self.points.iter().cycle().skip(1));
        let area = corners().map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>() / 2.0;
        let around: f64 = corners().map(|(a, b)| a.distance(*b)).sum();
        2.0 * area > width * around
    }

    /// The part where `side` is not negative; `side` is linear.
    pub(super) fn keep(&self, side: impl Fn(Point) -> f64) -> Self {
        let mut points = Vec::with_capacity(self.points.len() + 1);
        for (a, b) in self.points.iter().zip(self.points.iter().cycle().skip(1)) {
            let (at_a, at_b) = (side(*a), side(*b));
            if at_a >= 0.0 {
                points.push(*a);
            }
            if (at_a > 0.0 && at_b < 0.0) || (at_a < 0.0 && at_b > 0.0) {
                points.push(a.lerp(*b, at_a / (at_a - at_b)));
            }
        }
        Self { points }
    }

    /// The part with a coordinate in a range.
    pub(super) fn within(&self, slot: Slot, range: (f64, f64)) -> Self {
        self.keep(|point| slot.of(point) - range.0).keep(|point| range.1 - slot.of(point))
    }

    /// The part inside another convex polygon. Edges too short to have a sure direction do not cut.
    pub(super) fn common(&self, other: &Self) -> Self {
        let edges = other.points.iter().zip(other.points.iter().cycle().skip(1));
        edges
            .filter(|(a, b)| a.distance(**b) > tolerance::NO_DIRECTION)
            .fold(self.clone(), |rest, (a, b)| rest.keep(|p| (*b - *a).cross(p - *a)))
    }
}

/// Cuts a polygon into trapezoids between neighbouring first coordinates of its corners.
///
/// Pieces have no inside in common and together are the polygon, but for slivers narrower than
/// [`tolerance::NO_DIRECTION`]; a polygon without area has none.
pub(super) fn pieces(polygon: &Polygon) -> Vec<Convex> {
    pieces_of(&polygon.edges().collect::<Vec<_>>())
}

/// The same for all edges of outlines with holes.
pub(super) fn pieces_of(edges: &[(Point, Point)]) -> Vec<Convex> {
    let mut stops: Vec<f64> = edges.iter().map(|(from, _)| from.x).collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup();
    let pairs = stops.iter().zip(stops.iter().skip(1)).filter(|(from, to)| **to - **from > tolerance::NO_DIRECTION);
    pairs.flat_map(|(from, to)| trapezoids(edges, *from, *to)).collect()
}

fn trapezoids(edges: &[(Point, Point)], from: f64, to: f64) -> Vec<Convex> {
    let mut lines: Vec<(f64, f64)> = edges
        .iter()
        .filter(|(a, b)| a.x.min(b.x) <= from && a.x.max(b.x) >= to)
        .map(|(a, b)| (height(*a, *b, from), height(*a, *b, to)))
        .collect();
    lines.sort_by(|a, b| (a.0 + a.1).total_cmp(&(b.0 + b.1)));
    let chunks = lines.chunks_exact(2);
    chunks
        .filter_map(|pair| if let [low, high] = pair { Some(trapezoid(from, to, *low, *high)) } else { None })
        .collect()
}

fn trapezoid(from: f64, to: f64, low: (f64, f64), high: (f64, f64)) -> Convex {
    let points = vec![Point::new(from, low.0), Point::new(to, low.1), Point::new(to, high.1), Point::new(from, high.0)];
    Convex::new(points)
}

fn height(a: Point, b: Point, at: f64) -> f64 {
    if at == a.x {
        a.y
    } else if at == b.x {
        b.y
    } else {
        a.y + (b.y - a.y) * (at - a.x) / (b.x - a.x)
    }
}
