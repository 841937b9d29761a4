//! What a plane through the box and the eye behind it see: the room cut, the openings of the wall ahead, the furniture.

use super::heights::Around;
use super::look::Look;
use super::painter::{Painter, other_poses};
use super::{openings, shell};
use crate::drawing::{Item, LayerKind, LineClass};
use crate::geometry::Polygon;
use crate::model::{Arrangement, Model};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::{Placement, outline};
use kurbo::Rect;

/// A plane across a look, placed on paper.
pub(super) struct Slice<'a> {
    pub model: &'a Model,
    pub painter: Painter<'a>,
    /// The inside of the room at the plane, as it is seen, true mm.
    pub room: Polygon,
    pub place: Placement,
}

impl<'a> Slice<'a> {
    /// The plane at a place along the look's axis.
    pub fn new(model: &'a Model, arrangement: &'a Arrangement, look: Look, at: f64, place: Placement) -> Self {
        let states = model.states(arrangement).filter(|(module, _)| !module.outside).collect();
        let painter = Painter { look, plane: look.depths((at, at)).0, states };
        Self { model, painter, room: shell::inside(&model.space, look, at), place }
    }

    /// Bounds of the shell's outside, as they are seen, true mm.
    pub fn outer(&self) -> Rect {
        shell::outside(&self.model.space, &self.room).bounds()
    }

    /// What dimensions stand around.
    pub fn around(&self) -> Around {
        Around { figures: self.model.sheets.figures, outer: self.outer(), place: self.place }
    }

    /// Draws it, and where beds and tables go in other poses in double-dotted lines.
    pub fn draw(&self, canvas: &mut Canvas) {
        let place = self.place;
        shell::draw(self.model, &self.painter, place, canvas);
        openings::draw(self.model, self.painter.look, place, canvas);
        self.painter.paint(place, canvas);
        for (module, state) in &self.painter.states {
            let rects = other_poses(module, state, self.painter.look, self.painter.plane).into_iter();
            let lines = rects.map(|rect| Item::line(outline(place.rect(rect)), LineClass::Moving)).collect();
            let title = format!("Other poses of {}", module.name);
            canvas.group(LayerKind::Hidden, &format!("poses-{}", module.name), &title, lines);
        }
        canvas.clip(place.rect(self.outer()).inflate(0.5, 0.5));
    }
}
