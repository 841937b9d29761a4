//! Whether a flat rectangle passes a flat hole, in any turn: a box through a hatch, one face ahead.
//!
//! Square corners: Carver's condition (1957; Wetzel, Rectangles in rectangles, 2000). Here both follow from one
//! argument that holds for round corners too. The hole is convex and symmetric about its middle, so the rectangle may
//! lie with its middle there, and it passes when its corners do. They lie on a circle about the middle. In a quarter of
//! the hole the directions in which this circle runs inside are one range, as the distance of the hole's edge grows up
//! to its corner and falls again after it. Two neighbouring corners, twice [`half_angle`] apart, must both fall into
//! such ranges. Exact, also for round corners. Degenerate cases: a rectangle that only just fits passes.

use crate::base::tolerance::SAME_LENGTH;
use std::f64::consts::FRAC_PI_2;

/// A rectangular hole, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// From side to side.
    pub width: f64,
    /// From the lower edge to the upper.
    pub height: f64,
    /// Radius of the corners; at most half the smaller size counts.
    pub radius: f64,
}

/// How the corners of a rectangle lie: half its diagonal, and the angle of the diagonal to its longer side.
fn half_angle(p: f64, q: f64) -> (f64, f64) {
    (p.hypot(q) / 2.0, q.atan2(p))
}

impl Hole {
    /// Whether a rectangle of sides `p` and `q` passes, turned in any way in the hole's plane.
    #[must_use]
    pub fn lets(self, p: f64, q: f64) -> bool {
        let (long, short) = ((p.max(q) - SAME_LENGTH).max(0.0), (p.min(q) - SAME_LENGTH).max(0.0));
        let (reach, angle) = half_angle(long, short);
        let Some((from, to)) = self.directions(reach) else { return false };
        let holds = |direction: f64| from <= direction && direction <= to;
        holds(angle) || holds(FRAC_PI_2 - angle) || to - from >= 2.0 * angle
    }

    /// Whether a rectangle passes that keeps its sides parallel to the hole's: `width` along the hole's width.
    #[must_use]
    pub fn lets_straight(self, width: f64, height: f64) -> bool {
        let (x, y) = ((width - SAME_LENGTH).max(0.0) / 2.0, (height - SAME_LENGTH).max(0.0) / 2.0);
        let radius = self.rounding();
        let (off_x, off_y) = (x - (self.width / 2.0 - radius), y - (self.height / 2.0 - radius));
        let in_corner = off_x > 0.0 && off_y > 0.0;
        x <= self.width / 2.0 && y <= self.height / 2.0 && (!in_corner || off_x.hypot(off_y) <= radius)
    }

    fn rounding(self) -> f64 {
        self.radius.min(self.width / 2.0).min(self.height / 2.0).max(0.0)
    }

    /// The range of directions in the first quarter, from the width's axis, in which a point at a distance from the
    /// middle lies in the hole; `None` if there is none.
    fn directions(self, reach: f64) -> Option<(f64, f64)> {
        let (x, y, radius) = (self.width / 2.0, self.height / 2.0, self.rounding());
        let (middle_x, middle_y) = (x - radius, y - radius);
        let middle = middle_x.hypot(middle_y);
        if reach > middle + radius {
            return None;
        }
        let cosine = (reach * reach + middle * middle - radius * radius) / (2.0 * reach * middle);
        let (towards, off) = (middle_y.atan2(middle_x), cosine.clamp(-1.0, 1.0).acos());
        let up = (reach * reach - x * x).max(0.0).sqrt();
        let along = (reach * reach - y * y).max(0.0).sqrt();
        let from = if reach <= x {
            0.0
        } else if up <= middle_y {
            up.atan2(x)
        } else {
            towards - off
        };
        let to = if reach <= y {
            FRAC_PI_2
        } else if along <= middle_x {
            y.atan2(along)
        } else {
            towards + off
        };
        (from <= to).then_some((from, to))
    }

    /// The least height, at the same width, at which `passes` holds; `None` if no height serves. `passes` must go on
    /// holding when a hole grows.
    #[must_use]
    pub fn height_for(self, passes: impl Fn(Self) -> bool) -> Option<f64> {
        let most = 16.0 * (self.width + self.height).max(crate::base::tolerance::GREATEST_LENGTH / 16.0);
        least(self.height, most, |height| passes(Self { height, ..self }))
    }

    /// The least width, at the same height, at which `passes` holds; `None` if no width serves.
    #[must_use]
    pub fn width_for(self, passes: impl Fn(Self) -> bool) -> Option<f64> {
        let turned = Self { width: self.height, height: self.width, ..self };
        turned.height_for(|hole| passes(Self { width: hole.height, height: hole.width, ..hole }))
    }
}

