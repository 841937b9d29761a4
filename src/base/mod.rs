//! What every other room stands on: tolerances, rounding, text helpers.

pub mod content;
pub mod lock;
pub mod memo;
pub mod number;
pub mod once;
pub mod stop;
pub mod text;
pub mod tolerance;
