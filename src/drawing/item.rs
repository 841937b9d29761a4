//! The closed list of drawing items.

use super::line::{Fill, LineClass};
use kurbo::{BezPath, Point};

/// Which point of a text its position is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Left end of the base line.
    Start,
    /// Middle of the base line.
    Middle,
    /// Right end of the base line.
    End,
}

impl Align {
    /// The share of a text's width that lies before its position.
    #[must_use]
    pub fn share(self) -> f64 {
        match self {
            Self::Start => 0.0,
            Self::Middle => 0.5,
            Self::End => 1.0,
        }
    }
}

/// A line, an area or both.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Shape in paper mm.
    pub shape: BezPath,
    /// How it is drawn, if at all.
    pub line: Option<LineClass>,
    /// How it is filled, if at all (even-odd).
    pub fill: Option<Fill>,
}

/// One line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Position on the base line, paper mm.
    pub at: Point,
    /// The words.
    pub words: String,
    /// Height of capital letters, mm (ISO 3098: 1.8, 2.5, 3.5, 5, 7).
    pub height: f64,
    /// What `at` is.
    pub align: Align,
    /// Turn about `at`, degrees counter-clockwise.
    pub turn: f64,
    /// White instead of black.
    pub inverse: bool,
}

/// Items that belong together, with a name that people can find in the output.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// A plain name: letters, digits, hyphens. Unique in its layer.
    pub id: String,
    /// What it is, in words.
    pub title: String,
    /// The items.
    pub items: Vec<Item>,
    /// Id of the group that it leads to, on this sheet or another.
    pub link: Option<String>,
}

/// All that a drawing can hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// A line or area.
    Path(Path),
    /// Text.
    Text(Text),
    /// Items with a name.
    Group(Group),
}

impl Item {
    /// A line.
    #[must_use]
    pub fn line(shape: BezPath, line: LineClass) -> Self {
        Self::Path(Path { shape, line: Some(line), fill: None })
    }

    /// A straight line.
    #[must_use]
    pub fn segment(a: Point, b: Point, line: LineClass) -> Self {
        let mut shape = BezPath::new();
        shape.move_to(a);
        shape.line_to(b);
        Self::line(shape, line)
    }

    /// A filled area with an edge.
    #[must_use]
    pub fn area(shape: BezPath, line: Option<LineClass>, fill: Fill) -> Self {
        Self::Path(Path { shape, line, fill: Some(fill) })
    }

    /// A line of text, not turned.
    #[must_use]
    pub fn text(at: Point, words: impl Into<String>, height: f64, align: Align) -> Self {
        Self::Text(Text { at, words: words.into(), height, align, turn: 0.0, inverse: false })
    }
}
