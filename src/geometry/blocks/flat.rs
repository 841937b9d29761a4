//! Packing one layer: rectangles of one kind on the free cells of a plane.

/// Free cells of a plane, row by row.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Mask {
    pub rows: usize,
    pub columns: usize,
    pub free: Vec<bool>,
}

/// A rectangle of cells: first corner and sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Tile {
    pub at: [usize; 2],
    pub size: [usize; 2],
}

impl Tile {
    fn turned(self) -> Self {
        let ([a, b], [p, q]) = (self.at, self.size);
        Self { at: [b, a], size: [q, p] }
    }
}

impl Mask {
    fn is_free(&self, row: usize, column: usize) -> bool {
        column < self.columns && self.free.get(row * self.columns + column).copied().unwrap_or(false)
    }

    fn turned(&self) -> Self {
        let cells = (0..self.columns).flat_map(|c| (0..self.rows).map(move |r| self.is_free(r, c)));
        Self { rows: self.columns, columns: self.rows, free: cells.collect() }
    }

    fn count(&self) -> usize {
        self.free.iter().filter(|free| **free).count()
    }

    /// The same plane with only the columns that `keep`.
    fn columns_where(&self, keep: impl Fn(usize) -> bool) -> Self {
        let cells = self.free.iter().enumerate().map(|(index, free)| *free && keep(index % self.columns));
        Self { free: cells.collect(), ..*self }
    }

    /// Tiles of `p` x `q` cells, both ways round, on free cells: many, not always the most. For dominoes (1 x 2) the
    /// most.
    pub fn packed(&self, p: usize, q: usize) -> Vec<Tile> {
        if (p, q) == (1, 2) {
            return dominoes(self);
        }
        let most = self.count() / (p * q);
        let mut best = self.in_bands(p, q);
        if best.len() < most && self.free.len() <= SPLIT_CELLS {
            for (plane, is_turned) in [(self.clone(), false), (self.turned(), true)] {
                for tiles in (1..plane.columns).map(|at| split(&plane, at, p, q)) {
                    if tiles.len() > best.len() {
                        best = if is_turned { tiles.into_iter().map(Tile::turned).collect() } else { tiles };
                    }
                }
            }
        }
        best
    }

    /// The better of bands along rows and bands along columns.
    fn in_bands(&self, p: usize, q: usize) -> Vec<Tile> {
        let (rows, columns) = (bands(self, p, q), bands(&self.turned(), p, q));
        if columns.len() > rows.len() { columns.into_iter().map(Tile::turned).collect() } else { rows }
    }
}

/// Planes with no more cells than this are also tried in two halves.
const SPLIT_CELLS: usize = 300;

fn split(plane: &Mask, at: usize, p: usize, q: usize) -> Vec<Tile> {
    let mut tiles = plane.columns_where(|column| column < at).in_bands(p, q);
    tiles.extend(plane.columns_where(|column| column >= at).in_bands(p, q));
    tiles
}

/// The best stack of bands of rows, each filled with tiles all one way.
fn bands(mask: &Mask, p: usize, q: usize) -> Vec<Tile> {
    let mut best: Vec<(usize, Vec<Tile>, usize)> = vec![(0, Vec::new(), 1); mask.rows + 1];
    for row in (0..mask.rows).rev() {
        let mut choice = (best.get(row + 1).map_or(0, |next| next.0), Vec::new(), 1);
        for (height, length) in [(p, q), (q, p)] {
            let Some(rest) = best.get(row + height) else { continue };
            let tiles = band(mask, row, height, length);
            if rest.0 + tiles.len() > choice.0 {
                choice = (rest.0 + tiles.len(), tiles, height);
            }
        }
        if let Some(slot) = best.get_mut(row) {
            *slot = choice;
        }
    }
    let mut tiles = Vec::new();
    let mut row = 0;
    while let Some((_, own, height)) = best.get(row) {
        tiles.extend(own);
        row += height;
    }
    tiles
}

