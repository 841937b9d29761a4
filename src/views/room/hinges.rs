//! Hinge sides on the front view of a module: dashed lines from the corners of a leaf that meet at its hinge.

use super::painter::hinge_sign;
use super::pieces::Piece;
use crate::drawing::{Item, LayerKind, LineClass};
use crate::geometry::{Axis, Box3};
use crate::joinery::before;
use crate::model::{Leaf, Module, PieceAt};
use crate::views::kit::canvas::Canvas;
use kurbo::Rect;

/// Draws the signs of all leaves that face who stands before the module; `shape` is a box of it on paper.
pub(super) fn draw(module: &Module, pieces: &[Piece], shape: impl Fn(&Box3) -> Rect, canvas: &mut Canvas) {
    for leaf in &module.together.leaves {
        let Some((name, at)) = standing(module, pieces, leaf.piece) else { continue };
        let Some(side) = side(module, leaf) else { continue };
        let leaf = shape(&at);
        let hinge = match side {
            Side::Left => Rect { x1: leaf.x0, ..leaf },
            Side::Right => Rect { x0: leaf.x1, ..leaf },
            Side::Bottom => Rect { y1: leaf.y0, ..leaf },
            Side::Top => Rect { y0: leaf.y1, ..leaf },
        };
        let sign = Item::line(hinge_sign(leaf, hinge), LineClass::Above);
        canvas.group(LayerKind::Hidden, &format!("hinge-{name}"), &format!("Hinge side of {name}"), vec![sign]);
    }
}

/// Name and place of a piece among those of the sheet, which stand in the order of the parts.
fn standing<'m>(module: &'m Module, pieces: &[Piece], piece: PieceAt) -> Option<(&'m str, Box3)> {
    let own = pieces.iter().filter(|one| one.part == piece.part).nth(piece.place)?;
    Some((module.parts.get(piece.part)?.name.as_str(), own.at))
}

/// The edge of a leaf that its hinge is at.
enum Side {
    Left,
    Right,
    Bottom,
    Top,
}

/// The hinge side of a leaf that faces the front, as who stands before the module sees it.
fn side(module: &Module, leaf: &Leaf) -> Option<Side> {
    let place = module.parts.get(leaf.piece.part)?.places.get(leaf.piece.place)?;
    let hinge = leaf.hinges.first()?.at;
    let hinge = before(module, &Box3::at(hinge));
    let at = before(module, &place.bounds());
    let size = |axis: Axis| at.range(axis).1 - at.range(axis).0;
    if size(Axis::Y) > size(Axis::X).min(size(Axis::Z)) {
        return None;
    }
    let low = |axis: Axis| hinge.range(axis).0 < f64::midpoint(at.range(axis).0, at.range(axis).1);
    Some(match (leaf.axis == Axis::Z, low(Axis::X), low(Axis::Z)) {
        (true, true, _) => Side::Left,
        (true, false, _) => Side::Right,
        (false, _, true) => Side::Bottom,
        (false, _, false) => Side::Top,
    })
}
