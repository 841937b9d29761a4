//! What one run of the machine is for: a nested sheet, a piece, or the reverse of a piece.

use super::cuts::{Cut, Piece};
use super::tools;
use crate::backends::backend::Product;
use crate::base::number::trimmed;
use crate::figures::Work;
use crate::joinery::nesting::CutSheet;
use crate::joinery::{Row, StockTotal};
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
    let mut used = vec![0_u32; total.rows.len()];
    let count = total.plan.sheets.len();
    for (index, sheet) in total.plan.sheets.iter().enumerate() {
        let pieces = pieces(product, total, sheet, &mut used);
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

fn pieces<'a>(product: &Product<'a>, total: &StockTotal, sheet: &CutSheet, used: &mut [u32]) -> Vec<Piece<'a>> {
    let figures: &'a crate::figures::Figures<'a> = product.figures;
    let mut pieces = Vec::new();
    for placed in &sheet.pieces {
        let index = total.rows.start + placed.piece;
        let Some(row) = figures.cut_list().rows.get(index) else { continue };
        let Some(known) = used.get_mut(placed.piece) else { continue };
        let kinds = figures.works().iter().filter(|work| work.row == index);
        let mut each = kinds.flat_map(|work| (0..work.count).map(move |_| work));
        let Some(work) = each.nth(*known as usize) else { continue };
        *known += 1;
        let at = Point::new(placed.x, placed.y);
        pieces.push(Piece { work, row, reverse: false, at, turned: placed.turned, cut_free: true });
    }
    pieces
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
