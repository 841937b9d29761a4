//! The search for the smallest change: all candidates by growing steps, those that clear by bisection to 1 mm.

use super::candidate::Candidate;
use super::goal::{Outcome, miss};
use super::rewrite::{Rewrite, rewrite};
use super::trial::{Fault, Scope, Trial};
use crate::base::lock::locked;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::{Finding, Quantity};
use rayon::prelude::*;
use std::collections::HashMap;
use std::sync::Mutex;

/// Steps after the first: at least so many mm, and twice as far as the one before.
const STEPS: [f64; 4] = [20.0, 80.0, 320.0, 1280.0];
/// No step goes further, mm.
pub(super) const LONGEST: f64 = 2000.0;
/// Times that a step is halved where the layout cannot take it.
const MOST_HALVES: usize = 7;
/// Changes of one round that are looked at closely.
const MOST_REFINED: usize = 12;
/// Checks besides the finding's own, and those that objected before, that a trial may run.
const MOST_OTHERS: usize = 4;
/// Times that changes are tried with all checks, for one finding.
const MOST_PROVED: usize = 16;

/// A change that has passed every test.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub candidate: Candidate,
    pub step: f64,
    pub rewrite: Rewrite,
    /// It leaves a caution where a fault was.
    pub softened: bool,
    /// What is found in the layout with this change.
    pub after: Vec<Finding>,
}

impl Found {
    /// What the change costs; see [`Candidate::price`].
    pub fn price(&self) -> f64 {
        self.candidate.price(self.step)
    }
}

/// What a candidate has come to at a step.
#[derive(Debug, Clone, Copy)]
struct Tried {
    at: usize,
    outcome: Outcome,
    /// The longest step known to be too short, and the one tried.
    low: f64,
    high: f64,
    /// The longest step that may be tried in this round.
    longest: f64,
    trials: usize,
}

/// One search.
pub(super) struct Search<'a> {
    trial: &'a Trial<'a>,
    candidates: &'a [Candidate],
    /// No step goes further, mm.
    longest: f64,
    /// Trials that may still be made.
    left: usize,
    proofs: usize,
    best: Option<Found>,
    scope: Scope<'a>,
    /// Checks that may come into the scope.
    most_others: usize,
    /// What has been tried in the scope of now: other steps may come to the same value, and rounds come back to it.
    known: Mutex<HashMap<(usize, u64), Outcome>>,
}

impl<'a> Search<'a> {
    /// A search with a number of trials; `best` is a change that is known to clear.
    pub fn new(
        trial: &'a Trial<'a>,
        candidates: &'a [Candidate],
        (left, longest): (usize, f64),
        best: Option<Found>,
    ) -> Self {
        let names = trial.learnt.objectors(trial.check.name());
        let others =
            trial.input.checks.iter().map(AsRef::as_ref).filter(|check| names.iter().any(|n| n == check.name()));
        let scope = Scope { others: others.collect(), whole: false };
        let (most_others, known) = (scope.others.len() + MOST_OTHERS, Mutex::default());
        Self { trial, candidates, longest, left, proofs: MOST_PROVED, best, scope, most_others, known }
    }

    /// The cheapest change that clears the finding; failing that, one that makes a fault a caution. And the trials left.
    pub fn run(mut self) -> (Option<Found>, usize) {
        let (mut live, mut swaps): (Vec<usize>, Vec<usize>) =
            (0..self.candidates.len()).partition(|at| self.has_steps(*at));
        // Where trials are few, the cheap ones are made.
        live.sort_by(|a, b| self.cost(*a).total_cmp(&self.cost(*b)));
        let mut softened: Vec<Tried> = Vec::new();
        self.shorten_known();
        let (mut steps, mut low) = (steps(self.trial.goal.finding), 0.0);
        steps.retain(|step| *step <= self.longest);
        for (round, step) in steps.iter().enumerate() {
            let step = self.best.as_ref().map_or(*step, |best| step.min(best.price().ceil() - 1.0));
            if step <= low {
                break;
            }
            // What costs more than this round's steps may wait for a later round.
            let last = self.best.is_none() && round + 1 == steps.len();
            let (now, later) = swaps.into_iter().partition(|at| last || self.cost(*at) <= step);
            swaps = later;
            live.extend::<Vec<usize>>(now);
            let tried = self.round(&live, low, step);
            let with = |wanted| tried.iter().filter(move |one: &&Tried| one.outcome == wanted).copied();
            let new = with(Outcome::Softened).filter(|new| !softened.iter().any(|old| old.at == new.at));
            softened.extend(new.collect::<Vec<Tried>>());
            live = self.settle(with(Outcome::Cleared).collect(), Outcome::Cleared);
            // What does not touch the finding with the second step is let go.
            let unmoved = with(Outcome::Unmoved).filter(|_| round == 0);
            let open = with(Outcome::Open).chain(with(Outcome::Softened)).chain(unmoved);
            live.extend(open.filter(|one| one.high >= step).map(|one| one.at));
            live.sort_unstable();
            live.retain(|at| self.has_steps(*at));
            low = step;
        }
        if self.best.is_none() {
            self.settle(softened, Outcome::Softened);
        }
        (self.best, self.left)
    }

