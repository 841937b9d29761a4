//! Whether a body stands in the way of a look from one point to another.

use super::clearance_arc::nearest_on;
use super::prism::{Point3, Prism};
use crate::base::tolerance::SAME_LENGTH;
use kurbo::Point;

/// Whether the straight line between two points goes through a prism; one that only touches it passes.
#[must_use]
pub fn hides(prism: &Prism, mut from: Point3, mut to: Point3) -> bool {
    let length = from.distance(to);
    let (a, b) = (from.across(prism.axis), to.across(prism.axis));
    let (low, high) = (*from.along_mut(prism.axis), *to.along_mut(prism.axis));
    let Some((start, end)) = within((low, high), (prism.low, prism.high)) else { return false };
    let mut stops = vec![start, end];
    stops.extend(prism.outline.edges().filter_map(|edge| crossing((a, b), edge)));
    stops.retain(|at| (start..=end).contains(at));
    stops.sort_by(f64::total_cmp);
    let off_border = |p: Point| prism.outline.edges().all(|(c, d)| nearest_on(c, d, p).distance(p) > SAME_LENGTH / 2.0);
    let inside = |from: f64, to: f64| {
        let middle = a.lerp(b, f64::midpoint(from, to));
        (to - from) * length > SAME_LENGTH && prism.outline.contains(middle) && off_border(middle)
    };
    stops.iter().zip(stops.iter().skip(1)).any(|(from, to)| inside(*from, *to))
}

/// The shares of a line between which one coordinate of it lies in a range.
fn within((from, to): (f64, f64), (low, high): (f64, f64)) -> Option<(f64, f64)> {
    if from == to {
        return (low < from && from < high).then_some((0.0, 1.0));
    }
    let (a, b) = ((low - from) / (to - from), (high - from) / (to - from));
    let (start, end) = (a.min(b).max(0.0), a.max(b).min(1.0));
    (start < end).then_some((start, end))
}

/// The share of a line at which it crosses an edge.
fn crossing((a, b): (Point, Point), (c, d): (Point, Point)) -> Option<f64> {
    let (along, edge) = (b - a, d - c);
    let turn = along.cross(edge);
    (turn != 0.0).then(|| (c - a).cross(edge) / turn)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Axis, Polygon};
    use kurbo::Rect;

    fn at(x: f64, y: f64, z: f64) -> Point3 {
        Point3 { x, y, z }
    }

    #[test]
    fn a_cupboard_hides_what_is_behind_it_and_not_what_is_above_or_beside() {
        let cupboard = Prism::upright(Rect::new(400.0, 0.0, 800.0, 500.0), 0.0, 900.0);
        let eye = at(0.0, 250.0, 1000.0);
        assert!(hides(&cupboard, eye, at(1200.0, 250.0, 500.0)));
        assert!(!hides(&cupboard, eye, at(1200.0, 250.0, 1000.0)), "over it");
        assert!(!hides(&cupboard, at(0.0, 250.0, 900.0), at(1200.0, 250.0, 900.0)), "along its top");
        for side in [0.0, 500.0] {
            assert!(!hides(&cupboard, at(0.0, side, 450.0), at(1200.0, side, 450.0)), "along its side");
        }
        assert!(hides(&cupboard, at(0.0, 499.0, 450.0), at(1200.0, 499.0, 450.0)));
        assert!(!hides(&cupboard, eye, at(300.0, 250.0, 100.0)), "before it");
    }

    #[test]
    fn one_looks_through_the_notch_of_a_u() {
        let u = [
            (0.0, 0.0),
            (900.0, 0.0),
            (900.0, 600.0),
            (600.0, 600.0),
            (600.0, 300.0),
            (300.0, 300.0),
            (300.0, 600.0),
            (0.0, 600.0),
        ];
        let u = Polygon::new(u.iter().map(|(x, y)| Point::new(*x, *y)).collect());
        let desk = Prism { axis: Axis::Z, outline: u, low: 0.0, high: 700.0 };
        assert!(!hides(&desk, at(450.0, 400.0, 350.0), at(450.0, 1000.0, 350.0)));
        assert!(hides(&desk, at(450.0, 400.0, 350.0), at(750.0, 400.0, 350.0)));
        assert!(!hides(&desk, at(310.0, 590.0, 350.0), at(590.0, 590.0, 350.0)));
    }
}
