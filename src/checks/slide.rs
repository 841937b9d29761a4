//! How far each drawer and pull-out travels, and the room left to stand in front of it.
//!
//! # Computes
//! For each sliding move in every arrangement: the travel until its box meets a solid of another module, a cutaway, a
//! wall, the floor or the roof (the overlap of the swept box with each prism begins where the travel ends). And, when
//! it is open as far as it goes, the free distance in front of its face, over its width, from 230 mm above the floor (a
//! step is no obstacle) up to the tallest person's height, to the next solid or wall.
//!
//! A module that says `through:` an opening slides out through its clear hole. What is used from outside needs no room to stand
//! in the box.
//!
//! # Why
//! A drawer that stops short hides what is at its back; without room in front nobody can stand to use it.
//!
//! # Limit
//! Full travel (a caution below, a fault below half of it). `left`: 250 mm in front of the open drawer, a caution.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { slide: { left: 200, because: "..." } }`, or give the drawer less `travel` in the symbol.

use super::check::{Check, Context, page_of};
use super::words::{area, length};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity};
use crate::figures::around::around;
use crate::figures::ground::STEP;
use crate::figures::panel::clear;
use crate::figures::shell::wall_name;
use crate::figures::thing::Thing;
use crate::geometry::{Axis, Box3, Met, Travel, swept, travel};
use crate::model::{Arrangement, Module, Move, MoveKind, Slide as Sliding, Wall};

/// The check `slide`.
pub struct Slide;

const NAME: &str = "slide";
static LIMITS: [Limit; 1] = [Limit::practice("left", Least(250.0), Quantity::Length)];

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
                let (reached, thing) = place.go(&sliding.body, sliding.travel, &module.name);
                findings.extend(place.travel(&reached, thing.as_ref()));
                findings.extend(place.room(&reached));
            }
        }
        findings
    }
}

/// One sliding move in one arrangement.
struct Place<'a> {
    context: &'a Context<'a>,
    arrangement: &'a Arrangement,
    module: &'a Module,
    part: &'a Move,
    sliding: &'a Sliding,
}

impl Place<'_> {
    fn go(&self, body: &Box3, way: f64, without: &str) -> (Travel, Option<Thing>) {
        let (model, axis) = (self.context.model, self.sliding.axis);
        let near = around(model, self.arrangement, without, &swept(body, axis, way));
        let (things, prisms): (Vec<Thing>, Vec<_>) = near.into_iter().unzip();
        let reached = travel(body, axis, way, &self.inside(body), &model.space.roof, &prisms);
        let thing = reached.met.and_then(|met| self.thing(met, things, way));
        (reached, thing)
    }

    /// The box, up to any height, since the roof is looked at by itself; and beyond the wall of the opening that the module
    /// slides out through, where the body goes through the hole.
    fn inside(&self, body: &Box3) -> Box3 {
        let model = self.context.model;
        let mut room = Box3 { x: (0.0, model.space.length), y: (0.0, model.space.width), z: (0.0, f64::MAX) };
        let Some(opening) = self.module.through.and_then(|index| model.openings.get(index)) else { return room };
        let (axis, hole) = (opening.wall.across(), clear(opening));
        let (first, second) = axis.plane();
        let goes =
            |range: (f64, f64), low: f64, high: f64| range.0 >= low - SAME_LENGTH && range.1 <= high + SAME_LENGTH;
        let through = goes(body.range(first), hole.x0, hole.x1) && goes(body.range(second), hole.y0, hole.y1);
        if through && axis == self.sliding.axis {
            let (low, high) = room.range(axis);
            let up = matches!(opening.wall, Wall::Rear | Wall::Right);
            room = room.with(axis, if up { (low, f64::MAX) } else { (f64::MIN, high) });
        }
        room
    }

    fn thing(&self, met: Met, things: Vec<Thing>, way: f64) -> Option<Thing> {
        let shell = |wall| Some(Thing { says: wall_name(wall).to_owned(), module: None, span: None });
        match met {
            Met::Obstacle(index) => things.into_iter().nth(index),
            Met::Roof => shell(Wall::Roof),
            Met::Wall => shell(match (self.sliding.axis, way < 0.0) {
                (Axis::X, true) => Wall::Front,
                (Axis::X, false) => Wall::Rear,
                (Axis::Y, true) => Wall::Left,
                (Axis::Y, false) => Wall::Right,
                (Axis::Z, true) => Wall::Floor,
                (Axis::Z, false) => Wall::Roof,
            }),
        }
    }

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

    /// The room in front of the open drawer.
    fn room(&self, reached: &Travel) -> Option<Finding> {
        let (axis, required) = (self.sliding.axis, self.context.limits.get("left"));
        if axis == Axis::Z || self.module.used_outside {
            return None;
        }
        let (sign, left) = (self.sliding.travel.signum(), required.value());
        let open = self.sliding.body.moved(axis, reached.free * sign);
        let person = Box3 { z: (STEP, self.context.model.tallest().max(STEP)), ..open };
        let (room, thing) = self.go(&person, left * sign, &self.module.name);
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
