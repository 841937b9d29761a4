//! Wet rooms, toilets and showers of an arrangement, and the room in them.

use super::around::Hinged;
use super::ground::{STEP, clearance};
use crate::base::memo::Memo;
use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Axis, Box3, End, Polygon, Prism, Region, inscribed, travel};
use crate::model::{Arrangement, Model, Module, PoseState, Purpose, Solid, Tag, Wall};
use crate::source::Span;
use kurbo::{Point, Rect, Shape, Size};

/// From the seat to above the head of a person who sits, mm: the median man's sitting height is 918 (ANSUR II).
const SITTING: f64 = 900.0;

/// Farther than any wall of interest, mm.
const FAR: f64 = 5000.0;

/// A wet room, or a shower in it.
pub(crate) struct Wash<'a> {
    /// The module or zone.
    pub name: &'a str,
    /// Where it is written.
    pub span: Span,
    /// Its rectangle in plan.
    room: Rect,
    /// What takes room in it, seen from above.
    taken: Vec<Polygon>,
    /// Where the disc's middle may lie.
    over: Rect,
}

/// A toilet with the room around it.
pub(crate) struct Seat<'a> {
    /// The module.
    pub name: &'a str,
    /// Where it is written.
    pub span: Span,
    /// The toilet in plan.
    pub plan: Rect,
    /// From its middle to the next thing on both sides, the lower coordinate first, mm.
    pub sides: [f64; 2],
    /// Before it, mm.
    pub before: f64,
    /// Above its seat up to what hangs over it, mm; none where a person sits upright.
    pub low: Option<f64>,
}

/// The doors that people walk through, shut.
fn shut_doors(model: &Model, arrangement: &Arrangement) -> Vec<Prism> {
    let doors = model.moves(arrangement).filter(|(_, part)| part.walk_through);
    let leaves = doors.filter_map(|(module, part)| Hinged::of_module(module, part));
    let shut = leaves.map(|hinged| Prism {
        axis: hinged.axis,
        outline: hinged.leaf.outline(0.0),
        low: hinged.along.0,
        high: hinged.along.1,
    });
    shut.collect()
}

/// What takes room over a rectangle between two heights, seen from above: solids for which `counts` holds, cutaways and
/// shut doors.
fn taken(
    model: &Model,
    arrangement: &Arrangement,
    room: Rect,
    heights: (f64, f64),
    counts: impl Fn(&Solid) -> bool,
) -> Vec<Polygon> {
    let solids = model.solids(arrangement).filter(|(_, solid)| counts(solid)).map(|(_, solid)| solid.prism.clone());
    let cutaways = model.space.cutaways.iter().map(|cutaway| cutaway.prism.clone());
    let all = solids.chain(cutaways).chain(shut_doors(model, arrangement));
    let near = all.filter(|prism| {
        let shared = prism.bounds().plan().intersect(room);
        shared.width() > SAME_LENGTH && shared.height() > SAME_LENGTH
    });
    near.flat_map(|prism| prism.shadow(Axis::Z, heights.0, heights.1)).collect()
}

/// The part of a rectangle inside the box.
fn inside(model: &Model, rect: Rect) -> Rect {
    rect.intersect(super::ground::plan(model))
}

/// Modules with a shower, then zones of this purpose without such a module.
pub(crate) fn rooms<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Wash<'a>> {
    let has_shower = |state: &PoseState| state.solids.iter().any(|solid| solid.is(Tag::Shower));
    let of_module = model.states(arrangement).filter(|(_, state)| has_shower(state));
    let of_module: Vec<&Module> = of_module.map(|(module, _)| module).collect();
    let holds = |rect: Rect| of_module.iter().any(|module| rect.contains(module.extent.plan().center()));
    let zones = model.zones.iter().filter(|zone| zone.purpose == Purpose::WetRoom && !holds(zone.rect));
    let zones = zones.map(|zone| (zone.name.as_str(), zone.span, zone.rect, 0.0));
    let modules = of_module
        .iter()
        .map(|module| (module.name.as_str(), module.place_span, module.extent.plan(), module.extent.z.0));
    let wash = |(name, span, rect, floor): (&'a str, Span, Rect, f64)| {
        let room = inside(model, rect);
        let part_of_use = |solid: &Solid| solid.is(Tag::Toilet) || solid.is(Tag::Basin);
        let heights = (floor + STEP, floor + model.tallest());
        let taken = taken(model, arrangement, room, heights, |solid| !part_of_use(solid));
        Wash { name, span, room, taken, over: room }
    };
    modules.chain(zones).map(wash).collect()
}

