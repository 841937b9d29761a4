//! A single change that might clear a finding.

use super::slot::Slot;
use crate::base::number::micrometres;
use crate::language::expression::{Binary, Expr, ExprKind};
use crate::source::Span;

/// What a change does to a value.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Change {
    /// Makes it greater (1) or smaller (-1) by a step that is looked for.
    By(f64),
    /// Puts another value there.
    To(ExprKind),
}

/// A change of one value.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Candidate {
    pub slot: Slot,
    /// Name of the module, opening, zone or parameter; `box`.
    pub name: String,
    pub change: Change,
    /// What is written now.
    pub old: Option<Expr>,
    /// The figure that holds where nothing is written.
    pub current: f64,
    /// What it costs besides its length, in millimetres that one would move something instead.
    pub cost: f64,
    /// Whether the thing as a whole moves, or one of its edges.
    pub moves_all: bool,
    /// It is for a size or setting that is out of its symbol's range.
    pub misfit: bool,
}

impl Candidate {
    /// The new value; lengths move by `step` and on to the next whole millimetre, an expression by whole millimetres.
    pub fn value(&self, step: f64) -> Expr {
        let span = self.old.as_ref().map_or_else(Span::default, |old| old.span);
        let kind = match (&self.change, &self.old) {
            (Change::To(kind), _) => kind.clone(),
            (Change::By(sign), None) => ExprKind::Number(whole(self.current + sign * step, *sign)),
            (Change::By(sign), Some(Expr { kind: ExprKind::Number(old), .. })) => {
                ExprKind::Number(whole(old + sign * step, *sign))
            }
            (Change::By(sign), Some(old)) => {
                let by = Expr { kind: ExprKind::Number(sign * step.ceil()), span };
                ExprKind::Binary(Binary::Add, Box::new(old.clone()), Box::new(by))
            }
        };
        Expr { kind, span }
    }

    /// How far the new value lies from the old one.
    pub fn distance(&self, step: f64) -> f64 {
        let old = match &self.old {
            Some(Expr { kind: ExprKind::Number(old), .. }) => *old,
            Some(_) => return step.ceil(),
            None => self.current,
        };
        match self.value(step).kind {
            ExprKind::Number(new) => micrometres((new - old).abs()),
            _ => step.ceil(),
        }
    }

    /// Whether a step has to be found.
    pub fn has_steps(&self) -> bool {
        matches!(self.change, Change::By(_))
    }

    /// The order of suggestions: the least comes first.
    pub fn price(&self, step: f64) -> f64 {
        self.cost + if self.has_steps() { self.distance(step) } else { 0.0 }
    }
}

/// The next whole number in the direction of a change.
fn whole(value: f64, sign: f64) -> f64 {
    let value = micrometres(value);
    if sign > 0.0 { value.ceil() } else { value.floor() }
}
