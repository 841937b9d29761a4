//! Where the shell needs inserts: places in a panel at which something heavy, a seat, a bed or a hinge is fixed.
//!
//! Common practice, no source: a module of more than 15 kg, one that hangs, or one that people sit or lie on, is fixed to every panel it
//! touches through the boards that lie against it: rails and backs on walls, plinths and bench fronts on the floor. Where none
//! does, along its upper edge (hanging ones along the lower edge too, and to the roof). Inserts are 80 mm from the ends and
//! at most 400 mm apart, on the floor 600 mm. A leaf is hung on two inserts,
//! on three where its side is longer than 1 m. None is nearer than 40 mm to an opening that it does not belong to.

use super::taken_outline;
use crate::geometry::{Box3, Region};
use crate::model::{BoxSpace, CutKind, Cutaway, Model, Module, Need, Opening, Place, PoseState, Space, Wall};
use crate::source::Span;
use kurbo::{Point, Rect};

/// Modules heavier than this are fixed with inserts, kg.
pub const HEAVY: f64 = 15.0;
/// From the edge of the module, mm.
const INSET: f64 = 80.0;
const APART: f64 = 400.0;
const APART_ON_FLOOR: f64 = 600.0;
/// From an opening, mm.
pub const FROM_OPENING: f64 = 40.0;
/// A module this near to a panel touches it, mm.
const TOUCHES: f64 = 10.0;
/// Mass of a person whom the layout does not name, kg; Regulation (EU) 1230/2012, annex I, 2.6.2.1.
const PERSON: f64 = 75.0;
/// A board this near to a panel lies against it, with packers if it must, mm.
const REACH: f64 = 60.0;
/// Boards are no thicker than this, and fixed through faces at least this long and wide, mm.
const THICK: f64 = 40.0;
const LEAST_LENGTH: f64 = 200.0;
const LEAST_FACE: f64 = 40.0;
/// Boards wider than this are fixed along both edges, mm.
const WIDE: f64 = 300.0;
/// Inserts of one module nearer than this are one, mm.
const TOGETHER: f64 = 100.0;
const SHIFT: f64 = 20.0;
const MOST_SHIFTS: u32 = 12;

/// One insert.
#[derive(Debug, Clone, PartialEq)]
pub struct Insert {
    /// The panel it is in.
    pub wall: Wall,
    /// Where: x for the side walls, roof and floor, y for the end walls; and z, or y for roof and floor.
    pub at: Point,
    /// What is fixed.
    pub holds: String,
    /// Mass of what is fixed, with contents and people, for each of its inserts, kg; 0 for hinges.
    pub carries: f64,
}

/// All inserts, and what found no place for one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Inserts {
    /// In the order of the panels and of the layout.
    pub placed: Vec<Insert>,
    /// What, the panel, and where the layout places it.
    pub missing: Vec<(String, Wall, Span)>,
}

/// The inserts of a layout.
#[must_use]
pub fn inserts(model: &Model) -> Inserts {
    let mut all = Inserts::default();
    for module in model.modules.iter().filter(|module| !module.outside && is_fixed(model, module)) {
        of_module(model, module, &mut all);
    }
    for opening in model.openings.iter().filter(|opening| !opening.of_vehicle) {
        all.placed.extend(opening.leaves().iter().flat_map(hinges));
    }
    all.placed.sort_by_key(|insert| insert.wall);
    all
}

/// Mass of a module without its contents, kg.
#[must_use]
pub fn own_mass(model: &Model, module: &Module) -> f64 {
    model.parts_mass(module) + module.fitted_mass()
}

