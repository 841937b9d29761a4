//! Rings beside what they number, on leaders that cross nothing.

use crate::drawing::{Fill, Item, LineClass};
use crate::views::kit::ink::{RING, Taken, ring, square};
use crate::views::kit::placement::circle;
use crate::views::kit::raster::Sums;
use kurbo::{ParamCurve, Point, Rect, Vec2};

/// How far from its module a ring may stand, mm.
const FAR: f64 = 30.0;
/// Step in which places are tried, mm.
const STEP: f64 = 2.0;

/// A ring to be placed.
pub(in crate::views) struct Beside {
    /// Where it may stand.
    pub inside: Rect,
    /// What its leader points to.
    pub middle: Point,
    /// Its number.
    pub number: usize,
}

impl Beside {
    /// The ring with a leader that ends in a dot; with its cost.
    pub fn place(&self, lines: &Sums, taken: &Taken) -> Option<(f64, Vec<Item>)> {
        let Rect { x0, y0, x1, y1 } = self.inside;
        let target = Point::new(self.middle.x.clamp(x0, x1), self.middle.y.clamp(y0, y1));
        let steps = (FAR / STEP) as i32;
        let offsets = (-steps..=steps).flat_map(|row| (-steps..=steps).map(move |column| (row, column)));
        let mut best: Option<(f64, Point)> = None;
        for (row, column) in offsets {
            let middle = target + Vec2::new(f64::from(column), f64::from(row)) * STEP;
            let place = square(middle, RING);
            if !self.inside.contains_rect(place) {
                continue;
            }
            let far = (middle - target).hypot() * 0.4;
            if best.is_some_and(|(least, _)| far >= least) {
                continue;
            }
            let cost = f64::from(lines.within(place.inflate(0.4, 0.4)).0) * 3.0 + far;
            let better = best.is_none_or(|(least, _)| cost < least);
            if better && taken.is_free(place) && taken.lets_through(middle, target) {
                best = Some((cost, middle));
            }
        }
        best.map(|(cost, middle)| (cost + 2.0, on_leader(middle, target, self.number)))
    }
}

fn on_leader(middle: Point, target: Point, number: usize) -> Vec<Item> {
    let way = target - middle;
    let mut items = Vec::new();
    if way.hypot() > RING {
        items.push(Item::segment(middle + way.normalize() * RING, target, LineClass::Dimension));
        items.push(Item::area(circle(target, 0.5), None, Fill::Ink));
    }
    items.extend(ring(middle, number));
    items
}

/// Both ends of the leaders among the items of a label.
pub(in crate::views) fn ends(items: &[Item]) -> impl Iterator<Item = (Point, Point)> {
    let leader = |item: &Item| match item {
        Item::Path(path) if path.line == Some(LineClass::Dimension) => {
            path.shape.segments().next().map(|segment| (segment.start(), segment.end()))
        }
        _ => None,
    };
    items.iter().filter_map(leader)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::views::kit::raster::Raster;
    use kurbo::Shape;

    /// Twelve things in a heap too small for their rings: every leader finds a way across no other.
    #[test]
    fn leaders_cross_no_other() {
        let inside = Rect::new(0.0, 0.0, 120.0, 80.0);
        let mut lines = Raster::new(inside);
        lines.fill(&Rect::new(40.0, 25.0, 80.0, 55.0).to_path(0.1), 1);
        let lines = lines.sums(|cell| cell > 0);
        let mut taken = Taken::default();
        let mut all: Vec<(Point, Point)> = Vec::new();
        for number in 1..=12_u32 {
            let middle = Point::new(50.0 + f64::from(number % 4) * 6.0, 35.0 + f64::from(number / 4) * 4.0);
            let beside = Beside { inside, middle, number: number as usize };
            let Some((_, items)) = beside.place(&lines, &taken) else { continue };
            crate::views::kit::ink::text_boxes(&items).into_iter().for_each(|place| taken.add(place));
            for (a, b) in ends(&items) {
                assert!(taken_apart(&all, (a, b)), "{number}");
                taken.add_leader(a, b);
                all.push((a, b));
            }
        }
        assert!(all.len() >= 8, "{}", all.len());
    }

    /// By another way than the one looked for: the signed areas of the four triangles.
    fn taken_apart(all: &[(Point, Point)], (a, b): (Point, Point)) -> bool {
        let area = |p: Point, q: Point, r: Point| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x) > 0.0;
        all.iter().all(|(c, d)| area(a, b, *c) == area(a, b, *d) || area(*c, *d, a) == area(*c, *d, b))
    }
}
