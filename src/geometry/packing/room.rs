//! The true shape of a space as boxes that are taken from its bounds, and as level faces that carry.

use super::parcel::Parcel;
use super::spaces::{HAIR, Spaces};
use crate::base::number::micrometres;
use crate::geometry::convex::{Convex, Slot, pieces};
use crate::geometry::overlap::common_bounds;
use crate::geometry::{Axis, Box3, Polygon, Prism, Roof};
use kurbo::Rect;

/// Most heights at which sloped faces are cut exactly.
const MOST_LEVELS: usize = 48;
/// Strips that stand for a slanted outline in plan.
const STRIPS: f64 = 32.0;

/// A space to pack.
#[derive(Debug)]
pub(super) struct Room {
    /// Its bounds.
    pub bounds: Box3,
    /// What is taken from them.
    pub taken: Vec<Box3>,
    /// Level faces that carry: height and rectangle.
    pub floors: Vec<(f64, Rect)>,
    /// What is free while nothing is placed.
    pub spaces: Spaces,
}

impl Room {
    /// The room of a space outside all of `minus` and below `roof`.
    pub fn new(space: &Prism, minus: &[&Prism], roof: &Roof, parcels: &[Parcel]) -> Self {
        let bounds = space.bounds();
        let around = around(space);
        let near = minus.iter().copied().filter(|prism| touches(&prism.bounds(), &bounds));
        let taken: Vec<&Prism> = near.chain(&around).collect();
        let mut floors = vec![(bounds.z.0, bounds.plan())];
        taken.iter().for_each(|prism| floors.extend(tops(prism)));
        let levels = levels(bounds.z, &floors, parcels);
        let mut boxes: Vec<Box3> = taken.iter().flat_map(|prism| covered(prism, &levels)).collect();
        boxes.extend(above(roof, &bounds, &levels));
        boxes.retain(|taken| common_bounds(taken, &bounds).is_some());
        let least = parcels.iter().flat_map(|parcel| parcel.size).fold(f64::INFINITY, f64::min);
        let spaces = Spaces::new(bounds, &boxes, least);
        Self { bounds, taken: boxes, floors, spaces }
    }
}

/// Whether two boxes meet or touch.
fn touches(a: &Box3, b: &Box3) -> bool {
    let near = |a: (f64, f64), b: (f64, f64)| a.0 <= b.1 + HAIR && b.0 <= a.1 + HAIR;
    near(a.x, b.x) && near(a.y, b.y) && near(a.z, b.z)
}

/// What of the bounds of a prism is not in it.
fn around(space: &Prism) -> Vec<Prism> {
    let bounds = space.outline.bounds();
    let mut found: Vec<Polygon> = Vec::new();
    let mut last: Option<(f64, f64, [f64; 2])> = None;
    let mut close = |line: Option<(f64, f64, [f64; 2])>, to: [f64; 2]| {
        if let Some((from, until, low)) = line {
            let corners = [(from, low[0]), (until, low[1]), (until, to[1]), (from, to[0])];
            found.push(Polygon::new(corners.into_iter().map(kurbo::Point::from).collect()));
        }
    };
    for piece in pieces(&space.outline) {
        let [a, b, c, d] = piece.points() else { continue };
        if last.is_none_or(|(from, until, _)| (from, until) != (a.x, b.x)) {
            close(last, [bounds.y1; 2]);
            last = Some((a.x, b.x, [bounds.y0; 2]));
        }
        close(last, [a.y, b.y]);
        last = Some((a.x, b.x, [d.y, c.y]));
    }
    close(last, [bounds.y1; 2]);
    let thick = |polygon: &Polygon| Convex::new(polygon.points().to_vec()).is_thick();
    let prism = |outline| Prism { axis: space.axis, outline, low: space.low, high: space.high };
    found.into_iter().filter(thick).map(prism).collect()
}

/// Level faces of a prism that look up.
fn tops(prism: &Prism) -> Vec<(f64, Rect)> {
    if prism.axis == Axis::Z {
        return strips(&prism.outline).into_iter().map(|strip| (prism.high, strip.inner)).collect();
    }
    let level = prism.outline.edges().filter(|(a, b)| (a.y - b.y).abs() <= HAIR && b.x < a.x);
    let face = |(a, b): (kurbo::Point, kurbo::Point)| {
        let along = (prism.low, prism.high);
        let rect = match prism.axis {
            Axis::X => Rect::new(along.0, b.x, along.1, a.x),
            _ => Rect::new(b.x, along.0, a.x, along.1),
        };
        (a.y, rect)
    };
    level.map(face).collect()
}

/// A strip of an outline along its first coordinate: the rectangle around it and one inside it.
struct Strip {
    outer: Rect,
    inner: Rect,
}

fn strips(outline: &Polygon) -> Vec<Strip> {
    let wide = outline.bounds().width();
    pieces(outline).iter().flat_map(|piece| strips_of(piece, wide)).collect()
}

