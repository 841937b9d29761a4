//! Whether every piece of furniture hangs together with what stands.
//!
//! # Computes
//! Pieces that meet are joined: screwed, dowelled, glued, let into a groove, hung on hinges that a board bears, carried by
//! the hardware that their symbol names (`held`). A contact of less than 12 x 5 mm holds nothing. Pieces on the floor, within
//! 40 mm of a wall or the roof (a packer fills that), within 25 mm of a piece of a neighbour, and what is bought and stands
//! so, are firm, and so is all that is joined to something firm. All others are counted, part by part. A part of which its
//! symbol says `joint: none` is firm where it lies. Joints are looked for in modules of at most 1,000 pieces; of a larger one all
//! count.
//!
//! # Why
//! A board that touches nothing falls down, or was forgotten in a drawing and is found missing in the workshop.
//!
//! # Limit
//! `pieces` 0: so many pieces of a part may be loose; more is a fault.
//!
//! # Source
//! Geometry; least contact, packers and gaps between modules: common practice, no source.
//!
//! # Change it
//! Move the piece in its symbol until it meets what shall hold it, or name the hardware that does: `held: shelf-pin` with
//! `clear`. `limits: { part-loose: { pieces: 1, because: "shims" } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, named, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity};
use crate::figures::joints::{Loose, loose};
use crate::joints::MOST_PIECES;
use crate::model::{Module, Part};

/// The check `part-loose`.
pub struct PartLoose;

const NAME: &str = "part-loose";
/// Nearer than this it touches, mm.
const TOUCHES: f64 = 0.05;

static LIMITS: [Limit; 1] = [Limit::practice("pieces", Most(0.0), Quantity::Count)];

impl Check for PartLoose {
    fn name(&self) -> &str {
        NAME
    }

    fn says(&self) -> &str {
        "every piece of furniture is joined to something that stands"
    }

    fn manual(&self) -> String {
        page_of(include_str!("part_loose.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let modules = context.model.modules.iter().zip(&context.figures.joints().anchored);
        with_tightest(modules.filter(|(module, _)| !module.parts.is_empty()).flat_map(|(module, anchored)| {
            if module.together.too_many {
                return vec![too_many(context, module)];
            }
            let mut findings: Vec<Finding> = Vec::new();
            let all = loose(module, anchored);
            for (index, part) in module.parts.iter().enumerate() {
                let own: Vec<&Loose> = all.iter().filter(|one| one.piece.part == index).collect();
                findings.extend(own.first().map(|first| look(context, module, part, (own.len(), first.gap))));
            }
            if findings.is_empty() { vec![firm(context, module)] } else { findings }
        }))
    }
}

fn too_many(context: &Context<'_>, module: &Module) -> Finding {
    let count = module.parts.iter().map(|part| part.places.len()).sum::<usize>();
    let message =
        format!("`{}` has {count} pieces; what holds them is looked for among {MOST_PIECES} at most", module.name);
    let required = context.limits.get("pieces");
    let mut finding = judged(NAME, Severity::Fault, &module.name, (count as f64, required), message);
    finding.spans = vec![module.place_span];
    finding
}

fn firm(context: &Context<'_>, module: &Module) -> Finding {
    let message = format!("every piece of `{}` is joined to something that stands", module.name);
    let mut finding = judged(NAME, Severity::Fault, &module.name, (0.0, context.limits.get("pieces")), message);
    finding.spans = vec![module.place_span];
    finding
}

fn look(context: &Context<'_>, module: &Module, part: &Part, (count, gap): (usize, f64)) -> Finding {
    let which = format!("part {} of `{}` is joined to nothing that stands", named(module, part), module.name);
    let message = match gap {
        none if none.is_infinite() => format!("{which}; no other piece of it is"),
        touches if touches <= TOUCHES => format!("{which}: it touches a piece that is, and nothing holds it there"),
        gap => format!("{which}; the nearest piece that is lies {} mm away", trimmed(gap, 2)),
    };
    let mut finding =
        judged(NAME, Severity::Fault, &module.name, (count as f64, context.limits.get("pieces")), message);
    finding.spans = [Some(module.place_span), part.piece, Some(part.span)].into_iter().flatten().collect();
    let number = module.parts.iter().position(|other| std::ptr::eq(other, part)).map_or(0, |at| at + 1);
    finding.of_part(&part.name).asks(format!("part {number}"))
}