/// Mass that a module brings on its inserts, kg: its own, its contents, and the people in or on it at their most.
#[must_use]
pub fn borne_mass(model: &Model, module: &Module) -> f64 {
    let named = model.people.iter().filter(|person| module.sleepers.iter().any(|one| one.who == person.name));
    let named: f64 = named.map(|person| person.mass).sum();
    let places = |pose: &PoseState| {
        pose.spaces.iter().filter(|space| holds_people(space)).map(|space| space.people.max(1)).sum()
    };
    let most: u32 = module.poses.iter().map(places).max().unwrap_or(0);
    own_mass(model, module) + module.contents_mass() + named.max(f64::from(most) * PERSON)
}

fn holds_people(space: &Space) -> bool {
    matches!(space.need, Need::Sitting | Need::Lying)
}

/// What is heavy, holds people, or hangs.
fn is_fixed(model: &Model, module: &Module) -> bool {
    let people = || module.poses.iter().any(|pose| pose.spaces.iter().any(holds_people));
    let hangs = module.extent.z.0 >= TOUCHES && !module.parts.is_empty();
    hangs || own_mass(model, module) > HEAVY || people()
}

/// The inserts of one module in every panel that it touches.
fn of_module(model: &Model, module: &Module, all: &mut Inserts) {
    let mut placed: Vec<(Wall, Point)> = Vec::new();
    for wall in touched(&model.space, &module.extent) {
        let own = model.openings.iter().filter(|opening| opening.wall == wall);
        let holes = own.map(|opening| Region::rect(opening.hole().inflate(FROM_OPENING, FROM_OPENING)));
        let others = |cutaway: &&Cutaway| cutaway.kind != CutKind::Wall(wall);
        let cut = model.space.cutaways.iter().filter(others).filter_map(|cutaway| {
            taken_outline(&model.space, &cutaway.prism, wall).map(|outline| Region::new([&outline]))
        });
        let holes: Vec<Region> = holes.chain(cut).collect();
        let before = placed.len();
        for line in lines(&model.space, module, wall) {
            for at in spread(line, if wall == Wall::Floor { APART_ON_FLOOR } else { APART }) {
                let Some(at) = free(at, line, &holes) else { continue };
                if !placed.iter().any(|(other, near)| *other == wall && near.distance(at) < TOGETHER) {
                    placed.push((wall, at));
                }
            }
        }
        if placed.len() == before {
            all.missing.push((module.name.clone(), wall, module.place_span));
        }
    }
    let carries = borne_mass(model, module) / placed.len().max(1) as f64;
    let insert = |(wall, at)| Insert { wall, at, holds: module.name.clone(), carries };
    all.placed.extend(placed.into_iter().map(insert));
}

/// The panels that something touches: it is not fixed to the roof if it stands on the floor.
fn touched(space: &BoxSpace, extent: &Box3) -> Vec<Wall> {
    let lining = space.roof.least_over(extent.y.0.max(0.0), extent.y.1.min(space.width)).0;
    let stands = extent.z.0 < TOUCHES;
    let near = [
        (Wall::Front, extent.x.0 < TOUCHES),
        (Wall::Rear, extent.x.1 > space.length - TOUCHES),
        (Wall::Left, extent.y.0 < TOUCHES),
        (Wall::Right, extent.y.1 > space.width - TOUCHES),
        (Wall::Roof, extent.z.1 > lining - TOUCHES && !stands),
        (Wall::Floor, stands),
    ];
    near.into_iter().filter(|(_, is)| *is).map(|(wall, _)| wall).collect()
}

/// A line along which something is fixed, in the panel's coordinates.
type Line = (Point, Point);

/// Lines of a module in a panel: through the boards that lie against it, else near the edges of the module's room.
fn lines(space: &BoxSpace, module: &Module, wall: Wall) -> Vec<Line> {
    let boards = module.parts.iter().flat_map(|part| &part.places).map(Place::bounds);
    let found: Vec<Line> = boards.filter_map(|board| through(space, &board, wall)).flatten().collect();
    if found.is_empty() { around(&module.extent, wall) } else { found }
}

