//! What the sections of symbols and recipes have in common.

use crate::language::expression::Expr;
use crate::language::fittings::HardwareDoc;
use crate::language::named::Named;
use crate::language::node::{Node, NodeValue};
use crate::language::reader::{Fields, Reader};
use crate::language::symbol::{EachDoc, SettingDoc, SettingKind};

/// Named entries of a section.
pub(super) fn named<'r, T>(
    r: &mut Reader<'r>,
    f: &mut Fields<'_>,
    key: &'static str,
    read: impl FnMut(&mut Reader<'r>, &str, &Node) -> Option<T>,
) -> Named<T> {
    f.section(key).map(|node| r.named(node, &format!("`{key}`"), read)).unwrap_or_default()
}

/// An expression that must be written.
pub(super) fn value(r: &mut Reader<'_>, node: &Node) -> Option<Expr> {
    if node.is_null() {
        r.unfit(node, "a value", "write a number or an expression");
        return None;
    }
    r.expr(node)
}

/// `when` and `each`, which most entries may have.
pub(super) fn repeated(r: &mut Reader<'_>, f: &mut Fields<'_>) -> (Option<Expr>, Option<EachDoc>) {
    (f.opt(r, "when", Reader::condition), f.opt(r, "each", Reader::each))
}

pub(super) fn setting(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<SettingDoc> {
    let mut f = r.fields(node, &format!("setting `{name}`"))?;
    let kind = f.need_word(r, "kind", &["whole", "length", "yes-no", "one-of"]).map(|kind| kind.value);
    let yes_no = kind.as_deref() == Some("yes-no");
    let default = f.need(r, "default", if yes_no { Reader::condition } else { Reader::expr });
    let kind = match kind.as_deref() {
        Some("whole") => bounds(r, &mut f).map(|(least, most)| SettingKind::Whole { least, most }),
        Some("length") => bounds(r, &mut f).map(|(least, most)| SettingKind::Length { least, most }),
        Some("one-of") => f.need(r, "values", Reader::names).map(|values| SettingKind::OneOf { values }),
        Some(_) => Some(SettingKind::YesNo),
        None => {
            let _any_kind = (f.section("least"), f.section("most"), f.section("values"));
            None
        }
    };
    f.close(r);
    Some(SettingDoc { kind: kind?, default: default? })
}

fn bounds(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<(Expr, Expr)> {
    let least = f.need(r, "least", Reader::expr);
    let most = f.need(r, "most", Reader::expr);
    Some((least?, most?))
}

pub(super) fn hardware(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<HardwareDoc> {
    if !matches!(node.value, NodeValue::Map(_)) {
        return value(r, node).map(|count| HardwareDoc { when: None, count, size: None });
    }
    let mut f = r.fields(node, &format!("hardware `{name}`"))?;
    let when = f.opt(r, "when", Reader::condition);
    let count = f.need(r, "count", Reader::expr);
    let size = f.opt(r, "size", Reader::expr);
    f.close(r);
    Some(HardwareDoc { when, count: count?, size })
}
