//! Typed terms: what the expressions of a rule have become once every name is known.

use super::kinds::{Field, Kind};
use crate::diagnostic::Quantity;
use crate::language::expression::{Binary, Function, Gather};
use crate::model::{Service, Tag};
use crate::source::Span;

/// A thing of the layout: its kind and where it stands in the model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Thing {
    /// Never a tank, which is a load.
    pub kind: Kind,
    /// Index among those of its kind, or of its module.
    pub at: usize,
    /// Index in its module.
    pub inner: usize,
}

impl Thing {
    pub fn new(kind: Kind, at: usize, inner: usize) -> Self {
        Self { kind: kind.base(), at, inner }
    }
}

/// A term with its place.
#[derive(Debug, Clone)]
pub(super) struct Term {
    pub of: Of,
    pub span: Span,
    /// Of a figure: its unit, if it has one of its own.
    pub unit: Option<Quantity>,
}

/// Terms are the same where they ask the same, wherever they stand.
impl PartialEq for Term {
    fn eq(&self, other: &Self) -> bool {
        self.of == other.of
    }
}

/// Kinds of terms.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Of {
    Number(f64),
    Truth(bool),
    Word(String),
    /// One of the things that the rule, or a `count` in it, is about.
    Slot(usize),
    /// A thing that the layout names.
    Named(Kind, String),
    Limit(usize),
    Parameter(String),
    /// The arrangement's name.
    Arrangement,
    Field(Box<Term>, Field),
    /// A figure that the symbol of a module exports.
    Export(Box<Term>, String),
    Minus(Box<Term>),
    Not(Box<Term>),
    Sum(Binary, Box<[Term; 2]>),
    Compare(Binary, Box<[Term; 2]>),
    /// Words, truths or things that are the same.
    Same(Box<[Term; 2]>),
    And(Box<[Term; 2]>),
    Or(Box<[Term; 2]>),
    If(Box<[Term; 3]>),
    Maths(Function, Vec<Term>),
    Roof(Box<Term>),
    Has(Box<Term>),
    Tagged(Box<Term>, Tag),
    Joined(Box<Term>, Service),
    /// Distance, way, above, sees, inside.
    Between(Function, Box<[Term; 2]>),
    Over(Gather, Box<Gathered>),
}

/// Things to be gathered.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Gathered {
    pub kind: Kind,
    pub slot: usize,
    pub filter: Option<Term>,
    pub figure: Option<Term>,
}

impl Term {
    /// The terms that this one is made of.
    pub fn inner(&self) -> Vec<&Self> {
        match &self.of {
            Of::Number(_)
            | Of::Truth(_)
            | Of::Word(_)
            | Of::Slot(_)
            | Of::Named(..)
            | Of::Limit(_)
            | Of::Parameter(_)
            | Of::Arrangement => Vec::new(),
            Of::Field(of, _)
            | Of::Export(of, _)
            | Of::Minus(of)
            | Of::Not(of)
            | Of::Roof(of)
            | Of::Has(of)
            | Of::Tagged(of, _)
            | Of::Joined(of, _) => vec![of],
            Of::Sum(_, two)
            | Of::Compare(_, two)
            | Of::Same(two)
            | Of::And(two)
            | Of::Or(two)
            | Of::Between(_, two) => two.iter().collect(),
            Of::If(three) => three.iter().collect(),
            Of::Maths(_, all) => all.iter().collect(),
            Of::Over(_, over) => over.filter.iter().chain(&over.figure).collect(),
        }
    }

    /// Whether it, or a term in it, is such a one. Its depth is bounded by the parser.
    pub fn any(&self, is: &dyn Fn(&Of) -> bool) -> bool {
        is(&self.of) || self.inner().into_iter().any(|inner| inner.any(is))
    }

    /// Whether it speaks of one of the first things of the rule.
    pub fn speaks_of(&self, slot: usize) -> bool {
        self.any(&|of| matches!(of, Of::Slot(own) if *own == slot))
    }

    /// Its parts that all have to hold.
    pub fn conjuncts(self) -> Vec<Self> {
        match self.of {
            Of::And(two) => {
                let [left, right] = *two;
                let mut all = left.conjuncts();
                all.extend(right.conjuncts());
                all
            }
            _ => vec![self],
        }
    }
}
