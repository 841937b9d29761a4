//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing::{block, box3, lying, model, run, solid, space, with, with_person, with_space};
use crate::geometry::{Polygon, Prism, Roof};
use crate::model::Model;
use kurbo::Point;

/// A box 2,000 wide with a double bed across the rear, mattress top at 1,000, under a flat roof of some height.
fn under(roof: f64) -> Model {
    let extent = box3((2600.0, 4000.0), (0.0, 2000.0), (900.0, 1000.0));
    with(model(space(4000.0, 2000.0, roof)), with_space(block("bed", extent), lying(extent, 2, Some(Axis::Y))))
}

fn told(model: &Model) -> Vec<(Severity, f64)> {
    run(&BedHeadroom, model).iter().map(|finding| (finding.severity, finding.measured.unwrap().value)).collect()
}

#[test]
fn a_flat_roof_is_high_enough_low_or_too_low() {
    assert_eq!(told(&under(1977.0)), []);
    assert_eq!(told(&under(1976.0)), [(Severity::Caution, 976.0)]);
    assert_eq!(told(&under(1600.0)), [(Severity::Caution, 600.0)]);
    assert_eq!(told(&under(1599.0)), [(Severity::Fault, 599.0)]);
    let found = run(&BedHeadroom, &under(1976.0));
    let says = "who sleeps at the front of `bed` cannot sit up: at the best place 976 mm is over the mattress, 977 mm is \
                needed";
    assert_eq!(found[0].message, says);
    assert_eq!(
        run(&BedHeadroom, &under(1599.0))[0].message.split(" under").nth(1),
        Some(" the roof lining, 600 mm is needed")
    );
}

#[test]
fn a_named_sleeper_needs_it_in_proportion() {
    // 977 x 1,400 / 1,870 = 731.4.
    assert_eq!(told(&with_person(under(1731.0), 1400.0)), []);
    assert_eq!(told(&with_person(under(1730.0), 1400.0)), [(Severity::Caution, 730.0)]);
}

#[test]
fn a_ridge_leaves_room_in_the_middle() {
    // Ridge of 2,000 over walls of 1,900: 300 to either side of it the roof is at 2,000 - 100 x 300 / 1,000 = 1,970.
    let ridge = |top: f64| {
        let mut model = under(2000.0);
        let points = [(0.0, top - 100.0), (1000.0, top), (2000.0, top - 100.0)];
        model.space.roof = Roof::Line(points.iter().map(|(y, z)| Point::new(*y, *z)).collect());
        told(&model)
    };
    assert_eq!(ridge(2007.0), []);
    assert_eq!(ridge(2000.0), [(Severity::Caution, 970.0)]);
}

#[test]
fn along_the_box_the_middle_of_the_strip_counts() {
    // A strip of 700 along the left wall under a slope of 100 in 1,000: its middle 450 begin 125 off the wall.
    let extent = box3((1000.0, 3000.0), (0.0, 700.0), (900.0, 1000.0));
    let mut low =
        with(model(space(4000.0, 2000.0, 2000.0)), with_space(block("bed", extent), lying(extent, 1, Some(Axis::X))));
    low.space.roof = Roof::Line(vec![Point::new(0.0, 1960.0), Point::new(1000.0, 2060.0), Point::new(2000.0, 2060.0)]);
    assert_eq!(told(&low), [(Severity::Caution, 972.5)]);
}

#[test]
fn a_locker_over_the_feet_leaves_a_place_to_sit_up() {
    let locker = |from: f64, z: f64| {
        let locker = block("locker", box3((2600.0, 4000.0), (from, 2000.0), (z, 2000.0)));
        told(&with(under(2000.0), locker))
    };
    assert_eq!(locker(600.0, 1700.0), []);
    assert_eq!(locker(599.0, 1700.0), [(Severity::Caution, 700.0)]);
    assert_eq!(locker(1400.0, 1599.0), [(Severity::Fault, 599.0)]);
}

#[test]
fn the_better_place_is_for_the_only_sleeper() {
    let locker = || block("locker", box3((3500.0, 4000.0), (0.0, 2000.0), (1500.0, 2000.0)));
    let found = run(&BedHeadroom, &with(under(2000.0), locker()));
    assert!(
        found[0]
            .message
            .starts_with("who sleeps at the rear of `bed` has only 500 mm over the mattress under `locker`")
    );
    assert_eq!(told(&with_person(with(under(2000.0), locker()), 1870.0)), []);
}

#[test]
fn a_tapered_underside_counts_as_it_is() {
    // From 1,900 at the left wall down to 1,500 at the right: 600 from the left it is at 1,900 - 400 x 600 / 2,000.
    let mut model = under(2000.0);
    let mut hood = block("hood", box3((2600.0, 4000.0), (0.0, 2000.0), (1500.0, 2000.0)));
    let outline = [(0.0, 1900.0), (2000.0, 1700.0), (2000.0, 2000.0), (0.0, 2000.0)];
    let outline = Polygon::new(outline.iter().map(|(y, z)| Point::new(*y, *z)).collect());
    hood.poses[0].solids = vec![solid("hood", Prism { axis: Axis::X, outline, low: 2600.0, high: 4000.0 })];
    model = with(model, hood);
    assert_eq!(told(&model), [(Severity::Caution, 840.0)]);
}
