//! Storage spaces with all that may stand in them.

use crate::base::content::Key;
use crate::base::memo::Memo;
use crate::geometry::{Axis, Box3, Packing, Parcel, Prism, Roof, blocks, common_bounds, free_volume, pack};
use crate::model::{Arrangement, Model, Space};

/// A storage space and the prisms that may take room from it; two rooms of equal shape hold the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// The space.
    pub space: Space,
    /// Solids and cutaways whose bounds meet it.
    pub minus: Vec<Prism>,
    /// What of its bounds lies outside the walls and below the floor.
    outside: Vec<Prism>,
    roof: Roof,
}

const CUBIC_MM: f64 = 1e6;

impl Room {
    pub(crate) fn new(model: &Model, arrangement: &Arrangement, space: &Space) -> Self {
        let bounds = space.prism.bounds();
        let solids = model.solids(arrangement).map(|(_, solid)| &solid.prism);
        let all = solids.chain(model.space.cutaways.iter().map(|cutaway| &cutaway.prism));
        let near = all.filter(|prism| common_bounds(&prism.bounds(), &bounds).is_some());
        let (minus, outside) = (near.cloned().collect(), outside(model, &bounds));
        Self { space: space.clone(), minus, outside, roof: model.space.roof.clone() }
    }

    /// Litres that are free.
    #[must_use]
    pub fn litres(&self, memo: &Memo) -> f64 {
        let litres = || free_volume(&self.space.prism, &self.taken(), &self.roof) / CUBIC_MM;
        *memo.get("litres", Key::of(&self.shape()), litres)
    }

    /// How many blocks of the reference volume fit.
    #[must_use]
    pub fn blocks(&self, memo: &Memo) -> usize {
        let blocks = || blocks(&self.space.prism, &self.taken(), &self.roof).len();
        *memo.get("blocks", Key::of(&self.shape()), blocks)
    }

    /// Parcels packed into it.
    #[must_use]
    pub fn packed(&self, parcels: &[Parcel], memo: &Memo) -> Packing {
        let pack = || pack(&self.space.prism, &self.taken(), &self.roof, parcels);
        (*memo.get("packing", Key::of(&(self.shape(), parcels)), pack)).clone()
    }

    fn shape(&self) -> (&Prism, (&[Prism], &[Prism]), &Roof) {
        (&self.space.prism, (&self.minus, &self.outside), &self.roof)
    }

    fn taken(&self) -> Vec<&Prism> {
        self.minus.iter().chain(&self.outside).collect()
    }
}

/// What of a space's bounds lies outside the walls and below the floor.
fn outside(model: &Model, bounds: &Box3) -> Vec<Prism> {
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
