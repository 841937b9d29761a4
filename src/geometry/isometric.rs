//! Bodies in isometric projection with what is hidden taken out, exactly and without a raster.
//!
//! Each face that looks toward the eye is a region of the picture. Of two whose regions overlap the one nearer to the eye
//! is told by the depths of their planes in the overlap; what is seen of a face is its region less all that is nearer, and
//! of its edges what is left of the region's outline along them. As no order of the faces is needed, a circle of three
//! that overlap each other in turn is nothing special; faces that pierce each other part along the line in which their planes
//! meet. Degenerate cases: of faces in one plane that overlap the one of the earlier body is seen; what looks past the eye
//! by less than [`tolerance::EDGE_ON`] is no face; outlines without area are nothing.

mod body;
mod eye;
mod faces;
mod lines;
#[cfg(test)]
mod tests;

pub use body::Body;
pub use eye::Eye;

use super::convex::Convex;
use super::polygon::Polygon;
use super::prism::Axis;
use super::region::Region;
use crate::base::tolerance;
use faces::{Face, faces};
use kurbo::{Point, Rect};

/// What is seen of one face.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// Index of its body.
    pub body: usize,
    /// The axis that it looks along most.
    pub facing: Axis,
    /// What is seen of it.
    pub area: Region,
    /// What is seen of its edges; an edge between two faces belongs to one of them.
    pub edges: Vec<(Point, Point)>,
    /// What is seen of the lines on it.
    pub marks: Vec<(Point, Point)>,
}

/// The faces of bodies that are seen, in the order of the bodies.
#[must_use]
pub fn seen(bodies: &[Body], eye: Eye) -> Vec<Seen> {
    let all: Vec<Face> = bodies.iter().enumerate().flat_map(|(index, body)| faces(index, body, eye)).collect();
    let mut order: Vec<usize> = (0..all.len()).collect();
    let left = |index: &usize| all.get(*index).map_or(0.0, |face| face.bounds.x0);
    order.sort_by(|a, b| left(a).total_cmp(&left(b)).then(a.cmp(b)));
    // Of faces sorted by their left ends those that begin before a face ends may overlap it.
    let mut nearer: Vec<Vec<Region>> = vec![Vec::new(); all.len()];
    for (at, first) in order.iter().enumerate() {
        let Some(face) = all.get(*first) else { continue };
        for second in order.iter().skip(at + 1).take_while(|second| left(second) < face.bounds.x1) {
            let Some(other) = all.get(*second) else { continue };
            let (a, b) = if first < second { (face, other) } else { (other, face) };
            let (of_a, of_b) = hiding(a, b);
            let (low, high) = (*first.min(second), *first.max(second));
            nearer.get_mut(low).into_iter().for_each(|list| list.extend(of_b.clone()));
            nearer.get_mut(high).into_iter().for_each(|list| list.extend(of_a.clone()));
        }
    }
    all.iter().zip(&nearer).filter_map(|(face, nearer)| left_over(face, nearer)).collect()
}

/// What is left of a face behind those that are nearer.
fn left_over(face: &Face, nearer: &[Region]) -> Option<Seen> {
    let (area, edges) = if nearer.is_empty() {
        (face.region.clone(), face.edges.clone())
    } else {
        let area = face.region.subtract_all(nearer);
        let edges = lines::along(&area, &face.edges);
        (area, edges)
    };
    if area.is_empty() {
        return None;
    }
    let marks = face.marks.iter().flat_map(|line| lines::within(&area, *line)).collect();
    Some(Seen { body: face.body, facing: face.facing, area, edges, marks })
}

/// What the first of two faces hides of the second, and the second of the first.
fn hiding(a: &Face, b: &Face) -> (Option<Region>, Option<Region>) {
    const NONE: (Option<Region>, Option<Region>) = (None, None);
    let apart = |p: Rect, q: Rect| p.x0 >= q.x1 || q.x0 >= p.x1 || p.y0 >= q.y1 || q.y0 >= p.y1;
    if apart(a.bounds, b.bounds) || (a.body == b.body && a.whole && b.whole) {
        return NONE;
    }
    let Some(common) = common(a, b) else { return NONE };
    let nearer = |at: &Point| a.depth.at(*at) - b.depth.at(*at);
    let (least, most) = common.iter().map(nearer).fold((f64::MAX, f64::MIN), |(l, m), n| (l.min(n), m.max(n)));
    if least >= -tolerance::SAME_DEPTH {
        return (Some(a.region.clone()), None);
    }
    if most <= tolerance::SAME_DEPTH {
        return (None, Some(b.region.clone()));
    }
    let room = Convex::new(Polygon::rect(a.bounds.intersect(b.bounds).inflate(1.0, 1.0)).points().to_vec());
    let part = |sign: f64| room.keep(|at| sign * nearer(&at));
    let side = |face: &Face, sign: f64| {
        let half = Region::new([&Polygon::new(part(sign).points().to_vec())]);
        Some(face.region.intersect(&half))
    };
    (side(a, 1.0), side(b, -1.0))
}

/// Corners of what two faces have in common in the picture; `None` for next to nothing.
fn common(a: &Face, b: &Face) -> Option<Vec<Point>> {
    if let (Some(p), Some(q)) = (&a.convex, &b.convex) {
        let common = p.common(q);
        return common.is_wider_than(tolerance::DRAWN).then(|| common.points().to_vec());
    }
    let shared = a.region.intersect(&b.region);
    (shared.area() > tolerance::DRAWN).then(|| shared.edges().map(|(from, _)| from).collect())
}
