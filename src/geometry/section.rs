//! Shadows of prisms: the part of a prism in a slab across another axis, seen along that axis.

use super::convex::{Convex, Slot, pieces};
use super::polygon::Polygon;
use super::prism::{Axis, Box3, Prism};
use crate::base::tolerance;

impl Prism {
    /// The outline, seen along `axis`, of the part between `low` and `high` on that axis; none if it only touches.
    ///
    /// Exact: for a prism along the same axis its own outline, else one rectangle for each stretch of the third axis
    /// that the clipped outline covers. Rectangles have no inside in common.
    #[must_use]
    pub fn shadow(&self, axis: Axis, low: f64, high: f64) -> Vec<Polygon> {
        if axis == self.axis {
            let meets = self.high.min(high) - self.low.max(low) > tolerance::SAME_LENGTH;
            return if meets { vec![self.outline.clone()] } else { Vec::new() };
        }
        let third = self.axis.third(axis);
        let clipped = pieces(&self.outline).into_iter().map(|piece| piece.within(slot(self.axis, axis), (low, high)));
        let spans = clipped.filter(Convex::is_thick).map(|piece| piece.range(slot(self.axis, third))).collect();
        let along = Box3::default().with(self.axis, (self.low, self.high));
        merged(spans).into_iter().map(|span| Polygon::rect(along.with(third, span).across(axis))).collect()
    }
}

/// Which coordinate of the plane across `plane` runs along `axis`; the second if `axis` is `plane` itself.
pub(super) fn slot(plane: Axis, axis: Axis) -> Slot {
    if plane.plane().0 == axis { Slot::First } else { Slot::Second }
}

/// Joins ranges that touch or overlap; the result is sorted.
pub(super) fn merged(mut spans: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    spans.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut joined: Vec<(f64, f64)> = Vec::with_capacity(spans.len());
    for span in spans {
        match joined.last_mut() {
            Some(last) if span.0 <= last.1 => last.1 = last.1.max(span.1),
            _ => joined.push(span),
        }
    }
    joined
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Point, Rect};

    fn wedge() -> Prism {
        let outline = Polygon::new(vec![Point::new(0.0, 0.0), Point::new(400.0, 0.0), Point::new(0.0, 400.0)]);
        Prism { axis: Axis::Y, outline, low: 100.0, high: 300.0 }
    }

    #[test]
    fn own_axis_gives_the_outline_or_nothing() {
        assert_eq!(wedge().shadow(Axis::Y, 0.0, 200.0), vec![wedge().outline]);
        assert!(wedge().shadow(Axis::Y, 300.0, 400.0).is_empty());
    }

    #[test]
    fn a_wedge_seen_from_above_in_a_slab_is_as_long_as_at_the_lowest_height() {
        // Hand: at z = 100 the wedge is 300 long.
        assert_eq!(wedge().shadow(Axis::Z, 100.0, 250.0), vec![Polygon::rect(Rect::new(0.0, 100.0, 300.0, 300.0))]);
        assert_eq!(wedge().shadow(Axis::X, 300.0, 500.0), vec![Polygon::rect(Rect::new(100.0, 0.0, 300.0, 100.0))]);
    }

    #[test]
    fn a_portal_has_two_feet() {
        let leg = |x, z| Point::new(x, z);
        let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 500.0), (300.0, 500.0), (300.0, 0.0), (400.0, 0.0)];
        let mut points: Vec<Point> = corners.iter().map(|(x, z)| leg(*x, *z)).collect();
        points.extend([leg(400.0, 600.0), leg(0.0, 600.0)]);
        let portal = Prism { axis: Axis::Y, outline: Polygon::new(points), low: 0.0, high: 50.0 };
        let feet = portal.shadow(Axis::Z, 0.0, 400.0);
        let foot = |x0, x1| Polygon::rect(Rect::new(x0, 0.0, x1, 50.0));
        assert_eq!(feet, vec![foot(0.0, 100.0), foot(300.0, 400.0)]);
        assert_eq!(portal.shadow(Axis::Z, 0.0, 550.0), vec![foot(0.0, 400.0)]);
    }
}
