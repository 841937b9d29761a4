//! From a module's own frame (u, v, w) to the box (x, y, z).

use super::edges::Edge;
use super::names::Resolver;
use crate::base::number::micrometres;
use crate::geometry::{Axis, Box3, Point3};
use crate::language::expression::Failed;
use crate::model::{Toward, Wall};
use kurbo::{Point, Vec2};

/// Where one local axis goes.
#[derive(Debug, Clone, Copy)]
struct Way {
    axis: Axis,
    origin: f64,
    sign: f64,
}

/// The placing of one module.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    pub extent: Box3,
    pub faces: Wall,
    ways: [Way; 3],
}

/// A local axis: u, v or w.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Local {
    U,
    V,
    W,
}

impl Frame {
    /// The frame of a module that fills `extent` and faces a wall; `mirror` swaps its left and right.
    pub fn new(extent: Box3, faces: Wall, mirror: bool) -> Self {
        let (x, y) = (extent.x, extent.y);
        let up = |axis, range: (f64, f64)| Way { axis, origin: range.0, sign: 1.0 };
        let down = |axis, range: (f64, f64)| Way { axis, origin: range.1, sign: -1.0 };
        let (mut u, v) = match faces {
            Wall::Left => (up(Axis::X, x), up(Axis::Y, y)),
            Wall::Right => (down(Axis::X, x), down(Axis::Y, y)),
            Wall::Front => (down(Axis::Y, y), up(Axis::X, x)),
            _ => (up(Axis::Y, y), down(Axis::X, x)),
        };
        if mirror {
            let range = extent.range(u.axis);
            u = if u.sign > 0.0 { down(u.axis, range) } else { up(u.axis, range) };
        }
        Self { extent, faces, ways: [u, v, up(Axis::Z, extent.z)] }
    }

    fn way(&self, local: Local) -> Way {
        let [u, v, w] = self.ways;
        match local {
            Local::U => u,
            Local::V => v,
            Local::W => w,
        }
    }

    /// The box axis of a local axis.
    pub fn axis(&self, local: Local) -> Axis {
        self.way(local).axis
    }

    /// The box coordinate of a local coordinate.
    pub fn along(&self, local: Local, value: f64) -> f64 {
        let way = self.way(local);
        micrometres(way.origin + way.sign * value)
    }

    /// 1 where the local axis goes with the box axis, -1 where against.
    pub fn sign(&self, local: Local) -> f64 {
        self.way(local).sign
    }

    /// The direction of the box toward the high or the low end of a local axis.
    pub fn toward(&self, local: Local, high: bool) -> Toward {
        let Way { axis, sign, .. } = self.way(local);
        Toward { axis, up: high == (sign > 0.0) }
    }

    /// A local range as a box range, low end first.
    pub fn range(&self, local: Local, range: (f64, f64)) -> (f64, f64) {
        let (a, b) = (self.along(local, range.0), self.along(local, range.1));
        (a.min(b), a.max(b))
    }

    /// A local point as a point in the box.
    pub fn point(&self, u: f64, v: f64, w: f64) -> Point3 {
        let mut point = Point3::default();
        for (local, value) in [(Local::U, u), (Local::V, v), (Local::W, w)] {
            let at = self.along(local, value);
            match self.axis(local) {
                Axis::X => point.x = at,
                Axis::Y => point.y = at,
                Axis::Z => point.z = at,
            }
        }
        point
    }

    /// Three local ranges as a box.
    pub fn block(&self, u: (f64, f64), v: (f64, f64), w: (f64, f64)) -> Box3 {
        let (a, b) = (self.point(u.0, v.0, w.0), self.point(u.1, v.1, w.1));
        let span = |a: f64, b: f64| (a.min(b), a.max(b));
        Box3 { x: span(a.x, b.x), y: span(a.y, b.y), z: span(a.z, b.z) }
    }

    /// A point of the plane across a local axis, given by the two other local axes in the order u, v, w, as a point
    /// in the plane across the box axis.
    pub fn across(&self, local: Local, point: Point) -> Point {
        let (a, b) = others(local);
        let (first, second) = (self.along(a, point.x), self.along(b, point.y));
        if self.axis(a) < self.axis(b) { Point::new(first, second) } else { Point::new(second, first) }
    }

