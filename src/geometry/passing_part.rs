//! Whether a flat rectangle passes the part of a hole that something leaves free.
//!
//! The hole has round corners, the part straight edges, so their common shape is convex, but not symmetric: the rectangle
//! must be looked for in any turn and at any place. Turned by some angle, and with its middle at some point, it misses the
//! shape by the farthest of its corners; that is a convex function of the point, and changes with the angle by no more than
//! half the diagonal. So the least over all points is found by golden sections, and over the angle from close samples.

use super::passing::Hole;
use crate::base::tolerance::SAME_LENGTH;
use kurbo::{Point, Rect, Vec2};
use std::f64::consts::FRAC_PI_2;

/// Turns that are looked at, and then sharpened where they are near enough.
const TURNS: u32 = 180;

/// A hole, and the part of it that is left free.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// The whole hole.
    pub hole: Rect,
    /// Radius of its corners, at most half its smaller size.
    pub radius: f64,
    /// What is left free of it, with square corners.
    pub free: Rect,
}

impl Part {
    /// The free part as a hole by itself, with these corners.
    #[must_use]
    pub fn alone(&self, radius: f64) -> Hole {
        Hole { width: self.free.width(), height: self.free.height(), radius }
    }

    /// Whether a rectangle passes, turned in any way in the hole's plane.
    #[must_use]
    pub fn lets(&self, p: f64, q: f64) -> bool {
        self.passes(|hole| hole.lets(p, q), || self.some_turn(p, q))
    }

    /// Whether a rectangle passes that keeps its sides parallel to the hole's: `width` along the hole's width.
    #[must_use]
    pub fn lets_straight(&self, width: f64, height: f64) -> bool {
        self.passes(|hole| hole.lets_straight(width, height), || self.misses(width, height, 0.0) <= 0.0)
    }

    /// By the formulas of holes where they can tell: with square corners it is more, with round ones less than what is there.
    fn passes(&self, lets: impl Fn(Hole) -> bool, search: impl Fn() -> bool) -> bool {
        let (square, round) = (self.alone(0.0), self.alone(self.radius));
        let small = 2.0 * self.radius > self.free.width().min(self.free.height());
        if !lets(square) {
            return false;
        }
        !self.reaches_corners() || (!small && lets(round)) || search()
    }

    /// Whether any of the hole's round corners takes something from the free part.
    fn reaches_corners(&self) -> bool {
        let inner = self.hole.inset(-self.radius);
        let in_corner = |p: Point| {
            let off = (p - nearest(inner, p)).hypot();
            off > self.radius + SAME_LENGTH
        };
        corners(self.free).into_iter().any(in_corner)
    }

    /// Whether some turn passes.
    fn some_turn(&self, p: f64, q: f64) -> bool {
        let step = FRAC_PI_2 / f64::from(TURNS);
        let within = p.hypot(q) / 2.0 * step;
        let mut near =
            (0..=TURNS).map(|turn| f64::from(turn) * step).filter(|angle| self.misses(p, q, *angle) <= within);
        near.any(|angle| least((angle - step, angle + step), |turned| self.misses(p, q, turned)) <= 0.0)
    }

    /// By how much a rectangle turned by an angle misses, at its best place; no more than nothing where it passes.
    fn misses(&self, p: f64, q: f64, angle: f64) -> f64 {
        let (p, q) = ((p - SAME_LENGTH).max(0.0) / 2.0, (q - SAME_LENGTH).max(0.0) / 2.0);
        let (sin, cos) = angle.sin_cos();
        let turn = |x: f64, y: f64| Vec2::new(x * cos - y * sin, x * sin + y * cos);
        let (one, other) = (turn(p, q), turn(p, -q));
        let (wide, high) = (one.x.abs().max(other.x.abs()), one.y.abs().max(other.y.abs()));
        let range = |low: f64, high: f64, half: f64| {
            let middle = f64::midpoint(low, high);
            ((low + half).min(middle), (high - half).max(middle), 2.0 * half - (high - low))
        };
        let (x0, x1, too_wide) = range(self.free.x0, self.free.x1, wide);
        let (y0, y1, too_high) = range(self.free.y0, self.free.y1, high);
        let inner = self.hole.inset(-self.radius);
        let off = |at: Point| {
            let corners = [at + one, at - one, at + other, at - other];
            corners.into_iter().map(|corner| (corner - nearest(inner, corner)).hypot()).fold(0.0, f64::max)
        };
        let round = least((x0, x1), |x| least((y0, y1), |y| off(Point::new(x, y)))) - self.radius;
        round.max(too_wide).max(too_high) - SAME_LENGTH
    }
}

