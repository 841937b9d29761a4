//! Whether people can sit: height, depth and width of seats, room for knees, table and head.
//!
//! # Computes
//! For each sitting space in every arrangement: the height of the seat (the top of a solid tagged `seat` under the space)
//! above the floor; the depth from the back to the front edge; the width for each person; how far from the back it is
//! free for the knees over that width (between 50 mm below and 120 mm above the seat; posts narrower than 100 mm do not
//! count); for each solid tagged `table` within reach of the knees the room between seat and underside, and the height of
//! its top above the seat; and the least height over the seat. One looks away from the solid tagged `backrest`, else out
//! of the module, or toward it where the space lies outside it. Where there is no seat, a chair of 440 mm is thought, or
//! one between `low` and `high` that suits the table best. The toilet is not looked at here.
//!
//! # Why
//! A seat that hangs the legs, a table in the ribs or a locker on the head is not sat on.
//!
//! # Limit
//! Cautions: seat height from `low` 350 to `high` 471 mm; depth from `depth` 380 to `deep` 541 mm; `width` 450 mm for each
//! person; `knee` 669 mm from the back; `thigh` 180 mm under a table; its top from `table-low` 240 to `table-high` 330 mm
//! above the seat; `head` 977 mm.
//!
//! # Source
//! Open survey data (ANSUR II, public), computed: popliteal height of women, 5th percentile, to men, 95th; buttock to
//! knee of women, 5th (a deeper seat ends past their knees), and of men, 95th; sitting height of men, 95th. Unclothed:
//! shoes add some 25 mm. All others: common practice, no source.
//!
//! # Change it
//! `limits: { seat: { width: 420, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Requirement, Severity, SourceClass};
use crate::figures::seat_room::{Place, sitting_places};
use crate::model::{Arrangement, Module};

/// The check `seat`.
pub struct Seat;

const NAME: &str = "seat";
static LIMITS: [Limit; 10] = [
    survey("low", Least(350.0), "popliteal height, 5th percentile of women, open survey data (ANSUR II)"),
    survey("high", Most(471.0), "popliteal height, 95th percentile of men, open survey data (ANSUR II)"),
    habit("depth", Least(380.0)),
    survey("deep", Most(541.0), "buttock to knee, 5th percentile of women, open survey data (ANSUR II)"),
    habit("width", Least(450.0)),
    survey("knee", Least(669.0), "buttock to knee, 95th percentile of men, open survey data (ANSUR II)"),
    habit("thigh", Least(180.0)),
    habit("table-low", Least(240.0)),
    habit("table-high", Most(330.0)),
    survey("head", Least(977.0), "sitting height, 95th percentile of men, open survey data (ANSUR II)"),
];

const fn survey(name: &'static str, default: Bound, source: &'static str) -> Limit {
    Limit::new(name, default, Quantity::Length, SourceClass::Published, source)
}

const fn habit(name: &'static str, default: Bound) -> Limit {
    Limit::practice(name, default, Quantity::Length)
}

impl Check for Seat {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "height, depth and width of seats, room for knees, table and head"
    }

    fn manual(&self) -> String {
        page_of(include_str!("seat.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for arrangement in context.arrangements() {
            for place in sitting_places(context.model, arrangement) {
                let look = Look { context, arrangement, place: &place };
                findings.extend(look.seat());
                findings.extend(look.room());
                findings.extend(look.tables());
            }
        }
        with_tightest(findings)
    }
}

/// One sitting place that is looked at.
struct Look<'a> {
    context: &'a Context<'a>,
    arrangement: &'a Arrangement,
    place: &'a Place<'a>,
}

