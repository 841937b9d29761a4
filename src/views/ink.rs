//! Small drawn pieces that several views share: rings, badges, arrows, boxes that texts must keep off.

use super::placement::{circle, polyline};
use crate::drawing::{Align, Fill, Item, LineClass, Text, text_box};
use kurbo::{Point, Rect, Vec2};

/// Radius of a module's ring, mm.
pub(super) const RING: f64 = 2.9;
/// Radius of a finding's badge, mm.
pub(super) const BADGE: f64 = 2.4;

/// Places that are taken by texts and badges.
#[derive(Debug, Clone, Default)]
pub(super) struct Taken {
    boxes: Vec<Rect>,
}

impl Taken {
    /// Nothing may stand here any more.
    pub fn add(&mut self, place: Rect) {
        self.boxes.push(place);
    }

    /// Nothing stands here, with a little air.
    pub fn is_free(&self, place: Rect) -> bool {
        let place = place.inflate(0.4, 0.4);
        self.boxes
            .iter()
            .all(|other| place.x0 >= other.x1 || other.x0 >= place.x1 || place.y0 >= other.y1 || other.y0 >= place.y1)
    }
}

/// A square about a point.
pub(super) fn square(middle: Point, half: f64) -> Rect {
    Rect::from_center_size(middle, (2.0 * half, 2.0 * half))
}

/// A text centred on a point, perhaps turned to be read from the right.
pub(super) fn centred(middle: Point, words: &str, height: f64, turned: bool) -> Text {
    let (at, turn) = if turned {
        (middle + Vec2::new(height / 2.0, 0.0), 90.0)
    } else {
        (middle - Vec2::new(0.0, height / 2.0), 0.0)
    };
    Text { at, words: words.to_owned(), height, align: Align::Middle, turn, inverse: false }
}

/// A number in a ring.
pub(super) fn ring(middle: Point, number: usize) -> Vec<Item> {
    vec![
        Item::area(circle(middle, RING), Some(LineClass::Detail), Fill::Paper),
        Item::Text(centred(middle, &number.to_string(), if number < 100 { 2.5 } else { 1.8 }, false)),
    ]
}

/// A number in a ring with a leader that ends in a dot.
pub(super) fn on_leader(middle: Point, target: Point, number: usize) -> Vec<Item> {
    let way = target - middle;
    let mut items = Vec::new();
    if way.hypot() > RING {
        items.push(Item::segment(middle + way.normalize() * RING, target, LineClass::Dimension));
        items.push(Item::area(circle(target, 0.5), None, Fill::Ink));
    }
    items.extend(ring(middle, number));
    items
}

/// A finding's number, white on a dark disc.
pub(super) fn badge(middle: Point, number: usize) -> Vec<Item> {
    let text =
        Text { inverse: true, ..centred(middle, &number.to_string(), if number < 10 { 2.5 } else { 1.8 }, false) };
    vec![Item::area(circle(middle, BADGE), None, Fill::Mark), Item::Text(text)]
}

/// A straight line with an arrow head at each end.
pub(super) fn double_arrow(a: Point, b: Point, line: LineClass) -> Vec<Item> {
    let fill = if line == LineClass::Mark { Fill::Mark } else { Fill::Ink };
    vec![Item::segment(a, b, line), head(a, a - b, fill), head(b, b - a, fill)]
}

/// A filled arrow head with its tip at a point, 15 degrees, 2 mm long.
pub(super) fn head(tip: Point, along: Vec2, fill: Fill) -> Item {
    let along = if along.hypot() > 0.0 { along.normalize() } else { Vec2::new(1.0, 0.0) };
    let side = Vec2::new(-along.y, along.x) * 0.35;
    let back = tip - along * 2.0;
    let mut shape = polyline([tip, back + side, back - side]);
    shape.close_path();
    Item::area(shape, None, fill)
}

/// Every text of some items with its box.
pub(super) fn text_boxes<'a>(items: impl IntoIterator<Item = &'a Item>) -> Vec<Rect> {
    let mut boxes = Vec::new();
    for item in items {
        match item {
            Item::Text(text) => boxes.push(text_box(text)),
            Item::Group(group) => boxes.extend(text_boxes(&group.items)),
            Item::Path(_) => {}
        }
    }
    boxes
}
