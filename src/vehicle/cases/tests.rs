//! Load cases by hand: what is aboard, and where it lies.

use super::*;
use crate::geometry::{Parcel, Stands};
use crate::model::testing::{model, space, vehicle};
use crate::model::{Cargo, Holds, LoadKind, Person, Seat};
use crate::source::Span;

/// A tank of 200 l, 400 mm high, that weighs 20 kg, its middle 200 mm above the floor.
fn tank(name: &str, y: f64, fill: [f64; 3]) -> Load {
    let tank = Tank { size: [1000.0, 500.0, 400.0], holds: Holds::Fresh, density: 1.0, fill };
    let at = Point3 { x: 2000.0, y, z: 200.0 };
    Load {
        name: name.to_owned(),
        at,
        mass: 20.0,
        size: None,
        room: None,
        kind: LoadKind::Other,
        filler: None,
        tank: Some(tank),
        only_full: false,
        span: Span::default(),
    }
}

/// A truck with a box of 4 x 2 x 2 m and these loads.
fn loaded(loads: Vec<Load>) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    (model.vehicle, model.loads) = (Some(vehicle()), loads);
    model
}

fn aboard<'a>(cases: &'a [LoadCase], case: &str, name: &str) -> Option<&'a Mass> {
    cases.iter().find(|one| one.name == case)?.aboard.iter().find(|mass| mass.name == name)
}

/// Half full, 100 kg of water lie in the lower half, their middle at 100 mm: (20 x 200 + 100 x 100) / 120 = 116.67 mm. Full,
/// the middle is the tank's own, and empty too.
#[test]
fn water_lies_in_the_lower_part_of_its_tank() {
    let cases = load_cases(&loaded(vec![tank("fresh", 1000.0, [0.0, 0.5, 1.0])]));
    for (case, mass, height) in
        [("empty", 20.0, 200.0), ("running order", 120.0, 14_000.0 / 120.0), ("full", 220.0, 200.0)]
    {
        let found = aboard(&cases, case, "fresh").unwrap();
        assert!((found.mass - mass).abs() < 1e-9 && (found.at.z - height).abs() < 1e-9, "{case}: {found:?}");
    }
    // A quarter: 50 kg at 50 mm.
    let cases = load_cases(&loaded(vec![tank("fresh", 1000.0, [0.25, 0.5, 1.0])]));
    assert!((aboard(&cases, "empty", "fresh").unwrap().at.z - (20.0 * 200.0 + 50.0 * 50.0) / 70.0).abs() < 1e-9);
}

/// A tank that travels more than half full is tried empty, one that travels at half or less is tried full.
#[test]
fn each_tank_is_tried_at_its_other_extreme() {
    let cases = load_cases(&loaded(vec![tank("a", 1000.0, [0.0, 0.0, 0.6]), tank("b", 1000.0, [0.0, 0.0, 0.5])]));
    let masses = |case: &str| ["a", "b"].map(|name| aboard(&cases, case, name).unwrap().mass);
    assert_eq!((masses("full"), masses("a empty"), masses("b full")), ([140.0, 120.0], [20.0, 120.0], [140.0, 220.0]));
}

/// Tanks of 200 kg of water left and right: full on the one side and empty on the other lean most.
#[test]
fn the_worst_side_is_the_heavier_one() {
    const NAMES: [&str; 4] = ["left", "near", "right", "far"];
    let tanks = NAMES.into_iter().zip([200.0, 300.0, 1800.0, 1900.0]);
    let tanks: Vec<Load> = tanks.map(|(name, y)| tank(name, y, [0.0, 0.0, 1.0])).collect();
    let masses = |model: &Model| {
        let cases = load_cases(model);
        NAMES.map(|name| aboard(&cases, "worst side", name).map_or(0.0, |mass| mass.mass))
    };
    // 200 x (800 + 900) kg mm to the right are more than 200 x (800 + 700) to the left.
    let mut model = loaded(tanks);
    assert_eq!(masses(&model), [20.0, 20.0, 220.0, 220.0]);
    // 2,000 kg more at the left wall, 1,000 mm from the middle, outweigh all of it.
    model.loads.push(Load { mass: 2000.0, tank: None, ..tank("safe", 0.0, [0.0; 3]) });
    assert_eq!(masses(&model), [220.0, 220.0, 20.0, 20.0]);
}

