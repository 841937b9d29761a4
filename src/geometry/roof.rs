//! The roof lining as a curve across the box.

use kurbo::Point;

/// The underside of the roof as a function of y; the same along the whole length.
#[derive(Debug, Clone, PartialEq)]
pub enum Roof {
    /// Straight, point to point, from the left wall to the right; y strictly grows. Flat and ridge roofs are this.
    Line(Vec<Point>),
    /// A circular arc through both side heights and the crown.
    Arch {
        /// Inside width of the box.
        width: f64,
        /// Height at both side walls.
        side: f64,
        /// How much higher the crown is; more than 0 and at most half the width.
        rise: f64,
    },
}

impl Roof {
    /// Radius of the arch, `(w^2/4 + r^2) / (2 r)` by the chord and its rise; `None` for straight roofs.
    #[must_use]
    pub fn radius(&self) -> Option<f64> {
        match self {
            Self::Line(_) => None,
            Self::Arch { width, rise, .. } => Some((width * width / 4.0 + rise * rise) / (2.0 * rise)),
        }
    }

    /// Height of the lining above the floor at `y`; past the walls, the height at the wall.
    #[must_use]
    pub fn height_at(&self, y: f64) -> f64 {
        match self {
            Self::Line(points) => line_height(points, y),
            Self::Arch { width, side, rise } => {
                let radius = self.radius().unwrap_or(f64::INFINITY);
                let off = y.clamp(0.0, *width) - width / 2.0;
                side + rise - radius + (radius * radius - off * off).max(0.0).sqrt()
            }
        }
    }
}

fn line_height(points: &[Point], y: f64) -> f64 {
    let after = points.partition_point(|point| point.x <= y);
    match (after.checked_sub(1).and_then(|at| points.get(at)), points.get(after)) {
        (Some(a), Some(b)) => a.y + (b.y - a.y) * (y - a.x) / (b.x - a.x),
        (Some(a), None) | (None, Some(a)) => a.y,
        (None, None) => 0.0,
    }
}
