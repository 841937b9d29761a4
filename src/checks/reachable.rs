//! # Computes
//! For each arrangement and each standing space of a module: the widest disc that can travel from a door into the space
//! (its middle ends anywhere in the parts of it that reach to the module; what lies behind something that stands in the space is
//! none of it), and the largest disc that has room there, among everything that reaches into
//! the height between 230 mm and the tallest person's stature. A layout without any door gets a caution.
//!
//! # Why
//! A galley that nobody can stand at is no galley.
//!
//! # Limit
//! `least` 300 mm: a way or a standing place below it is no way and no place, a fault. A way that is wider, but too narrow
//! for comfort, is reported by the check `walkway` alone.
//!
//! # Source
//! Common practice, no source: about the depth of a clothed adult's chest, turned sideways.
//!
//! # Change it
//! `limits: { reachable: { least: 340, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{area as marked, length, stays_narrow, with_tightest};
use crate::base::number::mm;
use crate::base::text::one_of;
use crate::base::tolerance::{NO_AREA, WAY_WIDTH};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Mark, Measure, Quantity, Requirement, Severity};
use crate::figures::ground::{doors, spread};
use crate::figures::ways::{Asked, Floor, NO_WAY, Owner, between, no_way_in};
use crate::geometry::Region;
use crate::model::{Module, Space};

/// The check that every standing space can be reached.
pub struct Reachable;

static LIMITS: [Limit; 1] = [Limit::practice("least", Least(NO_WAY), Quantity::Length)];

impl Check for Reachable {
    fn name(&self) -> &'static str {
        "reachable"
    }

    fn says(&self) -> &'static str {
        "every standing space can be reached from a door"
    }

    fn manual(&self) -> String {
        page_of(include_str!("reachable.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        if doors(context.model).next().is_none() {
            return vec![no_door(context)];
        }
        let in_one = |arrangement| {
            let floor = context.floor(arrangement);
            floor.ways_in().iter().filter_map(|way| finding(context, &floor, way)).collect::<Vec<_>>()
        };
        with_tightest(context.arrangements().iter().flat_map(in_one))
    }

    fn surely_stays(&self, context: &Context<'_>, before: &Finding) -> bool {
        stays_narrow(context, before)
    }
}

fn no_door(context: &Context<'_>) -> Finding {
    let message = "the layout has no door, so no way in can be measured";
    let mut finding = Finding::new("reachable", Severity::Caution, "box", message);
    finding.measured = Some(Measure { value: 0.0, quantity: Quantity::Count });
    finding.required = Some(Requirement::geometry(Least(1.0), Quantity::Count));
    finding.spans = vec![context.model.space.span];
    finding.help = Some("add an opening of `kind: door` in a wall".to_owned());
    finding
}

fn finding(context: &Context<'_>, floor: &Floor<'_>, way: &Asked<'_>) -> Option<Finding> {
    let (module, space) = way.standing?;
    let least = no_way_in(context.model);
    if way.width() + WAY_WIDTH >= least {
        return Some(met(context, floor, way, (module, space)));
    }
    let area = floor.stand(module, space);
    let room = floor.room(&area);
    let mut finding = Finding::new("reachable", Severity::Fault, &module.name, "").of_part(&space.name);
    finding.arrangements = vec![floor.arrangement.name.clone()];
    finding.required = Some(context.limits.get("least").within(WAY_WIDTH));
    finding.spans = vec![module.place_span];
    let measured = if room + WAY_WIDTH < least {
        no_room(&mut finding, floor, (module, space), room);
        room
    } else {
        no_way(&mut finding, floor, way, &area);
        way.width()
    };
    finding.message += &format!(", {} is needed", mm(least));
    finding.measured = length(measured);
    Some(finding)
}

fn met(context: &Context<'_>, floor: &Floor<'_>, way: &Asked<'_>, (module, space): (&Module, &Space)) -> Finding {
    let message = format!("the way from {} is {} wide", way.name, mm(way.width()));
    let mut finding =
        Finding::new("reachable", Severity::Met, &module.name, message).of_part(&space.name).names("from", &way.name);
    finding.arrangements = vec![floor.arrangement.name.clone()];
    finding.measured = length(way.width());
    finding.required = Some(context.limits.get("least").within(WAY_WIDTH));
    finding.spans = vec![module.place_span];
    finding
}

/// There is nowhere to stand in the space itself.
fn no_room(finding: &mut Finding, floor: &Floor<'_>, who: (&Module, &Space), room: f64) {
    let (module, space) = who;
    let mut inside: Vec<(f64, Owner<'_>)> =
        floor.obstacles().map(|(owner, region)| (region.intersect(&spread([space])).area(), owner)).collect();
    inside.retain(|(area, _)| *area > NO_AREA);
    inside.sort_by(|a, b| b.0.total_cmp(&a.0));
    let names: Vec<String> = inside.iter().map(|(_, owner)| owner.words()).collect();
    let what = match room > 0.0 {
        true => format!("has room for only {}", mm(room)),
        false => "has no room at all".to_owned(),
    };
    let taken = if names.is_empty() { String::new() } else { format!(" beside {}", names.join(", ")) };
    finding.message = format!("the standing space `{}` of `{}` {what}{taken}", space.name, module.name);
    *finding = finding.clone().names("room", format!("{what}{taken}"));
    finding.spans.extend(inside.iter().filter_map(|(_, owner)| owner.span()));
    finding.marks = vec![marked(spread([space]).bounds())];
}

/// The space has room but no way leads there.
fn no_way(finding: &mut Finding, floor: &Floor<'_>, way: &Asked<'_>, area: &Region) {
    let names = doors(floor.model).map(|door| door.name.as_str());
    let Some(found) = &way.found else {
        finding.message = format!("there is no way from {} to `{}`", one_of(names), finding.key.subject);
        finding.marks = vec![marked(area.bounds())];
        return;
    };
    let owners = floor.sides(found);
    let sides = between(owners);
    finding.message = format!("the widest way from {} is only {} wide {sides}", way.name, mm(found.width));
    *finding = finding.clone().names("from", &way.name).names("where", sides);
    finding.spans.extend(owners.into_iter().flatten().filter_map(|owner| owner.span()));
    finding.marks = vec![Mark::Between(found.across.0, found.across.1)];
}

#[cfg(test)]
mod tests;
