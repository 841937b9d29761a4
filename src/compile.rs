//! The whole way from a layout file to its model and findings, and on to sheets and cut list.

use crate::backends::Product;
use crate::diagnostic::{Finding, Severity, Sink};
use crate::drawing::Sheet;
use crate::joinery::CutList;
use crate::model::Model;
use crate::registry::Registry;
use crate::source::{SourceMap, World};

/// How to compile.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options {
    /// `extends` and `symbols` may leave the folder of the layout.
    pub allow_outside: bool,
}

/// What a compile has found out. `model` is `None` exactly when there are errors.
#[derive(Debug, Default)]
pub struct Compiled {
    /// All files read.
    pub sources: SourceMap,
    /// What kept it from compiling.
    pub errors: Sink,
    /// The resolved layout.
    pub model: Option<Model>,
    /// What the checks found: worst first, then in the order of the checks.
    pub findings: Vec<Finding>,
}

impl Compiled {
    /// How many faults are found and not accepted.
    #[must_use]
    pub fn faults(&self) -> usize {
        self.findings.iter().filter(|f| f.severity == Severity::Fault && f.accepted.is_none()).count()
    }
}

/// Sheets and cut list of a compiled layout.
#[derive(Debug)]
pub struct Outputs {
    /// The sheet set.
    pub sheets: Vec<Sheet>,
    /// The cut list.
    pub cut_list: CutList,
}

impl Outputs {
    /// Everything a back-end may use; `None` if the layout did not compile.
    #[must_use]
    pub fn product<'a>(&'a self, compiled: &'a Compiled) -> Option<Product<'a>> {
        compiled.model.as_ref().map(|model| Product {
            model,
            findings: &compiled.findings,
            sheets: &self.sheets,
            cut_list: &self.cut_list,
            sources: &compiled.sources,
        })
    }
}

/// Reads, resolves and checks one layout.
#[must_use]
pub fn compile(_world: &dyn World, _path: &str, _registry: &Registry, _options: &Options) -> Compiled {
    Compiled::default()
}

/// Makes cut list and sheets; `None` if the layout did not compile.
#[must_use]
pub fn produce(_compiled: &Compiled) -> Option<Outputs> {
    None
}
