//! The shell in plan: the walls' band with its gaps, and what is cut away at the floor.

use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::geometry::{Axis, Polygon, Prism, Region};
use crate::model::{CutKind, Cutaway, Opening, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::outline;
use crate::views::kit::scene::{CUT, Scene, wall_point};
use kurbo::{BezPath, Point, Rect};

/// Going round the box counter-clockwise on paper: each wall, and whether its coordinate grows on the way.
const ROUND: [(Wall, bool); 4] = [(Wall::Left, true), (Wall::Rear, true), (Wall::Right, false), (Wall::Front, false)];

/// Draws walls and cutaways.
pub(in crate::views) fn draw(scene: &Scene<'_>, canvas: &mut Canvas) {
    let walls = pieces(scene).into_iter().map(|piece| Item::area(piece, Some(LineClass::Cut), Fill::Shell)).collect();
    canvas.group(LayerKind::Shell, "walls", "Walls", walls);
    for cutaway in &scene.model.space.cutaways {
        let title = format!("Cutaway {}", cutaway.name);
        let stands = matches!(cutaway.kind, CutKind::Wall(_));
        let layer = if stands { LayerKind::Shell } else { LayerKind::Hidden };
        canvas.group(layer, &format!("cutaway-{}", cutaway.name), &title, cutaway_items(scene, cutaway));
    }
}

/// An opening interrupts the walls' band when the plan's plane goes through it.
pub(in crate::views) fn is_cut(opening: &Opening) -> bool {
    !opening.lies_flat() && opening.up.0 < CUT && opening.up.1 > CUT
}

/// The band's outlines on paper: one ring when whole, else one piece from each gap to the next.
pub(in crate::views) fn pieces(scene: &Scene<'_>) -> Vec<BezPath> {
    let gaps = gaps(scene);
    let corners: Vec<&Prism> = cut_corners(scene).collect();
    if !corners.is_empty() {
        return band(scene, &corners, &gaps);
    }
    if gaps.is_empty() {
        let mut ring = outline(scene.outside());
        ring.extend(outline(scene.inside()));
        return vec![ring];
    }
    let next = gaps.iter().cycle().skip(1);
    gaps.iter().zip(next).map(|(gap, next)| piece(scene, gap, next)).collect()
}

/// Corners that are cut away at the height of the plan.
fn cut_corners<'a>(scene: &Scene<'a>) -> impl Iterator<Item = &'a Prism> {
    let cut = scene.model.space.cutaways.iter().filter(|cutaway| cutaway.kind == CutKind::Corner);
    cut.map(|cutaway| &cutaway.prism).filter(|prism| prism.low < CUT && prism.high > CUT)
}

/// The band round a box with cut corners, less the gaps: what lies between the room and the room moved out.
fn band(scene: &Scene<'_>, corners: &[&Prism], gaps: &[Gap]) -> Vec<BezPath> {
    const FAR: f64 = 10_000.0;
    let space = &scene.model.space;
    let (room, thick) = (Rect::new(0.0, 0.0, space.length, space.width), space.walls.thickness);
    let middle = room.center();
    // Everything beyond the slope of a corner, moved out.
    let beyond = |prism: &&Prism, out: f64| {
        let inner: Vec<Point> =
            prism.outline.points().iter().copied().filter(|point| on_one_wall(*point, room)).collect();
        let [a, b] = inner[..] else { return Region::default() };
        let way = (b - a) / a.distance(b).max(f64::MIN_POSITIVE);
        let mut normal = kurbo::Vec2::new(-way.y, way.x);
        if normal.dot(middle - a) > 0.0 {
            normal = -normal;
        }
        let (a, b) = (a + normal * out - way * FAR, b + normal * out + way * FAR);
        Region::new([&Polygon::new(vec![a, b, b + normal * FAR, a + normal * FAR])])
    };
    let less = |rect: Rect, out: f64| {
        Region::rect(rect).subtract_all(&corners.iter().map(|prism| beyond(prism, out)).collect::<Vec<_>>())
    };
    let holes = gaps.iter().filter_map(|gap| {
        let (wall, _) = ROUND.get(gap.side)?;
        let at = |along, off| wall_point(space, *wall, along, off);
        Some(Region::rect(Rect::from_points(at(gap.start, 1.0), at(gap.end, -thick - 1.0))))
    });
    let band = less(room.inflate(thick, thick), thick).subtract(&less(room, 0.0));
    let path = |part: Region| {
        let mut path = BezPath::new();
        part.contours().for_each(|contour| path.extend(scene.place.closed(&contour)));
        path
    };
    band.subtract_all(&holes.collect::<Vec<_>>()).parts().map(path).collect()
}

/// Whether a point lies on one wall, not in a corner.
fn on_one_wall(point: Point, room: Rect) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() <= SAME_LENGTH;
    let end = near(point.x, room.x0) || near(point.x, room.x1);
    let side = near(point.y, room.y0) || near(point.y, room.y1);
    end != side
}

/// A gap in walking order: the wall's place in `ROUND`, and where it starts and ends along that wall.
struct Gap {
    side: usize,
    start: f64,
    end: f64,
}

