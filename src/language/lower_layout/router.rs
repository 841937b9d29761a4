//! The router and its tools.

use crate::diagnostic::Diagnostic;
use crate::language::figures::FiguresDoc;
use crate::language::node::Node;
use crate::language::reader::Reader;
use crate::language::router::{ROUTER, RouterDoc, TOOL, ToolDoc};
use crate::model::{RouterFiles, ToolUse, Word};
use crate::source::Spanned;

/// A table has at most so many tools.
pub const MOST_TOOLS: usize = 64;

/// `router:`.
pub(super) fn router(r: &mut Reader<'_>, node: &Node) -> Option<RouterDoc> {
    let mut f = r.fields(node, "`router`")?;
    let tools = f.need(r, "tools", |r, node| {
        (!r.refuse_many(node, "tools", MOST_TOOLS)).then(|| r.named(node, "`tools`", tool))
    });
    let files = f.known(r, "files", RouterFiles::ALL);
    let millimetres = f.opt(r, "millimetres", |r, node| code(r, node, "millimetres"));
    let change = f.opt(r, "change", |r, node| code(r, node, "change"));
    let pilots = f.opt(r, "pilots", Reader::flag);
    let figures = FiguresDoc::read(r, &mut f, &ROUTER);
    f.close(r);
    Some(RouterDoc { tools: tools?, files, millimetres, change, pilots, figures, span: node.span })
}

fn tool(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<ToolDoc> {
    let mut f = r.fields(node, &format!("tool `{name}`"))?;
    let uses = f.need(r, "for", |r, node| Some(r.list(node, "`for`", |r, node| r.known::<ToolUse>(node, "for"))));
    let figures = FiguresDoc::read(r, &mut f, &TOOL);
    let number = f.opt(r, "number", Reader::expr);
    f.close(r);
    let uses = uses?.into_iter().map(|of| of.value.value).collect();
    Some(ToolDoc { uses, figures, number })
}

/// A word of router code: a letter with a number.
fn code(r: &mut Reader<'_>, node: &Node, key: &str) -> Option<Spanned<String>> {
    let text = r.text(node)?;
    let mut signs = text.value.chars();
    let letter = signs.next().is_some_and(|sign| matches!(sign, 'G' | 'M'));
    let digits = signs.as_str();
    if letter && (1..=4).contains(&digits.len()) && digits.bytes().all(|sign| sign.is_ascii_digit()) {
        return Some(text);
    }
    let message = format!("`{}` is no word of router code", text.value);
    r.error(
        Diagnostic::new(node.span, message).help(format!("write `{key}` as a G or an M with a number: `G21`, `M6`")),
    );
    None
}
