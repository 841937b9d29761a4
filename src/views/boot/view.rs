//! One hold with its cargo, seen along an axis: true outlines of the space, of what stands in it and of each piece.

use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::figures::Hold;
use crate::geometry::{Axis, Box3, Point3, Prism, common_bounds};
use crate::model::{Model, Opening, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{centred, plate};
use crate::views::kit::placement::{Placement, outline};
use crate::views::room::look::Look;
use crate::views::room::openings::seen_rect;
use kurbo::{BezPath, Point, Rect, Shape};

/// From where it is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::views) enum From {
    /// x to the right, y up.
    Above,
    /// x to the right, z up.
    Left,
    /// y to the left, z up.
    Front,
}

/// A piece with its number.
#[derive(Debug, Clone, Copy)]
pub(in crate::views) struct Numbered {
    /// Its number on the sheet.
    pub number: usize,
    /// Its place.
    pub place: Box3,
}

/// A hold to be drawn.
#[derive(Debug, Clone, Copy)]
pub(in crate::views) struct HoldView<'a> {
    /// The layout.
    pub model: &'a Model,
    /// The hold.
    pub hold: &'a Hold,
    /// Its pieces.
    pub pieces: &'a [Numbered],
    /// Openings that its cargo goes through.
    pub openings: &'a [&'a Opening],
}

impl From {
    /// The look from there.
    pub fn look(self) -> Look {
        match self {
            Self::Above => Look::inside(Wall::Floor),
            Self::Left => Look::inside(Wall::Right),
            Self::Front => Look::inside(Wall::Rear),
        }
    }
}

impl HoldView<'_> {
    /// Draws it from one side.
    pub fn draw(&self, from: From, place: Placement, canvas: &mut Canvas) {
        let bounds = self.hold.room.space.prism.bounds();
        let window = place.rect(from.look().rect(&bounds));
        let things = self.things(&bounds);
        let (before, behind): (Vec<&Prism>, Vec<&Prism>) =
            things.iter().partition(|thing| self.hides_a_piece(from, &thing.bounds()));
        let filled = behind.iter().map(|prism| shape(from, place, prism)).map(|path| clipped(path, window));
        let filled = filled.map(|path| Item::area(path, Some(LineClass::Visible), Fill::Shell)).collect();
        canvas.group(LayerKind::Shell, &format!("things-{from:?}"), "What stands in the space", filled);
        let lines: Vec<Rect> = things.iter().map(|thing| place.rect(from.look().rect(&thing.bounds()))).collect();
        let (pieces, numbers) = self.pieces(from, place, &lines);
        canvas.group(LayerKind::Furniture, &format!("pieces-{from:?}"), "Cargo", pieces);
        canvas.group(LayerKind::Labels, &format!("numbers-{from:?}"), "Numbers of the cargo", numbers);
        let dashed = before.iter().chain(&behind).map(|prism| clipped(shape(from, place, prism), window));
        let dashed = dashed.map(|path| Item::line(path, LineClass::Above)).collect();
        canvas.group(LayerKind::Hidden, &format!("hidden-{from:?}"), "Hidden or nearer edges", dashed);
        let edge = shape(from, place, &self.hold.room.space.prism);
        canvas.put(LayerKind::Shell, Item::line(edge, LineClass::Cut));
        let holes = self.openings.iter().filter_map(|opening| hole(from, self.model, opening));
        let holes = holes.map(|path| Item::line(place.path(&path), LineClass::Moving)).collect();
        canvas.group(LayerKind::Hidden, &format!("openings-{from:?}"), "Openings for the cargo", holes);
    }

    /// What takes room from the space: what stands in it, and what of the roof is lower than its top.
    fn things(&self, bounds: &Box3) -> Vec<Prism> {
        let near = |prism: &&Prism| common_bounds(&prism.bounds(), bounds).is_some();
        let mut things: Vec<Prism> = self.hold.room.minus.iter().filter(near).cloned().collect();
        let roof = &self.model.space.roof;
        if roof.least_over(bounds.y.0, bounds.y.1).0 < bounds.z.1 {
            let outline = roof.above_outline(bounds.z.1.max(self.model.space.height) * 2.0);
            things.push(Prism { axis: Axis::X, outline, low: bounds.x.0, high: bounds.x.1 });
        }
        things
    }

    /// Whether a thing is in front of some piece. What goes through the whole depth of the space never is.
    fn hides_a_piece(&self, from: From, thing: &Box3) -> bool {
        let axis = from.look().axis();
        let (own, all) = (thing.range(axis), self.hold.room.space.prism.bounds().range(axis));
        if own.0 <= all.0 && own.1 >= all.1 {
            return false;
        }
        let seen = from.look().rect(thing);
        let hidden = |piece: &Numbered| {
            let common = seen.intersect(from.look().rect(&piece.place));
            common.width() > 0.0
                && common.height() > 0.0
                && from.look().depth(thing).0 < from.look().depth(&piece.place).1
        };
        self.pieces.iter().any(hidden)
    }

    /// The pieces, far ones first, each with its number where it is seen, off the edges of `lines` if it can be.
    fn pieces(&self, from: From, place: Placement, lines: &[Rect]) -> (Vec<Item>, Vec<Item>) {
        let mut ordered: Vec<(Rect, &Numbered)> =
            self.pieces.iter().map(|piece| (place.rect(from.look().rect(&piece.place)), piece)).collect();
        ordered.sort_by(|(_, a), (_, b)| from.look().depth(&b.place).0.total_cmp(&from.look().depth(&a.place).0));
        let (mut items, mut numbers) = (Vec::new(), Vec::new());
        for (at, (rect, piece)) in ordered.iter().enumerate() {
            items.push(Item::area(outline(*rect), Some(LineClass::Visible), Fill::Furniture));
            let over: Vec<Rect> = ordered.iter().skip(at + 1).map(|(rect, _)| *rect).collect();
            numbers.extend(number(piece.number, *rect, &over, lines));
        }
        (items, numbers)
    }
}

