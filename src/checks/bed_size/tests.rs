//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, lying, model, space, with, with_space};
use crate::geometry::Axis;
use crate::model::{Person, Taker};
use crate::source::Span;

fn run(model: &Model) -> Vec<Finding> {
    let found = testing::run(&BedSize, model);
    found.into_iter().filter(|finding| finding.severity < Severity::Note).collect()
}

/// A bed across the rear, 1,960 long across the box, with a width along it; and people by name and stature.
fn layout(width: f64, people: u32, crew: &[(&str, f64)]) -> Model {
    let extent = box3((4000.0 - width, 4000.0), (20.0, 1980.0), (0.0, 600.0));
    let bed = with_space(block("bed", extent), lying(extent, people, Some(Axis::Y)));
    let mut model = with(model(space(4000.0, 2000.0, 2000.0)), bed);
    let person = |(name, stature): &(&str, f64)| Person {
        name: (*name).to_owned(),
        stature: *stature,
        measured: true,
        mass: 70.0,
        span: Span::default(),
    };
    model.people = crew.iter().map(person).collect();
    model
}

#[test]
fn long_and_wide_enough() {
    assert!(run(&layout(1400.0, 2, &[("ada", 1810.0), ("ben", 1650.0)])).is_empty());
}

#[test]
fn too_little_beyond_the_heels_and_shorter_than_the_sleeper() {
    let found = run(&layout(1400.0, 2, &[("ada", 1650.0), ("ben", 1840.0)]));
    let [finding] = &found[..] else { panic!() };
    let says = "the lying space `lie` of `bed` is 1960 mm long for `ben`, 1840 mm tall, who needs 1990 mm";
    assert_eq!((finding.message.as_str(), finding.severity), (says, Severity::Caution));
    assert_eq!(run(&layout(1400.0, 2, &[("ben", 1970.0)]))[0].severity, Severity::Fault);
}

#[test]
fn width_for_each() {
    // 1,240 for two is 620 each: 60 missing in all. 960 is 480 each: a fault.
    let found = run(&layout(1240.0, 2, &[("ada", 1700.0)]));
    let [finding] = &found[..] else { panic!() };
    assert_eq!(finding.message, "the lying space `lie` of `bed` is 620 mm wide for each sleeper, who needs 650 mm");
    assert_eq!(run(&layout(960.0, 2, &[("ada", 1700.0)]))[0].severity, Severity::Fault);
}

#[test]
fn named_sleepers_take_their_own_bed_and_the_tallest_others_the_rest() {
    let mut model = layout(1400.0, 2, &[("ada", 1700.0), ("ben", 1950.0), ("cleo", 1600.0)]);
    model.modules[0].sleepers = ["ada", "cleo"].map(|who| Taker { who: who.to_owned(), space: None }).to_vec();
    let bunk = box3((0.0, 2150.0), (0.0, 700.0), (0.0, 400.0));
    let model = with(model, with_space(block("bunk", bunk), lying(bunk, 1, None)));
    assert!(run(&model).is_empty(), "ben, 1950, sleeps in the bunk of 2150");
}

/// A bunk of 1,500 is for nobody of 1,600 or more; the tallest gets the longest place, wherever it stands in the file.
#[test]
fn a_berth_is_a_place_that_somebody_fits() {
    let short = box3((0.0, 1500.0), (0.0, 700.0), (0.0, 400.0));
    let bunk = |model| with(model, with_space(block("bunk", short), lying(short, 1, None)));
    let found = run(&bunk(layout(1400.0, 2, &[("ada", 1700.0), ("ben", 1700.0), ("cleo", 1600.0)])));
    let [finding] = &found[..] else { panic!("{found:?}") };
    assert_eq!(finding.message, "3 people, 2 berths");
    let found = run(&bunk(layout(1400.0, 2, &[("ada", 1700.0), ("ben", 1700.0), ("cleo", 1340.0)])));
    assert!(found.is_empty(), "cleo, 1340, sleeps in the bunk: {found:?}");
    let found = run(&bunk(layout(700.0, 1, &[("ada", 1700.0), ("cleo", 1600.0), ("dan", 1400.0)])));
    assert!(found.iter().any(|one| one.message == "3 people, 2 berths"), "{found:?}");
    let found = run(&bunk(layout(700.0, 1, &[("cleo", 1600.0), ("dan", 1400.0)])));
    assert_eq!(
        found[0].message,
        "the lying space `lie` of `bunk` is 1500 mm long for `dan`, 1400 mm tall, who needs 1550 mm"
    );
}

/// Dan, 1,400, is named for the long bed; cleo, 1,600, does not fit the bunk that is left.
#[test]
fn who_fits_no_free_berth_is_told_the_longest() {
    let short = box3((0.0, 1500.0), (0.0, 700.0), (0.0, 400.0));
    let mut model = layout(700.0, 1, &[("cleo", 1600.0), ("dan", 1300.0)]);
    model.modules[0].sleepers = vec![Taker { who: "dan".to_owned(), space: Some("lie".to_owned()) }];
    let model = with(model, with_space(block("bunk", short), lying(short, 1, None)));
    let found = run(&model);
    let [finding] = &found[..] else { panic!("{found:?}") };
    let says =
        "`cleo`, 1600 mm tall, fits no free berth; the longest that is free is `lie` of `bunk`, 1500 mm x 700 mm";
    assert_eq!((finding.message.as_str(), finding.severity), (says, Severity::Fault));
}

#[test]
fn fewer_berths_than_people() {
    let found = run(&layout(1400.0, 2, &[("ada", 1700.0), ("ben", 1700.0), ("cleo", 1600.0)]));
    let [finding] = &found[..] else { panic!() };
    assert_eq!((finding.message.as_str(), finding.severity), ("3 people, 2 berths", Severity::Fault));
    assert_eq!(finding.help.as_deref(), Some("add a bed, or a pose with a lying space"));
}

#[test]
fn a_layout_without_beds_is_not_for_sleeping_but_one_without_beds_at_night_is_wrong() {
    let mut model = layout(1400.0, 2, &[("ada", 1700.0)]);
    let mut stowed = model.modules[0].poses[0].clone();
    stowed.spaces.clear();
    model.modules[0].poses.push(stowed);
    let night = Arrangement { name: "night".to_owned(), poses: vec![1], span: Span::default() };
    model.arrangements.push(night);
    assert_eq!(run(&model)[0].message, "1 person, 0 berths");
    model.arrangements.remove(0);
    assert!(run(&model).is_empty());
}

#[test]
fn without_people_a_bed_is_for_the_median_man() {
    // 1,755 (open survey data, median man) + 150 = 1,905.
    assert!(run(&layout(1400.0, 2, &[])).is_empty());
}

#[test]
fn the_nearest_mattress_is_a_note() {
    let model = layout(1390.0, 2, &[("ada", 1700.0)]);
    let found = testing::run(&BedSize, &model);
    let says = "the lying space `lie` of `bed` is 1960 x 1390 mm; the nearest trade mattress that goes in is US full (1905 x 1371.6 mm)";
    assert_eq!(found[0].message, says);
}
