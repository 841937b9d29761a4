//! Checks: each a file of its own with its manual page as doc comment.

mod check;
mod headroom;
mod overhead;
mod reachable;
#[cfg(test)]
mod testing;
mod walkway;
mod ways;

pub use check::{Check, Context, Limit, Limits, manual_page};
pub use headroom::Headroom;
pub use reachable::Reachable;
pub use walkway::Walkway;
pub use ways::{STEP, Way, measured_ways};
