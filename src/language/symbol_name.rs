//! Names of symbols: their group and their own.

use super::expression::is_name;
use super::node::Node;
use super::reader::Reader;
use crate::diagnostic::Diagnostic;
use crate::source::Spanned;

/// The folder of the recipes, beside the groups of symbols.
pub(super) const RECIPES: &str = "recipes";

/// Whether a text has the form `group/name`.
#[must_use]
pub fn is_symbol_name(text: &str) -> bool {
    text.split_once('/').is_some_and(|(group, name)| is_name(group) && group != RECIPES && is_name(name))
}

/// `group/name`.
pub(super) fn symbol_name(r: &mut Reader<'_>, node: &Node) -> Option<Spanned<String>> {
    let text = r.text(node)?;
    if is_symbol_name(&text.value) {
        return Some(text);
    }
    let error = Diagnostic::new(node.span, format!("`{}` is not the name of a symbol", text.value));
    r.error(error.help("write its group and its name: `galley/base-run`"));
    None
}
