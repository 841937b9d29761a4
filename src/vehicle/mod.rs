//! The vehicle under the box: masses and load cases, axle loads, outside size and angles, twist of the frame.
//!
//! X is measured to the rear from the front axle (a trailer's coupling), Y to the right from the vehicle's middle, Z from
//! the ground, all in mm.

mod angles;
mod cases;
mod masses;
mod outside;
mod statics;
mod twist;
mod underside;

pub use angles::{Angles, Touch, angles};
pub use cases::{LoadCase, load_cases};
pub use masses::{Group, Mass, masses};
pub use outside::{Limits, Outside, outside, size_limits};
pub use statics::{Weighed, weigh, weigh_all};
pub use twist::{Moved, Twist, twist};
pub use underside::{Underside, underside};
