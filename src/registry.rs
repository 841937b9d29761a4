//! The one list of built-in checks and back-ends; plug-ins join the same lists.

use crate::backends::{
    Backend, CutListCsv, CutListXlsx, FindingsJson, LabelsPdf, ModelJson, Pdf, Png, ReportJson, ShapedParts, Svg,
};
use crate::checks::{
    AxleLoad, BatteryLasts, BedAccess, BedHeadroom, BedSize, BootVolume, BunkGuard, CargoFits, Check, ColdBridge,
    Cooking, DrawerTooShallow, Escape, GroundAngles, Headroom, Heating, InsertPlaces, InsideBox, MovesClash, NoOverlap,
    OpeningBlocked, OpeningEdges, OutsideSize, Overhang, PartExceedsSheet, PassThrough, Payload, Reach, Reachable,
    RollThreshold, Sag, Seat, SideBalance, Slide, SurfaceDew, Swing, TwistGap, Ventilation, VoltageDrop, Walkway,
    WasteFall, WaterLasts, WetRoom, Worktop, ZoneFit,
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
        Self { checks: checks(), backends: backends() }
    }

    /// The check of a name.
    #[must_use]
    pub fn check(&self, name: &str) -> Option<&'static dyn Check> {
        self.checks.iter().copied().find(|check| check.name() == name)
    }
}

/// The built-in checks, in the order they run and are listed.
fn checks() -> Vec<&'static dyn Check> {
    vec![
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
        &AxleLoad,
        &Payload,
        &SideBalance,
        &RollThreshold,
        &OutsideSize,
        &Overhang,
        &GroundAngles,
        &TwistGap,
        &OpeningEdges,
        &InsertPlaces,
        &SurfaceDew,
        &ColdBridge,
        &Heating,
        &WaterLasts,
        &BatteryLasts,
        &VoltageDrop,
        &WasteFall,
        &PartExceedsSheet,
        &Sag,
        &DrawerTooShallow,
    ]
}

/// The built-in back-ends, in the order they write.
fn backends() -> Vec<&'static dyn Backend> {
    vec![&Svg, &Pdf, &Png, &CutListCsv, &CutListXlsx, &LabelsPdf, &ShapedParts, &ModelJson, &ReportJson, &FindingsJson]
}

impl std::fmt::Debug for Registry {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Registry of {} checks and {} back-ends", self.checks.len(), self.backends.len())
    }
}
