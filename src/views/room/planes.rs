//! Where planes across the box are looked for.

use crate::geometry::Axis;
use crate::model::{Arrangement, Model, PoseState};

/// The plane across an axis that cuts the least of the modules; the nearest to the middle of several.
pub(super) fn freest_plane(model: &Model, arrangement: &Arrangement, axis: Axis) -> f64 {
    let length = if axis == Axis::X { model.space.length } else { model.space.width };
    let cut = |at: f64| -> f64 {
        let solids = model.solids(arrangement).map(|(_, solid)| solid.prism.bounds());
        let through = solids.filter(|bounds| bounds.range(axis).0 < at && at < bounds.range(axis).1);
        through.map(|bounds| bounds.across(axis).area()).sum()
    };
    let mut edges: Vec<f64> = model
        .solids(arrangement)
        .flat_map(|(_, solid)| <[f64; 2]>::from(solid.prism.bounds().range(axis)))
        .filter(|edge| (0.0..=length).contains(edge))
        .chain([0.0, length / 2.0, length])
        .collect();
    edges.sort_by(f64::total_cmp);
    let places =
        edges.iter().zip(edges.iter().skip(1)).filter(|(a, b)| *b - *a > 1.0).map(|(a, b)| f64::midpoint(*a, *b));
    let costs = places.map(|at| (cut(at) + (at - length / 2.0).abs() * length * 0.05, at));
    costs.min_by(|a, b| a.0.total_cmp(&b.0)).map_or(length / 2.0, |(_, at)| at)
}

/// The plane across an axis that goes through the most modules, the nearest to the middle of several.
pub(super) fn fullest_plane(model: &Model, arrangement: &Arrangement, axis: Axis) -> f64 {
    const TRIES: u32 = 48;
    let length = if axis == Axis::X { model.space.length } else { model.space.width };
    let through = |at: f64| {
        let cut = |state: &PoseState| {
            state.solids.iter().any(|solid| {
                let (low, high) = solid.prism.bounds().range(axis);
                low + 30.0 < at && at < high - 30.0
            })
        };
        model.states(arrangement).filter(|(_, state)| cut(state)).count()
    };
    let places = (1..TRIES).map(|at| (length * f64::from(at) / f64::from(TRIES)).round());
    let best = places.max_by(|a, b| {
        let nearness = |at: f64| -(at - length / 2.0).abs();
        through(*a).cmp(&through(*b)).then(nearness(*a).total_cmp(&nearness(*b)))
    });
    best.unwrap_or(length / 2.0)
}
