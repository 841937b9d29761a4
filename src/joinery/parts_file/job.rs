//! What a list of parts becomes: jobs, and what is odd about them.

use crate::diagnostic::{Diagnostic, Sink};
use crate::joinery::CutPart;
use crate::joinery::nesting::{Request, SheetKind};
use crate::model::Grain;
use crate::source::{FileId, Span};
use std::ops::Range;

/// What is to be cut from what, with the names of the parts.
#[derive(Debug, Clone, PartialEq)]
pub struct PartsJob {
    /// Name of the job.
    pub id: String,
    /// The request, without an effort.
    pub request: Request,
    /// The parts, as the pieces of the request.
    pub parts: Vec<CutPart>,
    /// The parts have names of their own, not only a place in the list.
    pub named: bool,
    /// Which way the grain of a sheet runs.
    pub grain: Grain,
}

/// What the list does not say.
#[derive(Debug, Clone, PartialEq)]
pub struct Saw {
    /// Sheets, for a list without any.
    pub sheets: Vec<SheetKind>,
    /// Width of the saw cut, mm, if said.
    pub kerf: Option<f64>,
    /// Trimmed off each edge, mm, if said.
    pub trim: Option<f64>,
    /// The smallest offcut worth keeping, mm.
    pub useful: (f64, f64),
    /// Greatest number of cut stages.
    pub stages: Option<u8>,
    /// Which way the grain of a sheet runs.
    pub grain: Grain,
}

/// A list that was read.
#[derive(Debug)]
pub struct PartsList {
    /// What is to be laid.
    pub jobs: Vec<PartsJob>,
    /// What is odd about it, with the places, though it can be laid.
    pub notes: Sink,
}

pub(super) fn at(file: FileId, range: Range<usize>) -> Span {
    let byte = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    Span { file, start: byte(range.start), end: byte(range.end) }
}

pub(super) fn only(error: Diagnostic) -> Sink {
    let mut sink = Sink::default();
    sink.push(error);
    sink
}
