//! Outlines made of chords, told as straight lines and circular arcs again.

use super::polygon::Polygon;
use crate::base::tolerance::GREATEST_LENGTH;
use kurbo::Point;
use std::f64::consts::{PI, TAU};

/// One piece of an outline, from where the one before it ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stretch {
    /// A straight line.
    Line {
        /// Its end.
        to: Point,
    },
    /// An arc of less than a full circle.
    Arc {
        /// Its end.
        to: Point,
        /// The middle of its circle.
        centre: Point,
        /// Whether it turns to the left.
        left: bool,
    },
}

impl Stretch {
    /// Its end.
    #[must_use]
    pub fn to(&self) -> Point {
        match self {
            Self::Line { to } | Self::Arc { to, .. } => *to,
        }
    }
}

/// A closed outline.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Contour {
    /// Where it begins and ends.
    pub start: Point,
    /// Its pieces in order.
    pub stretches: Vec<Stretch>,
}

/// An arc has at least so many chords.
const CHORDS: usize = 3;
/// Chords of an arc turn by no more than this from one to the next.
const TURN: f64 = PI / 8.0;
/// An arc is no longer than half a circle and a little.
const MOST: f64 = PI * 1.02;

/// A share of a piece, from its start.
fn begun(from: Point, stretch: Stretch, share: f64) -> Stretch {
    match stretch {
        Stretch::Line { to } => Stretch::Line { to: from.lerp(to, share) },
        Stretch::Arc { to, centre, left } => {
            let turn = kurbo::Affine::rotate_about(turned(from, to, centre, left) * share, centre);
            Stretch::Arc { to: turn * from, centre, left }
        }
    }
}

/// Marks this near to the end of a piece are at it, mm.
const NEAR: f64 = 0.01;

/// By how much an arc turns, to the left as a positive angle.
fn turned(from: Point, to: Point, centre: Point, left: bool) -> f64 {
    let by = (angle(to, centre) - angle(from, centre)).rem_euclid(TAU);
    if left { by } else { by - TAU }
}

impl Contour {
    /// The outline of a polygon, in its direction; corners lie on arcs within `off`, mm.
    #[must_use]
    pub fn of(points: &[Point], off: f64) -> Self {
        let count = points.len();
        if count < 3 {
            return Self::default();
        }
        let first = begin(points);
        let ring: Vec<Point> = (0..=count).filter_map(|at| points.get((first + at) % count)).copied().collect();
        let mut made = Self { start: ring.first().copied().unwrap_or_default(), stretches: Vec::new() };
        let mut at = 0;
        while at + 1 < ring.len() {
            let rest = ring.get(at..).unwrap_or_default();
            match longest(rest, off) {
                Some((last, stretch)) => {
                    made.stretches.push(stretch);
                    at += last;
                }
                None => {
                    made.stretches.extend(rest.get(1).map(|to| Stretch::Line { to: *to }));
                    at += 1;
                }
            }
        }
        made
    }

    /// The same of a polygon.
    #[must_use]
    pub fn of_polygon(polygon: &Polygon, off: f64) -> Self {
        Self::of(polygon.points(), off)
    }

