//! Improving a packing: take out a few blocks around a free cell and look for a better, or another equal, refilling.
//!
//! Deterministic: the choice of places comes from a fixed sequence of numbers, and work is counted in steps, not time.

use super::grid::Grid;
use super::piece::Piece;

/// Steps that an improvement may take since the last block that it gained, and those of one refilling. Measured on the
/// cases of the tests: what a search ten times as long gains is gained, but for a block in two of them.
const STEPS: usize = 200_000;
const STEPS_EACH: usize = 4000;
/// Neighbourhoods that are tried since the last gain, and in all.
const ROUNDS: usize = 300;
const ROUNDS_IN_ALL: usize = 6_000;
/// Most blocks taken out at a time.
const MOST_OUT: usize = 10;

const SIDES: [[usize; 3]; 6] = [[1, 2, 4], [1, 4, 2], [2, 1, 4], [2, 4, 1], [4, 1, 2], [4, 2, 1]];
const WINDOWS: [[usize; 3]; 7] = [[4, 4, 4], [6, 3, 3], [3, 6, 3], [3, 3, 6], [2, 5, 5], [5, 2, 5], [5, 5, 2]];

/// The packing, with more blocks where the search finds room; stops at `most`, and when it has long gained nothing.
pub(super) fn improved(grid: &Grid, pieces: Vec<Piece>, most: usize) -> Vec<Piece> {
    let mut state = State::new(grid, pieces);
    let mut refill = Refill::new(grid);
    let (mut steps, mut rounds) = (0, 0);
    for _ in 0..ROUNDS_IN_ALL {
        if state.count >= most || steps >= STEPS || rounds >= ROUNDS || state.open.len() < 8 {
            break;
        }
        let before = state.count;
        state.round(&mut refill);
        (steps, rounds) = if state.count > before { (0, 0) } else { (steps + refill.steps, rounds + 1) };
    }
    state.pieces.into_iter().flatten().collect()
}

/// Numbers that look random and are always the same (xorshift, Marsaglia 2003).
struct Sequence(u64);

impl Sequence {
    fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from((self.0 >> 33) % (end.max(1) as u64)).unwrap_or(0)
    }
}

struct State<'a> {
    grid: &'a Grid,
    /// Block number + 1 in each cell, 0 for none.
    owner: Vec<u32>,
    pieces: Vec<Option<Piece>>,
    /// Numbers of `pieces` that are not in use.
    spare: Vec<usize>,
    /// Free cells without a block.
    open: Vec<usize>,
    /// Cells that are looked at just now.
    marked: Vec<bool>,
    count: usize,
    numbers: Sequence,
}

impl<'a> State<'a> {
    fn new(grid: &'a Grid, pieces: Vec<Piece>) -> Self {
        let mut state = Self {
            grid,
            owner: vec![0; grid.cells().len()],
            pieces: Vec::new(),
            spare: Vec::new(),
            open: Vec::new(),
            marked: vec![false; grid.cells().len()],
            count: 0,
            numbers: Sequence(0x9E37_79B9_7F4A_7C15),
        };
        pieces.into_iter().for_each(|piece| state.put(piece));
        state.open = (0..state.owner.len()).filter(|cell| state.is_open(*cell)).collect();
        state
    }

    fn is_open(&self, cell: usize) -> bool {
        self.grid.is_free(cell) && self.owner.get(cell) == Some(&0)
    }

    fn put(&mut self, piece: Piece) {
        let number = self.spare.pop().unwrap_or(self.pieces.len());
        if number == self.pieces.len() {
            self.pieces.push(None);
        }
        self.count += 1;
        self.own(&piece, u32::try_from(number + 1).unwrap_or(u32::MAX));
        if let Some(slot) = self.pieces.get_mut(number) {
            *slot = Some(piece);
        }
    }

    fn take(&mut self, number: usize) -> Option<Piece> {
        let piece = self.pieces.get_mut(number)?.take()?;
        self.spare.push(number);
        self.count -= 1;
        self.own(&piece, 0);
        Some(piece)
    }

    fn own(&mut self, piece: &Piece, owner: u32) {
        for cell in cells_of(self.grid, piece) {
            if let Some(slot) = self.owner.get_mut(cell) {
                *slot = owner;
            }
        }
    }

