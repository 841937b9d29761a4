//! Numbers of modules and parts in pictures of the room: in a ring where the thing is seen, else beside it on a leader.

use super::painter::Painter;
use crate::drawing::LayerKind;
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{RING, Taken, ring, square};
use crate::views::kit::placement::Placement;
use crate::views::kit::raster::{Raster, Sums};
use kurbo::{Point, Rect};

/// Steps tried in a direction.
const TRIES: u32 = 16;

/// Draws the number of every module that is seen in a window of the paper.
pub(super) fn module_numbers(
    painter: &Painter<'_>,
    place: Placement,
    window: Rect,
    taken: &mut Taken,
    canvas: &mut Canvas,
) {
    let owners = painter.owners(place, window);
    let mut lines = Raster::new(window);
    canvas.items().for_each(|item| lines.trace(item));
    let lines = lines.sums(|cell| cell > 0);
    for (index, (module, _)) in painter.states.iter().enumerate() {
        let number = u32::try_from(index + 1).unwrap_or(u32::MAX);
        let own = owners.sums(|cell| cell == number);
        let bounds = place.rect(painter.look.rect(&module.extent)).intersect(window);
        if let Some(middle) = spot(bounds, &own, &lines, taken) {
            taken.add(square(middle, RING));
            let title = format!("{}: {}", module.name, module.says);
            canvas.group(LayerKind::Labels, &format!("number-{}", module.name), &title, ring(middle, index + 1));
        }
    }
}

/// The middle of the best place for a ring on own cells: few lines under it, near the middle.
fn spot(bounds: Rect, own: &Sums, lines: &Sums, taken: &Taken) -> Option<Point> {
    let room = bounds.inflate(-RING, -RING);
    if room.width() < 0.0 || room.height() < 0.0 {
        return None;
    }
    let step = |from: f64, to: f64, at: u32| from + (to - from) * f64::from(at) / f64::from(TRIES);
    let mut best: Option<(f64, Point)> = None;
    for row in 0..=TRIES {
        for column in 0..=TRIES {
            let middle = Point::new(step(room.x0, room.x1, column), step(room.y0, room.y1, row));
            let place = square(middle, RING);
            let (seen, all) = own.within(place);
            if seen < all || !taken.is_free(place) {
                continue;
            }
            let cost = f64::from(lines.within(place).0) + (middle - bounds.center()).hypot() * 0.2;
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, middle));
            }
        }
    }
    best.map(|(_, middle)| middle)
}
