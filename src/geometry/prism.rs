//! Prisms along one of the three axes, and boxes.

use super::polygon::Polygon;
use crate::base::content::{Content, Digest};
use kurbo::{Point, Rect, Vec2};

/// A direction of the box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Axis {
    /// Front to rear.
    X,
    /// Left to right.
    Y,
    /// Floor up.
    Z,
}

impl Axis {
    /// The two other axes in the order x, y, z: first and second coordinate of the plane across this axis.
    #[must_use]
    pub fn plane(self) -> (Self, Self) {
        match self {
            Self::X => (Self::Y, Self::Z),
            Self::Y => (Self::X, Self::Z),
            Self::Z => (Self::X, Self::Y),
        }
    }

    /// The axis that is neither this one nor `other`; the first of the two left if both are the same.
    #[must_use]
    pub fn third(self, other: Self) -> Self {
        let (first, second) = self.plane();
        if first == other { second } else { first }
    }
}

/// A point in the box, millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point3 {
    /// From the front wall.
    pub x: f64,
    /// From the left wall.
    pub y: f64,
    /// From the floor.
    pub z: f64,
}

/// A box with edges along the axes, `x.0 <= x.1` and so on, millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Box3 {
    /// Front and rear.
    pub x: (f64, f64),
    /// Left and right.
    pub y: (f64, f64),
    /// Floor and top.
    pub z: (f64, f64),
}

crate::base::content::contents! {
    Prism { axis, outline, low, high }
}

impl Content for Axis {
    fn feed(&self, digest: &mut Digest) {
        digest.word(*self as u64);
    }
}

impl Box3 {
    /// A point, as a box.
    #[must_use]
    pub fn at(point: Point3) -> Self {
        Self { x: (point.x, point.x), y: (point.y, point.y), z: (point.z, point.z) }
    }

    /// Seen from above.
    #[must_use]
    pub fn plan(&self) -> Rect {
        Rect::new(self.x.0, self.y.0, self.x.1, self.y.1)
    }

    /// How far it and another are apart along an axis, mm; less than nothing where they overlap.
    #[must_use]
    pub fn gap(&self, other: &Self, axis: Axis) -> f64 {
        let (a, b) = (self.range(axis), other.range(axis));
        (b.0 - a.1).max(a.0 - b.1)
    }

    /// What it holds, mm3.
    #[must_use]
    pub fn volume(&self) -> f64 {
        [self.x, self.y, self.z].into_iter().map(|(low, high)| high - low).product()
    }

    /// The range along an axis.
    #[must_use]
    pub fn range(&self, axis: Axis) -> (f64, f64) {
        match axis {
            Axis::X => self.x,
            Axis::Y => self.y,
            Axis::Z => self.z,
        }
    }

    /// The same box with another range along one axis.
    #[must_use]
    pub fn with(mut self, axis: Axis, range: (f64, f64)) -> Self {
        match axis {
            Axis::X => self.x = range,
            Axis::Y => self.y = range,
            Axis::Z => self.z = range,
        }
        self
    }

    /// Seen along an axis, in the coordinates of [`Prism::outline`].
    #[must_use]
    pub fn across(&self, axis: Axis) -> Rect {
        let (first, second) = axis.plane();
        let (first, second) = (self.range(first), self.range(second));
        Rect::new(first.0, second.0, first.1, second.1)
    }

    /// The same box moved along one axis.
    #[must_use]
    pub fn moved(self, axis: Axis, by: f64) -> Self {
        let (low, high) = self.range(axis);
        self.with(axis, (low + by, high + by))
    }

    /// The middle.
    #[must_use]
    pub fn centre(&self) -> Point3 {
        let mid = |range: (f64, f64)| f64::midpoint(range.0, range.1);
        Point3 { x: mid(self.x), y: mid(self.y), z: mid(self.z) }
    }

    /// The smallest box around both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        let join = |a: (f64, f64), b: (f64, f64)| (a.0.min(b.0), a.1.max(b.1));
        Self { x: join(self.x, other.x), y: join(self.y, other.y), z: join(self.z, other.z) }
    }
}

/// A solid swept from a plane outline along one axis.
///
/// The outline's two coordinates are the two other axes in the order x, y, z: (y, z) for a prism along x, (x, z)
/// along y, (x, y) along z.
#[derive(Debug, Clone, PartialEq)]
pub struct Prism {
    /// The direction it is swept along.
    pub axis: Axis,
    /// The outline across that direction.
    pub outline: Polygon,
    /// Where it starts along the axis.
    pub low: f64,
    /// Where it ends along the axis.
    pub high: f64,
}

impl Prism {
    /// An upright prism over a rectangle.
    #[must_use]
    pub fn upright(plan: Rect, low: f64, high: f64) -> Self {
        Self { axis: Axis::Z, outline: Polygon::rect(plan), low, high }
    }

    /// The smallest box around it.
    #[must_use]
    pub fn bounds(&self) -> Box3 {
        let Rect { x0, y0, x1, y1 } = self.outline.bounds();
        let along = (self.low, self.high);
        match self.axis {
            Axis::X => Box3 { x: along, y: (x0, x1), z: (y0, y1) },
            Axis::Y => Box3 { x: (x0, x1), y: along, z: (y0, y1) },
            Axis::Z => Box3 { x: (x0, x1), y: (y0, y1), z: along },
        }
    }

    /// The same prism moved along one axis.
    #[must_use]
    pub fn moved(&self, axis: Axis, by: f64) -> Self {
        let (first, _) = self.axis.plane();
        let mut moved = self.clone();
        if axis == self.axis {
            (moved.low, moved.high) = (self.low + by, self.high + by);
        } else {
            let shift = if axis == first { Vec2::new(by, 0.0) } else { Vec2::new(0.0, by) };
            moved.outline = self.outline.moved(shift);
        }
        moved
    }

    /// The volume in cubic millimetres.
    #[must_use]
    pub fn volume(&self) -> f64 {
        self.outline.area() * (self.high - self.low).max(0.0)
    }
}

impl From<Box3> for Prism {
    fn from(b: Box3) -> Self {
        Self::upright(b.plan(), b.z.0, b.z.1)
    }
}

impl Point3 {
    /// The same point with another coordinate along one axis.
    #[must_use]
    pub fn on(mut self, axis: Axis, value: f64) -> Self {
        *self.along_mut(axis) = value;
        self
    }

    /// The coordinate along an axis, to be set.
    pub fn along_mut(&mut self, axis: Axis) -> &mut f64 {
        match axis {
            Axis::X => &mut self.x,
            Axis::Y => &mut self.y,
            Axis::Z => &mut self.z,
        }
    }

    /// The distance to another point.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        let way = other.minus(self);
        way.dot(way).sqrt()
    }

    /// The way from another point to this one.
    #[must_use]
    pub fn minus(self, other: Self) -> Self {
        Self { x: self.x - other.x, y: self.y - other.y, z: self.z - other.z }
    }

    /// The scalar product of two ways.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// A point on the way to another, at a share of it.
    #[must_use]
    pub fn toward(self, other: Self, share: f64) -> Self {
        let on = |from: f64, to: f64| from + (to - from) * share;
        Self { x: on(self.x, other.x), y: on(self.y, other.y), z: on(self.z, other.z) }
    }

    /// The two coordinates across `axis`, in the order of [`Prism::outline`].
    #[must_use]
    pub fn across(self, axis: Axis) -> Point {
        match axis {
            Axis::X => Point::new(self.y, self.z),
            Axis::Y => Point::new(self.x, self.z),
            Axis::Z => Point::new(self.x, self.y),
        }
    }
}
