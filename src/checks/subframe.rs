//! Whether the subframe holds the box.
//!
//! # Computes
//! In every load case what the box puts on each mount at rest. Three points, and springs at rest: by the levers between the pair and the pivot,
//! the moment aside on the pair. Four points: for a stiff box on four mounts that are equally stiff. Then the bending of the longitudinals
//! (`rails`: two rectangular tubes) as beams on these mounts, with the mass of the box spread along it so that mass and centre are met; stress
//! at rest times `dynamic`. And how far a mount with a spring opens when the frame twists.
//!
//! # Why
//! A box that rests on too little bends its subframe, tears its floor and jams its doors, and that on the first rough track.
//!
//! # Limit
//! `yield`: 67 % of the yield strength of the steel, with `dynamic` (2.5 unless the layout says other): more is a fault. A mount that the box
//! pulls up at rest is a caution. A spring that is pressed further than its `travel` is a fault. Without `rails`, and of a subframe that is bolted
//! down all along, nothing is known, which a note says.
//!
//! # Source
//! Statics. Yield strength: EN 10025-2, table 7, as others quote it, walls up to 16 mm. `dynamic`: lectures on vehicle frames give 2 to 3 upward; the
//! margin of 1.5 over it, and four equal mounts: common practice, no source. Welds tire long before the tube yields, whatever the steel: not
//! looked at.
//!
//! # Change it
//! `vehicle: { subframe: { rails: { height: 140, width: 70, wall: 5, steel: s355 } } }`; move the mounts.

mod sums;

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::model::{Mounts, Subframe, Vehicle};
use crate::vehicle::{Held, held, opened};
use sums::{spring_sum, sum, used};

/// The check `subframe`.
pub struct SubframeHolds;

const NAME: &str = "subframe";
static LIMITS: [Limit; 1] = [Limit::practice("yield", Most(67.0), Quantity::Percent)];

impl Check for SubframeHolds {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "loads of the subframe's mounts, bending of its longitudinals, travel of its springs"
    }

    fn manual(&self) -> String {
        page_of(include_str!("subframe.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some(
            "a design aid: the chassis maker's guideline for bodies and an engineer decide; welds and fatigue are not looked at",
        )
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some((vehicle, subframe)) = on_subframe(context) else { return Vec::new() };
        let all = held(context.model, vehicle, context.figures.cases());
        let judged = [bending(context, subframe, &all), pulled(&all), spring(vehicle, subframe)];
        let mut findings = with_tightest(judged.into_iter().flatten());
        findings.extend(unknown(subframe));
        findings.iter_mut().for_each(|finding| finding.spans = vec![subframe.span]);
        findings
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some((vehicle, subframe)) = on_subframe(context) else { return Vec::new() };
        let all = held(context.model, vehicle, context.figures.cases());
        all.iter().map(|case| sum(subframe, case)).chain(spring_sum(vehicle, subframe)).collect()
    }
}

fn on_subframe<'a>(context: &Context<'a>) -> Option<(&'a Vehicle, &'a Subframe)> {
    let vehicle = context.model.vehicle.as_ref()?;
    Some((vehicle, vehicle.subframe.as_ref()?))
}

/// The longitudinals where they are stressed most.
fn bending(context: &Context<'_>, subframe: &Subframe, all: &[Held]) -> Option<Finding> {
    let rails = subframe.rails?;
    let bent = all.iter().filter_map(|held| Some((held, held.rail?)));
    let (held, bent) = bent.max_by(|a, b| a.1.stress.total_cmp(&b.1.stress))?;
    let message = format!(
        "the longitudinals are stressed to {} N/mm2 at rest in the case `{}`, {} mm behind the front axle, and to {} % of their yield \
         strength with the factor of {} for the road; they bend by {}",
        trimmed(bent.stress, 1),
        held.case,
        trimmed(bent.at, 0),
        trimmed(used(subframe, &rails, &bent), 0),
        trimmed(subframe.dynamic, 2),
        mm(bent.bend.abs())
    );
    let required = context.limits.get("yield");
    Some(judged(NAME, Severity::Fault, "rails", (used(subframe, &rails, &bent), required), message))
}

/// The mount that carries least.
fn pulled(all: &[Held]) -> Option<Finding> {
    let mounts = all.iter().flat_map(|held| held.mounts.iter().map(move |mount| (held, mount)));
    let (held, mount) = mounts.min_by(|a, b| a.1.carries.total_cmp(&b.1.carries))?;
    let says = if mount.carries < 0.0 { "is pulled up by" } else { "carries" };
    let message =
        format!("the {} {says} {} kg at rest in the case `{}`", mount.name, trimmed(mount.carries.abs(), 0), held.case);
    let required = Requirement::geometry(Least(0.0), Quantity::Mass);
    Some(judged(NAME, Severity::Caution, "mounts", (mount.carries, required), message))
}

fn spring(vehicle: &Vehicle, subframe: &Subframe) -> Option<Finding> {
    let (Mounts::Springs { spring, .. }, (opens, holds)) = (subframe.mounts, opened(vehicle, subframe)?) else {
        return None;
    };
    let message = format!(
        "a mount with a spring opens by {} when the frame twists, of {} at most; its spring then holds with {} N",
        mm(opens),
        mm(spring.travel),
        trimmed(holds, 0)
    );
    let required =
        Requirement::new(Most(spring.travel), Quantity::Length, SourceClass::Layout, "travel that the layout gives");
    Some(judged(NAME, Severity::Fault, "springs", (opens, required), message))
}

/// What nothing is known of.
fn unknown(subframe: &Subframe) -> Option<Finding> {
    let message = match (subframe.mounts, subframe.rails) {
        (Mounts::Rigid, _) => {
            "the subframe is bolted down all along: the box twists with the frame, and nothing here tells what it bears"
        }
        (_, None) => "no `rails` are given: nothing tells how the subframe's longitudinals bend",
        _ => return None,
    };
    Some(Finding::new(NAME, Severity::Note, "vehicle", message).asks("unknown"))
}
