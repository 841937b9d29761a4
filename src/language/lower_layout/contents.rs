//! Modules, arrangements, routes, limits, accepted findings and stocks.

use super::places::place;
use crate::diagnostic::Diagnostic;
use crate::language::expression::Expr;
use crate::language::layout::{
    AcceptedDoc, ArrangementDoc, LimitDoc, ModuleDoc, RouteDoc, SheetSizeDoc, StockDoc, TakerDoc,
};
use crate::language::node::{Node, NodeValue};
use crate::language::place::PlaceDoc;
use crate::language::reader::{Fields, Reader};
use crate::language::symbol_name::symbol_name;
use crate::model::Wall;
use crate::source::Spanned;

/// One module.
pub(super) fn module(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<ModuleDoc> {
    let mut f = r.fields(node, &format!("module `{name}`"))?;
    let symbol = f.need(r, "symbol", symbol_name);
    let faces = f.known(r, "faces", &Wall::UPRIGHT);
    let mirror = f.opt(r, "mirror", Reader::flag);
    let without_place = PlaceDoc { span: f.span(), ..PlaceDoc::default() };
    let placed = f.opt(r, "place", place).map(|place| PlaceDoc { span: f.key_span("place"), ..place });
    let size = f.opt(r, "size", size).unwrap_or_default();
    let zone = f.opt(r, "zone", Reader::name);
    let set = f.section("set").map(|node| r.named(node, "`set`", |r, _, node| setting(r, node))).unwrap_or_default();
    let used_from = f.word(r, "used-from", &["inside", "outside"]);
    let through = f.opt(r, "through", Reader::name);
    let sleepers = f.opt(r, "sleepers", takers).unwrap_or_default();
    let riders = f.opt(r, "riders", takers).unwrap_or_default();
    f.close(r);
    let place = placed.unwrap_or(without_place);
    Some(ModuleDoc { symbol: symbol?, faces, mirror, place, size, zone, set, used_from, through, sleepers, riders })
}

/// `[ada, bo]`, or by the name of the space: `{ low: ada, high: [bo] }`.
fn takers(r: &mut Reader<'_>, node: &Node) -> Option<Vec<TakerDoc>> {
    if node.as_map().is_none() {
        let names = r.names(node)?;
        return Some(names.into_iter().map(|who| TakerDoc { who, space: None }).collect());
    }
    let owner = r.subject().to_owned();
    let mut all = Vec::new();
    for (space, entry) in r.named(node, &owner, |r, _, node| r.names(node)) {
        let space = Spanned::new(space, entry.span);
        all.extend(entry.value.into_iter().map(|who| TakerDoc { who, space: Some(space.clone()) }));
    }
    Some(all)
}

fn size(r: &mut Reader<'_>, node: &Node) -> Option<[Option<Expr>; 3]> {
    let mut f = r.fields(node, "`size`")?;
    let sizes = ["run", "depth", "height"].map(|key| f.opt(r, key, Reader::expr));
    f.close(r);
    Some(sizes)
}

fn setting(r: &mut Reader<'_>, node: &Node) -> Option<Expr> {
    if node.is_null() {
        r.unfit(node, "a value", "write a number, `yes`, `no` or one of the setting's words");
        return None;
    }
    r.expr(node)
}

/// `{ module: pose, ... }`.
pub(super) fn arrangement(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<ArrangementDoc> {
    let owner = format!("arrangement `{name}`");
    let poses = r.named(node, &owner, |r, _, node| r.name(node));
    let pose = |(module, pose): (String, Spanned<Spanned<String>>)| (Spanned::new(module, pose.span), pose.value);
    Some(ArrangementDoc { poses: poses.into_iter().map(pose).collect() })
}

/// `{ from, to, in, least }`.
pub(super) fn route(r: &mut Reader<'_>, node: &Node) -> Option<RouteDoc> {
    let mut f = r.fields(node, "a route")?;
    let from = f.need(r, "from", Reader::name);
    let to = f.need(r, "to", Reader::name);
    let arrangements = f.opt(r, "in", Reader::names).unwrap_or_default();
    let least = f.opt(r, "least", Reader::expr);
    f.close(r);
    Some(RouteDoc { from: from?, to: to?, arrangements, least })
}

/// `{ check: { limit: value, because } }`, one entry for each limit.
pub(super) fn limits(r: &mut Reader<'_>, node: &Node) -> Vec<LimitDoc> {
    let checks = r.by_check(node, "`limits`", |r, check, node| limits_of(r, check, node));
    let mut all = Vec::new();
    for (check, entry) in checks {
        for (name, value, because) in entry.value {
            all.push(LimitDoc { check: Spanned::new(check.clone(), entry.span), name, value, because });
        }
    }
    all
}

type Limit = (Spanned<String>, Expr, Spanned<String>);

fn limits_of(r: &mut Reader<'_>, check: &str, node: &Node) -> Option<Vec<Limit>> {
    let NodeValue::Map(map) = &node.value else {
        r.expected(node, "a changed limit needs its value and a reason", "write `{ least: 560, because: \"...\" }`");
        return None;
    };
    let because = map.get("because").and_then(|entry| r.text(&entry.node));
    if !map.contains_key("because") {
        let error = Diagnostic::new(node.span, format!("the changed limit of `{check}` has no `because`"));
        r.error(
            error.label("`because` is missing here").help("add `because: \"...\"`; it is printed on the check sheet"),
        );
    }
    if map.keys().all(|key| key == "because") {
        let error = Diagnostic::new(node.span, format!("`{check}` changes no limit"));
        r.error(error.help("write the limit's name and value: `least: 560`"));
    }
    let mut limits = Vec::new();
    for (name, entry) in map.iter().filter(|(name, _)| *name != "because") {
        let value = setting(r, &entry.node);
        limits.push((Spanned::new(name.clone(), entry.key_span), value?, because.clone()?));
    }
    Some(limits)
}

/// `{ check, of, about, in, up-to, because }`.
pub(super) fn accepted(r: &mut Reader<'_>, node: &Node) -> Option<AcceptedDoc> {
    let mut f = r.fields(node, "an accepted finding")?;
    let check = f.need(r, "check", Reader::name_of_check);
    let of = f.need(r, "of", Reader::text);
    let about = f.opt(r, "about", texts).unwrap_or_default();
    let arrangements = f.opt(r, "in", Reader::names).unwrap_or_default();
    let up_to = f.opt(r, "up-to", Reader::expr);
    let because = f.need(r, "because", Reader::text);
    f.close(r);
    Some(AcceptedDoc { check: check?, of: of?, about, arrangements, up_to, because: because? })
}

/// A list of texts; a single text counts as a list of one.
fn texts(r: &mut Reader<'_>, node: &Node) -> Option<Vec<Spanned<String>>> {
    if !matches!(node.value, NodeValue::List(_)) {
        return r.text(node).map(|text| vec![text]);
    }
    Some(r.list(node, "`about`", Reader::text).into_iter().map(|text| text.value).collect())
}

/// One stock.
pub(super) fn stock(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<StockDoc> {
    let mut f = r.fields(node, &format!("stock `{name}`"))?;
    let material = f.opt(r, "material", Reader::name);
    let sheets = sizes(r, &mut f, "sheets", "price");
    let offcuts = sizes(r, &mut f, "offcuts", "count");
    let useful = f.opt(r, "useful", Reader::pair);
    let stages = f.word(r, "stages", &["2", "3", "free"]);
    let grain = f.word(r, "grain", &["long", "short", "none"]);
    let kerf = f.opt(r, "kerf", Reader::expr);
    let trim = f.opt(r, "trim", Reader::expr);
    let price = f.opt(r, "price", Reader::expr);
    let thickness = f.opt(r, "thickness", Reader::expr);
    f.close(r);
    Some(StockDoc { material, sheets, offcuts, useful, stages, grain, kerf, trim, price, thickness })
}

/// A list of `[length, width]` and `{ size: [length, width], more }`.
fn sizes(r: &mut Reader<'_>, f: &mut Fields<'_>, key: &'static str, more: &'static str) -> Vec<SheetSizeDoc> {
    let list =
        |r: &mut Reader<'_>, node: &Node| Some(r.list(node, &format!("`{key}`"), |r, node| one_size(r, node, more)));
    f.opt(r, key, list).unwrap_or_default().into_iter().map(|size| size.value).collect()
}

fn one_size(r: &mut Reader<'_>, node: &Node, key: &'static str) -> Option<SheetSizeDoc> {
    if !matches!(node.value, NodeValue::Map(_)) {
        return r.pair(node).map(|size| SheetSizeDoc { size, more: None });
    }
    let mut f = r.fields(node, "a sheet")?;
    let size = f.need(r, "size", Reader::pair);
    let more = f.opt(r, key, Reader::expr);
    f.close(r);
    Some(SheetSizeDoc { size: size?, more })
}