/// The least value of a range at which a condition holds that holds from some value on, to the tolerance of lengths.
fn least(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    const HALVINGS: u32 = 60;
    if holds(low) {
        return Some(low);
    }
    if !holds(high) {
        return None;
    }
    let (mut no, mut yes) = (low, high);
    for _ in 0..HALVINGS {
        if yes - no <= SAME_LENGTH / 2.0 {
            break;
        }
        let middle = f64::midpoint(no, yes);
        if holds(middle) { yes = middle } else { no = middle }
    }
    Some(yes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn square(width: f64, height: f64) -> Hole {
        Hole { width, height, radius: 0.0 }
    }

    /// Carver's condition as Wetzel states it, for p >= q and a >= b. The third part is of use only with the second.
    fn carver([p, q]: [f64; 2], [a, b]: [f64; 2]) -> bool {
        let turned = (2.0 * p * q * a + (p * p - q * q) * (p * p + q * q - a * a).max(0.0).sqrt()) / (p * p + q * q);
        q <= b && (p <= a || b >= turned)
    }

    /// In a square of side s a rectangle passes corner to corner when p + q <= s times the root of two (by hand: its
    /// shadow on each side, turned by 45 degrees, is (p + q) / root of two).
    #[test]
    fn a_long_board_goes_through_a_square_hole_corner_to_corner() {
        let limit = 500.0 * 2.0_f64.sqrt();
        assert!(square(500.0, 500.0).lets(limit - 60.0, 60.0));
        assert!(!square(500.0, 500.0).lets(limit - 59.9, 60.0));
        assert!(!square(500.0, 500.0).lets_straight(limit - 60.0, 60.0));
    }

    #[test]
    fn a_stick_goes_through_up_to_the_diagonal() {
        assert!(square(400.0, 300.0).lets(499.9, 0.1) && !square(400.0, 300.0).lets(500.1, 0.1));
    }

    /// Known trap of the inequality alone: a square of 10 does not pass a square of 8.
    #[test]
    fn what_is_larger_both_ways_does_not_pass() {
        assert!(!square(8.0, 8.0).lets(10.0, 10.0));
        assert!(square(10.0, 10.0).lets(10.0, 10.0) && square(10.0, 8.0).lets(8.0, 10.0));
    }

    #[test]
    fn round_corners_take_what_square_ones_give() {
        let hole = |radius| Hole { width: 400.0, height: 300.0, radius };
        assert!(hole(0.0).lets(400.0, 300.0) && !hole(40.0).lets(400.0, 300.0));
        // By hand: with w = 400 all wide, the height loses twice 40 to the arcs; 45 degrees down the arc it loses
        // twice 40 (1 - cos 45) both ways.
        assert!(hole(40.0).lets_straight(400.0, 220.0) && !hole(40.0).lets_straight(400.0, 221.0));
        let loss = 80.0 * (1.0 - 0.5_f64.sqrt());
        assert!(hole(40.0).lets(400.0 - loss, 300.0 - loss) && !hole(40.0).lets(400.0 - loss, 301.0 - loss));
        // A round hole: the diagonal is its diameter.
        let round = Hole { width: 500.0, height: 500.0, radius: 250.0 };
        assert!(round.lets(400.0, 300.0) && !round.lets(400.0, 300.2));
    }

    #[test]
    fn the_least_height_just_passes() {
        let hole = square(840.0, 300.0);
        let height = hole.height_for(|hole| hole.lets(900.0, 320.0)).unwrap();
        assert!(carver([900.0, 320.0], [840.0, height + 0.1]) && !carver([900.0, 320.0], [840.0, height - 0.1]));
        assert_eq!(hole.width_for(|hole| hole.lets(900.0, 320.0)), None);
        assert_eq!(hole.height_for(|hole| hole.lets(300.0, 200.0)), Some(300.0));
    }

    /// Corners of a turned rectangle, one turn after the other.
    fn passes_some_turn(hole: Hole, p: f64, q: f64) -> bool {
        let inside = |x: f64, y: f64| hole.lets_straight(2.0 * x.abs(), 2.0 * y.abs());
        (0..=3600).map(|turn| f64::from(turn) * FRAC_PI_2 / 3600.0).any(|turn| {
            let (sin, cos) = turn.sin_cos();
            [(p, q), (p, -q)].iter().all(|(p, q)| inside((p * cos - q * sin) / 2.0, (p * sin + q * cos) / 2.0))
        })
    }

    proptest! {
        #[test]
        fn square_corners_are_carvers_condition(p in 1.0..900.0, q in 1.0..900.0, a in 1.0..700.0, b in 1.0..700.0) {
            let sorted = |x: f64, y: f64| [x.max(y), x.min(y)];
            let expected = carver(sorted(p, q), sorted(a, b));
            let margin = |by: f64| carver(sorted(p, q), sorted(a + by, b + by));
            prop_assume!(margin(0.01) == margin(-0.01));
            prop_assert_eq!(square(a, b).lets(p, q), expected);
        }

        #[test]
        fn round_corners_are_what_turning_by_steps_finds(
            p in 1.0..600.0, q in 1.0..400.0, a in 100.0..500.0, b in 100.0..500.0, share in 0.0..0.5,
        ) {
            let hole = |by: f64| Hole { width: a + by, height: b + by, radius: share * f64::min(a, b) };
            if passes_some_turn(hole(0.0), p, q) {
                prop_assert!(hole(0.0).lets(p, q));
            } else {
                // Between two turns a corner moves no more than 0.15 mm.
                prop_assert!(!hole(-0.4).lets(p, q));
            }
        }
    }
}
