//! One piece of a symbol while its recipe is carried out.

use crate::diagnostic::Diagnostic;
use crate::language::RecipeDoc;
use crate::language::expression::Value;
use crate::source::Span;
use std::collections::BTreeMap;
use std::sync::Arc;

/// One piece while its recipe is carried out.
#[derive(Debug)]
pub(super) struct Piece {
    pub recipe: Arc<RecipeDoc>,
    /// Its name in the symbol.
    pub name: String,
    /// Where the symbol writes it.
    pub span: Span,
    /// Low corner of its room in the module's frame.
    pub origin: [f64; 3],
    /// Size of its room.
    pub size: [f64; 3],
    pub settings: BTreeMap<String, Value>,
    /// Tells it from other pieces in the keys of kept values.
    pub key: String,
}

impl Piece {
    /// Adds to an error of the recipe the line that uses it.
    pub fn noted(&self, error: Diagnostic) -> Diagnostic {
        if error.span.file == self.span.file {
            return error;
        }
        error.note(self.span, format!("piece `{}` uses this recipe", self.name))
    }

    /// The name of a part: the piece's own for the part that is called as the recipe.
    pub fn part_name(&self, part: &str) -> String {
        if part == self.recipe.recipe.value { self.name.clone() } else { format!("{}-{part}", self.name) }
    }
}
