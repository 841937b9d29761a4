//! Distances worked out by hand.

use super::*;
use crate::checks::testing::{block, box3, door, model, run, solid, space, standing, with, with_opening, with_space};
use crate::geometry::Box3;
use crate::model::testing::said;
use crate::model::{Model, Module, Need, OpeningKind, Wall};
use kurbo::Rect;

fn add(module: &mut Module, name: &str, extent: Box3, tag: &str) {
    let mut one = solid(name, extent.into());
    one.tags.push(said(tag));
    module.poses[0].solids.push(one);
}

/// A worktop of 1,200 at the left wall, 900 high, with a hob of 300 x 500 that begins at x = 1000 + `at`, and a sink from
/// x = 1900.
fn galley(at: f64) -> Model {
    let mut module = block("galley", box3((1000.0, 2200.0), (0.0, 600.0), (0.0, 900.0)));
    add(&mut module, "top", box3((1000.0, 2200.0), (0.0, 600.0), (875.0, 900.0)), "worktop");
    add(&mut module, "hob", box3((1000.0 + at, 1300.0 + at), (50.0, 550.0), (860.0, 905.0)), "hob");
    add(&mut module, "sink", box3((1900.0, 2200.0), (100.0, 500.0), (750.0, 900.0)), "sink");
    with(model(space(4000.0, 2000.0, 2000.0)), module)
}

fn messages(model: &Model) -> Vec<String> {
    run(&Cooking, model).into_iter().map(|one| one.message).collect()
}

#[test]
fn the_longer_side_of_the_worktop_is_the_landing() {
    assert!(messages(&galley(300.0)).is_empty(), "300 at its front side");
    // 299 to the front end; to the rear from 1599 to the sink at 1900 are 301.
    assert!(messages(&galley(299.0)).is_empty());
    let found = run(&Cooking, &galley(302.0));
    assert!(found.is_empty(), "302 to the front end");
    let tight =
        |from| with(galley(280.0), block("bread bin", box3((from, from + 200.0), (100.0, 500.0), (900.0, 1100.0))));
    assert!(messages(&tight(1880.0)).is_empty(), "300 from the hob at 1580");
    let is = "the worktop beside the hob of `galley` is free for 280 mm at most, 300 mm on one side is needed to put a pan down";
    assert_eq!(messages(&tight(1750.0)), [is]);
}

#[test]
fn worktops_of_two_modules_join() {
    let mut next = block("fridge", box3((700.0, 1000.0), (0.0, 600.0), (0.0, 905.0)));
    add(&mut next, "lid", box3((700.0, 995.0), (0.0, 600.0), (880.0, 905.0)), "worktop");
    // 5 mm of joint: from x = 700 to the hob at 1160 are 460.
    let bin = block("bin", box3((1620.0, 1800.0), (100.0, 500.0), (900.0, 1000.0)));
    let both = with(with(galley(160.0), next), bin);
    assert!(messages(&both).is_empty(), "{:?}", messages(&both));
}

#[test]
fn tall_things_and_walls_beside_the_flame() {
    let tall = |x| with(galley(300.0), block("pantry", box3((x, x + 500.0), (0.0, 600.0), (0.0, 1900.0))));
    let beside = with(galley(140.0), block("pantry", box3((500.0, 1000.0), (0.0, 600.0), (0.0, 1900.0))));
    assert_eq!(messages(&beside), ["`body` of `pantry` is 140 mm beside the hob of `galley`, 150 mm is needed"]);
    assert!(messages(&tall(500.0)).is_empty());
    let wall = {
        let mut model = galley(1.0);
        model.space.length = 1440.0;
        model
    };
    assert!(messages(&wall).iter().any(|one| one.starts_with("the wall is 139 mm beside")), "{:?}", messages(&wall));
}

#[test]
fn people_who_lie_at_its_height() {
    let lying = |x: f64, low: f64| {
        let mut space = standing(Rect::new(x, 0.0, x + 600.0, 1900.0));
        space.need = Need::Lying;
        space.prism = crate::geometry::Prism::upright(Rect::new(x, 0.0, x + 600.0, 1900.0), low, low + 700.0);
        let mut bed = with_space(block("bed", box3((x, x + 600.0), (0.0, 1900.0), (0.0, low))), space);
        bed.poses[0].solids.clear();
        with(galley(900.0 - 40.0), bed)
    };
    // The hob ends at x = 2160.
    let found = messages(&lying(2250.0, 870.0));
    assert!(
        found.iter().any(|one| one == "`stand` of `bed` is 90 mm beside the hob of `galley`, 150 mm is needed"),
        "{found:?}"
    );
    assert!(!messages(&lying(2310.0, 870.0)).iter().any(|one| one.contains("bed")));
    assert!(!messages(&lying(2250.0, 1400.0)).iter().any(|one| one.contains("bed")), "far above the flame");
}

#[test]
fn a_window_behind_and_a_locker_above() {
    let window = |from: f64| {
        let mut pane = door("pane", Wall::Left, (from, from + 400.0));
        (pane.kind, pane.up) = (OpeningKind::Window, (1000.0, 1400.0));
        messages(&with_opening(galley(300.0), pane))
    };
    assert!(window(1700.0).is_empty(), "100 beside the hob, which ends at 1600");
    assert_eq!(window(1699.0), ["`pane` is 99 mm beside the hob of `galley`, 100 mm to its side is needed"]);
    assert_eq!(window(1500.0), ["`pane` is behind the hob of `galley`, 100 mm to its side is needed"]);
    let locker =
        |low| messages(&with(galley(300.0), block("locker", box3((1000.0, 2000.0), (0.0, 320.0), (low, 1950.0)))));
    assert!(locker(1555.0).is_empty(), "650 above 905");
    assert_eq!(locker(1554.0), ["`body` of `locker` is 649 mm above the hob of `galley`, 650 mm is needed"]);
}

#[test]
fn a_hob_may_stand_proud_of_its_worktop() {
    // Its top at 905 + `more`, the worktop at 900.
    let proud = |more: f64| {
        let mut model = galley(300.0);
        let place = box3((1300.0, 1600.0), (50.0, 550.0), (860.0, 905.0 + more));
        model.modules[0].poses[0].solids[2].prism = place.into();
        messages(&model)
    };
    assert!(proud(10.0).is_empty(), "{:?}", proud(10.0));
    assert!(proud(55.0).is_empty(), "60 proud");
    let is = "the worktop beside the hob of `galley` is free for 0 mm at most, 300 mm on one side is needed to put a pan down";
    assert_eq!(proud(56.0), [is]);
}

#[test]
fn over_gas_it_is_750() {
    let locker = |low: f64| {
        let mut model = with(galley(300.0), block("locker", box3((1000.0, 2000.0), (0.0, 320.0), (low, 1950.0))));
        let service = crate::model::Service::Gas;
        model.modules[0].connects.push(crate::model::Connection { service, span: crate::source::Span::default() });
        messages(&model)
    };
    assert!(locker(1655.0).is_empty());
    assert_eq!(locker(1654.0), ["`body` of `locker` is 749 mm above the hob of `galley`, 750 mm is needed"]);
}
