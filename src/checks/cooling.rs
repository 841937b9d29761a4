//! Whether the box stays bearable on a hot day.
//!
//! # Computes
//! Heat that comes in on the climate's summer day: area x U x difference over the shell, with the air that is changed, sun on the roof (area x U x
//! `absorbs` x `sun` x 0.04 m²K/W), sun through roof windows and the windows of the one wall that has most, unshaded (0.7 of it, on a wall half of what
//! falls on the roof), and 100 W for each person.
//!
//! # Why
//! A dark roof and three unshaded windows make an oven of ten square metres; a cooler that is too small runs the battery flat for nothing.
//!
//! # Limit
//! `spare`: 10 % over what comes in. A `cooler` with less is a caution; without one, a note says what comes in.
//!
//! # Source
//! Heat balance; shares, people and margin: common practice, no source; what double acrylic lets in: from memory.
//!
//! # Change it
//! `climate: { cooler: 1500, summer-outside: 32, sun: 800, absorbs: 30 }`; `limits: { cooling: { spare: 0, because: "shaded" } }`.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, Worked};
use crate::shell::summer::gains;

/// The check `cooling`.
pub struct Cooling;

const NAME: &str = "cooling";
static LIMITS: [Limit; 1] = [Limit::practice("spare", Least(10.0), Quantity::Percent)];

impl Check for Cooling {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "heat that comes in on a hot day against the cooler"
    }

    fn manual(&self) -> String {
        page_of(include_str!("cooling.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("steady state at noon; shade, wind and the hours of heat before decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let climate = &context.model.climate;
        let Some(span) = climate.span else { return Vec::new() };
        let watts = gains(context.model, context.figures.losses()).watts();
        let spare = context.limits.get("spare");
        let wanted = watts * (1.0 + spare.value() / 100.0);
        let message = format!(
            "{} W come in at {} °C outside with {} W/m² of sun; to stay at {} °C a cooler of {} W is wanted",
            trimmed(watts, 0),
            trimmed(climate.summer_outside, 1),
            trimmed(climate.sun, 0),
            trimmed(climate.summer_inside, 1),
            trimmed(wanted, 0)
        );
        let mut finding = if climate.cooler > 0.0 {
            judged(NAME, Severity::Caution, "cooler", (climate.cooler, spare.of(wanted, Quantity::Power)), message)
        } else {
            Finding::new(NAME, Severity::Note, "cooler", message).figure("comes in", watts, Quantity::Power)
        };
        finding.spans = vec![span];
        vec![finding]
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let climate = &context.model.climate;
        let found = gains(context.model, context.figures.losses());
        let watts = |value: f64| format!("{} W", trimmed(value, 0));
        let difference = climate.summer_outside - climate.summer_inside;
        let sun = format!("{} W/m², {} % of it", trimmed(climate.sun, 0), trimmed(climate.absorbs * 100.0, 0));
        vec![
            Worked::new("Heat on a hot day")
                .step(
                    "through the shell and with the air",
                    ["(sum(A U) + edges + 0.34 n V) x difference", &format!("{} K", trimmed(difference, 1))],
                    watts(found.through),
                    "as in `heating`",
                )
                .step("sun on the roof", ["A U absorbs sun Rse", &sun], watts(found.roof), "Rse 0.04 m²K/W")
                .step(
                    "sun through windows",
                    ["0.7 sun (roof + half of the wall with most)", ""],
                    watts(found.windows),
                    "unshaded; from memory",
                )
                .step("people", ["100 W each", ""], watts(found.people), "common practice, no source")
                .step("comes in", ["sum", ""], watts(found.watts()), "")
                .given("cooler", watts(climate.cooler), "the layout"),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::testing::{met, model, run, space, with_person};
    use crate::model::{Climate, Layer};
    use crate::source::Span;

    /// By hand: a box of 4 x 2 x 2 m, 40 mm of 0.04 W/(m K) all round, no opening and no change of air; 36 degrees outside, 26 inside, 1,000 W/m2 on a roof
    /// that takes up half. U is 1 / (1 + 0.17) for walls, 1 / (1 + 0.14) and 1 / (1 + 0.21) for roof and floor: (24 x 0.8547 + 8 x 0.8772 + 8 x 0.8264 + 0.7168) x 10
    /// = 348.6 W, sun on the roof 8 x 0.8772 x 500 x 0.04 = 140.4 W, a person 100 W: 588.9 W.
    #[test]
    fn a_hot_day_by_hand() {
        let with = |cooler: f64| {
            let mut model = with_person(model(space(4000.0, 2000.0, 2000.0)), 1700.0);
            let layer = Layer { material: "core".to_owned(), thickness: 40.0, conductivity: 0.04, bridge: None };
            for panel in [&mut model.space.walls, &mut model.space.roof_panel, &mut model.space.floor] {
                (panel.thickness, panel.layers) = (40.0, vec![layer.clone()]);
            }
            let (span, air_changes) = (Some(Span::default()), 0.0);
            let summer =
                Climate { summer_outside: 36.0, summer_inside: 26.0, sun: 1000.0, absorbs: 0.5, ..Climate::default() };
            model.climate = Climate { cooler, span, air_changes, ..summer };
            model
        };
        let (walls, roof, floor) = (24.0 / 1.17, 8.0 / 1.14, 8.0 / 1.21);
        let by_hand: f64 = (walls + roof + floor + 0.7168) * 10.0 + roof * 500.0 * 0.04 + 100.0;
        assert!((by_hand - 588.9).abs() < 0.05, "{by_hand}");
        assert_eq!(met(&Cooling, &with(by_hand * 1.1 + 0.01)).map(|(subject, _)| subject), Some("cooler".to_owned()));
        let found = run(&Cooling, &with(by_hand * 1.1 - 0.01));
        assert!((found[0].required.as_ref().unwrap().value() - by_hand * 1.1).abs() < 1e-6, "{found:?}");
        assert_eq!(run(&Cooling, &with(0.0))[0].severity, Severity::Note);
    }
}
