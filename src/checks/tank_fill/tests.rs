//! Heights of fillers by hand.

use super::*;
use crate::checks::testing::{met, on_wheels, run, with_person};
use crate::model::testing::load;
use crate::model::{Model, Tank};

/// A tank whose top is 200 mm below the floor, of a truck whose floor is 1,120 mm above the ground; filled at a height.
fn filled(holds: Holds, filler: Option<f64>) -> Model {
    let mut model = with_person(on_wheels(), 1500.0);
    let mut tank = load("water", [2000.0, 1500.0, -400.0], [600.0, 400.0, 400.0], 8.0);
    tank.tank = Some(Tank { size: [590.0, 390.0, 390.0], holds, density: 1.0, fill: [0.0, 1.0, 1.0] });
    tank.filler = filler.map(|z| Point3 { x: 2000.0, y: 2000.0, z });
    model.loads.push(tank);
    model
}

#[test]
fn a_filler_lies_above_the_tank() {
    assert!(run(&TankFill, &filled(Holds::Fresh, Some(-150.0))).is_empty());
    assert_eq!(met(&TankFill, &filled(Holds::Fresh, Some(-150.0))).map(|one| one.1), Some(50.0));
    let found = run(&TankFill, &filled(Holds::Fresh, Some(-151.0)));
    let wanted =
        "the filler of `water` lies 49 mm above the top of the tank, 50 mm above it is needed to fill it by a hose";
    assert_eq!((found.len(), found[0].message.as_str()), (1, wanted));
    let below = run(&TankFill, &filled(Holds::Fresh, Some(-230.0)));
    assert!(below[0].message.contains("lies 30 mm below the top"), "{}", below[0].message);
}

/// 1.2 times 1,500 mm are 1,800 mm above the ground, 680 mm above the floor.
#[test]
fn a_filler_is_reached_from_the_ground() {
    assert!(run(&TankFill, &filled(Holds::Fresh, Some(680.0))).is_empty());
    let found = run(&TankFill, &filled(Holds::Fresh, Some(681.0)));
    assert_eq!((found.len(), found[0].measured.unwrap().value), (1, 1801.0));
    let mut model = filled(Holds::Fresh, Some(681.0));
    model.vehicle = None;
    assert!(run(&TankFill, &model).is_empty(), "nobody knows the ground");
}

#[test]
fn of_a_tank_without_a_filler_a_note_says_so() {
    let notes = |holds| run(&TankFill, &filled(holds, None));
    assert_eq!((notes(Holds::Fresh).len(), notes(Holds::Fresh)[0].severity), (1, Severity::Note));
    assert_eq!(notes(Holds::Fuel).len(), 1);
    assert!(notes(Holds::Grey).is_empty());
}