/// Cargo and things of the full case are aboard in that alone; six boxes of 12.5 kg are 75 kg.
#[test]
fn cargo_counts_each_piece() {
    let mut model = loaded(vec![Load { tank: None, only_full: true, ..tank("kayak", 1000.0, [0.0; 3]) }]);
    let parcel = Parcel { size: [300.0, 200.0, 100.0], count: 6, stands: Stands::Any };
    let (name, span) = ("boxes".to_owned(), Span::default());
    model.cargo = vec![Cargo { name, parcel, mass: 12.5, module: 0, through: None, span }];
    let cases = load_cases(&model);
    assert_eq!(aboard(&cases, "full", "boxes").map(|mass| mass.mass), Some(75.0));
    assert_eq!(aboard(&cases, "full", "kayak").map(|mass| mass.mass), Some(20.0));
    for case in ["empty", "running order"] {
        assert!(aboard(&cases, case, "boxes").is_none() && aboard(&cases, case, "kayak").is_none(), "{case}");
    }
}

/// The middle of who sits is 250 mm above the seat (common practice, no source); the driver alone belongs to running order.
#[test]
fn people_sit_on_the_seats_for_the_road() {
    let mut model = loaded(Vec::new());
    let seat = |x: f64| Point3 { x, y: 600.0, z: 350.0 };
    model.vehicle.as_mut().unwrap().seats =
        [-700.0, -600.0].map(|x| Seat { name: None, at: seat(x), who: None }).to_vec();
    let person = |name: &str| Person {
        name: name.to_owned(),
        stature: 1700.0,
        measured: true,
        mass: 70.0,
        span: Span::default(),
    };
    model.people = vec![person("ada"), person("ben"), person("cy")];
    let cases = load_cases(&model);
    assert_eq!(aboard(&cases, "running order", "ada").unwrap().at, Point3 { z: 600.0, ..seat(-700.0) });
    assert!(aboard(&cases, "running order", "ben").is_none() && aboard(&cases, "empty", "ada").is_none());
    assert_eq!(aboard(&cases, "full", "ben").unwrap().at, Point3 { z: 600.0, ..seat(-600.0) });
    // There is no third seat: the floor in the middle of the box is left.
    assert_eq!(aboard(&cases, "full", "cy").unwrap().at, Point3 { x: 2000.0, y: 1000.0, z: 250.0 });
}

/// At the end of a trip the fresh water is in the waste tank.
#[test]
fn a_trip_ends_with_waste() {
    let grey = |mut load: Load| {
        load.tank = load.tank.map(|tank| Tank { holds: Holds::Grey, ..tank });
        load
    };
    let tanks = vec![tank("fresh", 1000.0, [0.0, 1.0, 1.0]), grey(tank("grey", 1000.0, [0.0; 3]))];
    let cases = load_cases(&loaded(tanks));
    let masses = ["fresh", "grey"].map(|name| aboard(&cases, "end of trip", name).map(|mass| mass.mass));
    assert_eq!(masses, [Some(20.0), Some(220.0)]);
    let cases = load_cases(&loaded(vec![tank("fresh", 1000.0, [0.0, 1.0, 1.0])]));
    assert!(aboard(&cases, "end of trip", "fresh").is_none(), "without a waste tank it is `fresh empty`");
}

#[test]
fn a_case_of_the_layouts_own_takes_what_it_says() {
    let mut model = loaded(vec![tank("fresh", 1000.0, [0.0, 0.5, 1.0])]);
    let (name, span) = ("ferry".to_owned(), Span::default());
    model.load_cases = vec![OwnCase {
        name,
        arrangement: None,
        people: Some(0),
        contents: 0.0,
        cargo: false,
        fill: vec![(0, 0.25)],
        span,
    }];
    let cases = load_cases(&model);
    assert_eq!(aboard(&cases, "ferry", "fresh").map(|mass| mass.mass), Some(70.0));
    model.vehicle = None;
    assert!(load_cases(&model).is_empty());
}
