//! Dimension chains of pictures of the room: along the wall below, heights at both sides.

use super::look::Look;
use super::painter::Painter;
use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::LayerKind;
use crate::drawing::dimension::{Chain, Laid, Running, Side, Stop, lay, lay_running};
use crate::model::{Figures, Tag};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::Taken;
use crate::views::kit::placement::Placement;
use kurbo::{Point, Rect};

/// From the picture to the first chain, mm.
const CLEAR: f64 = 3.0;

/// Chains that would lie on other figures stand farther out by this, mm, so many times.
const STEP: f64 = 4.0;
const TRIES: u32 = 8;

/// Chains on one side: captions and places, as they are seen, true mm; fine to coarse.
pub(in crate::views) type Wanted = Vec<(&'static str, Vec<f64>)>;

/// A picture that dimensions stand around.
pub(in crate::views) struct Around {
    /// What figures say.
    pub figures: Figures,
    /// Its outer edge, true mm.
    pub outer: Rect,
    pub place: Placement,
}

impl Around {
    /// A place as it is seen, with the figure that it has.
    fn stop(&self, side: Side, seen: f64, value: f64) -> Stop {
        let on_paper = self.place.to_paper(Point::new(seen, seen));
        Stop { at: if side.upright() { on_paper.y } else { on_paper.x }, value }
    }

    /// Where extension lines start and where dimension lines may stand.
    fn start(&self, side: Side) -> (f64, f64) {
        let paper = self.place.rect(self.outer);
        match side {
            Side::Above => (paper.y1, paper.y1 + CLEAR),
            Side::Below => (paper.y0, paper.y0 - CLEAR),
            Side::Left => (paper.x0, paper.x0 - CLEAR),
            Side::Right => (paper.x1, paper.x1 + CLEAR),
        }
    }
}

/// Draws running dimensions from a datum on one side of a picture, and takes their places.
pub(in crate::views) fn draw_running(
    side: Side,
    (datum, values): (f64, &[f64]),
    around: &Around,
    taken: &mut Taken,
    canvas: &mut Canvas,
) {
    let stop = |value: f64| around.stop(side, value, (value - datum).abs());
    let stops = sorted(values.to_vec()).into_iter().filter(|value| (value - datum).abs() > SAME_LENGTH).map(stop);
    let running = Running { datum: stop(datum), stops: stops.collect() };
    let Laid { items, boxes, .. } = lay_running(around.figures, side, around.start(side), &running);
    boxes.into_iter().for_each(|text| taken.add(text));
    canvas.group(LayerKind::Dimensions, &format!("running-{side:?}"), "Distances from the datum", items);
}

/// Draws the chains of one side of a picture, and takes their places.
pub(in crate::views) fn draw(side: Side, wanted: &Wanted, around: &Around, taken: &mut Taken, canvas: &mut Canvas) {
    let (face, from) = around.start(side);
    let mut chains: Vec<Chain> = Vec::new();
    for (index, (caption, values)) in wanted.iter().enumerate() {
        let values = sorted(values.clone());
        let again = wanted.iter().skip(index + 1).any(|(_, later)| sorted(later.clone()) == values);
        if values.len() < 2 || again {
            continue;
        }
        let stops = values.iter().map(|value| around.stop(side, *value, *value)).collect();
        chains.push(Chain { caption: (*caption).to_owned(), stops });
    }
    let out = if matches!(side, Side::Above | Side::Right) { STEP } else { -STEP };
    let mut tried = (0..TRIES).map(|step| lay(around.figures, side, (face, from + out * f64::from(step)), &chains));
    let free = |laid: &Laid| laid.boxes.iter().all(|place| taken.is_free(*place));
    let Laid { items, boxes, .. } =
        tried.find(free).unwrap_or_else(|| lay(around.figures, side, (face, from), &chains));
    boxes.into_iter().for_each(|text| taken.add(text));
    let name = if side.upright() { "heights" } else { "lengths" };
    canvas.group(LayerKind::Dimensions, &format!("{name}-{side:?}"), "Dimensions", items);
}

fn sorted(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values.dedup_by(|a, b| (*a - *b).abs() <= SAME_LENGTH);
    values
}

/// Tops of worktops, seats, mattresses and tables, and undersides of what hangs, among what is seen; with the floor and the top
/// of the picture.
pub(super) fn heights(painter: &Painter<'_>, top: f64) -> Vec<f64> {
    let mut values = vec![0.0, top];
    for (_, state) in &painter.states {
        for solid in &state.solids {
            let bounds = solid.prism.bounds();
            if painter.look.depth(&bounds).1 <= painter.plane {
                continue;
            }
            if solid.is_any(&[Tag::Worktop, Tag::Seat, Tag::Mattress, Tag::Table]) {
                values.push(bounds.z.1);
            } else if bounds.z.0 > top / 2.0 && !state.solids.iter().any(|other| other.prism.bounds().z.0 < bounds.z.0)
            {
                values.push(bounds.z.0);
            }
        }
    }
    values.retain(|value| (0.0..=top + SAME_LENGTH).contains(value));
    values
}

/// Edges of the modules that are seen at the wall or nearest to it, along it.
pub(super) fn edges(painter: &Painter<'_>, ends: (f64, f64), over: bool) -> Vec<f64> {
    let mut values = vec![ends.0, ends.1];
    for (_, state) in &painter.states {
        let boxes = state.solids.iter().map(|solid| solid.prism.bounds());
        let Some(bounds) = boxes.reduce(|a, b| a.union(&b)) else { continue };
        let (near, far) = painter.look.depth(&bounds);
        let is_over = bounds.z.0 > 1000.0;
        if near.max(painter.plane) < far && is_over == over {
            let seen = painter.look.rect(&bounds);
            values.extend([seen.x0, seen.x1]);
        }
    }
    values.retain(|value| (ends.0 - SAME_LENGTH..=ends.1 + SAME_LENGTH).contains(value));
    values
}

/// Edges of the openings of the wall that is looked at: along it, and upward.
pub(super) fn openings(model: &crate::model::Model, look: Look, ends: (f64, f64), upward: bool) -> Vec<f64> {
    let mut values = vec![ends.0, ends.1];
    for opening in super::openings::of_wall(model, look.at) {
        let rect = super::openings::seen_rect(look, opening);
        values.extend(if upward { [rect.y0, rect.y1] } else { [rect.x0, rect.x1] });
    }
    values
}
