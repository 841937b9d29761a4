//! The surfaces of the shell: how large each is, where its middle is, and what fills its openings.

use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Axis, Box3, Point3, Polygon, Prism, Roof};
use crate::model::{BoxSpace, CutKind, Cutaway, Opening, OpeningKind, Panel, Wall};
use kurbo::Point;

/// A flat or arched piece of the shell, without its openings.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface<'a> {
    /// Where it is, in words.
    pub name: String,
    /// What it is made of.
    pub panel: &'a Panel,
    /// Which way the heat goes through it.
    pub side: Wall,
    /// Inside area without openings, m2.
    pub area: f64,
    /// Middle of that area.
    pub centre: Point3,
}

/// An area being summed, with its moments.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    area: f64,
    moment: Point3,
}

impl Sum {
    /// Adds an area in mm2 at its middle; take one away with a negative area.
    fn add(&mut self, area: f64, at: Point3) {
        self.area += area;
        self.moment.x += area * at.x;
        self.moment.y += area * at.y;
        self.moment.z += area * at.z;
    }

    /// The middle.
    fn centre(self) -> Point3 {
        let by = |moment: f64| if self.area > 0.0 { moment / self.area } else { 0.0 };
        Point3 { x: by(self.moment.x), y: by(self.moment.y), z: by(self.moment.z) }
    }
}

/// All surfaces: walls, roof, floor, and what closes the cutaways.
#[must_use]
pub fn surfaces<'a>(space: &'a BoxSpace, openings: &[Opening]) -> Vec<Surface<'a>> {
    let mut made: Vec<Surface<'a>> = PANELS.map(|(wall, name)| flat(space, openings, wall, name)).into();
    made.extend(cut(space).map(|cutaway| closing(space, cutaway)));
    made.retain(|surface| surface.area > 0.0);
    made
}

/// Cutaways but for what leaning walls take: those count as if they stood upright.
fn cut(space: &BoxSpace) -> impl Iterator<Item = &Cutaway> {
    space.cutaways.iter().filter(|cutaway| !matches!(cutaway.kind, CutKind::Wall(_)))
}

const PANELS: [(Wall, &str); 6] = [
    (Wall::Front, "front wall"),
    (Wall::Rear, "rear wall"),
    (Wall::Left, "left wall"),
    (Wall::Right, "right wall"),
    (Wall::Roof, "roof"),
    (Wall::Floor, "floor"),
];

/// A wall, the roof or the floor, less openings and what cutaways take of it.
fn flat<'a>(space: &'a BoxSpace, openings: &[Opening], wall: Wall, name: &str) -> Surface<'a> {
    let mut sum = gross(space, wall);
    for opening in openings.iter().filter(|opening| opening.wall == wall) {
        sum.add(-opening_area(opening), opening_centre(space, opening));
    }
    for cutaway in cut(space) {
        let (area, at) = taken(space, &cutaway.prism, wall);
        sum.add(-area, at);
    }
    let area = (sum.area / 1e6).max(0.0);
    Surface { name: name.to_owned(), panel: panel_of(space, wall), side: wall, area, centre: sum.centre() }
}

/// A whole panel.
fn gross(space: &BoxSpace, wall: Wall) -> Sum {
    let (length, width) = (space.length, space.width);
    let mut sum = Sum::default();
    match wall {
        Wall::Left | Wall::Right => {
            let y = if wall == Wall::Left { 0.0 } else { width };
            let height = space.roof.height_at(y);
            sum.add(length * height, Point3 { x: length / 2.0, y, z: height / 2.0 });
        }
        Wall::Floor => sum.add(length * width, Point3 { x: length / 2.0, y: width / 2.0, z: 0.0 }),
        Wall::Front | Wall::Rear => {
            let x = if wall == Wall::Front { 0.0 } else { length };
            strips(&space.roof, |a, b| {
                // A strip between two heights: trapezium, its middle height by the usual formula.
                let (run, low, high) = (b.x - a.x, a.y, b.y);
                let z = (low * low + low * high + high * high) / (3.0 * (low + high).max(f64::MIN_POSITIVE));
                let y = a.x + run * (low + 2.0 * high) / (3.0 * (low + high).max(f64::MIN_POSITIVE));
                sum.add(run * (low + high) / 2.0, Point3 { x, y, z });
            });
        }
        Wall::Roof => strips(&space.roof, |a, b| {
            let middle = a.midpoint(b);
            sum.add(a.distance(b) * length, Point3 { x: length / 2.0, y: middle.x, z: middle.y });
        }),
    }
    sum
}

