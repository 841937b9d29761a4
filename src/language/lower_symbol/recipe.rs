//! The tree of a recipe file to its typed document.

use super::entries::{hardware, named, setting, value};
use super::parts;
use crate::diagnostic::Sink;
use crate::language::node::Node;
use crate::language::reader::Reader;
use crate::language::symbol::RecipeDoc;
use crate::source::SourceMap;

/// The document of a recipe's tree. Nothing comes back when there is any mistake; the mistakes go to the sink.
pub(in crate::language) fn lower(root: &Node, sources: &SourceMap, sink: &mut Sink) -> Option<RecipeDoc> {
    let mut reader = Reader::new(sources, sink);
    let r = &mut reader;
    let mut f = r.fields(root, "the recipe")?;
    let recipe = f.need(r, "recipe", Reader::name);
    let says = f.need(r, "says", Reader::text);
    let settings = named(r, &mut f, "settings", setting);
    let lets = named(r, &mut f, "let", |r, _, node| value(r, node));
    let parts = named(r, &mut f, "parts", parts::part);
    let hardware = named(r, &mut f, "hardware", hardware);
    f.close(r);
    if r.failures() > 0 {
        return None;
    }
    Some(RecipeDoc {
        content: crate::base::content::Key::default(),
        recipe: recipe?,
        says: says?,
        settings,
        lets,
        parts,
        hardware,
    })
}
