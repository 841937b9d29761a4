//! Boxes to be packed, and where they came to stand.

use crate::geometry::prism::Box3;

/// Least share of a box's base that something must carry (common practice, no source).
pub const SUPPORT: f64 = 0.6;

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

    pub(super) fn volume(&self) -> f64 {
        self.size.iter().product()
    }
}
