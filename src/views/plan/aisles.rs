//! What stands across the width and what is free between it: the row of depths that goes on longest along the box.

use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::Box3;
use crate::views::kit::scene::Scene;
use crate::views::plan::furniture::{Level, level};

/// Places of one row across the box, mm.
type Row = Vec<f64>;

/// The edges across the width of what stands along the longest part of the box; none if nothing does, or if all that
/// stands goes from wall to wall.
pub(in crate::views) fn edges(scene: &Scene<'_>) -> Row {
    let boxes = standing(scene);
    let inside = |x: &f64| *x > 0.0 && *x < scene.model.space.length;
    let mut breaks: Vec<f64> = boxes.iter().flat_map(|b| [b.x.0, b.x.1]).filter(inside).collect();
    breaks.extend([0.0, scene.model.space.length]);
    breaks.sort_by(f64::total_cmp);
    let mut rows: Vec<(Row, f64)> = Vec::new();
    for (a, b) in breaks.iter().zip(breaks.iter().skip(1)) {
        let row = row(&boxes, f64::midpoint(*a, *b), scene.model.space.width);
        match rows.iter_mut().find(|(other, _)| same(other, &row)) {
            Some((_, long)) => *long += b - a,
            None => rows.push((row, b - a)),
        }
    }
    let mut longest: Option<(Row, f64)> = None;
    for (row, long) in rows.into_iter().filter(|(row, _)| !row.is_empty()) {
        if longest.as_ref().is_none_or(|(_, most)| long > most + SAME_LENGTH) {
            longest = Some((row, long));
        }
    }
    longest.map(|(row, _)| row).unwrap_or_default()
}

/// Everything that stands in the box below the plane of the plan or through it.
fn standing(scene: &Scene<'_>) -> Vec<Box3> {
    let solids = scene.model.states(scene.arrangement).flat_map(|(_, state)| &state.solids);
    solids.filter(|solid| level(solid) != Level::Above).map(|solid| solid.prism.bounds()).collect()
}

fn same(a: &[f64], b: &[f64]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| (a - b).abs() < SAME_LENGTH)
}

/// Edges of what stands at a place along the box; what overlaps or touches counts as one.
fn row(boxes: &[Box3], x: f64, width: f64) -> Row {
    let mut ranges: Vec<(f64, f64)> = boxes.iter().filter(|b| b.x.0 < x && x < b.x.1).map(|b| b.y).collect();
    ranges.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Vec<(f64, f64)> = Vec::new();
    for range in ranges {
        match merged.last_mut() {
            Some(last) if range.0 <= last.1 + SAME_LENGTH => last.1 = last.1.max(range.1),
            _ => merged.push(range),
        }
    }
    let edges = merged.into_iter().flat_map(|(low, high)| [low, high]);
    let mut edges: Row = edges.filter(|y| *y > SAME_LENGTH && *y < width - SAME_LENGTH).collect();
    edges.dedup_by(|a, b| (*a - *b).abs() <= SAME_LENGTH);
    edges
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Model;
    use crate::views::kit::placement::Placement;
    use crate::views::kit::scene::Extra;
    use crate::views::sample::{block, empty};
    use kurbo::Point;

    fn of(model: &Model) -> Row {
        let place = Placement { scale: 1.0, origin: Point::ZERO };
        edges(&Scene { model, arrangement: &model.arrangements[0], place, chains: Extra::NONE })
    }

    // Depths 560 left and 860 right of 2200, so 780 between; further back a room of 850.
    #[test]
    fn the_row_that_goes_on_longest() {
        let mut model = empty(5200.0, 2200.0);
        block(&mut model, "bed", (0.0, 1440.0), (0.0, 2200.0), (0.0, 760.0));
        block(&mut model, "galley", (1460.0, 2930.0), (0.0, 560.0), (0.0, 900.0));
        block(&mut model, "hob", (1500.0, 2000.0), (20.0, 540.0), (880.0, 900.0));
        block(&mut model, "locker", (1460.0, 2930.0), (0.0, 320.0), (1500.0, 1900.0));
        block(&mut model, "dinette", (1460.0, 3300.0), (1340.0, 2200.0), (0.0, 860.0));
        block(&mut model, "room", (3470.0, 4350.0), (0.0, 850.0), (0.0, 1940.0));
        assert_eq!(of(&model), [560.0, 1340.0]);
        block(&mut model, "shelf", (4350.0, 5200.0), (0.0, 850.0), (0.0, 400.0));
        assert_eq!(of(&model), [850.0]);
        assert!(of(&empty(5200.0, 2200.0)).is_empty());
    }
}
