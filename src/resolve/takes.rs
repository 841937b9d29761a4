//! What a symbol takes: the bounds of its sizes and the values of its settings, as they come out for a module.

use super::instance::Instance;
use super::names::Resolver;
use crate::base::memo::Memo;
use crate::base::number::trimmed;
use crate::diagnostic::Sink;
use crate::language::expression::{Expr, Failed};
use crate::language::{LayoutDoc, SettingKind, SymbolDoc};
use std::sync::Arc;

/// What the symbol of one module takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Takes {
    /// Least and greatest run, depth and height, mm.
    pub sizes: [(f64, f64); 3],
    /// Each setting with the values that bound it, or all its words, as a layout writes them.
    pub settings: Vec<(String, Vec<String>)>,
}

impl Takes {
    /// One of the settings with one of its values, by their numbers.
    #[must_use]
    pub fn value(&self, (setting, value): (usize, usize)) -> Option<(String, String)> {
        let (name, values) = self.settings.get(setting)?;
        Some((name.clone(), values.get(value)?.clone()))
    }
}

/// What the symbol of each module of a layout takes, in file order, at the sizes and settings that the module has; `None` where
/// that can't be worked out. Says nothing of what is wrong with the layout: [`resolve`](super::resolve) does.
#[must_use]
pub fn takes(doc: &LayoutDoc, symbols: Vec<Option<Arc<SymbolDoc>>>, memo: &Memo) -> Vec<Option<Takes>> {
    let mut unheard = Sink::default();
    let mut resolver = Resolver::new(doc, symbols, memo, &mut unheard);
    resolver.resolve_stocks();
    if resolver.space().is_none() {
        return Vec::new();
    }
    (0..doc.modules.len()).map(|at| resolver.takes(at).ok()).collect()
}

impl Resolver<'_> {
    fn takes(&mut self, at: usize) -> Result<Takes, Failed> {
        let symbol = self.symbols.get(at).cloned().flatten().ok_or(Failed)?;
        let mut sizes = [(0.0, 0.0); 3];
        for (bounds, size) in sizes.iter_mut().zip(&symbol.size) {
            *bounds = self.bounds_of(at, (&size.least, &size.most))?;
        }
        let mut settings = Vec::new();
        for (name, setting) in &symbol.settings {
            let values = match &setting.value.kind {
                SettingKind::YesNo => vec!["yes".to_owned(), "no".to_owned()],
                SettingKind::OneOf { values } => values.iter().map(|value| value.value.clone()).collect(),
                SettingKind::Whole { least, most } | SettingKind::Length { least, most } => {
                    let (least, most) = self.bounds_of(at, (least, most))?;
                    [least, most].map(|value| trimmed(value, 3)).to_vec()
                }
            };
            settings.push((name.clone(), values));
        }
        Ok(Takes { sizes, settings })
    }

    /// Least and most, as a symbol's expressions give them for a module.
    pub(super) fn bounds_of(&mut self, at: usize, (least, most): (&Expr, &Expr)) -> Result<(f64, f64), Failed> {
        let mut instance = Instance::new(self, at, None);
        Ok((instance.figure(least)?, instance.figure(most)?))
    }
}
