//! The cut list: rows of equal parts, grouped by stock, with totals.

use super::nesting::CuttingPlan;
use crate::geometry::Polygon;
use crate::model::{Bands, Grain, Machining};
use crate::source::Span;

/// One row: parts that are equal in everything.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Part number, e.g. `galley-03`.
    pub number: String,
    /// Name of the part in the symbol (several names of equal parts are joined with ` / `).
    pub name: String,
    /// Modules it goes to, with how many each.
    pub modules: Vec<(String, u32)>,
    /// How many in all.
    pub count: u32,
    /// Finished size, length x width x thickness, mm.
    pub finished: (f64, f64, f64),
    /// Cut size, length x width, mm: finished less bands plus scribe.
    pub cut: (f64, f64),
    /// Index of the stock in the model.
    pub stock: usize,
    /// Grain.
    pub grain: Grain,
    /// Bands.
    pub bands: Bands,
    /// True outline, if it is no rectangle.
    pub outline: Option<Polygon>,
    /// Machining.
    pub machining: Vec<Machining>,
    /// A word for the joiner.
    pub note: Option<String>,
    /// Mass of one piece, kg.
    pub mass: f64,
    /// Lines of the symbols that made it.
    pub spans: Vec<Span>,
}

/// Totals of one stock.
#[derive(Debug, Clone, PartialEq)]
pub struct StockTotal {
    /// Index of the stock in the model.
    pub stock: usize,
    /// Pieces.
    pub pieces: u32,
    /// Area of the cut sizes, m2.
    pub area: f64,
    /// Mass of the pieces, kg.
    pub mass: f64,
    /// The cutting plan of its sheets.
    pub plan: CuttingPlan,
    /// Share of the sheets' area that becomes no part, 0 to 1.
    pub waste: f64,
    /// Price of the sheets, if known.
    pub price: Option<f64>,
}

/// The whole cut list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CutList {
    /// Rows, grouped by stock in the model's order, longest first in a stock.
    pub rows: Vec<Row>,
    /// One for each stock that has rows.
    pub totals: Vec<StockTotal>,
}
