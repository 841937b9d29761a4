//! Parts with their bands and machining.

use super::entries::repeated;
use crate::diagnostic::Diagnostic;
use crate::language::expression::Expr;
use crate::language::fittings::JointDoc;
use crate::language::node::{Node, NodeValue};
use crate::language::reader::{Fields, Reader};
use crate::language::symbol::{
    BandsDoc, CutoutShape, ExtentDoc, MachiningDoc, MachiningKind, PartDoc, PartPlaceDoc, PartShape, PartSize, RangeDoc,
};
use crate::model::Grain;
use crate::source::Spanned;

/// Sides of a part without a place.
pub(in crate::language) const LOOSE_SIDES: [&str; 4] = ["front", "back", "left", "right"];
/// Sides of a module, and of what stands in it.
pub(in crate::language) const PLACED_SIDES: [&str; 6] = ["front", "back", "left", "right", "top", "bottom"];

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
    let sides = if placed { placed_sides } else { loose_sides };
    let bands = BandsDoc { sides: f.opt(r, "bands", sides).unwrap_or_default() };
    let scribe = BandsDoc { sides: f.opt(r, "scribe", sides).unwrap_or_default() };
    refuse_banded_scribe(r, &bands, &scribe);
    let outline = f.opt(r, "outline", Reader::points);
    let under_roof = f.opt(r, "under-roof", Reader::expr);
    if let (Some(gap), true) = (&under_roof, outline.is_some() || !placed) {
        let error =
            Diagnostic::new(gap.span, "only a part with a place and without an outline is cut off below the roof");
        r.error(error.help("give it `at`, and leave `outline` out: it follows from the roof"));
    }
    let mut machining = machining(r, &mut f, "grooves", groove);
    machining.extend(self::machining(r, &mut f, "holes", hole));
    machining.extend(self::machining(r, &mut f, "cutouts", cutout));
    let faced = f.opt(r, "faced", Reader::flag).is_some_and(|faced| faced.value);
    let held = f.opt(r, "held", Reader::name);
    let joint = f.opt(r, "joint", joint);
    let lock = f.opt(r, "lock", |r, node| r.known(node, "lock")).map(|lock| lock.value);
    let load = f.opt(r, "load", Reader::expr);
    let clear = f.opt(r, "clear", Reader::expr);
    let note = f.opt(r, "note", Reader::text);
    f.close(r);
    let (size, stock) = (size?, stock?);
    #[rustfmt::skip]
    let part = PartDoc { when, each, size, stock, grain, bands, scribe, outline, under_roof, machining, faced, held, joint, lock, load, clear, note };
    Some(part)
}

/// A word, or a word with figures.
fn joint(r: &mut Reader<'_>, node: &Node) -> Option<JointDoc> {
    if !matches!(node.value, NodeValue::Map(_)) {
        let by = r.known(node, "joint")?;
        return Some(JointDoc { by: by.value, diameter: None, length: None, pitch: None });
    }
    let mut f = r.fields(node, "the joint")?;
    let by = f.need(r, "by", |r, node| r.known(node, "by"));
    let [diameter, length, pitch] = ["diameter", "length", "pitch"].map(|key| f.opt(r, key, Reader::expr));
    f.close(r);
    Some(JointDoc { by: by?.value, diameter, length, pitch })
}

