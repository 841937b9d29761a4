//! `labels.pdf`: labels for all pieces on sheets of A4, in the grid that the layout gives.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::pdf_file;

/// Writes `labels.pdf`.
#[derive(Debug, Clone, Copy, Default)]
pub struct LabelsPdf;

impl Backend for LabelsPdf {
    fn name(&self) -> &'static str {
        "labels"
    }

    fn says(&self) -> &'static str {
        "Labels for all pieces, to print on sheets of labels (labels.pdf)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[Reads::Labels]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        if product.labels.is_empty() {
            return Ok(Vec::new());
        }
        let bytes = pdf_file(product.labels, &format!("{}, labels", product.model.title.title))?;
        Ok(vec![OutputFile { name: "labels.pdf".to_owned(), bytes }])
    }
}
