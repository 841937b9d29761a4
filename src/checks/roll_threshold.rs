//! How far the vehicle may lean before it tips over.
//!
//! # Computes
//! In each load case the height of the centre of gravity, the static stability factor track / (2 x height), and the angle
//! at which a rigid body tips: its arc tangent. The track is the mean of both axles', weighted by their loads.
//!
//! # Why
//! Lockers under the roof, a bed that is raised for the road and a full roof rack lift the centre; the vehicle then tips in
//! bends that it took before.
//!
//! # Limit
//! `fault`: 23 degrees. `caution`: 30 degrees, since springs and tyres give way and a real vehicle tips some degrees
//! earlier than a rigid one.
//!
//! # Source
//! The formula is NHTSA's. 23 degrees are those of the tilt test of ECE R111, from memory, not verified; the margin over it
//! is common practice, no source.
//!
//! # Change it
//! `limits: { roll-threshold: { caution: 27, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity, SourceClass, Worked};
use crate::vehicle::Weighed;

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
        let Some(worst) = weighed.min_by(|a, b| a.stability.total_cmp(&b.stability)) else { return Vec::new() };
        let message = format!(
            "a rigid body tips at {}° in the case `{}`: its centre is {} mm high, its stability factor {}",
            trimmed(worst.tips_at(), 1),
            worst.case,
            trimmed(worst.centre.z, 0),
            trimmed(worst.stability, 2)
        );
        let fault = context.limits.get("fault");
        let (severity, required) = match fault.holds(worst.tips_at()) {
            false => (Severity::Fault, fault),
            true => (Severity::Caution, context.limits.get("caution")),
        };
        let mut finding = judged(NAME, severity, "vehicle", (worst.tips_at(), required), message);
        finding.spans = vec![vehicle.span];
        vec![finding]
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let sum = |weighed: &Weighed| {
            let figures =
                format!("{} kg mm / {} kg", trimmed(weighed.total * weighed.centre.z, 0), trimmed(weighed.total, 1));
            let [height, factor, angle] =
                [(weighed.centre.z, 0), (weighed.stability, 3), (weighed.tips_at(), 1)].map(|(v, d)| trimmed(v, d));
            Worked::new(format!("Load case `{}`", weighed.case))
                .step(
                    "height of the centre, h",
                    ["sum(m z) / sum(m)", &figures],
                    format!("{height} mm"),
                    "z from the ground",
                )
                .step("stability factor", ["track / (2 h)", ""], factor, "NHTSA, static stability factor")
                .step("tips at", ["atan(factor)", ""], format!("{angle}°"), "rigid body")
        };
        context.figures.weighed().iter().map(sum).collect()
    }
}

#[cfg(test)]
mod tests;
