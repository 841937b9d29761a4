//! Boxes of several sizes into the true shape of a space, standing along the axes.
//!
//! The space is a prism less other prisms and less what lies above the roof. What is taken from it becomes boxes in
//! `packing/room.rs`: flat faces exactly; sloped faces and the roof exactly for boxes whose faces lie at heights
//! that sums of the boxes' sides reach (as many as are kept), else on the safe side. Free room is kept as maximal empty
//! boxes in `packing/spaces.rs`; `packing/load.rs` fills it from one corner, by several rules of choice, then
//! empties and refills parts of the best load, by the same rules with chance from a fixed sequence, until everything
//! stands or the steps allowed are used up. So the result is the same every time, never overlaps, never leaves the space, and may miss a fit that exists.
//!
//! Nothing floats: at least [`SUPPORT`] of a box's base lies on the floor of the space, on a level top of something in
//! it, or on other boxes. As this is more than half, every line through the middle of the base has some of it on both
//! sides, so the middle is over what carries it. Sloped faces carry nothing. The order of loading is not looked at.

mod load;
mod room;
mod spaces;

use super::prism::{Box3, Prism};
use super::roof::Roof;
use super::volume::free_volume;
use load::{Load, Rule};
use room::Room;

/// Least share of a box's base that something must carry (common practice, no source).
pub const SUPPORT: f64 = 0.6;

/// Steps allowed beside those for each box, and for each box; a step is about a look at one place for one box.
const STEPS: usize = 20_000;
const STEPS_EACH: usize = 1500;
/// One in so many steps where the boxes have more volume than the space, so that some are left over in any case.
const HOPELESS: usize = 10;
/// Tries, at most.
const TRIES: usize = 2000;
/// One in so many tries with chance begins with an empty space; the others empty a part of the best load.
const FRESH: usize = 8;

/// How a box may stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stands {
    /// On any face, turned in any way.
    Any,
    /// With its third side upright, turned about it.
    Upright,
    /// With its first side along x, its second along y, its third upright.
    Fixed,
}

/// Some equal boxes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parcel {
    /// Its three sides, mm, each more than 0.
    pub size: [f64; 3],
    /// How many.
    pub count: usize,
    /// How each may stand.
    pub stands: Stands,
}

crate::base::content::contents! {
    Parcel { size, count, stands }
}

impl crate::base::content::Content for Stands {
    fn feed(&self, digest: &mut crate::base::content::Digest) {
        digest.word(*self as u64);
    }
}

/// One box in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stowed {
    /// Index of its parcel.
    pub parcel: usize,
    /// Its place.
    pub place: Box3,
    /// Which side of the parcel (0, 1, 2) lies along x, y and z.
    pub turn: [usize; 3],
}

/// What has been placed, and what has not.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Packing {
    /// The boxes in the order in which they were placed.
    pub placed: Vec<Stowed>,
    /// How many of each parcel are left over.
    pub left: Vec<usize>,
    /// The largest box that is still free, by volume; `None` if less than 20 mm is free in one direction everywhere.
    pub largest_free: Option<Box3>,
}

impl Packing {
    /// Whether nothing is left over.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.left.iter().all(|left| *left == 0)
    }
}

/// Ways to stand: which side lies along x, y and z.
pub(super) const TURNS: [[usize; 3]; 6] = [[0, 1, 2], [1, 0, 2], [0, 2, 1], [2, 0, 1], [1, 2, 0], [2, 1, 0]];

impl Parcel {
    /// The turns that it may stand in and that differ, with its extents along x, y and z.
    pub(super) fn turns(&self) -> Vec<([usize; 3], [f64; 3])> {
        let allowed = match self.stands {
            Stands::Fixed => 1,
            Stands::Upright => 2,
            Stands::Any => TURNS.len(),
        };
        let mut found: Vec<([usize; 3], [f64; 3])> = Vec::new();
        for turn in TURNS.into_iter().take(allowed) {
            let extents = turn.map(|side| self.size.get(side).copied().unwrap_or(0.0));
            if !found.iter().any(|(_, known)| *known == extents) {
                found.push((turn, extents));
            }
        }
        found
    }

    fn volume(&self) -> f64 {
        self.size.iter().product()
    }
}

/// Packs as much as it can, by volume, into `space` outside all of `minus` and below `roof`.
#[must_use]
pub fn pack(space: &Prism, minus: &[&Prism], roof: &Roof, parcels: &[Parcel]) -> Packing {
    let pieces: usize = parcels.iter().map(|parcel| parcel.count).sum();
    let wanted: f64 = parcels.iter().map(|parcel| parcel.volume() * parcel.count as f64).sum();
    let hopeless = wanted > free_volume(space, minus, roof) * (1.0 + crate::base::tolerance::SAME_SHARE);
    let steps = STEPS + STEPS_EACH * pieces;
    pack_within(space, minus, roof, parcels, if hopeless { steps / HOPELESS } else { steps })
}

/// The same with a count of steps; the first try is always finished.
fn pack_within(space: &Prism, minus: &[&Prism], roof: &Roof, parcels: &[Parcel], mut steps: usize) -> Packing {
    let room = Room::new(space, minus, roof, parcels);
    let mut numbers = Sequence(0x9E37_79B9_7F4A_7C15);
    let mut best = Load::filled(&room, parcels, Rule::of_attempt(0, &mut numbers));
    for attempt in 1..TRIES {
        if steps == 0 || best.is_complete() {
            break;
        }
        let rule = Rule::of_attempt(attempt, &mut numbers);
        let load = if attempt < Rule::PLAIN || attempt % FRESH == 0 {
            Load::filled(&room, parcels, rule)
        } else {
            best.refilled(&part(&room.bounds, &mut numbers), rule)
        };
        steps = steps.saturating_sub(load.steps());
        let as_good = best.volume() - crate::base::tolerance::NO_AREA;
        if load.volume() > as_good && (load.volume() > best.volume() || attempt >= Rule::PLAIN) {
            best = load;
        }
    }
    best.into_packing()
}

/// A part of the bounds by chance: a range along each axis, upward to the top.
fn part(bounds: &Box3, numbers: &mut Sequence) -> Box3 {
    let mut range = |(low, high): (f64, f64)| {
        let length = 0.25 + 0.5 * numbers.share();
        let from = low + (high - low) * (1.0 - length) * numbers.share();
        (from, from + (high - low) * length)
    };
    let (x, y, z) = (range(bounds.x), range(bounds.y), range(bounds.z));
    let from = if numbers.below(2) == 0 { bounds.z.0 } else { z.0 };
    Box3 { x, y, z: (from, bounds.z.1) }
}

/// Numbers that look random and are always the same (xorshift, Marsaglia 2003).
#[derive(Debug, Clone, Copy)]
struct Sequence(u64);

impl Sequence {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// A share from 0 to 1.
    fn share(&mut self) -> f64 {
        const STEPS: u32 = 1 << 20;
        f64::from((self.next() >> 44) as u32) / f64::from(STEPS)
    }

    fn below(&mut self, end: usize) -> usize {
        usize::try_from((self.next() >> 33) % (end.max(1) as u64)).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests;
