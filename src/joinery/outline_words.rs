//! Outlines in words: their corners, and their arcs with radius, from the datum corner.

use crate::base::number::trimmed;
use crate::base::tolerance::{NO_AREA, SAME_LENGTH};
use crate::geometry::Polygon;
use kurbo::{BezPath, ParamCurve, PathSeg, Point, Shape};
use std::f64::consts::PI;

/// `(0 22.5)`.
pub(super) fn at_text(at: (f64, f64)) -> String {
    format!("({} {})", trimmed(at.0, 1), trimmed(at.1, 1))
}

/// The corners in order, from one to the next straight or by an arc: `(0 0) (500 0) arc R60 to (560 60) (0 60)`. An arc
/// that is cut into the piece is a hollow one.
pub(super) fn outline(polygon: &Polygon, curve: Option<&BezPath>) -> String {
    let corner = |point: &Point| at_text((point.x, point.y));
    match curve {
        Some(curve) => path(curve),
        None => polygon.points().iter().map(corner).collect::<Vec<_>>().join(" "),
    }
}

/// A cut-out: its size and its corner at the datum, and its shape where it is no rectangle.
pub(super) fn cutout(polygon: &Polygon, curve: Option<&BezPath>) -> String {
    let bounds = polygon.bounds();
    let (length, width) = (trimmed(bounds.width(), 1), trimmed(bounds.height(), 1));
    let circle = PI * bounds.width() * bounds.width() / 4.0;
    let round = |curve: &BezPath| {
        let bounds = curve.bounding_box();
        (bounds.width() - bounds.height()).abs() < ROUND && (curve.area().abs() / circle - 1.0).abs() < SAME_CIRCLE
    };
    if curve.is_some_and(round) {
        return format!("{length} across, round, its middle at {}", at_text(bounds.center().into()));
    }
    let place = format!("{length} x {width} at {}", at_text((bounds.x0, bounds.y0)));
    let rectangle = (polygon.area() - bounds.area()).abs() < NO_AREA;
    if rectangle { place } else { format!("{place}, shaped: {}", outline(polygon, curve)) }
}

/// Sides of the square around a circle differ by less, mm.
const ROUND: f64 = 0.1;
/// Radii and middles of one arc differ by less, as a share of the radius.
const SAME_CIRCLE: f64 = 2e-3;

/// A part of a circle.
struct Arc {
    middle: Point,
    radius: f64,
    /// Seen from its middle, radians; negative against the outline's turn.
    sweep: f64,
}

fn path(curve: &BezPath) -> String {
    let turn = curve.area().signum();
    let (mut words, mut arc): (Vec<String>, Option<Arc>) = (Vec::new(), None);
    let mut first = Point::ZERO;
    for segment in curve.segments() {
        if words.is_empty() {
            first = segment.start();
            words.push(at_text(first.into()));
        }
        let end = at_text(segment.end().into());
        let Some(new) = circle(&segment) else {
            arc = None;
            words.push(end);
            continue;
        };
        let goes_on = |known: &Arc| {
            let near = |by: f64| by < SAME_CIRCLE * new.radius;
            let whole = (known.sweep + new.sweep).abs() <= PI + SAME_CIRCLE;
            whole && near((known.radius - new.radius).abs()) && near((known.middle - new.middle).hypot())
        };
        let before = arc.take().filter(goes_on).map(|known| {
            words.pop();
            known.sweep
        });
        let hollow = if new.sweep * turn < 0.0 { "hollow " } else { "" };
        words.push(format!("{hollow}arc R{} to {end}", trimmed(new.radius, 1)));
        arc = Some(Arc { sweep: before.unwrap_or(0.0) + new.sweep, ..new });
    }
    // The way back to the start is understood.
    if words.len() > 1 && words.last().is_some_and(|last| *last == at_text(first.into())) {
        words.pop();
    }
    words.join(" ")
}

/// The circle of a bent segment; `None` for a straight one.
fn circle(segment: &PathSeg) -> Option<Arc> {
    if matches!(segment, PathSeg::Line(_)) {
        return None;
    }
    let [a, b, c] = [0.0, 0.5, 1.0].map(|t| segment.eval(t));
    let (first, second) = (b - a, c - a);
    let doubled = 2.0 * first.cross(second);
    if doubled.abs() < SAME_LENGTH {
        return None;
    }
    let (one, other) = (first.hypot2(), second.hypot2());
    let middle = a + kurbo::Vec2::new(second.y * one - first.y * other, first.x * other - second.x * one) / doubled;
    let radius = (a - middle).hypot();
    let sweep = 2.0 * (second.hypot() / 2.0 / radius).clamp(0.0, 1.0).asin();
    Some(Arc { middle, radius, sweep: sweep * doubled.signum() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Arc as Bow, Circle, Rect, RoundedRect};

    #[test]
    fn arcs_are_told_by_their_radius() {
        let board = RoundedRect::new(0.0, 0.0, 400.0, 300.0, (0.0, 60.0, 60.0, 0.0)).to_path(0.01);
        let words = path(&board);
        assert!(words.contains("arc R60 to") && words.matches("arc").count() == 2, "{words}");
        // A half circle of 100 cut into the long side of a board.
        let mut bitten = BezPath::new();
        bitten.move_to((0.0, 0.0));
        bitten.line_to((100.0, 0.0));
        let bow = Bow::new((200.0, 0.0), (100.0, 100.0), PI, -PI, 0.0);
        bow.append_iter(0.01).for_each(|element| bitten.push(element));
        bitten.line_to((400.0, 0.0));
        bitten.line_to((400.0, 300.0));
        bitten.line_to((0.0, 300.0));
        bitten.close_path();
        assert_eq!(path(&bitten), "(0 0) (100 0) hollow arc R100 to (300 0) (400 0) (400 300) (0 300)");
    }

    #[test]
    fn a_round_cutout_is_told_by_its_middle() {
        let circle = Circle::new((50.0, 40.0), 15.0).to_path(0.01);
        let points =
            (0..24).map(|at| Point::new(50.0, 40.0) + 15.0 * kurbo::Vec2::from_angle(f64::from(at) * PI / 12.0));
        assert_eq!(cutout(&Polygon::new(points.collect()), Some(&circle)), "30 across, round, its middle at (50 40)");
        let square = Polygon::rect(Rect::new(0.0, 0.0, 30.0, 30.0));
        assert_eq!(cutout(&square, None), "30 x 30 at (0 0)");
    }
}
