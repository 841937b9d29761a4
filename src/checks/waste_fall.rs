//! Whether waste water runs off.
//!
//! # Computes
//! For each waste pipe, how much lower it ends than it starts, over its length seen from above, in percent; and whether a leg
//! of it rises.
//!
//! # Why
//! Water that stands in a pipe smells, and freezes.
//!
//! # Limit
//! `small`: 2.08 % for bores up to 63.5 mm; `large`: 1.04 % for larger ones. Less, or a leg that rises, is a caution.
//!
//! # Source
//! IPC 704.1: 1/4 inch in a foot up to 2½ inch, 1/8 inch in a foot from 3 inch.
//!
//! # Change it
//! `limits: { waste-fall: { small: 1.5, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, length, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::services::{SMALL_BORE, fall};

/// The check `waste-fall`.
pub struct WasteFall;

const NAME: &str = "waste-fall";
const fn percent(name: &'static str, default: Bound) -> Limit {
    Limit::new(name, default, Quantity::Percent, SourceClass::Quoted, "IPC 704.1, as public pages quote it")
}
static LIMITS: [Limit; 2] = [percent("small", Least(100.0 / 48.0)), percent("large", Least(100.0 / 96.0))];

impl Check for WasteFall {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "fall of the waste pipes along their way"
    }

    fn manual(&self) -> String {
        page_of(include_str!("waste_fall.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        with_tightest(context.model.services.wastes.iter().map(|waste| {
            let fall = fall(waste);
            let required = context.limits.get(if waste.bore <= SMALL_BORE { "small" } else { "large" });
            let rises = if fall.rise > 0.0 { ", and a leg of it rises" } else { "" };
            let message = format!(
                "`{}` falls {} over {}, {} %{rises}",
                waste.name,
                mm(fall.drop),
                mm(fall.length),
                trimmed(fall.percent, 2)
            );
            let mut finding = judged(NAME, Severity::Caution, &waste.name, (fall.percent, required), message);
            if fall.rise > 0.0 && finding.severity == Severity::Met {
                finding.severity = Severity::Caution;
                finding.measured = length(fall.rise);
                finding.required = Some(Requirement::nothing());
            }
            finding.spans = vec![waste.span];
            finding
        }))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let sum = |waste: &crate::model::Waste| {
            let fall = fall(waste);
            let figures = format!("{} / {}", mm(fall.drop), mm(fall.length));
            Worked::new(format!("Waste pipe `{}`", waste.name)).step(
                "fall",
                ["lower by / length seen from above", &figures],
                format!("{} %", trimmed(fall.percent, 2)),
                "IPC 704.1",
            )
        };
        context.model.services.wastes.iter().map(sum).collect()
    }
}

#[cfg(test)]
mod tests;
