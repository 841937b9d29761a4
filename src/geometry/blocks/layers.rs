//! Packing cells in layers of 1, 2 or 4 cells along one axis.

use super::flat::{Mask, Tile};
use super::grid::Grid;
use super::piece::Piece;
use std::collections::BTreeMap;

/// The best packing by layers along x, y or z; the first that has `most` blocks ends the search.
pub(super) fn packed(grid: &Grid, most: usize) -> Vec<Piece> {
    let mut best = Vec::new();
    for axis in 0..3 {
        if best.len() < most {
            let pieces = Stack { grid, axis, known: BTreeMap::new() }.packed();
            if pieces.len() > best.len() {
                best = pieces;
            }
        }
    }
    best
}

/// The sides of a block across its direction of 1, 2 or 4 cells.
const KINDS: [(usize, (usize, usize)); 3] = [(4, (1, 2)), (2, (1, 4)), (1, (2, 4))];

struct Stack<'a> {
    grid: &'a Grid,
    axis: usize,
    known: BTreeMap<(usize, Mask), Vec<Tile>>,
}

impl Stack<'_> {
    fn packed(mut self) -> Vec<Piece> {
        let depth = self.grid.size.get(self.axis).copied().unwrap_or(0);
        let mut best: Vec<(usize, usize)> = vec![(0, 1); depth + 1];
        for at in (0..depth).rev() {
            let mut choice = (best.get(at + 1).map_or(0, |next| next.0), 0);
            for (thick, _) in KINDS {
                let Some((rest, _)) = best.get(at + thick).copied() else { continue };
                let count = rest + self.layer(at, thick).len();
                if count > choice.0 {
                    choice = (count, thick);
                }
            }
            if let Some(slot) = best.get_mut(at) {
                *slot = choice;
            }
        }
        let mut pieces = Vec::new();
        let mut at = 0;
        while at < depth {
            let thick = best.get(at).map_or(0, |choice| choice.1);
            if thick > 0 {
                let tiles = self.layer(at, thick);
                pieces.extend(tiles.iter().map(|tile| piece(self.axis, at, thick, tile)));
            }
            at += thick.max(1);
        }
        pieces
    }

    fn layer(&mut self, at: usize, thick: usize) -> Vec<Tile> {
        let mask = self.mask(at, thick);
        let (p, q) = KINDS.iter().find(|kind| kind.0 == thick).map_or((1, 2), |kind| kind.1);
        self.known.entry((thick, mask)).or_insert_with_key(|(_, mask)| mask.packed(p, q)).clone()
    }

    /// Cells that are free in all of a layer.
    fn mask(&self, at: usize, thick: usize) -> Mask {
        let [x, y, z] = self.grid.size;
        let (rows, columns) = match self.axis {
            0 => (y, z),
            1 => (x, z),
            _ => (x, y),
        };
        let free = |row: usize, column: usize| {
            (at..at + thick).all(|k| self.grid.is_free(self.grid.index(put(self.axis, k, [row, column]))))
        };
        let cells = (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column)));
        Mask { rows, columns, free: cells.map(|(row, column)| free(row, column)).collect() }
    }
}

fn put(axis: usize, along: usize, [first, second]: [usize; 2]) -> [usize; 3] {
    match axis {
        0 => [along, first, second],
        1 => [first, along, second],
        _ => [first, second, along],
    }
}

fn piece(axis: usize, at: usize, thick: usize, tile: &Tile) -> Piece {
    Piece { at: put(axis, at, tile.at), size: put(axis, thick, tile.size) }
}
