//! The walkable ground of an arrangement: what takes room from the floor, and how wide a disc gets about on the rest.
//!
//! Walkable is the floor of the box without every solid and cutaway that reaches into the walking volume, from the step
//! height to the tallest person's height. What is lower can be stepped on, what hangs higher can be walked under (if
//! there is headroom). A door continues the floor outward by one and a half times its width, so that a person comes in
//! through it; a person's way starts 0.75 of its width outside.

use crate::geometry::{Clearance, End, Region, Ways, Widest};
use crate::model::{Arrangement, Model, Opening, OpeningKind, Space, Wall};
use kurbo::Rect;
use rayon::prelude::*;
use std::sync::{Arc, OnceLock};

/// What is no higher than this above the floor can be stepped on, mm; common practice.
pub const STEP: f64 = 230.0;

/// A way found, with the number of the door it comes from where doors are asked for.
pub(super) type Found = Option<(usize, Widest)>;

/// The ground of one arrangement, which takes its time to work out.
#[derive(Debug)]
pub(super) struct Ground {
    /// What each module and then each cutaway takes of the floor.
    pub taken: Vec<Region>,
    /// The floor of the box without what is taken and without the doors' outside.
    pub inside: Region,
    pub clearance: Clearance,
    /// The ways from outside all doors.
    pub ways_in: Ways,
    /// The ways of the arrangement in their order, once they were asked for.
    pub found: OnceLock<Vec<Found>>,
}

impl Ground {
    pub fn new(model: &Model, arrangement: &Arrangement) -> Self {
        let taken = taken(model, arrangement);
        let inside = Region::rect(plan(model)).subtract(&Region::all(taken.iter().cloned()));
        let notches = doors(model).filter_map(|door| outside(model, door)).map(Region::rect);
        let clearance = Clearance::new(&Region::all(notches.chain([inside.clone()])));
        let doorsteps: Vec<End> = doors(model).map(|door| doorstep(model, door)).collect();
        let ways_in = clearance.ways_from(&doorsteps);
        Self { taken, inside, clearance, ways_in, found: OnceLock::new() }
    }
}

/// The ground of each arrangement of a model, made when the first check asks for it.
#[derive(Debug)]
pub struct Grounds {
    made: Vec<OnceLock<Arc<Ground>>>,
}

impl Grounds {
    /// None is made yet.
    #[must_use]
    pub fn new(model: &Model) -> Self {
        Self { made: model.arrangements.iter().map(|_| OnceLock::new()).collect() }
    }

    /// Makes all of them side by side, so that no check waits for one that another is making.
    pub fn prepare(&self, model: &Model) {
        model.arrangements.par_iter().for_each(|arrangement| drop(self.of(model, arrangement)));
    }

    /// The ground of one of the model's arrangements.
    pub(super) fn of(&self, model: &Model, arrangement: &Arrangement) -> Arc<Ground> {
        let make = || Arc::new(Ground::new(model, arrangement));
        let at = model.arrangements.iter().position(|other| other.name == arrangement.name);
        at.and_then(|at| self.made.get(at)).map_or_else(make, |made| Arc::clone(made.get_or_init(make)))
    }
}

fn taken(model: &Model, arrangement: &Arrangement) -> Vec<Region> {
    let top = model.tallest();
    let modules = model
        .states(arrangement)
        .map(|(_, state)| Region::all(state.solids.iter().map(|solid| Region::footprint(&solid.prism, STEP, top))));
    let cutaways = model.space.cutaways.iter().map(|cutaway| Region::footprint(&cutaway.prism, STEP, top));
    modules.chain(cutaways).collect()
}

/// The floor of the box.
pub(super) fn plan(model: &Model) -> Rect {
    Rect::new(0.0, 0.0, model.space.length, model.space.width)
}

/// The doors that people come in by.
pub(super) fn doors(model: &Model) -> impl Iterator<Item = &Opening> {
    model.openings.iter().filter(|opening| opening.kind == OpeningKind::Door && outside(model, opening).is_some())
}

/// All that the spaces cover, seen from above.
pub(super) fn spread<'a>(spaces: impl IntoIterator<Item = &'a Space>) -> Region {
    Region::all(spaces.into_iter().map(|space| {
        let (low, high) = space.prism.bounds().z;
        Region::footprint(&space.prism, low, high)
    }))
}

/// The floor's continuation through an opening in a wall, one and a half times its run deep; `None` in roof or floor.
pub(super) fn outside(model: &Model, opening: &Opening) -> Option<Rect> {
    let (from, to) = opening.along;
    let deep = 1.5 * (to - from);
    let Rect { x0, y0, x1, y1 } = plan(model);
    match opening.wall {
        Wall::Front => Some(Rect::new(x0 - deep, from, x0, to)),
        Wall::Rear => Some(Rect::new(x1, from, x1 + deep, to)),
        Wall::Left => Some(Rect::new(from, y0 - deep, to, y0)),
        Wall::Right => Some(Rect::new(from, y1, to, y1 + deep)),
        Wall::Roof | Wall::Floor => None,
    }
}

/// Where a person stands outside a door.
pub(super) fn doorstep(model: &Model, door: &Opening) -> End {
    End::Point(outside(model, door).unwrap_or(Rect::ZERO).center())
}
