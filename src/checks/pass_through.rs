//! The clear size of the openings that people crawl through.
//!
//! # Computes
//! For each opening of kind `pass-through`, in every arrangement: the largest rectangle that is free in the hole after its
//! `lining` is taken off all round and after everything is taken out that stands within the reach of a crawling body
//! inside, seen square on to the wall. The rectangle has the proportion of the limits, upright or lying, whichever is
//! larger, and is then widened as far as it goes. Rounded corners are not taken off.
//!
//! # Why
//! Linings and a seat back too near take what the hole in the panel seemed to give.
//!
//! # Limit
//! `narrow` 330 mm one way and `long` 580 mm the other, in either orientation: less is a fault. `reach` 500 mm is how far
//! inside something is in the way.
//!
//! # Source
//! Narrow and long: a body that goes through at full length, as through an opening from above or below in light clothing, 330 x
//! 580 mm, MIL-STD-1472, from memory, not verified. Of 95 in 100 men the chest is at most 316 mm deep and the shoulders 567 mm
//! wide, unclothed (computed from ANSUR II public data), so that nobody but the largest is kept out. To crawl through a wall on hands
//! and knees the same standard has 660 x 760 mm, from memory too; that is comfort, and no limit here. Reach: common practice, no source.
//!
//! # Change it
//! `limits: { pass-through: { narrow: 400, because: "..." } }`, or `long`, or `reach`.

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity, SourceClass};
use crate::figures::panel::{before, clear, named, passage, room};
use crate::model::{Arrangement, Opening, OpeningKind};

/// The check `pass-through`.
pub struct PassThrough;

const NAME: &str = "pass-through";
const MEMORY: &str = "MIL-STD-1472, whole body at full length, light clothing; from memory, not verified";

const fn limit(name: &'static str, default: Bound, class: SourceClass, source: &'static str) -> Limit {
    Limit::new(name, default, Quantity::Length, class, source)
}

static LIMITS: [Limit; 3] = [
    limit("narrow", Least(330.0), SourceClass::FromMemory, MEMORY),
    limit("long", Least(580.0), SourceClass::FromMemory, MEMORY),
    limit("reach", Least(500.0), SourceClass::CommonPractice, "common practice, no source"),
];

impl Check for PassThrough {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "the clear size of each opening that people crawl through"
    }

    fn manual(&self) -> String {
        page_of(include_str!("pass_through.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let crawls = || context.model.openings.iter().filter(|opening| opening.kind == OpeningKind::PassThrough);
        let look = |arrangement| crawls().map(move |opening| look(context, arrangement, opening));
        with_tightest(context.arrangements().iter().flat_map(look))
    }
}

fn look(context: &Context<'_>, arrangement: &Arrangement, opening: &Opening) -> Finding {
    let (narrow, long) = (context.limits.get("narrow"), context.limits.get("long"));
    let (a, b, reach) = (narrow.value(), long.value(), context.limits.value("reach"));
    let clear = clear(opening);
    let things = before(context.model, arrangement, opening, clear, reach);
    let found = passage(clear, &things, a, b);
    let (rect, lying) = found.unwrap_or_default();
    let (short, deep) = if lying { (rect.height(), rect.width()) } else { (rect.width(), rect.height()) };
    let passes = short >= a - SAME_LENGTH && deep >= b - SAME_LENGTH;
    let beside = if things.is_empty() { String::new() } else { format!(" beside {}", named(&things)) };
    let is = match found {
        Some(_) => format!(
            "the clear way through `{}` is {} x {}{beside}",
            opening.name,
            size(rect.width()),
            mm(rect.height())
        ),
        None => format!("nothing of `{}` is clear{beside}", opening.name),
    };
    let (severity, message) = match passes {
        true => (Severity::Met, is),
        false => (Severity::Fault, format!("{is}; {} x {} is needed, either way round", size(a), mm(b))),
    };
    let finding = Finding::new(NAME, severity, &opening.name, message).names("beside", beside);
    let finding = finding.figure("width", rect.width(), Quantity::Length);
    let mut finding = finding.figure("height", rect.height(), Quantity::Length);
    finding.arrangements = vec![arrangement.name.clone()];
    let is_narrow = short / a <= deep / b;
    finding.measured = length(if is_narrow { short } else { deep });
    finding.required = Some(if is_narrow { narrow } else { long });
    finding.spans = vec![opening.span];
    finding.spans.extend(things.iter().filter_map(|before| before.thing.span));
    finding.marks = vec![area(room(context.model, opening, clear, reach).plan())];
    finding
}

fn size(mm: f64) -> String {
    trimmed(mm, 1)
}

#[cfg(test)]
mod tests;
