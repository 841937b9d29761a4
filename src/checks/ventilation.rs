//! Air that always moves: vents high up and low down.
//!
//! # Computes
//! The sum of the free area (`free-area`) of all openings high up, and of those at the floor. High are openings in the roof,
//! and those in a wall whose middle is above half the box's height; these count half, as the table wants twice as much of
//! them. Low are openings in the floor, and those in a wall that begin no more than 100 mm above it: gas that is heavier
//! than air stays below a higher one. What is neither counts nowhere. A vent's free area is half its size unless the layout
//! says it; other openings have none unless the layout says so, since they may be shut. The floor area is the box's
//! length x width.
//!
//! # Why
//! People, a hob and a heater use up air and give off water and, when they fail, poison; a shut box of ten square metres is
//! soon full of it.
//!
//! # Limit
//! By floor area, in the roof and low: up to 5 m² 7,500 and 1,000 mm²; up to 10 m² 10,000 and 1,500; up to 15 m² 12,500 and 2,000;
//! up to 20 m² 15,000 and 3,000; beyond 20,000 and 5,000. Less is a caution. Where people, a bed or a hob are and no free
//! area is given at all, a note says what the table wants. `high` and `low` in percent of the table: 100.
//!
//! # Source
//! The table of EN 721 for a box with a burner that takes its air from the room, and the height of 100 mm, as a test house's
//! leaflet and an approval guide quote them; its own text was not read. For rooms up to 10 m² without such a burner the leaflet
//! is content with 1,500 mm² in the roof (3,000 elsewhere) and 500 low. That half the height is high is common practice, no source: the guide
//! has 1,800 mm. Shown as guidance. Gas appliances have their own rules: the appliance maker and the local code decide.
//!
//! # Change it
//! `limits: { ventilation: { high: 80, because: "..." } }`, or `low`.

use super::check::{Check, Context, page_of};
use super::words::{area, with_tightest};
use crate::base::number::trimmed;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Measure, Quantity, Severity, SourceClass};
use crate::model::{Model, Need, Opening, Tag, Wall};

/// The check `ventilation`.
pub struct Ventilation;

const NAME: &str = "ventilation";
const SOURCE: &str = "table of EN 721, as a test house and an approval guide quote it, its own text not read";
/// A vent at the floor begins no higher, mm: EN 721, as quoted.
const AT_FLOOR: f64 = 100.0;
/// What of a vent high up in a wall counts: the table wants twice as much there as in the roof.
const IN_WALL: f64 = 0.5;
/// Floor area up to, m2; free area high and low, mm2.
const TABLE: [(f64, f64, f64); 5] = [
    (5.0, 7_500.0, 1_000.0),
    (10.0, 10_000.0, 1_500.0),
    (15.0, 12_500.0, 2_000.0),
    (20.0, 15_000.0, 3_000.0),
    (f64::INFINITY, 20_000.0, 5_000.0),
];

const fn percent(name: &'static str) -> Limit {
    Limit::new(name, Least(100.0), Quantity::Count, SourceClass::Quoted, SOURCE)
}

static LIMITS: [Limit; 2] = [percent("high"), percent("low")];

impl Check for Ventilation {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "free area of vents high and low for the floor area"
    }

    fn manual(&self) -> String {
        page_of(include_str!("ventilation.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("guidance only: the makers of gas appliances and the local code decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let (high, low) = wanted(model);
        let given = model.openings.iter().any(|opening| opening.free_area > 0.0);
        if !given {
            return if lived_in(model) { vec![none(context, high, low)] } else { Vec::new() };
        }
        let ends = [("high", "high up", high, true), ("low", "at the floor", low, false)];
        with_tightest(ends.map(|(limit, place, table, upper)| short(context, limit, place, table, upper)))
    }
}

/// What the table wants, high and low, mm2.
fn wanted(model: &Model) -> (f64, f64) {
    let row = TABLE.iter().find(|row| floor_area(model) <= row.0);
    row.map_or((0.0, 0.0), |row| (row.1, row.2))
}

/// m2.
fn floor_area(model: &Model) -> f64 {
    model.space.length * model.space.width / 1e6
}

fn lived_in(model: &Model) -> bool {
    let states = || model.modules.iter().flat_map(|module| &module.poses);
    let bed = || states().any(|state| state.spaces.iter().any(|space| space.need == Need::Lying));
    let hob = || states().any(|state| state.solids.iter().any(|solid| solid.is(Tag::Hob)));
    !model.people.is_empty() || bed() || hob()
}

/// What of its free area counts high up, and at the floor.
fn counts(model: &Model, opening: &Opening) -> (f64, f64) {
    let (low, high) = opening.up;
    match opening.wall {
        Wall::Roof => (1.0, 0.0),
        Wall::Floor => (0.0, 1.0),
        _ if low <= AT_FLOOR + SAME_LENGTH => (0.0, 1.0),
        _ if f64::midpoint(low, high) > model.space.height / 2.0 => (IN_WALL, 0.0),
        _ => (0.0, 0.0),
    }
}

/// Openings for air that count neither high up nor at the floor.
fn between(model: &Model) -> Option<String> {
    let open = model.openings.iter().filter(|opening| opening.free_area > 0.0);
    let nowhere = open.filter(|opening| counts(model, opening) == (0.0, 0.0));
    let names: Vec<String> = nowhere.map(|opening| format!("`{}`", opening.name)).collect();
    let count = if names.len() == 1 { "counts" } else { "count" };
    let words = format!("{} {count} nowhere: too high for the floor and too low for the top", names.join(", "));
    (!names.is_empty()).then_some(words)
}

fn none(context: &Context<'_>, high: f64, low: f64) -> Finding {
    let message = format!(
        "no vents are given; for {} m² of floor the table wants {high} mm² in the roof and {low} mm² at the floor",
        trimmed(floor_area(context.model), 2)
    );
    let mut finding = Finding::new(NAME, Severity::Note, "box", message).asks("vents");
    finding.spans = vec![context.model.space.span];
    finding.help = Some("add openings of `kind: vent`, or `free-area` to those that never shut quite".to_owned());
    finding
}

fn short(context: &Context<'_>, limit: &'static str, place: &str, table: f64, upper: bool) -> Finding {
    let model = context.model;
    let percent = context.limits.get(limit);
    let needed = table * percent.value() / 100.0;
    let share = |opening: &Opening| if upper { counts(model, opening).0 } else { counts(model, opening).1 };
    let open = || model.openings.iter().filter(|opening| opening.free_area * share(opening) > 0.0);
    let found = open().fold(0.0, |sum, opening| sum + opening.free_area * share(opening));
    let required = percent.of(needed, Quantity::Area);
    let severity = if required.holds(found) { Severity::Met } else { Severity::Caution };
    let message = format!(
        "vents {place} count for {} mm², {} mm² is wanted for {} m² of floor",
        trimmed(found, 0),
        trimmed(needed, 0),
        trimmed(floor_area(model), 2)
    );
    let mut finding = Finding::new(NAME, severity, "box", message).asks(limit);
    finding.measured = Some(Measure { value: found, quantity: Quantity::Area });
    finding.required = Some(required);
    finding.spans = vec![model.space.span];
    finding.spans.extend(open().map(|opening| opening.span));
    finding.help = between(model).filter(|_| severity != Severity::Met);
    finding.marks =
        open().map(|opening| area(crate::figures::panel::room(model, opening, opening.hole(), 50.0).plan())).collect();
    finding
}

#[cfg(test)]
mod tests;
