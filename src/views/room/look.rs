//! Looking along an axis: what of the box is to the right, up, and near.

use crate::geometry::{Axis, Box3, Polygon, Prism};
use crate::model::Wall;
use kurbo::{Point, Rect};

/// A direction of looking, by what is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::views) struct Look {
    /// The wall, roof or floor that is looked at.
    pub at: Wall,
    /// From outside the box; else from inside it.
    pub outside: bool,
}

impl Look {
    /// From inside the box. The roof is seen as in a mirror on the floor, so that it lies as the plan does.
    pub const fn inside(at: Wall) -> Self {
        Self { at, outside: false }
    }

    /// From outside the box. The roof is seen from above, the floor as in a mirror below it.
    pub const fn outside(at: Wall) -> Self {
        Self { at, outside: true }
    }

    /// The axis that is looked along.
    pub fn axis(self) -> Axis {
        self.at.across()
    }

    /// Whether the axis grows away from the eye.
    fn grows_away(self) -> bool {
        matches!(self.at, Wall::Rear | Wall::Right | Wall::Roof) != self.outside
    }

    /// Whether the first coordinate across the axis grows to the left of who looks.
    fn is_mirrored(self) -> bool {
        let from_inside = matches!(self.at, Wall::Left | Wall::Rear);
        let upright = !matches!(self.at, Wall::Roof | Wall::Floor);
        upright && from_inside != self.outside
    }

    /// A point across the axis as it is seen: to the right and up.
    pub fn seen(self, across: Point) -> Point {
        if self.is_mirrored() { Point::new(-across.x, across.y) } else { across }
    }

    /// A box as it is seen.
    pub fn rect(self, of: &Box3) -> Rect {
        let across = of.across(self.axis());
        Rect::from_points(self.seen(across.origin()), self.seen(Point::new(across.x1, across.y1)))
    }

    /// How far away the nearest and the farthest of a box are; less is nearer.
    pub fn depth(self, of: &Box3) -> (f64, f64) {
        self.depths(of.range(self.axis()))
    }

    /// The same of a range along the axis.
    pub fn depths(self, (low, high): (f64, f64)) -> (f64, f64) {
        if self.grows_away() { (low, high) } else { (-high, -low) }
    }

    /// What of a prism is seen of the part between two depths, as outlines.
    pub fn shadow(self, prism: &Prism, from: f64, to: f64) -> Vec<Polygon> {
        let (low, high) = if self.grows_away() { (from, to) } else { (-to, -from) };
        let outlines = prism.shadow(self.axis(), low, high);
        outlines.into_iter().map(|outline| self.polygon(&outline)).collect()
    }

    /// An outline across the axis as it is seen.
    pub fn polygon(self, outline: &Polygon) -> Polygon {
        Polygon::new(outline.points().iter().map(|point| self.seen(*point)).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Who looks at a wall from inside has the front on the right hand at the left wall, and so on round the box.
    #[test]
    fn right_hands() {
        let ahead = Box3 { x: (100.0, 200.0), y: (300.0, 400.0), z: (0.0, 50.0) };
        let seen = |look: Look| (look.rect(&ahead), look.depth(&ahead));
        assert_eq!(seen(Look::inside(Wall::Left)), (Rect::new(-200.0, 0.0, -100.0, 50.0), (-400.0, -300.0)));
        assert_eq!(seen(Look::inside(Wall::Right)), (Rect::new(100.0, 0.0, 200.0, 50.0), (300.0, 400.0)));
        assert_eq!(seen(Look::inside(Wall::Front)), (Rect::new(300.0, 0.0, 400.0, 50.0), (-200.0, -100.0)));
        assert_eq!(seen(Look::inside(Wall::Rear)), (Rect::new(-400.0, 0.0, -300.0, 50.0), (100.0, 200.0)));
        assert_eq!(seen(Look::inside(Wall::Roof)), (Rect::new(100.0, 300.0, 200.0, 400.0), (0.0, 50.0)));
        assert_eq!(seen(Look::inside(Wall::Floor)), (Rect::new(100.0, 300.0, 200.0, 400.0), (-50.0, 0.0)));
    }

    #[test]
    fn from_outside_it_is_the_other_way_round() {
        let ahead = Box3 { x: (100.0, 200.0), y: (300.0, 400.0), z: (0.0, 50.0) };
        for wall in [Wall::Left, Wall::Right, Wall::Front, Wall::Rear] {
            let (inside, outside) = (Look::inside(wall), Look::outside(wall));
            assert_eq!(inside.rect(&ahead).x0, -outside.rect(&ahead).x1);
            assert_eq!(inside.depth(&ahead), (-outside.depth(&ahead).1, -outside.depth(&ahead).0));
        }
    }

    /// By hand: of a wedge 400 long and 400 high, what is beyond 100 along x from the eye in front is 300 high.
    #[test]
    fn what_is_nearer_than_the_plane_is_left_out() {
        let outline = Polygon::new(vec![Point::new(0.0, 0.0), Point::new(400.0, 0.0), Point::new(0.0, 400.0)]);
        let wedge = Prism { axis: Axis::Y, outline, low: 100.0, high: 300.0 };
        let beyond = Look::inside(Wall::Rear).shadow(&wedge, 100.0, f64::INFINITY);
        assert_eq!(beyond.iter().map(Polygon::bounds).collect::<Vec<_>>(), [Rect::new(-300.0, 0.0, -100.0, 300.0)]);
    }
}
