//! How far the vehicle reaches behind its rear axle.
//!
//! # Computes
//! The distance from the rear axle, or the middle of a group, to the rearmost point of box or vehicle.
//!
//! # Why
//! A long overhang swings out in bends, grounds on ramps and takes load off the steering axle.
//!
//! # Limit
//! `rear-overhang-limit` of the vehicle (`share-of-wheelbase`, `most`), else the region's: `uk` 60 % of the wheelbase, `au`
//! 60 % and 3.7 m at most, `eu` none. More is a fault.
//!
//! # Source
//! `uk`: gov.uk, extending a vehicle's length behind its rear axle. `au`: NHVR, rear overhang.
//!
//! # Change it
//! `vehicle: { rear-overhang-limit: { share-of-wheelbase: 60, most: 3700 } }`.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::mm;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::vehicle::{outside, size_limits};

/// The check `overhang`.
pub struct Overhang;

const NAME: &str = "overhang";

impl Check for Overhang {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "distance from the rear axle to the rear end"
    }

    fn manual(&self) -> String {
        page_of(include_str!("overhang.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("the local authority decides")
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let size = outside(context.model, vehicle);
        let own = vehicle.overhang.0 > 0.0;
        let (severity, words) = match size.most_overhang.is_finite() {
            true => (Severity::Fault, format!(", of {} at most", mm(size.most_overhang))),
            false => (Severity::Note, String::new()),
        };
        let message = format!("the vehicle reaches {} behind its rear axle{words}", mm(size.overhang));
        let source = if own { "limit of the layout" } else { size_limits(vehicle).source };
        let class = if own { SourceClass::Layout } else { SourceClass::Published };
        let required = Requirement::new(Most(size.most_overhang), Quantity::Length, class, source);
        let mut finding = judged(NAME, severity, "vehicle", (size.overhang, required), message);
        if severity == Severity::Note {
            (finding.severity, finding.required) = (severity, None);
        }
        finding.spans = vec![vehicle.span];
        vec![finding]
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let size = outside(context.model, vehicle);
        let most = if size.most_overhang.is_finite() { mm(size.most_overhang) } else { "none".to_owned() };
        let figures = format!("{} - {}", mm(size.overhang + vehicle.wheelbase), mm(vehicle.wheelbase));
        vec![
            Worked::new("Rear overhang")
                .step("overhang", ["rearmost point - wheelbase, from the front axle", &figures], mm(size.overhang), "")
                .given("at most", most, size_limits(vehicle).source),
        ]
    }
}

#[cfg(test)]
mod tests;
