//! The vehicle under the box.

use super::groups::{group, three};
use crate::diagnostic::Diagnostic;
use crate::language::figures::FiguresDoc;
use crate::language::node::Node;
use crate::language::reader::Reader;
use crate::language::vehicle::{
    CAB, FOUR_POINT, FRAME, FRONT, MountsDoc, OVERHANG, RAILS, REAR, SPRINGS, SUBFRAME, SeatDoc, SubframeDoc,
    THREE_POINT, VEHICLE, VehicleDoc,
};
use crate::model::{DrawnBy, Steel, SubframeKind, VehicleClass};
use crate::source::Spanned;

/// `vehicle:`.
pub(super) fn vehicle(r: &mut Reader<'_>, node: &Node) -> Option<VehicleDoc> {
    let mut f = r.fields(node, "`vehicle`")?;
    let kind = f.word(r, "kind", &["truck", "van", "trailer"]);
    let region = f.word(r, "region", &["eu", "uk", "au"]);
    let class = f.opt(r, "class", |r, node| r.known::<VehicleClass>(node, "class"));
    let drawn_by = f.opt(r, "drawn-by", |r, node| r.known::<DrawnBy>(node, "drawn-by"));
    let axles = f.need(r, "axles", axles);
    let figures = FiguresDoc::read(r, &mut f, &VEHICLE);
    let cab = f.opt(r, "cab", |r, node| group(r, node, "`cab`", &CAB));
    let frame = f.opt(r, "frame", |r, node| group(r, node, "`frame`", &FRAME));
    let underside = f.section("underside").map(|node| r.list(node, "`underside`", Reader::pair)).unwrap_or_default();
    let overhang = f.opt(r, "rear-overhang-limit", |r, node| group(r, node, "`rear-overhang-limit`", &OVERHANG));
    let subframe_span = f.key_span("subframe");
    let subframe = f.opt(r, "subframe", subframe).map(|subframe| Spanned::new(subframe, subframe_span));
    let seats = f.section("seats").map(|node| seats(r, node)).unwrap_or_default();
    f.close(r);
    let (coupled, front, rear) = axles?;
    let underside = underside.into_iter().map(|point| point.value).collect();
    Some(VehicleDoc {
        kind,
        region,
        class,
        drawn_by,
        figures,
        coupled,
        front,
        rear,
        cab,
        frame,
        underside,
        overhang,
        subframe,
        seats,
    })
}

/// A list of points, or seats by name: a point, or `{ at, who }`.
fn seats(r: &mut Reader<'_>, node: &Node) -> Vec<SeatDoc> {
    if node.as_map().is_none() {
        let points = r.list(node, "`seats`", three);
        return points.into_iter().map(|at| SeatDoc { name: None, at: at.value, who: None }).collect();
    }
    let named = r.named(node, "`seats`", seat);
    let named = named.into_iter();
    named.map(|(name, entry)| SeatDoc { name: Some(Spanned::new(name, entry.span)), ..entry.value }).collect()
}

fn seat(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<SeatDoc> {
    if node.as_map().is_none() {
        return three(r, node).map(|at| SeatDoc { name: None, at, who: None });
    }
    let mut f = r.fields(node, &format!("seat `{name}`"))?;
    let at = f.need(r, "at", three);
    let who = f.opt(r, "who", Reader::name);
    f.close(r);
    Some(SeatDoc { name: None, at: at?, who })
}

/// `{ front, rear }`; a trailer's front end rests on its coupling.
fn axles(r: &mut Reader<'_>, node: &Node) -> Option<(bool, FiguresDoc<4>, FiguresDoc<6>)> {
    let mut f = r.fields(node, "`axles`")?;
    let (front, coupling) = (f.has("front"), f.has("coupling"));
    let key = if coupling { "coupling" } else { "front" };
    if front && coupling {
        let error = Diagnostic::new(f.key_span("coupling"), "`axles` has a `front` axle and a `coupling`");
        r.error(error.help("a trailer rests on its `coupling`, other vehicles on a `front` axle"));
        return None;
    }
    let first = f.need(r, key, |r, node| group(r, node, &format!("`{key}`"), &FRONT));
    f.section(if coupling { "front" } else { "coupling" });
    let rear = f.need(r, "rear", |r, node| group(r, node, "`rear`", &REAR));
    f.close(r);
    Some((coupling, first?, rear?))
}

/// `{ kind, ... }`, with the mounts that the kind has.
fn subframe(r: &mut Reader<'_>, node: &Node) -> Option<SubframeDoc> {
    let mut f = r.fields(node, "`subframe`")?;
    let kind = f.need(r, "kind", |r, node| r.known::<SubframeKind>(node, "kind"));
    let figures = FiguresDoc::read(r, &mut f, &SUBFRAME);
    let mounts = match kind.as_ref().map(|kind| kind.value) {
        Some(SubframeKind::FourPoint) => MountsDoc::FourPoint(FiguresDoc::read(r, &mut f, &FOUR_POINT)),
        Some(SubframeKind::Springs) => MountsDoc::Springs(FiguresDoc::read(r, &mut f, &SPRINGS)),
        Some(SubframeKind::Rigid) => MountsDoc::Rigid,
        Some(SubframeKind::ThreePoint) | None => MountsDoc::ThreePoint(FiguresDoc::read(r, &mut f, &THREE_POINT)),
    };
    let rails = f.opt(r, "rails", rails);
    f.close(r);
    kind.map(|_| SubframeDoc { figures, mounts, rails })
}

/// `{ height, width, wall, steel }`.
fn rails(r: &mut Reader<'_>, node: &Node) -> Option<(FiguresDoc<3>, Steel)> {
    let mut f = r.fields(node, "`rails`")?;
    let figures = FiguresDoc::read(r, &mut f, &RAILS);
    let steel = f.need(r, "steel", |r, node| r.known::<Steel>(node, "steel"));
    f.close(r);
    Some((figures, steel?.value))
}
