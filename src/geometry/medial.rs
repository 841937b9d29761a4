//! The medial axis of a region: the places that are equally near to two or more things of its boundary.
//!
//! Exact in whole numbers up to the functions of each cell, in closed form after that; cells are worked out each by itself
//! and joined, and the shape of the result is proved by counting parts and loops.

mod border;
mod cells;
mod cover;
mod envelope;
mod join;
mod split;
mod touch;

use super::clearance_arc::{Arc, GraphArc, Site, Spot};
use super::region::{Region, off_grid};
use crate::base::tolerance::CLEARANCE_GRID;
use border::Border;
use kurbo::Point;
use split::split;

/// Nodes and arcs of the medial axis of a region; none if the region is empty.
pub(super) fn medial_axis(region: &Region) -> (Vec<Spot>, Vec<GraphArc>) {
    let border = Border::new(&split(region.grid_edges().collect()));
    let (joined, _) = join::join(&cells::arcs(&border), border.rings());
    let site = |index: usize| match index.checked_sub(border.sides.len()) {
        None => border.side(index).map(|side| Site::Edge(off_grid(side.a), off_grid(side.b))),
        Some(corner) => border.corners.get(corner).map(|(corner, _)| Site::Corner(off_grid(*corner))),
    };
    let arc = |(ends, between): &((usize, usize), (usize, usize))| {
        Some(GraphArc { ends: *ends, arc: Arc { sites: (site(between.0)?, site(between.1)?) } })
    };
    let spot = |node: &cells::CellEnd| Spot {
        p: Point::new(node.at.0 * CLEARANCE_GRID, node.at.1 * CLEARANCE_GRID),
        r: node.radius * CLEARANCE_GRID,
    };
    (joined.nodes.iter().map(spot).collect(), joined.arcs.iter().filter_map(arc).collect())
}

#[cfg(test)]
mod tests;
