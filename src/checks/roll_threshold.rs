//! How far the vehicle may lean before it tips over.
//!
//! # Computes
//! In each load case the height of the centre of gravity, how far it lies beside the middle, and the angle at which a rigid body
//! tips to its heavier side: atan((track / 2 - aside) / height). The track is the mean of both axles', weighted by their loads.
//! With a `side-slope` in `vehicle` also what the uphill wheels of each axle still carry on ground that slopes so to either side.
//!
//! # Why
//! Lockers under the roof, a bed that is raised for the road and a full roof rack lift the centre; the vehicle then tips in
//! bends that it took before.
//!
//! # Limit
//! `fault`: 23 degrees. `caution`: 30 degrees, since springs and tyres give way and a real vehicle tips some degrees
//! earlier than a rigid one. Wheels that carry nothing on the `side-slope` are a fault.
//!
//! # Source
//! Without the offset the formula is that of NHTSA's static stability factor. 23 degrees are those of the tilt test of ECE R111, from memory, not verified; the margin over it
//! is common practice, no source.
//!
//! # Change it
//! `limits: { roll-threshold: { caution: 27, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::model::Vehicle;
use crate::vehicle::{Weighed, on_slope};

/// The check `roll-threshold`.
pub struct RollThreshold;

const NAME: &str = "roll-threshold";
const fn angle(name: &'static str, default: Bound, class: SourceClass, source: &'static str) -> Limit {
    Limit::new(name, default, Quantity::Angle, class, source)
}
static LIMITS: [Limit; 2] = [
    angle("caution", Least(30.0), SourceClass::CommonPractice, "common practice, no source"),
    angle("fault", Least(23.0), SourceClass::FromMemory, "tilt test of ECE R111, from memory, not verified"),
];

impl Check for RollThreshold {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "angle at which the vehicle tips, from the height of its centre of gravity"
    }

    fn manual(&self) -> String {
        page_of(include_str!("roll_threshold.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("of a rigid body: springs and tyres make it tip earlier; tests and the local authority decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let weighed = context.figures.weighed().iter();
        let Some(worst) = weighed.min_by(|a, b| a.tips_at().total_cmp(&b.tips_at())) else { return Vec::new() };
        let message = format!(
            "a rigid body tips at {}° in the case `{}`: its centre is {} mm high and {} mm beside the middle",
            trimmed(worst.tips_at(), 1),
            worst.case,
            trimmed(worst.centre.z, 0),
            trimmed(worst.centre.y.abs(), 0)
        );
        let fault = context.limits.get("fault");
        let (severity, required) = match fault.holds(worst.tips_at()) {
            false => (Severity::Fault, fault),
            true => (Severity::Caution, context.limits.get("caution")),
        };
        let mut finding = judged(NAME, severity, "vehicle", (worst.tips_at(), required), message);
        finding.spans = vec![vehicle.span];
        let uphill = lightest(vehicle, context.figures.weighed());
        with_tightest([finding].into_iter().chain(uphill))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let sum = |weighed: &Weighed| {
            let figures =
                format!("{} kg mm / {} kg", trimmed(weighed.total * weighed.centre.z, 0), trimmed(weighed.total, 1));
            let [height, track, aside, angle] =
                [(weighed.centre.z, 0), (weighed.track, 0), (weighed.centre.y.abs(), 1), (weighed.tips_at(), 1)]
                    .map(|(value, digits)| trimmed(value, digits));
            let tips = format!("({track} / 2 - {aside}) / {height}");
            let worked = Worked::new(format!("Load case `{}`", weighed.case))
                .step(
                    "height of the centre, h",
                    ["sum(m z) / sum(m)", &figures],
                    format!("{height} mm"),
                    "z from the ground",
                )
                .step(
                    "stability factor",
                    ["track / (2 h)", ""],
                    trimmed(weighed.stability(), 3),
                    "NHTSA, static stability factor; without the offset",
                )
                .step("tips at", ["atan((track / 2 - aside) / h)", &tips], format!("{angle}°"), "rigid body");
            on_slope(vehicle, weighed).into_iter().fold(worked, |worked, found| {
                let what = format!("{}, ground falling to the {}", found.axle, found.falls);
                let kg = |value: f64| format!("{} kg", trimmed(value, 1));
                worked.step(
                    &what,
                    ["load cos a / 2 -+ (side cos a + high sin a) / track", ""],
                    format!("{} uphill, {} downhill", kg(found.uphill), kg(found.downhill)),
                    "moments about the wheels of the other side",
                )
            })
        };
        context.figures.weighed().iter().map(sum).collect()
    }
}

/// The lightest uphill wheels of all cases.
fn lightest(vehicle: &Vehicle, weighed: &[Weighed]) -> Option<Finding> {
    let all = weighed.iter().flat_map(|weighed| on_slope(vehicle, weighed).into_iter().map(move |one| (weighed, one)));
    let (weighed, found) = all.min_by(|(_, a), (_, b)| a.uphill.total_cmp(&b.uphill))?;
    let message = format!(
        "on ground that falls {}° to the {} the uphill wheels of the {} carry {} kg in the case `{}`, the others {} kg",
        trimmed(vehicle.side_slope, 1),
        found.falls,
        found.axle,
        trimmed(found.uphill, 0),
        weighed.case,
        trimmed(found.downhill, 0)
    );
    let required = Requirement::new(Least(0.0), Quantity::Mass, SourceClass::Geometry, "statics of a rigid body");
    let mut finding = judged(NAME, Severity::Fault, "slope", (found.uphill, required), message);
    finding.spans = vec![vehicle.span];
    Some(finding)
}

#[cfg(test)]
mod tests;
