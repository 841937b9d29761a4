//! The search for a good plan: every rule of the constructive method once, then sheets taken apart and laid anew.

use super::pack::{Bin, Fit, Item, Rules, Split, Task, lay};

const FITS: [Fit; 4] = [Fit::ShortSide, Fit::Area, Fit::LongSide, Fit::FirstSheet];
const SPLITS: [Split; 5] = [Split::Shorter, Split::Longer, Split::Uneven, Split::Along, Split::Across];

/// What comes first.
#[derive(Debug, Clone, Copy)]
enum Key {
    Area,
    LongSide,
    ShortSide,
    Girth,
    Across,
    Upward,
}

const KEYS: [Key; 6] = [Key::Area, Key::LongSide, Key::ShortSide, Key::Girth, Key::Across, Key::Upward];

impl Key {
    fn of(self, item: &Item) -> f64 {
        let (w, h) = (item.w as f64, item.h as f64);
        match self {
            Self::Area => w * h,
            Self::LongSide => w.max(h) + w.min(h) / 1e3,
            Self::ShortSide => w.min(h) + w.max(h) / 1e3,
            Self::Girth => w + h,
            Self::Across => w + h / 1e3,
            Self::Upward => h + w / 1e3,
        }
    }
}

/// How good a plan is, less is better: cost, then free space gathered on few sheets, then the largest offcut.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
struct Score {
    cost: f64,
    spread: f64,
    offcut: f64,
}

fn score(task: &Task, bins: &[Bin]) -> Score {
    let mut score = Score { cost: 0.0, spread: 0.0, offcut: 0.0 };
    for bin in bins {
        let Some(size) = task.sizes.get(bin.size) else { continue };
        let fill = bin.used as f64 / size.area();
        score.cost += size.cost;
        score.spread -= fill * fill;
        score.offcut = bin.free.iter().map(|free| -(free.w as f64 * free.h as f64)).fold(score.offcut, f64::min);
    }
    score
}

/// A small generator with a fixed start, so that every run is the same (splitmix64, public domain algorithm).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.roll() % count.max(1) as u64) as usize
    }

    /// 0 to 1.
    fn share(&mut self) -> f64 {
        (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn pick<T: Copy>(&mut self, list: &[T], otherwise: T) -> T {
        list.get(self.below(list.len())).copied().unwrap_or(otherwise)
    }
}

struct Search<'a> {
    task: &'a Task,
    work: u64,
    dice: Dice,
}

impl Search<'_> {
    fn order(&mut self, items: &mut [usize], key: Key, noise: f64) {
        let task = self.task;
        let mut keyed: Vec<(f64, usize)> = Vec::with_capacity(items.len());
        for index in items.iter() {
            let value = task.items.get(*index).map_or(0.0, |item| key.of(item));
            let factor = if noise > 0.0 { 1.0 + noise * (self.dice.share() - 0.5) } else { 1.0 };
            keyed.push((value * factor, *index));
        }
        keyed.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        for (slot, (_, index)) in items.iter_mut().zip(keyed) {
            *slot = index;
        }
    }

    /// Lays and then moves each sheet's pieces to a cheaper size that takes them all.
    fn lay(&mut self, kept: Vec<Bin>, order: &[usize], rules: Rules) -> Vec<Bin> {
        let bins = lay(self.task, kept, order, rules, &mut self.work);
        if self.task.sizes.len() < 2 {
            return bins;
        }
        bins.into_iter().map(|bin| self.cheaper(bin, rules)).collect()
    }

    fn cheaper(&mut self, bin: Bin, rules: Rules) -> Bin {
        let order: Vec<usize> = bin.spots.iter().map(|spot| spot.item).collect();
        let mut best = bin;
        for size in 0..self.task.sizes.len() {
            let other = lay(self.task, Vec::new(), &order, Rules { size, ..rules }, &mut self.work);
            if other.len() == 1 && score(self.task, &other).cost < score(self.task, std::slice::from_ref(&best)).cost {
                best = other.into_iter().next().unwrap_or(best);
            }
        }
        best
    }

    fn rules(&mut self) -> Rules {
        Rules {
            fit: self.dice.pick(&FITS, Fit::ShortSide),
            split: self.dice.pick(&SPLITS, Split::Shorter),
            size: self.dice.below(self.task.sizes.len()),
        }
    }

    /// Every rule once, as far as the effort goes; at least one.
    fn first(&mut self, effort: u64) -> Vec<Bin> {
        let all: Vec<usize> = (0..self.task.items.len()).collect();
        let mut best: Option<(Score, Vec<Bin>)> = None;
        for key in KEYS {
            let mut order = all.clone();
            self.order(&mut order, key, 0.0);
            for size in 0..self.task.sizes.len() {
                for (fit, split) in FITS.iter().flat_map(|fit| SPLITS.iter().map(move |split| (*fit, *split))) {
                    if best.is_some() && self.work > effort {
                        break;
                    }
                    let bins = self.lay(Vec::new(), &order, Rules { fit, split, size });
                    let score = score(self.task, &bins);
                    if best.as_ref().is_none_or(|(least, _)| score < *least) {
                        best = Some((score, bins));
                    }
                }
            }
        }
        best.map(|(_, bins)| bins).unwrap_or_default()
    }

    /// Takes one of the emptier sheets and up to three others apart and lays their pieces anew.
    fn anew(&mut self, bins: &[Bin]) -> Vec<Bin> {
        let mut kept = bins.to_vec();
        kept.sort_by_key(|bin| std::cmp::Reverse(bin.used));
        let emptier = kept.len().div_ceil(2);
        let first = kept.len() - 1 - self.dice.below(emptier);
        let mut loose: Vec<usize> = kept.remove(first).spots.iter().map(|spot| spot.item).collect();
        for _ in 0..=self.dice.below(3) {
            if !kept.is_empty() {
                let other = self.dice.below(kept.len());
                loose.extend(kept.remove(other).spots.iter().map(|spot| spot.item));
            }
        }
        let key = self.dice.pick(&KEYS, Key::Area);
        let noise = self.dice.share() * self.dice.share();
        self.order(&mut loose, key, noise);
        let rules = self.rules();
        self.lay(kept, &loose, rules)
    }
}

/// The best plan found within the effort.
pub(super) fn search(task: &Task, bound: usize, effort: u64) -> Vec<Bin> {
    let mut search = Search { task, work: 0, dice: Dice(1) };
    let mut bins = search.first(effort / 4);
    let mut least = score(task, &bins);
    let cheapest = task.sizes.iter().map(|size| size.cost).fold(f64::INFINITY, f64::min);
    while search.work < effort && least.cost > bound as f64 * cheapest && bins.len() > 1 {
        let other = search.anew(&bins);
        let score = score(task, &other);
        if score <= least {
            (bins, least) = (other, score);
        }
    }
    bins
}
