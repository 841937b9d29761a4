//! How far two prisms are apart in space, whatever their axes and however many corners their outlines have.

use super::clearance_arc::nearest_on;
use super::overlap::overlap;
use super::prism::{Axis, Box3, Point3, Prism};
use kurbo::Point;

/// A straight line between two points.
type Edge = (Point3, Point3);

/// The distance between two prisms with a point of each where they are nearest; 0 where they meet or share space.
///
/// A pair of nearest points is a corner of one and any point of the other, or lies on an edge of each: both are looked at.
#[must_use]
pub fn apart(a: &Prism, b: &Prism) -> (f64, Point3, Point3) {
    if let Some(shared) = overlap(a, b) {
        return (0.0, shared.centre(), shared.centre());
    }
    let (corners_a, corners_b) = (corners(a), corners(b));
    let from_a = corners_a.iter().map(|corner| (*corner, nearest(b, *corner)));
    let from_b = corners_b.iter().map(|corner| (nearest(a, *corner), *corner));
    let (edges_a, edges_b) = (edges(a), edges(b));
    let crossing = edges_a.iter().flat_map(|one| edges_b.iter().map(|other| between(*one, *other)));
    let all = from_a.chain(from_b).chain(crossing).map(|(p, q)| (p.distance(q), p, q));
    all.min_by(|one, other| one.0.total_cmp(&other.0)).unwrap_or_default()
}

/// The distance between two boxes: none of what lies in one is nearer to anything in the other.
#[must_use]
pub fn boxes_apart(a: &Box3, b: &Box3) -> f64 {
    [Axis::X, Axis::Y, Axis::Z].into_iter().map(|axis| a.gap(b, axis).max(0.0).powi(2)).sum::<f64>().sqrt()
}

/// How many pairs of edges and corners are looked at for two prisms.
#[must_use]
pub fn apart_work(a: &Prism, b: &Prism) -> usize {
    (a.outline.points().len() * 3).saturating_mul(b.outline.points().len() * 3)
}

fn corners(prism: &Prism) -> Vec<Point3> {
    let of = |at: f64| prism.outline.points().iter().map(move |p| in_space(prism, *p, at));
    of(prism.low).chain(of(prism.high)).collect()
}

fn edges(prism: &Prism) -> Vec<Edge> {
    let of = |at: f64| prism.outline.edges().map(move |(p, q)| (in_space(prism, p, at), in_space(prism, q, at)));
    let along =
        prism.outline.points().iter().map(|p| (in_space(prism, *p, prism.low), in_space(prism, *p, prism.high)));
    of(prism.low).chain(of(prism.high)).chain(along).collect()
}

/// A point of the outline at a place along the axis.
fn in_space(prism: &Prism, p: Point, along: f64) -> Point3 {
    let (first, second) = prism.axis.plane();
    Point3::default().on(first, p.x).on(second, p.y).on(prism.axis, along)
}

/// The point of a prism that is nearest to a point.
fn nearest(prism: &Prism, mut p: Point3) -> Point3 {
    let flat = p.across(prism.axis);
    let along = p.along_mut(prism.axis).clamp(prism.low, prism.high.max(prism.low));
    if prism.outline.contains(flat) {
        return in_space(prism, flat, along);
    }
    let on = prism.outline.edges().map(|(a, b)| nearest_on(a, b, flat));
    let near = on.min_by(|a, b| a.distance(flat).total_cmp(&b.distance(flat))).unwrap_or(flat);
    in_space(prism, near, along)
}

