//! Searches on a graph of places and links: the widest way, and the shortest among the widest.

use super::clearance_arc::Spot;
use crate::base::tolerance::SAME_RADIUS;
use kurbo::Point;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// A straight or curved piece of way between two places.
#[derive(Debug, Clone)]
pub(super) struct Link {
    pub ends: (usize, usize),
    /// Its narrowest place.
    pub narrowest: Spot,
    /// Its course from the first end to the second.
    pub course: Vec<Point>,
}

impl Link {
    fn length(&self) -> f64 {
        self.course.windows(2).map(|pair| if let [a, b] = pair { a.distance(*b) } else { 0.0 }).sum()
    }
}

/// A cost that sorts by `f64::total_cmp`.
#[derive(Clone, Copy, PartialEq)]
struct Cost(f64);

impl Eq for Cost {}

impl PartialOrd for Cost {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Cost {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

/// Places and links, with the places where a way may start and end.
#[derive(Debug, Default)]
pub(super) struct Net {
    pub places: Vec<Spot>,
    pub links: Vec<Link>,
    pub starts: Vec<usize>,
    pub goals: Vec<usize>,
}

/// A way found: its places, and the links between them.
pub(super) struct Found {
    pub places: Vec<usize>,
    pub links: Vec<usize>,
}

impl Net {
    fn radius(&self, place: usize) -> f64 {
        self.places.get(place).map_or(0.0, |spot| spot.r)
    }

    /// Links at each place.
    fn around(&self) -> Vec<Vec<usize>> {
        let mut around = vec![Vec::new(); self.places.len()];
        for (index, link) in self.links.iter().enumerate() {
            for end in [link.ends.0, link.ends.1] {
                if let Some(list) = around.get_mut(end) {
                    list.push(index);
                }
            }
        }
        around
    }

    /// For each place, whether a disc of this radius gets there from a start.
    pub(super) fn flood(&self, radius: f64) -> Vec<bool> {
        let wide = |r: f64| r + SAME_RADIUS >= radius;
        let around = self.around();
        let mut open = vec![false; self.places.len()];
        let mut waiting: Vec<usize> = self.starts.iter().copied().filter(|start| wide(self.radius(*start))).collect();
        while let Some(place) = waiting.pop() {
            let Some(known) = open.get_mut(place) else { continue };
            if std::mem::replace(known, true) {
                continue;
            }
            let links = around.get(place).into_iter().flatten().filter_map(|index| self.links.get(*index));
            let links = links.filter(|link| wide(link.narrowest.r));
            waiting.extend(links.map(|link| if link.ends.0 == place { link.ends.1 } else { link.ends.0 }));
        }
        open
    }

    /// The cheapest way by Dijkstra's search; `step` gives the cost after a link, infinite where it is no way.
    fn cheapest(
        &self,
        first: impl Fn(usize) -> f64,
        last: impl Fn(usize, f64) -> f64,
        step: impl Fn(f64, &Link) -> f64,
    ) -> Option<(f64, Found)> {
        let around = self.around();
        let mut best = vec![f64::INFINITY; self.places.len()];
        let mut came: Vec<Option<(usize, usize)>> = vec![None; self.places.len()];
        let mut heap = BinaryHeap::new();
        for start in &self.starts {
            let cost = first(*start);
            if let Some(known) = best.get_mut(*start).filter(|known| cost < **known) {
                *known = cost;
                heap.push(Reverse((Cost(cost), *start)));
            }
        }
        while let Some(Reverse((Cost(cost), place))) = heap.pop() {
            if best.get(place).is_none_or(|known| cost > *known) {
                continue;
            }
            for index in around.get(place).into_iter().flatten() {
                let Some(link) = self.links.get(*index) else { continue };
                let next = if link.ends.0 == place { link.ends.1 } else { link.ends.0 };
                let cost = step(cost, link);
                if let (Some(known), Some(from)) = (best.get_mut(next), came.get_mut(next))
                    && cost < *known
                {
                    *known = cost;
                    *from = Some((place, *index));
                    heap.push(Reverse((Cost(cost), next)));
                }
            }
        }
        let costs = self.goals.iter().filter_map(|goal| best.get(*goal).map(|cost| (last(*goal, *cost), *goal)));
        let (cost, goal) = costs.min_by(|a, b| a.0.total_cmp(&b.0))?;
        (cost < f64::INFINITY).then(|| (cost, trace(&came, goal)))
    }

    /// The radius of the widest disc that gets from a start to a goal.
    pub fn widest(&self) -> Option<f64> {
        let found = self.cheapest(
            |start| -self.radius(start),
            |goal, cost| cost.max(-self.radius(goal)),
            |cost, link| cost.max(-link.narrowest.r),
        );
        found.map(|(cost, _)| -cost)
    }

    /// The shortest way on which a disc of this radius passes.
    pub fn shortest(&self, radius: f64) -> Option<Found> {
        let enough = |r: f64| r >= radius - SAME_RADIUS;
        let open = |place: usize| enough(self.radius(place));
        let found = self.cheapest(
            |start| if open(start) { 0.0 } else { f64::INFINITY },
            |goal, cost| if open(goal) { cost } else { f64::INFINITY },
            |cost, link| if enough(link.narrowest.r) { cost + link.length() } else { f64::INFINITY },
        );
        found.map(|(_, found)| found)
    }
}

fn trace(came: &[Option<(usize, usize)>], goal: usize) -> Found {
    let mut found = Found { places: vec![goal], links: Vec::new() };
    let mut place = goal;
    while let Some(Some((from, link))) = came.get(place) {
        if found.places.len() > came.len() {
            break;
        }
        found.places.push(*from);
        found.links.push(*link);
        place = *from;
    }
    found.places.reverse();
    found.links.reverse();
    found
}
