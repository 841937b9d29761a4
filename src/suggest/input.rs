//! What suggestions are made for.

use crate::base::memo::Memo;
use crate::checks::Check;
use crate::diagnostic::Finding;
use crate::figures::Figures;
use crate::language::{LayoutDoc, SymbolDoc};
use crate::model::Model;
use crate::source::SourceMap;
use std::sync::Arc;

/// A layout with its findings, and how to judge another one like it.
pub struct Input<'a> {
    /// Path of the layout's file.
    pub path: &'a str,
    /// Name of the layout.
    pub name: &'a str,
    /// The document.
    pub doc: &'a LayoutDoc,
    /// The symbols of its modules, in file order.
    pub symbols: &'a [Option<Arc<SymbolDoc>>],
    /// All files that it was read from.
    pub sources: &'a SourceMap,
    /// The resolved layout.
    pub model: &'a Model,
    /// The checks that may be run.
    pub checks: &'a [Arc<dyn Check>],
    /// What takes long and is known already.
    pub memo: &'a Memo,
    /// The findings of one check in a layout that are graver than notes, with those that are accepted marked.
    pub judge: &'a (dyn Fn(&Figures<'_>, &dyn Check) -> Vec<Finding> + Sync),
}
