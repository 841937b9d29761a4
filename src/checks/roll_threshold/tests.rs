//! NHTSA's static stability factor, t / (2 h).

use super::*;
use crate::checks::testing::{met, on_wheels, run};
use crate::model::Model;

/// A track of 1.80 m and a centre at this height.
fn high(height: f64) -> Model {
    let mut model = on_wheels();
    let vehicle = model.vehicle.as_mut().unwrap();
    (vehicle.front.track, vehicle.rear.track, vehicle.bare_height) = (1800.0, 1800.0, height);
    model
}

/// A published example: 1.80 m and 0.762 m give 1.18 (49.7 degrees). 900 mm / tan 30 are 1,558.8 mm, / tan 23 2,120.3 mm.
#[test]
fn the_angle_falls_with_the_height_of_the_centre() {
    assert!((met(&RollThreshold, &high(762.0)).unwrap().1 - 49.7).abs() < 0.05);
    assert!(run(&RollThreshold, &high(1558.0)).is_empty());
    assert_eq!(run(&RollThreshold, &high(1560.0))[0].severity, Severity::Caution);
    assert_eq!(run(&RollThreshold, &high(2119.0))[0].severity, Severity::Caution);
    assert_eq!(run(&RollThreshold, &high(2122.0))[0].severity, Severity::Fault);
}
