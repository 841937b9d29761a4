//! The shell as it is seen from inside or cut: the edge of the room, the panels round it, cutaways.

use super::look::Look;
use super::painter::{Painter, cut_items};
use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::{Fill, Hatch, Item, LayerKind, LineClass};
use crate::geometry::{Axis, Polygon};
use crate::model::{BoxSpace, CutKind, Model, Opening, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::{Placement, polyline};
use kurbo::{BezPath, Point, Rect};

/// The inside of the room at a plane across the look, as it is seen, true mm.
pub(super) fn inside(space: &BoxSpace, look: Look, plane: f64) -> Polygon {
    let across = match look.axis() {
        Axis::X => {
            let mut points = vec![Point::new(0.0, 0.0), Point::new(space.width, 0.0)];
            points.extend(space.roof.chain().into_iter().rev());
            Polygon::new(points)
        }
        Axis::Y => Polygon::rect(Rect::new(0.0, 0.0, space.length, space.roof.height_at(plane))),
        Axis::Z => Polygon::rect(Rect::new(0.0, 0.0, space.length, space.width)),
    };
    look.polygon(&across)
}

/// Draws the floor, walls and roof as cut round the room, and the wall that is looked at with the line of its top.
pub(super) fn draw(model: &Model, painter: &Painter<'_>, place: Placement, canvas: &mut Canvas) {
    let space = &model.space;
    let look = painter.look;
    let room = inside(space, look, painter.plane.abs());
    let paper = place.closed(room.points());
    canvas.group(LayerKind::Shell, "panels", "Panels, cut", panels(model, painter, &room, place));
    let mut items = vec![Item::area(paper, Some(LineClass::Cut), Fill::Paper)];
    if look.axis() == Axis::Y {
        let top = space.roof.height_at(if look.at == Wall::Left { 0.0 } else { space.width });
        let bounds = room.bounds();
        let ends = [bounds.x0, bounds.x1].map(|x| place.to_paper(Point::new(x, top)));
        items.push(Item::segment(ends[0], ends[1], LineClass::Visible));
    }
    canvas.group(LayerKind::Shell, "room", "The room", items);
    // The wall that is looked at is the paper's ground, whichever way it leans.
    let others = space.cutaways.iter().filter(|cutaway| cutaway.kind != CutKind::Wall(look.at));
    for cutaway in others {
        let beyond = look.shadow(&cutaway.prism, painter.plane, f64::INFINITY);
        let mut items: Vec<Item> = beyond
            .iter()
            .map(|shape| Item::area(place.closed(shape.points()), Some(LineClass::Visible), Fill::Shell))
            .collect();
        if painter.is_cut(&cutaway.prism) {
            let faces = painter.cut_face(&cutaway.prism, place).into_iter();
            items.extend(faces.map(|face| Item::area(face, Some(LineClass::Cut), Fill::Shell)));
        }
        let title = format!("Cutaway {}", cutaway.name);
        canvas.group(LayerKind::Shell, &format!("cutaway-{}", cutaway.name), &title, items);
    }
}

/// The outside of the shell at the plane, as it is seen, true mm.
pub(super) fn outside(space: &BoxSpace, room: &Polygon) -> Polygon {
    let (wall, roof, floor) = (space.walls.thickness, space.roof_panel.thickness, space.floor.thickness);
    let bounds = room.bounds();
    let move_out = |point: &Point| {
        let x = if point.x <= bounds.x0 {
            point.x - wall
        } else if point.x >= bounds.x1 {
            point.x + wall
        } else {
            point.x
        };
        Point::new(x, if point.y <= bounds.y0 { point.y - floor } else { point.y + roof })
    };
    Polygon::new(room.points().iter().map(move_out).collect())
}

/// The band round the room, with gaps where openings are cut.
fn panels(model: &Model, painter: &Painter<'_>, room: &Polygon, place: Placement) -> Vec<Item> {
    let outer = outside(&model.space, room);
    let mut ring: BezPath = place.closed(outer.points());
    ring.extend(place.closed(room.points()));
    let mut items = cut_items(ring, Fill::Shell, Hatch::Foam).to_vec();
    let (inner, outer) = (room.bounds(), outer.bounds());
    for opening in &model.openings {
        let Some(rect) = hole(painter, opening, inner, outer) else { continue };
        let shape = if opening.wall == Wall::Roof {
            through_roof(room, rect, model.space.roof_panel.thickness)
        } else {
            Polygon::rect(rect)
        };
        items.push(Item::area(place.closed(shape.points()), Some(LineClass::Visible), Fill::Paper));
    }
    items
}

/// A hole straight up through the roof, along its slopes.
fn through_roof(room: &Polygon, hole: Rect, thickness: f64) -> Polygon {
    let bounds = room.bounds();
    let mut lining: Vec<Point> =
        room.points().iter().copied().filter(|p| p.y > bounds.y0 && hole.x0 < p.x && p.x < hole.x1).collect();
    let height = |x: f64| {
        let over = |(a, b): &(Point, Point)| {
            a.y > bounds.y0 && b.y > bounds.y0 && a.x.min(b.x) <= x && x <= a.x.max(b.x) && a.x != b.x
        };
        room.edges().find(over).map_or(bounds.y1, |(a, b)| a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x))
    };
    lining.extend([hole.x0, hole.x1].map(|x| Point::new(x, height(x))));
    lining.sort_by(|a, b| a.x.total_cmp(&b.x));
    let top = lining.iter().rev().map(|p| Point::new(p.x, p.y + thickness)).collect::<Vec<_>>();
    Polygon::new(lining.into_iter().chain(top).collect())
}

