//! Water, electricity, waste pipes and climate.

use super::groups::{group, three};
use crate::language::figures::FiguresDoc;
use crate::language::node::{Node, NodeValue};
use crate::language::reader::{Fields, Reader};
use crate::language::services::{
    BATTERY, CABLE, CLIMATE, CONSUMER, CableDoc, EndDoc, PIPE, PipeDoc, RouteEndsDoc, ServicesDoc, WATER,
};
use crate::source::Spanned;

/// `climate:`.
pub(super) fn climate(r: &mut Reader<'_>, node: &Node) -> Option<FiguresDoc<11>> {
    group(r, node, "`climate`", &CLIMATE)
}

/// `services:`.
pub(super) fn services(r: &mut Reader<'_>, node: &Node) -> Option<ServicesDoc> {
    let mut f = r.fields(node, "`services`")?;
    let water_span = f.key_span("water");
    let water = f.opt(r, "water", |r, node| group(r, node, "`water`", &WATER));
    let battery_span = f.key_span("battery");
    let battery = f.opt(r, "battery", |r, node| group(r, node, "`battery`", &BATTERY));
    let consumers = f.section("consumers").map(|node| {
        r.named(node, "`consumers`", |r, name, node| group(r, node, &format!("consumer `{name}`"), &CONSUMER))
    });
    let cables = f.section("cables").map(|node| r.named(node, "`cables`", cable)).unwrap_or_default();
    let wastes = f.section("wastes").map(|node| r.named(node, "`wastes`", waste)).unwrap_or_default();
    f.close(r);
    Some(ServicesDoc {
        water: water.map(|water| Spanned::new(water, water_span)),
        battery: battery.map(|battery| Spanned::new(battery, battery_span)),
        consumers: consumers.unwrap_or_default(),
        cables,
        wastes,
    })
}

fn cable(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<CableDoc> {
    let mut f = r.fields(node, &format!("cable `{name}`"))?;
    let ends = ends(r, &mut f);
    let figures = FiguresDoc::read(r, &mut f, &CABLE);
    let critical = f.opt(r, "critical", Reader::flag);
    f.close(r);
    Some(CableDoc { ends: ends?, figures, critical })
}

fn waste(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<PipeDoc> {
    let mut f = r.fields(node, &format!("waste pipe `{name}`"))?;
    let ends = ends(r, &mut f);
    let figures = FiguresDoc::read(r, &mut f, &PIPE);
    f.close(r);
    Some(PipeDoc { ends: ends?, figures })
}

fn ends(r: &mut Reader<'_>, f: &mut Fields<'_>) -> Option<RouteEndsDoc> {
    let from = f.need(r, "from", end);
    let to = f.need(r, "to", end);
    let via = f.section("via").map(|node| r.list(node, "`via`", three)).unwrap_or_default();
    let via = via.into_iter().map(|point| point.value).collect();
    Some(RouteEndsDoc { from: from?, to: to?, via })
}

/// A name, or a point.
fn end(r: &mut Reader<'_>, node: &Node) -> Option<EndDoc> {
    match node.value {
        NodeValue::List(_) => three(r, node).map(EndDoc::At),
        _ => r.name(node).map(EndDoc::Named),
    }
}
