//! Sites of the clearance graph and the arcs between them: where two sites are equally far.
//!
//! A site is a corner or an edge of the free region. Between two corners, and between two edges, the arc is straight;
//! between a corner and an edge it is a piece of a parabola.

use crate::base::tolerance::SAME_RADIUS;
use kurbo::{Point, Rect, Vec2};

/// How many chords stand for a parabola in a drawn path.
const CHORDS: u32 = 8;

/// A corner or an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Site {
    Corner(Point),
    Edge(Point, Point),
}

impl Site {
    /// The point of the site that is nearest to `p`.
    pub fn nearest(self, p: Point) -> Point {
        match self {
            Self::Corner(corner) => corner,
            Self::Edge(a, b) => nearest_on(a, b, p),
        }
    }

    /// The distance from `p`.
    pub fn distance(self, p: Point) -> f64 {
        self.nearest(p).distance(p)
    }
}

/// The point of the segment `a b` that is nearest to `p`; `a` if the segment has no length.
#[must_use]
pub fn nearest_on(a: Point, b: Point, p: Point) -> Point {
    let along = b - a;
    let square = along.hypot2();
    if square == 0.0 { a } else { a + along * ((p - a).dot(along) / square).clamp(0.0, 1.0) }
}

/// A place of a way with the radius of the disc there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub p: Point,
    pub r: f64,
}

/// A straight or curved piece of way between two places.
#[derive(Debug, Clone, Copy)]
pub(super) struct Link {
    pub ends: (usize, usize),
    /// Its narrowest place.
    pub narrowest: Spot,
    /// Its length, mm.
    pub length: f64,
    /// The arc that it is or is a part of; `None` if it is straight.
    pub arc: Option<usize>,
}

/// The frame of a parabola: `foot` is the corner's foot on the edge, `x` along the edge, `y` from the edge to the
/// corner, `h` its height above the edge. The parabola is `y = (x^2 + h^2) / (2 h)`.
#[derive(Debug, Clone, Copy)]
struct Parabola {
    foot: Point,
    x: Vec2,
    y: Vec2,
    h: f64,
}

impl Parabola {
    fn at(&self, x: f64) -> Point {
        self.foot + self.x * x + self.y * ((x * x + self.h * self.h) / (2.0 * self.h))
    }
}

/// A curve along which two sites are equally far, without its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    pub sites: (Site, Site),
}

impl Arc {
    fn parabola(&self) -> Option<Parabola> {
        let ((Site::Corner(corner), Site::Edge(a, b)) | (Site::Edge(a, b), Site::Corner(corner))) = self.sites else {
            return None;
        };
        let x = (b - a).normalize();
        let foot = a + x * (corner - a).dot(x);
        let h = foot.distance(corner);
        (h > 0.0 && x.is_finite()).then(|| Parabola { foot, x, y: (corner - foot) / h, h })
    }

    /// A number that grows from one end `a` to the other end `b`.
    pub fn along(&self, a: Point, b: Point, p: Point) -> f64 {
        match self.parabola() {
            Some(parabola) => (p - a).dot(parabola.x) * (b - a).dot(parabola.x).signum(),
            None => (p - a).dot(b - a),
        }
    }

    /// The narrowest place between two points of the arc: the saddle between the sites if it is passed, else the
    /// nearer end, and the middle where it is equally wide all along.
    pub fn narrowest(&self, a: Spot, b: Spot) -> Spot {
        let Some((middle, along)) = self.saddle() else {
            return if (a.r - b.r).abs() <= SAME_RADIUS {
                Spot { p: a.p.midpoint(b.p), r: a.r.min(b.r) }
            } else if a.r < b.r {
                a
            } else {
                b
            };
        };
        let side = |p: Point| (p - middle).dot(along);
        if side(a.p) * side(b.p) < 0.0 {
            return Spot { p: middle, r: self.sites.0.distance(middle).min(a.r).min(b.r) };
        }
        if side(a.p).abs() <= side(b.p).abs() { a } else { b }
    }

