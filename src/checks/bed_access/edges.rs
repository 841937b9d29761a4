//! Where a sleeper gets out of bed: the free edges of each sleeper's strip, and who must climb over whom.
//!
//! A place on a side of the strip is free if floor or a step (a solid tagged `step`) begins within 150 mm of it, if
//! from there to 300 mm everything can be stood on, and if nothing within those first 150 mm reaches into the height
//! between 100 and 600 mm above the mattress. A free stretch counts from 100 mm on, and if it can be reached: if a disc of the least width of
//! a way gets from a door to within 300 mm of it, or to within 300 mm of the steps at it.

use crate::base::tolerance::{NO_AREA, SAME_LENGTH, WAY_WIDTH};
use crate::figures::berths::{Bed, Strip};
use crate::figures::ground::STEP;
use crate::figures::sides::Side;
use crate::figures::stretches::{Stretch, long, meet, within, without};
use crate::figures::ways::{Floor, no_way_in};
use crate::geometry::{Axis, Prism, Region};
use crate::model::{Module, Solid, Tag};
use kurbo::Rect;

/// How far from the mattress floor may begin, past a rail or a ladder, mm.
const NEAR: f64 = 150.0;
/// A shorter free stretch is none, mm.
const NO_EDGE: f64 = 100.0;
/// How far out from the mattress a person stands, mm.
const STAND: f64 = 300.0;
/// What rises less than this above the mattress can be climbed over, mm.
const LIP: f64 = 100.0;
/// Up to this above the mattress the way out must be clear, mm.
const BODY: f64 = 600.0;
/// Mattresses whose tops differ by no more than this can be crossed from one to the other, mm.
const CROSSED: f64 = 300.0;

/// A free edge.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Edge {
    pub side: Side,
    pub free: Stretch,
    /// Heights of the steps at it, from low to high, mm.
    pub steps: Vec<f64>,
    /// Where a person who gets out stands.
    pub area: Region,
}

impl Edge {
    /// The greatest rise from the floor over the steps to a mattress.
    pub fn climb(&self, top: f64) -> f64 {
        let mut below = 0.0;
        let mut most: f64 = 0.0;
        for step in self.steps.iter().copied().filter(|step| *step < top).chain([top]) {
            most = most.max(step - below);
            below = step;
        }
        most
    }
}

/// A place to sleep with its way out.
pub(super) struct Place<'a, 'b> {
    pub bed: &'b Bed<'a>,
    pub strip: Strip,
    /// Its longest free edge that can be reached.
    pub edge: Option<Edge>,
    /// Somebody lies here; where a bed has more places than sleepers, these have the freest.
    pub taken: bool,
}

/// Whom a sleeper without a free edge gets out over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Over {
    /// Over empty places.
    Nobody,
    /// Over another sleeper.
    Another,
    /// There is no way out.
    NoWay,
}

