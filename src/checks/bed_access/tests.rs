//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing::{
    block, box3, door, lying, model, run, solid, space, standing, with, with_opening, with_person, with_space,
};
use crate::geometry::{Axis, Box3};
use crate::model::Tag;
use crate::model::{Model, Module, Wall};
use kurbo::Rect;

/// A box of 4,000 x 2,000 with a door in the right wall near the front.
fn room() -> Model {
    with_opening(model(space(4000.0, 2000.0, 2000.0)), door("entry", Wall::Right, (200.0, 800.0)))
}

fn bed(extent: Box3, people: u32, along: Axis) -> Module {
    with_space(block("bed", extent), lying(extent, people, Some(along)))
}

/// A bed across the rear, from wall to wall.
fn across() -> Module {
    bed(box3((2600.0, 4000.0), (0.0, 2000.0), (0.0, 600.0)), 2, Axis::Y)
}

fn graver(model: &Model) -> Vec<Finding> {
    run(&BedAccess, model).into_iter().filter(|finding| finding.severity < Severity::Note).collect()
}

#[test]
fn behind_another_one_climbs_over() {
    let found = graver(&with(room(), across()));
    let [finding] = &found[..] else { panic!("{found:?}") };
    let says = "who sleeps at the rear of `bed` climbs over another sleeper to get out: no edge of this place is free, \
                500 mm is needed";
    assert_eq!((finding.message.as_str(), finding.severity), (says, Severity::Caution));
    assert_eq!(finding.marks, [area(Rect::new(3300.0, 0.0, 4000.0, 2000.0))]);
}

#[test]
fn one_alone_lies_at_the_free_side() {
    assert_eq!(graver(&with_person(with(room(), across()), 1700.0)), []);
}

#[test]
fn entered_at_the_foot_each_has_the_width_of_the_strip() {
    // A bed along the box, 1,300 wide for two: 650 each at the foot, and one side is open.
    let along = bed(box3((2000.0, 4000.0), (700.0, 2000.0), (0.0, 600.0)), 2, Axis::X);
    assert_eq!(graver(&with(room(), along.clone())), []);
    // A cupboard before the foot leaves 1,300 - 901 = 399 for both; the left one still has the side.
    let cupboard = block("cupboard", box3((1700.0, 2000.0), (1099.0, 2000.0), (0.0, 1800.0)));
    let found = graver(&with(with(room(), along), cupboard));
    let [finding] = &found[..] else { panic!("{found:?}") };
    assert!(finding.message.starts_with("who sleeps at the right of `bed` climbs over another sleeper"));
}

/// One sleeper along the left wall, with a cupboard beside the bed that leaves `free` of its side, and one at its foot.
fn beside(free: f64, gap: f64) -> Model {
    let one = bed(box3((1000.0, 3000.0), (0.0, 700.0), (0.0, 600.0)), 1, Axis::X);
    let cupboard = block("cupboard", box3((1000.0 + free, 4000.0), (700.0 + gap, 1300.0), (0.0, 1800.0)));
    let foot = block("foot", box3((0.0, 1000.0), (0.0, 700.0), (0.0, 1800.0)));
    let end = block("end", box3((3000.0, 4000.0), (0.0, 700.0), (0.0, 1800.0)));
    [one, cupboard, foot, end].into_iter().fold(room(), with)
}

#[test]
fn the_longest_free_stretch_counts_to_the_millimetre() {
    assert_eq!(graver(&beside(500.0, 0.0)), []);
    let found = graver(&beside(499.0, 0.0));
    let [finding] = &found[..] else { panic!("{found:?}") };
    assert_eq!(
        finding.message,
        "a sleeper in `bed` gets out over only 499 mm of free edge at the right, 500 mm is needed"
    );
    assert_eq!(finding.measured.unwrap().value, 499.0);
}

#[test]
fn a_slit_beside_the_bed_is_no_way_out() {
    // The cupboard stands 299 off: one may stand there only from 300 on, and 299 is no way either.
    assert_eq!(graver(&beside(499.0, 299.0)).len(), 1);
    assert_eq!(graver(&beside(499.0, 300.0)), []);
}

#[test]
fn shut_in_all_around_is_a_fault() {
    let found = graver(&beside(0.0, 0.0));
    let [finding] = &found[..] else { panic!("{found:?}") };
    let says = "a sleeper in `bed` has no way out: no edge of this place is free, 500 mm is needed";
    assert_eq!((finding.message.as_str(), finding.severity), (says, Severity::Fault));
}

