//! How long the battery lasts.
//!
//! # Computes
//! Energy used in a day, the sum of watts x hours over all consumers, against what the battery gives: volts x ampere-hours x
//! usable share; less what comes in on a day.
//!
//! # Why
//! A fridge, a heater's fan and a radio empty a battery in a night that looked large in the shop.
//!
//! # Limit
//! `days`: 1 day without sun or mains. Less is a caution.
//!
//! # Source
//! Energy = power x time. The limit is common practice, no source.
//!
//! # Change it
//! `limits: { battery: { days: 3, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, Worked};
use crate::services::day;

/// The check `battery`.
pub struct BatteryLasts;

const NAME: &str = "battery";
static LIMITS: [Limit; 1] = [Limit::practice("days", Least(1.0), Quantity::Days)];

impl Check for BatteryLasts {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "days that the battery feeds all consumers"
    }

    fn manual(&self) -> String {
        page_of(include_str!("battery.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a balance of energy alone; electrical work is for licensed people and the local code")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some((day, battery)) = day(context.model).zip(context.model.services.battery) else { return Vec::new() };
        if day.used <= 0.0 {
            return Vec::new();
        }
        let lasts = match day.days.is_finite() {
            true => format!("last {} d", trimmed(day.days, 1)),
            false => "are filled up every day".to_owned(),
        };
        let message = format!(
            "{} Wh of the battery {lasts}: {} Wh are used and {} Wh come in a day",
            trimmed(day.stored, 0),
            trimmed(day.used, 0),
            trimmed(day.charged, 0)
        );
        // Without anything coming in: what the limit is about.
        let alone = day.stored / day.used;
        let mut finding = judged(NAME, Severity::Caution, "battery", (alone, context.limits.get("days")), message);
        finding.spans = vec![battery.span];
        vec![finding]
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some((day, battery)) = day(context.model).zip(context.model.services.battery) else { return Vec::new() };
        let wh = |value: f64| format!("{} Wh", trimmed(value, 1));
        let mut worked = Worked::new("Energy of a day");
        for consumer in &context.model.services.consumers {
            let figures = format!("{} W x {} h", trimmed(consumer.watts, 1), trimmed(consumer.hours, 2));
            worked = worked.step(&consumer.name, ["P t", &figures], wh(consumer.watts * consumer.hours), "");
        }
        let figures = format!("{} V x {} Ah x {} %", battery.volts, battery.capacity, battery.usable * 100.0);
        vec![
            worked
                .given("used", wh(day.used), "sum")
                .step("stored", ["U C usable", &figures], wh(day.stored), "")
                .given("comes in", wh(day.charged), "the layout")
                .step("lasts alone", ["stored / used", ""], format!("{} days", trimmed(day.stored / day.used, 2)), ""),
        ]
    }
}

#[cfg(test)]
mod tests;
