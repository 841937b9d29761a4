//! Things to be carried.

use crate::diagnostic::Diagnostic;
use crate::language::expression::Expr;
use crate::language::layout::CargoDoc;
use crate::language::node::{Node, NodeValue};
use crate::language::reader::Reader;
use crate::source::Spanned;

/// Ways to stand, as words.
const STANDS: [&str; 3] = ["any", "upright", "fixed"];

/// `{ size, mass, count, in, through, stands }`.
pub(super) fn cargo(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<CargoDoc> {
    let mut f = r.fields(node, &format!("cargo `{name}`"))?;
    let size = f.need(r, "size", three);
    let mass = f.need(r, "mass", Reader::expr);
    let count = f.opt(r, "count", Reader::expr);
    let module = f.need(r, "in", Reader::name);
    let through = f.opt(r, "through", Reader::name);
    let stands = f.word(r, "stands", &STANDS);
    f.close(r);
    Some(CargoDoc { size: size?, mass: mass?, count, module: module?, through, stands })
}

/// Three lengths.
fn three(r: &mut Reader<'_>, node: &Node) -> Option<Spanned<[Expr; 3]>> {
    const HELP: &str = "write `[890, 680, 320]`; with `stands: upright` the third is the height";
    let NodeValue::List(nodes) = &node.value else {
        r.unfit(node, "three lengths", HELP);
        return None;
    };
    let [first, second, third] = nodes.as_slice() else {
        let message = format!("`size` needs three lengths, and {} are written", nodes.len());
        r.error(Diagnostic::new(node.span, message).help(HELP));
        return None;
    };
    let (first, second, third) = (r.expr(first), r.expr(second), r.expr(third));
    Some(Spanned::new([first?, second?, third?], node.span))
}
