//! Things to be carried.

use super::groups::three;
use crate::language::layout::CargoDoc;
use crate::language::node::Node;
use crate::language::reader::Reader;

/// Ways to stand, as words.
pub(in crate::language) const STANDS: [&str; 3] = ["any", "upright", "fixed"];

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
