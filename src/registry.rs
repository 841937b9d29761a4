//! The one list of built-in checks and back-ends; plug-ins join the same lists.

use crate::backends::{Backend, CutListCsv, FindingsJson, ModelJson, Pdf, Png, Svg};
use crate::checks::{
    BedAccess, BedHeadroom, BedSize, BootVolume, BunkGuard, CargoFits, Check, Cooking, Escape, Headroom, InsideBox,
    MovesClash, NoOverlap, OpeningBlocked, PartExceedsSheet, PassThrough, Reach, Reachable, Sag, Seat, Slide, Swing,
    Ventilation, Walkway, WetRoom, Worktop, ZoneFit,
};

/// Checks and back-ends that a compile may use, in order.
#[derive(Clone, Default)]
pub struct Registry {
    /// Checks, in the order they run and are listed.
    pub checks: Vec<&'static dyn Check>,
    /// Back-ends, in the order they write.
    pub backends: Vec<&'static dyn Backend>,
}

impl Registry {
    /// Everything that is built in.
    #[must_use]
    pub fn standard() -> Self {
        Self {
            checks: vec![
                &InsideBox,
                &NoOverlap,
                &ZoneFit,
                &Walkway,
                &Reachable,
                &Headroom,
                &PassThrough,
                &Swing,
                &Slide,
                &MovesClash,
                &OpeningBlocked,
                &BedSize,
                &BedAccess,
                &BedHeadroom,
                &BunkGuard,
                &Seat,
                &Worktop,
                &Reach,
                &WetRoom,
                &Cooking,
                &BootVolume,
                &CargoFits,
                &Escape,
                &Ventilation,
                &PartExceedsSheet,
                &Sag,
            ],
            backends: vec![&Svg, &Pdf, &Png, &CutListCsv, &ModelJson, &FindingsJson],
        }
    }

    /// The check of a name.
    #[must_use]
    pub fn check(&self, name: &str) -> Option<&'static dyn Check> {
        self.checks.iter().copied().find(|check| check.name() == name)
    }
}
