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
use crate::figures::{Figures, Narrows};
use crate::model::Model;
use gather::Ring;
use goal::{Goal, Outcome};
pub use input::Input;
use search::{Found, Search};
use trial::Trial;

/// Findings of one layout that get a suggestion, the gravest first.
const MOST_FINDINGS: usize = 32;
/// Trials for one finding.
const MOST_TRIALS: usize = 160;
/// Trials for all findings together, times the solids, spaces and moves of the layout: what a trial costs goes with their
/// number.
const MOST_WORK: usize = 40_000;
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
    let narrows = Figures::new(input.model, input.memo).narrows();
    let mut left = MOST_WORK / items(input.model).max(1);
    let mut searched: Vec<(&Finding, Option<Found>)> = Vec::new();
    let mut suggest = |finding| {
        if !wanted(finding) || waiting == 0 {
            return None;
        }
        waiting -= 1;
        let found = match searched.iter().find(|(other, _)| same_cause(other, finding)) {
            Some((_, found)) => {
                let trial = trial(input, &narrows, finding, findings)?;
                let as_far = |found: &Found| if found.softened { Outcome::Softened } else { Outcome::Cleared };
                found.clone().filter(|found| trial.reached(&found.after, as_far(found)))
            }
            None => {
                // What those that wait may make at least is kept back.
                let kept = waiting * LEAST_TRIALS.min(left / (waiting + 1));
                let mut trials = MOST_TRIALS.min(left - kept);
                left -= trials;
                let known = searched.iter().filter_map(|(_, found)| found.as_ref());
                let found = find(&trial(input, &narrows, finding, findings)?, known, &mut trials);
                left += trials;
                searched.push((finding, found.clone()));
                found
            }
        }?;
        Some(Suggestion { words: words::words(&found, input.sources), edits: found.rewrite.edits })
    };
    findings.iter().map(&mut suggest).collect()
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
    narrows: &'a Narrows,
    finding: &'a Finding,
    all: &'a [Finding],
) -> Option<Trial<'a>> {
    let check = input.checks.iter().map(AsRef::as_ref).find(|check| check.name() == finding.key.check)?;
    Some(Trial { input, check, goal: Goal::new(finding, all), before: all, narrows })
}

/// The smallest change for one finding, within some trials; `known` are changes that serve other findings and may serve
/// this one too.
fn find<'k>(trial: &Trial<'_>, known: impl Iterator<Item = &'k Found>, left: &mut usize) -> Option<Found> {
    let work = trial.check.work(trial.input.model).max(1);
    let serves = |found: &&Found| trial.reached(&found.after, Outcome::Cleared);
    let shared = known.filter(serves).min_by(|a, b| a.price().total_cmp(&b.price()));
    let mut best = shared.map(|found| Found { softened: false, ..found.clone() });
    for ring in [Ring::Named, Ring::Near, Ring::Box] {
        let mut candidates = gather::candidates(trial.input, trial.goal.finding, ring);
        let known = best.iter().map(|found| found.candidate.clone());
        candidates.extend(known.filter(|known| !candidates.contains(known)).collect::<Vec<_>>());
        let trials = *left / work;
        let (found, unused) = Search::new(trial, &candidates, trials, best).run();
        *left = left.saturating_sub((trials - unused) * work);
        if found.is_some() {
            return found;
        }
        best = None;
    }
    None
}
