//! Water that vapour leaves inside the panels.
//!
//! # Computes
//! For each panel, by Glaser's method, where vapour on its way out meets layers so cold that water stays there: temperatures with surface
//! resistances of 0.10, 0.13 or 0.17 inside and 0.04 outside, and for each layer its thickness times the material's resistance to vapour. The climate
//! stays for `days` as it is. Members in the panel are left out, and so is what dries out in summer.
//!
//! # Why
//! A panel that takes up water loses its insulation, gets heavy, and comes apart or rots where nobody sees it.
//!
//! # Limit
//! `winter`: 500 g on a square metre in 90 days of the climate; more is a caution.
//!
//! # Source
//! ISO 13788 as public texts quote it; 500 g where the layers do not soak it up, and 90 days: DIN 4108-3, from memory. Resistances to vapour: EN ISO 10456,
//! partly from memory; of foams in panels they differ much.
//!
//! # Change it
//! `limits: { panel-moisture: { winter: 1000, because: "..." } }`; or a tighter inside, or another layup.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, SourceClass, Worked};
use crate::model::{Panel, Wall};
use crate::shell::layered;
use crate::shell::moisture::{Wet, wet_places};

/// The check `panel-moisture`.
pub struct PanelMoisture;

const NAME: &str = "panel-moisture";
/// Length of the winter, days.
const DAYS: f64 = 90.0;
static LIMITS: [Limit; 1] = [Limit::new(
    "winter",
    Most(500.0),
    Quantity::Number,
    SourceClass::FromMemory,
    "DIN 4108-3, g/m² in 90 days, from memory",
)];

impl Check for PanelMoisture {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "water that stays inside the panels in winter"
    }

    fn manual(&self) -> String {
        page_of(include_str!("panel_moisture.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a steady climate and tight joints are taken for granted; seams, screws and damaged skins decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let climate = &context.model.climate;
        let judge = |(name, side, panel): (&'static str, Wall, &Panel)| {
            let wet = wet_places(panel, side, climate);
            let grams = wet.iter().map(|one| one.grams).sum::<f64>() * DAYS;
            let place = wet.first().map_or_else(|| "nowhere".to_owned(), |one| between(panel, one));
            let message = format!(
                "{} g of water stay in a square metre of the {name} (`{}`) in 90 days, {place}",
                trimmed(grams, 0),
                panel.layup
            );
            let mut finding = judged(NAME, Severity::Caution, name, (grams, context.limits.get("winter")), message);
            finding.spans = vec![climate.span.unwrap_or(context.model.space.span)];
            finding
        };
        with_tightest(layered(&context.model.space).into_iter().map(judge))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let climate = &context.model.climate;
        let sum = |(name, side, panel): (&'static str, Wall, &Panel)| {
            let title = Worked::new(format!("The {name}: {}", panel.layup)).given(
                "vapour",
                format!(
                    "{} % inside, {} % outside",
                    trimmed(climate.humidity * 100.0, 0),
                    trimmed(climate.outside_humidity * 100.0, 0)
                ),
                "climate",
            );
            let wet = wet_places(panel, side, climate);
            let dry = wet.is_empty().then(|| "no water stays".to_owned());
            let title = dry
                .into_iter()
                .fold(title, |worked, words| worked.given("pulled tight", words, "ISO 13788, Glaser's method"));
            wet.iter().fold(title, |worked, one| {
                let celsius = format!("{} °C", trimmed(one.celsius, 2));
                worked.step(
                    &between(panel, one),
                    ["2e-10 kg/(m s Pa) x (slope before - slope behind)", &celsius],
                    format!("{} g/(m² day)", trimmed(one.grams, 2)),
                    "ISO 13788, Glaser's method",
                )
            })
        };
        layered(&context.model.space).into_iter().map(sum).collect()
    }
}

fn between(panel: &Panel, wet: &Wet) -> String {
    let name = |index: usize| panel.layers.get(index).map_or("air", |layer| layer.material.as_str());
    format!("between `{}` and `{}`", name(wet.between.0), name(wet.between.1))
}
