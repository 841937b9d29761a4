//! The four sides of a rectangle in plan, with the ground outside each.

use super::stretches::Stretch;
use crate::model::Wall;
use kurbo::{Point, Rect};

/// One side of a rectangle, seen from above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Side {
    /// Which side: one of the four walls' directions.
    pub faces: Wall,
    /// Its range along x for the sides left and right, along y for front and rear.
    pub along: Stretch,
    /// Its place on the other axis.
    pub at: f64,
}

/// The four directions.
pub(crate) const AROUND: [Wall; 4] = [Wall::Front, Wall::Rear, Wall::Left, Wall::Right];

/// The direction opposite to one of the four.
pub(crate) fn opposite(faces: Wall) -> Wall {
    match faces {
        Wall::Front => Wall::Rear,
        Wall::Rear => Wall::Front,
        Wall::Left => Wall::Right,
        Wall::Right => Wall::Left,
        Wall::Roof => Wall::Floor,
        Wall::Floor => Wall::Roof,
    }
}

impl Side {
    /// One side of a rectangle; roof and floor count as the right side.
    pub fn of(rect: Rect, faces: Wall) -> Self {
        let Rect { x0, y0, x1, y1 } = rect;
        match faces {
            Wall::Front => Self { faces, along: (y0, y1), at: x0 },
            Wall::Rear => Self { faces, along: (y0, y1), at: x1 },
            Wall::Left => Self { faces, along: (x0, x1), at: y0 },
            Wall::Right | Wall::Roof | Wall::Floor => Self { faces, along: (x0, x1), at: y1 },
        }
    }

    /// The four sides of a rectangle.
    pub fn all(rect: Rect) -> [Self; 4] {
        AROUND.map(|faces| Self::of(rect, faces))
    }

    /// Whether the side runs along x.
    pub fn lengthwise(&self) -> bool {
        matches!(self.faces, Wall::Left | Wall::Right)
    }

    /// The strip outside a piece of this side, between two distances from it.
    pub fn outside(&self, along: Stretch, from: f64, to: f64) -> Rect {
        let out = if matches!(self.faces, Wall::Front | Wall::Left) { -1.0 } else { 1.0 };
        let (a, b) = (self.at + out * from, self.at + out * to);
        let rect = match self.lengthwise() {
            true => Rect::new(along.0, a, along.1, b),
            false => Rect::new(a, along.0, b, along.1),
        };
        rect.abs()
    }

    /// What a rectangle covers of the line along this side.
    pub fn shadow(&self, rect: Rect) -> Stretch {
        if self.lengthwise() { (rect.x0, rect.x1) } else { (rect.y0, rect.y1) }
    }

    /// How far outside this side a rectangle begins and ends; negative for what lies inside.
    pub fn distance(&self, rect: Rect) -> Stretch {
        let (low, high) = if self.lengthwise() { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
        match self.faces {
            Wall::Front | Wall::Left => (self.at - high, self.at - low),
            _ => (low - self.at, high - self.at),
        }
    }

    /// The ends of a piece of this side.
    pub fn ends(&self, along: Stretch) -> (Point, Point) {
        let at = |place: f64| if self.lengthwise() { Point::new(place, self.at) } else { Point::new(self.at, place) };
        (at(along.0), at(along.1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_side_looks_outward() {
        let rect = Rect::new(100.0, 200.0, 400.0, 900.0);
        let other = Rect::new(0.0, 0.0, 50.0, 950.0);
        let front = Side::of(rect, Wall::Front);
        assert_eq!((front.along, front.at), ((200.0, 900.0), 100.0));
        assert_eq!(front.outside((300.0, 400.0), 20.0, 50.0), Rect::new(50.0, 300.0, 80.0, 400.0));
        assert_eq!((front.shadow(other), front.distance(other)), ((0.0, 950.0), (50.0, 100.0)));
        let right = Side::of(rect, Wall::Right);
        assert_eq!(right.outside(right.along, 0.0, 50.0), Rect::new(100.0, 900.0, 400.0, 950.0));
        assert_eq!((right.shadow(other), right.distance(other)), ((0.0, 50.0), (-900.0, 50.0)));
        assert_eq!(right.ends((150.0, 160.0)), (Point::new(150.0, 900.0), Point::new(160.0, 900.0)));
        assert!(AROUND.iter().all(|side| opposite(opposite(*side)) == *side && opposite(*side) != *side));
    }
}
