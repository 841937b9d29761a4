//! What a plug-in says of itself: its answer to `describe`.

use super::reads::ReadsWire;
use schemars::JsonSchema;
use serde::Deserialize;
use serde_json::Value;

/// The format of descriptions.
const FORMAT: &str = "boxwright-plug-in";

/// What a plug-in says of itself.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "PlugIn")]
pub struct Description {
    /// `boxwright-plug-in`.
    #[schemars(extend("const" = FORMAT))]
    pub format: String,
    /// Version of the forms.
    #[schemars(extend("const" = 1))]
    pub version: u32,
    /// Stands before the names of its checks, outputs and sheets, with a colon: lower case letters, digits, hyphens.
    pub name: String,
    /// What it is, in one line.
    pub says: String,
    /// Its checks, which its function `check` makes all at once.
    #[serde(default)]
    pub checks: Vec<CheckWire>,
    /// Its outputs, for each of which its function `backend` is called.
    #[serde(default)]
    pub backends: Vec<BackendWire>,
    /// Its sheets, for each of which its function `sheet` is called.
    #[serde(default)]
    pub sheets: Vec<SheetSaid>,
}

/// A check.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "PlugInCheck")]
pub struct CheckWire {
    /// Without that of the plug-in.
    pub name: String,
    /// One line for lists.
    pub says: String,
    /// The manual page, best with the headings `# Computes`, `# Why`, `# Limit`, `# Source` and `# Change it`.
    pub manual: String,
    /// What a result on safety is worth, in one sentence without a full stop.
    #[serde(default)]
    pub caution: Option<String>,
    /// The limits that a layout may change.
    #[serde(default)]
    pub limits: Vec<LimitWire>,
    /// What it reads.
    #[serde(default)]
    pub reads: ReadsWire,
}

/// A limit of a check.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "PlugInLimit")]
pub struct LimitWire {
    /// Its name in the layout.
    pub name: String,
    /// The default.
    pub value: f64,
    /// The greater of two limits.
    #[serde(default)]
    pub to: Option<f64>,
    /// Unit of the figures.
    #[schemars(extend("enum" = ["mm", "degrees", "litres", "mm2", "count", "kg", "percent", "days", "W"]))]
    pub unit: String,
    /// Whether a figure is to be at least or at most this, or from this up to `to`.
    #[schemars(extend("enum" = ["least", "most", "between"]))]
    pub bound: String,
    /// How sure the source is.
    #[schemars(extend("enum" = ["geometry", "published", "quoted", "common-practice", "from-memory", "layout"]))]
    pub class: String,
    /// The source in words.
    pub source: String,
}

/// An output.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(rename = "PlugInBackend")]
pub struct BackendWire {
    /// Without that of the plug-in.
    pub name: String,
    /// One line for lists.
    pub says: String,
    /// Whether it is made only where it is named.
    #[serde(default)]
    pub when_asked: bool,
    /// What it reads.
    #[serde(default)]
    pub reads: ReadsWire,
}

/// A sheet, or a few that belong together.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "PlugInSheet")]
pub struct SheetSaid {
    /// Without that of the plug-in.
    pub name: String,
    /// What it shows, in one line.
    pub says: String,
    /// What it reads.
    #[serde(default)]
    pub reads: ReadsWire,
}

impl Description {
    /// Reads what a plug-in says of itself.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        super::read("description", FORMAT, bytes)
    }
}

/// The JSON Schema of descriptions.
#[must_use]
pub fn description_schema() -> Value {
    crate::diagnostic::wire::read_schema::<Description>()
}
