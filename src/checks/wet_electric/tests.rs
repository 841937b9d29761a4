//! Distances by hand.

use super::*;
use crate::checks::testing::{block, box3, met, model, run, solid, space, with};
use crate::model::testing::{load, said};

/// A shower tray of 800 x 800 mm in the front left corner, and a switch whose nearest side is at an x.
fn switch(x: f64) -> Model {
    let mut wet = block("wet", box3((0.0, 800.0), (0.0, 800.0), (0.0, 60.0)));
    wet.poses[0].solids[0].tags.push(said("shower"));
    let mut plate = block("plate", box3((x, x + 80.0), (400.0, 480.0), (1100.0, 1180.0)));
    let mut button = solid("button", plate.poses[0].solids[0].prism.clone());
    button.tags.push(said("switch"));
    plate.poses[0].solids.push(button);
    with(with(model(space(4000.0, 2000.0, 2000.0)), wet), plate)
}

fn wall(model: Model, top: f64) -> Model {
    let mut wall = block("wall", box3((800.0, 820.0), (0.0, 2000.0), (0.0, top)));
    wall.poses[0].solids[0].tags.push(said("wall"));
    with(model, wall)
}

#[test]
fn six_hundred_millimetres_around_a_shower() {
    assert_eq!(met(&WetElectric, &switch(1400.0)), Some(("plate".to_owned(), 600.0)));
    assert!(run(&WetElectric, &switch(1400.0)).is_empty());
    let found = run(&WetElectric, &switch(1399.0));
    let wanted = "`button` of `plate` is 599 mm from the shower of `wet`, 600 mm is needed, or a wall between";
    assert_eq!((found[0].message.as_str(), found[0].severity), (wanted, Severity::Caution));
    let over = run(&WetElectric, &switch(400.0));
    assert_eq!(over[0].severity, Severity::Fault);
    assert!(over[0].message.starts_with("`button` of `plate` is in the shower"), "{}", over[0].message);
}

#[test]
fn a_wall_between_ends_the_zone() {
    assert!(run(&WetElectric, &wall(switch(900.0), 1900.0)).is_empty());
    assert_eq!(run(&WetElectric, &wall(switch(900.0), 1139.0)).len(), 1, "lower than the switch");
}

#[test]
fn batteries_and_wet_zones() {
    let mut model = switch(3000.0);
    let mut battery = load("battery", [1000.0, 300.0, 150.0], [300.0, 200.0, 250.0], 20.0);
    model.loads.push(battery.clone());
    assert!(run(&WetElectric, &model).is_empty(), "nobody says what it is");
    battery.kind = LoadKind::Battery;
    model.loads[0] = battery;
    assert!(run(&WetElectric, &model)[0].message.starts_with("`battery` is 50 mm from the shower"));
    let zone = crate::model::Zone {
        name: "bath".to_owned(),
        purpose: Purpose::WetRoom.into(),
        rect: Rect::new(2900.0, 0.0, 4000.0, 1000.0),
        level: 0,
        span: Span::default(),
    };
    model.zones.push(zone);
    assert!(run(&WetElectric, &model).iter().any(|one| one.message.contains("is in the zone `bath`")));
}
