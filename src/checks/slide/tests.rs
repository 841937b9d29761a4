//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, model, space, with};
use crate::model::Model;
use crate::source::Span;

fn run(model: &Model) -> Vec<Finding> {
    testing::run(&Slide, model)
}

/// A galley at the left wall, 500 deep, with one drawer that pulls out 450 to the right.
fn galley() -> Model {
    let mut module = block("galley", box3((1000.0, 1600.0), (0.0, 500.0), (0.0, 900.0)));
    let body = box3((1000.0, 1600.0), (0.0, 500.0), (300.0, 500.0));
    let kind = MoveKind::Slide(Sliding { body, axis: Axis::Y, travel: 450.0 });
    let part = Move { name: "drawer 1".to_owned(), kind, walk_through: false, span: Span::default() };
    module.poses[0].moves.push(part);
    with(model(space(4000.0, 2000.0, 2000.0)), module)
}

#[test]
fn free_travel_and_room_in_front() {
    assert!(run(&galley()).is_empty());
    let far = block("sofa", box3((0.0, 4000.0), (1200.0, 2000.0), (0.0, 450.0)));
    assert!(run(&with(galley(), far)).is_empty());
}

#[test]
fn a_drawer_stopped_short() {
    let sofa = block("sofa", box3((0.0, 4000.0), (900.0, 2000.0), (0.0, 450.0)));
    let found = run(&with(galley(), sofa));
    assert_eq!(found.len(), 2);
    assert_eq!(found[0].message, "`drawer 1` of `galley` slides 400 mm of 450 mm and then meets `body` of `sofa`");
    assert_eq!(found[0].severity, Severity::Caution);
    assert_eq!(found[1].measured.unwrap().value, 0.0);
}

#[test]
fn less_than_half_is_a_fault() {
    let sofa = block("sofa", box3((0.0, 4000.0), (700.0, 2000.0), (0.0, 450.0)));
    assert_eq!(run(&with(galley(), sofa))[0].severity, Severity::Fault);
}

#[test]
fn too_little_room_to_stand() {
    // Open face at y = 950, sofa at 1130: 180 left of 250. A low step in front does not count.
    let sofa = block("sofa", box3((0.0, 4000.0), (1130.0, 2000.0), (0.0, 280.0)));
    let found = run(&with(galley(), sofa));
    let [finding] = &found[..] else { panic!() };
    let says = "180 mm are left to stand between the open `drawer 1` of `galley` and `body` of `sofa`";
    assert_eq!(finding.message, says);
    let step = block("step", box3((0.0, 4000.0), (1000.0, 2000.0), (0.0, 230.0)));
    assert!(run(&with(galley(), step)).is_empty());
}
