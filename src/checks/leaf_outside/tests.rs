//! Leaves and things outside, by hand. Walls are 40 mm thick.

use super::*;
use crate::checks::testing::{door, model, run, space, with_opening};
use crate::model::testing::load;

/// A box of 4 x 2 x 2 m with a door of 600 mm in its right wall from x = 1000, hinged at its front end.
fn entry() -> Model {
    let mut entry = door("entry", Wall::Right, (1000.0, 1600.0));
    entry.hinge = Some(Wall::Front);
    with_opening(model(space(4000.0, 2000.0, 2000.0)), entry)
}

fn hatch(along: (f64, f64), hinge: Wall) -> Opening {
    let mut hatch = door("hatch", Wall::Right, along);
    (hatch.kind, hatch.hinge, hatch.up) = (OpeningKind::Hatch, Some(hinge), (200.0, 700.0));
    hatch
}

fn said_of(model: &Model) -> Vec<String> {
    run(&LeafOutside, model).into_iter().map(|one| one.message).collect()
}

#[test]
fn leaves_hinged_at_neighbouring_ends_meet() {
    // The door's leaf stands at x = 1000 to 1040; the hatch's, hinged at its rear end at x = 950, has 500 mm to sweep.
    let facing = with_opening(entry(), hatch((450.0, 950.0), Wall::Front));
    assert!(said_of(&facing).is_empty(), "it stands at x = 450");
    let away = with_opening(entry(), hatch((450.0, 950.0), Wall::Rear));
    assert!(said_of(&away).is_empty(), "both stand side by side");
    // A hatch behind the door, hinged at its front end, swings away from a door that is hinged at its rear end.
    let mut meeting = with_opening(entry(), hatch((1650.0, 2150.0), Wall::Rear));
    assert!(said_of(&meeting).is_empty(), "the door stands 600 mm from it");
    meeting.openings[0].hinge = Some(Wall::Rear);
    assert!(said_of(&meeting).is_empty(), "the hatch sweeps to x = 1650, where the door's leaf ends at 1600");
    let mut crossing = with_opening(entry(), hatch((450.0, 950.0), Wall::Front));
    crossing.openings[1].along = (100.0, 1000.0);
    crossing.openings[1].hinge = Some(Wall::Front);
    assert!(said_of(&crossing).is_empty(), "it opens away to x = 100");
}

/// The hatch above the door hangs from its top and stands level when open: it lies in the way of nothing that is lower. One
/// beside the door that turns down into its sweep is met.
#[test]
fn leaves_that_turn_about_different_lines() {
    let mut flap = hatch((1100.0, 1500.0), Wall::Roof);
    flap.up = (1850.0, 1950.0);
    assert!(said_of(&with_opening(entry(), flap)).is_empty());
    let mut shelf = hatch((300.0, 990.0), Wall::Floor);
    shelf.up = (600.0, 1100.0);
    let mut both = with_opening(entry(), shelf);
    assert!(said_of(&both).is_empty(), "the door stops short of it");
    both.openings[0].opens = 170.0;
    assert_eq!(said_of(&both).len(), 1, "it is to fold back, and the flap hangs there");
}

#[test]
fn a_thing_in_the_sweep_and_before_the_door() {
    let with_thing = |name: &str, at: [f64; 3], kind| {
        let mut model = entry();
        let mut thing = load(name, at, [400.0, 200.0, 150.0], 12.0);
        thing.kind = kind;
        model.loads.push(thing);
        said_of(&model)
    };
    // Its lower edge is at z = 1700, its nearer side 60 mm out, its front end at x = 1100.
    let low = with_thing("awning", [1300.0, 2200.0, 1775.0], LoadKind::Awning);
    assert_eq!(low.len(), 2, "{low:?}");
    assert!(low[0].starts_with("the leaf of `entry` opens ") && low[0].contains("before it meets `awning`"), "{low:?}");
    assert_eq!(low[1], "`awning` stands 60 mm before `entry`, 600 mm is to be free");
    assert!(with_thing("awning", [1300.0, 2200.0, 1875.0], LoadKind::Awning).is_empty(), "above the door");
    assert!(with_thing("step", [1300.0, 2200.0, -75.0], LoadKind::Step).is_empty());
    let far = with_thing("rack", [1300.0, 2740.0, 1000.0], LoadKind::Other);
    assert!(far.is_empty(), "600 mm out: {far:?}");
}
