//! What is looked at.

use crate::geometry::polygon::Polygon;
use crate::geometry::prism::Prism;

/// A body to be seen: a prism with holes right through it and lines drawn on its two flat ends.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// Its shape.
    pub prism: Prism,
    /// Holes along the prism's axis, in the coordinates of its outline.
    pub holes: Vec<Polygon>,
    /// Closed lines on the prism's end, the high one where the flag says so.
    pub marks: Vec<(bool, Polygon)>,
}

impl From<Prism> for Body {
    fn from(prism: Prism) -> Self {
        Self { prism, holes: Vec::new(), marks: Vec::new() }
    }
}
