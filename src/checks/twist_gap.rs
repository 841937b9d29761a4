//! Whether the box keeps clear of the cab and the frame when the frame twists.
//!
//! # Computes
//! With a three-point subframe the box stays with the fixed member and the frame ahead of it turns evenly along its length.
//! At the cab it has turned by twist x (fixed-at - cab) / wheelbase. From that: how far each corner of the pass-through in
//! the front wall moves crosswise (shear of the sleeve), how much longer the sleeve gets over the gap (stretch), and what
//! is left between the frame's rails and the box's underside at the front wall.
//!
//! # Why
//! A frame twists by several degrees on a rough track; a sleeve that is too short tears, a box that is too low is lifted by
//! a rail and breaks.
//!
//! # Limit
//! `sleeve-shear`, `sleeve-stretch` and `least-gap` of the subframe: beyond them it is a fault.
//!
//! # Source
//! Geometry; the twist is the layout's input. No published figure in degrees was found.
//!
//! # Change it
//! `vehicle: { subframe: { sleeve-shear: 90 } }`: what the maker of the sleeve allows.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::vehicle::twist;

/// The check `twist-gap`.
pub struct TwistGap;

const NAME: &str = "twist-gap";
const GIVEN: &str = "allowance that the layout gives";

impl Check for TwistGap {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "movement between cab, frame and box when the frame twists"
    }

    fn manual(&self) -> String {
        page_of(include_str!("twist_gap.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("geometry of stiff bodies; the makers of chassis and subframe decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let Some((subframe, twist)) = vehicle.subframe.zip(twist(context.model, vehicle)) else { return Vec::new() };
        let sleeve = !twist.sleeve.is_empty();
        let most = [
            ("shear", "the sleeve is sheared by", twist.shear, subframe.sleeve_shear),
            ("stretch", "the sleeve is stretched by", twist.stretch, subframe.sleeve_stretch),
        ];
        let required = |bound| Requirement::new(bound, Quantity::Length, SourceClass::Layout, GIVEN);
        let sleeves = most.into_iter().filter(|_| sleeve).map(|(asks, words, value, allowed)| {
            let message = format!("{words} {}, of {} at most", mm(value), mm(allowed));
            judged(NAME, Severity::Fault, "sleeve", (value, required(Most(allowed))), message).asks(asks)
        });
        let under = twist.under.map(|(rest, left)| {
            let message = format!("{} of {} are left between frame and box", mm(left), mm(rest));
            judged(NAME, Severity::Fault, "frame", (left, required(Least(subframe.least_gap))), message)
        });
        let mut findings = with_tightest(sleeves.chain(under));
        findings.iter_mut().for_each(|finding| finding.spans = vec![subframe.span]);
        findings
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let Some((subframe, twist)) = vehicle.subframe.zip(twist(context.model, vehicle)) else { return Vec::new() };
        let degrees = |angle: f64| format!("{}°", trimmed(angle, 2));
        let mut worked = Worked::new("Twist between cab and box")
            .given("twist of the frame over the wheelbase", degrees(subframe.twist), "the layout")
            .step(
                "turned at the cab, a",
                ["twist (fixed-at - cab) / wheelbase", ""],
                degrees(twist.angle),
                "even along the frame",
            );
        for corner in twist.corners.iter().chain(&twist.sleeve) {
            let by = format!("{} sideways, {} upward", mm(corner.by.x), mm(corner.by.y));
            worked =
                worked.step(&corner.name, ["y (cos a - 1) - z sin a, y sin a + z (cos a - 1)", ""], by, "rotation");
        }
        worked = worked.step("shear of the sleeve", ["greatest of its corners", ""], mm(twist.shear), "").step(
            "stretch",
            ["hypot(gap, shear) - gap", ""],
            mm(twist.stretch),
            "",
        );
        if let Some((rest, left)) = twist.under {
            worked =
                worked.step("left over the frame", ["rest - w sin a", &format!("from {}", mm(rest))], mm(left), "");
        }
        vec![worked]
    }
}

#[cfg(test)]
mod tests;
