//! `true-size.pdf`: worked sides of pieces in true size on tiles of the layout's paper.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::pdf_file;

/// Writes `true-size.pdf`.
#[derive(Debug, Clone, Copy, Default)]
pub struct TilesPdf;

impl Backend for TilesPdf {
    fn name(&self) -> &'static str {
        "true-size-pdf"
    }

    fn says(&self) -> &'static str {
        "Worked pieces in true size on tiles of the layout's paper, only if named (true-size.pdf)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[Reads::Tiles]
    }

    fn when_asked(&self) -> bool {
        true
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let tiles = product.tiles?;
        if tiles.is_empty() {
            return Ok(Vec::new());
        }
        let bytes = pdf_file(tiles, &format!("{}, pieces in true size", product.model.title.title))?;
        Ok(vec![OutputFile { name: "true-size.pdf".to_owned(), bytes }])
    }
}
