//! The height over the mattress, along the whole bed.
//!
//! # Computes
//! For each sleeper's strip of a lying space (the space shared out across its width), in every arrangement, the height
//! from the mattress top to the roof lining, to the undersides of solids (lockers, an upper berth) and to cutaways: the
//! least anywhere over the strip; and the greatest that holds over a place to sit up in, 600 mm long and over the middle
//! 450 mm of the strip's width, anywhere along the bed, as the head may be at either end. A tapered underside or a
//! curved roof counts as it is. Of a bed with fewer sleepers than places the better ones count.
//!
//! # Why
//! One turns over, sits up to read and to dress, and does so half asleep.
//!
//! # Limit
//! `least` 600 mm everywhere, a fault below. `sit` 977 mm over the place to sit up in, a caution below: for a sleeper of
//! 1,870 mm or whom the layout does not name; for another one in proportion to the stature. A mattress gives way a
//! little under a sitting person; that is left out. In a bed whose mattress is more than 1,200 mm above the floor, an upper bunk
//! or one over the cab, one does not sit up: there a note says how high it is (common practice, no source).
//!
//! # Source
//! Sitting height 977 mm and stature 1,870 mm: 95th percentiles of 4,082 men, computed from the public data of the ANSUR
//! II survey. 600 mm: common practice, no source.
//!
//! # Change it
//! `limits: { bed-headroom: { sit: 850, because: "..." } }`, or name `sleepers` at the module.

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::WAY_WIDTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass};
use crate::figures::berths::{Bed, Strip, beds};
use crate::figures::overhead_room::Above;
use crate::geometry::Axis;
use crate::model::{Arrangement, Module};
use kurbo::Rect;

/// The check `bed-headroom`.
pub struct BedHeadroom;

const NAME: &str = "bed-headroom";
/// Length of a place to sit up in, mm.
const SIT_LENGTH: f64 = 600.0;
/// Its width, mm.
const SIT_WIDTH: f64 = 450.0;
/// One does not sit up in a bed whose mattress is higher than this above the floor, mm; common practice, no source.
const CLIMBED: f64 = 1200.0;
/// Stature of whom the limit `sit` is for, mm: the 95th percentile of men.
const TALL: f64 = 1870.0;

static LIMITS: [Limit; 2] = [
    Limit::new(
        "sit",
        Least(977.0),
        Quantity::Length,
        SourceClass::Published,
        "sitting height, 95th percentile of men, open survey data (ANSUR II)",
    ),
    Limit::practice("least", Least(600.0), Quantity::Length),
];

impl Check for BedHeadroom {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "height over the mattress to turn over and to sit up"
    }

    fn manual(&self) -> String {
        page_of(include_str!("bed_headroom.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let of_arrangement = |arrangement| {
            let beds = beds(context.model, arrangement);
            beds.iter().filter_map(|bed| look(context, arrangement, bed)).collect::<Vec<_>>()
        };
        with_tightest(context.arrangements().iter().flat_map(of_arrangement))
    }
}

/// The heights over one sleeper.
struct Room<'a> {
    strip: Strip,
    least: f64,
    under: Option<&'a Module>,
    /// Over the place to sit up in; the required height where there is as much.
    sit: f64,
}

/// The gravest finding of one lying space, or the least height over it.
fn look(context: &Context<'_>, arrangement: &Arrangement, bed: &Bed<'_>) -> Option<Finding> {
    let (least, sit) = (context.limits.get("least"), sitting(context, bed));
    let strips = bed.strips().into_iter();
    let mut rooms: Vec<Room<'_>> = strips.map(|strip| room(context, arrangement, bed, strip, sit.value())).collect();
    rooms.sort_by(|a, b| a.sit.total_cmp(&b.sit).then(a.least.total_cmp(&b.least)));
    let taken = if bed.sleepers.is_empty() { rooms.len() } else { bed.sleepers.len() };
    let worst = rooms.into_iter().rev().take(taken).reduce(|_, worse| worse)?;
    let who = bed.who(&worst.strip);
    let (severity, message, measured, required) = if !least.holds(worst.least) {
        let under = worst.under.map_or("the roof lining".to_owned(), |module| format!("`{}`", module.name));
        let needed = mm(least.value());
        let message = format!("{who} has only {} over the mattress under {under}, {needed} is needed", mm(worst.least));
        (Severity::Fault, message, worst.least, least)
    } else if !sit.holds(worst.sit) {
        let needed = mm(sit.value());
        let message = format!(
            "{who} cannot sit up: at the best place {} is over the mattress, {needed} is needed",
            mm(worst.sit)
        );
        (if bed.top() > CLIMBED { Severity::Note } else { Severity::Caution }, message, worst.sit, sit)
    } else {
        (Severity::Met, format!("{who} has {} over the mattress", mm(worst.least)), worst.least, least)
    };
    let finding = Finding::new(NAME, severity, &bed.module.name, message).of_part(&bed.space.name).names("who", who);
    let mut finding = finding.names("under", worst.under.map_or("roof", |module| module.name.as_str()));
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(measured);
    finding.required = Some(required).filter(|_| severity != Severity::Note);
    finding.spans = vec![bed.module.place_span, bed.space.span];
    finding.spans.extend(worst.under.map(|module| module.place_span));
    finding.marks = vec![area(worst.strip.rect)];
    Some(finding)
}

fn room<'a>(context: &Context<'a>, arrangement: &'a Arrangement, bed: &Bed<'_>, strip: Strip, sit: f64) -> Room<'a> {
    let over = |plan| Above::new(context.model, arrangement, plan, bed.top(), |_| true);
    let (least, under) = over(strip.rect).least();
    let seat = over(middle(strip.rect, bed.lies));
    let stretch = SIT_LENGTH.min(bed.length);
    let enough = least >= sit || seat.longest(bed.lies, sit) + WAY_WIDTH >= stretch;
    let sit = if enough { sit } else { seat.greatest(bed.lies, stretch, (least, sit)) };
    Room { strip, least, under, sit }
}

/// The middle of a strip's width.
fn middle(strip: Rect, lies: Axis) -> Rect {
    let less = |width: f64| -((width - SIT_WIDTH) / 2.0).max(0.0);
    if lies == Axis::Y { strip.inflate(less(strip.width()), 0.0) } else { strip.inflate(0.0, less(strip.height())) }
}

/// The height that the tallest sleeper of a bed needs to sit up, to the millimetre.
fn sitting(context: &Context<'_>, bed: &Bed<'_>) -> Requirement {
    let required = context.limits.get("sit");
    let Some(tallest) = bed.sleepers.iter().map(|person| person.stature).reduce(f64::max) else { return required };
    let value = (required.value() * tallest / TALL).round();
    let source = format!("{} for a stature of {}, in proportion to {}", required.source, mm(TALL), mm(tallest));
    Requirement { source, ..required.at(value) }
}

#[cfg(test)]
mod tests;