    /// The change known to clear came from another finding: this one may need less of it.
    fn shorten_known(&mut self) {
        let Some(best) = &self.best else { return };
        let at = self.candidates.iter().position(|candidate| *candidate == best.candidate && candidate.has_steps());
        let high = best.step;
        let known = at.map(|at| Tried { at, outcome: Outcome::Cleared, low: 0.0, high, longest: high, trials: 0 });
        self.settle(known.into_iter().collect(), Outcome::Cleared);
    }

    fn cost(&self, at: usize) -> f64 {
        self.candidates.get(at).map_or(0.0, |candidate| candidate.cost)
    }

    fn has_steps(&self, at: usize) -> bool {
        self.candidates.get(at).is_some_and(Candidate::has_steps)
    }

    /// Tries each candidate with one step, as far as trials are left.
    fn round(&mut self, live: &[usize], low: f64, step: f64) -> Vec<Tried> {
        let live = live.get(..self.left.min(live.len())).unwrap_or_default();
        let tried: Vec<Tried> = live.par_iter().filter_map(|at| self.attempt(*at, low, step)).collect();
        self.spend(tried.iter().map(|one| one.trials).sum());
        tried
    }

    fn spend(&mut self, trials: usize) {
        self.left = self.left.saturating_sub(trials);
    }

    /// One candidate with one step, or with half of it, and so on, where the layout cannot take it.
    fn attempt(&self, at: usize, low: f64, step: f64) -> Option<Tried> {
        let candidate = self.candidates.get(at)?;
        let (mut high, mut trials) = (step, 1);
        let mut outcome = self.outcome(at, candidate, high);
        while outcome == Outcome::Refused && candidate.has_steps() && trials <= MOST_HALVES && high - low > 1.0 {
            high = f64::midpoint(low, high);
            outcome = self.outcome(at, candidate, high);
            trials += 1;
        }
        Some(Tried { at, outcome, low, high, longest: step, trials })
    }

    /// What a candidate comes to with a step, in the scope of now.
    fn outcome(&self, at: usize, candidate: &Candidate, step: f64) -> Outcome {
        let key = (at, candidate.price(step).to_bits());
        let known = || locked(&self.known);
        if let Some(outcome) = known().get(&key) {
            return *outcome;
        }
        let outcome = self.trial.run(candidate, step, &self.scope);
        known().insert(key, outcome);
        outcome
    }

    /// Takes the cheapest of some changes, with its smallest step, that holds with all checks.
    ///
    /// When another check finds something worse with it, all are tried again with that check too. Gives back the changes
    /// that do not hold with the steps tried.
    fn settle(&mut self, mut reached: Vec<Tried>, wanted: Outcome) -> Vec<usize> {
        reached.sort_by(|a, b| self.cost(a.at).total_cmp(&self.cost(b.at)));
        reached.truncate(MOST_REFINED);
        let (mut all, mut short, mut sized) = (reached.clone(), Vec::new(), false);
        while let Some(first) = reached.first().filter(|_| self.proofs > 0) {
            let (at, step) = (first.at, first.high);
            match self.prove(at, step, wanted) {
                Ok(found) if sized => {
                    self.best = Some(found);
                    break;
                }
                // The scope is wide enough: now for the smallest steps.
                Ok(_) => {
                    sized = true;
                    self.shorten(&mut reached, wanted);
                }
                Err(fault) if self.widen(&fault) => {
                    reached = all;
                    short.extend(self.again(&mut reached, wanted));
                    (all, sized) = (reached.clone(), false);
                }
                Err(_) => drop(reached.remove(0)),
            }
        }
        short
    }

