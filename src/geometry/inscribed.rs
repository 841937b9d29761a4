//! The largest rectangle of a given shape that finds room among polygons.

use super::convex::{Convex, Slot, pieces};
use super::polygon::Polygon;
use super::region::Region;
use crate::base::tolerance::{CLEARANCE_GRID, SAME_LENGTH};
use kurbo::{Point, Rect, Size, Vec2};

/// How often the scale is halved: from metres to less than the grid.
const HALVINGS: u32 = 20;

/// The largest rectangle with sides in the proportion of `shape`, parallel to the axes, in `room` and clear of all
/// obstacles, then widened and heightened as far as it goes; `None` where nothing is free.
///
/// The places of its lower left corner are the room without the Minkowski sum of each convex piece of an obstacle and
/// the rectangle turned about; the scale is halved until these places vanish, which is good to a few steps of the grid.
/// Widening then ends exactly at what it meets. Touching is free.
#[must_use]
pub fn inscribed(room: Rect, obstacles: &[Polygon], shape: Size) -> Option<Rect> {
    let parts: Vec<Convex> = obstacles.iter().filter(|o| meets(o.bounds(), room)).flat_map(pieces).collect();
    if parts.is_empty() {
        return (room.width() > 0.0 && room.height() > 0.0).then_some(room);
    }
    let most = (room.width() / shape.width).min(room.height() / shape.height);
    let at = |scale: f64| spot(room, &parts, shape * scale);
    let (mut low, mut high, mut found) = (0.0, most, at(most));
    if found.is_none() {
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            match at(middle) {
                Some(rect) => (low, found) = (middle, Some(rect)),
                None => high = middle,
            }
            if (high - low) * shape.max_side() < CLEARANCE_GRID {
                break;
            }
        }
    }
    found.map(|rect| grown(rect, room, &parts))
}

fn meets(a: Rect, b: Rect) -> bool {
    let shared = a.intersect(b);
    shared.width() > SAME_LENGTH && shared.height() > SAME_LENGTH
}

/// A place of a rectangle of this size, a few steps of the grid smaller all round.
fn spot(room: Rect, parts: &[Convex], size: Size) -> Option<Rect> {
    let (width, height) = (size.width - 2.0 * CLEARANCE_GRID, size.height - 2.0 * CLEARANCE_GRID);
    if width <= 0.0 || height <= 0.0 {
        return None;
    }
    let corners = Region::rect(Rect::new(room.x0, room.y0, room.x1 - width, room.y1 - height));
    let taken: Vec<Polygon> = parts.iter().map(|part| sum(part, width, height)).collect();
    let free = corners.subtract(&Region::new(&taken));
    let corner = free.contours().next()?.first().copied()?;
    Some(Rect::from_origin_size(corner, (width, height)).inset(-CLEARANCE_GRID))
}

/// Lower left corners of a rectangle that meets a convex piece: the hull of the piece and its copies moved back.
fn sum(part: &Convex, width: f64, height: f64) -> Polygon {
    let back = [Vec2::ZERO, Vec2::new(-width, 0.0), Vec2::new(0.0, -height), Vec2::new(-width, -height)];
    hull(part.points().iter().flat_map(|point| back.map(|by| *point + by)).collect())
}

/// The convex hull, by the lower and the upper chain.
fn hull(mut points: Vec<Point>) -> Polygon {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    let mut chain = half(points.iter().copied());
    chain.pop();
    let mut upper = half(points.iter().rev().copied());
    upper.pop();
    chain.append(&mut upper);
    Polygon::new(chain)
}

fn half(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut chain: Vec<Point> = Vec::new();
    for point in points {
        while let [.., a, b] = chain[..] {
            if (b - a).cross(point - b) > 0.0 {
                break;
            }
            chain.pop();
        }
        chain.push(point);
    }
    chain
}

/// The rectangle widened, then heightened, to the next thing.
fn grown(rect: Rect, room: Rect, parts: &[Convex]) -> Rect {
    let (x0, x1) = stretched(parts, Slot::First, (rect.x0, rect.x1), (rect.y0, rect.y1), (room.x0, room.x1));
    let (y0, y1) = stretched(parts, Slot::Second, (rect.y0, rect.y1), (x0, x1), (room.y0, room.y1));
    Rect::new(x0, y0, x1, y1)
}

/// A range along one coordinate stretched to what stands in its band across.
fn stretched(parts: &[Convex], slot: Slot, own: (f64, f64), band: (f64, f64), room: (f64, f64)) -> (f64, f64) {
    let across = if slot == Slot::First { Slot::Second } else { Slot::First };
    let inner = (band.0 + SAME_LENGTH, band.1 - SAME_LENGTH);
    let near = parts.iter().map(|part| part.within(across, inner)).filter(|part| !part.points().is_empty());
    near.map(|part| part.range(slot)).fold(room, |(low, high), (from, to)| {
        if to <= f64::midpoint(own.0, own.1) { (low.max(to), high) } else { (low, high.min(from)) }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(x0: f64, y0: f64, x1: f64, y1: f64) -> Polygon {
        Polygon::rect(Rect::new(x0, y0, x1, y1))
    }

    const ROOM: Rect = Rect::new(0.0, 0.0, 1000.0, 800.0);

    #[test]
    fn a_free_room_is_all_of_it() {
        assert_eq!(inscribed(ROOM, &[], Size::new(1.0, 1.0)), Some(ROOM));
        assert_eq!(inscribed(ROOM, &[block(1000.0, 0.0, 1200.0, 800.0)], Size::new(1.0, 1.0)), Some(ROOM), "touching");
        assert_eq!(inscribed(ROOM, &[block(-5.0, -5.0, 1005.0, 805.0)], Size::new(1.0, 1.0)), None);
    }

    #[test]
    fn a_corner_taken_leaves_the_wider_strip_exactly() {
        // 400 x 500 taken: squares of 600 beside it or 300 above; the first, then heightened.
        let taken = block(0.0, 0.0, 400.0, 500.0);
        assert_eq!(
            inscribed(ROOM, std::slice::from_ref(&taken), Size::new(1.0, 1.0)),
            Some(Rect::new(400.0, 0.0, 1000.0, 800.0))
        );
        // Ten times as wide as high: 1,000 x 300 above it.
        assert_eq!(inscribed(ROOM, &[taken], Size::new(10.0, 1.0)), Some(Rect::new(0.0, 500.0, 1000.0, 800.0)));
    }

    #[test]
    fn a_slope_by_hand() {
        // A triangle of legs 800 in the corner of 1,000 x 800: a square in the upper right corner of side s touches the
        // slope x + y = 800 with its lower left corner (1000 - s, 800 - s): s = 500.
        let slope = Polygon::new(vec![Point::ZERO, Point::new(800.0, 0.0), Point::new(0.0, 800.0)]);
        let found = inscribed(ROOM, &[slope], Size::new(1.0, 1.0)).unwrap();
        assert!((found.width() - 500.0).abs() < 0.1 && (found.height() - 500.0).abs() < 0.1, "{found:?}");
        assert!(found.x0 + found.y0 >= 800.0 - 0.01);
    }

    #[test]
    fn room_to_a_hair() {
        let left = block(0.0, 0.0, 300.0, 800.0);
        let gap = |right: f64| inscribed(ROOM, &[left.clone(), block(right, 0.0, 1000.0, 800.0)], Size::new(1.0, 1.0));
        assert_eq!(gap(900.0).map(|rect| rect.width()), Some(600.0));
        assert_eq!(gap(899.0).map(|rect| rect.width()), Some(599.0));
        assert_eq!(gap(300.0), None);
    }
}
