//! What the services come to: days of water and electricity, voltage drop, fall of waste pipes.

mod electricity;
mod waste;
mod water;

pub use electricity::{Day, Drop, day, drop, nominal, resistance};
pub use waste::{Fall, SMALL_BORE, fall};
pub use water::{Water, water};
