//! What the sheets of the vehicle tell of.

use crate::model::{Model, Vehicle};
use crate::vehicle::{LoadCase, Weighed};

/// What is said on every sheet of the vehicle.
pub(super) const CAUTION: &str =
    "Design aid: weigh the vehicle; its papers, the makers and the local authority decide.";

/// All that the sheets tell of.
pub(super) struct Report<'a> {
    pub model: &'a Model,
    pub vehicle: &'a Vehicle,
    pub cases: &'a [LoadCase],
    pub weighed: &'a [Weighed],
}

impl Report<'_> {
    /// The case with the greatest mass among the usual ones.
    pub fn full(&self) -> Option<&Weighed> {
        self.weighed.iter().find(|weighed| weighed.case == "full")
    }
}
