//! The tree of an expression.

use crate::source::{Span, Spanned};

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
            ExprKind::Over(_, over) => {
                over.things.each_name(see);
                over.figure.iter().for_each(|figure| figure.each_name(see));
            }
            ExprKind::Number(_) | ExprKind::Bool(_) => {}
        }
    }
}

impl Things {
    /// Calls with each name of the condition.
    pub fn each_name(&self, see: &mut dyn FnMut(&str)) {
        self.filter.iter().for_each(|filter| filter.each_name(see));
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
    /// Something of all things of a kind, in house rules.
    Over(Gather, Box<Over>),
}

/// What is made of many things.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gather {
    /// How many there are.
    Count,
    /// The sum of a figure.
    Sum,
    /// The least of a figure.
    Least,
    /// The greatest of a figure.
    Most,
}

impl Gather {
    /// As it is written.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Count => "count",
            Self::Sum => "sum",
            Self::Least => "least",
            Self::Most => "most",
        }
    }
}

/// `module m where m.height > 900`, and the figure that is gathered.
#[derive(Debug, Clone, PartialEq)]
pub struct Over {
    /// Which things.
    pub things: Things,
    /// What is gathered; nothing where they are counted.
    pub figure: Option<Expr>,
}

/// `module m where m.height > 900`, or `module a and opening b where ...`.
#[derive(Debug, Clone, PartialEq)]
pub struct Things {
    /// Kinds and the names that one of each has: one or two.
    pub of: Vec<Ranged>,
    /// Which of them.
    pub filter: Option<Expr>,
}

/// A kind of things, and the name that one of them has.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranged {
    /// The kind as written.
    pub kind: Spanned<String>,
    /// The name.
    pub name: Spanned<String>,
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
    /// In house rules, of two things: millimetres between them, in space.
    Distance,
    /// In house rules: the width of the widest way between two things, mm.
    Way,
    /// In house rules: whether the first stands over the second.
    Above,
    /// In house rules: whether nothing hides the middle of one from that of the other.
    Sees,
    /// In house rules: whether the first lies within the second, seen from above.
    Inside,
    /// In house rules: whether a thing has a value.
    Has,
    /// In house rules: whether a thing has a solid with a tag.
    Tagged,
    /// In house rules: whether a module needs a service.
    Joined,
}