    /// Widens the scope by what has kept a change from holding, if that is new.
    fn widen(&mut self, fault: &Fault<'a>) -> bool {
        self.known = Mutex::default();
        match fault {
            Fault::Text => false,
            Fault::Other(check) if !self.scope.others.iter().any(|other| other.name() == check.name()) => {
                let room = self.scope.others.len() < self.most_others;
                self.scope.others.extend(Some(*check).filter(|_| room));
                room
            }
            Fault::Other(_) | Fault::Own => !std::mem::replace(&mut self.scope.whole, true),
        }
    }

    /// Tries the longest steps again, in a wider scope; gives the changes that do not do it any more.
    fn again(&mut self, reached: &mut Vec<Tried>, wanted: Outcome) -> Vec<usize> {
        let tried: Vec<Tried> =
            reached.par_iter().filter_map(|one| self.attempt(one.at, one.low, one.longest)).collect();
        self.spend(tried.iter().map(|one| one.trials).sum());
        let holds = |one: &Tried| one.outcome == Outcome::Cleared || one.outcome == wanted;
        let (still, not): (Vec<Tried>, Vec<Tried>) = tried.into_iter().partition(holds);
        *reached = still;
        not.into_iter().map(|one| one.at).collect()
    }

    /// Finds the smallest step of the first change, and of those that are cheaper; the cheapest then stands first.
    fn shorten(&mut self, reached: &mut Vec<Tried>, wanted: Outcome) {
        let mut limit = self.best.as_ref().map_or(f64::MAX, Found::price);
        let mut cheaper: Vec<Tried> = Vec::new();
        for one in reached.iter() {
            let Some(candidate) = self.candidates.get(one.at) else { continue };
            let holds = |step| {
                let outcome = self.outcome(one.at, candidate, step);
                outcome == Outcome::Cleared || outcome == wanted
            };
            let most = one.high.min((limit - candidate.cost).ceil() - 1.0);
            let step = match candidate.has_steps() {
                true if most <= one.low => continue,
                true if most < one.high && !holds(most) => {
                    self.left = self.left.saturating_sub(1);
                    continue;
                }
                true => {
                    let (step, trials) = bisect(one.low, most, holds);
                    self.left = self.left.saturating_sub(trials);
                    step
                }
                false => one.high,
            };
            if candidate.price(step) < limit {
                limit = candidate.price(step);
                cheaper.insert(0, Tried { high: step, ..*one });
            }
        }
        *reached = cheaper;
    }

    /// A change with its edits, if it holds with all checks.
    fn prove(&mut self, at: usize, step: f64, wanted: Outcome) -> Result<Found, Fault<'a>> {
        self.proofs = self.proofs.saturating_sub(1);
        let candidate = self.candidates.get(at).ok_or(Fault::Text)?;
        let rewrite = rewrite(candidate, step, self.trial.input.doc, self.trial.input.sources).ok_or(Fault::Text)?;
        let after = self.trial.prove(&rewrite, wanted)?;
        let softened = wanted == Outcome::Softened;
        Ok(Found { candidate: candidate.clone(), step, rewrite, softened, after })
    }
}

/// The smallest step that reaches what is wanted, and the trials made.
fn bisect(mut low: f64, mut high: f64, mut reaches: impl FnMut(f64) -> bool) -> (f64, usize) {
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
        next = f64::midpoint(low, high);
    }
    (high, trials)
}

/// The steps to try: first what is missing to the limit, then further.
fn steps(finding: &Finding) -> Vec<f64> {
    let length = finding.measured.is_some_and(|measured| measured.quantity == Quantity::Length);
    let first = if length { miss(finding).max(SAME_LENGTH) } else { STEPS[0] };
    let mut steps = vec![first.min(LONGEST)];
    for least in STEPS {
        let last = steps.last().copied().unwrap_or_default();
        steps.push((last * 2.0).max(least));
    }
    steps.retain(|step| *step <= LONGEST);
    steps
}
