//! The way from each bed to the wet room by night.

use super::super::words::{area, length};
use super::edges::Place;
use crate::base::number::mm;
use crate::base::tolerance::WAY_WIDTH;
use crate::diagnostic::{Bound, Finding, Mark, Quantity, Requirement, Severity, SourceClass};
use crate::figures::ground::spread;
use crate::figures::ways::{Floor, between, no_way_in};
use crate::geometry::{Region, Widest};
use crate::model::{Model, Module, Need, Purpose, Tag};

/// The modules with a toilet, or in a zone with the purpose `wet-room`.
pub(super) fn wet_rooms(model: &Model) -> Vec<&Module> {
    let toilet = |module: &Module| module.poses.iter().flat_map(|pose| &pose.solids).any(|solid| solid.is(Tag::Toilet));
    let zoned = |module: &Module| {
        let zone = module.zone.and_then(|zone| model.zones.get(zone));
        zone.is_some_and(|zone| zone.purpose == Purpose::WetRoom)
    };
    let with_toilet: Vec<&Module> = model.modules.iter().filter(|module| toilet(module)).collect();
    if with_toilet.is_empty() { model.modules.iter().filter(|module| zoned(module)).collect() } else { with_toilet }
}

/// For each bed with a free edge, the widest way to a wet room: a note, or a fault where there is none.
pub(super) fn ways_to_wet_rooms(check: &'static str, floor: &Floor<'_>, places: &[Place<'_, '_>]) -> Vec<Finding> {
    let rooms: Vec<(&Module, Region)> =
        wet_rooms(floor.model).into_iter().map(|room| (room, standing_in(floor, room))).collect();
    if rooms.is_empty() {
        return Vec::new();
    }
    let mut findings = Vec::new();
    let same = |a: &Place<'_, '_>, b: &Place<'_, '_>| std::ptr::eq(a.bed, b.bed);
    for of_bed in places.chunk_by(same) {
        let edges = of_bed.iter().filter(|place| place.taken).filter_map(|place| place.edge.as_ref());
        let areas = Region::all(edges.map(|edge| edge.area.clone()));
        let Some(first) = of_bed.first().filter(|_| !areas.is_empty()) else { continue };
        let ways = rooms.iter().map(|(room, goal)| (*room, floor.way(&areas, goal)));
        let width = |way: &Option<Widest>| way.as_ref().map_or(0.0, |way| way.width);
        let best = ways.reduce(|best, next| if width(&next.1) > width(&best.1) { next } else { best });
        findings.extend(best.map(|(room, way)| finding(check, floor, first, room, way)));
    }
    findings
}

/// Where one stands inside a wet room; before it, if it has no room to stand inside.
fn standing_in(floor: &Floor<'_>, room: &Module) -> Region {
    let state = floor.model.states(floor.arrangement).find(|(module, _)| module.name == room.name);
    let spaces = state.into_iter().flat_map(|(_, state)| &state.spaces);
    let standing: Vec<_> = spaces.filter(|space| space.need == Need::Standing).collect();
    let plan = room.extent.plan();
    let inside = standing.iter().copied().filter(|space| plan.contains(space.prism.bounds().plan().center()));
    let inside = spread(inside);
    if !inside.is_empty() {
        return inside;
    }
    let all = spread(standing);
    if all.is_empty() { Region::rect(plan) } else { all }
}

fn finding(
    check: &'static str,
    floor: &Floor<'_>,
    place: &Place<'_, '_>,
    room: &Module,
    way: Option<Widest>,
) -> Finding {
    let bed = place.bed.module;
    let least = no_way_in(floor.model);
    let finding = Finding::new(check, Severity::Fault, &bed.name, "").of_part(&place.bed.space.name);
    let mut finding = finding.asks("wet-room").with_other(&room.name);
    finding.arrangements = vec![floor.arrangement.name.clone()];
    finding.spans = vec![bed.place_span, room.place_span];
    let Some(way) = way else {
        finding.message = format!("there is no way from `{}` to `{}` by night", bed.name, room.name);
        finding.measured = length(0.0);
        finding.required = Some(requirement(least));
        finding.marks = vec![area(place.strip.rect)];
        return finding;
    };
    let owners = floor.sides(&way);
    let (width, sides) = (mm(way.width), between(owners));
    finding = finding.names("where", &sides);
    finding.measured = length(way.width);
    finding.marks = vec![Mark::Between(way.across.0, way.across.1)];
    if way.width + WAY_WIDTH < least {
        finding.message =
            format!("the way from `{}` to `{}` by night is only {width} wide {sides}", bed.name, room.name);
        finding.message += &format!(", {} is needed", mm(least));
        finding.required = Some(requirement(least));
        finding.spans.extend(owners.into_iter().flatten().filter_map(|owner| owner.span()));
    } else {
        finding.severity = Severity::Note;
        finding.message = format!(
            "the way from `{}` to `{}` by night is {width} wide at its narrowest, {sides}",
            bed.name, room.name
        );
    }
    finding
}

/// The least width of a way, as the check of standing spaces has it.
fn requirement(least: f64) -> Requirement {
    let source = "least width of a way: limit `least` of the check `reachable`; common practice, no source";
    Requirement::new(Bound::Least(least), Quantity::Length, SourceClass::CommonPractice, source).within(WAY_WIDTH)
}
