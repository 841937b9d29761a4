//! Expressions: numbers, names and operators, with a byte range for every piece.

mod ast;
mod evaluate;
mod lexer;
mod parse;

pub use ast::{Binary, Expr, ExprKind, Function, Unary};
pub use evaluate::{DEEPEST, Failed, Scope, Value, evaluate, number, truth};
pub use parse::{MOST_CHARACTERS, MOST_DEPTH, is_check_name, is_name, parse};
