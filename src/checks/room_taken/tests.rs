//! Overlaps by hand.

use super::*;
use crate::checks::testing::{block, box3, model, on_wheels, run, space, with};
use crate::model::testing::load;
use crate::model::{Cab, FrameLine};

/// A box of 4 x 2 x 2 m with a cupboard and a thing of 400 mm each way.
fn thing(at: [f64; 3]) -> Model {
    let cupboard = block("cupboard", box3((1000.0, 2000.0), (0.0, 600.0), (0.0, 900.0)));
    let mut model = with(model(space(4000.0, 2000.0, 2000.0)), cupboard);
    model.loads.push(load("heater", at, [400.0; 3], 12.0));
    model
}

fn said_of(model: &Model) -> Vec<String> {
    run(&RoomTaken, model).into_iter().map(|one| one.message).collect()
}

#[test]
fn a_thing_beside_a_module_and_one_in_it() {
    assert!(said_of(&thing([2200.0, 200.0, 200.0])).is_empty(), "it touches");
    assert_eq!(said_of(&thing([2199.0, 200.0, 200.0])), ["`heater` takes 1 x 400 x 400 mm of `body` of `cupboard`"]);
}

#[test]
fn two_things_and_the_shell() {
    let mut two = thing([3000.0, 1000.0, 200.0]);
    two.loads.push(load("pump", [3390.0, 1000.0, 100.0], [400.0, 200.0, 200.0], 2.0));
    assert_eq!(said_of(&two), ["`heater` takes 10 x 200 x 200 mm of `pump`"]);
    assert_eq!(said_of(&thing([3000.0, 1000.0, 190.0])), ["`heater` takes 400 x 400 x 10 mm of the floor"]);
    assert_eq!(said_of(&thing([3000.0, 1000.0, -230.0])), ["`heater` takes 400 x 400 x 10 mm of the floor"]);
    assert!(said_of(&thing([3000.0, 1000.0, -240.0])).is_empty(), "right below its 40 mm");
    assert_eq!(said_of(&thing([3801.0, 1000.0, 200.0])), ["`heater` takes 1 x 400 x 400 mm of the rear wall"]);
    assert_eq!(said_of(&thing([3000.0, 1000.0, 1801.0])), ["`heater` takes 400 x 400 x 1 mm of the roof"]);
    assert!(said_of(&thing([3000.0, 1000.0, 2240.0])).is_empty(), "on the roof, which is 40 mm thick");
}

/// Floor 1,120 mm above the ground, front axle 620 mm before the box; the frame from 600 to 850 mm, 850 mm wide, so its
/// right rail takes y from 1375 to 1425.
#[test]
fn rails_wheels_and_cab() {
    let under = |at: [f64; 3]| {
        let mut model = on_wheels();
        let vehicle = model.vehicle.as_mut().unwrap();
        vehicle.frame = Some(FrameLine { top: 850.0, bottom: 600.0, rear: 4500.0, width: 850.0 });
        vehicle.cab = Some(Cab { rear: 400.0, top: 2300.0, width: 2100.0, tilt: None });
        model.loads.push(load("tank", at, [400.0; 3], 12.0));
        said_of(&model)
    };
    assert!(under([1500.0, 1625.0, -400.0]).is_empty(), "beside the rail");
    assert_eq!(under([1500.0, 1624.0, -400.0]), ["`tank` takes 400 x 1 x 250 mm of a rail of the frame"]);
    assert!(under([1500.0, 1000.0, -400.0]).is_empty(), "between the rails");
    // The rear axle lies at x = 3580; its wheel takes x from 3115 to 4045 at its middle, y from 1730 to 1930.
    let wheel = under([3580.0, 1800.0, -655.0]);
    assert!(wheel[0].ends_with("of a wheel"), "{wheel:?}");
    assert_eq!(under([-320.0, 1700.0, 300.0]), ["`tank` takes 300 x 400 x 400 mm of the cab"]);
    assert!(under([-900.0, 1700.0, 300.0]).is_empty(), "in the cab");
}

#[test]
fn a_note_about_things_without_a_size() {
    let mut bare = thing([3000.0, 1000.0, 200.0]);
    (bare.loads[0].size, bare.loads[0].room) = (None, None);
    let found = run(&RoomTaken, &bare);
    assert_eq!(found[0].severity, Severity::Note);
    assert_eq!(found[0].message, "no `size` is given for `heater`: nothing tells what room they take");
}