    /// Each piece with its start.
    pub fn pieces(&self) -> impl Iterator<Item = (Point, Stretch)> + '_ {
        let starts = std::iter::once(self.start).chain(self.stretches.iter().map(Stretch::to));
        starts.zip(self.stretches.iter().copied())
    }

    /// Its length, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.pieces().map(|(from, stretch)| Self::stretch_length(from, &stretch)).sum()
    }

    /// The length of one piece from where it begins, mm.
    #[must_use]
    pub fn stretch_length(from: Point, stretch: &Stretch) -> f64 {
        match *stretch {
            Stretch::Line { to } => from.distance(to),
            Stretch::Arc { to, centre, left } => centre.distance(from) * turned(from, to, centre, left).abs(),
        }
    }

    /// The place at a distance along it, mm.
    #[must_use]
    pub fn at(&self, mark: f64) -> Point {
        let mut gone = 0.0;
        for (from, stretch) in self.pieces() {
            let long = Self::stretch_length(from, &stretch);
            if mark <= gone + long && long > 0.0 {
                return begun(from, stretch, (mark - gone) / long).to();
            }
            gone += long;
        }
        self.start
    }

    /// The same outline with pieces that end at some distances along it, mm, in growing order.
    #[must_use]
    pub fn cut_at(&self, marks: &[f64]) -> Self {
        let (mut stretches, mut gone) = (Vec::new(), 0.0);
        for (from, stretch) in self.pieces() {
            let long = Self::stretch_length(from, &stretch);
            let within = marks.iter().filter(|mark| **mark > gone + NEAR && **mark < gone + long - NEAR);
            stretches.extend(within.map(|mark| begun(from, stretch, (mark - gone) / long)));
            stretches.push(stretch);
            gone += long;
        }
        Self { start: self.start, stretches }
    }

    /// Radii of its arcs, mm, each with how many arcs have it, small to large; the halves of a circle are one.
    #[must_use]
    pub fn radii(&self) -> Vec<(f64, usize)> {
        let arcs = self.pieces().filter_map(|(from, piece)| match piece {
            Stretch::Arc { centre, .. } => Some((centre, (centre.distance(from) * 10.0).round() / 10.0)),
            Stretch::Line { .. } => None,
        });
        let mut seen: Vec<(Point, f64)> = Vec::new();
        for (centre, radius) in arcs {
            if !seen.iter().any(|(other, known)| *known == radius && other.distance(centre) < 0.1) {
                seen.push((centre, radius));
            }
        }
        let mut radii: Vec<f64> = seen.into_iter().map(|(_, radius)| radius).collect();
        radii.sort_by(f64::total_cmp);
        let mut counted: Vec<(f64, usize)> = Vec::new();
        for radius in radii {
            match counted.last_mut().filter(|(known, _)| *known == radius) {
                Some((_, count)) => *count += 1,
                None => counted.push((radius, 1)),
            }
        }
        counted
    }
}

/// A corner that no arc runs through, if there is one: where the longest edge begins.
fn begin(points: &[Point]) -> usize {
    let next = points.iter().cycle().skip(1);
    let longest = points.iter().zip(next).enumerate().map(|(at, (a, b))| (a.distance(*b), at));
    longest.max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1))).map_or(0, |(_, at)| at)
}

/// The longest arc at the start of some corners: its last corner and itself.
fn longest(rest: &[Point], off: f64) -> Option<(usize, Stretch)> {
    let mut found = None;
    for last in CHORDS..rest.len() {
        match arc(rest.get(..=last)?, off) {
            Some(stretch) => found = Some((last, stretch)),
            None if found.is_some() || last > CHORDS => break,
            None => {}
        }
    }
    found
}

fn arc(points: &[Point], off: f64) -> Option<Stretch> {
    let (first, last) = (*points.first()?, *points.last()?);
    let centre = centre(first, *points.get(points.len() / 2)?, last)?;
    let radius = centre.distance(first);
    let mut turned = 0.0;
    for (a, b) in points.iter().zip(points.iter().skip(1)) {
        let by = angle(*b, centre) - angle(*a, centre);
        let by = (by + PI).rem_euclid(TAU) - PI;
        let same_way = turned == 0.0 || (by > 0.0) == (turned > 0.0);
        if (b.distance(centre) - radius).abs() > off || by.abs() > TURN || !same_way {
            return None;
        }
        if radius * (1.0 - (by / 2.0).cos()) > 2.0 * off {
            return None;
        }
        turned += by;
    }
    (turned.abs() <= MOST).then_some(Stretch::Arc { to: last, centre, left: turned > 0.0 })
}

fn angle(point: Point, centre: Point) -> f64 {
    (point - centre).atan2()
}