    /// The piece of the arc with this index from `a` to `b`, without its ends' places.
    pub fn piece(&self, index: usize, a: Spot, b: Spot) -> Link {
        let course = self.flatten(a.p, b.p);
        let length = course.windows(2).map(|pair| if let [a, b] = pair { a.distance(*b) } else { 0.0 }).sum();
        Link { ends: (0, 0), narrowest: self.narrowest(a, b), length, arc: Some(index) }
    }

    /// A rectangle that the arc from `a` to `b` lies in, with some room: a parabola is no farther beside a chord than half
    /// the chord's length.
    pub fn bounds(&self, a: Point, b: Point) -> Rect {
        let course = self.flatten(a, b);
        let chords = course.windows(2).map(|pair| if let [a, b] = pair { a.distance(*b) } else { 0.0 });
        let beside = if course.len() > 2 { chords.fold(0.0, f64::max) / 2.0 } else { 0.0 };
        let bounds = course.iter().fold(Rect::from_points(a, b), |bounds, p| bounds.union_pt(*p));
        bounds.inflate(beside + 1.0, beside + 1.0)
    }

    /// The place where the two sites face each other and the direction of the arc there; `None` between two edges.
    fn saddle(&self) -> Option<(Point, Vec2)> {
        if let (Site::Corner(p), Site::Corner(q)) = self.sites {
            let across = q - p;
            return Some((p.midpoint(q), Vec2::new(-across.y, across.x)));
        }
        self.parabola().map(|parabola| (parabola.foot + parabola.y * (parabola.h / 2.0), parabola.x))
    }

    /// The arc from `a` to `b` as a polyline, both ends included.
    pub fn flatten(&self, a: Point, b: Point) -> Vec<Point> {
        let Some(parabola) = self.parabola() else { return vec![a, b] };
        let (from, to) = ((a - parabola.foot).dot(parabola.x), (b - parabola.foot).dot(parabola.x));
        let inner = (1..CHORDS).map(|i| parabola.at(from + (to - from) * f64::from(i) / f64::from(CHORDS)));
        std::iter::once(a).chain(inner).chain([b]).collect()
    }

    /// Where the arc from `a` to `b` crosses the segment `u v`: none, one or two points.
    pub fn crossings(&self, a: Point, b: Point, u: Point, v: Point) -> Vec<Point> {
        match self.parabola() {
            None => straight_crossing(a, b, u, v).into_iter().collect(),
            Some(parabola) => parabola_crossings(&parabola, (a, b), (u, v)),
        }
    }
}

fn straight_crossing(a: Point, b: Point, u: Point, v: Point) -> Option<Point> {
    let (ab, uv) = (b - a, v - u);
    let cross = ab.cross(uv);
    let (s, t) = ((u - a).cross(uv) / cross, (u - a).cross(ab) / cross);
    let on = |value: f64| (0.0..=1.0).contains(&value);
    (on(s) && on(t)).then(|| a + ab * s)
}

fn parabola_crossings(parabola: &Parabola, ends: (Point, Point), line: (Point, Point)) -> Vec<Point> {
    let (u, v) = line;
    let normal = Vec2::new(u.y - v.y, v.x - u.x);
    let h = parabola.h;
    // normal . (foot + x ex + (x^2 + h^2) / (2 h) ey - u) = 0
    let (e, f) = (normal.dot(parabola.x), normal.dot(parabola.y));
    let square = f / (2.0 * h);
    let constant = normal.dot(parabola.foot - u) + f * h / 2.0;
    let at = |p: Point| (p - parabola.foot).dot(parabola.x);
    let (low, high) = (at(ends.0).min(at(ends.1)), at(ends.0).max(at(ends.1)));
    let along = v - u;
    let on_line = |p: Point| (0.0..=along.hypot2()).contains(&(p - u).dot(along));
    let roots = kurbo::common::solve_quadratic(constant, e, square);
    let inside = roots.into_iter().filter(|x| (low..=high).contains(x)).map(|x| parabola.at(x));
    inside.filter(|p| on_line(*p)).collect()
}

/// An arc between two nodes.
#[derive(Debug, Clone)]
pub(super) struct GraphArc {
    pub ends: (usize, usize),
    pub arc: Arc,
}
