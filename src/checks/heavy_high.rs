//! What is heavy and hangs high.
//!
//! # Computes
//! For each module that begins at least `high` above the floor: what it is made to hold, or in its place the cargo that the
//! layout lists for it, over its longer side in plan, in kilograms a metre. For each load inside the box whose middle lies above
//! `high`: its mass with what its tank holds when full.
//!
//! # Why
//! A full locker under the roof tears at its screws on every bump, falls on people when they give, and makes the vehicle
//! roll.
//!
//! # Limit
//! `high` 1,200 mm. `metre` 25 kg for each metre of a module; `thing` 15 kg of a load. More is a caution.
//!
//! # Source
//! Common practice, no source. What fixings carry in a panel has to be tried or told by their maker.
//!
//! # Change it
//! `limits: { heavy-high: { metre: 35, because: "..." } }`; stow what is heavy low down and between the axles.

use super::check::{Check, Context, page_of};
use super::words::{area, judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Severity};
use crate::figures::ground::loads;
use crate::model::{Load, Model, Module};

/// The check `heavy-high`.
pub struct HeavyHigh;

const NAME: &str = "heavy-high";

static LIMITS: [Limit; 3] = [
    Limit::practice("high", Least(1200.0), Quantity::Length),
    Limit::practice("metre", Most(25.0), Quantity::Mass),
    Limit::practice("thing", Most(15.0), Quantity::Mass),
];

impl Check for HeavyHigh {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "mass in lockers and of things that hang high"
    }

    fn manual(&self) -> String {
        page_of(include_str!("heavy_high.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: how a load is fixed and what the panel carries is for who builds and approves it")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let high = context.limits.value("high") - SAME_LENGTH;
        let model = context.model;
        let modules = model.modules.iter().enumerate().filter(|(_, module)| module.extent.z.0 >= high);
        let lockers = modules.filter_map(|(at, module)| locker(context, held(model, at, module), module));
        let things = loads(model).filter(|(load, _)| load.at.z >= high).map(|(load, _)| thing(context, load));
        with_tightest(lockers.chain(things))
    }
}

/// What a module holds, kg.
fn held(model: &Model, at: usize, module: &Module) -> f64 {
    let mut listed = model.cargo.iter().filter(|cargo| cargo.module == at).peekable();
    if listed.peek().is_none() {
        return module.contents_mass();
    }
    listed.map(|cargo| cargo.mass * cargo.parcel.count as f64).sum()
}

fn locker(context: &Context<'_>, held: f64, module: &Module) -> Option<Finding> {
    let plan = module.extent.plan();
    let run = plan.width().max(plan.height());
    if held <= 0.0 || run <= 0.0 {
        return None;
    }
    let (required, metre) = (context.limits.get("metre"), held / run * 1000.0);
    let message = format!(
        "`{}` holds {} kg {} above the floor, {} kg on each metre, of {} kg at most",
        module.name,
        trimmed(held, 1),
        mm(module.extent.z.0),
        trimmed(metre, 1),
        trimmed(required.value(), 1)
    );
    let finding = judged(NAME, Severity::Caution, &module.name, (metre, required), message);
    let finding = finding.asks("metre").figure("held", held, Quantity::Mass);
    let mut finding = finding.figure("above the floor", module.extent.z.0, Quantity::Length);
    finding.spans = vec![module.place_span];
    finding.marks = vec![area(plan)];
    Some(finding)
}

fn thing(context: &Context<'_>, load: &Load) -> Finding {
    let required = context.limits.get("thing");
    let mass = load.mass + load.tank.map_or(0.0, |tank| tank.litres() * tank.density * tank.fill[2]);
    let message = format!(
        "`{}` weighs {} kg {} above the floor, of {} kg at most",
        load.name,
        trimmed(mass, 1),
        mm(load.at.z),
        trimmed(required.value(), 1)
    );
    let finding = judged(NAME, Severity::Caution, &load.name, (mass, required), message);
    let mut finding = finding.asks("thing").figure("above the floor", load.at.z, Quantity::Length);
    finding.spans = vec![load.span];
    finding
}

#[cfg(test)]
mod tests;
