//! Members in a panel that make cold places.
//!
//! # Computes
//! For each layup with members in a layer (`frame`), the heat through a cut across one of them: a two-dimensional balance of
//! heat on a grid from the middle of a member to the middle between two, as ISO 10211 asks, its cells halved until the heat changes by
//! less than half a percent. From it the coldest place of the inside and the humidity there, with an inside surface resistance of 0.25 m²K/W as
//! in `surface-dew`; and, with that of heat loss (0.10, 0.13, 0.17), the transmittance of the panel with and without members. The combined method
//! of ISO 6946 is not used for metal, to which it does not apply. Beside it stands the temperature factor that the climate asks for.
//!
//! # Why
//! A steel frame in a panel of 40 mm can double its heat loss and draws a line of mould on the wall.
//!
//! # Limit
//! `mould`: 80 % humidity at the coldest place; more is a caution, 100 % a fault.
//!
//! # Source
//! ISO 13788:2012, 5.3 and 4.4.1, as quoted in public texts; the method is that of ISO 10211, checked against its first two cases and a
//! series solution.
//!
//! # Change it
//! `limits: { cold-bridge: { mould: 85, because: "..." } }`; or part the member from the skins, or use another layup.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::trimmed;
use crate::diagnostic::{Finding, Limit, Severity, Worked};
use crate::model::{Model, Panel, Wall};
use crate::shell::conduction::{Section, panel_section};
use crate::shell::dew::{MOULD, dew_point, factor_needed, humidity_at};
use crate::shell::heat::{RSE, RSI_STILL, limits, resistance, rsi};
use crate::shell::layered;

/// The check `cold-bridge`.
pub struct ColdBridge;

const NAME: &str = "cold-bridge";
static LIMITS: [Limit; 1] = [MOULD];

impl Check for ColdBridge {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "humidity at the coldest place over members in the panels"
    }

    fn manual(&self) -> String {
        page_of(include_str!("cold_bridge.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("members along the panel alone; bolts, corners and frames of openings come on top")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let climate = &context.model.climate;
        let judge = |bridged: Bridged<'_>| {
            let coldest = climate.outside + (climate.inside - climate.outside) * bridged.section.coldest;
            let humidity = humidity_at(coldest, climate.inside, climate.humidity) * 100.0;
            let severity = if humidity >= 100.0 { Severity::Fault } else { Severity::Caution };
            let message = format!(
                "over the members of `{}` the {} {} {} °C inside: {}; heat loss is {} W/(m²K), {} without them",
                bridged.panel.layup,
                bridged.name,
                if bridged.name == "walls" { "are" } else { "is" },
                trimmed(coldest, 1),
                at_the_surface(humidity, dew_point(climate.inside, climate.humidity)),
                trimmed(bridged.u, 2),
                trimmed(bridged.plain, 2)
            );
            let required = context.limits.get("mould");
            let mut finding = judged(NAME, severity, bridged.name, (humidity, required), message);
            finding.spans = vec![climate.span.unwrap_or(context.model.space.span)];
            finding
        };
        bridged(context.model).into_iter().map(judge).collect()
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let climate = &context.model.climate;
        let most = context.limits.value("mould") / 100.0;
        let needed = factor_needed((climate.inside, climate.outside), climate.humidity, most);
        let wanted = format!("{} % at the surface at most", trimmed(most * 100.0, 0));
        let sum = |bridged: Bridged<'_>| {
            let surfaces = rsi(bridged.side) + RSE;
            let (upper, lower) = limits(&bridged.panel.layers, bridged.side, surfaces);
            Worked::new(format!("The {}: {}", bridged.name, bridged.panel.layup))
                .given("without members", format!("{} W/(m²K)", trimmed(bridged.plain, 3)), "ISO 6946")
                .given(
                    "limits of the combined method",
                    format!("R' {}, R'' {} m²K/W", trimmed(upper, 3), trimmed(lower, 3)),
                    "ISO 6946; not for metal",
                )
                .step(
                    "by conduction in two dimensions",
                    ["heat through the inside / (width x difference)", ""],
                    format!("{} W/(m²K)", trimmed(bridged.u, 3)),
                    "ISO 10211",
                )
                .given(
                    "half the cells change the heat by",
                    format!("{} %", trimmed(bridged.section.change, 2)),
                    "ISO 10211 asks for less than 1 %",
                )
                .step(
                    "warmth of the coldest place, 0 outside to 1 inside",
                    ["1 - q Rsi", ""],
                    format!(
                        "{} over the member, {} between",
                        trimmed(bridged.section.coldest, 3),
                        trimmed(bridged.section.between, 3)
                    ),
                    "Rsi 0.25, ISO 13788",
                )
                .step(
                    "temperature factor that this climate asks for",
                    ["(surface at the limit - outside) / (inside - outside)", &wanted],
                    trimmed(needed, 3),
                    "ISO 13788",
                )
        };
        bridged(context.model).into_iter().map(sum).collect()
    }
}

/// How damp a surface is, in words.
fn at_the_surface(humidity: f64, dew: f64) -> String {
    if humidity >= 100.0 {
        format!("wet, below the dew point of {} °C", trimmed(dew, 1))
    } else {
        format!("{} % humidity there", trimmed(humidity, 0))
    }
}

struct Bridged<'a> {
    name: &'static str,
    side: Wall,
    panel: &'a Panel,
    /// For the coldest place.
    section: Section,
    /// For the heat, with members and without, W/(m2 K).
    u: f64,
    plain: f64,
}

/// The panels with members.
fn bridged(model: &Model) -> Vec<Bridged<'_>> {
    let bridged = layered(&model.space).into_iter().filter_map(|(name, side, panel)| {
        let section = panel_section(panel, (RSI_STILL, RSE))?;
        let u = panel_section(panel, (rsi(side), RSE))?.u;
        let resistance = panel.layers.iter().map(|layer| resistance(layer, side)).sum::<f64>();
        Some(Bridged { name, side, panel, section, u, plain: 1.0 / (resistance + rsi(side) + RSE) })
    });
    bridged.collect()
}

#[cfg(test)]
mod tests;
