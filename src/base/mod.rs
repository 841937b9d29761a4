//! What every other room stands on: tolerances, rounding, text helpers, doing things side by side.

pub mod number;
pub mod side_by_side;
pub mod text;
pub mod tolerance;
