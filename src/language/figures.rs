//! Maps of figures: keys with their range and unit in one table, which both the reader and the resolver go by.

use super::expression::Expr;
use super::reader::{Fields, Reader};
use crate::source::Span;

/// A key that takes a figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FigureKey {
    /// The key.
    pub name: &'static str,
    /// What it is where it is not written; `None` if it must be.
    pub default: Option<f64>,
    /// Least and most value.
    pub range: (f64, f64),
    /// Unit in words, with its space: ` mm`; empty for plain numbers.
    pub unit: &'static str,
}

/// A figure that must be written.
pub(super) const fn needed(name: &'static str, range: (f64, f64), unit: &'static str) -> FigureKey {
    FigureKey { name, default: None, range, unit }
}

/// A figure that may be left out.
pub(super) const fn or(default: f64, name: &'static str, range: (f64, f64), unit: &'static str) -> FigureKey {
    FigureKey { name, default: Some(default), range, unit }
}

/// What is written under the keys of a table, in its order.
#[derive(Debug, Clone, PartialEq)]
pub struct FiguresDoc<const N: usize> {
    /// The values.
    pub values: [Option<Expr>; N],
    /// Where the map is.
    pub span: Span,
}

impl<const N: usize> FiguresDoc<N> {
    /// Reads the keys of a table from a map that may have others.
    pub(super) fn read(r: &mut Reader<'_>, f: &mut Fields<'_>, keys: &[FigureKey; N]) -> Self {
        let values = keys.map(|key| match key.default {
            Some(_) => f.opt(r, key.name, Reader::expr),
            None => f.need(r, key.name, Reader::expr),
        });
        Self { values, span: f.span() }
    }
}
