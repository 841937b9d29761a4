//! How each sleeper gets into and out of bed, and by night to the wet room.
//!
//! # Computes
//! For each lying space, shared out across its width into one strip for each person: the longest unbroken stretch of the
//! strip's four sides that is free. A place on a side is free if floor or a step (a solid tagged `step`) begins within 150
//! mm of it and reaches to 300 mm, if no solid within the first 150 mm stands between 100 and 600 mm above the mattress,
//! and if a person gets there from a door by a way of the least width of the check `reachable`. A stretch below 100 mm is
//! none. A sleeper without a free edge climbs over the neighbours' strips. Where a bed has fewer sleepers than places,
//! they lie where it is freest. Further: the greatest rise from the floor over the steps at that edge to the mattress top; and in the arrangement
//! `night` (or the one with the most berths) the widest way from each bed to the wet room, which is a module with a
//! solid tagged `toilet` or in a zone with the purpose `wet-room`.
//!
//! # Why
//! Who lies behind another wakes the other each time; and who has nowhere to put the feet falls.
//!
//! # Limit
//! `edge` 500 mm of free edge, `ladder` 300 mm where a step or a ladder stands at it: a caution below, also for those who
//! climb over another. `climb` 900 mm from the floor or a step to the next or to the mattress top: a caution above. No
//! way out at all, or no way from a bed to the wet room, is a fault. The way to the wet room is given as a note, and so is
//! who climbs over another in a bed that is made up from seats, without a solid tagged `mattress`.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { bed-access: { edge: 400, because: "..." } }`, or accept it for a bed against the wall:
//! `accepted: [{ check: bed-access, of: bed, because: "..." }]`.

mod edges;
mod ways;

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::WAY_WIDTH;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Mark, Quantity, Requirement, Severity};
use crate::figures::berths::{beds, night};
use crate::figures::shell::at_the;
use crate::figures::stretches::long;
use crate::model::{Arrangement, Tag, Wall};
use edges::{Edge, Over, Place, over, sleeping_places};
use ways::{ways_to_wet_rooms, wet_rooms};

/// The check `bed-access`.
pub struct BedAccess;

const NAME: &str = "bed-access";
static LIMITS: [Limit; 3] = [limit("edge", Least(500.0)), limit("ladder", Least(300.0)), limit("climb", Most(900.0))];

const fn limit(name: &'static str, default: Bound) -> Limit {
    Limit::practice(name, default, Quantity::Length)
}

