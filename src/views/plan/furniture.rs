//! Modules in plan: solids cut, below and above the plane, their linework, and what opens.

use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::geometry::Axis;
use crate::model::{Module, Move, MoveKind, PlanLine, PoseState, Solid, Swing};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::head;
use crate::views::kit::misfit::hatched;
use crate::views::kit::piece::{Owner, Piece, owner, paint};
use crate::views::kit::placement::{Placement, outline};
use crate::views::kit::scene::{CUT, Scene};
use crate::views::plan::openings::Leaf;
use kurbo::{BezPath, Rect, Vec2};

/// Thicker than this is no leaf but a drawer, mm.
const LEAF: f64 = 60.0;
/// From a sliding leaf to the arrow of its way, mm on paper.
const BESIDE: f64 = 1.6;

/// Where a solid lies to the plane of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::views) enum Level {
    /// Wholly below.
    Below,
    /// Cut by the plane.
    Cut,
    /// Wholly above.
    Above,
}

/// Where a solid lies.
pub(in crate::views) fn level(solid: &Solid) -> Level {
    let (low, high) = solid.prism.bounds().z;
    if high <= CUT {
        Level::Below
    } else if low < CUT {
        Level::Cut
    } else {
        Level::Above
    }
}

/// Draws all modules of the arrangement.
pub(in crate::views) fn draw(scene: &Scene<'_>, canvas: &mut Canvas) {
    let states: Vec<(&Module, &PoseState)> = scene.model.states(scene.arrangement).collect();
    let mut pieces = Vec::new();
    for (module, state) in &states {
        let owner = owner(module);
        pieces.extend(state.solids.iter().map(|solid| solid_piece(&scene.place, &owner, solid)));
        pieces.extend(state.linework.iter().map(|line| line_piece(&scene.place, &owner, line)));
    }
    paint(pieces, canvas);
    for (module, _) in &states {
        hatched(module, scene.place.rect(module.extent.plan()), canvas);
    }
    for (module, state) in &states {
        let name = format!("moves-{}", module.name);
        canvas.group(LayerKind::Furniture, &name, &format!("What opens: {}", module.name), moves(scene, state));
    }
}

fn solid_piece(place: &Placement, owner: &Owner, solid: &Solid) -> Piece {
    let shape = solid_outline(place, solid);
    let (height, item) = match level(solid) {
        Level::Below => (solid.prism.bounds().z.1, Item::area(shape, Some(LineClass::Visible), Fill::Furniture)),
        Level::Cut => (CUT + 0.3, Item::area(shape, Some(LineClass::Cut), Fill::Cut)),
        Level::Above => (solid.prism.bounds().z.0.max(CUT) + 1.0, Item::line(shape, LineClass::Above)),
    };
    Piece { height, owner: Owner::clone(owner), item }
}

/// The outline seen from above, on paper, with true curves where the symbol has them.
pub(in crate::views) fn solid_outline(place: &Placement, solid: &Solid) -> BezPath {
    match (solid.prism.axis, &solid.curve) {
        (Axis::Z, Some(curve)) => place.path(curve),
        (Axis::Z, None) => place.closed(solid.prism.outline.points()),
        _ => outline(place.rect(solid.prism.bounds().plan())),
    }
}

fn line_piece(place: &Placement, owner: &Owner, line: &PlanLine) -> Piece {
    let class = if line.dashed || line.height > CUT { LineClass::Above } else { LineClass::Detail };
    Piece { height: line.height + 0.5, owner: Owner::clone(owner), item: Item::line(place.path(&line.path), class) }
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
        MoveKind::Swing(swing) => lid(swing).unwrap_or(Rect::ZERO),
    }
}

