//! What one general plan is about: the layout in one arrangement, placed on paper.

use crate::model::{Arrangement, BoxSpace, Model, Wall};
use crate::views::kit::placement::Placement;
use kurbo::{Point, Rect};

/// Height above the floor at which plans are cut, mm.
pub(in crate::views) const CUT: f64 = 1000.0;

/// A layout in one arrangement, placed.
#[derive(Debug, Clone, Copy)]
pub(in crate::views) struct Scene<'a> {
    /// The layout.
    pub model: &'a Model,
    /// The arrangement.
    pub arrangement: &'a Arrangement,
    /// Where it stands on paper.
    pub place: Placement,
    /// Chains beside the usual ones.
    pub chains: Extra,
}

/// Dimension chains that are left out where they keep a plan from fitting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::views) struct Extra {
    /// Hatches in the roof, along the box.
    pub roof_along: bool,
    /// Hatches in the roof, across the box.
    pub roof_across: bool,
    /// Depths and aisle across the box.
    pub aisle: bool,
}

impl Extra {
    /// None of them.
    pub const NONE: Self = Self { roof_along: false, roof_across: false, aisle: false };
    /// From all to none, the best first.
    pub const FROM_ALL: [Self; 4] = [
        Self { roof_along: true, roof_across: true, aisle: true },
        Self { roof_along: true, roof_across: false, aisle: true },
        Self { roof_along: false, roof_across: false, aisle: true },
        Self::NONE,
    ];

    /// It asks for hatches in the roof.
    pub fn roof(self) -> bool {
        self.roof_along || self.roof_across
    }
}

impl Scene<'_> {
    /// The inside of the box on paper.
    pub fn inside(&self) -> Rect {
        self.place.rect(inside(&self.model.space))
    }

    /// The outside of the shell on paper.
    pub fn outside(&self) -> Rect {
        let wall = self.place.length(self.model.space.walls.thickness);
        self.inside().inflate(wall, wall)
    }
}

/// The inside of the box in plan, mm.
pub(in crate::views) fn inside(space: &BoxSpace) -> Rect {
    Rect::new(0.0, 0.0, space.length, space.width)
}

/// A point of a wall: `along` it as openings count, `off` inward from the inner face (negative for the shell), mm.
pub(in crate::views) fn wall_point(space: &BoxSpace, wall: Wall, along: f64, off: f64) -> Point {
    match wall {
        Wall::Front => Point::new(off, along),
        Wall::Rear => Point::new(space.length - off, along),
        Wall::Left | Wall::Floor | Wall::Roof => Point::new(along, off),
        Wall::Right => Point::new(along, space.width - off),
    }
}
