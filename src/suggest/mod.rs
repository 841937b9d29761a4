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
mod learnt;
mod misfits;
mod rewrite;
mod rule;
mod search;
mod slot;
mod trial;
mod words;

use crate::diagnostic::{Finding, Quantity, Severity, Suggestion};
use crate::figures::{Figures, Narrows};
use crate::model::{Misfit, Model};
use crate::source::Span;
use gather::Ring;
use goal::{Goal, Outcome};
pub use input::Input;
use learnt::Learnt;
use search::{Found, LONGEST, Search};
use trial::Trial;

/// Findings of one layout that get a suggestion, the gravest first.
const MOST_FINDINGS: usize = 32;
/// Trials for one finding.
const MOST_TRIALS: usize = 160;
/// Trials for all findings together, times the solids, spaces and moves of the layout: what a trial costs goes with their
/// number.
const MOST_WORK: usize = 40_000;
/// The same, so that every finding may make its least number of trials, in layouts of at most so many items.
const MOST_FLOOR: usize = 8 * MOST_WORK;
const SMALL: usize = 1000;
/// Trials that every finding may make, as long as there are any.
const LEAST_TRIALS: usize = 16;

/// Suggestions for the findings of a layout, in their order: for open faults and cautions that a small change clears.
#[must_use]
pub fn suggestions(input: &Input<'_>, findings: &[Finding]) -> Vec<Option<Suggestion>> {
    let wanted =
        |finding: &Finding| finding.severity < Severity::Note && finding.accepted.is_none() && finding.help.is_none();
    let mut waiting = findings.iter().filter(|finding| wanted(finding)).count().min(MOST_FINDINGS);
    if waiting == 0 {
        return findings.iter().map(|_| None).collect();
    }
    let (narrows, learnt) = (Figures::new(input.model, input.memo).narrows(), Learnt::default());
    let trial = |finding| trial(input, (&narrows, &learnt), finding, findings);
    let items = items(input.model).max(1);
    // Each finding may make its trials, as far as that is not much more than the budget.
    let floor = if items <= SMALL { (waiting * LEAST_TRIALS).min(MOST_FLOOR / items) } else { 0 };
    let mut left = (MOST_WORK / items).max(floor);
    let mut searched: Vec<(&Finding, Option<Found>)> = Vec::new();
    let mut suggest = |finding| {
        if !wanted(finding) || waiting == 0 {
            return None;
        }
        waiting -= 1;
        let found = match searched.iter().find(|(other, _)| same_cause(other, finding)) {
            Some((_, found)) => {
                let trial = trial(finding)?;
                let as_far = |found: &Found| if found.softened { Outcome::Softened } else { Outcome::Cleared };
                found.clone().filter(|found| trial.reached(&found.after, as_far(found)))
            }
            None => {
                // What those that wait may make at least is kept back.
                let kept = waiting * LEAST_TRIALS.min(left / (waiting + 1));
                let mut trials = MOST_TRIALS.min(left - kept);
                left -= trials;
                let known = searched.iter().filter_map(|(_, found)| found.as_ref());
                let found = find(&trial(finding)?, known, &mut trials);
                left += trials;
                searched.push((finding, found.clone()));
                found
            }
        }?;
        Some(Suggestion { words: words::words(&found, input.sources), edits: found.rewrite.edits })
    };
    findings.iter().map(&mut suggest).collect()
}

/// Suggestions for the sizes and settings that are out of range, each with where the error is.
#[must_use]
pub fn for_errors(input: &Input<'_>, findings: &[Finding]) -> Vec<(Span, Suggestion)> {
    let misfits: Vec<(&Misfit, Finding)> = misfits::findings(input.model).into_iter().take(MOST_FINDINGS).collect();
    if misfits.is_empty() {
        return Vec::new();
    }
    let (narrows, learnt) = (Figures::new(input.model, input.memo).narrows(), Learnt::default());
    let own: Vec<Finding> = misfits.iter().map(|(_, finding)| finding.clone()).collect();
    let before: Vec<Finding> = findings.iter().chain(&own).cloned().collect();
    let most = (MOST_WORK / items(input.model).max(1)).clamp(LEAST_TRIALS, MOST_TRIALS);
    let suggestion = |(misfit, finding): (&Misfit, Finding)| {
        let goal = Goal::new(&finding, &own);
        let trial =
            Trial { input, check: &misfits::Misfits, goal, before: &before, narrows: &narrows, learnt: &learnt };
        let found = find(&trial, std::iter::empty(), &mut most.clone())?;
        Some((misfit.span, Suggestion { words: words::words(&found, input.sources), edits: found.rewrite.edits }))
    };
    misfits.into_iter().filter_map(suggestion).collect()
}

/// What a trial has to make and to look at, counted.
fn items(model: &Model) -> usize {
    let poses = model.modules.iter().flat_map(|module| &module.poses);
    poses.map(|pose| pose.solids.len() + pose.spaces.len() + pose.moves.len()).sum()
}

/// Whether one change clears both: the same figure misses the same limit, on the same subject or at the same place.
fn same_cause(a: &Finding, b: &Finding) -> bool {
    let place = a.key.subject == b.key.subject || (!a.marks.is_empty() && a.marks == b.marks);
    let limit = |finding: &Finding| finding.required.as_ref().map(|required| (required.bound, required.quantity));
    let same =
        a.key.check == b.key.check && a.severity == b.severity && a.measured == b.measured && limit(a) == limit(b);
    a.measured.is_some() && same && place
}

fn trial<'a>(
    input: &'a Input<'a>,
    (narrows, learnt): (&'a Narrows, &'a Learnt),
    finding: &'a Finding,
    all: &'a [Finding],
) -> Option<Trial<'a>> {
    let check = input.checks.iter().map(AsRef::as_ref).find(|check| check.name() == finding.key.check)?;
    Some(Trial { input, check, goal: Goal::new(finding, all), before: all, narrows, learnt })
}

/// The value that several things share is changed first, by no more than four times what is missing: other limits may ask for more at the
/// same place, and a gap between corners grows by less than what one of them is moved.
fn shared_longest(finding: &Finding) -> f64 {
    match &finding.measured {
        Some(measured) if measured.quantity == Quantity::Length => 4.0 * goal::miss(finding).ceil() + 1.0,
        _ => LONGEST,
    }
}

/// The smallest change for one finding, within some trials; `known` are changes that serve other findings and may serve
/// this one too.
fn find<'k>(trial: &Trial<'_>, known: impl Iterator<Item = &'k Found>, left: &mut usize) -> Option<Found> {
    let work = trial.check.work(trial.input.model).max(1);
    let serves = |found: &&Found| trial.reached(&found.after, Outcome::Cleared);
    let shared = known.filter(serves).min_by(|a, b| a.price().total_cmp(&b.price()));
    let mut best = shared.map(|found| Found { softened: false, ..found.clone() });
    for ring in [Ring::Shared, Ring::Named, Ring::Near, Ring::Box] {
        let mut candidates = gather::candidates(trial.input, trial.goal.finding, ring);
        let known = best.iter().map(|found| found.candidate.clone());
        candidates.extend(known.filter(|known| !candidates.contains(known)).collect::<Vec<_>>());
        let trials = *left / work;
        let longest = if ring == Ring::Shared { shared_longest(trial.goal.finding) } else { LONGEST };
        let (found, unused) = Search::new(trial, &candidates, (trials, longest), best).run();
        *left = left.saturating_sub((trials - unused) * work);
        let as_far = |found: &Found| ring != Ring::Shared || !found.softened;
        if found.as_ref().is_some_and(as_far) {
            return found;
        }
        best = None;
    }
    None
}
