//! Cuts items off at a window, so that what lies far outside the box never leaves the frame.

use crate::drawing::{Group, Item, Path};
use crate::views::kit::placement::polyline;
use kurbo::{BezPath, Point, Rect, Shape};

/// Flattening of what is cut, mm on paper.
const FLAT: f64 = 0.01;

/// The part of an item inside a window; texts stay or go whole.
pub(in crate::views) fn clip(item: Item, window: Rect) -> Option<Item> {
    match item {
        Item::Path(path) => clip_path(path, window).map(Item::Path),
        Item::Text(text) => window.contains_rect(crate::drawing::text_box(&text)).then_some(Item::Text(text)),
        Item::Group(group) => {
            let items: Vec<Item> = group.items.into_iter().filter_map(|item| clip(item, window)).collect();
            (!items.is_empty()).then_some(Item::Group(Group { items, ..group }))
        }
    }
}

fn clip_path(path: Path, window: Rect) -> Option<Path> {
    if window.contains_rect(path.shape.bounding_box()) {
        return Some(path);
    }
    let mut shape = BezPath::new();
    for (points, closed) in polylines(&path.shape) {
        if closed {
            shape.extend(clip_area(points, window));
        } else {
            shape.extend(clip_line(&points, window));
        }
    }
    (!shape.is_empty()).then_some(Path { shape, ..path })
}

/// Subpaths as points, and whether they are closed.
fn polylines(shape: &BezPath) -> Vec<(Vec<Point>, bool)> {
    let mut all: Vec<(Vec<Point>, bool)> = Vec::new();
    kurbo::flatten(shape, FLAT, |element| match element {
        kurbo::PathEl::MoveTo(point) => all.push((vec![point], false)),
        kurbo::PathEl::LineTo(point) => {
            if let Some((points, _)) = all.last_mut() {
                points.push(point);
            }
        }
        kurbo::PathEl::ClosePath => {
            if let Some((_, closed)) = all.last_mut() {
                *closed = true;
            }
        }
        _ => {}
    });
    all
}

/// The edges of a window: (upright, at, what is kept lies above).
fn edges(window: Rect) -> [(bool, f64, bool); 4] {
    [(true, window.x0, true), (true, window.x1, false), (false, window.y0, true), (false, window.y1, false)]
}

/// The area cut by each edge of the window in turn (Sutherland and Hodgman).
fn clip_area(mut points: Vec<Point>, window: Rect) -> BezPath {
    for (upright, at, above) in edges(window) {
        let value = |point: &Point| if upright { point.x } else { point.y };
        let inside = |point: &Point| if above { value(point) >= at } else { value(point) <= at };
        let next = points.iter().cycle().skip(1);
        let mut kept = Vec::new();
        for (a, b) in points.iter().zip(next) {
            if inside(a) {
                kept.push(*a);
            }
            if inside(a) != inside(b) {
                kept.push(a.lerp(*b, (at - value(a)) / (value(b) - value(a))));
            }
        }
        points = kept;
    }
    let mut path = polyline(points);
    if !path.is_empty() {
        path.close_path();
    }
    path
}

/// Each piece of a line cut by the window (Liang and Barsky).
fn clip_line(points: &[Point], window: Rect) -> BezPath {
    let mut path = BezPath::new();
    for (a, b) in points.iter().zip(points.iter().skip(1)) {
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (upright, at, above) in edges(window) {
            let (start, way) = if upright { (a.x, b.x - a.x) } else { (a.y, b.y - a.y) };
            let share = (at - start) / way;
            let enters = (way > 0.0) == above;
            if way == 0.0 {
                if (start < at) == above && start != at {
                    to = -1.0;
                }
            } else if enters {
                from = from.max(share);
            } else {
                to = to.min(share);
            }
        }
        if from < to {
            path.move_to(a.lerp(*b, from));
            path.line_to(a.lerp(*b, to));
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Fill, LineClass};

    const WINDOW: Rect = Rect::new(0.0, 0.0, 10.0, 10.0);

    fn bounds(item: Item) -> Option<Rect> {
        match clip(item, WINDOW) {
            Some(Item::Path(path)) => Some(path.shape.bounding_box()),
            _ => None,
        }
    }

    #[test]
    fn areas_are_cut_at_the_edges() {
        let area = |rect: Rect| Item::area(rect.to_path(0.1), None, Fill::Ink);
        assert_eq!(bounds(area(Rect::new(-5.0, 2.0, 50.0, 8.0))), Some(Rect::new(0.0, 2.0, 10.0, 8.0)));
        assert_eq!(bounds(area(Rect::new(11.0, 2.0, 50.0, 8.0))), None);
        assert_eq!(bounds(area(Rect::new(-1e6, -1e6, 1e6, 1e6))), Some(WINDOW));
    }

    #[test]
    fn lines_are_cut_at_the_edges() {
        let line = |a: (f64, f64), b: (f64, f64)| Item::segment(a.into(), b.into(), LineClass::Detail);
        assert_eq!(bounds(line((-10.0, 5.0), (20.0, 5.0))), Some(Rect::new(0.0, 5.0, 10.0, 5.0)));
        assert_eq!(bounds(line((-5.0, 0.0), (5.0, 10.0))), Some(Rect::new(0.0, 5.0, 5.0, 10.0)));
        assert_eq!(bounds(line((-1.0, -1.0), (-1.0, 20.0))), None);
    }
}
