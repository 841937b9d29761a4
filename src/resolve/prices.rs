//! Prices beside those of sheets, and the grid of the labels.

use super::names::Resolver;
use crate::diagnostic::Diagnostic;
use crate::language::LABELS;
use crate::language::expression::Failed;
use crate::model::{LabelGrid, Module, Prices};
use crate::source::Spanned;
use kurbo::Size;

/// A sheet of A4, mm.
const A4: Size = Size::new(210.0, 297.0);
/// Sheets of labels may reach this far over the paper, since makers round their figures, mm.
const ROUNDED: f64 = 1.0;

impl Resolver<'_> {
    /// The prices; of hardware that no module has, an error.
    pub fn prices(&mut self, modules: &[Module]) -> Prices {
        const RANGE: (f64, f64) = (0.0, 100_000.0);
        let Some(doc) = &self.doc.prices else { return Prices::default() };
        let band_metre = doc.band_metre.as_ref().and_then(|price| self.within(price, RANGE, "band-metre", "").ok());
        let known = || modules.iter().flat_map(|module| module.hardware.iter().map(|one| &one.name));
        let mut hardware = Vec::new();
        for (name, entry) in &doc.hardware {
            if !modules.is_empty() && !known().any(|one| one == name) {
                let mut names: Vec<&String> = known().collect();
                names.sort_unstable();
                names.dedup();
                self.unknown_entry(&Spanned::new(name.clone(), entry.span), "hardware", names.into_iter());
            } else if let Ok(price) = self.within(&entry.value, RANGE, name, "") {
                hardware.push((name.clone(), price));
            }
        }
        Prices { band_metre, hardware }
    }

    /// The grid of the labels; all of it has to lie on the paper.
    pub fn label_grid(&mut self) -> LabelGrid {
        let Some(doc) = &self.doc.labels else { return LabelGrid::default() };
        self.one_grid(doc).unwrap_or_default()
    }

    fn one_grid(&mut self, doc: &crate::language::FiguresDoc<8>) -> Result<LabelGrid, Failed> {
        let [rows, columns, across, down, left, top, width, height] = self.figures(&LABELS, doc)?;
        let whole = |count: f64| count.fract() == 0.0;
        if !whole(rows) || !whole(columns) {
            let error = Diagnostic::new(doc.span, format!("{rows} rows and {columns} columns of labels"));
            return Err(self.error(error.help("`rows` and `columns` are whole numbers")));
        }
        let or = |written: f64, pitch: f64| if written > 0.0 { written } else { pitch };
        let size = Size::new(or(width, across), or(height, down));
        let reach = Size::new(left + across * (columns - 1.0) + size.width, top + down * (rows - 1.0) + size.height);
        if reach.width > A4.width + ROUNDED || reach.height > A4.height + ROUNDED {
            let message =
                format!("the labels reach {} x {} mm; a sheet of A4 is 210 x 297 mm", reach.width, reach.height);
            return Err(self.error(Diagnostic::new(doc.span, message)));
        }
        // Whole numbers of 1 to 40, checked above.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let (rows, columns) = (rows as usize, columns as usize);
        Ok(LabelGrid { rows, columns, pitch: Size::new(across, down), margin: Size::new(left, top), size })
    }
}
