//! The sheets of one stock that are to be drawn.

use crate::joinery::CutPart;
use crate::joinery::nesting::CuttingPlan;
use crate::model::Grain;

/// The sheets of one stock.
#[derive(Debug, Clone)]
pub struct CuttingJob<'a> {
    /// Begins the names of its sheets.
    pub id: String,
    /// Name of the stock, or of all that share the sheets.
    pub name: String,
    /// What it is, such as material and thickness; may be empty.
    pub says: String,
    /// Which way the grain of a sheet runs.
    pub grain: Grain,
    /// Width of the saw cut, mm.
    pub kerf: f64,
    /// Trimmed off each edge, mm.
    pub trim: f64,
    /// The parts, by the piece's index in the plan.
    pub parts: Vec<CutPart>,
    /// The plan.
    pub plan: &'a CuttingPlan,
}
