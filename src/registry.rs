//! The one list of built-in checks and back-ends; plug-ins join the same lists.

use crate::backends::{
    Backend, CutListCsv, CutListXlsx, FindingsJson, LabelsPdf, ModelJson, Pdf, Png, ReportJson, RouterCode, SheetMaker,
    Svg, TilesPdf, TrueSize,
};
use crate::checks::{
    AxleLoad, BatteryLasts, BedAccess, BedHeadroom, BedSize, BootVolume, BoreClash, BunkGuard, CargoFits, Check,
    ColdBridge, Cooking, Cooling, DrawerTooShallow, Escape, Extinguisher, GasLocker, GroundAngles, Headroom, Heating,
    HeavyHigh, HingeBacking, InsertPlaces, InsideBox, LeafOutside, LeafTooHeavy, MovesClash, NoOverlap, OpeningBlocked,
    OpeningEdges, OutsideSize, OverWork, Overhang, PanelMoisture, PartExceedsSheet, PartLoose, PartsCollide,
    PassThrough, Payload, Reach, Reachable, RollThreshold, RoomTaken, Sag, Seat, SeatTravel, SideBalance, SillStep,
    Slide, SubframeHolds, SurfaceDew, Swing, TankFill, TwistGap, TwoExits, Ventilation, VoltageDrop, Walkway, WallGap,
    WasteFall, WaterLasts, WetElectric, WetRoom, Worktop, ZoneFit,
};
use crate::plug_ins::PlugIn;
use std::sync::Arc;

/// Checks and back-ends that a compile may use, in order; others than the built-in ones may join them at run time.
#[derive(Clone, Default)]
pub struct Registry {
    /// Checks, in the order they run and are listed.
    pub checks: Vec<Arc<dyn Check>>,
    /// Back-ends, in the order they write.
    pub backends: Vec<Arc<dyn Backend>>,
    /// What draws sheets beside those of the layout, in their order.
    pub sheets: Vec<Arc<dyn SheetMaker>>,
    /// The plug-ins whose checks, back-ends and sheets are in the lists.
    pub plug_ins: Vec<Arc<PlugIn>>,
}

impl Registry {
    /// Everything that is built in.
    #[must_use]
    pub fn standard() -> Self {
        Self { checks: [around(), of_furniture()].concat(), backends: backends(), ..Self::default() }
    }

    /// The checks of a piece of furniture by itself, and no back-end.
    #[must_use]
    pub fn of_furniture() -> Self {
        Self { checks: of_furniture(), ..Self::default() }
    }

    /// The same with more checks and back-ends, made at run time, behind those that are there.
    ///
    /// Check names tell who brings them before a colon, as `rule:worktop`, so that none can take the place of another.
    ///
    /// # Errors
    /// The first name that is taken already.
    pub fn joined(&self, checks: Vec<Arc<dyn Check>>, backends: Vec<Arc<dyn Backend>>) -> Result<Self, String> {
        let mut all = self.clone();
        for check in checks {
            if all.check(check.name()).is_some() {
                return Err(check.name().to_owned());
            }
            all.checks.push(check);
        }
        for backend in backends {
            if all.backends.iter().any(|known| known.name() == backend.name()) {
                return Err(backend.name().to_owned());
            }
            all.backends.push(backend);
        }
        Ok(all)
    }

    /// The same with what a plug-in has; one that is there already changes nothing.
    ///
    /// # Errors
    /// When another plug-in has its name.
    pub fn with(&self, plug_in: &Arc<PlugIn>) -> Result<Self, String> {
        if self.plug_ins.contains(plug_in) {
            return Ok(self.clone());
        }
        if let Some(known) = self.plug_ins.iter().find(|known| known.name == plug_in.name) {
            let (one, other) = (&known.file, &plug_in.file);
            return Err(format!("`{one}` and `{other}` are different plug-ins of one name, `{}`", known.name));
        }
        let taken = |name| format!("the plug-in `{}` has `{name}`, which is there already", plug_in.name);
        let mut all = self.joined(plug_in.checks().collect(), plug_in.backends().collect()).map_err(taken)?;
        all.sheets.extend(plug_in.sheets());
        all.plug_ins.push(Arc::clone(plug_in));
        Ok(all)
    }

