//! Wheel loads on ground that slopes across.

use super::statics::{Support, Weighed};
use crate::model::Vehicle;

/// The wheels of an axle on the vehicle's side slope.
#[derive(Debug, Clone, PartialEq)]
pub struct OnSlope {
    /// "front axle" or "rear axle".
    pub axle: &'static str,
    /// Side to which the ground falls.
    pub falls: &'static str,
    /// What the wheels of the upper side carry, square to the ground, kg; negative where they lift.
    pub uphill: f64,
    /// The same of the lower side.
    pub downhill: f64,
}

/// Each axle with wheels on ground that falls to the right and to the left; nothing without a slope.
#[must_use]
pub fn on_slope(vehicle: &Vehicle, weighed: &Weighed) -> Vec<OnSlope> {
    if vehicle.side_slope <= 0.0 {
        return Vec::new();
    }
    let front = (vehicle.front.track > 0.0).then_some(("front axle", weighed.on_front, vehicle.front.track));
    let axles = front.into_iter().chain([("rear axle", weighed.on_rear, vehicle.rear.track)]);
    axles.flat_map(|(axle, carries, track)| both_ways(axle, carries, track, vehicle.side_slope)).collect()
}

fn both_ways(axle: &'static str, carries: Support, track: f64, slope: f64) -> [OnSlope; 2] {
    let (uphill, downhill) = carries.wheels(track, slope);
    let right = OnSlope { axle, falls: "right", uphill, downhill };
    let (downhill, uphill) = carries.wheels(track, -slope);
    [right, OnSlope { axle, falls: "left", uphill, downhill }]
}
