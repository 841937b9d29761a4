//! Vents that gas sinks out by, and the lockers that hold its bottles.

use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::Box3;
use crate::model::{Arrangement, LoadKind, Model, Module, Opening, OpeningKind, Tag, Wall};
use crate::source::Span;
use kurbo::Rect;

/// A vent no farther from a module than this takes its gas, mm; common practice, no source.
const BESIDE: f64 = 300.0;
/// A vent that ends no higher than this is low, mm; a TÜV leaflet on EN 721, as quoted by public pages.
const LOW: f64 = 100.0;

/// What holds a bottle of gas.
pub(super) struct Locker<'a> {
    /// The module that holds it, or the bottle.
    pub name: &'a str,
    pub room: Box3,
    pub module: Option<&'a Module>,
    pub spans: Vec<Span>,
}

/// The lockers of all bottles inside, each once.
pub(super) fn lockers(model: &Model) -> Vec<Locker<'_>> {
    let mut found: Vec<Locker<'_>> = Vec::new();
    for load in model.loads.iter().filter(|load| load.kind == LoadKind::GasBottle) {
        let at = load.at;
        let holds = |room: &Box3| {
            let within = |range: (f64, f64), at: f64| range.0 <= at && at <= range.1;
            within(room.x, at.x) && within(room.y, at.y) && within(room.z, at.z)
        };
        let space = &model.space;
        if !holds(&Box3 { x: (0.0, space.length), y: (0.0, space.width), z: (0.0, f64::INFINITY) }) {
            continue;
        }
        let module = model.modules.iter().find(|module| holds(&module.extent));
        let own =
            load.room.as_ref().map_or(Box3 { x: (at.x, at.x), y: (at.y, at.y), z: (at.z, at.z) }, |room| room.bounds());
        let locker = match module {
            Some(module) => {
                let spans = vec![module.place_span, load.span];
                Locker { name: &module.name, room: module.extent, module: Some(module), spans }
            }
            None => Locker { name: &load.name, room: own, module: None, spans: vec![load.span] },
        };
        if !found.iter().any(|known| known.name == locker.name) {
            found.push(locker);
        }
    }
    found
}

/// The free area of the vents that gas around a room sinks out by, and their names.
pub(super) fn vented(model: &Model, room: &Box3) -> (f64, String) {
    let near = room.plan().inflate(BESIDE + SAME_LENGTH, BESIDE + SAME_LENGTH);
    let vents = model.openings.iter().filter(|one| one.kind == OpeningKind::Vent && lies_low(model, one, near));
    let vents: Vec<&Opening> = vents.collect();
    let names: Vec<String> = vents.iter().map(|vent| format!("`{}`", vent.name)).collect();
    // The sum of nothing is -0.
    (vents.iter().map(|vent| vent.free_area).sum::<f64>() + 0.0, names.join(" and "))
}

fn lies_low(model: &Model, vent: &Opening, near: Rect) -> bool {
    let ((a, b), (low, high)) = (vent.along, vent.up);
    let at = match vent.wall {
        Wall::Floor => Rect::new(a, low, b, high),
        Wall::Front => Rect::new(0.0, a, 1.0, b),
        Wall::Rear => Rect::new(model.space.length - 1.0, a, model.space.length, b),
        Wall::Left => Rect::new(a, 0.0, b, 1.0),
        Wall::Right => Rect::new(a, model.space.width - 1.0, b, model.space.width),
        Wall::Roof => return false,
    };
    (vent.wall == Wall::Floor || high <= LOW + SAME_LENGTH) && at.overlaps(near)
}

/// Batteries, switches and sockets within a locker, in words.
pub(super) fn sparks(model: &Model, arrangement: &Arrangement, locker: &Locker<'_>) -> Vec<(String, Span)> {
    let Some(module) = locker.module else { return Vec::new() };
    let tags = [Tag::Battery, Tag::Switch, Tag::Socket];
    let state = model.states(arrangement).find(|(other, _)| other.name == module.name);
    let solids = state.into_iter().flat_map(|(_, state)| &state.solids).filter(|solid| solid.is_any(&tags));
    let own = solids.map(|solid| (format!("`{}`", solid.name), solid.span));
    let inside = |at: crate::geometry::Point3| {
        let plan = locker.room.plan();
        plan.contains(kurbo::Point::new(at.x, at.y)) && locker.room.z.0 <= at.z && at.z <= locker.room.z.1
    };
    let loads = model.loads.iter().filter(|load| load.kind == LoadKind::Battery && inside(load.at));
    own.chain(loads.map(|load| (format!("the load `{}`", load.name), load.span))).collect()
}
