//! The shell as obstacles in the plane across an axis.

use super::thing::Thing;
use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Axis, Polygon};
use crate::model::{Model, Wall};
use kurbo::Rect;

/// Walls, floor and roof as seen along an axis, for what lies in a range along it; without the wall `open`.
pub(crate) fn shell(model: &Model, axis: Axis, along: (f64, f64), open: Option<Wall>) -> Vec<(Thing, Polygon)> {
    const FAR: f64 = 10_000.0;
    let space = &model.space;
    let end = |axis| if axis == Axis::X { space.length } else { space.width };
    let top = space.roof.chain().iter().fold(space.height, |top, point| top.max(point.y)) + FAR;
    let (first, second) = axis.plane();
    let wide = |range: (f64, f64)| Rect::new(range.0, -FAR, range.1, top);
    let low_high = |axis| if axis == Axis::X { (Wall::Front, Wall::Rear) } else { (Wall::Left, Wall::Right) };
    let mut found = Vec::new();
    let mut add = |wall: Wall, rect: Rect| {
        if open != Some(wall) {
            found.push((Thing::of_shell(wall_name(wall)), Polygon::rect(rect)));
        }
    };
    let (low, high) = low_high(first);
    add(low, wide((-FAR, 0.0)));
    add(high, wide((end(first), end(first) + FAR)));
    if axis == Axis::Z {
        add(Wall::Left, Rect::new(-FAR, -FAR, end(first) + FAR, 0.0));
        add(Wall::Right, Rect::new(-FAR, end(second), end(first) + FAR, end(second) + FAR));
        for (from, to) in space.roof.lower_than(along.1 - SAME_LENGTH) {
            add(Wall::Roof, Rect::new(-FAR, from, end(first) + FAR, to));
        }
    } else {
        add(Wall::Floor, Rect::new(-FAR, -FAR, end(first) + FAR, 0.0));
    }
    match axis {
        Axis::X => found.push((Thing::of_shell(wall_name(Wall::Roof)), space.roof.above_outline(top))),
        Axis::Y => {
            let lining = space.roof.least_over(along.0, along.1).0;
            found
                .push((Thing::of_shell(wall_name(Wall::Roof)), Polygon::rect(Rect::new(-FAR, lining, FAR * 2.0, top))));
        }
        Axis::Z => {}
    }
    found
}

/// A wall in words.
pub(crate) fn wall_name(wall: Wall) -> &'static str {
    match wall {
        Wall::Front => "the front wall",
        Wall::Rear => "the rear wall",
        Wall::Left => "the left wall",
        Wall::Right => "the right wall",
        Wall::Roof => "the roof",
        Wall::Floor => "the floor",
    }
}

/// A side of something: "at the rear", "at the left".
pub(crate) fn at_the(side: Wall) -> String {
    format!("at the {}", side.name())
}