/// All places to sleep of some beds.
pub(super) fn sleeping_places<'a, 'b>(floor: &Floor<'a>, beds: &'b [Bed<'a>]) -> Vec<Place<'a, 'b>> {
    let ground = Ground::new(floor, beds);
    let mut free: Vec<(&Bed<'_>, Strip, Vec<Edge>)> = Vec::new();
    for bed in beds {
        let walkable = ground.around(bed.plan());
        let strips = bed.strips().into_iter();
        free.extend(strips.map(|strip| (bed, strip, ground.edges(&walkable, strip.rect, bed.top()))));
    }
    let areas: Vec<Region> = free.iter().flat_map(|(_, _, edges)| edges.iter().map(|edge| edge.area.clone())).collect();
    let mut reached = floor.reached(&areas, no_way_in(floor.model) - WAY_WIDTH).into_iter();
    let mut places = Vec::new();
    for (bed, strip, edges) in free {
        let reached: Vec<bool> = reached.by_ref().take(edges.len()).collect();
        let edge = edges.into_iter().zip(reached).find_map(|(edge, reached)| reached.then_some(edge));
        places.push(Place { bed, strip, edge, taken: true });
    }
    places.chunk_by_mut(|a, b| std::ptr::eq(a.bed, b.bed)).for_each(lie_where_it_is_freest);
    places
}

/// Of a bed with more places than sleepers, leaves those with the shorter edges empty.
fn lie_where_it_is_freest(of_bed: &mut [Place<'_, '_>]) {
    let sleepers = of_bed.first().map_or(0, |place| place.bed.sleepers.len());
    if sleepers == 0 {
        return;
    }
    let mut order: Vec<&mut Place<'_, '_>> = of_bed.iter_mut().collect();
    let free = |place: &Place<'_, '_>| place.edge.as_ref().map_or(0.0, |edge| long(edge.free));
    order.sort_by(|a, b| free(b).total_cmp(&free(a)));
    order.into_iter().skip(sleepers).for_each(|place| place.taken = false);
}

/// Whom the sleeper of one place, which has no free edge, gets out over.
pub(super) fn over(places: &[Place<'_, '_>], from: usize) -> Over {
    if gets_out(places, from, false) {
        Over::Nobody
    } else if gets_out(places, from, true) {
        Over::Another
    } else {
        Over::NoWay
    }
}

fn gets_out(places: &[Place<'_, '_>], from: usize, over_others: bool) -> bool {
    let mut seen = vec![false; places.len()];
    let mut waiting = vec![from];
    while let Some(at) = waiting.pop() {
        let (Some(place), Some(known)) = (places.get(at), seen.get_mut(at)) else { continue };
        if std::mem::replace(known, true) {
            continue;
        }
        if place.edge.is_some() {
            return true;
        }
        let next = places.iter().enumerate().filter(|(_, next)| (over_others || !next.taken) && touch(place, next));
        waiting.extend(next.map(|(index, _)| index));
    }
    false
}

fn touch(a: &Place<'_, '_>, b: &Place<'_, '_>) -> bool {
    let beside = Side::all(a.strip.rect).iter().any(|side| {
        let (begins, _) = side.distance(b.strip.rect);
        begins.abs() <= NEAR && meet(side.along, side.shadow(b.strip.rect))
    });
    beside && (a.bed.top() - b.bed.top()).abs() <= CROSSED
}

/// What can be stood on beside the beds of one arrangement.
struct Ground<'a, 'f> {
    floor: &'f Floor<'a>,
    steps: Vec<(&'a Module, &'a Solid)>,
    /// The lying spaces, on which nobody stands.
    beds: Region,
}

impl<'a, 'f> Ground<'a, 'f> {
    fn new(floor: &'f Floor<'a>, beds: &[Bed<'a>]) -> Self {
        let solids = floor.model.solids(floor.arrangement);
        let steps: Vec<_> = solids.filter(|(_, solid)| solid.is(Tag::Step)).collect();
        Self { floor, steps, beds: Region::all(beds.iter().map(|bed| Region::rect(bed.plan()))) }
    }

    /// What can be stood on around a bed.
    fn around(&self, bed: Rect) -> Region {
        let near = bed.inflate(STAND, STAND);
        let high = |solid: &Solid| {
            let bounds = solid.prism.bounds();
            bounds.z.1 > STEP && bounds.plan().intersect(near).area() > NO_AREA
        };
        let steps = self.steps.iter().filter(|(_, solid)| high(solid));
        let steps = steps.map(|(_, solid)| whole_footprint(&solid.prism));
        let inside = self.floor.inside().intersect(&Region::rect(near));
        Region::all(steps.chain([inside])).subtract(&self.beds)
    }

    /// The free edges of a strip, the longest first.
    fn edges(&self, walkable: &Region, strip: Rect, top: f64) -> Vec<Edge> {
        let of_side = |side: Side| self.free(walkable, &side, top).into_iter().map(move |free| (side, free));
        let mut free: Vec<(Side, Stretch)> = Side::all(strip).into_iter().flat_map(of_side).collect();
        free.retain(|(_, free)| long(*free) + WAY_WIDTH >= NO_EDGE);
        free.sort_by(|a, b| long(b.1).total_cmp(&long(a.1)));
        free.into_iter().map(|(side, free)| self.edge(side, free, top)).collect()
    }

    fn free(&self, walkable: &Region, side: &Side, top: f64) -> Vec<Stretch> {
        let near = side.outside(side.along, 0.0, NEAR);
        let shadows = |region: Region| region.parts().map(|part| side.shadow(part.bounds())).collect::<Vec<_>>();
        let begins = shadows(walkable.intersect(&Region::rect(near)));
        if begins.is_empty() {
            return begins;
        }
        let far = Region::rect(side.outside(side.along, NEAR, STAND));
        let mut taken = shadows(far.subtract(walkable));
        taken.extend(self.rising(near, top).map(|rect| side.shadow(rect)));
        within(side.along, begins).into_iter().flat_map(|free| without(free, taken.iter().copied())).collect()
    }

    /// What rises above the mattress within a strip of floor.
    fn rising(&self, near: Rect, top: f64) -> impl Iterator<Item = Rect> {
        let (low, high) = (top + LIP + SAME_LENGTH, top + BODY - SAME_LENGTH);
        let solids = self.floor.model.solids(self.floor.arrangement).map(|(_, solid)| &solid.prism);
        let cut = self.floor.model.space.cutaways.iter().map(|cut| &cut.prism);
        let there = solids.chain(cut).filter(move |prism| {
            let bounds = prism.bounds();
            meet(bounds.z, (low, high)) && bounds.plan().intersect(near).area() > NO_AREA
        });
        let part = move |prism: &Prism| {
            let over = Region::footprint(prism, low, high).intersect(&Region::rect(near));
            over.parts().map(|part| part.bounds()).collect::<Vec<_>>()
        };
        there.flat_map(part)
    }

    fn edge(&self, side: Side, free: Stretch, top: f64) -> Edge {
        let before = side.outside(free, 0.0, STAND);
        let at = |solid: &Solid| solid.prism.bounds().plan().intersect(before).area() > NO_AREA;
        let climbs = |module: &Module| self.steps.iter().any(|(of, solid)| of.name == module.name && at(solid));
        let steps: Vec<&Solid> =
            self.steps.iter().filter(|(module, _)| climbs(module)).map(|(_, solid)| *solid).collect();
        let around = steps.iter().map(|solid| solid.prism.bounds().plan().inflate(STAND, STAND));
        let area = Region::all(around.chain([before]).map(Region::rect));
        let mut steps: Vec<f64> = steps.iter().map(|solid| solid.prism.bounds().z.1).filter(|z| *z < top).collect();
        steps.sort_by(f64::total_cmp);
        Edge { side, free, steps, area }
    }
}

/// All that a prism covers, seen from above.
fn whole_footprint(prism: &Prism) -> Region {
    let (low, high) = prism.bounds().z;
    if prism.axis == Axis::Z { Region::new([&prism.outline]) } else { Region::footprint(prism, low, high) }
}
