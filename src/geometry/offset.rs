//! Regions made wider and narrower, with round corners: where the middle of a round tool may go.

use super::polygon::Polygon;
use super::region::Region;
use kurbo::{Point, Vec2};
use std::f64::consts::TAU;

/// Corners of the circle that rolls along the border: it lies inside the true one by less than 5 micrometres at a radius of 8 mm.
const CORNERS: u32 = 96;

impl Region {
    /// All that is nearer to the border than a distance, mm.
    fn band(&self, by: f64) -> Self {
        let circle: Vec<Vec2> =
            (0..CORNERS).map(|at| Vec2::from_angle(TAU * f64::from(at) / f64::from(CORNERS)) * by).collect();
        let mut polygons = Vec::new();
        for (a, b) in self.edges() {
            polygons.push(Polygon::new(circle.iter().map(|off| a + *off).collect()));
            let along = b - a;
            let side = along.turn_90() * (by / along.hypot().max(f64::MIN_POSITIVE));
            polygons.push(Polygon::new(vec![a - side, b - side, b + side, a + side]));
        }
        Self::new(&polygons)
    }

    /// It with all that is nearer to it than a distance, mm.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        if by <= 0.0 { self.clone() } else { self.union(&self.band(by)) }
    }

    /// It without all that is nearer to its border than a distance, mm.
    #[must_use]
    pub fn shrunk(&self, by: f64) -> Self {
        if by <= 0.0 { self.clone() } else { self.subtract(&self.band(by)) }
    }

    /// It moved.
    #[must_use]
    pub fn moved(&self, by: Vec2) -> Self {
        let moved = |contour: Vec<Point>| contour.into_iter().map(|point| point + by).collect();
        self.mapped(moved)
    }

    /// All places that it passes when it is moved along a way, mm.
    #[must_use]
    pub fn pulled(&self, by: Vec2) -> Self {
        let swept = |(a, b): (Point, Point)| Polygon::new(vec![a, b, b + by, a + by]);
        let sides: Vec<Polygon> = self.edges().map(swept).collect();
        Self::all([self.clone(), self.moved(by), Self::new(&sides)])
    }

    fn mapped(&self, to: impl Fn(Vec<Point>) -> Vec<Point>) -> Self {
        let parts = self.parts().map(|part| {
            let mut contours = part.contours().map(&to).map(Polygon::new);
            let outer = contours.next().unwrap_or_default();
            let holes: Vec<Polygon> = contours.collect();
            Self::new([&outer]).subtract(&Self::new(&holes))
        });
        Self::all(parts.collect::<Vec<_>>())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Rect;
    use std::f64::consts::PI;

    /// By hand: a rectangle grows by its sides and four quarters of a circle, and shrinks to a rectangle.
    #[test]
    fn a_rectangle_by_hand() {
        let board = Region::rect(Rect::new(0.0, 0.0, 400.0, 300.0));
        let wanted = 400.0 * 300.0 + 2.0 * 700.0 * 3.0 + PI * 9.0;
        assert!((board.grown(3.0).area() - wanted).abs() < 0.05, "{}", board.grown(3.0).area());
        assert_eq!(board.shrunk(3.0).area(), 394.0 * 294.0);
        assert!(board.shrunk(150.0).is_empty());
    }

    #[test]
    fn a_neck_that_is_too_narrow_parts_what_is_left() {
        let bodies =
            [Rect::new(0.0, 0.0, 50.0, 50.0), Rect::new(49.0, 22.0, 101.0, 27.0), Rect::new(100.0, 0.0, 150.0, 50.0)];
        let both = Region::new(&bodies.map(Polygon::rect));
        assert_eq!((both.parts().count(), both.shrunk(3.0).parts().count()), (1, 2));
    }

    #[test]
    fn a_ring_keeps_its_hole_when_it_is_moved_and_pulled() {
        let hole = Region::rect(Rect::new(20.0, 20.0, 50.0, 60.0));
        let ring = Region::rect(Rect::new(0.0, 0.0, 100.0, 100.0)).subtract(&hole);
        let moved = ring.moved(Vec2::new(5.0, -2.0));
        assert_eq!((moved.area(), moved.bounds()), (ring.area(), Rect::new(5.0, -2.0, 105.0, 98.0)));
        assert_eq!(ring.pulled(Vec2::new(0.0, 5.0)).area(), 100.0 * 105.0 - 30.0 * 35.0);
    }
}
