//! What hangs too low over a worktop, a sink or a toilet.
//!
//! # Computes
//! For each solid tagged `worktop` (tables left out), `sink` or `toilet`: the height from its top to the lowest underside of
//! what hangs over at least 150 x 150 mm of it. What begins less than 100 mm above it stands on it and does not hang.
//! A thing that goes away in some arrangement, as a bed that is raised by day, leaves room: the arrangement with the most
//! room counts. A hob has `cooking`, a pillow `bed-headroom`, the roof lining `headroom` and `seat`.
//!
//! # Why
//! One bends over the work and looks at it, and gets up from a toilet head first.
//!
//! # Limit
//! `worktop` 450 mm, `sink` 500 mm; less is a caution. `toilet` 977 mm above the seat; less is a caution.
//!
//! # Source
//! `worktop`: wall units hang 450 to 600 mm above it (EN 1116 as quoted by one public page, not confirmed). `sink`: common
//! practice, no source. `toilet`: sitting height of the 95th percentile of 4,082 men, public data of the ANSUR II survey.
//!
//! # Change it
//! `limits: { over-work: { worktop: 400, because: "..." } }`; hang the locker higher, or make it less deep.

use super::check::{Check, Context, page_of};
use super::words::{area, judged, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::{GREATEST_LENGTH, SAME_LENGTH};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, SourceClass};
use crate::geometry::{Axis, Prism, overlap};
use crate::model::{Arrangement, Model, Module, Solid, Tag};
use std::collections::BTreeMap;

/// The check `over-work`.
pub struct OverWork;

const NAME: &str = "over-work";
/// What begins lower stands on it, mm; common practice, no source.
const STANDS: f64 = 100.0;
/// What covers less of it is passed by the head, mm; common practice, no source.
const COVERS: f64 = 150.0;
const EN_1116: &str = "EN 1116 as quoted by one public page (450 to 600), not confirmed; common practice";

static LIMITS: [Limit; 3] = [
    Limit::new("worktop", Least(450.0), Quantity::Length, SourceClass::CommonPractice, EN_1116),
    Limit::practice("sink", Least(500.0), Quantity::Length),
    Limit::new(
        "toilet",
        Least(977.0),
        Quantity::Length,
        SourceClass::Published,
        "sitting height, 95th percentile of men, ANSUR II public data",
    ),
];

impl Check for OverWork {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "height over worktops, sinks and toilets to what hangs there"
    }

    fn manual(&self) -> String {
        page_of(include_str!("over_work.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        // Of each work place by module and solid, the arrangement with the most room.
        let mut places: BTreeMap<(&str, &str), Option<Finding>> = BTreeMap::new();
        for arrangement in context.arrangements() {
            for (module, solid) in context.model.solids(arrangement) {
                let Some(limit) = limit_of(solid) else { continue };
                let found =
                    lowest(context.model, arrangement, solid).map(|low| finding(context, limit, (module, solid), &low));
                let height = |one: &Option<Finding>| one.as_ref().and_then(|one| Some(one.measured?.value));
                let known = places.entry((&module.name, &solid.name)).or_insert_with(|| found.clone());
                if height(&found).unwrap_or(f64::INFINITY) > height(known).unwrap_or(f64::INFINITY) {
                    *known = found;
                }
            }
        }
        with_tightest(places.into_values().flatten())
    }
}

/// The limit that holds over a solid.
fn limit_of(solid: &Solid) -> Option<&'static str> {
    let is = |tag| solid.is(tag);
    match () {
        () if is(Tag::Toilet) => Some("toilet"),
        () if is(Tag::Sink) => Some("sink"),
        () if is(Tag::Worktop) && !is(Tag::Table) => Some("worktop"),
        () => None,
    }
}

/// Something that hangs over a work place.
struct Low<'a> {
    module: &'a Module,
    solid: &'a Solid,
    by: f64,
}

fn lowest<'a>(model: &'a Model, arrangement: &'a Arrangement, work: &Solid) -> Option<Low<'a>> {
    let bounds = work.prism.bounds();
    let top = bounds.z.1;
    let over = bounds.with(Axis::Z, (top + STANDS - SAME_LENGTH, GREATEST_LENGTH));
    let column = Prism { low: over.z.0, high: over.z.1, ..work.prism.clone() };
    let column = if work.prism.axis == Axis::Z { column } else { over.into() };
    let hangs = model.solids_near(arrangement, over).filter_map(|(module, solid)| {
        let low = solid.prism.bounds().z.0;
        let shared = overlap(&solid.prism, &column).filter(|_| low >= over.z.0)?;
        let covers = shared.plan().width().min(shared.plan().height()) + SAME_LENGTH >= COVERS;
        covers.then_some(Low { module, solid, by: shared.z.0 - top })
    });
    hangs.reduce(|best, next| if next.by < best.by - SAME_LENGTH { next } else { best })
}

fn finding(context: &Context<'_>, limit: &'static str, of: (&Module, &Solid), low: &Low<'_>) -> Finding {
    let required = context.limits.get(limit);
    let (module, work) = of;
    let over = format!("`{}` of `{}`", low.solid.name, low.module.name);
    let message = format!(
        "{over} hangs {} over `{}` of `{}`, {} is needed",
        mm(low.by),
        work.name,
        module.name,
        mm(required.value())
    );
    let finding = judged(NAME, Severity::Caution, &module.name, (low.by, required), message);
    let mut finding = finding.of_part(&work.name).asks(limit).names("over", over);
    finding.spans = vec![low.module.place_span, module.place_span];
    finding.marks = vec![area(low.solid.prism.bounds().plan().intersect(work.prism.bounds().plan()))];
    finding
}

#[cfg(test)]
mod tests;