fn corners(rect: Rect) -> [Point; 4] {
    [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from)
}

/// The point of a rectangle that is nearest to one.
fn nearest(rect: Rect, p: Point) -> Point {
    Point::new(p.x.max(rect.x0).min(rect.x1), p.y.max(rect.y0).min(rect.y1))
}

/// The least value of a function that falls and then rises, by golden sections, to a thousandth of a millimetre or of a degree.
fn least((mut low, mut high): (f64, f64), of: impl Fn(f64) -> f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_895;
    const MOST: u32 = 48;
    let (mut a, mut b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut at_a, mut at_b) = (of(a), of(b));
    for _ in 0..MOST {
        if high - low <= SAME_LENGTH / 100.0 {
            break;
        }
        if at_a <= at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - GOLDEN * (high - low);
            at_a = of(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + GOLDEN * (high - low);
            at_b = of(b);
        }
    }
    at_a.min(at_b)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(free: Rect) -> Part {
        Part { hole: Rect::new(0.0, 0.0, 400.0, 300.0), radius: 100.0, free }
    }

    #[test]
    fn corners_of_another_part_of_the_hole_take_nothing() {
        // Between x = 100 and 300 the hole is as high as it is.
        let middle = part(Rect::new(100.0, 0.0, 300.0, 300.0));
        assert!(middle.lets_straight(200.0, 300.0) && middle.lets(300.0, 200.0));
        assert!(!middle.lets_straight(200.1, 300.0));
    }

    #[test]
    fn a_piece_passes_beside_the_one_corner_that_is_round() {
        // Free from x = 100 on. A piece 260 high in the middle: its right corners, 20 from the upper and the lower edge, lie on
        // the arcs about (300, 100) and (300, 200) where (x - 300)^2 + 80^2 = 100^2, at x = 360.
        let right = part(Rect::new(100.0, 0.0, 400.0, 300.0));
        assert!(right.lets_straight(260.0, 260.0) && !right.lets_straight(260.1, 260.0));
        // 5 mm into both arcs they are lower by 0.13 mm each.
        assert!(right.lets_straight(200.0, 300.0) && !right.lets_straight(205.0, 300.0));
        // All four corners round would let 200 x 200 at most where it is full width.
        assert!(!right.alone(100.0).lets_straight(260.0, 260.0));
    }

    #[test]
    fn a_narrow_end_is_not_wider_than_its_arc() {
        // The last 20 mm of the hole at the left: between its arcs it is 300 - 2 (100 - sqrt(100^2 - 80^2)) = 220 high at 20.
        let end = part(Rect::new(0.0, 0.0, 20.0, 300.0));
        assert!(end.lets_straight(1.0, 200.0));
        let at = |x: f64| 100.0 + 2.0 * (100.0_f64.powi(2) - (100.0 - x).powi(2)).sqrt();
        assert!(end.lets_straight(10.0, at(10.0) - 0.01) && !end.lets_straight(10.0, at(10.0) + 0.01));
    }

    /// The same rectangle by trying turns and places one after the other.
    #[test]
    fn what_is_found_is_what_trying_finds() {
        let some = part(Rect::new(60.0, 0.0, 400.0, 240.0));
        let inner = some.hole.inset(-some.radius);
        let fits = |p: f64, q: f64| {
            (0..=90).any(|degrees| {
                let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
                (0..=34).any(|i| {
                    (0..=24).any(|j| {
                        let at = Point::new(60.0 + f64::from(i) * 10.0, f64::from(j) * 10.0);
                        [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)].into_iter().all(|(a, b)| {
                            let (x, y) = (a * p / 2.0, b * q / 2.0);
                            let corner = at + Vec2::new(x * cos - y * sin, x * sin + y * cos);
                            some.free.inflate(1e-6, 1e-6).contains(corner)
                                && (corner - nearest(inner, corner)).hypot() <= some.radius + 1e-6
                        })
                    })
                })
            })
        };
        for (p, q) in [(300.0, 200.0), (320.0, 180.0), (330.0, 150.0), (360.0, 60.0), (280.0, 230.0), (370.0, 20.0)] {
            if fits(p, q) {
                assert!(some.lets(p, q), "{p} x {q} passes");
            }
            // Places 10 apart and turns of a degree miss by no more than 7 + 4.
            if some.lets(p, q) {
                assert!(fits(p - 24.0, (q - 24.0_f64).max(0.0)), "{p} x {q} does not pass");
            }
        }
        assert!(some.lets(300.0, 200.0) && !some.lets(340.0, 240.0));
    }
}