    /// One neighbourhood.
    fn round(&mut self, refill: &mut Refill) {
        let pick = self.numbers.below(self.open.len());
        let Some(centre) = self.open.get(pick).copied() else { return };
        let near = self.open_near(centre);
        let out = self.blocks_near(centre);
        let taken: Vec<Piece> = out.iter().filter_map(|number| self.take(*number)).collect();
        let mut cells: Vec<usize> = taken.iter().flat_map(|piece| cells_of(self.grid, piece)).chain(near).collect();
        cells.sort_unstable();
        cells.truncate(MOST_CELLS);
        refill.set(&cells, self.numbers.below(SIDES.len()));
        let found = refill
            .more_than(self.grid, taken.len())
            .or_else(|| refill.more_than(self.grid, taken.len().saturating_sub(1)));
        found.unwrap_or(taken).into_iter().for_each(|piece| self.put(piece));
        self.mark(&cells, true);
        self.open.retain(|cell| !self.marked.get(*cell).copied().unwrap_or(false));
        self.mark(&cells, false);
        cells.retain(|cell| self.is_open(*cell));
        self.open.extend(cells);
    }

    fn mark(&mut self, cells: &[usize], value: bool) {
        for cell in cells {
            self.marked.get_mut(*cell).into_iter().for_each(|slot| *slot = value);
        }
    }

    /// Numbers of the blocks that stand in a window about a cell.
    fn blocks_near(&mut self, centre: usize) -> Vec<usize> {
        let window = self.window(centre);
        let mut found: Vec<usize> = Vec::new();
        for cell in window {
            let Some(owner) = self.owner.get(cell).copied().filter(|owner| *owner > 0) else { continue };
            let number = owner as usize - 1;
            if !found.contains(&number) && found.len() < MOST_OUT {
                found.push(number);
            }
        }
        found
    }

    fn window(&mut self, centre: usize) -> Vec<usize> {
        let kind = self.numbers.below(WINDOWS.len());
        let sides = WINDOWS.get(kind).copied().unwrap_or([4; 3]);
        let at = self.grid.cell(centre);
        let mut ranges = [(0, 0); 3];
        for (range, ((at, side), end)) in ranges.iter_mut().zip(at.into_iter().zip(sides).zip(self.grid.size)) {
            let low = at.saturating_sub(self.numbers.below(side));
            *range = (low, (low + side).min(end));
        }
        self.cells_in(ranges).collect()
    }

    /// Open cells up to three cells away in each direction.
    fn open_near(&self, centre: usize) -> Vec<usize> {
        let mut ranges = [(0, 0); 3];
        for (range, (at, end)) in ranges.iter_mut().zip(self.grid.cell(centre).into_iter().zip(self.grid.size)) {
            *range = (at.saturating_sub(3), (at + 4).min(end));
        }
        self.cells_in(ranges).filter(|cell| self.is_open(*cell)).collect()
    }

    fn cells_in(&self, [x, y, z]: [(usize, usize); 3]) -> impl Iterator<Item = usize> + use<'_> {
        let corners = (x.0..x.1).flat_map(move |i| (y.0..y.1).flat_map(move |j| (z.0..z.1).map(move |k| [i, j, k])));
        corners.map(|cell| self.grid.index(cell))
    }
}

fn cells_of<'a>(grid: &'a Grid, piece: &Piece) -> impl Iterator<Item = usize> + use<'a> {
    let ([x, y, z], [a, b, c]) = (piece.at, piece.size);
    let corners = (x..x + a).flat_map(move |i| (y..y + b).flat_map(move |j| (z..z + c).map(move |k| [i, j, k])));
    corners.map(|cell| grid.index(cell))
}

/// Most cells of one refilling: the bits of a set.
const MOST_CELLS: usize = 128;

/// No number of a cell.
const NONE: u8 = u8::MAX;

/// Looks for blocks on a small set of cells. Sets of cells are bits in the order of the list, so that to try a block is
/// one comparison.
struct Refill {
    /// Distances of a block's cells from its first cell in the grid's list, for each of `SIDES`.
    steps_to: [[usize; 8]; 6],
    /// For each cell of the grid, whether a block of each of `SIDES` that begins there lies on free cells.
    fits: Vec<[bool; 6]>,
    /// For each cell of the grid, its number in `cells`, and `NONE` for the others.
    numbers: Vec<u8>,
    /// The cells to fill, in the order of the grid's list.
    cells: Vec<usize>,
    /// For each of them, the sets of the blocks that begin there and lie in the cells, in the order in which they are
    /// tried; 0 for none.
    starting: Vec<[u128; 6]>,
    /// Which of `SIDES` is tried first.
    order: usize,
    steps: usize,
    limit: usize,
    /// Cell and turn of the blocks put so far.
    found: Vec<(usize, usize)>,
}

