//! By hand on a truck of 4.2 m wheelbase: levers and limits.

use super::*;
use crate::checks::testing::{model, run, space};
use crate::geometry::Point3;
use crate::model::{Load, LoadKind, Tank};
use crate::source::Span;

/// Supports 4 m apart, the box 1 m behind the front one, 2 t of its own on each.
fn truck() -> Vehicle {
    let axle = |limit, axle: Axle| Axle { limit, bare: 2000.0, ..axle };
    let usual = crate::model::testing::vehicle();
    Vehicle {
        wheelbase: 4000.0,
        box_from_front: 1000.0,
        front: axle(3200.0, usual.front),
        rear: axle(3000.0, usual.rear),
        ..usual
    }
}

/// A tank of 1,000 kg over the rear axle of a shell without mass.
fn loaded() -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    for panel in [&mut model.space.walls, &mut model.space.roof_panel, &mut model.space.floor] {
        panel.areal_mass = 0.0;
    }
    model.vehicle = Some(truck());
    let tank = Tank { size: [1000.0; 3], holds: crate::model::Holds::Fresh, density: 1.0, fill: [0.0, 1.0, 1.0] };
    let at = Point3 { x: 3000.0, y: 1000.0, z: 500.0 };
    let (name, span) = ("tank".to_owned(), Span::default());
    model.loads.push(Load {
        name,
        at,
        mass: 0.0,
        size: None,
        room: None,
        kind: LoadKind::Other,
        filler: None,
        tank: Some(tank),
        only_full: false,
        span,
    });
    model
}

#[test]
fn a_load_over_the_axle_is_on_the_axle() {
    let model = loaded();
    assert!(run(&AxleLoad, &model).is_empty(), "2,000 kg + 1,000 kg are 3,000 kg, as much as allowed");
    let mut heavier = model;
    heavier.loads[0].mass = 1.0;
    let found = run(&AxleLoad, &heavier);
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].severity, found[0].measured.map(|measured| measured.value)), (Severity::Fault, Some(3001.0)));
    // 1 kg x 4,000 mm / 1,001 kg = 4 mm, rounded up to 10 mm: 1,001 kg x 10 mm / 4,000 mm = 2.5 kg.
    let help = found[0].help.as_deref().unwrap();
    assert!(help.contains("10 mm to the front") && help.contains("2.5 kg off"), "{help}");
}

#[test]
fn a_light_front_axle_does_not_steer() {
    let mut model = loaded();
    if let Some(vehicle) = model.vehicle.as_mut() {
        vehicle.rear.limit = 20_000.0;
    }
    // Over the rear end, 2,000 mm behind the axle: 8,000 kg take 4,000 kg off the front axle's 2,000 kg.
    model.loads[0].at.x = 5000.0;
    model.loads[0].mass = 1000.0;
    let found = run(&AxleLoad, &model);
    assert!(found.iter().any(|finding| finding.key.subject.is("steering")), "{found:?}");
}
