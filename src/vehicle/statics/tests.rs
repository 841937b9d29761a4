//! Worked examples of statics and stability, and what must hold of any load.

use super::super::masses::{Group, Mass};
use super::*;
use crate::model::testing::{subframe, vehicle};
use crate::model::{Axle, Mounts, VehicleKind};
use proptest::prelude::*;

/// Standard gravity, m/s2; ISO 80000-3.
const GRAVITY: f64 = 9.806_65;

/// A model with nothing in it, 2,000 mm wide.
fn model() -> Model {
    crate::model::testing::model(crate::model::testing::space(4000.0, 2000.0, 2000.0))
}

fn mass(kilograms: f64, x: f64, y: f64, z: f64) -> Mass {
    Mass { name: "load".to_owned(), group: Group::Thing(false), mass: kilograms, at: Point3 { x, y, z }, span: None }
}

fn case(aboard: Vec<Mass>) -> LoadCase {
    LoadCase { name: "case".to_owned(), says: String::new(), aboard }
}

/// A public worked example: 18 kN on the front, 12 kN on the rear axle, 5 m apart: centre 2.000 m behind the front axle;
/// with 40 kN an axle, 36.67 kN may be loaded at the centre, and the front axle governs (70 kN by the rear one).
#[test]
fn the_published_truck_is_met() {
    let vehicle = Vehicle { wheelbase: 5000.0, box_from_front: 0.0, ..vehicle() };
    let newton = |kilonewton: f64| kilonewton * 1000.0 / GRAVITY;
    let bare = [mass(newton(18.0), 0.0, 1000.0, 0.0), mass(newton(12.0), 5000.0, 1000.0, 0.0)];
    let found = weigh(&model(), &vehicle, &case(bare.to_vec()));
    assert!((found.centre.x - 2000.0).abs() <= 0.01);
    // Loaded at the centre until an axle has 40 kN: the front takes 3/5 of the load, the rear 2/5.
    let with = |load: f64| {
        let load = mass(newton(load), found.centre.x, 1000.0, 0.0);
        weigh(&model(), &vehicle, &case(bare.iter().cloned().chain([load]).collect()))
    };
    let kilonewton = |kilograms: f64| kilograms * GRAVITY / 1000.0;
    assert!((kilonewton(with(36.67).front) - 40.0).abs() <= 0.01);
    assert!((kilonewton(with(70.0).rear) - 40.0).abs() <= 0.01);
}

/// NHTSA's formula t / (2 h): a track of 1.80 m and a centre at 0.762 m give 1.18; a rigid body tips at 49.7 degrees.
#[test]
fn the_stability_factor_is_nhtsas() {
    let axle = Axle { track: 1800.0, ..vehicle().front };
    let vehicle = Vehicle { front: axle, rear: axle, floor_height: 0.0, ..vehicle() };
    let found = weigh(&model(), &vehicle, &case(vec![mass(1000.0, 1000.0, 1000.0, 762.0)]));
    assert!((found.stability() - 1.18).abs() <= 0.005 && (found.tips_at() - 49.7).abs() <= 0.05);
}

/// By hand: 1,000 kg a tenth of the track beside the middle put 600 kg on the nearer wheels.
#[test]
fn sides_are_by_moments_about_the_middle() {
    let axle = Axle { track: 2000.0, ..vehicle().rear };
    let vehicle = Vehicle { rear: axle, box_from_front: 0.0, wheelbase: 4000.0, ..vehicle() };
    let found = weigh(&model(), &vehicle, &case(vec![mass(1000.0, 4000.0, 1200.0, 500.0)]));
    assert!((found.rear_sides.0 - 400.0).abs() < 1e-9 && (found.rear_sides.1 - 600.0).abs() < 1e-9);
    assert!((found.lean() - 20.0).abs() < 1e-9);
    // The group's first axle takes its share.
    let pair = Axle { spread: 1300.0, share: 0.45, ..axle };
    let found = weigh(&model(), &Vehicle { rear: pair, ..vehicle }, &case(vec![mass(1000.0, 4000.0, 1200.0, 500.0)]));
    assert!((found.group[0] - 450.0).abs() < 1e-9 && (found.group[1] - 550.0).abs() < 1e-9);
}

