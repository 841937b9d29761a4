//! One pass of the constructive method: pieces in a given order into free rectangles of open sheets.

/// A sheet size with trim taken off and one kerf added, micrometres.
#[derive(Debug, Clone, Copy)]
pub(super) struct Size {
    pub w: i64,
    pub h: i64,
    pub cost: f64,
}

impl Size {
    pub(super) fn takes(&self, w: i64, h: i64) -> bool {
        w <= self.w && h <= self.h
    }

    pub(super) fn area(&self) -> f64 {
        self.w as f64 * self.h as f64
    }
}

/// One piece with kerf, micrometres, as it lies if it does not turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Item {
    pub piece: usize,
    pub w: i64,
    pub h: i64,
    /// May also lie the other way.
    pub turns: bool,
    /// `w` and `h` are already those of the turned piece.
    pub turned: bool,
}

impl Item {
    pub(super) fn area(&self) -> i64 {
        self.w.saturating_mul(self.h)
    }
}

/// What is to be laid.
#[derive(Debug)]
pub(super) struct Task {
    pub sizes: Vec<Size>,
    pub items: Vec<Item>,
    /// The shortest side of all items: free rectangles narrower than this are no use.
    pub least: i64,
}

/// A free rectangle of a sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Free {
    x: i64,
    y: i64,
    pub w: i64,
    pub h: i64,
}

/// Where an item lies, kerf included.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub item: usize,
    pub x: i64,
    pub y: i64,
    pub w: i64,
    pub h: i64,
    pub turned: bool,
}

/// An open sheet.
#[derive(Debug, Clone)]
pub(super) struct Bin {
    pub size: usize,
    pub used: i64,
    /// The greatest width and height of its free rectangles.
    reach: (i64, i64),
    pub free: Vec<Free>,
    pub spots: Vec<Spot>,
}

impl Bin {
    fn may_take(&self, item: Item) -> bool {
        let (width, height) = self.reach;
        (item.w <= width && item.h <= height) || (item.turns && item.h <= width && item.w <= height)
    }
}

/// Which free rectangle suits best.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fit {
    Area,
    ShortSide,
    LongSide,
    FirstSheet,
}

/// Which way the rest of a free rectangle is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Split {
    /// Along the side with the shorter rest.
    Shorter,
    /// Along the side with the longer rest.
    Longer,
    /// So that the larger of the two rests is as large as can be.
    Uneven,
    /// First cut along the sheet's length.
    Along,
    /// First cut across.
    Across,
}

/// One way to construct.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rules {
    pub fit: Fit,
    pub split: Split,
    /// The sheet size to open where it takes the item.
    pub size: usize,
}

/// Only this many of the newest sheets are looked at, so that time stays near linear in the number of pieces.
const OPEN: usize = 64;

struct Choice {
    score: (i64, i64),
    bin: usize,
    free: usize,
    rotated: bool,
}

/// Lays `order` into `bins`, opening new ones as needed; counts the places looked at in `work`.
pub(super) fn lay(task: &Task, mut bins: Vec<Bin>, order: &[usize], rules: Rules, work: &mut u64) -> Vec<Bin> {
    for index in order {
        let Some(item) = task.items.get(*index) else { continue };
        let found = choose(&bins, *item, rules.fit, work).or_else(|| {
            bins.push(open(task, *item, rules.size)?);
            let newest = bins.len() - 1;
            choose(bins.get(newest..)?, *item, rules.fit, work).map(|choice| Choice { bin: newest, ..choice })
        });
        if let Some(choice) = found
            && let Some(bin) = bins.get_mut(choice.bin)
        {
            place(bin, &choice, (*index, *item), rules.split, task.least);
        }
    }
    bins
}

fn open(task: &Task, item: Item, wished: usize) -> Option<Bin> {
    let takes = |size: &Size| size.takes(item.w, item.h) || (item.turns && size.takes(item.h, item.w));
    let cheapest = |(_, a): &(usize, &Size), (_, b): &(usize, &Size)| a.cost.total_cmp(&b.cost);
    let fitting = || task.sizes.iter().enumerate().filter(|(_, size)| takes(size));
    let (index, size) = fitting().find(|(index, _)| *index == wished).or_else(|| fitting().min_by(cheapest))?;
    let free = vec![Free { x: 0, y: 0, w: size.w, h: size.h }];
    Some(Bin { size: index, used: 0, reach: (size.w, size.h), free, spots: Vec::new() })
}

fn choose(bins: &[Bin], item: Item, fit: Fit, work: &mut u64) -> Option<Choice> {
    let mut best: Option<Choice> = None;
    let start = bins.len().saturating_sub(OPEN);
    for (bin, open) in bins.iter().enumerate().skip(start) {
        *work += 1;
        if !open.may_take(item) {
            continue;
        }
        *work += open.free.len() as u64;
        for (free, space) in open.free.iter().enumerate() {
            for rotated in [false, true] {
                let (w, h) = if rotated { (item.h, item.w) } else { (item.w, item.h) };
                if (rotated && !item.turns) || w > space.w || h > space.h {
                    continue;
                }
                let score = score(fit, bin, *space, w, h);
                if best.as_ref().is_none_or(|best| score < best.score) {
                    best = Some(Choice { score, bin, free, rotated });
                }
            }
        }
        if fit == Fit::FirstSheet && best.is_some() {
            break;
        }
    }
    best
}

fn score(fit: Fit, bin: usize, space: Free, w: i64, h: i64) -> (i64, i64) {
    let (right, above) = (space.w - w, space.h - h);
    match fit {
        Fit::Area => (space.w.saturating_mul(space.h), right.min(above)),
        Fit::ShortSide => (right.min(above), right.max(above)),
        Fit::LongSide => (right.max(above), right.min(above)),
        Fit::FirstSheet => (i64::try_from(bin).unwrap_or(i64::MAX), right.min(above)),
    }
}

fn place(bin: &mut Bin, choice: &Choice, (index, item): (usize, Item), split: Split, least: i64) {
    let rotated = choice.rotated;
    let space = bin.free.swap_remove(choice.free);
    let (w, h) = if rotated { (item.h, item.w) } else { (item.w, item.h) };
    bin.used += item.area();
    bin.spots.push(Spot { item: index, x: space.x, y: space.y, w, h, turned: item.turned != rotated });
    let (right, above) = (space.w - w, space.h - h);
    let along = match split {
        Split::Shorter => right <= above,
        Split::Longer => right > above,
        Split::Uneven => space.w.saturating_mul(above) >= space.h.saturating_mul(right),
        Split::Along => true,
        Split::Across => false,
    };
    let (beside, over) = if along { (h, space.w) } else { (space.h, w) };
    let rests = [
        Free { x: space.x + w, y: space.y, w: right, h: beside },
        Free { x: space.x, y: space.y + h, w: over, h: above },
    ];
    bin.free.extend(rests.into_iter().filter(|rest| rest.w >= least && rest.h >= least));
    bin.reach = bin.free.iter().fold((0, 0), |reach, free| (reach.0.max(free.w), reach.1.max(free.h)));
}
