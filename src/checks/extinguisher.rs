//! Where a fire extinguisher hangs.
//!
//! # Computes
//! For the load with `is: extinguisher` that is nearest to a door, seen from above: how far it is from the clear width of the
//! door; and how far from the nearest hob. A layout with a hob, a heater or a place to sleep in which there is none gets a note.
//!
//! # Why
//! One takes it on the way out and turns round with it; beside the flame nobody reaches for it.
//!
//! # Limit
//! `door` 1,000 mm at most; more is a caution. `hob` 500 mm at least; less is a caution.
//!
//! # Source
//! `door`: from memory, not verified. `hob`: common practice, no source ("away from the hob"). Which kind and size it is (sources differ
//! on powder in small rooms) is not looked at: the local code and the maker decide.
//!
//! # Change it
//! `limits: { extinguisher: { door: 1500, because: "..." } }`; move the load.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Mark, Quantity, Severity, SourceClass};
use crate::figures::panel::{clear, room};
use crate::model::{Load, LoadKind, Model, Need, OpeningKind, Tag};
use kurbo::{Point, Rect};

/// The check `extinguisher`.
pub struct Extinguisher;

const NAME: &str = "extinguisher";

static LIMITS: [Limit; 2] = [
    Limit::new("door", Most(1000.0), Quantity::Length, SourceClass::FromMemory, "from memory, not verified"),
    Limit::practice("hob", Least(500.0), Quantity::Length),
];

impl Check for Extinguisher {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "an extinguisher by the door and away from the hob"
    }

    fn manual(&self) -> String {
        page_of(include_str!("extinguisher.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: the local code and the maker decide on kind, size and place")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let all = model.loads.iter().filter(|load| load.kind == LoadKind::Extinguisher);
        let doors = model.openings.iter().filter(|one| one.kind == OpeningKind::Door && !one.lies_flat());
        let doors: Vec<(&str, Rect)> =
            doors.map(|door| (door.name.as_str(), room(model, door, clear(door), 1.0).plan())).collect();
        let to_door = |load: &Load| nearest(load, doors.iter().copied()).map_or(0.0, |(_, by)| by);
        let Some(load) = all.reduce(|best, next| if to_door(next) < to_door(best) { next } else { best }) else {
            return missing(model).into_iter().collect();
        };
        let hobs = model.modules.iter().flat_map(|module| {
            let solids = module.poses.iter().flat_map(|pose| &pose.solids).filter(|solid| solid.is(Tag::Hob));
            solids.map(|solid| (module.name.as_str(), solid.prism.bounds().plan()))
        });
        let near = [("door", nearest(load, doors.iter().copied())), ("hob", nearest(load, hobs))];
        with_tightest(near.into_iter().filter_map(|(limit, near)| Some(finding(context, load, limit, near?))))
    }
}

/// The note that there is none, where one is wanted.
fn missing(model: &Model) -> Option<Finding> {
    let poses = || model.modules.iter().flat_map(|module| &module.poses);
    let burns = poses().any(|pose| pose.solids.iter().any(|solid| solid.is(Tag::Hob))) || model.climate.heater > 0.0;
    let sleeps = poses().any(|pose| pose.spaces.iter().any(|space| space.need == Need::Lying));
    let message = "no load says `is: extinguisher`: nothing tells whether one hangs by the door";
    let mut finding = Finding::new(NAME, Severity::Note, "box", message).asks("missing");
    finding.spans = vec![model.space.span];
    (burns || sleeps).then_some(finding)
}

/// The nearest of some rectangles to the middle of a load, by name, and how far it is.
fn nearest<'a>(load: &Load, all: impl Iterator<Item = (&'a str, Rect)>) -> Option<(&'a str, f64)> {
    let at = Point::new(load.at.x, load.at.y);
    let far = |rect: Rect| {
        let x = (rect.x0 - at.x).max(at.x - rect.x1).max(0.0);
        let y = (rect.y0 - at.y).max(at.y - rect.y1).max(0.0);
        x.hypot(y)
    };
    all.map(|(name, rect)| (name, far(rect))).reduce(|best, next| if next.1 < best.1 { next } else { best })
}

fn finding(context: &Context<'_>, load: &Load, limit: &'static str, near: (&str, f64)) -> Finding {
    let required = context.limits.get(limit);
    let what = if limit == "door" { "the door" } else { "the hob of" };
    let bound = if limit == "door" { "of" } else { "at least" };
    let end = if limit == "door" { " at most" } else { "" };
    let message =
        format!("`{}` hangs {} from {what} `{}`, {bound} {}{end}", load.name, mm(near.1), near.0, mm(required.value()));
    let finding = judged(NAME, Severity::Caution, &load.name, (near.1, required), message);
    let mut finding = finding.asks(limit).with_other(near.0);
    finding.spans = vec![load.span];
    finding.marks = vec![Mark::At(Point::new(load.at.x, load.at.y))];
    finding
}

#[cfg(test)]
mod tests;
