//! Where a piece stands in its module, in the words of who stands before it.

use crate::base::number::{micrometres, trimmed};
use crate::geometry::Box3;
use crate::model::{Module, Wall};

/// Where one piece of a row stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// Its module.
    pub module: String,
    /// From the left end, the front and the floor of the module's room to the piece, mm.
    pub from: [f64; 3],
}

impl Stand {
    /// `left 0, front 15, up 60`.
    #[must_use]
    pub fn words(&self) -> String {
        let [left, front, up] = self.from.map(|mm| trimmed(mm, 1));
        format!("left {left}, front {front}, up {up}")
    }
}

/// A box in the directions of who stands before the module: along its front to the right hand, into it, up.
#[must_use]
pub fn before(module: &Module, at: &Box3) -> Box3 {
    let back = |(low, high): (f64, f64)| (-high, -low);
    let (x, y) = match module.faces {
        Wall::Front => (back(at.y), at.x),
        Wall::Rear => (at.y, back(at.x)),
        Wall::Left => (at.x, at.y),
        _ => (back(at.x), back(at.y)),
    };
    Box3 { x, y, z: at.z }
}

/// Where a piece stands in its module.
#[must_use]
pub fn stand(module: &Module, piece: &Box3) -> Stand {
    let (room, piece) = (before(module, &module.extent), before(module, piece));
    let from = [piece.x.0 - room.x.0, piece.y.0 - room.y.0, piece.z.0 - room.z.0];
    Stand { module: module.name.clone(), from: from.map(micrometres) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joinery::fixture;

    /// Who stands before a module that faces the right wall looks at the left one, so the rear of the box is at the left
    /// hand.
    #[test]
    fn left_is_the_left_hand_of_who_stands_before_it() {
        let module = fixture::module("galley", vec![]);
        let at = Box3 { x: (1100.0, 1200.0), y: (500.0, 560.0), z: (60.0, 75.0) };
        assert_eq!(module.faces, Wall::Right);
        assert_eq!(stand(&module, &at).from, [0.0, 0.0, 60.0]);
        assert_eq!(stand(&module, &at).words(), "left 0, front 0, up 60");
    }
}
