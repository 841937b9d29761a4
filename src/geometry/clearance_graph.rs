//! The clearance graph of a region: its medial axis, with what every question to it needs.
//!
//! Every way of a disc through the region can be moved onto these arcs without becoming narrower, so the widest disc is
//! found on the graph.

use super::clearance_arc::{GraphArc, Link, Spot, nearest_on};
use super::clearance_bins::{Bins, FIRST_REACH};
use super::medial::medial_axis;
use super::region::Region;
use kurbo::{Point, Rect};

/// Nodes with their clearance, and arcs; the boundary they are of; and where to find them.
#[derive(Debug, Clone, Default)]
pub(super) struct Graph {
    pub nodes: Vec<Spot>,
    pub arcs: Vec<GraphArc>,
    /// Narrowest place and length of each arc, in their order.
    pub links: Vec<Link>,
    /// Arcs at each node.
    pub around: Vec<Vec<usize>>,
    /// Edges of the region, the region on their left.
    pub boundary: Vec<(Point, Point)>,
    /// What each arc lies in, with some room around it.
    bounds: Vec<Rect>,
    edges_by_x: Bins,
    arcs_by_x: Bins,
    nodes_by_x: Bins,
}

impl Graph {
    /// The graph of a region; empty if the region is.
    pub fn new(region: &Region) -> Self {
        let (nodes, arcs) = medial_axis(region);
        let mut graph = Self { nodes, arcs, ..Self::bounded_by(region) };
        graph.prepare();
        graph
    }

    /// The boundary of a region, without nodes and arcs.
    fn bounded_by(region: &Region) -> Self {
        let boundary: Vec<(Point, Point)> = region.edges().collect();
        let ranges: Vec<(f64, f64)> = boundary.iter().map(|(a, b)| (a.x.min(b.x), a.x.max(b.x))).collect();
        Self { boundary, edges_by_x: Bins::new(&ranges), ..Self::default() }
    }

    /// Works out what every question to the graph needs.
    fn prepare(&mut self) {
        self.around = vec![Vec::new(); self.nodes.len()];
        for (index, graph_arc) in self.arcs.iter().enumerate() {
            let (a, b) = (self.spot(graph_arc.ends.0), self.spot(graph_arc.ends.1));
            let link = Link { ends: graph_arc.ends, ..graph_arc.arc.piece(index, a, b) };
            self.links.push(link);
            self.bounds.push(graph_arc.arc.bounds(a.p, b.p));
            for end in [graph_arc.ends.0, graph_arc.ends.1] {
                self.around.get_mut(end).into_iter().for_each(|list| list.push(index));
            }
        }
        let arcs: Vec<(f64, f64)> = self.bounds.iter().map(|bounds| (bounds.x0, bounds.x1)).collect();
        let nodes: Vec<(f64, f64)> = self.nodes.iter().map(|node| (node.p.x, node.p.x)).collect();
        (self.arcs_by_x, self.nodes_by_x) = (Bins::new(&arcs), Bins::new(&nodes));
    }

    /// A node; nothing for an index that is none.
    pub fn spot(&self, node: usize) -> Spot {
        self.nodes.get(node).copied().unwrap_or(Spot { p: Point::ZERO, r: 0.0 })
    }

    /// Edges that come to a range along x, and maybe some more.
    pub fn edges_near(&self, low: f64, high: f64) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.edges_by_x.near(low, high).into_iter().filter_map(|index| self.boundary.get(index)).copied()
    }

    /// Whether a range along x reaches over the whole boundary.
    pub fn covered_by(&self, low: f64, high: f64) -> bool {
        self.edges_by_x.covers(low, high)
    }

    /// Nodes in a rectangle.
    pub fn nodes_in(&self, rect: Rect) -> impl Iterator<Item = (usize, Spot)> + '_ {
        let near = self.nodes_by_x.near(rect.x0, rect.x1).into_iter();
        near.map(|index| (index, self.spot(index))).filter(move |(_, node)| rect.contains(node.p))
    }

    /// Arcs that come to a rectangle, and maybe some more.
    pub fn arcs_in(&self, rect: Rect) -> impl Iterator<Item = (usize, &GraphArc)> + '_ {
        let meets = move |bounds: &Rect| {
            bounds.x0 <= rect.x1 && bounds.x1 >= rect.x0 && bounds.y0 <= rect.y1 && bounds.y1 >= rect.y0
        };
        let near = self.arcs_by_x.near(rect.x0, rect.x1).into_iter();
        near.filter(move |index| self.bounds.get(*index).is_some_and(meets))
            .filter_map(|index| Some((index, self.arcs.get(index)?)))
    }

    /// The point of the boundary that is nearest; `None` if there is no boundary.
    pub fn nearest(&self, p: Point) -> Option<Point> {
        let mut reach = FIRST_REACH;
        loop {
            let (low, high) = (p.x - reach, p.x + reach);
            let feet = self.edges_near(low, high).map(|(a, b)| nearest_on(a, b, p));
            let foot = feet.min_by(|a, b| a.distance(p).total_cmp(&b.distance(p)));
            if foot.is_some_and(|foot| foot.distance(p) <= reach) || self.covered_by(low, high) || !reach.is_finite() {
                return foot;
            }
            reach *= 4.0;
        }
    }

    /// Whether a point off the boundary lies in the region, by the number of edges above it.
    pub fn contains(&self, p: Point) -> bool {
        let above =
            |(a, b): &(Point, Point)| (a.x > p.x) != (b.x > p.x) && p.y < a.y + (b.y - a.y) * (p.x - a.x) / (b.x - a.x);
        self.edges_near(p.x, p.x).filter(above).count() % 2 == 1
    }
}
