//! Where the eye is, and how it sees the box: isometric projection after ISO 5456-3.

use crate::geometry::prism::{Axis, Point3};
use kurbo::Point;

/// Half the root of three: how far a millimetre along x or y goes to the side. It goes half as far up or down.
const ASIDE: f64 = 0.866_025_403_784_438_6;

/// An eye far away, above, at equal angles to all three axes.
///
/// Two axes run at 30 degrees to the level and the third upright, all three to the same scale (ISO 5456-3, isometric axonometry,
/// with the usual ratio 1:1:1), so lengths along axes are true.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Eye {
    /// At the high end of x.
    pub high_x: bool,
    /// At the high end of y.
    pub high_y: bool,
}

/// How near a plane is to the eye at each point of the picture: larger is nearer.
#[derive(Debug, Clone, Copy)]
pub(super) struct Depth {
    across: f64,
    up: f64,
    fixed: f64,
}

impl Depth {
    pub fn at(&self, at: Point) -> f64 {
        self.across * at.x + self.up * at.y + self.fixed
    }
}

impl Eye {
    /// Toward the eye, along x and y; along z it is 1.
    pub(super) fn toward(self) -> (f64, f64) {
        (if self.high_x { 1.0 } else { -1.0 }, if self.high_y { 1.0 } else { -1.0 })
    }

    /// Whether the eye sees faces that look to the high end of an axis, or else those that look to the low end.
    #[must_use]
    pub fn sees_high(self, axis: Axis) -> bool {
        match axis {
            Axis::X => self.high_x,
            Axis::Y => self.high_y,
            Axis::Z => true,
        }
    }

    /// A point in the picture: to the right and up, mm.
    #[must_use]
    pub fn sees(self, at: Point3) -> Point {
        let (x, y) = self.toward();
        Point::new(ASIDE * (x * at.y - y * at.x), at.z - f64::midpoint(x * at.x, y * at.y))
    }

    /// The share of a plane's normal that looks at the eye, times the root of three.
    pub(super) fn facing(self, normal: Point3) -> f64 {
        let (x, y) = self.toward();
        x * normal.x + y * normal.y + normal.z
    }

    /// How near the plane through a point across a normal is. With s for x + y + z toward the eye, a point of the picture
    /// (u, v) is x = (2 (s - v) / 3 - y' u / c) / 2 toward the eye, y alike, and z = (2 v + s) / 3.
    pub(super) fn depth(self, normal: Point3, through: Point3) -> Depth {
        let (x, y) = self.toward();
        let by = self.facing(normal) / 3.0;
        let across = (normal.y * x - normal.x * y) / (2.0 * ASIDE);
        let up = (2.0 * normal.z - normal.x * x - normal.y * y) / 3.0;
        let level = normal.x * through.x + normal.y * through.y + normal.z * through.z;
        Depth { across: -across / by, up: -up / by, fixed: level / by }
    }
}
