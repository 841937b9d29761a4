//! Prices beside those of sheets, and the grid of the labels.

use super::names::Resolver;
use crate::base::text::nearest;
use crate::diagnostic::Diagnostic;
use crate::joints::is_for_joints;
use crate::language::expression::Failed;
use crate::language::{LABELS, library_hardware};
use crate::model::{LabelGrid, Module, Prices};
use crate::source::Span;
use kurbo::Size;
use std::collections::BTreeSet;

/// A sheet of A4, mm.
const A4: Size = Size::new(210.0, 297.0);
/// Sheets of labels may reach this far over the paper, since makers round their figures, mm.
const ROUNDED: f64 = 1.0;

impl Resolver<'_> {
    /// The prices; of hardware with a name that is nearly another's, an error.
    pub fn prices(&mut self, modules: &[Module]) -> Prices {
        const RANGE: (f64, f64) = (0.0, 100_000.0);
        let Some(doc) = &self.doc.prices else { return Prices::default() };
        let band_metre = doc.band_metre.as_ref().and_then(|price| self.within(price, RANGE, "band-metre", "").ok());
        let bought: BTreeSet<&str> =
            modules.iter().flat_map(|one| &one.hardware).map(|one| one.name.as_str()).collect();
        // What a module would buy that could not be made is not known.
        let whole = modules.len() == self.doc.modules.len();
        let mut hardware = Vec::new();
        for (name, entry) in &doc.hardware {
            if whole && !bought.contains(name.as_str()) && self.is_slip(name, entry.span, &bought) {
                continue;
            }
            if let Ok(price) = self.within(&entry.value, RANGE, name, "") {
                hardware.push((name.clone(), price));
            }
        }
        Prices { band_metre, hardware }
    }

    /// Refuses a name that is no hardware of the library or of the layout's symbols, and nearly one that is.
    fn is_slip(&mut self, name: &str, span: Span, bought: &BTreeSet<&str>) -> bool {
        let mut known = library_hardware();
        for symbol in self.symbols.iter().flatten() {
            let recipes = symbol.pieces.values().filter_map(|piece| piece.value.made.as_ref());
            let listed = recipes.flat_map(|recipe| recipe.hardware.keys()).chain(symbol.hardware.keys());
            known.extend(listed.cloned());
        }
        if known.contains(name) || is_for_joints(name) {
            return false;
        }
        let names = bought.iter().copied().chain(known.iter().map(String::as_str));
        let near = nearest(name, names);
        if let Some(near) = near {
            let error = Diagnostic::new(span, format!("there is no hardware `{name}`"));
            self.error(error.help(format!("did you mean `{near}`?")).drawn());
        }
        near.is_some()
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
