//! Questions that many rooms ask of the model.

use super::furniture::{Module, Need, PoseState, Solid, Space};
use super::layout::{Arrangement, MEDIAN_MAN, MEDIAN_WOMAN, Model, Person};
use super::make::Part;
use super::moves::Move;
use super::vehicle::VehicleKind;
use crate::geometry::{Box3, common_bounds};

impl Model {
    /// Whether the box is a van's own body.
    #[must_use]
    pub fn is_van(&self) -> bool {
        self.vehicle.as_ref().is_some_and(|vehicle| vehicle.kind == VehicleKind::Van)
    }

    /// Each module with its state in an arrangement, in file order.
    pub fn states<'a>(&'a self, arrangement: &'a Arrangement) -> impl Iterator<Item = (&'a Module, &'a PoseState)> {
        self.modules
            .iter()
            .zip(&arrangement.poses)
            .filter_map(|(module, pose)| module.poses.get(*pose).map(|state| (module, state)))
    }

    /// All solids in an arrangement.
    pub fn solids<'a>(&'a self, arrangement: &'a Arrangement) -> impl Iterator<Item = (&'a Module, &'a Solid)> {
        self.states(arrangement).flat_map(|(module, state)| state.solids.iter().map(move |solid| (module, solid)))
    }

    /// The solids in an arrangement whose bounds share space with a box. Whole modules are passed over by the room they are
    /// given, which all their solids lie in, so that many questions to many modules stay cheap.
    pub fn solids_near<'a>(
        &'a self,
        arrangement: &'a Arrangement,
        near: Box3,
    ) -> impl Iterator<Item = (&'a Module, &'a Solid)> {
        let may = move |(module, _): &(&Module, &PoseState)| common_bounds(&module.extent, &near).is_some();
        let all = |(module, state): (&'a Module, &'a PoseState)| state.solids.iter().map(move |solid| (module, solid));
        let meets = move |(_, solid): &(&Module, &Solid)| common_bounds(&solid.prism.bounds(), &near).is_some();
        self.states(arrangement).filter(may).flat_map(all).filter(meets)
    }

    /// All spaces in an arrangement.
    pub fn spaces<'a>(&'a self, arrangement: &'a Arrangement) -> impl Iterator<Item = (&'a Module, &'a Space)> {
        self.states(arrangement).flat_map(|(module, state)| state.spaces.iter().map(move |space| (module, space)))
    }

    /// The standing spaces that people use inside the box.
    pub fn standing_inside<'a>(
        &'a self,
        arrangement: &'a Arrangement,
    ) -> impl Iterator<Item = (&'a Module, &'a Space)> {
        let inside = |(module, space): &(&Module, &Space)| {
            space.need == Need::Standing && !module.used_outside && !module.outside
        };
        self.spaces(arrangement).filter(inside)
    }

    /// The ground outside, mm from the floor of the box: below it by what the vehicle says.
    #[must_use]
    pub fn ground(&self) -> f64 {
        self.vehicle.as_ref().map_or(0.0, |vehicle| -vehicle.floor_height)
    }

    /// What people stand on who use a module: the floor, or the ground outside.
    #[must_use]
    pub fn stood_on(&self, module: &Module) -> f64 {
        if module.used_outside { self.ground() } else { 0.0 }
    }

    /// All moves in an arrangement.
    pub fn moves<'a>(&'a self, arrangement: &'a Arrangement) -> impl Iterator<Item = (&'a Module, &'a Move)> {
        self.states(arrangement).flat_map(|(module, state)| state.moves.iter().map(move |part| (module, part)))
    }

    /// Mass of one piece of a part, kg.
    #[must_use]
    pub fn part_mass(&self, part: &Part) -> f64 {
        self.stocks.get(part.stock).map_or(0.0, |stock| part.mass(stock))
    }

    /// Mass of all parts of a module, kg.
    #[must_use]
    pub fn parts_mass(&self, module: &Module) -> f64 {
        module.parts.iter().map(|part| self.part_mass(part) * f64::from(part.count)).sum()
    }

    /// Body height of the tallest person, mm; of the median man if nobody is named.
    #[must_use]
    pub fn tallest(&self) -> f64 {
        self.people.iter().map(|person| person.stature).reduce(f64::max).unwrap_or(MEDIAN_MAN)
    }

    /// Body height of the shortest person, mm; of the median woman if nobody is named, and for a person without a stature.
    #[must_use]
    pub fn shortest(&self) -> f64 {
        let short = |person: &Person| if person.measured { person.stature } else { MEDIAN_WOMAN };
        self.people.iter().map(short).reduce(f64::min).unwrap_or(MEDIAN_WOMAN)
    }
}
