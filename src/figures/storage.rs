//! Storage spaces with all that may stand in them.

use crate::base::content::Key;
use crate::base::memo::Memo;
use crate::base::tolerance::SAME_LENGTH;
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
        let solids = model.solids_near(arrangement, bounds).map(|(_, solid)| &solid.prism);
        let cutaways = model.space.cutaways.iter().map(|cutaway| &cutaway.prism);
        let cutaways = cutaways.filter(|prism| common_bounds(&prism.bounds(), &bounds).is_some());
        let (minus, outside) = (solids.chain(cutaways).cloned().collect(), outside(model, &bounds));
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
        *memo.get("blocks", Key::of(&(self.shape_from_front(), &self.roof)), blocks)
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

    /// The shape in micrometres, with x from the space's own front, so that many benches in a row are counted once: the
    /// roof is the same all along x.
    fn shape_from_front(&self) -> Vec<f64> {
        let front = self.space.prism.bounds().x.0;
        let whole = |length: f64| (length / SAME_LENGTH).round();
        let one = |prism: &Prism| {
            let own = prism.moved(Axis::X, -front);
            let (points, axis) = (own.outline.points(), f64::from(own.axis as u8));
            let corners = points.iter().flat_map(|point| [whole(point.x), whole(point.y)]);
            [axis, whole(own.low), whole(own.high), points.len() as f64]
                .into_iter()
                .chain(corners)
                .collect::<Vec<f64>>()
        };
        std::iter::once(&self.space.prism).chain(self.taken()).flat_map(one).collect()
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
