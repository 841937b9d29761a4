//! The roof lining as a curve across the box.

use super::polygon::Polygon;
use super::prism::{Axis, Point3, Prism};
use super::section::merged;
use crate::base::content::{Content, Digest};
use crate::base::tolerance;
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

impl Content for Roof {
    fn feed(&self, digest: &mut Digest) {
        match self {
            Self::Line(points) => points.feed(digest),
            Self::Arch { width, side, rise } => (*width, *side, *rise).feed(digest),
        }
    }
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

    /// The right end of the curve.
    fn width(&self) -> f64 {
        match self {
            Self::Line(points) => points.last().map_or(0.0, |point| point.x),
            Self::Arch { width, .. } => *width,
        }
    }

    /// Places across the box at which the curve has a corner or ends.
    #[must_use]
    pub fn corners(&self) -> Vec<f64> {
        match self {
            Self::Line(points) => points.iter().map(|point| point.x).collect(),
            Self::Arch { width, .. } => vec![0.0, *width],
        }
    }

    /// The highest lining.
    #[must_use]
    pub fn highest(&self) -> f64 {
        match self {
            Self::Line(points) => points.iter().map(|point| point.y).fold(0.0, f64::max),
            Self::Arch { side, rise, .. } => side + rise,
        }
    }

    /// The lowest lining between `y0` and `y1`, and where it is. An arch is lowest at an end of the range, a straight
    /// roof at an end or at a corner.
    #[must_use]
    pub fn least_over(&self, y0: f64, y1: f64) -> (f64, f64) {
        let corners = self.corners().into_iter().filter(|y| y0 < *y && *y < y1);
        let places = corners.chain([y0, y1]).map(|y| (self.height_at(y), y));
        places.min_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or((0.0, y0))
    }

    /// How far a prism goes through the lining at most, straight up, and the place; `None` if it does not by more than
    /// [`tolerance::SAME_LENGTH`].
    ///
    /// The height above the lining is greatest at a corner of the prism or beside a corner of the roof: along an edge
    /// of the outline an arch falls away below the edge's chord.
    #[must_use]
    pub fn pierce(&self, prism: &Prism) -> Option<(f64, Point3)> {
        let bounds = prism.bounds();
        let deepest = if prism.axis == Axis::X {
            self.edge_places(&prism.outline).into_iter().max_by(|a, b| self.above(*a).total_cmp(&self.above(*b)))?
        } else {
            Point::new(self.least_over(bounds.y.0, bounds.y.1).1, bounds.z.1)
        };
        let place = Point3 { x: bounds.centre().x, y: deepest.x, z: deepest.y };
        let depth = self.above(deepest);
        (depth > tolerance::SAME_LENGTH).then_some((depth, place))
    }

    fn above(&self, point: Point) -> f64 {
        point.y - self.height_at(point.x)
    }

    fn edge_places(&self, outline: &Polygon) -> Vec<Point> {
        let mut places = outline.points().to_vec();
        for y in self.corners() {
            let across = outline.edges().filter(|(a, b)| (a.x - y) * (b.x - y) < 0.0);
            places.extend(across.map(|(a, b)| a.lerp(b, (y - a.x) / (b.x - a.x))));
        }
        places
    }

    /// Stretches across the box where the lining is lower than `z`.
    #[must_use]
    pub fn lower_than(&self, z: f64) -> Vec<(f64, f64)> {
        match self {
            Self::Line(points) => {
                let pairs = points.iter().zip(points.iter().skip(1));
                merged(pairs.filter_map(|(a, b)| lower_part(*a, *b, z)).collect())
            }
            Self::Arch { width, side, rise } => {
                if z <= *side {
                    return Vec::new();
                }
                if z > side + rise {
                    return vec![(0.0, *width)];
                }
                let radius = self.radius().unwrap_or(f64::INFINITY);
                let up = z - (side + rise - radius);
                let off = (radius * radius - up * up).max(0.0).sqrt();
                vec![(0.0, width / 2.0 - off), (width / 2.0 + off, *width)]
            }
        }
    }

    /// The lining as a chain of points from left to right. An arch becomes chords with their ends on the arc, nowhere
    /// more than [`tolerance::CHORD`] below it.
    #[must_use]
    pub fn chain(&self) -> Vec<Point> {
        match self {
            Self::Line(points) => points.clone(),
            Self::Arch { .. } => self.arc_points(),
        }
    }

    fn arc_points(&self) -> Vec<Point> {
        const MOST: f64 = 4096.0;
        let radius = self.radius().unwrap_or(f64::INFINITY);
        let half = (self.width() / 2.0 / radius).clamp(-1.0, 1.0).asin();
        let step = 2.0 * (1.0 - tolerance::CHORD / radius).clamp(-1.0, 1.0).acos();
        let count = (2.0 * half / step).ceil().clamp(2.0, MOST);
        let angles = (0..=count as u32).map(|i| half * (2.0 * f64::from(i) / count - 1.0));
        let places = angles.map(|angle| self.width() / 2.0 + radius * angle.sin());
        places.map(|y| Point::new(y, self.height_at(y))).collect()
    }

    /// The lower edge of what is left free: the lining lowered by `gap`, from `y0` to `y1`, nowhere above `cap`. Each
    /// step has its end, and under an arch the point that its arc goes through; the first is the start.
    #[must_use]
    pub fn edge(&self, (y0, y1): (f64, f64), gap: f64, cap: f64) -> Vec<(Point, Option<Point>)> {
        let at = |y: f64| Point::new(y, (self.height_at(y) - gap).min(cap));
        let crossings = self.lower_than(cap + gap).into_iter().flat_map(|(a, b)| [a, b]);
        let crown = self.radius().map(|_| self.width() / 2.0);
        let mut places: Vec<f64> = self.corners().into_iter().chain(crossings).chain(crown).collect();
        places.retain(|y| y0 + tolerance::SAME_LENGTH < *y && *y < y1 - tolerance::SAME_LENGTH);
        places.push(y1);
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() <= tolerance::SAME_LENGTH);
        let mut edge = vec![(at(y0), None)];
        let mut from = y0;
        for to in places {
            let middle = at(f64::midpoint(from, to));
            edge.push((at(to), (self.radius().is_some() && middle.y < cap).then_some(middle)));
            from = to;
        }
        edge
    }

    /// The region above the lining up to height `top`, in the plane across the box (y, z). `top` should be above the
    /// whole lining.
    #[must_use]
    pub fn above_outline(&self, top: f64) -> Polygon {
        let mut points = self.chain();
        points.extend([Point::new(self.width(), top), Point::new(0.0, top)]);
        Polygon::new(points)
    }
}

/// The stretch of a straight piece of roof that is lower than `z`.
fn lower_part(a: Point, b: Point, z: f64) -> Option<(f64, f64)> {
    let at = || a.x + (b.x - a.x) * (z - a.y) / (b.y - a.y);
    match (a.y < z, b.y < z) {
        (true, true) => Some((a.x, b.x)),
        (true, false) => Some((a.x, at())),
        (false, true) => Some((at(), b.x)),
        (false, false) => None,
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

#[cfg(test)]
mod tests;
