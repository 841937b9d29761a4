//! The JSON form of errors and findings, version 1, for programs; its JSON Schema (2020-12) is made from these types.
//!
//! One report for each layout. Counts are of findings that are not accepted, but for `accepted`. Keys keep their order,
//! figures have at most three decimals, absent values are `null`.

use crate::base::number::micrometres;
use crate::diagnostic::Ran;
use crate::diagnostic::wire::{Pair, Place, json_schema, pair, path_data};
use crate::diagnostic::{
    Argument, Bound, Counts, Diagnostic, Edit, Finding, Mark, Measure, Note, Requirement, Suggestion, Value,
};
use crate::model::{Accepted, LimitChange, Model};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// Something that keeps the layout from compiling, or makes a draft of it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Error")]
struct ErrorWire<'a> {
    message: &'a str,
    place: Option<Place<'a>>,
    /// A few words for the place; may be empty.
    label: &'a str,
    /// Other places that help to understand it.
    others: Vec<OtherWire<'a>>,
    suggestion: Option<SuggestionWire<'a>>,
    /// What to do.
    help: Option<&'a str>,
}

/// Another place, with words.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "OtherPlace")]
struct OtherWire<'a> {
    place: Option<Place<'a>>,
    says: &'a str,
}

/// A figure with its unit.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Measure")]
struct MeasureWire {
    value: f64,
    #[schemars(extend("enum" = ["mm", "degrees", "litres", "mm2", "count", "kg", "percent", "days", "W", "number"]))]
    unit: &'static str,
}

/// What is required, and on whose word.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Requirement")]
struct RequiredWire<'a> {
    value: f64,
    #[schemars(extend("enum" = ["mm", "degrees", "litres", "mm2", "count", "kg", "percent", "days", "W", "number"]))]
    unit: &'static str,
    /// Whether the figure is to be at least or at most this, or from this up to `to`.
    #[schemars(extend("enum" = ["least", "most", "between"]))]
    bound: &'static str,
    /// The greater of two limits.
    to: Option<f64>,
    /// A figure that misses the limit by no more than this meets it: rounding, and what measuring may miss by.
    within: f64,
    /// How sure the source is.
    #[schemars(extend("enum" = ["geometry", "published", "quoted", "common-practice", "from-memory", "layout", "house"]))]
    class: &'static str,
    source: &'a str,
}

/// A place in the box, seen from above: x to the rear, y to the right, in mm.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "Mark")]
enum MarkWire {
    /// A point.
    At(Pair),
    /// A measured distance.
    Between([Pair; 2]),
    /// An area, as SVG path data.
    Area(String),
}

/// A change of one written value, tried: with it the finding is gone and no new fault has come.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Suggestion")]
struct SuggestionWire<'a> {
    words: &'a str,
    edits: Vec<EditWire<'a>>,
}

/// Text that takes the place of what stands there.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Edit")]
struct EditWire<'a> {
    place: Option<Place<'a>>,
    text: &'a str,
}

/// What tells findings of one check on one subject apart: a question, a part of the subject, or something else.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "About")]
struct AboutWire<'a> {
    #[schemars(extend("enum" = ["question", "part", "other"]))]
    kind: &'static str,
    name: &'a str,
}

/// A figure, or a name, that the message speaks of.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Argument")]
struct ArgumentWire<'a> {
    name: &'a str,
    figure: Option<MeasureWire>,
    says: Option<&'a str>,
}

/// One result of a check.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Finding")]
struct FindingWire<'a> {
    check: &'a str,
    #[schemars(extend("enum" = ["fault", "caution", "note", "met"]))]
    severity: &'static str,
    /// The module, opening, zone, route or person it is about.
    subject: String,
    /// What tells it from other findings of the check on the subject.
    about: Vec<AboutWire<'a>>,
    /// The arrangements it holds in; empty when it does not depend on them.
    arrangements: &'a [String],
    message: &'a str,
    measured: Option<MeasureWire>,
    required: Option<RequiredWire<'a>>,
    /// What else the message is made of.
    arguments: Vec<ArgumentWire<'a>>,
    /// Where in the files, the main place first.
    places: Vec<Place<'a>>,
    /// Where on the plan.
    marks: Vec<MarkWire>,
    suggestion: Option<SuggestionWire<'a>>,
    /// Advice in words.
    help: Option<&'a str>,
    /// The reason for which the layout accepts it.
    accepted: Option<&'a str>,
}

