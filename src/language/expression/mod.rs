//! Expressions: numbers, names and operators, with a byte range for every piece.

mod ast;
mod evaluate;
mod lexer;
mod parse;
mod things;

pub use ast::{Binary, Expr, ExprKind, Function, Gather, Over, Ranged, Things, Unary};
pub use evaluate::{DEEPEST, Failed, Scope, Value, evaluate, no_root, number, of_numbers, truth};
pub use parse::{MOST_CHARACTERS, MOST_DEPTH, is_check_name, is_name, parse, parse_rule, parse_things};
