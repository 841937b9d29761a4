//! Plans with one or two gaps, by hand.

use super::*;
use crate::checks::testing::{block, box3, door, lying, model, run, space, with, with_opening, with_space};
use crate::geometry::Axis;
use crate::model::Model;

/// A box of 4 x 2 m with doors left and right in its front half, a bed at the rear and two cupboards that leave a gap.
fn gap(wide: f64) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    model = with_opening(model, door("left-door", Wall::Left, (300.0, 1000.0)));
    model = with_opening(model, door("right-door", Wall::Right, (300.0, 1000.0)));
    let bed = box3((3000.0, 4000.0), (0.0, 2000.0), (0.0, 500.0));
    model = with(model, with_space(block("bed", bed), lying(bed, 1, Some(Axis::Y))));
    model = with(model, block("low", box3((1500.0, 2200.0), (0.0, 700.0), (0.0, 900.0))));
    with(model, block("high", box3((1500.0, 2200.0), (700.0 + wide, 2000.0), (0.0, 1900.0))))
}

fn said_of(model: &Model) -> Vec<String> {
    run(&TwoExits, model).into_iter().map(|one| one.message).collect()
}

#[test]
fn one_gap_before_two_doors() {
    assert!(said_of(&gap(600.0)).is_empty());
    let found = said_of(&gap(599.0));
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].contains("one place, 599 mm wide between `low` and `high`"), "{}", found[0]);
}

#[test]
fn a_door_behind_the_gap_is_another_way() {
    let behind = with_opening(gap(500.0), door("rear-door", Wall::Right, (2300.0, 2900.0)));
    assert!(said_of(&behind).is_empty());
}

#[test]
fn a_window_over_the_bed_is_another_way() {
    let mut window = door("window", Wall::Rear, (500.0, 1500.0));
    (window.kind, window.up, window.escape) = (OpeningKind::Window, (700.0, 1300.0), true);
    assert!(said_of(&with_opening(gap(500.0), window.clone())).is_empty());
    window.escape = false;
    assert_eq!(said_of(&with_opening(gap(500.0), window)).len(), 1);
}

#[test]
fn one_door_alone_is_the_matter_of_another_check() {
    let mut one = gap(500.0);
    one.openings.pop();
    assert!(said_of(&one).is_empty());
}
