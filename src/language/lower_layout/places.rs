//! People, the box with its shell, openings and zones.

use crate::diagnostic::Diagnostic;
use crate::language::expression::Expr;
use crate::language::layout::{
    BoxDoc, BridgeDoc, CutawayDoc, CutawayShape, LayerDoc, OpeningDoc, PersonDoc, RoofDoc, ShellDoc, WallLine, ZoneDoc,
};
use crate::language::node::{Node, NodeValue};
use crate::language::place::PlaceDoc;
use crate::language::reader::{Fields, Own, Reader};
use crate::model::{HingeSide, OpeningKind, Purpose, Wall, Word};
use crate::source::Spanned;

/// Lower edges of the box, as words.
pub(in crate::language) const FLOOR_EDGES: [&str; 4] = ["rear-floor", "front-floor", "left-floor", "right-floor"];
/// Upper edges.
pub(in crate::language) const ROOF_EDGES: [&str; 4] = ["rear-roof", "front-roof", "left-roof", "right-roof"];
/// Upright edges.
pub(in crate::language) const CORNERS: [&str; 4] = ["front-left", "front-right", "rear-left", "rear-right"];
/// Keys of the edges of a place, in the order of [`edges`].
pub(in crate::language) const EDGE_KEYS: [&str; 6] = ["front", "rear", "left", "right", "centre-x", "centre-y"];

