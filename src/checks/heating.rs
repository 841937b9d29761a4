//! Whether the heater keeps the box warm.
//!
//! # Computes
//! Heat that goes out at the climate's temperatures: through the shell, the sum of inside area x U x difference over all surfaces
//! and openings; on top of that at the edges where two panels meet, 0.56 x conductivity x length x difference; and with the air that is changed, 0.34 Wh/(m³K) x air changes x volume x difference. The note says the mean
//! U of the shell.
//!
//! # Why
//! A heater that is too small leaves people cold; one that is too large switches all night.
//!
//! # Limit
//! `spare`: 20 % over the loss. A `heater` with less is a caution; without one, a note says what is wanted.
//!
//! # Source
//! U by ISO 6946; the heat of air by its density and specific heat at 20 °C. The margin is common practice, no source.
//!
//! # Change it
//! `limits: { heating: { spare: 10, because: "..." } }`, `climate: { heater: 4000 }`.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, Worked};
use crate::shell::losses::{AIR, Losses};
use crate::shell::summer::{capacity, hours_to_warm};

/// The check `heating`.
pub struct Heating;

const NAME: &str = "heating";
static LIMITS: [Limit; 1] = [Limit::practice("spare", Least(20.0), Quantity::Percent)];

impl Check for Heating {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "heat loss of the box against its heater"
    }

    fn manual(&self) -> String {
        page_of(include_str!("heating.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("steady state; heaters, flues and gas are for licensed people and the local code")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let climate = &context.model.climate;
        let Some(span) = climate.span else { return Vec::new() };
        let losses = context.figures.losses();
        let spare = context.limits.get("spare");
        let wanted = losses.watts() * (1.0 + spare.value() / 100.0);
        let message = format!(
            "{} W go out at {} °C outside (mean U {} W/(m²K)); with the margin a heater of {} W is wanted",
            trimmed(losses.watts(), 0),
            trimmed(climate.outside, 1),
            trimmed(losses.mean_u, 2),
            trimmed(wanted, 0)
        );
        let required = spare.of(wanted, Quantity::Power);
        let mut finding = if climate.heater > 0.0 {
            judged(NAME, Severity::Caution, "heater", (climate.heater, required), message)
        } else {
            Finding::new(NAME, Severity::Note, "heater", message)
        };
        finding.spans = vec![span];
        vec![finding]
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let climate = &context.model.climate;
        let Losses { through, volume, edges, at_edges, mean_u, conducted, aired } = context.figures.losses();
        let difference = climate.inside - climate.outside;
        let spare = context.limits.value("spare");
        let wanted = (*conducted + aired) * (1.0 + spare / 100.0);
        let mut worked =
            Worked::new("Heat loss").given("difference", format!("{} K", trimmed(difference, 1)), "climate");
        for loss in through {
            let figures = format!("{} m² x {} W/(m²K)", trimmed(loss.area, 3), trimmed(loss.u, 3));
            let watts = format!("{} W", trimmed(loss.area * loss.u * difference, 1));
            worked = worked.step(&format!("{}, {}", loss.name, loss.made_of), ["A U difference", &figures], watts, "");
        }
        let figures = format!("{} m of edges, {} W/K", trimmed(*edges, 2), trimmed(*at_edges, 3));
        let watts = format!("{} W", trimmed(at_edges * difference, 1));
        worked = worked.step(
            "where panels meet",
            ["0.56 x conductivity x length x difference", &figures],
            watts,
            "shape factor of an edge; textbooks give 0.54",
        );
        let loss = (conducted + aired) / difference;
        let heat = capacity(context.model, context.figures.losses());
        let hours = hours_to_warm(heat, loss, difference, climate.heater);
        let heat = format!("C {} kJ/K, H {} W/K", trimmed(heat / 1000.0, 0), trimmed(loss, 1));
        let air = format!("{AIR} x {} x {} m³", trimmed(climate.air_changes, 2), trimmed(*volume, 2));
        vec![
            worked
                .given(
                    "through the shell",
                    format!("{} W, mean U {} W/(m²K)", trimmed(*conducted, 0), trimmed(*mean_u, 3)),
                    "ISO 6946",
                )
                .step(
                    "with the air",
                    ["0.34 n V difference", &air],
                    format!("{} W", trimmed(*aired, 0)),
                    "density and heat of air",
                )
                .given(
                    "heat loss",
                    format!("{} W", trimmed(conducted + aired, 0)),
                    "both; Rsi 0.10 roof, 0.13 walls, 0.17 floor; Rse 0.04",
                )
                .step(
                    "heater wanted",
                    ["loss x (1 + spare)", &format!("spare {} %", trimmed(spare, 1))],
                    format!("{} W", trimmed(wanted, 0)),
                    "limit of this check",
                )
                .given("heater", format!("{} W", trimmed(climate.heater, 0)), "the layout")
                .step(
                    "to warm the box up",
                    ["C / H ln(P / (P - H difference))", &heat],
                    hours.map_or_else(|| "never".to_owned(), |hours| format!("{} h", trimmed(hours, 1))),
                    "air, half of the shell and of the furniture; common practice",
                ),
        ]
    }
}

#[cfg(test)]
mod tests;
