//! Expressions of a rule to typed terms: every name is found, every unit fits, or there is an error with its place.

use super::kinds::{Kind, Type};
use super::term::{Gathered, Of, Term};
use super::words::Words;
use crate::base::text::{nearest, one_of};
use crate::diagnostic::{Diagnostic, Quantity, Sink};
use crate::language::expression::{Binary, Expr, ExprKind, Function, Gather, Over, Ranged, Unary};
use crate::language::{LayoutDoc, SymbolDoc};
use crate::model::{Service, Tag, Word};
use crate::source::Span;
use std::sync::Arc;

/// What the names of a rule may stand for.
pub(super) struct Typing<'a> {
    pub doc: &'a LayoutDoc,
    pub symbols: &'a [Option<Arc<SymbolDoc>>],
    /// The things that the rule is about, then those of a `count` around.
    pub slots: Vec<(String, Kind)>,
    pub limits: Vec<String>,
    pub sink: &'a mut Sink,
}

/// A term with its type; nothing where there is an error, which is reported.
type Typed = Option<(Term, Type)>;

impl Typing<'_> {
    /// Reports an error.
    pub fn error<T>(&mut self, error: Diagnostic) -> Option<T> {
        self.sink.push(error);
        None
    }

    /// A term that is a yes or no.
    pub fn truth(&mut self, expr: &Expr) -> Option<Term> {
        let (term, of) = self.term(expr)?;
        if of == Type::Truth {
            return Some(term);
        }
        let error = Diagnostic::new(expr.span, format!("a condition is wanted, and this is {}", of.words()));
        self.error(error.help("compare it with something: `m.height >= 900`"))
    }

    /// A term that is a figure, with its unit.
    pub fn figure(&mut self, expr: &Expr) -> Option<(Term, Option<Quantity>)> {
        match self.term(expr)? {
            (term, Type::Figure(quantity)) => Some((term, quantity)),
            (_, of) => {
                self.error(Diagnostic::new(expr.span, format!("a figure is wanted, and this is {}", of.words())))
            }
        }
    }

    /// A name for things of a kind.
    pub fn add_slot(&mut self, ranged: &Ranged) -> Option<Kind> {
        let Some(kind) = Kind::ALL.into_iter().find(|kind| kind.name() == ranged.kind.value) else {
            let names = || Kind::ALL.iter().map(|kind| kind.name());
            let error =
                Diagnostic::new(ranged.kind.span, format!("there are no things called `{}`", ranged.kind.value));
            let help = match nearest(&ranged.kind.value, names()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("rules are about {}", one_of(names())),
            };
            return self.error(error.help(help));
        };
        let name = &ranged.name;
        let word = ["box", "arrangement", "where"].contains(&name.value.as_str());
        if word || self.slots.iter().any(|(known, _)| *known == name.value) || self.limits.contains(&name.value) {
            let error = Diagnostic::new(name.span, format!("`{}` stands for something else already", name.value));
            return self.error(error.help("take another name"));
        }
        self.slots.push((name.value.clone(), kind));
        Some(kind)
    }

    /// The term of an expression; its depth is bounded by the parser.
    pub fn term(&mut self, expr: &Expr) -> Typed {
        let (of, kind) = match &expr.kind {
            ExprKind::Number(value) => (Of::Number(*value), Type::Figure(None)),
            ExprKind::Bool(value) => (Of::Truth(*value), Type::Truth),
            ExprKind::Name(name) => return self.name(name, expr.span),
            ExprKind::Unary(Unary::Minus, inner) => {
                let (term, quantity) = self.figure(inner)?;
                (Of::Minus(Box::new(term)), Type::Figure(quantity))
            }
            ExprKind::Unary(Unary::Not, inner) => (Of::Not(Box::new(self.truth(inner)?)), Type::Truth),
            ExprKind::Binary(operator, left, right) => self.binary(*operator, left, right)?,
            ExprKind::Call(function, arguments) => self.call(*function, arguments, expr.span)?,
            ExprKind::Over(gather, over) => self.over(*gather, over)?,
        };
        Some((Term { of, span: expr.span, unit: kind.unit() }, kind))
    }

    fn binary(&mut self, operator: Binary, left: &Expr, right: &Expr) -> Option<(Of, Type)> {
        match operator {
            Binary::And | Binary::Or => {
                let (a, b) = (self.truth(left), self.truth(right));
                let both = Box::new([a?, b?]);
                Some((if operator == Binary::And { Of::And(both) } else { Of::Or(both) }, Type::Truth))
            }
            Binary::Equal | Binary::NotEqual => self.same(operator, left, right),
            _ => {
                let (a, b) = (self.figure(left), self.figure(right));
                let ((a, one), (b, other)) = (a?, b?);
                let both = Box::new([a, b]);
                match operator {
                    Binary::Multiply => Some((Of::Sum(operator, both), Type::Figure(product(one, other)))),
                    Binary::Divide => Some((Of::Sum(operator, both), Type::Figure(share(one, other)))),
                    Binary::Add | Binary::Subtract => {
                        Some((Of::Sum(operator, both), Type::Figure(self.common(one, other, right.span)?)))
                    }
                    _ => {
                        self.common(one, other, right.span)?;
                        Some((Of::Compare(operator, both), Type::Truth))
                    }
                }
            }
        }
    }

    /// The unit that both have; a plain number has every unit.
    fn common(&mut self, a: Option<Quantity>, b: Option<Quantity>, span: Span) -> Option<Option<Quantity>> {
        match (a, b) {
            (Some(a), Some(b)) if a != b => {
                let [a, b] = [a, b].map(|quantity| Type::Figure(Some(quantity)).words());
                self.error(Diagnostic::new(span, format!("{a} can't be held against {b}")))
            }
            (a, b) => Some(a.or(b)),
        }
    }

    fn same(&mut self, operator: Binary, left: &Expr, right: &Expr) -> Option<(Of, Type)> {
        let ((a, of_a), (b, of_b)) = match (self.literal(left), self.literal(right)) {
            (Some(word), None) => {
                let other = self.term(right)?;
                (self.word(&word, left, other.1)?, other)
            }
            (_, Some(word)) => {
                let other = self.term(left)?;
                let word = self.word(&word, right, other.1)?;
                (other, word)
            }
            (None, None) => {
                let both = (self.term(left), self.term(right));
                (both.0?, both.1?)
            }
        };
        let both = Box::new([a, b]);
        match (of_a, of_b) {
            (Type::Figure(one), Type::Figure(other)) => {
                self.common(one, other, right.span)?;
                return Some((Of::Compare(operator, both), Type::Truth));
            }
            (Type::Truth, Type::Truth) | (Type::Word(_), Type::Word(_)) => {}
            (Type::Thing(one), Type::Thing(other)) if one.base() == other.base() => {}
            _ => {
                let message = format!("{} can't be compared with {}", of_a.words(), of_b.words());
                return self.error(Diagnostic::new(right.span, message));
            }
        }
        let same = Term { of: Of::Same(both), span: Span { end: right.span.end, ..left.span }, unit: None };
        Some((if operator == Binary::Equal { same.of } else { Of::Not(Box::new(same)) }, Type::Truth))
    }

    /// The text of an expression that may be a word: `left`, `galley/base-run`.
    fn literal(&self, expr: &Expr) -> Option<String> {
        let bare = |expr: &Expr| match &expr.kind {
            ExprKind::Name(name) if !name.contains('.') => Some(name.clone()),
            _ => None,
        };
        match &expr.kind {
            ExprKind::Name(_) => {
                let own = |name: &String| {
                    self.slots.iter().any(|(slot, _)| slot == name)
                        || self.limits.contains(name)
                        || name == "arrangement"
                };
                bare(expr).filter(|name| !own(name))
            }
            ExprKind::Binary(Binary::Divide, group, name) => Some(format!("{}/{}", bare(group)?, bare(name)?)),
            _ => None,
        }
    }

    /// A word beside something of a type; where that takes no word, what the name stands for.
    fn word(&mut self, word: &str, expr: &Expr, beside: Type) -> Typed {
        let span = expr.span;
        match beside {
            Type::Truth if matches!(word, "yes" | "no") => {
                Some((Term { of: Of::Truth(word == "yes"), span, unit: None }, Type::Truth))
            }
            Type::Word(words) => {
                let known = words.known();
                let symbol = words == Words::Symbol && !word.contains('/');
                if !symbol && (known.is_empty() || known.contains(&word)) {
                    return Some((Term { of: Of::Word(word.to_owned()), span, unit: None }, beside));
                }
                let error = Diagnostic::new(span, format!("`{word}` can't stand here"));
                let help = match nearest(word, known.iter().copied()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None if symbol => "a symbol is written with its group: `galley/base-run`".to_owned(),
                    None => format!("words here are {}", one_of(known)),
                };
                self.error(error.help(help))
            }
            _ => self.term(expr),
        }
    }

    fn call(&mut self, function: Function, arguments: &[Expr], span: Span) -> Option<(Of, Type)> {
        match (function, arguments) {
            (Function::If, [condition, yes, no]) => {
                let condition = self.truth(condition)?;
                let ((yes, one), (no, other)) = (self.term(yes)?, self.term(no)?);
                let of = match (one, other) {
                    (Type::Figure(a), Type::Figure(b)) => Type::Figure(self.common(a, b, span)?),
                    (one, other) if one == other => one,
                    _ => {
                        let message = format!("`if` gives {} or {}", one.words(), other.words());
                        return self.error(Diagnostic::new(span, message).help("both have to be of one kind"));
                    }
                };
                Some((Of::If(Box::new([condition, yes, no])), of))
            }
            (Function::Distance | Function::Way | Function::Above | Function::Sees | Function::Inside, [a, b]) => {
                let both = (self.placed(function, a), self.placed(function, b));
                let figure = matches!(function, Function::Distance | Function::Way);
                let of = if figure { Type::Figure(Some(Quantity::Length)) } else { Type::Truth };
                Some((Of::Between(function, Box::new([both.0?, both.1?])), of))
            }
            (Function::Has, [of]) => {
                let (term, _) = self.term(of)?;
                if !matches!(term.of, Of::Field(..) | Of::Export(..)) {
                    let error = Diagnostic::new(of.span, "`has` asks whether a thing has a value");
                    return self.error(error.help("write for example `has(m.worktop)`"));
                }
                Some((Of::Has(Box::new(term)), Type::Truth))
            }
            (Function::Tagged, [of, word]) => {
                let of = self.thing(of, &[Kind::Module, Kind::Solid], "`tagged` looks at modules and solids")?;
                self.listed::<Tag>(word, "tag").map(|tag| (Of::Tagged(Box::new(of), tag), Type::Truth))
            }
            (Function::Joined, [of, word]) => {
                let of = self.thing(of, &[Kind::Module], "`joined` looks at modules")?;
                self.listed::<Service>(word, "service").map(|word| (Of::Joined(Box::new(of), word), Type::Truth))
            }
            (Function::Ceiling, _) => self.error(
                Diagnostic::new(span, "`ceiling(u, v)` belongs to symbols").help("`roof(y)` is the lining at y"),
            ),
            _ => self.maths(function, arguments, span),
        }
    }

    fn maths(&mut self, function: Function, arguments: &[Expr], span: Span) -> Option<(Of, Type)> {
        let mut terms = Vec::new();
        let mut unit = None;
        for argument in arguments {
            let (term, quantity) = self.figure(argument)?;
            unit = match function {
                Function::Min | Function::Max | Function::Hypot => self.common(unit, quantity, span)?,
                _ => quantity,
            };
            terms.push(term);
        }
        let of = match function {
            Function::Sqrt => unit.filter(|unit| *unit == Quantity::Area).map(|_| Quantity::Length),
            Function::Sin | Function::Cos | Function::Tan => None,
            Function::Atan => Some(Quantity::Angle),
            Function::Roof => Some(Quantity::Length),
            _ => unit,
        };
        let of = Type::Figure(of);
        match (function, terms.pop()) {
            (Function::Roof, Some(y)) => Some((Of::Roof(Box::new(y)), of)),
            (_, last) => {
                terms.extend(last);
                Some((Of::Maths(function, terms), of))
            }
        }
    }

    /// A thing that a function of two things takes.
    fn placed(&mut self, function: Function, expr: &Expr) -> Option<Term> {
        let kinds: Vec<Kind> = match function {
            Function::Way => vec![Kind::Module, Kind::Opening, Kind::Zone, Kind::Berth, Kind::Seat],
            _ => Kind::ALL.into_iter().filter(|kind| kind.has_place()).collect(),
        };
        self.thing(expr, &kinds, "this takes things")
    }

    fn thing(&mut self, expr: &Expr, kinds: &[Kind], says: &str) -> Option<Term> {
        match self.term(expr)? {
            (term, Type::Thing(kind)) if kinds.contains(&kind) => Some(term),
            (_, of) => {
                let error = Diagnostic::new(expr.span, format!("{says}, and this is {}", of.words()));
                self.error(error.help(format!("it takes {}", one_of(kinds.iter().map(|kind| kind.name())))))
            }
        }
    }

    /// A word of a list.
    fn listed<W: Word>(&mut self, expr: &Expr, what: &str) -> Option<W> {
        let word = self.literal(expr).unwrap_or_default();
        if let Some(found) = W::of(&word) {
            return Some(found);
        }
        let error = Diagnostic::new(expr.span, format!("there is no {what} `{word}`"));
        let help = match nearest(&word, W::names()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("there are {}", one_of(W::names())),
        };
        self.error(error.help(help))
    }

    fn over(&mut self, gather: Gather, over: &Over) -> Option<(Of, Type)> {
        let ranged = over.things.of.first()?;
        let kind = self.add_slot(ranged)?;
        let slot = self.slots.len() - 1;
        let filter = over.things.filter.as_ref().map(|filter| self.truth(filter));
        let figure = over.figure.as_ref().map(|figure| self.figure(figure));
        self.slots.pop();
        let (filter, figure) =
            (filter.map_or(Some(None), |term| term.map(Some))?, figure.map_or(Some(None), |f| f.map(Some))?);
        let quantity = figure.as_ref().map_or(Some(Quantity::Count), |(_, quantity)| *quantity);
        let figure = figure.map(|(term, _)| term);
        Some((Of::Over(gather, Box::new(Gathered { kind, slot, filter, figure })), Type::Figure(quantity)))
    }

    /// A thing that the layout names.
    pub fn named(&self, name: &str) -> Option<(Of, Type)> {
        let doc = self.doc;
        let load = doc.loads.get(name).map(|load| load.value.tank.is_some());
        let of_load = load.map(|is_tank| if is_tank { Kind::Tank } else { Kind::Load });
        let kinds = [
            (name == "box", Kind::Box),
            (doc.modules.contains_key(name), Kind::Module),
            (doc.openings.contains_key(name), Kind::Opening),
            (doc.zones.contains_key(name), Kind::Zone),
            (doc.people.contains_key(name), Kind::Person),
        ];
        let kind = kinds.into_iter().find(|(is, _)| *is).map(|(_, kind)| kind).or(of_load);
        kind.map(|kind| (Of::Named(kind, name.to_owned()), Type::Thing(kind)))
            .or_else(|| doc.parameters.contains_key(name).then(|| (Of::Parameter(name.to_owned()), Type::Figure(None))))
    }
}

fn product(a: Option<Quantity>, b: Option<Quantity>) -> Option<Quantity> {
    match (a, b) {
        (Some(Quantity::Length), Some(Quantity::Length)) => Some(Quantity::Area),
        (unit, None | Some(Quantity::Count)) | (None | Some(Quantity::Count), unit) => unit,
        _ => None,
    }
}

fn share(a: Option<Quantity>, b: Option<Quantity>) -> Option<Quantity> {
    match (a, b) {
        (Some(Quantity::Area), Some(Quantity::Length)) => Some(Quantity::Length),
        (Some(Quantity::Count), Some(Quantity::Count)) => None,
        (unit, None | Some(Quantity::Count)) => unit,
        _ => None,
    }
}
