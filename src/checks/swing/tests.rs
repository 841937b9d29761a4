//! Hand-made models; every angle follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing::{self, block, box3, door, model, space, with, with_opening};
use crate::model::{Module, Move, MoveKind, Opening, Swings, Wall};
use crate::source::Span;
use kurbo::Point;

fn run(model: &Model) -> Vec<Finding> {
    testing::run(&Swing, model)
}

fn boxed() -> Model {
    model(space(4000.0, 2000.0, 2000.0))
}

fn leaf(axis: Axis, hinge: (f64, f64), along: (f64, f64), length: f64, shut: f64, opens: f64) -> crate::model::Swing {
    crate::model::Swing { axis, hinge: Point::new(hinge.0, hinge.1), along, length, thickness: 15.0, shut, opens }
}

/// A wardrobe against the left wall, 600 deep, with its front to the right.
fn wardrobe(swing: crate::model::Swing, walk_through: bool) -> Module {
    let mut module = block("wardrobe", box3((1000.0, 1602.0), (0.0, 600.0), (0.0, 1800.0)));
    let kind = MoveKind::Swing(swing);
    module.poses[0].moves.push(Move { name: "door".to_owned(), kind, walk_through, span: Span::default() });
    module
}

fn front_door() -> crate::model::Swing {
    leaf(Axis::Z, (1000.0, 600.0), (10.0, 1790.0), 602.0, 0.0, 95.0)
}

#[test]
fn a_free_door_says_nothing() {
    assert!(run(&with(boxed(), wardrobe(front_door(), true))).is_empty());
}

#[test]
fn a_door_that_meets_a_block_ahead() {
    // 600 long after the fitting gap, 300 in front: asin(300 / 600) = 30 degrees, on either side.
    let ahead = || block("galley", box3((0.0, 3000.0), (900.0, 1500.0), (0.0, 900.0)));
    let found = run(&with(with(boxed(), wardrobe(front_door(), true)), ahead()));
    let [finding] = &found[..] else { panic!() };
    assert_eq!(finding.message, "`door` of `wardrobe` opens 30 degrees and then meets `body` of `galley`");
    assert!((finding.measured.unwrap().value - 30.0).abs() < 1e-9);
    assert_eq!(finding.severity, Severity::Fault);
    let found = run(&with(with(boxed(), wardrobe(front_door(), false)), ahead()));
    assert_eq!(found[0].severity, Severity::Caution);
}

#[test]
fn a_door_that_meets_a_post() {
    // A post in front of the hinge at (1000, 600): the leaf meets its corner (1100, 1000).
    let post = block("post", box3((990.0, 1100.0), (1000.0, 1100.0), (0.0, 900.0)));
    let found = run(&with(with(boxed(), wardrobe(front_door(), false)), post));
    let [finding] = &found[..] else { panic!() };
    let expected = (400.0_f64 / 100.0).atan().to_degrees();
    assert!((finding.measured.unwrap().value - expected).abs() < 1e-9);
}

#[test]
fn what_lies_below_the_door_is_not_met() {
    let sill = block("sill", box3((0.0, 3000.0), (610.0, 1500.0), (0.0, 10.0)));
    assert!(run(&with(with(boxed(), wardrobe(front_door(), true)), sill)).is_empty());
}

#[test]
fn a_lid_under_a_locker() {
    // Lid at z = 450, hinged at the left wall (y = 0), 502 long, opens upward. A locker 300 above the lid, from y = 0:
    // asin(300 / 500) = 36.87 degrees.
    let mut bench = block("bench", box3((0.0, 1000.0), (0.0, 502.0), (0.0, 450.0)));
    let kind = MoveKind::Swing(leaf(Axis::X, (0.0, 450.0), (5.0, 995.0), 502.0, 0.0, 85.0));
    bench.poses[0].moves.push(Move { name: "lid".to_owned(), kind, walk_through: false, span: Span::default() });
    let locker = block("locker", box3((0.0, 1000.0), (0.0, 420.0), (750.0, 1100.0)));
    let found = run(&with(with(boxed(), bench.clone()), locker));
    let [finding] = &found[..] else { panic!() };
    assert!((finding.measured.unwrap().value - (300.0_f64 / 500.0).asin().to_degrees()).abs() < 1e-9);
    assert!(run(&with(boxed(), bench)).is_empty());
}