/// `{ stature, mass }`.
pub(super) fn person(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<PersonDoc> {
    let mut f = r.fields(node, &format!("person `{name}`"))?;
    let stature = f.opt(r, "stature", Reader::expr);
    let mass = f.opt(r, "mass", Reader::expr);
    f.close(r);
    Some(PersonDoc { stature, mass })
}

/// `box:`.
pub(super) fn space(r: &mut Reader<'_>, node: &Node) -> Option<BoxDoc> {
    let mut f = r.fields(node, "`box`")?;
    let length = f.need(r, "length", Reader::expr);
    let width = f.need(r, "width", Reader::expr);
    let height = f.need(r, "height", Reader::expr);
    let roof_written = f.has("roof");
    let roof = f.opt(r, "roof", roof);
    let shell = f.opt(r, "shell", shell).unwrap_or_default();
    let cutaways = f.section("cutaways").map(|node| r.named(node, "`cutaways`", cutaway)).unwrap_or_default();
    let walls = f.opt(r, "walls", walls).unwrap_or_default();
    f.close(r);
    let roof = if roof_written { roof? } else { RoofDoc::Flat };
    Some(BoxDoc { length: length?, width: width?, height: height?, roof, shell, cutaways, walls })
}

fn roof(r: &mut Reader<'_>, node: &Node) -> Option<RoofDoc> {
    match &node.value {
        NodeValue::List(_) => {
            let before = r.failures();
            let points = r.list(node, "`roof`", Reader::pair).into_iter().map(|point| point.value).collect();
            (r.failures() == before).then(|| RoofDoc::Line(Spanned::new(points, node.span)))
        }
        NodeValue::Text(text, _) if text == "flat" => Some(RoofDoc::Flat),
        NodeValue::Map(_) => shaped_roof(r, node),
        _ => {
            let help = "write `{ shape: arch, rise: 65 }`, `{ shape: ridge, rise: 90 }`, `flat` or a list of `[y, z]`";
            r.expected(node, "`roof` needs a shape", help);
            None
        }
    }
}

fn shaped_roof(r: &mut Reader<'_>, node: &Node) -> Option<RoofDoc> {
    let mut f = r.fields(node, "`roof`")?;
    let shape = f.need_word(r, "shape", &["flat", "arch", "ridge"]).map(|shape| shape.value);
    let flat = shape.as_deref() == Some("flat");
    let rise = match (&shape, flat) {
        (Some(_), false) => f.need(r, "rise", Reader::expr),
        (None, _) => f.opt(r, "rise", Reader::expr),
        _ => None,
    };
    f.close(r);
    match shape?.as_str() {
        "flat" => Some(RoofDoc::Flat),
        "arch" => rise.map(RoofDoc::Arch),
        _ => rise.map(RoofDoc::Ridge),
    }
}

fn shell(r: &mut Reader<'_>, node: &Node) -> Option<ShellDoc> {
    let mut f = r.fields(node, "`shell`")?;
    let walls = f.opt(r, "walls", Reader::name);
    let roof = f.opt(r, "roof", Reader::name);
    let floor = f.opt(r, "floor", Reader::name);
    f.close(r);
    Some(ShellDoc { walls, roof, floor })
}

fn cutaway(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<CutawayDoc> {
    let mut f = r.fields(node, &format!("cutaway `{name}`"))?;
    if f.has("box") {
        let faces = f.opt(r, "box", block);
        let span = f.key_span("box");
        f.close(r);
        return Some(CutawayDoc { shape: CutawayShape::Block { faces: Box::new(faces?), span } });
    }
    let edges: Vec<&str> = [FLOOR_EDGES, ROOF_EDGES, CORNERS].concat();
    let edge = f.need_word(r, "edge", &edges);
    let along = f.need(r, "along", Reader::expr);
    let corner = edge.as_ref().is_some_and(|edge| CORNERS.contains(&edge.value.as_str()));
    let (key, foreign) = if corner { ("across", "height") } else { ("height", "across") };
    let (angle, odd) = (f.has("angle"), f.has(foreign));
    let other = match (angle, odd || edge.is_none()) {
        (true, _) => f.opt(r, "angle", Reader::expr),
        (false, true) => f.opt(r, key, Reader::expr),
        (false, false) => f.need(r, key, Reader::expr),
    };
    for known in [key, foreign, "angle"] {
        f.section(known);
    }
    let mut twice = (angle && f.has(key)).then(|| (f.key_span(key), format!("`{key}` and `angle` say the same")));
    if edge.is_some() && odd {
        let what = if corner { "an upright corner has no" } else { "an edge of floor or roof has no" };
        twice = Some((f.key_span(foreign), format!("{what} `{foreign}`")));
    }
    if let Some((span, message)) = twice {
        let help = format!("write `along` with `{key}`, or with `angle`");
        r.error(Diagnostic::new(span, message).help(help));
    }
    f.section("box");
    f.close(r);
    Some(CutawayDoc { shape: CutawayShape::Wedge { edge: edge?, along: along?, other: other?, angle } })
}

/// `walls: { sides, left, right, front, rear }`, each `[[z, inward], ...]`; `sides` is left and right.
fn walls(r: &mut Reader<'_>, node: &Node) -> Option<[Option<WallLine>; 4]> {
    let mut f = r.fields(node, "`walls`")?;
    let line = |r: &mut Reader<'_>, node: &Node| {
        let before = r.failures();
        let owner = r.subject().to_owned();
        let points: Vec<[Expr; 2]> = r.list(node, &owner, Reader::pair).into_iter().map(|point| point.value).collect();
        if points.len() < 2 && r.failures() == before {
            let error = Diagnostic::new(node.span, format!("{owner} needs two heights at least"));
            r.error(error.help("write `[height, inward]` from the floor up: `[[0, 0], [900, 0], [1900, 120]]`"));
        }
        (r.failures() == before).then(|| Spanned::new(points, node.span))
    };
    let sides = f.opt(r, "sides", line);
    let [left, right, front, rear] = ["left", "right", "front", "rear"].map(|key| f.opt(r, key, line));
    f.close(r);
    Some([left.or_else(|| sides.clone()), right.or(sides), front, rear])
}

fn block(r: &mut Reader<'_>, node: &Node) -> Option<[Option<Expr>; 6]> {
    let mut f = r.fields(node, "this cutaway's `box`")?;
    let faces = ["front", "rear", "left", "right", "floor", "top"]
        .map(|key| if key == "floor" { f.opt(r, key, Reader::expr) } else { f.need(r, key, Reader::expr) });
    f.close(r);
    Some(faces)
}

/// Layers from inside to outside.
pub(super) fn layup(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<Vec<LayerDoc>> {
    let layers = r.list(node, &format!("layup `{name}`"), |r, node| {
        let mut f = r.fields(node, "a layer")?;
        let material = f.need(r, "material", Reader::name);
        let thickness = f.need(r, "thickness", Reader::expr);
        let frame = f.opt(r, "frame", bridge);
        f.close(r);
        Some(LayerDoc { material: material?, thickness: thickness?, frame })
    });
    if layers.is_empty() {
        r.expected(
            node,
            "a layup needs layers",
            "write `- { material: ..., thickness: ... }` for each, from inside to outside",
        );
    }
    Some(layers.into_iter().map(|layer| layer.value).collect())
}

/// `{ material, width, spacing }`.
fn bridge(r: &mut Reader<'_>, node: &Node) -> Option<BridgeDoc> {
    let mut f = r.fields(node, "`frame`")?;
    let material = f.need(r, "material", Reader::name);
    let width = f.need(r, "width", Reader::expr);
    let spacing = f.need(r, "spacing", Reader::expr);
    f.close(r);
    Some(BridgeDoc { material: material?, width: width?, spacing: spacing? })
}

/// The plan edges of an element, written among its other keys.
fn edges<const N: usize>(r: &mut Reader<'_>, f: &mut Fields<'_>, keys: [&'static str; N]) -> PlaceDoc {
    let mut place = PlaceDoc { span: f.span(), ..PlaceDoc::default() };
    for key in keys {
        let value = f.opt(r, key, Reader::expr);
        match key {
            "front" => place.front = value,
            "rear" => place.rear = value,
            "left" => place.left = value,
            "right" => place.right = value,
            "floor" => place.floor = value,
            "top" => place.top = value,
            "centre-x" => place.centre_x = value,
            _ => place.centre_y = value,
        }
    }
    place
}

/// `place: { ... }` of a module.
pub(super) fn place(r: &mut Reader<'_>, node: &Node) -> Option<PlaceDoc> {
    let mut f = r.fields(node, "`place`")?;
    let place = edges(r, &mut f, ["front", "rear", "left", "right", "floor", "top", "centre-x", "centre-y"]);
    f.close(r);
    Some(place)
}

/// One opening.
pub(super) fn opening(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<OpeningDoc> {
    let mut f = r.fields(node, &format!("opening `{name}`"))?;
    let kind = f.need_known::<OpeningKind>(r, "kind");
    let vents = kind.as_ref().is_some_and(|kind| kind.value == OpeningKind::Vent);
    let wall = f.known(r, "wall", if vents { Wall::ALL } else { &Wall::UPRIGHT });
    let place = edges(r, &mut f, ["front", "rear", "left", "right"]);
    let centre = f.opt(r, "centre", centre);
    let run = f.opt(r, "run", Reader::expr);
    let depth = f.opt(r, "depth", Reader::expr);
    let sill = f.opt(r, "sill", Reader::expr);
    let height = f.opt(r, "height", Reader::expr);
    let radius = f.opt(r, "radius", Reader::expr);
    let hinge = f.known(r, "hinge", HingeSide::ALL);
    let swings = f.word(r, "swings", &["in", "out", "no"]);
    let opens = f.opt(r, "opens", Reader::expr);
    let slides = f.known(r, "slides", &Wall::UPRIGHT);
    let travel = f.opt(r, "travel", Reader::expr);
    let of = f.word(r, "of", &["vehicle"]);
    let escape = f.opt(r, "escape", Reader::flag);
    let lining = f.opt(r, "lining", Reader::expr);
    let free_area = f.opt(r, "free-area", Reader::expr);
    let u_value = f.opt(r, "u-value", Reader::expr);
    f.close(r);
    let kind = kind?;
    #[rustfmt::skip]
    let doc = OpeningDoc { kind, wall, place, centre, run, depth, sill, height, radius, hinge, swings, opens, slides, travel, of, escape, lining, free_area, u_value };
    Some(doc)
}

/// One middle, or two of a roof hatch.
fn centre(r: &mut Reader<'_>, node: &Node) -> Option<Spanned<Vec<Expr>>> {
    let values = match node.value {
        NodeValue::List(_) => r.pair(node).map(Vec::from),
        _ => r.expr(node).map(|middle| vec![middle]),
    };
    values.map(|values| Spanned::new(values, node.span))
}

/// One zone.
pub(super) fn zone(r: &mut Reader<'_>, name: &str, node: &Node, own: &Own<Purpose>) -> Option<ZoneDoc> {
    let mut f = r.fields(node, &format!("zone `{name}`"))?;
    let purpose = f.need(r, "purpose", |r, node| {
        let written = r.text(node)?;
        r.said(&written, own)
    });
    let place = edges(r, &mut f, EDGE_KEYS);
    let level = f.opt(r, "level", Reader::expr);
    f.close(r);
    Some(ZoneDoc { purpose: purpose?, place, level })
}
