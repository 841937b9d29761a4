//! Things that swing or slide.

use crate::geometry::{Axis, Box3, Leaf, Prism};
use crate::source::Span;
use kurbo::Point;

/// A hinged leaf: a rectangle across `axis`, turning about the hinge.
#[derive(Debug, Clone, PartialEq)]
pub struct Swing {
    /// Direction of the hinge line.
    pub axis: Axis,
    /// The hinge, in the face that the leaf opens towards, across the axis (coordinates as in
    /// [`crate::geometry::Prism`]).
    pub hinge: Point,
    /// Range of the leaf along the axis.
    pub along: (f64, f64),
    /// From the hinge to the free edge, mm.
    pub length: f64,
    /// Leaf thickness, behind the face that it opens towards, mm.
    pub thickness: f64,
    /// Direction of the shut leaf from the hinge, degrees counter-clockwise from the plane's first axis.
    pub shut: f64,
    /// How far it opens, degrees; negative turns clockwise.
    pub opens: f64,
}

/// A drawer, pull-out or lift: a box that travels along an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Slide {
    /// The body when shut.
    pub body: Box3,
    /// Direction of travel.
    pub axis: Axis,
    /// Travel, mm; negative goes down the axis.
    pub travel: f64,
    /// The entry of the symbol's moves that must be open first, as a door before it.
    pub after: Option<String>,
    /// It leaves the box through an opening.
    pub through: bool,
}

impl Slide {
    /// Whether a move of its module, by name, must be open first.
    #[must_use]
    pub fn is_after(&self, name: &str) -> bool {
        let counted = |after: &str| {
            let count = name.strip_prefix(after).and_then(|rest| rest.strip_prefix(' '));
            count.is_some_and(|count| !count.is_empty() && count.chars().all(|sign| sign.is_ascii_digit()))
        };
        self.after.as_deref().is_some_and(|after| after == name || counted(after))
    }
}

/// How a move goes.
#[derive(Debug, Clone, PartialEq)]
pub enum MoveKind {
    /// Hinged.
    Swing(Swing),
    /// Sliding.
    Slide(Slide),
}

/// Something of a module that opens.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// Name in the symbol, with the count where `each` made several: `drawer 2`.
    pub name: String,
    /// How it goes.
    pub kind: MoveKind,
    /// A door that people walk through or use with the whole body.
    pub walk_through: bool,
    /// Line of the symbol.
    pub span: Span,
}

impl Move {
    /// The room that it takes when it is shut.
    #[must_use]
    pub fn shut(&self) -> Prism {
        match &self.kind {
            MoveKind::Slide(slide) => slide.body.into(),
            MoveKind::Swing(Swing { axis, hinge, along, length, thickness, shut, opens }) => {
                let leaf = Leaf { hinge: *hinge, shut: *shut, opens: *opens, length: *length, thickness: *thickness };
                Prism { axis: *axis, outline: leaf.outline(0.0), low: along.0, high: along.1 }
            }
        }
    }
}
