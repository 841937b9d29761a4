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
mod piece;
mod search;

use super::prism::{Box3, Prism};
use super::roof::Roof;
use grid::Grid;
use piece::Piece;
use std::cmp::Reverse;

/// Ways to anchor the cells that are packed, of the up to eight; those with the highest bound come first.
const MOST_GRIDS: usize = 2;

/// The blocks that fit into `space` outside all of `minus` and below `roof`, one box each.
///
/// Empty if none fits, or if the space is bigger than 500 cubic metres.
#[must_use]
pub fn blocks(space: &Prism, minus: &[&Prism], roof: &Roof) -> Vec<Box3> {
    let mut grids: Vec<(usize, Grid)> = Vec::new();
    let whole = grid::whole_sides(space, roof);
    for ends in 0..8_u8 {
        let from_high = [ends & 1 != 0, ends & 2 != 0, ends & 4 != 0];
        if from_high.iter().zip(whole).any(|(from_high, whole)| *from_high && whole) {
            continue;
        }
        let grid = Grid::new(space, minus, roof, from_high);
        if let Some(grid) = grid.filter(|grid| !grids.iter().any(|(_, known)| known.same_cells(grid))) {
            grids.push((bound::most(&grid), grid));
        }
    }
    grids.sort_by_key(|(most, _)| Reverse(*most));
    let mut best: Option<(Vec<Piece>, &Grid, usize)> = None;
    for (most, grid) in grids.iter().take(MOST_GRIDS) {
        let known = best.as_ref().map_or(0, |best| best.0.len());
        if *most > known {
            let pieces = first_packing(grid, *most);
            if pieces.len() > known {
                best = Some((pieces, grid, *most));
            }
        }
    }
    let Some((pieces, grid, most)) = best else { return Vec::new() };
    search::improved(grid, pieces, most).iter().map(|piece| grid.place(piece)).collect()
}

fn first_packing(grid: &Grid, most: usize) -> Vec<Piece> {
    let layered = layers::packed(grid, most);
    if layered.len() < most && grid.is_full() {
        let cut = cuts::packed(grid.size);
        if cut.len() > layered.len() {
            return cut;
        }
    }
    layered
}

#[cfg(test)]
mod tests;
