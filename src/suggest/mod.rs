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
mod input;
mod rewrite;
mod search;
mod slot;
mod trial;
mod words;

use crate::diagnostic::{Finding, Severity, Suggestion};
use gather::Ring;
use goal::{Goal, Outcome};
pub use input::Input;
use search::{Found, Search};
use trial::Trial;

/// Findings of one layout that get a suggestion, the gravest first.
const MOST_FINDINGS: usize = 32;
/// Trials for one finding.
const MOST_TRIALS: usize = 160;
/// Trials for all findings together, times the layout's modules: what a trial costs goes with their number.
const MOST_WORK: usize = 4000;

/// Suggestions for the findings of a layout, in their order: for open faults and cautions that a small change clears.
#[must_use]
pub fn suggestions(input: &Input<'_>, findings: &[Finding]) -> Vec<Option<Suggestion>> {
    let mut left = MOST_WORK / input.model.modules.len().max(1);
    let mut known: Vec<Found> = Vec::new();
    let mut turns = 0;
    let mut suggest = |finding: &Finding| {
        let wanted = finding.severity < Severity::Note && finding.accepted.is_none() && finding.help.is_none();
        if !wanted || turns == MOST_FINDINGS {
            return None;
        }
        turns += 1;
        let found = find(input, finding, findings, &known, &mut left)?;
        let suggestion = Suggestion { words: words::words(&found, input.sources), edits: found.rewrite.edits.clone() };
        known.push(found);
        Some(suggestion)
    };
    findings.iter().map(&mut suggest).collect()
}

/// The smallest change for one finding; `known` are changes that serve other findings and may serve this one too.
fn find(input: &Input<'_>, finding: &Finding, all: &[Finding], known: &[Found], left: &mut usize) -> Option<Found> {
    let check = input.checks.iter().copied().find(|check| check.name() == finding.check)?;
    let trial = Trial { input, check, goal: Goal::new(finding, all), before: all };
    let work = check.work(input.model).max(1);
    let serves = |found: &&Found| trial.reached(&found.after, Outcome::Cleared);
    let shared = known.iter().filter(serves).min_by(|a, b| a.price().total_cmp(&b.price()));
    let mut best = shared.map(|found| Found { softened: false, ..found.clone() });
    for ring in [Ring::Named, Ring::Near, Ring::Box] {
        let candidates = gather::candidates(input, finding, ring);
        let trials = MOST_TRIALS.min(*left) / work;
        let search = Search::new(&trial, &candidates, trials, best);
        let (found, unused) = search.run();
        *left = left.saturating_sub((trials - unused) * work);
        if found.is_some() {
            return found;
        }
        best = None;
    }
    None
}