/// Each straight piece of the roof line from left to right.
fn strips(roof: &Roof, mut each: impl FnMut(Point, Point)) {
    let chain = roof.chain();
    for (a, b) in chain.iter().zip(chain.iter().skip(1)) {
        each(*a, *b);
    }
}

/// What a cutaway takes of a panel, mm2, and its middle: the face of the prism that lies in the panel.
fn taken(space: &BoxSpace, prism: &Prism, wall: Wall) -> (f64, Point3) {
    let bounds = inside(space, prism.bounds());
    let (axis, plane) = plane_of(space, wall);
    let none = (0.0, bounds.centre());
    if prism.axis == axis {
        let touches = (prism.low - plane).abs() < SAME_LENGTH || (prism.high - plane).abs() < SAME_LENGTH;
        let middle = prism.outline.points().iter().fold(Point::ZERO, |sum, point| sum + point.to_vec2());
        let count = prism.outline.points().len().max(1) as f64;
        let (u, v) = (middle.x / count, middle.y / count);
        let at = match axis {
            Axis::X => Point3 { x: plane, y: u, z: v },
            Axis::Y => Point3 { x: u, y: plane, z: v },
            Axis::Z => Point3 { x: u, y: v, z: plane },
        };
        return if touches { (prism.outline.area(), at) } else { none };
    }
    // An edge of the outline in the panel's plane, swept along the prism.
    let (first, _) = prism.axis.plane();
    let edges = prism.outline.edges().filter(|(a, b)| {
        let of = |point: &Point| if first == axis { point.x } else { point.y };
        (of(a) - plane).abs() < SAME_LENGTH && (of(b) - plane).abs() < SAME_LENGTH
    });
    let run: f64 = edges.map(|(a, b)| a.distance(b)).sum();
    let (low, high) = (prism.low, if prism.axis == Axis::Z { prism.high.min(lining(space, wall)) } else { prism.high });
    (run * (high - low).max(0.0), bounds.centre().on(axis, plane))
}

/// Height of the lining at a side wall; at others what is cut off goes up to its highest line.
fn lining(space: &BoxSpace, wall: Wall) -> f64 {
    match wall {
        Wall::Left => space.roof.height_at(0.0),
        Wall::Right => space.roof.height_at(space.width),
        _ => space.roof.highest(),
    }
}

/// The axis across a panel and its place; of the roof that of its highest line, where cutaways of it end.
fn plane_of(space: &BoxSpace, wall: Wall) -> (Axis, f64) {
    match wall {
        Wall::Front => (Axis::X, 0.0),
        Wall::Rear => (Axis::X, space.length),
        Wall::Left => (Axis::Y, 0.0),
        Wall::Right => (Axis::Y, space.width),
        Wall::Floor => (Axis::Z, 0.0),
        Wall::Roof => (Axis::Z, space.roof.highest()),
    }
}

fn inside(space: &BoxSpace, bounds: Box3) -> Box3 {
    let clip = |range: (f64, f64), most: f64| (range.0.max(0.0), range.1.min(most));
    Box3 { x: clip(bounds.x, space.length), y: clip(bounds.y, space.width), ..bounds }
}

/// What closes a cutaway: the faces of its prism that are not in a panel.
fn closing<'a>(space: &'a BoxSpace, Cutaway { name, prism, kind, .. }: &Cutaway) -> Surface<'a> {
    let side = match kind {
        CutKind::Floor => Wall::Floor,
        CutKind::Roof => Wall::Roof,
        CutKind::Corner | CutKind::Wall(_) => Wall::Left,
    };
    let ends = 2.0 * prism.outline.area();
    let around: f64 = prism.outline.edges().map(|(a, b)| a.distance(b)).sum();
    let whole = ends + around * (prism.high - prism.low);
    let walls = [Wall::Front, Wall::Rear, Wall::Left, Wall::Right, Wall::Floor, Wall::Roof];
    let open: f64 = walls.iter().map(|wall| taken(space, prism, *wall).0).sum();
    Surface {
        name: format!("cutaway {name}"),
        panel: panel_of(space, side),
        side,
        area: ((whole - open) / 1e6).max(0.0),
        centre: prism.bounds().centre(),
    }
}

