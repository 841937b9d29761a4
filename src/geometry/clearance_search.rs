//! Searches on the clearance graph: the widest way, and the shortest among the widest.

use super::clearance_arc::Link;
use super::clearance_arc::Spot;
use super::clearance_ends::Stand;
use super::clearance_graph::Graph;
use crate::base::tolerance::SAME_RADIUS;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};
use std::sync::Arc as Shared;

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

/// The graph with the places where ways start.
#[derive(Debug, Clone)]
pub(super) struct Net {
    pub graph: Shared<Graph>,
    /// Places after the graph's nodes.
    places: Vec<Spot>,
    /// Links after the graph's.
    links: Vec<Link>,
    /// Those links at each place.
    around: BTreeMap<usize, Vec<usize>>,
    /// The pieces of arcs that are cut at a start, in their order along the arc.
    cut: BTreeMap<usize, Vec<usize>>,
    /// Where ways start, with the number of the end.
    pub starts: BTreeMap<usize, usize>,
}

/// What a search has found: cost of each place, and the place and link that each was reached by.
pub(super) struct Searched {
    pub cost: Vec<f64>,
    pub came: Vec<Option<(usize, usize)>>,
}

impl Net {
    /// The graph with stands added as starts, each with the number of its end.
    pub fn new(graph: Shared<Graph>, stands: &[(usize, Stand)]) -> Self {
        let (places, links, around) = (Vec::new(), Vec::new(), BTreeMap::new());
        let mut net = Self { graph, places, links, around, cut: BTreeMap::new(), starts: BTreeMap::new() };
        let mut taps: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (end, stand) in stands {
            let place = match stand {
                Stand::Node(node) => *node,
                Stand::OnArc(arc, spot) => net.tap(&mut taps, *arc, *spot),
                Stand::Off(spot, arc, meet) => {
                    let (place, tap) = (net.add(*spot), net.tap(&mut taps, *arc, *meet));
                    let length = spot.p.distance(meet.p);
                    net.link(Link { ends: (place, tap), narrowest: *spot, length, arc: None });
                    place
                }
            };
            net.starts.entry(place).or_insert(*end);
        }
        for (arc, stops) in taps {
            net.divide(arc, stops);
        }
        net
    }

    fn add(&mut self, spot: Spot) -> usize {
        self.places.push(spot);
        self.graph.nodes.len() + self.places.len() - 1
    }

    fn tap(&mut self, taps: &mut BTreeMap<usize, Vec<usize>>, arc: usize, spot: Spot) -> usize {
        let place = self.add(spot);
        taps.entry(arc).or_default().push(place);
        place
    }

    fn link(&mut self, link: Link) -> usize {
        let index = self.graph.links.len() + self.links.len();
        self.links.push(link);
        for end in [link.ends.0, link.ends.1] {
            self.around.entry(end).or_default().push(index);
        }
        index
    }

    /// Cuts an arc at places on it.
    fn divide(&mut self, arc: usize, mut stops: Vec<usize>) {
        let graph = Shared::clone(&self.graph);
        let Some(graph_arc) = graph.arcs.get(arc) else { return };
        let (a, b) = (graph.spot(graph_arc.ends.0).p, graph.spot(graph_arc.ends.1).p);
        let key = |place: &usize| graph_arc.arc.along(a, b, self.spot(*place).p);
        stops.sort_by(|x, y| key(x).total_cmp(&key(y)));
        let mut from = graph_arc.ends.0;
        for to in stops.into_iter().chain([graph_arc.ends.1]) {
            let piece = graph_arc.arc.piece(arc, self.spot(from), self.spot(to));
            let index = self.link(Link { ends: (from, to), ..piece });
            self.cut.entry(arc).or_default().push(index);
            from = to;
        }
    }

    /// A place.
    pub fn spot(&self, place: usize) -> Spot {
        match place.checked_sub(self.graph.nodes.len()) {
            None => self.graph.spot(place),
            Some(index) => self.places.get(index).copied().unwrap_or_else(|| self.graph.spot(usize::MAX)),
        }
    }

    /// A link.
    pub fn link_at(&self, index: usize) -> Option<&Link> {
        match index.checked_sub(self.graph.links.len()) {
            None => self.graph.links.get(index).filter(|_| !self.cut.contains_key(&index)),
            Some(index) => self.links.get(index),
        }
    }

