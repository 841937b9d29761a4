//! Taking apart: which unit leaves next, and which way.

use super::unit::{Turn, Unit};
use super::ways::{DIRECTIONS, Ways};
use crate::geometry::Axis;
use crate::joints::pieces::middle;
use crate::model::{Joint, Meeting, Toward, Wall};

/// In larger modules it is not asked whether what is left still hangs together.
const MOST_ASKED: usize = 200;
/// What ends no higher than this above the module's lowest end stands by itself, mm: plinths, battens, a bed laid on trestles.
const STANDS: f64 = 200.0;
/// A drawer leaves the way it opens.
const OPENS: f64 = 1000.0;
/// Nothing comes from below where another way is as good.
const BELOW: f64 = 0.5;
/// Boards leave through their faces, and shelves to the front, where no joint says more.
const USUAL: f64 = 2.5;

/// A unit that has been taken away.
#[derive(Debug, Clone, Copy)]
pub(super) struct Taken {
    pub unit: usize,
    /// The way it left, which is the side it comes from; `None` for the one that was left.
    pub from: Option<Toward>,
}

/// The order of putting together.
pub(super) struct Order {
    pub taken: Vec<Taken>,
    /// Units that no straight way leads out of, each other in the way.
    pub stuck: Vec<usize>,
}

/// What decides which unit leaves first: its turn, whether the rest still hangs together, not downward, like the one before, height.
type Key = (Turn, bool, bool, bool, i64);

struct Search<'a> {
    units: &'a [Unit],
    ways: &'a Ways,
    /// Of each body its unit.
    of: Vec<Option<usize>>,
    /// Pairs of units that joints hold, with the joint.
    ties: Vec<(usize, usize, &'a Joint)>,
    there: Vec<bool>,
    /// Units that stand by themselves.
    low: Vec<bool>,
    front: Option<Toward>,
}

/// The order in which units are put together.
pub(super) fn order(units: &[Unit], ways: &Ways, joints: &[Joint], faces: Wall) -> Order {
    let mut of = vec![None; ways.len()];
    for (index, unit) in units.iter().enumerate() {
        unit.bodies.iter().for_each(|body| of.get_mut(*body).into_iter().for_each(|of| *of = Some(index)));
    }
    let unit_of = |body: usize| of.get(body).copied().flatten();
    let ties = joints.iter().filter_map(|joint| {
        let (one, other) = ways.held(joint)?;
        let (one, other) = (unit_of(one)?, unit_of(other)?);
        (one != other).then_some((one, other, joint))
    });
    let ties = ties.collect();
    let (there, low) = (vec![true; units.len()], low(units, ways));
    let mut search = Search { units, ways, of, ties, there, low, front: front(faces) };
    let mut left = units.len();
    let mut taken: Vec<Taken> = Vec::new();
    while left > 1 {
        let Some(next) = search.next(taken.last()) else { break };
        search.there.get_mut(next.unit).into_iter().for_each(|there| *there = false);
        taken.push(next);
        left -= 1;
    }
    let rest: Vec<usize> = (0..units.len()).filter(|unit| search.is_there(*unit)).collect();
    let stuck = if rest.len() > 1 { rest.clone() } else { Vec::new() };
    taken.extend(rest.into_iter().map(|unit| Taken { unit, from: None }));
    taken.reverse();
    Order { taken, stuck }
}

/// Which units end a little above the lowest end of all.
fn low(units: &[Unit], ways: &Ways) -> Vec<bool> {
    let ends = |unit: &Unit| {
        let bounds = unit.bodies.iter().map(|body| ways.bounds(*body)).reduce(|a, b| a.union(&b)).unwrap_or_default();
        bounds.z
    };
    let lowest = units.iter().map(|unit| ends(unit).0).fold(f64::MAX, f64::min);
    units.iter().map(|unit| ends(unit).1 <= lowest + STANDS).collect()
}

/// The way out to the front of a module.
fn front(faces: Wall) -> Option<Toward> {
    match faces {
        Wall::Front => Some(Toward { axis: Axis::X, up: false }),
        Wall::Rear => Some(Toward { axis: Axis::X, up: true }),
        Wall::Left => Some(Toward { axis: Axis::Y, up: false }),
        Wall::Right => Some(Toward { axis: Axis::Y, up: true }),
        Wall::Roof | Wall::Floor => None,
    }
}