/// A number in the largest size that finds room on what is seen of a rectangle.
fn number(number: usize, rect: Rect, over: &[Rect], lines: &[Rect]) -> Vec<Item> {
    const STEPS: u32 = 8;
    let words = number.to_string();
    for height in [3.5, 2.5, 1.8] {
        let size = kurbo::Size::new(crate::drawing::text_width(&words, height) + 0.8, height * 1.5);
        if size.width > rect.width() || size.height > rect.height() {
            continue;
        }
        let room = rect.inset((-size.width / 2.0, -size.height / 2.0));
        let at = |step: u32, low: f64, high: f64| low + (high - low) * f64::from(step) / f64::from(STEPS);
        let places = (0..=STEPS).flat_map(|i| (0..=STEPS).map(move |j| (i, j)));
        let places = places.map(|(i, j)| Point::new(at(i, room.x0, room.x1), at(j, room.y0, room.y1)));
        let meets = |text: Rect, other: &Rect| {
            text.x0 < other.x1 && other.x0 < text.x1 && text.y0 < other.y1 && other.y0 < text.y1
        };
        let text = |place: &Point| Rect::from_center_size(*place, size);
        let free = |place: &Point| !over.iter().any(|other| meets(text(place), other));
        let cost = |place: &Point| {
            let crosses = |line: &&Rect| meets(text(place), line) && line.union(text(place)) != **line;
            lines.iter().filter(crosses).count() as f64 * rect.width().hypot(rect.height())
                + (*place - rect.center()).hypot()
        };
        let nearest = places.filter(free).min_by(|a, b| cost(a).total_cmp(&cost(b)));
        if let Some(place) = nearest {
            let text = centred(place, &words, height, false);
            return vec![plate(&text, Fill::Furniture), Item::Text(text)];
        }
    }
    Vec::new()
}

/// A prism as it is seen: its outline, or its bounds across its own axis.
fn shape(from: From, place: Placement, prism: &Prism) -> BezPath {
    if prism.axis == from.look().axis() {
        return place.closed(from.look().polygon(&prism.outline).points());
    }
    outline(place.rect(from.look().rect(&prism.bounds())))
}

/// What of a closed path lies in a window.
fn clipped(path: BezPath, window: Rect) -> BezPath {
    let area = Item::area(path, None, Fill::Paper);
    match crate::views::kit::clip::clip(area, window) {
        Some(Item::Path(path)) => path.shape,
        _ => BezPath::new(),
    }
}

/// An opening as it is seen, if its wall is seen face on.
fn hole(from: From, model: &Model, opening: &Opening) -> Option<BezPath> {
    let seen = match opening.wall {
        Wall::Left | Wall::Right => From::Left,
        Wall::Front | Wall::Rear => From::Front,
        Wall::Roof | Wall::Floor => From::Above,
    };
    if seen == from {
        return Some(seen_rect(from.look(), opening).to_rounded_rect(opening.radius).to_path(0.05));
    }
    let at = |along: f64, up: f64| match opening.wall {
        Wall::Front => Point3 { x: 0.0, y: along, z: up },
        Wall::Rear => Point3 { x: model.space.length, y: along, z: up },
        Wall::Left => Point3 { x: along, y: 0.0, z: up },
        Wall::Right => Point3 { x: along, y: model.space.width, z: up },
        Wall::Roof | Wall::Floor => Point3 { x: along, y: up, z: model.space.height },
    };
    let end = |along: f64, up: f64| from.look().seen(at(along, up).across(from.look().axis()));
    let (a, b) = (end(opening.along.0, opening.up.0), end(opening.along.1, opening.up.1));
    Some(BezPath::from_vec(vec![kurbo::PathEl::MoveTo(a), kurbo::PathEl::LineTo(b)]))
}
