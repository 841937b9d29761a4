//! Where the shell needs inserts: places in a panel at which something heavy, a seat, a bed or a hinge is fixed.
//!
//! Common practice, no source: a module of more than 15 kg, or one that people sit or lie on, is fixed to every wall it
//! touches near its upper edge (hanging ones near their lower edge too, and to the roof), and to the floor it stands on;
//! inserts are 80 mm from the module's edges and at most 400 mm apart, on the floor 600 mm. A leaf is hung on two inserts,
//! on three where its side is longer than 1 m. None is nearer than 40 mm to an opening that it does not belong to.

use crate::geometry::Box3;
use crate::model::{BoxSpace, Model, Module, Need, Opening, Part, Wall};
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
const TOUCHES: f64 = 25.0;
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
    /// Mass of what is fixed for each of its inserts, kg; 0 for hinges.
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
    for module in model.modules.iter().filter(|module| is_fixed(model, module)) {
        of_module(model, module, &mut all);
    }
    for opening in model.openings.iter().filter(|opening| opening.hinge.is_some()) {
        all.placed.extend(hinges(opening));
    }
    all.placed.sort_by_key(|insert| insert.wall);
    all
}

/// Mass of a module without its contents, kg.
#[must_use]
pub fn own_mass(model: &Model, module: &Module) -> f64 {
    let part = |part: &Part| model.stocks.get(part.stock).map_or(0.0, |stock| part.mass(stock) * f64::from(part.count));
    let fitted = module.masses.iter().filter(|item| item.name != crate::model::CONTENTS).map(|item| item.mass);
    module.parts.iter().map(part).sum::<f64>() + fitted.sum::<f64>()
}

fn is_fixed(model: &Model, module: &Module) -> bool {
    let holds_people = |need| matches!(need, Need::Sitting | Need::Lying);
    let people = || module.poses.iter().any(|pose| pose.spaces.iter().any(|space| holds_people(space.need)));
    own_mass(model, module) > HEAVY || people()
}

/// The inserts of one module in every panel that it touches.
fn of_module(model: &Model, module: &Module, all: &mut Inserts) {
    let mut placed = Vec::new();
    for wall in touched(&model.space, &module.extent) {
        let holes: Vec<Rect> = model
            .openings
            .iter()
            .filter(|opening| opening.wall == wall)
            .map(|opening| hole(opening, FROM_OPENING))
            .collect();
        let before = placed.len();
        for (row, along) in rows(&module.extent, wall) {
            placed.extend(
                spread(along, if wall == Wall::Floor { APART_ON_FLOOR } else { APART })
                    .filter_map(|at| free(Point::new(at, row), along, &holes).map(|at| (wall, at))),
            );
        }
        if placed.len() == before {
            all.missing.push((module.name.clone(), wall, module.place_span));
        }
    }
    let carries = own_mass(model, module) / placed.len().max(1) as f64;
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

/// Rows of inserts in a panel: their place across the row, and the range along it.
fn rows(extent: &Box3, wall: Wall) -> Vec<(f64, (f64, f64))> {
    let inner = |(low, high): (f64, f64)| {
        let inset = INSET.min((high - low) / 2.0);
        (low + inset, high - inset)
    };
    let (x, y, z) = (inner(extent.x), inner(extent.y), inner(extent.z));
    let hangs = extent.z.0 >= TOUCHES;
    match wall {
        Wall::Floor | Wall::Roof => vec![(y.0, x), (y.1, x)],
        _ => {
            let along = if matches!(wall, Wall::Front | Wall::Rear) { y } else { x };
            if hangs { vec![(z.1, along), (z.0, along)] } else { vec![(z.1, along)] }
        }
    }
}

/// Places along a range, evenly, no more than `most` apart.
fn spread((low, high): (f64, f64), most: f64) -> impl Iterator<Item = f64> {
    let gaps = ((high - low) / most).ceil().max(if high - low > 1.0 { 1.0 } else { 0.0 });
    // At most a hundred metres in steps of 400 mm.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    (0..=gaps as u32).map(move |at| if gaps > 0.0 { low + (high - low) * f64::from(at) / gaps } else { low })
}

/// The place itself or the nearest one along the row that is clear of all openings.
fn free(at: Point, along: (f64, f64), holes: &[Rect]) -> Option<Point> {
    let shifts = (0..=MOST_SHIFTS).flat_map(|step| [f64::from(step) * SHIFT, -f64::from(step) * SHIFT]);
    let places = shifts.map(|shift| Point::new(at.x + shift, at.y));
    let mut inside = places.filter(|place| place.x >= along.0 && place.x <= along.1);
    inside.find(|place| holes.iter().all(|hole| !hole.contains(*place)))
}

/// An opening with a margin, in the coordinates of its panel.
#[must_use]
pub fn hole(opening: &Opening, margin: f64) -> Rect {
    Rect::new(opening.along.0, opening.up.0, opening.along.1, opening.up.1).inflate(margin, margin)
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
    let places: Vec<f64> = spread(ends, 1000.0).collect();
    let across = match (hinge, upright) {
        (Wall::Front | Wall::Left, true) => along.0 - FROM_OPENING,
        (_, true) => along.1 + FROM_OPENING,
        (Wall::Floor | Wall::Left | Wall::Front, false) => up.0 - FROM_OPENING,
        (_, false) => up.1 + FROM_OPENING,
    };
    let at = |place: f64| if upright { Point::new(across, place) } else { Point::new(place, across) };
    let insert =
        |place| Insert { wall: opening.wall, at: at(place), holds: format!("{}, hinge", opening.name), carries: 0.0 };
    places.into_iter().map(insert).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1,000 mm at most 400 apart are four places; one that lies in a hole moves aside, and one that can't is none.
    #[test]
    fn rows_are_even_and_clear_of_holes() {
        assert_eq!(spread((0.0, 1000.0), 400.0).map(f64::round).collect::<Vec<_>>(), [0.0, 333.0, 667.0, 1000.0]);
        let hole = Rect::new(300.0, 0.0, 500.0, 500.0);
        assert_eq!(free(Point::new(333.0, 100.0), (0.0, 1000.0), &[hole]), Some(Point::new(293.0, 100.0)));
        assert_eq!(free(Point::new(333.0, 600.0), (0.0, 1000.0), &[hole]), Some(Point::new(333.0, 600.0)));
        assert_eq!(free(Point::new(400.0, 100.0), (310.0, 490.0), &[hole]), None);
    }

    #[test]
    fn hanging_things_are_fixed_to_wall_and_roof_standing_ones_to_wall_and_floor() {
        let roof = crate::geometry::Roof::Line(vec![Point::new(0.0, 2000.0), Point::new(2000.0, 2000.0)]);
        let panel = || crate::model::Panel { layup: String::new(), thickness: 40.0, areal_mass: 8.0, layers: vec![] };
        let space = BoxSpace {
            length: 4000.0,
            width: 2000.0,
            height: 2000.0,
            roof,
            walls: panel(),
            roof_panel: panel(),
            floor: panel(),
            cutaways: vec![],
            span: Span::default(),
        };
        let hanging = Box3 { x: (1000.0, 2000.0), y: (0.0, 300.0), z: (1600.0, 2000.0) };
        assert_eq!(touched(&space, &hanging), [Wall::Left, Wall::Roof]);
        assert_eq!(rows(&hanging, Wall::Left).len(), 2);
        let standing = Box3 { z: (0.0, 2000.0), ..hanging };
        assert_eq!(touched(&space, &standing), [Wall::Left, Wall::Floor]);
    }
}
