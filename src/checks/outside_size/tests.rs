//! Outside sizes by hand, against Regulation (EU) 1230/2012.

use super::*;
use crate::checks::testing::{met, on_wheels, run};
use crate::model::{Cab, DrawnBy, Model, Region, Vehicle, VehicleKind};

fn with(change: impl Fn(&mut Vehicle)) -> Model {
    let mut model = on_wheels();
    change(model.vehicle.as_mut().unwrap());
    model
}

fn over(model: &Model) -> Vec<(String, f64)> {
    run(&OutsideSize, model)
        .into_iter()
        .map(|finding| (finding.key.subject.to_string(), finding.measured.map_or(0.0, |measured| measured.value)))
        .collect()
}

/// 2,000 mm and two walls of 40 mm are 2,080 mm; 470 mm beside them make the 2.55 m that are allowed, however thick the walls are: 2.60 m
/// are for goods at controlled temperature (96/53/EC, article 2).
#[test]
fn insulated_walls_make_no_wider_box() {
    assert_eq!(met(&OutsideSize, &with(|vehicle| vehicle.beside = 470.0)).unwrap(), ("width".to_owned(), 2550.0));
    assert_eq!(over(&with(|vehicle| vehicle.beside = 471.0)), [("width".to_owned(), 2551.0)]);
    let mut insulated = with(|vehicle| vehicle.beside = 461.0);
    insulated.space.walls.thickness = 45.0;
    assert_eq!(over(&insulated), [("width".to_owned(), 2551.0)]);
}

/// SI 1986/1078, regulation 7: trailers 7 m, 12 m if they have four wheels and a goods vehicle of more than 3.5 t draws them.
#[test]
fn trailers_in_the_united_kingdom_are_seven_metres_long() {
    let long = |drawn_by, spread, ahead| {
        let mut model = with(|vehicle| {
            (vehicle.kind, vehicle.region, vehicle.drawn_by) = (VehicleKind::Trailer, Region::Uk, drawn_by);
            (vehicle.rear.spread, vehicle.ahead) = (spread, ahead);
        });
        model.vehicle.as_mut().unwrap().front.track = 0.0;
        over(&model)
    };
    assert_eq!(long(DrawnBy::Car, 900.0, 2340.0), []);
    assert_eq!(long(DrawnBy::Car, 900.0, 2341.0), [("length".to_owned(), 7_001.0)]);
    assert_eq!(long(DrawnBy::GoodsVehicle, 0.0, 2341.0), [("length".to_owned(), 7_001.0)]);
    assert_eq!(long(DrawnBy::GoodsVehicle, 900.0, 7341.0), [("length".to_owned(), 12_001.0)]);
}

/// 1,120 + 2,000 + 40 mm are 3,160 mm: 840 mm may stand on the roof. Behind the front axle are 4,660 mm: 7,340 mm may be
/// ahead of it. A cab counts where it is higher or wider.
#[test]
fn height_and_length_are_sums() {
    assert_eq!(over(&with(|vehicle| vehicle.on_roof = 840.0)), []);
    assert_eq!(over(&with(|vehicle| vehicle.on_roof = 841.0)), [("height".to_owned(), 4001.0)]);
    assert_eq!(over(&with(|vehicle| vehicle.ahead = 7340.0)), []);
    assert_eq!(over(&with(|vehicle| vehicle.ahead = 7341.0)), [("length".to_owned(), 12_001.0)]);
    let cab = with(|vehicle| vehicle.cab = Some(Cab { rear: 0.0, top: 4002.0, width: 2560.0, tilt: None }));
    assert_eq!(over(&cab), [("width".to_owned(), 2560.0), ("height".to_owned(), 4002.0)]);
}

#[test]
fn a_region_without_a_height_sets_none() {
    let high = |region| with(|vehicle| (vehicle.region, vehicle.on_roof) = (region, 1141.0));
    assert_eq!(over(&high(Region::Uk)), []);
    assert_eq!(over(&high(Region::Au)), [("height".to_owned(), 4301.0)]);
}
