//! Rectangles by place, in a tree: what comes to a place is found without looking at everything.

use crate::base::tolerance::SHARE_OF_RANGE;
use kurbo::{Point, Rect};
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Most rectangles of a leaf.
const LEAF: usize = 8;

/// Squares of distances that differ by less than this share may be the same.
const ALIKE: f64 = 1.0 + SHARE_OF_RANGE;

/// What is looked for.
pub(super) trait Look {
    /// Whether anything in this rectangle can be of interest.
    fn comes(&self, bounds: &Rect) -> bool;
    /// How far away it is; what is nearer is looked at first.
    fn distance(&self, bounds: &Rect) -> f64;
    /// Takes the thing with this number; whether less comes after that.
    fn take(&mut self, index: usize) -> bool;
}

/// A node of the tree, before all that lies under it.
#[derive(Debug, Clone)]
struct Node {
    bounds: Rect,
    /// Its part of the order.
    items: (usize, usize),
    /// The second of the two nodes under it, the first being the next one; `None` for a leaf.
    second: Option<usize>,
}

/// Numbers of rectangles by place.
#[derive(Debug, Clone, Default)]
pub(super) struct Places {
    bounds: Vec<Rect>,
    /// The numbers in the order of the tree.
    order: Vec<usize>,
    nodes: Vec<Node>,
}

impl Places {
    /// A tree of rectangles, which are numbered in their order.
    pub fn new(bounds: Vec<Rect>) -> Self {
        let mut order: Vec<usize> = (0..bounds.len()).collect();
        let mut places = Self { nodes: Vec::with_capacity(bounds.len()), bounds, order: Vec::new() };
        if !order.is_empty() {
            places.grow(&mut order, 0);
        }
        places.order = order;
        places
    }

    /// Adds the node of some rectangles, the first of which has this place in the order, and all under it.
    fn grow(&mut self, items: &mut [usize], first: usize) {
        let of = |index: &usize| self.bounds.get(*index).copied().unwrap_or_default();
        let centre = |index: &usize| of(index).center();
        let bounds = items.iter().map(of).reduce(|a, b| a.union(b)).unwrap_or_default();
        let number = self.nodes.len();
        let node = Node { bounds, items: (first, first + items.len()), second: None };
        if items.len() > LEAF {
            let start = items.first().map(centre).unwrap_or_default();
            let centres = items.iter().fold(Rect::from_points(start, start), |all, index| all.union_pt(centre(index)));
            let wide = centres.width() >= centres.height();
            let key = |index: &usize| if wide { centre(index).x } else { centre(index).y };
            let half = items.len() / 2;
            items.select_nth_unstable_by(half, |a, b| key(a).total_cmp(&key(b)).then(a.cmp(b)));
            self.nodes.push(node);
            let (low, high) = items.split_at_mut(half);
            self.grow(low, first);
            let second = self.nodes.len();
            if let Some(node) = self.nodes.get_mut(number) {
                node.second = Some(second);
            }
            self.grow(high, first + half);
        } else {
            self.nodes.push(node);
        }
    }

    /// Takes all that comes, leaf by leaf, the nearest first: what is taken may rule out what is not yet.
    pub fn look(&self, look: &mut impl Look) {
        // Distances are not negative, so their bits are in the order of their values.
        let mut next = BinaryHeap::with_capacity(32);
        let mut changes = 1;
        next.push(Reverse((0, 0, 0)));
        while let Some(Reverse((_, number, seen))) = next.pop() {
            let Some(node) = self.nodes.get(number) else { continue };
            if seen < changes && !look.comes(&node.bounds) {
                continue;
            }
            let Some(second) = node.second else {
                for index in self.order.get(node.items.0..node.items.1).unwrap_or_default() {
                    if self.bounds.get(*index).is_some_and(|bounds| look.comes(bounds)) && look.take(*index) {
                        changes += 1;
                    }
                }
                continue;
            };
            for number in [number + 1, second] {
                if let Some(node) = self.nodes.get(number).filter(|node| look.comes(&node.bounds)) {
                    next.push(Reverse((look.distance(&node.bounds).to_bits(), number, changes)));
                }
            }
        }
    }

