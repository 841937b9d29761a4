//! Whether things meet a rule, and by how much.

use super::clauses::Clause;
use super::judge::{Judge, Trouble};
use super::term::{Of, Term};
use crate::base::number::micrometres;
use crate::diagnostic::{Bound, Mark, Measure, Quantity, Requirement, SourceClass};

/// What was measured of some things, and against what.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Measured {
    pub measured: Measure,
    pub required: Requirement,
    /// Where.
    pub marks: Vec<Mark>,
    /// The term that was measured, if it is a figure.
    pub term: Option<Term>,
}

impl Measured {
    /// Whether it is within its limit.
    pub fn holds(&self) -> bool {
        self.required.holds(self.measured.value)
    }

    /// Whether it says more than another: it misses its limit where that does not, or by more, or has less to spare.
    pub fn graver(&self, than: &Self) -> bool {
        match (self.holds(), than.holds()) {
            (false, false) => self.required.miss(self.measured.value) > than.required.miss(than.measured.value),
            (true, true) => self.required.spare(self.measured.value) < than.required.spare(than.measured.value),
            (holds, _) => !holds,
        }
    }
}

/// What tells of the things in the slots: the first clause that they miss, else the one that they meet most narrowly.
pub(super) fn verdict(judge: &mut Judge<'_>, clauses: &[Clause], because: &str) -> Result<Option<Measured>, Trouble> {
    let mut narrowest: Option<Measured> = None;
    for clause in clauses {
        let found = measured(judge, clause, because)?;
        if !found.holds() {
            return Ok(Some(found));
        }
        if narrowest.as_ref().is_none_or(|known| found.graver(known) && found.term.is_some() || known.term.is_none()) {
            narrowest = Some(found);
        }
    }
    Ok(narrowest)
}

fn measured(judge: &mut Judge<'_>, clause: &Clause, because: &str) -> Result<Measured, Trouble> {
    judge.marks.clear();
    match clause {
        Clause::Truth(term) => {
            let value = if judge.truth(term)? { 0.0 } else { 1.0 };
            let required = Requirement::new(Bound::Most(0.0), Quantity::Count, SourceClass::House, because);
            let marks = std::mem::take(&mut judge.marks);
            Ok(Measured { measured: Measure { value, quantity: Quantity::Count }, required, marks, term: None })
        }
        Clause::Figure { measured: term, quantity, least, most } => {
            let value = micrometres(judge.number(term)?);
            let marks = std::mem::take(&mut judge.marks);
            let mut bound = |term: &Term, of: fn(f64) -> Bound| match &term.of {
                Of::Limit(at) => Ok(judge.names.get(*at).map(|name| judge.limits.get(name))),
                _ => judge.number(term).map(|value| {
                    Some(Requirement::new(of(micrometres(value)), *quantity, SourceClass::House, because))
                }),
            };
            let least = least.as_ref().map_or(Ok(None), |term| bound(term, Bound::Least))?;
            let most = most.as_ref().map_or(Ok(None), |term| bound(term, Bound::Most))?;
            let required = match (least, most) {
                (Some(least), Some(most)) => least.up_to(&most),
                (Some(one), None) | (None, Some(one)) => one,
                (None, None) => Requirement::new(Bound::Least(value), *quantity, SourceClass::House, because),
            };
            let measured = Measure { value, quantity: *quantity };
            Ok(Measured { measured, required, marks, term: Some(term.clone()) })
        }
    }
}
