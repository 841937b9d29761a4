//! Plane geometry with heights: outlines, regions, prisms, clearance, roof curves, exact volumes.
//!
//! Axes of the box: x from the front wall to the rear, y from the left wall to the right, z from the floor up; all
//! in millimetres. The origin is the inside front left corner at the floor. x, y, z make a right-handed frame.

mod apart;
mod arcs;
mod blocks;
mod bringing;
mod clearance;
mod clearance_arc;
mod clearance_ends;
mod clearance_graph;
mod clearance_search;
mod clearance_ways;
mod convex;
mod inscribed;
mod isometric;
mod medial;
mod offset;
mod overlap;
mod packing;
mod passing;
mod passing_part;
mod places;
mod polygon;
mod prism;
mod region;
mod roof;
mod section;
mod sight;
mod slide;
mod stretched;
mod swing;
mod volume;

pub use apart::{apart, apart_work, boxes_apart};
pub use arcs::{Contour, Stretch};
pub use blocks::blocks;
pub use bringing::Lump;
pub use clearance::Clearance;
pub use clearance_arc::nearest_on;
pub use clearance_ends::End;
pub use clearance_ways::{Ways, Widest};
pub use inscribed::inscribed;
pub use isometric::{Body, Eye, Seen, seen};
pub use overlap::{common_bounds, overlap};
pub use packing::{Packing, Parcel, SUPPORT, Stands, Stowed, pack};
pub use passing::Hole;
pub use passing_part::Part as HolePart;
pub use polygon::Polygon;
pub use prism::{Axis, Box3, Point3, Prism};
pub use region::Region;
pub use roof::Roof;
pub use sight::hides;
pub use slide::{Met, Travel, swept, travel};
pub use stretched::stretched;
pub use swing::{Leaf, Stop};
pub use volume::free_volume;
