//! From modules to sheets on the saw: cut list and nesting.

mod cut_list;
#[cfg(test)]
pub(crate) mod fixture;
pub mod nesting;
mod stands;
#[cfg(test)]
mod tests;
mod words;

pub use cut_list::{CutList, Row, StockTotal, cut_list, part_mass};
pub use nesting::{CutSheet, CuttingPlan, Placed};
pub use stands::{Stand, before, prism_before, stand};
pub use words::{edge_words, machining_in_short, row_note, sheets_of_each_size};
