//! Doors, drawers and lids that cannot be open at the same time.
//!
//! # Computes
//! For each two moves in every arrangement, of modules and of leaves of openings that swing in: how far one opens while
//! the other stands open, a leaf by `angle`, a drawer all the way. The open leaf (length x thickness, over its height) or
//! drawer is an obstacle to the other's sweep, and the angle or the travel at which they meet is solved. The worse of both directions counts. Each pair of
//! modules makes one finding, about the worst pair of their moves.
//!
//! Two moves of one module only count where they must open together: where one, shut, stands in the way of the other, as
//! a door before a drawer. Left out between modules are fronts that stand side by side in one plane and open the same
//! way, since their hinges and runners decide about them, and lids, which are let fall.
//!
//! # Why
//! Two doors that meet across the aisle jam, and the second one cannot be used until somebody walks back to the first.
//!
//! # Limit
//! `angle` 85 degrees for leaves (or the leaf's own `opens`, where that is less), full travel for what slides. Less is a
//! caution between two modules, and a fault on one module.
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

/// The worst clash of two owners, and how many they have.
struct Group<'a> {
    /// What moves, what is open, and how far the first goes.
    worst: (&'a Moving<'a>, &'a Moving<'a>, Short),
    /// In the order of the file.
    owners: (&'a str, &'a str),
    count: usize,
}

fn in_one(context: &Context<'_>, arrangement: &Arrangement) -> Vec<Finding> {
    let least = context.limits.value("angle");
    let moves = Moving::all(context.model, arrangement, least);
    let mut groups: Vec<Group<'_>> = Vec::new();
    for (at, one) in moves.iter().enumerate() {
        for other in moves.iter().skip(at + 1).filter(|other| common_bounds(&one.room, &other.room).is_some()) {
            let found = [(one, other), (other, one)].into_iter().filter_map(|(moved, open)| {
                let short = clash(moved, open, least)?;
                Some((moved, open, short))
            });
            let Some(worst) = found.reduce(|a, b| if b.2.share < a.2.share { b } else { a }) else { continue };
            let same = |group: &&mut Group<'_>| {
                group.owners == (one.owner, other.owner) || group.owners == (other.owner, one.owner)
            };
            match groups.iter_mut().find(same) {
                None => groups.push(Group { worst, owners: (one.owner, other.owner), count: 1 }),
                Some(group) => {
                    group.count += 1;
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
    let together = moved.owner == open.owner;
    let does = match short.quantity {
        Quantity::Angle => format!("opens {} of {} degrees", trimmed(short.reached, 1), trimmed(short.full, 1)),
        _ => format!("slides {} of {} mm", trimmed(short.reached, 1), trimmed(short.full, 1)),
    };
    let more = match group.count {
        1 => String::new(),
        2 => "; another pair of theirs meets, too".to_owned(),
        count => format!("; {} more pairs of theirs meet, too", count - 1),
    };
    let why = if together { ", which must open first" } else { "" };
    let message = format!("{} {does} while {} is open{why}{more}", moved.says, open.says);
    let (severity, subject) = if together {
        (Severity::Fault, moved.owner.into())
    } else {
        (Severity::Caution, Subject::pair(group.owners.0, group.owners.1))
    };
    let finding = Finding::new(NAME, severity, subject, message).names("moved", &moved.says).names("open", &open.says);
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
