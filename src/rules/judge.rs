//! Works out the terms of a rule for the things that stand in its slots.

use super::kinds::Kind;
use super::term::{Gathered, Of, Term, Thing};
use super::things::Here;
use crate::diagnostic::{Limits, Mark};
use crate::figures::Figures;
use crate::language::expression::{Binary, Function, Gather, of_numbers};
use crate::source::Span;

/// Steps that one rule may take in a layout.
pub(super) const MOST_STEPS: usize = 4_000_000;

/// Why a rule can't be judged.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Trouble {
    pub span: Span,
    pub message: String,
    pub help: String,
    /// It is no more than that a thing has no such value.
    pub missing: bool,
}

/// What a term comes to.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Number(f64),
    Truth(bool),
    Word(String),
    Thing(Thing),
}

/// A value, or why there is none.
pub(super) type Worth = Result<Value, Trouble>;

/// A rule at work in one arrangement.
pub(super) struct Judge<'a> {
    pub here: Here<'a>,
    pub figures: &'a Figures<'a>,
    pub limits: &'a Limits,
    /// Names of the limits, as terms count them.
    pub names: &'a [String],
    pub slots: Vec<Thing>,
    /// Steps that are left.
    pub left: usize,
    /// Where figures were measured since this was last emptied.
    pub marks: Vec<Mark>,
}

