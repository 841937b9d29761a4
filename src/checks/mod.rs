//! Checks: each a file of its own with its manual page as doc comment.

mod around;
mod bed_size;
mod bed_words;
mod boot_volume;
mod check;
mod headroom;
mod inside_box;
mod no_overlap;
mod overhead;
mod reachable;
mod shell;
mod slide;
mod swing;
#[cfg(test)]
mod testing;
mod walkway;
mod ways;
mod words;
mod zone_fit;

pub use bed_size::BedSize;
pub use boot_volume::BootVolume;
pub use check::{Check, Context, Limit, Limits, Ran, manual_page};
pub use headroom::Headroom;
pub use inside_box::InsideBox;
pub use no_overlap::NoOverlap;
pub use reachable::Reachable;
pub use slide::Slide;
pub use swing::Swing;
pub use walkway::Walkway;
pub use ways::{STEP, Way, measured_ways};
pub use zone_fit::ZoneFit;