    /// The check of a name.
    #[must_use]
    pub fn check(&self, name: &str) -> Option<&dyn Check> {
        self.checks.iter().map(AsRef::as_ref).find(|check| check.name() == name)
    }
}

/// The built-in checks of a box with all that is in it.
fn around() -> Vec<Arc<dyn Check>> {
    vec![
        Arc::new(InsideBox),
        Arc::new(NoOverlap),
        Arc::new(RoomTaken),
        Arc::new(ZoneFit),
        Arc::new(Walkway),
        Arc::new(Reachable),
        Arc::new(Headroom),
        Arc::new(PassThrough),
        Arc::new(SillStep),
        Arc::new(Swing),
        Arc::new(Slide),
        Arc::new(MovesClash),
        Arc::new(LeafOutside),
        Arc::new(OpeningBlocked),
        Arc::new(BedSize),
        Arc::new(BedAccess),
        Arc::new(BedHeadroom),
        Arc::new(BunkGuard),
        Arc::new(Seat),
        Arc::new(Worktop),
        Arc::new(Reach),
        Arc::new(WetRoom),
        Arc::new(Cooking),
        Arc::new(OverWork),
        Arc::new(WetElectric),
        Arc::new(BootVolume),
        Arc::new(CargoFits),
        Arc::new(Escape),
        Arc::new(TwoExits),
        Arc::new(Ventilation),
        Arc::new(HeavyHigh),
        Arc::new(Extinguisher),
        Arc::new(GasLocker),
        Arc::new(SeatTravel),
        Arc::new(AxleLoad),
        Arc::new(Payload),
        Arc::new(SideBalance),
        Arc::new(RollThreshold),
        Arc::new(OutsideSize),
        Arc::new(Overhang),
        Arc::new(GroundAngles),
        Arc::new(TwistGap),
        Arc::new(SubframeHolds),
        Arc::new(OpeningEdges),
        Arc::new(InsertPlaces),
        Arc::new(SurfaceDew),
        Arc::new(ColdBridge),
        Arc::new(PanelMoisture),
        Arc::new(Heating),
        Arc::new(Cooling),
        Arc::new(WaterLasts),
        Arc::new(TankFill),
        Arc::new(BatteryLasts),
        Arc::new(VoltageDrop),
        Arc::new(WasteFall),
    ]
}

/// The built-in checks that look at a piece of furniture by itself.
fn of_furniture() -> Vec<Arc<dyn Check>> {
    vec![
        Arc::new(PartExceedsSheet),
        Arc::new(PartLoose),
        Arc::new(PartsCollide),
        Arc::new(BoreClash),
        Arc::new(HingeBacking),
        Arc::new(LeafTooHeavy),
        Arc::new(WallGap),
        Arc::new(Sag),
        Arc::new(DrawerTooShallow),
    ]
}

/// The built-in back-ends, in the order they write.
fn backends() -> Vec<Arc<dyn Backend>> {
    vec![
        Arc::new(Svg),
        Arc::new(Pdf),
        Arc::new(Png),
        Arc::new(CutListCsv),
        Arc::new(CutListXlsx),
        Arc::new(LabelsPdf),
        Arc::new(TrueSize),
        Arc::new(TilesPdf),
        Arc::new(RouterCode),
        Arc::new(ModelJson),
        Arc::new(ReportJson),
        Arc::new(FindingsJson),
    ]
}

impl std::fmt::Debug for Registry {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Registry of {} checks and {} back-ends", self.checks.len(), self.backends.len())
    }
}
