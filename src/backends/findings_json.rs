//! `findings.json`: what the checks found, in the form that [`crate::diagnostic::wire`] describes.

use super::backend::{Backend, OutputFile, Product};
use crate::diagnostic::wire::{Report, json_text};

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

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let report = Report::new(&product.model.name, (&[], 0), product.findings, product.sources);
        Ok(vec![OutputFile { name: "findings.json".to_owned(), bytes: json_text(&report).into_bytes() }])
    }
}
