//! Places along a piece that its running dimensions measure.

use crate::drawing::dimension::{Running, Side, Stop, lay_running};
use crate::drawing::{Item, LayerKind};
use crate::figures::WorkBore;
use crate::geometry::{Contour, Polygon};
use crate::joinery::{Row, run_length};
use crate::joints::BoreSide;
use crate::model::{Figures, Machining};
use crate::views::kit::canvas::Canvas;
use kurbo::{Affine, Point, Rect};

/// Figures stand at least so far apart, mm.
const PITCH: f64 = 3.6;
/// More figures than the length of the piece holds, on both ends.
const BEYOND: usize = 3;
/// Places this near are one, mm.
const SAME: f64 = 0.05;

/// What of a piece is measured, the most important first: pairs of (along, across), or one of the two.
pub(super) struct Marks {
    along: Vec<f64>,
    across: Vec<f64>,
}

impl Marks {
    /// The places of one side of a piece. `bores` are those that are drawn there.
    pub fn of(row: &Row, reverse: bool, bores: &[&WorkBore]) -> Self {
        let (length, width, _) = row.finished;
        let mut marks = Self { along: vec![length], across: vec![width] };
        row.outline.iter().for_each(|outline| marks.corners(outline));
        for one in &row.machining {
            match one {
                Machining::Cutout { outline, .. } => marks.rect(outline.bounds()),
                Machining::Groove { reverse: on, .. } if *on == reverse => marks.rect(one.bounds()),
                Machining::Groove { .. } | Machining::Hole { .. } => {}
            }
        }
        let mut order: Vec<&&WorkBore> = bores.iter().collect();
        order.sort_by_key(|bore| bore.of);
        for side in order.chunk_by(|a, b| (a.side, a.of) == (b.side, b.of)) {
            marks.bores(side);
        }
        marks
    }

    fn rect(&mut self, rect: Rect) {
        self.along.extend([rect.x0, rect.x1]);
        self.across.extend([rect.y0, rect.y1]);
    }

    /// Corners, where arcs begin and end.
    fn corners(&mut self, outline: &Polygon) {
        for (from, _) in Contour::of_polygon(outline, crate::base::tolerance::CHORD).pieces() {
            self.along.push(from.x);
            self.across.push(from.y);
        }
    }

    /// Bores of one side; of a run the first and the last.
    fn bores(&mut self, bores: &[&&WorkBore]) {
        let places: Vec<(f64, f64)> = bores.iter().map(|bore| bore.at).collect();
        let side = bores.first().map(|bore| bore.side);
        let mut rest = places.as_slice();
        while !rest.is_empty() {
            let (run, others) = rest.split_at(run_length(rest).max(1));
            for at in run.first().into_iter().chain(run.last()) {
                match side {
                    Some(BoreSide::Front | BoreSide::Back) => self.along.push(at.0),
                    Some(BoreSide::Left | BoreSide::Right) => self.across.push(at.0),
                    _ => {
                        self.along.push(at.0);
                        self.across.push(at.1);
                    }
                }
            }
            rest = others;
        }
    }

    /// Running dimensions under and left of a piece whose picture takes `rect` of the paper; `to_paper` leads there from
    /// the datum corner. Gives how many places found no room.
    pub fn draw(self, figures: Figures, rect: Rect, to_paper: Affine, canvas: &mut Canvas) {
        let point = |along: f64, across: f64| to_paper * Point::new(along, across);
        let along: Vec<Stop> =
            chosen(self.along, rect.width()).into_iter().map(|at| Stop { at: point(at, 0.0).x, value: at }).collect();
        let across: Vec<Stop> =
            chosen(self.across, rect.height()).into_iter().map(|at| Stop { at: point(0.0, at).y, value: at }).collect();
        let datum = point(0.0, 0.0);
        let below = Running { datum: Stop { at: datum.x, value: 0.0 }, stops: along };
        let left = Running { datum: Stop { at: datum.y, value: 0.0 }, stops: across };
        let mut items: Vec<Item> = lay_running(figures, Side::Below, (rect.y0, rect.y0), &below).items;
        items.extend(lay_running(figures, Side::Left, (rect.x0, rect.x0), &left).items);
        canvas.group(LayerKind::Dimensions, "dimensions", "Dimensions from the datum corner", items);
    }
}

/// As many different places as have room along a length of paper, those that come first before the others.
fn chosen(places: Vec<f64>, length: f64) -> Vec<f64> {
    let room = (length / PITCH).floor().max(0.0) as usize + BEYOND;
    let mut kept: Vec<f64> = Vec::new();
    for place in places {
        if kept.len() < room && place > SAME && !kept.iter().any(|known| (known - place).abs() < SAME) {
            kept.push(place);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_whole_size_comes_before_what_finds_no_room() {
        assert_eq!(chosen(vec![800.0, 0.0, 37.0, 37.01, 64.0, 96.0, 128.0, 160.0], 5.0), [800.0, 37.0, 64.0, 96.0]);
    }
}
