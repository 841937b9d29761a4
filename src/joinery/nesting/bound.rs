//! Lower bound on the number of sheets, by dual feasible functions.
//!
//! A function f on 0..W is dual feasible when sizes that fit side by side into W still do so after f. For any two
//! such functions, the sum of f(w) g(h) over the pieces is at most the number of sheets. Functions and proof: Fekete
//! and Schepers, "New classes of fast lower bounds for bin packing problems", Mathematical Programming 91 (2001), from
//! memory. A piece that may turn counts with the smaller of its two products.

use super::pack::Task;

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

/// No plan of the task can use fewer sheets. All sheets count as large as the largest.
pub(super) fn sheets(task: &Task) -> usize {
    let width = task.sizes.iter().map(|size| size.w).max().unwrap_or(0);
    let height = task.sizes.iter().map(|size| size.h).max().unwrap_or(0);
    if width <= 0 || height <= 0 || task.items.is_empty() {
        return 0;
    }
    let mut kinds: Vec<(i64, i64, bool, f64)> = Vec::new();
    for item in &task.items {
        match kinds.last_mut() {
            Some(last) if (last.0, last.1, last.2) == (item.w, item.h, item.turns) => last.3 += 1.0,
            _ => kinds.push((item.w, item.h, item.turns, 1.0)),
        }
    }
    let across = kinds.iter().map(|kind| kind.0);
    let upward = kinds.iter().map(|kind| kind.1);
    let turned = || kinds.iter().filter(|kind| kind.2);
    let wide = duals(across.chain(turned().map(|kind| kind.1)), width);
    let high = duals(upward.chain(turned().map(|kind| kind.0)), height);
    let table = |duals: &[Dual], whole: i64, w_first: bool| -> Vec<Vec<(f64, f64)>> {
        let side = |kind: &(i64, i64, bool, f64)| if w_first { (kind.0, kind.1) } else { (kind.1, kind.0) };
        let row = |dual: &Dual| {
            let value = |x: i64| dual.of(x.min(whole), whole);
            kinds.iter().map(|kind| (value(side(kind).0), value(side(kind).1))).collect()
        };
        duals.iter().map(row).collect()
    };
    let (wide, high) = (table(&wide, width, true), table(&high, height, false));
    let total = |f: &[(f64, f64)], g: &[(f64, f64)]| -> f64 {
        let each = kinds.iter().zip(f.iter().zip(g));
        each.map(|(kind, (f, g))| {
            let (lies, turned) = (f.0 * g.0, f.1 * g.1);
            kind.3 * if kind.2 { lies.min(turned) } else { lies }
        })
        .sum()
    };
    let greatest = wide.iter().flat_map(|f| high.iter().map(move |g| total(f, g))).fold(0.0, f64::max);
    ((greatest - 1e-6).ceil() as usize).max(1)
}
