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
mod parcel;
mod room;
mod sequence;
mod spaces;

use super::prism::{Box3, Prism};
use super::roof::Roof;
use super::volume::free_volume;
use load::{Load, Rule};
pub use parcel::{Packing, Parcel, SUPPORT, Stands, Stowed};
use room::Room;
use sequence::Sequence;

/// Steps allowed beside those for each box, and for each box; a step is about a look at one place for one box.
const STEPS: usize = 20_000;
const STEPS_EACH: usize = 1500;
/// One in so many steps where the boxes have more volume than the space, so that some are left over in any case.
const HOPELESS: usize = 10;
/// Tries, at most.
const TRIES: usize = 2000;
/// One in so many tries with chance begins with an empty space; the others empty a part of the best load.
const FRESH: usize = 8;

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

#[cfg(test)]
mod tests;
