//! What a plug-in is asked.

use super::reads::Reading;
use crate::backends::{Found, Product, Report, model_wire, report_wire, sheets_wire};
use crate::diagnostic::wire::{Only, Wants};
use crate::diagnostic::{Bound, Ran, Requirement};
use crate::figures::Figures;
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;

/// The format of questions.
const FORMAT: &str = "boxwright-question";

/// A question. Of each form it has what the plug-in says that it reads.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Question")]
struct QuestionWire<'a, M, F, R, S> {
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    #[schemars(extend("const" = 1))]
    version: u32,
    /// Name of the output or the sheet that is wanted, without that of the plug-in; empty for checks.
    ask: &'a str,
    /// The plug-in's checks, with their limits as they hold for this layout.
    checks: Vec<CheckedWire<'a>>,
    /// Parts of the form of `boxwright schema model`.
    #[serde(skip_serializing_if = "Option::is_none")]
    model: Option<M>,
    /// Parts of the form of `boxwright schema findings`.
    #[serde(skip_serializing_if = "Option::is_none")]
    findings: Option<F>,
    /// Parts of the form of `boxwright schema report`.
    #[serde(skip_serializing_if = "Option::is_none")]
    report: Option<R>,
    /// Parts of the form of `boxwright schema sheets`.
    #[serde(skip_serializing_if = "Option::is_none")]
    sheets: Option<S>,
}

/// A check with its limits, as in `findings.json`.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Checked")]
struct CheckedWire<'a> {
    name: &'a str,
    says: &'a str,
    caution: Option<&'a str>,
    limits: Vec<LimitWire<'a>>,
}

/// A limit as it holds. It is judged by, so its figures have all their decimals.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Limit")]
struct LimitWire<'a> {
    name: &'a str,
    value: f64,
    #[schemars(extend("enum" = ["mm", "degrees", "litres", "mm2", "count", "kg", "percent", "days", "W"]))]
    unit: &'static str,
    #[schemars(extend("enum" = ["least", "most", "between"]))]
    bound: &'static str,
    to: Option<f64>,
    /// A figure that misses the limit by no more than this meets it.
    within: f64,
    #[schemars(extend("enum" = ["geometry", "published", "quoted", "common-practice", "from-memory", "layout"]))]
    class: &'static str,
    source: &'a str,
}

fn checked(ran: &Ran) -> CheckedWire<'_> {
    let Ran { name, says, caution, limits } = ran;
    let limits = limits.iter().map(|(name, required)| limit(name, required)).collect();
    CheckedWire { name, says, caution: caution.as_deref(), limits }
}

fn limit<'a>(name: &'a str, required: &'a Requirement) -> LimitWire<'a> {
    let (bound, to) = match required.bound {
        Bound::Least(_) => ("least", None),
        Bound::Most(_) => ("most", None),
        Bound::Between(_, high) => ("between", Some(high)),
    };
    LimitWire {
        name,
        value: required.value(),
        unit: required.quantity.unit(),
        bound,
        to,
        within: required.slack(),
        class: required.class.name(),
        source: &required.source,
    }
}

/// What a question is made from.
#[derive(Clone, Copy)]
pub enum Question<'a> {
    /// For all checks of a plug-in.
    Checks(&'a Figures<'a>, &'a [Ran]),
    /// For an output or a sheet of a name.
    Product(&'a Product<'a>, &'a str),
}

impl Question<'_> {
    /// The text of the question: the same for the same content.
    #[must_use]
    pub fn text(&self, reading: &Reading) -> Vec<u8> {
        match self {
            Self::Checks(figures, checks) => {
                let none = SourceMap::default();
                let sources = figures.sources.unwrap_or(&none);
                let model = model_wire(figures, sources, 0);
                let wire = QuestionWire {
                    format: FORMAT,
                    version: super::VERSION,
                    ask: "",
                    checks: checks.iter().map(checked).collect(),
                    model: part(&model, &reading.model),
                    findings: None::<()>,
                    report: None::<()>,
                    sheets: None::<()>,
                };
                bytes(&wire)
            }
            Self::Product(product, ask) => {
                let Product { model, figures, errors, checks, findings, sources, .. } = **product;
                let errors = (errors.errors(), errors.dropped());
                let found = Found { errors, model: Some(model), checks, findings, sources };
                let held = product.held().count();
                let (whole, report) = (model_wire(figures, sources, held), Report::new(&model.name, found));
                let (sums, sheets) = (report_of(product, &reading.report), sheets_wire(product.sheets));
                let wire = QuestionWire {
                    format: FORMAT,
                    version: super::VERSION,
                    ask,
                    checks: Vec::new(),
                    model: part(&whole, &reading.model),
                    findings: part(&report, &reading.findings),
                    report: sums.as_ref().map(|sums| Only(sums, &reading.report)),
                    sheets: part(&sheets, &reading.sheets),
                };
                bytes(&wire)
            }
        }
    }
}

/// The report, which is worked out only where something of it is read.
fn report_of<'a>(product: &Product<'a>, wants: &Wants) -> Option<impl Serialize + use<'a>> {
    (!wants.none()).then(|| report_wire(product))
}

/// Nothing of what is not wanted, else the part of it.
fn part<'a, T: Serialize>(form: &'a T, wants: &'a Wants) -> Option<Only<'a, T>> {
    (!wants.none()).then_some(Only(form, wants))
}

/// Without white space: programs read it.
fn bytes(wire: &impl Serialize) -> Vec<u8> {
    serde_json::to_vec(wire).unwrap_or_default()
}

/// The JSON Schema of questions.
#[must_use]
pub fn question_schema() -> Value {
    crate::diagnostic::wire::json_schema::<QuestionWire<'_, Value, Value, Value, Value>>()
}