/// A worked example: 7,200 kg on a track of 1.80 m, their centre 1.55 m high and 40 mm aside. On ground that falls to that side by 0, 10,
/// 15, 20 degrees the lower wheels carry 3,760, 4,779, 5,237, 5,654 kg and the upper ones 3,440, 2,311, 1,718, 1,112 kg, by
/// W (cos a (t / 2 + y) + h sin a) / t; it tips at 29.02 degrees, to the other side at 31.23.
#[test]
fn a_side_slope_loads_the_lower_wheels() {
    let axle = Axle { track: 1800.0, ..vehicle().rear };
    let vehicle = Vehicle { front: axle, rear: axle, floor_height: 0.0, box_from_front: 0.0, ..vehicle() };
    let found = weigh(&model(), &vehicle, &case(vec![mass(7200.0, 4200.0, 1040.0, 1550.0)]));
    for (slope, lower, upper) in
        [(0.0, 3760.0, 3440.0), (10.0, 4779.0, 2311.0), (15.0, 5237.0, 1718.0), (20.0, 5654.0, 1112.0)]
    {
        let (left, right) = found.on_rear.wheels(1800.0, slope);
        assert!((right - lower).abs() <= 1.0 && (left - upper).abs() <= 1.0, "{slope}: {left} {right}");
    }
    let to_the_left = found.on_rear.wheels(1800.0, -31.23).1;
    assert!(to_the_left.abs() <= 1.0, "{to_the_left}");
    assert!((found.tips_at() - 29.02).abs() <= 0.01, "{}", found.tips_at());
}

/// On three points the whole moment aside goes to the end with two mounts: 3,200 kg 60 mm aside, between a pivot over the front
/// axle and two mounts over the rear one, load the rear wheels by 3,200 x 60 / track and the front ones alike.
#[test]
fn a_pivot_takes_no_roll() {
    let subframe = subframe(Mounts::ThreePoint { fixed: 4200.0, pivot: 0.0 });
    let vehicle = Vehicle { box_from_front: 0.0, subframe: Some(subframe), ..vehicle() };
    let aboard = case(vec![mass(3200.0, 1400.0, 1060.0, 500.0)]);
    let found = weigh(&model(), &vehicle, &aboard);
    let (left, right) = found.front_sides.unwrap();
    assert!((left - right).abs() < 1e-9 && (found.front - 3200.0 * 2.0 / 3.0).abs() < 1e-9);
    let (left, right) = found.rear_sides;
    assert!((right - left - 2.0 * 3200.0 * 60.0 / vehicle.rear.track).abs() < 1e-9);
    // What rides in the cab, or a frame without pivot: each axle by its own lever.
    let rigid = weigh(&model(), &Vehicle { subframe: None, ..vehicle }, &aboard);
    assert!((rigid.on_front.side - 3200.0 * 60.0 * 2.0 / 3.0).abs() < 1e-6);
}

fn loads() -> impl Strategy<Value = Vec<Mass>> {
    let one = (0.1..3_000.0, -3_000.0..9_000.0, -500.0..2_500.0, -1_000.0..2_500.0);
    prop::collection::vec(one, 1..40).prop_map(|all| all.into_iter().map(|(m, x, y, z)| mass(m, x, y, z)).collect())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// The axles carry all of it, to 1 g; sides and groups add up; moments balance about both axles.
    #[test]
    fn the_axles_carry_all_of_it(aboard in loads(), spread in 0.0..1_500.0, share in 0.0..1.0) {
        let rear = Axle { spread, share, ..vehicle().rear };
        let vehicle = Vehicle { rear, ..vehicle() };
        let found = weigh(&model(), &vehicle, &case(aboard.clone()));
        let total: f64 = aboard.iter().map(|item| item.mass).sum();
        prop_assert!((found.front + found.rear - total).abs() <= 0.001);
        prop_assert!((found.group.iter().sum::<f64>() - found.rear).abs() <= 0.001);
        prop_assert!((found.rear_sides.0 + found.rear_sides.1 - found.rear).abs() <= 0.001);
        let about_rear: f64 =
            aboard.iter().map(|item| item.mass * (vehicle.wheelbase - vehicle.along(item.at.x))).sum();
        prop_assert!((found.front * vehicle.wheelbase - about_rear).abs() <= 1e-6 * total * vehicle.wheelbase);
    }

    /// Moving one thing by d to the rear puts m d / wheelbase more on the rear axle and as much less on the front one.
    #[test]
    fn moving_a_thing_moves_load_by_the_lever(aboard in loads(), d in -2_000.0..2_000.0) {
        let vehicle = vehicle();
        let before = weigh(&model(), &vehicle, &case(aboard.clone()));
        let mut moved = aboard;
        moved[0].at.x += d;
        let after = weigh(&model(), &vehicle, &case(moved.clone()));
        let by: f64 = moved[0].mass * d / vehicle.wheelbase;
        let (rear, front): (f64, f64) = (after.rear - before.rear, after.front - before.front);
        prop_assert!((rear - by).abs() <= 0.001 && (front + by).abs() <= 0.001);
    }
}

#[test]
fn a_trailer_leans_on_its_coupling() {
    let coupling = Axle { track: 0.0, ..vehicle().front };
    let vehicle = Vehicle { kind: VehicleKind::Trailer, front: coupling, box_from_front: 1000.0, ..vehicle() };
    let found = weigh(&model(), &vehicle, &case(vec![mass(1000.0, 2780.0, 1000.0, 0.0)]));
    assert!((found.front - 100.0).abs() < 1e-9 && found.front_sides.is_none());
}
