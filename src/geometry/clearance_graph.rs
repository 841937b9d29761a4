//! The clearance graph of a region: the primary edges of the Voronoi diagram of its boundary that lie inside it.
//!
//! Every way of a disc through the region can be moved onto these arcs without becoming narrower, so the widest disc is
//! found on the graph. The diagram is built on whole numbers, so it is exact in its topology.

use super::clearance_arc::{Arc, Link, Site, Spot, nearest_on};
use super::clearance_bins::Bins;
use super::clearance_fit::{Edge, Fit, Mirror};
use super::region::{Region, off_grid};
use boostvoronoi::prelude::{Builder, BvError, Cell, Diagram, SourceCategory};
use i_overlay::i_float::int::point::IntPoint;
use kurbo::{Point, Rect};
use std::collections::BTreeMap;

/// An arc between two nodes.
#[derive(Debug, Clone)]
pub(super) struct GraphArc {
    pub ends: (usize, usize),
    pub arc: Arc,
}

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

/// How far along x the boundary near a point is looked for at first, mm.
pub(super) const FIRST_REACH: f64 = 400.0;

/// Mirrors of the plane under which the diagram is tried; each is its own inverse.
const MIRRORS: [Mirror; 4] = [|x, y| (x, y), |x, y| (y, x), |x, y| (-x, y), |x, y| (-y, -x)];

impl Graph {
    /// The graph of a region; empty if the region is.
    pub fn new(region: &Region) -> Self {
        let edges = split(region.grid_edges().collect());
        let built = MIRRORS.iter().find_map(|mirror| Self::build(region, &edges, *mirror).ok());
        let mut graph = built.unwrap_or_else(|| Self::bounded_by(region));
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

    /// Whether a point off the boundary lies inside: on the left of an edge that is nearest to it; between corners, by the
    /// number of edges above it.
    fn inside(&self, nearest: [Site; 2], p: Point) -> bool {
        let edge = nearest.into_iter().find_map(|site| if let Site::Edge(a, b) = site { Some((a, b)) } else { None });
        edge.map_or_else(|| self.contains(p), |(a, b)| (b - a).cross(p - a) > 0.0)
    }

    fn build(region: &Region, edges: &[Edge], mirror: Mirror) -> Result<Self, BvError> {
        let Some(fit) = Fit::new(edges, mirror) else { return Ok(Self::bounded_by(region)) };
        let lines: Vec<[[i32; 2]; 2]> = edges.iter().map(|(a, b)| [fit.small(*a), fit.small(*b)]).collect();
        let diagram = Builder::<i32>::default().with_segments(lines.iter())?.build()?;
        Self::collect(region, edges, &diagram, &fit)
    }

    fn collect(region: &Region, edges: &[Edge], diagram: &Diagram, fit: &Fit) -> Result<Self, BvError> {
        let mut graph = Self::bounded_by(region);
        let mut known: BTreeMap<usize, Option<usize>> = BTreeMap::new();
        for edge in diagram.edges() {
            let twin = edge.twin()?;
            if !edge.is_primary() || twin.usize() < edge.id().usize() {
                continue;
            }
            let (Some(a), Some(b)) = (edge.vertex0(), diagram.edge_get_vertex1(edge.id())?) else { continue };
            let cells = (diagram.cell(edge.cell()?)?, diagram.cell(diagram.edge(twin)?.cell()?)?);
            let (Some(first), Some(second)) = (site(cells.0, edges), site(cells.1, edges)) else { continue };
            let mut node = |id: usize| {
                let vertex = diagram.vertices().get(id)?;
                *known.entry(id).or_insert_with(|| {
                    let p = fit.large(vertex.x(), vertex.y());
                    let inside = vertex.is_site_point() || graph.inside([first, second], p);
                    inside.then(|| {
                        graph.nodes.push(Spot { p, r: first.distance(p).min(second.distance(p)) });
                        graph.nodes.len() - 1
                    })
                })
            };
            if let (Some(a), Some(b)) = (node(a.usize()), node(b.usize()))
                && a != b
            {
                graph.arcs.push(GraphArc { ends: (a, b), arc: Arc { sites: (first, second) } });
            }
        }
        Ok(graph)
    }
}

fn site(cell: &Cell, edges: &[Edge]) -> Option<Site> {
    let (source, category) = cell.source_index_2();
    let (a, b) = edges.get(source.usize())?;
    let (a, b) = (off_grid(*a), off_grid(*b));
    Some(match category {
        SourceCategory::SegmentStart | SourceCategory::SinglePoint => Site::Corner(a),
        SourceCategory::SegmentEnd => Site::Corner(b),
        SourceCategory::Segment => Site::Edge(a, b),
    })
}

/// Splits edges where a corner of another contour lies on them, so that edges touch at their ends only.
fn split(edges: Vec<Edge>) -> Vec<Edge> {
    let wide = |p: IntPoint<i32>| (i64::from(p.x), i64::from(p.y));
    let key = |p: IntPoint<i32>, a: IntPoint<i32>| {
        let ((px, py), (ax, ay)) = (wide(p), wide(a));
        (px - ax).abs() + (py - ay).abs()
    };
    let on = |p: IntPoint<i32>, (a, b): Edge| {
        let ((px, py), (ax, ay), (bx, by)) = (wide(p), wide(a), wide(b));
        p != a
            && p != b
            && px >= ax.min(bx)
            && px <= ax.max(bx)
            && py >= ay.min(by)
            && py <= ay.max(by)
            && (bx - ax) * (py - ay) == (by - ay) * (px - ax)
    };
    let mut corners: Vec<IntPoint<i32>> = edges.iter().map(|(a, _)| *a).collect();
    corners.sort_by_key(|p| (p.x, p.y));
    let beside = |(a, b): Edge| {
        let from = corners.partition_point(|p| p.x < a.x.min(b.x));
        let to = corners.partition_point(|p| p.x <= a.x.max(b.x));
        corners.get(from..to).unwrap_or_default()
    };
    let mut pieces = Vec::with_capacity(edges.len());
    for edge in edges {
        let mut stops: Vec<IntPoint<i32>> = beside(edge).iter().copied().filter(|p| on(*p, edge)).collect();
        stops.sort_by_key(|p| key(*p, edge.0));
        stops.dedup();
        let mut from = edge.0;
        for stop in stops.into_iter().chain([edge.1]) {
            pieces.push((from, stop));
            from = stop;
        }
    }
    pieces
}