impl Judge<'_> {
    /// Takes steps from the bound.
    pub fn spend(&mut self, steps: usize, span: Span) -> Result<(), Trouble> {
        match self.left.checked_sub(steps) {
            Some(left) => {
                self.left = left;
                Ok(())
            }
            None => {
                self.left = 0;
                Err(Trouble {
                    span,
                    message: format!("it takes more than {MOST_STEPS} steps"),
                    help: "say with `where` which things it is about, so that there are fewer pairs".to_owned(),
                    missing: false,
                })
            }
        }
    }

    /// A figure that must be a number that can be written.
    pub fn number(&mut self, term: &Term) -> Result<f64, Trouble> {
        match self.value(term)? {
            Value::Number(value) if value.is_finite() => Ok(value),
            Value::Number(_) => Err(no_number(term.span, "this comes to no finite number")),
            _ => Err(no_number(term.span, "this comes to no number")),
        }
    }

    /// A yes or no.
    pub fn truth(&mut self, term: &Term) -> Result<bool, Trouble> {
        Ok(self.value(term)? == Value::Truth(true))
    }

    /// A thing.
    pub fn thing(&mut self, term: &Term) -> Result<Thing, Trouble> {
        match self.value(term)? {
            Value::Thing(thing) => Ok(thing),
            _ => Err(no_number(term.span, "this is no thing")),
        }
    }

    /// What a term comes to; its depth is bounded by the parser.
    pub fn value(&mut self, term: &Term) -> Worth {
        self.spend(1, term.span)?;
        let span = term.span;
        Ok(match &term.of {
            Of::Number(value) => Value::Number(*value),
            Of::Truth(truth) => Value::Truth(*truth),
            Of::Word(word) => Value::Word(word.clone()),
            Of::Slot(at) => Value::Thing(self.slots.get(*at).copied().unwrap_or(Thing::new(Kind::Box, 0, 0))),
            Of::Named(kind, name) => return self.named(*kind, name, span),
            Of::Limit(at) => Value::Number(self.names.get(*at).map_or(0.0, |name| self.limits.value(name))),
            Of::Parameter(name) => return self.parameter(name, span),
            Of::Arrangement => Value::Word(self.here.arrangement.name.clone()),
            Of::Field(of, field) => {
                let thing = self.thing(of)?;
                return self.field(thing, *field, span);
            }
            Of::Export(of, name) => {
                let thing = self.thing(of)?;
                return self.export(thing, name, span);
            }
            Of::Minus(of) => Value::Number(-self.number(of)?),
            Of::Not(of) => Value::Truth(!self.truth(of)?),
            Of::Sum(operator, two) => return self.sum(*operator, two),
            Of::Compare(operator, two) => return self.compare(*operator, two),
            Of::Same(two) => {
                let [a, b] = two.as_ref();
                Value::Truth(self.value(a)? == self.value(b)?)
            }
            Of::And(two) => {
                let [a, b] = two.as_ref();
                Value::Truth(self.truth(a)? && self.truth(b)?)
            }
            Of::Or(two) => {
                let [a, b] = two.as_ref();
                Value::Truth(self.truth(a)? || self.truth(b)?)
            }
            Of::If(three) => {
                let [condition, yes, no] = three.as_ref();
                return if self.truth(condition)? { self.value(yes) } else { self.value(no) };
            }
            Of::Maths(function, all) => return self.maths(*function, all, span),
            Of::Roof(y) => return self.number(y).map(|y| Value::Number(self.here.model.space.roof.height_at(y))),
            Of::Has(of) => return self.has(of),
            Of::Tagged(of, tag) => {
                let thing = self.thing(of)?;
                Value::Truth(self.tagged(thing, *tag))
            }
            Of::Joined(of, service) => {
                let owner = self.thing(of).map(|thing| self.here.owner(thing))?;
                Value::Truth(owner.is_some_and(|module| module.connects.iter().any(|one| one.service == *service)))
            }
            Of::Between(function, two) => {
                let [a, b] = two.as_ref();
                let (a, b) = (self.thing(a)?, self.thing(b)?);
                return self.between(*function, a, b, span);
            }
            Of::Over(gather, over) => return self.gather(*gather, over, span),
        })
    }

    fn named(&self, kind: Kind, name: &str, span: Span) -> Worth {
        let found = self.here.called(kind, name);
        found
            .map(Value::Thing)
            .ok_or_else(|| Trouble { missing: true, ..no_number(span, &format!("there is no `{name}`")) })
    }

    fn parameter(&self, name: &str, span: Span) -> Worth {
        let found = self.here.model.parameters.iter().find(|(known, _)| known == name);
        found.map(|(_, figure)| Value::Number(*figure)).ok_or_else(|| Trouble {
            help: "rules take parameters that are figures".to_owned(),
            ..no_number(span, &format!("the parameter `{name}` is no figure"))
        })
    }

    fn sum(&mut self, operator: Binary, two: &[Term; 2]) -> Worth {
        let [left, right] = two;
        let (a, b) = (self.number(left)?, self.number(right)?);
        Ok(Value::Number(match operator {
            Binary::Add => a + b,
            Binary::Subtract => a - b,
            Binary::Multiply => a * b,
            _ if b == 0.0 => return Err(no_number(right.span, "division by zero")),
            _ => a / b,
        }))
    }

    fn compare(&mut self, operator: Binary, two: &[Term; 2]) -> Worth {
        let [left, right] = two;
        let (a, b) = (self.number(left)?, self.number(right)?);
        Ok(Value::Truth(match operator {
            Binary::Less => a < b,
            Binary::LessOrEqual => a <= b,
            Binary::Greater => a > b,
            Binary::GreaterOrEqual => a >= b,
            Binary::NotEqual => a != b,
            _ => a == b,
        }))
    }

    fn maths(&mut self, function: Function, all: &[Term], span: Span) -> Worth {
        let mut numbers = Vec::with_capacity(all.len());
        for term in all {
            numbers.push(self.number(term)?);
        }
        let value = of_numbers(function, &numbers);
        value.map(Value::Number).ok_or_else(|| no_number(span, "the square root of less than nothing is no number"))
    }

    fn has(&mut self, of: &Term) -> Worth {
        match self.value(of) {
            Ok(_) => Ok(Value::Truth(true)),
            Err(trouble) if trouble.missing => Ok(Value::Truth(false)),
            Err(trouble) => Err(trouble),
        }
    }

    fn gather(&mut self, gather: Gather, over: &Gathered, span: Span) -> Worth {
        let (mut count, mut found): (f64, Option<f64>) = (0.0, None);
        for thing in self.here.all(over.kind) {
            self.fill(over.slot, thing);
            let wanted = over.filter.as_ref().map_or(Ok(true), |filter| self.truth(filter))?;
            self.spend(1, span)?;
            if !wanted {
                continue;
            }
            count += 1.0;
            let Some(figure) = &over.figure else { continue };
            let value = self.number(figure)?;
            found = Some(match (gather, found) {
                (_, None) => value,
                (Gather::Least, Some(known)) => known.min(value),
                (Gather::Most, Some(known)) => known.max(value),
                (_, Some(known)) => known + value,
            });
        }
        self.slots.truncate(over.slot);
        let of_none = || Trouble {
            span,
            message: format!("there is no such thing to take the {} of", gather.name()),
            help: "see with `count(...) > 0` that there is one".to_owned(),
            missing: true,
        };
        match (gather, found) {
            (Gather::Count, _) => Ok(Value::Number(count)),
            (Gather::Sum, found) => Ok(Value::Number(found.unwrap_or(0.0))),
            (_, found) => found.map(Value::Number).ok_or_else(of_none),
        }
    }

    /// Puts a thing into a slot.
    pub fn fill(&mut self, slot: usize, thing: Thing) {
        self.slots.truncate(slot);
        self.slots.push(thing);
    }
}

fn no_number(span: Span, message: &str) -> Trouble {
    let help = "say with `where` which things the rule is about".to_owned();
    Trouble { span, message: message.to_owned(), help, missing: false }
}
