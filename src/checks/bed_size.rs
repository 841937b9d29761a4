//! Whether each sleeper's bed is long and wide enough, and whether there are enough berths.
//!
//! # Computes
//! For each lying space in every arrangement: its length along the direction of lying and its width for each person,
//! against the sleeper's stature. Sleepers are those whom the layout names at the module, for one of its spaces or in order;
//! the others, the tallest first, get the longest free place that is long and wide enough for them. A place counts as a berth
//! where the shortest person fits, or somebody is named for it. The largest trade mattress that goes in (least sum of both
//! differences) is given as a note. Berths are counted in the arrangement `night`, or, if there is none, in the one with the
//! most; a layout without any berth is not meant for sleeping.
//!
//! # Why
//! Feet want room beyond the heels, shoulders want room to turn; and everybody wants a bed.
//!
//! # Limit
//! `spare`: 150 mm of length beyond the stature, a caution below; shorter than the sleeper is a fault. `width`: 650 mm
//! for each person, a caution below; under 500 mm is a fault. As many berths as people, and one for each that is long and wide
//! enough for them, else a fault.
//!
//! # Source
//! Common practice, no source. Mattress sizes from an openly readable table (liquisearch.com, common bed sizes); those
//! marked "from memory" were not verified.
//!
//! # Change it
//! `limits: { bed-size: { spare: 100, because: "..." } }`, or name `sleepers` at the module.

mod words;

use super::check::{Check, Context, page_of};
use super::words::with_tightest;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity};
use crate::figures::berths::{Bed, NARROWEST, beds, night, places, unnamed};
use crate::model::{Arrangement, Model, Need, Person};
use words::{NAME, berths_finding, nearest, size_finding, too_tall_finding};

/// The check `bed-size`.
pub struct BedSize;

static LIMITS: [Limit; 2] = [limit("spare", Least(150.0)), limit("width", Least(650.0))];

const fn limit(name: &'static str, default: Bound) -> Limit {
    Limit::practice(name, default, Quantity::Length)
}

impl Check for BedSize {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "length and width of each bed against its sleepers, and enough berths"
    }

    fn manual(&self) -> String {
        page_of(include_str!("bed_size.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for arrangement in context.arrangements() {
            for bed in beds(context.model, arrangement) {
                findings.extend(length(context, arrangement, &bed));
                findings.push(width(context, arrangement, &bed));
                findings.push(nearest(arrangement, &bed));
            }
        }
        findings.extend(berths(context.model));
        with_tightest(findings)
    }
}

fn length(context: &Context<'_>, arrangement: &Arrangement, bed: &Bed<'_>) -> Option<Finding> {
    let tallest = bed.sleepers.iter().max_by(|a, b| a.stature.total_cmp(&b.stature));
    let (who, stature) = match tallest {
        Some(person) => (format!("`{}`", person.name), person.stature),
        None if context.model.people.is_empty() => ("a sleeper".to_owned(), context.model.tallest()),
        None => return None,
    };
    let spare = context.limits.get("spare");
    let least = spare.value() + stature;
    let required = spare.at(least);
    let severity = severity(bed.length, stature, least);
    Some(size_finding(arrangement, bed, severity, ("long", bed.length), required, (&who, stature)))
}

fn severity(measured: f64, fault: f64, caution: f64) -> Severity {
    match (measured + SAME_LENGTH < fault, measured + SAME_LENGTH < caution) {
        (true, _) => Severity::Fault,
        (false, true) => Severity::Caution,
        (false, false) => Severity::Met,
    }
}

fn width(context: &Context<'_>, arrangement: &Arrangement, bed: &Bed<'_>) -> Finding {
    let each = bed.width / f64::from(bed.space.people.max(1));
    let required = context.limits.get("width");
    // A layout that sets a limit below the fault's own has said why.
    let severity = severity(each, NARROWEST.min(required.value()), required.value());
    size_finding(arrangement, bed, severity, ("wide", each), required, ("each sleeper", 0.0))
}

/// Whether everybody has a berth at night, long and wide enough for them.
fn berths(model: &Model) -> Option<Finding> {
    let night = night(model)?;
    if !model.arrangements.iter().any(|arrangement| arrangement_has_beds(model, arrangement)) {
        return None;
    }
    let (berths, people) = (places(model, night) as usize, model.people.len());
    if berths < people {
        return Some(berths_finding(model, night, people, berths));
    }
    let beds = beds(model, night);
    let lies = |person: &Person| beds.iter().any(|bed| bed.sleepers.iter().any(|one| one.name == person.name));
    let left = unnamed(model).into_iter().find(|person| !lies(person))?;
    Some(too_tall_finding(night, left, &beds))
}

fn arrangement_has_beds(model: &Model, arrangement: &Arrangement) -> bool {
    model.spaces(arrangement).any(|(_, space)| space.need == Need::Lying)
}

#[cfg(test)]
mod tests;
