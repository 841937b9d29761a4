//! Laying parts on sheets so that every cut of a panel saw goes from edge to edge.
//!
//! A piece takes its size plus one kerf in a sheet that is as large as the trimmed sheet plus one kerf. All sums are
//! in whole micrometres, so two plans of the same request are equal to the last digit. The method (many
//! constructive orders, then sheets taken apart and laid anew) is behind [`nest`] alone and may be replaced.

mod bound;
mod pack;
mod search;
#[cfg(test)]
mod tests;

use crate::base::tolerance::GREATEST_LENGTH;
use pack::{Bin, Item, Size, Task};

/// Which way a piece may lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Turn {
    /// Its length along the sheet's length.
    Never,
    /// Its length along the sheet's width.
    Always,
    /// Either.
    Free,
}

/// Pieces of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Cut length, mm.
    pub length: f64,
    /// Cut width, mm.
    pub width: f64,
    /// How many.
    pub count: u32,
    /// Which way it may lie.
    pub turn: Turn,
}

/// A sheet size that can be bought in any number.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetKind {
    /// Length x width, mm.
    pub size: (f64, f64),
    /// Price, or area where no price is known; plans aim at the least sum.
    pub cost: f64,
}

/// What is to be cut from what.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// Sheet sizes.
    pub sheets: Vec<SheetKind>,
    /// Width of the saw cut, mm.
    pub kerf: f64,
    /// Trimmed off each edge of a sheet, mm.
    pub trim: f64,
    /// The pieces.
    pub pieces: Vec<Piece>,
    /// How many places may be looked at before the best plan so far is given; see [`usual_effort`].
    pub effort: u64,
}

/// The effort that serves a layout: under ten milliseconds for the parts of one stock, more for very many.
#[must_use]
pub fn usual_effort(pieces: u32) -> u64 {
    600_000 + 2_000 * u64::from(pieces).min(MOST_PIECES as u64)
}

/// A plan takes at most this many pieces; more are counted in [`CuttingPlan::unplaced`].
pub const MOST_PIECES: usize = 20_000;

/// A placed piece, cut size without kerf, mm from the sheet's lower left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Index of the piece's kind in the request.
    pub piece: usize,
    /// Left edge.
    pub x: f64,
    /// Lower edge.
    pub y: f64,
    /// Size along the sheet's length.
    pub length: f64,
    /// Size along the sheet's width.
    pub width: f64,
    /// Turned by a right angle.
    pub turned: bool,
}

/// One sheet with its pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct CutSheet {
    /// Sheet size, length x width, mm.
    pub size: (f64, f64),
    /// Pieces on it.
    pub pieces: Vec<Placed>,
}

/// All sheets of one stock.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CuttingPlan {
    /// The sheets, fullest first.
    pub sheets: Vec<CutSheet>,
    /// No plan can use fewer sheets than this.
    pub bound: usize,
    /// Pieces (kind indices, once each) that fit on no sheet; none of them is in the plan.
    pub too_large: Vec<usize>,
    /// Pieces left out because there are more than [`MOST_PIECES`].
    pub unplaced: usize,
}

/// Lays the pieces on as few (or as cheap) sheets as it can find. The same request gives the same plan.
///
/// Pieces without a positive size, and sheets that the trim eats up, count as not fitting.
#[must_use]
pub fn nest(request: &Request) -> CuttingPlan {
    let (task, too_large, unplaced) = task(request);
    if task.items.is_empty() {
        return CuttingPlan { too_large, unplaced, ..CuttingPlan::default() };
    }
    let bound = bound::sheets(&task);
    let mut bins = search::search(&task, bound, request.effort);
    bins.sort_by_key(|bin| std::cmp::Reverse(bin.used));
    let sheets = bins.iter().filter_map(|bin| cut_sheet(bin, &task, request)).collect();
    CuttingPlan { sheets, bound, too_large, unplaced }
}

/// Whole micrometres; no number counts as 0, and nothing is longer than the greatest length.
fn whole(mm: f64) -> i64 {
    (mm.clamp(-GREATEST_LENGTH, GREATEST_LENGTH) * 1000.0).round() as i64
}

fn task(request: &Request) -> (Task, Vec<usize>, usize) {
    let (kerf, trim) = (whole(request.kerf.max(0.0)), whole(request.trim.max(0.0)));
    let size = |sheet: &SheetKind| Size {
        w: whole(sheet.size.0) - 2 * trim + kerf,
        h: whole(sheet.size.1) - 2 * trim + kerf,
        cost: sheet.cost.max(0.0),
    };
    let sizes: Vec<Size> = request.sheets.iter().map(size).collect();
    let (mut items, mut too_large, mut unplaced) = (Vec::new(), Vec::new(), 0_usize);
    for (index, piece) in request.pieces.iter().enumerate().filter(|(_, piece)| piece.count > 0) {
        match item(index, piece, kerf, &sizes) {
            None => too_large.push(index),
            Some(item) => {
                let count = (piece.count as usize).min(MOST_PIECES.saturating_sub(items.len()));
                unplaced += piece.count as usize - count;
                items.extend(std::iter::repeat_n(item, count));
            }
        }
    }
    let least = items.iter().map(|item| item.w.min(item.h)).min().unwrap_or(1);
    (Task { sizes, items, least }, too_large, unplaced)
}

fn item(index: usize, piece: &Piece, kerf: i64, sizes: &[Size]) -> Option<Item> {
    let (length, width) = (whole(piece.length), whole(piece.width));
    let usable = |mm: f64| mm > 0.0 && mm <= GREATEST_LENGTH;
    if !usable(piece.length) || !usable(piece.width) {
        return None;
    }
    let (length, width) = (length + kerf, width + kerf);
    let upright = sizes.iter().any(|size| size.takes(length, width)) && piece.turn != Turn::Always;
    let turned = sizes.iter().any(|size| size.takes(width, length)) && piece.turn != Turn::Never;
    let turns = upright && turned && length != width;
    match (upright, turned) {
        (true, _) => Some(Item { piece: index, w: length, h: width, turns, turned: false }),
        (false, true) => Some(Item { piece: index, w: width, h: length, turns: false, turned: true }),
        (false, false) => None,
    }
}

fn cut_sheet(bin: &Bin, task: &Task, request: &Request) -> Option<CutSheet> {
    let size = request.sheets.get(bin.size)?.size;
    let (kerf, trim) = (whole(request.kerf.max(0.0)), whole(request.trim.max(0.0)));
    let mm = |micrometres: i64| micrometres as f64 / 1000.0;
    let place = |spot: &pack::Spot| {
        let item = task.items.get(spot.item)?;
        Some(Placed {
            piece: item.piece,
            x: mm(spot.x + trim),
            y: mm(spot.y + trim),
            length: mm(spot.w - kerf),
            width: mm(spot.h - kerf),
            turned: spot.turned,
        })
    };
    Some(CutSheet { size, pieces: bin.spots.iter().filter_map(place).collect() })
}
