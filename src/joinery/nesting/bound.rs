//! Lower bounds on the number of sheets and on their cost, by dual feasible functions.
//!
//! A function f on 0..W is dual feasible when sizes that fit side by side into W still do so after f. Those here are
//! superadditive too, so they may be asked about smaller sheets: for any two of them, the sum of f(w) g(h) over the
//! pieces is at most the sum of f(W) g(H) over the sheets used, whatever the cuts. Functions and proof: Fekete and
//! Schepers, "New classes of fast lower bounds for bin packing problems", Mathematical Programming 91 (2001), and
//! Boschetti and Mingozzi, 4OR 1 (2003), from memory. A piece that may turn counts with the smaller of its two products; on a
//! square sheet f, g and g, f hold both, so that their mean may be taken, which is the same either way.

use super::extent::Extent;
use super::task::{Item, Kind, Task};
use crate::base::tolerance::SAME_SHARE;

#[derive(Debug, Clone, Copy)]
enum Dual {
    /// The share itself.
    Share,
    /// Large pieces take all, small ones (below the limit) nothing.
    Threshold(i64),
    /// Rounds to steps of 1/k.
    Steps(i64),
    /// Rounds to multiples of a piece size.
    Multiples(i64),
}

impl Dual {
    /// Share of the whole `w` that a size `x` takes, 0 to 1.
    fn of(self, x: i64, w: i64) -> f64 {
        let share = x as f64 / w as f64;
        match self {
            Self::Share => share,
            Self::Threshold(limit) if x > w - limit => 1.0,
            Self::Threshold(limit) => f64::from(u8::from(x >= limit)) * share,
            Self::Steps(k) if x * (k + 1) % w == 0 => share,
            Self::Steps(k) => (x * (k + 1) / w) as f64 / k as f64,
            Self::Multiples(unit) if 2 * x > w => 1.0 - ((w - x) / unit) as f64 / (w / unit) as f64,
            Self::Multiples(_) if 2 * x == w => 0.5,
            Self::Multiples(unit) => (x / unit) as f64 / (w / unit) as f64,
        }
    }
}

/// So many products of shares may be looked at.
const PRODUCTS: usize = 2_000_000;

/// Functions worth trying for these sizes in `w`, at most about `most`.
fn duals(sizes: impl Iterator<Item = i64>, w: i64, most: usize) -> Vec<Dual> {
    let near = |x: i64| [x, x + 1, w - x, w - x + 1, x / 2, x / 3, (w - x) / 2 + 1, (w - x) / 3 + 1];
    let mut limits: Vec<i64> = sizes.flat_map(near).filter(|x| *x > 0 && 2 * x <= w).collect();
    limits.sort_unstable();
    limits.dedup();
    let step = limits.len().div_ceil((most / 2).max(4)).max(1);
    let limits: Vec<i64> = limits.iter().rev().step_by(step).copied().collect();
    let mut duals = vec![Dual::Share];
    duals.extend((1..=6).map(Dual::Steps));
    duals.extend(limits.iter().map(|limit| Dual::Threshold(*limit)));
    duals.extend(limits.iter().map(|limit| Dual::Multiples(*limit)));
    duals
}

/// Equal pieces.
struct Equal {
    size: Extent,
    turns: bool,
    count: f64,
}

fn equal(task: &Task) -> Vec<Equal> {
    let mut all: Vec<Equal> = Vec::new();
    for item in &task.items {
        match all.last_mut() {
            Some(last) if (last.size, last.turns) == (item.size, item.turns) => last.count += 1.0,
            _ => all.push(Equal { size: item.size, turns: item.turns, count: 1.0 }),
        }
    }
    all
}

/// What one function makes of one direction.
struct Shares {
    /// For each kind of pieces, as it lies and turned.
    pieces: Vec<(f64, f64)>,
    /// For each kind of sheet.
    sheets: Vec<f64>,
}

/// Under each function worth trying in one direction; `side` gives the length in that direction.
fn shares(task: &Task, pieces: &[Equal], side: impl Fn(Extent) -> i32) -> Vec<Shares> {
    let lengths = |kind: &Kind| i64::from(side(kind.whole));
    let whole = task.kinds.iter().map(lengths).max().unwrap_or(1).max(1);
    let lying = |piece: &Equal| i64::from(side(piece.size));
    let turned = |piece: &Equal| i64::from(side(piece.size.turned()));
    let sizes = pieces.iter().flat_map(|piece| [lying(piece), if piece.turns { turned(piece) } else { lying(piece) }]);
    let most = (PRODUCTS / pieces.len().max(1)).isqrt();
    let of = |dual: Dual| Shares {
        pieces: pieces
            .iter()
            .map(|piece| (dual.of(lying(piece).min(whole), whole), dual.of(turned(piece).min(whole), whole)))
            .collect(),
        sheets: task.kinds.iter().map(|kind| dual.of(lengths(kind).max(0), whole)).collect(),
    };
    duals(sizes, whole, most).into_iter().map(of).collect()
}

