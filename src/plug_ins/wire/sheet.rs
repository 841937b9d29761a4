//! A sheet that a plug-in draws: tables that are laid out for it, and pictures of its own.

use crate::backends::ViewWire;
use schemars::JsonSchema;
use serde::Deserialize;

/// A sheet. Frame, title block and number are drawn around it. Either it has tables, which are laid out and take as many pages
/// as they need, or views in paper millimetres, from the lower left corner of the paper, y up.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "PlugInSheetAnswer")]
pub struct SheetAnswer {
    /// Title for the title block, bookmarks and the index.
    pub title: String,
    /// Its tables, one under the other.
    #[serde(default)]
    pub tables: Vec<TableWire>,
    /// Or its pictures.
    #[serde(default)]
    pub views: Vec<ViewWire>,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Table")]
pub struct TableWire {
    /// Words over it.
    pub heading: String,
    /// Its columns.
    pub columns: Vec<ColumnWire>,
    /// Its rows, each with a text for each column.
    pub rows: Vec<Vec<String>>,
}

/// A column.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Column")]
pub struct ColumnWire {
    /// Its head.
    pub head: String,
    /// Width in mm; a share of what is left where it is missing.
    #[serde(default)]
    pub width: Option<f64>,
    /// Figures stand at the end of their cells, words at the start.
    #[serde(default)]
    pub figures: bool,
}
