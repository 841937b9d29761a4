//! Improving a packing: take out a few blocks around a free cell and look for a better, or another equal, refilling.
//!
//! Deterministic: the choice of places comes from a fixed sequence of numbers, and work is counted in steps, not time.

use super::Piece;
use super::grid::Grid;

/// All steps that one improvement may take, and those of one refilling.
const STEPS: usize = 500_000;
const STEPS_EACH: usize = 1000;
/// What a neighbourhood costs beside its refilling, in steps.
const STEPS_ROUND: usize = 50;
/// Neighbourhoods that are tried at most.
const ROUNDS: usize = 6_000;
/// Most blocks taken out at a time.
const MOST_OUT: usize = 12;

const SIDES: [[usize; 3]; 6] = [[1, 2, 4], [1, 4, 2], [2, 1, 4], [2, 4, 1], [4, 1, 2], [4, 2, 1]];
const WINDOWS: [[usize; 3]; 7] = [[4, 4, 4], [6, 3, 3], [3, 6, 3], [3, 3, 6], [2, 5, 5], [5, 2, 5], [5, 5, 2]];

/// The packing, with more blocks where the search finds room; stops at `most`.
pub(super) fn improved(grid: &Grid, pieces: Vec<Piece>, most: usize) -> Vec<Piece> {
    let mut state = State::new(grid, pieces);
    let mut refill = Refill::new(grid);
    let mut steps = STEPS;
    for _ in 0..ROUNDS {
        if state.count >= most || steps == 0 || state.open.len() < 8 {
            break;
        }
        steps = steps.saturating_sub(state.round(&mut refill));
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

    /// One neighbourhood; says how many steps it took.
    fn round(&mut self, refill: &mut Refill) -> usize {
        let pick = self.numbers.below(self.open.len());
        let Some(centre) = self.open.get(pick).copied() else { return 1 };
        let near = self.open_near(centre);
        let out = self.blocks_near(centre);
        let taken: Vec<Piece> = out.iter().filter_map(|number| self.take(*number)).collect();
        let mut cells: Vec<usize> = taken.iter().flat_map(|piece| cells_of(self.grid, piece)).chain(near).collect();
        cells.sort_unstable();
        refill.cells.clear();
        refill.cells.extend(cells.iter().map(|cell| (*cell, self.grid.cell(*cell))));
        refill.order = self.numbers.below(SIDES.len());
        refill.steps = 0;
        let found = refill.more_than(taken.len()).or_else(|| refill.more_than(taken.len().saturating_sub(1)));
        found.unwrap_or(taken).into_iter().for_each(|piece| self.put(piece));
        self.open.retain(|cell| cells.binary_search(cell).is_err());
        cells.retain(|cell| self.is_open(*cell));
        self.open.extend(cells);
        refill.steps + STEPS_ROUND
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
        let [x, y, z] = ranges;
        let corners = (x.0..x.1).flat_map(|i| (y.0..y.1).flat_map(move |j| (z.0..z.1).map(move |k| [i, j, k])));
        corners.map(|cell| self.grid.index(cell)).collect()
    }

    /// Open cells up to three cells away in each direction.
    fn open_near(&self, centre: usize) -> Vec<usize> {
        let at = self.grid.cell(centre);
        let near = |cell: &usize| self.grid.cell(*cell).iter().zip(at).all(|(a, b)| a.abs_diff(b) <= 3);
        self.open.iter().copied().filter(near).collect()
    }
}

fn cells_of<'a>(grid: &'a Grid, piece: &Piece) -> impl Iterator<Item = usize> + use<'a> {
    let ([x, y, z], [a, b, c]) = (piece.at, piece.size);
    let corners = (x..x + a).flat_map(move |i| (y..y + b).flat_map(move |j| (z..z + c).map(move |k| [i, j, k])));
    corners.map(|cell| grid.index(cell))
}

/// Looks for blocks on a small set of cells.
struct Refill {
    size: [usize; 3],
    /// Distances of a block's cells from its first cell in the list, for each of `SIDES`.
    steps_to: [[usize; 8]; 6],
    /// Whether each cell of the grid may take a block.
    open: Vec<bool>,
    /// The cells to fill, in the order of the list, with their coordinates.
    cells: Vec<(usize, [usize; 3])>,
    order: usize,
    steps: usize,
    limit: usize,
    found: Vec<Piece>,
}

impl Refill {
    fn new(grid: &Grid) -> Self {
        let mut steps_to = [[0; 8]; 6];
        for (steps, size) in steps_to.iter_mut().zip(SIDES) {
            let piece = Piece { at: [0; 3], size };
            steps.iter_mut().zip(cells_of(grid, &piece)).for_each(|(step, cell)| *step = cell);
        }
        let open = vec![false; grid.cells().len()];
        Self { size: grid.size, steps_to, open, cells: Vec::new(), order: 0, steps: 0, limit: 0, found: Vec::new() }
    }

    /// A packing of the cells with more than `count` blocks, if the search meets one within its steps.
    fn more_than(&mut self, count: usize) -> Option<Vec<Piece>> {
        let waste = self.cells.len().checked_sub(8 * (count + 1))?;
        self.found.clear();
        self.set_all(true);
        self.limit = self.steps + STEPS_EACH;
        let full = self.fill(0, waste, count + 1);
        self.set_all(false);
        full.then(|| self.found.clone())
    }

    fn set_all(&mut self, value: bool) {
        for (cell, _) in &self.cells {
            if let Some(open) = self.open.get_mut(*cell) {
                *open = value;
            }
        }
    }

    fn is_open(&self, cell: usize) -> bool {
        self.open.get(cell).copied().unwrap_or(false)
    }

    /// Fills from the first cell that is not taken: with a block that begins there, or not at all. The depth is bounded
    /// by the number of cells.
    fn fill(&mut self, from: usize, waste: usize, goal: usize) -> bool {
        if self.found.len() == goal {
            return true;
        }
        let mut rest = self.cells.iter().enumerate().skip(from);
        let Some((at, (cell, place))) = rest.find(|(_, (cell, _))| self.is_open(*cell)) else { return false };
        let (cell, place) = (*cell, *place);
        for turn in 0..SIDES.len() {
            let kind = (turn + self.order) % SIDES.len();
            self.steps += 1;
            if self.steps > self.limit {
                return false;
            }
            if self.put(kind, cell, place) {
                if self.fill(at + 1, waste, goal) {
                    return true;
                }
                self.found.pop();
                self.set(kind, cell, true);
            }
        }
        waste > 0 && self.fill(at + 1, waste - 1, goal)
    }

    /// Puts a block that begins at a cell, if all its cells are open.
    fn put(&mut self, kind: usize, cell: usize, at: [usize; 3]) -> bool {
        let (Some(size), Some(steps)) = (SIDES.get(kind).copied(), self.steps_to.get(kind)) else { return false };
        let inside = at.iter().zip(size).zip(self.size).all(|((from, side), end)| from + side <= end);
        if !inside || !steps.iter().all(|step| self.is_open(cell + step)) {
            return false;
        }
        self.set(kind, cell, false);
        self.found.push(Piece { at, size });
        true
    }

    fn set(&mut self, kind: usize, cell: usize, value: bool) {
        let Some(steps) = self.steps_to.get(kind) else { return };
        for step in steps {
            if let Some(open) = self.open.get_mut(cell + step) {
                *open = value;
            }
        }
    }
}
