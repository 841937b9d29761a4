//! Drawers, doors and lids.

use super::entries::repeated;
use crate::base::text::one_of;
use crate::diagnostic::Diagnostic;
use crate::language::expression::{Expr, ExprKind};
use crate::language::named::Named;
use crate::language::node::Node;
use crate::language::reader::{Fields, Reader};
use crate::language::symbol::{MoveDoc, MoveShape, RangeDoc};
use crate::source::Spanned;

const KINDS: [&str; 3] = ["slides", "hinged", "lid"];
const OTHER_KEYS: [&str; 11] =
    ["u", "v", "w", "travel", "after", "through", "opens", "side", "at", "thickness", "inward"];

/// One move.
pub(super) fn movement(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<MoveDoc> {
    let mut f = r.fields(node, &format!("move `{name}`"))?;
    let (when, each) = repeated(r, &mut f);
    let written: Vec<&str> = KINDS.into_iter().filter(|key| f.has(key)).collect();
    let shape = match written.as_slice() {
        ["slides"] => slide(r, &mut f),
        ["hinged"] => leaf(r, &mut f),
        ["lid"] => lid(r, &mut f),
        _ => {
            one_kind(r, &f, &written);
            for key in KINDS.into_iter().chain(OTHER_KEYS) {
                f.section(key);
            }
            None
        }
    };
    let walk_through = f.opt(r, "walk-through", Reader::flag).is_some_and(|walk| walk.value);
    f.close(r);
    Some(MoveDoc { when, each, shape: shape?, walk_through })
}

/// That each move goes after one that is there, and not after itself.
pub(super) fn in_order(r: &mut Reader<'_>, moves: &Named<MoveDoc>) {
    for (name, entry) in moves {
        let MoveShape::Slide { after: Some(after), .. } = &entry.value.shape else { continue };
        if after.value != *name && moves.contains_key(&after.value) {
            continue;
        }
        let message = match after.value == *name {
            true => format!("move `{name}` cannot go after itself"),
            false => format!("the symbol has no move `{}`", after.value),
        };
        let others: Vec<&str> = moves.keys().map(String::as_str).filter(|other| *other != name).collect();
        let help = match others.as_slice() {
            [] => "leave out `after`: there is no other move".to_owned(),
            others => format!("`after` names the move that must be open first: {}", one_of(others.iter().copied())),
        };
        r.error(Diagnostic::new(after.span, message).help(help));
    }
}

fn one_kind(r: &mut Reader<'_>, f: &Fields<'_>, written: &[&str]) {
    let place = written.get(1).map_or(f.span(), |second| f.key_span(second));
    let error = Diagnostic::new(place, format!("{} moves in one way, and {} are written", f.owner(), written.len()));
    r.error(error.help("write `slides: out` for a drawer, `hinged: left` for a door or `lid: back` for a lid"));
}

fn slide(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<MoveShape> {
    let direction = f.word(r, "slides", &["out", "left", "right", "up", "down"]);
    let u = f.need(r, "u", Reader::range);
    let whole_depth = !f.has("v");
    let v = if whole_depth { Some(depth_range(f)) } else { f.opt(r, "v", Reader::range) };
    f.section("v");
    let w = f.need(r, "w", Reader::range);
    let travel = f.need(r, "travel", Reader::expr);
    let after = f.opt(r, "after", Reader::name);
    let through = f.opt(r, "through", Reader::flag).is_some_and(|through| through.value);
    Some(MoveShape::Slide { direction: direction?, body: [u?, v?, w?], travel: travel?, after, through })
}

/// `[0, depth]`.
fn depth_range(f: &Fields<'_>) -> RangeDoc {
    let end = |kind| Expr { kind, span: f.span() };
    RangeDoc { low: end(ExprKind::Number(0.0)), high: end(ExprKind::Name("depth".to_owned())) }
}

fn leaf(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<MoveShape> {
    let hinged = f.word(r, "hinged", &["left", "right", "top", "bottom"]);
    let side = if f.has("side") {
        f.word(r, "side", &["front", "back", "left", "right"])
    } else {
        f.section("side");
        Some(Spanned::new("front".to_owned(), f.key_span("hinged")))
    };
    let along_depth = side.as_ref().is_some_and(|side| matches!(side.value.as_str(), "left" | "right"));
    let across = f.need(r, if along_depth { "v" } else { "u" }, Reader::range);
    let upward = f.need(r, "w", Reader::range);
    let opens = f.need(r, "opens", Reader::expr);
    let at = f.opt(r, "at", Reader::expr);
    let thickness = f.opt(r, "thickness", Reader::expr);
    let inward = f.opt(r, "inward", Reader::flag).is_some_and(|inward| inward.value);
    if side.is_none() {
        let _either = (f.section("u"), f.section("v"));
    }
    let (hinged, side, across, upward, opens) = (hinged?, side?, across?, upward?, opens?);
    Some(MoveShape::Leaf { hinged, side, at, across, upward, opens, thickness, inward })
}

fn lid(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<MoveShape> {
    let hinged = f.word(r, "lid", &["back", "front", "left", "right"]);
    let u = f.need(r, "u", Reader::range);
    let v = f.need(r, "v", Reader::range);
    let at = f.need(r, "at", Reader::expr);
    let opens = f.need(r, "opens", Reader::expr);
    let thickness = f.opt(r, "thickness", Reader::expr);
    Some(MoveShape::Lid { hinged: hinged?, u: u?, v: v?, at: at?, opens: opens?, thickness })
}
