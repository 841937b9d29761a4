//! Prices beside those of sheets, and the grid of the labels.

use super::groups::group;
use crate::language::figures::{FigureKey, FiguresDoc, or};
use crate::language::layout::PricesDoc;
use crate::language::node::Node;
use crate::language::reader::Reader;

/// `prices: { band-metre, hardware }`.
pub(super) fn prices(r: &mut Reader<'_>, node: &Node) -> Option<PricesDoc> {
    let mut f = r.fields(node, "`prices`")?;
    let band_metre = f.opt(r, "band-metre", Reader::expr);
    let hardware =
        f.section("hardware").map(|node| r.named(node, "`hardware`", |r, _, node| r.expr(node))).unwrap_or_default();
    f.close(r);
    Some(PricesDoc { band_metre, hardware })
}

const LENGTH: &str = " mm";

/// The grid of labels on A4: rows, columns, from label to label, from the edge to the first, and the size of one where it is
/// not that from label to label.
pub const LABELS: [FigureKey; 8] = [
    or(8.0, "rows", (1.0, 40.0), ""),
    or(3.0, "columns", (1.0, 20.0), ""),
    or(70.0, "pitch-across", (10.0, 210.0), LENGTH),
    or(36.0, "pitch-down", (10.0, 297.0), LENGTH),
    or(0.0, "margin-left", (0.0, 100.0), LENGTH),
    or(4.5, "margin-top", (0.0, 100.0), LENGTH),
    or(0.0, "width", (0.0, 210.0), LENGTH),
    or(0.0, "height", (0.0, 297.0), LENGTH),
];

/// `labels:`.
pub(super) fn labels(r: &mut Reader<'_>, node: &Node) -> Option<FiguresDoc<8>> {
    group(r, node, "`labels`", &LABELS)
}
