//! Openings in plan: doors with leaf and swing arc, windows and hatches in the wall, hatches in the roof.

use crate::base::number::trimmed;
use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::model::{Opening, OpeningKind, Swings, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::{Placement, arc, outline, polar, polyline};
use crate::views::kit::scene::{Scene, wall_point};
use crate::views::kit::words::sentence;
use crate::views::plan::shell::is_cut;
use kurbo::{BezPath, Point, Rect};

/// Thickness at which a leaf is drawn, at most, mm.
const LEAF: f64 = 30.0;

/// A leaf that turns about an upright hinge, in plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::views) struct Leaf {
    /// The hinge, mm in the box.
    pub hinge: Point,
    /// Hinge to free edge, mm.
    pub length: f64,
    /// Thickness, mm.
    pub thickness: f64,
    /// Direction when shut, degrees counter-clockwise from x.
    pub shut: f64,
    /// Turn when open, degrees, counter-clockwise positive.
    pub opens: f64,
}

impl Leaf {
    /// The open leaf as a single line and its arc, for what people do not walk through.
    pub fn light_items(&self, place: &Placement) -> Vec<Item> {
        let hinge = place.to_paper(self.hinge);
        let tip = place.to_paper(polar(self.hinge, self.length, self.shut + self.opens));
        let sweep = arc(hinge, place.length(self.length), self.shut, self.opens);
        vec![Item::line(sweep, LineClass::Moving), Item::segment(hinge, tip, LineClass::Moving)]
    }

    /// The open leaf and its arc.
    pub fn items(&self, place: &Placement, line: LineClass) -> Vec<Item> {
        let open = self.shut + self.opens;
        let across = open - 90.0 * self.opens.signum();
        let tip = polar(self.hinge, self.length, open);
        let corners = [self.hinge, tip, polar(tip, self.thickness, across), polar(self.hinge, self.thickness, across)];
        let hinge = place.to_paper(self.hinge);
        let sweep = arc(hinge, place.length(self.length), self.shut, self.opens);
        vec![Item::line(sweep, LineClass::Detail), Item::area(place.closed(&corners), Some(line), Fill::Paper)]
    }

    /// Bounds of all it sweeps, mm in the box.
    pub fn bounds(&self) -> Rect {
        let tip = |share: f64| polar(self.hinge, self.length, self.shut + self.opens * share);
        let start = Rect::from_points(self.hinge, tip(0.0));
        (1..=24).fold(start, |rect, step| rect.union_pt(tip(f64::from(step) / 24.0)))
    }
}

/// Draws every opening.
pub(in crate::views) fn draw(scene: &Scene<'_>, canvas: &mut Canvas) {
    for opening in &scene.model.openings {
        let (layer, items) = match opening.wall {
            Wall::Roof | Wall::Floor => (LayerKind::Hidden, flat(scene, opening)),
            _ => (LayerKind::Shell, in_wall(scene, opening)),
        };
        canvas.group(layer, &format!("opening-{}", opening.name), &title(opening), items);
    }
}

/// What an opening is, with its heights.
fn title(opening: &Opening) -> String {
    let kind = sentence(opening.kind.words());
    if opening.lies_flat() {
        return format!("{kind} {}", opening.name);
    }
    format!("{kind} {}, sill {}, head {}", opening.name, trimmed(opening.up.0, 1), trimmed(opening.up.1, 1))
}

/// A hole in roof or floor, crossed.
fn flat(scene: &Scene<'_>, opening: &Opening) -> Vec<Item> {
    let rect = scene.place.rect(opening.hole());
    let cross = |a: (f64, f64), b: (f64, f64)| Item::segment(Point::from(a), Point::from(b), LineClass::Above);
    vec![
        Item::line(outline(rect), LineClass::Above),
        cross((rect.x0, rect.y0), (rect.x1, rect.y1)),
        cross((rect.x0, rect.y1), (rect.x1, rect.y0)),
    ]
}

fn in_wall(scene: &Scene<'_>, opening: &Opening) -> Vec<Item> {
    let cut = is_cut(opening);
    let glazed = opening.kind == OpeningKind::Window;
    let (edge, middle) = match (cut, glazed) {
        (false, _) => (LineClass::Above, LineClass::Above),
        (true, true) => (LineClass::Visible, LineClass::Detail),
        (true, false) => (LineClass::Detail, LineClass::Detail),
    };
    let mut items = vec![along_line(scene, opening, 0.0, edge), along_line(scene, opening, 1.0, edge)];
    if !cut {
        items = across_lines(scene, opening);
    }
    if glazed {
        items.push(along_line(scene, opening, 0.4, middle));
        items.push(along_line(scene, opening, 0.6, middle));
    } else if !opening.kind.is_door() || !cut {
        items.push(along_line(scene, opening, 0.5, middle));
    }
    let line = if cut { LineClass::Visible } else { LineClass::Above };
    if is_drawn(opening) {
        items.extend(leaves(scene, opening).iter().flat_map(|leaf| leaf.items(&scene.place, line)));
        items.extend(slid(scene, opening, line));
    }
    items
}

