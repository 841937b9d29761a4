//! Whole numbers as small and as near to zero as they can be, for a diagram.
//!
//! What is the same to the last digit for the eye, such as four walls round a square, is beyond what figures of 53 bits
//! decide, and is worked out in long whole numbers. Their length counts squared, so the common divisor of all distances
//! (1 mm in most floors, 1,000 steps of the grid) is taken out, and the lowest corner is put at 0, 0: nothing is rounded.

use crate::base::tolerance::CLEARANCE_GRID;
use i_overlay::i_float::int::point::IntPoint;
use kurbo::Point;

/// An edge on the grid.
pub(super) type Edge = (IntPoint<i32>, IntPoint<i32>);

/// A mirror of the plane.
pub(super) type Mirror = fn(f64, f64) -> (f64, f64);

/// How corners on the grid become the numbers of a diagram.
pub(super) struct Fit {
    mirror: Mirror,
    /// The lowest corner, mirrored, in steps of the grid.
    low: (f64, f64),
    /// Steps of the grid in one step of the diagram.
    step: f64,
}

impl Fit {
    /// The fit for some edges; `None` if there are none.
    pub fn new(edges: &[Edge], mirror: Mirror) -> Option<Self> {
        let corners = || edges.iter().flat_map(|(a, b)| [*a, *b]).map(|p| mirror(f64::from(p.x), f64::from(p.y)));
        let low = corners().reduce(|a, b| (a.0.min(b.0), a.1.min(b.1)))?;
        // Whole numbers within 2^32, so without a loss.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let far = |(x, y): (f64, f64)| common((x - low.0) as u64, (y - low.1) as u64);
        let step = corners().map(far).fold(0, common).max(1);
        #[allow(clippy::cast_precision_loss)]
        Some(Self { mirror, low, step: step as f64 })
    }

    /// A corner in steps of the diagram.
    pub fn small(&self, p: IntPoint<i32>) -> [i32; 2] {
        let (x, y) = (self.mirror)(f64::from(p.x), f64::from(p.y));
        [((x - self.low.0) / self.step) as i32, ((y - self.low.1) / self.step) as i32]
    }

    /// A place of the diagram in millimetres.
    pub fn large(&self, x: f64, y: f64) -> Point {
        let (x, y) = (self.mirror)(x * self.step + self.low.0, y * self.step + self.low.1);
        Point::new(x * CLEARANCE_GRID, y * CLEARANCE_GRID)
    }
}

/// The greatest common divisor.
fn common(mut a: u64, mut b: u64) -> u64 {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_come_back_as_they_were() {
        let corners = [(-1_050_000, 2_000_000), (400_500, 2_000_000), (400_500, 3_123_000)];
        let point = |(x, y)| IntPoint::new(x, y);
        let edges: Vec<Edge> = corners.windows(2).map(|pair| (point(pair[0]), point(pair[1]))).collect();
        let mirrors: [Mirror; 4] = [|x, y| (x, y), |x, y| (y, x), |x, y| (-x, y), |x, y| (-y, -x)];
        for mirror in mirrors {
            let fit = Fit::new(&edges, mirror).unwrap();
            assert_eq!(fit.step, 500.0, "1,450,500 and 1,123,000 have 500 in common");
            for corner in corners.map(point) {
                let [x, y] = fit.small(corner);
                assert!((0..=3000).contains(&x) && (0..=3000).contains(&y));
                let back = fit.large(f64::from(x), f64::from(y));
                let (far_x, far_y) = (back.x - f64::from(corner.x) / 1000.0, back.y - f64::from(corner.y) / 1000.0);
                assert!(far_x.abs() < 1e-9 && far_y.abs() < 1e-9, "{back:?}");
            }
        }
        assert!(Fit::new(&[], mirrors[0]).is_none());
    }
}
