//! Computing an expression in a scope that knows names.

use super::ast::{Binary, Expr, ExprKind, Function, Unary};
use crate::diagnostic::Diagnostic;
use crate::source::Span;

/// What an expression comes to.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number; lengths in millimetres.
    Number(f64),
    /// Yes or no.
    Bool(bool),
    /// One of a setting's words.
    Word(String),
}

impl Value {
    fn kind(&self) -> &'static str {
        match self {
            Self::Number(_) => "a number",
            Self::Bool(_) => "yes or no",
            Self::Word(_) => "a word",
        }
    }
}

/// The error has been reported already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Failed;

/// Deepest nesting of expressions and names together; past it is an error, not an overflow.
pub const DEEPEST: usize = 400;

/// What an expression may ask of its surroundings.
pub trait Scope {
    /// The value of a name.
    ///
    /// # Errors
    /// When the name is not known or its own expression failed; reported.
    fn name(&mut self, name: &str, span: Span) -> Result<Value, Failed>;

    /// `roof(y)` or `ceiling(u, v)`.
    ///
    /// # Errors
    /// When the function has no meaning here; reported.
    fn lining(&mut self, function: Function, arguments: &[f64], span: Span) -> Result<f64, Failed>;

    /// Reports an error.
    fn fail(&mut self, error: Diagnostic) -> Failed;

    /// The present depth of nesting, kept across names.
    fn depth(&mut self) -> &mut usize;
}

/// Computes an expression.
///
/// # Errors
/// Unknown names, wrong kinds, division by zero, results that are no finite number; all reported with the place.
pub fn evaluate(expr: &Expr, scope: &mut dyn Scope) -> Result<Value, Failed> {
    if *scope.depth() >= DEEPEST {
        let message = format!("expressions and names refer to each other more than {DEEPEST} deep");
        return Err(scope.fail(Diagnostic::new(expr.span, message).help("compute intermediate values as parameters")));
    }
    *scope.depth() += 1;
    let value = value_of(expr, scope);
    *scope.depth() -= 1;
    value
}

/// Computes an expression that must be a number.
///
/// # Errors
/// As [`evaluate`], and when it comes to anything but a number.
pub fn number(expr: &Expr, scope: &mut dyn Scope) -> Result<f64, Failed> {
    match evaluate(expr, scope)? {
        Value::Number(number) => Ok(number),
        other => Err(wrong_kind(expr, &other, "a number", scope)),
    }
}

/// Computes an expression that must be yes or no.
///
/// # Errors
/// As [`evaluate`], and when it comes to anything but yes or no.
pub fn truth(expr: &Expr, scope: &mut dyn Scope) -> Result<bool, Failed> {
    match evaluate(expr, scope)? {
        Value::Bool(truth) => Ok(truth),
        other => Err(wrong_kind(expr, &other, "yes or no", scope)),
    }
}

fn wrong_kind(expr: &Expr, value: &Value, wanted: &str, scope: &mut dyn Scope) -> Failed {
    let shown = match value {
        Value::Word(word) => format!(" `{word}`"),
        _ => String::new(),
    };
    let message = format!("expected {wanted}, found {}{shown}", value.kind());
    scope.fail(Diagnostic::new(expr.span, message))
}

fn value_of(expr: &Expr, scope: &mut dyn Scope) -> Result<Value, Failed> {
    let value = match &expr.kind {
        ExprKind::Number(number) => Value::Number(*number),
        ExprKind::Bool(truth) => Value::Bool(*truth),
        ExprKind::Name(name) => scope.name(name, expr.span)?,
        ExprKind::Unary(Unary::Minus, inner) => Value::Number(-number(inner, scope)?),
        ExprKind::Unary(Unary::Not, inner) => Value::Bool(!truth(inner, scope)?),
        ExprKind::Binary(operator, left, right) => binary(*operator, left, right, scope)?,
        ExprKind::Call(function, arguments) => call(*function, arguments, expr.span, scope)?,
        ExprKind::Over(gather, _) => {
            let message = format!("`{}(...)` belongs to house rules", gather.name());
            return Err(scope.fail(Diagnostic::new(expr.span, message)));
        }
    };
    match value {
        Value::Number(number) if !number.is_finite() => {
            Err(scope.fail(Diagnostic::new(expr.span, "this comes to no finite number")))
        }
        value => Ok(value),
    }
}

