//! What would happen if a module stood a little to the side: for the suggestions of checks.

use super::words::{direction, whole};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Axis, Prism, common_bounds, overlap};
use crate::model::{Arrangement, Model, Module};

/// A way to shift one module.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shift {
    /// Index of the module.
    pub module: usize,
    /// Direction.
    pub axis: Axis,
    /// Whether up the axis.
    pub up: bool,
    /// How far, whole mm.
    pub by: f64,
}

impl Shift {
    /// "move `sofa` 12 mm to the left".
    pub fn says(&self, model: &Model) -> String {
        let name = model.modules.get(self.module).map_or("", |module| module.name.as_str());
        format!("move `{name}` {} {}", mm(self.by), direction(self.axis, self.up))
    }

    fn signed(&self) -> f64 {
        if self.up { self.by } else { -self.by }
    }

    /// Whether the module, so shifted, stands inside the box and clear of cutaways and all other modules.
    pub fn fits(&self, model: &Model, arrangement: &Arrangement) -> bool {
        let Some(module) = model.modules.get(self.module) else { return false };
        let moved: Vec<Prism> =
            solids_of(model, arrangement, module).map(|prism| prism.moved(self.axis, self.signed())).collect();
        let others = model.solids(arrangement).filter(|(other, _)| other.name != module.name);
        let fixed: Vec<&Prism> =
            others.map(|(_, solid)| &solid.prism).chain(model.space.cutaways.iter().map(|cut| &cut.prism)).collect();
        moved.iter().all(|prism| within(model, prism) && fixed.iter().all(|other| is_clear(prism, other)))
    }
}

fn within(model: &Model, prism: &Prism) -> bool {
    let (bounds, space) = (prism.bounds(), &model.space);
    let inside = |range: (f64, f64), end: f64| range.0 >= -SAME_LENGTH && range.1 <= end + SAME_LENGTH;
    inside(bounds.x, space.length)
        && inside(bounds.y, space.width)
        && bounds.z.0 >= -SAME_LENGTH
        && space.roof.pierce(prism).is_none()
}

fn is_clear(a: &Prism, b: &Prism) -> bool {
    common_bounds(&a.bounds(), &b.bounds()).is_none() || overlap(a, b).is_none()
}

/// The solids of one module in an arrangement.
pub(super) fn solids_of<'a>(
    model: &'a Model,
    arrangement: &'a Arrangement,
    module: &'a Module,
) -> impl Iterator<Item = &'a Prism> {
    model.solids(arrangement).filter(|(of, _)| of.name == module.name).map(|(_, solid)| &solid.prism)
}

/// The least whole number of millimetres by which `moving` has to go in one direction to be clear of `fixed`.
pub(super) fn least_shift(moving: &[&Prism], fixed: &[&Prism], axis: Axis, up: bool) -> f64 {
    let pairs = || moving.iter().flat_map(|a| fixed.iter().map(move |b| (a.bounds(), b.bounds())));
    let gap = |a: (f64, f64), b: (f64, f64)| if up { b.1 - a.0 } else { a.1 - b.0 };
    let far = pairs().map(|(a, b)| gap(a.range(axis), b.range(axis))).fold(0.0, f64::max);
    let clears = |by: f64| {
        let by = if up { by } else { -by };
        moving.iter().all(|prism| {
            let prism = prism.moved(axis, by);
            fixed.iter().all(|other| is_clear(&prism, other))
        })
    };
    let (mut low, mut high) = (0.0, whole(far).max(1.0));
    while high - low > 1.0 {
        let middle = f64::midpoint(low, high).floor();
        if clears(middle) { high = middle } else { low = middle }
    }
    high
}

/// The shortest sideways shift of one of `modules` that [`Shift::fits`], out of the given least shifts.
pub(super) fn best(mut shifts: Vec<Shift>, model: &Model, arrangement: &Arrangement) -> Option<Shift> {
    shifts.sort_by(|a, b| a.by.total_cmp(&b.by));
    shifts.into_iter().find(|shift| shift.fits(model, arrangement))
}

/// The four sideways directions.
pub(super) const SIDEWAYS: [(Axis, bool); 4] = [(Axis::X, true), (Axis::X, false), (Axis::Y, true), (Axis::Y, false)];
