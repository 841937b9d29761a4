//! Whether boards that are to meet a wall or the roof reach it.
//!
//! # Computes
//! A board with a scribe is left longer there and fitted to the curve of a wall or of the roof. From each such edge the way to
//! the panel that it looks at, at its widest place; what the scribe leaves on is taken off. More than 100 mm from a wall or
//! 300 mm from the roof the board is not meant for it.
//!
//! # Why
//! A partition that ends at the walls' height under an arched roof leaves a wedge of air in the middle, which nobody can close
//! when the boards are cut.
//!
//! # Limit
//! `beyond-scribe` 0 mm: so much may be left open; more is a caution.
//!
//! # Source
//! Geometry. 100 and 300 mm: own judgement, no source.
//!
//! # Change it
//! Let the module reach the panel: give it no top lower than the roof (its symbol follows the lining), or move it to the wall.
//! `limits: { wall-gap: { beyond-scribe: 10, because: "closed by a cover strip" } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, named, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, SourceClass};
use crate::geometry::{Axis, Prism};
use crate::model::{BoxSpace, Module, Part, Place, Toward};

/// The check `wall-gap`.
pub struct WallGap;

const NAME: &str = "wall-gap";
/// A wall, or the roof, further away than this is not the one that a board is to meet, mm.
const NEAR: (f64, f64) = (100.0, 300.0);
/// Places that a roof is looked at over a board.
const STEPS: u32 = 24;

static LIMITS: [Limit; 1] =
    [Limit::new("beyond-scribe", Most(0.0), Quantity::Length, SourceClass::Geometry, "geometry")];

impl Check for WallGap {
    fn name(&self) -> &str {
        NAME
    }

    fn says(&self) -> &str {
        "boards that are fitted to a wall or the roof reach it"
    }

    fn manual(&self) -> String {
        page_of(include_str!("wall_gap.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let modules = context.model.modules.iter();
        let parts = modules.flat_map(|module| module.parts.iter().map(move |part| (module, part)));
        with_tightest(parts.filter_map(|(module, part)| worst(context, module, part)))
    }
}

/// The widest gap beyond the scribe of any edge of any piece of a part.
fn worst(context: &Context<'_>, module: &Module, part: &Part) -> Option<Finding> {
    let gaps = part.places.iter().flat_map(|place| {
        let edges = scribed(part, place).into_iter().flatten();
        edges.filter_map(|(toward, scribe)| gap(&context.model.space, place, toward).map(|gap| (gap, scribe, toward)))
    });
    let near = gaps.filter(|(gap, _, toward)| *gap <= if toward.axis == Axis::Z { NEAR.1 } else { NEAR.0 });
    let (gap, scribe, toward) = near.max_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)))?;
    let panel = match (toward.axis, toward.up) {
        (Axis::X, true) => "the rear wall",
        (Axis::X, false) => "the front wall",
        (Axis::Y, true) => "the right wall",
        (Axis::Y, false) => "the left wall",
        (Axis::Z, _) => "the roof",
    };
    let (open, scribe) = ((gap - scribe).max(0.0), trimmed(scribe, 1));
    let stops =
        if gap > 0.0 { format!("stops {} mm short of {panel}", trimmed(gap, 2)) } else { format!("meets {panel}") };
    let message =
        format!("part {} of `{}` {stops}, with {scribe} mm left on for fitting", named(module, part), module.name);
    let required = context.limits.get("beyond-scribe");
    let mut finding = judged(NAME, Severity::Caution, &module.name, (open, required), message);
    finding.spans = [Some(module.place_span), part.piece, Some(part.span)].into_iter().flatten().collect();
    let number = module.parts.iter().position(|other| std::ptr::eq(other, part)).map_or(0, |at| at + 1);
    Some(finding.of_part(&part.name).asks(format!("part {number}")))
}

/// Directions of the scribed edges of a piece.
fn scribed(part: &Part, place: &Place) -> [Option<(Toward, f64)>; 4] {
    let Some(lies) = place.lies else { return [None; 4] };
    let back = |toward: Toward| Toward { up: !toward.up, ..toward };
    let edges = [
        (back(lies.width), part.scribe.front),
        (lies.width, part.scribe.back),
        (back(lies.length), part.scribe.left),
        (lies.length, part.scribe.right),
    ];
    edges.map(|edge| (edge.1 > 0.0).then_some(edge))
}

/// From a piece to the panel in a direction, at the widest place, mm; nothing below it counts.
fn gap(space: &BoxSpace, place: &Place, toward: Toward) -> Option<f64> {
    let at = place.bounds();
    match (toward.axis, toward.up) {
        (Axis::X, true) => Some(space.length - at.x.1),
        (Axis::X, false) => Some(at.x.0),
        (Axis::Y, true) => Some(space.width - at.y.1),
        (Axis::Y, false) => Some(at.y.0),
        (Axis::Z, false) => None,
        (Axis::Z, true) => {
            let (low, high) = at.y;
            let places = (0..=STEPS).map(|step| low + (high - low) * f64::from(step) / f64::from(STEPS));
            let open = |y: f64| space.roof.height_at(y) - top(&place.solid, y);
            places.map(open).reduce(f64::max)
        }
    }
}

/// The upper edge of a piece at a place across the box.
fn top(solid: &Prism, y: f64) -> f64 {
    let highest = solid.bounds().z.1;
    if solid.axis != Axis::X {
        return highest;
    }
    let crossed = solid.outline.edges().filter(|(a, b)| a.x.min(b.x) <= y && y <= a.x.max(b.x));
    let at = crossed.map(|(a, b)| {
        let run = b.x - a.x;
        if run == 0.0 { a.y.max(b.y) } else { a.y + (b.y - a.y) * (y - a.x) / run }
    });
    at.reduce(f64::max).unwrap_or(highest)
}
