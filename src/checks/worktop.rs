//! The height of worktops.
//!
//! # Computes
//! The height of the top of each solid tagged `worktop` above the floor of the box, in every arrangement. What is also
//! tagged `table` is worked at sitting and is left to the check `seat`. Half the stature and 50 mm is taken for the
//! height that is easy to work at standing: if even that of the tallest person is below `low`, it takes the place of
//! `low`; if even that of the shortest is above `high`, it takes the place of `high`.
//!
//! Of what is used from outside, heights are those over the ground.
//!
//! # Why
//! Too low hurts the back, too high the shoulders.
//!
//! # Limit
//! `low` 850 mm and `high` 950 mm; outside is a caution.
//!
//! # Source
//! Common practice, no source: 850 and 900 mm are usual coordinating heights of kitchen furniture. The share of the
//! stature is a rule of thumb.
//!
//! # Change it
//! `limits: { worktop: { high: 1000, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Requirement, Severity};
use crate::model::{Module, Solid, Tag};

/// The check `worktop`.
pub struct Worktop;

const NAME: &str = "worktop";
/// What is easy to work at is half the stature and this, mm.
const OVER_HALF: f64 = 50.0;

static LIMITS: [Limit; 2] = [limit("low", Least(850.0)), limit("high", Most(950.0))];

const fn limit(name: &'static str, default: Bound) -> Limit {
    Limit::practice(name, default, Quantity::Length)
}

impl Check for Worktop {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "height of worktops for the tallest and the shortest person"
    }

    fn manual(&self) -> String {
        page_of(include_str!("worktop.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for arrangement in context.arrangements() {
            let tops = context.model.solids(arrangement);
            let tops = tops.filter(|(_, solid)| solid.is(Tag::Worktop) && !solid.is(Tag::Table));
            for mut finding in tops.map(|(module, solid)| look(context, module, solid)) {
                finding.arrangements = vec![arrangement.name.clone()];
                findings.push(finding);
            }
        }
        with_tightest(findings)
    }
}

fn look(context: &Context<'_>, module: &Module, solid: &Solid) -> Finding {
    let model = context.model;
    let (low, high) = (context.limits.get("low"), context.limits.get("high"));
    let (tallest, shortest) = (model.tallest(), model.shortest());
    let easy = |stature: f64| stature / 2.0 + OVER_HALF;
    let low = if easy(tallest) < low.value() { shifted(low, easy(tallest), "tallest", tallest) } else { low };
    let high = if easy(shortest) > high.value() { shifted(high, easy(shortest), "shortest", shortest) } else { high };
    let top = solid.prism.bounds().z.1 - model.stood_on(module);
    let which = format!("the worktop `{}` of `{}` is {} high{}", solid.name, module.name, mm(top), over_ground(module));
    let not = |limit: &Requirement, word: &str, who: &str, stature: f64| {
        let (limit, stature) = (mm(limit.value()), mm(stature));
        format!("{which}, {limit} is the {word} (the {who} person is {stature} tall)")
    };
    let (severity, required, message) = if !low.holds(top) {
        let message = not(&low, "least", "tallest", tallest);
        (Severity::Caution, low, message)
    } else if !high.holds(top) {
        let message = not(&high, "most", "shortest", shortest);
        (Severity::Caution, high, message)
    } else {
        (Severity::Met, low.up_to(&high), which)
    };
    let mut finding = Finding::new(NAME, severity, &module.name, message).of_part(&solid.name);
    finding.measured = length(top);
    finding.required = Some(required);
    finding.spans = vec![module.place_span, solid.span];
    finding.marks = vec![area(solid.prism.bounds().plan())];
    finding
}

/// In words, from where heights are measured that are not from the floor.
fn over_ground(module: &Module) -> &'static str {
    if module.used_outside { " over the ground" } else { "" }
}

/// A limit moved to what suits one person.
fn shifted(limit: Requirement, value: f64, who: &str, stature: f64) -> Requirement {
    let source =
        format!("half the stature of the {who} person, {}, and {}; {}", mm(stature), mm(OVER_HALF), limit.source);
    Requirement { source, ..limit.at(value) }
}

#[cfg(test)]
mod tests;
