//! The walkable ground of an arrangement: what takes room from the floor, and how wide a disc gets about on the rest.
//!
//! Walkable is the floor of the box without every solid and cutaway that reaches into the walking volume, from the step
//! height to the tallest person's height. What is lower can be stepped on, what hangs higher can be walked under (if
//! there is headroom). A door continues the floor outward by one and a half times its width, so that a person comes in
//! through it; a person's way starts 0.75 of its width outside.

use crate::base::content::Key;
use crate::base::memo::Memo;
use crate::geometry::{Clearance, End, Prism, Region, Ways, Widest};
use crate::model::{Arrangement, Model, Opening, OpeningKind, PoseState, Space, Wall};
use kurbo::Rect;
use std::sync::Arc;

/// What is no higher than this above the floor can be stepped on, mm; common practice.
pub const STEP: f64 = 230.0;

/// A way found, with the number of the door it comes from where doors are asked for.
pub(crate) type Found = Option<(usize, Widest)>;

/// The ground of one arrangement, which takes its time to work out.
#[derive(Debug, Default)]
pub(crate) struct Ground {
    /// What each module and then each cutaway takes of the floor.
    pub taken: Vec<Region>,
    /// The floor of the box without what is taken and without the doors' outside.
    pub inside: Region,
    pub clearance: Clearance,
    /// The ways from outside all doors.
    pub ways_in: Ways,
}

impl Ground {
    /// The ground of an arrangement, from the memo if anything equal was ever walked on.
    pub fn known(model: &Model, arrangement: &Arrangement, memo: &Memo) -> Arc<Self> {
        let (modules, cutaways) = (standing(model, arrangement), &model.space.cutaways);
        let cutaways: Vec<&Prism> = cutaways.iter().map(|cutaway| &cutaway.prism).collect();
        let doors: Vec<Rect> = doors(model).filter_map(|door| outside(model, door)).collect();
        let top = model.tallest();
        let key = Key::of(&((plan(model), top), (&modules, &cutaways), &doors));
        memo.get("ground", key, || {
            let modules = modules.iter().map(|prisms| taken(prisms, top));
            Self::new(plan(model), modules.chain(cutaways.iter().map(|prism| taken(&[prism], top))).collect(), &doors)
        })
    }

    fn new(plan: Rect, taken: Vec<Region>, doors: &[Rect]) -> Self {
        let inside = Region::rect(plan).subtract(&Region::all(taken.iter().cloned()));
        let notches = doors.iter().copied().map(Region::rect);
        let clearance = Clearance::new(&Region::all(notches.chain([inside.clone()])));
        let doorsteps: Vec<End> = doors.iter().map(|outside| End::Point(outside.center())).collect();
        let ways_in = clearance.ways_from(&doorsteps);
        Self { taken, inside, clearance, ways_in }
    }
}

/// Its regions say all: clearance and ways follow from them.
impl PartialEq for Ground {
    fn eq(&self, other: &Self) -> bool {
        self.taken == other.taken && self.clearance.region() == other.clearance.region()
    }
}

/// The clearance of a region that is not the ground itself.
pub(super) fn clearance(region: &Region, memo: &Memo) -> Arc<Clearance> {
    memo.get("clearance", Key::of(region), || Clearance::new(region))
}

/// What each module puts into the walking volume.
fn standing<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Vec<&'a Prism>> {
    let top = model.tallest();
    let reaches = |prism: &&Prism| {
        let (low, high) = prism.bounds().z;
        low < top && high > STEP
    };
    let of = |(_, state): (_, &'a PoseState)| state.solids.iter().map(|solid| &solid.prism).filter(reaches).collect();
    model.states(arrangement).map(of).collect()
}

fn taken(prisms: &[&Prism], top: f64) -> Region {
    Region::footprints(prisms.iter().copied(), STEP, top)
}

/// The floor of the box.
pub(crate) fn plan(model: &Model) -> Rect {
    Rect::new(0.0, 0.0, model.space.length, model.space.width)
}

/// The doors that people come in by.
pub(crate) fn doors(model: &Model) -> impl Iterator<Item = &Opening> {
    model.openings.iter().filter(|opening| opening.kind == OpeningKind::Door && outside(model, opening).is_some())
}

/// All that the spaces cover, seen from above.
pub(crate) fn spread<'a>(spaces: impl IntoIterator<Item = &'a Space>) -> Region {
    Region::all(spaces.into_iter().map(|space| {
        let (low, high) = space.prism.bounds().z;
        Region::footprint(&space.prism, low, high)
    }))
}

/// The floor's continuation through an opening in a wall, one and a half times its run deep; `None` in roof or floor.
pub(crate) fn outside(model: &Model, opening: &Opening) -> Option<Rect> {
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
pub(crate) fn doorstep(model: &Model, door: &Opening) -> End {
    End::Point(outside(model, door).unwrap_or(Rect::ZERO).center())
}
