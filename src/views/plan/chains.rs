//! What the dimension chains of a plan measure, on each of its four sides.

use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::dimension::{Chain, Laid, Side, Stop, lay};
use crate::geometry::{Axis, Box3};
use crate::model::{Module, PoseState, Wall};
use crate::views::kit::scene::Scene;
use crate::views::plan::furniture::{Level, level};
use crate::views::plan::openings::reach_outside;
use kurbo::Point;

/// A module within this of a wall stands along it, mm.
const NEAR: f64 = 60.0;
/// From the shell, or what swings beyond it, to the first chain, mm on paper.
const CLEAR: f64 = 3.0;

/// The wall at a side of the sheet.
fn wall(side: Side) -> Wall {
    match side {
        Side::Above => Wall::Right,
        Side::Below => Wall::Left,
        Side::Left => Wall::Front,
        Side::Right => Wall::Rear,
    }
}

/// Lays the chains of all sides; equal chains are given once, the overall ones below and on the left.
pub(in crate::views) fn chains(scene: &Scene<'_>) -> Vec<(Side, Laid)> {
    let outside = scene.outside();
    let (left, below, right, above) = reach_outside(scene);
    let mut given: Vec<(bool, Vec<f64>)> = Vec::new();
    let mut all = Vec::new();
    for side in [Side::Below, Side::Left, Side::Above, Side::Right] {
        let wanted = wanted(scene, side);
        let chains: Vec<Chain> = wanted
            .into_iter()
            .filter(|(_, values)| is_new(&mut given, side.upright(), values))
            .map(|(caption, values)| chain(scene, side, &caption, &values))
            .collect();
        let (face, from) = match side {
            Side::Above => (outside.y1, outside.y1 + above + CLEAR),
            Side::Below => (outside.y0, outside.y0 - below - CLEAR),
            Side::Left => (outside.x0, outside.x0 - left - CLEAR),
            Side::Right => (outside.x1, outside.x1 + right + CLEAR),
        };
        all.push((side, lay(scene.model.sheets.figures, side, (face, from), &chains)));
    }
    all
}

fn is_new(given: &mut Vec<(bool, Vec<f64>)>, upright: bool, values: &[f64]) -> bool {
    let same =
        |other: &[f64]| other.len() == values.len() && other.iter().zip(values).all(|(a, b)| (a - b).abs() < 0.5);
    if given.iter().any(|(way, other)| *way == upright && same(other)) {
        return false;
    }
    given.push((upright, values.to_vec()));
    true
}

fn chain(scene: &Scene<'_>, side: Side, caption: &str, values: &[f64]) -> Chain {
    let stop = |value: &f64| {
        let on_paper = scene.place.to_paper(Point::new(*value, *value));
        Stop { at: if side.upright() { on_paper.y } else { on_paper.x }, value: *value }
    };
    Chain { caption: caption.to_owned(), stops: values.iter().map(stop).collect() }
}

/// Captions and places of the chains of one side, fine to coarse; the coarsest once for each direction.
fn wanted(scene: &Scene<'_>, side: Side) -> Vec<(String, Vec<f64>)> {
    let space = &scene.model.space;
    let length = if side.upright() { space.width } else { space.length };
    let whole = vec![0.0, length];
    let standing = module_edges(scene, side, false);
    let over = module_edges(scene, side, true);
    let mut wanted = Vec::new();
    let known = over.iter().all(|value| standing.iter().any(|other| (value - other).abs() < 0.5));
    let mut add = |caption: &str, values: Vec<f64>| {
        let values = between(values, length);
        if values.len() > 2 {
            wanted.push((caption.to_owned(), values));
        }
    };
    add("modules", standing);
    if side == Side::Right && scene.chains.aisle {
        add("aisle", crate::views::plan::aisles::edges(scene));
    }
    if !known {
        add("above", over);
    }
    add("openings", opening_edges(scene, side));
    flat_edges(scene, side).into_iter().for_each(|edges| add(flat_caption(scene), edges));
    wanted.push(("inside".to_owned(), whole));
    let thickness = space.walls.thickness;
    if thickness > SAME_LENGTH {
        wanted.push(("outside".to_owned(), vec![-thickness, length + thickness]));
    }
    wanted
}

/// The places inside the box in order, with both ends; places closer than a micrometre are one.
fn between(mut values: Vec<f64>, length: f64) -> Vec<f64> {
    values.retain(|value| *value > SAME_LENGTH && *value < length - SAME_LENGTH);
    values.push(0.0);
    values.push(length);
    values.sort_by(f64::total_cmp);
    values.dedup_by(|a, b| (*a - *b).abs() <= SAME_LENGTH);
    values
}

fn opening_edges(scene: &Scene<'_>, side: Side) -> Vec<f64> {
    let wall = wall(side);
    let on_wall = scene.model.openings.iter().filter(|opening| opening.wall == wall);
    on_wall.flat_map(|opening| [opening.along.0, opening.along.1]).collect()
}

