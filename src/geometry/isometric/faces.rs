//! The faces of a body that look toward the eye, as regions of the picture.

use super::body::Body;
use super::eye::{Depth, Eye};
use crate::base::tolerance;
use crate::geometry::convex::Convex;
use crate::geometry::polygon::Polygon;
use crate::geometry::prism::{Axis, Point3, Prism};
use crate::geometry::region::Region;
use kurbo::{Point, Rect, Vec2};

/// Edges of an outline that turn by less than this are chords of a curve, and no edge is drawn between their faces, as a
/// cosine: 25 degrees.
const SMOOTH: f64 = 0.906;

/// A face that looks toward the eye.
#[derive(Debug)]
pub(super) struct Face {
    pub body: usize,
    pub facing: Axis,
    pub region: Region,
    pub bounds: Rect,
    pub depth: Depth,
    /// Its outline, where it is convex.
    pub convex: Option<Convex>,
    /// Its body is convex, so its faces do not hide each other.
    pub whole: bool,
    /// The edges that it has to draw.
    pub edges: Vec<(Point, Point)>,
    pub marks: Vec<(Point, Point)>,
}

/// All faces of a body that look toward the eye.
pub(super) fn faces(body: usize, of: &Body, eye: Eye) -> Vec<Face> {
    let outline = &of.prism.outline;
    let whole = of.holes.is_empty() && is_convex(outline);
    let maker = Maker { body, prism: &of.prism, eye, whole };
    let mut made: Vec<Face> = maker.end(of).into_iter().collect();
    made.extend(maker.sides(outline.points().to_vec()));
    for hole in &of.holes {
        made.extend(maker.sides(hole.points().iter().rev().copied().collect()));
    }
    made.retain(|face| !face.region.is_empty());
    made
}

fn is_convex(polygon: &Polygon) -> bool {
    let edges: Vec<Vec2> = polygon.edges().map(|(a, b)| b - a).collect();
    let next = edges.iter().cycle().skip(1);
    edges.iter().zip(next).all(|(a, b)| a.cross(*b) >= -tolerance::NO_AREA)
}

struct Maker<'a> {
    body: usize,
    prism: &'a Prism,
    eye: Eye,
    whole: bool,
}

impl Maker<'_> {
    fn point(&self, across: Point, along: f64) -> Point3 {
        let (first, second) = self.prism.axis.plane();
        Point3::default().on(first, across.x).on(second, across.y).on(self.prism.axis, along)
    }

    fn seen(&self, across: Point, along: f64) -> Point {
        self.eye.sees(self.point(across, along))
    }

    /// Where the prism's near end is along its axis, and its far one.
    fn ends(&self) -> (f64, f64) {
        let Prism { axis, low, high, .. } = *self.prism;
        if self.eye.sees_high(axis) { (high, low) } else { (low, high) }
    }

    /// The flat end that looks toward the eye.
    fn end(&self, of: &Body) -> Option<Face> {
        let (near, _) = self.ends();
        let high = self.eye.sees_high(self.prism.axis);
        let ring = |outline: &Polygon| -> Vec<Point> { outline.points().iter().map(|p| self.seen(*p, near)).collect() };
        let outline = ring(&self.prism.outline);
        let shape = Polygon::new(outline.clone());
        let holes: Vec<Polygon> = of.holes.iter().map(|hole| Polygon::new(ring(hole))).collect();
        let region = Region::new([&shape]);
        let region = if holes.is_empty() { region } else { region.subtract(&Region::new(&holes)) };
        let mut edges = lines(&outline);
        of.holes.iter().for_each(|hole| edges.extend(lines(&ring(hole))));
        let marks = of.marks.iter().filter(|(on, _)| *on == high).flat_map(|(_, line)| lines(&ring(line))).collect();
        let normal = Point3::default().on(self.prism.axis, if high { 1.0 } else { -1.0 });
        let through = self.point(*self.prism.outline.points().first()?, near);
        let convex = self.whole.then(|| Convex::new(shape.points().to_vec()));
        Some(Face { marks, ..self.face(normal, through, (region, convex), edges)? })
    }

    fn face(
        &self,
        normal: Point3,
        through: Point3,
        (region, convex): (Region, Option<Convex>),
        edges: Vec<(Point, Point)>,
    ) -> Option<Face> {
        let facing = [(normal.z.abs(), Axis::Z), (normal.y.abs(), Axis::Y), (normal.x.abs(), Axis::X)];
        let facing = facing.into_iter().max_by(|a, b| a.0.total_cmp(&b.0))?.1;
        let depth = self.eye.depth(normal, through);
        let bounds = region.bounds();
        Some(Face {
            body: self.body,
            facing,
            region,
            bounds,
            depth,
            convex,
            whole: self.whole,
            edges,
            marks: Vec::new(),
        })
    }

    /// The faces along the edges of an outline or, its corners in reverse, of a hole.
    fn sides(&self, corners: Vec<Point>) -> Vec<Face> {
        let count = corners.len();
        let corner = |at: usize| corners.get(at % count.max(1)).copied().unwrap_or_default();
        let along = |at: usize| corner(at + 1) - corner(at);
        let (near, far) = self.ends();
        let looks = |at: usize| self.looks(along(at));
        let mut made = Vec::new();
        for at in (0..count).filter(|at| looks(*at)) {
            let (from, to) = (corner(at), corner(at + 1));
            let ring = [(from, near), (to, near), (to, far), (from, far)].map(|(p, along)| self.seen(p, along));
            let [a, b, c, d] = ring;
            let shape = Polygon::new(ring.to_vec());
            let mut edges = vec![(d, c)];
            let (before, after) = ((at + count - 1) % count, (at + 1) % count);
            if !looks(after) || !smooth(along(at), along(after)) {
                edges.push((b, c));
            }
            if !looks(before) {
                edges.push((a, d));
            }
            let convex = Some(Convex::new(shape.points().to_vec()));
            let solid = (Region::new([&shape]), convex);
            made.extend(self.face(self.normal(along(at)), self.point(from, near), solid, edges));
        }
        made
    }

    /// Out of the body across an edge that has it on its left.
    fn normal(&self, edge: Vec2) -> Point3 {
        let unit = edge / edge.hypot().max(f64::MIN_POSITIVE);
        let (first, second) = self.prism.axis.plane();
        Point3::default().on(first, unit.y).on(second, -unit.x)
    }

    fn looks(&self, edge: Vec2) -> bool {
        edge.hypot() > tolerance::SAME_LENGTH && self.eye.facing(self.normal(edge)) > tolerance::EDGE_ON
    }
}

fn smooth(a: Vec2, b: Vec2) -> bool {
    a.dot(b) >= SMOOTH * a.hypot() * b.hypot()
}

fn lines(ring: &[Point]) -> Vec<(Point, Point)> {
    ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)).collect()
}
