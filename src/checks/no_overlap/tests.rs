//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, model, solid, space, with};

fn run(model: &Model) -> Vec<Finding> {
    testing::run(&NoOverlap, model)
}

fn boxed() -> Model {
    model(space(4000.0, 2000.0, 2000.0))
}

#[test]
fn touching_modules_do_not_overlap() {
    let model = with(boxed(), block("a", box3((0.0, 1000.0), (0.0, 600.0), (0.0, 900.0))));
    let model = with(model, block("b", box3((1000.0, 2000.0), (0.0, 600.0), (0.0, 900.0))));
    assert!(run(&model).is_empty());
}

#[test]
fn the_size_and_the_shortest_move_that_fits() {
    // b stands 40 mm in a. To the rear it would stand in c, so a has to go 40 mm to the front.
    let model = with(boxed(), block("a", box3((500.0, 1000.0), (0.0, 600.0), (0.0, 900.0))));
    let model = with(model, block("b", box3((960.0, 2000.0), (0.0, 500.0), (0.0, 800.0))));
    let model = with(model, block("c", box3((2000.0, 4000.0), (0.0, 600.0), (0.0, 800.0))));
    let [finding] = &run(&model)[..] else { panic!() };
    assert_eq!(finding.message, "`body` of `a` and `body` of `b` share a space of 40 x 500 x 800 mm");
    assert_eq!((finding.key.subject.to_string().as_str(), finding.arrangements.len()), ("a and b", 1));
}

#[test]
fn one_finding_for_two_modules_and_none_within_one() {
    let mut galley = block("galley", box3((0.0, 1000.0), (0.0, 600.0), (0.0, 900.0)));
    galley.poses[0].solids.push(solid("top", box3((0.0, 1000.0), (0.0, 620.0), (880.0, 900.0)).into()));
    assert!(run(&with(boxed(), galley.clone())).is_empty());
    let model = with(with(boxed(), galley), block("b", box3((990.0, 1400.0), (0.0, 600.0), (0.0, 890.0))));
    assert_eq!(run(&model).len(), 1);
}

#[test]
fn four_hundred_modules_in_a_grid_are_clear() {
    let place = |i: u32| {
        let (x, y) = (f64::from(i % 20) * 200.0, f64::from(i / 20) * 100.0);
        block(&format!("m{i}"), box3((x, x + 200.0), (y, y + 100.0), (0.0, 500.0)))
    };
    let model = (0..400).fold(boxed(), |model, i| with(model, place(i)));
    assert!(run(&model).is_empty());
}
