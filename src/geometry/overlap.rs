//! The space that two prisms share, whatever their axes.

use super::convex::{Convex, pieces};
use super::prism::{Axis, Box3, Prism};
use super::section::slot;
use crate::base::tolerance;

/// The bounds of the space that two prisms share; `None` if they are apart or only touch within
/// [`tolerance::SAME_LENGTH`].
///
/// Each outline is cut into convex pieces. Along one axis pieces are cut with each other; across axes each piece is cut
/// to the other's range, and both then share what they have in common on the third axis. No step is approximate.
#[must_use]
pub fn overlap(a: &Prism, b: &Prism) -> Option<Box3> {
    common_bounds(&a.bounds(), &b.bounds())?;
    let (of_a, of_b) = (pieces(&a.outline), pieces(&b.outline));
    let pairs = of_a.iter().flat_map(|p| of_b.iter().map(move |q| (p, q)));
    pairs.filter_map(|(p, q)| shared(a, b, p, q)).reduce(|all, one| all.union(&one))
}

/// The same for a convex piece of each outline.
pub(super) fn shared(a: &Prism, b: &Prism, p: &Convex, q: &Convex) -> Option<Box3> {
    if a.axis == b.axis { along(a, b, p, q) } else { crossing(a, b, p, q) }
}

/// The box that two boxes share; `None` if they are apart or only touch.
#[must_use]
pub fn common_bounds(a: &Box3, b: &Box3) -> Option<Box3> {
    Some(Box3 { x: common(a.x, b.x)?, y: common(a.y, b.y)?, z: common(a.z, b.z)? })
}

fn common(a: (f64, f64), b: (f64, f64)) -> Option<(f64, f64)> {
    let range = (a.0.max(b.0), a.1.min(b.1));
    (range.1 - range.0 > tolerance::SAME_LENGTH).then_some(range)
}

fn along(a: &Prism, b: &Prism, p: &Convex, q: &Convex) -> Option<Box3> {
    let range = common((a.low, a.high), (b.low, b.high))?;
    let shared = thick(p.common(q))?;
    let (first, second) = a.axis.plane();
    let bounds = shared.bounds();
    let across = Box3::default().with(first, (bounds.x0, bounds.x1)).with(second, (bounds.y0, bounds.y1));
    Some(across.with(a.axis, range))
}

fn crossing(a: &Prism, b: &Prism, p: &Convex, q: &Convex) -> Option<Box3> {
    let third: Axis = a.axis.third(b.axis);
    let p = thick(p.within(slot(a.axis, b.axis), (b.low, b.high)))?;
    let q = thick(q.within(slot(b.axis, a.axis), (a.low, a.high)))?;
    let shared = common(p.range(slot(a.axis, third)), q.range(slot(b.axis, third)))?;
    let p = thick(p.within(slot(a.axis, third), shared))?;
    let q = thick(q.within(slot(b.axis, third), shared))?;
    let across = Box3::default().with(b.axis, p.range(slot(a.axis, b.axis)));
    Some(across.with(a.axis, q.range(slot(b.axis, a.axis))).with(third, shared))
}

