//! Clear sizes worked out by hand.

use super::*;
use crate::checks::testing::{block, box3, door, model, run, space, with, with_opening};
use crate::model::{Model, Wall};

/// A hole of 620 x 700 in the front wall, 420 above the floor, in a box of 4,000 x 2,000.
fn cab(lining: f64) -> Model {
    let mut crawl = door("cab", Wall::Front, (700.0, 1320.0));
    crawl.kind = OpeningKind::PassThrough;
    crawl.up = (420.0, 1120.0);
    crawl.lining = lining;
    with_opening(model(space(4000.0, 2000.0, 2000.0)), crawl)
}

#[test]
fn the_lining_is_taken_off_all_round() {
    assert!(run(&PassThrough, &cab(0.0)).is_empty());
    // 620 - 2 x 60 = 500, 700 - 120 = 580: just the longer limit.
    assert!(run(&PassThrough, &cab(60.0)).is_empty());
    let found = run(&PassThrough, &cab(61.0));
    let [finding] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!((finding.severity, finding.measured.unwrap().value), (Severity::Fault, 578.0));
    assert_eq!(
        finding.message,
        "the clear way through `cab` is 498 x 578 mm; 330 x 580 mm is needed, either way round"
    );
}

#[test]
fn a_seat_back_takes_its_strip_and_the_body_turns() {
    // A block up to z = 790 leaves 620 x 330 lying; 1 mm more leaves 329.
    let behind = |x: f64, top: f64| with(cab(0.0), block("seat", box3((x, x + 600.0), (0.0, 2000.0), (0.0, top))));
    assert!(run(&PassThrough, &behind(100.0, 790.0)).is_empty());
    let found = run(&PassThrough, &behind(100.0, 791.0));
    let [finding] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!(finding.measured.unwrap().value, 329.0);
    assert_eq!(finding.required.as_ref().unwrap().value(), 330.0);
    assert!(finding.message.contains("620 x 329 mm beside `body` of `seat`"), "{}", finding.message);
    assert!(run(&PassThrough, &behind(500.0, 1000.0)).is_empty(), "beyond the reach");
}

#[test]
fn a_slanted_thing_is_taken_as_it_is() {
    use crate::geometry::{Axis, Polygon, Prism};
    use kurbo::Point;
    // A wedge from (y 700, z 1120) down to (y 1320, z 420) fills the lower left half of the hole; a rectangle w x h in
    // the upper right corner keeps clear of it where w / 620 + h / 700 <= 1. In the proportion 330 x 580 that is
    // w = 330 k, h = 580 k with k = 1 / (330 / 620 + 580 / 700) = 0.7353; lying 0.7117: so 242.6 wide.
    let corners = vec![Point::new(700.0, 420.0), Point::new(1320.0, 420.0), Point::new(700.0, 1120.0)];
    let wedge = Prism { axis: Axis::X, outline: Polygon::new(corners), low: 0.0, high: 300.0 };
    let mut module = block("shelf", box3((0.0, 300.0), (700.0, 1320.0), (420.0, 1120.0)));
    module.poses[0].solids[0].prism = wedge;
    let found = run(&PassThrough, &with(cab(0.0), module));
    let k = 1.0 / (330.0 / 620.0 + 580.0 / 700.0);
    let share = found[0].measured.unwrap().value / found[0].required.as_ref().unwrap().value();
    assert!((share - k).abs() < 0.0002, "{} against {k}", found[0].message);
}