/// The nearest points of two straight lines.
fn between((a, b): Edge, (c, d): Edge) -> (Point3, Point3) {
    let (u, v, w) = (b.minus(a), d.minus(c), a.minus(c));
    let (uu, uv, vv, uw, vw) = (u.dot(u), u.dot(v), v.dot(v), u.dot(w), v.dot(w));
    let turn = uu * vv - uv * uv;
    let share = |over: f64, of: f64| if of > 0.0 { (over / of).clamp(0.0, 1.0) } else { 0.0 };
    let s = if turn > 0.0 { ((uv * vw - vv * uw) / turn).clamp(0.0, 1.0) } else { 0.0 };
    let t = share(uv * s + vw, vv);
    let s = share(uv * t - uw, uu);
    (a.toward(b, s), c.toward(d, t))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Polygon;
    use kurbo::Rect;

    fn block(x: f64, y: f64, z: f64, side: f64) -> Prism {
        Prism::upright(Rect::new(x, y, x + side, y + side), z, z + side)
    }

    fn polygon(points: &[(f64, f64)]) -> Polygon {
        Polygon::new(points.iter().map(|(x, y)| Point::new(*x, *y)).collect())
    }

    fn near(a: &Prism, b: &Prism, wanted: f64) {
        for (distance, p, q) in [apart(a, b), apart(b, a)] {
            assert!(
                (distance - wanted).abs() < 1e-9 && (p.distance(q) - wanted).abs() < 1e-9,
                "{distance} {p:?} {q:?}"
            );
        }
    }

    #[test]
    fn blocks_side_by_side_corner_to_corner_and_one_in_the_other() {
        let one = block(0.0, 0.0, 0.0, 100.0);
        near(&one, &block(130.0, 20.0, 10.0, 50.0), 30.0);
        near(&one, &block(130.0, 140.0, 0.0, 50.0), 50.0);
        near(&one, &block(120.0, 130.0, 160.0, 50.0), (400.0_f64 + 900.0 + 3600.0).sqrt());
        near(&one, &block(100.0, 0.0, 0.0, 100.0), 0.0);
        near(&one, &block(10.0, 10.0, 10.0, 20.0), 0.0);
    }

    /// The face x + z = 500 of a wedge and a corner beyond it: the distance of a point from a plane.
    #[test]
    fn a_corner_before_a_slope_of_another_axis() {
        let outline = polygon(&[(0.0, 0.0), (500.0, 0.0), (0.0, 500.0)]);
        let wedge = Prism { axis: Axis::Y, outline, low: 0.0, high: 1000.0 };
        near(&wedge, &block(300.0, 400.0, 300.0, 100.0), 100.0 / 2.0_f64.sqrt());
    }

    /// Two ridges that cross at a right angle, one over the other: nearest on an edge of each.
    #[test]
    fn edges_that_cross_in_the_air() {
        let below = Prism {
            axis: Axis::X,
            outline: polygon(&[(0.0, 0.0), (200.0, 0.0), (100.0, 100.0)]),
            low: 0.0,
            high: 900.0,
        };
        let above = Prism {
            axis: Axis::Y,
            outline: polygon(&[(300.0, 340.0), (500.0, 340.0), (400.0, 240.0)]),
            low: -50.0,
            high: 400.0,
        };
        near(&below, &above, 140.0);
    }

    #[test]
    fn what_stands_in_the_notch_of_an_l_is_measured_to_its_inner_edges() {
        let outline =
            polygon(&[(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (300.0, 300.0), (300.0, 900.0), (0.0, 900.0)]);
        let bench = Prism { axis: Axis::Z, outline, low: 0.0, high: 450.0 };
        near(&bench, &block(370.0, 420.0, 0.0, 100.0), 70.0);
        near(&bench, &block(370.0, 420.0, 460.0, 100.0), (70.0_f64.powi(2) + 100.0).sqrt());
    }

    /// A hole in a wall has no thickness.
    #[test]
    fn flat_ones_have_a_distance_too() {
        let hole = Prism {
            axis: Axis::Y,
            outline: polygon(&[(0.0, 0.0), (600.0, 0.0), (600.0, 800.0), (0.0, 800.0)]),
            low: 0.0,
            high: 0.0,
        };
        near(&hole, &block(100.0, 250.0, 100.0, 100.0), 250.0);
    }
}
