//! Lower bound on the number of sheets, by dual feasible functions.
//!
//! A function f on 0..W is dual feasible when sizes that fit side by side into W still do so after f. For any two
//! such functions, the sum of f(w) g(h) over the pieces is at most the number of sheets. Functions and proof: Fekete
//! and Schepers, "New classes of fast lower bounds for bin packing problems", Mathematical Programming 91 (2001), from
//! memory. A piece that may turn counts with the smaller of its two products.

use super::pack::Task;
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

/// At most this many limits are tried for each direction.
const LIMITS: usize = 14;

/// Functions worth trying for these sizes in `w`.
fn duals(sizes: impl Iterator<Item = i64>, w: i64) -> Vec<Dual> {
    let mut limits: Vec<i64> = sizes.flat_map(|x| [x, w - x]).filter(|x| *x > 0 && 2 * x <= w).collect();
    limits.sort_unstable();
    limits.dedup();
    let step = limits.len().div_ceil(LIMITS).max(1);
    let limits: Vec<i64> = limits.iter().rev().step_by(step).copied().collect();
    let mut duals = vec![Dual::Share, Dual::Steps(1), Dual::Steps(2), Dual::Steps(3), Dual::Steps(4)];
    duals.extend(limits.iter().map(|limit| Dual::Threshold(*limit)));
    duals.extend(limits.iter().map(|limit| Dual::Multiples(*limit)));
    duals
}

/// Equal pieces.
struct Kind {
    w: i64,
    h: i64,
    turns: bool,
    count: f64,
}

fn kinds(task: &Task) -> Vec<Kind> {
    let mut kinds: Vec<Kind> = Vec::new();
    for item in &task.items {
        match kinds.last_mut() {
            Some(last) if (last.w, last.h, last.turns) == (item.w, item.h, item.turns) => last.count += 1.0,
            _ => kinds.push(Kind { w: item.w, h: item.h, turns: item.turns, count: 1.0 }),
        }
    }
    kinds
}

/// For each kind: the share of one direction that it takes as it lies, and turned.
type Shares = Vec<(f64, f64)>;

/// Shares under each function worth trying in a direction of length `whole`; `sides` gives lying and turned size.
fn shares(kinds: &[Kind], whole: i64, sides: impl Fn(&Kind) -> (i64, i64)) -> Vec<Shares> {
    let sizes = kinds.iter().flat_map(|kind| {
        let (lying, turned) = sides(kind);
        [lying, if kind.turns { turned } else { lying }]
    });
    let share = |dual: &Dual, size: i64| dual.of(size.min(whole), whole);
    let both = |dual: &Dual, (lying, turned)| (share(dual, lying), share(dual, turned));
    duals(sizes, whole).iter().map(|dual| kinds.iter().map(|kind| both(dual, sides(kind))).collect()).collect()
}

fn total(kinds: &[Kind], across: &Shares, upward: &Shares) -> f64 {
    let each = kinds.iter().zip(across.iter().zip(upward));
    each.map(|(kind, (across, upward))| {
        let (lying, turned) = (across.0 * upward.0, across.1 * upward.1);
        kind.count * if kind.turns { lying.min(turned) } else { lying }
    })
    .sum()
}

/// No plan of the task can use fewer sheets. All sheets count as large as the largest in each direction.
pub(super) fn sheets(task: &Task) -> usize {
    let width = task.sizes.iter().map(|size| size.w).max().unwrap_or(0);
    let height = task.sizes.iter().map(|size| size.h).max().unwrap_or(0);
    if width <= 0 || height <= 0 || task.items.is_empty() {
        return 0;
    }
    let kinds = kinds(task);
    let across = shares(&kinds, width, |kind| (kind.w, kind.h));
    let upward = shares(&kinds, height, |kind| (kind.h, kind.w));
    let pairs = across.iter().flat_map(|across| upward.iter().map(move |upward| (across, upward)));
    let greatest = pairs.map(|(across, upward)| total(&kinds, across, upward)).fold(0.0, f64::max);
    ((greatest - SAME_SHARE).ceil() as usize).max(1)
}
