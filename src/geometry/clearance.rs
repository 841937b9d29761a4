//! The widest disc that can travel between two ends inside a region.
//!
//! Its diameter is the bottleneck of the clearance over all ways: found on the Voronoi graph of the boundary, in closed
//! form, without steps or raster; good to two steps of the grid. Touching counts as passing. Degenerate cases: a way
//! that narrows to two steps of the grid or less is no way; an end outside the region, or a point on its boundary, has
//! no way; a start that equals the goal has its own clearance.

use super::clearance_arc::{Arc, Spot, nearest_on};
use super::clearance_graph::{Graph, GraphArc};
use super::clearance_search::{Link, Net};
use super::region::Region;
use crate::base::tolerance::{CLEARANCE_GRID, SAME_RADIUS};
use kurbo::{Point, Vec2};
use std::collections::VecDeque;
use std::sync::{Arc as Shared, Mutex, OnceLock, PoisonError};

/// An end of a way.
#[derive(Debug, Clone, PartialEq)]
pub enum End {
    /// The disc's centre is here, so the point's own clearance counts.
    Point(Point),
    /// The disc's centre may be anywhere in this area, where it is best.
    Area(Region),
}

/// A way and its narrowest place.
#[derive(Debug, Clone, PartialEq)]
pub struct Widest {
    /// Diameter of the disc, mm.
    pub width: f64,
    /// Centre of the disc at the narrowest place; of several equally narrow ones the first on the way.
    pub at: Point,
    /// The two points of the boundary that it touches there; where it touches on one side only (an end near a wall),
    /// that point and the one opposite on the disc.
    pub across: (Point, Point),
    /// The course of the disc's centre, the shortest among those of this width on the graph.
    pub path: Vec<Point>,
}

/// The clearance of a region, made once for many questions.
#[derive(Debug, Clone)]
pub struct Clearance {
    region: Region,
    boundary: Vec<(Point, Point)>,
    graph: Shared<Graph>,
}

/// Regions whose graph is remembered: about as many as one layout asks for.
const REMEMBERED: usize = 8;

/// A graph that the first who asks makes, while the others wait.
type Making = Shared<OnceLock<Shared<Graph>>>;

static RECENT: Mutex<VecDeque<(Region, Making)>> = Mutex::new(VecDeque::new());

/// The graph of a region, which alone it depends on. Several checks and the drawings ask for the same few regions at
/// about the same time, and to build a graph is most of the work.
fn graph_of(region: &Region) -> Shared<Graph> {
    let making = {
        let mut recent = RECENT.lock().unwrap_or_else(PoisonError::into_inner);
        let known = recent.iter().find(|(known, _)| known == region).map(|(_, making)| Shared::clone(making));
        known.unwrap_or_else(|| {
            let making = Making::default();
            recent.truncate(REMEMBERED - 1);
            recent.push_front((region.clone(), Shared::clone(&making)));
            making
        })
    };
    Shared::clone(making.get_or_init(|| Shared::new(Graph::new(region))))
}

/// A place on an arc of the graph.
struct Tap {
    arc: usize,
    place: usize,
}

impl Clearance {
    /// Builds the graph of a region.
    #[must_use]
    pub fn new(region: &Region) -> Self {
        Self { region: region.clone(), boundary: region.edges().collect(), graph: graph_of(region) }
    }

    /// The region it was made for.
    #[must_use]
    pub fn region(&self) -> &Region {
        &self.region
    }

    /// The radius of the largest disc around a point that stays inside the region; 0 outside.
    #[must_use]
    pub fn radius_at(&self, p: Point) -> f64 {
        if !self.region.contains(p) {
            return 0.0;
        }
        self.boundary.iter().map(|(a, b)| nearest_on(*a, *b, p).distance(p)).fold(f64::INFINITY, f64::min)
    }

    /// The largest disc whose centre lies in the end's area, as centre and diameter; `None` if it is not in the region.
    #[must_use]
    pub fn largest(&self, end: &End) -> Option<(Point, f64)> {
        let mut query = Query::new(self);
        let places = query.end(end);
        let spots = places.into_iter().filter_map(|place| query.net.places.get(place));
        spots.max_by(|a, b| a.r.total_cmp(&b.r)).map(|spot| (spot.p, 2.0 * spot.r))
    }