/// A line along the wall at a share of its thickness from the inner face.
fn along_line(scene: &Scene<'_>, opening: &Opening, share: f64, line: LineClass) -> Item {
    let space = &scene.model.space;
    let at = |along| scene.place.to_paper(wall_point(space, opening.wall, along, -share * space.walls.thickness));
    Item::segment(at(opening.along.0), at(opening.along.1), line)
}

/// Both ends of an opening across the wall, dashed: it lies wholly over or under the plane.
fn across_lines(scene: &Scene<'_>, opening: &Opening) -> Vec<Item> {
    let space = &scene.model.space;
    let at = |along, off| scene.place.to_paper(wall_point(space, opening.wall, along, off));
    let ends = [opening.along.0, opening.along.1];
    let line = |along: f64| -> BezPath { polyline([at(along, 0.0), at(along, -space.walls.thickness)]) };
    ends.into_iter().map(|along| Item::line(line(along), LineClass::Above)).collect()
}

/// What swings into the box, and doors; a window or a hatch that swings out is no matter of the plan.
fn is_drawn(opening: &Opening) -> bool {
    opening.swings == Swings::In || (opening.kind.is_door() && is_cut(opening))
}

/// A sliding leaf where it stands when it is open, and the way that it goes.
fn slid(scene: &Scene<'_>, opening: &Opening, line: LineClass) -> Vec<Item> {
    let Some(open) = opening.slid() else { return Vec::new() };
    let space = &scene.model.space;
    let thickness = LEAF.min(space.walls.thickness);
    let (near, far) = match opening.swings {
        Swings::In => (0.0, thickness),
        _ => (-space.walls.thickness, -space.walls.thickness - thickness),
    };
    let at = |along, off| scene.place.to_paper(wall_point(space, opening.wall, along, off));
    let leaf = Rect::from_points(at(open.x0, near), at(open.x1, far));
    let middle = f64::midpoint(near, far);
    let way = Item::segment(at(opening.hole().center().x, middle), at(open.center().x, middle), LineClass::Moving);
    vec![way, Item::area(outline(leaf), Some(line), Fill::Paper)]
}

/// The leaves of an opening with upright hinges.
pub(in crate::views) fn leaves(scene: &Scene<'_>, opening: &Opening) -> Vec<Leaf> {
    opening.leaves().iter().filter_map(|one| leaf(scene, one)).collect()
}

/// The leaf of an opening with an upright hinge.
fn leaf(scene: &Scene<'_>, opening: &Opening) -> Option<Leaf> {
    let space = &scene.model.space;
    let at_low = match (opening.wall, opening.hinge?) {
        (Wall::Left | Wall::Right, Wall::Front) | (Wall::Front | Wall::Rear, Wall::Left) => true,
        (Wall::Left | Wall::Right, Wall::Rear) | (Wall::Front | Wall::Rear, Wall::Right) => false,
        _ => return None,
    };
    let off = match opening.swings {
        Swings::In => 0.0,
        Swings::Out => -space.walls.thickness,
        Swings::No => return None,
    };
    let (low, high) = opening.along;
    let (hinge, free) = if at_low { (low, high) } else { (high, low) };
    let hinge = wall_point(space, opening.wall, hinge, off);
    let free = wall_point(space, opening.wall, free, off);
    let inward = wall_point(space, opening.wall, 0.0, 1.0) - wall_point(space, opening.wall, 0.0, 0.0);
    let toward = if opening.swings == Swings::In { inward } else { -inward };
    let shut = free - hinge;
    let opens = opening.opens * shut.cross(toward).signum();
    let thickness = LEAF.min(space.walls.thickness);
    Some(Leaf { hinge, length: high - low, thickness, shut: shut.atan2().to_degrees(), opens })
}

/// How far leaves reach beyond the outside of the shell on each side: (left, below, right, above), paper mm.
pub(in crate::views) fn reach_outside(scene: &Scene<'_>) -> (f64, f64, f64, f64) {
    let outside = scene.outside();
    let drawn = scene.model.openings.iter().filter(|o| is_drawn(o)).flat_map(|o| leaves(scene, o));
    let all = drawn.fold(outside, |rect, leaf| rect.union(scene.place.rect(leaf.bounds())));
    let things = scene.model.solids(scene.arrangement).filter(|(module, _)| module.outside);
    let all = things.fold(all, |rect, (_, solid)| rect.union(scene.place.rect(solid.prism.bounds().plan())));
    (outside.x0 - all.x0, outside.y0 - all.y0, all.x1 - outside.x1, all.y1 - outside.y1)
}

/// What the picture may fill: the shell, what swings out of it, and a little more.
pub(in crate::views) fn window(scene: &Scene<'_>) -> Rect {
    let (left, below, right, above) = reach_outside(scene);
    let outside = scene.outside().inflate(2.0, 2.0);
    Rect::new(outside.x0 - left, outside.y0 - below, outside.x1 + right, outside.y1 + above)
}
