//! Figures that are written together.

use crate::diagnostic::Diagnostic;
use crate::language::expression::Expr;
use crate::language::figures::FiguresDoc;
use crate::language::node::{Node, NodeValue};
use crate::language::reader::Reader;
use crate::source::Spanned;

/// Three figures: a point or a size.
pub(super) fn three(r: &mut Reader<'_>, node: &Node) -> Option<Spanned<[Expr; 3]>> {
    const HELP: &str = "write `[890, 680, 320]`: length, width, height of a size; x, y, z of a point";
    let NodeValue::List(nodes) = &node.value else {
        r.unfit(node, "three figures", HELP);
        return None;
    };
    let [first, second, third] = nodes.as_slice() else {
        let message = format!("{} needs three figures, and {} are written", r.subject(), nodes.len());
        r.error(Diagnostic::new(node.span, message).help(HELP));
        return None;
    };
    let (first, second, third) = (r.expr(first), r.expr(second), r.expr(third));
    Some(Spanned::new([first?, second?, third?], node.span))
}

/// A map that has nothing but figures.
pub(super) fn group<const N: usize>(
    r: &mut Reader<'_>,
    node: &Node,
    owner: &str,
    keys: &[crate::language::FigureKey; N],
) -> Option<FiguresDoc<N>> {
    let mut f = r.fields(node, owner)?;
    let figures = FiguresDoc::read(r, &mut f, keys);
    f.close(r);
    Some(figures)
}
