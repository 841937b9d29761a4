//! The hole of an opening as a region.

use crate::base::tolerance::CHORD;
use crate::geometry::{Polygon, Region};
use crate::model::Opening;
use kurbo::{PathEl, Point, Shape};

/// The hole with its rounded corners.
pub(super) fn outline(opening: &Opening) -> Region {
    let mut points: Vec<Point> = Vec::new();
    kurbo::flatten(
        opening.hole().to_rounded_rect(opening.radius).path_elements(CHORD),
        CHORD,
        |element| match element {
            PathEl::MoveTo(point) | PathEl::LineTo(point) => points.push(point),
            _ => {}
        },
    );
    Region::new([&Polygon::new(points)])
}
