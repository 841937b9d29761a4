//! A request in whole micrometres, kerf included: what the search works on.

use super::extent::Extent;
use super::request::{MOST_PIECES, Piece, Request, SheetKind, Turn};
use crate::base::tolerance::GREATEST_LENGTH;

/// A sheet size with trim taken off and one kerf added.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kind {
    pub whole: Extent,
    pub cost: f64,
    /// How many there are at most.
    pub stock: usize,
}

/// One piece with kerf, as it lies if it does not turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Item {
    pub piece: usize,
    pub size: Extent,
    /// May also lie the other way.
    pub turns: bool,
    /// `size` is already that of the turned piece.
    pub turned: bool,
}

impl Item {
    /// The ways in which it may lie, as (turned from `size`, extent).
    pub fn poses(&self) -> impl Iterator<Item = (bool, Extent)> + use<> {
        let turned = self.turns.then(|| (true, self.size.turned()));
        [(false, self.size)].into_iter().chain(turned)
    }

    pub fn fits(&self, whole: Extent) -> bool {
        self.poses().any(|(_, size)| whole.holds(size))
    }
}

/// What is to be laid.
#[derive(Debug)]
pub(super) struct Task {
    pub kinds: Vec<Kind>,
    pub items: Vec<Item>,
    /// Greatest number of cut stages.
    pub stages: u8,
}

/// What a request says that is left out of its task.
#[derive(Debug, Default)]
pub(super) struct LeftOut {
    pub too_large: Vec<usize>,
    pub unplaced: usize,
}

/// Whole micrometres; no number counts as 0, and nothing is longer than the greatest length.
pub(super) fn whole(mm: f64) -> i32 {
    (mm.clamp(-GREATEST_LENGTH, GREATEST_LENGTH) * 1000.0).round() as i32
}

pub(super) fn task(request: &Request) -> (Task, LeftOut) {
    let (kerf, trim) = (whole(request.kerf.max(0.0)), whole(request.trim.max(0.0)));
    let kind = |sheet: &SheetKind| Kind {
        whole: Extent { w: whole(sheet.size.0) - 2 * trim + kerf, h: whole(sheet.size.1) - 2 * trim + kerf },
        cost: if sheet.cost > 0.0 { sheet.cost.min(f64::from(u32::MAX)) } else { 0.0 },
        stock: sheet.stock.map_or(MOST_PIECES, |count| (count as usize).min(MOST_PIECES)),
    };
    let kinds: Vec<Kind> = request.sheets.iter().map(kind).collect();
    let (mut items, mut left) = (Vec::new(), LeftOut::default());
    for (index, piece) in request.pieces.iter().enumerate().filter(|(_, piece)| piece.count > 0) {
        match item(index, piece, kerf, &kinds) {
            None => left.too_large.push(index),
            Some(item) => {
                let count = (piece.count as usize).min(MOST_PIECES.saturating_sub(items.len()));
                left.unplaced += piece.count as usize - count;
                items.extend(std::iter::repeat_n(item, count));
            }
        }
    }
    let stages = request.stages.unwrap_or(u8::MAX).max(2);
    (Task { kinds, items, stages }, left)
}

fn item(index: usize, piece: &Piece, kerf: i32, kinds: &[Kind]) -> Option<Item> {
    let usable = |mm: f64| mm <= GREATEST_LENGTH && whole(mm) > 0;
    if !usable(piece.length) || !usable(piece.width) {
        return None;
    }
    let size = Extent { w: whole(piece.length) + kerf, h: whole(piece.width) + kerf };
    let on_some_sheet = |size: Extent| kinds.iter().any(|kind| kind.stock > 0 && kind.whole.holds(size));
    let upright = piece.turn != Turn::Always && on_some_sheet(size);
    let turned = piece.turn != Turn::Never && on_some_sheet(size.turned());
    match (upright, turned) {
        (true, _) => Some(Item { piece: index, size, turns: turned && size.w != size.h, turned: false }),
        (false, true) => Some(Item { piece: index, size: size.turned(), turns: false, turned: true }),
        (false, false) => None,
    }
}
