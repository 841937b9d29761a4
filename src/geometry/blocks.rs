//! How many reference blocks of 200 x 100 x 50 mm fit into a space, standing along the axes.
//!
//! The method is that of ISO 3832 and DIN 70020-1: luggage space is what can be filled with rigid blocks of one litre
//! (seen in secondary sources only). The space is cut into 50 mm cells, anchored at either end along each axis; a block
//! is 1 x 2 x 4 cells. Counts are lower bounds: every one comes with a placement. They are built from straight cuts
//! (boxes), from layers (any shape), and improved by taking out and refilling small neighbourhoods a bounded number of
//! times, always in the same order.

mod bound;
mod cuts;
mod flat;
mod grid;
mod layers;
mod search;

use super::prism::{Axis, Box3, Prism};
use super::roof::Roof;
use grid::Grid;

/// Edge of a cell, mm.
const CELL: f64 = 50.0;

/// Most cells that are looked at; a bigger space is not counted.
const MOST_CELLS: usize = 4_000_000;

/// A block in cells: its first corner and its three sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Piece {
    at: [usize; 3],
    size: [usize; 3],
}

/// The blocks that fit into `space` outside all of `minus` and below `roof`, one box each.
///
/// Empty if none fits, or if the space is bigger than 500 cubic metres.
#[must_use]
pub fn blocks(space: &Prism, minus: &[&Prism], roof: &Roof) -> Vec<Box3> {
    let mut grids: Vec<Grid> = Vec::new();
    for ends in 0..8_u8 {
        let grid = Grid::new(space, minus, roof, [ends & 1 != 0, ends & 2 != 0, ends & 4 != 0]);
        if let Some(grid) = grid.filter(|grid| !grids.iter().any(|known| known.same_cells(grid))) {
            grids.push(grid);
        }
    }
    grids.sort_by_key(|grid| std::cmp::Reverse(bound::most(grid)));
    let mut best: (Vec<Piece>, Option<&Grid>) = (Vec::new(), None);
    for grid in &grids {
        if bound::most(grid) > best.0.len() {
            let pieces = first_packing(grid);
            if pieces.len() > best.0.len() {
                best = (pieces, Some(grid));
            }
        }
    }
    let (pieces, Some(grid)) = best else { return Vec::new() };
    let pieces = search::improved(grid, pieces, bound::most(grid));
    pieces.iter().map(|piece| grid.place(piece)).collect()
}

fn first_packing(grid: &Grid) -> Vec<Piece> {
    let layered = layers::packed(grid);
    if layered.len() < bound::most(grid) && grid.is_full() {
        let cut = cuts::packed(grid.size);
        if cut.len() > layered.len() {
            return cut;
        }
    }
    layered
}

const AXES: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];

#[cfg(test)]
mod tests;
