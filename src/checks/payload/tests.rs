//! Payload by hand: 4,000 kg of bare vehicle and nothing else, 5.96 m long.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, lying, met, on_wheels, space, with, with_person, with_space};
use crate::diagnostic::Finding;
use crate::geometry::Point3;
use crate::model::Model;

fn model_of(length: f64) -> Model {
    testing::model(space(length, 2000.0, 2000.0))
}

/// But for the note on what is not weighed.
fn run(check: &Payload, model: &Model) -> Vec<Finding> {
    testing::run(check, model).into_iter().filter(|one| !one.message.starts_with("no mass is given")).collect()
}

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

/// A worked example of the formula: 4 people and 6.99 m want 109.9 kg. A caravan of 5.2 m with 2 berths wants 10 x 5.2 + 10 x 2 + 30 = 102 kg. Goods want nothing.
#[test]
fn each_class_has_its_least_payload() {
    assert!((of_motor_caravan(4, 6990.0).wanted - 109.9).abs() < 1e-9);
    let mut model = on_wheels();
    let (empty, seat) = (4000.0, crate::model::Seat { name: None, at: Point3::default(), who: None });
    {
        let vehicle = model.vehicle.as_mut().unwrap();
        (vehicle.gross, vehicle.options, vehicle.seats) = (empty + 450.0, 126.0, vec![seat; 4]);
    }
    // 450 - 126 - 225 = 99 kg, of 10 (4 + 5.96) = 99.6.
    let found = run(&Payload, &model);
    assert!((found[0].measured.as_ref().unwrap().value - 99.0).abs() < 1e-9, "{found:?}");
    let bed = box3((0.0, 2000.0), (0.0, 1400.0), (0.0, 500.0));
    let caravan = with(model_of(5120.0), with_space(block("bed", bed), lying(bed, 2, None)));
    assert!((of_caravan(&caravan).wanted - 102.0).abs() < 1e-9);
    let mut goods = gross(4000.0);
    goods.vehicle.as_mut().unwrap().class = VehicleClass::Goods;
    let found = run(&Payload, &goods);
    assert_eq!((found.len(), found[0].severity), (1, Severity::Note));
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
