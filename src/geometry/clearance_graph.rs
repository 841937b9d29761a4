//! The clearance graph of a region: its medial axis, with what every question to it needs.
//!
//! Every way of a disc through the region can be moved onto these arcs without becoming narrower, so the widest disc is
//! found on the graph.

use super::clearance_arc::{GraphArc, Link, Spot, nearest_on};
use super::medial::medial_axis;
use super::places::Places;
use super::region::Region;
use crate::base::tolerance::CLEARANCE_GRID;
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
    edges_by_place: Places,
    /// What each arc lies in, with some room around it.
    arcs_by_place: Places,
    nodes_by_place: Places,
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
        let bounds = boundary.iter().map(|(a, b)| Rect::from_points(*a, *b)).collect();
        Self { boundary, edges_by_place: Places::new(bounds), ..Self::default() }
    }

    /// Works out what every question to the graph needs.
    fn prepare(&mut self) {
        self.around = vec![Vec::new(); self.nodes.len()];
        let mut bounds = Vec::with_capacity(self.arcs.len());
        for (index, graph_arc) in self.arcs.iter().enumerate() {
            let (a, b) = (self.spot(graph_arc.ends.0), self.spot(graph_arc.ends.1));
            let link = Link { ends: graph_arc.ends, ..graph_arc.arc.piece(index, a, b) };
            self.links.push(link);
            bounds.push(graph_arc.arc.bounds(a.p, b.p));
            for end in [graph_arc.ends.0, graph_arc.ends.1] {
                self.around.get_mut(end).into_iter().for_each(|list| list.push(index));
            }
        }
        let nodes = self.nodes.iter().map(|node| Rect::from_points(node.p, node.p)).collect();
        (self.arcs_by_place, self.nodes_by_place) = (Places::new(bounds), Places::new(nodes));
    }

    /// A node; nothing for an index that is none.
    pub fn spot(&self, node: usize) -> Spot {
        self.nodes.get(node).copied().unwrap_or(Spot { p: Point::ZERO, r: 0.0 })
    }

    /// Edges whose bounds come to a rectangle.
    pub fn edges_near(&self, rect: Rect) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.edges_by_place.meeting(rect).into_iter().filter_map(|index| self.boundary.get(index)).copied()
    }

    /// Whether a rectangle reaches over the whole boundary.
    pub fn covered_by(&self, rect: Rect) -> bool {
        self.edges_by_place.bounds().is_none_or(|all| all.union(rect) == rect)
    }

    /// Nodes in a rectangle.
    pub fn nodes_in(&self, rect: Rect) -> impl Iterator<Item = (usize, Spot)> + '_ {
        let near = self.nodes_by_place.meeting(rect).into_iter();
        near.map(|index| (index, self.spot(index))).filter(move |(_, node)| rect.contains(node.p))
    }

    /// Arcs that come to a rectangle, and maybe some more.
    pub fn arcs_in(&self, rect: Rect) -> impl Iterator<Item = (usize, &GraphArc)> + '_ {
        let near = self.arcs_by_place.meeting(rect).into_iter();
        near.filter_map(|index| Some((index, self.arcs.get(index)?)))
    }

    /// The point of the boundary that is nearest; `None` if there is no boundary.
    pub fn nearest(&self, p: Point) -> Option<Point> {
        let foot = |index: usize| self.boundary.get(index).map(|(a, b)| nearest_on(*a, *b, p));
        let distance = |index: usize| foot(index).map_or(f64::INFINITY, |foot| foot.distance(p));
        self.edges_by_place.nearest(p, distance).and_then(foot)
    }

    /// The two points of the boundary that a disc touches, the pair farthest apart.
    pub fn across(&self, at: Point, radius: f64) -> (Point, Point) {
        let reach = radius + 2.0 * CLEARANCE_GRID;
        let near = self.edges_near(Rect::from_points(at, at).inflate(reach, reach)).map(|(a, b)| nearest_on(a, b, at));
        let touched: Vec<Point> = near.filter(|p| p.distance(at) <= reach).collect();
        let pairs = touched.iter().enumerate().flat_map(|(i, a)| touched.iter().skip(i + 1).map(move |b| (*a, *b)));
        let farthest = pairs.max_by(|x, y| x.0.distance(x.1).total_cmp(&y.0.distance(y.1)));
        match (farthest, touched.first()) {
            (Some(pair), _) if pair.0.distance(pair.1) > radius => in_order(pair),
            (_, Some(touch)) => in_order((*touch, at + (at - *touch))),
            (_, None) => (at, at),
        }
    }

    /// Whether a point off the boundary lies in the region, by the number of edges above it.
    pub fn contains(&self, p: Point) -> bool {
        let above =
            |(a, b): &(Point, Point)| (a.x > p.x) != (b.x > p.x) && p.y < a.y + (b.y - a.y) * (p.x - a.x) / (b.x - a.x);
        self.edges_near(Rect::new(p.x, p.y, p.x, f64::INFINITY)).filter(above).count() % 2 == 1
    }
}

/// The pair from left to right, then from front to rear.
fn in_order((a, b): (Point, Point)) -> (Point, Point) {
    if a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)).is_le() { (a, b) } else { (b, a) }
}
