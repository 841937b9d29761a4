//! Whether a tank can be filled from where its filler is.
//!
//! # Computes
//! For each tank with a `filler`: how far the filler lies above the tank's top; and, where the vehicle is known, how high it is
//! above the ground. A tank for fresh water or fuel without a `filler` gets a note: nothing tells how it is filled.
//!
//! # Why
//! A hose that rises to the tank does not fill it, and a filler that nobody reaches is filled by a ladder.
//!
//! # Limit
//! `above` 50 mm: less is a caution. `reach` 120 percent of the stature of the shortest person, from the ground: more is a caution.
//!
//! # Source
//! Common practice, no source. The bore of the vent, half that of the filling hose at least, is not looked at.
//!
//! # Change it
//! `limits: { tank-fill: { above: 0, because: "filled by a pump" } }`; move the `filler` or the tank.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Mark, Quantity, Requirement, Severity};
use crate::geometry::Point3;
use crate::model::{Holds, Load};
use kurbo::Point;

/// The check `tank-fill`.
pub struct TankFill;

const NAME: &str = "tank-fill";

static LIMITS: [Limit; 2] =
    [Limit::practice("above", Least(50.0), Quantity::Length), Limit::practice("reach", Most(120.0), Quantity::Percent)];

impl Check for TankFill {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "fillers above their tanks and within reach from the ground"
    }

    fn manual(&self) -> String {
        page_of(include_str!("tank_fill.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let tanks = context.model.loads.iter().filter(|load| load.tank.is_some());
        with_tightest(tanks.flat_map(|load| match load.filler {
            Some(at) => above(context, load, at).into_iter().chain(reach(context, load, at)).collect(),
            None => untold(load).into_iter().collect::<Vec<_>>(),
        }))
    }
}

/// The note about a tank of which nothing tells how it is filled.
fn untold(load: &Load) -> Option<Finding> {
    load.tank.filter(|tank| matches!(tank.holds, Holds::Fresh | Holds::Fuel))?;
    let message = format!("`{}` has no `filler`: nothing tells whether it can be filled", load.name);
    let mut finding = Finding::new(NAME, Severity::Note, &load.name, message).asks("filler");
    finding.spans = vec![load.span];
    Some(finding)
}

fn above(context: &Context<'_>, load: &Load, at: Point3) -> Option<Finding> {
    let required = context.limits.get("above");
    let by = at.z - load.room.as_ref()?.bounds().z.1;
    let side = if by < 0.0 { "below" } else { "above" };
    let message = format!(
        "the filler of `{}` lies {} {side} the top of the tank, {} above it is needed to fill it by a hose",
        load.name,
        mm(by.abs()),
        mm(required.value())
    );
    let finding = judged(NAME, Severity::Caution, &load.name, (by, required), message);
    Some(placed(finding.asks("above"), load, at))
}

fn reach(context: &Context<'_>, load: &Load, at: Point3) -> Option<Finding> {
    let (percent, shortest) = (context.limits.get("reach"), context.model.shortest());
    let height = at.z + context.model.vehicle.as_ref()?.floor_height;
    let most = shortest * percent.value() / 100.0;
    let message = format!(
        "the filler of `{}` is {} above the ground, the shortest person, {} tall, reaches {}",
        load.name,
        mm(height),
        mm(shortest),
        mm(most)
    );
    let source = format!("{} % of {}; {}", trimmed(percent.value(), 1), mm(shortest), percent.source);
    let required = Requirement { source, ..percent.of(most, Quantity::Length) };
    let finding = judged(NAME, Severity::Caution, &load.name, (height, required), message);
    Some(placed(finding.asks("reach"), load, at))
}

fn placed(mut finding: Finding, load: &Load, at: Point3) -> Finding {
    finding.spans = vec![load.span];
    finding.marks = vec![Mark::At(Point::new(at.x, at.y))];
    finding
}

#[cfg(test)]
mod tests;
