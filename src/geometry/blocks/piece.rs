//! Cells, and a block in them.

use crate::geometry::prism::Axis;

/// Edge of a cell, mm.
pub(super) const CELL: f64 = 50.0;

/// Most cells that are looked at; a bigger space is not counted.
pub(super) const MOST_CELLS: usize = 4_000_000;

pub(super) const AXES: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];

/// A block in cells: its first corner and its three sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Piece {
    pub at: [usize; 3],
    pub size: [usize; 3],
}
