//! A rule as a check: takes the things that it is about, judges them, and tells.

use super::finding::{idle, met, missed, troubled};
use super::judge::{Judge, MOST_STEPS, Trouble};
use super::kinds::Kind;
use super::manual;
use super::rule::{Depends, HouseRule, typed};
use super::term::{Term, Thing};
use super::things::Here;
use super::typing::Typing;
use super::verdict::{Measured, verdict};
use crate::checks::{Check, Context};
use crate::diagnostic::{Finding, Limit, Sink, Worked};
use crate::language::{LayoutDoc, SymbolDoc};
use crate::model::Arrangement;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Most findings of a rule in one arrangement.
const MOST_FINDINGS: usize = 200;
/// Most things that worked sums are written out for.
const MOST_WORKED: usize = 40;

/// The rules of a layout as checks, in the order of the file. Mistakes go to the sink.
pub fn house_rules(doc: &LayoutDoc, symbols: &[Option<Arc<SymbolDoc>>], sink: &mut Sink) -> Vec<Arc<dyn Check>> {
    let mut checks: Vec<Arc<dyn Check>> = Vec::new();
    for (name, rule) in doc.rules.iter() {
        let limit_names: Vec<String> = rule.value.limits.iter().map(|(name, _)| name.value.clone()).collect();
        let typing = Typing { doc, symbols, slots: Vec::new(), limits: limit_names, sink };
        if let Some(rule) = typed(typing, name, rule) {
            checks.push(Arc::new(rule));
        }
    }
    checks
}

/// What was found in one arrangement.
#[derive(Default)]
struct Found {
    findings: Vec<Finding>,
    looked_at: usize,
    tightest: Option<(Vec<Thing>, Measured)>,
    trouble: Option<(Vec<Thing>, Trouble)>,
    troubles: usize,
}

impl HouseRule {
    fn judge<'a>(&'a self, context: &'a Context<'a>, arrangement: &'a Arrangement) -> Judge<'a> {
        let here = Here { model: context.model, arrangement };
        let left = MOST_STEPS / context.model.arrangements.len().max(1);
        let (figures, limits, names) = (context.figures, &context.limits, self.limit_names.as_slice());
        Judge { here, figures, limits, names, slots: Vec::new(), left, marks: Vec::new() }
    }

    /// The arrangements that have to be looked at.
    fn arrangements<'a>(&self, context: &Context<'a>) -> &'a [Arrangement] {
        let all = context.model.arrangements.as_slice();
        if self.depends == Depends::No { all.get(..1).unwrap_or(all) } else { all }
    }

    /// Calls with each thing, or pair of things, that the rule is about.
    fn each(
        &self,
        judge: &mut Judge<'_>,
        see: &mut dyn FnMut(&mut Judge<'_>, &[Thing]),
    ) -> Result<(), (Vec<Thing>, Trouble)> {
        let only = |slot: usize| {
            let of = |term: &&Term| term.speaks_of(slot) && !term.speaks_of(1 - slot);
            self.filters.iter().filter(of).collect::<Vec<_>>()
        };
        let rest: Vec<&Term> =
            self.filters.iter().filter(|term| term.speaks_of(0) == term.speaks_of(1) && self.kinds.len() > 1).collect();
        let (first, second) = (self.kinds.first().copied(), self.kinds.get(1).copied());
        let free: Vec<&Term> = if second.is_none() { self.filters.iter().collect() } else { only(0) };
        let one = first.map_or(Ok(Vec::new()), |kind| kept(judge, kind, 0, &free))?;
        let Some(second) = second else {
            for thing in one {
                judge.fill(0, thing);
                see(judge, &[thing]);
            }
            return Ok(());
        };
        let other = kept(judge, second, 1, &only(1))?;
        for a in one {
            for b in &other {
                if a == *b {
                    continue;
                }
                judge.fill(0, a);
                judge.fill(1, *b);
                let pair = [a, *b];
                if holds(judge, &rest).map_err(|trouble| (pair.to_vec(), trouble))? {
                    judge.spend(1, self.span).map_err(|trouble| (pair.to_vec(), trouble))?;
                    see(judge, &pair);
                }
            }
        }
        Ok(())
    }

    /// All that the rule is about, each pair once: the graver of its two orders.
    fn judged(&self, context: &Context<'_>, arrangement: &Arrangement) -> Found {
        let mut judge = self.judge(context, arrangement);
        let mut found = Found::default();
        let mut all: Vec<(Vec<Thing>, Measured)> = Vec::new();
        let mut known: BTreeMap<Vec<Thing>, usize> = BTreeMap::new();
        let ended = self.each(&mut judge, &mut |judge, things| {
            let measured = match verdict(judge, &self.clauses, &self.because) {
                Ok(Some(measured)) => measured,
                Ok(None) => return,
                Err(trouble) => return found.trouble(things, trouble),
            };
            let mut pair = things.to_vec();
            pair.sort();
            match known.get(&pair).and_then(|at| all.get_mut(*at)) {
                Some(slot) if measured.graver(&slot.1) => *slot = (things.to_vec(), measured),
                Some(_) => {}
                None => {
                    known.insert(pair, all.len());
                    all.push((things.to_vec(), measured));
                }
            }
        });
        if let Err((things, trouble)) = ended {
            found.trouble(&things, trouble);
        }
        found.looked_at = all.len();
        for (things, measured) in all {
            self.tell(&mut judge, &mut found, things, measured);
        }
        found
    }

    fn tell(&self, judge: &mut Judge<'_>, found: &mut Found, things: Vec<Thing>, measured: Measured) {
        if measured.holds() {
            if found.tightest.as_ref().is_none_or(|(_, known)| measured.graver(known)) {
                found.tightest = Some((things, measured));
            }
            return;
        }
        if found.findings.len() >= MOST_FINDINGS {
            let message = format!("more than {MOST_FINDINGS} things miss it");
            let help = "say with `where` which things the rule is about".to_owned();
            return found.trouble(&things, Trouble { span: self.span, message, help, missing: false });
        }
        for (slot, thing) in things.iter().enumerate() {
            judge.fill(slot, *thing);
        }
        match missed(self, judge, &things, &measured) {
            Ok(finding) => found.findings.push(finding),
            Err(trouble) => found.trouble(&things, trouble),
        }
    }
}

