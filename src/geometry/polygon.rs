//! Simple closed polygons.

use kurbo::{BezPath, Point, Rect, Vec2};

/// A simple closed polygon, counter-clockwise, without the first point repeated, in millimetres.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polygon {
    points: Vec<Point>,
}

crate::base::content::contents! {
    Polygon { points }
}

impl Polygon {
    /// A polygon of these corners; turned to counter-clockwise if it is not. Repeated neighbours are dropped.
    #[must_use]
    pub fn new(mut points: Vec<Point>) -> Self {
        points.dedup();
        if points.len() > 1 && points.first() == points.last() {
            points.pop();
        }
        let mut polygon = Self { points };
        if polygon.signed_area() < 0.0 {
            polygon.points.reverse();
        }
        polygon
    }

    /// The four corners of a rectangle.
    #[must_use]
    pub fn rect(rect: Rect) -> Self {
        let Rect { x0, y0, x1, y1 } = rect.abs();
        Self { points: vec![Point::new(x0, y0), Point::new(x1, y0), Point::new(x1, y1), Point::new(x0, y1)] }
    }

    /// The corners.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The same polygon moved.
    #[must_use]
    pub fn moved(&self, by: Vec2) -> Self {
        Self { points: self.points.iter().map(|point| *point + by).collect() }
    }

    /// Whether a point lies in it; on its border it may or may not.
    #[must_use]
    pub fn contains(&self, p: Point) -> bool {
        let crosses = |(a, b): &(Point, Point)| {
            (a.y <= p.y) != (b.y <= p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)
        };
        self.edges().filter(crosses).count() % 2 == 1
    }

    /// The edges, each from one corner to the next.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.points.iter().cycle().skip(1);
        self.points.iter().copied().zip(next.copied())
    }

    /// It as a path.
    #[must_use]
    pub fn path(&self) -> BezPath {
        let mut path = BezPath::new();
        for (index, point) in self.points.iter().enumerate() {
            if index == 0 { path.move_to(*point) } else { path.line_to(*point) }
        }
        path.close_path();
        path
    }

    fn signed_area(&self) -> f64 {
        self.edges().map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>() / 2.0
    }

    /// The area, in square millimetres; zero for fewer than three corners.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.signed_area().abs()
    }

    /// The smallest rectangle around it; a zero rectangle when empty.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let mut points = self.points.iter();
        let Some(first) = points.next() else { return Rect::ZERO };
        points.fold(Rect::from_points(*first, *first), |rect, point| rect.union_pt(*point))
    }
}
