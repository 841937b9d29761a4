//! What stands around a bunk: the height of its deck, and where its edges are guarded.

use crate::base::tolerance::{NO_AREA, SAME_LENGTH};
use crate::figures::berths::Bed;
use crate::figures::ground::plan;
use crate::figures::sides::Side;
use crate::figures::stretches::{Stretch, long, within, without};
use crate::geometry::Region;
use crate::model::{Arrangement, Model, Solid, Tag};
use kurbo::Rect;

/// Farther than this from the mattress nothing guards it, and no gap in a guard is larger, mm: EN 747-1, as quoted.
pub(super) const GAP: f64 = 75.0;
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
    /// Where the bed begins, without its mattress.
    base: f64,
    /// The floor of the box, whose borders are walls.
    walls: Rect,
    solids: Vec<&'a Solid>,
    /// Other mattresses of like height.
    beside: Vec<Rect>,
}

impl<'a> Fence<'a> {
    pub fn new(model: &'a Model, arrangement: &'a Arrangement, beds: &[Bed<'_>], (bed, base): (&Bed<'_>, f64)) -> Self {
        let (top, around) = (bed.top(), bed.plan().inflate(GAP, GAP));
        let stands = |solid: &Solid| {
            let bounds = solid.prism.bounds();
            bounds.z.1 > base + SAME_LENGTH && bounds.plan().intersect(around).area() > NO_AREA
        };
        let hard = |solid: &Solid| !solid.is_any(&[Tag::Mattress, Tag::Cushion]);
        let solids = model.solids(arrangement).map(|(_, solid)| solid);
        let solids = solids.filter(|solid| hard(solid) && stands(solid)).collect();
        let others = beds.iter().filter(|other| !std::ptr::eq(*other, bed));
        let like = others.filter(|other| (other.top() - top).abs() <= LIKE_HIGH).map(Bed::plan);
        Self { top, base, walls: plan(model), solids, beside: like.collect() }
    }

    /// Whether a wall of the box guards a side.
    pub fn is_wall(&self, side: &Side) -> bool {
        side.distance(self.walls).1 <= GAP
    }

    /// The stretches of a side where nothing stands as high above the mattress as `guard`, or with a gap below.
    pub fn open(&self, side: &Side, guard: f64) -> Vec<Stretch> {
        if self.is_wall(side) {
            return Vec::new();
        }
        let near = side.outside(side.along, 0.0, GAP);
        let end = self.top + guard;
        let touches = |rect: &&Rect| near.intersect(**rect).area() > NO_AREA;
        let beside: Vec<Stretch> = self.beside.iter().filter(touches).map(|rect| side.shadow(*rect)).collect();
        let mut open = self.nothing(side, near, (end - 2.0 * SAME_LENGTH, end), &beside);
        // A gap begins at the base or on top of something.
        let tops = self.solids.iter().map(|solid| solid.prism.bounds().z.1).chain([self.base]);
        let mut tops: Vec<f64> = tops.filter(|from| from + GAP < end - SAME_LENGTH).collect();
        tops.sort_by(f64::total_cmp);
        tops.dedup();
        for from in tops {
            open.extend(self.nothing(side, near, (from, from + GAP + SAME_LENGTH), &beside));
        }
        within(side.along, open)
    }

    /// Whether something stands as high as `guard` along most of a stretch, so that a gap below is what is wrong.
    pub fn has_gap(&self, side: &Side, guard: f64, stretch: Stretch) -> bool {
        let end = self.top + guard;
        let open = self.nothing(side, side.outside(side.along, 0.0, GAP), (end - 2.0 * SAME_LENGTH, end), &[]);
        let open = open.into_iter().map(|open| long((open.0.max(stretch.0), open.1.min(stretch.1))).max(0.0));
        2.0 * open.sum::<f64>() < long(stretch)
    }

    /// The stretches of a side where nothing stands between two heights.
    fn nothing(&self, side: &Side, near: Rect, (low, high): (f64, f64), beside: &[Stretch]) -> Vec<Stretch> {
        let part = |solid: &&Solid| {
            let stands = Region::footprint(&solid.prism, low, high).intersect(&Region::rect(near));
            stands.parts().map(|part| side.shadow(part.bounds())).collect::<Vec<_>>()
        };
        without(side.along, self.solids.iter().flat_map(part).chain(beside.iter().copied()))
    }

    /// How high above the mattress a side is guarded but for openings of at most `most`.
    pub fn height(&self, side: &Side, most: f64) -> f64 {
        let tops = self.solids.iter().map(|solid| solid.prism.bounds().z.1 - self.top);
        let mut tops: Vec<f64> = tops.filter(|height| *height > SAME_LENGTH).collect();
        tops.sort_by(|a, b| b.total_cmp(a));
        let guarded = |height: &f64| self.open(side, *height).into_iter().all(|open| long(open) <= most + SAME_LENGTH);
        tops.into_iter().find(guarded).unwrap_or(0.0)
    }
}
