//! Every tolerance of the project, by name, in one place.

/// Lengths that differ by no more than this are equal, in millimetres (one micrometre).
///
/// Resolved lengths are rounded to whole micrometres once, so after that step a difference above this is real.
pub const SAME_LENGTH: f64 = 0.001;

/// How far machining may reach past the edges of its part, in millimetres: rounding of figures in a symbol, no more.
pub const PART_EDGE: f64 = 0.1;

/// Edges no longer than this have no sure direction and cut nothing, in millimetres (rounding of computed corners).
pub const NO_DIRECTION: f64 = 1e-9;

/// Faces of two pieces this near rest on each other, in millimetres.
pub const BEARING: f64 = 0.05;

/// Rounding of a few steps of double arithmetic, relative, or in millimetres of a box.
pub const ROUNDING: f64 = 1e-9;

/// Areas at or below this are no area, in square millimetres.
pub const NO_AREA: f64 = 0.01;

/// Greatest distance between a curve and the chords that stand for it, in millimetres.
pub const CHORD: f64 = 0.02;

/// Steps of the whole-number grid that the clearance graph is built on, in millimetres.
pub const CLEARANCE_GRID: f64 = 0.001;

/// Relative error of a computed volume.
pub const VOLUME: f64 = 1e-8;

/// How far inside its ends a range is integrated, as a share of the range.
pub const INSET: f64 = 1e-10;

/// Angles that differ by no more than this are equal, in degrees.
pub const SAME_ANGLE: f64 = 0.001;

/// Lengths beyond this, either way, are refused, in millimetres.
pub const GREATEST_LENGTH: f64 = 100_000.0;

/// Widths of ways are good to this, in millimetres: a few steps of the clearance grid.
pub const WAY_WIDTH: f64 = 0.05;

/// Radii in the clearance graph that differ by no more than this are one, in millimetres; far below its grid.
pub const SAME_RADIUS: f64 = 1e-6;

/// Fitting gap at the free edge of a hinged leaf, in millimetres (common practice, no source).
pub const LEAF_GAP: f64 = 2.0;
/// A sum of shares that misses a whole number by no more than this is that number.
pub const SAME_SHARE: f64 = 1e-6;

/// A product in double arithmetic this near the middle between two whole numbers may belong to either.
pub const NEAR_A_TIE: f64 = 1e-3;

/// Whole numbers below this are exact in double arithmetic, with room for a thousandth behind them.
pub const SURE_WHOLE: f64 = 1e12;

/// Stretches of a range no longer than this share of it are rounding.
pub const SHARE_OF_RANGE: f64 = 1e-12;

/// Directions that differ by less than this, as 1 less the cosine, are the same way.
pub const SAME_WAY: f64 = 1e-14;

/// A face whose normal has less than this of the direction to the eye, in length of three unit steps, is seen edge on.
pub const EDGE_ON: f64 = 1e-3;

/// Faces this near to each other toward the eye lie in one plane, in millimetres: a few steps of the grid of regions.
pub const SAME_DEPTH: f64 = 0.02;

/// What is narrower than this in a picture of bodies hides nothing, in millimetres (or square millimetres).
pub const DRAWN: f64 = 0.01;

/// A corner this near to a line lies on it, in millimetres: two steps of the grid of regions.
pub const ON_LINE: f64 = 0.003;
