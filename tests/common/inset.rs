//! Another way to find whether a disc passes: inset the region, and look which parts hang together.

use boxwright::geometry::{Polygon, Region};
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};
use kurbo::Point;

/// Whether a disc of this radius gets from `a` to `b`: the region is inset with round corners of fine steps, and both ends
/// must lie in one part.
pub fn passes(region: &Region, radius: f64, a: Point, b: Point) -> bool {
    let contours: Vec<Vec<[f64; 2]>> =
        region.contours().map(|contour| contour.iter().map(|p| [p.x, p.y]).collect()).collect();
    let style = OutlineStyle::new(-radius).line_join(LineJoin::Round(0.02));
    contours.outline(&style).iter().any(|part| {
        let rings: Vec<Polygon> = part
            .iter()
            .map(|ring| Polygon::new(ring.iter().map(|p| Point::new(p[0], p[1])).collect::<Vec<_>>()))
            .collect();
        let Some((outer, holes)) = rings.split_first() else { return false };
        let part = Region::new([outer]).subtract(&Region::new(holes));
        part.contains(a) && part.contains(b)
    })
}
