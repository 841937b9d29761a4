//! The room seen along an axis: what elevations, sections, panel sheets and module sheets share.

pub(super) mod elevations;
mod fixings;
mod fronts;
pub(super) mod gallery;
pub(super) mod heights;
mod hinges;
pub(super) mod look;
pub(super) mod module_sheets;
pub(super) mod openings;
pub(super) mod painter;
pub(super) mod panels;
mod part_numbers;
mod pieces;
mod planes;
mod rings;
pub(super) mod roof_plan;
pub(super) mod rows;
pub(super) mod sections;
mod shell;
mod slice;