    /// The widest disc that gets from one end to the other; `None` if there is no way.
    #[must_use]
    pub fn widest(&self, from: &End, to: &End) -> Option<Widest> {
        let mut query = Query::new(self);
        query.net.starts = query.end(from);
        query.net.goals = query.end(to);
        query.link();
        let radius = query.net.widest().filter(|radius| *radius > CLEARANCE_GRID)?;
        let found = query.net.shortest(radius)?;
        let place = |end: Option<&usize>| end.and_then(|place| query.net.places.get(*place)).copied();
        let (first, last) = (place(found.places.first()), place(found.places.last()));
        let mut spots: Vec<Spot> = first.into_iter().collect();
        let mut path: Vec<Point> = first.iter().map(|spot| spot.p).collect();
        for (link, from) in found.links.iter().zip(&found.places) {
            let Some(link) = query.net.links.get(*link) else { continue };
            spots.push(link.narrowest);
            let forward = link.ends.0 == *from;
            path.extend(link.course.iter().copied().skip(1).take(if forward { usize::MAX } else { 0 }));
            path.extend(link.course.iter().rev().copied().skip(1).take(if forward { 0 } else { usize::MAX }));
        }
        path.dedup();
        let at = spots.into_iter().chain(last).find(|spot| spot.r <= radius + SAME_RADIUS)?.p;
        Some(Widest { width: 2.0 * radius, at, across: self.across(at, radius), path })
    }

    /// The two points of the boundary that a disc touches, the pair farthest apart.
    fn across(&self, at: Point, radius: f64) -> (Point, Point) {
        let near = self.boundary.iter().map(|(a, b)| nearest_on(*a, *b, at));
        let touched: Vec<Point> = near.filter(|p| p.distance(at) <= radius + 2.0 * CLEARANCE_GRID).collect();
        let pairs = touched.iter().enumerate().flat_map(|(i, a)| touched.iter().skip(i + 1).map(move |b| (*a, *b)));
        let farthest = pairs.max_by(|x, y| x.0.distance(x.1).total_cmp(&y.0.distance(y.1)));
        match (farthest, touched.first()) {
            (Some(pair), _) if pair.0.distance(pair.1) > radius => in_order(pair),
            (_, Some(touch)) => in_order((*touch, at + (at - *touch))),
            (_, None) => (at, at),
        }
    }
}

/// The pair from left to right, then from front to rear.
fn in_order((a, b): (Point, Point)) -> (Point, Point) {
    if a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)).is_le() { (a, b) } else { (b, a) }
}

/// A net made of the graph and the ends of one question.
struct Query<'a> {
    clearance: &'a Clearance,
    net: Net,
    taps: Vec<Tap>,
}

impl<'a> Query<'a> {
    fn new(clearance: &'a Clearance) -> Self {
        let net = Net { places: clearance.graph.nodes.clone(), ..Net::default() };
        Self { clearance, net, taps: Vec::new() }
    }

    fn spot(&self, place: usize) -> Spot {
        self.net.places.get(place).copied().unwrap_or(Spot { p: Point::ZERO, r: 0.0 })
    }

    fn add(&mut self, spot: Spot) -> usize {
        self.net.places.push(spot);
        self.net.places.len() - 1
    }

    /// The places that stand for an end.
    fn end(&mut self, end: &End) -> Vec<usize> {
        match end {
            End::Point(p) => self.point(*p).into_iter().collect(),
            End::Area(area) => self.area(area),
        }
    }

    /// The places of an area where its clearance can be greatest: nodes inside, crossings of arcs with its border, its
    /// corners. Along a line within one cell the clearance is convex, so nothing else can be a maximum.
    fn area(&mut self, area: &Region) -> Vec<usize> {
        let nodes = self.clearance.graph.nodes.iter().enumerate();
        let mut places: Vec<usize> = nodes.filter(|(_, node)| area.contains(node.p)).map(|(index, _)| index).collect();
        let border: Vec<(Point, Point)> = area.edges().collect();
        for (index, graph_arc) in self.clearance.graph.arcs.iter().enumerate() {
            let (a, b) = (self.spot(graph_arc.ends.0).p, self.spot(graph_arc.ends.1).p);
            for (u, v) in &border {
                for p in graph_arc.arc.crossings(a, b, *u, *v) {
                    places.push(self.tap(index, p));
                }
            }
        }
        places.extend(border.iter().filter_map(|(corner, _)| self.point(*corner)));
        places
    }

    /// A place on an arc, to be linked when the net is made.
    fn tap(&mut self, arc: usize, p: Point) -> usize {
        let sites = self.clearance.graph.arcs.get(arc).map(|graph_arc| graph_arc.arc.sites);
        let place = self.add(Spot { p, r: sites.map_or(0.0, |(a, b)| a.distance(p).min(b.distance(p))) });
        self.taps.push(Tap { arc, place });
        place
    }

