//! # Computes
//! For each way and arrangement: the diameter of the widest disc that can travel from one end to the other among
//! everything that reaches into the height between 230 mm and the tallest person's stature. It is the bottleneck of the
//! clearance over all ways, found in closed form on the medial axis of the free floor, good to 0.05 mm; the place and
//! the two points that it is measured between are marked. A door is as wide as its `lining` leaves it. The ways are the layout's own `routes`, and from a door to
//! every standing space (by the door that gives the widest way; of equally wide ones the shortest). What is no higher
//! than 230 mm is stepped on; a gap of 3 mm or less in a row of solids of one module counts as closed. Ways without a limit of their own that share one narrow place make one finding. A way to a
//! standing space narrower than the least width of the check `reachable` is reported there.
//!
//! # Why
//! A person has to pass, with a cup in hand and in the dark, and past somebody in a hurry sideways.
//!
//! # Limit
//! `least` 380 mm: below it a fault. `comfortable` 500 mm: below it a caution. A route with its own `least` has that as
//! its limit for a fault, and no other.
//!
//! # Source
//! Common practice in small living boxes, no source. Access guidance for homes calls 450 to 600 mm reasonable for one
//! person (value from memory, not verified).
//!
//! # Change it
//! `limits: { walkway: { least: 420, because: "..." } }`, or `comfortable`, or `least` of a route.

use super::check::{Check, Context, page_of};
use super::words::{length, stays_narrow, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::WAY_WIDTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Mark, Quantity, Requirement, Severity, SourceClass};
use crate::figures::ways::{Asked, Floor, Owner, between, no_way_in};

/// The check of walkway widths.
pub struct Walkway;

const PRACTICE: &str = "common practice in small living boxes, no source";
static LIMITS: &[Limit] = &[
    Limit::new("least", Least(380.0), Quantity::Length, SourceClass::CommonPractice, PRACTICE),
    Limit::new("comfortable", Least(500.0), Quantity::Length, SourceClass::CommonPractice, PRACTICE),
];

impl Check for Walkway {
    fn name(&self) -> &'static str {
        "walkway"
    }

    fn says(&self) -> &'static str {
        "every way is wide enough for a person"
    }

    fn manual(&self) -> String {
        page_of(include_str!("walkway.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let in_one = |arrangement| {
            let floor = context.floor(arrangement);
            let ways = floor.ways();
            let no_way = no_way_in(context.model);
            let is_way = |way: &&Asked<'_>| way.standing.is_none() || way.width() + WAY_WIDTH >= no_way;
            let (met, missed): (Vec<&Asked<'_>>, _) =
                ways.iter().filter(is_way).partition(|way| judged(context, way).0 == Severity::Met);
            let spare = |way: &Asked<'_>| way.width() / judged(context, way).1.value().max(f64::MIN_POSITIVE);
            let tightest = met.into_iter().min_by(|a, b| spare(a).total_cmp(&spare(b)));
            let groups = groups(&floor, missed).into_iter().chain(tightest.map(|way| vec![way]));
            groups.filter_map(|group| finding(context, &floor, &group)).collect::<Vec<_>>()
        };
        with_tightest(context.arrangements().iter().flat_map(in_one))
    }

    fn surely_stays(&self, context: &Context<'_>, before: &Finding) -> bool {
        stays_narrow(context, before)
    }
}

/// Ways that share their narrow place, each group in order of the ways; those with a limit of their own for themselves.
fn groups<'w, 'a>(floor: &Floor<'a>, ways: Vec<&'w Asked<'a>>) -> Vec<Vec<&'w Asked<'a>>> {
    let mut groups: Vec<(Sides<'a>, Vec<&Asked<'_>>)> = Vec::new();
    for way in ways {
        let sides = way.found.as_ref().map_or([None, None], |found| {
            let there = |others: &[&Asked<'_>]| others.first()?.found.as_ref().map(|first| first.across);
            let known = groups.iter().find(|(_, others)| there(others) == Some(found.across));
            known.map_or_else(|| floor.sides(found), |(sides, _)| *sides)
        });
        let same = |(theirs, others): &&mut (Sides<'a>, Vec<&Asked<'_>>)| {
            others.first().is_some_and(|first| same_place((first, theirs), (way, &sides)))
        };
        match groups.iter_mut().find(same).filter(|_| way.least.is_none()) {
            Some((_, group)) => group.push(way),
            None => groups.push((sides, vec![way])),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// What stands at both sides of a narrow place.
type Sides<'a> = [Option<Owner<'a>>; 2];

/// Whether a way without a limit of its own, `a`, is narrowest where `b` is, or as narrow between the same two.
fn same_place((a, left): (&Asked<'_>, &Sides<'_>), (b, right): (&Asked<'_>, &Sides<'_>)) -> bool {
    let (None, Some(a), Some(b)) = (a.least, &a.found, &b.found) else { return false };
    let alike = left.iter().all(Option::is_some) && left == right;
    (a.width - b.width).abs() <= WAY_WIDTH && (alike || a.at.distance(b.at) <= 1.0)
}

/// The limit that a way misses, or the one that it meets.
fn judged(context: &Context<'_>, way: &Asked<'_>) -> (Severity, Requirement) {
    let below = |required: &Requirement| !required.holds(way.width());
    if let Some(least) = way.least {
        let source = "least width of the route, set by the layout";
        let required = Requirement::new(Least(least), Quantity::Length, SourceClass::Layout, source).within(WAY_WIDTH);
        return (if below(&required) { Severity::Fault } else { Severity::Met }, required);
    }
    let [least, comfortable] = ["least", "comfortable"].map(|name| context.limits.get(name).within(WAY_WIDTH));
    match (below(&least), below(&comfortable)) {
        (true, _) => (Severity::Fault, least),
        (false, true) => (Severity::Caution, comfortable),
        (false, false) => (Severity::Met, comfortable),
    }
}

fn finding(context: &Context<'_>, floor: &Floor<'_>, group: &[&Asked<'_>]) -> Option<Finding> {
    let first = group.first()?;
    let (severity, required) = judged(context, first);
    let needed = required.value();
    let mut finding = Finding::new("walkway", severity, first.subject, "");
    if let Some((_, space)) = first.standing {
        finding = finding.of_part(&space.name);
    }
    finding = finding.names("from", &first.name);
    finding.arrangements = vec![floor.arrangement.name.clone()];
    finding.measured = length(first.width());
    finding.required = Some(required);
    finding.spans = vec![first.span];
    let Some(found) = &first.found else {
        finding.message = format!("there is no way from {}, {} is needed", first.name, mm(needed));
        return Some(finding);
    };
    let (owners, others) = (floor.sides(found), others(group));
    let sides = between(owners);
    let narrows = format!("the way from {} narrows to {} {sides}", first.name, mm(found.width));
    finding.message = match severity {
        Severity::Met => narrows,
        _ => format!("{narrows}, {} is needed{others}", mm(needed)),
    };
    finding = finding.names("where", sides).names("others", others);
    finding.spans.extend(owners.into_iter().flatten().filter_map(|owner| owner.span()));
    finding.spans.dedup();
    finding.marks = vec![Mark::Between(found.across.0, found.across.1)];
    Some(finding)
}

fn others(group: &[&Asked<'_>]) -> String {
    let mut names: Vec<String> = Vec::new();
    for way in group.iter().skip(1).filter(|way| group.first().is_some_and(|first| first.subject != way.subject)) {
        let name = format!("`{}`", way.subject);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    if names.is_empty() { String::new() } else { format!("; the same place is on the way to {}", names.join(", ")) }
}

#[cfg(test)]
mod tests;
