//! Things of `loads` that take the room of something else.
//!
//! # Computes
//! For each load with a size (a tank without one takes its inside): how deep it reaches into pieces of modules and what is bought for them, in
//! every arrangement; into cutaways, walls, roof and floor; into other loads; and, where the vehicle gives them, into the rails of
//! its frame, its wheels and its cab. A load may stand in the hollow of a module: what counts are the module's pieces, and its solids
//! where it has no pieces. Of a frame the outer 50 mm of its width are taken for the rails, of a wheel a disc 200 mm wide in the middle of
//! the track: both are guesses that are too small rather than too large. In the cab a load may be. And whether a wheel, raised by `wheel-travel`,
//! reaches into the box or its floor where no wheel box makes room for it. Loads without a size get one note: nothing
//! tells what they meet.
//!
//! What stands inside is in the way of people (`walkway`, `reachable`), of leaves and drawers (`swing`, `slide`) and before openings
//! (`opening-blocked`); what is outside before doors and leaves is the matter of `leaf-outside`.
//!
//! # Why
//! A tank that fits the sum of masses but not between the rails is found when the truck stands on the lift.
//!
//! # Limit
//! 0 mm: no overlap is allowed. One with a load, a module or the shell is a fault, one with rails, wheels or cab a caution.
//!
//! # Source
//! Geometry. Widths of rails and tyres: common practice, no source.
//!
//! # Change it
//! Move the load (`at`), or make it smaller; leave `size` out for what has no fixed place.

mod met;

use super::check::{Check, Context, page_of};
use super::words::{area, length, size};
use crate::base::number::mm;
use crate::diagnostic::{Finding, Limit, Requirement, Severity};
use crate::geometry::{Box3, Prism};
use crate::model::{Load, Model, Vehicle};
use met::{Met, all_met, wheels_in_box};

/// The check `room-taken`.
pub struct RoomTaken;

const NAME: &str = "room-taken";

impl Check for RoomTaken {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "tanks and things that take the room of something else"
    }

    fn manual(&self) -> String {
        page_of(include_str!("room_taken.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let sized = model.loads.iter().filter_map(|load| Some((load, load.room.as_ref()?)));
        let found = sized.flat_map(|(load, room)| of_load(context, load, room));
        found.chain(wheels(model)).chain(unsized_loads(model)).collect()
    }
}

fn of_load(context: &Context<'_>, load: &Load, room: &Prism) -> Vec<Finding> {
    let met = all_met(context, load, room).into_iter();
    met.map(|met| finding(load, met)).collect()
}

fn finding(load: &Load, met: Met) -> Finding {
    let sides = [met.shared.x, met.shared.y, met.shared.z].map(|range| range.1 - range.0);
    let deep = sides.into_iter().fold(f64::INFINITY, f64::min);
    let message = format!("`{}` takes {} of {}", load.name, size(&met.shared), met.says);
    let severity = if met.guessed { Severity::Caution } else { Severity::Fault };
    let finding = Finding::new(NAME, severity, &load.name, message).with_other(&met.name);
    let mut finding = finding.names("of", met.says).names("shared", size(&met.shared));
    finding.arrangements = met.arrangement.into_iter().collect();
    finding.measured = length(deep);
    finding.required = Some(Requirement::nothing());
    finding.spans = [load.span].into_iter().chain(met.span).collect();
    finding.marks = vec![area(met.shared.plan())];
    finding
}

/// Wheels that have no room under the box.
fn wheels(model: &Model) -> Vec<Finding> {
    let finding = |vehicle: &Vehicle, shared: &Box3| {
        let (deep, travel) = (shared.z.1 - shared.z.0, vehicle.wheel_travel);
        let message = format!(
            "a wheel reaches {} into the box where no wheel box makes room for it, with {} of travel: {}",
            mm(deep),
            mm(travel),
            size(shared)
        );
        let mut finding = Finding::new(NAME, Severity::Caution, "wheels", message).names("shared", size(shared));
        finding.measured = length(deep);
        finding.required = Some(Requirement::nothing());
        finding.spans = vec![vehicle.span];
        finding.marks = vec![area(shared.plan())];
        finding
    };
    let vehicle = model.vehicle.iter();
    let deepest = |a: &Box3, b: &Box3| (a.z.1 - a.z.0).total_cmp(&(b.z.1 - b.z.0));
    vehicle.filter_map(|one| Some(finding(one, &wheels_in_box(model, one).into_iter().max_by(deepest)?))).collect()
}

/// The note about loads that have no size.
fn unsized_loads(model: &Model) -> Option<Finding> {
    let all: Vec<&Load> = model.loads.iter().filter(|load| load.room.is_none()).collect();
    let names: Vec<String> = all.iter().map(|load| format!("`{}`", load.name)).collect();
    let first = all.first()?;
    let names = names.join(", ");
    let message = format!("no `size` is given for {names}: nothing tells what room they take");
    let mut finding = Finding::new(NAME, Severity::Note, "loads", message).names("of", names);
    finding.spans = vec![first.span];
    Some(finding)
}

#[cfg(test)]
mod tests;
