//! Whether the box keeps clear of the cab and the frame when the frame twists.
//!
//! # Computes
//! With a subframe the box stays with the mounts that hold it against rolling (`fixed-at`, `sides-at`), and the frame ahead of and behind them
//! turns evenly along its length. At the cab it has turned by twist x (fixed-at - cab) / wheelbase. From that: how far each corner of the pass-through in
//! the front wall moves crosswise (shear of the sleeve), how much longer the sleeve gets over the gap (stretch), and what
//! is left between the frame's rails and the box's underside at the end of the box where that is less. And how near a cab that tilts comes
//! to the front wall, at whatever height.
//!
//! # Why
//! A frame twists by several degrees on a rough track; a sleeve that is too short tears, a box that is too low is lifted by
//! a rail and breaks.
//!
//! # Limit
//! `sleeve-shear`, `sleeve-stretch` and `least-gap` of the subframe: beyond them it is a fault. `tilt`: 20 mm between the tilting cab and the
//! box; less is a fault.
//!
//! # Source
//! Geometry; the twist is the layout's input. No published figure in degrees was found. `tilt`: common practice, no source.
//!
//! # Change it
//! `vehicle: { subframe: { sleeve-shear: 90 } }`: what the maker of the sleeve allows.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::model::{Subframe, Vehicle};
use crate::vehicle::{Moved, Twist, tilting, twist};

/// The check `twist-gap`.
pub struct TwistGap;

const NAME: &str = "twist-gap";
const GIVEN: &str = "allowance that the layout gives";
static LIMITS: [Limit; 1] = [Limit::practice("tilt", Least(20.0), Quantity::Length)];

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
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let turned = vehicle.subframe.zip(twist(context.model, vehicle));
        let turned = turned.into_iter().flat_map(|(subframe, twist)| against_box(&subframe, &twist));
        with_tightest(turned.chain(cab(context, vehicle)))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let tilt = tilt_sum(context, vehicle);
        let Some((subframe, twist)) = vehicle.subframe.zip(twist(context.model, vehicle)) else {
            return tilt.into_iter().collect();
        };
        let degrees = |angle: f64| format!("{}°", trimmed(angle, 2));
        let mut worked = Worked::new("Twist between cab and box")
            .given("twist of the frame over the wheelbase", degrees(subframe.twist), "the layout")
            .step(
                "turned at the cab, a",
                ["twist (fixed-at - cab) / wheelbase", ""],
                degrees(twist.angle),
                "even along the frame",
            );
        const TURN: &str = "y (cos a - 1) - z sin a, y sin a + z (cos a - 1)";
        let by = |corner: &Moved| format!("{} sideways, {} upward", mm(corner.by.x), mm(corner.by.y));
        for corner in twist.corners.iter().chain(&twist.sleeve) {
            worked = worked.step(&corner.name, [TURN, ""], by(corner), "rotation");
        }
        for (end, corner) in twist.ends.iter().flat_map(|end| end.corners.iter().map(move |corner| (end, corner))) {
            let what = format!("frame below the {} corner of the {}", corner.name, end.name);
            worked = worked.step(&what, [TURN, &degrees(end.angle)], by(corner), "rotation");
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
        [worked].into_iter().chain(tilt).collect()
    }
}

/// Sleeve and frame against the box.
fn against_box(subframe: &Subframe, twist: &Twist) -> Vec<Finding> {
    let most = [
        ("shear", "the sleeve is sheared by", twist.shear, subframe.sleeve_shear),
        ("stretch", "the sleeve is stretched by", twist.stretch, subframe.sleeve_stretch),
    ];
    let required = |bound| Requirement::new(bound, Quantity::Length, SourceClass::Layout, GIVEN);
    let sleeves = most.into_iter().filter(|_| !twist.sleeve.is_empty()).map(|(asks, words, value, allowed)| {
        let message = format!("{words} {}, of {} at most", mm(value), mm(allowed));
        judged(NAME, Severity::Fault, "sleeve", (value, required(Most(allowed))), message).asks(asks)
    });
    let under = twist.under.map(|(rest, left)| {
        let message = format!("{} of {} are left between frame and box", mm(left), mm(rest));
        judged(NAME, Severity::Fault, "frame", (left, required(Least(subframe.least_gap))), message)
    });
    let placed = |mut finding: Finding| {
        finding.spans = vec![subframe.span];
        finding
    };
    sleeves.chain(under).map(placed).collect()
}

/// The tilting cab against the box.
fn cab(context: &Context<'_>, vehicle: &Vehicle) -> Option<Finding> {
    let found = tilting(context.model, vehicle)?;
    let message =
        format!("between the cab, tilted by {}°, and the front wall are {}", trimmed(found.angle, 1), mm(found.left));
    let mut finding = judged(NAME, Severity::Fault, "cab", (found.left, context.limits.get("tilt")), message);
    finding.spans = vec![vehicle.span];
    Some(finding)
}

/// The sum of a cab's tilt.
fn tilt_sum(context: &Context<'_>, vehicle: &Vehicle) -> Option<Worked> {
    let found = tilting(context.model, vehicle)?;
    let place = format!("from ({}, {}) mm", trimmed(found.place.x, 0), trimmed(found.place.y, 0));
    Some(
        Worked::new("Tilting cab")
            .step(
                "nearest at",
                ["tan a = -h / d of an end of its rear wall", &place],
                format!("{}°", trimmed(found.angle, 2)),
                "rotation",
            )
            .step("left before the front wall", ["wall - (d cos a - h sin a)", ""], mm(found.left), ""),
    )
}

#[cfg(test)]
mod tests;