impl Refill {
    fn new(grid: &Grid) -> Self {
        let mut steps_to = [[0; 8]; 6];
        for (steps, size) in steps_to.iter_mut().zip(SIDES) {
            let piece = Piece { at: [0; 3], size };
            steps.iter_mut().zip(cells_of(grid, &piece)).for_each(|(step, cell)| *step = cell);
        }
        let fits = |cell: usize| {
            let mut fits = [false; 6];
            for ((fits, steps), size) in fits.iter_mut().zip(&steps_to).zip(SIDES) {
                let inside =
                    grid.cell(cell).iter().zip(size).zip(grid.size).all(|((from, side), end)| from + side <= end);
                *fits = inside && steps.iter().all(|step| grid.is_free(cell + step));
            }
            fits
        };
        let count = grid.cells().len();
        Self {
            steps_to,
            fits: (0..count).map(fits).collect(),
            numbers: vec![NONE; count],
            cells: Vec::new(),
            starting: Vec::new(),
            order: 0,
            steps: 0,
            limit: 0,
            found: Vec::new(),
        }
    }

    /// Takes these cells of the grid, in the order of its list; no more than [`MOST_CELLS`].
    fn set(&mut self, cells: &[usize], order: usize) {
        (self.order, self.steps) = (order, 0);
        self.cells.clear();
        self.cells.extend_from_slice(cells);
        self.starting.clear();
        for (number, cell) in (0..).zip(cells) {
            self.numbers.get_mut(*cell).into_iter().for_each(|slot| *slot = number);
        }
        for cell in cells {
            let mut blocks = [0; 6];
            if let Some(fits) = self.fits.get(*cell) {
                for ((block, fits), steps) in blocks.iter_mut().zip(fits).zip(&self.steps_to) {
                    if *fits {
                        *block = self.block(*cell, steps);
                    }
                }
            }
            blocks.rotate_left(order);
            self.starting.push(blocks);
        }
        for cell in cells {
            self.numbers.get_mut(*cell).into_iter().for_each(|slot| *slot = NONE);
        }
    }

    /// The set of a block that begins at a cell; 0 if one of its cells is not to be filled.
    fn block(&self, cell: usize, steps: &[usize; 8]) -> u128 {
        let mut set = 0;
        for step in steps {
            match self.numbers.get(cell + step) {
                Some(number) if *number != NONE => set |= 1 << number,
                _ => return 0,
            }
        }
        set
    }

    /// A packing of the cells with more than `count` blocks, if the search meets one within its steps.
    fn more_than(&mut self, grid: &Grid, count: usize) -> Option<Vec<Piece>> {
        let waste = self.cells.len().checked_sub(8 * (count + 1))?;
        self.found.clear();
        self.limit = self.steps + STEPS_EACH;
        let all = u128::MAX >> (MOST_CELLS - self.cells.len().min(MOST_CELLS));
        self.fill(all, waste, count + 1).then(|| {
            let piece = |(number, turn): &(usize, usize)| {
                let size = *SIDES.get((turn + self.order) % SIDES.len())?;
                Some(Piece { at: grid.cell(*self.cells.get(*number)?), size })
            };
            self.found.iter().filter_map(piece).collect()
        })
    }

    /// Fills the first open cell: with a block that begins there, or not at all. The depth is bounded by the number of
    /// cells.
    fn fill(&mut self, open: u128, waste: usize, goal: usize) -> bool {
        if self.found.len() == goal {
            return true;
        }
        self.steps += 1;
        if open == 0 || self.steps > self.limit {
            return false;
        }
        let first = open.trailing_zeros() as usize;
        let Some(blocks) = self.starting.get(first).copied() else { return false };
        for (turn, block) in blocks.iter().enumerate() {
            if *block != 0 && open & block == *block {
                self.found.push((first, turn));
                if self.fill(open & !block, waste, goal) {
                    return true;
                }
                self.found.pop();
            }
        }
        waste > 0 && self.fill(open & (open - 1), waste - 1, goal)
    }
}
