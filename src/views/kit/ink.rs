//! Small drawn pieces that several views share: rings, badges, arrows, boxes that texts must keep off.

use crate::drawing::{Align, Fill, Item, LineClass, Text, text_box, text_width};
use crate::views::kit::placement::{circle, outline, polyline};
use kurbo::{Affine, Point, Rect, Shape, Vec2};

/// Radius of a module's ring, mm.
pub(in crate::views) const RING: f64 = 2.9;
/// How far the fill behind figures stands out, mm.
const PLATE: f64 = 0.4;
/// Radius of a finding's badge, mm.
pub(in crate::views) const BADGE: f64 = 2.4;

/// Places that are taken by texts, badges and leaders.
#[derive(Debug, Clone, Default)]
pub(in crate::views) struct Taken {
    boxes: Vec<Rect>,
    leaders: Vec<(Point, Point)>,
}

impl Taken {
    /// Nothing may stand here any more.
    pub fn add(&mut self, place: Rect) {
        self.boxes.push(place);
    }

    /// Nothing may stand on this leader any more.
    pub fn add_leader(&mut self, from: Point, to: Point) {
        self.leaders.push((from, to));
    }

    /// Nothing stands here, with a little air.
    pub fn is_free(&self, place: Rect) -> bool {
        let place = place.inflate(0.4, 0.4);
        let apart =
            |other: &Rect| place.x0 >= other.x1 || other.x0 >= place.x1 || place.y0 >= other.y1 || other.y0 >= place.y1;
        self.boxes.iter().all(apart) && self.leaders.iter().all(|(a, b)| !runs_through(*a, *b, place))
    }

    /// A leader may run here: through nothing that stands, across no other leader.
    pub fn lets_through(&self, from: Point, to: Point) -> bool {
        self.boxes.iter().all(|place| !runs_through(from, to, place.inflate(0.4, 0.4)))
            && self.leaders.iter().all(|(a, b)| !cross((from, to), (*a, *b)))
    }
}

/// Whether a straight line has a point inside a rectangle (Liang and Barsky).
fn runs_through(a: Point, b: Point, place: Rect) -> bool {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, way, low, high) in [(a.x, b.x - a.x, place.x0, place.x1), (a.y, b.y - a.y, place.y0, place.y1)] {
        if way == 0.0 {
            if start <= low || start >= high {
                return false;
            }
            continue;
        }
        let (p, q) = ((low - start) / way, (high - start) / way);
        (from, to) = (from.max(p.min(q)), to.min(p.max(q)));
    }
    from < to
}

/// Whether two straight lines have a point in common.
fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let sides = |p: Point, q: Point, r: Point, s: Point| (q - p).cross(r - p) * (q - p).cross(s - p);
    let boxes = Rect::from_points(a, b).overlaps(Rect::from_points(c, d));
    boxes && sides(a, b, c, d) <= 0.0 && sides(c, d, a, b) <= 0.0
}

/// A fill behind a line of figures, so that what is under it gives way.
pub(in crate::views) fn plate(text: &Text, fill: Fill) -> Item {
    let half = text_width(&text.words, text.height) / 2.0 + PLATE;
    let middle = match text.align {
        Align::Start => half - PLATE,
        Align::Middle => 0.0,
        Align::End => PLATE - half,
    };
    let flat = Rect::new(middle - half, -PLATE, middle + half, text.height + PLATE);
    let turned = Affine::translate(text.at.to_vec2()) * Affine::rotate(text.turn.to_radians());
    Item::area(turned * outline(flat), None, fill)
}

/// A square about a point.
pub(in crate::views) fn square(middle: Point, half: f64) -> Rect {
    Rect::from_center_size(middle, (2.0 * half, 2.0 * half))
}

/// A text centred on a point, perhaps turned to be read from the right.
pub(in crate::views) fn centred(middle: Point, words: &str, height: f64, turned: bool) -> Text {
    let (at, turn) = if turned {
        (middle + Vec2::new(height / 2.0, 0.0), 90.0)
    } else {
        (middle - Vec2::new(0.0, height / 2.0), 0.0)
    };
    Text { at, words: words.to_owned(), height, align: Align::Middle, turn, inverse: false }
}

/// A number in a ring.
pub(in crate::views) fn ring(middle: Point, number: usize) -> Vec<Item> {
    vec![
        Item::area(circle(middle, RING), Some(LineClass::Detail), Fill::Paper),
        Item::Text(centred(middle, &number.to_string(), if number < 100 { 2.5 } else { 1.8 }, false)),
    ]
}

/// Where the rings among some items stand.
pub(in crate::views) fn rings(items: &[Item]) -> impl Iterator<Item = Rect> {
    items.iter().filter_map(|item| match item {
        Item::Path(path) if path.fill == Some(Fill::Paper) => Some(path.shape.bounding_box()),
        _ => None,
    })
}

/// A finding's number, white on a dark disc.
pub(in crate::views) fn badge(middle: Point, number: usize) -> Vec<Item> {
    let text =
        Text { inverse: true, ..centred(middle, &number.to_string(), if number < 10 { 2.5 } else { 1.8 }, false) };
    vec![Item::area(circle(middle, BADGE), None, Fill::Mark), Item::Text(text)]
}

/// A straight line with an arrow head at each end.
pub(in crate::views) fn double_arrow(a: Point, b: Point, line: LineClass) -> Vec<Item> {
    let fill = if line == LineClass::Mark { Fill::Mark } else { Fill::Ink };
    vec![Item::segment(a, b, line), head(a, a - b, fill), head(b, b - a, fill)]
}

/// A filled arrow head with its tip at a point, 15 degrees, 2 mm long.
pub(in crate::views) fn head(tip: Point, along: Vec2, fill: Fill) -> Item {
    let along = if along.hypot() > 0.0 { along.normalize() } else { Vec2::new(1.0, 0.0) };
    let side = Vec2::new(-along.y, along.x) * 0.35;
    let back = tip - along * 2.0;
    let mut shape = polyline([tip, back + side, back - side]);
    shape.close_path();
    Item::area(shape, None, fill)
}

/// Every text of some items with its box.
pub(in crate::views) fn text_boxes<'a>(items: impl IntoIterator<Item = &'a Item>) -> Vec<Rect> {
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
