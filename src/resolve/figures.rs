//! Figures of a table of keys: defaults and ranges.

use super::names::Resolver;
use crate::base::number::trimmed;
use crate::diagnostic::Diagnostic;
use crate::geometry::Point3;
use crate::language::expression::{Expr, Failed};
use crate::language::{FigureKey, FiguresDoc};

impl Resolver<'_> {
    /// The figures of a map in the order of its table; each must lie in its range.
    pub fn figures<const N: usize>(&mut self, keys: &[FigureKey; N], doc: &FiguresDoc<N>) -> Result<[f64; N], Failed> {
        let mut figures = [0.0; N];
        let mut failed = false;
        for ((figure, key), expr) in figures.iter_mut().zip(keys).zip(&doc.values) {
            let Some(expr) = expr else {
                *figure = key.default.unwrap_or_default();
                continue;
            };
            match self.within(expr, key.range, key.name, key.unit) {
                Ok(value) => *figure = value,
                Err(Failed) => failed = true,
            }
        }
        if failed { Err(Failed) } else { Ok(figures) }
    }

    /// A figure within a range.
    pub fn within(&mut self, expr: &Expr, range: (f64, f64), name: &str, unit: &str) -> Result<f64, Failed> {
        let value = self.figure(expr)?;
        if (range.0..=range.1).contains(&value) {
            return Ok(value);
        }
        let [low, high] = [range.0, range.1].map(|end| trimmed(end, 3));
        let message = format!("`{name}` is {}{unit}; it must be {low} to {high}{unit}", trimmed(value, 3));
        Err(self.error(Diagnostic::new(expr.span, message)))
    }

    /// Three figures: a point in the box.
    pub fn point3(&mut self, at: &[Expr; 3]) -> Result<Point3, Failed> {
        let [x, y, z] = at;
        let (x, y, z) = (self.figure(x), self.figure(y), self.figure(z));
        Ok(Point3 { x: x?, y: y?, z: z? })
    }
}