/// A check that was run, with its limits as they held.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Check")]
struct CheckWire<'a> {
    name: &'a str,
    says: &'a str,
    /// What its results on safety are worth.
    caution: Option<&'a str>,
    limits: Vec<LimitWire<'a>>,
}

/// A limit of a check.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Limit")]
struct LimitWire<'a> {
    name: &'a str,
    #[serde(flatten)]
    required: RequiredWire<'a>,
}

/// A limit that the layout has changed.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "ChangedLimit")]
struct ChangeWire<'a> {
    check: &'a str,
    limit: &'a str,
    value: f64,
    because: &'a str,
    place: Option<Place<'a>>,
}

/// A finding that the layout accepts.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Acceptance")]
struct AcceptanceWire<'a> {
    check: &'a str,
    of: &'a str,
    /// What tells the finding from others; empty for all.
    about: &'a [String],
    /// The arrangements it is accepted in; empty for all.
    arrangements: &'a [String],
    /// The figure it was accepted at, in the unit of what is measured.
    up_to: Option<f64>,
    because: &'a str,
    /// Whether there is such a finding.
    used: bool,
    place: Option<Place<'a>>,
}

/// Everything found out about one layout.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Report<'a> {
    #[schemars(extend("const" = "boxwright-findings"))]
    format: &'static str,
    #[schemars(extend("const" = 1))]
    version: u32,
    /// Name of the layout, or of its file.
    layout: &'a str,
    /// Without errors.
    compiled: bool,
    /// Whether it can be drawn: with errors, as a draft.
    drawn: bool,
    faults: usize,
    cautions: usize,
    notes: usize,
    accepted: usize,
    errors: Vec<ErrorWire<'a>>,
    /// How many more errors there were than are listed.
    more_errors: usize,
    checks: Vec<CheckWire<'a>>,
    changed_limits: Vec<ChangeWire<'a>>,
    acceptances: Vec<AcceptanceWire<'a>>,
    findings: Vec<FindingWire<'a>>,
}

/// What a report speaks of. `model` is `None` if the layout did not compile.
#[derive(Debug, Clone, Copy)]
pub struct Found<'a> {
    /// Errors, with how many more came than are kept.
    pub errors: (&'a [Diagnostic], usize),
    /// The resolved layout.
    pub model: Option<&'a Model>,
    /// The checks that were run.
    pub checks: &'a [Ran],
    /// What they found.
    pub findings: &'a [Finding],
    /// The files.
    pub sources: &'a SourceMap,
}

impl<'a> Report<'a> {
    /// The report of a layout.
    #[must_use]
    pub fn new(layout: &'a str, found: Found<'a>) -> Self {
        let Found { errors, model, checks, findings, sources } = found;
        let Counts { faults, cautions, notes, accepted, .. } = Counts::of(findings);
        let (limits, acceptances) = model.map_or((&[][..], &[][..]), |model| (&model.limits, &model.accepted));
        Self {
            format: "boxwright-findings",
            version: 1,
            layout,
            compiled: errors.0.is_empty(),
            drawn: model.is_some(),
            faults,
            cautions,
            notes,
            accepted,
            errors: errors.0.iter().map(|error| error_wire(error, sources)).collect(),
            more_errors: errors.1,
            checks: checks.iter().map(check_wire).collect(),
            changed_limits: limits.iter().map(|change| change_wire(change, sources)).collect(),
            acceptances: acceptances.iter().map(|entry| acceptance_wire(entry, findings, sources)).collect(),
            findings: findings.iter().map(|finding| finding_wire(finding, sources)).collect(),
        }
    }
}

