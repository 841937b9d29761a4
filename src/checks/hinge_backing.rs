//! Whether every hinge of a leaf has a board to hang on, and every lock a board to shut against.
//!
//! # Computes
//! Leaves are the pieces that a move turns. A leaf on cup hinges hangs on a board square to it at its hinge edge, which the
//! leaf covers by 3 to 28 mm, or beside which it closes; the board runs at least 50 mm back from its front edge. Hinges stand
//! on the rows of 32 mm; each needs 50 mm of the board's height that no cut-out, no bore of another plate or runner and no end
//! of the board takes, and beside the board, behind the leaf, 20 x 60 mm free of other pieces and of what is bought, for
//! its arm. A lid's piano hinge lies on a board beside or below its edge over four fifths of its length. A door that people
//! walk through hangs on the board beside it. How many hinges a leaf has follows from its height and its mass. A lock of a door, a
//! flap or a drawer shuts against a board within 45 mm of its middle that neither moves nor lies loose.
//!
//! # Why
//! A door drawn where no upright stands looks right on every drawing and cannot be hung.
//!
//! # Limit
//! `without` 0: so many hinges of a leaf may have no board; more is a fault. A lock that shuts against nothing is a caution.
//!
//! # Source
//! Sizes of cups and places of plates: published charts of hinge makers. Numbers of hinges: the same, and general guidance.
//! All else: common practice, no source.
//!
//! # Change it
//! Put a board behind the hinge edge or the edge that opens, or move shelves, rails and lips that stand where the arm goes.
//! `limits: { hinge-backing: { without: 1, because: "the third hinge is glued on" } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity};
use crate::model::{Hung, Leaf, Lock, Module, Word};

/// The check `hinge-backing`.
pub struct HingeBacking;

const NAME: &str = "hinge-backing";

static LIMITS: [Limit; 1] = [Limit::practice("without", Most(0.0), Quantity::Count)];

impl Check for HingeBacking {
    fn name(&self) -> &str {
        NAME
    }

    fn says(&self) -> &str {
        "every hinge has a board to hang on, every lock one to shut against"
    }

    fn manual(&self) -> String {
        page_of(include_str!("hinge_backing.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let modules = context.model.modules.iter();
        let leaves = modules.flat_map(|module| module.together.leaves.iter().map(move |leaf| (module, leaf)));
        let found = with_tightest(leaves.filter_map(|(module, leaf)| look(context, module, leaf)));
        let modules = context.model.modules.iter();
        let locks = modules.flat_map(|module| module.together.locks.iter().map(move |lock| (module, lock)));
        let open = locks.filter(|(_, lock)| lock.by.shuts() && lock.keep.is_none());
        found.into_iter().chain(open.filter_map(|(module, lock)| unkept(context, module, lock))).collect()
    }
}

fn look(context: &Context<'_>, module: &Module, leaf: &Leaf) -> Option<Finding> {
    let part = module.parts.get(leaf.piece.part)?;
    let turns = module.poses.first().and_then(|pose| pose.moves.get(leaf.turns))?;
    let without = leaf.hinges.iter().filter(|hinge| hinge.bearer.is_none()).count();
    let all = leaf.hinges.len();
    let what = format!("part `{}` of `{}`, which `{}` turns", part.name, module.name, turns.name);
    let message = match (without, leaf.hung) {
        (0, _) => format!("all {all} hinges of {what}, have a board to hang on"),
        (_, Hung::Piano) => format!("no board lies along the hinge edge of {what}"),
        (_, _) if without == all => format!("no board can take the hinges of {what}"),
        _ => format!("no board can take {without} of the {all} hinges of {what}"),
    };
    let required = context.limits.get("without");
    let mut finding = judged(NAME, Severity::Fault, &module.name, (without as f64, required), message);
    finding.spans =
        [Some(module.place_span), part.piece, Some(turns.span), Some(part.span)].into_iter().flatten().collect();
    Some(finding.of_part(&turns.name))
}

/// A lock with no board to shut against.
fn unkept(context: &Context<'_>, module: &Module, lock: &Lock) -> Option<Finding> {
    let part = module.parts.get(lock.through.first()?.part)?;
    let turns = module.poses.first().and_then(|pose| pose.moves.get(lock.turns))?;
    let message = format!(
        "the {} of part `{}` of `{}`, which `{}` moves, has no board to shut against",
        lock.by.name(),
        part.name,
        module.name,
        turns.name
    );
    let required = context.limits.get("without");
    let mut finding = judged(NAME, Severity::Caution, &module.name, (1.0, required), message);
    finding.spans =
        [Some(module.place_span), part.piece, Some(turns.span), Some(part.span)].into_iter().flatten().collect();
    Some(finding.of_part(&turns.name).asks("lock"))
}
