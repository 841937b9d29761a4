//! What all JSON outputs share: places in files, points, paths.

mod lazy;
mod only;

pub use lazy::Lazy;
pub use only::{Only, Wants};

use crate::base::number::micrometres;
use crate::source::{SourceMap, Span};
use kurbo::{BezPath, PathEl, Point};
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde::Serialize;
use serde_json::Value;

/// A place in a file. Lines and columns count from 1, columns in characters; the end is one past the last character.
/// There are no byte offsets: they would change with line ends, blanks and marks that mean nothing.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Place<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
}

impl<'a> Place<'a> {
    /// The place of a span; `None` if its file is not in the map.
    #[must_use]
    pub fn new(sources: &'a SourceMap, span: Span) -> Option<Self> {
        let file = sources.file(span.file)?;
        let (start, end) = (file.position(span.start as usize), file.position(span.end.max(span.start) as usize));
        Some(Self {
            file: &file.name,
            line: start.line,
            column: start.column,
            end_line: end.line,
            end_column: end.column,
        })
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

/// Any wire form as JSON text without white space, but for a line end.
#[must_use]
pub fn compact_json(wire: &impl Serialize) -> String {
    serde_json::to_string(wire).unwrap_or_default() + "\n"
}

/// The JSON Schema (2020-12) of a wire form as it is written: every key is there.
#[must_use]
pub fn json_schema<T: JsonSchema>() -> Value {
    SchemaSettings::draft2020_12().for_serialize().into_generator().into_root_schema_for::<T>().to_value()
}

/// The JSON Schema (2020-12) of a wire form as it is read: what may be left out may be missing.
#[must_use]
pub fn read_schema<T: JsonSchema>() -> Value {
    SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<T>().to_value()
}