/// Area of an opening, mm2.
#[must_use]
pub fn opening_area(opening: &Opening) -> f64 {
    let (run, rise) = (opening.along.1 - opening.along.0, opening.up.1 - opening.up.0);
    let corner = opening.radius.min(run.min(rise) / 2.0).max(0.0);
    run * rise - (4.0 - std::f64::consts::PI) * corner * corner
}

/// The middle of an opening.
#[must_use]
pub fn opening_centre(space: &BoxSpace, opening: &Opening) -> Point3 {
    let along = f64::midpoint(opening.along.0, opening.along.1);
    let up = f64::midpoint(opening.up.0, opening.up.1);
    match opening.wall {
        Wall::Front => Point3 { x: 0.0, y: along, z: up },
        Wall::Rear => Point3 { x: space.length, y: along, z: up },
        Wall::Left => Point3 { x: along, y: 0.0, z: up },
        Wall::Right => Point3 { x: along, y: space.width, z: up },
        Wall::Roof => Point3 { x: along, y: up, z: space.roof.height_at(up) },
        Wall::Floor => Point3 { x: along, y: up, z: 0.0 },
    }
}

/// Mass of what usually fills an opening, kg: a leaf of its panel with a frame by its length, hinges and lock; a window or hatch by its area with
/// what it is opened by. Common practice, no source; a door of a living box is sold with 25 to 40 kg, a small roof hatch with 3 to 5 kg, from memory.
#[must_use]
pub fn filling_mass(opening: &Opening, panel: &Panel) -> f64 {
    let (run, rise) = (opening.along.1 - opening.along.0, opening.up.1 - opening.up.0);
    let (area, around) = (opening_area(opening) / 1e6, 2.0 * (run + rise) / 1000.0);
    let (of_area, of_frame, each) = match opening.kind {
        OpeningKind::Door | OpeningKind::DoubleDoor | OpeningKind::SlidingDoor => (panel.areal_mass, 3.0, 4.0),
        OpeningKind::Hatch | OpeningKind::LiftGate => (panel.areal_mass, 1.5, 1.0),
        OpeningKind::Window => (12.0, 0.0, 0.5),
        OpeningKind::RoofHatch => (12.5, 0.0, 2.0),
        OpeningKind::PassThrough => (5.0, 0.0, 0.0),
        OpeningKind::Vent => (4.0, 0.0, 0.0),
    };
    area * of_area + around * of_frame + each
}

/// Heat transmittance of what usually fills an opening, W/(m2 K), from memory, not verified (a double acrylic window has
/// about 2.8); `None` for a leaf made of the panel it is in.
#[must_use]
pub fn usual_u(kind: OpeningKind) -> Option<f64> {
    match kind {
        OpeningKind::Door
        | OpeningKind::DoubleDoor
        | OpeningKind::SlidingDoor
        | OpeningKind::LiftGate
        | OpeningKind::Hatch => None,
        OpeningKind::Window => Some(2.8),
        OpeningKind::RoofHatch => Some(3.0),
        OpeningKind::PassThrough => Some(2.0),
        OpeningKind::Vent => Some(5.0),
    }
}

/// What a cutaway takes of a panel, in the panel's own coordinates (x for side walls, roof and floor, y for end walls; and z,
/// or y for roof and floor).
#[must_use]
pub fn taken_outline(space: &BoxSpace, prism: &Prism, wall: Wall) -> Option<Polygon> {
    let bounds = inside(space, prism.bounds());
    let (axis, plane) = plane_of(space, wall);
    let (low, high) = bounds.range(axis);
    let touches = (low - plane).abs() < SAME_LENGTH || (high - plane).abs() < SAME_LENGTH;
    let whole = || if prism.axis == axis { prism.outline.clone() } else { Polygon::rect(bounds.across(axis)) };
    touches.then(whole)
}

/// The panels that have layers: name, which way the heat goes, panel.
#[must_use]
pub fn layered(space: &BoxSpace) -> Vec<(&'static str, Wall, &Panel)> {
    let all = [
        ("walls", Wall::Left, &space.walls),
        ("roof", Wall::Roof, &space.roof_panel),
        ("floor", Wall::Floor, &space.floor),
    ];
    all.into_iter().filter(|(.., panel)| !panel.layers.is_empty()).collect()
}

/// The panel that an opening is in.
#[must_use]
pub fn panel_of(space: &BoxSpace, wall: Wall) -> &Panel {
    match wall {
        Wall::Roof => &space.roof_panel,
        Wall::Floor => &space.floor,
        _ => &space.walls,
    }
}

#[cfg(test)]
mod tests;
