//! Numbers of parts: on their pieces where these have room, the others beside on leaders.

use crate::drawing::{Item, LayerKind};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{RING, Taken, ring, rings, square};
use crate::views::kit::leaders::{Beside, ends};
use crate::views::kit::raster::Sums;
use kurbo::{Point, Rect};

/// How far beside a view numbers may stand, mm.
const BESIDE: f64 = 14.0;

/// A part that gets its number in a view.
pub(super) struct Wanted {
    pub number: usize,
    pub name: String,
    /// The piece of it that is seen best, on paper.
    pub at: Rect,
    /// Enough of it is seen for the number to stand on it.
    pub plain: bool,
}

/// Numbers on their pieces where these have room, the others beside on leaders; what comes back found no room.
pub(super) fn numbers(
    wanted: &[Wanted],
    view: Rect,
    lines: &Sums,
    taken: &mut Taken,
    canvas: &mut Canvas,
) -> Vec<usize> {
    let (on, beside): (Vec<&Wanted>, Vec<&Wanted>) =
        wanted.iter().partition(|one| one.plain && one.at.contains_rect(square(one.at.center(), RING)));
    let mut put = |one: &Wanted, items: Vec<Item>, taken: &mut Taken| {
        ends(&items).for_each(|(from, to)| taken.add_leader(from, to));
        rings(&items).for_each(|place| taken.add(place));
        canvas.group(
            LayerKind::Labels,
            &format!("number-{}", one.name),
            &format!("{}: {}", one.number, one.name),
            items,
        );
    };
    let (mut left, mut without) = (beside, Vec::new());
    for one in on {
        let place = square(one.at.center(), RING);
        if taken.is_free(place) { put(one, ring(one.at.center(), one.number), taken) } else { left.push(one) }
    }
    for one in left {
        let inside = view.inflate(BESIDE, BESIDE);
        let found = targets(one.at)
            .into_iter()
            .filter_map(|middle| Beside { inside, middle, number: one.number }.place(lines, taken));
        match found.min_by(|a, b| a.0.total_cmp(&b.0)) {
            Some((_, items)) => put(one, items, taken),
            None => without.push(one.number),
        }
    }
    without
}

/// Where a leader may end on a piece: its middle and near both its ends.
fn targets(at: Rect) -> [Point; 3] {
    let end = |share: f64| Point::new(at.x0 + at.width() * share, at.y0 + at.height() * share);
    let level = at.width() >= at.height();
    let near = |share: f64| {
        if level { Point::new(end(share).x, at.center().y) } else { Point::new(at.center().x, end(share).y) }
    };
    [at.center(), near(0.12), near(0.88)]
}
