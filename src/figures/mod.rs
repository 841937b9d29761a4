//! Facts that checks, views and back-ends share: each is worked out once, when first asked for.

pub(crate) mod around;
pub(crate) mod axle_sums;
pub(crate) mod bending;
pub(crate) mod berths;
pub(crate) mod clashes;
mod facts;
mod fastened;
pub(crate) mod ground;
pub(crate) mod joints;
mod narrows;
pub(crate) mod overhead_room;
pub(crate) mod panel;
pub(crate) mod places;
pub(crate) mod seat_room;
pub(crate) mod shell;
pub(crate) mod sides;
pub(crate) mod storage;
pub(crate) mod stowage;
pub(crate) mod stretches;
pub(crate) mod thing;
pub(crate) mod washing;
pub(crate) mod ways;
mod work;

pub use facts::Figures;
pub use fastened::Fastened;
pub use ground::STEP;
pub use joints::{Anchor, Anchored, Joints};
pub use narrows::Narrows;
pub use places::{Lying, Sitting, berths_of, is_night, lying, sitting};
pub use storage::Room;
pub use stowage::{Hold, Stowage};
pub use ways::Way;
pub use work::{BoreFor, Mate, Work, WorkBore, on_bench, outline_of};

/// Figures with a table of their own.
#[cfg(test)]
pub(crate) fn alone(model: &crate::model::Model) -> Figures<'_> {
    Figures::new(model, Box::leak(Box::default()))
}
