//! `labels.pdf`: labels for all pieces on sheets of A4, in the grid that the layout gives.

use super::backend::{Backend, OutputFile, Product};
use super::pdf::file;
use crate::diagnostic::Counts;
use crate::views::part_labels;

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

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let faults = Counts::of(product.findings).faults;
        let sheets = part_labels(product.model, product.cut_list, faults);
        if sheets.is_empty() {
            return Ok(Vec::new());
        }
        let bytes = file(&sheets, &format!("{}, labels", product.model.title.title))?;
        Ok(vec![OutputFile { name: "labels.pdf".to_owned(), bytes }])
    }
}
