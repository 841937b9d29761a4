//! How far each hinged leaf really opens.
//!
//! # Computes
//! For each hinged door, flap and lid of a module, and each leaf of an opening that swings in, in every arrangement:
//! the angle at which the turning leaf (length x thickness, over its height) first meets a solid of another module, a
//! cutaway, a wall, the floor or the roof. The hinge lies in the face that the leaf opens towards and 2 mm are taken
//! off the free edge as fitting gap. The angle is solved: every contact begins where a corner of the leaf crosses an
//! edge of the obstacle, `angle = direction of the crossing - direction of the corner`, or the other way round. Solids
//! of the leaf's own module are left out.
//!
//! # Why
//! A door that stops half open takes the passage away; a lid that meets a locker cannot be lifted.
//!
//! # Limit
//! `least`: 85 degrees, or the leaf's own `opens` where that is less. Less is a fault for doors that people walk
//! through, else a caution.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { swing: { least: 75, because: "..." } }`, or set the leaf's `opens` in the symbol.

use super::check::{Check, Context, page_of};
use super::words::with_tightest;
use crate::base::number::trimmed;
use crate::base::tolerance::LEAF_GAP;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Mark, Measure, Quantity, Severity};
use crate::figures::around::Hinged;
use crate::figures::thing::Thing;
use crate::geometry::{Axis, Leaf, Stop};
use crate::model::{Arrangement, Model};
use kurbo::{BezPath, PathEl};

/// The check `swing`.
pub struct Swing;

const NAME: &str = "swing";
static LIMITS: [Limit; 1] = [Limit::practice("least", Least(85.0), Quantity::Angle)];

impl Check for Swing {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "the angle to which each door, flap and lid opens before it meets something"
    }

    fn manual(&self) -> String {
        page_of(include_str!("swing.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let mut findings = Vec::new();
        for arrangement in context.arrangements() {
            let moves = model.moves(arrangement).filter_map(|(module, part)| Hinged::of_module(module, part));
            let openings = model.openings.iter().flat_map(|opening| Hinged::of_opening(model, opening));
            findings.extend(moves.chain(openings).map(|hinged| look(context, arrangement, &hinged)));
        }
        with_tightest(findings)
    }
}

fn look(context: &Context<'_>, arrangement: &Arrangement, hinged: &Hinged<'_>) -> Finding {
    let model = context.model;
    let stop = stop(model, arrangement, hinged);
    let opens = hinged.leaf.opens.abs();
    let angle = stop.as_ref().map_or(opens, |(stop, _)| stop.angle);
    let required = context.limits.get("least");
    let least = required.value().min(opens);
    let required = required.at(least);
    let says = format!("{} opens {}", hinged.says, degrees(angle));
    let mut finding = Finding::new(NAME, Severity::Met, hinged.owner, says);
    if let Some(part) = &hinged.part {
        finding = finding.of_part(part);
    }
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = Some(Measure { value: angle, quantity: Quantity::Angle });
    finding.spans.clone_from(&hinged.spans);
    let short = !required.holds(angle);
    finding.required = Some(required);
    let Some((stop, thing)) = stop.filter(|_| short) else { return finding };
    finding.severity = if hinged.walk_through { Severity::Fault } else { Severity::Caution };
    finding.message = format!("{} and then meets {}", finding.message, thing.says);
    finding = finding.names("meets", thing.says);
    finding.spans.extend(thing.span);
    finding.marks.push(leaf_mark(hinged, stop.angle));
    if hinged.axis == Axis::Z {
        finding.marks.push(Mark::At(stop.at));
    }
    finding
}

/// Where a leaf stops, with what it meets.
fn stop(model: &Model, arrangement: &Arrangement, hinged: &Hinged<'_>) -> Option<(Stop, Thing)> {
    let (things, polygons) = hinged.obstacles(model, arrangement);
    let leaf = Leaf { length: (hinged.leaf.length - LEAF_GAP).max(0.0), ..hinged.leaf };
    let stop = leaf.stop(&polygons)?;
    Some((stop, things.into_iter().nth(stop.obstacle)?))
}

fn degrees(angle: f64) -> String {
    format!("{} degrees", trimmed(angle, 1))
}

fn leaf_mark(hinged: &Hinged<'_>, angle: f64) -> Mark {
    let outline = hinged.plan(angle);
    let mut corners = outline.points().iter();
    let start = corners.next().map(|point| PathEl::MoveTo(*point));
    let rest = corners.map(|point| PathEl::LineTo(*point));
    Mark::Area(start.into_iter().chain(rest).chain([PathEl::ClosePath]).collect::<BezPath>())
}

#[cfg(test)]
mod tests;
