//! Angles by hand.

use super::*;
use crate::checks::testing::{on_wheels, run};
use kurbo::Point;

/// A point of the underside on the line of the wheels' centres, at `d` from one, gives asin(r / d): with r = 465 mm and
/// d = 2,325 mm asin(0.2) = 11.537 degrees, which is less than 12.
#[test]
fn a_low_point_ahead_is_the_approach_angle() {
    let mut model = on_wheels();
    let vehicle = model.vehicle.as_mut().unwrap();
    vehicle.underside = vec![Point::new(-2325.0, 465.0)];
    let found = run(&GroundAngles, &model);
    assert_eq!(
        (found.len(), found[0].key.subject.to_string().as_str(), found[0].severity),
        (1, "approach", Severity::Caution)
    );
    assert!((found[0].measured.as_ref().unwrap().value - 0.2_f64.asin().to_degrees()).abs() < 1e-9);
}

#[test]
fn the_lowest_point_is_the_clearance() {
    let low = |height: f64| {
        let mut model = on_wheels();
        model.vehicle.as_mut().unwrap().underside = vec![Point::new(300.0, height)];
        let found = run(&GroundAngles, &model).into_iter().find(|finding| finding.key.subject.is("clearance"));
        found.map(|finding| (finding.severity, finding.measured.map_or(0.0, |measured| measured.value)))
    };
    assert_eq!(low(150.0), None);
    assert_eq!(low(149.0), Some((Severity::Caution, 149.0)));
    assert_eq!(low(-1.0), Some((Severity::Fault, -1.0)));
}
