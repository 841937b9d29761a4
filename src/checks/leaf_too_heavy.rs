//! Whether leaves are light enough for cup hinges and doors for their hinges.
//!
//! # Computes
//! Mass of each leaf on cup hinges, from its size and its stock.
//!
//! # Why
//! Hinges of furniture are made for furniture: five of them hold about 22 kg at rest, and a vehicle shakes them.
//!
//! # Limit
//! `mass` 22 kg; more is a caution.
//!
//! # Source
//! General guidance of hinge makers: two hinges to 6 kg, three to 12, four to 17, five to 22.
//!
//! # Change it
//! Choose a lighter stock, or share the leaf. `limits: { leaf-too-heavy: { mass: 30, because: "hinges of a wardrobe door" } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity};
use crate::model::{Hung, Leaf, Module};

/// The check `leaf-too-heavy`.
pub struct LeafTooHeavy;

const NAME: &str = "leaf-too-heavy";

static LIMITS: [Limit; 1] = [Limit::practice("mass", Most(22.0), Quantity::Mass)];

impl Check for LeafTooHeavy {
    fn name(&self) -> &str {
        NAME
    }

    fn says(&self) -> &str {
        "leaves are light enough for the hinges of furniture"
    }

    fn manual(&self) -> String {
        page_of(include_str!("leaf_too_heavy.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let modules = context.model.modules.iter();
        let leaves = modules.flat_map(|module| module.together.leaves.iter().map(move |leaf| (module, leaf)));
        let cups = leaves.filter(|(_, leaf)| leaf.hung == Hung::Cups);
        with_tightest(cups.filter_map(|(module, leaf)| look(context, module, leaf)))
    }
}

fn look(context: &Context<'_>, module: &Module, leaf: &Leaf) -> Option<Finding> {
    let part = module.parts.get(leaf.piece.part)?;
    let mass = context.model.part_mass(part);
    let required = context.limits.get("mass");
    let which = format!("leaf `{}` of `{}` weighs {} kg", part.name, module.name, trimmed(mass, 3));
    let message = if required.holds(mass) {
        which
    } else {
        format!("{which}; {} kg is the most for hinges of furniture", trimmed(required.value(), 1))
    };
    let mut finding = judged(NAME, Severity::Caution, &module.name, (mass, required), message);
    finding.spans = [Some(module.place_span), part.piece, Some(part.span)].into_iter().flatten().collect();
    let turns = module.poses.first().and_then(|pose| pose.moves.get(leaf.turns))?;
    Some(finding.of_part(&turns.name))
}
