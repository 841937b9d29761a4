//! Where a piece stands in its module, in the words of who stands before it.

use crate::base::number::{micrometres, trimmed};
use crate::base::tolerance::SAME_LENGTH;
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

/// Where pieces of one module stand. Those that stand in rows, at all of some figures, are told together:
/// `left 28 / 367.5, front 15, up 83 / 358`.
#[must_use]
pub fn standing<'s>(stands: impl IntoIterator<Item = &'s Stand>) -> String {
    let mut left: Vec<[f64; 3]> = stands.into_iter().map(|stand| stand.from).collect();
    left.sort_by(|a, b| a[2].total_cmp(&b[2]).then(a[0].total_cmp(&b[0])).then(a[1].total_cmp(&b[1])));
    left.dedup();
    let mut words = Vec::new();
    while let Some(first) = left.first() {
        let ways = [[true; 3], [true, false, true], [true, true, false], [false, true, true]].into_iter();
        let ways = ways.chain([[true, false, false], [false, true, false], [false, false, true], [false; 3]]);
        let grids = ways.map(|way| grid(&left, *first, way)).filter(|grid| grid.iter().all(|at| left.contains(at)));
        // Of the largest the first.
        let Some(grid) = grids.rev().max_by_key(Vec::len) else { break };
        words.push(told(&grid));
        left.retain(|at| !grid.contains(at));
    }
    words.join("; ")
}

/// All places with the figures that others have in these directions, and those of one in the rest.
fn grid(all: &[[f64; 3]], first: [f64; 3], way: [bool; 3]) -> Vec<[f64; 3]> {
    let [left, front, up] = [0, 1, 2].map(|axis| {
        let alone =
            |at: &&[f64; 3]| [0, 1, 2].into_iter().all(|other| other == axis || at.get(other) == first.get(other));
        let open = way.get(axis).copied().unwrap_or(false);
        let along = |at: &[f64; 3]| at.get(axis).copied().unwrap_or(0.0);
        if open { all.iter().filter(alone).map(along).collect() } else { vec![along(&first)] }
    });
    let at = |left: f64, front: f64| up.iter().map(move |up| [left, front, *up]);
    left.iter().flat_map(|left| front.iter().flat_map(move |front| at(*left, *front))).collect()
}

/// From this many even steps on they are told as a run.
const RUN: usize = 4;

fn told(grid: &[[f64; 3]]) -> String {
    let [left, front, up] = [0, 1, 2].map(|axis| {
        let mut values: Vec<f64> = grid.iter().filter_map(|at| at.get(axis).copied()).collect();
        values.sort_by(f64::total_cmp);
        values.dedup();
        figures(&values)
    });
    format!("left {left}, front {front}, up {up}")
}

/// `28 / 367.5`; `100 to 1300, 5 every 300`.
fn figures(values: &[f64]) -> String {
    if let [first, second, .., last] = values
        && values.len() >= RUN
        && values.windows(2).all(|pair| matches!(pair, [a, b] if (b - a - (second - first)).abs() < SAME_LENGTH))
    {
        let step = trimmed(second - first, 1);
        return format!("{} to {} every {step}", trimmed(*first, 1), trimmed(*last, 1));
    }
    values.iter().map(|value| trimmed(*value, 1)).collect::<Vec<_>>().join(" / ")
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
        assert_eq!(standing(&[stand(&module, &at)]), "left 0, front 0, up 60");
    }

    #[test]
    fn places_in_rows_are_told_together() {
        let words = |places: &[[f64; 3]]| {
            let stands = places.iter().map(|from| Stand { module: "a".to_owned(), from: *from });
            standing(&stands.collect::<Vec<_>>())
        };
        let sides = [28.0, 367.5].map(|left| [83.0, 358.0, 633.0].map(|up| [left, 15.0, up])).concat();
        assert_eq!(words(&sides), "left 28 / 367.5, front 15, up 83 / 358 / 633");
        assert_eq!(words(&sides[..5]), "left 28, front 15, up 83 / 358 / 633; left 367.5, front 15, up 83 / 358");
        assert_eq!(words(&[[0.0, 50.0, 0.0], [0.0, 545.0, 0.0]]), "left 0, front 50 / 545, up 0");
        assert_eq!(words(&[[0.0, 5.0, 0.0], [9.0, 7.0, 0.0]]), "left 0, front 5, up 0; left 9, front 7, up 0");
        let slats = [0.0, 90.0, 180.0, 270.0, 360.0].map(|left| [left, 0.0, 300.0]);
        assert_eq!(words(&slats), "left 0 to 360 every 90, front 0, up 300");
        assert_eq!(words(&[]), "");
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
