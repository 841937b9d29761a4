//! The widest disc that can travel between two ends inside a region.
//!
//! Its diameter is the bottleneck of the clearance over all ways: found on the medial axis, in closed
//! form, without steps or raster; good to two steps of the grid. Touching counts as passing. Degenerate cases: a way
//! that narrows to two steps of the grid or less is no way; an end outside the region, or a point on its boundary, has
//! no way; a start that equals the goal has its own clearance.

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
}
