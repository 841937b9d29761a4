//! What a box puts on the mounts of its subframe, at rest.

use super::masses::LoadCase;
use super::statics::rides_on_box;
use crate::model::{Model, Mounts, Subframe, Vehicle};

/// A mount with what rests on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Mount {
    /// "pivot", "left fixed mount".
    pub name: String,
    /// From the front axle, mm.
    pub x: f64,
    /// Right of the vehicle's middle, mm.
    pub y: f64,
    /// kg; negative where it is pulled up.
    pub carries: f64,
}

/// The box with all that rides on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rider {
    /// kg.
    pub mass: f64,
    /// Its centre from the front axle, mm.
    pub x: f64,
    /// The same, right of the vehicle's middle, mm.
    pub y: f64,
}

/// Mass and centre of what rides on the box in a load case; `None` if nothing does.
#[must_use]
pub fn rider(model: &Model, vehicle: &Vehicle, case: &LoadCase) -> Option<Rider> {
    let middle = model.space.width / 2.0 - vehicle.box_right;
    let (mut mass, mut x, mut y) = (0.0, 0.0, 0.0);
    for item in case.aboard.iter().filter(|item| rides_on_box(model, item)) {
        mass += item.mass;
        x += item.mass * vehicle.along(item.at.x);
        y += item.mass * (item.at.y - middle);
    }
    (mass > 0.0).then(|| Rider { mass, x: x / mass, y: y / mass })
}

/// The mounts by moments, for a stiff box on a level frame; none where it is bolted down all along.
///
/// Three points, and springs at rest: the levers between pair and pivot, the moment aside on the pair. Four points: one support too
/// many, so all four are taken for equally stiff (common practice, no source).
#[must_use]
pub fn mounts(subframe: &Subframe, rider: &Rider) -> Vec<Mount> {
    let pair =
        |name: &str, x: f64, carries: f64, roll: f64| {
            let more = roll / subframe.apart;
            [("left", -0.5, carries / 2.0 - more), ("right", 0.5, carries / 2.0 + more)]
                .map(|(side, at, carries)| Mount { name: format!("{side} {name}"), x, y: at * subframe.apart, carries })
        };
    let pivot = |name: &str, x: f64, carries: f64| Mount { name: name.to_owned(), x, y: 0.0, carries };
    let Rider { mass, x, y } = *rider;
    let at_other = |fixed: f64, other: f64| mass * (fixed - x) / (fixed - other);
    match subframe.mounts {
        Mounts::ThreePoint { fixed, pivot: at } => {
            let carries = at_other(fixed, at);
            let [left, right] = pair("fixed mount", fixed, mass - carries, mass * y);
            vec![pivot("pivot", at, carries), left, right]
        }
        Mounts::Springs { fixed, at, .. } => {
            let carries = at_other(fixed, at);
            let [left, right] = pair("fixed mount", fixed, mass - carries, mass * y);
            let [held, also] = pair("mount with spring", at, carries, 0.0);
            vec![held, also, left, right]
        }
        Mounts::FourPoint { sides, pivots: (front, rear) } => {
            let [first, both, last] = equally_stiff([(front, 1.0), (sides, 2.0), (rear, 1.0)], rider);
            let [left, right] = pair("side mount", sides, both, mass * y);
            vec![pivot("front pivot", front, first), left, right, pivot("rear pivot", rear, last)]
        }
        Mounts::Rigid => Vec::new(),
    }
}

/// What supports in a row carry under a stiff body: places with their stiffness, the body sinks by `a + b x`.
fn equally_stiff(supports: [(f64, f64); 3], rider: &Rider) -> [f64; 3] {
    let sum = |of: fn(f64) -> f64| supports.iter().map(|(x, stiff)| stiff * of(*x)).sum::<f64>();
    let (zero, one, two) = (sum(|_| 1.0), sum(|x| x), sum(|x| x * x));
    let whole = zero * two - one * one;
    let a = rider.mass * (two - one * rider.x) / whole;
    let b = rider.mass * (zero * rider.x - one) / whole;
    supports.map(|(x, stiff)| stiff * (a + b * x))
}

#[cfg(test)]
mod tests;
