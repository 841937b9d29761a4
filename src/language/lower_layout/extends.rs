//! The layout that another one changes.

use crate::language::node::{Node, NodeValue};
use crate::language::reader::Reader;
use crate::language::turn::Turn;
use crate::source::Spanned;

/// `extends`: a file, and how it is taken.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::language) struct BaseDoc {
    /// Its path.
    pub file: Spanned<String>,
    /// Mirrored or turned.
    pub turn: Turn,
}

/// `base.yaml`, or `{ file, mirror, turn }`.
pub(in crate::language) fn extends(r: &mut Reader<'_>, node: &Node) -> Option<BaseDoc> {
    let turn = Turn::default();
    match &node.value {
        NodeValue::Text(text, _) => Some(BaseDoc { file: Spanned::new(text.clone(), node.span), turn }),
        NodeValue::Map(_) => {
            let mut f = r.fields(node, "`extends`")?;
            let file = f.need(r, "file", Reader::text);
            let [mirror, turned] = ["mirror", "turn"].map(|key| f.opt(r, key, Reader::flag));
            f.close(r);
            let [mirror, turned] = [mirror, turned].map(|flag| flag.is_some_and(|flag| flag.value));
            Some(BaseDoc { file: file?, turn: Turn::by(mirror, turned) })
        }
        _ => {
            let help = "write the path of the other layout: `extends: marram.yaml`";
            r.expected(node, "`extends` needs a file", help);
            None
        }
    }
}
