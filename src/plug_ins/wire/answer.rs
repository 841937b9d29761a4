//! What a plug-in answers: findings, files or sheets, or why it has none.

use super::sheet::SheetAnswer;
use schemars::JsonSchema;
use serde::Deserialize;
use serde_json::Value;

/// The format of answers.
const FORMAT: &str = "boxwright-answer";

/// An answer. Of the three lists it has the one that was asked for.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// `boxwright-answer`.
    #[schemars(extend("const" = FORMAT))]
    pub format: String,
    /// Version of the forms.
    #[schemars(extend("const" = 1))]
    pub version: u32,
    /// Why there is no answer, in one sentence for the user.
    #[serde(default)]
    pub failed: Option<String>,
    /// Answer to `check`: findings as in `findings.json`.
    #[serde(default)]
    pub findings: Option<Vec<FindingWire>>,
    /// Answer to `backend`.
    #[serde(default)]
    pub files: Option<Vec<FileWire>>,
    /// Answer to `sheet`.
    #[serde(default)]
    pub sheets: Option<Vec<SheetAnswer>>,
}

/// One finding. What may be absent in `findings.json` may be left out.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Finding")]
pub struct FindingWire {
    /// The check, with or without the name of the plug-in before it.
    pub check: String,
    /// How grave it is.
    #[schemars(extend("enum" = ["fault", "caution", "note", "met"]))]
    pub severity: String,
    /// The module, opening, zone, route or person it is about, `a and b` for two of them, or `box`.
    pub subject: String,
    /// What tells it from other findings of the check on the subject.
    #[serde(default)]
    pub about: Vec<AboutWire>,
    /// The arrangements it holds in; empty when it does not depend on them.
    #[serde(default)]
    pub arrangements: Vec<String>,
    /// One sentence of fact, no full stop.
    pub message: String,
    /// What was measured.
    #[serde(default)]
    pub measured: Option<MeasureWire>,
    /// What was required, best as the limit stands in the question.
    #[serde(default)]
    pub required: Option<RequiredWire>,
    /// What else the message is made of.
    #[serde(default)]
    pub arguments: Vec<ArgumentWire>,
    /// Where in the files, as the model says it, the main place first; the place of the subject where none is given.
    #[serde(default)]
    pub places: Vec<PlaceWire>,
    /// Where on the plan.
    #[serde(default)]
    pub marks: Vec<MarkWire>,
    /// Advice in words.
    #[serde(default)]
    pub help: Option<String>,
    /// Nothing: suggestions are found by trying.
    #[serde(default)]
    pub suggestion: (),
    /// Nothing: the layout says what it accepts.
    #[serde(default)]
    pub accepted: (),
}

/// What tells findings of one check on one subject apart.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "About")]
pub struct AboutWire {
    /// A question, a part of the subject, or something else.
    #[schemars(extend("enum" = ["question", "part", "other"]))]
    pub kind: String,
    /// The word or the name.
    pub name: String,
}

/// A figure with its unit.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Measure")]
pub struct MeasureWire {
    /// The figure.
    pub value: f64,
    /// Its unit.
    #[schemars(extend("enum" = ["mm", "degrees", "litres", "mm2", "count", "kg", "percent", "days", "W"]))]
    pub unit: String,
}

/// What is required, and on whose word. A limit of the question may be handed back as it is, with its name.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Requirement")]
pub struct RequiredWire {
    /// Name of a limit of the check that is handed back.
    #[serde(default)]
    pub name: Option<String>,
    /// The limit.
    pub value: f64,
    /// Its unit.
    #[schemars(extend("enum" = ["mm", "degrees", "litres", "mm2", "count", "kg", "percent", "days", "W"]))]
    pub unit: String,
    /// Its direction.
    #[schemars(extend("enum" = ["least", "most", "between"]))]
    pub bound: String,
    /// The greater of two limits.
    #[serde(default)]
    pub to: Option<f64>,
    /// A figure that misses the limit by no more than this meets it.
    #[serde(default)]
    pub within: f64,
    /// How sure the source is.
    #[schemars(extend("enum" = ["geometry", "published", "quoted", "common-practice", "from-memory", "layout"]))]
    pub class: String,
    /// The source in words.
    pub source: String,
}

/// A figure, or a name, that the message speaks of.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Argument")]
pub struct ArgumentWire {
    /// What it is, in a word.
    pub name: String,
    /// The figure.
    #[serde(default)]
    pub figure: Option<MeasureWire>,
    /// Or the name or word.
    #[serde(default)]
    pub says: Option<String>,
}

/// A place in a file.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Place")]
pub struct PlaceWire {
    /// Name of the file.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Line of the end.
    pub end_line: usize,
    /// Column one past the last character.
    pub end_column: usize,
}

/// A place in the box, seen from above: x to the rear, y to the right, in mm.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "Mark")]
pub enum MarkWire {
    /// A point.
    At([f64; 2]),
    /// A measured distance.
    Between([[f64; 2]; 2]),
    /// An area, as SVG path data.
    Area(String),
}

/// A file. It is put into the layout's folder with the name of the plug-in and a hyphen before its own.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "File")]
pub struct FileWire {
    /// Its name, without a folder: `plan.txt`.
    pub name: String,
    /// What is in it, as text.
    #[serde(default)]
    pub text: Option<String>,
    /// Or as bytes, in base64 of RFC 4648 with padding.
    #[serde(default)]
    pub base64: Option<String>,
}

impl Answer {
    /// Reads an answer.
    ///
    /// # Errors
    /// What is wrong with it, or why the plug-in has none.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        let answer: Self = super::read("answer", FORMAT, bytes)?;
        match &answer.failed {
            Some(why) => Err(why.clone()),
            None => Ok(answer),
        }
    }
}

/// The JSON Schema of answers.
#[must_use]
pub fn answer_schema() -> Value {
    crate::diagnostic::wire::read_schema::<Answer>()
}
