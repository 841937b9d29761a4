//! House rules, as written.

use super::expression::{Expr, Things};
use crate::source::Spanned;

/// Most rules of a layout, those of its files with them.
pub const MOST_RULES: usize = 200;

/// One rule: `{ each, needs, says, because, severity, limits }`.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleDoc {
    /// What it is about.
    pub each: Things,
    /// The same as written.
    pub each_text: String,
    /// The condition.
    pub needs: Expr,
    /// The same as written.
    pub needs_text: String,
    /// What is said of a thing that misses it.
    pub says: Vec<SaysDoc>,
    /// Whose rule it is, and why.
    pub because: Spanned<String>,
    /// `fault`, `caution` or `note`.
    pub severity: Option<Spanned<String>>,
    /// Figures that a layout may change.
    pub limits: Vec<(Spanned<String>, f64)>,
}

/// A piece of a rule's sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum SaysDoc {
    /// Words as they are.
    Words(String),
    /// The value of an expression, and how it is written.
    Value(Expr, String),
}