/// Every shower, with all that stands in its way.
pub(crate) fn showers<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Wash<'a>> {
    let trays = model.solids(arrangement).filter(|(_, solid)| solid.is(Tag::Shower));
    let wash = trays.map(|(module, solid)| {
        let room = inside(model, module.extent.plan());
        let bottom = solid.prism.bounds().z.1;
        let heights = (bottom + STEP, bottom + model.tallest());
        let taken = taken(model, arrangement, room, heights, |_| true);
        let over = inside(model, solid.prism.bounds().plan());
        Wash { name: &module.name, span: module.place_span, room, taken, over }
    });
    wash.collect()
}

impl Wash<'_> {
    /// The largest square of free floor, widened; no size where there is none.
    pub fn floor(&self) -> Rect {
        inscribed(self.room, &self.taken, Size::new(1.0, 1.0)).unwrap_or_default()
    }

    /// The largest disc, as its middle and diameter.
    pub fn disc(&self, memo: &Memo) -> (Point, f64) {
        let free = Region::rect(self.room).subtract(&Region::new(&self.taken));
        let found = clearance(&free, memo).largest(&End::Area(Region::rect(self.over)));
        found.unwrap_or((self.over.center(), 0.0))
    }
}

/// Every toilet.
pub(crate) fn toilets<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Seat<'a>> {
    let solids = model.solids(arrangement).filter(|(_, solid)| solid.is(Tag::Toilet));
    solids.map(|(module, solid)| seat(model, arrangement, module, solid)).collect()
}

fn seat<'a>(model: &'a Model, arrangement: &Arrangement, module: &'a Module, toilet: &Solid) -> Seat<'a> {
    let bounds = toilet.prism.bounds();
    let out = if matches!(module.faces, Wall::Front | Wall::Rear) { Axis::X } else { Axis::Y };
    let along = Axis::Z.third(out);
    let ahead = if matches!(module.faces, Wall::Rear | Wall::Right) { 1.0 } else { -1.0 };
    let others = model.solids(arrangement).filter(|(_, solid)| !solid.is(Tag::Toilet));
    let mut things: Vec<Prism> = others.map(|(_, solid)| solid.prism.clone()).collect();
    things.extend(model.space.cutaways.iter().map(|cutaway| cutaway.prism.clone()));
    things.extend(shut_doors(model, arrangement));
    let things: Vec<&Prism> = things.iter().collect();
    let walls = Box3 { x: (0.0, model.space.length), y: (0.0, model.space.width), z: (0.0, f64::MAX) };
    let top = bounds.z.1;
    let go = |body: Box3, axis, way| travel(&body, axis, way, &walls, &model.space.roof, &things).free;
    let centre = {
        let (low, high) = bounds.range(along);
        f64::midpoint(low, high)
    };
    let sitter = bounds.with(along, (centre, centre)).with(Axis::Z, (top, top + SITTING));
    let legs = bounds.with(Axis::Z, (bounds.z.0.max(module.extent.z.0 + STEP), top + SITTING));
    let up = travel(&bounds.with(Axis::Z, (top, top)), Axis::Z, SITTING, &walls, &model.space.roof, &things);
    Seat {
        low: up.met.map(|_| up.free),
        name: &module.name,
        span: module.place_span,
        plan: bounds.plan().bounding_box(),
        sides: [go(sitter, along, -FAR), go(sitter, along, FAR)],
        before: go(legs, out, ahead * FAR),
    }
}
