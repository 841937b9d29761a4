//! Storage spaces with all that may stand in them.

use crate::geometry::{Axis, Box3, Prism, common_bounds};
use crate::model::{Arrangement, Model, Space};

/// A storage space and the prisms that may take room from it; two rooms that are equal hold the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Room<'a> {
    /// The space.
    pub space: &'a Space,
    /// Solids and cutaways whose bounds meet it.
    pub minus: Vec<&'a Prism>,
}

impl<'a> Room<'a> {
    pub(super) fn new(model: &'a Model, arrangement: &'a Arrangement, space: &'a Space) -> Self {
        let bounds = space.prism.bounds();
        let solids = model.solids(arrangement).map(|(_, solid)| &solid.prism);
        let all = solids.chain(model.space.cutaways.iter().map(|cutaway| &cutaway.prism));
        let near = all.filter(|prism| common_bounds(&prism.bounds(), &bounds).is_some());
        Self { space, minus: near.collect() }
    }
}

/// What of a space's bounds lies outside the walls and below the floor.
pub(super) fn outside(model: &Model, bounds: &Box3) -> Vec<Prism> {
    let inside = Box3 { x: (0.0, model.space.length), y: (0.0, model.space.width), z: (0.0, bounds.z.1.max(0.0)) };
    let axes = [Axis::X, Axis::Y, Axis::Z].into_iter();
    let beyond = axes.flat_map(|axis| {
        let ((low, high), (from, to)) = (bounds.range(axis), inside.range(axis));
        [bounds.with(axis, (low, high.min(from))), bounds.with(axis, (low.max(to), high))]
            .into_iter()
            .filter(move |part| part.range(axis).0 < part.range(axis).1)
    });
    beyond.map(Prism::from).collect()
}