fn gaps(scene: &Scene<'_>) -> Vec<Gap> {
    let mut gaps = Vec::new();
    for (side, (wall, grows)) in ROUND.iter().enumerate() {
        let space = &scene.model.space;
        let end = if matches!(wall, Wall::Front | Wall::Rear) { space.width } else { space.length };
        let cut = scene.model.openings.iter().filter(|o| o.wall == *wall && is_cut(o));
        let mut ranges: Vec<(f64, f64)> =
            cut.map(|o| (o.along.0.max(0.0), o.along.1.min(end))).filter(|range| range.0 < range.1).collect();
        ranges.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut merged: Vec<(f64, f64)> = Vec::new();
        for range in ranges {
            match merged.last_mut() {
                Some(last) if range.0 <= last.1 => last.1 = last.1.max(range.1),
                _ => merged.push(range),
            }
        }
        if !grows {
            merged = merged.into_iter().rev().map(|(a, b)| (b, a)).collect();
        }
        gaps.extend(merged.into_iter().map(|(start, end)| Gap { side, start, end }));
    }
    gaps
}

/// The band from the end of one gap round to the start of the next.
fn piece(scene: &Scene<'_>, gap: &Gap, next: &Gap) -> BezPath {
    let thickness = scene.model.space.walls.thickness;
    let mut points = side_of_piece(scene, gap, next, 0.0);
    let mut outer = side_of_piece(scene, gap, next, thickness);
    outer.reverse();
    points.append(&mut outer);
    scene.place.closed(&points)
}

/// One face of a piece, `out` beyond the inner face: from the gap's end over the corners to the next gap's start.
fn side_of_piece(scene: &Scene<'_>, gap: &Gap, next: &Gap, out: f64) -> Vec<Point> {
    let space = &scene.model.space;
    let at = |side: usize, along: f64| {
        ROUND.get(side).map_or(Point::ZERO, |(wall, _)| wall_point(space, *wall, along, -out))
    };
    let corners = [
        Point::new(space.length + out, -out),
        Point::new(space.length + out, space.width + out),
        Point::new(-out, space.width + out),
        Point::new(-out, -out),
    ];
    let ahead = next.side == gap.side && progress(gap, next.start) > progress(gap, gap.end);
    let count = if ahead { 0 } else { (next.side + 3 - gap.side) % 4 + 1 };
    let mut points = vec![at(gap.side, gap.end)];
    points.extend((0..count).filter_map(|step| corners.get((gap.side + step) % 4)).copied());
    points.push(at(next.side, next.start));
    points
}

fn progress(gap: &Gap, along: f64) -> f64 {
    if ROUND.get(gap.side).is_some_and(|(_, grows)| *grows) { along } else { -along }
}

fn cutaway_items(scene: &Scene<'_>, cutaway: &Cutaway) -> Vec<Item> {
    match cutaway.kind {
        CutKind::Corner => return Vec::new(),
        CutKind::Wall(_) => return leaning(scene, &cutaway.prism),
        CutKind::Floor | CutKind::Roof => {}
    }
    let plan = cutaway.prism.bounds().plan();
    let hidden = |shape| Item::line(shape, LineClass::Above);
    let mut items = vec![hidden(outline(scene.place.rect(plan)))];
    match floor_range(&cutaway.prism) {
        Some(floor) => items.push(hidden(outline(scene.place.rect(floor)))),
        None => {
            let [a, b] = [Point::new(plan.x0, plan.y0), Point::new(plan.x1, plan.y1)];
            let line = BezPath::from_vec(vec![
                kurbo::PathEl::MoveTo(scene.place.to_paper(a)),
                kurbo::PathEl::LineTo(scene.place.to_paper(b)),
            ]);
            items.push(hidden(line));
        }
    }
    items
}

/// A leaning wall as the plan cuts it, and its edge at the floor.
fn leaning(scene: &Scene<'_>, prism: &Prism) -> Vec<Item> {
    let shape = |shape: &Polygon| scene.place.closed(shape.points());
    let cut = prism.shadow(Axis::Z, CUT - SAME_LENGTH, CUT + SAME_LENGTH);
    cut.iter().map(|cut| Item::area(shape(cut), Some(LineClass::Visible), Fill::Shell)).collect()
}

/// For a cutaway swept sideways that is narrower at the floor than above, or wider: its part at the floor.
fn floor_range(prism: &Prism) -> Option<Rect> {
    let lowest = prism.outline.points().iter().map(|point| point.y).fold(f64::INFINITY, f64::min);
    let at_floor = prism.outline.points().iter().filter(|point| point.y <= lowest.max(0.0));
    let range = at_floor.fold((f64::INFINITY, f64::NEG_INFINITY), |r, p| (r.0.min(p.x), r.1.max(p.x)));
    if range.0 >= range.1 {
        return None;
    }
    match prism.axis {
        Axis::X => Some(Rect::new(prism.low, range.0, prism.high, range.1)),
        Axis::Y => Some(Rect::new(range.0, prism.low, range.1, prism.high)),
        Axis::Z => None,
    }
}
