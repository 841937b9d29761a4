//! Whether the vehicle may be as heavy as it gets.
//!
//! # Computes
//! The mass of the load case `full` against the gross mass, and what is left between the mass in running order and the
//! gross mass against the least payload of a living vehicle: 10 x (people + outside length in metres) kg.
//!
//! # Why
//! Water, food and clothes of people who live aboard for months weigh more than they look; what the papers leave for them
//! is decided when the box is built.
//!
//! # Limit
//! `gross` in `vehicle`: more is a fault. `least`: 100 % of the least payload; less is a caution.
//!
//! # Source
//! Regulation (EU) 1230/2012, annex I, 2.6.4.1.2, the formula from a handbook that quotes it; one handbook counts berths,
//! the law people: here it is the people of the layout. Mass in running order: the same, article 2(4): with driver, fuel at
//! 90 % and liquids.
//!
//! # Change it
//! `limits: { payload: { least: 120, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::figures::axle_sums::PAPERS;
use crate::model::Vehicle;
use crate::vehicle::{Weighed, outside};

/// The check `payload`.
pub struct Payload;

const NAME: &str = "payload";
static LIMITS: [Limit; 1] = [Limit::new(
    "least",
    Least(100.0),
    Quantity::Percent,
    SourceClass::Published,
    "Regulation (EU) 1230/2012, annex I, 2.6.4.1.2; the formula by a handbook",
)];

impl Check for Payload {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "mass of the full vehicle against its gross mass, and what is left for its people"
    }

    fn manual(&self) -> String {
        page_of(include_str!("payload.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: weigh the vehicle; its papers and the local authority decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(figures) = context.model.vehicle.as_ref().and_then(|vehicle| figures(context, vehicle)) else {
            return Vec::new();
        };
        let Figures { gross, full, left, wanted, .. } = figures;
        let span = figures.vehicle.span;
        let kg = |value: f64| trimmed(value, 0);
        let limit = Requirement::new(Most(gross), Quantity::Mass, SourceClass::Published, PAPERS);
        let message =
            format!("the vehicle is {} kg in the case `{}`, of {} kg at most", kg(full.total), full.case, kg(gross));
        let whole = judged(NAME, Severity::Fault, "vehicle", (full.total, limit), message);
        let percent = context.limits.get("least");
        let needed = wanted * percent.value() / 100.0;
        let message = format!(
            "{} kg are left over the mass in running order; {} kg are wanted for people and what they bring",
            kg(left),
            kg(needed)
        );
        let required = percent.of(needed, Quantity::Mass);
        let spare = judged(NAME, Severity::Caution, "payload", (left, required), message);
        let mut findings = with_tightest([whole, spare]);
        findings.iter_mut().for_each(|finding| finding.spans = vec![span]);
        findings
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(figures) = context.model.vehicle.as_ref().and_then(|vehicle| figures(context, vehicle)) else {
            return Vec::new();
        };
        let Figures { gross, full, running, left, wanted, people, length, .. } = figures;
        let kg = |value: f64| format!("{} kg", trimmed(value, 1));
        vec![
            Worked::new("Payload")
                .given("gross mass", kg(gross), "papers of the vehicle")
                .given(&format!("mass in the case `{}`", full.case), kg(full.total), "sum of all masses aboard")
                .given("mass in running order", kg(running), "Regulation (EU) 1230/2012, article 2(4)")
                .step("payload", ["gross - running order", ""], kg(left), "")
                .step(
                    "least payload",
                    ["10 (n + L)", &format!("10 ({people} + {})", trimmed(length, 3))],
                    kg(wanted),
                    "Regulation (EU) 1230/2012, annex I, 2.6.4.1.2, by a handbook; n people, L outside length in m",
                ),
        ]
    }
}

struct Figures<'a> {
    vehicle: &'a Vehicle,
    gross: f64,
    /// The heaviest case.
    full: &'a Weighed,
    running: f64,
    left: f64,
    wanted: f64,
    people: usize,
    length: f64,
}

fn figures<'a>(context: &Context<'a>, vehicle: &'a Vehicle) -> Option<Figures<'a>> {
    let (model, all) = (context.model, context.figures.weighed());
    let running = all.iter().find(|weighed| weighed.case == "running order")?.total;
    let full = all.iter().max_by(|a, b| a.total.total_cmp(&b.total))?;
    let (people, length) = (model.people.len(), outside(model, vehicle).length / 1000.0);
    let wanted = 10.0 * (people as f64 + length);
    Some(Figures {
        vehicle,
        gross: vehicle.gross,
        full,
        running,
        left: vehicle.gross - running,
        wanted,
        people,
        length,
    })
}

#[cfg(test)]
mod tests;
