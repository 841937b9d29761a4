//! The router of the workshop: its tools, and how its controller wants to be spoken to.

use super::words::{RouterFiles, ToolUse};
use crate::source::Span;

/// A tool.
#[derive(Debug, Clone, PartialEq)]
pub struct Tool {
    /// Its name.
    pub name: String,
    /// By which the controller knows it.
    pub number: u32,
    /// What it may do.
    pub uses: Vec<ToolUse>,
    /// mm.
    pub diameter: f64,
    /// Turns a minute.
    pub speed: f64,
    /// Feed along, mm a minute; 0 for a drill.
    pub feed: f64,
    /// Feed down, mm a minute.
    pub plunge: f64,
    /// Depth of one pass, mm.
    pub pass: f64,
    /// How deep it reaches, mm.
    pub deep: f64,
    /// Where it is written.
    pub span: Span,
}

/// The router.
#[derive(Debug, Clone, PartialEq)]
pub struct Router {
    /// Its tools, in file order.
    pub tools: Vec<Tool>,
    /// What one file is for.
    pub files: RouterFiles,
    /// The word that the controller knows for millimetres, if it wants one.
    pub millimetres: Option<String>,
    /// The word for a change of tools; none where each tool has a file of its own.
    pub change: Option<String>,
    /// Whether pilot holes of screws are drilled, too.
    pub pilots: bool,
    /// Over the board, mm: rapid moves along stay there.
    pub safe: f64,
    /// Under the board, mm: so deep it may cut into the spoil board.
    pub spoil: f64,
    /// Length of the tabs that hold a piece, mm.
    pub tab_length: f64,
    /// Their thickness, mm.
    pub tab_thickness: f64,
    /// At most so far from one to the next, mm.
    pub tab_every: f64,
    /// Where it is written.
    pub span: Span,
}
