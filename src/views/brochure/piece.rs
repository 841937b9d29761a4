//! What is painted of one arrangement: items with the height they are seen at, lower ones first.

use crate::drawing::{Fill, Item, LineClass};
use kurbo::BezPath;

/// Something seen from above.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    /// Upper edge above the floor, mm.
    pub height: f64,
    /// What it belongs to: name and words.
    pub owner: (String, String),
    /// What is drawn.
    pub item: Item,
}

impl Piece {
    /// A filled shape on paper.
    pub fn area(height: f64, owner: &(String, String), shape: BezPath, line: LineClass, fill: Fill) -> Self {
        Self { height, owner: owner.clone(), item: Item::area(shape, Some(line), fill) }
    }
}
