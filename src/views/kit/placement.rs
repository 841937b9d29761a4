//! From the box seen from above to the paper, true to scale.

use kurbo::{Affine, BezPath, Point, Rect, Shape};

/// How far a curve's flattening may lie off, mm on paper.
const FLAT: f64 = 0.005;

/// Where a plan stands on the sheet: x to the right, y up, divided by the scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::views) struct Placement {
    /// 20 for 1:20.
    pub scale: f64,
    /// Paper point of the box's origin, mm.
    pub origin: Point,
}

impl Placement {
    /// Paper point of a point of the plan (x to the rear, y to the right, mm).
    pub fn to_paper(self, point: Point) -> Point {
        self.origin + point.to_vec2() / self.scale
    }

    /// Length on paper of a true length.
    pub fn length(self, true_length: f64) -> f64 {
        true_length / self.scale
    }

    /// A shape of the plan on paper.
    pub fn path(self, path: &BezPath) -> BezPath {
        Affine::translate(self.origin.to_vec2()) * Affine::scale(1.0 / self.scale) * path.clone()
    }

    /// A rectangle of the plan on paper.
    pub fn rect(self, rect: Rect) -> Rect {
        Rect::from_points(self.to_paper(Point::new(rect.x0, rect.y0)), self.to_paper(Point::new(rect.x1, rect.y1)))
    }

    /// A closed path through points of the plan, on paper.
    pub fn closed(self, points: &[Point]) -> BezPath {
        let mut path = polyline(points.iter().map(|point| self.to_paper(*point)));
        if !points.is_empty() {
            path.close_path();
        }
        path
    }
}

/// An open path through points.
pub(in crate::views) fn polyline(points: impl IntoIterator<Item = Point>) -> BezPath {
    let mut path = BezPath::new();
    for (index, point) in points.into_iter().enumerate() {
        if index == 0 { path.move_to(point) } else { path.line_to(point) }
    }
    path
}

/// The outline of a rectangle with straight edges.
pub(in crate::views) fn outline(rect: Rect) -> BezPath {
    rect.to_path(FLAT)
}

/// A circle.
pub(in crate::views) fn circle(middle: Point, radius: f64) -> BezPath {
    kurbo::Circle::new(middle, radius).to_path(FLAT)
}

/// An arc about `middle`; angles in degrees counter-clockwise.
pub(in crate::views) fn arc(middle: Point, radius: f64, start: f64, sweep: f64) -> BezPath {
    kurbo::Arc::new(middle, (radius, radius), start.to_radians(), sweep.to_radians(), 0.0).to_path(FLAT)
}

/// The point at a distance and direction (degrees) from another.
pub(in crate::views) fn polar(from: Point, distance: f64, degrees: f64) -> Point {
    let angle = degrees.to_radians();
    from + kurbo::Vec2::new(angle.cos(), angle.sin()) * distance
}
