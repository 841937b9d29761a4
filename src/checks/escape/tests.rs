//! Ways out of small boxes, counted by hand.

use super::*;
use crate::checks::testing::{block, box3, door, model, run, space, standing, with, with_opening, with_space};
use crate::geometry::Prism;
use crate::model::testing::said;
use crate::model::{Model, Opening, OpeningKind, Space, Wall, Zone};
use crate::source::Span;
use kurbo::Rect;

/// A box of 4,000 x 2,000 with a door in the right wall near the front and a bed over the rear 1,400.
fn boxed() -> Model {
    let plan = Rect::new(2600.0, 0.0, 4000.0, 2000.0);
    let prism = Prism::upright(plan, 600.0, 1300.0);
    let lie = Space { name: "lie".to_owned(), prism, need: Need::Lying, people: 2, ..standing(plan) };
    let bed = with_space(block("bed", box3((2600.0, 4000.0), (0.0, 2000.0), (0.0, 600.0))), lie);
    with(with_opening(model(space(4000.0, 2000.0, 2000.0)), door("entry", Wall::Right, (200.0, 800.0))), bed)
}

fn window(name: &str, wall: Wall, along: (f64, f64), up: (f64, f64)) -> Opening {
    Opening { kind: OpeningKind::Window, up, escape: true, ..door(name, wall, along) }
}

fn zone(name: &str, rect: Rect) -> Zone {
    Zone { name: name.to_owned(), purpose: said(name), rect, level: 0, span: Span::default() }
}

fn graver(model: &Model) -> Vec<(Severity, String)> {
    let found = run(&Escape, model).into_iter().filter(|one| one.severity != Severity::Note);
    found.map(|one| (one.severity, one.message)).collect()
}

#[test]
fn one_door_is_one_way_and_none_is_a_fault() {
    let is =
        "there is one way out from `lie` of `bed`, by `entry`, 2 apart from each other are needed; local code decides";
    assert_eq!(graver(&boxed()), [(Severity::Caution, is.to_owned())]);
    let shut = with(boxed(), block("wall", box3((2000.0, 2100.0), (0.0, 2000.0), (0.0, 2000.0))));
    assert_eq!(graver(&shut)[0].0, Severity::Fault);
}

#[test]
fn a_window_at_the_bed_is_the_second_up_to_its_sill() {
    let at =
        |sill: f64| graver(&with_opening(boxed(), window("pane", Wall::Rear, (600.0, 1200.0), (sill, sill + 450.0))));
    // The mattress is at 600: 914 above it are 1514.
    assert!(at(1514.0).is_empty(), "{:?}", at(1514.0));
    assert_eq!(at(1515.0).len(), 1);
    // Partly below the mattress, what is above it counts: 450 of it.
    assert!(at(600.0).is_empty());
    assert_eq!(at(599.0).len(), 1);
}

#[test]
fn a_small_way_out_is_named_and_does_not_count() {
    let small = with_opening(boxed(), window("pane", Wall::Rear, (600.0, 1200.0), (1000.0, 1449.0)));
    let found = graver(&small);
    assert_eq!(found[0].1, "the way out `pane` is 600 x 449 mm clear, 450 x 600 mm is needed, either way round");
    assert_eq!(found.len(), 2);
}

#[test]
fn a_roof_hatch_over_the_bed_within_climbing_height() {
    let hatch = |x: f64| Opening { up: (700.0, 1300.0), ..window("hatch", Wall::Roof, (x, x + 450.0), (0.0, 0.0)) };
    assert!(graver(&with_opening(boxed(), hatch(3000.0))).is_empty(), "2000 - 600 = 1400");
    assert_eq!(graver(&with_opening(boxed(), hatch(1000.0))).len(), 1, "nobody reaches it from the floor");
    let shelf = block("shelf", box3((3000.0, 3450.0), (0.0, 2000.0), (1500.0, 1520.0)));
    assert_eq!(graver(&with(with_opening(boxed(), hatch(3000.0)), shelf)).len(), 1, "a shelf between");
}

#[test]
fn two_openings_of_one_zone_are_one() {
    let mut model = with_opening(boxed(), window("pane", Wall::Rear, (600.0, 1200.0), (1000.0, 1500.0)));
    model = with_opening(model, window("side", Wall::Left, (3000.0, 3600.0), (1000.0, 1500.0)));
    model.openings.retain(|opening| opening.name != "entry");
    assert!(graver(&model).is_empty());
    model.zones.push(zone("sleep", Rect::new(2600.0, 0.0, 4000.0, 2000.0)));
    let found = graver(&model);
    assert!(found[0].1.starts_with("the ways out from `lie` of `bed` by `pane` or `side` share a zone"), "{found:?}");
}

#[test]
fn two_doors_beyond_one_zone_are_one_unless_there_is_a_way_round() {
    let second = door("other", Wall::Left, (200.0, 800.0));
    let mut model = with_opening(boxed(), second);
    model.zones.push(zone("galley", Rect::new(1000.0, 0.0, 2000.0, 2000.0)));
    let found = graver(&model);
    assert!(
        found[0].1.ends_with("share a zone and count as 1, 2 apart from each other are needed; local code decides"),
        "{found:?}"
    );
    // The zone leaves 500 free along the left wall: enough to pass beside it.
    model.zones[0] = zone("galley", Rect::new(1000.0, 500.0, 2000.0, 2000.0));
    assert!(graver(&model).is_empty(), "{:?}", graver(&model));
}

#[test]
fn the_note_gives_each_way_with_its_narrowest_place() {
    let bench = block("bench", box3((1500.0, 2000.0), (0.0, 1500.0), (0.0, 450.0)));
    let model = with(with_opening(boxed(), window("pane", Wall::Rear, (600.0, 1200.0), (1000.0, 1500.0))), bench);
    let note = run(&Escape, &model).into_iter().find(|one| one.severity == Severity::Note).unwrap();
    let is = "ways out from `lie` of `bed`: `pane` from the bed itself; `entry` on foot, 500 mm wide at the narrowest place \
              between `bench` and the right wall";
    assert_eq!(note.message, is);
}

/// A bed like the other one, 400 over the mattress of which an upper bunk hangs.
fn under_a_bunk(up: (f64, f64)) -> Vec<(Severity, String)> {
    let bunk = block("bunk", box3((2600.0, 4000.0), (0.0, 2000.0), (1100.0, 1200.0)));
    graver(&with(with_opening(boxed(), window("pane", Wall::Rear, (600.0, 1200.0), up)), bunk))
}

#[test]
fn a_window_above_the_upper_bunk_is_no_way_out_for_the_lower() {
    // The mattress at 600, the bunk at 1,100: 500 of room.
    assert!(under_a_bunk((620.0, 1070.0)).is_empty(), "{:?}", under_a_bunk((620.0, 1070.0)));
    assert_eq!(under_a_bunk((1250.0, 1700.0)).len(), 1);
    assert_eq!(under_a_bunk((660.0, 1400.0)).len(), 1, "440 of it are below the bunk");
}

#[test]
fn of_a_hole_counts_what_is_within_reach() {
    // The bed begins at x = 2,600; an arm reaches to 2,300.
    let at =
        |from: f64| graver(&with_opening(boxed(), window("side", Wall::Left, (from, from + 900.0), (1000.0, 1450.0))));
    assert!(at(2000.0).is_empty(), "{:?}", at(2000.0));
    assert_eq!(at(1999.0).len(), 1, "599 of 600");
}
