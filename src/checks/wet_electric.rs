//! Switches, sockets and batteries that water may reach.
//!
//! # Computes
//! For each solid tagged `switch`, `socket` or `battery`, and each load with `is: battery`, in every arrangement: the shortest way to the
//! nearest `shower`, seen from above, round the walls between them. A wall is a solid tagged `wall` that is as high as the thing,
//! and the leaf of a door that people walk through, shut. Over a shower, and in a zone with the purpose `wet-room`, it is 0.
//!
//! # Why
//! A wet hand on a live switch is the last one.
//!
//! # Limit
//! `apart` 600 mm: within the shower or its zone a fault, nearer than that a caution.
//!
//! # Source
//! Zones of IEC 60364-7-701: 0 and 1 in and over the tray, 2 is 0.6 m around them, partitions end them, no switch or socket in any (public guides;
//! the text itself was not read). Sockets of mains voltage are to be farther away still (2.5 or 3 m, sources differ). What is made for wet
//! places and for 12 V may be nearer: the layout does not say it.
//!
//! # Change it
//! `limits: { wet-electric: { apart: 300, because: "12 V, made for wet rooms" } }`; move the switch out, or put a wall between.

use super::check::{Check, Context, page_of};
use super::words::{area, judged, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, SourceClass};
use crate::geometry::{Box3, Leaf, stretched};
use crate::model::{Arrangement, LoadKind, Model, MoveKind, Purpose, Tag};
use crate::source::Span;
use kurbo::{Point, Rect};

/// The check `wet-electric`.
pub struct WetElectric;

const NAME: &str = "wet-electric";
const GUIDES: &str = "zones of IEC 60364-7-701, as quoted by public guides";

static LIMITS: [Limit; 1] = [Limit::new("apart", Least(600.0), Quantity::Length, SourceClass::Published, GUIDES)];

impl Check for WetElectric {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "switches, sockets and batteries away from water"
    }

    fn manual(&self) -> String {
        page_of(include_str!("wet_electric.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: electrical work is for licensed people, the local code decides")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        with_tightest(context.arrangements().iter().flat_map(|arrangement| in_one(context, arrangement)))
    }
}

/// Something electrical.
struct Thing<'a> {
    subject: &'a str,
    part: Option<&'a str>,
    says: String,
    room: Box3,
    spans: Vec<Span>,
}

fn things<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Thing<'a>> {
    let tags = [Tag::Switch, Tag::Socket, Tag::Battery];
    let solids = model.solids(arrangement).filter(|(_, solid)| solid.is_any(&tags)).map(|(module, solid)| Thing {
        subject: module.name.as_str(),
        part: Some(solid.name.as_str()),
        says: format!("`{}` of `{}`", solid.name, module.name),
        room: solid.prism.bounds(),
        spans: vec![module.place_span, solid.span],
    });
    let loads = model.loads.iter().filter(|load| load.kind == LoadKind::Battery && load.at.z > 0.0);
    let loads = loads.map(|load| {
        let at = load.at;
        let point = Box3 { x: (at.x, at.x), y: (at.y, at.y), z: (at.z, at.z) };
        let room = load.room.as_ref().map_or(point, crate::geometry::Prism::bounds);
        Thing { subject: &load.name, part: None, says: format!("`{}`", load.name), room, spans: vec![load.span] }
    });
    solids.chain(loads).collect()
}

fn in_one(context: &Context<'_>, arrangement: &Arrangement) -> Vec<Finding> {
    let model = context.model;
    let showers = model.solids(arrangement).filter(|(_, solid)| solid.is(Tag::Shower));
    let wet: Vec<(String, Rect)> = showers
        .map(|(module, solid)| (format!("the shower of `{}`", module.name), solid.prism.bounds().plan()))
        .collect();
    let zones: Vec<(&str, Rect)> = model
        .zones
        .iter()
        .filter(|zone| zone.purpose == Purpose::WetRoom)
        .map(|zone| (zone.name.as_str(), zone.rect))
        .collect();
    if wet.is_empty() && zones.is_empty() {
        return Vec::new();
    }
    let found = things(model, arrangement).into_iter().filter_map(|thing| {
        let plan = thing.room.plan();
        let within = zones.iter().find(|(_, rect)| rect.contains(plan.center()));
        let zone = within.map(|(name, _)| (format!("the zone `{name}`"), 0.0));
        let walls = walls(model, arrangement, thing.room.centre().z);
        let far = wet.iter().map(|(says, rect)| (says.clone(), stretched(plan, *rect, &walls)));
        let near = zone.into_iter().chain(far).reduce(|best, next| if next.1 < best.1 { next } else { best })?;
        near.1.is_finite().then(|| finding(context, arrangement, &thing, &near))
    });
    found.collect()
}

/// Walls and shut doors at a height, seen from above.
fn walls(model: &Model, arrangement: &Arrangement, height: f64) -> Vec<Rect> {
    let high = |range: (f64, f64)| range.0 <= height && height <= range.1;
    let solids = model.solids(arrangement).filter(|(_, solid)| solid.is(Tag::Wall));
    let solids =
        solids.map(|(_, solid)| solid.prism.bounds()).filter(|bounds| high(bounds.z)).map(|bounds| bounds.plan());
    let doors = model.moves(arrangement).filter(|(_, part)| part.walk_through);
    let doors = doors.filter_map(|(_, part)| match &part.kind {
        MoveKind::Swing(swing) if swing.axis == crate::geometry::Axis::Z && high(swing.along) => {
            let (hinge, length, thickness): (Point, f64, f64) = (swing.hinge, swing.length, swing.thickness);
            let leaf = Leaf { hinge, shut: swing.shut, opens: swing.opens, length, thickness };
            Some(leaf.outline(0.0).bounds().inflate(SHUT, SHUT))
        }
        _ => None,
    });
    let (long, wide) = (model.space.length, model.space.width);
    let (low, high) = (-OUTSIDE, OUTSIDE);
    let of_box = [
        Rect::new(low, low, 0.0, wide + high),
        Rect::new(long, low, long + high, wide + high),
        Rect::new(low, low, long + high, 0.0),
        Rect::new(low, wide, long + high, wide + high),
    ];
    solids.chain(doors).chain(of_box).collect()
}

/// How thick the walls of the box are taken, mm: no way leads through.
const OUTSIDE: f64 = 100_000.0;

/// Gaps around a shut door that its seals close, mm; common practice, no source.
const SHUT: f64 = 4.0;

fn finding(context: &Context<'_>, arrangement: &Arrangement, thing: &Thing<'_>, near: &(String, f64)) -> Finding {
    let required = context.limits.get("apart");
    let (severity, is) = match near.1 > 0.0 {
        true => (Severity::Caution, format!("is {} from", mm(near.1))),
        false => (Severity::Fault, "is in".to_owned()),
    };
    let message = format!("{} {is} {}, {} is needed, or a wall between", thing.says, near.0, mm(required.value()));
    let mut finding = judged(NAME, severity, thing.subject, (near.1, required), message);
    if let Some(part) = thing.part {
        finding = finding.of_part(part);
    }
    finding = finding.names("near", near.0.clone());
    finding.arrangements = vec![arrangement.name.clone()];
    finding.spans = thing.spans.clone();
    finding.marks = vec![area(thing.room.plan().inflate(1.0, 1.0))];
    finding
}

#[cfg(test)]
mod tests;