impl Look<'_> {
    /// A finding, if a figure lies below `least` or above `most`, both limits by name. `says` is followed by the figure.
    fn figure(
        &self,
        says: &str,
        measured: f64,
        limits: [Option<&'static str>; 2],
        other: Option<&Module>,
    ) -> Option<Finding> {
        let asks = limits.into_iter().flatten().next().unwrap_or_default();
        let [least, most] = limits.map(|name| name.map(|name| self.context.limits.get(name)));
        let low = least.filter(|limit| !limit.holds(measured)).map(|limit| (limit, "least"));
        let high = || most.filter(|limit| !limit.holds(measured)).map(|limit| (limit, "most"));
        let (required, word) = low.or_else(high)?;
        let says = format!("{says} {}, {} is the {word}", mm(measured), mm(required.value()));
        let mut finding = self.finding((asks, Severity::Caution), &says, measured, required);
        if let Some(other) = other {
            finding = finding.with_other(&other.name);
        }
        finding.spans.extend(other.map(|other| other.place_span));
        Some(finding)
    }

    fn finding(
        &self,
        (asks, severity): (&'static str, Severity),
        says: &str,
        measured: f64,
        required: Requirement,
    ) -> Finding {
        let (module, space) = (self.place.module, self.place.space);
        let message = format!("`{}` of `{}`: {says}", space.name, module.name);
        let mut finding = Finding::new(NAME, severity, &module.name, message).of_part(&space.name).asks(asks);
        finding.arrangements = vec![self.arrangement.name.clone()];
        finding.measured = length(measured);
        finding.required = Some(required);
        finding.spans = vec![module.place_span, space.span];
        finding.marks = vec![area(self.place.plan())];
        finding
    }

    /// Height, depth and width of the seat.
    fn seat(&self) -> Vec<Finding> {
        let place = self.place;
        let each = place.width() / f64::from(place.space.people.max(1));
        let mut found = Vec::new();
        if let Some(seat) = place.seat {
            let says = "the seat is at a height of";
            let off = self.figure(says, seat, [Some("low"), Some("high")], None);
            let [low, high] = ["low", "high"].map(|name| self.context.limits.get(name));
            let met = || self.finding(("low", Severity::Met), &format!("{says} {}", mm(seat)), seat, low.up_to(&high));
            found.push(off.unwrap_or_else(met));
            let depth = "the seat, from the back to its front edge, is deep by";
            found.extend(self.figure(depth, place.depth, [Some("depth"), Some("deep")], None));
        }
        found.extend(self.figure("the width for each person is", each, [Some("width"), None], None));
        found
    }

    /// Room for knees and head.
    fn room(&self) -> Vec<Finding> {
        let (model, limits) = (self.context.model, &self.context.limits);
        let wide = limits.value("width") * f64::from(self.place.space.people.max(1));
        let (knees, before) = self.place.knees(model, self.arrangement, limits.value("knee"), wide);
        let (head, over) = self.place.headroom(model, self.arrangement);
        let before_words = before.map_or("the wall".to_owned(), |module| format!("`{}`", module.name));
        let over_words = over.map_or("the roof lining".to_owned(), |module| format!("`{}`", module.name));
        let knees_words = format!("from the back to {before_words} before the knees is");
        let head_words = format!("from the seat up to {over_words} is");
        let found = [
            self.figure(&knees_words, knees, [Some("knee"), None], before),
            self.figure(&head_words, head, [Some("head"), None], over),
        ];
        found.into_iter().flatten().collect()
    }

    /// Height of tables over the seat, above and below.
    fn tables(&self) -> Vec<Finding> {
        let limits = &self.context.limits;
        let (low, high) = (limits.value("table-low"), limits.value("table-high"));
        let mut found = Vec::new();
        for table in self.place.tables(self.context.model, self.arrangement, limits.value("knee")) {
            let best = table.z.1 - f64::midpoint(low, high);
            let chair = best.max(limits.value("low")).min(limits.value("high"));
            let seat = self.place.seat.unwrap_or(chair);
            let name = &table.module.name;
            let thigh = format!("from the seat up to the underside of the table `{name}` is");
            let top = format!("from the seat up to the top of the table `{name}` is");
            let other = Some(table.module);
            found.extend(self.figure(&thigh, table.z.0 - seat, [Some("thigh"), None], other));
            found.extend(self.figure(&top, table.z.1 - seat, [Some("table-low"), Some("table-high")], other));
        }
        found
    }
}

#[cfg(test)]
mod tests;
