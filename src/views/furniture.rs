//! Modules in plan: solids cut, below and above the plane, their linework, and what opens.

use super::canvas::Canvas;
use super::openings::Leaf;
use super::placement::{Placement, outline};
use super::scene::{CUT, Scene};
use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::geometry::Axis;
use crate::model::{Module, Move, MoveKind, PlanLine, PoseState, Solid, Swing};
use kurbo::{BezPath, Rect};

/// Where a solid lies to the plane of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Level {
    /// Wholly below.
    Below,
    /// Cut by the plane.
    Cut,
    /// Wholly above.
    Above,
}

/// Where a solid lies.
pub(super) fn level(solid: &Solid) -> Level {
    let (low, high) = solid.prism.bounds().z;
    if high <= CUT {
        Level::Below
    } else if low < CUT {
        Level::Cut
    } else {
        Level::Above
    }
}

/// Something to paint: lower ones first, so that upper ones hide them.
pub(super) struct Piece {
    /// Height, or nearness to the eye.
    pub height: f64,
    /// Index of its module among the states.
    pub module: usize,
    /// What is painted.
    pub item: Item,
}

/// Draws all modules of the arrangement.
pub(super) fn draw(scene: &Scene<'_>, canvas: &mut Canvas) {
    let states: Vec<(&Module, &PoseState)> = scene.model.states(scene.arrangement).collect();
    let mut pieces = Vec::new();
    for (module, (_, state)) in states.iter().enumerate() {
        pieces.extend(state.solids.iter().map(|solid| solid_piece(&scene.place, module, solid)));
        pieces.extend(state.linework.iter().map(|line| line_piece(&scene.place, module, line)));
    }
    paint(pieces, &states, canvas);
    for (module, state) in &states {
        let name = format!("moves-{}", module.name);
        canvas.group(LayerKind::Furniture, &name, &format!("What opens: {}", module.name), moves(scene, state));
    }
}

/// Paints pieces, a group for each run of pieces of one module.
pub(super) fn paint(mut pieces: Vec<Piece>, states: &[(&Module, &PoseState)], canvas: &mut Canvas) {
    pieces.sort_by(|a, b| a.height.total_cmp(&b.height));
    let mut run: Vec<Item> = Vec::new();
    let mut owner = None;
    for piece in pieces {
        if owner.is_some_and(|module| module != piece.module) {
            flush(states, owner, &mut run, canvas);
        }
        owner = Some(piece.module);
        run.push(piece.item);
    }
    flush(states, owner, &mut run, canvas);
}

fn flush(states: &[(&Module, &PoseState)], owner: Option<usize>, run: &mut Vec<Item>, canvas: &mut Canvas) {
    if let Some((module, _)) = owner.and_then(|at| states.get(at)) {
        let title = format!("{}: {}", module.name, module.says);
        canvas.group(LayerKind::Furniture, &format!("module-{}", module.name), &title, std::mem::take(run));
    }
}

fn solid_piece(place: &Placement, module: usize, solid: &Solid) -> Piece {
    let shape = solid_outline(place, solid);
    let (height, item) = match level(solid) {
        Level::Below => (solid.prism.bounds().z.1, Item::area(shape, Some(LineClass::Visible), Fill::Furniture)),
        Level::Cut => (CUT + 0.3, Item::area(shape, Some(LineClass::Cut), Fill::Cut)),
        Level::Above => (solid.prism.bounds().z.0.max(CUT) + 1.0, Item::line(shape, LineClass::Above)),
    };
    Piece { height, module, item }
}

/// The outline seen from above, on paper, with true curves where the symbol has them.
pub(super) fn solid_outline(place: &Placement, solid: &Solid) -> BezPath {
    match (solid.prism.axis, &solid.curve) {
        (Axis::Z, Some(curve)) => place.path(curve),
        (Axis::Z, None) => place.closed(solid.prism.outline.points()),
        _ => outline(place.rect(solid.prism.bounds().plan())),
    }
}

fn line_piece(place: &Placement, module: usize, line: &PlanLine) -> Piece {
    let class = if line.dashed || line.height > CUT { LineClass::Above } else { LineClass::Detail };
    Piece { height: line.height + 0.5, module, item: Item::line(place.path(&line.path), class) }
}

fn moves(scene: &Scene<'_>, state: &PoseState) -> Vec<Item> {
    let mut drawn: Vec<Rect> = Vec::new();
    let mut items = Vec::new();
    for part in &state.moves {
        let bounds = extent(part);
        let seen =
            drawn.iter().any(|rect| (rect.origin() - bounds.origin()).hypot() < 1.0 && rect.size() == bounds.size());
        if !seen {
            drawn.push(bounds);
            items.extend(one_move(&scene.place, part));
        }
    }
    items
}

/// What tells two moves apart in plan.
fn extent(part: &Move) -> Rect {
    match &part.kind {
        MoveKind::Slide(slide) => open_part(slide.body.plan(), slide.axis, slide.travel),
        MoveKind::Swing(swing) if swing.axis == Axis::Z => plan_leaf(swing).bounds(),
        MoveKind::Swing(_) => Rect::ZERO,
    }
}

/// How one move is seen in plan.
pub(super) fn one_move(place: &Placement, part: &Move) -> Vec<Item> {
    match &part.kind {
        MoveKind::Swing(swing) if swing.axis == Axis::Z => {
            let leaf = plan_leaf(swing);
            if part.walk_through { leaf.items(place, LineClass::Visible) } else { leaf.light_items(place) }
        }
        MoveKind::Slide(slide) if slide.axis != Axis::Z => {
            let open = open_part(slide.body.plan(), slide.axis, slide.travel);
            vec![Item::line(outline(place.rect(open)), LineClass::Moving)]
        }
        _ => Vec::new(),
    }
}

fn plan_leaf(swing: &Swing) -> Leaf {
    Leaf { hinge: swing.hinge, length: swing.length, thickness: swing.thickness, shut: swing.shut, opens: swing.opens }
}

/// The part of an open drawer that stands out of its place.
fn open_part(shut: Rect, axis: Axis, travel: f64) -> Rect {
    match (axis, travel > 0.0) {
        (Axis::X, true) => Rect::new(shut.x1, shut.y0, shut.x1 + travel, shut.y1),
        (Axis::X, false) => Rect::new(shut.x0 + travel, shut.y0, shut.x0, shut.y1),
        (Axis::Y, true) => Rect::new(shut.x0, shut.y1, shut.x1, shut.y1 + travel),
        (Axis::Y, false) => Rect::new(shut.x0, shut.y0 + travel, shut.x1, shut.y0),
        (Axis::Z, _) => shut,
    }
}
