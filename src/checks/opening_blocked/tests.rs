//! Covered areas worked out by hand.

use super::*;
use crate::checks::testing::{block, box3, door, model, run, space, with, with_opening};
use crate::model::{Model, Wall};

fn opening(kind: OpeningKind, wall: Wall, along: (f64, f64), up: (f64, f64)) -> Opening {
    Opening { kind, up, ..door("pane", wall, along) }
}

fn plain() -> Model {
    model(space(4000.0, 2000.0, 2000.0))
}

/// A window of 800 x 400 in the left wall, 1,000 above the floor.
fn window() -> Model {
    with_opening(plain(), opening(OpeningKind::Window, Wall::Left, (1000.0, 1800.0), (1000.0, 1400.0)))
}

#[test]
fn a_cupboard_before_a_window_covers_its_share() {
    let high = |top| block("tall", box3((900.0, 1200.0), (0.0, 500.0), (0.0, top)));
    assert!(run(&OpeningBlocked, &with(window(), high(1000.0))).is_empty(), "up to the sill");
    let found = run(&OpeningBlocked, &with(window(), high(1001.0)));
    assert_eq!((found[0].severity, found[0].measured.unwrap().value), (Severity::Caution, 1.0));
    // 200 x 400 of 800 x 400.
    let found = run(&OpeningBlocked, &with(window(), high(1900.0)));
    assert_eq!(found[0].message, "`body` of `tall` covers 25 % of `pane`, 200 x 400 mm");
}

#[test]
fn what_stands_off_does_not_count_and_a_way_out_is_a_fault() {
    let off = |y| block("tall", box3((900.0, 1200.0), (y, 700.0), (0.0, 1900.0)));
    assert!(run(&OpeningBlocked, &with(window(), off(150.0))).is_empty());
    assert_eq!(run(&OpeningBlocked, &with(window(), off(149.0))).len(), 1);
    let mut escape = with(window(), off(0.0));
    escape.openings[0].escape = true;
    assert_eq!(run(&OpeningBlocked, &escape)[0].severity, Severity::Fault);
}

#[test]
fn a_partition_cannot_end_on_glass() {
    let wall = |x, y: f64| block("partition", box3((x, x + 18.0), (y, 900.0), (0.0, 1990.0)));
    let found = run(&OpeningBlocked, &with(window(), wall(1400.0, 0.0)));
    assert_eq!(found[0].severity, Severity::Fault);
    assert_eq!(found[0].message, "`body` of `partition` meets the left wall within `pane` and cuts it in two");
    let found = run(&OpeningBlocked, &with(window(), wall(1400.0, 20.0)));
    assert_eq!(found[0].severity, Severity::Caution, "it stops short of the wall");
    assert_eq!(run(&OpeningBlocked, &with(window(), wall(990.0, 0.0)))[0].severity, Severity::Caution);
    assert!(run(&OpeningBlocked, &with(window(), wall(982.0, 0.0))).is_empty());
}

#[test]
fn a_step_in_a_doorway_is_no_obstacle() {
    let entry = || with_opening(plain(), door("entry", Wall::Right, (1000.0, 1600.0)));
    let step = |top| block("step", box3((1000.0, 1600.0), (1800.0, 2000.0), (0.0, top)));
    assert!(run(&OpeningBlocked, &with(entry(), step(230.0))).is_empty());
    let found = run(&OpeningBlocked, &with(entry(), step(231.0)));
    assert_eq!((found[0].severity, found[0].measured.unwrap().value), (Severity::Fault, 1.0));
}

#[test]
fn a_roof_hatch_under_a_locker() {
    let hatch =
        || with_opening(plain(), opening(OpeningKind::RoofHatch, Wall::Roof, (1000.0, 1400.0), (800.0, 1200.0)));
    let locker = |top| block("locker", box3((1000.0, 1400.0), (0.0, 900.0), (1600.0, top)));
    let found = run(&OpeningBlocked, &with(hatch(), locker(2000.0)));
    assert_eq!(found[0].message, "`body` of `locker` covers 25 % of `pane`, 400 x 100 mm");
    assert!(run(&OpeningBlocked, &with(hatch(), locker(1850.0))).is_empty());
}

#[test]
fn rounded_corners_are_no_hole() {
    // A quarter circle of 100 leaves 100 x 100 x (1 - pi / 4) of the corner outside the hole.
    let mut round = window();
    round.openings[0].radius = 100.0;
    let area = outline(&round.openings[0]).area();
    let exact = 800.0 * 400.0 - 4.0 * 10_000.0 * (1.0 - std::f64::consts::FRAC_PI_4);
    assert!((area - exact).abs() < 10.0, "{area} against {exact}");
    let corner = block("post", box3((1000.0, 1020.0), (0.0, 50.0), (0.0, 1020.0)));
    assert!(run(&OpeningBlocked, &with(round, corner)).is_empty());
}

#[test]
fn two_holes_of_one_panel() {
    let second =
        |along| Opening { name: "other".to_owned(), ..opening(OpeningKind::Vent, Wall::Left, along, (1100.0, 1200.0)) };
    assert!(run(&OpeningBlocked, &with_opening(window(), second((1800.0, 1900.0)))).is_empty(), "touching");
    let found = run(&OpeningBlocked, &with_opening(window(), second((1799.0, 1900.0))));
    assert_eq!(found[0].message, "`pane` and `other` in the left wall overlap by 1 mm");
    assert_eq!((found[0].severity, found[0].key.subject.to_string().as_str()), (Severity::Fault, "pane and other"));
}
