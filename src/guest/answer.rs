//! What a plug-in answers.

use super::findings::Finding;
use serde::{Deserialize, Serialize};

/// An answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    format: String,
    version: u32,
    failed: Option<String>,
    findings: Option<Vec<Finding>>,
    files: Option<Vec<File>>,
    sheets: Option<Vec<Sheet>>,
}

impl Answer {
    fn new() -> Self {
        let format = "boxwright-answer".to_owned();
        Self { format, version: super::VERSION, failed: None, findings: None, files: None, sheets: None }
    }

    /// Why there is no answer.
    pub fn failed(why: String) -> Self {
        Self { failed: Some(why), ..Self::new() }
    }

    /// Findings.
    pub fn of_findings(findings: Vec<Finding>) -> Self {
        Self { findings: Some(findings), ..Self::new() }
    }

    /// Files.
    pub fn of_files(files: Vec<File>) -> Self {
        Self { files: Some(files), ..Self::new() }
    }

    /// Sheets.
    pub fn of_sheets(sheets: Vec<Sheet>) -> Self {
        Self { sheets: Some(sheets), ..Self::new() }
    }
}

/// A file, which gets the name of the plug-in and a hyphen before its own.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct File {
    /// Its name, without a folder.
    pub name: String,
    /// What is in it.
    pub text: Option<String>,
    /// Or its bytes in base64.
    pub base64: Option<String>,
}

impl File {
    /// A file of text.
    pub fn text(name: &str, text: impl Into<String>) -> Self {
        Self { name: name.to_owned(), text: Some(text.into()), base64: None }
    }
}

/// A sheet of tables; frame, title block and number are drawn around them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Sheet {
    /// Title.
    pub title: String,
    /// Its tables, one under the other.
    pub tables: Vec<Table>,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Table {
    /// Words over it.
    pub heading: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows with a text for each column.
    pub rows: Vec<Vec<String>>,
}

/// A column.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// Width in mm; a share of what is left where there is none.
    pub width: Option<f64>,
    /// Figures stand at the end of their cells.
    pub figures: bool,
}

impl Column {
    /// A column of words.
    pub fn words(head: &str, width: Option<f64>) -> Self {
        Self { head: head.to_owned(), width, figures: false }
    }

    /// A column of figures.
    pub fn figures(head: &str, width: f64) -> Self {
        Self { head: head.to_owned(), width: Some(width), figures: true }
    }
}