/// The gap that an opening makes in a cut wall, roof or floor, as it is seen.
fn hole(painter: &Painter<'_>, opening: &Opening, inner: Rect, outer: Rect) -> Option<Rect> {
    let look = painter.look;
    // Depth range and range across the gap; walls at both sides of the view, and roof and floor.
    let (into, along) = match (opening.wall, look.axis()) {
        (Wall::Front | Wall::Rear, Axis::Y) | (Wall::Left | Wall::Right, Axis::X) => (opening.along, opening.up),
        (Wall::Roof | Wall::Floor, Axis::X) => (opening.along, opening.up),
        (Wall::Roof | Wall::Floor, Axis::Y) => (opening.up, opening.along),
        _ => return None,
    };
    let (near, far) = look.depths(into);
    if near >= painter.plane || far <= painter.plane {
        return None;
    }
    let flip = look.seen(Point::new(1.0, 0.0)).x;
    let low_side = matches!(opening.wall, Wall::Front | Wall::Left) == (flip > 0.0);
    Some(match opening.wall {
        Wall::Roof => {
            let x = (along.0 * flip, along.1 * flip);
            Rect::new(x.0.min(x.1), inner.y1, x.0.max(x.1), outer.y1)
        }
        Wall::Floor => {
            let x = (along.0 * flip, along.1 * flip);
            Rect::new(x.0.min(x.1), outer.y0, x.0.max(x.1), inner.y0)
        }
        _ if low_side => Rect::new(outer.x0, along.0, inner.x0, along.1),
        _ => Rect::new(inner.x1, along.0, outer.x1, along.1),
    })
}

/// The lines between the layers of cut panels, thin.
pub(super) fn layers(space: &BoxSpace, room: &Polygon, place: Placement) -> Vec<Item> {
    let line = |thickness: f64, layup: &str, at: &dyn Fn(f64) -> (Point, Point)| -> Vec<Item> {
        let layers = crate::model::layups::layup(layup).map_or(&[][..], |layup| layup.layers);
        let mut depth = 0.0;
        let inner = layers.iter().take(layers.len().saturating_sub(1));
        inner
            .map(|(_, layer)| {
                depth += layer;
                let (a, b) = at(depth.min(thickness));
                Item::line(polyline([place.to_paper(a), place.to_paper(b)]), LineClass::Detail)
            })
            .collect()
    };
    let r = room.bounds();
    let mut items = line(space.floor.thickness, &space.floor.layup, &|d| (Point::new(r.x0, -d), Point::new(r.x1, -d)));
    let top = |x: f64| room.points().iter().filter(|p| (p.x - x).abs() <= SAME_LENGTH).map(|p| p.y).fold(0.0, f64::max);
    let (left, right) = (top(r.x0), top(r.x1));
    let walls = &space.walls;
    items.extend(line(walls.thickness, &walls.layup, &|d| (Point::new(r.x0 - d, 0.0), Point::new(r.x0 - d, left))));
    items.extend(line(walls.thickness, &walls.layup, &|d| (Point::new(r.x1 + d, 0.0), Point::new(r.x1 + d, right))));
    items
}