impl Check for BedAccess {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "each sleeper gets out of bed without climbing over another, and by night to the wet room"
    }

    fn manual(&self) -> String {
        page_of(include_str!("bed_access.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let night = night(context.model).map(|night| &night.name);
        let mut known: Vec<(&Arrangement, Vec<Finding>)> = Vec::new();
        let mut by_night = Vec::new();
        for arrangement in context.arrangements() {
            let is_night = night == Some(&arrangement.name);
            let same = known.iter().find(|(other, _)| other.poses == arrangement.poses && !is_night);
            let found = match same {
                Some((_, found)) => found.clone(),
                None => {
                    let (found, ways) = look(context, arrangement, is_night);
                    by_night.extend(ways);
                    found
                }
            };
            known.push((arrangement, found));
        }
        let named = known.into_iter().flat_map(|(arrangement, found)| {
            found.into_iter().map(|finding| Finding { arrangements: vec![arrangement.name.clone()], ..finding })
        });
        with_tightest(named.chain(by_night))
    }
}

/// Findings about the beds of one arrangement, and those about the ways by night.
fn look(context: &Context<'_>, arrangement: &Arrangement, is_night: bool) -> (Vec<Finding>, Vec<Finding>) {
    let beds = beds(context.model, arrangement);
    if beds.is_empty() {
        return (Vec::new(), Vec::new());
    }
    let floor = context.floor(arrangement);
    let places = sleeping_places(&floor, &beds);
    let mut findings = Vec::new();
    for (index, place) in places.iter().enumerate().filter(|(_, place)| place.taken) {
        let found = match &place.edge {
            Some(edge) => [Some(free_edge(context, place, edge)), high(context, place, edge)],
            None => [shut_in(context, place, over(&places, index)), None],
        };
        findings.extend(found.into_iter().flatten());
    }
    let ways = if is_night { ways_to_wet_rooms(NAME, &floor, &places) } else { Vec::new() };
    (findings, ways)
}

fn found(
    place: &Place<'_, '_>,
    (asks, severity): (&'static str, Severity),
    message: String,
    measured: f64,
    required: Requirement,
) -> Finding {
    let module = place.bed.module;
    let finding = Finding::new(NAME, severity, &module.name, message).of_part(&place.bed.space.name).asks(asks);
    let finding = finding.asks(place.strip.at.map_or("middle", Wall::name));
    let mut finding = finding.names("who", place.bed.who(&place.strip));
    finding.measured = length(measured);
    finding.required = Some(required);
    finding.spans = vec![module.place_span, place.bed.space.span];
    finding.marks = vec![area(place.strip.rect)];
    finding
}

/// How long the free edge is, against the limit.
fn free_edge(context: &Context<'_>, place: &Place<'_, '_>, edge: &Edge) -> Finding {
    let mut required = context.limits.get("edge").within(WAY_WIDTH);
    if !edge.steps.is_empty() && context.limits.value("ladder") < required.value() {
        required = context.limits.get("ladder").within(WAY_WIDTH);
    }
    let (free, least) = (long(edge.free), required.value());
    let (who, side) = (place.bed.who(&place.strip), at_the(edge.side.faces));
    let (severity, message) = if required.holds(free) {
        (Severity::Met, format!("{who} gets out over {} of free edge {side}", mm(free)))
    } else {
        let message = format!("{who} gets out over only {} of free edge {side}, {} is needed", mm(free), mm(least));
        (Severity::Caution, message)
    };
    let mut finding = found(place, ("edge", severity), message, free, required).names("side", side);
    let (from, to) = edge.side.ends(edge.free);
    finding.marks.push(Mark::Between(from, to));
    finding
}

/// The mattress is too high above the floor or the last step.
fn high(context: &Context<'_>, place: &Place<'_, '_>, edge: &Edge) -> Option<Finding> {
    let required = context.limits.get("climb");
    let (climb, most) = (edge.climb(place.bed.top()), required.value());
    if required.holds(climb) {
        return None;
    }
    let who = place.bed.who(&place.strip);
    let message =
        format!("{who} climbs {} at once to the mattress, {} is the most without a step", mm(climb), mm(most));
    Some(found(place, ("climb", Severity::Caution), message, climb, required))
}

/// There is no free edge.
fn shut_in(context: &Context<'_>, place: &Place<'_, '_>, over: Over) -> Option<Finding> {
    let who = place.bed.who(&place.strip);
    let (severity, effect) = match over {
        Over::Nobody => return None,
        Over::Another => {
            let too =
                wet_rooms(context.model).first().map_or_else(String::new, |room| format!(", to `{}` too", room.name));
            (Severity::Caution, format!("climbs over another sleeper to get out{too}"))
        }
        Over::NoWay => (Severity::Fault, "has no way out".to_owned()),
    };
    let required = context.limits.get("edge");
    let least = mm(required.value());
    let message = format!("{who} {effect}: no edge of this place is free, {least} is needed");
    // Of a bed that is made up from seats for a night nobody asks more.
    let poses = &place.bed.module.poses;
    let mattress = poses.iter().flat_map(|pose| &pose.solids).any(|solid| solid.is(Tag::Mattress));
    let made_up = poses.len() > 1 && !mattress;
    let severity = if severity == Severity::Caution && made_up { Severity::Note } else { severity };
    let mut finding = found(place, ("out", severity), message, 0.0, required).names("effect", effect);
    if severity == Severity::Note {
        finding.required = None;
    }
    Some(finding)
}

#[cfg(test)]
mod tests;
