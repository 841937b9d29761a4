//! The search for the smallest change: all candidates by growing steps, the first that clear by bisection to 1 mm.

use super::candidate::Candidate;
use super::goal::{Outcome, miss};
use super::rewrite::{Rewrite, rewrite};
use super::trial::Trial;
use crate::diagnostic::{Finding, Quantity};
use rayon::prelude::*;

/// Steps after the first: at least so many mm, and twice as far as the one before.
const STEPS: [f64; 4] = [20.0, 80.0, 320.0, 1280.0];
/// No step goes further, mm.
const LONGEST: f64 = 2000.0;
/// Changes of one round that are looked at closely.
const MOST_REFINED: usize = 12;
/// Changes that clear and disturb something else, and are taken further.
const MOST_DISTURBING: usize = 4;
/// Times that changes are tried with all checks, for one finding.
const MOST_PROVED: usize = 40;

/// A change that has passed every test.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    pub candidate: Candidate,
    pub step: f64,
    pub rewrite: Rewrite,
    /// It leaves a caution where a fault was.
    pub softened: bool,
}

/// A step at which a candidate reaches what is wanted, and one at which it does not.
#[derive(Debug, Clone, Copy)]
struct Reached {
    at: usize,
    low: f64,
    high: f64,
}

/// The state of one search.
pub(super) struct Search<'a> {
    pub trial: &'a Trial<'a>,
    pub candidates: &'a [Candidate],
    /// Trials that may still be made.
    pub left: usize,
    proofs: usize,
}

impl<'a> Search<'a> {
    pub fn new(trial: &'a Trial<'a>, candidates: &'a [Candidate], left: usize) -> Self {
        Self { trial, candidates, left, proofs: MOST_PROVED }
    }

    /// The cheapest change that clears the finding; failing that, one that makes a fault a caution.
    pub fn run(&mut self) -> Option<Found> {
        let mut live: Vec<usize> = (0..self.candidates.len()).collect();
        let (mut softened, mut disturbing) = (Vec::new(), Vec::new());
        let mut best: Option<Found> = None;
        let mut low = 0.0;
        for step in steps(self.trial.goal.finding) {
            live.truncate(self.left);
            let outcomes = self.outcomes(&live, step);
            let with = |wanted: Outcome| -> Vec<Reached> {
                let these = live.iter().zip(&outcomes).filter(|(_, outcome)| **outcome == wanted);
                these.map(|(at, _)| Reached { at: *at, low, high: step }).collect()
            };
            let (cleared, mut soft) = (with(Outcome::Cleared), with(Outcome::Softened));
            soft.retain(|new: &Reached| !softened.iter().any(|old: &Reached| old.at == new.at));
            softened.extend(soft);
            let further = self.go_further(&mut disturbing, low, step);
            let better = self.settle(&cleared, Outcome::Cleared, &mut disturbing);
            best = [best, further, better].into_iter().flatten().min_by(|a, b| price(a).total_cmp(&price(b)));
            let open = |outcome: &Outcome| matches!(outcome, Outcome::Open | Outcome::Softened);
            live = live.iter().zip(&outcomes).filter(|(_, outcome)| open(outcome)).map(|(at, _)| *at).collect();
            live.retain(|at| self.candidates.get(*at).is_some_and(Candidate::has_steps));
            low = step;
            if best.as_ref().is_some_and(|best| price(best) <= step) || live.is_empty() && disturbing.is_empty() {
                break;
            }
        }
        best.or_else(|| self.settle(&softened, Outcome::Softened, &mut Vec::new()))
    }

    fn outcomes(&mut self, live: &[usize], step: f64) -> Vec<Outcome> {
        self.left = self.left.saturating_sub(live.len());
        let try_one =
            |at: &usize| self.candidates.get(*at).map_or(Outcome::Refused, |candidate| self.trial.run(candidate, step));
        live.par_iter().map(try_one).collect()
    }

