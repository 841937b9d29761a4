//! The search for a good plan: pieces laid in several orders, then one aim after the other: the same pieces on cheaper
//! sheets, and last the largest offcut with the fewest cuts on the sheets that were found.
//!
//! An aim is a set of sheets, some of them empty, and the pieces that lost theirs. Parts of sheets are taken apart and
//! their pieces laid anew together with the loose ones, on the sheets that lost some (ruin and recreate: Schrimpf and
//! others, Journal of Computational Physics 159 (2000)); a result that is a little worse is taken too, less and less so
//! (threshold accepting: Dueck and Scheuer, Journal of Computational Physics 90 (1990); both from memory).

use super::aims;
use super::bound::Bound;
use super::dice::Dice;
use super::packing::{Packing, area};
use super::request::usual_effort;
use super::sheet::{FITS, Fit, Sheet};
use super::task::{Item, Task};
use super::window::{self, Windows};

/// Only this many of the newest sheets are looked at by a first plan, so that it takes time near linear in the pieces.
const NEWEST: usize = 64;
/// How far a step reaches.
#[derive(Debug, Clone, Copy)]
struct Reach {
    /// At most so many pieces are taken out, of at most so many sheets.
    pieces: usize,
    sheets: usize,
    /// Full sheets are looked at in parts most of the time.
    in_parts: bool,
}

const FOR_SHEETS: Reach = Reach { pieces: 24, sheets: 12, in_parts: true };
/// Offcuts and cuts want smaller steps.
const FOR_NEATNESS: Reach = Reach { pieces: 12, sheets: 6, in_parts: false };
/// What taking a piece up, laying it or taking it out costs besides, in nodes looked at.
const HANDLING: u64 = 5;
/// How much worse a step may be at the start of an aim, as a share of one sheet.
const WORSE: f64 = 0.04;
/// Share of the turns that go to parts of full sheets, and the work on the same parts before others are chosen.
const IN_PARTS: f64 = 0.8;
const ON_PARTS: u64 = 2_000;
/// Share of the effort for first plans, and for offcuts and cuts at the end: one part in so many. More than a part of
/// the effort of a layout makes offcuts and cuts hardly better.
const FIRST: u64 = 4;
const LAST: u64 = 8;
const LAST_OF_USUAL: u64 = 2;

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
        let (w, h) = (f64::from(item.size.w), f64::from(item.size.h));
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

/// Sheets as they were before a step, and memory for more.
#[derive(Default)]
struct Before {
    sheets: Vec<(usize, Sheet)>,
    spare: Vec<Sheet>,
}

impl Before {
    fn keep(&mut self, index: usize, sheet: &Sheet) {
        if self.sheets.iter().any(|(known, _)| *known == index) {
            return;
        }
        let copy = match self.spare.pop() {
            Some(mut spare) => {
                spare.clone_from(sheet);
                spare
            }
            None => sheet.clone(),
        };
        self.sheets.push((index, copy));
    }

    fn forget(&mut self) {
        self.spare.extend(self.sheets.drain(..).map(|(_, sheet)| sheet));
    }

    /// Puts the sheets back as they were.
    fn undo(&mut self, sheets: &mut [Sheet]) {
        for (at, sheet) in &mut self.sheets {
            if let Some(slot) = sheets.get_mut(*at) {
                std::mem::swap(slot, sheet);
            }
        }
        self.forget();
    }
}

struct Search<'a> {
    task: &'a Task,
    work: u64,
    dice: Dice,
    reach: Reach,
}

/// The best plan found within the effort.
pub(super) fn search(task: &Task, bound: &Bound, effort: u64) -> Packing {
    let mut search = Search { task, work: 0, dice: Dice(1), reach: FOR_SHEETS };
    let mut best = search.first(effort / FIRST);
    let last = (effort / LAST).min(usual_effort(task.items.len() as u32) / LAST_OF_USUAL);
    let aims_end = effort - last;
    while search.work < aims_end && !(best.loose.is_empty() && bound.is_met(best.cost(task))) {
        match search.cheaper(&best, aims_end) {
            Some(cheaper) => best = cheaper,
            None => break,
        }
    }
    if best.loose.is_empty() {
        let end = (search.work + last).min(effort);
        search.reach = FOR_NEATNESS;
        search.improve(&mut best, end, |sheets, loose| if loose > 0 { i64::MAX } else { neatness(task, sheets) });
    }
    best.sheets.retain(|sheet| !sheet.nodes.is_empty());
    best
}

