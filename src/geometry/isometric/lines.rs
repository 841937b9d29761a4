//! What is seen of lines: along the outline of a region, and inside it.

use crate::base::tolerance;
use crate::geometry::region::Region;
use kurbo::{Point, Vec2};

/// The parts of lines that lie on the outline of a region.
pub(super) fn along(region: &Region, lines: &[(Point, Point)]) -> Vec<(Point, Point)> {
    let outline: Vec<(Point, Point)> = region.edges().collect();
    lines.iter().flat_map(|line| on_outline(&outline, *line)).collect()
}

fn on_outline(outline: &[(Point, Point)], (from, to): (Point, Point)) -> Vec<(Point, Point)> {
    let Some((unit, length)) = direction(from, to) else { return Vec::new() };
    let off = |at: Point| unit.cross(at - from).abs();
    let near = |(a, b): &&(Point, Point)| off(*a) <= tolerance::ON_LINE && off(*b) <= tolerance::ON_LINE;
    let mut spans: Vec<(f64, f64)> = outline
        .iter()
        .filter(near)
        .map(|(a, b)| (unit.dot(*a - from), unit.dot(*b - from)))
        .map(|(a, b)| (a.min(b).max(0.0), a.max(b).min(length)))
        .filter(|(a, b)| b > a)
        .collect();
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Vec<(f64, f64)> = Vec::new();
    for span in spans {
        match merged.last_mut().filter(|last| span.0 <= last.1 + tolerance::ON_LINE) {
            Some(last) => last.1 = last.1.max(span.1),
            None => merged.push(span),
        }
    }
    cut(from, unit, &merged)
}

/// The parts of a line that lie in a region.
pub(super) fn within(region: &Region, (from, to): (Point, Point)) -> Vec<(Point, Point)> {
    let Some((unit, length)) = direction(from, to) else { return Vec::new() };
    let mut stops = vec![0.0, length];
    for (a, b) in region.edges() {
        let (side_a, side_b) = (unit.cross(a - from), unit.cross(b - from));
        if (side_a > 0.0) != (side_b > 0.0) {
            let at = unit.dot(a.lerp(b, side_a / (side_a - side_b)) - from);
            stops.extend((0.0 < at && at < length).then_some(at));
        }
    }
    stops.sort_by(f64::total_cmp);
    let mut spans: Vec<(f64, f64)> = Vec::new();
    for (a, b) in stops.iter().copied().zip(stops.iter().copied().skip(1)) {
        if b - a <= tolerance::ON_LINE || !region.contains(from + unit * f64::midpoint(a, b)) {
            continue;
        }
        match spans.last_mut().filter(|last| last.1 == a) {
            Some(last) => last.1 = b,
            None => spans.push((a, b)),
        }
    }
    cut(from, unit, &spans)
}

fn direction(from: Point, to: Point) -> Option<(Vec2, f64)> {
    let length = from.distance(to);
    (length > tolerance::ON_LINE).then(|| ((to - from) / length, length))
}

fn cut(from: Point, unit: Vec2, spans: &[(f64, f64)]) -> Vec<(Point, Point)> {
    let long = spans.iter().filter(|(a, b)| b - a > tolerance::ON_LINE);
    long.map(|(a, b)| (from + unit * *a, from + unit * *b)).collect()
}