/// Tiles side by side in one band, from the start of each free run.
fn band(mask: &Mask, row: usize, height: usize, length: usize) -> Vec<Tile> {
    let mut tiles = Vec::new();
    let mut run = 0;
    for column in 0..mask.columns {
        run = if (row..row + height).all(|r| mask.is_free(r, column)) { run + 1 } else { 0 };
        if run == length {
            tiles.push(Tile { at: [row, column + 1 - length], size: [height, length] });
            run = 0;
        }
    }
    tiles
}

/// A greatest set of dominoes: a greatest matching between the black and the white cells, by augmenting paths.
fn dominoes(mask: &Mask) -> Vec<Tile> {
    let mut pairing = Pairing { mask, partner: vec![None; mask.free.len()], seen: vec![0; mask.free.len()], round: 0 };
    let black: Vec<usize> = (0..mask.free.len())
        .filter(|i| (i / mask.columns + i % mask.columns).is_multiple_of(2) && pairing.free(*i))
        .collect();
    for cell in &black {
        let open = pairing.neighbours(*cell).find(|n| pairing.partner_of(*n).is_none());
        if let Some(open) = open {
            pairing.join(*cell, open);
        }
    }
    for cell in &black {
        if pairing.partner_of(*cell).is_none() {
            pairing.round += 1;
            pairing.augment(*cell);
        }
    }
    let pairs = black.iter().filter_map(|cell| Some((*cell, pairing.partner_of(*cell)?)));
    pairs.map(|(a, b)| domino(mask.columns, a.min(b), a.max(b))).collect()
}

fn domino(columns: usize, low: usize, high: usize) -> Tile {
    let size = if high - low == 1 && columns > 1 { [1, 2] } else { [2, 1] };
    Tile { at: [low / columns, low % columns], size }
}

struct Pairing<'a> {
    mask: &'a Mask,
    partner: Vec<Option<usize>>,
    seen: Vec<usize>,
    round: usize,
}

impl Pairing<'_> {
    fn free(&self, cell: usize) -> bool {
        self.mask.free.get(cell).copied().unwrap_or(false)
    }

    fn partner_of(&self, cell: usize) -> Option<usize> {
        self.partner.get(cell).copied().flatten()
    }

    fn join(&mut self, a: usize, b: usize) {
        for (cell, other) in [(a, b), (b, a)] {
            if let Some(slot) = self.partner.get_mut(cell) {
                *slot = Some(other);
            }
        }
    }

    fn neighbours(&self, cell: usize) -> impl Iterator<Item = usize> + use<'_> {
        let columns = self.mask.columns;
        let column = cell % columns;
        let sideways = [(column > 0).then(|| cell - 1), (column + 1 < columns).then_some(cell + 1)];
        let upright = [cell.checked_sub(columns), Some(cell + columns)];
        sideways.into_iter().chain(upright).flatten().filter(|n| self.free(*n))
    }

    /// Looks for a path to an open cell breadth first, and pairs along it.
    fn augment(&mut self, start: usize) {
        let mut from: Vec<(usize, usize, usize)> = Vec::new();
        let mut queue = vec![(start, usize::MAX)];
        let mut next = 0;
        while let Some((cell, parent)) = queue.get(next).copied() {
            next += 1;
            for other in self.neighbours(cell).collect::<Vec<_>>() {
                let Some(seen) = self.seen.get_mut(other).filter(|seen| **seen != self.round) else { continue };
                *seen = self.round;
                from.push((cell, other, parent));
                match self.partner_of(other) {
                    Some(behind) => queue.push((behind, from.len() - 1)),
                    None => return self.pair_along(&from, from.len() - 1),
                }
            }
        }
    }

    fn pair_along(&mut self, from: &[(usize, usize, usize)], mut at: usize) {
        while let Some((cell, other, parent)) = from.get(at).copied() {
            self.join(cell, other);
            at = parent;
        }
    }
}
