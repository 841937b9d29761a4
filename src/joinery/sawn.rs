//! Every single piece of the cut list, in the order in which the saw sets it free, with a code of its own.

use super::cut_list::{CutList, Row, StockTotal};
use super::nesting::{CutSheet, Placed};
use crate::model::Model;
use std::collections::BTreeMap;

/// One piece: a copy of a row.
#[derive(Debug, Clone, PartialEq)]
pub struct SawnPiece<'a> {
    /// Its row.
    pub row: &'a Row,
    /// Index of its row in the list.
    pub index: usize,
    /// Module that it goes to.
    pub module: &'a str,
    /// Which copy of its row, from 1, in the order of sawing.
    pub copy: u32,
    /// Where it is sawn; `None` for what is in no cutting plan.
    pub from: Option<SawnFrom<'a>>,
}

/// The cut that sets a piece free.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SawnFrom<'a> {
    /// The stocks whose sheet it is.
    pub total: &'a StockTotal,
    /// Which sheet of them, from 1.
    pub sheet: usize,
    /// Where it lies on the sheet.
    pub placed: &'a Placed,
    /// Number of the cut in the list of the cutting diagram; `None` where trimming the sheet leaves the piece.
    pub cut: Option<usize>,
}

impl SawnPiece<'_> {
    /// Its number, and which copy where there are several: `galley-04`, `galley-08.2`.
    #[must_use]
    pub fn number(&self) -> String {
        if self.row.count > 1 { format!("{}.{}", self.row.number, self.copy) } else { self.row.number.clone() }
    }

    /// What a scanner reads: job, revision and number, as far as the layout has them: `MR-104/B/galley-08.2`.
    #[must_use]
    pub fn code(&self, model: &Model) -> String {
        let (job, number) = (&model.title, self.number());
        let long = [job.number.as_str(), job.revision.as_str(), &number];
        let code = long.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join("/");
        if code.len() > LONGEST { number } else { code }
    }
}

/// A longer code has cells too small for a usual printer, so that it goes without the job: 60 bytes are version 4 of
/// ISO/IEC 18004 at level M, 33 cells.
const LONGEST: usize = 60;

/// All pieces: sheet by sheet as they are set free, then those of the same stocks that are in no plan.
#[must_use]
pub fn sawn<'a>(model: &Model, list: &'a CutList) -> Vec<SawnPiece<'a>> {
    let mut copies = Copies { list, made: BTreeMap::new() };
    let mut all = Vec::new();
    for total in &list.totals {
        let kerf = total.stocks(model).next().map_or(0.0, |stock| stock.kerf);
        for (sheet, number) in total.plan.sheets.iter().zip(1..) {
            for (cut, placed) in in_order(sheet, kerf) {
                let from = SawnFrom { total, sheet: number, placed, cut };
                all.extend(copies.next(total.rows.start + placed.piece, Some(from)));
            }
        }
        for index in total.rows.clone() {
            while let Some(piece) = copies.next(index, None) {
                all.push(piece);
            }
        }
    }
    all
}

/// The pieces of a sheet by the cuts that set them free.
fn in_order(sheet: &CutSheet, kerf: f64) -> Vec<(Option<usize>, &Placed)> {
    let freed = |piece: &Placed| {
        let panel = piece.panel();
        sheet.cuts.iter().position(|cut| cut.frees(&panel, kerf)).map(|cut| cut + 1)
    };
    let mut order: Vec<_> = sheet.pieces.iter().map(|piece| (freed(piece), piece)).collect();
    order.sort_by_key(|(cut, _)| *cut);
    order
}

/// How many copies of each row are told of.
struct Copies<'a> {
    list: &'a CutList,
    made: BTreeMap<usize, u32>,
}

impl<'a> Copies<'a> {
    fn next(&mut self, index: usize, from: Option<SawnFrom<'a>>) -> Option<SawnPiece<'a>> {
        let row = self.list.rows.get(index)?;
        let made = self.made.entry(index).or_default();
        if *made >= row.count {
            return None;
        }
        *made += 1;
        let mut last = 0_u32;
        let (module, _) = row.modules.iter().find(|(_, count)| {
            last = last.saturating_add(*count);
            *made <= last
        })?;
        Some(SawnPiece { row, index, module, copy: *made, from })
    }
}

#[cfg(test)]
mod tests {
    use super::super::cut_list;
    use super::super::fixture::{model, module, part};
    use super::*;

    /// Two shelves of 1,000 x 300 for one module and one for the other, and a side that fits no sheet.
    #[test]
    fn each_piece_has_its_code_its_cut_and_its_module() {
        let modules = vec![
            module("a", vec![part("shelf", 2, 1000.0, 300.0), part("side", 1, 5000.0, 300.0)]),
            module("b", vec![part("shelf", 1, 1000.0, 300.0)]),
        ];
        let mut known = model(modules);
        (known.title.number, known.title.revision) = ("J-7".to_owned(), "C".to_owned());
        let list = cut_list(&known);
        let pieces = sawn(&known, &list);
        let numbers: Vec<_> = pieces.iter().map(|piece| (piece.number(), piece.module)).collect();
        let number = |text: &str| text.to_owned();
        let shelves = [(number("a-01.1"), "a"), (number("a-01.2"), "a"), (number("a-01.3"), "b")];
        assert_eq!(numbers[..3], shelves);
        assert_eq!(numbers[3], (number("a-02"), "a"));
        assert_eq!((pieces[0].code(&known), pieces[3].from), (number("J-7/C/a-01.1"), None));
        let cuts: Vec<_> = pieces.iter().filter_map(|piece| piece.from?.cut).collect();
        assert!(cuts.len() == 3 && cuts.is_sorted() && cuts[0] > 4, "after four cuts that trim: {cuts:?}");
        known.title.number = "long ".repeat(20);
        assert_eq!(pieces[0].code(&known), "a-01.1");
    }
}
