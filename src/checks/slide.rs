//! How far each drawer and pull-out travels, and the room left to stand in front of it.
//!
//! # Computes
//! For each sliding move in every arrangement: the travel until its box meets a solid of another module, or one of its own
//! that it does not lie in when it is shut, as a post before it (but for the door that it opens `after`); a cutaway, a wall, the floor or the roof (the overlap of the
//! swept box with each prism begins where the travel ends). When it is open as far as it goes: the free distance in front of
//! its face, over its width, from 230 mm above the floor (a step is no obstacle) up to the tallest person's height, to the
//! next solid or wall; what goes out `through` an opening is used from outside, and that room is not looked at. And the height of the roof lining over so much of that as the limit `left` asks.
//!
//! A module that says `through:` an opening slides out through its clear hole. What is used from outside needs no room to stand
//! in the box.
//!
//! # Why
//! A drawer that stops short hides what is at its back; without room in front nobody can stand to use it.
//!
//! # Limit
//! Full travel (a caution below, a fault below half of it). `left`: 250 mm in front of the open drawer, a caution. `stoop`: 82 %
//! of the tallest person's stature above the floor there, a caution: who pulls a drawer stoops, but no deeper than to the shoulders.
//!
//! # Source
//! Common practice, no source. Height of the shoulders: 82 % of the stature (ANSUR II, computed).
//!
//! # Change it
//! `limits: { slide: { left: 200, because: "..." } }`, or `stoop`; or give the drawer less `travel` in the symbol.

mod place;

use super::check::{Check, Context, page_of};
use super::words::{area, length};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity};
use crate::figures::ground::STEP;
use crate::figures::shell::wall_name;
use crate::figures::thing::Thing;
use crate::geometry::{Axis, Box3, Travel, swept};
use crate::model::{MoveKind, Wall};
use place::{Place, sky};

/// The check `slide`.
pub struct Slide;

const NAME: &str = "slide";
static LIMITS: [Limit; 2] =
    [Limit::practice("left", Least(250.0), Quantity::Length), Limit::practice("stoop", Least(82.0), Quantity::Percent)];

impl Check for Slide {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "the travel of each drawer, and the room left to stand in front of it"
    }

    fn manual(&self) -> String {
        page_of(include_str!("slide.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for arrangement in context.arrangements() {
            for (module, part) in context.model.moves(arrangement) {
                let MoveKind::Slide(sliding) = &part.kind else { continue };
                let place = Place { context, arrangement, module, part, sliding };
                let (reached, thing) = place.go(&sliding.body, sliding.travel, &context.model.space.roof, &place.own());
                findings.extend(place.travel(&reached, thing.as_ref()));
                findings.extend(place.room(&reached));
                findings.extend(place.height(&reached));
            }
        }
        findings
    }
}

impl Place<'_> {
    fn finding(&self, (asks, severity): (&'static str, Severity), message: String, far: f64, thing: &Thing) -> Finding {
        let finding = Finding::new(NAME, severity, &self.module.name, message).of_part(&self.part.name);
        let mut finding = finding.asks(asks).names("meets", &thing.says);
        finding.arrangements = vec![self.arrangement.name.clone()];
        finding.measured = length(far);
        finding.spans = vec![self.module.place_span, self.part.span];
        finding
    }

    /// Whether it travels all the way.
    fn travel(&self, reached: &Travel, thing: Option<&Thing>) -> Option<Finding> {
        let (thing, full) = (thing?, self.sliding.travel.abs());
        let severity = if reached.free < full / 2.0 { Severity::Fault } else { Severity::Caution };
        let (name, owner, free) = (&self.part.name, &self.module.name, mm(reached.free));
        let message = format!("`{name}` of `{owner}` slides {free} of {} and then meets {}", mm(full), thing.says);
        let mut finding = self.finding(("travel", severity), message, reached.free, thing);
        finding.required = Some(Requirement::geometry(Least(full), Quantity::Length));
        finding.spans.extend(thing.span);
        finding.marks = vec![area(swept(&self.sliding.body, self.sliding.axis, self.sliding.travel).plan())];
        Some(finding)
    }

    /// The height of the roof over who stands in front of the open drawer.
    fn height(&self, reached: &Travel) -> Option<Finding> {
        let (axis, model) = (self.sliding.axis, self.context.model);
        let sign = self.sliding.travel.signum();
        let open = self.sliding.body.moved(axis, reached.free * sign);
        let stand = swept(&open, axis, self.context.limits.value("left") * sign);
        let (low, high) = (stand.y.0.max(0.0), stand.y.1.min(model.space.width));
        let limit = self.context.limits.get("stoop");
        let required = limit.clone().of(model.tallest() * limit.value() / 100.0, Quantity::Length);
        let height = model.space.roof.least_over(low, high).0;
        if axis == Axis::Z || self.goes_out() || low >= high || required.holds(height) {
            return None;
        }
        let (name, owner, needed) = (&self.part.name, &self.module.name, mm(required.value()));
        let over = format!("the roof is {} high where one stands at the open `{name}` of `{owner}`", mm(height));
        let message = format!("{over}, {needed} is needed to stoop");
        let roof = Thing::of_shell(wall_name(Wall::Roof));
        let mut finding = self.finding(("stoop", Severity::Caution), message, height, &roof);
        finding.required = Some(required);
        finding.marks = vec![area(stand.plan())];
        Some(finding)
    }

    /// The room in front of the open drawer.
    fn room(&self, reached: &Travel) -> Option<Finding> {
        let (axis, required) = (self.sliding.axis, self.context.limits.get("left"));
        if axis == Axis::Z || self.goes_out() {
            return None;
        }
        let (sign, left) = (self.sliding.travel.signum(), required.value());
        let open = self.sliding.body.moved(axis, reached.free * sign);
        let person = Box3 { z: (STEP, self.context.model.tallest().max(STEP)), ..open };
        let (room, thing) = self.go(&person, left * sign, &sky(), &[]);
        let thing = thing.filter(|_| room.free < left - SAME_LENGTH)?;
        let (name, owner) = (&self.part.name, &self.module.name);
        let message =
            format!("{} are left to stand between the open `{name}` of `{owner}` and {}", mm(room.free), thing.says);
        let mut finding = self.finding(("left", Severity::Caution), message, room.free, &thing);
        finding.required = Some(required);
        finding.spans.extend(thing.span);
        finding.marks = vec![area(swept(&open, axis, left * sign).plan())];
        Some(finding)
    }
}

#[cfg(test)]
mod tests;
