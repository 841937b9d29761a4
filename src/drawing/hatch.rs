//! Hatches of cut materials: thin parallel lines at 45 degrees (ISO 128-3:2022, 9.2), one way, both ways or in pairs.
//!
//! Lines lie on a grid from the corner of the sheet, so the pieces of one part hatched apart still have one hatch.

use kurbo::{BezPath, PathEl, Point};
use std::f64::consts::FRAC_1_SQRT_2;

/// What a cut material is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hatch {
    /// Timber, plywood and boards: single lines that rise to the right.
    Wood,
    /// Insulation: lines both ways.
    Foam,
    /// Metal: pairs of lines that fall to the right.
    Metal,
    /// No material: what is wrong on a draft, wide lines that fall to the right.
    Wrong,
}

/// More lines than this one way are not drawn: a sheet has fewer.
const MOST: f64 = 2000.0;
/// Flattening of curved outlines, mm.
const FLAT: f64 = 0.02;

impl Hatch {
    /// Rising to the right or falling, from line to line (mm), and the first line's distance from the corner.
    fn families(self) -> &'static [(bool, f64, f64)] {
        match self {
            Self::Wood => &[(true, 2.0, 0.0)],
            Self::Foam => &[(true, 3.0, 0.0), (false, 3.0, 0.0)],
            Self::Wrong => &[(false, 6.0, 0.0)],
            Self::Metal => &[(false, 2.4, 0.0), (false, 2.4, 0.7)],
        }
    }
}

/// The hatch lines inside an outline (even-odd, so rings have holes) as one path of segments; paper mm. Draw it in
/// [`super::LineClass::Dimension`], over the fill and under the outline.
#[must_use]
pub fn hatch(outline: &BezPath, kind: Hatch) -> BezPath {
    let mut path = BezPath::new();
    for (rising, spacing, first) in kind.families() {
        lines(outline, *rising, (*spacing, *first), &mut path);
    }
    path
}

/// Along (`s`) and across (`t`) the lines, from x and y.
fn turned(point: Point, rising: bool) -> (f64, f64) {
    let y = if rising { point.y } else { -point.y };
    ((point.x + y) * FRAC_1_SQRT_2, (y - point.x) * FRAC_1_SQRT_2)
}

fn back(s: f64, t: f64, rising: bool) -> Point {
    let y = (s + t) * FRAC_1_SQRT_2;
    Point::new((s - t) * FRAC_1_SQRT_2, if rising { y } else { -y })
}

fn lines(outline: &BezPath, rising: bool, (spacing, first): (f64, f64), path: &mut BezPath) {
    let edges: Vec<[(f64, f64); 2]> =
        edges(outline).into_iter().map(|ends| ends.map(|point| turned(point, rising))).collect();
    let low = edges.iter().flatten().map(|end| end.1).fold(f64::INFINITY, f64::min);
    let high = edges.iter().flatten().map(|end| end.1).fold(f64::NEG_INFINITY, f64::max);
    let (from, to) = (((low - first) / spacing).ceil(), ((high - first) / spacing).floor());
    if !(from.is_finite() && to - from < MOST) {
        return;
    }
    let mut step = from;
    while step <= to {
        let t = step * spacing + first;
        let mut crossings: Vec<f64> = edges.iter().filter_map(|ends| crossing(ends, t)).collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            if let [a, b] = pair {
                path.move_to(back(*a, t, rising));
                path.line_to(back(*b, t, rising));
            }
        }
        step += 1.0;
    }
}

/// Where a line across at `t` meets an edge; the edge's lower end belongs to it, the upper does not.
fn crossing([a, b]: &[(f64, f64); 2], t: f64) -> Option<f64> {
    ((a.1 <= t) != (b.1 <= t)).then(|| a.0 + (b.0 - a.0) * (t - a.1) / (b.1 - a.1))
}

/// The straight edges of an outline; open parts are closed.
fn edges(outline: &BezPath) -> Vec<[Point; 2]> {
    let (mut edges, mut start, mut last) = (Vec::new(), Point::ZERO, Point::ZERO);
    kurbo::flatten(outline, FLAT, |element| match element {
        PathEl::MoveTo(point) => {
            edges.push([last, start]);
            (start, last) = (point, point);
        }
        PathEl::LineTo(point) => {
            edges.push([last, point]);
            last = point;
        }
        PathEl::ClosePath => {
            edges.push([last, start]);
            last = start;
        }
        _ => {}
    });
    edges.push([last, start]);
    let sound = edges.iter().flatten().all(|end| end.is_finite());
    if sound { edges } else { Vec::new() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{ParamCurve, Rect, Shape};

    const KINDS: [Hatch; 3] = [Hatch::Wood, Hatch::Foam, Hatch::Metal];

    fn length(path: &BezPath) -> f64 {
        path.segments().map(|segment| (segment.end() - segment.start()).hypot()).sum()
    }

    // By hand: parallel lines a distance d apart have a length of area / d.
    #[test]
    fn lines_are_as_dense_as_said() {
        let square = Rect::new(20.0, 30.0, 120.0, 130.0).to_path(0.1);
        let ring = {
            let mut ring = square.clone();
            ring.extend(Rect::new(40.0, 50.0, 100.0, 110.0).to_path(0.1));
            ring
        };
        for (outline, area) in [(square, 10_000.0), (ring, 6400.0)] {
            for (kind, density) in KINDS.into_iter().zip([1.0 / 2.0, 2.0 / 3.0, 2.0 / 2.4]) {
                let made = length(&hatch(&outline, kind));
                assert!((made / (area * density) - 1.0).abs() < 0.03, "{kind:?} {made}");
            }
        }
    }

    #[test]
    fn lines_stay_inside_at_45_degrees() {
        let circle = kurbo::Circle::new((60.0, 40.0), 17.3);
        for kind in KINDS {
            let path = hatch(&circle.to_path(0.001), kind);
            assert!(path.segments().count() > 10);
            for segment in path.segments() {
                let (a, b) = (segment.start(), segment.end());
                assert!(((b.x - a.x).abs() - (b.y - a.y).abs()).abs() < 1e-9);
                assert!([a, b].iter().all(|end| (*end - circle.center).hypot() < circle.radius + 1e-6));
            }
        }
    }

    #[test]
    fn pieces_of_one_part_have_one_hatch() {
        let whole = hatch(&Rect::new(0.0, 0.0, 80.0, 10.0).to_path(0.1), Hatch::Wood);
        let halves = [Rect::new(0.0, 0.0, 33.3, 10.0), Rect::new(33.3, 0.0, 80.0, 10.0)];
        let halves: f64 = halves.iter().map(|half| length(&hatch(&half.to_path(0.1), Hatch::Wood))).sum();
        assert!((length(&whole) - halves).abs() < 1e-6);
    }

    #[test]
    fn nothing_has_no_hatch() {
        let broken = Rect::new(0.0, 0.0, f64::NAN, 10.0).to_path(0.1);
        let endless = Rect::new(-1e9, -1e9, 1e9, 1e9).to_path(0.1);
        for outline in [BezPath::new(), broken, endless] {
            assert!(hatch(&outline, Hatch::Foam).is_empty());
        }
    }
}
