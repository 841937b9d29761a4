//! From modules to sheets on the saw: cut list and nesting.

mod cut_list;
#[cfg(test)]
pub(crate) mod fixture;
pub mod nesting;
mod outline_words;
mod parts_file;
mod purchases;
mod sawn;
mod shared_sheets;
mod stands;
#[cfg(test)]
mod tests;
mod words;

use cut_list::turn;
pub use cut_list::{CutList, CutPart, Row, StockTotal, cut_list};
pub use nesting::{CutSheet, CuttingPlan, Placed};
pub use parts_file::{PartsJob, PartsList, Saw, read_parts};
pub use purchases::{BAND_END, BandTotal, HardwareTotal, Purchases, purchases};
pub use sawn::{SawnFrom, SawnPiece, sawn};
pub use stands::{Stand, before, prism_before, stand, standing};
pub use words::{
    band_words, bore_places, edge_words, machining, radii, row_note, run_length, sheets_of_each_size, stands,
};
