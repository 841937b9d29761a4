//! Voltage that is lost in the cables.
//!
//! # Computes
//! For each cable 2 x length x current x resistance of one conductor. The length is that of its way along the walls, or of
//! `via`; the resistance by section and class at the conductor's temperature.
//!
//! # Why
//! A thin cable to a pump or a fridge eats the voltage that the thing needs to start, and gets warm.
//!
//! # Limit
//! `critical`: 3 % for cables with `critical: yes`. `other`: 10 %. More is a caution.
//!
//! # Source
//! Resistances: IEC 60228 as quoted by several public tables. Limits: ABYC E-11, from secondary sources.
//!
//! # Change it
//! `limits: { voltage-drop: { other: 5, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity, SourceClass, Worked};
use crate::model::Cable;
use crate::services::{Drop, drop, nominal};

/// The check `voltage-drop`.
pub struct VoltageDrop;

const NAME: &str = "voltage-drop";
const fn percent(name: &'static str, default: Bound) -> Limit {
    let (quantity, class) = (Quantity::Percent, SourceClass::Quoted);
    Limit::new(name, default, quantity, class, "ABYC E-11, from secondary sources")
}
static LIMITS: [Limit; 2] = [percent("critical", Most(3.0)), percent("other", Most(10.0))];

impl Check for VoltageDrop {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "voltage lost in each cable"
    }

    fn manual(&self) -> String {
        page_of(include_str!("voltage_drop.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("no proof against heat or short circuit; electrical work is for licensed people and the local code")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let volts = nominal(context.model);
        with_tightest(context.model.services.cables.iter().map(|cable| {
            let Drop { length, volts: lost, percent, .. } = drop(cable, volts);
            let required = context.limits.get(if cable.critical { "critical" } else { "other" });
            let message = format!(
                "`{}` loses {} V of {} V, {} %, over {} m",
                cable.name,
                trimmed(lost, 2),
                trimmed(volts, 1),
                trimmed(percent, 1),
                trimmed(length, 2)
            );
            let mut finding = judged(NAME, Severity::Caution, &cable.name, (percent, required), message);
            finding.spans = vec![cable.span];
            finding
        }))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let volts = nominal(context.model);
        let sum = |cable: &Cable| {
            let Drop { length, resistance, volts: lost, percent } = drop(cable, volts);
            let figures = format!(
                "2 x {} m x {} A x {} Ω/km",
                trimmed(length, 2),
                trimmed(cable.amps, 2),
                trimmed(resistance, 3)
            );
            Worked::new(format!("Cable `{}`", cable.name))
                .given("one way", format!("{} m", trimmed(length, 2)), "its way along the walls, or `via`")
                .given("one conductor", format!("{} Ω/km", trimmed(resistance, 3)), "IEC 60228, at its temperature")
                .step("lost", ["2 L I R'", &figures], format!("{} V, {} %", trimmed(lost, 3), trimmed(percent, 2)), "")
        };
        context.model.services.cables.iter().map(sum).collect()
    }
}

#[cfg(test)]
mod tests;
