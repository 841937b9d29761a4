//! What a disc that touches a side or a corner can touch besides.

use super::border::{Side, Vector, cross, dot, steps};
use super::envelope::Quadratic;
use crate::base::tolerance::SAME_WAY;
use i_overlay::i_float::int::point::IntPoint;
use kurbo::{Point, Rect};
use std::f64::consts::PI;

fn along(a: Vector, b: Vector) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

fn left(v: Vector) -> Vector {
    (-v.1, v.0)
}

/// What a disc that touches its own thing at one place can touch besides.
pub(super) trait Cell {
    /// The radius at a place of the range, by a function of the envelope.
    fn radius(&self, at: f64, function: Quadratic) -> f64;
    /// The centre of the disc.
    fn centre(&self, at: f64, radius: f64) -> Vector;
    /// Where the disc touches its own thing, and the direction from there to its centre.
    fn away(&self, at: f64) -> (Vector, Vector);
    /// Where the discs of a part of the range touch its own thing.
    fn place(&self, from: f64, to: f64) -> Rect;
    /// Whether discs can come to anything in a rectangle whose corners are on the grid.
    fn faces(&self, bounds: &Rect) -> bool;
    /// The function of a disc that touches the line of a side too; `None` if no disc can.
    fn toward_side(&self, side: &Side) -> Option<Quadratic>;
    /// Where the disc touches that line between the ends of the side.
    fn touching(&self, side: &Side) -> [(f64, f64); 2];
    /// The function of a disc that touches a corner too.
    fn toward_corner(&self, corner: IntPoint<i32>) -> Option<Quadratic>;
}

/// A range without places.
pub(super) const NOWHERE: (f64, f64) = (0.0, 0.0);

/// The cell of a side, over the foot of the disc, in steps from the side's start.
pub(super) struct SideCell<'a>(pub &'a Side);

impl Cell for SideCell<'_> {
    fn radius(&self, at: f64, function: Quadratic) -> f64 {
        function.at(at)
    }

    fn centre(&self, at: f64, radius: f64) -> Vector {
        let x = self.0.unit;
        let y = left(x);
        (f64::from(self.0.a.x) + x.0 * at + y.0 * radius, f64::from(self.0.a.y) + x.1 * at + y.1 * radius)
    }

    fn away(&self, at: f64) -> (Vector, Vector) {
        (self.centre(at, 0.0), left(self.0.unit))
    }

    fn place(&self, from: f64, to: f64) -> Rect {
        let (a, unit) = (Point::new(f64::from(self.0.a.x), f64::from(self.0.a.y)), kurbo::Vec2::from(self.0.unit));
        Rect::from_points(a + unit * from, a + unit * to)
    }

    fn faces(&self, bounds: &Rect) -> bool {
        self.0.faces(bounds)
    }

    fn toward_side(&self, other: &Side) -> Option<Quadratic> {
        let own = self.0;
        let ahead = |p| cross(own.run, steps(own.a, p)) > 0;
        if !ahead(other.a) && !ahead(other.b) {
            return None;
        }
        let lean = Lean::new(own, other)?;
        Some(Quadratic([lean.start, lean.rise, 0.0]))
    }

    fn touching(&self, other: &Side) -> [(f64, f64); 2] {
        let Some(lean) = Lean::new(self.0, other) else { return [NOWHERE; 2] };
        let (from, to) = ((lean.far - other.length).max(0.0), lean.far.min(self.0.length));
        [risen(lean.rise, lean.start, from, to).unwrap_or(NOWHERE), NOWHERE]
    }

    fn toward_corner(&self, corner: IntPoint<i32>) -> Option<Quadratic> {
        let own = self.0;
        let to = steps(own.a, corner);
        let (x, y) = (dot(own.run, to) as f64 / own.length, cross(own.run, to) as f64 / own.length);
        (y > 0.0).then(|| Quadratic([(x * x + y * y) / (2.0 * y), -x / y, 1.0 / (2.0 * y)]))
    }
}

/// How the discs between two lines grow along the first: radius `start + rise x`.
struct Lean {
    start: f64,
    rise: f64,
    /// The foot at which they touch the start of the other side.
    far: f64,
}

impl Lean {
    fn new(own: &Side, other: &Side) -> Option<Self> {
        let lengths = own.length * other.length;
        let (sine, cosine) = (cross(own.run, other.run) as f64 / lengths, dot(own.run, other.run) as f64 / lengths);
        let lean = if cosine > 0.0 { sine * sine / (1.0 + cosine) } else { 1.0 - cosine };
        if lean < SAME_WAY {
            return None;
        }
        let back = steps(other.a, own.a);
        let above = cross(other.run, back) as f64 / other.length;
        let beside = dot(other.run, back) as f64 / other.length;
        let (rise, start) = (-sine / lean, above / lean);
        // Tangents from where the two lines meet are equally long: the touching points move towards each other alike.
        Some(Self { start, rise, far: beside + sine * start })
    }
}