    /// The ends of the piece of an arc that a place on it lies in.
    pub fn piece(&self, arc: usize, spot: Spot) -> Option<(usize, usize)> {
        let graph_arc = self.graph.arcs.get(arc)?;
        let (a, b) = (self.graph.spot(graph_arc.ends.0).p, self.graph.spot(graph_arc.ends.1).p);
        let key = |p| graph_arc.arc.along(a, b, p);
        let pieces = self.cut.get(&arc).map(Vec::as_slice).unwrap_or_default();
        let mut ends = pieces.iter().filter_map(|piece| self.link_at(*piece)).map(|link| link.ends);
        let here = ends.find(|ends| key(self.spot(ends.1).p) >= key(spot.p));
        let last = || pieces.last().and_then(|piece| self.link_at(*piece)).map(|link| link.ends);
        here.or_else(last).or(Some(graph_arc.ends))
    }

    /// Dijkstra's search from places with a first cost; `step` gives the cost after a link, infinite where it is no way.
    pub fn search(&self, first: &[(usize, f64)], step: impl Fn(f64, &Link) -> f64) -> Searched {
        let mut found = self.unsearched();
        self.go_on(&mut found, first, step);
        found
    }

    /// What a search knows before it begins.
    pub fn unsearched(&self) -> Searched {
        let count = self.graph.nodes.len() + self.places.len();
        Searched { cost: vec![f64::INFINITY; count], came: vec![None; count] }
    }

    /// Goes on with a search from places whose cost is less than, or as, it was, where more links are ways than before.
    pub fn go_on(&self, found: &mut Searched, from: &[(usize, f64)], step: impl Fn(f64, &Link) -> f64) {
        let mut heap = BinaryHeap::new();
        for (place, cost) in from {
            if let Some(known) = found.cost.get_mut(*place).filter(|known| *cost <= **known) {
                *known = *cost;
                heap.push(Reverse((Cost(*cost), *place)));
            }
        }
        while let Some(Reverse((Cost(cost), place))) = heap.pop() {
            if found.cost.get(place).is_none_or(|known| cost > *known) {
                continue;
            }
            let own = self.graph.around.get(place).into_iter().flatten();
            for index in own.chain(self.around.get(&place).into_iter().flatten()) {
                let Some(link) = self.link_at(*index) else { continue };
                let next = if link.ends.0 == place { link.ends.1 } else { link.ends.0 };
                let cost = step(cost, link);
                if let (Some(known), Some(from)) = (found.cost.get_mut(next), found.came.get_mut(next))
                    && cost < *known
                {
                    *known = cost;
                    *from = Some((place, *index));
                    heap.push(Reverse((Cost(cost), next)));
                }
            }
        }
    }

    /// All links.
    pub fn all_links(&self) -> impl Iterator<Item = &Link> {
        (0..self.graph.links.len() + self.links.len()).filter_map(|index| self.link_at(index))
    }
}

/// The shortest ways on which discs pass that get smaller and smaller: each size goes on from what the one before has found.
pub(super) struct Shortest<'a> {
    net: &'a Net,
    /// Radius and place of the starts that discs so far are too large for, the widest last.
    starts: Vec<(f64, usize)>,
    /// The same of the links, with the places at both ends.
    links: Vec<(f64, [usize; 2])>,
    pub found: Searched,
}

impl<'a> Shortest<'a> {
    pub fn new(net: &'a Net) -> Self {
        let mut starts: Vec<_> = net.starts.keys().map(|place| (net.spot(*place).r, *place)).collect();
        let mut links: Vec<_> = net.all_links().map(|link| (link.narrowest.r, [link.ends.0, link.ends.1])).collect();
        starts.sort_by(|a, b| a.0.total_cmp(&b.0));
        links.sort_by(|a, b| a.0.total_cmp(&b.0));
        Self { net, starts, links, found: net.unsearched() }
    }

    /// Goes on with discs of this radius, which is no larger than the one before.
    pub fn let_in(&mut self, radius: f64) {
        let enough = |r: f64| r >= radius - SAME_RADIUS;
        let mut from = Vec::new();
        while let Some((_, place)) = self.starts.pop_if(|(r, _)| enough(*r)) {
            from.push((place, 0.0));
        }
        while let Some((_, ends)) = self.links.pop_if(|(r, _)| enough(*r)) {
            let known = |place: usize| Some((place, *self.found.cost.get(place).filter(|cost| cost.is_finite())?));
            from.extend(ends.into_iter().filter_map(known));
        }
        let step = |cost: f64, link: &Link| if enough(link.narrowest.r) { cost + link.length } else { f64::INFINITY };
        self.net.go_on(&mut self.found, &from, step);
    }
}