impl Search<'_> {
    fn is_there(&self, unit: usize) -> bool {
        self.there.get(unit).copied().unwrap_or(false)
    }

    /// The unit to take away next; `None` where none can leave.
    fn next(&self, last: Option<&Taken>) -> Option<Taken> {
        let there = || (0..self.units.len()).filter(|unit| self.is_there(*unit));
        let whole = self.groups(None);
        let mut best: Option<(Key, Taken)> = None;
        for unit in there() {
            let (Some(way), Some(of)) = (self.way(unit), self.units.get(unit)) else { continue };
            let alike = last.is_some_and(|last| {
                self.units.get(last.unit).is_some_and(|one| one.name == of.name && one.turn == of.turn)
                    && last.from == Some(way)
            });
            let holds = of.turn != Turn::Fixed || self.groups(Some(unit)) <= whole;
            let rises = way != DIRECTIONS[5];
            let key = (of.turn, holds, rises, alike, self.height(of));
            if best.as_ref().is_none_or(|(known, _)| key > *known) {
                best = Some((key, Taken { unit, from: Some(way) }));
            }
        }
        best.map(|(_, taken)| taken)
    }

    /// How high the middle of a unit is, in whole millimetres.
    fn height(&self, unit: &Unit) -> i64 {
        let bounds = unit.bodies.iter().map(|body| self.ways.bounds(*body)).reduce(|a, b| a.union(&b));
        // Lengths are bounded, so millimetres are far within the range.
        #[allow(clippy::cast_possible_truncation)]
        bounds.map_or(0, |bounds| middle(bounds.z).round() as i64)
    }

    /// The best of the ways that are free.
    fn way(&self, unit: usize) -> Option<Toward> {
        let own = self.units.get(unit)?;
        let blocks = |by: &usize| {
            let of = self.of.get(*by).copied().flatten();
            of.is_some_and(|of| of != unit && self.is_there(of))
        };
        let free =
            |index: &usize| !own.bodies.iter().any(|body| self.ways.in_the_way(*body, *index).iter().any(blocks));
        let all = (0..DIRECTIONS.len()).filter(free).filter_map(|index| DIRECTIONS.get(index).copied());
        let mut best: Option<(f64, Toward)> = None;
        for toward in all {
            let worth = self.worth(unit, own, toward);
            if best.is_none_or(|(most, _)| worth > most) {
                best = Some((worth, toward));
            }
        }
        best.map(|(_, toward)| toward)
    }

    /// How well a way out suits a unit: out of its joints, the way it opens, through the face of a leaf.
    fn worth(&self, unit: usize, own: &Unit, toward: Toward) -> f64 {
        if own.opens.is_some() {
            return if own.opens == Some(toward) { OPENS } else { 0.0 };
        }
        let mut worth = if toward == DIRECTIONS[5] { -BELOW } else { 0.0 };
        for (one, other, joint) in &self.ties {
            let (first, there) = match () {
                () if *one == unit => (true, self.is_there(*other)),
                () if *other == unit => (false, self.is_there(*one)),
                () => continue,
            };
            let out = Toward { up: joint.across.up != first, ..joint.across };
            let pulls = there && out == toward && !matches!(joint.meeting, Meeting::Hinged | Meeting::Carried);
            worth += if pulls { 1.0 + joint.points.len() as f64 } else { 0.0 };
        }
        let to_front = Some(toward) == self.front;
        match own.turn {
            Turn::Leaf => worth + if self.flat(own) == toward.axis { OPENS } else { 0.0 },
            Turn::Loose => worth + if to_front { OPENS } else { 0.0 },
            Turn::Bought => worth,
            _ => worth + if to_front { USUAL / 2.0 } else { 0.0 },
        }
    }

    /// The axis that a unit is thinnest along.
    fn flat(&self, unit: &Unit) -> Axis {
        let bounds = unit.bodies.first().map(|body| self.ways.bounds(*body)).unwrap_or_default();
        let size = |axis: Axis| bounds.range(axis).1 - bounds.range(axis).0;
        let thinner = |a: Axis, b: Axis| if size(b) < size(a) { b } else { a };
        thinner(thinner(Axis::Z, Axis::Y), Axis::X)
    }

    /// In how many groups the fixed units that are there hang together, less one of them; all that stand by themselves are one.
    fn groups(&self, without: Option<usize>) -> usize {
        if self.units.len() > MOST_ASKED {
            return 0;
        }
        let fixed = |unit: usize| self.units.get(unit).is_some_and(|one| one.turn == Turn::Fixed);
        let stands = |unit: usize| self.is_there(unit) && Some(unit) != without && fixed(unit);
        let mut group: Vec<usize> = (0..self.units.len()).collect();
        let root = |group: &[usize], mut at: usize| {
            while let Some(up) = group.get(at).copied().filter(|up| *up != at) {
                at = up;
            }
            at
        };
        let mut count = (0..self.units.len()).filter(|unit| stands(*unit)).count();
        let low: Vec<usize> =
            (0..self.units.len()).filter(|unit| stands(*unit) && self.low.get(*unit) == Some(&true)).collect();
        let ground = low.iter().copied().zip(low.iter().copied().skip(1));
        let ties = self.ties.iter().map(|(one, other, _)| (*one, *other));
        for (one, other) in ties.filter(|(one, other)| stands(*one) && stands(*other)).chain(ground) {
            let (a, b) = (root(&group, one), root(&group, other));
            if a != b {
                group.get_mut(a.max(b)).into_iter().for_each(|up| *up = a.min(b));
                count -= 1;
            }
        }
        count
    }
}
