//! Packing a whole box by straight cuts: the best way to cut it in two, over and over, down to boxes filled with equal
//! layers.

use super::piece::Piece;

/// Sides above this are cut first, after `CHUNK` cells, so that the table stays small.
const MOST_SIDE: usize = 48;
const CHUNK: usize = 40;

/// Blocks for a box of free cells.
pub(super) fn packed(size: [usize; 3]) -> Vec<Piece> {
    let mut table = Table::new(size.map(|side| side.min(MOST_SIDE)));
    let mut pieces = Vec::new();
    let [length, width, height] = size.map(chunks);
    for (x, length) in length {
        for (y, width) in width.iter().copied() {
            for (z, height) in height.iter().copied() {
                table.most([length, width, height]);
                table.build([x, y, z], [length, width, height], &mut pieces);
            }
        }
    }
    pieces
}

fn chunks(side: usize) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut at = 0;
    while side - at > MOST_SIDE {
        found.push((at, CHUNK));
        at += CHUNK;
    }
    found.push((at, side - at));
    found
}

/// What to do with a box whose sides are sorted; `axis` counts the sorted sides.
#[derive(Debug, Clone, Copy)]
enum Choice {
    /// Cut across a side after so many cells.
    Cut { axis: usize, after: usize },
    /// Layers of 4 cells along a side, dominoes of 1 x 2 in each.
    Upright { axis: usize },
    /// Layers of 1 cell along a side, tiles of 2 x 4 on squares of 2 x 2 in each.
    Flat { axis: usize },
    /// Nothing fits.
    Empty,
}

/// Best counts by sorted sides.
struct Table {
    /// Greatest sorted sides plus one.
    ends: [usize; 3],
    known: Vec<Option<(usize, Choice)>>,
}

impl Table {
    /// A table for boxes no bigger than `size`.
    fn new(mut size: [usize; 3]) -> Self {
        size.sort_unstable();
        let ends = size.map(|side| side + 1);
        Self { ends, known: vec![None; ends.iter().product()] }
    }

    fn slot(&self, [a, b, c]: [usize; 3]) -> usize {
        let [_, second, third] = self.ends;
        (a * second + b) * third + c
    }

    fn get(&self, sorted: [usize; 3]) -> Option<(usize, Choice)> {
        self.known.get(self.slot(sorted)).copied().flatten()
    }

    fn most(&mut self, size: [usize; 3]) -> usize {
        let mut sorted = size;
        sorted.sort_unstable();
        let [a, b, c] = sorted;
        if a < 1 || b < 2 || c < 4 {
            return 0;
        }
        if let Some((count, _)) = self.get(sorted) {
            return count;
        }
        let mut best = filled(sorted);
        if best.0 < a * b * c / 8 {
            best = self.cut(sorted, best);
        }
        let slot = self.slot(sorted);
        if let Some(known) = self.known.get_mut(slot) {
            *known = Some(best);
        }
        best.0
    }

    /// The best of a filling and all cuts. Recursion is bounded by the sides, each at most [`MOST_SIDE`].
    fn cut(&mut self, sorted: [usize; 3], mut best: (usize, Choice)) -> (usize, Choice) {
        for (axis, side) in sorted.iter().enumerate() {
            for after in 1..=side / 2 {
                let [first, second] = halves(sorted, axis, after);
                let count = self.most(first) + self.most(second);
                if count > best.0 {
                    best = (count, Choice::Cut { axis, after });
                }
            }
        }
        best
    }

    fn choice(&self, sorted: [usize; 3]) -> Choice {
        self.get(sorted).map_or(Choice::Empty, |known| known.1)
    }

    fn build(&self, at: [usize; 3], size: [usize; 3], pieces: &mut Vec<Piece>) {
        let mut order = [0, 1, 2];
        order.sort_by_key(|axis| size.get(*axis).copied());
        let sorted = order.map(|axis| size.get(axis).copied().unwrap_or(0));
        let real = |axis: usize| order.get(axis).copied().unwrap_or(0);
        match self.choice(sorted) {
            Choice::Empty => {}
            Choice::Upright { axis } => layered(at, size, real(axis), 4, 1, pieces),
            Choice::Flat { axis } => layered(at, size, real(axis), 1, 2, pieces),
            Choice::Cut { axis, after } => {
                let axis = real(axis);
                let [first, second] = halves(size, axis, after);
                self.build(at, first, pieces);
                let mut beyond = at;
                beyond.iter_mut().skip(axis).take(1).for_each(|start| *start += after);
                self.build(beyond, second, pieces);
            }
        }
    }
}

fn halves(size: [usize; 3], axis: usize, after: usize) -> [[usize; 3]; 2] {
    let (mut first, mut second) = (size, size);
    first.iter_mut().skip(axis).take(1).for_each(|side| *side = after);
    second.iter_mut().skip(axis).take(1).for_each(|side| *side -= after);
    [first, second]
}

/// The best filling with equal layers.
fn filled([a, b, c]: [usize; 3]) -> (usize, Choice) {
    let mut best = (0, Choice::Empty);
    for (axis, t, p, q) in [(0, a, b, c), (1, b, a, c), (2, c, a, b)] {
        let upright = ((t / 4) * (p * q / 2), Choice::Upright { axis });
        let flat = (t * ((p / 2) * (q / 2) / 2), Choice::Flat { axis });
        for candidate in [upright, flat] {
            if candidate.0 > best.0 {
                best = candidate;
            }
        }
    }
    best
}

/// Layers `thick` along `axis`, each with dominoes of squares of `square` cells.
fn layered(at: [usize; 3], size: [usize; 3], axis: usize, thick: usize, square: usize, pieces: &mut Vec<Piece>) {
    let (along, first, second) = match axis {
        0 => (0, 1, 2),
        1 => (1, 0, 2),
        _ => (2, 0, 1),
    };
    let side = |axis: usize| size.get(axis).copied().unwrap_or(0);
    let place = |from: [usize; 3], layer: usize, row: usize, column: usize| {
        let mut cell = from;
        for (axis, value) in [(along, layer * thick), (first, row * square), (second, column * square)] {
            cell.iter_mut().skip(axis).take(1).for_each(|slot| *slot += value);
        }
        cell
    };
    for layer in 0..side(along) / thick {
        for (row, column, high, wide) in dominoes(side(first) / square, side(second) / square) {
            let sides = place([0; 3], 0, high, wide);
            let mut sides = sides;
            sides.iter_mut().skip(along).take(1).for_each(|slot| *slot = thick);
            pieces.push(Piece { at: place(at, layer, row, column), size: sides });
        }
    }
}

/// As many dominoes as fit on a full rectangle: row, column, height, width of each.
fn dominoes(rows: usize, columns: usize) -> Vec<(usize, usize, usize, usize)> {
    let lying = (0..rows).flat_map(|row| (0..columns / 2).map(move |pair| (row, pair * 2, 1, 2)));
    let last = (0..rows / 2).filter(|_| columns % 2 == 1).map(|pair| (pair * 2, columns - 1, 2, 1));
    lying.chain(last).collect()
}
