//! Areas by hand.

use super::*;
use crate::checks::testing::{block, box3, door, met, model, run, solid, space, with, with_opening};
use crate::model::testing::{load, said};
use crate::model::{Connection, LoadKind, Model, OpeningKind, Wall};

/// A galley with a hob on gas from x = 1000 to 2000 at the left wall.
fn galley() -> Model {
    let mut galley = block("galley", box3((1000.0, 2000.0), (0.0, 600.0), (0.0, 900.0)));
    let mut hob = solid("hob", box3((1200.0, 1600.0), (50.0, 550.0), (860.0, 905.0)).into());
    hob.tags.push(said("hob"));
    galley.poses[0].solids.push(hob);
    galley.connects.push(Connection { service: Service::Gas, span: Span::default() });
    with(model(space(4000.0, 2000.0, 2000.0)), galley)
}

fn vent(model: Model, wall: Wall, along: (f64, f64), up: (f64, f64), free_area: f64) -> Model {
    let mut vent = door("drop", wall, along);
    (vent.kind, vent.up, vent.free_area) = (OpeningKind::Vent, up, free_area);
    with_opening(model, vent)
}

fn said_of(model: &Model) -> Vec<String> {
    run(&GasLocker, model).into_iter().map(|one| one.message).collect()
}

#[test]
fn a_hob_has_a_vent_at_the_floor() {
    let wanted = "gas of the hob of `galley` sinks out by no vent at the floor: 0 mm² are free, 1000 mm² are needed";
    assert_eq!(said_of(&galley()), [wanted]);
    let below = |area| vent(galley(), Wall::Floor, (1300.0, 1340.0), (200.0, 250.0), area);
    assert!(said_of(&below(1000.0)).is_empty());
    assert_eq!(met(&GasLocker, &below(1000.0)), Some(("galley".to_owned(), 1000.0)));
    assert!(said_of(&below(999.0))[0].contains("by `drop` at the floor: 999 mm² are free"));
    let mut electric = galley();
    electric.modules[0].connects.clear();
    assert!(said_of(&electric).is_empty());
}

#[test]
fn vents_far_away_or_high_up_take_no_gas() {
    let beside = |x: f64| said_of(&vent(galley(), Wall::Floor, (x, x + 40.0), (200.0, 250.0), 2000.0)).len();
    assert_eq!((beside(2299.0), beside(2301.0)), (0, 1));
    let wall = |top: f64| said_of(&vent(galley(), Wall::Left, (1200.0, 1400.0), (20.0, top), 2000.0)).len();
    assert_eq!((wall(100.0), wall(101.0)), (0, 1));
    assert_eq!(said_of(&vent(galley(), Wall::Roof, (1200.0, 1400.0), (200.0, 300.0), 2000.0)).len(), 1);
}

/// 2 % of 600 x 500 mm are 6,000 mm², so the least holds; of 1,000 x 600 mm 12,000 mm².
#[test]
fn a_locker_of_bottles() {
    let locker = |run_: f64, depth: f64, area: f64| {
        let own = block("locker", box3((3000.0 - run_, 3000.0), (0.0, depth), (0.0, 600.0)));
        let mut model =
            vent(with(model(space(4000.0, 2000.0, 2000.0)), own), Wall::Floor, (2600.0, 2800.0), (100.0, 200.0), area);
        let mut bottle = load("bottle", [2700.0, 200.0, 300.0], [300.0, 300.0, 500.0], 24.0);
        bottle.kind = LoadKind::GasBottle;
        model.loads.push(bottle);
        model
    };
    assert!(said_of(&locker(600.0, 500.0, 10_000.0)).is_empty());
    assert_eq!(said_of(&locker(600.0, 500.0, 9_999.0)).len(), 1);
    assert!(said_of(&locker(1000.0, 600.0, 12_000.0)).is_empty());
    assert_eq!(run(&GasLocker, &locker(1000.0, 600.0, 11_999.0))[0].severity, Severity::Fault);
    let mut sparks = locker(600.0, 500.0, 10_000.0);
    let mut battery = load("battery", [2600.0, 400.0, 100.0], [200.0, 150.0, 200.0], 14.0);
    battery.kind = LoadKind::Battery;
    sparks.loads.push(battery);
    assert_eq!(said_of(&sparks), ["the load `battery` is in `locker` with gas; nothing electrical may be there"]);
}