/// A banded edge can't be fitted to a wall.
fn refuse_banded_scribe(r: &mut Reader<'_>, bands: &BandsDoc, scribe: &BandsDoc) {
    for (side, _) in &scribe.sides {
        if let Some((band, _)) = bands.sides.iter().find(|(band, _)| band.value == side.value) {
            let message = format!("the edge at the `{}` is scribed and banded", side.value);
            let error = Diagnostic::new(side.span, message).note(band.span, "its band");
            r.error(error.help("leave one out: a band can't be fitted to a wall"));
        }
    }
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

fn places(r: &mut Reader<'_>, node: &Node) -> Option<Vec<PartPlaceDoc>> {
    if matches!(node.value, NodeValue::Map(_)) {
        return place(r, node).map(|place| vec![place]);
    }
    let places = r.list(node, "`at`", place);
    if places.is_empty() {
        r.expected(node, "`at` needs a place", "write `at: { u: [a, b], v: [c, d], w: [e, f] }`");
    }
    Some(places.into_iter().map(|place| place.value).collect())
}

fn place(r: &mut Reader<'_>, node: &Node) -> Option<PartPlaceDoc> {
    let mut f = r.fields(node, "a place")?;
    if f.has("slope") {
        let u = f.need(r, "u", Reader::range);
        let slope = f.need(r, "slope", slope);
        f.close(r);
        return Some(PartPlaceDoc { shape: PartShape::Slope(u?, slope?), face: None, span: node.span });
    }
    let [u, v, w] = ["u", "v", "w"].map(|key| f.need(r, key, Reader::range));
    let face = f.word(r, "face", &PLACED_SIDES);
    f.close(r);
    Some(PartPlaceDoc { shape: PartShape::Block([u?, v?, w?]), face, span: node.span })
}

fn slope(r: &mut Reader<'_>, node: &Node) -> Option<[[Expr; 2]; 2]> {
    let mut ends = r.list(node, "`slope`", Reader::pair).into_iter().map(|end| end.value);
    if let (Some(from), Some(to), None) = (ends.next(), ends.next(), ends.next()) {
        return Some([from, to]);
    }
    r.expected(node, "`slope` needs two ends", "write `slope: [[v, w], [v, w]]`, its lower face seen from the side");
    None
}

/// `{ u, v, w }`.
pub(super) fn extent(r: &mut Reader<'_>, node: &Node) -> Option<ExtentDoc> {
    let mut f = r.fields(node, "a place")?;
    let [u, v, w] = ["u", "v", "w"].map(|key| f.need(r, key, Reader::range));
    f.close(r);
    Some(ExtentDoc { ranges: [u?, v?, w?], span: node.span })
}

type Sides = Vec<(Spanned<String>, Expr)>;

fn loose_sides(r: &mut Reader<'_>, node: &Node) -> Option<Sides> {
    sides(r, node, &LOOSE_SIDES)
}

fn placed_sides(r: &mut Reader<'_>, node: &Node) -> Option<Sides> {
    sides(r, node, &PLACED_SIDES)
}

fn sides(r: &mut Reader<'_>, node: &Node, known: &[&'static str]) -> Option<Sides> {
    let owner = r.subject().to_owned();
    let mut f = r.fields(node, &owner)?;
    let mut sides = Sides::new();
    for side in known {
        if let Some(figure) = f.opt(r, side, Reader::expr) {
            sides.push((Spanned::new((*side).to_owned(), f.key_span(side)), figure));
        }
    }
    f.close(r);
    Some(sides)
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
    let (when, each) = repeated(r, &mut f);
    let (from, to) = (f.need(r, "from", Reader::pair), f.need(r, "to", Reader::pair));
    let (width, depth) = (f.need(r, "width", Reader::expr), f.need(r, "depth", Reader::expr));
    let holds = f.opt(r, "holds", Reader::name);
    let reverse = reverse(r, &mut f);
    f.close(r);
    let kind = MachiningKind::Groove { from: from?, to: to?, width: width?, depth: depth?, holds };
    Some(MachiningDoc { when, each, reverse, kind, span: node.span })
}

/// `reverse: yes`: on the back of the board.
fn reverse(r: &mut Reader<'_>, f: &mut Fields<'_>) -> bool {
    f.opt(r, "reverse", Reader::flag).is_some_and(|reverse| reverse.value)
}

fn hole(r: &mut Reader<'_>, node: &Node) -> Option<MachiningDoc> {
    let mut f = r.fields(node, "a hole")?;
    let (when, each) = repeated(r, &mut f);
    let at = f.need(r, "at", Reader::pair);
    let diameter = f.need(r, "diameter", Reader::expr);
    let depth = f.opt(r, "depth", Reader::expr);
    let reverse = reverse(r, &mut f);
    f.close(r);
    let kind = MachiningKind::Hole { at: at?, diameter: diameter?, depth };
    Some(MachiningDoc { when, each, reverse, kind, span: node.span })
}

fn cutout(r: &mut Reader<'_>, node: &Node) -> Option<MachiningDoc> {
    let mut f = r.fields(node, "a cutout")?;
    let name = f.need(r, "name", Reader::text);
    let (when, each) = repeated(r, &mut f);
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
    let kind = MachiningKind::Cutout { name: name?, shape: shape? };
    Some(MachiningDoc { when, each, reverse: false, kind, span: node.span })
}

/// `{ length: [a, b], width: [c, d] }`.
fn flat_rect(r: &mut Reader<'_>, node: &Node) -> Option<[RangeDoc; 2]> {
    let mut f = r.fields(node, "a rectangle")?;
    let (length, width) = (f.need(r, "length", Reader::range), f.need(r, "width", Reader::range));
    f.close(r);
    Some([length?, width?])
}
