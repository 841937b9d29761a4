//! Where a piece stands in its module, in the words of who stands before it.

use crate::base::number::{micrometres, trimmed};
use crate::geometry::{Axis, Box3, Point3, Polygon, Prism};
use crate::model::{Module, Wall};
use kurbo::Point;

/// Where one piece of a row stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// Its module.
    pub module: String,
    /// From the left end, the front and the floor of the module's room to the piece, mm.
    pub from: [f64; 3],
}

impl Stand {
    /// `left 0, front 15, up 60`.
    #[must_use]
    pub fn words(&self) -> String {
        let [left, front, up] = self.from.map(|mm| trimmed(mm, 1));
        format!("left {left}, front {front}, up {up}")
    }
}

/// A point in the directions of who stands before the module: along its front to the right hand, into it, up.
fn point_before(faces: Wall, point: Point3) -> Point3 {
    let (x, y) = match faces {
        Wall::Front => (-point.y, point.x),
        Wall::Rear => (point.y, -point.x),
        Wall::Left => (point.x, point.y),
        _ => (-point.x, -point.y),
    };
    Point3 { x, y, z: point.z }
}

/// A box in the directions of who stands before the module.
#[must_use]
pub fn before(module: &Module, at: &Box3) -> Box3 {
    let point = |x, y, z| point_before(module.faces, Point3 { x, y, z });
    let (a, b) = (point(at.x.0, at.y.0, at.z.0), point(at.x.1, at.y.1, at.z.1));
    let range = |a: f64, b: f64| (a.min(b), a.max(b));
    Box3 { x: range(a.x, b.x), y: range(a.y, b.y), z: range(a.z, b.z) }
}

/// A prism in the directions of who stands before the module.
#[must_use]
pub fn prism_before(module: &Module, prism: &Prism) -> Prism {
    let turned = matches!(module.faces, Wall::Front | Wall::Rear);
    let axis = match prism.axis {
        Axis::X if turned => Axis::Y,
        Axis::Y if turned => Axis::X,
        same => same,
    };
    let point = |at: &Point| {
        let mut point = Point3::default();
        let (first, second) = prism.axis.plane();
        (*point.along_mut(first), *point.along_mut(second)) = (at.x, at.y);
        point_before(module.faces, point).across(axis)
    };
    let outline = Polygon::new(prism.outline.points().iter().map(point).collect());
    let (low, high) = before(module, &prism.bounds()).range(axis);
    Prism { axis, outline, low, high }
}

/// Where a piece stands in its module.
#[must_use]
pub fn stand(module: &Module, piece: &Box3) -> Stand {
    let (room, piece) = (before(module, &module.extent), before(module, piece));
    let from = [piece.x.0 - room.x.0, piece.y.0 - room.y.0, piece.z.0 - room.z.0];
    Stand { module: module.name.clone(), from: from.map(micrometres) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joinery::fixture;

    /// Who stands before a module that faces the right wall looks at the left one, so the rear of the box is at the left
    /// hand.
    #[test]
    fn left_is_the_left_hand_of_who_stands_before_it() {
        let module = fixture::module("galley", vec![]);
        let at = Box3 { x: (1100.0, 1200.0), y: (500.0, 560.0), z: (60.0, 75.0) };
        assert_eq!(module.faces, Wall::Right);
        assert_eq!(stand(&module, &at).from, [0.0, 0.0, 60.0]);
        assert_eq!(stand(&module, &at).words(), "left 0, front 0, up 60");
    }

    #[test]
    fn a_prism_stands_where_its_box_does() {
        let at = Box3 { x: (1100.0, 1200.0), y: (500.0, 560.0), z: (60.0, 75.0) };
        let corners = [(0.0, 0.0), (100.0, 0.0), (0.0, 50.0)].map(Point::from).to_vec();
        for faces in [Wall::Front, Wall::Rear, Wall::Left, Wall::Right] {
            let module = Module { faces, ..fixture::module("galley", vec![]) };
            assert_eq!(prism_before(&module, &Prism::from(at)).bounds(), before(&module, &at));
            for axis in [Axis::X, Axis::Y, Axis::Z] {
                let wedge = Prism { axis, outline: Polygon::new(corners.clone()), low: 10.0, high: 30.0 };
                assert_eq!(prism_before(&module, &wedge).bounds(), before(&module, &wedge.bounds()));
            }
        }
    }
}