fn thick(piece: Convex) -> Option<Convex> {
    piece.is_thick().then_some(piece)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Polygon;
    use kurbo::{Point, Rect};

    fn polygon(points: &[(f64, f64)]) -> Polygon {
        Polygon::new(points.iter().map(|(x, y)| Point::new(*x, *y)).collect())
    }

    fn cube(low: f64, high: f64) -> Prism {
        Prism::upright(Rect::new(low, low, high, high), low, high)
    }

    fn near(a: Box3, b: Box3) -> bool {
        [Axis::X, Axis::Y, Axis::Z].iter().all(|axis| {
            let (p, q) = (a.range(*axis), b.range(*axis));
            (p.0 - q.0).abs() < 1e-9 && (p.1 - q.1).abs() < 1e-9
        })
    }

    #[test]
    fn touching_is_none_and_a_hair_more_is_some() {
        assert_eq!(overlap(&cube(0.0, 100.0), &cube(100.0, 200.0)), None);
        assert_eq!(overlap(&cube(0.0, 100.0), &cube(99.9995, 200.0)), None);
        let shared = overlap(&cube(0.0, 100.0), &cube(99.0, 200.0)).unwrap();
        assert_eq!(shared, Box3 { x: (99.0, 100.0), y: (99.0, 100.0), z: (99.0, 100.0) });
    }

    #[test]
    fn an_l_leaves_room_for_a_box_in_its_notch() {
        let bench = polygon(&[(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (300.0, 300.0), (300.0, 900.0), (0.0, 900.0)]);
        let bench = Prism { axis: Axis::Z, outline: bench, low: 0.0, high: 450.0 };
        let table = |x, y| Prism::upright(Rect::new(x, y, x + 400.0, y + 400.0), 0.0, 700.0);
        assert_eq!(overlap(&bench, &table(300.0, 300.0)), None);
        let shared = overlap(&bench, &table(290.0, 280.0)).unwrap();
        assert_eq!(shared, Box3 { x: (290.0, 690.0), y: (280.0, 680.0), z: (0.0, 450.0) });
    }

    #[test]
    fn sloped_faces_that_touch_along_a_diagonal_share_nothing() {
        let low =
            Prism { axis: Axis::Y, outline: polygon(&[(0.0, 0.0), (1000.0, 0.0), (0.0, 700.0)]), low: 0.0, high: 1.0 };
        let high = |lift: f64| Prism {
            axis: Axis::Y,
            outline: polygon(&[(1000.0, lift), (1000.0, 700.0 + lift), (0.0, 700.0 + lift)]),
            low: 0.0,
            high: 1.0,
        };
        assert_eq!(overlap(&low, &high(0.0)), None);
        assert!(overlap(&low, &high(-5.0)).is_some());
    }

    #[test]
    fn a_box_under_a_wedge_of_another_axis() {
        // Sloped underside along y: at x it takes z < 500 - x. A box from x = 300 meets it below z = 200.
        let wedge = Prism {
            axis: Axis::Y,
            outline: polygon(&[(0.0, 0.0), (500.0, 0.0), (0.0, 500.0)]),
            low: 0.0,
            high: 2000.0,
        };
        let body = |z: f64| Prism::upright(Rect::new(300.0, 100.0, 800.0, 400.0), z, 900.0);
        assert_eq!(overlap(&wedge, &body(200.0)), None);
        let shared = overlap(&wedge, &body(150.0)).unwrap();
        assert!(near(shared, Box3 { x: (300.0, 350.0), y: (100.0, 400.0), z: (150.0, 200.0) }));
    }

    #[test]
    fn two_wedges_of_different_axes_miss_although_their_bounds_meet() {
        // Along y: z < 500 - x. Along x: z > 1000 - y, over y 0..1000.  At y <= 600 the second is above z = 400, while
        // from x = 150 on the first is below 350.
        let floor =
            Prism { axis: Axis::Y, outline: polygon(&[(0.0, 0.0), (500.0, 0.0), (0.0, 500.0)]), low: 0.0, high: 600.0 };
        let hood = polygon(&[(1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)]);
        let hood = |from| Prism { axis: Axis::X, outline: hood.clone(), low: from, high: 500.0 };
        assert_eq!(overlap(&floor, &hood(150.0)), None);
        let shared = overlap(&floor, &hood(50.0)).unwrap();
        assert!(near(shared, Box3 { x: (50.0, 100.0), y: (550.0, 600.0), z: (400.0, 450.0) }));
    }

    #[test]
    fn sharing_does_not_depend_on_order_or_on_swapped_axes() {
        let a = Prism {
            axis: Axis::X,
            outline: polygon(&[(0.0, 0.0), (80.0, 10.0), (60.0, 90.0), (20.0, 40.0)]),
            low: 10.0,
            high: 70.0,
        };
        let b =
            Prism { axis: Axis::Z, outline: polygon(&[(0.0, 30.0), (50.0, 0.0), (90.0, 60.0)]), low: 5.0, high: 55.0 };
        let (ab, ba) = (overlap(&a, &b).unwrap(), overlap(&b, &a).unwrap());
        assert!(near(ab, ba));
    }
}
