//! Ways that are there or not, by hand.

use super::super::testing::{block, box3, door, model, run, space, standing, with, with_opening, with_space};
use super::*;
use crate::model::{Model, Wall};
use kurbo::Rect;

/// A box with a door in the front wall, a galley at the rear and a wall between that leaves a gap at the right.
fn gap(clear: f64) -> Model {
    let galley = block("galley", box3((3400.0, 4000.0), (0.0, 2000.0), (0.0, 900.0)));
    let galley = with_space(galley, standing(Rect::new(2800.0, 0.0, 3400.0, 2000.0)));
    let wall = block("partition", box3((1500.0, 1520.0), (0.0, 2000.0 - clear), (0.0, 2000.0)));
    let model = with_opening(model(space(4000.0, 2000.0, 2000.0)), door("entry", Wall::Front, (500.0, 1200.0)));
    with(with(model, galley), wall)
}

#[test]
fn a_way_of_300_or_more_is_a_way() {
    assert!(run(&Reachable, &gap(300.0)).is_empty());
    assert!(run(&Reachable, &gap(350.0)).is_empty(), "narrow, but that is for walkway");
}

#[test]
fn a_slit_is_reported_with_its_width() {
    let findings = run(&Reachable, &gap(250.0));
    let [finding] = findings.as_slice() else { panic!("{findings:?}") };
    assert_eq!(
        finding.message,
        "the widest way from entry to galley is only 250 mm wide between `partition` and the right wall, 300 mm is needed"
    );
    assert!((finding.measured.unwrap().value - 250.0).abs() < WAY_WIDTH);
}

#[test]
fn a_full_partition_leaves_no_way() {
    let findings = run(&Reachable, &gap(0.0));
    assert_eq!(findings[0].message, "there is no way from `entry` to `galley`, 300 mm is needed");
    assert_eq!((findings[0].severity, findings[0].measured.unwrap().value), (Severity::Fault, 0.0));
}

#[test]
fn a_chest_in_the_standing_space_is_named() {
    let chest = block("chest", box3((2700.0, 3250.0), (0.0, 2000.0), (0.0, 450.0)));
    let findings = run(&Reachable, &with(gap(800.0), chest));
    let [finding] = findings.as_slice() else { panic!("{findings:?}") };
    assert_eq!(
        finding.message,
        "the standing space `stand` of `galley` has room for only 150 mm beside `chest`, 300 mm is needed"
    );
}

#[test]
fn a_second_door_serves_too() {
    let two = with_opening(gap(0.0), door("side", Wall::Left, (2000.0, 2700.0)));
    assert!(run(&Reachable, &two).is_empty());
}

#[test]
fn no_door_is_a_caution() {
    let findings = run(&Reachable, &model(space(4000.0, 2000.0, 2000.0)));
    assert_eq!((findings.len(), findings[0].severity), (1, Severity::Caution));
}

#[test]
fn a_place_behind_a_wall_is_none() {
    // A wall across the whole standing space, 330 before the galley: the part at the door is not at the galley.
    let cut = |right: f64| {
        let wall = block("screen", box3((3050.0, 3070.0), (0.0, right), (0.0, 2000.0)));
        run(&Reachable, &with(gap(700.0), wall))
    };
    let found = cut(2000.0);
    assert_eq!((found.len(), found[0].severity), (1, Severity::Fault), "{found:?}");
    assert_eq!(found[0].message, "there is no way from `entry` to `galley`, 300 mm is needed");
    assert!(cut(1600.0).is_empty(), "round the screen by 400");
}

#[test]
fn over_what_stands_below_people_reach() {
    let shelf = block("shelf", box3((3700.0, 4000.0), (0.0, 2000.0), (1300.0, 1500.0)));
    let shelf = with_space(shelf, standing(Rect::new(3000.0, 0.0, 3700.0, 2000.0)));
    assert!(run(&Reachable, &with(gap(700.0), shelf)).is_empty(), "over the galley before it");
}

#[test]
fn a_wall_right_at_the_face_leaves_no_place() {
    let wall = block("screen", box3((3380.0, 3400.0), (0.0, 2000.0), (0.0, 2000.0)));
    let found = run(&Reachable, &with(gap(700.0), wall));
    let is = "the standing space `stand` of `galley` has no room at all beside `screen`, 300 mm is needed";
    assert_eq!(found[0].message, is);
}
