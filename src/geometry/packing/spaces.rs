//! Free room as maximal empty boxes: each reaches as far as it can in every direction; they overlap each other.

use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::prism::{Axis, Box3};

/// Lengths that differ by less count as equal here, so that what is placed stays within the tolerance of lengths.
pub(super) const HAIR: f64 = SAME_LENGTH / 2.0;
/// Most boxes kept; the smallest are dropped beyond it.
const MOST: usize = 600;

/// The maximal empty boxes.
#[derive(Debug, Clone)]
pub(super) struct Spaces {
    list: Vec<Box3>,
    /// What is thinner than this in one direction is dropped.
    least: f64,
}

const AXES: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];

/// Whether two boxes share more than a hair.
pub(super) fn meet(a: &Box3, b: &Box3) -> bool {
    let meets = |a: (f64, f64), b: (f64, f64)| a.1.min(b.1) - a.0.max(b.0) > HAIR;
    meets(a.x, b.x) && meets(a.y, b.y) && meets(a.z, b.z)
}

fn holds(outer: &Box3, inner: &Box3) -> bool {
    let within = |a: (f64, f64), b: (f64, f64)| a.0 <= b.0 + HAIR && b.1 <= a.1 + HAIR;
    within(outer.x, inner.x) && within(outer.y, inner.y) && within(outer.z, inner.z)
}

impl Spaces {
    /// One empty box less those taken; what is thinner than `least` is of no use.
    pub fn new(bounds: Box3, taken: &[Box3], least: f64) -> Self {
        let mut spaces = Self { list: vec![bounds], least };
        taken.iter().for_each(|taken| spaces.take(taken));
        spaces
    }

    /// The boxes.
    pub fn list(&self) -> &[Box3] {
        &self.list
    }

    /// Takes a box out of the free room.
    pub fn take(&mut self, taken: &Box3) {
        let (cut, mut kept): (Vec<Box3>, Vec<Box3>) = self.list.iter().partition(|space| meet(space, taken));
        let mut rest: Vec<Box3> = cut.iter().flat_map(|space| self.around(space, taken)).collect();
        rest.sort_by(|a, b| b.volume().total_cmp(&a.volume()));
        for space in rest {
            if !kept.iter().any(|known| holds(known, &space)) {
                kept.push(space);
            }
        }
        if kept.len() > MOST {
            kept.sort_by(|a, b| b.volume().total_cmp(&a.volume()));
            kept.truncate(MOST);
        }
        self.list = kept;
    }

    /// What is left of a space on the six sides of a box.
    fn around(&self, space: &Box3, taken: &Box3) -> Vec<Box3> {
        let mut found = Vec::with_capacity(6);
        for axis in AXES {
            let ((low, high), (from, to)) = (space.range(axis), taken.range(axis));
            for range in [(low, from), (to, high)] {
                if range.1 - range.0 >= self.least - HAIR && range.1 - range.0 > HAIR {
                    found.push(space.with(axis, range));
                }
            }
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cube(low: f64, high: f64) -> Box3 {
        Box3 { x: (low, high), y: (low, high), z: (low, high) }
    }

    #[test]
    fn a_box_in_a_corner_leaves_three_and_one_in_the_middle_six() {
        assert_eq!(Spaces::new(cube(0.0, 10.0), &[cube(0.0, 4.0)], 1.0).list().len(), 3);
        assert_eq!(Spaces::new(cube(0.0, 10.0), &[cube(3.0, 6.0)], 1.0).list().len(), 6);
        assert!(Spaces::new(cube(0.0, 10.0), &[cube(0.5, 9.5)], 1.0).list().is_empty());
        assert_eq!(Spaces::new(cube(0.0, 10.0), &[cube(10.0, 12.0)], 1.0).list(), [cube(0.0, 10.0)]);
    }
}
