//! The furnished plan of one arrangement as a customer sees it: fills, floor, people; nothing of the workshop.

use super::people;
use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::figures;
use crate::model::{Module, Opening, OpeningKind, Pattern, PlanLine, PoseState, Solid, Swings, Tag, Theme, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::misfit::hatched;
use crate::views::kit::piece::{Owner, Piece, owner, paint};
use crate::views::kit::placement::{outline, polyline};
use crate::views::kit::scene::{Scene, wall_point};
use crate::views::plan::furniture::solid_outline;
use crate::views::plan::openings::leaves;
use crate::views::plan::shell;
use kurbo::{BezPath, Rect, RoundedRect, Shape};

/// What begins above this height is overhead, mm: an upper bunk is seen, lockers and raised beds are not.
pub(super) const EYE: f64 = 1400.0;
/// Joints closer than this on paper would be a grey area, mm.
const CLOSEST: f64 = 0.7;
/// Length of a floor board, in widths.
const BOARD: f64 = 11.0;
/// Thickness of a shut leaf, mm.
const LEAF: f64 = 30.0;

/// Draws floor, walls, openings, furniture and people.
pub(super) fn draw(scene: &Scene<'_>, theme: &Theme, canvas: &mut Canvas) {
    canvas.group(LayerKind::Shell, "floor", "Floor", floor(scene, theme));
    let walls = shell::pieces(scene).into_iter();
    let walls = walls.map(|piece| Item::area(piece, Some(LineClass::Cut), Fill::Shell)).collect();
    canvas.group(LayerKind::Shell, "walls", "Walls", walls);
    furniture(scene, canvas);
    for (module, state) in scene.model.states(scene.arrangement).filter(|(_, state)| is_overhead(state)) {
        let title = format!("{}, overhead", module.name);
        canvas.group(LayerKind::Hidden, &format!("overhead-{}", module.name), &title, overhead(scene, state));
    }
    canvas.clip(scene.outside().inflate(0.5, 0.5));
    for opening in &scene.model.openings {
        let layer = if opening.lies_flat() { LayerKind::Hidden } else { LayerKind::Shell };
        let title = format!("{} {}", opening.kind.words(), opening.name);
        canvas.group(layer, &format!("opening-{}", opening.name), &title, opening_items(scene, opening));
    }
}

/// The floor with its joints.
fn floor(scene: &Scene<'_>, theme: &Theme) -> Vec<Item> {
    let inside = scene.inside();
    let mut items = vec![Item::area(outline(inside), None, Fill::Floor)];
    let pitch = scene.place.length(theme.size);
    if theme.pattern != Pattern::None && pitch >= CLOSEST {
        items.push(Item::line(joints(inside, pitch, theme.pattern), LineClass::Floor));
    }
    items
}

fn joints(inside: Rect, pitch: f64, pattern: Pattern) -> BezPath {
    let mut joints = BezPath::new();
    let mut line = |a: (f64, f64), b: (f64, f64)| joints.extend(polyline([a.into(), b.into()]));
    let rows = (inside.height() / pitch).ceil().max(1.0) as usize;
    for row in 0..rows {
        let low = inside.y0 + pitch * row as f64;
        let high = (low + pitch).min(inside.y1);
        if row > 0 {
            line((inside.x0, low), (inside.x1, low));
        }
        if pattern == Pattern::Boards {
            // Ends of boards lie apart from row to row by a step that does not come round soon.
            let board = pitch * BOARD;
            let mut x = inside.x0 + board * ((row as f64 * 0.382 + 0.25) % 1.0);
            while x < inside.x1 {
                line((x, low), (x, high));
                x += board;
            }
        }
    }
    if pattern == Pattern::Tiles {
        let columns = (inside.width() / pitch).ceil().max(1.0) as usize;
        for x in (1..columns).map(|column| inside.x0 + pitch * column as f64) {
            line((x, inside.y0), (x, inside.y1));
        }
    }
    joints
}

/// Furniture, bedding and people, lower ones first, a group for each run of pieces of one owner.
fn furniture(scene: &Scene<'_>, canvas: &mut Canvas) {
    let mut pieces = people::pieces(scene.model, scene.arrangement, &scene.place);
    let berths = figures::lying(scene.model, scene.arrangement);
    let pillows: Vec<&PlanLine> =
        berths.iter().flat_map(|berth| people::pillows(scene.model, scene.arrangement, berth)).collect();
    for (module, state) in scene.model.states(scene.arrangement) {
        let owner = owner(module);
        if is_overhead(state) {
            continue;
        }
        pieces.extend(state.solids.iter().filter(|s| is_seen(s)).map(|solid| solid_piece(scene, &owner, solid)));
        let lines = state.linework.iter().filter(|line| !line.dashed && line.height < EYE);
        let lines = lines.filter(|line| !pillows.iter().any(|pillow| std::ptr::eq(*pillow, *line)));
        pieces.extend(lines.map(|line| line_piece(scene, &owner, module, state, line)));
        pieces.extend(door_pieces(scene, &owner, state));
    }
    paint(pieces, canvas);
    for (module, _) in scene.model.states(scene.arrangement) {
        hatched(module, scene.place.rect(module.extent.plan()), canvas);
    }
}

/// Whether a solid is not overhead.
pub(super) fn is_seen(solid: &Solid) -> bool {
    solid.prism.bounds().z.0 < EYE
}

fn solid_piece(scene: &Scene<'_>, owner: &Owner, solid: &Solid) -> Piece {
    let (fill, line) = look(solid);
    Piece::area(solid.prism.bounds().z.1, owner, solid_outline(&scene.place, solid), line, fill)
}

/// How a solid looks by what it is for.
fn look(solid: &Solid) -> (Fill, LineClass) {
    let fill = if solid.is_any(&[Tag::Toilet, Tag::Basin, Tag::Mattress, Tag::Hob]) {
        Fill::Paper
    } else if solid.is_any(&[Tag::Shower, Tag::Sink]) {
        Fill::Wet
    } else if solid.is_any(&[Tag::Seat, Tag::Cushion, Tag::Backrest]) {
        Fill::Upholstery
    } else if solid.is(Tag::Wall) && solid.prism.bounds().z.1 > EYE {
        Fill::Shell
    } else {
        Fill::Furniture
    };
    (fill, if fill == Fill::Shell { LineClass::Cut } else { LineClass::Visible })
}

/// A line of a symbol; a closed one on something wet is its bowl.
fn line_piece(scene: &Scene<'_>, owner: &Owner, module: &Module, state: &PoseState, line: &PlanLine) -> Piece {
    let shape = scene.place.path(&line.path);
    let middle = line.path.bounding_box().center();
    let closed = shape.elements().last() == Some(&kurbo::PathEl::ClosePath);
    let bowl = |solid: &&Solid| {
        let on = (solid.prism.bounds().z.1 - line.height).abs() < 1.0 && solid.prism.bounds().plan().contains(middle);
        on && solid.is_any(&[Tag::Toilet, Tag::Basin])
    };
    let height = line.height.min(module.extent.z.1) + 0.05;
    if closed && state.solids.iter().any(|solid| bowl(&solid)) {
        return Piece::area(height, owner, shape, LineClass::Detail, Fill::Wet);
    }
    Piece { height, owner: Owner::clone(owner), item: Item::line(shape, LineClass::Detail) }
}

/// Doors inside that people walk through, open.
fn door_pieces(scene: &Scene<'_>, owner: &Owner, state: &PoseState) -> Vec<Piece> {
    let doors = state.moves.iter().filter(|part| part.walk_through);
    let items = doors.flat_map(|part| crate::views::plan::furniture::one_move(&scene.place, part));
    items.map(|item| Piece { height: EYE, owner: Owner::clone(owner), item }).collect()
}

/// Most of what it has is above the eye.
pub(super) fn is_overhead(state: &PoseState) -> bool {
    let most = |seen: bool| -> f64 {
        let solids = state.solids.iter().filter(|solid| is_seen(solid) == seen);
        solids.map(|solid| solid.prism.bounds().plan().area()).fold(0.0, f64::max)
    };
    most(false) > 2.0 * most(true)
}

/// One outline around all that is overhead.
fn overhead(scene: &Scene<'_>, state: &PoseState) -> Vec<Item> {
    let plans = state.solids.iter().filter(|solid| !is_seen(solid)).map(|solid| solid.prism.bounds().plan());
    let all = plans.reduce(|a, b| a.union(b)).map(|rect| scene.place.rect(rect).inflate(-0.5, -0.5));
    all.filter(|rect| rect.width() > 0.0 && rect.height() > 0.0)
        .map(|rect| Item::line(outline(rect), LineClass::Above))
        .into_iter()
        .collect()
}

fn opening_items(scene: &Scene<'_>, opening: &Opening) -> Vec<Item> {
    match (opening.kind, opening.lies_flat()) {
        (OpeningKind::RoofHatch, _) => roof_hatch(scene, opening),
        (_, true) | (OpeningKind::Vent, _) => Vec::new(),
        (OpeningKind::Window, _) => {
            let middle = pane(scene, opening, (0.38, 0.62), Fill::Paper);
            vec![pane(scene, opening, (0.0, 1.0), Fill::Glass), middle]
        }
        (OpeningKind::Hatch | OpeningKind::LiftGate, _) => {
            let sill = shell::is_cut(opening).then(|| pane(scene, opening, (0.0, 1.0), Fill::Floor));
            sill.into_iter().chain([pane(scene, opening, (0.5, 1.0), Fill::Furniture)]).collect()
        }
        (OpeningKind::PassThrough, _) => vec![pane(scene, opening, (0.0, 1.0), Fill::Floor)],
        (OpeningKind::Door | OpeningKind::DoubleDoor | OpeningKind::SlidingDoor, _) => door(scene, opening),
    }
}

/// A door: a leaf that swings in is drawn open, any other shut with a sign that people come in here.
fn door(scene: &Scene<'_>, opening: &Opening) -> Vec<Item> {
    let mut items = vec![pane(scene, opening, (0.0, 1.0), Fill::Floor)];
    let leaves = leaves(scene, opening);
    if opening.swings == Swings::In && !leaves.is_empty() {
        items.extend(leaves.iter().flat_map(|leaf| leaf.items(&scene.place, LineClass::Visible)));
    } else {
        let share = (LEAF / scene.model.space.walls.thickness).min(1.0);
        items.push(pane(scene, opening, (1.0 - share, 1.0), Fill::Paper));
    }
    items.push(way_in(scene, opening));
    items
}

/// A small triangle outside that points into the box.
fn way_in(scene: &Scene<'_>, opening: &Opening) -> Item {
    let space = &scene.model.space;
    let on_paper = |mm: f64| mm * scene.place.scale;
    let middle = f64::midpoint(opening.along.0, opening.along.1);
    let point = |along: f64, out: f64| {
        let off = -space.walls.thickness - on_paper(out);
        scene.place.to_paper(wall_point(space, opening.wall, middle + on_paper(along), off))
    };
    let mut shape = polyline([point(0.0, 1.3), point(-1.7, 4.1), point(1.7, 4.1)]);
    shape.close_path();
    Item::area(shape, None, Fill::Ink)
}

/// A strip along an opening between two shares of the wall's thickness from the inner face.
fn pane(scene: &Scene<'_>, opening: &Opening, (from, to): (f64, f64), fill: Fill) -> Item {
    let space = &scene.model.space;
    let end = if matches!(opening.wall, Wall::Front | Wall::Rear) { space.width } else { space.length };
    let at = |along: f64, share: f64| {
        let off = -share * space.walls.thickness;
        scene.place.to_paper(wall_point(space, opening.wall, along.clamp(0.0, end), off))
    };
    let rect = Rect::from_points(at(opening.along.0, from), at(opening.along.1, to));
    Item::area(outline(rect), Some(LineClass::Detail), fill)
}

/// Two round-cornered frames, dashed, since it is overhead.
fn roof_hatch(scene: &Scene<'_>, opening: &Opening) -> Vec<Item> {
    let hole = opening.hole();
    let frame = |inset: f64| {
        let rect = scene.place.rect(hole.inflate(-inset, -inset)).abs();
        let radius = scene.place.length(opening.radius.max(20.0));
        Item::line(RoundedRect::from_rect(rect, radius).to_path(0.005), LineClass::Above)
    };
    let least = hole.width().min(hole.height());
    if least > 200.0 { vec![frame(0.0), frame(least * 0.12)] } else { vec![frame(0.0)] }
}
