//! What is written on the fronts of an elevation: how wide each is, and where its lock sits.

use super::painter::{Front, Painter};
use crate::base::number::trimmed;
use crate::drawing::{Fill, Item, LayerKind, LineClass, text_box};
use crate::geometry::Box3;
use crate::model::{Lock, Module, Move, PoseState};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{Taken, centred, plate};
use crate::views::kit::placement::{Placement, circle};
use kurbo::{Point, Rect, Vec2};

/// Height of the figures, mm.
const LETTERS: f64 = 1.8;
/// Half of the sign of a lock or handle, mm.
const LOCK: f64 = 13.0;
/// How far from the hinge toward the free edge a figure may stand, and how far aside of that line, as shares of the front: first
/// where the lines that meet at the hinge leave it most room.
const STANDS: [(f64, f64); 8] =
    [(0.66, 0.0), (0.5, 0.0), (0.36, 0.0), (0.66, 0.2), (0.66, -0.2), (0.5, 0.15), (0.5, -0.15), (0.25, 0.0)];
/// Draws the widths and the locks of all fronts that are seen.
pub(super) fn draw(painter: &Painter<'_>, place: Placement, window: Rect, taken: &mut Taken, canvas: &mut Canvas) {
    let owners = painter.owners(place, window);
    for (index, (module, state)) in painter.states.iter().enumerate() {
        let number = u32::try_from(index + 1).unwrap_or(u32::MAX);
        let fronts: Vec<(&Move, Front)> =
            state.moves.iter().filter_map(|part| Some((part, painter.seen_front(part)?))).collect();
        if fronts.is_empty() {
            continue;
        }
        let own = owners.sums(|cell| cell == number);
        for (part, front) in fronts {
            let sign = Sign::new(&front, place);
            let lock = sign.lock(painter, module, state, part);
            let mut shown = Vec::new();
            for places in [lock.into_iter().collect(), sign.figures()] {
                let free = |(rect, _): &(Rect, Vec<Item>)| {
                    let (seen, all) = own.within(*rect);
                    seen == all && taken.is_free(*rect) && sign.paper.contains_rect(*rect)
                };
                if let Some((rect, items)) = places.into_iter().find(free) {
                    taken.add(rect);
                    shown.extend(items);
                }
            }
            let title = format!("{} of {}", part.name, module.name);
            canvas.group(LayerKind::Labels, &format!("front-{}-{}", module.name, part.name), &title, shown);
        }
    }
}

/// A front on paper.
struct Sign {
    paper: Rect,
    /// The middle of its hinge, or of the lower edge of what slides.
    from: Point,
    /// The middle of the free edge, or of the upper edge of what slides.
    to: Point,
    width: f64,
    place: Placement,
}

impl Sign {
    fn new(front: &Front, place: Placement) -> Self {
        let paper = place.rect(front.rect);
        let middle = paper.center();
        let from = front.hinge.map_or(Point::new(middle.x, paper.y0), |hinge| place.rect(hinge).center());
        Self { paper, from, to: middle + (middle - from), width: front.rect.width(), place }
    }

    /// The lock or handle where it is, with the room that it takes; nothing in a pose in which the front stands elsewhere.
    fn lock(
        &self,
        painter: &Painter<'_>,
        module: &Module,
        state: &PoseState,
        part: &Move,
    ) -> Option<(Rect, Vec<Item>)> {
        let shown = |lock: &&Lock| state.moves.get(lock.turns).is_some_and(|turns| turns.name == part.name);
        let lock = module.together.locks.iter().find(shown)?;
        let at = self.place.rect(painter.look.rect(&Box3::at(lock.at))).center();
        if !self.paper.contains(at) {
            return None;
        }
        let radius = self.place.length(LOCK);
        let room = Rect::from_center_size(at, (2.0 * radius, 2.0 * radius));
        let cross = |by: Vec2| Item::segment(at - by, at + by, LineClass::Detail);
        let ring = Item::area(circle(at, radius), Some(LineClass::Detail), Fill::Paper);
        Some((room, vec![ring, cross(Vec2::new(radius, 0.0)), cross(Vec2::new(0.0, radius))]))
    }

    /// The width where it may stand, with the room that it takes there.
    fn figures(&self) -> Vec<(Rect, Vec<Item>)> {
        let way = self.to - self.from;
        let words = trimmed(self.width.round(), 0);
        let across = if way.x.abs() > way.y.abs() {
            Vec2::new(0.0, self.paper.height())
        } else {
            Vec2::new(self.paper.width(), 0.0)
        };
        let figure = |(toward, aside): (f64, f64)| {
            let text = centred(self.from + way * toward + across * aside, &words, LETTERS, false);
            (text_box(&text).inflate(0.4, 0.4), vec![plate(&text, Fill::Furniture), Item::Text(text)])
        };
        STANDS.map(figure).into()
    }
}
