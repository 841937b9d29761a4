//! Payload by hand: 4,000 kg of bare vehicle and nothing else, 5.96 m long.

use super::*;
use crate::checks::testing::{met, on_wheels, run, with_person};
use crate::geometry::Point3;
use crate::model::Model;

fn gross(gross: f64) -> Model {
    let mut model = on_wheels();
    model.vehicle.as_mut().unwrap().gross = gross;
    model
}

/// From 1,300 mm before the front axle to the rear wall, 620 + 4,000 + 40 mm behind it, are 5.96 m: 10 (0 + 5.96) = 59.6 kg.
#[test]
fn ten_kilograms_a_metre_are_wanted() {
    assert!(run(&Payload, &gross(4059.6)).is_empty());
    let found = run(&Payload, &gross(4059.5));
    assert_eq!(
        (found.len(), found[0].severity, found[0].key.subject.to_string().as_str()),
        (1, Severity::Caution, "payload")
    );
    assert!((found[0].measured.as_ref().unwrap().value - 59.5).abs() < 1e-9);
    assert!((found[0].required.as_ref().unwrap().value() - 59.6).abs() < 1e-9);
}

/// The driver's 70 kg belong to running order; 10 (1 + 5.96) = 69.6 kg are wanted beside them: 4,139.6 kg in all.
#[test]
fn ten_kilograms_a_person_are_wanted_and_the_driver_is_aboard() {
    let with_driver = |mass| {
        let mut model = with_person(gross(mass), 1700.0);
        model.vehicle.as_mut().unwrap().seats =
            vec![crate::model::Seat { name: None, at: Point3::default(), who: None }];
        model
    };
    assert!(run(&Payload, &with_driver(4139.6)).is_empty());
    assert!(run(&Payload, &with_driver(4139.5))[0].key.subject.is("payload"));
}

#[test]
fn more_than_the_gross_mass_is_a_fault() {
    let found = run(&Payload, &gross(3999.0));
    assert_eq!((found[0].severity, found[0].key.subject.to_string().as_str()), (Severity::Fault, "vehicle"));
    assert_eq!(found[0].measured.as_ref().unwrap().value, 4000.0);
    let mut no_vehicle = gross(3999.0);
    no_vehicle.vehicle = None;
    assert!(run(&Payload, &no_vehicle).is_empty() && met(&Payload, &no_vehicle).is_none());
}
