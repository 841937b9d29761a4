//! The angle at which a hinged leaf first meets something, solved and not stepped.
//!
//! While a leaf turns, what it has in common with a polygon can only begin or end at an event: a corner of the leaf
//! runs over an edge of the polygon, or a corner of the polygon is run over by an edge of the leaf. Both are meetings
//! of a circle about the hinge with a straight edge, solved in closed form. Between two neighbouring events nothing
//! changes, so one look at the middle of each stretch says whether the leaf is free in it.

use super::convex::{Convex, pieces};
use super::polygon::Polygon;
use crate::base::tolerance;
use kurbo::{Point, Vec2};
use std::f64::consts::TAU;

/// A leaf in the plane across its hinge line.
///
/// The hinge lies in the face that the leaf opens towards, as knuckles do; the thickness lies behind that face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leaf {
    /// The hinge.
    pub hinge: Point,
    /// Direction of the shut leaf from the hinge, degrees counter-clockwise.
    pub shut: f64,
    /// How far it opens, degrees; negative turns clockwise.
    pub opens: f64,
    /// From the hinge to the free edge, mm.
    pub length: f64,
    /// Thickness, mm.
    pub thickness: f64,
}

/// Where a leaf stops.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// How far it has opened, degrees, 0 or more.
    pub angle: f64,
    /// The place where it meets the obstacle.
    pub at: Point,
    /// Index of the obstacle.
    pub obstacle: usize,
}

impl Leaf {
    /// The leaf's outline when opened by `angle` degrees (0 is shut).
    #[must_use]
    pub fn outline(&self, angle: f64) -> Polygon {
        let turned = turn(self.corners(), angle.to_radians());
        Polygon::new(turned.into_iter().map(|corner| self.to_plane(corner)).collect())
    }

    /// The distance of the farthest corner from the hinge.
    #[must_use]
    pub fn reach(&self) -> f64 {
        self.length.hypot(self.thickness)
    }

    /// The first stop on the way to fully open; `None` if nothing is met.
    ///
    /// Touching is free: only an obstacle that the leaf would enter by more than [`tolerance::SAME_LENGTH`] stops it. An
    /// obstacle that the shut leaf already stands in stops it at 0.
    #[must_use]
    pub fn stop(&self, obstacles: &[Polygon]) -> Option<Stop> {
        let stops = obstacles.iter().enumerate().filter_map(|(index, obstacle)| {
            let (angle, at) = self.meets(obstacle)?;
            Some(Stop { angle, at, obstacle: index })
        });
        stops.min_by(|a, b| a.angle.total_cmp(&b.angle))
    }

    fn meets(&self, obstacle: &Polygon) -> Option<(f64, Point)> {
        let local: Vec<Point> = obstacle.points().iter().map(|point| self.to_leaf(*point)).collect();
        let local = Polygon::new(local);
        let parts = pieces(&local);
        let most = self.opens.abs().min(360.0).to_radians();
        let mut events = events(&self.corners(), &local, most);
        events.push((0.0, None));
        events.push((most, None));
        events.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.is_none().cmp(&b.1.is_none())));
        let found = events.iter().zip(events.iter().skip(1)).find_map(|(from, to)| {
            let entered = self.shared(&parts, f64::midpoint(from.0, to.0))?;
            Some((from.0, from.1.unwrap_or(entered)))
        });
        found.map(|(angle, at)| (angle.to_degrees(), self.to_plane(at)))
    }

    /// The middle of what the turned leaf shares with the pieces, if that is more than a touch.
    fn shared(&self, parts: &[Convex], angle: f64) -> Option<Point> {
        let leaf = Convex::new(turn(self.corners(), angle).to_vec());
        let shared = parts.iter().map(|part| leaf.common(part));
        shared.filter(Convex::is_thick).map(|part| part.bounds().center()).next()
    }

    /// Corners when shut, with the hinge at the origin, the leaf along the first axis, opening counter-clockwise.
    fn corners(&self) -> [Point; 4] {
        let (length, back) = (self.length, -self.thickness);
        [Point::new(0.0, back), Point::new(length, back), Point::new(length, 0.0), Point::ZERO]
    }

    fn to_leaf(self, point: Point) -> Point {
        let turned = rotate(point - self.hinge, -self.shut.to_radians());
        if self.opens < 0.0 { Point::new(turned.x, -turned.y) } else { turned.to_point() }
    }

    fn to_plane(self, point: Point) -> Point {
        let upright = if self.opens < 0.0 { Vec2::new(point.x, -point.y) } else { point.to_vec2() };
        self.hinge + rotate(upright, self.shut.to_radians())
    }
}

fn rotate(v: Vec2, by: f64) -> Vec2 {
    let (sin, cos) = by.sin_cos();
    Vec2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}

fn turn(corners: [Point; 4], by: f64) -> [Point; 4] {
    corners.map(|corner| rotate(corner.to_vec2(), by).to_point())
}

/// Angles up to `most` at which contact may begin or end, with the place.
fn events(leaf: &[Point; 4], obstacle: &Polygon, most: f64) -> Vec<(f64, Option<Point>)> {
    let leaf_edges = || leaf.iter().zip(leaf.iter().cycle().skip(1));
    let mut found = Vec::new();
    for corner in leaf {
        for (a, b) in obstacle.edges() {
            let hits = on_circle(a, b, corner.to_vec2().hypot());
            found.extend(hits.map(|hit| (hit.to_vec2().angle() - corner.to_vec2().angle(), Some(hit))));
        }
    }
    for corner in obstacle.points() {
        for (a, b) in leaf_edges() {
            let hits = on_circle(*a, *b, corner.to_vec2().hypot());
            found.extend(hits.map(|hit| (corner.to_vec2().angle() - hit.to_vec2().angle(), Some(*corner))));
        }
    }
    let positive = found.into_iter().map(|(angle, at)| (angle.rem_euclid(TAU), at));
    positive.filter(|(angle, _)| *angle <= most).collect()
}

/// The places of a straight edge that lie on a circle about the origin.
fn on_circle(a: Point, b: Point, radius: f64) -> impl Iterator<Item = Point> {
    let along = b - a;
    let (square, half) = (along.hypot2(), along.dot(a.to_vec2()));
    let inner = half * half - square * (a.to_vec2().hypot2() - radius * radius);
    let root = if square > 0.0 && inner >= -square * tolerance::SAME_LENGTH * tolerance::ROUNDING {
        Some(inner.max(0.0).sqrt())
    } else {
        None
    };
    let places = root.into_iter().flat_map(move |root| [(-half - root) / square, (-half + root) / square]);
    places.filter(|at| (-tolerance::ROUNDING..=1.0 + tolerance::ROUNDING).contains(at)).map(move |at| a.lerp(b, at))
}

#[cfg(test)]
mod tests;
