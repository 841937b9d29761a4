//! Overhangs by hand: the rear wall is 460 mm behind the rear axle.

use super::*;
use crate::checks::testing::{met, on_wheels, run};
use crate::model::{Model, Region, Vehicle, VehicleKind};

fn with(change: impl Fn(&mut Vehicle)) -> Model {
    let mut model = on_wheels();
    change(model.vehicle.as_mut().unwrap());
    model
}

fn severity(model: &Model) -> Option<Severity> {
    run(&Overhang, model).first().map(|finding| finding.severity)
}

/// 60 % of a wheelbase of 4,200 mm are 2,520 mm (gov.uk); in Australia never more than 3,700 mm (NHVR), which 60 % of
/// 6,300 mm would be.
#[test]
fn the_share_of_the_wheelbase_and_the_most() {
    let uk = |behind| with(|vehicle| (vehicle.region, vehicle.behind) = (Region::Uk, behind));
    assert_eq!(met(&Overhang, &uk(0.0)), Some(("vehicle".to_owned(), 460.0)));
    assert_eq!((severity(&uk(2520.0)), severity(&uk(2521.0))), (None, Some(Severity::Fault)));
    let au =
        |behind| with(|vehicle| (vehicle.region, vehicle.wheelbase, vehicle.behind) = (Region::Au, 6300.0, behind));
    assert_eq!((severity(&au(3700.0)), severity(&au(3701.0))), (None, Some(Severity::Fault)));
}

#[test]
fn without_a_rule_it_is_a_note_and_the_layouts_own_rule_holds() {
    assert_eq!(severity(&with(|_| {})), Some(Severity::Note));
    let own = |share| with(|vehicle| vehicle.overhang = (share, f64::INFINITY));
    assert_eq!((severity(&own(0.11)), severity(&own(0.1))), (None, Some(Severity::Fault)));
    let trailer = with(|vehicle| (vehicle.kind, vehicle.region) = (VehicleKind::Trailer, Region::Uk));
    assert_eq!(severity(&trailer), Some(Severity::Note));
}
