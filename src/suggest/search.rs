//! The search for the smallest change: all candidates by growing steps, those that clear by bisection to 1 mm.

use super::candidate::Candidate;
use super::goal::{Outcome, miss};
use super::rewrite::{Rewrite, rewrite};
use super::trial::Trial;
use crate::checks::Check;
use crate::diagnostic::{Finding, Quantity};
use rayon::prelude::*;

/// Steps after the first: at least so many mm, and twice as far as the one before.
const STEPS: [f64; 4] = [20.0, 80.0, 320.0, 1280.0];
/// No step goes further, mm.
const LONGEST: f64 = 2000.0;
/// Times that a step is halved where the layout cannot take it.
const MOST_HALVES: usize = 7;
/// Changes of one round that are looked at closely.
const MOST_REFINED: usize = 12;
/// Checks besides the finding's own that a trial may run.
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
    /// The smallest step, when it has been looked for.
    finest: Option<f64>,
    trials: usize,
}

/// One search.
pub(super) struct Search<'a> {
    trial: &'a Trial<'a>,
    candidates: &'a [Candidate],
    /// Trials that may still be made.
    left: usize,
    proofs: usize,
    best: Option<Found>,
    /// Checks that have found something worse with a change that clears the finding.
    others: Vec<&'static dyn Check>,
}

impl<'a> Search<'a> {
    /// A search with a number of trials; `best` is a change that is known to clear.
    pub fn new(trial: &'a Trial<'a>, candidates: &'a [Candidate], left: usize, best: Option<Found>) -> Self {
        Self { trial, candidates, left, proofs: MOST_PROVED, best, others: Vec::new() }
    }

    /// The cheapest change that clears the finding; failing that, one that makes a fault a caution. And the trials left.
    pub fn run(mut self) -> (Option<Found>, usize) {
        let (mut live, mut swaps): (Vec<usize>, Vec<usize>) =
            (0..self.candidates.len()).partition(|at| self.has_steps(*at));
        let mut softened: Vec<Tried> = Vec::new();
        let (steps, mut low) = (steps(self.trial.goal.finding), 0.0);
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
        let mut outcome = self.trial.run(candidate, high, &self.others);
        while outcome == Outcome::Refused && candidate.has_steps() && trials <= MOST_HALVES && high - low > 1.0 {
            high = f64::midpoint(low, high).floor();
            outcome = self.trial.run(candidate, high, &self.others);
            trials += 1;
        }
        Some(Tried { at, outcome, low, high, finest: None, trials })
    }

    /// Takes the cheapest of some changes, each with its smallest step, that holds with all checks.
    ///
    /// When a check finds something worse with it, all are tried again with that check too. Gives back the changes that
    /// do not hold with the steps tried.
    fn settle(&mut self, mut reached: Vec<Tried>, wanted: Outcome) -> Vec<usize> {
        reached.truncate(MOST_REFINED);
        let mut short = Vec::new();
        while !reached.is_empty() && self.proofs > 0 {
            let Some((at, step)) = self.cheapest(&mut reached, wanted) else { break };
            match self.prove(at, step, wanted) {
                Ok(found) => {
                    self.best = Some(found);
                    break;
                }
                Err(Some(check)) if self.others.len() < MOST_OTHERS => {
                    self.others.push(check);
                    let again = reached.par_iter().filter_map(|one| self.attempt(one.at, one.low, one.high));
                    let again: Vec<Tried> = again.collect();
                    self.spend(again.len());
                    let holds = |one: &Tried| one.outcome == Outcome::Cleared || one.outcome == wanted;
                    let (still, not): (Vec<Tried>, Vec<Tried>) = again.into_iter().partition(holds);
                    short.extend(not.into_iter().map(|one| one.at));
                    reached = still;
                }
                Err(_) => reached.retain(|one| one.at != at),
            }
        }
        short
    }

    /// The cheapest of some changes with its smallest step, if it is cheaper than the best so far.
    fn cheapest(&mut self, reached: &mut [Tried], wanted: Outcome) -> Option<(usize, f64)> {
        let trials: usize = reached.par_iter_mut().map(|one| self.refine(one, wanted)).sum();
        self.spend(trials);
        let limit = self.best.as_ref().map_or(f64::MAX, Found::price);
        let priced = reached.iter().filter_map(|one| {
            let step = one.finest?;
            Some((self.candidates.get(one.at)?.price(step), one.at, step))
        });
        let cheapest = priced.filter(|one| one.0 < limit).min_by(|a, b| a.0.total_cmp(&b.0));
        cheapest.map(|(_, at, step)| (at, step))
    }

    /// Finds the smallest step with which a change does what is wanted; gives the trials made.
    fn refine(&self, tried: &mut Tried, wanted: Outcome) -> usize {
        let Some(candidate) = self.candidates.get(tried.at).filter(|_| tried.finest.is_none()) else { return 0 };
        if !candidate.has_steps() {
            tried.finest = Some(tried.high);
            return 0;
        }
        let (step, trials) = bisect(tried.low, tried.high, |step| {
            let outcome = self.trial.run(candidate, step, &self.others);
            outcome == Outcome::Cleared || outcome == wanted
        });
        tried.finest = Some(step);
        trials
    }

    /// A change with its edits, if it holds with all checks; else the check that finds something worse.
    fn prove(&mut self, at: usize, step: f64, wanted: Outcome) -> Result<Found, Option<&'static dyn Check>> {
        self.proofs = self.proofs.saturating_sub(1);
        let candidate = self.candidates.get(at).ok_or(None)?;
        let rewrite = rewrite(candidate, step, self.trial.input.doc, self.trial.input.sources).ok_or(None)?;
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
        next = f64::midpoint(low, high).floor();
    }
    (high, trials)
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