/// How one move is seen in plan.
pub(in crate::views) fn one_move(place: &Placement, part: &Move) -> Vec<Item> {
    match &part.kind {
        MoveKind::Swing(swing) if swing.axis == Axis::Z => {
            let leaf = plan_leaf(swing);
            if part.walk_through { leaf.items(place, LineClass::Visible) } else { leaf.light_items(place) }
        }
        MoveKind::Slide(slide) if slide.axis != Axis::Z => {
            let shut = slide.body.plan();
            let open = open_part(shut, slide.axis, slide.travel);
            let path = Item::line(outline(place.rect(open)), LineClass::Moving);
            let way = arrow(place, shut, slide.axis, slide.travel);
            std::iter::once(path).chain(way).collect()
        }
        MoveKind::Swing(swing) => {
            lid(swing).map(|lid| Item::line(outline(place.rect(lid)), LineClass::Above)).into_iter().collect()
        }
        MoveKind::Slide(_) => Vec::new(),
    }
}

/// A leaf with a level hinge that lies flat when shut, from above.
fn lid(swing: &Swing) -> Option<Rect> {
    let across = swing.shut.to_radians().cos();
    let (near, far) = (swing.hinge.x, swing.hinge.x + swing.length * across);
    let along = swing.along;
    (across.abs() > 0.7).then(|| match swing.axis {
        Axis::X => Rect::new(along.0, near.min(far), along.1, near.max(far)),
        _ => Rect::new(near.min(far), along.0, near.max(far), along.1),
    })
}

/// The way of a leaf that slides along itself: an arrow beside it. Drawers need none, they are drawn open.
fn arrow(place: &Placement, shut: Rect, axis: Axis, travel: f64) -> Vec<Item> {
    let (thick, long) = if axis == Axis::X { (shut.height(), shut.width()) } else { (shut.width(), shut.height()) };
    if thick > LEAF || long < 4.0 * thick {
        return Vec::new();
    }
    let (middle, way) = (place.rect(shut).center(), place.length(travel));
    let (along, beside) = if axis == Axis::X {
        (Vec2::new(way, 0.0), Vec2::new(0.0, 1.0))
    } else {
        (Vec2::new(0.0, way), Vec2::new(1.0, 0.0))
    };
    let from = middle + beside * (place.length(thick) / 2.0 + BESIDE);
    vec![Item::segment(from, from + along, LineClass::Dimension), head(from + along, along, Fill::Ink)]
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Box3;
    use crate::model::Slide;
    use kurbo::{Point, Shape};

    const PLACE: Placement = Placement { scale: 20.0, origin: Point::ZERO };

    fn drawn(kind: MoveKind) -> Vec<(Option<LineClass>, Rect)> {
        let part = Move { name: "leaf".into(), kind, walk_through: false, span: crate::source::Span::default() };
        let of = |item: Item| match item {
            Item::Path(path) => Some((path.line, path.shape.bounding_box())),
            _ => None,
        };
        one_move(&PLACE, &part).into_iter().filter_map(of).collect()
    }

    fn swing(shut: f64) -> MoveKind {
        let hinge = Point::new(600.0, 450.0);
        let along = (1000.0, 1800.0);
        MoveKind::Swing(Swing { axis: Axis::X, hinge, along, length: 400.0, thickness: 15.0, shut, opens: -90.0 })
    }

    // By hand at 1:20: a lid 800 by 400 from its hinge at y = 600 toward y = 200.
    #[test]
    fn a_lid_is_dashed_where_it_lies_and_a_flap_is_not_drawn() {
        assert_eq!(drawn(swing(180.0)), [(Some(LineClass::Above), Rect::new(50.0, 10.0, 90.0, 30.0))]);
        assert!(drawn(swing(-90.0)).is_empty());
    }

    #[test]
    fn a_sliding_leaf_has_an_arrow_as_long_as_its_way_and_a_drawer_has_none() {
        let slide = |y: (f64, f64)| {
            let body = Box3 { x: (1000.0, 1600.0), y, z: (0.0, 1900.0) };
            drawn(MoveKind::Slide(Slide { body, axis: Axis::X, travel: -560.0, after: None, through: false }))
        };
        let leaf = slide((800.0, 830.0));
        assert_eq!(leaf[0], (Some(LineClass::Moving), Rect::new(22.0, 40.0, 50.0, 41.5)));
        let (line, arrow) = leaf[1];
        assert_eq!((line, arrow.x1, arrow.x0), (Some(LineClass::Dimension), 65.0, 37.0));
        assert_eq!(slide((800.0, 1300.0)).len(), 1);
    }
}
