//! Whether water or mould comes on the inside of the shell.
//!
//! # Computes
//! For each panel the inside surface temperature at the climate's air temperatures (`climate`), with the resistances of its
//! layers by ISO 6946 and an inside surface resistance of 0.25 m²K/W, as behind furniture; then the relative humidity at that
//! surface: the vapour pressure of the air inside over the saturation pressure at the surface. For windows and the like,
//! which stand free, with 0.13 m²K/W.
//!
//! # Why
//! People who live in ten square metres give off ten litres of water a day; on a cold panel behind a mattress it becomes
//! mould.
//!
//! # Limit
//! `mould`: 80 % at the surface of a panel; more is a caution. At 100 % water stands there: a fault. Windows get a note.
//!
//! # Source
//! ISO 13788:2012: 5.3 (80 %), 4.4.1 (0.25 m²K/W), annex E (saturation pressure), as quoted in public texts.
//!
//! # Change it
//! `limits: { surface-dew: { mould: 85, because: "..." } }`, or another `climate`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::base::tolerance::ROUNDING;
use crate::diagnostic::{Finding, Limit, Severity, Worked};
use crate::model::{Climate, Model, OpeningKind, Panel, Wall};
use crate::shell::dew::{MOULD, dew_point, humidity_at, saturation, wets_at};
use crate::shell::heat::{RSE, RSI_STILL, temperatures};
use crate::shell::layered;
use crate::shell::losses::opening_u;
use crate::source::Span;

/// The check `surface-dew`.
pub struct SurfaceDew;

const NAME: &str = "surface-dew";
static LIMITS: [Limit; 1] = [MOULD];

impl Check for SurfaceDew {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "humidity at the inside of panels and windows"
    }

    fn manual(&self) -> String {
        page_of(include_str!("surface_dew.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("steady state between layers that the library describes; joints, wet weather and habits decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let (model, climate) = (context.model, &context.model.climate);
        let span = climate.span.unwrap_or(model.space.span);
        let mut findings: Vec<Finding> = layered(&model.space)
            .into_iter()
            .map(|(name, side, panel)| self.panel(context, (name, side, panel), span))
            .collect();
        findings.extend(climate.span.map(|_| windows(model, climate)).into_iter().flatten());
        with_tightest(findings)
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let climate = &context.model.climate;
        layered(&context.model.space).into_iter().map(|(name, side, panel)| sum(climate, name, side, panel)).collect()
    }
}

impl SurfaceDew {
    fn panel(&self, context: &Context<'_>, (name, side, panel): (&str, Wall, &Panel), span: Span) -> Finding {
        let climate = &context.model.climate;
        let surface = surface(panel, side, climate);
        let humidity = humidity_at(surface, climate.inside, climate.humidity) * 100.0;
        let severity = if humidity >= 100.0 { Severity::Fault } else { Severity::Caution };
        let message = format!(
            "with {} °C outside the {name} {} {} °C inside behind furniture: {} % humidity there; wet from {} % in the room",
            trimmed(climate.outside, 1),
            if name == "walls" { "are" } else { "is" },
            trimmed(surface, 1),
            trimmed(humidity, 0),
            trimmed(wets_at(surface, climate.inside) * 100.0, 0)
        );
        let mut finding = judged(NAME, severity, name, (humidity, context.limits.get("mould")), message);
        finding.spans = vec![span];
        finding
    }
}

fn surface(panel: &Panel, side: Wall, climate: &Climate) -> f64 {
    let all = temperatures(panel, side, RSI_STILL, (climate.inside, climate.outside));
    all.get(1).copied().unwrap_or(climate.inside)
}

/// Notes on windows that get wet: those of one transmittance together.
fn windows(model: &Model, climate: &Climate) -> Vec<Finding> {
    const RSI: f64 = 0.13;
    let mut by_u: Vec<(f64, Vec<&crate::model::Opening>)> = Vec::new();
    for opening in &model.openings {
        let Some(u) = opening_u(opening).filter(|_| opening.kind != OpeningKind::Vent) else { continue };
        match by_u.iter_mut().find(|(known, _)| (known - u).abs() < ROUNDING) {
            Some((_, all)) => all.push(opening),
            None => by_u.push((u, vec![opening])),
        }
    }
    let wet = by_u.into_iter().filter_map(|(u, all)| {
        let surface = climate.inside - (climate.inside - climate.outside) * u * RSI;
        let from = wets_at(surface, climate.inside);
        let first = all.first()?;
        let names: Vec<&str> = all.iter().map(|opening| opening.name.as_str()).collect();
        let message = format!(
            "{} {} °C inside with {} W/(m²K): wet from {} % humidity",
            if names.len() == 1 { "is" } else { "are" },
            trimmed(surface, 1),
            trimmed(u, 1),
            trimmed(from * 100.0, 0)
        );
        let note = Finding::new(NAME, Severity::Note, &first.name, format!("{} {message}", names.join(", ")));
        let mut note = note.asks("window");
        note.spans = all.iter().map(|opening| opening.span).collect();
        (from < climate.humidity).then_some(note)
    });
    wet.collect()
}

fn sum(climate: &Climate, name: &str, side: Wall, panel: &Panel) -> Worked {
    let layers = panel.layers.iter().map(|layer| crate::shell::heat::resistance(layer, side));
    let whole: f64 = RSI_STILL + RSE + layers.sum::<f64>();
    let surface = surface(panel, side, climate);
    let [inside, outside, humidity] =
        [climate.inside, climate.outside, climate.humidity * 100.0].map(|v| trimmed(v, 1));
    let mut worked = Worked::new(format!("The {name}: {}", panel.layup)).given(
        "air inside, outside",
        format!("{inside} °C at {humidity} %, {outside} °C"),
        "climate of the layout",
    );
    for layer in &panel.layers {
        let figures = format!("{} mm / {}", trimmed(layer.thickness, 2), trimmed(layer.conductivity, 3));
        let resistance = trimmed(crate::shell::heat::resistance(layer, side), 3);
        worked = worked.step(
            &layer.material,
            ["d / lambda", &figures],
            format!("{resistance} m²K/W"),
            "library of materials",
        );
    }
    let at = humidity_at(surface, climate.inside, climate.humidity) * 100.0;
    worked
        .step(
            "from air to air",
            ["Rsi + sum + Rse", &format!("0.25 + sum + {RSE}")],
            format!("{} m²K/W", trimmed(whole, 3)),
            "ISO 6946, ISO 13788",
        )
        .step("surface", ["inside - (inside - outside) Rsi / R", ""], format!("{} °C", trimmed(surface, 2)), "")
        .given(
            "dew point of the air inside",
            format!("{} °C", trimmed(dew_point(climate.inside, climate.humidity), 2)),
            "ISO 13788, annex E",
        )
        .step(
            "humidity at the surface",
            [
                "p(inside) humidity / p(surface)",
                &format!(
                    "{} Pa x {humidity} % / {} Pa",
                    trimmed(saturation(climate.inside), 0),
                    trimmed(saturation(surface), 0)
                ),
            ],
            format!("{} %", trimmed(at, 1)),
            "ISO 13788, annex E",
        )
}

#[cfg(test)]
mod tests;
