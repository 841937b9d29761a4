//! Seats by hand.

use super::*;
use crate::checks::testing::{block, box3, on_wheels, run, solid, with, with_person};
use crate::geometry::{Point3, Prism};
use crate::model::testing::said;
use crate::model::{Model, Need, Space, VehicleKind};
use crate::source::Span;
use kurbo::Rect;

/// A seat of the cab, so far from the left.
fn in_cab(left: f64) -> crate::model::Seat {
    crate::model::Seat { name: None, at: Point3 { x: -700.0, y: left, z: -200.0 }, who: None }
}

/// A bench 440 high that looks to the rear, with a backrest of a height, on a truck with one seat for two people.
fn bench(back: f64) -> Model {
    let mut bench = block("bench", box3((0.0, 600.0), (200.0, 1200.0), (0.0, 440.0)));
    bench.faces = Wall::Rear;
    let state = &mut bench.poses[0];
    let mut seat = solid("seat", box3((80.0, 600.0), (200.0, 1200.0), (380.0, 440.0)).into());
    seat.tags.push(said("seat"));
    state.solids.push(seat);
    if back > 0.0 {
        let mut rest = solid("rest", box3((0.0, 80.0), (200.0, 1200.0), (440.0, 440.0 + back)).into());
        rest.tags.push(said("backrest"));
        state.solids.push(rest);
    }
    let prism = Prism::upright(Rect::new(80.0, 200.0, 600.0, 1200.0), 440.0, 1400.0);
    let (name, span) = ("sit".to_owned(), Span::default());
    state.spaces.push(Space { name, prism, need: Need::Sitting, people: 1, along: None, carries: None, span });
    let mut model = with_person(with_person(with(on_wheels(), bench), 1700.0), 1800.0);
    model.vehicle.as_mut().unwrap().seats = vec![in_cab(400.0)];
    model
}

fn grave(model: &Model) -> Vec<String> {
    let found = run(&SeatTravel, model).into_iter().filter(|one| one.severity < Severity::Note);
    found.map(|one| one.message).collect()
}

#[test]
fn a_back_of_four_hundred_millimetres() {
    assert!(grave(&bench(400.0)).is_empty());
    let wanted = "the back of `sit` of `bench` reaches 399 mm above the seat, 400 mm is needed to ride on it";
    assert_eq!(grave(&bench(399.0)), [wanted]);
    let none = "the back of `sit` of `bench` reaches 0 mm above the seat, 400 mm is needed to ride on it";
    assert_eq!(grave(&bench(0.0)), [none]);
    let notes = run(&SeatTravel, &bench(400.0));
    assert_eq!(notes[0].message, "1 of the people ride in the box: belts, anchorages and seats are to be approved");
}

#[test]
fn a_back_over_less_than_half_the_seat_holds_nobody() {
    let narrow = |to: f64| {
        let mut model = bench(500.0);
        model.modules[0].poses[0].solids[2].prism = box3((0.0, 80.0), (200.0, to), (440.0, 940.0)).into();
        grave(&model).len()
    };
    assert_eq!((narrow(700.0), narrow(699.0)), (0, 1));
}

#[test]
fn seats_that_look_aside() {
    let mut model = bench(0.0);
    model.modules[0].faces = Wall::Right;
    assert!(grave(&model)[1].ends_with("looks 90 degrees away from the line of travel"), "{:?}", grave(&model));
}

#[test]
fn who_has_no_seat_and_of_whom_nothing_is_known() {
    let three = with_person(bench(400.0), 1600.0);
    assert_eq!(grave(&three), ["3 people ride along, 2 have a seat"]);
    let mut unknown = bench(0.0);
    unknown.vehicle.as_mut().unwrap().seats.clear();
    assert_eq!(run(&SeatTravel, &unknown)[0].message, "the vehicle has no `seats`: nothing tells who rides in the box");
    let mut cab = bench(0.0);
    cab.vehicle.as_mut().unwrap().seats.push(in_cab(1500.0));
    assert!(run(&SeatTravel, &cab).is_empty(), "both ride in the cab");
    let mut trailer = bench(0.0);
    trailer.vehicle.as_mut().unwrap().kind = VehicleKind::Trailer;
    assert!(run(&SeatTravel, &trailer).is_empty());
}
