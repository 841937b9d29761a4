//! What all JSON outputs share: places in files, points, paths.

use crate::base::number::micrometres;
use crate::source::{SourceMap, Span};
use kurbo::{BezPath, PathEl, Point};
use schemars::JsonSchema;
use serde::Serialize;

/// A place in a file.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Place<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    start: u32,
    end: u32,
}

impl<'a> Place<'a> {
    /// The place of a span; `None` if its file is not in the map.
    #[must_use]
    pub fn new(sources: &'a SourceMap, span: Span) -> Option<Self> {
        let (file, position) = sources.place(span)?;
        Some(Self { file, line: position.line, column: position.column, start: span.start, end: span.end })
    }
}

/// A point, rounded.
pub type Pair = [f64; 2];

/// A point with at most three decimals.
#[must_use]
pub fn pair(point: Point) -> Pair {
    [micrometres(point.x), micrometres(point.y)]
}

/// A path as SVG path data with at most three decimals.
#[must_use]
pub fn path_data(path: &BezPath) -> String {
    let round = |point: Point| Point::from((micrometres(point.x), micrometres(point.y)));
    let element = |element: PathEl| match element {
        PathEl::MoveTo(a) => PathEl::MoveTo(round(a)),
        PathEl::LineTo(a) => PathEl::LineTo(round(a)),
        PathEl::QuadTo(a, b) => PathEl::QuadTo(round(a), round(b)),
        PathEl::CurveTo(a, b, c) => PathEl::CurveTo(round(a), round(b), round(c)),
        PathEl::ClosePath => PathEl::ClosePath,
    };
    path.iter().map(element).collect::<BezPath>().to_svg()
}

/// Any wire form, or a list of them, as indented JSON text with a line end.
#[must_use]
pub fn json_text(wire: &impl Serialize) -> String {
    // Wire forms have only text keys and write into memory, so this can't fail; an empty text would show it.
    serde_json::to_string_pretty(wire).unwrap_or_default() + "\n"
}
