//! How long the water lasts.
//!
//! # Computes
//! Fresh water aboard in the case `full`, in litres, over the people's use in a day (`services: water`); and how many days
//! the grey tank takes in what is used.
//!
//! # Why
//! Who lives at the coast or in the hills drives to a tap only now and then.
//!
//! # Limit
//! `days`: 3 days of fresh water. `grey`: 60 % as much room for grey water as fresh water. Less is a caution.
//!
//! # Source
//! Use: 15 litres a person and day, Sphere 2018, water supply standard 2.1, where the layout says no other. The limits are
//! common practice, no source.
//!
//! # Change it
//! `limits: { water: { days: 5, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity, SourceClass, Worked};
use crate::services::water;

/// The check `water`.
pub struct WaterLasts;

const NAME: &str = "water";
const fn limit(name: &'static str, default: Bound, quantity: Quantity) -> Limit {
    let (class, source) = (SourceClass::CommonPractice, "common practice, no source");
    Limit::new(name, default, quantity, class, source)
}
static LIMITS: [Limit; 2] = [limit("days", Least(3.0), Quantity::Days), limit("grey", Least(60.0), Quantity::Percent)];

impl Check for WaterLasts {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "days that the fresh water lasts, and room for grey water"
    }

    fn manual(&self) -> String {
        page_of(include_str!("water.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some((water, (_, span))) = water(context.model).zip(context.model.services.water) else {
            return Vec::new();
        };
        let message = format!(
            "{} l of fresh water last {} {} days at {} l a day",
            trimmed(water.fresh, 0),
            persons(context.model.people.len()),
            trimmed(water.days, 1),
            trimmed(water.daily, 1)
        );
        let fresh = judged(NAME, Severity::Caution, "fresh water", (water.days, context.limits.get("days")), message);
        let share = if water.fresh > 0.0 { water.grey / water.fresh * 100.0 } else { 100.0 };
        let message = format!(
            "there is room for {} l of grey water, {} % of the fresh water",
            trimmed(water.grey, 0),
            trimmed(share, 0)
        );
        let grey = judged(NAME, Severity::Caution, "grey water", (share, context.limits.get("grey")), message);
        let mut findings = with_tightest([fresh, grey]);
        findings.iter_mut().for_each(|finding| finding.spans = vec![span]);
        findings
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some((water, (each, _))) = water(context.model).zip(context.model.services.water) else {
            return Vec::new();
        };
        let people = context.model.people.len();
        let [each, fresh, daily] = [each, water.fresh, water.daily].map(|litres| trimmed(litres, 1));
        vec![
            Worked::new("Fresh water")
                .given("aboard in the case `full`", format!("{fresh} l"), "tanks of the layout")
                .step(
                    "used in a day",
                    ["people x use", &format!("{people} x {each} l")],
                    format!("{daily} l"),
                    "15 l: Sphere 2018",
                )
                .step(
                    "lasts",
                    ["aboard / used", &format!("{fresh} / {daily}")],
                    format!("{} days", trimmed(water.days, 2)),
                    "",
                ),
        ]
    }
}

/// `1 person`, `4 people`.
fn persons(count: usize) -> String {
    if count == 1 { "1 person".to_owned() } else { format!("{count} people") }
}

#[cfg(test)]
mod tests;
