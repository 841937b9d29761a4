//! The JSON form of errors and findings, version 1, for programs.
//!
//! One report for each layout:
//! `{ format: "boxwright-findings", version: 1, layout, compiled, faults, cautions, notes, accepted, errors,
//! more_errors, findings }`. Counts are of findings that are not accepted, but for `accepted`. An error has `message`,
//! `place`, `label`, `others` (places with words) and `help`. A finding has `check`, `severity`, `subject`,
//! `arrangements`, `message`, `measured` and `required` (value with unit; the latter with source), `places`, `marks`
//! (box coordinates in mm, x to the rear, y to the right), `suggestion`, `help` (advice in words) and `accepted` (the
//! reason). A suggestion is a tried change: `{ words, edits }`; each edit has a `place` and the `text` that stands there
//! instead. A place is `{ file, line, column, start, end }`: line and column from 1 in characters, start and end in bytes of the file.
//! Keys keep this order, figures have at most three decimals, absent values are `null`.

use super::error::Diagnostic;
use super::finding::{Counts, Edit, Finding, Mark, Measure, Quantity, Requirement, SourceClass, Suggestion};
use crate::base::number::micrometres;
use crate::source::{SourceMap, Span};
use kurbo::{BezPath, PathEl, Point};
use schemars::{JsonSchema, Schema, schema_for};
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

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct ErrorWire<'a> {
    message: &'a str,
    place: Option<Place<'a>>,
    label: &'a str,
    others: Vec<OtherWire<'a>>,
    help: Option<&'a str>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct OtherWire<'a> {
    place: Option<Place<'a>>,
    says: &'a str,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct MeasureWire {
    value: f64,
    unit: &'static str,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct RequiredWire<'a> {
    value: f64,
    unit: &'static str,
    class: &'static str,
    source: &'a str,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum MarkWire {
    At(Pair),
    Between([Pair; 2]),
    /// SVG path data.
    Area(String),
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct SuggestionWire<'a> {
    words: &'a str,
    edits: Vec<EditWire<'a>>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct EditWire<'a> {
    place: Option<Place<'a>>,
    text: &'a str,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct FindingWire<'a> {
    check: &'a str,
    severity: &'static str,
    subject: &'a str,
    arrangements: &'a [String],
    message: &'a str,
    measured: Option<MeasureWire>,
    required: Option<RequiredWire<'a>>,
    places: Vec<Place<'a>>,
    marks: Vec<MarkWire>,
    suggestion: Option<SuggestionWire<'a>>,
    help: Option<&'a str>,
    accepted: Option<&'a str>,
}

/// Everything found out about one layout, ready to be written as JSON.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Report<'a> {
    format: &'static str,
    version: u32,
    layout: &'a str,
    compiled: bool,
    faults: usize,
    cautions: usize,
    notes: usize,
    accepted: usize,
    errors: Vec<ErrorWire<'a>>,
    more_errors: usize,
    findings: Vec<FindingWire<'a>>,
}

impl<'a> Report<'a> {
    /// The report of a layout: its errors (with how many more came than are kept), and its findings.
    #[must_use]
    pub fn new(
        layout: &'a str,
        errors: (&'a [Diagnostic], usize),
        findings: &'a [Finding],
        sources: &'a SourceMap,
    ) -> Self {
        let Counts { faults, cautions, notes, accepted } = Counts::of(findings);
        Self {
            format: "boxwright-findings",
            version: 1,
            layout,
            compiled: errors.0.is_empty(),
            faults,
            cautions,
            notes,
            accepted,
            errors: errors.0.iter().map(|error| error_wire(error, sources)).collect(),
            more_errors: errors.1,
            findings: findings.iter().map(|finding| finding_wire(finding, sources)).collect(),
        }
    }
}

/// Any wire form, or a list of them, as indented JSON text with a line end.
#[must_use]
pub fn json_text(wire: &impl Serialize) -> String {
    // Wire forms have only text keys and write into memory, so this can't fail; an empty text would show it.
    serde_json::to_string_pretty(wire).unwrap_or_default() + "\n"
}

fn error_wire<'a>(error: &'a Diagnostic, sources: &'a SourceMap) -> ErrorWire<'a> {
    let other = |note: &'a super::error::Note| OtherWire { place: Place::new(sources, note.span), says: &note.says };
    ErrorWire {
        message: &error.message,
        place: Place::new(sources, error.span),
        label: &error.label,
        others: error.notes.iter().map(other).collect(),
        help: error.help.as_deref(),
    }
}

fn finding_wire<'a>(finding: &'a Finding, sources: &'a SourceMap) -> FindingWire<'a> {
    FindingWire {
        check: finding.check,
        severity: finding.severity.word(),
        subject: &finding.subject,
        arrangements: &finding.arrangements,
        message: &finding.message,
        measured: finding.measured.map(measure_wire),
        required: finding.required.as_ref().map(required_wire),
        places: finding.spans.iter().filter_map(|span| Place::new(sources, *span)).collect(),
        marks: finding.marks.iter().map(mark_wire).collect(),
        suggestion: finding.suggestion.as_ref().map(|suggestion| suggestion_wire(suggestion, sources)),
        help: finding.help.as_deref(),
        accepted: finding.accepted.as_deref(),
    }
}

fn suggestion_wire<'a>(suggestion: &'a Suggestion, sources: &'a SourceMap) -> SuggestionWire<'a> {
    let edit = |edit: &'a Edit| EditWire { place: Place::new(sources, edit.span), text: edit.text.as_str() };
    SuggestionWire { words: &suggestion.words, edits: suggestion.edits.iter().map(edit).collect() }
}

fn unit(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Length => "mm",
        Quantity::Angle => "degrees",
        Quantity::Volume => "litres",
        Quantity::Area => "mm2",
        Quantity::Count => "count",
    }
}

fn measure_wire(measure: Measure) -> MeasureWire {
    MeasureWire { value: micrometres(measure.value), unit: unit(measure.quantity) }
}

fn required_wire(required: &Requirement) -> RequiredWire<'_> {
    let class = match required.class {
        SourceClass::Geometry => "geometry",
        SourceClass::Published => "published",
        SourceClass::CommonPractice => "common-practice",
        SourceClass::FromMemory => "from-memory",
        SourceClass::Layout => "layout",
    };
    let MeasureWire { value, unit } = measure_wire(required.measure);
    RequiredWire { value, unit, class, source: &required.source }
}

fn mark_wire(mark: &Mark) -> MarkWire {
    match mark {
        Mark::At(point) => MarkWire::At(pair(*point)),
        Mark::Between(a, b) => MarkWire::Between([pair(*a), pair(*b)]),
        Mark::Area(path) => MarkWire::Area(path_data(path)),
    }
}
