//! The words that a field may have.

use crate::model::{HingeSide, Holds, OpeningKind, Wall, Word};

/// A set of words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Words {
    /// Names and the authors' own words.
    Any,
    /// Symbols: `group/name`.
    Symbol,
    /// The panels of the box.
    Wall,
    /// Kinds of openings.
    Opening,
    /// Sides of hinges.
    Hinge,
    /// Where a leaf goes.
    Swings,
    /// What is in a tank.
    Holds,
}

impl Words {
    /// All words of the set; nothing where any may stand.
    pub fn known(self) -> Vec<&'static str> {
        match self {
            Self::Any | Self::Symbol => Vec::new(),
            Self::Wall => {
                [Wall::Front, Wall::Rear, Wall::Left, Wall::Right, Wall::Roof, Wall::Floor].map(Wall::name).to_vec()
            }
            Self::Opening => OpeningKind::names(),
            Self::Hinge => HingeSide::names(),
            Self::Swings => vec!["in", "out", "no"],
            Self::Holds => Holds::names(),
        }
    }
}
