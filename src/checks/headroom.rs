//! # Computes
//! The least height of the roof lining and of the undersides of solids and cutaways, over the course of each way (a strip
//! 300 mm wide, head and shoulders) and over every standing space, above what is walked on there: the floor, or something
//! level no higher than 230 mm that takes at least 250 x 400 mm of the strip or the space. Over a standing space the outer
//! 100 mm along its borders do not count, nor does floor that something stands on. A solid hangs over a standing space if
//! its underside is above half the tallest person's stature; what reaches lower stands in the way and is no matter of
//! headroom. Over ways only what hangs above the tallest person's stature is looked at: what hangs lower narrows the way
//! itself. Where it leaves no way at all, but one for people who stoop (what begins at 82 % of the stature or higher, at
//! their shoulders, is stooped under), that way is taken and what hangs over it is told here. The lowest place of each thing counts.
//!
//! Heads of doors in the walls are not looked at here: people stoop through them.
//!
//! # Why
//! People stand and walk upright, and the head does not see a locker's corner.
//!
//! # Limit
//! `spare` 50 mm above the tallest person named in the layout (1,755 mm if nobody is): below it a caution. Lower than the
//! person is a fault.
//!
//! In a room that is nowhere 1,500 mm high, such as a low van, people sit and kneel: there a note says so.
//!
//! # Source
//! Common practice, no source. Stature as named; else the median man of open survey data. Shoulders: 1,242 mm of 1,525 to
//! 1,546 mm of 1,870 (ANSUR II, computed).
//!
//! # Change it
//! `limits: { headroom: { spare: 30, because: "..." } }`.

mod overhead;

use super::check::{Check, Context, page_of};
use super::words::{area, length};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity};
use crate::figures::ways::{Floor, Owner};
use overhead::{Low, Overhead, lows};

/// The check of the height over ways and standing spaces.
pub struct Headroom;

/// In a room that is nowhere as high as this people sit and kneel, mm; common practice, no source.
const LOW_ROOM: f64 = 1500.0;

static LIMITS: [Limit; 1] = [Limit::practice("spare", Least(50.0), Quantity::Length)];

impl Check for Headroom {
    fn name(&self) -> &'static str {
        "headroom"
    }

    fn says(&self) -> &'static str {
        "people can stand and walk upright"
    }

    fn manual(&self) -> String {
        page_of(include_str!("headroom.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        if let Some(note) = low_room(context) {
            return vec![note];
        }
        let in_one = |arrangement| {
            let floor = context.floor(arrangement);
            let needed = context.model.tallest() + context.limits.value("spare");
            let overhead = Overhead::new(&floor, needed);
            let lows = lows(&overhead, &overhead.places());
            lows.into_iter().filter_map(|low| finding(context, &floor, low)).collect::<Vec<_>>()
        };
        context.arrangements().iter().flat_map(in_one).collect()
    }
}

fn finding(context: &Context<'_>, floor: &Floor<'_>, low: Low<'_>) -> Option<Finding> {
    let (tallest, spare) = (context.model.tallest(), context.limits.get("spare"));
    let needed = tallest + spare.value();
    if low.height + SAME_LENGTH >= needed {
        return None;
    }
    let severity = if low.height + SAME_LENGTH < tallest { Severity::Fault } else { Severity::Caution };
    let above = low.under.map_or_else(|| "the roof lining".to_owned(), |owner| owner.words());
    let on = low.on.map_or_else(|| "the floor".to_owned(), |owner| owner.words());
    let effect = if severity == Severity::Fault { "cannot stand upright" } else { "has little to spare" };
    let message = format!(
        "{above} is {} above {on} {}: a person of {} {effect}, {} is needed",
        mm(low.height),
        low.place.0,
        mm(tallest),
        mm(needed)
    );
    let subject = match low.under {
        Some(Owner::Module(module)) => module.name.as_str(),
        Some(Owner::Cutaway(cut)) => &cut.name,
        _ => low.place.1,
    };
    let finding = Finding::new("headroom", severity, subject, message);
    let finding = finding.asks(if low.under.is_some() { "module" } else { "roof" });
    let mut finding = finding.names("where", low.place.0).names("on", on);
    finding.arrangements = vec![floor.arrangement.name.clone()];
    finding.measured = length(low.height);
    let source = format!("tallest person {} and {} to spare; {}", mm(tallest), mm(spare.value()), spare.source);
    finding.required = Some(Requirement { source, ..spare.at(needed) });
    finding.spans = vec![low.under.and_then(|owner| owner.span()).unwrap_or(context.model.space.span)];
    finding.spans.extend(low.on.and_then(|owner| owner.span()));
    finding.marks = vec![area(low.at.bounds())];
    Some(finding)
}

/// The note about a room that nobody stands in.
fn low_room(context: &Context<'_>) -> Option<Finding> {
    let space = &context.model.space;
    let crown = space.roof.chain().iter().map(|point| point.y).fold(space.height, f64::max);
    let message =
        format!("the box is {} high inside: nobody stands upright in it, and nothing of it is looked at", mm(crown));
    let mut finding = Finding::new("headroom", Severity::Note, "box", message).asks("low");
    finding.measured = length(crown);
    finding.spans = vec![space.span];
    (crown < LOW_ROOM).then_some(finding)
}

#[cfg(test)]
mod tests;
