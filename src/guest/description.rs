//! What a plug-in says of itself.

use super::findings::Limit;
use serde::{Deserialize, Serialize};

/// What a plug-in says of itself.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Description {
    format: String,
    version: u32,
    name: String,
    says: String,
    checks: Vec<Check>,
    backends: Vec<Backend>,
    sheets: Vec<PlannedSheet>,
}

impl Description {
    /// A plug-in by its name, which stands before those of its checks, outputs and sheets, and one line on it.
    pub fn new(name: &str, says: &str) -> Self {
        Self {
            format: "boxwright-plug-in".to_owned(),
            version: super::VERSION,
            name: name.to_owned(),
            says: says.to_owned(),
            checks: Vec::new(),
            backends: Vec::new(),
            sheets: Vec::new(),
        }
    }

    /// The same with a check.
    pub fn check(mut self, check: Check) -> Self {
        self.checks.push(check);
        self
    }

    /// The same with an output.
    pub fn backend(mut self, name: &str, says: &str, reads: Reads) -> Self {
        self.backends.push(Backend { name: name.to_owned(), says: says.to_owned(), when_asked: false, reads });
        self
    }

    /// The same with a sheet.
    pub fn sheet(mut self, name: &str, says: &str, reads: Reads) -> Self {
        self.sheets.push(PlannedSheet { name: name.to_owned(), says: says.to_owned(), reads });
        self
    }
}

/// A check.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Check {
    /// Without that of the plug-in.
    pub name: String,
    /// One line for lists.
    pub says: String,
    /// The manual page.
    pub manual: String,
    /// What a result on safety is worth.
    pub caution: Option<String>,
    /// Limits that a layout may change.
    pub limits: Vec<Limit>,
    /// What it reads.
    pub reads: Reads,
}

/// An output.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Backend {
    /// Without that of the plug-in.
    pub name: String,
    /// One line for lists.
    pub says: String,
    /// Whether it is made only where it is named.
    pub when_asked: bool,
    /// What it reads.
    pub reads: Reads,
}

/// A sheet that will be drawn.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct PlannedSheet {
    /// Without that of the plug-in.
    pub name: String,
    /// One line for lists.
    pub says: String,
    /// What it reads.
    pub reads: Reads,
}

/// What is read of each form, as paths. Where the model is not named, all of it is sent; of the others nothing.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Reads {
    model: Option<Vec<String>>,
    findings: Option<Vec<String>>,
    report: Option<Vec<String>>,
    sheets: Option<Vec<String>>,
}

impl Reads {
    /// Parts of the model: `modules/*/extent`.
    pub fn model(paths: &[&str]) -> Self {
        Self { model: Some(owned(paths)), ..Self::default() }
    }

    /// And parts of the findings.
    pub fn findings(self, paths: &[&str]) -> Self {
        Self { findings: Some(owned(paths)), ..self }
    }

    /// And parts of the report.
    pub fn report(self, paths: &[&str]) -> Self {
        Self { report: Some(owned(paths)), ..self }
    }

    /// And parts of the drawings.
    pub fn sheets(self, paths: &[&str]) -> Self {
        Self { sheets: Some(owned(paths)), ..self }
    }
}

fn owned(paths: &[&str]) -> Vec<String> {
    paths.iter().map(|path| (*path).to_owned()).collect()
}
