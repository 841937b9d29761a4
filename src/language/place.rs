//! Where a module, a load, an opening or a zone is written to be.

use super::expression::Expr;
use crate::source::Span;

/// Positions of an element's own edges; all optional.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlaceDoc {
    /// Front edge (x).
    pub front: Option<Expr>,
    /// Rear edge (x).
    pub rear: Option<Expr>,
    /// Left edge (y).
    pub left: Option<Expr>,
    /// Right edge (y).
    pub right: Option<Expr>,
    /// Lower face (z).
    pub floor: Option<Expr>,
    /// Upper face (z).
    pub top: Option<Expr>,
    /// Middle along x.
    pub centre_x: Option<Expr>,
    /// Middle along y.
    pub centre_y: Option<Expr>,
    /// Where `place` is written.
    pub span: Span,
}

impl PlaceDoc {
    /// The edges and middles that are written.
    pub fn edges(&self) -> impl Iterator<Item = &Expr> {
        let Self { front, rear, centre_x, left, right, centre_y, floor, top, .. } = self;
        [front, rear, centre_x, left, right, centre_y, floor, top].into_iter().flatten()
    }
}
