//! The names of a layout and their values, computed on demand and kept.

use crate::base::memo::Memo;
use crate::base::number::{micrometres, trimmed};
use crate::base::text::{nearest, one_of};
use crate::diagnostic::{Diagnostic, Sink};
use crate::geometry::Roof;
use crate::language::expression::{Expr, ExprKind, Failed, Function, Scope, Value, evaluate, number};
use crate::language::{LayoutDoc, SymbolDoc};
use crate::model::{Misfit, Stock};
use crate::source::Span;
use kurbo::Point;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Holds what is known so far while a layout is resolved.
pub(super) struct Resolver<'a> {
    pub doc: &'a LayoutDoc,
    pub symbols: Vec<Option<Arc<SymbolDoc>>>,
    pub sink: &'a mut Sink,
    pub memo: &'a Memo,
    pub stocks: Vec<Stock>,
    pub roof: Option<Roof>,
    /// Thickness of the walls; known once the box is.
    pub wall_thickness: Option<f64>,
    /// How far walls stand inward, by height: left, right, front, rear; known once the box is.
    pub walls: Option<[Vec<Point>; 4]>,
    /// Items made by symbols so far, against the bound.
    pub made: usize,
    /// What is wrong with the module that is being made.
    pub misfits: Vec<Misfit>,
    /// Errors of symbols that are drawn as plain blocks, since they can't be made as they are asked for.
    pub put_by: Vec<Diagnostic>,
    /// Something asked for what has failed before.
    pub failed_again: bool,
    cache: BTreeMap<String, Result<Value, Failed>>,
    chain: Vec<String>,
    depth: usize,
}

/// What kind of thing a first name is.
#[derive(Debug, Clone, Copy)]
pub(super) enum Owner {
    Box,
    Module(usize),
    Opening(usize),
    Zone(usize),
    Person(usize),
    Load(usize),
    Parameter(usize),
}

impl<'a> Resolver<'a> {
    pub fn new(doc: &'a LayoutDoc, symbols: Vec<Option<Arc<SymbolDoc>>>, memo: &'a Memo, sink: &'a mut Sink) -> Self {
        Self {
            doc,
            symbols,
            sink,
            memo,
            stocks: Vec::new(),
            roof: None,
            wall_thickness: None,
            walls: None,
            made: 0,
            misfits: Vec::new(),
            put_by: Vec::new(),
            failed_again: false,
            cache: BTreeMap::new(),
            chain: Vec::new(),
            depth: 0,
        }
    }

    /// Reports an error.
    pub fn error(&mut self, error: Diagnostic) -> Failed {
        self.sink.push(error);
        Failed
    }

    /// A length or other figure of an expression of the layout, checked against the bounds of lengths.
    pub fn figure(&mut self, expr: &Expr) -> Result<f64, Failed> {
        let value = number(expr, self)?;
        self.in_bounds(value, expr.span)
    }

    /// The figure of an optional expression.
    pub fn figure_or(&mut self, expr: Option<&Expr>, default: f64) -> Result<f64, Failed> {
        expr.map_or(Ok(default), |expr| self.figure(expr))
    }

    /// A figure that must lie above zero.
    pub fn positive(&mut self, expr: &Expr, what: &str) -> Result<f64, Failed> {
        let value = self.figure(expr)?;
        self.above_zero(value, what, expr.span)
    }

    pub fn above_zero(&mut self, value: f64, what: &str, span: Span) -> Result<f64, Failed> {
        if value > 0.0 {
            return Ok(value);
        }
        let message = format!("{what} is {value}; it must be more than 0");
        Err(self.error(Diagnostic::new(span, message)))
    }

    /// A figure within the bounds, rounded to thousandths: a length to whole micrometres.
    pub fn in_bounds(&mut self, value: f64, span: Span) -> Result<f64, Failed> {
        if value.abs() <= crate::base::tolerance::GREATEST_LENGTH {
            return Ok(micrometres(value));
        }
        let shown = if value.abs() < 1e9 { trimmed(value, 3) } else { format!("{value:e}") };
        let message = format!("{shown} is out of range");
        let help = "figures here go from -100000 to 100000";
        Err(self.error(Diagnostic::new(span, message).help(help)))
    }

    /// Computes a value once under a key; a key that asks for itself is a circle.
    pub fn once(
        &mut self,
        key: String,
        span: Span,
        compute: impl FnOnce(&mut Self) -> Result<Value, Failed>,
    ) -> Result<Value, Failed> {
        if let Some(known) = self.cache.get(&key) {
            self.failed_again |= known.is_err();
            return known.clone();
        }
        if let Some(start) = self.chain.iter().position(|link| *link == key) {
            let mut circle: Vec<&str> = self.chain.iter().skip(start).map(String::as_str).collect();
            circle.push(&key);
            let message = format!("these values refer to each other in a circle: {}", circle.join(" → "));
            let error =
                Diagnostic::new(span, message).help("give one of them a value that does not depend on the others");
            return Err(self.error(error));
        }
        self.chain.push(key.clone());
        let value = compute(self);
        self.chain.pop();
        self.cache.insert(key, value.clone());
        value
    }

    /// Finds what a first name stands for.
    pub fn owner(&self, name: &str) -> Option<Owner> {
        let doc = self.doc;
        if name == "box" {
            return Some(Owner::Box);
        }
        doc.modules
            .get_index_of(name)
            .map(Owner::Module)
            .or_else(|| doc.openings.get_index_of(name).map(Owner::Opening))
            .or_else(|| doc.zones.get_index_of(name).map(Owner::Zone))
            .or_else(|| doc.parameters.get_index_of(name).map(Owner::Parameter))
            .or_else(|| doc.people.get_index_of(name).map(Owner::Person))
            .or_else(|| doc.loads.get_index_of(name).map(Owner::Load))
    }