/// The least that any plan needs.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Bound {
    pub sheets: usize,
    pub cost: f64,
}

impl Bound {
    /// No plan of the task is better.
    pub fn new(task: &Task) -> Self {
        let pieces = equal(task);
        let across = shares(task, &pieces, |size| size.w);
        let upward = shares(task, &pieces, |size| size.h);
        let square = task.kinds.iter().all(|kind| kind.whole.w == kind.whole.h) && task.kinds.len() == 1;
        let (mut sheets, mut cost) = (0.0_f64, 0.0_f64);
        for (f, g) in across.iter().flat_map(|f| upward.iter().map(move |g| (f, g))) {
            let needed = total(&pieces, f, g, square);
            let room: Vec<f64> = f.sheets.iter().zip(&g.sheets).map(|(f, g)| f * g).collect();
            sheets = sheets.max(least(task, &room, needed, |_| 1.0));
            if task.kinds.len() > 1 {
                cost = cost.max(least(task, &room, needed, |kind| kind.cost));
            }
        }
        let sheets = ((sheets - SAME_SHARE).ceil() as usize).max(strangers(task));
        let cheapest = task.kinds.iter().map(|kind| kind.cost).fold(f64::INFINITY, f64::min);
        let by_count = if sheets > 0 { sheets as f64 * cheapest } else { 0.0 };
        Self { sheets, cost: cost.max(by_count) }
    }

    pub fn is_met(&self, cost: f64) -> bool {
        cost <= self.cost * (1.0 + SAME_SHARE)
    }
}

/// Strangers are looked for among so many of the largest pieces, and each of the first few is tried as the first.
const LARGEST: usize = 400;
const FIRST: usize = 12;

/// A number of pieces of which no two can share a sheet.
fn strangers(task: &Task) -> usize {
    let whole = task
        .kinds
        .iter()
        .fold(Extent::default(), |all, kind| Extent { w: all.w.max(kind.whole.w), h: all.h.max(kind.whole.h) });
    let mut items: Vec<&Item> = task.items.iter().collect();
    items.sort_by_key(|item| std::cmp::Reverse(item.size.area()));
    items.truncate(LARGEST);
    let meet = |a: &Item, b: &Item| {
        let fits = |item: &Item| item.poses().filter(|(_, size)| whole.holds(*size)).map(|(_, size)| size);
        fits(a).any(|a| fits(b).any(|b| a.w + b.w <= whole.w || a.h + b.h <= whole.h))
    };
    let set_from = |first: usize| {
        let mut set: Vec<&Item> = items.get(first).copied().into_iter().collect();
        for item in &items {
            if !set.iter().any(|other| std::ptr::eq(*other, *item) || meet(other, item)) {
                set.push(item);
            }
        }
        set.len()
    };
    (0..items.len().min(FIRST)).map(set_from).max().unwrap_or(0)
}

fn total(pieces: &[Equal], f: &Shares, g: &Shares, square: bool) -> f64 {
    let products = pieces.iter().zip(f.pieces.iter().zip(&g.pieces));
    let sums = products.fold((0.0, 0.0), |(least, mean), (piece, (f, g))| {
        let (lying, turned) = (f.0 * g.0, f.1 * g.1);
        let own = if piece.turns { lying.min(turned) } else { lying };
        (least + piece.count * own, mean + piece.count * (lying + turned) / 2.0)
    });
    if square { sums.0.max(sums.1) } else { sums.0 }
}

/// The least sum of prices of sheets, parts of sheets allowed, whose room is what is needed.
fn least(task: &Task, room: &[f64], needed: f64, price: impl Fn(&Kind) -> f64) -> f64 {
    let mut offers: Vec<(f64, f64, f64)> = Vec::with_capacity(room.len());
    for (kind, room) in task.kinds.iter().zip(room).filter(|(_, room)| **room > 0.0) {
        offers.push((price(kind) / room, *room, kind.stock as f64));
    }
    offers.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut sum, mut open) = (0.0, needed);
    for (rate, room, stock) in offers {
        let taken = open.min(room * stock);
        sum += taken * rate;
        open -= taken;
    }
    sum
}
