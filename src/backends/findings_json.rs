//! `findings.json`: what the checks found, in the form that [`Report`] describes.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::findings_report::{Found, Report};
use crate::diagnostic::wire::json_text;

/// Writes `findings.json`.
#[derive(Debug, Clone, Copy, Default)]
pub struct FindingsJson;

impl Backend for FindingsJson {
    fn name(&self) -> &'static str {
        "findings-json"
    }

    fn says(&self) -> &'static str {
        "All findings as JSON (findings.json)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let Product { model, errors, checks, findings, sources, .. } = *product;
        let errors = (errors.errors(), errors.dropped());
        let report = Report::new(&model.name, Found { errors, model: Some(model), checks, findings, sources });
        Ok(vec![OutputFile { name: "findings.json".to_owned(), bytes: json_text(&report).into_bytes() }])
    }
}
