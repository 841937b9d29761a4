//! Room to wash: the floor of a wet room, the seat of a toilet, the stand of a shower.
//!
//! # Computes
//! A wet room is a module with a solid tagged `shower`, or a zone whose purpose is `wet-room` that holds no such module. In
//! every arrangement, with its doors shut: the largest square of floor between walls and furniture, widened as far as it
//! goes (what reaches above 230 mm counts; toilet and basin do not, as they are part of the room's use). For each solid
//! tagged `toilet`: the free width from its middle to either side, over its depth and from its seat to 900 mm above, and
//! the free depth before it; and the height over its seat. For each solid tagged `shower`: the largest disc among everything
//! that rises more than 230 mm above it, whose middle lies over it: the rim of a tray is stepped over and no wall.
//!
//! # Why
//! A room that a person can stand in, but not turn and dry in, is a cupboard.
//!
//! # Limit
//! `free` 700 mm both ways, `beside` 255 mm from the toilet's middle, `before` 250 mm before it, `disc` 450 mm to shower
//! in, `sitting` 900 mm over the toilet: less is a caution. All figures are given as a note, with those for homes beside them: 381 mm to each side, 533 mm
//! before the toilet.
//!
//! # Source
//! Free, before and disc: common practice, no source. Beside: half the median man's breadth of shoulders, 509 mm, computed
//! from ANSUR II public data; sitting: his sitting height of 918 mm, the same data, in round figures. Figures for homes: IRC R307.1, as quoted by a public page.
//!
//! # Change it
//! `limits: { wet-room: { free: 650, because: "..." } }`, or `beside`, `before`, `disc`, `sitting`.

use super::check::{Check, Context, page_of};
use super::words::{area, length};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::WAY_WIDTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Mark, Quantity, Requirement, Severity, SourceClass};
use crate::figures::washing::{Seat, Wash, rooms, showers, toilets};
use crate::model::Arrangement;
use crate::source::Span;

/// The check `wet-room`.
pub struct WetRoom;

const NAME: &str = "wet-room";
const PRACTICE: (SourceClass, &str) = (SourceClass::CommonPractice, "common practice, no source");
const SHOULDERS: (SourceClass, &str) =
    (SourceClass::Published, "half the median man's breadth of shoulders, ANSUR II public data");

const SITTING_HEIGHT: (SourceClass, &str) =
    (SourceClass::Published, "sitting height of the median man, 918 mm, in round figures, ANSUR II public data");

const fn limit(name: &'static str, default: Bound, (class, source): (SourceClass, &'static str)) -> Limit {
    Limit::new(name, default, Quantity::Length, class, source)
}

static LIMITS: [Limit; 5] = [
    limit("free", Least(700.0), PRACTICE),
    limit("beside", Least(255.0), SHOULDERS),
    limit("before", Least(250.0), PRACTICE),
    limit("disc", Least(450.0), PRACTICE),
    limit("sitting", Least(900.0), SITTING_HEIGHT),
];

impl Check for WetRoom {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "free floor of wet rooms, room around the toilet and in the shower"
    }

    fn manual(&self) -> String {
        page_of(include_str!("wet_room.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let look = |arrangement| {
            let one = One { context, arrangement };
            let floors = rooms(context.model, arrangement).into_iter().flat_map(|room| one.floor(&room));
            let seats = toilets(context.model, arrangement).into_iter().flat_map(|seat| one.seat(&seat));
            let stands = showers(context.model, arrangement).into_iter().flat_map(|wash| one.shower(&wash));
            floors.chain(seats).chain(stands).collect::<Vec<_>>()
        };
        context.arrangements().iter().flat_map(look).collect()
    }
}

/// Findings of one arrangement.
struct One<'a> {
    context: &'a Context<'a>,
    arrangement: &'a Arrangement,
}

