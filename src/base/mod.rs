//! What every other room stands on: tolerances, rounding, text helpers.

pub mod number;
pub mod text;
pub mod tolerance;
