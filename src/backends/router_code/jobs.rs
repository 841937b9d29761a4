//! What one run of the machine is for: a nested sheet, a piece, or the reverse of a piece.

use super::cuts::{Cut, Piece};
use super::tools;
use crate::backends::backend::Product;
use crate::base::number::trimmed;
use crate::figures::{Figures, Work};
use crate::joinery::{Row, SawnFrom, SawnPiece, StockTotal, sawn};
use crate::model::{Router, RouterFiles, ToolUse};
use kurbo::Point;

/// A board on the machine with all that is cut of it.
pub(super) struct Job<'r> {
    /// Names of files begin so.
    pub name: String,
    /// Lines for the person at the machine.
    pub says: Vec<String>,
    pub thickness: f64,
    pub cuts: Vec<Cut<'r>>,
}

/// All jobs: sheets or pieces, then the reverse of pieces.
pub(super) fn jobs<'r>(product: &Product<'_>, router: &'r Router) -> Result<Vec<Job<'r>>, String> {
    let list = product.figures.cut_list();
    let works = product.figures.works();
    let mut made = Vec::new();
    match router.files {
        RouterFiles::Sheets => {
            for total in &list.totals {
                sheets(product, router, total, &mut made)?;
            }
        }
        RouterFiles::Pieces => {
            for work in works {
                let Some(row) = list.rows.get(work.row) else { continue };
                made.extend(alone(product, router, (work, row), false)?);
            }
        }
    }
    for work in works {
        let Some(row) = list.rows.get(work.row).filter(|row| work.has_reverse(row)) else { continue };
        made.extend(alone(product, router, (work, row), true)?);
    }
    Ok(made)
}

/// The sheets of a material, piece by piece; kinds of one row follow each other.
fn sheets<'r>(
    product: &Product<'_>,
    router: &'r Router,
    total: &StockTotal,
    made: &mut Vec<Job<'r>>,
) -> Result<(), String> {
    let Some(stock) = total.stocks(product.model).next() else { return Ok(()) };
    let through = tools::through(router, ToolUse::Outlines, stock.thickness + router.spoil, &stock.name)?;
    if stock.kerf + 0.001 < through.diameter {
        return Err(format!(
            "pieces of `{}` lie {} mm apart, and the cutter `{}` is {} mm wide; write `kerf: {}` for that stock, or `files: pieces`",
            stock.name,
            trimmed(stock.kerf, 2),
            through.name,
            trimmed(through.diameter, 2),
            trimmed(through.diameter, 2)
        ));
    }
    let figures: &Figures<'_> = product.figures;
    let sawn = sawn(product.model, figures.cut_list());
    let count = total.plan.sheets.len();
    for (index, sheet) in total.plan.sheets.iter().enumerate() {
        let pieces = pieces(figures, &sawn, total, index + 1);
        let mut cuts = Vec::new();
        for piece in &pieces {
            cuts.extend(piece.cuts(router)?);
        }
        let (length, width) = sheet.size;
        let numbers: Vec<String> = pieces.iter().map(|piece| piece.work.number(piece.row)).collect();
        made.push(Job {
            name: format!("router-{}-{}", stock.name, index + 1),
            says: vec![
                format!(
                    "sheet {} of {count}: {}, {}, {} x {} x {} mm",
                    index + 1,
                    total.names(product.model),
                    stock.material,
                    trimmed(length, 1),
                    trimmed(width, 1),
                    trimmed(stock.thickness, 2)
                ),
                format!("pieces, face up, at their sawn sizes: {}", numbers.join(", ")),
            ],
            thickness: stock.thickness,
            cuts,
        });
    }
    Ok(())
}

/// The pieces of a sheet, each of the kind that its label says.
fn pieces<'a>(figures: &'a Figures<'a>, sawn: &[SawnPiece<'a>], total: &StockTotal, sheet: usize) -> Vec<Piece<'a>> {
    let on_sheet = |from: &&SawnFrom<'_>| std::ptr::eq(from.total, total) && from.sheet == sheet;
    let piece = |piece: &SawnPiece<'a>| {
        let from = piece.from.as_ref().filter(on_sheet)?;
        let work = figures.work_of(piece.index, piece.copy)?;
        let at = Point::new(from.placed.x, from.placed.y);
        Some(Piece { work, row: piece.row, reverse: false, at, turned: from.placed.turned, cut_free: true })
    };
    sawn.iter().filter_map(piece).collect()
}

/// One side of a piece that is sawn already; none where nothing is done to it.
fn alone<'r>(
    product: &Product<'_>,
    router: &'r Router,
    (work, row): (&Work, &Row),
    reverse: bool,
) -> Result<Option<Job<'r>>, String> {
    let cut_free = !reverse && row.outline.is_some();
    let piece = Piece { work, row, reverse, at: Point::ZERO, turned: false, cut_free };
    let cuts = piece.cuts(router)?;
    if cuts.is_empty() {
        return Ok(None);
    }
    let number = work.number(row);
    let side = if reverse { "reverse up, turned over about its length" } else { "face up" };
    let stock = product.model.stocks.get(row.stock).map_or("", |stock| stock.name.as_str());
    let (length, width) = row.cut;
    Ok(Some(Job {
        name: format!("router-{}{}", number.replace(' ', "-"), if reverse { "-reverse" } else { "" }),
        says: vec![
            format!("piece {number}, {}, {} pieces, {side}", row.name, work.count),
            format!(
                "sawn to {} x {} x {} mm, {stock}, its length along X",
                trimmed(length, 2),
                trimmed(width, 2),
                trimmed(row.finished.2, 2)
            ),
        ],
        thickness: row.finished.2,
        cuts,
    }))
}