/// The JSON Schema of a [`Report`].
#[must_use]
pub fn findings_schema() -> serde_json::Value {
    json_schema::<Report<'_>>()
}

fn check_wire(ran: &Ran) -> CheckWire<'_> {
    let limit = |(name, required)| LimitWire { name, required: required_wire(required) };
    let Ran { name, says, caution, limits } = ran;
    CheckWire { name, says, caution: caution.as_deref(), limits: limits.iter().map(limit).collect() }
}

fn change_wire<'a>(change: &'a LimitChange, sources: &'a SourceMap) -> ChangeWire<'a> {
    ChangeWire {
        check: &change.check,
        limit: &change.name,
        value: micrometres(change.value),
        because: &change.because,
        place: Place::new(sources, change.span),
    }
}

fn acceptance_wire<'a>(entry: &'a Accepted, findings: &[Finding], sources: &'a SourceMap) -> AcceptanceWire<'a> {
    AcceptanceWire {
        check: &entry.check,
        of: &entry.of,
        about: &entry.about,
        arrangements: &entry.arrangements,
        up_to: entry.up_to.map(micrometres),
        because: &entry.because,
        used: findings.iter().any(|finding| finding.accepted.is_some() && entry.fits(finding)),
        place: Place::new(sources, entry.span),
    }
}

fn error_wire<'a>(error: &'a Diagnostic, sources: &'a SourceMap) -> ErrorWire<'a> {
    let other = |note: &'a Note| OtherWire { place: Place::new(sources, note.span), says: &note.says };
    ErrorWire {
        message: &error.message,
        place: Place::new(sources, error.span),
        label: &error.label,
        others: error.notes.iter().map(other).collect(),
        suggestion: error.suggestion.as_ref().map(|suggestion| suggestion_wire(suggestion, sources)),
        help: error.help.as_deref(),
    }
}

fn finding_wire<'a>(finding: &'a Finding, sources: &'a SourceMap) -> FindingWire<'a> {
    FindingWire {
        check: &finding.key.check,
        severity: finding.severity.word(),
        subject: finding.key.subject.to_string(),
        about: finding.key.about.iter().map(|about| AboutWire { kind: about.kind(), name: about.name() }).collect(),
        arrangements: &finding.arrangements,
        message: &finding.message,
        measured: finding.measured.map(measure_wire),
        required: finding.required.as_ref().map(required_wire),
        arguments: finding.arguments.iter().map(argument_wire).collect(),
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

fn measure_wire(measure: Measure) -> MeasureWire {
    MeasureWire { value: micrometres(measure.value), unit: measure.quantity.unit() }
}

fn argument_wire(argument: &Argument) -> ArgumentWire<'_> {
    let (figure, says) = match &argument.value {
        Value::Figure(measure) => (Some(measure_wire(*measure)), None),
        Value::Name(says) => (None, Some(says.as_str())),
    };
    ArgumentWire { name: &argument.name, figure, says }
}

fn required_wire(required: &Requirement) -> RequiredWire<'_> {
    let (bound, to) = match required.bound {
        Bound::Least(_) => ("least", None),
        Bound::Most(_) => ("most", None),
        Bound::Between(_, high) => ("between", Some(micrometres(high))),
    };
    RequiredWire {
        value: micrometres(required.value()),
        unit: required.quantity.unit(),
        bound,
        to,
        within: micrometres(required.slack()),
        class: required.class.name(),
        source: &required.source,
    }
}

fn mark_wire(mark: &Mark) -> MarkWire {
    match mark {
        Mark::At(point) => MarkWire::At(pair(*point)),
        Mark::Between(a, b) => MarkWire::Between([pair(*a), pair(*b)]),
        Mark::Area(path) => MarkWire::Area(path_data(path)),
    }
}
