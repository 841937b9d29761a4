//! Axle loads of a load case from moments about the axles, side loads, centre of gravity, stability.

use super::cases::{LoadCase, load_cases};
use crate::geometry::Point3;
use crate::model::{Model, Vehicle};

/// A load case on its axles.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// Name of the case.
    pub case: String,
    /// Mass of all, kg.
    pub total: f64,
    /// Sum of mass times X, kg mm.
    pub moment: f64,
    /// Centre: X from the front axle, Y right of the middle, Z above the ground, mm.
    pub centre: Point3,
    /// On the front axle or coupling, kg.
    pub front: f64,
    /// On the rear axle or group, kg.
    pub rear: f64,
    /// Part of a rear group's load on its first and its other axles, kg; one value for one axle.
    pub group: Vec<f64>,
    /// Left and right wheels of the rear axle or group, kg.
    pub rear_sides: (f64, f64),
    /// Left and right wheels of the front axle, kg; `None` for a coupling.
    pub front_sides: Option<(f64, f64)>,
    /// Track over twice the height of the centre.
    pub stability: f64,
}

impl Weighed {
    /// How unlike the two sides are: difference over sum, percent.
    #[must_use]
    pub fn lean(&self) -> f64 {
        let (left, right) = self.rear_sides;
        let (front_left, front_right) = self.front_sides.unwrap_or_default();
        let share = |a: f64, b: f64| if a + b > 0.0 { (a - b).abs() / (a + b) * 100.0 } else { 0.0 };
        share(left, right).max(share(front_left, front_right))
    }

    /// Part of the mass on the front axle, percent.
    #[must_use]
    pub fn front_share(&self) -> f64 {
        if self.total > 0.0 { self.front / self.total * 100.0 } else { 0.0 }
    }

    /// Angle at which a rigid body on this track tips, degrees: atan of the stability factor.
    #[must_use]
    pub fn tips_at(&self) -> f64 {
        self.stability.atan().to_degrees()
    }
}

/// All load cases of a layout on its axles; none without a vehicle.
#[must_use]
pub fn weigh_all(model: &Model) -> Vec<Weighed> {
    let Some(vehicle) = &model.vehicle else { return Vec::new() };
    load_cases(model).iter().map(|case| weigh(model, vehicle, case)).collect()
}

/// Weighs a load case: rear = sum(m X) / wheelbase, front = total - rear.
#[must_use]
pub fn weigh(model: &Model, vehicle: &Vehicle, case: &LoadCase) -> Weighed {
    let middle = model.space.width / 2.0 - vehicle.box_right;
    let (mut total, mut moment, mut side, mut high) = (0.0, 0.0, 0.0, 0.0);
    for item in &case.aboard {
        total += item.mass;
        moment += item.mass * vehicle.along(item.at.x);
        side += item.mass * (item.at.y - middle);
        high += item.mass * (item.at.z + vehicle.floor_height);
    }
    let by = |sum: f64| if total > 0.0 { sum / total } else { 0.0 };
    let centre = Point3 { x: by(moment), y: by(side), z: by(high) };
    let rear = moment / vehicle.wheelbase;
    let front = total - rear;
    let sides = |load: f64, track: f64| {
        let right = load * (0.5 + centre.y / track);
        (load - right, right)
    };
    let trailer = vehicle.front.track <= 0.0;
    let track =
        if trailer { vehicle.rear.track } else { (vehicle.front.track * front + vehicle.rear.track * rear) / total };
    let first = rear * vehicle.rear.share;
    Weighed {
        case: case.name.clone(),
        total,
        moment,
        centre,
        front,
        rear,
        group: if vehicle.rear.spread > 0.0 { vec![first, rear - first] } else { vec![rear] },
        rear_sides: sides(rear, vehicle.rear.track),
        front_sides: (!trailer).then(|| sides(front, vehicle.front.track)),
        stability: if centre.z > 0.0 { track / (2.0 * centre.z) } else { f64::INFINITY },
    }
}

#[cfg(test)]
mod tests;
