//! Hand-made models; the moved limits follow from half the stature and 50 mm.

use super::*;
use crate::checks::testing::{block, box3, model, run, space, with, with_person};
use crate::model::Model;
use crate::model::testing::said;

fn galley(height: f64, tags: &[&str]) -> Model {
    let mut galley = block("galley", box3((0.0, 1200.0), (0.0, 560.0), (0.0, height)));
    galley.poses[0].solids[0].tags = tags.iter().map(|tag| said(tag)).collect();
    with(model(space(4000.0, 2000.0, 2000.0)), galley)
}

fn told(model: &Model) -> Vec<String> {
    run(&Worktop, model).into_iter().map(|finding| finding.message).collect()
}

#[test]
fn the_usual_heights_pass_to_the_millimetre() {
    let found = |height: f64| told(&galley(height, &["worktop"])).len();
    assert_eq!([849.0, 850.0, 950.0, 951.0].map(found), [1, 0, 0, 1]);
    let says =
        "the worktop `body` of `galley` is 849 mm high, 850 mm is the least (the tallest person is 1755 mm tall)";
    assert_eq!(told(&galley(849.0, &["worktop"])), [says]);
}

#[test]
fn a_desk_and_a_plain_top_are_no_worktops() {
    assert!(told(&galley(740.0, &["worktop", "table"])).is_empty());
    assert!(told(&galley(740.0, &[])).is_empty());
}

#[test]
fn people_who_are_all_short_or_all_tall_move_the_limits() {
    // 1,500 / 2 + 50 = 800; 1,840 / 2 + 50 = 970.
    let found = |height: f64, stature: f64| told(&with_person(galley(height, &["worktop"]), stature)).len();
    assert_eq!((found(799.0, 1500.0), found(800.0, 1500.0)), (1, 0));
    assert_eq!((found(970.0, 1840.0), found(971.0, 1840.0)), (0, 1));
    let both = |height: f64| told(&with_person(with_person(galley(height, &["worktop"]), 1500.0), 1840.0)).len();
    assert_eq!([849.0, 850.0, 950.0, 951.0].map(both), [1, 0, 0, 1], "one of each moves nothing");
}
