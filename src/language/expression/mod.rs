//! Expressions: numbers, names and operators, with a byte range for every piece.

mod ast;
mod evaluate;

pub use ast::{Binary, Expr, ExprKind, Function, Unary};
pub use evaluate::{DEEPEST, Failed, Scope, Value, evaluate, number, truth};
