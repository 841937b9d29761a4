//! Parts with their bands and machining.

use super::repeated;
use crate::diagnostic::Diagnostic;
use crate::language::node::{Node, NodeValue};
use crate::language::reader::{Fields, Reader};
use crate::language::symbol::{BandsDoc, CutoutShape, ExtentDoc, MachiningDoc, PartDoc, PartSize, RangeDoc};
use crate::model::Grain;
use crate::source::Spanned;

const LOOSE_SIDES: [&str; 4] = ["front", "back", "left", "right"];
const PLACED_SIDES: [&str; 6] = ["front", "back", "left", "right", "top", "bottom"];

/// One part.
pub(super) fn part(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<PartDoc> {
    let mut f = r.fields(node, &format!("part `{name}`"))?;
    let (when, each) = repeated(r, &mut f);
    let stock = f.need(r, "stock", Reader::name);
    let placed = f.has("at");
    let size = if placed { placed_size(r, &mut f) } else { loose_size(r, &mut f) };
    let grain = match f.word(r, "grain", &["length", "width", "free"]).as_ref().map(|grain| grain.value.as_str()) {
        Some("width") => Grain::Width,
        Some("free") => Grain::Free,
        _ => Grain::Length,
    };
    let bands = f.opt(r, "bands", if placed { placed_bands } else { loose_bands }).unwrap_or_default();
    let scribe = f.opt(r, "scribe", Reader::expr);
    let outline = f.opt(r, "outline", Reader::points);
    let mut machining = machining(r, &mut f, "grooves", groove);
    machining.extend(self::machining(r, &mut f, "holes", hole));
    machining.extend(self::machining(r, &mut f, "cutouts", cutout));
    let note = f.opt(r, "note", Reader::text);
    f.close(r);
    let (size, stock) = (size?, stock?);
    Some(PartDoc { when, each, size, stock, grain, bands: BandsDoc { sides: bands }, scribe, outline, machining, note })
}

fn loose_size(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<PartSize> {
    if !f.has("length") && !f.has("width") {
        let error = Diagnostic::new(f.span(), format!("{} has no size", f.owner()));
        r.error(error.help("write `at: { u, v, w }` for its place in the module, or `length` and `width`"));
        let _known = (f.section("length"), f.section("width"), f.section("count"), f.section("at"), f.section("long"));
        return None;
    }
    let count = f.opt(r, "count", Reader::expr);
    let length = f.need(r, "length", Reader::expr);
    let width = f.need(r, "width", Reader::expr);
    Some(PartSize::Loose { count, length: length?, width: width? })
}

fn placed_size(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<PartSize> {
    let at = f.opt(r, "at", places);
    let long = f.word(r, "long", &["u", "v", "w"]);
    let long = long.map(|long| Spanned::new(long.value.chars().next().unwrap_or('u'), long.span));
    for key in ["length", "width", "count"] {
        if f.has(key) {
            f.section(key);
            let error = Diagnostic::new(f.key_span(key), format!("{} has `at` and `{key}`", f.owner()));
            r.error(error.help(format!("leave `{key}` out: sizes and count follow from the places under `at`")));
        }
    }
    Some(PartSize::Placed { at: at?, long })
}

fn places(r: &mut Reader<'_>, node: &Node) -> Option<Vec<ExtentDoc>> {
    if matches!(node.value, NodeValue::Map(_)) {
        return extent(r, node).map(|extent| vec![extent]);
    }
    let places = r.list(node, "`at`", extent);
    if places.is_empty() {
        r.expected(node, "`at` needs a place", "write `at: { u: [a, b], v: [c, d], w: [e, f] }`");
    }
    Some(places.into_iter().map(|place| place.value).collect())
}

fn extent(r: &mut Reader<'_>, node: &Node) -> Option<ExtentDoc> {
    let mut f = r.fields(node, "a place")?;
    let [u, v, w] = ["u", "v", "w"].map(|key| f.need(r, key, Reader::range));
    f.close(r);
    Some(ExtentDoc { ranges: [u?, v?, w?], span: node.span })
}

type Sides = Vec<(Spanned<String>, crate::language::expression::Expr)>;

fn loose_bands(r: &mut Reader<'_>, node: &Node) -> Option<Sides> {
    bands(r, node, &LOOSE_SIDES)
}

fn placed_bands(r: &mut Reader<'_>, node: &Node) -> Option<Sides> {
    bands(r, node, &PLACED_SIDES)
}

fn bands(r: &mut Reader<'_>, node: &Node, sides: &[&'static str]) -> Option<Sides> {
    let mut f = r.fields(node, "`bands`")?;
    let mut bands = Sides::new();
    for side in sides {
        if let Some(thickness) = f.opt(r, side, Reader::expr) {
            bands.push((Spanned::new((*side).to_owned(), f.key_span(side)), thickness));
        }
    }
    f.close(r);
    Some(bands)
}

fn machining(
    r: &mut Reader<'_>,
    f: &mut Fields<'_>,
    key: &'static str,
    read: fn(&mut Reader<'_>, &Node) -> Option<MachiningDoc>,
) -> Vec<MachiningDoc> {
    let Some(node) = f.section(key) else { return Vec::new() };
    r.list(node, &format!("`{key}`"), read).into_iter().map(|entry| entry.value).collect()
}

fn groove(r: &mut Reader<'_>, node: &Node) -> Option<MachiningDoc> {
    let mut f = r.fields(node, "a groove")?;
    let (from, to) = (f.need(r, "from", Reader::pair), f.need(r, "to", Reader::pair));
    let (width, depth) = (f.need(r, "width", Reader::expr), f.need(r, "depth", Reader::expr));
    f.close(r);
    Some(MachiningDoc::Groove { from: from?, to: to?, width: width?, depth: depth? })
}

fn hole(r: &mut Reader<'_>, node: &Node) -> Option<MachiningDoc> {
    let mut f = r.fields(node, "a hole")?;
    let at = f.need(r, "at", Reader::pair);
    let diameter = f.need(r, "diameter", Reader::expr);
    let depth = f.opt(r, "depth", Reader::expr);
    let each = f.opt(r, "each", Reader::each);
    f.close(r);
    Some(MachiningDoc::Hole { at: at?, diameter: diameter?, depth, each })
}

fn cutout(r: &mut Reader<'_>, node: &Node) -> Option<MachiningDoc> {
    let mut f = r.fields(node, "a cutout")?;
    let name = f.need(r, "name", Reader::text);
    let when = f.opt(r, "when", Reader::condition);
    let written: Vec<&str> = ["rect", "circle", "outline"].into_iter().filter(|key| f.has(key)).collect();
    let shape = match written.as_slice() {
        ["rect"] => f.opt(r, "rect", flat_rect).map(|[length, width]| CutoutShape::Rect(length, width)),
        ["outline"] => f.opt(r, "outline", Reader::points).map(CutoutShape::Outline),
        ["circle"] => {
            let (centre, radius) = (f.opt(r, "circle", Reader::pair), f.need(r, "radius", Reader::expr));
            centre.zip(radius).map(|(centre, radius)| CutoutShape::Circle(centre, radius))
        }
        _ => {
            let _known = ["rect", "circle", "outline", "radius"].map(|key| f.section(key).is_some());
            let error =
                Diagnostic::new(node.span, format!("a cutout has one shape, and {} are written", written.len()));
            r.error(error.help("write one of `rect`, `circle` and `outline`"));
            None
        }
    };
    f.close(r);
    Some(MachiningDoc::Cutout { name: name?, when, shape: shape? })
}

/// `{ length: [a, b], width: [c, d] }`.
fn flat_rect(r: &mut Reader<'_>, node: &Node) -> Option<[RangeDoc; 2]> {
    let mut f = r.fields(node, "a rectangle")?;
    let (length, width) = (f.need(r, "length", Reader::range), f.need(r, "width", Reader::range));
    f.close(r);
    Some([length?, width?])
}