/// The lines through a board that lies against a panel and is large enough to be fixed: one along its middle, two along a
/// wide one.
fn through(space: &BoxSpace, board: &Box3, wall: Wall) -> Option<Vec<Line>> {
    let (near, across) = match wall {
        Wall::Front => (board.x.0, board.x),
        Wall::Rear => (space.length - board.x.1, board.x),
        Wall::Left => (board.y.0, board.y),
        Wall::Right => (space.width - board.y.1, board.y),
        Wall::Floor => (board.z.0, board.z),
        Wall::Roof => return None,
    };
    let face = face(board, wall);
    let (long, short) = (face.width().max(face.height()), face.width().min(face.height()));
    // On the floor a board stands on its edge; on a wall its face lies against it.
    let lies = wall == Wall::Floor || (across.1 - across.0 <= THICK && short >= LEAST_FACE);
    if near > REACH || !lies || long < LEAST_LENGTH {
        return None;
    }
    let off = if short > WIDE { short / 2.0 - INSET } else { 0.0 };
    let offs = if off > 0.0 { vec![-off, off] } else { vec![0.0] };
    let middle = face.center();
    let half = long / 2.0 - INSET.min(long / 4.0);
    let line = |off: f64| match face.width() >= face.height() {
        true => (Point::new(middle.x - half, middle.y + off), Point::new(middle.x + half, middle.y + off)),
        false => (Point::new(middle.x + off, middle.y - half), Point::new(middle.x + off, middle.y + half)),
    };
    Some(offs.into_iter().map(line).collect())
}

/// A box in a panel's coordinates.
fn face(of: &Box3, wall: Wall) -> Rect {
    let (along, up) = match wall {
        Wall::Front | Wall::Rear => (of.y, of.z),
        Wall::Left | Wall::Right => (of.x, of.z),
        Wall::Roof | Wall::Floor => (of.x, of.y),
    };
    Rect::new(along.0, up.0, along.1, up.1)
}

/// Lines near the edges of a module's room: the upper one on a wall and, if it hangs, the lower one; both sides on floor and
/// roof.
fn around(extent: &Box3, wall: Wall) -> Vec<Line> {
    let face = face(extent, wall);
    let inset = |size: f64| INSET.min(size / 2.0);
    let inner = face.inset((-inset(face.width()), -inset(face.height())));
    let level = |y: f64| (Point::new(inner.x0, y), Point::new(inner.x1, y));
    let both = matches!(wall, Wall::Floor | Wall::Roof) || extent.z.0 >= TOUCHES;
    if both { vec![level(inner.y1), level(inner.y0)] } else { vec![level(inner.y1)] }
}

/// Places along a line, evenly, no more than `most` apart.
fn spread((from, to): Line, most: f64) -> impl Iterator<Item = Point> {
    let length = from.distance(to);
    let gaps = (length / most).ceil().max(if length > 1.0 { 1.0 } else { 0.0 });
    // At most a hundred metres in steps of 400 mm.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    (0..=gaps as u32).map(move |at| if gaps > 0.0 { from.lerp(to, f64::from(at) / gaps) } else { from })
}

/// The place itself or the nearest one along its line that is clear of all openings and cutaways.
fn free(at: Point, (from, to): Line, holes: &[Region]) -> Option<Point> {
    let length = from.distance(to).max(f64::MIN_POSITIVE);
    let along = (to - from) / length;
    let own = (at - from).dot(along);
    let shifts = (0..=MOST_SHIFTS).flat_map(|step| [f64::from(step) * SHIFT, -f64::from(step) * SHIFT]);
    let places = shifts.map(|shift| own + shift).filter(|place| (0.0..=length).contains(place));
    let mut points = places.map(|place| from + along * place);
    points.find(|place| holes.iter().all(|hole| !hole.contains(*place)))
}