/// The middle of the circle through three points, if they are not nearly in line.
fn centre(a: Point, b: Point, c: Point) -> Option<Point> {
    let (u, v) = (b - a, c - a);
    let twice = 2.0 * u.cross(v);
    let middle = a + kurbo::Vec2::new(v.y * u.hypot2() - u.y * v.hypot2(), u.x * v.hypot2() - v.x * u.hypot2()) / twice;
    (middle.is_finite() && middle.distance(a) < GREATEST_LENGTH).then_some(middle)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Rect, Shape};

    fn corners(shape: &impl Shape) -> Vec<Point> {
        let mut points = Vec::new();
        kurbo::flatten(shape.path_elements(1e-6), 0.01, |element| match element {
            kurbo::PathEl::MoveTo(point) | kurbo::PathEl::LineTo(point) => points.push(point),
            _ => {}
        });
        points.dedup_by(|a, b| a.distance(*b) < 1e-6);
        if points.first().zip(points.last()).is_some_and(|(a, b)| a.distance(*b) < 1e-6) {
            points.pop();
        }
        points
    }

    /// A board of 400 x 300 with two corners rounded by 60: four lines, two arcs, the area by hand.
    #[test]
    fn rounded_corners_are_arcs_again() {
        let shape = Rect::new(0.0, 0.0, 400.0, 300.0).to_rounded_rect((60.0, 60.0, 0.0, 0.0));
        let contour = Contour::of(&corners(&shape), 0.03);
        let arcs = contour.stretches.iter().filter(|one| matches!(one, Stretch::Arc { .. })).count();
        assert_eq!((arcs, contour.stretches.len() - arcs), (2, 4), "{contour:?}");
        assert_eq!(contour.radii(), [(60.0, 2)]);
        for (from, piece) in contour.pieces() {
            if let Stretch::Arc { to, centre, .. } = piece {
                let near = |a: f64, b: f64| (a - b).abs() < 0.05;
                assert!(near(centre.distance(from), 60.0) && near(centre.distance(to), 60.0), "{centre}");
                assert!(near(centre.x, 60.0) || near(centre.x, 340.0), "{centre}");
            }
        }
    }

    #[test]
    fn a_circle_is_two_halves_or_so_and_one_radius() {
        let contour = Contour::of(&corners(&Circle::new((50.0, 50.0), 17.5)), 0.03);
        assert!(contour.stretches.iter().all(|one| matches!(one, Stretch::Arc { left: true, .. })), "{contour:?}");
        assert!((2..=3).contains(&contour.stretches.len()));
        assert_eq!(contour.radii(), [(17.5, 1)]);
    }

    /// By hand: twice 400 and 300 less what two corners of 60 take, and the marks are on it.
    #[test]
    fn lengths_and_marks_along_an_outline() {
        let shape = Rect::new(0.0, 0.0, 400.0, 300.0).to_rounded_rect((60.0, 60.0, 0.0, 0.0));
        let contour = Contour::of(&corners(&shape), 0.03);
        let wanted = 1400.0 - 4.0 * 60.0 + PI * 60.0;
        assert!((contour.length() - wanted).abs() < 0.05, "{}", contour.length());
        let marks = [10.0, 333.0, 700.0, 1200.0];
        let cut = contour.cut_at(&marks);
        assert_eq!(cut.stretches.len(), contour.stretches.len() + 4);
        assert!((cut.length() - contour.length()).abs() < 1e-6);
        assert_eq!(contour.at(0.0), contour.start);
        let third = cut.stretches.iter().find(|one| one.to().distance(contour.at(333.0)) < 1e-6);
        assert!(third.is_some());
        let mut gone = 0.0;
        let ends = cut.pieces().map(|(from, stretch)| {
            gone += Contour::stretch_length(from, &stretch);
            gone
        });
        let ends: Vec<f64> = ends.collect();
        assert!(marks.iter().all(|mark| ends.iter().any(|end| (end - mark).abs() < 1e-6)), "{ends:?}");
    }

    /// The corners of a rectangle and of a hexagon lie on circles, too.
    #[test]
    fn straight_edges_stay() {
        let square = Polygon::rect(Rect::new(0.0, 0.0, 40.0, 30.0));
        assert_eq!(Contour::of_polygon(&square, 0.03).radii(), []);
        let hexagon = (0..6).map(|k| Point::ORIGIN + kurbo::Vec2::from_angle(f64::from(k)) * 20.0).collect();
        let contour = Contour::of_polygon(&Polygon::new(hexagon), 0.03);
        assert_eq!((contour.stretches.len(), contour.radii().len()), (6, 0));
        assert_eq!(Contour::of(&[Point::ZERO], 0.03), Contour::default());
    }
}
