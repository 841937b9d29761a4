//! What stands around a high bed: the height of its deck, and where its edges are guarded.

use crate::base::tolerance::{NO_AREA, SAME_LENGTH};
use crate::figures::berths::Bed;
use crate::figures::ground::plan;
use crate::figures::sides::Side;
use crate::figures::stretches::{Stretch, long, without};
use crate::geometry::Region;
use crate::model::{Arrangement, Model, Solid, Tag};
use kurbo::Rect;

/// Farther than this from the mattress nothing guards it, mm.
const BESIDE: f64 = 75.0;
/// A rail tagged `guard` may start so high above the mattress, mm (3.5 in).
const UNDER_RAIL: f64 = 89.0;
/// A mattress beside it that is no lower and no higher than this keeps from falling, mm.
const LIKE_HIGH: f64 = 300.0;

impl Bed<'_> {
    /// Height of the underside of the mattress above the floor; of the lying face, if no mattress is under it.
    pub fn deck(&self, arrangement: &Arrangement, model: &Model) -> f64 {
        let (top, plan) = (self.top(), self.plan());
        let soft = |solid: &Solid| solid.is_any(&[Tag::Mattress, Tag::Cushion]);
        let under = |solid: &Solid| {
            let bounds = solid.prism.bounds();
            (bounds.z.1 - top).abs() <= SAME_LENGTH && bounds.plan().intersect(plan).area() > NO_AREA
        };
        let own = model.solids(arrangement).filter(|(module, _)| module.name == self.module.name);
        let decks = own.filter(|(_, solid)| soft(solid) && under(solid)).map(|(_, solid)| solid.prism.bounds().z.0);
        decks.fold(top, f64::min)
    }
}

/// What may guard a bed.
pub(super) struct Fence<'a> {
    top: f64,
    /// The floor of the box, whose borders are walls.
    walls: Rect,
    solids: Vec<&'a Solid>,
    /// Other mattresses of like height.
    beside: Vec<Rect>,
}

impl<'a> Fence<'a> {
    pub fn new(model: &'a Model, arrangement: &'a Arrangement, beds: &[Bed<'_>], bed: &Bed<'_>) -> Self {
        let (top, around) = (bed.top(), bed.plan().inflate(BESIDE, BESIDE));
        let rises = |solid: &Solid| {
            let bounds = solid.prism.bounds();
            let rail = solid.is(Tag::Guard);
            let start = top + if rail { UNDER_RAIL } else { 0.0 } + SAME_LENGTH;
            bounds.z.0 <= start && bounds.z.1 > top + SAME_LENGTH && bounds.plan().intersect(around).area() > NO_AREA
        };
        let solids = model.solids(arrangement).map(|(_, solid)| solid).filter(|solid| rises(solid)).collect();
        let others = beds.iter().filter(|other| !std::ptr::eq(*other, bed));
        let like = others.filter(|other| (other.top() - top).abs() <= LIKE_HIGH).map(Bed::plan);
        Self { top, walls: plan(model), solids, beside: like.collect() }
    }

    /// Whether a wall of the box guards a side.
    pub fn is_wall(&self, side: &Side) -> bool {
        side.distance(self.walls).1 <= BESIDE
    }

    /// The stretches of a side where nothing stands as high above the mattress as `guard`.
    pub fn open(&self, side: &Side, guard: f64) -> Vec<Stretch> {
        if self.is_wall(side) {
            return Vec::new();
        }
        let near = side.outside(side.along, 0.0, BESIDE);
        let high = |solid: &&&Solid| solid.prism.bounds().z.1 + SAME_LENGTH >= self.top + guard;
        let at_top = (self.top + guard - 2.0 * SAME_LENGTH, self.top + guard);
        let part = |solid: &&Solid| {
            let stands = Region::footprint(&solid.prism, at_top.0, at_top.1).intersect(&Region::rect(near));
            stands.parts().map(|part| side.shadow(part.bounds())).collect::<Vec<_>>()
        };
        let solids = self.solids.iter().filter(high).flat_map(part);
        let touches = |rect: &&Rect| near.intersect(**rect).area() > NO_AREA;
        let beside = self.beside.iter().filter(touches).map(|rect| side.shadow(*rect));
        without(side.along, solids.chain(beside))
    }

    /// How high above the mattress a side is guarded but for openings of at most `most`.
    pub fn height(&self, side: &Side, most: f64) -> f64 {
        let mut tops: Vec<f64> = self.solids.iter().map(|solid| solid.prism.bounds().z.1 - self.top).collect();
        tops.sort_by(|a, b| b.total_cmp(a));
        let guarded = |height: &f64| self.open(side, *height).into_iter().all(|open| long(open) <= most + SAME_LENGTH);
        tops.into_iter().find(guarded).unwrap_or(0.0)
    }
}
