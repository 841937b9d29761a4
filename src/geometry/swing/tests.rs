//! Stopping angles against hand trigonometry and against a fine sweep.

use super::*;
use kurbo::Rect;

fn leaf(length: f64, thickness: f64, opens: f64) -> Leaf {
    Leaf { hinge: Point::new(1000.0, 500.0), shut: 0.0, opens, length, thickness }
}

/// A rectangle by its corners from the hinge.
fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Polygon {
    Polygon::rect(Rect::new(1000.0 + x0, 500.0 + y0, 1000.0 + x1, 500.0 + y1))
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn the_tip_meets_a_wall_ahead() {
    // sin angle = 300 / 600.
    let stop = leaf(600.0, 18.0, 95.0).stop(&[rect(-500.0, 300.0, 900.0, 400.0)]).unwrap();
    assert!(close(stop.angle, 30.0));
    assert!(close(stop.at.x, 1000.0 + 600.0 * 30.0_f64.to_radians().cos()) && close(stop.at.y, 800.0));
}

#[test]
fn the_face_meets_a_corner() {
    // tan angle = 300 / 300, and the corner is nearer than the tip.
    let stop = leaf(600.0, 18.0, 95.0).stop(&[rect(100.0, 300.0, 300.0, 700.0)]).unwrap();
    assert!(close(stop.angle, 45.0));
    assert!(close(stop.at.x, 1300.0) && close(stop.at.y, 800.0));
}

#[test]
fn a_clockwise_leaf_is_the_mirror_image() {
    let down = leaf(600.0, 18.0, -95.0).stop(&[rect(100.0, -700.0, 300.0, -300.0)]).unwrap();
    assert!(close(down.angle, 45.0) && close(down.at.y, 200.0));
    assert_eq!(leaf(600.0, 18.0, -95.0).stop(&[rect(100.0, 300.0, 300.0, 700.0)]), None);
}

#[test]
fn a_wall_at_the_hinge_stops_it_square() {
    let stop = leaf(500.0, 18.0, 170.0).stop(&[rect(-400.0, -900.0, 0.0, 900.0)]).unwrap();
    assert!(close(stop.angle, 90.0));
}

#[test]
fn neighbours_beside_the_shut_leaf_do_not_stop_it() {
    // Flush with the leaf's face at the hinge, behind it, and 2 mm off its free edge, whose back corner swells out by
    // 18^2 / (2 x 500) = 0.3 mm.
    let beside = [rect(-300.0, -500.0, 0.0, 0.0), rect(0.0, -500.0, 500.0, -18.0), rect(502.0, -500.0, 900.0, 200.0)];
    assert_eq!(leaf(500.0, 18.0, 110.0).stop(&beside), None);
}

#[test]
fn something_on_the_face_stops_it_at_once() {
    assert!(close(leaf(500.0, 18.0, 95.0).stop(&[rect(100.0, 0.0, 200.0, 50.0)]).unwrap().angle, 0.0));
    assert!(close(leaf(500.0, 18.0, 95.0).stop(&[rect(100.0, -10.0, 200.0, 50.0)]).unwrap().angle, 0.0));
}

#[test]
fn the_back_of_the_free_edge_may_be_first() {
    // Past a right angle the back corner (600, -18) leads: it meets x = -100 later than the face would at its tip, so
    // the tip's 600 cos a = -100 holds: a = 99.594 degrees.
    let stop = leaf(600.0, 18.0, 180.0).stop(&[rect(-300.0, 0.0, -100.0, 900.0)]).unwrap();
    assert!(close(stop.angle, (-100.0_f64 / 600.0).acos().to_degrees()));
}

#[test]
fn the_nearest_of_several_counts() {
    let stop = leaf(600.0, 18.0, 95.0).stop(&[rect(-500.0, 400.0, 900.0, 500.0), rect(100.0, 300.0, 900.0, 700.0)]);
    assert_eq!(stop.unwrap().obstacle, 1);
    assert_eq!(leaf(600.0, 18.0, 25.0).stop(&[rect(-500.0, 300.0, 900.0, 400.0)]), None);
}

/// A flap under a locker turns from hanging to nearly level; the arch above, made of many chords, is out of its reach.
#[test]
fn a_flap_turns_free_below_an_arched_roof() {
    let roof = crate::geometry::Roof::Arch { width: 2080.0, side: 1960.0, rise: 65.0 }.above_outline(12_000.0);
    let flap = Leaf { hinge: Point::new(320.0, 1942.0), shut: -90.0, opens: 85.0, length: 342.0, thickness: 15.0 };
    assert_eq!(flap.stop(&[roof]), None);
}

/// Second method: turn in steps of 0.05 degrees and look for common area.
fn swept(leaf: &Leaf, obstacle: &Polygon) -> Option<f64> {
    let parts = pieces(obstacle);
    (0..=3600).map(|step| f64::from(step) * 0.05).take_while(|angle| *angle <= leaf.opens.abs()).find(|angle| {
        let turned = Convex::new(leaf.outline(*angle).points().to_vec());
        parts.iter().any(|part| turned.common(part).is_thick())
    })
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(60))]
    #[test]
    fn the_solved_angle_is_the_swept_one(
        corners in proptest::collection::vec((-700.0..700.0_f64, -700.0..700.0_f64), 3),
        shut in 0.0..360.0_f64, opens in -170.0..170.0_f64, length in 100.0..650.0_f64, thickness in 0.5..40.0_f64,
    ) {
        let leaf = Leaf { hinge: Point::ZERO, shut, opens, length, thickness };
        let obstacle = Polygon::new(corners.iter().map(|(x, y)| Point::new(*x, *y)).collect());
        match (leaf.stop(std::slice::from_ref(&obstacle)), swept(&leaf, &obstacle)) {
            (Some(stop), Some(angle)) => {
                // The sweep may pass over a contact that begins and ends within one step.
                proptest::prop_assert!(stop.angle <= angle + 1e-6, "{} {angle}", stop.angle);
                let free = leaf.outline(stop.angle - 0.002);
                let early = pieces(&obstacle).iter().any(|part| Convex::new(free.points().to_vec()).common(part).is_thick());
                proptest::prop_assert!(stop.angle < 0.01 || !early);
            }
            (None, Some(angle)) => proptest::prop_assert!(false, "missed at {angle}"),
            (stop, None) => proptest::prop_assert!(stop.is_none_or(|s| s.angle > opens.abs() - 0.06), "{stop:?}"),
        }
    }
}
