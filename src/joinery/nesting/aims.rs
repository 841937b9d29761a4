//! Which sheets to open for a first plan, and which cheaper sets of sheets to try next.

use super::packing::Packing;
use super::sheet::Sheet;
use super::task::{Item, Task};

/// The effort that is left is shared by so many aims at most; the later ones get less.
pub(super) const AT_ONCE: u64 = 4;
/// So many sheets of limited stock at most are open from the start.
const MOST_OPEN: usize = 40;

/// How a first plan opens sheets.
#[derive(Debug, Clone, Copy)]
pub(super) struct Opening {
    /// The kind to open where it takes the piece.
    wished: usize,
    /// All limited stock is open from the start.
    stock_first: bool,
}

/// All ways to open sheets.
pub(super) fn openings(task: &Task) -> impl Iterator<Item = Opening> {
    let limited = task.kinds.iter().any(|kind| kind.stock < task.items.len());
    let all = move |stock_first| (0..task.kinds.len()).map(move |wished| Opening { wished, stock_first });
    all(false).chain(all(true).filter(move |_| limited))
}

impl Opening {
    pub fn sheets(self, task: &Task) -> Vec<Sheet> {
        let kinds = task.kinds.iter().enumerate().filter(|(_, kind)| self.stock_first && kind.stock < task.items.len());
        let sheets = kinds.flat_map(|(index, kind)| std::iter::repeat_n(Sheet::new(index, kind.whole), kind.stock));
        sheets.take(MOST_OPEN).collect()
    }

    /// A new sheet for the item: the wished kind, or else the cheapest that is left and takes it.
    pub fn next(self, task: &Task, open: &[Sheet], item: &Item) -> Option<Sheet> {
        let takes = |index: &usize| {
            let kind = task.kinds.get(*index);
            kind.is_some_and(|kind| item.fits(kind.whole) && left(task, open, *index) > 0)
        };
        let cost = |index: &usize| task.kinds.get(*index).map_or(f64::INFINITY, |kind| kind.cost);
        let cheapest = || (0..task.kinds.len()).filter(takes).min_by(|a, b| cost(a).total_cmp(&cost(b)));
        let index = Some(self.wished).filter(takes).or_else(cheapest)?;
        task.kinds.get(index).map(|kind| Sheet::new(index, kind.whole))
    }
}

/// How many sheets of a kind are not in use.
fn left(task: &Task, open: &[Sheet], kind: usize) -> usize {
    let stock = task.kinds.get(kind).map_or(0, |kind| kind.stock);
    stock.saturating_sub(open.iter().filter(|sheet| sheet.kind == kind).count())
}

/// Up to two sheets given up, emptiest of their kind, and up to two opened, or all that is on hand.
struct Change {
    gone: Vec<usize>,
    new: Vec<usize>,
}

/// Cheaper sets of sheets with area enough, most room first; the set as it is while pieces are loose.
pub(super) fn aims(task: &Task, best: &Packing) -> Vec<Packing> {
    if !best.loose.is_empty() {
        return vec![best.clone()];
    }
    let needed: i64 = best.sheets.iter().map(|sheet| sheet.used).sum();
    let mut aims: Vec<(i64, Packing)> = Vec::new();
    for change in changes(task, best) {
        let aim = changed(task, best, &change);
        let room: i64 = aim.sheets.iter().map(|sheet| sheet.whole.area()).sum();
        if room >= needed && aim.cost(task) < best.cost(task) {
            aims.push((room, aim));
        }
    }
    aims.sort_by_key(|(room, _)| std::cmp::Reverse(*room));
    aims.into_iter().map(|(_, aim)| aim).collect()
}

fn changes(task: &Task, best: &Packing) -> Vec<Change> {
    let mut gone: Vec<usize> = Vec::new();
    for kind in 0..task.kinds.len() {
        let mut own: Vec<usize> = (0..best.sheets.len()).filter(|at| kind_of(best, *at) == Some(kind)).collect();
        own.sort_by_key(|at| best.sheets.get(*at).map_or(0, |sheet| sheet.used));
        gone.extend(own.into_iter().take(2));
    }
    let kinds: Vec<usize> = (0..task.kinds.len()).collect();
    let on_hand = on_hand_left(task, best);
    let mut changes = Vec::new();
    for gone in one_or_two(&gone) {
        changes.push(Change { gone: gone.clone(), new: Vec::new() });
        if on_hand.len() > 2 {
            changes.push(Change { gone: gone.clone(), new: on_hand.clone() });
        }
        let other = |new: &Vec<usize>| new.iter().all(|kind| gone.iter().all(|at| kind_of(best, *at) != Some(*kind)));
        let twice = kinds.iter().flat_map(|kind| [*kind, *kind]).collect::<Vec<_>>();
        let new = one_or_two(&twice).into_iter().filter(other).filter(|new| in_stock(task, best, new));
        changes.extend(new.map(|new| Change { gone: gone.clone(), new }));
    }
    changes
}

/// A kind for each sheet on hand that is not in use.
fn on_hand_left(task: &Task, best: &Packing) -> Vec<usize> {
    let limited = task.kinds.iter().enumerate().filter(|(_, kind)| kind.stock < task.items.len());
    let all = limited.flat_map(|(index, _)| std::iter::repeat_n(index, left(task, &best.sheets, index)));
    all.take(MOST_OPEN).collect()
}

fn kind_of(packing: &Packing, at: usize) -> Option<usize> {
    packing.sheets.get(at).map(|sheet| sheet.kind)
}

fn in_stock(task: &Task, best: &Packing, new: &[usize]) -> bool {
    new.iter().all(|kind| left(task, &best.sheets, *kind) >= new.iter().filter(|other| *other == kind).count())
}

/// Every element and every pair.
fn one_or_two(list: &[usize]) -> Vec<Vec<usize>> {
    let ones = list.iter().map(|one| vec![*one]);
    let twos = (0..list.len()).flat_map(|a| list.iter().skip(a + 1).filter_map(move |b| Some(vec![*list.get(a)?, *b])));
    let mut all: Vec<Vec<usize>> = ones.chain(twos).collect();
    all.sort();
    all.dedup();
    all
}

fn changed(task: &Task, best: &Packing, change: &Change) -> Packing {
    let (mut aim, mut loose) = (Packing::default(), Vec::new());
    for (at, sheet) in best.sheets.iter().enumerate() {
        if change.gone.contains(&at) {
            loose.extend(sheet.items());
        } else {
            aim.sheets.push(sheet.clone());
        }
    }
    let new = change.new.iter().filter_map(|kind| Some(Sheet::new(*kind, task.kinds.get(*kind)?.whole)));
    aim.sheets.extend(new);
    Packing { loose, ..aim }
}
