//! The router, as written.

use super::expression::Expr;
use super::figures::{FigureKey, FiguresDoc, needed, or};
use super::named::Named;
use crate::model::{RouterFiles, ToolUse};
use crate::source::{Span, Spanned};

/// `router:`.
#[derive(Debug, Clone, PartialEq)]
pub struct RouterDoc {
    /// Tools by name.
    pub tools: Named<ToolDoc>,
    /// What one file is for.
    pub files: Option<Spanned<RouterFiles>>,
    /// The controller's word for millimetres.
    pub millimetres: Option<Spanned<String>>,
    /// Its word for a change of tools.
    pub change: Option<Spanned<String>>,
    /// Pilot holes of screws are drilled, too.
    pub pilots: Option<Spanned<bool>>,
    /// Heights and tabs.
    pub figures: FiguresDoc<5>,
    /// Where it is.
    pub span: Span,
}

/// One tool.
#[derive(Debug, Clone, PartialEq)]
pub struct ToolDoc {
    /// What it may do.
    pub uses: Vec<ToolUse>,
    /// Its sizes, speed and feeds.
    pub figures: FiguresDoc<6>,
    /// By which the controller knows it.
    pub number: Option<Expr>,
}

/// Heights over and under the board, and tabs.
pub const ROUTER: [FigureKey; 5] = [
    or(15.0, "safe", (2.0, 300.0), " mm"),
    or(0.3, "spoil", (0.0, 5.0), " mm"),
    or(12.0, "tab-length", (2.0, 200.0), " mm"),
    or(2.0, "tab-thickness", (0.3, 20.0), " mm"),
    or(400.0, "tab-every", (50.0, 10_000.0), " mm"),
];

/// Size, speed, feeds, depth of a pass and reach of a tool.
pub const TOOL: [FigureKey; 6] = [
    needed("diameter", (0.5, 100.0), " mm"),
    needed("speed", (100.0, 60_000.0), " turns a minute"),
    or(0.0, "feed", (0.0, 50_000.0), " mm a minute"),
    needed("plunge", (10.0, 20_000.0), " mm a minute"),
    needed("pass", (0.1, 100.0), " mm"),
    needed("deep", (0.5, 300.0), " mm"),
];

/// The number of a tool.
pub const TOOL_NUMBER: (f64, f64) = (1.0, 999.0);
