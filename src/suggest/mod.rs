//! Suggestions: for each finding the smallest change of one written value that clears it.
//!
//! Nothing is computed from the finding's figures but the first step to try. A candidate is written into the document,
//! the document is resolved, and the finding's own check is run on it; the step is then made as small as it can be. The
//! cheapest that clears is written into the text, and the edited text goes the whole way with all checks: a suggestion
//! is given only if the finding is gone there and nothing else is worse. Trials are counted, so the same layout always
//! gets the same suggestions, on any machine.

mod candidate;
mod gather;
mod goal;
mod rewrite;
mod search;
mod slot;
mod trial;
mod words;

use crate::checks::Check;
use crate::diagnostic::{Finding, Severity, Suggestion};
use crate::language::{LayoutDoc, SymbolDoc};
use crate::model::Model;
use crate::source::SourceMap;
use gather::Ring;
use goal::Goal;
use rayon::prelude::*;
use search::Search;
use std::sync::Arc;
use trial::Trial;

/// Findings of one layout that get a suggestion, the gravest first.
const MOST_FINDINGS: usize = 24;
/// Trials for one finding.
const MOST_TRIALS: usize = 400;
/// Trials for all findings together, times the layout's modules: what a trial costs goes with their number.
const MOST_WORK: usize = 24_000;

/// A layout with its findings, and how to judge another one like it.
pub struct Input<'a> {
    /// Path of the layout's file.
    pub path: &'a str,
    /// Name of the layout.
    pub name: &'a str,
    /// The document.
    pub doc: &'a LayoutDoc,
    /// The symbols of its modules, in file order.
    pub symbols: &'a [Option<Arc<SymbolDoc>>],
    /// All files that it was read from.
    pub sources: &'a SourceMap,
    /// The resolved layout.
    pub model: &'a Model,
    /// The checks that may be run.
    pub checks: &'a [&'static dyn Check],
    /// All findings of a model, with those that are accepted marked.
    pub judge: &'a (dyn Fn(&Model) -> Vec<Finding> + Sync),
}

/// Suggestions for the findings of a layout, in their order: for open faults and cautions that a small change clears.
#[must_use]
pub fn suggestions(input: &Input<'_>, findings: &[Finding]) -> Vec<Option<Suggestion>> {
    let wanted =
        |finding: &Finding| finding.severity < Severity::Note && finding.accepted.is_none() && finding.help.is_none();
    let mut turns: Vec<usize> = (0..findings.len()).filter(|at| findings.get(*at).is_some_and(wanted)).collect();
    turns.truncate(MOST_FINDINGS);
    let work = MOST_WORK / input.model.modules.len().max(1) / turns.len().max(1);
    let found: Vec<(usize, Option<Suggestion>)> = turns
        .into_par_iter()
        .map(|at| {
            (at, findings.get(at).and_then(|finding| suggestion(input, finding, findings, work.min(MOST_TRIALS))))
        })
        .collect();
    let mut all = vec![None; findings.len()];
    for (at, suggestion) in found {
        if let Some(slot) = all.get_mut(at) {
            *slot = suggestion;
        }
    }
    all
}

fn suggestion(input: &Input<'_>, finding: &Finding, all: &[Finding], trials: usize) -> Option<Suggestion> {
    let check = input.checks.iter().copied().find(|check| check.name() == finding.check)?;
    let trial = Trial { input, check, goal: Goal::new(finding, all), before: all };
    let mut left = trials;
    let found = [Ring::Named, Ring::Near, Ring::Box].into_iter().find_map(|ring| {
        let candidates = gather::candidates(input, finding, ring);
        let mut search = Search::new(&trial, &candidates, left);
        let found = search.run();
        left = search.left;
        found
    })?;
    Some(Suggestion { words: words::words(&found, input.sources), edits: found.rewrite.edits })
}