impl One<'_> {
    fn finding(
        &self,
        severity: Severity,
        (subject, span): (&str, Span),
        message: String,
        (asks, found): (&'static str, f64),
    ) -> Finding {
        let mut finding = Finding::new(NAME, severity, subject, message).asks(asks);
        finding.arrangements = vec![self.arrangement.name.clone()];
        finding.measured = length(found);
        finding.spans = vec![span];
        finding
    }

    fn limit(&self, name: &str) -> Requirement {
        self.context.limits.get(name).within(if name == "disc" { WAY_WIDTH } else { 0.0 })
    }

    /// A note with what is there, and a caution where that is less than a limit.
    fn told(&self, about: (&str, Span), is: &str, (limit, found): (&'static str, f64), mark: &Mark) -> Option<Finding> {
        let required = self.limit(limit);
        let needed = required.value();
        if required.holds(found) {
            return None;
        }
        let mut caution =
            self.finding(Severity::Caution, about, format!("{is}, {} is needed", mm(needed)), (limit, found));
        caution.required = Some(required);
        caution.marks = vec![mark.clone()];
        Some(caution)
    }

    fn floor(&self, wash: &Wash<'_>) -> Vec<Finding> {
        let about = (wash.name, wash.span);
        let rect = wash.floor();
        let found = rect.width().min(rect.height());
        let both = format!("{} x {}", trimmed(rect.width(), 1), mm(rect.height()));
        let is = format!("the free floor of `{}` is {both} with its door shut", wash.name);
        let needed = self.context.limits.get("free").value();
        let caution = self.told(about, &is, ("free", found), &area(rect)).map(|mut caution| {
            caution.message = format!("{is}, {needed} x {needed} mm is needed", needed = trimmed(needed, 1));
            caution
        });
        let mut note = self.finding(Severity::Note, about, is, ("free", found));
        note.required = Some(self.limit("free"));
        note.marks = vec![area(rect)];
        let told = caution.unwrap_or(note);
        vec![told.figure("along", rect.width(), Quantity::Length).figure("across", rect.height(), Quantity::Length)]
    }

    fn seat(&self, seat: &Seat<'_>) -> Vec<Finding> {
        let about = (seat.name, seat.span);
        let side = seat.sides[0].min(seat.sides[1]);
        let beside = format!("the toilet of `{}` has {} from its middle to the nearer side", seat.name, mm(side));
        let before = format!("the toilet of `{}` has {} free before it", seat.name, mm(seat.before));
        let low = seat.low.map(|height| {
            let is = format!("over the toilet of `{}` {} are free to sit", seat.name, mm(height));
            self.told(about, &is, ("sitting", height), &area(seat.plan))
        });
        // What hangs over the seat also stands beside who sits there, and is told once.
        let sides = if low.as_ref().is_some_and(Option::is_some) { f64::INFINITY } else { side };
        let cautions = [
            low.flatten(),
            self.told(about, &beside, ("beside", sides), &area(seat.plan)),
            self.told(about, &before, ("before", seat.before), &area(seat.plan)),
        ];
        let message = format!(
            "the toilet of `{}` has {} and {} beside its middle and {} before it; homes want 381 mm to each side and 533 \
             mm before",
            seat.name,
            trimmed(seat.sides[0], 1),
            mm(seat.sides[1]),
            mm(seat.before)
        );
        let mut note = self.finding(Severity::Note, about, message, ("toilet", side));
        for (name, value) in [("left", seat.sides[0]), ("right", seat.sides[1]), ("before", seat.before)] {
            note = note.figure(name, value, Quantity::Length);
        }
        note.marks = vec![area(seat.plan)];
        cautions.into_iter().flatten().chain([note]).collect()
    }

    fn shower(&self, wash: &Wash<'_>) -> Vec<Finding> {
        let about = (wash.name, wash.span);
        let (at, disc) = wash.disc(self.context.memo());
        let is = format!("the widest disc to shower in at `{}` is {}", wash.name, mm(disc));
        let caution = self.told(about, &is, ("disc", disc), &Mark::At(at));
        let mut note = self.finding(Severity::Note, about, is, ("disc", disc));
        note.required = Some(self.limit("disc"));
        note.marks = vec![Mark::At(at)];
        vec![caution.unwrap_or(note)]
    }
}

#[cfg(test)]
mod tests;
