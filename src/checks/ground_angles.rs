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
//! `approach` 12, `departure` 12 and `ramp` 10 degrees. Less is a caution. A trailer has no approach and no ramp.
//!
//! # Source
//! The definition is that of ISO 612 and, for the ramp, of Directive 92/53/EEC. The limits are common practice, no source;
//! vehicles for rough ground are built to 25 degrees (from memory, not verified).
//!
//! # Change it
//! `limits: { ground-angles: { departure: 20, because: "..." } }`.

use super::check::{Check, Context, Limit};
use super::words::{judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::{Finding, Quantity, Severity, SourceClass, Worked};
use crate::vehicle::{Angles, Touch, angles, underside};

/// The check `ground-angles`.
pub struct GroundAngles;

const NAME: &str = "ground-angles";
const fn angle(name: &'static str, default: f64) -> Limit {
    let (quantity, class) = (Quantity::Angle, SourceClass::CommonPractice);
    Limit { name, default, quantity, class, source: "common practice, no source" }
}
const LIMITS: [Limit; 3] = [angle("departure", 12.0), angle("approach", 12.0), angle("ramp", 10.0)];

impl Check for GroundAngles {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "approach, departure and ramp angle"
    }

    fn source_text(&self) -> &'static str {
        include_str!("ground_angles.rs")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let found = named(angles(vehicle, &underside(context.model, vehicle)));
        with_tightest(found.into_iter().map(|(name, touch)| {
            let message = format!("the {name} angle is {}°, by the {}", trimmed(touch.angle, 1), touch.by);
            let mut finding = judged(NAME, Severity::Caution, name, (touch.angle, context.limits.get(name)), message);
            finding.spans = vec![vehicle.span];
            finding
        }))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let found = named(angles(vehicle, &underside(context.model, vehicle)));
        let sum = |(name, touch): (&str, Touch)| {
            let formula = match name {
                "ramp" => "sum over both wheels of atan2(h, d) + asin(r / hypot(d, h))",
                _ => "atan2(h, d) + asin(r / hypot(d, h))",
            };
            Worked::new(format!("The {name} angle"))
                .given("tyre radius under load, r", mm(vehicle.tyre_radius), "the layout")
                .given(
                    &format!("touches the {}", touch.by),
                    format!("{} from the front axle, {} above the ground", mm(touch.at.x), mm(touch.at.y)),
                    "underside",
                )
                .step("angle", [formula, ""], format!("{}°", trimmed(touch.angle, 2)), "tangent planes, ISO 612")
        };
        found.into_iter().map(sum).collect()
    }
}

/// The angles that there are, with the names of their limits.
fn named(angles: Angles) -> Vec<(&'static str, Touch)> {
    let all = [("approach", angles.approach), ("departure", angles.departure), ("ramp", angles.ramp)];
    all.into_iter().filter_map(|(name, touch)| Some((name, touch?))).collect()
}
