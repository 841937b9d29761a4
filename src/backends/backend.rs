//! The trait of back-ends and what they read.

use super::csv_form::CsvForm;
use crate::diagnostic::Ran;
use crate::diagnostic::{Finding, Held, Sink, Worked};
use crate::drawing::{GivenSheet, Sheet};
use crate::figures::Figures;
use crate::model::Model;
use crate::source::SourceMap;

/// Everything a back-end may use.
#[derive(Debug, Clone, Copy)]
pub struct Product<'a> {
    /// The resolved layout.
    pub model: &'a Model,
    /// What is known of it beyond its model: cut list, weights, heat.
    pub figures: &'a Figures<'a>,
    /// The checks that were run.
    pub checks: &'a [Ran],
    /// What they found.
    pub findings: &'a [Finding],
    /// The worked sums of the checks that have some, by the checks' names.
    pub sums: &'a [(String, Vec<Worked>)],
    /// The sheet set, in order.
    pub sheets: &'a [Sheet],
    /// Labels of the pieces, sheet by sheet.
    pub labels: &'a [Sheet],
    /// Pieces in true size on tiles of paper, or why there are none.
    pub tiles: Result<&'a [Sheet], &'a str>,
    /// The errors of a draft.
    pub errors: &'a Sink,
    /// The files, for places of findings.
    pub sources: &'a SourceMap,
    /// The picture that is asked for, if one is.
    pub picture: Option<&'a Picture>,
    /// How CSV files are written.
    pub csv: CsvForm,
}

impl Product<'_> {
    /// What keeps the outputs from use.
    #[must_use]
    pub fn held(&self) -> Held {
        Held::new(self.model.errors, self.findings)
    }
}

/// What an output reads besides the model and its figures; what no output reads is not made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reads {
    /// The sheet set.
    Sheets,
    /// Labels of the pieces.
    Labels,
    /// Pieces in true size on tiles of paper.
    Tiles,
    /// Worked sums of the checks.
    Sums,
}

/// Sheets as pictures made of pixels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Width in pixels.
    pub width: u32,
    /// Ids of the sheets; `all` for every sheet, the brochure alone if there is none.
    pub sheets: Vec<String>,
}

/// One file of an output.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutputFile {
    /// Name inside the layout's output folder.
    pub name: String,
    /// Content.
    pub bytes: Vec<u8>,
}

/// Something that turns the compiled result into files.
pub trait Backend: Send + Sync {
    /// Name for `--only`: letters and hyphens.
    fn name(&self) -> &str;

    /// One line for help and manual.
    fn says(&self) -> &str;

    /// What it reads.
    fn reads(&self) -> &[Reads];

    /// Whether it runs only when it is asked for by name.
    fn when_asked(&self) -> bool {
        false
    }

    /// Whether it comes from outside: where it fails, the other outputs are made all the same.
    fn is_outside(&self) -> bool {
        false
    }

    /// Makes the files. The same product gives the same bytes.
    ///
    /// # Errors
    /// A sentence for the user when the output can't be made (for example a character that the font lacks).
    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String>;
}

/// Something outside that draws sheets, which join those of the layout.
pub trait SheetMaker: Send + Sync {
    /// Name for `--sheets`: that of a plug-in, a colon, that of its sheet.
    fn name(&self) -> &str;

    /// One line for lists.
    fn says(&self) -> &str;

    /// Whether it reads the worked sums of the checks.
    fn reads_sums(&self) -> bool;

    /// Makes the sheets. The same product, which has no sheets yet, gives the same sheets.
    ///
    /// # Errors
    /// A sentence for the user when they can't be made.
    fn sheets(&self, product: &Product<'_>) -> Result<Vec<GivenSheet>, String>;
}
