//! Whether cargo passes the opening that it goes through: what of the opening is clear, and which face of the cargo
//! goes ahead.

use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::{Bound, Finding, Mark, Measure, Quantity, Requirement, SourceClass};
use crate::figures::Room;
use crate::geometry::{Axis, Box3, Hole, HolePart, Parcel, Stands};
use crate::model::{Arrangement, Cargo, Model, Opening, Wall};
use kurbo::{Point, Rect, Shape};

/// Most clear rectangles that are looked at; the smallest are dropped beyond it.
const MOST: usize = 64;

/// Clear rectangles of an opening as seen from inside, the largest first; empty if it does not open to the rooms.
///
/// The opening counts as far as the rooms reach behind it. Solids and cutaways within `deep` of the wall, or of the room
/// where that begins further in, take away their bounds.
pub(super) fn clear(
    model: &Model,
    arrangement: &Arrangement,
    opening: &Opening,
    rooms: &[&Room],
    deep: f64,
) -> Vec<Rect> {
    let rect = opening.hole();
    let mut found: Vec<Rect> = Vec::new();
    for room in rooms {
        let bounds = room.space.prism.bounds();
        let slab = behind(model, opening.wall, &bounds, deep);
        let axis = opening.wall.across();
        let wanted = rect.intersect(bounds.across(axis));
        if wanted.width() <= 0.0 || wanted.height() <= 0.0 {
            continue;
        }
        let solids = model.solids(arrangement).map(|(_, solid)| &solid.prism);
        let all = solids.chain(model.space.cutaways.iter().map(|cutaway| &cutaway.prism));
        let near = all.filter(|prism| {
            let range = prism.bounds().range(axis);
            range.0 < slab.1 && slab.0 < range.1
        });
        let shadows = near.flat_map(|prism| prism.shadow(axis, slab.0, slab.1)).map(|shadow| shadow.bounds());
        found.extend(without(wanted, shadows));
    }
    found.sort_by(|a, b| b.area().total_cmp(&a.area()));
    found
}

/// The range along the way in, from the wall to a depth inside a room.
fn behind(model: &Model, wall: Wall, room: &Box3, deep: f64) -> (f64, f64) {
    let (low, high) = room.range(wall.across());
    match wall {
        Wall::Front | Wall::Left | Wall::Floor => (0.0, low.max(0.0) + deep),
        Wall::Rear => (high.min(model.space.length) - deep, model.space.length),
        Wall::Right => (high.min(model.space.width) - deep, model.space.width),
        Wall::Roof => (high.min(model.space.height) - deep, model.space.height),
    }
}

/// The largest rectangles in one that others leave free.
fn without(whole: Rect, taken: impl Iterator<Item = Rect>) -> Vec<Rect> {
    let mut free = vec![whole];
    for cut in taken {
        let mut rest: Vec<Rect> = Vec::new();
        for rect in free {
            let common = rect.intersect(cut);
            if common.width() <= SAME_LENGTH || common.height() <= SAME_LENGTH {
                rest.push(rect);
                continue;
            }
            let parts = [
                Rect { x1: cut.x0, ..rect },
                Rect { x0: cut.x1, ..rect },
                Rect { y1: cut.y0, ..rect },
                Rect { y0: cut.y1, ..rect },
            ];
            rest.extend(
                parts.into_iter().filter(|part| part.x1 - part.x0 > SAME_LENGTH && part.y1 - part.y0 > SAME_LENGTH),
            );
        }
        rest.sort_by(|a, b| b.area().total_cmp(&a.area()));
        rest.dedup();
        rest.truncate(MOST);
        free = rest;
    }
    free
}

/// A clear rectangle in an opening, whose round corners take from it where they reach into it.
pub(super) fn part(opening: &Opening, clear: Rect) -> HolePart {
    HolePart { hole: opening.hole(), radius: opening.radius, free: clear }
}

/// Whether cargo passes a hole in a wall with some face ahead, as it may stand.
pub(super) fn passes(parcel: &Parcel, wall: Wall, part: &HolePart) -> bool {
    ahead(parcel, wall, |p, q| part.lets(p, q), |p, q| part.lets_straight(p, q))
}

/// The same of a hole with four like corners.
pub(super) fn passes_hole(parcel: &Parcel, wall: Wall, hole: Hole) -> bool {
    ahead(parcel, wall, |p, q| hole.lets(p, q), |p, q| hole.lets_straight(p, q))
}

/// Whether one of the faces passes that may go ahead, turned or straight.
fn ahead(parcel: &Parcel, wall: Wall, turned: impl Fn(f64, f64) -> bool, straight: impl Fn(f64, f64) -> bool) -> bool {
    let [first, second, third] = parcel.size;
    let upright = wall.across() != Axis::Z;
    match (parcel.stands, upright) {
        (Stands::Any, _) => turned(first, second) || turned(first, third) || turned(second, third),
        (Stands::Upright, true) => straight(first.min(second), third),
        (Stands::Upright, false) => turned(first, second),
        (Stands::Fixed, true) => straight(if wall.across() == Axis::X { second } else { first }, third),
        (Stands::Fixed, false) => straight(first, second),
    }
}

/// Of all pieces not one passes: what is said where no single side of the hole is to blame.
pub(super) fn none_passes(finding: Finding, cargo: &Cargo) -> Finding {
    let measured = Some(Measure { value: 0.0, quantity: Quantity::Count });
    let (all, class) = (Bound::Least(cargo.parcel.count as f64), SourceClass::Geometry);
    let required = Some(Requirement::new(all, Quantity::Count, class, "pieces listed by the layout"));
    Finding { measured, required, ..finding }
}

/// An opening in plan: its width on the wall, or its area in the roof.
pub(super) fn mark(model: &Model, opening: &Opening) -> Mark {
    let (from, to) = opening.along;
    let across = |x: f64| Mark::Between(Point::new(x, from), Point::new(x, to));
    let along = |y: f64| Mark::Between(Point::new(from, y), Point::new(to, y));
    match opening.wall {
        Wall::Front => across(0.0),
        Wall::Rear => across(model.space.length),
        Wall::Left => along(0.0),
        Wall::Right => along(model.space.width),
        Wall::Roof | Wall::Floor => Mark::Area(Rect::new(from, opening.up.0, to, opening.up.1).to_path(0.1)),
    }
}