/// Less is better: the largest offcut of the emptiest sheet, in square millimetres, then the number of cuts.
fn neatness(task: &Task, sheets: &[Sheet]) -> i64 {
    const CUTS: i64 = 100_000;
    let last = sheets.iter().max_by_key(|sheet| sheet.free()).and_then(|sheet| sheet.largest_rest(task.stages));
    let cuts: usize = sheets.iter().map(Sheet::cuts).sum();
    (cuts as i64).min(CUTS - 1) - last.map_or(0, |(_, _, area)| area / 1_000_000) * CUTS
}

impl Search<'_> {
    fn order(&mut self, items: &mut Vec<u32>, key: Key, noise: f64) {
        let mut keyed: Vec<(f64, u32)> = Vec::with_capacity(items.len());
        for index in items.iter() {
            let value = self.task.items.get(*index as usize).map_or(0.0, |item| key.of(item));
            let factor = if noise > 0.0 { 1.0 + noise * (self.dice.share() - 0.5) } else { 1.0 };
            keyed.push((value * factor, *index));
        }
        keyed.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        items.clear();
        items.extend(keyed.into_iter().map(|(_, index)| index));
    }

    /// Puts an item on the best of the sheets at `among`; false if it fits on none of them.
    fn place(&mut self, sheets: &mut [Sheet], among: impl Iterator<Item = usize>, index: u32, fit: Fit) -> bool {
        let Some(item) = self.task.items.get(index as usize).copied() else { return false };
        let mut best = None;
        self.work += HANDLING;
        for at in among {
            self.work += 1;
            let Some(sheet) = sheets.get(at).filter(|sheet| sheet.may_take(&item)) else { continue };
            self.work += sheet.nodes.len() as u64;
            if let Some(spot) = sheet.best(&item, fit, self.task.stages)
                && best.is_none_or(|(_, rank)| spot.rank < rank)
            {
                best = Some(((at, spot), spot.rank));
            }
        }
        let Some(((at, spot), _)) = best else { return false };
        let Some(sheet) = sheets.get_mut(at) else { return false };
        self.work += HANDLING + sheet.nodes.len() as u64;
        sheet.insert(spot, index, &item);
        true
    }

    /// Every order and rule once, as far as the effort goes; at least one.
    fn first(&mut self, effort: u64) -> Packing {
        let mut best: Option<Packing> = None;
        for key in KEYS {
            for fit in FITS {
                for opening in aims::openings(self.task) {
                    if best.is_some() && self.work > effort {
                        break;
                    }
                    let packing = self.lay(key, fit, opening);
                    if best.as_ref().is_none_or(|best| packing.rank(self.task) < best.rank(self.task)) {
                        best = Some(packing);
                    }
                }
            }
        }
        best.unwrap_or_default()
    }

    fn lay(&mut self, key: Key, fit: Fit, opening: aims::Opening) -> Packing {
        let mut order: Vec<u32> = (0..self.task.items.len() as u32).collect();
        self.order(&mut order, key, 0.0);
        let mut packing = Packing { sheets: opening.sheets(self.task), loose: Vec::new() };
        for index in order {
            let newest = packing.sheets.len().saturating_sub(NEWEST)..packing.sheets.len();
            if self.place(&mut packing.sheets, newest, index, fit) {
                continue;
            }
            let item = self.task.items.get(index as usize);
            match item.and_then(|item| opening.next(self.task, &packing.sheets, item)) {
                Some(sheet) => packing.sheets.push(sheet),
                None => {
                    packing.loose.push(index);
                    continue;
                }
            }
            let newest = packing.sheets.len() - 1;
            self.place(&mut packing.sheets, newest..=newest, index, fit);
        }
        packing.sheets.retain(|sheet| !sheet.nodes.is_empty());
        packing
    }

    /// The same pieces on cheaper sheets, if the effort up to `end` finds a way.
    fn cheaper(&mut self, best: &Packing, end: u64) -> Option<Packing> {
        let aims = aims::aims(self.task, best);
        let count = aims.len() as u64;
        for (tried, mut packing) in (0_u64..).zip(aims) {
            let share = (end - self.work.min(end)) / (count - tried).min(aims::AT_ONCE);
            let slice = self.work + share;
            self.improve(&mut packing, slice, |_, loose| loose);
            if packing.loose.is_empty() || area(self.task, &packing.loose) < area(self.task, &best.loose) {
                packing.sheets.retain(|sheet| !sheet.nodes.is_empty());
                return Some(packing);
            }
        }
        None
    }

    /// Makes a packing better by its `worth` of sheets and loose area (less is better) until the work reaches `end` or
    /// the worth is 0.
    fn improve(&mut self, packing: &mut Packing, end: u64, worth: impl Fn(&[Sheet], i64) -> i64) {
        let largest = packing.sheets.iter().map(|sheet| sheet.whole.area()).max().unwrap_or(0);
        let begin = self.work;
        packing.loose = self.settle(packing);
        let mut now = worth(&packing.sheets, area(self.task, &packing.loose));
        let (mut best, mut least) = (packing.clone(), now);
        let mut before = Before::default();
        while self.work < end && least != 0 {
            let left = 1.0 - (self.work - begin) as f64 / (end - begin) as f64;
            let worse = WORSE * largest as f64 * left * left * left;
            if self.in_parts(packing) && self.dice.share() < IN_PARTS {
                let nodes: usize = packing.sheets.iter().map(|sheet| sheet.nodes.len()).sum();
                self.work += nodes as u64;
                let till = (self.work + ON_PARTS).min(end);
                let mut parts = Windows::open(packing, &mut self.dice);
                while self.work < till && now >= least {
                    now = self.turn(&mut parts.inner, &mut before, (now, worse), &worth);
                }
                parts.close(packing);
            } else {
                now = self.turn(packing, &mut before, (now, worse), &worth);
            }
            if now < least {
                (best, least) = (packing.clone(), now);
            }
        }
        *packing = best;
    }

    /// Parts know nothing of the stages that lead to them.
    fn in_parts(&self, packing: &Packing) -> bool {
        self.reach.in_parts && self.task.stages == u8::MAX && window::worthwhile(packing)
    }

    /// One step, taken back if it makes a packing worth `now` much worse; gives the worth after it.
    fn turn(
        &mut self,
        packing: &mut Packing,
        before: &mut Before,
        (now, worse): (i64, f64),
        worth: &impl Fn(&[Sheet], i64) -> i64,
    ) -> i64 {
        let loose = self.step(packing, before);
        let new = worth(&packing.sheets, area(self.task, &loose));
        let chance = self.dice.share();
        if new > now.saturating_add((worse * chance * chance) as i64) {
            before.undo(&mut packing.sheets);
            return now;
        }
        packing.loose = loose;
        before.forget();
        new
    }

    /// Lays the loose pieces where there is room as it is; gives those that stay loose.
    fn settle(&mut self, packing: &mut Packing) -> Vec<u32> {
        let mut loose = std::mem::take(&mut packing.loose);
        self.order(&mut loose, Key::Area, 0.0);
        let count = packing.sheets.len();
        loose.retain(|index| !self.place(&mut packing.sheets, 0..count, *index, Fit::ShortRest));
        loose
    }

    /// Takes pieces out and lays them and the loose ones anew on the sheets that lost some; gives what is loose then.
    fn step(&mut self, packing: &mut Packing, before: &mut Before) -> Vec<u32> {
        let mut pool = Vec::new();
        self.ruin(&mut packing.sheets, &mut pool, before);
        let ruined: Vec<usize> = before.sheets.iter().map(|(at, _)| *at).collect();
        pool.extend(&packing.loose);
        let key = if self.dice.share() < 0.5 { Key::Area } else { self.dice.pick(&KEYS, Key::Area) };
        let noise = self.dice.share() * self.dice.share();
        self.order(&mut pool, key, noise);
        let fit = self.dice.pick(&FITS, Fit::ShortRest);
        pool.retain(|index| !self.place(&mut packing.sheets, ruined.iter().copied(), *index, fit));
        pool
    }

    /// Takes subtrees out of some sheets.
    fn ruin(&mut self, sheets: &mut [Sheet], pool: &mut Vec<u32>, before: &mut Before) {
        let goal = 1 + self.dice.below(self.reach.pieces);
        for _ in 0..=self.dice.below(self.reach.sheets) {
            let index = self.dice.below(sheets.len());
            let Some(sheet) = sheets.get_mut(index) else { return };
            before.keep(index, sheet);
            self.work += HANDLING;
            let mut at = self.dice.below(sheet.nodes.len());
            while sheet.nodes.get(at).is_some_and(|node| node.items(at) > goal) {
                at = self.dice.below(sheet.nodes.len());
            }
            sheet.remove(at, pool);
            if pool.len() >= goal {
                break;
            }
        }
        for (at, _) in &before.sheets {
            let Some(sheet) = sheets.get_mut(*at) else { continue };
            self.work += sheet.nodes.len() as u64;
            sheet.measure();
        }
    }
}