#[test]
fn a_flap_under_the_roof() {
    // Flap hinged at its top edge, z = 1700, swings up from hanging by up to 170 degrees: 300 below a flat roof at 2000,
    // its 500 reach the roof at 90 + asin(300 / 500) = 126.87 degrees: enough. Level with the roof it opens to 90.
    let mut locker = block("locker", box3((0.0, 1000.0), (0.0, 350.0), (1200.0, 1700.0)));
    let flap = |opens| leaf(Axis::X, (350.0, 1700.0), (5.0, 995.0), 502.0, -90.0, opens);
    let part = |opens| Move {
        name: "flap".to_owned(),
        kind: MoveKind::Swing(flap(opens)),
        walk_through: false,
        span: Span::default(),
    };
    locker.poses[0].moves.push(part(170.0));
    assert!(run(&with(boxed(), locker.clone())).is_empty());
    let low = with(model(space(4000.0, 2000.0, 1700.0)), locker);
    assert!(run(&low).is_empty(), "level with the roof it still opens to 90 degrees");
}

fn entry(hinge: Wall, swings: Swings) -> Opening {
    let door = door("entry", Wall::Right, (1000.0, 1602.0));
    Opening { hinge: Some(hinge), swings, ..door }
}

#[test]
fn the_entry_door_swings_in_against_a_block() {
    // In the right wall (y = 2000): a block ahead from y = 1700 down: 300 / 600.
    let block = || block("galley", box3((0.0, 4000.0), (1000.0, 1700.0), (0.0, 900.0)));
    for hinge in [Wall::Front, Wall::Rear] {
        let found = run(&with(with_opening(boxed(), entry(hinge, Swings::In)), block()));
        let [finding] = &found[..] else { panic!() };
        assert!((finding.measured.unwrap().value - 30.0).abs() < 1e-9);
        assert_eq!((finding.key.subject.to_string().as_str(), finding.severity), ("entry", Severity::Fault));
    }
    assert!(run(&with(with_opening(boxed(), entry(Wall::Front, Swings::Out)), block())).is_empty());
}

#[test]
fn the_entry_door_beside_a_partition_opens_square() {
    let wall = || block("partition", box3((900.0, 1000.0), (0.0, 2000.0), (0.0, 1900.0)));
    assert!(run(&with(with_opening(boxed(), entry(Wall::Front, Swings::In)), wall())).is_empty());
}

#[test]
fn windows_in_every_wall_swing_inwards() {
    // Each window swings in by its top or a side into the free box: nothing is met.  A beam 200 in from all walls is.
    let walls =
        [(Wall::Front, Wall::Left), (Wall::Rear, Wall::Right), (Wall::Left, Wall::Front), (Wall::Right, Wall::Roof)];
    for (wall, hinge) in walls.into_iter().chain([(Wall::Front, Wall::Roof), (Wall::Rear, Wall::Floor)]) {
        let window =
            Opening { hinge: Some(hinge), swings: Swings::In, up: (700.0, 1302.0), ..door("w", wall, (500.0, 1102.0)) };
        let free = with_opening(boxed(), window);
        assert!(run(&free).is_empty(), "{wall:?} {hinge:?}");
        let inner = block("core", box3((300.0, 3700.0), (300.0, 1700.0), (0.0, 2000.0)));
        let found = run(&with(free, inner));
        assert!((found[0].measured.unwrap().value - 30.0).abs() < 1e-9, "{wall:?} {hinge:?}");
    }
}