#[test]
fn a_rail_is_climbed_over_and_a_board_is_not() {
    // A rail 100 mm above the mattress, 18 thick; 101 is too high, and nothing else is free.
    let with_rail = |top: f64| {
        let mut model = beside(900.0, 0.0);
        model.modules[0].poses[0].solids.push(solid("rail", box3((1000.0, 3000.0), (700.0, 718.0), (0.0, top)).into()));
        graver(&model).len()
    };
    assert_eq!((with_rail(700.0), with_rail(701.0)), (0, 1));
}

#[test]
fn steps_share_the_climb() {
    let at = |top: f64| bed(box3((2600.0, 4000.0), (0.0, 2000.0), (top - 100.0, top)), 1, Axis::Y);
    assert_eq!(graver(&with(room(), at(900.0))), []);
    let found = graver(&with(room(), at(901.0)));
    let says = "a sleeper in `bed` climbs 901 mm at once to the mattress, 900 mm is the most without a step";
    assert_eq!(found[0].message, says);
    // 1,300 over steps of 400 and 800: 400, 400 and 500.
    let mut stair = block("stair", box3((2000.0, 2600.0), (700.0, 1300.0), (0.0, 800.0)));
    stair.poses[0].solids = [(2300.0, 800.0), (2000.0, 400.0)]
        .map(|(x, z)| {
            let mut step = solid("step", box3((x, x + 300.0), (700.0, 1300.0), (0.0, z)).into());
            step.tags.push(Tag::Step.into());
            step
        })
        .to_vec();
    assert_eq!(graver(&with(with(room(), at(1300.0)), stair)), []);
}

#[test]
fn a_ladder_needs_less_edge() {
    // An upper berth behind a board, with an opening of 320 at a ladder.
    let ladder = |gap: f64, tagged: bool| {
        let one = bed(box3((2600.0, 4000.0), (0.0, 2000.0), (900.0, 1000.0)), 1, Axis::Y);
        let mut boards = block("boards", box3((2582.0, 2600.0), (gap, 2000.0), (900.0, 1200.0)));
        let mut rung = solid("rung", box3((2540.0, 2582.0), (0.0, gap), (400.0, 440.0)).into());
        rung.tags = if tagged { vec![Tag::Step.into()] } else { Vec::new() };
        boards.poses[0].solids.push(rung);
        graver(&with(with(room(), one), boards)).iter().map(|f| f.measured.unwrap().value).collect::<Vec<_>>()
    };
    assert_eq!(ladder(300.0, true), [0.0; 0]);
    assert_eq!(ladder(299.0, true), [299.0]);
    assert_eq!(ladder(300.0, false), [300.0, 1000.0], "the edge is short and the mattress high");
}

/// The room with a wet room, whose toilet stands in the front left corner, behind a gap of `gap` between two walls.
fn with_wet_room(gap: f64) -> Model {
    let mut wash = block("wash", box3((0.0, 900.0), (0.0, 900.0), (0.0, 1900.0)));
    let wall = |name: &str, x| solid(name, box3(x, (880.0, 900.0), (0.0, 1900.0)).into());
    let mut toilet = solid("toilet", box3((0.0, 300.0), (0.0, 300.0), (0.0, 450.0)).into());
    toilet.tags.push(Tag::Toilet.into());
    let side = solid("side", box3((880.0, 900.0), (0.0, 900.0), (0.0, 1900.0)).into());
    wash.poses[0].solids = vec![wall("a", (0.0, 100.0)), wall("b", (100.0 + gap, 900.0)), side, toilet];
    let wash = with_space(wash, standing(Rect::new(300.0, 300.0, 880.0, 880.0)));
    with(with(room(), bed(box3((2600.0, 4000.0), (0.0, 2000.0), (0.0, 600.0)), 1, Axis::Y)), wash)
}

#[test]
fn the_way_to_the_wet_room_is_a_note_or_a_fault() {
    let found = run(&BedAccess, &with_wet_room(540.0));
    let [note] = &found[..] else { panic!("{found:?}") };
    assert_eq!(note.message, "the way from `bed` to `wash` by night is 540 mm wide at its narrowest, within `wash`");
    assert_eq!(note.severity, Severity::Note);
    let found = run(&BedAccess, &with_wet_room(299.0));
    let says = "the way from `bed` to `wash` by night is only 299 mm wide within `wash`, 300 mm is needed";
    assert_eq!((found[0].message.as_str(), found[0].severity), (says, Severity::Fault));
    let found = run(&BedAccess, &with_wet_room(0.0));
    assert_eq!(found[0].message, "there is no way from `bed` to `wash` by night");
}