/// In what the openings lie that chains along or across the roof and the floor measure.
fn flat_caption(scene: &Scene<'_>) -> &'static str {
    let any = |wall: Wall| scene.model.openings.iter().any(|opening| opening.wall == wall);
    match (any(Wall::Roof), any(Wall::Floor)) {
        (true, true) => "roof and floor",
        (false, true) => "floor",
        _ => "roof",
    }
}

/// Edges of the openings in roof and floor, above the view along it, right of it across; those side by side in that
/// direction have rows of their own.
fn flat_edges(scene: &Scene<'_>, side: Side) -> Vec<Vec<f64>> {
    let hatches = scene.model.openings.iter().filter(|opening| opening.lies_flat());
    let ranges = hatches.filter_map(|hatch| match side {
        Side::Above if scene.chains.roof_along => Some(hatch.along),
        Side::Right if scene.chains.roof_across => Some(hatch.up),
        _ => None,
    });
    apart(ranges.collect())
}

/// Rows of the edges of ranges, none of which overlaps another of its row.
fn apart(mut ranges: Vec<(f64, f64)>) -> Vec<Vec<f64>> {
    ranges.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    ranges.dedup();
    let mut rows: Vec<Vec<f64>> = Vec::new();
    for (low, high) in ranges {
        match rows.iter_mut().find(|row| row.last().is_none_or(|last| *last <= low + SAME_LENGTH)) {
            Some(row) => row.extend([low, high]),
            None => rows.push(vec![low, high]),
        }
    }
    rows
}

/// Edges along a side's wall of the modules that stand at it, or that are nearest to it and stand at neither it nor
/// the wall across; those wholly above the plane of the plan or the others.
fn module_edges(scene: &Scene<'_>, side: Side, over: bool) -> Vec<f64> {
    let states = scene.model.states(scene.arrangement).filter(|(_, state)| is_above(state) == over);
    states.filter_map(|(_, state)| edges(scene, state, side)).flat_map(|(low, high)| [low, high]).collect()
}

fn is_above(state: &PoseState) -> bool {
    state.solids.iter().all(|solid| level(solid) == Level::Above)
}

fn edges(scene: &Scene<'_>, state: &PoseState, side: Side) -> Option<(f64, f64)> {
    let boxes: Vec<Box3> = state.solids.iter().map(|solid| solid.prism.bounds()).collect();
    let (along, across) = if side.upright() { (Axis::Y, Axis::X) } else { (Axis::X, Axis::Y) };
    let space = &scene.model.space;
    let far = if side.upright() { space.length } else { space.width };
    let low_side = matches!(wall(side), Wall::Front | Wall::Left);
    let distance = |b: &Box3| {
        let (low, high) = b.range(across);
        if low_side { (low, far - high) } else { (far - high, low) }
    };
    let join = |boxes: &mut dyn Iterator<Item = &Box3>| {
        boxes.map(|b| b.range(along)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
    };
    let near = join(&mut boxes.iter().filter(|b| distance(b).0 <= NEAR));
    let whole = boxes.iter().copied().reduce(|a, b| a.union(&b));
    near.or_else(|| {
        free_standing(space, whole).then(|| join(&mut boxes.iter())).flatten().filter(|_| {
            whole.is_some_and(|b| distance(&b).0 < distance(&b).1 || (distance(&b).0 == distance(&b).1 && low_side))
        })
    })
}

/// At no wall.
fn free_standing(space: &crate::model::BoxSpace, bounds: Option<Box3>) -> bool {
    bounds.is_some_and(|b| b.x.0 > NEAR && b.y.0 > NEAR && space.length - b.x.1 > NEAR && space.width - b.y.1 > NEAR)
}

/// The modules of the arrangement with their numbers, in file order.
pub(in crate::views) fn numbered<'a>(scene: &Scene<'a>) -> impl Iterator<Item = (usize, &'a Module, &'a PoseState)> {
    scene.model.states(scene.arrangement).enumerate().map(|(index, (module, state))| (index + 1, module, state))
}

#[cfg(test)]
mod tests {
    use super::apart;

    // Two hatches of 400 and 500 that overlap by 150 across the box, as in a trailer; a third beyond both.
    #[test]
    fn overlapping_hatches_have_rows_of_their_own() {
        let rows = apart(vec![(1200.0, 1700.0), (950.0, 1350.0), (1700.0, 2000.0)]);
        assert_eq!(rows, [vec![950.0, 1350.0, 1700.0, 2000.0], vec![1200.0, 1700.0]]);
        assert_eq!(apart(vec![(0.0, 400.0), (0.0, 400.0)]), [vec![0.0, 400.0]]);
        assert!(apart(vec![]).is_empty());
    }
}
