//! Slopes that the vehicle takes without grounding.
//!
//! # Computes
//! Approach, departure and ramp angle: planes that are tangent to the tyres and just touch the underside. The underside is
//! the box with its sloped cutaways, the frame, tanks and lockers below the floor, and the points of `underside`. A wheel
//! of radius r and a point d away and h above its centre give atan2(h, d) + asin(r / hypot(d, h)), solved exactly; the ramp
//! is the least sum of two such angles at one place between the wheels.
//!
//! # Why
//! Ferries, fords and field tracks decide where people can stay.
//!
//! # Limit
//! `approach` 12, `departure` 12 and `ramp` 10 degrees; `clearance` 150 mm under the lowest point. Less is a caution, a point
//! in the ground a fault. A trailer has no approach and no ramp.
//!
//! # Source
//! The definition is that of ISO 612 and, for the ramp, of Directive 92/53/EEC. The limits are common practice, no source;
//! vehicles for rough ground are built to 25 degrees (from memory, not verified).
//!
//! # Change it
//! `limits: { ground-angles: { departure: 20, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity, Worked};
use crate::vehicle::{Angles, Touch, angles, underside};

/// The check `ground-angles`.
pub struct GroundAngles;

const NAME: &str = "ground-angles";
const fn angle(name: &'static str, default: Bound) -> Limit {
    Limit::practice(name, default, Quantity::Angle)
}
static LIMITS: [Limit; 4] = [
    angle("departure", Least(12.0)),
    angle("approach", Least(12.0)),
    angle("ramp", Least(10.0)),
    Limit::practice("clearance", Least(150.0), Quantity::Length),
];

impl Check for GroundAngles {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "approach, departure and ramp angle"
    }

    fn manual(&self) -> String {
        page_of(include_str!("ground_angles.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let underside = underside(context.model, vehicle);
        let lowest = underside.corners().min_by(|a, b| a.1.y.total_cmp(&b.1.y));
        let clear = lowest.map(|(by, at)| {
            let message = format!("the lowest point is {} above the ground, of the {by}", mm(at.y));
            let severity = if at.y < 0.0 { Severity::Fault } else { Severity::Caution };
            let mut finding = judged(NAME, severity, "clearance", (at.y, context.limits.get("clearance")), message);
            finding.spans = vec![vehicle.span];
            finding
        });
        let found = named(angles(vehicle, &underside));
        with_tightest(clear.into_iter().chain(found.into_iter().map(|(name, touch)| {
            let message = format!("the {name} angle is {}°, by the {}", trimmed(touch.angle, 1), touch.by);
            let mut finding = judged(NAME, Severity::Caution, name, (touch.angle, context.limits.get(name)), message);
            finding.spans = vec![vehicle.span];
            finding
        })))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let found = named(angles(vehicle, &underside(context.model, vehicle)));
        let wheels = vehicle.wheels();
        let radius = vehicle.tyre_radius;
        let front = vehicle.kind.front_words();
        let sum = |(name, touch): (&str, Touch)| {
            let near = |wheel: &f64| format!("d {}, h {}", mm((touch.at.x - wheel).abs()), mm(touch.at.y - radius));
            let figures = match name {
                "approach" => wheels.first().map(near),
                "departure" => wheels.last().map(near),
                _ => wheels.first().zip(wheels.get(1)).map(|(one, two)| format!("{}; {}", near(one), near(two))),
            };
            let figures = figures.unwrap_or_default();
            let formula = match name {
                "ramp" => "sum over both wheels of atan2(h, d) + asin(r / hypot(d, h))",
                _ => "atan2(h, d) + asin(r / hypot(d, h))",
            };
            Worked::new(format!("The {name} angle"))
                .given("tyre radius under load, r", mm(vehicle.tyre_radius), "the layout")
                .given(
                    &format!("touches the {}", touch.by),
                    format!("{} from the {front}, {} above the ground", mm(touch.at.x), mm(touch.at.y)),
                    "underside",
                )
                .step("angle", [formula, &figures], format!("{}°", trimmed(touch.angle, 2)), "tangent planes, ISO 612")
        };
        found.into_iter().map(sum).collect()
    }
}

/// The angles that there are, with the names of their limits.
fn named(angles: Angles) -> Vec<(&'static str, Touch)> {
    let all = [("approach", angles.approach), ("departure", angles.departure), ("ramp", angles.ramp)];
    all.into_iter().filter_map(|(name, touch)| Some((name, touch?))).collect()
}

#[cfg(test)]
mod tests;
