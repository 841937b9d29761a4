//! What is too high for the shortest person.
//!
//! # Computes
//! In every arrangement, above the floor of the box: for each door, flap, lid and drawer of a module the height at which
//! it is grasped when shut (the lower end of an upright leaf or of a drawer, the free edge of a flap or lid); the low face
//! of each storage space; the low edge of each solid tagged `handle` or `switch`; the top of each solid tagged `shelf`.
//! Each against the share `percent` of the stature of the shortest person. Of each module the highest is reported. How
//! far one must lean over a worktop is not deducted, and nobody stands on anything. Openings are not looked at.
//!
//! Of what is used from outside, heights are those over the ground.
//!
//! # Why
//! What the shortest person cannot reach stays shut, or is reached from the edge of a bench.
//!
//! # Limit
//! `percent` 120: 1.2 times the stature of the shortest person named (1,626 mm, the median woman of open survey data, if
//! nobody is). Above is a caution.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { reach: { percent: 125, because: "..." } }`, or accept it: `accepted: [{ check: reach, of: locker, because:
//! "the children need not reach it" }]`.

use super::check::{Check, Context, page_of};
use super::words::{area, length};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity};
use crate::geometry::Axis;
use crate::model::{Module, Move, MoveKind, Need, PoseState, Solid, Swing, Tag};
use crate::source::Span;
use kurbo::{Rect, Vec2};

/// The check `reach`.
pub struct Reach;

const NAME: &str = "reach";
static LIMITS: [Limit; 1] = [Limit::practice("percent", Most(120.0), Quantity::Count)];

impl Check for Reach {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "handles, switches and shelves within the shortest person's reach"
    }

    fn manual(&self) -> String {
        page_of(include_str!("reach.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for arrangement in context.arrangements() {
            for (module, state) in context.model.states(arrangement) {
                let ground = context.model.stood_on(module);
                let highest = things(state)
                    .map(|thing| Thing { z: thing.z - ground, ..thing })
                    .reduce(|best, next| if next.z > best.z + SAME_LENGTH { next } else { best });
                let Some(mut finding) = highest.map(|thing| look(context, module, &thing)) else { continue };
                finding.arrangements = vec![arrangement.name.clone()];
                findings.push(finding);
            }
        }
        but_the_highest_met(findings)
    }
}

/// All findings but those that are met, and of these the highest.
fn but_the_highest_met(findings: Vec<Finding>) -> Vec<Finding> {
    let (met, mut others): (Vec<Finding>, Vec<Finding>) =
        findings.into_iter().partition(|finding| finding.severity == Severity::Met);
    let height = |finding: &Finding| finding.measured.map_or(0.0, |measured| measured.value);
    others.extend(met.into_iter().reduce(|best, next| if height(&next) > height(&best) { next } else { best }));
    others
}

/// Something to be reached.
struct Thing {
    says: String,
    /// Height above the floor, mm.
    z: f64,
    plan: Rect,
    span: Span,
}

fn things(state: &PoseState) -> impl Iterator<Item = Thing> {
    let moves = state.moves.iter().map(grasped);
    let stores = state.spaces.iter().filter(|space| space.need == Need::Storage).map(|space| {
        let bounds = space.prism.bounds();
        let says = format!("the storage `{}`", space.name);
        Thing { says, z: bounds.z.0, plan: bounds.plan(), span: space.span }
    });
    moves.chain(stores).chain(state.solids.iter().filter_map(solid))
}

fn solid(solid: &Solid) -> Option<Thing> {
    let bounds = solid.prism.bounds();
    let reached = [Tag::Handle, Tag::Switch, Tag::Shelf];
    let tag = solid.tags.iter().find(|tag| reached.iter().any(|reached| *tag == reached))?;
    let z = if *tag == Tag::Shelf { bounds.z.1 } else { bounds.z.0 };
    Some(Thing { says: format!("the {tag} `{}`", solid.name), z, plan: bounds.plan(), span: solid.span })
}

fn grasped(part: &Move) -> Thing {
    let says = format!("`{}`", part.name);
    let (z, plan) = match &part.kind {
        MoveKind::Slide(slide) => (slide.body.z.0, slide.body.plan()),
        MoveKind::Swing(swing) => shut(swing),
    };
    Thing { says, z, plan, span: part.span }
}

/// Height at which a shut leaf is grasped, and where it is.
fn shut(swing: &Swing) -> (f64, Rect) {
    let free = swing.hinge + Vec2::from_angle(swing.shut.to_radians()) * swing.length;
    let across = Rect::from_points(swing.hinge, free);
    let (from, to) = swing.along;
    match swing.axis {
        Axis::Z => (from, across),
        Axis::X => (free.y, Rect::new(from, across.x0, to, across.x1)),
        Axis::Y => (free.y, Rect::new(across.x0, from, across.x1, to)),
    }
}

fn look(context: &Context<'_>, module: &Module, thing: &Thing) -> Finding {
    let (percent, shortest) = (context.limits.get("percent"), context.model.shortest());
    let reach = shortest * percent.value() / 100.0;
    let severity = if thing.z <= reach + SAME_LENGTH { Severity::Met } else { Severity::Caution };
    let message = format!(
        "{} of `{}` is {} above the {}, the shortest person, {} tall, reaches {}",
        thing.says,
        module.name,
        mm(thing.z),
        if module.used_outside { "ground" } else { "floor" },
        mm(shortest),
        mm(reach)
    );
    let mut finding = Finding::new(NAME, severity, &module.name, message).names("thing", &thing.says);
    finding.measured = length(thing.z);
    let source = format!("{} % of {}; {}", trimmed(percent.value(), 1), mm(shortest), percent.source);
    finding.required = Some(Requirement { source, ..percent.of(reach, Quantity::Length) });
    finding.spans = vec![module.place_span, thing.span];
    finding.marks = vec![area(thing.plan)];
    finding
}

#[cfg(test)]
mod tests;