/// The part of a range on which a line is not below 0.
fn risen(rise: f64, start: f64, from: f64, to: f64) -> Option<(f64, f64)> {
    let (first, last) = (start + rise * from, start + rise * to);
    if from >= to || (first <= 0.0 && last <= 0.0) {
        return None;
    }
    let zero = -start / rise;
    Some(if first < 0.0 {
        (zero.clamp(from, to), to)
    } else if last < 0.0 {
        (from, zero.clamp(from, to))
    } else {
        (from, to)
    })
}

/// The cell of a corner, over the tangent of half the angle from the middle of its fan. The envelope is of the negative
/// inverse of the radius, times 1 + the square of that tangent.
pub(super) struct CornerCell<'a> {
    /// The sides that it is between.
    sides: [&'a Side; 2],
    corner: IntPoint<i32>,
    /// The direction in the middle of the fan.
    middle: Vector,
    /// A quarter of the fan's angle.
    quarter: f64,
}

impl<'a> CornerCell<'a> {
    /// The fan of directions between the normals of two sides.
    pub fn new(before: &'a Side, after: &'a Side) -> Self {
        let angle =
            (-cross(before.run, after.run) as f64).atan2(dot(before.run, after.run) as f64).rem_euclid(2.0 * PI);
        let normal = left(before.unit);
        let (sin, cos) = (-angle / 2.0).sin_cos();
        let middle = (normal.0 * cos - normal.1 * sin, normal.0 * sin + normal.1 * cos);
        Self { sides: [before, after], corner: before.b, middle, quarter: angle / 4.0 }
    }

    /// The range of the fan.
    pub fn range(&self) -> (f64, f64) {
        let most = self.quarter.tan();
        (-most, most)
    }

    /// Parts along the middle of the fan and across it.
    fn turned(&self, v: Vector) -> Vector {
        (along(v, self.middle), along(v, left(self.middle)))
    }
}

impl Cell for CornerCell<'_> {
    fn radius(&self, at: f64, function: Quadratic) -> f64 {
        let inverse = -function.at(at);
        if inverse > 0.0 { (1.0 + at * at) / inverse } else { f64::INFINITY }
    }

    fn centre(&self, at: f64, radius: f64) -> Vector {
        let (corner, u) = self.away(at);
        (corner.0 + u.0 * radius, corner.1 + u.1 * radius)
    }

    fn away(&self, at: f64) -> (Vector, Vector) {
        let square = 1.0 + at * at;
        let (cos, sin) = ((1.0 - at * at) / square, 2.0 * at / square);
        let (x, y) = (self.middle, left(self.middle));
        let corner = (f64::from(self.corner.x), f64::from(self.corner.y));
        (corner, (x.0 * cos + y.0 * sin, x.1 * cos + y.1 * sin))
    }

    fn place(&self, _: f64, _: f64) -> Rect {
        let corner = Point::new(f64::from(self.corner.x), f64::from(self.corner.y));
        Rect::from_points(corner, corner)
    }

    fn faces(&self, bounds: &Rect) -> bool {
        self.sides.iter().any(|side| side.faces(bounds))
    }

    fn toward_side(&self, side: &Side) -> Option<Quadratic> {
        let height = cross(side.run, steps(side.a, self.corner)) as f64 / side.length;
        let (a, b) = self.turned(left(side.unit));
        (height > 0.0).then(|| Quadratic([(a - 1.0) / height, 2.0 * b / height, -(1.0 + a) / height]))
    }

    fn touching(&self, side: &Side) -> [(f64, f64); 2] {
        let to = steps(side.a, self.corner);
        let (height, foot) = (cross(side.run, to) as f64 / side.length, dot(side.run, to) as f64 / side.length);
        let (a, b) = self.turned(left(side.unit));
        // Half the angle from the way straight to the line has the tangent foot / height.
        let toward = (-b).atan2(-a) / 2.0;
        let (from, to) = (toward + (-foot / height).atan(), toward + ((side.length - foot) / height).atan());
        let again = if toward > 0.0 { -PI } else { PI };
        [0.0, again].map(|turn| {
            let (from, to) = ((from + turn).max(-self.quarter), (to + turn).min(self.quarter));
            if from < to { (from.tan(), to.tan()) } else { NOWHERE }
        })
    }

    fn toward_corner(&self, corner: IntPoint<i32>) -> Option<Quadratic> {
        let to = steps(self.corner, corner);
        let square = dot(to, to) as f64;
        let (a, b) = self.turned((to.0 as f64 * 2.0 / square, to.1 as f64 * 2.0 / square));
        (square > 0.0).then(|| Quadratic([-a, -2.0 * b, a]))
    }
}
