//! The plug-ins that a layout uses.

use crate::diagnostic::Diagnostic;
use crate::language::layout::PlugInDoc;
use crate::language::node::Node;
use crate::language::reader::Reader;
use crate::source::Spanned;

/// Digits of a SHA-256.
const DIGITS: usize = 64;

/// `{ file, sha256 }`.
pub(super) fn plug_in(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<PlugInDoc> {
    let mut f = r.fields(node, &format!("plug-in `{name}`"))?;
    let file = f.need(r, "file", Reader::text);
    let sha256 = f.opt(r, "sha256", sha256);
    f.close(r);
    Some(PlugInDoc { file: file?, sha256 })
}

fn sha256(r: &mut Reader<'_>, node: &Node) -> Option<Spanned<String>> {
    let text = r.text(node)?;
    if text.value.len() == DIGITS && text.value.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return Some(text);
    }
    let error =
        Diagnostic::new(node.span, format!("`sha256` needs {DIGITS} hexadecimal digits, and has something else"));
    r.error(error.help("leave it out, and `boxwright plug-ins pin` with the layout's file writes it"));
    None
}
