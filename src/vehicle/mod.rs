//! The vehicle under the box: masses and load cases, axle loads, outside size and angles, twist of the frame.
//!
//! X is measured to the rear from the front axle (a trailer's coupling), Y to the right from the vehicle's middle, Z from
//! the ground, all in mm.

mod angles;
mod cases;
mod held;
mod masses;
mod mounts;
mod outside;
mod rails;
mod slope;
mod statics;
mod tilt;
mod twist;
mod underside;
mod worst;

pub use angles::{Angles, Touch, angles};
pub use cases::load_cases;
pub use held::{Held, held, opened};
pub use masses::{Group, LoadCase, Mass, masses};
pub use mounts::{Mount, Rider, mounts, rider};
pub use outside::{Limits, Outside, outside, size_limits};
pub use rails::{Bent, bent};
pub use slope::{OnSlope, on_slope};
pub use statics::{Support, Weighed, lean, on_supports, weigh};
pub use tilt::{Tilting, tilting};
pub use twist::{End, Moved, Twist, twist};
pub use underside::{Underside, underside};
