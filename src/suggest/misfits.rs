//! Sizes and settings out of a symbol's range, as findings, so that what clears them is looked for as for any other.

use super::slot::MISFITS;
use crate::checks::{Check, Context};
use crate::diagnostic::{Bound, Finding, Measure, Quantity, Requirement, Severity};
use crate::model::{Misfit, MisfitKind, Model, Module};

/// Finds what is out of range.
pub(super) struct Misfits;

impl Check for Misfits {
    fn name(&self) -> &'static str {
        MISFITS
    }

    fn says(&self) -> &'static str {
        "sizes and settings in the ranges of symbols"
    }

    fn manual(&self) -> String {
        String::new()
    }

    fn limits(&self) -> &[crate::diagnostic::Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        findings(context.model).into_iter().map(|(_, finding)| finding).collect()
    }
}

/// What is out of range, each with its finding.
pub(super) fn findings(model: &Model) -> Vec<(&Misfit, Finding)> {
    let of = |module: &Module, one: &Misfit| {
        let (least, most) = one.range;
        let bound = if one.figure < least { Bound::Least(least) } else { Bound::Most(most) };
        let quantity = Quantity::Length;
        let message = format!("the {} of `{}` is out of range", one.what, module.name);
        Finding {
            measured: Some(Measure { value: one.figure, quantity }),
            required: Some(Requirement::geometry(bound, quantity)),
            spans: vec![module.place_span],
            ..Finding::new(MISFITS, Severity::Fault, &module.name, message).of_part(&one.what)
        }
    };
    let in_range = |one: &&Misfit| one.kind != MisfitKind::Place;
    let modules = model.modules.iter();
    modules.flat_map(|module| module.misfits.iter().filter(in_range).map(move |one| (one, of(module, one)))).collect()
}
