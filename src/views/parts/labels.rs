//! Short texts on a piece, each where nothing stands yet; what is under them gives way.

use crate::drawing::{Fill, Item, text_box};
use crate::views::kit::ink::{Taken, centred};
use crate::views::kit::placement::outline;
use kurbo::{Point, Rect, Shape, Vec2};

/// Letters on a piece, and of all that is said beside it, and from line to line there, mm.
pub(super) const LETTERS: f64 = 1.8;
pub(super) const PITCH: f64 = 3.1;
/// Air around them, mm.
const AIR: f64 = 0.35;
/// From the edge of a bore to the middle of its letter, mm.
const OFF: f64 = 1.7;

/// Places that are taken on the picture of a piece, and the texts that stand on it.
pub(super) struct Labels {
    zone: Rect,
    taken: Taken,
    items: Vec<Item>,
}

impl Labels {
    /// Texts may stand in a zone.
    pub fn new(zone: Rect) -> Self {
        Self { zone, taken: Taken::default(), items: Vec::new() }
    }

    /// No text may stand there.
    pub fn keep_off(&mut self, place: Rect) {
        self.taken.add(place);
    }

    /// No text may stand on a line.
    pub fn keep_off_line(&mut self, from: Point, to: Point) {
        self.taken.add_leader(from, to);
    }

    /// Whether nothing stands there.
    pub fn is_free(&self, place: Rect) -> bool {
        self.zone.contains_rect(place) && self.taken.is_free(place)
    }

    /// A text at the first of some places, for its middle, where it has room.
    pub fn put(&mut self, words: &str, turned: bool, places: impl IntoIterator<Item = Point>) -> bool {
        for place in places {
            let text = centred(place, words, LETTERS, turned);
            let bounds = text_box(&text).inflate(AIR, AIR);
            if self.is_free(bounds) {
                self.taken.add(bounds);
                self.items.push(Item::area(outline(bounds), None, Fill::Furniture));
                self.items.push(Item::Text(text));
                return true;
            }
        }
        false
    }

    /// All of it.
    pub fn items(self) -> Vec<Item> {
        self.items
    }
}

/// Places around a bore.
pub(super) fn around(bore: Rect) -> impl Iterator<Item = Point> {
    let off = bore.width().max(bore.height()) / 2.0 + OFF;
    let ways = [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (0.8, 0.8), (0.8, -0.8), (-0.8, 0.8), (-0.8, -0.8)];
    [1.0, 1.7]
        .into_iter()
        .flat_map(move |far| ways.into_iter().map(move |(x, y)| bore.center() + Vec2::new(x, y) * off * far))
}

/// Places along the middle line of a rectangle, from its middle outward.
pub(super) fn along(rect: Rect) -> impl Iterator<Item = Point> {
    let shares = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88];
    let upright = rect.height() > rect.width();
    shares.into_iter().map(move |share| {
        let (x, y) = if upright { (0.5, share) } else { (share, 0.5) };
        Point::new(rect.x0 + rect.width() * x, rect.y0 + rect.height() * y)
    })
}

/// Places over an area, from its middle outward.
pub(super) fn over(rect: Rect) -> impl Iterator<Item = Point> {
    let shares = [0.5, 0.35, 0.65, 0.2, 0.8];
    shares.into_iter().flat_map(move |y| {
        shares.into_iter().map(move |x| Point::new(rect.x0 + rect.width() * x, rect.y0 + rect.height() * y))
    })
}

/// The smallest rectangle around a shape.
pub(super) fn bounds(shape: &impl Shape) -> Rect {
    shape.bounding_box()
}