impl Found {
    fn trouble(&mut self, things: &[Thing], trouble: Trouble) {
        self.troubles += 1;
        self.trouble.get_or_insert_with(|| (things.to_vec(), trouble));
    }
}

/// The things of a kind that some conditions hold for.
fn kept(
    judge: &mut Judge<'_>,
    kind: Kind,
    slot: usize,
    filters: &[&Term],
) -> Result<Vec<Thing>, (Vec<Thing>, Trouble)> {
    let mut all = Vec::new();
    for thing in judge.here.all(kind) {
        judge.fill(0, thing);
        judge.fill(slot, thing);
        if holds(judge, filters).map_err(|trouble| (vec![thing], trouble))? {
            all.push(thing);
        }
    }
    Ok(all)
}

fn holds(judge: &mut Judge<'_>, filters: &[&Term]) -> Result<bool, Trouble> {
    for filter in filters {
        if !judge.truth(filter)? {
            return Ok(false);
        }
    }
    Ok(true)
}

impl Check for HouseRule {
    fn name(&self) -> &str {
        &self.name
    }

    fn says(&self) -> &str {
        &self.line
    }

    fn manual(&self) -> String {
        manual::page(self)
    }

    fn limits(&self) -> &[Limit] {
        &self.limits
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut all = Vec::new();
        let mut looked_at = 0;
        for arrangement in self.arrangements(context) {
            let here = Here { model: context.model, arrangement };
            let mut found = self.judged(context, arrangement);
            looked_at += found.looked_at + found.troubles;
            if let Some((things, trouble)) = &found.trouble {
                found.findings.push(troubled(self, here, things, trouble, found.troubles - 1));
            }
            if let (true, Some(tightest)) = (found.findings.is_empty(), &found.tightest) {
                found.findings.push(met(self, here, tightest, found.looked_at));
            }
            let within = if self.depends == Depends::No { Vec::new() } else { vec![arrangement.name.clone()] };
            all.extend(found.findings.into_iter().map(|one| Finding { arrangements: within.clone(), ..one }));
        }
        if looked_at == 0 {
            all.push(idle(self));
        }
        if self.depends == Depends::Exports { everywhere(all, context.model.arrangements.len()) } else { all }
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        self.arrangements(context).iter().filter_map(|arrangement| self.sums(context, arrangement)).collect()
    }
}

impl HouseRule {
    fn sums(&self, context: &Context<'_>, arrangement: &Arrangement) -> Option<Worked> {
        let within = if self.depends == Depends::Yes { format!(" in `{}`", arrangement.name) } else { String::new() };
        let mut sums = Vec::new();
        let mut judge = self.judge(context, arrangement);
        let _told_by_the_check = self.each(&mut judge, &mut |judge, things| {
            if let (true, Ok(Some(found))) = (sums.len() < MOST_WORKED, verdict(judge, &self.clauses, &self.because)) {
                let names: Vec<String> = things.iter().map(|thing| judge.here.name(*thing)).collect();
                sums.push((names.join(" and "), found));
            }
        });
        let whole = Worked::new(format!("{}{within}", self.name));
        let step = |whole: Worked, (names, found): (String, Measured)| {
            let needs = format!("{}; {}", found.required.words(), found.required.origin());
            match found.term {
                Some(_) => whole.given(&names, found.required.shown(found.measured), &needs),
                None => whole.given(&names, if found.holds() { "yes" } else { "no" }, &found.required.origin()),
            }
        };
        (!sums.is_empty()).then(|| sums.into_iter().fold(whole, step))
    }
}

/// Findings that are the same in every arrangement do not depend on them.
fn everywhere(found: Vec<Finding>, arrangements: usize) -> Vec<Finding> {
    let mut all: Vec<Finding> = Vec::new();
    for finding in found {
        match all.iter_mut().find(|known| known.says_as_much(&finding)) {
            Some(known) => known.arrangements.extend(finding.arrangements),
            None => all.push(finding),
        }
    }
    for finding in all.iter_mut().filter(|finding| finding.arrangements.len() == arrangements) {
        finding.arrangements.clear();
    }
    all
}