    /// The cheapest of some changes, each with its smallest step, that holds with all checks. Those that clear the
    /// finding and disturb something else are noted.
    fn settle(&mut self, reached: &[Reached], wanted: Outcome, disturbing: &mut Vec<usize>) -> Option<Found> {
        let few: Vec<Reached> = reached.iter().take(MOST_REFINED).copied().collect();
        let trial = self.trial;
        let refine = |one: &Reached| {
            let candidate = self.candidates.get(one.at).filter(|candidate| candidate.has_steps());
            candidate.map_or((one.high, 0), |candidate| {
                refine(one.low, one.high, |step| {
                    let outcome = trial.run(candidate, step);
                    outcome == Outcome::Cleared || outcome == wanted
                })
            })
        };
        let fine: Vec<(f64, usize)> = few.par_iter().map(refine).collect();
        self.left = self.left.saturating_sub(fine.iter().map(|(_, trials)| trials).sum());
        let sized =
            few.iter().zip(fine).filter_map(|(one, (step, _))| Some((one.at, self.candidates.get(one.at)?, step)));
        let mut order: Vec<(usize, &Candidate, f64)> = sized.collect();
        order.sort_by(|a, b| a.1.price(a.2).total_cmp(&b.1.price(b.2)));
        for (at, candidate, step) in order {
            if let Some(rewrite) = self.prove(candidate, step, wanted) {
                let softened = wanted == Outcome::Softened;
                return Some(Found { candidate: candidate.clone(), step, rewrite, softened });
            }
            if candidate.has_steps() && disturbing.len() < MOST_DISTURBING {
                disturbing.push(at);
            }
        }
        None
    }

    /// Takes changes that disturbed something else further, until nothing is disturbed.
    fn go_further(&mut self, disturbing: &mut Vec<usize>, low: f64, high: f64) -> Option<Found> {
        let mut best: Option<Found> = None;
        for at in std::mem::take(disturbing) {
            let Some(candidate) = self.candidates.get(at) else { continue };
            if self.prove(candidate, high, Outcome::Cleared).is_none() {
                disturbing.push(at);
                continue;
            }
            let (step, _) = refine(low, high, |step| self.prove(candidate, step, Outcome::Cleared).is_some());
            let rewrite = rewrite(candidate, step, self.trial.input.doc, self.trial.input.sources);
            let found = rewrite.map(|rewrite| Found { candidate: candidate.clone(), step, rewrite, softened: false });
            best = [best, found].into_iter().flatten().min_by(|a, b| price(a).total_cmp(&price(b)));
        }
        best
    }

    /// The edits of a change, if they hold with all checks.
    fn prove(&mut self, candidate: &Candidate, step: f64, wanted: Outcome) -> Option<Rewrite> {
        self.proofs = self.proofs.checked_sub(1)?;
        let rewrite = rewrite(candidate, step, self.trial.input.doc, self.trial.input.sources)?;
        self.trial.holds(&rewrite, wanted).then_some(rewrite)
    }
}

/// The smallest step that reaches what is wanted, by bisection, with the trials made.
fn refine(mut low: f64, mut high: f64, mut reaches: impl FnMut(f64) -> bool) -> (f64, usize) {
    let mut trials = 0;
    // The step that the figures ask for is often the very one: look right below it first.
    let mut next = high - 1.0;
    while high - low > 1.0 {
        trials += 1;
        if reaches(next) {
            high = next;
        } else {
            low = next;
        }
        next = f64::midpoint(low, high).floor();
    }
    (high, trials)
}

fn price(found: &Found) -> f64 {
    found.candidate.price(found.step)
}

/// The steps to try: first what is missing to the limit, then further.
fn steps(finding: &Finding) -> Vec<f64> {
    let length = finding.measured.is_some_and(|measured| measured.quantity == Quantity::Length);
    let first = if length { miss(finding).ceil().max(1.0) } else { STEPS[0] };
    let mut steps = vec![first.min(LONGEST)];
    for least in STEPS {
        let last = steps.last().copied().unwrap_or_default();
        steps.push((last * 2.0).max(least));
    }
    steps.retain(|step| *step <= LONGEST);
    steps
}
