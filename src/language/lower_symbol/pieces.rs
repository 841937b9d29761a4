//! Pieces of a symbol: recipes at places.

use super::entries::{named, repeated, value};
use super::parts::extent;
use crate::language::node::Node;
use crate::language::reader::Reader;
use crate::language::symbol::PieceDoc;

/// One piece.
pub(super) fn piece(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<PieceDoc> {
    let mut f = r.fields(node, &format!("piece `{name}`"))?;
    let (when, each) = repeated(r, &mut f);
    let recipe = f.need(r, "recipe", Reader::name);
    let at = f.need(r, "at", extent);
    let set = named(r, &mut f, "set", |r, _, node| value(r, node));
    f.close(r);
    Some(PieceDoc { when, each, recipe: recipe?, made: None, at: at?, set })
}
