//! Something that a move can meet.

use crate::model::Module;
use crate::source::Span;

/// Something that can be met.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Thing {
    /// In words: "`body` of `sofa`", "the roof".
    pub says: String,
    /// The module it belongs to.
    pub module: Option<String>,
    /// Where it is written.
    pub span: Option<Span>,
}

impl Thing {
    /// A solid of a module.
    pub fn of_module(module: &Module, solid: &str) -> Self {
        let says = format!("`{solid}` of `{}`", module.name);
        Self { says, module: Some(module.name.clone()), span: Some(module.place_span) }
    }

    /// A part of the shell.
    pub fn of_shell(says: impl Into<String>) -> Self {
        Self { says: says.into(), module: None, span: None }
    }
}
