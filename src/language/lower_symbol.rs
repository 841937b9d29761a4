//! The tree of a symbol file to its typed document.

mod entries;
mod moves;
mod parts;
mod pieces;
mod recipe;
mod shapes;

use super::expression::Expr;
use super::named::Named;
use super::node::Node;
use super::reader::{Fields, Own, Reader};
use super::symbol::{PoseDoc, SizeDoc, SymbolDoc};
use super::symbol_name::symbol_name;
use crate::base::content::Key;
use crate::diagnostic::{Diagnostic, Sink};
use crate::model::Service;
use crate::source::{SourceMap, Span, Spanned};
use entries::{hardware, named, setting, value};
pub(super) use parts::{LOOSE_SIDES, PLACED_SIDES};
pub(super) use recipe::lower as lower_recipe;

/// Name of the one pose of a symbol that lists none.
const ONLY_POSE: &str = "as-built";
/// Most poses of a symbol.
pub(super) const MOST_POSES: usize = 64;

/// The document of a symbol's tree. Nothing comes back when there is any mistake; the mistakes go to the sink.
pub(super) fn lower(root: &Node, sources: &SourceMap, sink: &mut Sink) -> Option<SymbolDoc> {
    let mut reader = Reader::new(sources, sink);
    let r = &mut reader;
    if root.as_map().is_some_and(|map| map.contains_key("boxwright") && !map.contains_key("symbol")) {
        let place = root.as_map().and_then(|map| map.get("boxwright")).map_or(root.span, |entry| entry.key_span);
        r.error(
            Diagnostic::new(place, "this is a layout, and a symbol is wanted")
                .help("begin a symbol with `symbol: group/name`"),
        );
        return None;
    }
    let mut f = r.fields(root, "the symbol")?;
    let symbol = f.need(r, "symbol", symbol_name);
    let says = f.need(r, "says", Reader::text);
    let outside = f.opt(r, "outside", Reader::flag).is_some_and(|outside| outside.value);
    let size = f.need(r, "size", sizes);
    let settings = named(r, &mut f, "settings", setting);
    let lets = named(r, &mut f, "let", |r, _, node| value(r, node));
    let exports = named(r, &mut f, "exports", |r, _, node| value(r, node));
    let poses = poses(r, &mut f);
    let mut tags = Own::new("tags", "tag", "the symbol");
    f.section("tags").inspect(|node| r.declare(node, &mut tags));
    let solids = named(r, &mut f, "solids", |r, name, node| shapes::solid(r, name, node, &tags));
    let spaces = named(r, &mut f, "spaces", shapes::space);
    let moves = named(r, &mut f, "moves", moves::movement);
    moves::in_order(r, &moves);
    let plan = f.section("plan").map(|node| r.list(node, "`plan`", shapes::plan_line)).unwrap_or_default();
    let parts = named(r, &mut f, "parts", parts::part);
    let pieces = named(r, &mut f, "pieces", pieces::piece);
    let hardware = named(r, &mut f, "hardware", hardware);
    let (fixed_mass, contents_mass) = f.opt(r, "mass", mass).unwrap_or_default();
    let connects = f
        .section("connects")
        .map(|node| r.list(node, "`connects`", |r, node| r.known::<Service>(node, "connects")))
        .unwrap_or_default();
    f.close(r);
    if r.failures() > 0 {
        return None;
    }
    let connects = connects.into_iter().map(|service| service.value).collect();
    let (symbol, says, size) = (symbol?, says?, size?);
    #[rustfmt::skip]
    let doc = SymbolDoc {
        content: Key::default(), symbol, says, outside, size, settings, lets, exports, poses, solids, spaces, moves, plan, parts, pieces, hardware,
        fixed_mass, contents_mass, connects,
    };
    Some(doc)
}

fn sizes(r: &mut Reader<'_>, node: &Node) -> Option<[SizeDoc; 3]> {
    let mut f = r.fields(node, "`size`")?;
    let [run, depth, height] = ["run", "depth", "height"].map(|key| f.need(r, key, one_size));
    f.close(r);
    Some([run?, depth?, height?])
}

fn one_size(r: &mut Reader<'_>, node: &Node) -> Option<SizeDoc> {
    let mut f = r.fields(node, "a size")?;
    let default = f.need(r, "default", Reader::expr);
    let least = f.need(r, "least", Reader::expr);
    let most = f.need(r, "most", Reader::expr);
    f.close(r);
    Some(SizeDoc { default: default?, least: least?, most: most?, span: node.span })
}

fn poses(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Named<PoseDoc> {
    let place = f.key_span("symbol");
    if f.section("poses").is_some_and(|node| r.refuse_many(node, "poses", MOST_POSES)) {
        return Named::new();
    }
    let mut poses = named(r, f, "poses", |r, name, node| {
        let variables = r.named(node, &format!("pose `{name}`"), |r, _, node| value(r, node));
        Some(PoseDoc { variables })
    });
    if let Some((first, rest)) = poses.values().collect::<Vec<_>>().split_first() {
        for other in rest {
            same_variables(r, first, other);
        }
    }
    if poses.is_empty() {
        poses.insert(ONLY_POSE.to_owned(), Spanned::new(PoseDoc { variables: Named::new() }, place));
    }
    poses
}

/// Every pose has to set the variables of the first.
fn same_variables(r: &mut Reader<'_>, first: &Spanned<PoseDoc>, other: &Spanned<PoseDoc>) {
    let missing =
        |of: &PoseDoc, than: &PoseDoc| than.variables.keys().find(|name| !of.variables.contains_key(*name)).cloned();
    let mut report = |span: Span, other: Span, name: String| {
        let error = Diagnostic::new(span, format!("this pose does not set `{name}`"));
        r.error(error.note(other, format!("this one sets `{name}`")).help("every pose sets the same variables"));
    };
    if let Some(name) = missing(&other.value, &first.value) {
        report(other.span, first.span, name);
    }
    if let Some(name) = missing(&first.value, &other.value) {
        report(first.span, other.span, name);
    }
}

fn mass(r: &mut Reader<'_>, node: &Node) -> Option<(Option<Expr>, Option<Expr>)> {
    let mut f = r.fields(node, "`mass`")?;
    let masses = (f.opt(r, "fixed", Reader::expr), f.opt(r, "contents", Reader::expr));
    f.close(r);
    Some(masses)
}

#[cfg(test)]
mod tests;
