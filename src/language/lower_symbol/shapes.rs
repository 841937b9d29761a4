//! Solids, spaces and linework.

use super::entries::repeated;
use super::parts::PLACED_SIDES;
use crate::base::text::one_of;
use crate::diagnostic::Diagnostic;
use crate::language::expression::{Expr, ExprKind};
use crate::language::node::Node;
use crate::language::reader::{Fields, Own, Reader};
use crate::language::symbol::{LineShape, PlanLineDoc, RangeDoc, SolidDoc, SolidShape, SpaceDoc, TALLEST};
use crate::model::{Need, Said, Tag};
use crate::source::Spanned;

/// One solid.
pub(super) fn solid(r: &mut Reader<'_>, name: &str, node: &Node, own: &Own<Tag>) -> Option<SolidDoc> {
    let mut f = r.fields(node, &format!("solid `{name}`"))?;
    let (when, each) = repeated(r, &mut f);
    let shape = shape(r, &mut f, false);
    let tags = f.opt(r, "tags", |r, node| tags(r, node, own)).unwrap_or_default();
    let bought = f.opt(r, "bought", Reader::flag).is_some_and(|bought| bought.value);
    let open = f.opt(r, "open", Reader::names).unwrap_or_default();
    for side in &open {
        if !PLACED_SIDES.contains(&side.value.as_str()) {
            let error = Diagnostic::new(side.span, format!("a solid has no side `{}`", side.value));
            r.error(error.help(format!("its sides are {}", one_of(PLACED_SIDES))));
        }
    }
    let under_roof = f.opt(r, "under-roof", Reader::expr);
    f.close(r);
    let shape = shape?;
    if let (Some(gap), false) = (&under_roof, matches!(shape, SolidShape::Block(_))) {
        let error = Diagnostic::new(gap.span, "only a block is cut off below the roof");
        r.error(error.help("write `u`, `v` and `w`, or leave `under-roof` out"));
    }
    Some(SolidDoc { when, each, shape, tags, bought, open, under_roof })
}

fn tags(r: &mut Reader<'_>, node: &Node, own: &Own<Tag>) -> Option<Vec<Said<Tag>>> {
    let written = r.names(node)?;
    Some(written.iter().filter_map(|tag| r.said(tag, own)).map(|tag| tag.value).collect())
}

/// A block, or an outline of one of three kinds. With `standing`, `w` may be left out.
fn shape(r: &mut Reader<'_>, f: &mut Fields<'_>, standing: bool) -> Option<SolidShape> {
    let outlines = ["outline", "profile", "front"];
    let written: Vec<&str> = outlines.into_iter().filter(|key| f.has(key)).collect();
    if let [first, second, ..] = written.as_slice() {
        let error = Diagnostic::new(f.key_span(second), format!("{} has `{first}` and `{second}`", f.owner()));
        r.error(error.help("keep one outline: `outline` in plan, `profile` from the side, `front` from the front"));
    }
    let shape = match written.first() {
        Some(&"outline") => {
            let points = f.opt(r, "outline", Reader::points);
            let w = upward(r, f, standing);
            points.zip(w).map(|(points, w)| SolidShape::Outline(points, w))
        }
        Some(&"profile") => {
            let points = f.opt(r, "profile", Reader::points);
            let u = f.need(r, "u", Reader::range);
            points.zip(u).map(|(points, u)| SolidShape::Profile(points, u))
        }
        Some(_) => {
            let points = f.opt(r, "front", Reader::points);
            let v = f.need(r, "v", Reader::range);
            points.zip(v).map(|(points, v)| SolidShape::Front(points, v))
        }
        None => {
            let (u, v) = (f.need(r, "u", Reader::range), f.need(r, "v", Reader::range));
            let w = upward(r, f, standing);
            u.zip(v).zip(w).map(|((u, v), w)| SolidShape::Block([u, v, w]))
        }
    };
    if shape.is_none() {
        let _known = ["u", "v", "w", "outline", "profile", "front"].map(|key| f.section(key).is_some());
    }
    shape
}