    /// A place for a point of the region, linked to the arc that the disc reaches when it moves straight away from the
    /// nearest piece of boundary; on that line its clearance only grows.
    fn point(&mut self, p: Point) -> Option<usize> {
        let r = Some(self.clearance.radius_at(p)).filter(|r| *r > CLEARANCE_GRID && r.is_finite())?;
        let boundary = &self.clearance.boundary;
        let nearest = boundary.iter().map(|(a, b)| nearest_on(*a, *b, p));
        let foot = nearest.min_by(|a, b| a.distance(p).total_cmp(&b.distance(p)))?;
        let away = (p - foot) / r;
        let reach = boundary.iter().filter_map(|edge| meeting(foot, away, *edge)).fold(f64::INFINITY, f64::min).max(r);
        let place = self.add(Spot { p, r });
        if reach.is_finite() {
            let meet = foot + away * reach;
            if let Some(arc) = self.nearest_arc(meet, reach) {
                let tap = self.tap(arc, meet);
                self.net.links.push(Link { ends: (place, tap), narrowest: Spot { p, r }, course: vec![p, meet] });
            }
        }
        Some(place)
    }

    /// The arc on which a point with this clearance lies best.
    fn nearest_arc(&self, p: Point, r: f64) -> Option<usize> {
        let miss = |graph_arc: &GraphArc| {
            let (a, b) = (self.spot(graph_arc.ends.0).p, self.spot(graph_arc.ends.1).p);
            let sites = graph_arc.arc.sites;
            let off = (sites.0.distance(p) - r).abs() + (sites.1.distance(p) - r).abs();
            off + beyond(&graph_arc.arc, a, b, p)
        };
        let arcs = self.clearance.graph.arcs.iter().map(miss).enumerate();
        arcs.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(index, _)| index)
    }

    /// Makes the links of all arcs, cut at their taps.
    fn link(&mut self) {
        let mut cuts: Vec<Vec<usize>> = vec![Vec::new(); self.clearance.graph.arcs.len()];
        for tap in &self.taps {
            if let Some(list) = cuts.get_mut(tap.arc) {
                list.push(tap.place);
            }
        }
        for (graph_arc, mut stops) in self.clearance.graph.arcs.iter().zip(cuts) {
            let (a, b) = (self.spot(graph_arc.ends.0), self.spot(graph_arc.ends.1));
            let key = |place: &usize| graph_arc.arc.along(a.p, b.p, self.spot(*place).p);
            stops.sort_by(|x, y| key(x).total_cmp(&key(y)));
            let mut from = graph_arc.ends.0;
            for to in stops.into_iter().chain([graph_arc.ends.1]) {
                let (a, b) = (self.spot(from), self.spot(to));
                let narrowest = graph_arc.arc.narrowest(a, b);
                let course = graph_arc.arc.flatten(a.p, b.p);
                self.net.links.push(Link { ends: (from, to), narrowest, course });
                from = to;
            }
        }
    }
}

/// How far a point lies past the ends of an arc, mm.
fn beyond(arc: &Arc, a: Point, b: Point, p: Point) -> f64 {
    let (low, at, high) = (arc.along(a, b, a), arc.along(a, b, p), arc.along(a, b, b));
    if at < low {
        a.distance(p)
    } else if at > high {
        b.distance(p)
    } else {
        0.0
    }
}

/// How far from `foot` along the unit vector `away` a growing disc that keeps touching `foot` meets an edge.
fn meeting(foot: Point, away: Vec2, (a, b): (Point, Point)) -> Option<f64> {
    let least = CLEARANCE_GRID / 2.0;
    let corner = |corner: Point| {
        let to = foot - corner;
        let toward = -2.0 * away.dot(to);
        (to.hypot() > least && toward > 0.0).then(|| to.hypot2() / toward)
    };
    let along = (b - a).normalize();
    let normal = Vec2::new(-along.y, along.x);
    let (height, lean) = ((foot - a).dot(normal), away.dot(normal));
    let straight = [height / (1.0 - lean), -height / (1.0 + lean)].into_iter().filter(|t| {
        let meet = foot + away * *t;
        height.abs() > least && *t > 0.0 && (0.0..=a.distance(b)).contains(&(meet - a).dot(along))
    });
    let meets = straight.chain(corner(a)).chain(corner(b));
    meets.filter(|t| t.is_finite()).min_by(f64::total_cmp)
}
