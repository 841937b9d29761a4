//! Whether drawers are high enough inside and run out far enough.
//!
//! # Computes
//! A drawer box is a level board with upright boards beside it that runners carry (`held: drawer-runner-pair`). Its height
//! inside is from the upper face of the bottom to the upper edge of the lower side; its runner is as long as the side.
//! Of equal drawers of a module there is one finding.
//!
//! # Why
//! Sums of fronts and gaps may leave a drawer that holds cutlery at best, or one that costs a pair of runners and gives
//! hardly more than a shelf.
//!
//! # Limit
//! `inside-height` 60 mm; `runner` 250 mm; less is a caution.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { drawer-too-shallow: { inside-height: 45, because: "a tray for cutlery" } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Severity};
use crate::geometry::{Axis, overlap};
use crate::model::{Module, Part, Place};

/// The check `drawer-too-shallow`.
pub struct DrawerTooShallow;

const NAME: &str = "drawer-too-shallow";
/// Hardware that carries the sides of a drawer.
const RUNNERS: &str = "drawer-runner-pair";

const fn common(name: &'static str, default: Bound) -> Limit {
    Limit::practice(name, default, Quantity::Length)
}
static LIMITS: [Limit; 2] = [common("inside-height", Least(60.0)), common("runner", Least(250.0))];

impl Check for DrawerTooShallow {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "drawers are high enough inside and run out far enough"
    }

    fn manual(&self) -> String {
        page_of(include_str!("drawer_too_shallow.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let modules = context.model.modules.iter();
        let drawers = modules.flat_map(|module| module.parts.iter().filter_map(move |part| drawer(module, part)));
        let (heights, runners): (Vec<_>, Vec<_>) =
            drawers.map(|drawer| (look(context, &drawer, "inside-height"), look(context, &drawer, "runner"))).unzip();
        [with_tightest(heights), with_tightest(runners)].concat()
    }
}

/// The least of the drawers that one part is the bottom of.
struct Drawer<'m> {
    module: &'m Module,
    bottom: &'m Part,
    height: f64,
    runner: f64,
}

/// The drawers that a part is the bottom of, if it is one.
fn drawer<'m>(module: &'m Module, bottom: &'m Part) -> Option<Drawer<'m>> {
    let level = |place: &&Place| place.lies.is_some_and(|lies| lies.face.axis == Axis::Z);
    let sides = || module.parts.iter().filter(|part| part.held.as_deref() == Some(RUNNERS));
    let found = bottom.places.iter().filter(level).flat_map(|place| {
        let beside = sides().flat_map(|part| &part.places).filter(|side| overlap(&side.solid, &place.solid).is_some());
        beside.filter_map(|side| measured(place, side))
    });
    let (height, runner) = found.reduce(|a, b| (a.0.min(b.0), a.1.min(b.1)))?;
    Some(Drawer { module, bottom, height, runner })
}

/// Height inside and length of the runner, by the bottom and one side of a drawer.
fn measured(bottom: &Place, side: &Place) -> Option<(f64, f64)> {
    let across = side.lies?.face.axis;
    let along = [Axis::X, Axis::Y].into_iter().find(|axis| *axis != across)?;
    let (low, high) = side.bounds().range(along);
    Some((side.bounds().z.1 - bottom.bounds().z.1, high - low))
}

fn look(context: &Context<'_>, drawer: &Drawer<'_>, limit: &'static str) -> Finding {
    let Drawer { module, bottom, height, runner } = drawer;
    let required = context.limits.get(limit);
    let (value, is) = match limit {
        "runner" => (*runner, format!("has runners of {}", mm(*runner))),
        _ => (*height, format!("is {} high inside", mm(*height))),
    };
    let least =
        if required.holds(value) { String::new() } else { format!("; at least {} are wanted", mm(required.value())) };
    let message = format!("a drawer of `{}`, on part `{}`, {is}{least}", module.name, bottom.name);
    let finding = judged(NAME, Severity::Caution, &module.name, (value, required), message);
    let mut finding = finding.of_part(&bottom.name).asks(limit);
    finding.spans = [Some(module.place_span), bottom.piece, Some(bottom.span)].into_iter().flatten().collect();
    finding
}

#[cfg(test)]
mod tests;
