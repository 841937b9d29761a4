//! The widest disc that can travel between two ends inside a region.
//!
//! Its diameter is the bottleneck of the clearance over all ways: found on the medial axis, in closed
//! form, without steps or raster; good to two steps of the grid. Touching counts as passing. Degenerate cases: a way
//! that narrows to two steps of the grid or less is no way; an end outside the region, or a point on its boundary, has
//! no way; a start that equals the goal has its own clearance.

use super::clearance_arc::Link;
use super::clearance_ends::End;
use super::clearance_graph::Graph;
use super::clearance_ways::{Ways, Widest};
use super::region::Region;
use kurbo::Point;
use std::sync::Arc as Shared;

/// The clearance of a region, made once for many questions.
#[derive(Debug, Clone)]
pub struct Clearance {
    region: Region,
    graph: Shared<Graph>,
}

/// Its region says all.
impl PartialEq for Clearance {
    fn eq(&self, other: &Self) -> bool {
        self.region == other.region
    }
}

impl Default for Clearance {
    fn default() -> Self {
        Self::new(&Region::default())
    }
}

impl Clearance {
    /// Builds the graph of a region.
    #[must_use]
    pub fn new(region: &Region) -> Self {
        Self { region: region.clone(), graph: Shared::new(Graph::new(region)) }
    }

    /// The region it was made for.
    #[must_use]
    pub fn region(&self) -> &Region {
        &self.region
    }

    /// The radius of the largest disc around a point that stays inside the region; 0 outside.
    #[must_use]
    pub fn radius_at(&self, p: Point) -> f64 {
        self.graph.radius_at(p)
    }

    /// The largest disc whose centre lies in the end's area, as centre and diameter; `None` if it is not in the region.
    #[must_use]
    pub fn largest(&self, end: &End) -> Option<(Point, f64)> {
        let spots = self.graph.stands(end).into_iter().map(|stand| self.graph.place(stand));
        spots.max_by(|a, b| a.r.total_cmp(&b.r)).map(|spot| (spot.p, 2.0 * spot.r))
    }

    /// The ways that begin at any of these ends.
    #[must_use]
    pub fn ways_from(&self, starts: &[End]) -> Ways {
        Ways::new(Shared::clone(&self.graph), starts)
    }

    /// The widest disc that gets from one end to the other; `None` if there is no way.
    #[must_use]
    pub fn widest(&self, from: &End, to: &End) -> Option<Widest> {
        self.ways_from(std::slice::from_ref(from)).widest(to).map(|(_, way)| way)
    }

    /// Straight lines over the narrow places, from border to border, none as long as a width: no disc of that width gets
    /// across one of them. Narrow is where it becomes wider both ways, so that of a slope only the lowest place counts.
    #[must_use]
    pub fn lines_across(&self, width: f64) -> Vec<(Point, Point)> {
        let ends = |link: &Link| [link.ends.0, link.ends.1].map(|node| self.graph.spot(node).p);
        let between = self.graph.links.iter().filter(|link| !ends(link).contains(&link.narrowest.p));
        let narrow = between.map(|link| link.narrowest).filter(|spot| 2.0 * spot.r < width);
        let lines = narrow.map(|spot| self.graph.across(spot.p, spot.r));
        lines.filter(|(a, b)| a.distance(*b) < width).collect()
    }
}