    /// One first name may stand for one thing only.
    pub fn refuse_double_names(&mut self) {
        let doc = self.doc;
        let all = (doc.modules.iter().map(|(name, entry)| (name, entry.span, "a module")))
            .chain(doc.openings.iter().map(|(name, entry)| (name, entry.span, "an opening")))
            .chain(doc.zones.iter().map(|(name, entry)| (name, entry.span, "a zone")))
            .chain(doc.parameters.iter().map(|(name, entry)| (name, entry.span, "a parameter")))
            .chain(doc.people.iter().map(|(name, entry)| (name, entry.span, "a person")))
            .chain(doc.loads.iter().map(|(name, entry)| (name, entry.span, "a load")));
        let mut seen: BTreeMap<&str, (Span, &str)> = BTreeMap::from([("box", (doc.space.span, "the box"))]);
        let mut errors = Vec::new();
        for (name, span, what) in all {
            if let Some((first, other)) = seen.insert(name, (span, what)) {
                let message = format!("`{name}` is the name of {other} and of {what}");
                errors.push(
                    Diagnostic::new(span, message)
                        .note(first, format!("`{name}` as {other}"))
                        .help("rename one of them"),
                );
            }
        }
        for error in errors {
            self.error(error);
        }
    }

    fn unknown(&mut self, name: &str, span: Span) -> Failed {
        let doc = self.doc;
        let first = name.split('.').next().unwrap_or(name);
        if doc.broken.iter().any(|broken| broken == first) {
            return Failed;
        }
        let known = std::iter::once("box")
            .chain(doc.parameters.keys().map(String::as_str))
            .chain(doc.modules.keys().map(String::as_str))
            .chain(doc.openings.keys().map(String::as_str))
            .chain(doc.zones.keys().map(String::as_str))
            .chain(doc.people.keys().map(String::as_str))
            .chain(doc.loads.keys().map(String::as_str));
        let mut error = Diagnostic::new(span, format!("unknown name `{first}`"));
        if let Some(help) = minus_hint(first) {
            error = error.help(help);
        } else if let Some(near) = nearest(first, known) {
            error = error.help(format!("did you mean `{near}`?"));
        } else {
            error = error
                .help("a name is `box`, a parameter, a module, an opening, a zone, a load or a person of this layout");
        }
        self.error(error)
    }
}

/// `run-60` reads as one name; say so.
pub(super) fn minus_hint(name: &str) -> Option<String> {
    let at = name.rfind('-')?;
    let (left, right) = (name.get(..at)?, name.get(at + 1..)?);
    let figure = right.chars().next().is_some_and(|c| c.is_ascii_digit());
    figure.then(|| format!("for a subtraction, write `{left} - {right}` with spaces"))
}

/// An error for an unknown member of something, with what there is.
pub(super) fn unknown_member(of: &str, member: &str, known: &[&str], span: Span) -> Diagnostic {
    let error = Diagnostic::new(span, format!("`{of}` has no `{member}`"));
    if minus_hint(member).is_some() {
        return error.help(minus_hint(&format!("{of}.{member}")).unwrap_or_default());
    }
    match nearest(member, known.iter().copied()) {
        Some(near) => error.help(format!("did you mean `{of}.{near}`?")),
        None if known.len() <= 16 => error.help(format!("it has {}", one_of(known.iter().copied()))),
        None => error,
    }
}

impl Scope for Resolver<'_> {
    fn name(&mut self, name: &str, span: Span) -> Result<Value, Failed> {
        let mut pieces = name.split('.');
        let first = pieces.next().unwrap_or_default();
        let members: Vec<&str> = pieces.collect();
        let Some(owner) = self.owner(first) else { return Err(self.unknown(name, span)) };
        if let (Owner::Parameter(at), []) = (owner, members.as_slice()) {
            let Some((_, entry)) = self.doc.parameters.get_index(at) else { return Err(Failed) };
            return self.once(first.to_owned(), span, |resolver| evaluate(&entry.value, resolver));
        }
        self.once(name.to_owned(), span, |resolver| resolver.member(owner, first, &members, span))
    }

    fn lining(&mut self, function: Function, arguments: &[f64], span: Span) -> Result<f64, Failed> {
        if let (Some(wall), [z]) = (wall_of(function), arguments) {
            return self.wall_at(wall, *z, span);
        }
        match (function, arguments, &self.roof) {
            (Function::Roof, [y], Some(roof)) => Ok(roof.height_at(*y)),
            (Function::Roof, [_], None) => Err(self.error(roof_unknown(span))),
            (Function::Roof, ..) => {
                Err(self.error(Diagnostic::new(span, "`roof` takes one figure: the place across the box")))
            }
            _ => {
                let error = Diagnostic::new(span, "`ceiling(u, v)` belongs to symbols");
                Err(self.error(error.help("in a layout, `roof(y)` is the height of the lining at y")))
            }
        }
    }

    fn fail(&mut self, error: Diagnostic) -> Failed {
        self.error(error)
    }

    fn depth(&mut self) -> &mut usize {
        &mut self.depth
    }
}

/// The wall that a function asks for: left, right, front, rear.
fn wall_of(function: Function) -> Option<usize> {
    [Function::Left, Function::Right, Function::Front, Function::Rear].iter().position(|wall| *wall == function)
}

/// The error of a value of the box that asks for the roof lining.
pub(super) fn roof_unknown(span: Span) -> Diagnostic {
    Diagnostic::new(span, "the roof is not known yet where the box itself is described")
}

/// The word of an expression that is just a name.
pub(super) fn bare_word(expr: &Expr) -> Option<&str> {
    match &expr.kind {
        ExprKind::Name(name) => Some(name),
        _ => None,
    }
}