fn upward(r: &mut Reader<'_>, f: &mut Fields<'_>, standing: bool) -> Option<RangeDoc> {
    if f.has("w") || !standing {
        return f.need(r, "w", Reader::range);
    }
    let end = |kind| Expr { kind, span: f.span() };
    let range = RangeDoc { low: end(ExprKind::Number(0.0)), high: end(ExprKind::Name(TALLEST.to_owned())) };
    f.section("w");
    Some(range)
}

/// One space.
pub(super) fn space(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<SpaceDoc> {
    let mut f = r.fields(node, &format!("space `{name}`"))?;
    let (when, each) = repeated(r, &mut f);
    let need = f.need_word(r, "need", &["standing", "sitting", "lying", "storage"]).map(|word| {
        let need = match word.value.as_str() {
            "standing" => Need::Standing,
            "sitting" => Need::Sitting,
            "lying" => Need::Lying,
            _ => Need::Storage,
        };
        Spanned::new(need, word.span)
    });
    let upright = need.as_ref().is_some_and(|need| matches!(need.value, Need::Standing | Need::Sitting));
    let shape = shape(r, &mut f, upright || need.is_none());
    let people = f.opt(r, "people", Reader::expr);
    let along = f.word(r, "along", &["u", "v"]);
    let along = along.map(|along| Spanned::new(if along.value == "u" { 'u' } else { 'v' }, along.span));
    let carries = f.opt(r, "carries", Reader::expr);
    if let (Some(carries), Some(need)) = (&carries, need.as_ref().filter(|need| need.value != Need::Storage)) {
        let error = Diagnostic::new(carries.span, format!("{} carries things and is not `storage`", f.owner()));
        r.error(error.note(need.span, "what it is for").help("`carries` belongs to a space with `need: storage`"));
    }
    f.close(r);
    Some(SpaceDoc { when, each, shape: shape?, need: need?, people, along, carries })
}

/// One piece of linework.
pub(super) fn plan_line(r: &mut Reader<'_>, node: &Node) -> Option<PlanLineDoc> {
    let mut f = r.fields(node, "a plan line")?;
    let (when, each) = repeated(r, &mut f);
    let shape = line_shape(r, &mut f);
    let at = f.opt(r, "at", Reader::expr);
    let dashed = f.opt(r, "dashed", Reader::flag).is_some_and(|dashed| dashed.value);
    f.close(r);
    Some(PlanLineDoc { when, each, shape: shape?, at, dashed })
}

fn line_shape(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<LineShape> {
    const SHAPES: [&str; 5] = ["line", "outline", "rect", "round-rect", "circle"];
    let written: Vec<&str> = SHAPES.into_iter().filter(|key| f.has(key)).collect();
    let [shape] = written.as_slice() else {
        let _known = SHAPES.map(|key| f.section(key).is_some());
        f.section("radius");
        let place = written.get(1).map_or(f.span(), |second| f.key_span(second));
        let error = Diagnostic::new(place, format!("a plan line has one shape, and {} are written", written.len()));
        r.error(error.help("write one of `line`, `outline`, `rect`, `round-rect` and `circle`"));
        return None;
    };
    match *shape {
        "line" => f.opt(r, "line", Reader::points).map(LineShape::Line),
        "outline" => f.opt(r, "outline", Reader::points).map(LineShape::Outline),
        "rect" => f.opt(r, "rect", rect).map(|[u, v]| LineShape::Rect(u, v, None)),
        "round-rect" => {
            let (rect, radius) = (f.opt(r, "round-rect", rect), f.need(r, "radius", Reader::expr));
            rect.zip(radius).map(|([u, v], radius)| LineShape::Rect(u, v, Some(radius)))
        }
        _ => {
            let (centre, radius) = (f.opt(r, "circle", Reader::pair), f.need(r, "radius", Reader::expr));
            centre.zip(radius).map(|(centre, radius)| LineShape::Circle(centre, radius))
        }
    }
}

fn rect(r: &mut Reader<'_>, node: &Node) -> Option<[RangeDoc; 2]> {
    let mut f = r.fields(node, "a rectangle")?;
    let (u, v) = (f.need(r, "u", Reader::range), f.need(r, "v", Reader::range));
    f.close(r);
    Some([u?, v?])
}
