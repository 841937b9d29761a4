//! Room around a hob: to put a pan down, and away from what burns.
//!
//! # Computes
//! For each solid tagged `hob`, in every arrangement. The landing: how far the worktop that it is in goes on beside it (tops
//! within 10 mm of it, joints up to 10 mm; the hob may stand up to 60 mm proud of it), to its end, a sink, another hob, or what stands on it; the longer side counts. The free
//! distance at both sides to walls and to everything that rises above the worktop within 400 mm over the hob; to mattresses,
//! cushions and people who lie there, in any direction. Windows in the wall behind it, where that is within 300 mm: how far beside the
//! hob they begin, if they reach less than `above` over it. The height to the lowest thing over it.
//!
//! # Why
//! A hot pan needs a place before a hand lets go of it, and curtains, bedding and lockers burn.
//!
//! # Limit
//! `landing` 300 mm on one side at least; `side` 150 mm to a side wall, anything tall, a bed or a cushion; `window` 100 mm
//! beside the hob; `above` 650 mm under lockers, `above-gas` 750 mm where the module's symbol `connects: [gas]`. Less is a caution.
//! Follow the appliance maker and the local code.
//!
//! # Source
//! `above-gas`: leaflets of appliance makers as public pages quote them; they differ: 700 to 760 mm in the UK, 600 mm in
//! Australia. The others: common practice, no source; for the sides of a gas hob leaflets have 50 to 100 mm (UK) and protection of
//! what is nearer than 200 mm to the burner (Australia).
//!
//! # Change it
//! `limits: { cooking: { above: 600, because: "..." } }`, or `above-gas`, `landing`, `side`, `window`.

mod hob;

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity, SourceClass};
use crate::model::Arrangement;
use hob::{Hob, Near};

/// The check `cooking`.
pub struct Cooking;

const NAME: &str = "cooking";
const PRACTICE: &str = "common practice, no source; follow the appliance maker and local code";

const GAS: &str = "leaflets of makers, as public pages quote them, 600 to 760 mm; the sheet of the appliance decides";

const fn limit(name: &'static str, default: Bound, source: &'static str) -> Limit {
    Limit::new(name, default, Quantity::Length, SourceClass::CommonPractice, source)
}

static LIMITS: [Limit; 5] = [
    limit("landing", Least(300.0), PRACTICE),
    limit("side", Least(150.0), PRACTICE),
    limit("window", Least(100.0), PRACTICE),
    limit("above", Least(650.0), PRACTICE),
    Limit::new("above-gas", Least(750.0), Quantity::Length, SourceClass::Quoted, GAS),
];

impl Check for Cooking {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "landing beside the hob, and its distance to walls, beds, windows and lockers"
    }

    fn manual(&self) -> String {
        page_of(include_str!("cooking.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: the maker of the appliance and the local code decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let look = |arrangement| {
            let hobs = Hob::all(context.model, arrangement);
            hobs.into_iter().flat_map(|hob| around(context, arrangement, &hob)).collect::<Vec<_>>()
        };
        with_tightest(context.arrangements().iter().flat_map(look))
    }
}

/// All findings about one hob.
fn around(context: &Context<'_>, arrangement: &Arrangement, hob: &Hob<'_>) -> Vec<Finding> {
    let limit = |name| context.limits.value(name);
    let (side, above) = (limit("side"), limit(hob.above_limit()));
    let of = hob.module.name.as_str();
    let landing = hob.landings(context.model, arrangement).into_iter().fold(0.0, f64::max);
    let landing = Near { what: String::new(), by: landing, span: None };
    let beside = |near: &Near| format!("{} is {} beside the hob of `{of}`", near.what, mm(near.by));
    let over = |near: &Near| format!("{} is {} above the hob of `{of}`", near.what, mm(near.by));
    let window = |near: &Near| match near.by > 0.0 {
        true => beside(near),
        false => format!("{} is behind the hob of `{of}`", near.what),
    };
    let put_down = |near: &Near| format!("the worktop beside the hob of `{of}` is free for {} at most", mm(near.by));
    let about = |name, near: Option<Near>, words: &dyn Fn(&Near) -> String| {
        let near = near?;
        let is = words(&near);
        Some(finding(context, arrangement, hob, name, &is, near))
    };
    let found = [
        about("landing", Some(landing), &put_down),
        about("side", hob.beside(context.model, arrangement, side), &beside),
        about("window", hob.window(context.model, above), &window),
        about(hob.above_limit(), hob.above(context.model, arrangement, above), &over),
    ];
    found.into_iter().flatten().collect()
}

fn finding(
    context: &Context<'_>,
    arrangement: &Arrangement,
    hob: &Hob<'_>,
    limit: &'static str,
    is: &str,
    near: Near,
) -> Finding {
    let required = context.limits.get(limit);
    let needed = required.value();
    let met = required.holds(near.by);
    let wanted = match limit {
        "landing" => format!("{} on one side is needed to put a pan down", mm(needed)),
        "window" => format!("{} to its side is needed", mm(needed)),
        _ => format!("{} is needed", mm(needed)),
    };
    let (severity, message) =
        if met { (Severity::Met, is.to_owned()) } else { (Severity::Caution, format!("{is}, {wanted}")) };
    let finding = Finding::new(NAME, severity, &hob.module.name, message).of_part(&hob.solid.name).asks(limit);
    let mut finding = finding.names("near", near.what);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(near.by);
    finding.required = Some(required);
    finding.spans = vec![hob.module.place_span];
    finding.spans.extend(near.span);
    finding.marks = vec![area(hob.bounds.plan())];
    finding
}

#[cfg(test)]
mod tests;
