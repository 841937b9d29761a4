//! Where the pieces of a part stand, and which hand they are.

use crate::base::number::micrometres;
use crate::geometry::{Axis, Box3, Point3, Polygon, Prism};
use kurbo::Point;

/// A direction along an axis of the box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Toward {
    /// The axis.
    pub axis: Axis,
    /// Toward its high end.
    pub up: bool,
}

/// How a piece lies: which way its length and its width run from the datum corner, and where its face looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lies {
    /// From the datum corner along the length.
    pub length: Toward,
    /// From the datum corner along the width.
    pub width: Toward,
    /// From the board out of its machined face.
    pub face: Toward,
}

/// Which of two mirror images a piece is. Stand it up on the end that its datum corner is at, the machined face toward
/// you: the datum corner is at the lower left of a left-hand piece and at the lower right of a right-hand one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hand {
    /// The left side of a carcass, whose datum corner is its lower front one.
    Left,
    /// Its mirror image.
    Right,
}

impl Hand {
    /// `left` or `right`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

impl Lies {
    /// The hand of a piece that lies so.
    #[must_use]
    pub fn hand(&self) -> Hand {
        let order = [self.length.axis, self.width.axis, self.face.axis];
        let even = [[Axis::X, Axis::Y, Axis::Z], [Axis::Y, Axis::Z, Axis::X], [Axis::Z, Axis::X, Axis::Y]];
        let downs = [self.length, self.width, self.face].iter().filter(|toward| !toward.up).count();
        if even.contains(&order) == (downs % 2 == 0) { Hand::Right } else { Hand::Left }
    }
}

/// Where one piece stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// The piece, by its true outline; cut-outs and grooves are not taken out.
    pub solid: Prism,
    /// How it lies; `None` for a sloping board, whose length runs along the module.
    pub lies: Option<Lies>,
}

impl Place {
    /// The smallest box around the piece.
    #[must_use]
    pub fn bounds(&self) -> Box3 {
        self.solid.bounds()
    }

    /// A point of the box as seen on the piece's face: from the datum corner along length and width; `None` for a sloping
    /// board.
    #[must_use]
    pub fn on_face(&self, at: Point3) -> Option<(f64, f64)> {
        let lies = self.lies?;
        let bounds = self.bounds();
        let from = |toward: Toward| {
            let (low, high) = bounds.range(toward.axis);
            let mut point = at;
            let value = *point.along_mut(toward.axis);
            micrometres(if toward.up { value - low } else { high - value })
        };
        Some((from(lies.length), from(lies.width)))
    }

    /// What an outline on a piece's face takes of it between two depths below the face; `None` for a sloping board.
    ///
    #[must_use]
    pub fn carved(&self, outline: &Polygon, depth: (f64, f64)) -> Option<Prism> {
        let lies = self.lies?;
        let bounds = self.bounds();
        let from = |toward: Toward, along: f64| {
            let (low, high) = bounds.range(toward.axis);
            micrometres(if toward.up { low + along } else { high - along })
        };
        let inward = Toward { up: !lies.face.up, ..lies.face };
        let (a, b) = (from(inward, depth.0), from(inward, depth.1));
        let point = |point: &Point| {
            let mut at = Point3::default();
            for (toward, along) in [(lies.length, point.x), (lies.width, point.y)] {
                *at.along_mut(toward.axis) = from(toward, along);
            }
            at.across(lies.face.axis)
        };
        let outline = Polygon::new(outline.points().iter().map(point).collect());
        Some(Prism { axis: lies.face.axis, outline, low: a.min(b), high: a.max(b) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn toward(axis: Axis, up: bool) -> Toward {
        Toward { axis, up }
    }

    /// A carcass seen from its front (who stands there looks along y; x runs to the right hand): its left side has its
    /// face toward x, its right side against it, and the datum corner of both is the lower front one.
    #[test]
    fn the_left_side_of_a_carcass_is_left_hand() {
        let side = |up| Lies { length: toward(Axis::Z, true), width: toward(Axis::Y, true), face: toward(Axis::X, up) };
        assert_eq!((side(true).hand(), side(false).hand()), (Hand::Left, Hand::Right));
        let turned = Lies { length: toward(Axis::Z, false), width: toward(Axis::Y, false), ..side(true) };
        assert_eq!(turned.hand(), Hand::Left, "turned by half");
        let mirrored = Lies { width: toward(Axis::Y, false), ..side(true) };
        assert_eq!(mirrored.hand(), Hand::Right);
    }

    #[test]
    fn what_is_carved_lies_below_the_face() {
        let at = Box3 { x: (100.0, 115.0), y: (50.0, 450.0), z: (0.0, 800.0) };
        let lies = Lies { length: toward(Axis::Z, true), width: toward(Axis::Y, false), face: toward(Axis::X, true) };
        let place = Place { solid: Prism::from(at), lies: Some(lies) };
        let groove = Polygon::rect(kurbo::Rect::new(0.0, 20.0, 800.0, 26.0));
        let carved = place.carved(&groove, (0.0, 7.0)).unwrap().bounds();
        assert_eq!(carved, Box3 { x: (108.0, 115.0), y: (424.0, 430.0), z: (0.0, 800.0) });
    }
}
