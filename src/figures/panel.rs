//! Openings as seen square on to their panel: the clear hole, and what stands before it inside.
//!
//! Coordinates are those of an opening: along its panel, then up it (along x and y in roof and floor).

use super::around::{around, fixed};
use super::thing::Thing;
use crate::base::tolerance::{CHORD, GREATEST_LENGTH};
use crate::geometry::{Box3, Polygon, Region};
use crate::model::{Arrangement, Model, Opening, OpeningKind, Wall};
use kurbo::{PathEl, Point, Rect, Shape, Size};

/// Something that stands before an opening.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Before {
    /// What it is.
    pub thing: Thing,
    /// The room it takes, seen square on.
    pub shadow: Vec<Polygon>,
}

/// The hole without its lining.
pub(crate) fn clear(opening: &Opening) -> Rect {
    opening.hole().inset(-opening.lining)
}

/// The hole with its rounded corners.
pub(crate) fn outline(opening: &Opening) -> Region {
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

/// The range within `reach` inward of the panel of an opening; under a curved roof from its lowest place over the hole.
fn layer(model: &Model, opening: &Opening, reach: f64) -> (f64, f64) {
    let space = &model.space;
    match opening.wall {
        Wall::Front | Wall::Left | Wall::Floor => (0.0, reach),
        Wall::Rear => (space.length - reach, space.length),
        Wall::Right => (space.width - reach, space.width),
        Wall::Roof => (space.roof.least_over(opening.up.0, opening.up.1).0 - reach, GREATEST_LENGTH),
    }
}

/// The room within `reach` before a part of a panel.
pub(crate) fn room(model: &Model, opening: &Opening, part: Rect, reach: f64) -> Box3 {
    let axis = opening.wall.across();
    let (first, second) = axis.plane();
    let layer = layer(model, opening, reach);
    Box3::default().with(first, (part.x0, part.x1)).with(second, (part.y0, part.y1)).with(axis, layer)
}

/// Everything that stands within `reach` before a part of an opening's panel.
pub(crate) fn before(
    model: &Model,
    arrangement: &Arrangement,
    opening: &Opening,
    part: Rect,
    reach: f64,
) -> Vec<Before> {
    let (low, high) = layer(model, opening, reach);
    // What is carried behind a hatch is there to be reached through it.
    let carried = opening.kind == OpeningKind::Hatch && !opening.escape;
    let all = if carried { fixed } else { around };
    let near = all(model, arrangement, "", &room(model, opening, part, reach));
    let shadows = near.into_iter().map(|(thing, prism)| {
        let shadow = prism.shadow(opening.wall.across(), low, high).into_iter();
        Before { thing, shadow: shadow.filter(|polygon| overlaps(polygon.bounds(), part)).collect() }
    });
    shadows.filter(|before| !before.shadow.is_empty()).collect()
}

fn overlaps(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// The largest clear rectangle of an opening in the proportion of `narrow` x `long`, either way round; with `true` where
/// the longer side lies along the panel.
pub(crate) fn passage(clear: Rect, before: &[Before], narrow: f64, long: f64) -> Option<(Rect, bool)> {
    let shadows: Vec<Polygon> = before.iter().flat_map(|before| before.shadow.iter().cloned()).collect();
    let fits = |lying: bool| {
        let shape = if lying { Size::new(long, narrow) } else { Size::new(narrow, long) };
        let rect = crate::geometry::inscribed(clear, &shadows, shape)?;
        Some(((rect.width() / shape.width).min(rect.height() / shape.height), rect, lying))
    };
    let best = [fits(false), fits(true)].into_iter().flatten().reduce(|a, b| if b.0 > a.0 { b } else { a });
    best.map(|(_, rect, lying)| (rect, lying))
}

/// "`a` and `b`", of the first few.
pub(crate) fn named(before: &[Before]) -> String {
    let mut names: Vec<&str> = before.iter().map(|before| before.thing.says.as_str()).collect();
    names.dedup();
    match names.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [one, other] => format!("{one} and {other}"),
        [one, other, rest @ ..] => format!("{one}, {other} and {} more", rest.len()),
    }
}