fn binary(operator: Binary, left: &Expr, right: &Expr, scope: &mut dyn Scope) -> Result<Value, Failed> {
    match operator {
        Binary::And => Ok(Value::Bool(truth(left, scope)? && truth(right, scope)?)),
        Binary::Or => Ok(Value::Bool(truth(left, scope)? || truth(right, scope)?)),
        Binary::Equal => Ok(Value::Bool(equal(left, right, scope)?)),
        Binary::NotEqual => Ok(Value::Bool(!equal(left, right, scope)?)),
        _ => {
            let (a, b) = (number(left, scope)?, number(right, scope)?);
            arithmetic(operator, a, b, right, scope)
        }
    }
}

fn arithmetic(operator: Binary, a: f64, b: f64, right: &Expr, scope: &mut dyn Scope) -> Result<Value, Failed> {
    Ok(match operator {
        Binary::Add => Value::Number(a + b),
        Binary::Subtract => Value::Number(a - b),
        Binary::Multiply => Value::Number(a * b),
        Binary::Divide if b == 0.0 => {
            return Err(scope.fail(Diagnostic::new(right.span, "division by zero").label("this comes to 0")));
        }
        Binary::Divide => Value::Number(a / b),
        Binary::Less => Value::Bool(a < b),
        Binary::LessOrEqual => Value::Bool(a <= b),
        Binary::Greater => Value::Bool(a > b),
        Binary::GreaterOrEqual => Value::Bool(a >= b),
        Binary::Equal | Binary::NotEqual | Binary::And | Binary::Or => Value::Bool(false),
    })
}

fn equal(left: &Expr, right: &Expr, scope: &mut dyn Scope) -> Result<bool, Failed> {
    let (a, b) = (evaluate(left, scope)?, evaluate(right, scope)?);
    match (&a, &b) {
        (Value::Number(a), Value::Number(b)) => Ok(a == b),
        (Value::Bool(a), Value::Bool(b)) => Ok(a == b),
        (Value::Word(a), Value::Word(b)) => Ok(a == b),
        _ => {
            let message = format!("{} can't be compared with {}", a.kind(), b.kind());
            Err(scope.fail(Diagnostic::new(right.span, message)))
        }
    }
}

fn call(function: Function, arguments: &[Expr], span: Span, scope: &mut dyn Scope) -> Result<Value, Failed> {
    if function == Function::If {
        let [condition, yes, no] = arguments else { return Err(wrong_count(span, scope)) };
        return if truth(condition, scope)? { evaluate(yes, scope) } else { evaluate(no, scope) };
    }
    let mut numbers = Vec::with_capacity(arguments.len());
    for argument in arguments {
        numbers.push(number(argument, scope)?);
    }
    let walls = [Function::Left, Function::Right, Function::Front, Function::Rear];
    if matches!(function, Function::Roof | Function::Ceiling) || walls.contains(&function) {
        return scope.lining(function, &numbers, span).map(Value::Number);
    }
    match of_numbers(function, &numbers) {
        Some(value) => Ok(Value::Number(value)),
        None => match (function, numbers.as_slice()) {
            (Function::Sqrt, [x]) => Err(scope.fail(no_root(*x, span))),
            _ => Err(wrong_count(span, scope)),
        },
    }
}

/// There is no such root.
#[must_use]
pub fn no_root(x: f64, span: Span) -> Diagnostic {
    Diagnostic::new(span, format!("the square root of {x} is no number"))
}

/// A function of numbers alone; `None` for other functions, and where there is no value.
#[must_use]
pub fn of_numbers(function: Function, numbers: &[f64]) -> Option<f64> {
    Some(match (function, numbers) {
        (Function::Min, [first, rest @ ..]) => rest.iter().copied().fold(*first, f64::min),
        (Function::Max, [first, rest @ ..]) => rest.iter().copied().fold(*first, f64::max),
        (Function::Abs, [x]) => x.abs(),
        (Function::Round, [x]) => x.round(),
        (Function::Floor, [x]) => x.floor(),
        (Function::Ceil, [x]) => x.ceil(),
        (Function::Sqrt, [x]) if *x >= 0.0 => x.sqrt(),
        (Function::Sin, [x]) => x.to_radians().sin(),
        (Function::Cos, [x]) => x.to_radians().cos(),
        (Function::Tan, [x]) => x.to_radians().tan(),
        (Function::Atan, [x]) => x.atan().to_degrees(),
        (Function::Hypot, [x, y]) => x.hypot(*y),
        _ => return None,
    })
}

fn wrong_count(span: Span, scope: &mut dyn Scope) -> Failed {
    scope.fail(Diagnostic::new(span, "this function has the wrong count of arguments"))
}
