//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, model, space, with};
use crate::geometry::{Polygon, Prism, Roof};
use crate::model::Cutaway;
use crate::source::Span;
use kurbo::Point;

fn run(model: &Model) -> Vec<Finding> {
    testing::run(&InsideBox, model)
}

fn boxed() -> Model {
    model(space(4000.0, 2000.0, 2000.0))
}

#[test]
fn a_module_that_fills_the_box_is_inside() {
    let model = with(boxed(), block("all", box3((0.0, 4000.0), (0.0, 2000.0), (0.0, 2000.0))));
    assert!(run(&model).is_empty());
}

#[test]
fn past_the_rear_wall_with_the_way_back() {
    let model = with(boxed(), block("sofa", box3((2500.0, 4012.0), (0.0, 700.0), (0.0, 400.0))));
    let [finding] = &run(&model)[..] else { panic!() };
    assert_eq!(finding.message, "`body` of `sofa` reaches 12 mm past the rear wall");
    assert_eq!(finding.measured.unwrap().value, 12.0);
}

#[test]
fn too_long_for_the_box_is_to_be_shorter() {
    let model = with(boxed(), block("bed", box3((0.0, 900.0), (-30.0, 2010.0), (0.0, 400.0))));
    let found = run(&model);
    assert_eq!(found.len(), 2);
}

#[test]
fn through_an_arch_at_the_wall() {
    let mut model = boxed();
    model.space.roof = Roof::Arch { width: 2000.0, side: 1900.0, rise: 100.0 };
    let model = with(model, block("locker", box3((0.0, 800.0), (0.0, 350.0), (1500.0, 1934.0))));
    let [finding] = &run(&model)[..] else { panic!() };
    let says =
        "`body` of `locker` goes 34 mm through the roof lining, which is 1900 mm high at 0 mm from the left wall";
    assert_eq!(finding.message, says);
}

#[test]
fn a_sloped_cutaway_is_left_by_the_shortest_way() {
    // The cutaway takes z < x - 3000 at the rear. A bench with its rear end at 3500, its foot at 0 and its side walls on
    // both sides has to go 500 to the front or 500 up; at a foot of 450 only 50.
    let wedge = |x, z| Point::new(x, z);
    let outline = Polygon::new(vec![wedge(3000.0, 0.0), wedge(4000.0, 0.0), wedge(4000.0, 1000.0)]);
    let mut model = boxed();
    let prism = Prism { axis: Axis::Y, outline, low: 0.0, high: 2000.0 };
    model.space.cutaways.push(Cutaway { name: "ramp".to_owned(), prism, kind: CutKind::Floor, span: Span::default() });
    let model = with(model, block("bench", box3((2900.0, 3500.0), (0.0, 2000.0), (450.0, 900.0))));
    let [finding] = &run(&model)[..] else { panic!() };
    assert_eq!(finding.message, "`body` of `bench` stands 50 x 2000 x 50 mm in the cutaway `ramp`");
}
