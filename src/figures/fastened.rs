//! What fixes each module to what is around it: screws into inserts with their packers, screws to its neighbours.

use super::joints::{Anchor, Anchored, Joints};
use crate::geometry::{Axis, Box3};
use crate::joints::{CONNECTING_SCREW, INSERT_SCREW, PACKER};
use crate::model::{Hardware, Model, Wall};
use crate::shell::inserts::Inserts;
use crate::source::Span;
use std::collections::BTreeMap;

/// Connecting screws from the edges of what two modules share, and most from one to the next, mm. Common practice, no source.
const CONNECTED: (f64, f64) = (80.0, 400.0);
/// Thinner gaps have no packer, mm.
const LEAST_PACKER: f64 = 0.5;

/// Something that is bought to fix a module to what is around it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fastened {
    /// What it is fixed to.
    pub to: Anchor,
    /// What is bought; two modules that are joined have it once, with the first of them.
    pub bought: Hardware,
}

/// What fixes each module of a layout, in file order.
pub(super) fn fastened(model: &Model, inserts: &Inserts, joints: &Joints) -> Vec<Vec<Fastened>> {
    let each = joints.anchored.iter().enumerate();
    let one = |(index, anchored): (usize, &Vec<Anchored>)| {
        [in_panels(model, index, inserts, anchored), at_neighbours(model, index, anchored)].concat()
    };
    each.map(one).collect()
}

fn in_panels(model: &Model, index: usize, inserts: &Inserts, anchored: &[Anchored]) -> Vec<Fastened> {
    let Some(module) = model.modules.get(index) else { return Vec::new() };
    let mut counts: BTreeMap<Wall, u32> = BTreeMap::new();
    for insert in inserts.placed.iter().filter(|insert| insert.holds == module.name) {
        *counts.entry(insert.wall).or_default() += 1;
    }
    let one = |(wall, count): (Wall, u32)| {
        let to = Anchor::Panel(wall);
        let screws = Fastened { to, bought: bought(INSERT_SCREW, count, None, module.place_span) };
        let gap = anchored.iter().filter(|one| one.to == to);
        let gap = gap.map(|one| one.packer).fold(0.0, f64::max);
        let packers = (gap >= LEAST_PACKER).then(|| bought(PACKER, count, Some(gap), module.place_span));
        [Some(screws), packers.map(|bought| Fastened { to, bought })]
    };
    counts.into_iter().flat_map(one).flatten().collect()
}

fn at_neighbours(model: &Model, index: usize, anchored: &[Anchored]) -> Vec<Fastened> {
    let mut others: Vec<usize> = anchored
        .iter()
        .filter_map(|one| match one.to {
            Anchor::Module(other) if other > index => Some(other),
            _ => None,
        })
        .collect();
    others.sort_unstable();
    others.dedup();
    let one = |other: usize| {
        let count = connecting(model, index, other)?;
        let span = model.modules.get(index)?.place_span;
        Some(Fastened { to: Anchor::Module(other), bought: bought(CONNECTING_SCREW, count, None, span) })
    };
    others.into_iter().filter_map(one).collect()
}

/// How many screws join two modules whose rooms lie side by side; none where they stand one on the other.
fn connecting(model: &Model, one: usize, other: usize) -> Option<u32> {
    let (a, b): (Box3, Box3) = (model.modules.get(one)?.extent, model.modules.get(other)?.extent);
    let across = [Axis::X, Axis::Y].into_iter().max_by(|x, y| a.gap(&b, *x).total_cmp(&a.gap(&b, *y)))?;
    let shared = |axis: Axis| a.range(axis).1.min(b.range(axis).1) - a.range(axis).0.max(b.range(axis).0);
    let (level, tall) = (shared(across.third(Axis::Z)), shared(Axis::Z));
    (level > 0.0 && tall > 0.0).then(|| screws(level.max(tall), level.min(tall)))
}

/// Screws along both long edges of what is shared, along its middle where it is narrow.
fn screws(long: f64, short: f64) -> u32 {
    let (edge, apart) = CONNECTED;
    let lines = if short > 2.0 * edge { 2 } else { 1 };
    // At most a hundred metres in steps of 400 mm.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let spans = ((long - 2.0 * edge) / apart).ceil().max(0.0) as u32;
    lines * (spans + 1)
}

fn bought(name: &str, count: u32, size: Option<f64>, span: Span) -> Hardware {
    Hardware { name: name.to_owned(), count, size, force: None, span }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: of 850 mm 80 at each end leave 690, two spans of 345: three screws along each edge of 560 mm; a strip of 100 mm has
    /// one line, one of 150 x 100 one screw.
    #[test]
    fn neighbours_are_joined_along_their_edges() {
        assert_eq!([screws(850.0, 560.0), screws(850.0, 100.0), screws(150.0, 100.0)], [6, 3, 1]);
    }
}
