//! The tree of an expression.

use crate::source::Span;

/// A piece of an expression with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Expr {
    /// What it is.
    pub kind: ExprKind,
    /// Where it stands.
    pub span: Span,
}

impl Expr {
    /// Calls with each name in it; its depth is bounded by the parser.
    pub fn each_name(&self, see: &mut dyn FnMut(&str)) {
        match &self.kind {
            ExprKind::Name(name) => see(name),
            ExprKind::Unary(_, inner) => inner.each_name(see),
            ExprKind::Binary(_, left, right) => {
                left.each_name(see);
                right.each_name(see);
            }
            ExprKind::Call(_, arguments) => arguments.iter().for_each(|argument| argument.each_name(see)),
            ExprKind::Number(_) | ExprKind::Bool(_) => {}
        }
    }
}

/// Kinds of pieces.
#[derive(Debug, Clone, PartialEq)]
pub enum ExprKind {
    /// A number; a unit has been applied, lengths are millimetres.
    Number(f64),
    /// `true`, `false`, `yes`, `no` as YAML booleans.
    Bool(bool),
    /// A name, possibly dotted: `bed.lowered.deck`. Also a bare word of a `one-of` setting.
    Name(String),
    /// A prefix operator.
    Unary(Unary, Box<Expr>),
    /// An infix operator.
    Binary(Binary, Box<Expr>, Box<Expr>),
    /// A function; the count of arguments has been checked.
    Call(Function, Vec<Expr>),
}

/// Prefix operators.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unary {
    /// `-`.
    Minus,
    /// `not`.
    Not,
}

/// Infix operators.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub enum Binary {
    Add,
    Subtract,
    Multiply,
    Divide,
    Equal,
    NotEqual,
    Less,
    LessOrEqual,
    Greater,
    GreaterOrEqual,
    And,
    Or,
}

/// Built-in functions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it; angles are degrees")]
pub enum Function {
    If,
    Min,
    Max,
    Abs,
    Round,
    Floor,
    Ceil,
    Sqrt,
    Sin,
    Cos,
    Tan,
    Atan,
    Hypot,
    /// `roof(y)` in a layout: height of the roof lining at y. `ceiling(u, v)` in a symbol: height of the lining above
    /// the module's floor.
    Roof,
    Ceiling,
    /// `left(z)` in a layout: place of the inner face of the left wall at a height; the others likewise.
    Left,
    Right,
    Front,
    Rear,
}
