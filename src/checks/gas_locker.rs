//! Where gas that leaks runs out, and what must not be near its bottles.
//!
//! # Computes
//! For each module with a `hob` that `connects` gas: the free area of the vents through which gas beside it sinks out of the box: vents in the
//! floor below the module or within 300 mm of it, and those in a wall beside it that end no higher than 100 mm above the floor.
//! For each load with `is: gas-bottle`: the same around the module that holds it, or around the bottle itself, where the part of
//! the floor is the module's (or the bottle's) plan. And batteries, switches and sockets in a module that holds a bottle.
//!
//! # Why
//! Gas is heavier than air. It sinks, gathers and waits for a spark.
//!
//! # Limit
//! `drop` 1,000 mm² of free area by a hob: none or less is a caution. `locker` 2 percent of the plan of a locker, and `least`
//! 10,000 mm²: less is a fault, as is anything electrical in the locker.
//!
//! # Source
//! `locker`, `least`: public notes on DVGW G 607 and EN 1949 (2 % of the floor, 100 cm² at least), which were not read themselves; small
//! lockers may have less there. `drop`: common practice, no source. Height of a low vent, 100 mm: TÜV leaflet on EN 721, as quoted.
//!
//! # Change it
//! `limits: { gas-locker: { drop: 500, because: "..." } }`; add `drop: { kind: vent, wall: floor, ... }` below the hob.

mod sinks;

use super::check::{Check, Context, page_of};
use super::words::{area, judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Measure, Quantity, Requirement, Severity, SourceClass};
use crate::model::{Arrangement, Module, Service, Tag};
use crate::source::Span;
use sinks::{Locker, lockers, sparks, vented};

/// The check `gas-locker`.
pub struct GasLocker;

const NAME: &str = "gas-locker";
const G_607: &str = "public notes on DVGW G 607 and EN 1949, not read themselves";

static LIMITS: [Limit; 3] = [
    Limit::practice("drop", Least(1000.0), Quantity::Area),
    Limit::new("locker", Least(2.0), Quantity::Percent, SourceClass::FromMemory, G_607),
    Limit::new("least", Least(10_000.0), Quantity::Area, SourceClass::FromMemory, G_607),
];

impl Check for GasLocker {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "vents that gas sinks out by, and nothing electrical beside its bottles"
    }

    fn manual(&self) -> String {
        page_of(include_str!("gas_locker.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: gas is for licensed people, the local code and the appliance's maker decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let first = context.arrangements().first();
        let hobs = context.model.modules.iter().filter(|module| burns_gas(module)).map(|module| drop(context, module));
        let bottles = lockers(context.model);
        let lockers = bottles.iter().map(|locker| of_locker(context, locker));
        let sparks = bottles.iter().flat_map(|locker| first.map(|first| electrical(context, first, locker)));
        with_tightest(hobs.chain(lockers).chain(sparks.flatten()))
    }
}

fn burns_gas(module: &Module) -> bool {
    let gas = module.connects.iter().any(|connection| connection.service == Service::Gas);
    gas && module.poses.iter().flat_map(|pose| &pose.solids).any(|solid| solid.is(Tag::Hob))
}

fn drop(context: &Context<'_>, module: &Module) -> Finding {
    let required = context.limits.get("drop");
    let (free, names) = vented(context.model, &module.extent);
    let by = if names.is_empty() { "no vent at the floor".to_owned() } else { format!("{names} at the floor") };
    let message = format!(
        "gas of the hob of `{}` sinks out by {by}: {} mm² are free, {} mm² are needed",
        module.name,
        trimmed(free, 0),
        trimmed(required.value(), 0)
    );
    let finding = judged(NAME, Severity::Caution, &module.name, (free, required), message);
    let mut finding = finding.asks("drop").names("by", by);
    finding.spans = vec![module.place_span];
    finding.marks = vec![area(module.extent.plan())];
    finding
}

fn of_locker(context: &Context<'_>, locker: &Locker<'_>) -> Finding {
    let (share, least) = (context.limits.get("locker"), context.limits.get("least"));
    let plan = locker.room.plan();
    let by_share = plan.area() * share.value() / 100.0;
    let required = if by_share > least.value() { share.of(by_share, Quantity::Area) } else { least };
    let (free, names) = vented(context.model, &locker.room);
    let by = if names.is_empty() { "no vent at the floor".to_owned() } else { format!("{names} at the floor") };
    let message = format!(
        "`{}` with its gas is vented by {by}: {} mm² are free, {} mm² are needed",
        locker.name,
        trimmed(free, 0),
        trimmed(required.value(), 0)
    );
    let finding = judged(NAME, Severity::Fault, locker.name, (free, required), message);
    let mut finding = finding.asks("locker").names("by", by);
    finding.spans = locker.spans.clone();
    finding.marks = vec![area(plan)];
    finding
}

/// What makes sparks in a locker with gas.
fn electrical(context: &Context<'_>, arrangement: &Arrangement, locker: &Locker<'_>) -> Vec<Finding> {
    let found = sparks(context.model, arrangement, locker).into_iter();
    found
        .map(|(says, span): (String, Span)| {
            let message = format!("{says} is in `{}` with gas; nothing electrical may be there", locker.name);
            let mut finding = Finding::new(NAME, Severity::Fault, locker.name, message).asks("sparks");
            finding = finding.names("what", says);
            finding.measured = Some(Measure { value: 1.0, quantity: Quantity::Count });
            let none = crate::diagnostic::Bound::Most(0.0);
            finding.required = Some(Requirement::new(none, Quantity::Count, SourceClass::FromMemory, G_607));
            finding.spans = locker.spans.iter().copied().chain([span]).collect();
            finding.marks = vec![area(locker.room.plan())];
            finding
        })
        .collect()
}

#[cfg(test)]
mod tests;
