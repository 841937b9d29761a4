//! What a plug-in is asked.

use super::findings::Limit;
use super::model::Model;
use serde::Deserialize;
use serde_json::Value;

/// A question, with the parts of the model that the plug-in reads.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(bound(deserialize = "M: Deserialize<'de> + Default"))]
pub struct Question<M = Model> {
    /// Name of the output or the sheet that is wanted; empty for checks.
    pub ask: String,
    /// The plug-in's checks, with their limits as they hold for this layout.
    pub checks: Vec<Checked>,
    /// The layout.
    #[serde(default)]
    pub model: M,
    /// Errors and findings, where they are read.
    #[serde(default)]
    pub findings: Option<Value>,
    /// Masses, heat and services, where they are read.
    #[serde(default)]
    pub report: Option<Value>,
    /// The drawings, where they are read.
    #[serde(default)]
    pub sheets: Option<Value>,
}

/// A check with its limits as they hold.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Checked {
    /// With the name of the plug-in before it.
    pub name: String,
    /// Its limits.
    pub limits: Vec<Limit>,
}

impl<M> Question<M> {
    /// A limit of a check, as it holds for this layout.
    pub fn limit(&self, check: &str, name: &str) -> Result<&Limit, String> {
        let is = |one: &&Checked| one.name == check || one.name.split(':').nth(1) == Some(check);
        let limits = self.checks.iter().find(is).map(|one| one.limits.as_slice()).unwrap_or_default();
        limits.iter().find(|limit| limit.name == name).ok_or_else(|| format!("`{check}` has no limit `{name}`"))
    }
}
