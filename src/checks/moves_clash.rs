//! Doors, drawers and lids that cannot be open at the same time.
//!
//! # Computes
//! For each two moves in every arrangement, of modules and of leaves of openings that swing in: how far one opens while
//! the other stands open, a leaf by `angle`, a drawer all the way. The open leaf (length x thickness, over its height) or
//! drawer is an obstacle to the other's sweep, and the angle or the travel at which they meet is solved. The worse of both directions counts. Each pair of
//! modules makes one finding, about the worst pair of their moves.
//!
//! Two moves of one module must open together where one, shut, stands in the way of the other, as a door before a drawer, or where the other says `after`.
//! Left out elsewhere, on one module too, are fronts that stand side by side in one plane and open the same way, since
//! their hinges and runners decide about them, and lids, which are let fall.
//!
//! # Why
//! Two doors that meet across the aisle jam, and the second one cannot be used until somebody walks back to the first.
//!
//! # Limit
//! `angle` 85 degrees for leaves (or the leaf's own `opens`, where that is less), full travel for what slides. Less is a
//! caution, and a fault where both must open together.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { moves-clash: { angle: 60, because: "..." } }`, or accept the finding with a reason.

mod clash;

use super::check::{Check, Context, page_of};
use super::words::area;
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Measure, Quantity, Requirement, Severity, Subject};
use crate::geometry::common_bounds;
use crate::model::Arrangement;
use clash::{Moving, Short, clash};
use std::collections::BTreeMap;

/// The check `moves-clash`.
pub struct MovesClash;

const NAME: &str = "moves-clash";
static LIMITS: [Limit; 1] = [Limit::practice("angle", Least(85.0), Quantity::Angle)];

impl Check for MovesClash {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "doors, drawers and lids that cannot be open at the same time"
    }

    fn manual(&self) -> String {
        page_of(include_str!("moves_clash.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        context.arrangements().iter().flat_map(|arrangement| in_one(context, arrangement)).collect()
    }
}

/// Clashes of two owners after which no more are looked for: their finding is there.
const COUNT_MOST: usize = 1000;

/// The worst clash of two owners, and how many they have.
struct Group<'a> {
    /// What moves, what is open, and how far the first goes.
    worst: (&'a Moving<'a>, &'a Moving<'a>, Short),
    /// In the order of the file.
    owners: (&'a str, &'a str),
    count: usize,
}

/// Moves in the order of their lowest x, to find those near one without a look at all.
struct Along<'a> {
    moves: Vec<(usize, &'a Moving<'a>)>,
    widest: f64,
}

impl<'a> Along<'a> {
    fn new(moves: &'a [Moving<'a>]) -> Self {
        let widest = moves.iter().map(|one| one.room.x.1 - one.room.x.0).fold(0.0, f64::max);
        let mut moves: Vec<_> = moves.iter().enumerate().collect();
        moves.sort_by(|(_, a), (_, b)| a.room.x.0.total_cmp(&b.room.x.0));
        Self { moves, widest }
    }

    /// Moves further down in the list whose rooms meet that of one, in the order of the list.
    fn near(&self, at: usize, one: &Moving<'_>) -> Vec<&'a Moving<'a>> {
        let first = self.moves.partition_point(|(_, other)| other.room.x.0 < one.room.x.0 - self.widest);
        let far = self.moves.iter().skip(first).take_while(|(_, other)| other.room.x.0 < one.room.x.1);
        let near = far.filter(|(place, other)| *place > at && common_bounds(&one.room, &other.room).is_some());
        let mut near: Vec<_> = near.copied().collect();
        near.sort_unstable_by_key(|(place, _)| *place);
        near.into_iter().map(|(_, other)| other).collect()
    }
}

fn in_one(context: &Context<'_>, arrangement: &Arrangement) -> Vec<Finding> {
    let least = context.limits.value("angle");
    let moves = Moving::all(context.model, arrangement, least);
    let mut groups: Vec<Group<'_>> = Vec::new();
    let mut known: BTreeMap<(&str, &str, bool), usize> = BTreeMap::new();
    let along = Along::new(&moves);
    for (at, one) in moves.iter().enumerate() {
        for other in along.near(at, one) {
            let owners = |together| (one.owner.min(other.owner), one.owner.max(other.owner), together);
            let full = |together| known.get(&owners(together)).and_then(|at| groups.get(*at));
            if one.owner != other.owner && full(false).is_some_and(|group| group.count >= COUNT_MOST) {
                continue;
            }
            let found = [(one, other), (other, one)].into_iter().filter_map(|(moved, open)| {
                let short = clash(moved, open, least)?;
                Some((moved, open, short))
            });
            let Some(worst) = found.reduce(|a, b| if b.2.share < a.2.share { b } else { a }) else { continue };
            let owners = owners(worst.2.together);
            match known.get(&owners).and_then(|at| groups.get_mut(*at)) {
                None => {
                    known.insert(owners, groups.len());
                    groups.push(Group { worst, owners: (one.owner, other.owner), count: 1 });
                }
                Some(group) => {
                    group.count = (group.count + 1).min(COUNT_MOST);
                    if worst.2.share < group.worst.2.share {
                        group.worst = worst;
                    }
                }
            }
        }
    }
    groups.into_iter().map(|group| finding(context, arrangement, &group)).collect()
}

fn finding(context: &Context<'_>, arrangement: &Arrangement, group: &Group<'_>) -> Finding {
    let (moved, open, short) = &group.worst;
    let (together, one) = (short.together, moved.owner == open.owner);
    let does = match short.quantity {
        Quantity::Angle => format!("opens {} of {} degrees", trimmed(short.reached, 1), trimmed(short.full, 1)),
        _ => format!("slides {} of {} mm", trimmed(short.reached, 1), trimmed(short.full, 1)),
    };
    let more = match group.count {
        1 => String::new(),
        2 => "; another pair of theirs meets, too".to_owned(),
        COUNT_MOST.. => format!("; at least {} more pairs of theirs meet, too", COUNT_MOST - 1),
        count => format!("; {} more pairs of theirs meet, too", count - 1),
    };
    let why = if together { ", which must open first" } else { "" };
    let message = format!("{} {does} while {} is open{why}{more}", moved.says, open.says);
    let severity = if together { Severity::Fault } else { Severity::Caution };
    let subject = if one { moved.owner.into() } else { Subject::pair(group.owners.0, group.owners.1) };
    let finding = Finding::new(NAME, severity, subject, message).asks(if together { "together" } else { "both" });
    let finding = finding.names("moved", &moved.says).names("open", &open.says);
    let mut finding = finding.figure("pairs", group.count as f64, Quantity::Count);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = Some(Measure { value: short.reached, quantity: short.quantity });
    finding.required = Some(match short.quantity {
        Quantity::Angle => context.limits.get("angle").at(short.needed),
        _ => Requirement::geometry(Least(short.needed), short.quantity),
    });
    finding.spans = [&moved.spans[..], &open.spans[..]].concat();
    finding.spans.dedup();
    finding.marks = [moved, open].map(|part| area(part.open.bounds().plan())).into();
    finding
}

#[cfg(test)]
mod tests;