    /// A direction in that plane.
    pub fn direction(&self, local: Local, vector: Vec2) -> Vec2 {
        let (a, b) = others(local);
        let (first, second) = (self.sign(a) * vector.x, self.sign(b) * vector.y);
        if self.axis(a) < self.axis(b) { Vec2::new(first, second) } else { Vec2::new(second, first) }
    }
}

/// The two other local axes, in order.
pub(super) fn others(local: Local) -> (Local, Local) {
    match local {
        Local::U => (Local::V, Local::W),
        Local::V => (Local::U, Local::W),
        Local::W => (Local::U, Local::V),
    }
}

impl Resolver<'_> {
    /// The frame of a module.
    pub fn frame(&mut self, module: usize) -> Result<Frame, Failed> {
        let mut ranges = [(0.0, 0.0); 3];
        for (range, axis) in ranges.iter_mut().zip([Axis::X, Axis::Y, Axis::Z]) {
            let low = micrometres(self.module_figure(module, axis, Edge::Low)?);
            *range = (low, micrometres(self.module_figure(module, axis, Edge::High)?));
        }
        let [x, y, z] = ranges;
        let Some((_, doc)) = self.doc.modules.get_index(module) else { return Err(Failed) };
        let mirror = doc.value.mirror.as_ref().is_some_and(|mirror| mirror.value);
        Ok(Frame::new(Box3 { x, y, z }, faces(&doc.value), mirror))
    }
}

/// The side that a module faces; `rear` unless the layout says another.
fn faces(module: &crate::language::ModuleDoc) -> Wall {
    module.faces.as_ref().map_or(Wall::Rear, |faces| faces.value)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A module 1,000 from front to rear, 400 from left to right, away from every wall.
    fn frame(faces: Wall, mirror: bool) -> Frame {
        let extent = Box3 { x: (2000.0, 3000.0), y: (500.0, 900.0), z: (100.0, 800.0) };
        Frame::new(extent, faces, mirror)
    }

    /// A person who stands before a module and looks at it has u on the right hand; worked out by hand for each side.
    #[test]
    fn u_starts_at_the_left_hand_of_a_person_in_front() {
        let left_front = |faces| {
            let point = frame(faces, false).point(0.0, 0.0, 0.0);
            (point.x, point.y, point.z)
        };
        assert_eq!(left_front(Wall::Right), (3000.0, 900.0, 100.0), "looking left, the left hand is at the rear");
        assert_eq!(left_front(Wall::Left), (2000.0, 500.0, 100.0), "looking right, the left hand is at the front");
        assert_eq!(left_front(Wall::Rear), (3000.0, 500.0, 100.0), "looking forward, the left hand is at the left");
        assert_eq!(
            left_front(Wall::Front),
            (2000.0, 900.0, 100.0),
            "looking to the rear, the left hand is at the right"
        );
    }

    #[test]
    fn mirror_swaps_left_and_right_only() {
        for faces in [Wall::Left, Wall::Right, Wall::Front, Wall::Rear] {
            let (plain, mirrored) = (frame(faces, false), frame(faces, true));
            let run = if matches!(faces, Wall::Left | Wall::Right) { 1000.0 } else { 400.0 };
            let (a, b) = (plain.point(120.0, 30.0, 50.0), mirrored.point(run - 120.0, 30.0, 50.0));
            assert_eq!((a.x, a.y, a.z), (b.x, b.y, b.z));
        }
    }

    #[test]
    fn directions_follow_points() {
        for faces in [Wall::Left, Wall::Right, Wall::Front, Wall::Rear] {
            for mirror in [false, true] {
                let frame = frame(faces, mirror);
                for local in [Local::U, Local::V, Local::W] {
                    let (from, step) = (Point::new(10.0, 20.0), Vec2::new(3.0, -7.0));
                    let moved = frame.across(local, from + step) - frame.across(local, from);
                    assert_eq!(moved, frame.direction(local, step));
                }
            }
        }
    }
}
