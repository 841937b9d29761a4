//! From modules to sheets on the saw: cut list and nesting.

mod cut_list;
pub mod nesting;

pub use cut_list::{CutList, Row, StockTotal, cut_list, cut_size, part_mass};
pub use nesting::{CutSheet, CuttingPlan, Placed};