/// Inserts beside the edge that a leaf hangs on.
fn hinges(opening: &Opening) -> Vec<Insert> {
    const FROM_END: f64 = 120.0;
    let (along, up) = (opening.along, opening.up);
    let is_upright = |side: Wall| matches!(side, Wall::Front | Wall::Rear | Wall::Left | Wall::Right);
    let Some(hinge) = opening.hinge else { return Vec::new() };
    let upright = is_upright(hinge) && !opening.lies_flat();
    let range = if upright { up } else { along };
    let ends = (range.0 + FROM_END.min((range.1 - range.0) / 4.0), range.1 - FROM_END.min((range.1 - range.0) / 4.0));
    let places = spread((Point::new(ends.0, 0.0), Point::new(ends.1, 0.0)), 1000.0).map(|at| at.x);
    let across = match (hinge, upright) {
        (Wall::Front | Wall::Left, true) => along.0 - FROM_OPENING,
        (_, true) => along.1 + FROM_OPENING,
        (Wall::Floor | Wall::Left | Wall::Front, false) => up.0 - FROM_OPENING,
        (_, false) => up.1 + FROM_OPENING,
    };
    let at = |place: f64| if upright { Point::new(across, place) } else { Point::new(place, across) };
    let insert =
        |place| Insert { wall: opening.wall, at: at(place), holds: format!("{}, hinge", opening.name), carries: 0.0 };
    places.map(insert).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1,000 mm at most 400 apart are four places; one that lies in a hole moves aside, and one that can't is none.
    #[test]
    fn rows_are_even_and_clear_of_holes() {
        let line = |low, high, y| (Point::new(low, y), Point::new(high, y));
        let places: Vec<f64> = spread(line(0.0, 1000.0, 0.0), 400.0).map(|at| at.x.round()).collect();
        assert_eq!(places, [0.0, 333.0, 667.0, 1000.0]);
        let hole = Region::rect(Rect::new(300.0, 0.0, 500.0, 500.0));
        assert_eq!(
            free(Point::new(333.0, 100.0), line(0.0, 1000.0, 100.0), std::slice::from_ref(&hole)),
            Some(Point::new(293.0, 100.0))
        );
        assert_eq!(
            free(Point::new(333.0, 600.0), line(0.0, 1000.0, 600.0), std::slice::from_ref(&hole)),
            Some(Point::new(333.0, 600.0))
        );
        assert_eq!(free(Point::new(400.0, 100.0), line(310.0, 490.0, 100.0), std::slice::from_ref(&hole)), None);
    }

    #[test]
    fn hanging_things_are_fixed_to_wall_and_roof_standing_ones_to_wall_and_floor() {
        let space = crate::model::testing::space(4000.0, 2000.0, 2000.0);
        let hanging = Box3 { x: (1000.0, 2000.0), y: (0.0, 300.0), z: (1600.0, 2000.0) };
        assert_eq!(touched(&space, &hanging), [Wall::Left, Wall::Roof]);
        assert_eq!(around(&hanging, Wall::Left).len(), 2);
        let standing = Box3 { z: (0.0, 2000.0), ..hanging };
        assert_eq!(touched(&space, &standing), [Wall::Left, Wall::Floor]);
        // By hand: a rail of 70 mm on the wall is fixed along its middle, a plinth along its own; a side stands on end.
        let rail = Box3 { x: (1000.0, 2000.0), y: (20.0, 35.0), z: (1700.0, 1770.0) };
        assert_eq!(
            through(&space, &rail, Wall::Left),
            Some(vec![(Point::new(1080.0, 1735.0), Point::new(1920.0, 1735.0))])
        );
        let plinth = Box3 { x: (1000.0, 2000.0), y: (495.0, 510.0), z: (0.0, 60.0) };
        assert_eq!(
            through(&space, &plinth, Wall::Floor),
            Some(vec![(Point::new(1080.0, 502.5), Point::new(1920.0, 502.5))])
        );
        let side = Box3 { x: (1000.0, 1015.0), y: (0.0, 500.0), z: (100.0, 900.0) };
        assert_eq!(through(&space, &side, Wall::Left), None);
    }
}