    /// The smallest rectangle round all; `None` if there is none.
    pub fn bounds(&self) -> Option<Rect> {
        self.nodes.first().map(|node| node.bounds)
    }

    /// The numbers of all rectangles that come to one, in their order.
    pub fn meeting(&self, rect: Rect) -> Vec<usize> {
        let mut look = Meeting { rect, found: Vec::new() };
        self.look(&mut look);
        look.found.sort_unstable();
        look.found
    }

    /// The thing that is nearest to a point, given the distance of each, which is not nearer than its rectangle; the first of
    /// several; `None` if there is none.
    pub fn nearest(&self, p: Point, distance: impl Fn(usize) -> f64) -> Option<usize> {
        let mut look = Nearest { p, distance, found: None };
        self.look(&mut look);
        look.found.map(|(_, index)| index)
    }
}

/// The square of how far two rectangles are apart.
pub(super) fn apart(a: &Rect, b: &Rect) -> f64 {
    let x = (b.x0 - a.x1).max(a.x0 - b.x1).max(0.0);
    let y = (b.y0 - a.y1).max(a.y0 - b.y1).max(0.0);
    x * x + y * y
}

/// Whether two rectangles have a point in common.
pub(super) fn meet(a: &Rect, b: &Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

struct Meeting {
    rect: Rect,
    found: Vec<usize>,
}

impl Look for Meeting {
    fn comes(&self, bounds: &Rect) -> bool {
        meet(bounds, &self.rect)
    }

    fn distance(&self, _: &Rect) -> f64 {
        0.0
    }

    fn take(&mut self, index: usize) -> bool {
        self.found.push(index);
        false
    }
}

struct Nearest<F> {
    p: Point,
    distance: F,
    found: Option<(f64, usize)>,
}

impl<F: Fn(usize) -> f64> Look for Nearest<F> {
    fn comes(&self, bounds: &Rect) -> bool {
        self.found.is_none_or(|(nearest, _)| self.distance(bounds) <= nearest * nearest * ALIKE)
    }

    fn distance(&self, bounds: &Rect) -> f64 {
        apart(&Rect::from_points(self.p, self.p), bounds)
    }

    fn take(&mut self, index: usize) -> bool {
        let found = ((self.distance)(index), index);
        let nearer = self.found.is_none_or(|known| found.0.total_cmp(&known.0).then(index.cmp(&known.1)).is_lt());
        if nearer {
            self.found = Some(found);
        }
        nearer
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn random() -> impl FnMut(u64) -> f64 {
        let mut state = 3_u64;
        move |most| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) % (most + 1)) as f64
        }
    }

    #[test]
    fn what_is_near_and_what_is_nearest_are_those_of_a_look_at_all() {
        let mut random = random();
        for count in [0, 1, 8, 9, 300] {
            let mut rect = |size: u64| {
                let (x, y) = (random(1000), random(500));
                Rect::new(x, y, x + random(size), y + random(size) * random(1))
            };
            let mut rects: Vec<Rect> = (0..count).map(|_| rect(40)).collect();
            // A long one, whose middle is far from most that it is near to.
            rects.extend((count > 8).then_some(Rect::new(0.0, 0.0, 1000.0, 0.0)));
            let places = Places::new(rects.clone());
            for _ in 0..50 {
                let about = rect(200);
                let all: Vec<usize> = (0..rects.len()).filter(|index| meet(&rects[*index], &about)).collect();
                assert_eq!(places.meeting(about), all);
                let p = about.origin();
                let distance = |index: usize| apart(&Rect::from_points(p, p), &rects[index]).sqrt();
                let nearest = (0..rects.len()).min_by(|a, b| distance(*a).total_cmp(&distance(*b)));
                assert_eq!(places.nearest(p, distance), nearest);
            }
            assert_eq!(places.bounds(), rects.iter().copied().reduce(|a, b| a.union(b)));
        }
    }
}
