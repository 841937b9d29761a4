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
    with(model(space(4000.0, 2000.0, 2500.0)), bunk)
}

fn board(y: (f64, f64), z: (f64, f64)) -> (&'static str, Box3) {
    ("board", box3((3180.0, 3200.0), y, z))
}

fn told(model: &Model) -> Vec<String> {
    run(&BunkGuard, model).into_iter().map(|finding| finding.message).collect()
}

#[test]
fn a_low_bed_needs_no_guard() {
    assert_eq!(told(&bunk(760.0, &[])).len(), 0);
    let says = "`lie` of `bunk` is open at the front for 2000 mm without a guard 127 mm above the mattress, 381 mm is \
                the most";
    assert_eq!(told(&bunk(761.0, &[])), [says]);
}

#[test]
fn an_opening_to_get_in_is_at_most_381() {
    // The mattress top is at 1,000 + 100; 127 above it is 1,227.
    let guarded = |from: f64| told(&bunk(1000.0, &[board((from, 2000.0), (1000.0, 1227.0))])).len();
    assert_eq!((guarded(381.0), guarded(382.0)), (0, 1));
}

#[test]
fn a_low_guard_is_measured() {
    let says = "the guard of `lie` of `bunk` at the front is only 126 mm above the mattress, 127 mm is needed";
    let found = run(&BunkGuard, &bunk(1000.0, &[board((300.0, 2000.0), (1000.0, 1226.0))]));
    assert_eq!(found[0].message, says);
    assert_eq!((found[0].measured.unwrap().value, found[0].severity), (126.0, Severity::Caution));
}

#[test]
fn only_a_rail_may_stand_off_the_mattress() {
    let rail = |name: &'static str, from: f64| {
        told(&bunk(1000.0, &[(name, box3((3180.0, 3200.0), (300.0, 2000.0), (from, 1300.0)))])).len()
    };
    assert_eq!((rail("guard", 1189.0), rail("guard", 1190.0)), (0, 1));
    assert_eq!((rail("board", 1100.0), rail("board", 1101.0)), (0, 1));
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
        told(&with(model(space(4000.0, 2000.0, 2500.0)), bunk))
    };
    assert!(two(5.0).is_empty());
    let says =
        "`lie` of `bunk` is open at the left for 6 mm without a guard 127 mm above the mattress, 5.6 mm is the most";
    assert_eq!(two(6.0), [says]);
}

#[test]
fn a_wall_within_75_guards() {
    let off = |off: f64| told(&with(model(space(4000.0, 2000.0, 2500.0)), moved_off_the_wall(off))).len();
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
