//! Ends of ways as places on the clearance graph.

use super::clearance_arc::{Arc, GraphArc, Spot, nearest_on};
use super::clearance_graph::Graph;
use super::region::Region;
use crate::base::tolerance::CLEARANCE_GRID;
use kurbo::{Point, Rect, Vec2};

/// An end of a way.
#[derive(Debug, Clone, PartialEq)]
pub enum End {
    /// The disc's centre is here, so the point's own clearance counts.
    Point(Point),
    /// The disc's centre may be anywhere in this area, where it is best.
    Area(Region),
}

/// A place where a way may start or end.
#[derive(Debug, Clone, Copy)]
pub(super) enum Stand {
    /// A node of the graph.
    Node(usize),
    /// On an arc.
    OnArc(usize, Spot),
    /// Off the graph; a disc that moves straight away from the nearest piece of boundary reaches this place on an arc,
    /// and on that line its clearance only grows.
    Off(Spot, usize, Spot),
}

/// How far from a point what a growing disc meets is looked for at first, mm.
const FIRST_REACH: f64 = 400.0;

impl Graph {
    /// The places that stand for an end.
    pub fn stands(&self, end: &End) -> Vec<Stand> {
        match end {
            End::Point(p) => self.beside(*p).into_iter().collect(),
            End::Area(area) => self.within(area),
        }
    }

    /// The radius of the largest disc around a point that stays inside the region; 0 outside.
    pub fn radius_at(&self, p: Point) -> f64 {
        self.nearest(p).filter(|_| self.contains(p)).map_or(0.0, |foot| foot.distance(p))
    }

    /// The place of a stand.
    pub fn place(&self, stand: Stand) -> Spot {
        match stand {
            Stand::Node(node) => self.spot(node),
            Stand::OnArc(_, spot) | Stand::Off(spot, ..) => spot,
        }
    }

    /// The places of an area where its clearance can be greatest: nodes inside or on its border, crossings of arcs with its border, its
    /// corners. Along a line within one cell the clearance is convex, so nothing else can be a maximum.
    fn within(&self, area: &Region) -> Vec<Stand> {
        if area.is_empty() {
            return Vec::new();
        }
        let bounds = area.bounds().inflate(CLEARANCE_GRID, CLEARANCE_GRID);
        let border: Vec<(Point, Point)> = area.edges().collect();
        let on_border = |p: Point| border.iter().any(|(u, v)| nearest_on(*u, *v, p).distance(p) <= CLEARANCE_GRID);
        let inside = self.nodes_in(bounds).filter(|(_, node)| area.contains(node.p) || on_border(node.p));
        let mut stands: Vec<Stand> = inside.map(|(index, _)| Stand::Node(index)).collect();
        for (index, graph_arc) in self.arcs_in(bounds) {
            let (a, b) = (self.spot(graph_arc.ends.0).p, self.spot(graph_arc.ends.1).p);
            for (u, v) in &border {
                let crossings = graph_arc.arc.crossings(a, b, *u, *v).into_iter();
                stands.extend(crossings.map(|p| Stand::OnArc(index, on(graph_arc, p))));
            }
        }
        stands.extend(border.iter().filter_map(|(corner, _)| self.beside(*corner)));
        stands
    }

    /// A point of the region, with the arc that a disc reaches from there.
    fn beside(&self, p: Point) -> Option<Stand> {
        let foot = self.nearest(p).filter(|_| self.contains(p))?;
        let r = Some(foot.distance(p)).filter(|r| *r > CLEARANCE_GRID && r.is_finite())?;
        let away = (p - foot) / r;
        let reach = self.reach(foot, away, r).filter(|reach| reach.is_finite())?.max(r);
        let meet = foot + away * reach;
        let (index, graph_arc) = self.nearest_arc(meet, reach)?;
        Some(Stand::Off(Spot { p, r }, index, on(graph_arc, meet)))
    }

    /// How far from `foot` along the unit vector `away` a growing disc that keeps touching `foot` meets an edge.
    fn reach(&self, foot: Point, away: Vec2, r: f64) -> Option<f64> {
        let mut reach = FIRST_REACH.max(2.0 * r);
        loop {
            // A disc of radius t that touches the foot lies within 2 t of it.
            let about = Rect::from_points(foot, foot).inflate(2.0 * reach, 2.0 * reach);
            let met = self.edges_near(about).filter_map(|edge| meeting(foot, away, edge)).min_by(f64::total_cmp);
            if met.is_some_and(|met| met <= reach) || self.covered_by(about) || !reach.is_finite() {
                return met;
            }
            reach *= 4.0;
        }
    }

    /// The arc on which a point with this clearance lies best.
    fn nearest_arc(&self, p: Point, r: f64) -> Option<(usize, &GraphArc)> {
        let miss = |graph_arc: &GraphArc| {
            let (a, b) = (self.spot(graph_arc.ends.0).p, self.spot(graph_arc.ends.1).p);
            let sites = graph_arc.arc.sites;
            let off = (sites.0.distance(p) - r).abs() + (sites.1.distance(p) - r).abs();
            off + beyond(&graph_arc.arc, a, b, p)
        };
        let near = self.arcs_in(Rect::from_points(p, p).inflate(1.0, 1.0)).map(|found| (miss(found.1), found));
        let best = near.min_by(|a, b| a.0.total_cmp(&b.0)).filter(|(miss, _)| *miss < 1.0);
        let all = || self.arcs.iter().enumerate().min_by(|a, b| miss(a.1).total_cmp(&miss(b.1)));
        best.map(|(_, found)| found).or_else(all)
    }
}

/// A point of an arc.
fn on(graph_arc: &GraphArc, p: Point) -> Spot {
    let (a, b) = graph_arc.arc.sites;
    Spot { p, r: a.distance(p).min(b.distance(p)) }
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
