//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, model, space, with, with_space};
use crate::geometry::Prism;
use crate::geometry::{Axis, Box3, Polygon, Roof};
use crate::model::{Cutaway, LimitChange};
use crate::model::{Model, Space};
use crate::source::Span;
use kurbo::Point;

fn run(model: &Model) -> Vec<Finding> {
    testing::run(&BootVolume, model)
}

fn storage(room: Box3) -> Space {
    let (name, span) = ("boot".to_owned(), Span::default());
    Space { name, prism: room.into(), need: Need::Storage, people: 0, along: None, carries: None, span }
}

/// A bed with its base at z = 700 and the boot below: 1.5 x 2 x 0.7 m.
fn boxed() -> Model {
    let bed = block("bed", box3((2500.0, 4000.0), (0.0, 2000.0), (700.0, 900.0)));
    let bed = with_space(bed, storage(box3((2500.0, 4000.0), (0.0, 2000.0), (0.0, 700.0))));
    with(model(space(4000.0, 2000.0, 2000.0)), bed)
}

#[test]
fn a_bare_boot() {
    let found = run(&boxed());
    let [finding] = &found[..] else { panic!() };
    assert_eq!(
        finding.message,
        "the storage space `boot` of `bed` holds 2100 litres and 2100 blocks of 200 x 100 x 50 mm"
    );
    assert_eq!(finding.severity, Severity::Note);
}

#[test]
fn a_ramp_a_box_in_it_and_the_wall_take_their_share() {
    let mut model = with(boxed(), block("heater", box3((2500.0, 2900.0), (0.0, 300.0), (0.0, 400.0))));
    let outline = Polygon::new(vec![Point::new(3400.0, 0.0), Point::new(4000.0, 0.0), Point::new(4000.0, 400.0)]);
    let prism = Prism { axis: Axis::Y, outline, low: 0.0, high: 2000.0 };
    model.space.cutaways.push(Cutaway {
        name: "ramp".to_owned(),
        prism,
        kind: crate::model::CutKind::Floor,
        span: Span::default(),
    });
    let found = run(&model);
    // 2100 - 0.6 x 0.4 / 2 x 2 (240) - 0.4 x 0.3 x 0.4 (48) = 1812 litres.
    assert!((found[0].measured.unwrap().value - 1812.0).abs() < 1e-3);
    // The wall: 100 mm of the space lie behind it.
    model.space.length = 3900.0;
    model.space.cutaways.clear();
    let expected = (1400.0 * 2000.0 * 700.0 - 400.0 * 300.0 * 400.0) / 1e6;
    assert!((run(&model)[0].measured.unwrap().value - expected).abs() < 1e-3);
}

#[test]
fn under_a_low_roof() {
    let mut model = boxed();
    model.space.roof = Roof::Line(vec![Point::new(0.0, 500.0), Point::new(2000.0, 700.0)]);
    assert!((run(&model)[0].measured.unwrap().value - 1.5 * 2.0 * 600.0).abs() < 1e-3);
}

#[test]
fn less_than_the_layout_wants_is_a_fault() {
    let mut model = boxed();
    let (check, name) = ("boot-volume".to_owned(), "least".to_owned());
    let because = "two bicycles".to_owned();
    model.limits.push(LimitChange { check, name, value: 2250.0, because, span: Span::default() });
    let found = run(&model);
    assert_eq!(found.len(), 2);
    assert_eq!(found[1].message, "the storage space `boot` of `bed` holds 2100 litres, less than 2250 litres");
}
