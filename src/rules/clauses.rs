//! The condition of a rule as clauses: what is measured, and against what.

use super::term::{Of, Term};
use super::typing::Typing;
use crate::diagnostic::{Bound, Diagnostic, Limit, Quantity, SourceClass};
use crate::language::RuleDoc;
use crate::language::expression::{Binary, Expr};

/// One part of a condition; all have to hold.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Clause {
    /// A figure against its bound.
    Figure { measured: Term, quantity: Quantity, least: Option<Term>, most: Option<Term> },
    /// Anything else.
    Truth(Term),
}

/// The clauses of a condition.
pub(super) fn clauses(typing: &mut Typing<'_>, needs: &Expr) -> Option<Vec<Clause>> {
    let mut all: Vec<Clause> = Vec::new();
    for term in typing.truth(needs)?.conjuncts() {
        let clause = clause(typing, term)?;
        match all.iter_mut().find_map(|known| joined(known, &clause)) {
            Some((known, whole)) => *known = whole,
            None => all.push(clause),
        }
    }
    Some(all)
}

/// From a least and a most of one figure, a range.
fn joined<'c>(known: &'c mut Clause, more: &Clause) -> Option<(&'c mut Clause, Clause)> {
    let (Clause::Figure { measured, quantity, least: a, most: b }, Clause::Figure { measured: other, least, most, .. }) =
        (&*known, more)
    else {
        return None;
    };
    let free = !(a.is_some() && least.is_some() || b.is_some() && most.is_some());
    let whole = (measured == other && free).then(|| Clause::Figure {
        measured: measured.clone(),
        quantity: *quantity,
        least: a.clone().or_else(|| least.clone()),
        most: b.clone().or_else(|| most.clone()),
    })?;
    Some((known, whole))
}

fn clause(typing: &mut Typing<'_>, term: Term) -> Option<Clause> {
    let span = term.span;
    let (operator, two) = match term.of {
        Of::Compare(operator, two) if operator != Binary::NotEqual => (operator, two),
        of => return Some(Clause::Truth(Term { of, span, unit: None })),
    };
    let quantity = two.iter().find_map(|term| term.unit).unwrap_or(Quantity::Number);
    let [left, right] = *two;
    let varies = |term: &Term| term.any(&|of| matches!(of, Of::Slot(_) | Of::Over(..) | Of::Between(..)));
    let turned = !varies(&left) && varies(&right);
    let (measured, bound) = if turned { (right, left) } else { (left, right) };
    let operator = if turned { mirrored(operator) } else { operator };
    let (least, most) = match operator {
        Binary::GreaterOrEqual => (Some(bound), None),
        Binary::LessOrEqual => (None, Some(bound)),
        Binary::Equal => (Some(bound.clone()), Some(bound)),
        // Counts are whole numbers: more than 1 is 2 at least.
        Binary::Greater if quantity == Quantity::Count => (Some(beside(bound, Binary::Add)), None),
        Binary::Less if quantity == Quantity::Count => (None, Some(beside(bound, Binary::Subtract))),
        _ => {
            let error = Diagnostic::new(span, "a figure just at its limit is within it");
            return typing.error(error.help("write `>=` in the place of `>`, and `<=` in the place of `<`"));
        }
    };
    Some(Clause::Figure { measured, quantity, least, most })
}

fn mirrored(operator: Binary) -> Binary {
    match operator {
        Binary::Less => Binary::Greater,
        Binary::LessOrEqual => Binary::GreaterOrEqual,
        Binary::Greater => Binary::Less,
        Binary::GreaterOrEqual => Binary::LessOrEqual,
        other => other,
    }
}

fn beside(bound: Term, operator: Binary) -> Term {
    let (span, unit) = (bound.span, bound.unit);
    let one = Term { of: Of::Number(1.0), span, unit: None };
    Term { of: Of::Sum(operator, Box::new([bound, one])), span, unit }
}

/// The limits of a rule, each with the direction in which the condition uses it.
pub(super) fn limits(typing: &mut Typing<'_>, doc: &RuleDoc, clauses: &[Clause]) -> Option<Vec<Limit>> {
    let mut all = Vec::new();
    for (at, (name, value)) in doc.limits.iter().enumerate() {
        let is = |term: &Option<Term>| term.as_ref().is_some_and(|term| term.of == Of::Limit(at));
        let mut uses = clauses.iter().filter_map(|clause| match clause {
            Clause::Figure { quantity, least, most, .. } if is(least) != is(most) => {
                Some((*quantity, if is(least) { Bound::Least(*value) } else { Bound::Most(*value) }))
            }
            _ => None,
        });
        let Some((quantity, default)) = uses.next() else {
            let error = Diagnostic::new(name.span, format!("`needs` holds nothing against the limit `{}`", name.value));
            let help = format!("a limit stands alone on one side of a comparison: `m.height >= {}`", name.value);
            return typing.error(error.help(help));
        };
        if uses.any(|other| other != (quantity, default)) {
            let error = Diagnostic::new(name.span, format!("the limit `{}` is used in two ways", name.value));
            return typing.error(error.help("make it two limits"));
        }
        let source = doc.because.value.clone().into();
        all.push(Limit { name: name.value.clone().into(), default, quantity, class: SourceClass::House, source });
    }
    Some(all)
}
