//! What is painted: items with how near the eye they are, far ones first, so that near ones hide them.

use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::model::Module;
use crate::views::kit::canvas::Canvas;
use kurbo::BezPath;
use std::rc::Rc;

/// Name and words of what pieces belong to.
pub(in crate::views) type Owner = Rc<(String, String)>;

/// Something that is seen.
#[derive(Debug, Clone)]
pub(in crate::views) struct Piece {
    /// Height above the floor, or nearness to the eye, mm.
    pub height: f64,
    /// What it belongs to.
    pub owner: Owner,
    /// What is drawn.
    pub item: Item,
}

impl Piece {
    /// A filled shape on paper.
    pub fn area(height: f64, owner: &Owner, shape: BezPath, line: LineClass, fill: Fill) -> Self {
        Self { height, owner: Rc::clone(owner), item: Item::area(shape, Some(line), fill) }
    }
}

/// A module as an owner.
pub(in crate::views) fn owner(module: &Module) -> Owner {
    Rc::new((format!("module-{}", module.name), format!("{}: {}", module.name, module.says)))
}

/// Paints pieces as furniture, a group for each run of pieces of one owner.
pub(in crate::views) fn paint(mut pieces: Vec<Piece>, canvas: &mut Canvas) {
    pieces.sort_by(|a, b| a.height.total_cmp(&b.height));
    let mut run: Vec<Item> = Vec::new();
    let mut last: Option<Owner> = None;
    for piece in pieces {
        if let Some(owner) = last.take_if(|owner| *owner != piece.owner) {
            canvas.group(LayerKind::Furniture, &owner.0, &owner.1, std::mem::take(&mut run));
        }
        run.push(piece.item);
        last = Some(piece.owner);
    }
    if let Some(owner) = last {
        canvas.group(LayerKind::Furniture, &owner.0, &owner.1, run);
    }
}
