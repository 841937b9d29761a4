//! Whether the vehicle leans to one side.
//!
//! # Computes
//! For each load case the loads of the left and right wheels of each axle: load x (1/2 + e / track), with e how far the
//! centre lies right of the middle; their difference as part of their sum.
//!
//! # Why
//! A box that is heavier on one side hangs there, wears its tyres and pulls when it brakes.
//!
//! # Limit
//! `most`: 4 % difference. More is a caution.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { side-balance: { most: 6, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, Worked};
use crate::model::Model;
use crate::vehicle::{LoadCase, Mass, Weighed};

/// The check `side-balance`.
pub struct SideBalance;

const NAME: &str = "side-balance";
static LIMITS: [Limit; 1] = [Limit::practice("most", Most(4.0), Quantity::Percent)];

impl Check for SideBalance {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "difference of the wheel loads left and right"
    }

    fn manual(&self) -> String {
        page_of(include_str!("side_balance.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let (cases, weighed) = (context.figures.cases(), context.figures.weighed().iter());
        let Some(worst) = weighed.max_by(|a, b| a.lean().total_cmp(&b.lean())) else { return Vec::new() };
        let side = if worst.centre.y > 0.0 { "right" } else { "left" };
        let message = format!(
            "the {side} wheels carry {} % more of their axle in the case `{}`: the centre is {} mm {side} of the middle",
            trimmed(worst.lean(), 1),
            worst.case,
            trimmed(worst.centre.y.abs(), 0)
        );
        let required = context.limits.get("most");
        let mut finding = judged(NAME, Severity::Caution, "vehicle", (worst.lean(), required), message);
        let case = cases.iter().find(|case| case.name == worst.case);
        finding.help =
            case.filter(|_| finding.severity < Severity::Met).and_then(|case| advice(context.model, case, worst));
        finding.spans = vec![vehicle.span];
        vec![finding]
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        context.figures.weighed().iter().map(|weighed| sum(weighed, vehicle.rear.track)).collect()
    }
}

/// How far the heaviest tank or thing would have to go to the other side.
fn advice(model: &Model, case: &LoadCase, weighed: &Weighed) -> Option<String> {
    let movable = |item: &&Mass| model.loads.iter().any(|load| load.name == item.name);
    let item = case.aboard.iter().filter(movable).max_by(|a, b| a.mass.total_cmp(&b.mass))?;
    let by = weighed.total * weighed.centre.y.abs() / item.mass;
    let side = if weighed.centre.y > 0.0 { "left" } else { "right" };
    Some(format!(
        "moving `{}` ({} kg) {} mm to the {side} would level it: {} kg x {} mm / {} kg",
        item.name,
        trimmed(item.mass, 1),
        trimmed(by, 0),
        trimmed(weighed.total, 0),
        trimmed(weighed.centre.y.abs(), 1),
        trimmed(item.mass, 1)
    ))
}

fn sum(weighed: &Weighed, track: f64) -> Worked {
    let (left, right) = weighed.rear_sides;
    let [load, e, track, left, right] = [weighed.rear, weighed.centre.y, track, left, right].map(|v| trimmed(v, 1));
    let moment = format!("{} kg mm / {} kg", trimmed(weighed.total * weighed.centre.y, 0), trimmed(weighed.total, 1));
    Worked::new(format!("Load case `{}`", weighed.case))
        .step("centre right of the middle, e", ["sum(m y) / sum(m)", &moment], format!("{e} mm"), "")
        .step(
            "right wheels of the rear axle",
            ["load (1/2 + e / track)", &format!("{load} (1/2 + {e} / {track})")],
            format!("{right} kg"),
            "moments about the middle",
        )
        .step("left wheels", ["load - right", ""], format!("{left} kg"), "")
        .step("difference", ["|left - right| / (left + right)", ""], format!("{} %", trimmed(weighed.lean(), 2)), "")
}

#[cfg(test)]
mod tests;
