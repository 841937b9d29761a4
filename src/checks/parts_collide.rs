//! Whether two things of one module take the same room.
//!
//! # Computes
//! In every pose: boards by their true outlines, less cut-outs and grooves, with each other and with what is bought and
//! built in (sink, hob, fridge, tank, cushions), by their volumes. What is set into a cut-out of a level board may lie on
//! 20 mm around it, and below that board it is as large as the cut-out. In another pose than the first, boards of a solid that has moved are that solid.
//!
//! # Why
//! What shares room on the drawing cannot be put together; a drawer under a hob, or a tap where a rail runs, is found when the
//! board is cut.
//!
//! # Limit
//! `deep` 0.1 mm: the smallest side of the room that two share; more is a fault.
//!
//! # Source
//! Geometry.
//!
//! # Change it
//! Move one of the two in the symbol, or cut it out. `limits: { parts-collide: { deep: 2, because: "soft foam" } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, size, with_tightest};
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, SourceClass};
use crate::figures::clashes::{Clash, clashes};
use crate::geometry::Axis;
use crate::model::Module;

/// The check `parts-collide`.
pub struct PartsCollide;

const NAME: &str = "parts-collide";

static LIMITS: [Limit; 1] = [Limit::new("deep", Most(0.1), Quantity::Length, SourceClass::Geometry, "geometry")];

impl Check for PartsCollide {
    fn name(&self) -> &str {
        NAME
    }

    fn says(&self) -> &str {
        "no two boards or bought things of a module take the same room"
    }

    fn manual(&self) -> String {
        page_of(include_str!("parts_collide.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let modules = context.model.modules.iter().filter(|module| !module.parts.is_empty());
        with_tightest(modules.flat_map(|module| {
            let found = clashes(module);
            let none = || vec![clear(context, module)];
            if found.is_empty() { none() } else { found.iter().map(|one| look(context, module, one)).collect() }
        }))
    }
}

fn clear(context: &Context<'_>, module: &Module) -> Finding {
    let message = format!("no two things of `{}` take the same room", module.name);
    let mut finding = judged(NAME, Severity::Fault, &module.name, (0.0, context.limits.get("deep")), message);
    finding.spans = vec![module.place_span];
    finding
}

fn look(context: &Context<'_>, module: &Module, clash: &Clash) -> Finding {
    let Clash { names: [a, b], parts, shared, pose } = clash;
    let deep = [Axis::X, Axis::Y, Axis::Z].map(|axis| shared.range(axis).1 - shared.range(axis).0);
    let deep = deep.into_iter().fold(f64::INFINITY, f64::min);
    let when = if module.poses.len() > 1 { format!(" in pose `{pose}`") } else { String::new() };
    let message = format!("`{a}` and `{b}` of `{}` take the same {}{when}", module.name, size(shared));
    let mut finding = judged(NAME, Severity::Fault, &module.name, (deep, context.limits.get("deep")), message);
    let numbers = format!("parts {parts:?}");
    let parts = parts.iter().filter_map(|part| module.parts.get(*part));
    finding.spans = vec![module.place_span];
    finding.spans.extend(parts.flat_map(|part| [part.piece, Some(part.span)]).flatten());
    finding.of_part(a).with_other(b).asks(numbers)
}
