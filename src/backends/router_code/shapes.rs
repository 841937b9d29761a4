//! Where the middle of a tool goes: along grooves, around cut-outs and outlines.

use crate::base::tolerance::{CHORD, NO_DIRECTION};
use crate::geometry::{Contour, Polygon, Region};
use crate::joinery::Row;
use kurbo::{Affine, Point, Rect, Vec2};

/// A groove that ends at the edge of the board is cut so far past it, mm.
const PAST: f64 = 0.2;
/// From one way of a tool to the next, as part of its diameter.
const STEP: f64 = 0.8;

/// A piece as it leaves the saw, from the datum corner of the finished one.
pub(super) fn raw(row: &Row) -> Rect {
    let (length, width, _) = row.finished;
    let (bands, scribe) = (row.bands, row.scribe);
    Rect::new(
        bands.left - scribe.left,
        bands.front - scribe.front,
        length - bands.right + scribe.right,
        width - bands.back + scribe.back,
    )
}

/// The outline as it leaves the router: less the bands, with what is left on for scribing.
pub(super) fn outline(row: &Row) -> Region {
    let Some(outline) = &row.outline else { return Region::rect(raw(row)) };
    let sides = [
        (row.bands.left, row.scribe.left, Vec2::new(1.0, 0.0)),
        (row.bands.right, row.scribe.right, Vec2::new(-1.0, 0.0)),
        (row.bands.front, row.scribe.front, Vec2::new(0.0, 1.0)),
        (row.bands.back, row.scribe.back, Vec2::new(0.0, -1.0)),
    ];
    let mut region = Region::new([outline]);
    for (band, scribe, inward) in sides {
        if band > 0.0 {
            region = region.intersect(&region.moved(inward * band));
        }
        if scribe > 0.0 {
            region = region.pulled(inward * -scribe);
        }
    }
    region
}

/// A region taken elsewhere, perhaps mirrored.
pub(super) fn placed(region: &Region, to: Affine) -> Region {
    let parts = region.parts().map(|part| {
        let taken = |contour: Vec<Point>| Polygon::new(contour.into_iter().map(|point| to * point).collect());
        let mut contours = part.contours().map(taken);
        let outer = contours.next().unwrap_or_default();
        let holes: Vec<Polygon> = contours.collect();
        Region::new([&outer]).subtract(&Region::new(&holes))
    });
    Region::all(parts.collect::<Vec<_>>())
}

/// Ways of a tool around a board, clockwise, so that the wood is on its right hand: it climbs.
pub(super) fn around(board: &Region, diameter: f64) -> Vec<Contour> {
    let outer = board.grown(diameter / 2.0);
    let ways = outer.parts().filter_map(|part| part.contours().next());
    ways.map(|mut way| {
        way.reverse();
        Contour::of(&way, CHORD)
    })
    .collect()
}

/// Ways of a tool inside a cut-out, counter-clockwise; none where it is too narrow.
pub(super) fn inside(cut_out: &Region, diameter: f64) -> Vec<Contour> {
    cut_out.shrunk(diameter / 2.0).contours().map(|way| Contour::of(&way, CHORD)).collect()
}

/// Whether something falls out of a cut-out, that a tool has cut around.
pub(super) fn falls_out(cut_out: &Region, diameter: f64) -> bool {
    !cut_out.shrunk(diameter).is_empty()
}

/// Radii of the circles that clear a bore, from the inside.
pub(super) fn rings(bore: f64, diameter: f64) -> Vec<f64> {
    ways((bore - diameter) / 2.0, diameter)
}

/// Distances from the middle that clear a width, from the inside: the last leaves nothing in the middle.
fn ways(most: f64, diameter: f64) -> Vec<f64> {
    let mut ways = vec![most];
    let mut at = most;
    while at > diameter / 2.0 * 0.98 {
        at -= diameter * STEP;
        ways.push(at.max(diameter * 0.1));
    }
    ways.reverse();
    ways
}

/// A groove on the machine: its middle line, ends that are in the wood already drawn back.
pub(super) struct Groove {
    from: Point,
    to: Point,
    offsets: Vec<f64>,
}

impl Groove {
    /// `from` and `to` from the datum corner; `open` says of a place whether it is beyond the finished board.
    pub fn new(
        (from, to): (Point, Point),
        (width, diameter): (f64, f64),
        (raw, open): (Rect, impl Fn(Point) -> bool),
        place: Affine,
    ) -> Self {
        let along = (to - from) / (to - from).hypot().max(f64::MIN_POSITIVE);
        let end = |at: Point, out: Vec2| {
            if open(at + out * 0.5) { at + out * (leaves(raw, at, out) + PAST) } else { at - out * (diameter / 2.0) }
        };
        let half = (width - diameter) / 2.0;
        let offsets = if half < 0.005 { vec![0.0] } else { ways(half, diameter) };
        Self { from: place * end(from, -along), to: place * end(to, along), offsets }
    }

    /// The closed ways that clear it, from the middle outward; one there and back where the tool is as wide.
    pub fn ways(&self) -> Vec<Vec<Point>> {
        let along = self.to - self.from;
        let side = along.turn_90() / along.hypot().max(f64::MIN_POSITIVE);
        let way = |off: &f64| {
            if *off == 0.0 {
                return vec![self.from, self.to];
            }
            let by = side * *off;
            vec![self.from - by, self.to - by, self.to + by, self.from + by, self.from - by]
        };
        self.offsets.iter().map(way).collect()
    }
}

/// How far it is from a place along a way to the edge of the raw board; 0 if it is beyond it.
fn leaves(raw: Rect, at: Point, way: Vec2) -> f64 {
    let far = |at: f64, way: f64, low: f64, high: f64| match way {
        way if way > NO_DIRECTION => (high - at) / way,
        way if way < -NO_DIRECTION => (low - at) / way,
        _ => f64::INFINITY,
    };
    let far = far(at.x, way.x, raw.x0, raw.x1).min(far(at.y, way.y, raw.y0, raw.y1));
    if far.is_finite() { far.max(0.0) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::tolerance::ROUNDING;

    /// By hand: 35 wide with 6: 14.5, 9.7, 4.9, 0.6, each 4.8 from the next but the first, which clears the middle.
    #[test]
    fn rings_leave_nothing_in_the_middle() {
        let rings = rings(35.0, 6.0);
        assert_eq!(rings.len(), 4);
        assert!(rings.iter().zip([0.6, 4.9, 9.7, 14.5]).all(|(a, b)| (a - b).abs() < ROUNDING), "{rings:?}");
        assert_eq!(super::rings(10.0, 6.0), [2.0]);
    }

    #[test]
    fn a_groove_runs_out_of_the_board_and_stops_in_the_wood() {
        let raw = Rect::new(1.0, 0.0, 400.0, 300.0);
        let open = |at: Point| at.x < 0.0 || at.x > 400.0;
        let ends = (Point::new(0.0, 50.0), Point::new(380.0, 50.0));
        let groove = Groove::new(ends, (6.2, 6.0), (raw, open), Affine::IDENTITY);
        let ways = groove.ways();
        assert_eq!(ways.len(), 1);
        let xs: Vec<f64> = ways[0].iter().map(|at| at.x).collect();
        assert!((xs[0] + 0.2).abs() < ROUNDING && (xs[1] - 377.0).abs() < ROUNDING, "{xs:?}");
        assert!((ways[0][0].y - 49.9).abs() < ROUNDING);
    }
}
