//! The box on its subframe in every load case.

use super::masses::LoadCase;
use super::mounts::{Mount, mounts, rider};
use super::rails::{Bent, bent};
use crate::model::{Model, Mounts, Subframe, Vehicle};

/// A load case on the subframe, at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// Name of the case.
    pub case: String,
    /// The mounts.
    pub mounts: Vec<Mount>,
    /// One of the two longitudinals, if the layout gives them.
    pub rail: Option<Bent>,
}

/// All load cases on the subframe; none without one, or on one that is bolted down.
#[must_use]
pub fn held(model: &Model, vehicle: &Vehicle, cases: &[LoadCase]) -> Vec<Held> {
    let Some(subframe) = &vehicle.subframe else { return Vec::new() };
    let one = |case: &LoadCase| {
        let rider = rider(model, vehicle, case)?;
        let mounts = mounts(subframe, &rider);
        let rail = subframe.rails.map(|rails| bent(model, vehicle, &rails, &rider, &mounts));
        (!mounts.is_empty()).then(|| Held { case: case.name.clone(), mounts, rail })
    };
    cases.iter().filter_map(one).collect()
}

/// How far a spring mount opens when the frame twists, mm, and what its spring then holds with, N: the box rests on the rail that rises, so
/// the other side opens by the whole difference, `apart sin a`.
#[must_use]
pub fn opened(vehicle: &Vehicle, subframe: &Subframe) -> Option<(f64, f64)> {
    let Mounts::Springs { fixed, at, spring } = subframe.mounts else { return None };
    let angle = subframe.twist * (fixed - at) / vehicle.wheelbase;
    let opens = subframe.apart * angle.to_radians().sin().abs();
    Some((opens, spring.preload + spring.rate * opens))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Spring;
    use crate::model::testing::{subframe, vehicle};

    /// 6 degrees over the wheelbase of 4,200 mm, 2,100 mm between the pairs: 3 degrees; mounts 800 mm apart open by 800 sin 3 = 41.87 mm, and
    /// a spring of 40 N/mm then holds with 2,000 + 40 x 41.87 = 3,675 N.
    #[test]
    fn a_spring_opens_by_the_twist_between_the_pairs() {
        let spring = Spring { rate: 40.0, preload: 2000.0, travel: 60.0 };
        let mounts = Mounts::Springs { fixed: 3300.0, at: 1200.0, spring };
        let subframe = Subframe { twist: 6.0, apart: 800.0, ..subframe(mounts) };
        let (opens, holds) = opened(&vehicle(), &subframe).unwrap();
        assert!((opens - 41.87).abs() < 0.005 && (holds - 3674.8).abs() < 0.5, "{opens} {holds}");
    }
}