/// One strip for a piece that is a rectangle, else as many as its share of the whole width asks for.
fn strips_of(piece: &Convex, wide: f64) -> Vec<Strip> {
    let (from, to) = piece.range(Slot::First);
    let bounds = piece.bounds();
    let count = match piece.points() {
        [a, b, c, d] if (a.y - b.y).abs() <= HAIR && (c.y - d.y).abs() <= HAIR => 1.0,
        _ => (STRIPS * (to - from) / wide).ceil().clamp(1.0, STRIPS),
    };
    let at = |index: u32| from + (to - from) * f64::from(index) / count;
    (0..count as u32)
        .map(|index| {
            let outer = piece.within(Slot::First, (at(index), at(index + 1))).bounds();
            let inner = match piece.points() {
                [a, b, c, d] => {
                    let share = |x: f64| if b.x > a.x { (x - a.x) / (b.x - a.x) } else { 0.0 };
                    let (s, t) = (share(outer.x0), share(outer.x1));
                    let low = a.lerp(*b, s).y.max(a.lerp(*b, t).y);
                    let high = d.lerp(*c, s).y.min(d.lerp(*c, t).y);
                    Rect { y0: low, y1: high.max(low), ..outer }
                }
                _ => bounds,
            };
            Strip { outer, inner }
        })
        .collect()
}

/// Heights in a range at which faces of boxes may lie: from each floor up by sums of sides that may stand upright.
fn levels((low, high): (f64, f64), floors: &[(f64, Rect)], parcels: &[Parcel]) -> Vec<f64> {
    let mut sides: Vec<f64> =
        parcels.iter().flat_map(|parcel| parcel.turns().into_iter().map(|(_, [_, _, up])| up)).collect();
    sides.sort_by(f64::total_cmp);
    sides.dedup();
    let mut found: Vec<f64> = floors.iter().map(|(height, _)| *height).filter(|z| low <= *z && *z <= high).collect();
    found.sort_by(f64::total_cmp);
    found.dedup();
    let mut next = 0;
    while let Some(from) = found.get(next).copied().filter(|_| found.len() < MOST_LEVELS) {
        for side in &sides {
            let height = micrometres(from + side);
            if height <= high && !found.contains(&height) {
                found.push(height);
            }
        }
        next += 1;
    }
    // What is missing is filled up evenly, so that no step of a long slope is high.
    const EVEN: u32 = 12;
    found.extend((0..=EVEN).map(|step| low + (high - low) * f64::from(step) / f64::from(EVEN)));
    found.sort_by(f64::total_cmp);
    found.dedup_by(|a, b| (*a - *b).abs() <= HAIR);
    found
}

/// Boxes that cover a prism: its own box, strips of a slanted plan, or what it covers between each two levels.
fn covered(prism: &Prism, levels: &[f64]) -> Vec<Box3> {
    let bounds = prism.bounds();
    let is_box =
        prism.outline.points().len() == 4 && (prism.outline.area() - prism.outline.bounds().area()).abs() <= HAIR;
    if is_box {
        return vec![bounds];
    }
    if prism.axis == Axis::Z {
        let boxed = |rect: Rect| Box3 { x: (rect.x0, rect.x1), y: (rect.y0, rect.y1), z: bounds.z };
        return strips(&prism.outline).into_iter().map(|strip| boxed(strip.outer)).collect();
    }
    between(levels, |low, high| {
        let shadows = prism.shadow(Axis::Z, low, high).into_iter().map(|shadow| shadow.bounds());
        let outline = prism.outline.bounds();
        let range = (low.max(outline.y0), high.min(outline.y1));
        shadows.map(|rect| Box3 { x: (rect.x0, rect.x1), y: (rect.y0, rect.y1), z: range }).collect()
    })
}

/// What lies above the lining between each two levels, as boxes.
fn above(roof: &Roof, bounds: &Box3, levels: &[f64]) -> Vec<Box3> {
    if roof.least_over(bounds.y.0, bounds.y.1).0 >= bounds.z.1 - HAIR {
        return Vec::new();
    }
    between(levels, |low, high| {
        let lower = roof.lower_than(high - HAIR).into_iter();
        lower.map(|y| Box3 { x: bounds.x, y, z: (low, high) }).collect()
    })
}

/// Boxes between each two neighbouring levels; equal ones one above the other are joined.
fn between(levels: &[f64], boxes: impl Fn(f64, f64) -> Vec<Box3>) -> Vec<Box3> {
    let mut found: Vec<Box3> = Vec::new();
    for (low, high) in levels.iter().zip(levels.iter().skip(1)) {
        for one in boxes(*low, *high) {
            let below = found.iter_mut().find(|known| known.x == one.x && known.y == one.y && known.z.1 == one.z.0);
            match below {
                Some(known) => known.z.1 = one.z.1,
                None => found.push(one),
            }
        }
    }
    found
}
