//! Expressions: numbers, names and operators, with a byte range for every piece.

mod ast;

pub use ast::{Binary, Expr, ExprKind, Function, Unary};
