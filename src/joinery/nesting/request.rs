//! What is to be cut from what.

/// Which way a piece may lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Turn {
    /// Its length along the sheet's length.
    Never,
    /// Its length along the sheet's width.
    Always,
    /// Either.
    Free,
}

/// Pieces of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Cut length, mm.
    pub length: f64,
    /// Cut width, mm.
    pub width: f64,
    /// How many.
    pub count: u32,
    /// Which way it may lie.
    pub turn: Turn,
}

/// A sheet size that can be bought, or is on hand.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetKind {
    /// Length x width, mm.
    pub size: (f64, f64),
    /// Price, or area where no price is known, or 0 for what is on hand; plans aim at the least sum.
    pub cost: f64,
    /// How many there are; none for any number.
    pub stock: Option<u32>,
}

/// What is to be cut from what.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// Sheet sizes.
    pub sheets: Vec<SheetKind>,
    /// Width of the saw cut, mm.
    pub kerf: f64,
    /// Trimmed off each edge of a sheet, mm.
    pub trim: f64,
    /// The smallest offcut worth keeping, either way round, mm.
    pub useful: (f64, f64),
    /// Greatest number of cut stages, at least 2; none for any number. A stage is all cuts of one direction between two
    /// turns of the panels; cutting a piece to width out of its strip at the end is not counted.
    pub stages: Option<u8>,
    /// The pieces.
    pub pieces: Vec<Piece>,
    /// How many places may be looked at before the best plan so far is given; see [`usual_effort`].
    pub effort: u64,
}

/// Effort grows with the pieces up to so many.
const MANY: u32 = 2_000;

/// The effort that serves a layout: some hundredths of a second for the parts of one stock, more for very many.
#[must_use]
pub fn usual_effort(pieces: u32) -> u64 {
    2_400_000 + 24_000 * u64::from(pieces.min(MANY))
}

/// A plan takes at most this many pieces; more are counted in [`CuttingPlan::unplaced`](super::CuttingPlan::unplaced).
pub const MOST_PIECES: usize = 100_000;
