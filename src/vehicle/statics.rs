//! Axle loads of a load case from moments about the axles, loads of the wheels, centre of gravity, stability.

use super::masses::{Group, LoadCase, Mass};
use crate::geometry::Point3;
use crate::model::{Model, Vehicle, VehicleKind};

/// What a support carries: an axle, a group of axles, or a coupling.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Support {
    /// Load, kg.
    pub load: f64,
    /// Sum of mass times Y right of the vehicle's middle, kg mm.
    pub side: f64,
    /// Sum of mass times height above the ground, kg mm.
    pub high: f64,
}

impl Support {
    fn add(&mut self, other: Self) {
        self.load += other.load;
        self.side += other.side;
        self.high += other.high;
    }

    /// Left and right wheels on a track, kg, on ground that falls to the right by an angle in degrees (to the left, if negative):
    /// right = load cos a / 2 + (side cos a + high sin a) / track, by moments about the left wheels.
    #[must_use]
    pub fn wheels(&self, track: f64, slope: f64) -> (f64, f64) {
        let (sin, cos) = slope.to_radians().sin_cos();
        let (half, turn) = (self.load * cos / 2.0, (self.side * cos + self.high * sin) / track);
        (half - turn, half + turn)
    }
}

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
    /// The same with their moments.
    pub on_front: Support,
    /// The same of the rear.
    pub on_rear: Support,
    /// Part of a rear group's load on its first and its other axles, kg; one value for one axle.
    pub group: Vec<f64>,
    /// Left and right wheels of the rear axle or group, kg.
    pub rear_sides: (f64, f64),
    /// Left and right wheels of the front axle, kg; `None` for a coupling.
    pub front_sides: Option<(f64, f64)>,
    /// Mean of the tracks by the loads on them, mm; a trailer's own.
    pub track: f64,
}

impl Weighed {
    /// How unlike the wheels of an axle are, of the axle where they are more so, percent.
    #[must_use]
    pub fn lean(&self) -> f64 {
        self.front_sides.map_or(0.0, lean).max(lean(self.rear_sides))
    }

    /// Part of the mass on the front axle or coupling, percent.
    #[must_use]
    pub fn front_share(&self) -> f64 {
        if self.total > 0.0 { self.front / self.total * 100.0 } else { 0.0 }
    }

    /// Track over twice the height of the centre: NHTSA's static stability factor, which knows no offset.
    #[must_use]
    pub fn stability(&self) -> f64 {
        if self.centre.z > 0.0 { self.track / (2.0 * self.centre.z) } else { f64::INFINITY }
    }

    /// Angle at which a rigid body on this track tips to its heavier side, degrees: atan((t / 2 - |y|) / h).
    #[must_use]
    pub fn tips_at(&self) -> f64 {
        (self.track / 2.0 - self.centre.y.abs()).atan2(self.centre.z).to_degrees()
    }
}

/// Difference of left and right wheels over their sum, percent.
#[must_use]
pub fn lean((left, right): (f64, f64)) -> f64 {
    if left + right > 0.0 { ((right - left) / (left + right) * 100.0).abs() } else { 0.0 }
}

/// Weighs a load case: rear = sum(m X) / wheelbase, front = total - rear; moments about the middle and the ground by
/// [`on_supports`].
#[must_use]
pub fn weigh(model: &Model, vehicle: &Vehicle, case: &LoadCase) -> Weighed {
    let (mut total, mut moment) = (0.0, 0.0);
    let [mut front, mut rear] = [Support::default(); 2];
    for item in &case.aboard {
        total += item.mass;
        moment += item.mass * vehicle.along(item.at.x);
        let [ahead, behind] = on_supports(model, vehicle, item);
        front.add(ahead);
        rear.add(behind);
    }
    let by = |sum: f64| if total > 0.0 { sum / total } else { 0.0 };
    let centre = Point3 { x: by(moment), y: by(front.side + rear.side), z: by(front.high + rear.high) };
    let trailer = vehicle.front.track <= 0.0;
    let tracks = vehicle.front.track * front.load + vehicle.rear.track * rear.load;
    let first = rear.load * vehicle.rear.share;
    Weighed {
        case: case.name.clone(),
        total,
        moment,
        centre,
        group: if vehicle.rear.spread > 0.0 { vec![first, rear.load - first] } else { vec![rear.load] },
        track: if trailer { vehicle.rear.track } else { by(tracks) },
        on_front: front,
        on_rear: rear,
        front: front.load,
        rear: rear.load,
        front_sides: (!trailer).then(|| front.wheels(vehicle.front.track, 0.0)),
        rear_sides: rear.wheels(vehicle.rear.track, 0.0),
    }
}

/// Whether a mass rides on the box: all but the bare vehicle and what lies ahead of the box's front wall.
#[must_use]
pub fn rides_on_box(model: &Model, item: &Mass) -> bool {
    item.group != Group::Vehicle && item.at.x > -model.space.walls.thickness
}

/// What an item puts on the front and on the rear support, by its lever. A trailer's coupling takes no roll: all of that is its
/// wheels'. What a box on a subframe weighs aside of the middle, or above the ground, is taken where the subframe holds the box
/// against rolling; with a frame that twists freely each axle then takes its part by the lever of that place.
#[must_use]
pub fn on_supports(model: &Model, vehicle: &Vehicle, item: &Mass) -> [Support; 2] {
    let middle = model.space.width / 2.0 - vehicle.box_right;
    let behind = vehicle.along(item.at.x) / vehicle.wheelbase;
    let roll = match vehicle.subframe.and_then(|subframe| subframe.rolls_at()) {
        _ if vehicle.kind == VehicleKind::Trailer => 1.0,
        Some(at) if rides_on_box(model, item) => at / vehicle.wheelbase,
        _ => behind,
    };
    let (side, high) = (item.mass * (item.at.y - middle), item.mass * (item.at.z + vehicle.floor_height));
    [(1.0 - behind, 1.0 - roll), (behind, roll)].map(|(load, roll)| Support {
        load: item.mass * load,
        side: side * roll,
        high: high * roll,
    })
}

#[cfg(test)]
mod tests;
