//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing::{block, box3, lying, model, run, solid, space, with, with_space};
use crate::geometry::{Axis, Box3};
use crate::model::testing::said;
use crate::model::{Model, Module};

/// A bunk across the rear from wall to wall, deck at `deck`, mattress 100, with solids at its front by name and place.
fn bunk(deck: f64, front: &[(&str, Box3)]) -> Model {
    let extent = box3((3200.0, 4000.0), (0.0, 2000.0), (deck, deck + 100.0));
    let mut bunk = with_space(block("bunk", extent), lying(extent, 1, Some(Axis::Y)));
    bunk.poses[0].solids[0].tags.push(said("mattress"));
    for (name, place) in front {
        let mut board = solid(name, (*place).into());
        board.tags.push(said(name));
        bunk.poses[0].solids.push(board);
    }
    with(over_another(), bunk)
}

/// A box with a bed on the floor, so that one over it is a bunk.
fn over_another() -> Model {
    let low = box3((2700.0, 4000.0), (0.0, 2000.0), (0.0, 200.0));
    with(model(space(4000.0, 2000.0, 2500.0)), with_space(block("low", low), lying(low, 1, Some(Axis::Y))))
}

fn board(y: (f64, f64), z: (f64, f64)) -> (&'static str, Box3) {
    ("board", box3((3180.0, 3200.0), y, z))
}

fn told(model: &Model) -> Vec<String> {
    run(&BunkGuard, model).into_iter().map(|finding| finding.message).collect()
}

#[test]
fn a_low_bed_needs_no_guard() {
    // EN 747-1 is for bases from 600 mm up.
    assert_eq!(told(&bunk(599.0, &[])).len(), 0);
    let says = "`lie` of `bunk` is open at the front for 2000 mm without a guard 160 mm above the mattress, 400 mm is \
                the most";
    assert_eq!(told(&bunk(600.0, &[])), [says]);
}

#[test]
fn a_wide_bed_is_no_bunk() {
    let wide = |depth: f64| {
        let extent = box3((4000.0 - depth, 4000.0), (0.0, 2000.0), (1000.0, 1100.0));
        told(&with(over_another(), with_space(block("bed", extent), lying(extent, 1, Some(Axis::Y))))).len()
    };
    assert_eq!((wide(1200.0), wide(1201.0)), (1, 0));
}

#[test]
fn a_high_bed_by_itself_is_no_bunk_but_what_has_a_guard_is() {
    let mut alone = bunk(1000.0, &[]);
    alone.modules.remove(0);
    alone.arrangements[0].poses.remove(0);
    assert!(told(&alone).is_empty());
    let guard = box3((3180.0, 3200.0), (1000.0, 2000.0), (1000.0, 1300.0));
    let mut guarded = bunk(1000.0, &[("guard", guard)]);
    guarded.modules.remove(0);
    guarded.arrangements[0].poses.remove(0);
    assert_eq!(told(&guarded).len(), 1);
}

#[test]
fn an_opening_to_get_in_is_at_most_400() {
    // The mattress top is at 1,000 + 100; 160 above it is 1,260.
    let guarded = |from: f64| told(&bunk(1000.0, &[board((from, 2000.0), (1000.0, 1260.0))])).len();
    assert_eq!((guarded(400.0), guarded(401.0)), (0, 1));
}

#[test]
fn a_low_guard_is_measured() {
    let says = "the guard of `lie` of `bunk` at the front is only 159 mm above the mattress, 160 mm is needed";
    let found = run(&BunkGuard, &bunk(1000.0, &[board((300.0, 2000.0), (1000.0, 1259.0))]));
    assert_eq!(found[0].message, says);
    assert_eq!((found[0].measured.unwrap().value, found[0].severity), (159.0, Severity::Caution));
}

#[test]
fn gaps_are_measured_from_the_base() {
    // The mattress lies on 1,000: without it a child's body goes through more than 75.
    let rail = |from: f64| told(&bunk(1000.0, &[board((300.0, 2000.0), (from, 1300.0))]));
    assert!(rail(1075.0).is_empty());
    let says = "the guard of `lie` of `bunk` at the front has a gap of more than 75 mm below it for 2000 mm, 400 mm is \
                the most";
    assert_eq!(rail(1076.0), [says]);
    let two = |second: f64| {
        let (low, high) = (board((300.0, 2000.0), (950.0, 1100.0)), board((300.0, 2000.0), (second, 1300.0)));
        told(&bunk(1000.0, &[low, high])).len()
    };
    assert_eq!((two(1175.0), two(1176.0)), (0, 1));
}

#[test]
fn farther_than_75_off_it_guards_nothing() {
    let at = |off: f64| {
        let place = box3((3180.0 - off, 3200.0 - off), (300.0, 2000.0), (0.0, 1300.0));
        told(&bunk(1000.0, &[("board", place)])).len()
    };
    assert_eq!((at(74.0), at(75.0)), (0, 1));
}

fn moved_off_the_wall(off: f64) -> Module {
    let extent = box3((3200.0, 4000.0), (off, 2000.0), (1000.0, 1100.0));
    let mut bunk = with_space(block("bunk", extent), lying(extent, 1, Some(Axis::Y)));
    bunk.poses[0].solids[0].tags.push(said("mattress"));
    bunk.poses[0].solids.push(solid("board", box3((3180.0, 3200.0), (off + 300.0, 2000.0), (1000.0, 1300.0)).into()));
    bunk
}

#[test]
fn the_second_open_side_is_found() {
    let two = |extra: f64| {
        let mut bunk = moved_off_the_wall(100.0);
        let end = box3((3200.0 + extra, 4000.0), (80.0, 100.0), (1000.0, 1300.0));
        bunk.poses[0].solids.push(solid("end", end.into()));
        told(&with(over_another(), bunk))
    };
    assert!(two(5.0).is_empty());
    let says =
        "`lie` of `bunk` is open at the left for 6 mm without a guard 160 mm above the mattress, 5.6 mm is the most";
    assert_eq!(two(6.0), [says]);
}

#[test]
fn a_wall_within_75_guards() {
    let off = |off: f64| told(&with(over_another(), moved_off_the_wall(off))).len();
    assert_eq!((off(75.0), off(76.0)), (0, 1));
}

#[test]
fn another_mattress_beside_it_guards() {
    let beside = |top: f64| {
        let extent = box3((2400.0, 3200.0), (0.0, 2000.0), (700.0, top));
        let other = with_space(block("other", extent), lying(extent, 1, Some(Axis::Y)));
        let found = run(&BunkGuard, &with(bunk(1000.0, &[]), other));
        found.iter().filter(|finding| finding.key.subject.is("bunk")).count()
    };
    assert_eq!((beside(800.0), beside(799.0)), (0, 1));
}
